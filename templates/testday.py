"""The sheet for a test day: today's people and today's tests, for the gym's shared computer. Nobody's history is in it."""

from builder import Book
from day_tests import make_day
from how_to_test import make_how
from office import save

ROWS = 400


def lay_out(book):
    book.day = book.sheet("Test day")
    book.how = book.sheet("How to test")
    make_day(book.day, "Test day",
             "Type what the monitor showed, or the reps you did, in your row. Cells that a test does not need are grey.", ROWS)
    make_how(book.how)


def make(office, folder, language):
    book = Book(office, language)
    book.make(lay_out)
    book.finish("Test day")
    save(book.document, folder / "testday.ots")
    book.document.close(True)
    return book.texts
