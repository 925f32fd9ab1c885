"""The sheet Wall: four pages that hang where people work: goals, clocks by round and station on two, calories against time.

Digits are 8 mm high, read at three metres. What is shown is chosen beside the pages, which do not print there.
"""

from builder import address, column, pc


GOALS, CLOCKED, CALORIES = 9, 9, 9  # rows of the tables
RATES = 8
COLUMNS, WIDEST = 9, 10  # of a page, and of that of the goals with six divisions
FIRST_RATE = 4
ASIDE = column(WIDEST)


def head(sheet, row, title, heading="=event_heading"):
    """Two lines: what the page says, and which workout it belongs to."""
    sheet.put(f"A{row}", title, "wall title")
    sheet.put(f"A{row + 1}", heading, "wall stamp")
    sheet.heights(row, row, 17)
    sheet.heights(row + 1, row + 1, 8)


def table(sheet, row, formula, rows, columns):
    """Headings in a row, the table below. columns: the first and the last cell of each; formula gives that of a column from
    1, the same in every row, from the row's number; 0 for the headings."""
    for r in range(rows + 1):
        for c, (first, last) in enumerate(columns):
            style = "wall head" if r == 0 else "wall goal" if c == 0 else "wall value"
            put = sheet.put if first == last else sheet.merged
            cells = address(first, row + r - 1) if first == last else f"{address(first, row + r - 1)}:{address(last, row + r - 1)}"
            put(cells, formula(f"ROW()-ROW($A${row})", c + 1), style)
    sheet.heights(row, row, 20)
    sheet.heights(row + 1, row + rows, 14)
    for first, last in columns:
        letter, end = column(first), column(last)
        for top, bottom in ((row, row), (row + 1, row + rows)):
            sheet.mark(f"{letter}{top}:{end}{bottom}", (f'${letter}{top}=""', "blank cell"))


def choice(book, row, label, style, value, *rule):
    """A cell beside the pages: what they show."""
    sheet = book.wall
    put = sheet.put if label.startswith("=") else sheet.text
    put(f"{ASIDE}{row}", label, "head")
    sheet.put(f"{ASIDE}{row + 1}", value, style)
    if rule:
        getattr(sheet, rule[0])(f"{ASIDE}{row + 1}", *rule[1:])
    return f"${ASIDE}${row + 1}"


def make(book):
    sheet, _ = book.wall, book.texts
    page_rows = GOALS + 5
    sheet.widths("A", 33, *[29.95] * (WIDEST - 1), 44)
    rows = [1 + page * page_rows for page in range(4)]

    head(sheet, rows[0], "=event_title")
    table(sheet, rows[0] + 2, lambda r, c: "=" + pc("WORKOUT.TABLE", "workout", "", "", "", r, c), GOALS,
          [(0, 0), (1, 1), (2, 3), *[(c, c) for c in range(FIRST_RATE, WIDEST)]])
    under = rows[0] + GOALS + 3
    sheet.merged(f"A{under}:{address(FIRST_RATE, under - 1)}", "=" + pc("WORKOUT.TABLE", "workout", "", "", "", -1), "wall note")
    sheet.heights(under, under, 12)

    goals = rows[0] + 2  # headings and below
    goal, division = (f"${ASIDE}${rows[1] + row}" for row in (1, 4))
    named = f"IF({division}=\"\";INDEX(list_divisions;1);{division})"
    clocks = lambda goal, r, c, page: "=" + pc("WORKOUT.CLOCKS", "workout", goal, division, r, c, f"$A${goals + 1}:$A${goals + GOALS}", page)
    choice(book, rows[1], clocks("", -1, 2, 1), "input score", clocks("", -1, 3, 1))
    sheet.mark(f"{ASIDE}{rows[1] + 1}", (f'{ASIDE}{rows[1]}=""', "blank cell"))  # of no use to this workout
    sheet.put(f"{ASIDE}{rows[1] + 2}", clocks(goal, -1, 4, 1), "problem")
    choice(book, rows[1] + 3, "Division shown", "input", "=INDEX(list_divisions;1)", "choose", "list_divisions",
           "Choose a division; they are named on the sheet Workout.")
    for page, top in enumerate(rows[1:3], 1):
        head(sheet, top, clocks(goal, -1, 1, page), f'=IF(A{top}="";"";event_heading&" · "&{named})')
        table(sheet, top + 2, lambda r, c: clocks(goal, r, "COLUMN()", page), CLOCKED, [(c, c) for c in range(COLUMNS)])

    asked = choice(book, rows[3], "Calories against time", "input center", None, "choose", "list_yes", "Choose yes for a page of calories and times; otherwise leave empty.")
    lowest = choice(book, rows[3] + 3, "Rates from, cal/h", "input number", 400, "limit", 100, 5000, "Enter calories per hour, such as 400.")
    step = choice(book, rows[3] + 5, "Step", "input number", 100, "limit", 1, 1000, "Enter calories per hour, such as 100.")
    first = choice(book, rows[3] + 7, "Calories from", "input number", 8, "limit", 1, 500, "Enter calories, such as 8.")
    more = choice(book, rows[3] + 9, "Step, calories", "input number", 2, "limit", 1, 100, "Enter calories, such as 2.")
    shown = lambda value: f'=IF({asked}="";"";{value})'
    head(sheet, rows[3], shown(_.lit("Time on the ergometer")), shown("event_heading"))
    top = rows[3] + 2
    sheet.put(f"A{top}", shown(_.lit("Calories")), "wall head")
    for rate in range(RATES):
        sheet.put(f"{column(1 + rate)}{top}", shown(_.say("{rate} cal/h", rate=f"({lowest}+{rate}*{step})")), "wall head")
    for line in range(CALORIES):
        row = top + 1 + line
        sheet.put(f"A{row}", shown(f"{first}+{line}*{more}"), "wall goal")
        for rate in range(RATES):
            sheet.put(f"{column(1 + rate)}{row}", shown(pc("ERG.TIME", f"$A{row}", f"{lowest}+{rate}*{step}")), "wall time")
    sheet.heights(top, top, 20)
    sheet.heights(top + 1, top + CALORIES, 14)
    last = column(RATES)
    for first, cells in ((f"A{top}", f"A{top}:{last}{top}"), (f"A{top + 1}", f"A{top + 1}:A{top + CALORIES}"),
                         (f"B{top + 1}", f"B{top + 1}:{last}{top + CALORIES}")):
        sheet.mark(cells, (f'{first}=""', "blank cell"))
    sheet.break_before(*rows[1:])
    sheet.name("wall_page", f"A1:{column(WIDEST - 1)}{rows[3] + page_rows - 1}")
    # two pages; the others where there is something on them, by the commands that print
    sheet.page(f"A1:{column(COLUMNS - 1)}{rows[2] - 1}", landscape=True, wide=1, tall=2)


