"""The sheet Tests: one row per person, found by name; only the machines and movements of this workout. Hidden while empty."""

from builder import address

from event.sizes import DAY, MACHINE_NAMES, MACHINES, MOVEMENTS, TESTED, UNDER_FOUR_HOURS, top

KEYS, HEAD, FIRST = 5, 6, 7
LAST = FIRST + TESTED - 1

MACHINE = (  # key, heading, style, width, rule
    ("critical", "Critical power, W", "input number", 18, ("limit", 20, 900, "Enter watts: the critical power on this machine, such as 210.")),
    ("reserve", "Reserve, J", "input number", 18, ("limit", 500, 80000, "Enter joules: the reserve above critical power, such as 15000.")),
    ("date", "Date", "input date", 24, ("limit", *DAY, "Enter the date of the test.")),
    ("time", "Single test: time", "input time", 16, ("clock", 20 / 86400, UNDER_FOUR_HOURS[1], "Enter minutes and seconds such as 5:00.")),
    ("calories", "Single test: calories", "input number", 18, ("limit", 1, 2000, "Enter the calories that the monitor showed at the end.")),
)
PAST = (
    ("factor", "Past results: factor", "input share", 20, ("limit", 0.8, 1.2, "Enter what past results say, such as 97%.")),
    ("factor_sd", "How sure: ±", "input share", 18, ("limit", 0, 1, "Enter a percentage, such as 4%.")),
    ("result.calh", "Past result: cal/h held", "input number", 20, ("limit", 301, 5000, "Enter cal/h, such as 820.")),
    ("result.time", "Past result: length", "input time", 18, ("limit", 20 / 86400, UNDER_FOUR_HOURS[1], "Enter minutes and seconds such as 17:00.")),
    ("result.share", "Past result: share of the watts alone", "input share", 24, ("limit", 0.1, 1, "Enter a percentage, such as 80%.")),
    ("result.sd", "How sure: ±", "input share", 18, ("limit", 0, 1, "Enter a percentage, such as 4%.")),
)
SETS = (
    ("longest", "Longest unbroken set", "input number", 20, ("limit", 1, 999, "Enter the longest unbroken set at the workout's load.")),
    ("max", "One-rep max (1RM), kg", "input number", 22, ("limit", 1, 999, "Enter kilograms.")),
    ("rep_s", "Own seconds per rep", "input number", 20, ("limit", 0.17, 600, "Enter seconds as a plain number, such as 2.5.")),
    ("recovery", "Own recovery", "input number", 20, ("limit", 0.3, 3, "Enter a factor around 1.")),
)


def make(book):
    sheet = book.tests
    top(sheet, "Tests")
    sheet.text("B4", "One row per person, named as on the roster. A test speaks for its own machine only. New event takes them from the logbook; or type them.", "note line")
    sheet.put(f"A{KEYS}", "name", "working")
    sheet.text(f"A{HEAD}", "Name", "column head")
    sheet.styled(f"A{FIRST}:A{LAST}", "input text")
    sheet.name("tests_name", f"A{FIRST}:A{LAST}")
    col, widths = 1, [42]
    for machine, title in zip(MACHINES, MACHINE_NAMES):
        columns = MACHINE[2:] if machine == "armbike" else MACHINE  # its calories follow no formula of power
        name = f"{sheet._(title)}: " if title else ""
        for step, part in enumerate(columns):
            make_column(sheet, col + step, f"{machine}.{part[0]}", name + sheet._(part[1]), part, widths)
        sheet.name(f"tests_{machine}", f"{address(col, FIRST - 1)}:{address(col + len(columns) - 1, LAST - 1)}")
        col += len(columns)
    for part in PAST:
        make_column(sheet, col, part[0], sheet._(part[1]), part, widths)
        col += 1
    first = col
    for _movement in range(MOVEMENTS):
        # the movement's name is over each of its columns, typed over the first; the headings are above it
        for step, part in enumerate(SETS):
            make_column(sheet, col + step, part[0], f'={address(col, HEAD - 1)}&""' if step else None, part, widths)
            sheet.text(address(col + step, 3), part[1], "column head")
        sheet.styled(address(col, HEAD - 1), "input head")
        sheet.choose(address(col, HEAD - 1), "list_stations", "Choose a movement of the sheet Workout.")
        col += len(SETS)
    sheet.name("tests_movements", f"{address(first, HEAD - 1)}:{address(col - 1, HEAD - 1)}")
    sheet.name("tests_sets", f"{address(first, FIRST - 1)}:{address(col - 1, LAST - 1)}")
    sheet.name("tests", f"A{KEYS}:{address(col - 1, LAST - 1)}")
    sheet.widths("A", *widths)
    sheet.heights(4, 4, 10)
    sheet.heights(HEAD, HEAD, 13)
    sheet.hide_rows(KEYS, KEYS)
    sheet.freeze(f"B{FIRST}")
    sheet.page(f"A1:{address(col - 1, LAST - 1)}", landscape=True, repeat=(1, HEAD), repeat_columns=("A", "A"), wide=0, scale=90)
    sheet.sheet.IsVisible = False


def make_column(sheet, col, key, heading, part, widths):
    _key, _label, style, width, rule = part
    cells = f"{address(col, FIRST - 1)}:{address(col, LAST - 1)}"
    sheet.put(address(col, KEYS - 1), key, "working")
    sheet.put(address(col, HEAD - 1), heading, "column head")
    sheet.styled(cells, style)
    getattr(sheet, rule[0])(cells, *rule[1:])
    widths.append(width)
