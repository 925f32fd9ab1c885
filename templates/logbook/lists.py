"""The hidden sheet: what a logbook is known by, and the words to choose from."""

from builder import address
from builder.words import words

from logbook.sizes import GROUPS, MACHINES, MOVEMENTS
from logbook.table import FIRST

LAYOUT = 1
MISSED = ("one place behind the last", "a fixed place", "nothing: it is left out")  # in the order of Missed in season.h
WORDS = ("plan", "answer", "yes", "format", "units")


def make(book):
    sheet = book.lists
    for col, value in enumerate(("pacecells.logbook", LAYOUT, book.texts.language)):
        sheet.put(address(col, 0), value, "working")
    sheet.name("logbook", "A1:C1")
    for col, key in enumerate(WORDS):
        make_list(sheet, col, f"list_{key}", words(key, book.texts.language))
    make_list(sheet, len(WORDS), "list_groups", GROUPS)
    make_list(sheet, len(WORDS) + 1, "list_missed", [book.texts(rule) for rule in MISSED])
    # all that can be tested, from two sheets
    what = len(WORDS) + 2
    last = 3 + len(MACHINES) + MOVEMENTS - 1
    sheet.down(address(what, 2), f"=$'{book.machines.title}'.$A{FIRST}&\"\"", len(MACHINES), "working")
    sheet.down(address(what, 2 + len(MACHINES)), f"=$'{book.movements.title}'.$A{FIRST}&\"\"", MOVEMENTS, "working")
    sheet.name("list_what", f"{address(what, 2)}:{address(what, last - 1)}")


def make_list(sheet, col, name, values):
    for row, value in enumerate(values, 2):
        sheet.put(address(col, row), value, "working")
    sheet.name(name, f"{address(col, 2)}:{address(col, 1 + len(values))}")
