"""The event workbook: eight sheets, one module each, and a hidden sheet of lists. Everything that is calculated comes from
the cell functions; a formula here only says which cells they read."""

from builder import Book
from office import save

from event import cards, heats, lists, results, review, roster, tests, wall, workout


def lay_out(book):
    for key, title in (("workout", "Workout"), ("roster", "Roster"), ("tests", "Tests"), ("wall", "Wall"), ("cards", "Cards"), ("heats", "Heats"),
                       ("results", "Results"), ("review", "Review"), ("lists", "Lists")):
        setattr(book, key, book.sheet(title))
    lists.make(book)
    for part in (workout, roster, tests, wall, cards, heats, results, review):
        part.make(book)
    lists.make_day(book)
    book.lists.sheet.IsVisible = False
    for sheet in (book.tests, book.review, book.lists):
        sheet.print_area(None)  # what is out of sight does not print


def make(office, folder, language):
    book = Book(office, language)
    book.make(lay_out)
    book.finish("Event")
    save(book.document, folder / "event.ots")
    book.document.close(True)
    return book.texts
