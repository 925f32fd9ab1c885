"""The logbook: what a gym keeps from event to event. One module a sheet; each sheet is one table, found by name and read by
the keys in its hidden row. There are no formulas in it but those of the list of all that can be tested: the commands read
the tables, and the model draws the conclusions."""

from builder import Book
from office import save

from logbook import events, lists, machines, movements, people, results, season, tests

PARTS = (("people", "People", people), ("tests", "Tests", tests), ("movements", "Movements", movements),
         ("machines", "Machines", machines), ("events", "Events", events), ("results", "Results", results),
         ("season", "Season", season))


def lay_out(book):
    for key, title, _part in PARTS:
        setattr(book, key, book.sheet(title))
    book.lists = book.sheet("Lists")
    lists.make(book)
    for _key, _title, part in PARTS:
        part.make(book)
    for sheet in book.sheets:
        sheet.open = True  # a logbook is sorted, and rows are deleted
    book.lists.sheet.IsVisible = False
    book.lists.print_area(None)


def make(office, folder, language):
    book = Book(office, language)
    book.make(lay_out)
    book.finish("Logbook")
    save(book.document, folder / "logbook.ots")
    book.document.close(True)
    return book.texts
