"""A tests workbook as earlier versions made it, with the cells that commands read: what was typed, sheet Tests, and what it
came to, sheet Summary, here as values."""

ROWS, MOVEMENTS = 4, 10
HEADERS = {"row": (1000, 2000, 50, 600 / 86400, 180 / 86400), "ski": (1000, 2000, 50, 600 / 86400, 180 / 86400),
           "bike": (2000, 4000, 50, 600 / 86400, 180 / 86400), "armbike": (50, 600 / 86400)}
MOVEMENT_NAMES = ("Hanging leg raise", "Single-arm hang to overhead", "Pull-up", "Push-up", "Burpee", "Box step-over",
                  "Deadlift", "Clean and jerk", "Front squat", "Overhead squat")


def tests_workbook(office):
    """An empty one."""
    from com.sun.star.table import CellAddress
    book = office.new()
    book.Sheets[0].Name = "Tests"
    book.Sheets.insertNewByName("Summary", 1)
    at = {"Tests": 0, "Summary": 0}

    def name(sheet, key, width, rows=ROWS):
        cells = book.Sheets[sheet].getCellRangeByPosition(at[sheet], 10, at[sheet] + width - 1, 9 + rows)
        book.NamedRanges.addNewByName(key, cells.AbsoluteName, CellAddress(), 0)
        at[sheet] += width
        return cells

    name("Tests", "athlete_name", 1)
    for machine, heads in HEADERS.items():
        name("Tests", f"athlete_{machine}", len(heads))
        name("Tests", f"athlete_{machine}_date", 1)
        name("Tests", f"header_{machine}", len(heads), 1).setDataArray((heads,))
    head = name("Tests", "athlete_movements", 4 * MOVEMENTS, 1)
    name("Tests", "athlete_sets", 4 * MOVEMENTS)
    name("Tests", "athlete_sets_date", 1)
    name("Summary", "tests_name", 1)
    for machine in HEADERS:
        name("Summary", f"tests_{machine}", 6)
    taken = name("Summary", "tests_movements", 3 * MOVEMENTS, 1)
    name("Summary", "tests_sets", 3 * MOVEMENTS)
    name("Summary", "tests_note", 1)
    for k, movement in enumerate(MOVEMENT_NAMES):
        head.getCellByPosition(4 * k, 0).String = taken.getCellByPosition(3 * k, 0).String = movement
    return book
