"""The hidden sheet: the words to choose from, and the few cells that other sheets read."""

from builder import address, fixed, pc, quoted
from builder.words import LISTS, words


UNITS_OF = ((2, 6), (3, 7), (4, 8), (5,))  # places in list_units of what is done on a rower, ski, bike and fan bike
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
    book.usual = f"$'{sheet.title}'.{fixed(usual)}"


def usual(book, key, *names):
    """The usual value of the first of these names that the list has; empty text where there is none."""
    found = '""'
    for name in reversed(names):
        value = f"VLOOKUP({name};{book.usual};{USUAL.index(key) + 1};0)"
        found = f"IFERROR({f'T({value})' if key == 'grip' else f'1/(1/{value})'};{found})"
    return "=" + found


COUNTED = "$A$12"


def machine_count(book):
    """How many of the machines there are that the workout uses; of two kinds the fewer; 0 where it uses none."""
    return f"$'{book.lists.title}'.{COUNTED}"


def make_day(book):
    """How many start together and how often, from the sheet Workout."""
    sheet, cells = book.lists, book.settings
    of = lambda key: f"$'{book.workout.title}'.{cells[key]}"
    sheet.put("A3", f"=IFERROR(MATCH({of('format')};list_format;0);0)", "working")
    sheet.name("event_kind", "A3")
    units, first = of("stations.unit"), len(UNITS_OF)
    for row, units_of in enumerate(UNITS_OF, 5):
        used = "+".join(f"COUNTIF({units};INDEX(list_units;{unit}))" for unit in units_of)
        # what a machine allows: as many people as there are, where the workout uses it
        sheet.put(f"B{row + 20}", f"={used}", "working")
        sheet.put(f"A{row + 20}", f"=INDEX({of('machines.count')};{row - 4})", "working")
        sheet.put(f"A{row}", f"=IF(AND(B{row + 20}>0;A{row + 20}>0);A{row + 20};999)", "working")
    sheet.put(COUNTED.replace("$", ""), f"=IF(MIN(A5:A{4 + first})=999;0;MIN(A5:A{4 + first}))", "working")
    sheet.put(f"A{5 + first}", f"=MAX(1;MIN(IF({COUNTED}=0;999;{COUNTED}*{book.heat_many});IF(N({of('places')})>0;{of('places')};999)))", "working")
    sheet.name("heat_lanes", f"A{5 + first}")
    sheet.put(f"A{6 + first}", f"=N({of('cap')})+N({of('changeover')})", "working")
    sheet.name("heat_every", f"A{6 + first}")
    for name, key in (("list_divisions", "divisions"), ("list_groups", "groups.name"), ("list_stations", "stations.movement")):
        book.name(name, book.workout, cells[key].replace("$", ""))
