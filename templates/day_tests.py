"""A table of tests to fill in, which goes into the logbook by a command: on the sheet for a test day and on a person's page.
Only what is typed is unlocked, and each cell takes only what can be meant."""

from builder import Column, address, pc, quoted

KEYS, HEAD, FIRST = 5, 6, 7  # rows, counted from 1
REPS = ("whole", 1, 999, "Enter the reps as a whole number.")


COLUMNS = (
    Column("name", "Name", 37, "cell text"),
    Column("what", "Machine or movement", 37, "cell text"),
    Column("time", "Time", 14, "input time", rule=("clock", 20 / 86400, 4 / 24 - 1e-9, "Enter minutes and seconds such as 5:00.")),
    Column("calories", "Calories", 16, "input number", rule=("limit", 1, 5000, "Enter the calories that the monitor showed at the end.")),
    Column("metres", "Metres", 15, "input number", rule=("limit", 50, 50000, "Enter metres, such as 2000.")),
    Column("watts", "Watts", 14, "input number", rule=("limit", 20, 1500, "Enter average watts, such as 210.")),
    Column("reps", "Reps in one set", 19, "input number", rule=REPS),
    Column("load", "Load, kg", 15, "input number", rule=("limit", 1, 999, "Enter kilograms.")),
    Column("second", "Second set, reps", 17, "input number", rule=REPS),
    Column("rest_s", "Rest before it, s", 18.5, "input number", rule=("limit", 1, 600, "Enter seconds as a plain number, such as 30.")),
    Column("damper", "Damper", 19, "input number", rule=("limit", 0, 20, "Enter the damper setting, such as 5.")),
)
MEANING = ("What it says", 79)  # heading and width, behind the columns and the machine's key


def make_day(sheet, title, line, rows, free=()):
    """The table day_tests with room for so many rows; columns of `free` may be typed as well. day_date is the day of the tests;
    day_mark says what the workbook is."""
    last = FIRST + rows - 1
    sheet.text("A1", title, "title")
    sheet.put("A2", None, "stamp")
    sheet.name("day_gym", "A2")
    sheet.text("A4", "Day of the tests", "label")
    sheet.put("B4", None, "input date")
    sheet.limit("B4", 36526, "TODAY()", "Enter a date that is not in the future.")
    sheet.name("day_date", "B4")
    for place, col in enumerate(COLUMNS):
        letter = address(place, 0)[:-1]
        cells = f"{letter}{FIRST}:{letter}{last}"
        sheet.put(f"{letter}{KEYS}", col.key, "working")
        sheet.text(f"{letter}{HEAD}", col.label, "column head")
        sheet.styled(cells, "input words" if col.key in free else col.style)
        col.limit(sheet, cells)
    key = len(COLUMNS)
    sheet.put(f"{address(key, 0)[:-1]}{KEYS}", "machine", "working")
    letter = {col.key: address(place, 0)[:-1] for place, col in enumerate(COLUMNS)} | {"machine": address(key, 0)[:-1]}
    row = lambda at: f"$A{at}:${letter['machine']}{at}"
    means = pc("TEST.MEANING", row(f"${KEYS}"), row(FIRST), quoted(sheet.book.texts.language))
    said = sheet.down(f"{address(key + 1, 0)[:-1]}{FIRST}", f"={means}", rows, "cell text")
    sheet.mark(said, (f'LEFT({address(key + 1, FIRST - 1)};1)="▲"', "mark text"))
    sheet.text(f"{address(key + 1, 0)[:-1]}{HEAD}", MEANING[0], "column head left")
    end = address(key + 1, 0)[:-1]
    sheet.name("day_tests", f"A{KEYS}:{letter['machine']}{last}")
    hidden = address(key + 2, 0)[:-1]
    sheet.put(f"{hidden}1", "pacecells.tests", "working")
    sheet.name("day_mark", f"{hidden}1")
    sheet.book.answers(sheet, "day_answers", f"{hidden}2")
    sheet.put("A3", "=" + sheet.book.unless_absent("day_answers", f"${hidden}$3"), "note line")
    sheet.text(f"{hidden}3", line, "working")
    sheet.mark("A3", (f"$A3<>${hidden}3", "problem line"))
    sheet.widths("A", *[col.width for col in COLUMNS], 5, MEANING[1])
    sheet.hide_columns(letter["machine"], letter["machine"])
    sheet.hide_columns(hidden, hidden)
    sheet.hide_rows(KEYS, KEYS)
    sheet.heights(1, 1, 11)
    sheet.heights(3, 3, 6)
    sheet.heights(4, 4, 7.5)
    sheet.heights(HEAD, HEAD, 13)
    sheet.heights(FIRST, last, 12)
    sheet.freeze(f"C{FIRST}")
    sheet.page(f"A1:{end}{last}", landscape=True, repeat=(1, HEAD))
