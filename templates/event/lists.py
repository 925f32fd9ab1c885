"""The hidden sheet: the words to choose from, and the few cells that other sheets read."""

from builder import address, fixed, pc, quoted
from builder.words import LISTS, words


MISSING = "Pacecells is missing in this office, so nothing is calculated. Install the extension and open the file again."
USUAL = ("name", "rep_s", "calh", "handling_s", "grip", "away_share", "longest")  # of movements and machines, from a logbook
USUAL_AT, USUAL_ROWS = len(LISTS) + 2, 212
NAMED = ("format", "when", "units", "plan", "answer", "yes")


def make(book):
    sheet, book.words = book.lists, {}
    # Without a style: where the extension is missing such a cell turns #NAME? on loading, styled ones keep their value.
    sheet["A1"].setFormula("=" + pc("CLOCK.VALUE", quoted("0:01")))
    sheet.text("A2", MISSING, "working")
    for col, key in enumerate(LISTS, 1):
        sheet.put(address(col, 0), key, "working head")
        choices = words(key, book.texts.language)
        for row, word in enumerate(choices, 1):
            sheet.put(address(col, row), word, "working")
        cells = f"{address(col, 1)}:{address(col, len(choices))}"
        if key in NAMED:
            sheet.name(f"list_{key}", cells)
        book.words[key] = f"list_{key}" if key in NAMED else f"$'{sheet.title}'.{fixed(cells)}"
    for step, key in enumerate(USUAL):
        sheet.put(address(USUAL_AT + step, 0), f"usual.{key}", "working head")
    usual = f"{address(USUAL_AT, 1)}:{address(USUAL_AT + len(USUAL) - 1, USUAL_ROWS)}"
    sheet.styled(usual, "input number")
    book.usual = f"$'{sheet.title}'.{fixed(f'{address(USUAL_AT, 0)}:{address(USUAL_AT + len(USUAL) - 1, USUAL_ROWS)}')}"


def usual(book, key, *names):
    """The usual value of the first of these names that the list has one for; empty text where there is none."""
    return "=" + pc("WORKOUT.USUAL", book.usual, quoted(f"usual.{key}"), *names)


def make_day(book):
    """The form of the workout, and lists that are on its sheet."""
    sheet, cells = book.lists, book.settings
    sheet.put("A3", f"=IFERROR(MATCH($'{book.workout.title}'.{cells['format']};list_format;0);0)", "working")
    sheet.name("event_kind", "A3")
    for name, key in (("list_divisions", "divisions"), ("list_groups", "groups.name"), ("list_stations", "stations.movement")):
        book.name(name, book.workout, cells[key].replace("$", ""))
