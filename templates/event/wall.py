"""The sheet Wall: three pages that hang where people work: goals, clocks by round and station, calories against time.

Digits are 8 mm high, read at three metres. What is shown is chosen beside the pages, which do not print there.
"""

from builder import address, column, pc


GOALS, CLOCKED, CALORIES = 9, 9, 9  # rows of the three tables
RATES = 8
COLUMNS = 9
FIRST_RATE = 4
NO_RATE = "– No rate on the ergometer is fast enough: the other stations leave too little time."
ASIDE = column(COLUMNS + 1)


def head(sheet, row, title, heading="=event_heading"):
    """Two lines: what the page says, and which workout it belongs to."""
    sheet.put(f"A{row}", title, "wall title")
    sheet.put(f"A{row + 1}", heading, "wall stamp")
    sheet.heights(row, row, 17)
    sheet.heights(row + 1, row + 1, 8)


def table(sheet, row, formula, rows, columns):
    """Headings in a row, the table below. columns: the first and the last cell of each; formula gives that of a row (0:
    headings) and a column from 1."""
    for r in range(rows + 1):
        for c, (first, last) in enumerate(columns):
            style = "wall head" if r == 0 else "wall goal" if c == 0 else "wall value"
            put = sheet.put if first == last else sheet.merged
            cells = address(first, row + r - 1) if first == last else f"{address(first, row + r - 1)}:{address(last, row + r - 1)}"
            put(cells, formula(r, c + 1), style)
    sheet.heights(row, row, 20)
    sheet.heights(row + 1, row + rows, 14)
    for first, last in columns:
        letter, end = column(first), column(last)
        for top, bottom in ((row, row), (row + 1, row + rows)):
            sheet.mark(f"{letter}{top}:{end}{bottom}", (f'${letter}{top}=""', "blank cell"))


def choice(book, row, label, style, value, *rule):
    """A cell beside the pages: what they show."""
    sheet = book.wall
    sheet.text(f"{ASIDE}{row}", label, "head")
    sheet.put(f"{ASIDE}{row + 1}", value, style)
    if rule:
        getattr(sheet, rule[0])(f"{ASIDE}{row + 1}", *rule[1:])
    return f"${ASIDE}${row + 1}"


def make(book):
    sheet, _ = book.wall, book.texts
    page_rows = GOALS + 5
    sheet.widths("A", 33, *[29.95] * (COLUMNS - 1), 8, 44)
    rows = [1, 1 + page_rows, 1 + 2 * page_rows]

    head(sheet, rows[0], "=event_title")
    table(sheet, rows[0] + 2, lambda r, c: "=" + pc("WORKOUT.TABLE", "workout", "", "", "", r, c), GOALS,
          [(0, 0), (1, 1), (2, 3), *[(c, c) for c in range(FIRST_RATE, COLUMNS)]])
    under = rows[0] + GOALS + 3
    rates = f"{address(FIRST_RATE, rows[0] + 2)}:{address(COLUMNS - 1, under - 2)}"
    sheet.merged(f"A{under}:{address(FIRST_RATE, under - 1)}", f'=IF(COUNTIF({rates};"–")=0;"";{_.lit(NO_RATE)})', "wall note")
    sheet.heights(under, under, 12)

    windows = f"$'{book.workout.title}'.{book.settings['windows']}"
    goals = rows[0] + 2  # headings and below
    once = f"${column(COLUMNS + 2)}${rows[1]}"  # out of sight: stations come once, so the page has all goals
    choose_goal = choice(book, rows[1], "Goal shown", "input score", f'=IF(event_kind=3;{windows};IF(A{goals + 2}="";A{goals + 1};A{goals + 2}))')
    sheet.mark(f"{ASIDE}{rows[1]}:{ASIDE}{rows[1] + 1}", (f'AND({once};ROW({ASIDE}{rows[1]})>0)', "blank cell"))
    division = choice(book, rows[1] + 3, "Division shown", "input", "=INDEX(list_divisions;1)", "choose", "list_divisions",
                      "Choose a division; they are named on the sheet Workout.")
    sheet.put(once.replace("$", ""), f'=AND(event_kind=2;{pc("WORKOUT.COUNT", "workout", division, 2)}="")', "working")
    sheet.hide_columns(column(COLUMNS + 2), column(COLUMNS + 2))
    head(sheet, rows[1], f'=IF(event_kind=3;{_.lit("Clock of every window")};IF({once};{_.lit("Clock after each station")};'
         + _.say("Clock for goal {goal}", goal=f'IF(event_kind=2;{pc("CLOCK.TEXT", choose_goal)};{choose_goal})') + "))", f'=event_heading&" · "&{division}')
    listed = f"A{goals + 1}:A{goals + GOALS}"
    table(sheet, rows[1] + 2, lambda r, c: "=" + pc("WORKOUT.CLOCKS", "workout", choose_goal, division, r, c, listed), CLOCKED,
          [(c, c) for c in range(COLUMNS)])

    asked = choice(book, rows[2], "Calories against time", "input center", None, "choose", "list_yes", "Choose yes for a page of calories and times; otherwise leave empty.")
    lowest = choice(book, rows[2] + 3, "Rates from, cal/h", "input number", 400, "limit", 100, 5000, "Enter calories per hour, such as 400.")
    step = choice(book, rows[2] + 5, "Step", "input number", 100, "limit", 1, 1000, "Enter calories per hour, such as 100.")
    first = choice(book, rows[2] + 7, "Calories from", "input number", 8, "limit", 1, 500, "Enter calories, such as 8.")
    more = choice(book, rows[2] + 9, "Step, calories", "input number", 2, "limit", 1, 100, "Enter calories, such as 2.")
    shown = lambda value: f'=IF({asked}="";"";{value})'
    head(sheet, rows[2], shown(_.lit("Time on the ergometer")), shown("event_heading"))
    top = rows[2] + 2
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
    sheet.name("wall_page", f"A1:{column(COLUMNS - 1)}{rows[2] + page_rows - 1}")
    # two pages; the third one where it is asked for, by the commands that print
    sheet.page(f"A1:{column(COLUMNS - 1)}{rows[2] - 1}", landscape=True, wide=1, tall=2)


