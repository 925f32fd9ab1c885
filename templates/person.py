"""The page of one person, a file of its own: tests, records, what to test next, what results taught; and a sheet to send new
tests back on. The command Person's page fills it and draws the curves."""

from builder import CAUTION, Book, address
from day_tests import make_day
from how_to_test import make_how
from office import save

SAID, TESTS, NEW = 4, 14, 12  # rows of sentences, of tests, of tests to send back
HEADS = (("Machine or movement", 46), ("Latest test", 34), ("Date", 24), ("Counts until", 24), ("Best", 34), ("Date", 24))
FIRST_SAID = 5
SECTION = FIRST_SAID + SAID + 1
HEAD = SECTION + 1
FIRST = HEAD + 1
CHART = FIRST + TESTS + 1
CHART_ROWS = 16
DATA = 9  # first column of what the chart draws, counted from 0


def lay_out(book):
    book.page = book.sheet("Page")
    book.news = book.sheet("New tests")
    book.how = book.sheet("How to test")
    make_page(book.page)
    make_day(book.news, "New tests", "Type new tests here and send the file back: the coach takes them into the logbook.",
             NEW, free=("what",))
    make_how(book.how)


def make_page(sheet):
    end = address(len(HEADS) - 1, 0)[:-1]
    sheet.widths("A", *[width for _head, width in HEADS])
    sheet.merged(f"A1:{end}1", None, "title")
    sheet.name("person_name", "A1")
    sheet.merged(f"A2:{end}2", None, "stamp")
    sheet.name("person_stamp", "A2")
    sheet.heights(1, 1, 12)
    sheet.text("A4", "Next, and what your results say", "section")
    sheet.styled(f"A4:{end}4", "section")
    for row in range(FIRST_SAID, FIRST_SAID + SAID):
        sheet.merged(f"A{row}:{end}{row}", None, "sentence")
        sheet.heights(row, row, 10)
    sheet.name("person_said", f"A{FIRST_SAID}:A{FIRST_SAID + SAID - 1}")
    sheet.text(f"A{SECTION}", "Tests and records", "section")
    sheet.styled(f"A{SECTION}:{end}{SECTION}", "section")
    for place, (head, _width) in enumerate(HEADS):
        sheet.text(address(place, HEAD - 1), head, "head left" if place == 0 else "head")
    sheet.heights(HEAD, HEAD, 7)
    last = FIRST + TESTS - 1
    for place, style in enumerate(("cell", "cell center", "cell date", "cell date", "cell strong", "cell date")):
        letter = address(place, 0)[:-1]
        sheet.styled(f"{letter}{FIRST}:{letter}{last}", style)
    sheet.heights(FIRST, last, 6.5)
    sheet.name("person_tests", f"A{FIRST}:{end}{last}")
    sheet.name("person_chart", f"A{CHART}:{end}{CHART + CHART_ROWS - 1}")
    sheet.name("person_data", f"{address(DATA, HEAD - 1)}:{address(DATA + 8, HEAD + 199)}")
    sheet.hide_columns(address(DATA, 0)[:-1], address(DATA + 8, 0)[:-1])
    bottom = CHART + CHART_ROWS
    sheet.merged(f"A{bottom}:{end}{bottom}", sheet._(CAUTION), "caution")
    sheet.heights(bottom, bottom, 14)
    sheet.page(f"A1:{end}{bottom}", tall=1, caution=False)


def make(office, folder, language):
    book = Book(office, language)
    book.make(lay_out)
    book.finish("Person's page")
    save(book.document, folder / "person.ots")
    book.document.close(True)
    return book.texts
