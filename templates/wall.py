"""The wall pace table: office staff choose what it says, and print one page.

Choices stand above the page on the same sheet, so that the page answers while they are made. Its table is one of three:
goals with their round times, the clock at the end of each round, or calories by cal/h.
"""

from builder import CAUTION, Book, address, column, day_text, pc
from builder.words import words
from office import save

ROWS, COLUMNS = 12, 7
PAGE = 11  # first row that prints
TABLE = PAGE + 4  # first row of the table
CHECKS = TABLE + ROWS + 1  # hidden: what keeps the table from working
PACE, CLOCKS, RATES = 11, 20, 29  # first columns of the three tables, hidden beside the page
KEYS, VALUE = "B", "C"  # columns of the block on the sheet of lists
MISSING = "Pacecells is missing in this office, so nothing is calculated. Install the extension and open the file again."
SECOND = 1 / 86400


def lay_out(book):
    book.wall = book.sheet("Wall table")
    book.help = book.sheet("How to use it")
    book.lists = book.sheet("Lists")
    make_lists(book)
    make_choices(book)
    make_page(book)
    make_help(book)
    book.lists.sheet.IsVisible = False
    for sheet in (book.help, book.lists):
        sheet.print_area(None)  # the page alone prints


def make(office, folder, language):
    book = Book(office, language)
    book.make(lay_out)
    book.finish("Wall pace table")
    save(book.document, folder / "wall.ots")
    book.document.close(True)
    return book.texts


def make_lists(book):
    sheet = book.lists
    for row, word in enumerate(("Pace table", "Clock table", "Ergometer table"), 1):
        sheet.put(f"A{row}", book.texts(word), "working")
    sheet.name("list_block", "A1:A3")
    make_workout(book, sheet)


def make_workout(book, sheet):
    """The choices as a workout of two stations, the ergometer and all else, for the functions to read. Goals end at the cap
    here, nobody walks, and parts of a round are parts of its time: what is typed is the whole of a round."""
    used = "AND(ISNUMBER(wall_calories);wall_calories>0)"
    rows = (("pacecells.workout", "value"), ("version", 1), ("language", book.texts.language), ("format", words("format", book.texts.language)[0]),
            ("cap", "=wall_cap"), ("fade", "=N(wall_fade)"), ("slip_s", 0), ("steps", 0),
            ("stations", "no", "movement", "unit", "when", "amount.1", "load.1"), ("divisions", "", "", "", "", "-"),
            ("station", 1, f'=IF({used};"cal";"")', f'=IF({used};"{words("units", book.texts.language)[1]}";"")', "", f'=IF({used};wall_calories;"")'),
            ("station", 2, "-", words("units", book.texts.language)[0], "", "=MAX(N(wall_other_s);1)"),
            ("paces", "no", "rep_s", "calh", "pace", "handling_s", "steps", "grip", "away_share", "longest", "counts"),
            ("pace", 1, "", 900, "", "", "", "", "", "", 0), ("pace", 2, 1, "", "", "", "", "", "", "", 0), ("end",))
    for line, cells in enumerate(rows, 1):
        for step, value in enumerate(cells):
            if value != "":
                sheet.put(address(1 + step, line - 1), value, "working")
    sheet.name("workout", f"B1:L{len(rows)}")


def make_choices(book):
    sheet, _ = book.wall, book.texts
    sheet.widths("A", 38, *[43.5] * (COLUMNS - 2), 50)
    sheet.text("A1", "Choose here; the page below updates and prints on one sheet", "section")
    sheet.styled("A1:G1", "section")
    left = (("Gym", "wall_gym", "input text", _("Our gym")), ("Title", "wall_title", "input text", _("Rounds in 20 minutes")),
            ("Table shown", "wall_block", "input", _("Pace table")), ("Date", "wall_date", "input date", "=TODAY()"),
            ("Version", "wall_version", "input number", 1), ("Announced at", "wall_issued", "input clock", 21 / 24))
    middle = (("Cap", "wall_cap", "input time", 1200 * SECOND), ("Lowest goal, rounds", "wall_from", "input number", 6),
              ("Highest goal, rounds", "wall_to", "input number", 11), ("Goal step", "wall_step", "input number", 0.5),
              ("Fade from start to end, %", "wall_fade", "input share", 0),
              ("Calories at the ergometer, each round", "wall_calories", "input number", 15))
    right = (("Everything else per round, s", "wall_other_s", "input number", 75),
             ("Flag above, cal/h", "wall_limit", "input number", 1500),
             ("Rates from, cal/h", "wall_rate_from", "input number", 600),
             ("Rate step", "wall_rate_step", "input number", 150),
             ("Calories from", "wall_calories_from", "input number", 5),
             ("Calorie step", "wall_calories_step", "input number", 1))
    for labels, cells, rows in (("A", "B", left), ("C", "D", middle), ("E:F", "G", right)):
        for row, (label, name, style, value) in enumerate(rows, 2):
            if ":" in labels:
                sheet.merged(f"E{row}:F{row}", _(label), "label")
            else:
                sheet.text(f"{labels}{row}", label)
            sheet.put(f"{cells}{row}", value, style)
            sheet.name(name, f"{cells}{row}")
    sheet.heights(1, 9, 7)

    sheet.choose("B4", "list_block", "Choose one of the tables from the list.")
    sheet.limit("B5", 36526, 73050, "Enter a date, such as 2026-03-14.")
    sheet.whole("B6", 1, 99, "Count the versions of the announcement: 1, 2, 3 and so on.")
    sheet.limit("B7", 0, 0.99999, "Enter a time of day, such as 21:40.")
    sheet.limit("D2", 60 * SECOND, 4 / 24 - 1e-9, "Type the cap as minutes and seconds with a colon, such as 20:00.")
    for cell in ("D3", "D4"):
        sheet.limit(cell, 0.5, 200, "Enter rounds, such as 8 or 8.5.")
    sheet.limit("D5", 0.1, 50, "Enter rounds from one goal to the next, such as 0.5 or 1.")
    sheet.limit("D6", -0.5, 0.5, "Enter a percentage from -50% to 50%; 0% is an even pace, 6% is typical.")
    sheet.limit("D7", 0, 500, "Enter the calories of the ergometer station; 0 where there is none.")
    sheet.seconds("G2", 0, 3600, "Enter the seconds that all other stations take in a round, as a plain number such as 75.")
    sheet.limit("G3", 300, 3000, "Enter cal/h, 300 to 3000; goals that need more are marked.")
    sheet.limit("G4", 100, 3000, "Enter cal/h, 100 to 3000.")
    sheet.limit("G5", 10, 500, "Enter cal/h from one column to the next, 10 to 500.")
    sheet.limit("G6", 1, 300, "Enter calories, 1 to 300.")
    sheet.limit("G7", 1, 50, "Enter calories from one row to the next, 1 to 50.")


def make_page(book):
    sheet, _, lit, say = book.wall, book.texts, book.texts.lit, book.texts.say
    end, last = address(COLUMNS - 1, 0)[0], TABLE + ROWS - 1
    # Workings beside the page, hidden: block, goals, rounds shown.
    sheet.put("J2", "=IFERROR(MATCH(wall_block;list_block;0);0)", "working")
    sheet.name("wall_kind", "J2")
    sheet.put("J3", "=IF(AND(ISNUMBER(wall_cap);ISNUMBER(wall_from);ISNUMBER(wall_to);ISNUMBER(wall_step));"
                    "IF(AND(wall_cap>0;wall_from>0;wall_step>0;wall_from<=wall_to);1;0);0)", "working")
    sheet.name("wall_ok", "J3")
    sheet.put("J4", "=IF(wall_ok=0;0;1+INT((wall_to-wall_from)/wall_step+1E-9))", "working")
    sheet.name("wall_goals", "J4")
    sheet.put("J5", f"=IF(wall_ok=0;1;MAX(1;ROUNDUP((wall_from+(MIN(wall_goals;{COLUMNS - 1})-1)*wall_step)/{ROWS}-1E-9;0)))",
              "working")
    sheet.name("wall_every", "J5")
    sheet.down(f"J{TABLE}", f"=IF(AND(wall_ok=1;ROW()-{TABLE}<wall_goals);"
                            f"ROUND(wall_from+(ROW()-{TABLE})*wall_step;6);0)", ROWS, "working")
    goal = f"$J${TABLE}:$J${last}"

    rates = ("wall_rate_from", "wall_rate_step", "wall_calories_from", "wall_calories_step")
    four = ";".join(rates)
    sheet.put("J7", f"=IF(COUNT({four})<4;0;IF(MIN({four})>0;1;0))", "working")
    sheet.name("wall_rated", "J7")
    issued = 'TEXT(wall_issued;"HH:MM")'
    sheet.put("J6", "=" + say("version {v}, {day} {time}", v="wall_version", day=day_text("wall_date", book.texts.date), time=issued), "working")
    sheet.name("wall_stamp", "J6")
    checks = (("wall_kind=0", lit("▲ Choose one of the tables from the list.")),
              ("AND(wall_kind=3;wall_rated=0)", lit("▲ Enter calories and rates, from and step, as numbers above 0.")),
              ("wall_kind=3", '""'),
              ("NOT(ISNUMBER(wall_cap))", lit("▲ Enter the cap as minutes and seconds, such as 20:00.")),
              ("OR(wall_cap<=0;wall_cap>=4/24)", lit("▲ Impossible time cap: type minutes and seconds, such as 20:00.")),
              ("AND(ISNUMBER(wall_from);ISNUMBER(wall_to);wall_from>wall_to)", lit("▲ The first goal is above the last: no table.")),
              ("wall_ok=0", lit("▲ Enter goals from, to and step as numbers above 0.")),
              (f"AND(wall_kind=1;wall_goals>{ROWS})",
               say("▲ Too many goals for the page: it ends at {g}. Choose a larger step.",
                   g=f"wall_from+{ROWS - 1}*wall_step")),
              (f"AND(wall_kind=2;wall_goals>{COLUMNS - 1})",
               say("▲ Too many goals for the page: it ends at {g}. Choose a larger step.",
                   g=f"wall_from+{COLUMNS - 2}*wall_step")))
    # one a cell, each the start of the next
    for row, (test, word) in enumerate(checks, CHECKS):
        sheet.put(f"J{row}", f"=IF({test};{word};J{row + 1})", "working")
    sheet.put(f"J{CHECKS + len(checks)}", '=""', "working")
    book.answers(sheet, "wall_answers", "J8")
    sheet.text("J9", MISSING, "working")
    # NOW() has the office calculate it on loading
    sheet.merged("A9:G9", f"=IF(ISERROR(wall_answers)+0*NOW();$J$9;$J${CHECKS})", "problem")
    sheet.name("wall_check", "A9")

    sheet.merged(f"A{PAGE}:{end}{PAGE}", "=wall_title", "wall title")
    cap = f'IFERROR({pc("CLOCK.TEXT", "wall_cap")};"")'
    sheet.merged(f"A{PAGE + 1}:{end}{PAGE + 1}",
                 f'=IF(wall_kind=3;{say("{gym} · {stamp}", gym="wall_gym", stamp="wall_stamp")};'
                 f'{say("{gym} · cap {cap} · {stamp}", gym="wall_gym", cap=cap, stamp="wall_stamp")})', "wall stamp")
    what = (lit("Pace table: what each goal asks for"),
            f'IF(wall_every=1;{lit("Clock table: what the clock shows at the end of each round")};$L$8)',
            lit("Ergometer table: time for the calories at each cal/h"))
    for row, words in enumerate(what, 5):
        sheet.put(f"L{row}", f"={words}", "working")
    sheet.put("L8", "=" + say("Clock table: what the clock shows every {k} rounds", k="wall_every"), "working")
    sheet.merged(f"A{PAGE + 2}:{end}{PAGE + 2}", "=IF(wall_kind=0;wall_check;CHOOSE(wall_kind;$L$5;$L$6;$L$7))", "wall stamp")

    head, body = TABLE - 1, f"A{TABLE}:{end}{last}"
    half = say("At {clock}", clock=f'IFERROR({pc("CLOCK.TEXT", "wall_cap/2")};"")')
    pace_heads = (lit("Goal, rounds"), lit("Round time"), half, lit("cal/h needed"), say("Time for {c} cal", c="wall_calories"),
                  lit("Practice round"), lit("Remark"))
    work = "AND(ISNUMBER(wall_calories);wall_calories>0)"
    for step, pace in enumerate(pace_heads):
        if step in (3, 4, 6):
            pace = f'IF({work};{pace};"")'
        if step == 0:
            others = (lit("Round"), f'IF(wall_rated=0;"";{lit("Calories")})')
        else:
            others = (f'IF(INDEX({goal};{step})=0;"";{say("Goal {g}", g=f"INDEX({goal};{step})")})',
                      f'IF(wall_rated=0;"";{say("{r} cal/h", r=f"(wall_rate_from+{step - 1}*wall_rate_step)")})')
        for first, formula in zip((PACE, CLOCKS, RATES), (pace, *others)):
            sheet.put(address(first + step, head - 1), f"={formula}", "working")

    mine, i = f"$J{TABLE}", f"(ROW()-{TABLE - 1})"
    clock = lambda value: f'IFERROR({pc("CLOCK.TEXT", value)};"")'
    of_goal = lambda place: pc("WORKOUT.TABLE", "workout", mine, mine, 1, 1, place)  # goal, round, at half time, rate
    shown_time = f'IFERROR({pc("CLOCK.TEXT", pc("ERG.TIME", "wall_calories", f"$K{TABLE}"))};"–")'  # beyond any machine
    # Room for the ergometer, and the rate; -1 where the other stations alone take the round.
    sheet.down(f"K{TABLE}", f'=IF(OR({mine}=0;NOT({work}));0;IF(ISNUMBER({of_goal(4)});{of_goal(4)};-1))', ROWS, "working")
    rate = f"$K{TABLE}"
    pace = (f'{mine}&""', clock(of_goal(2)), f'IFERROR({of_goal(3)}&"";"")',
            f'IF({rate}=0;"";IF({rate}<0;"–";ROUND({rate};0)&""))',
            f'IF({rate}=0;"";IF({rate}<0;"–";{shown_time}))',
             clock(pc("PACE.REHEARSAL", of_goal(2))),
             f'IF({rate}<0;{lit("✕ no time left")};IF({rate}>wall_limit;{lit("▲ too fast")};""))')
    round_ = f"{i}*wall_every"
    stations = f"(1+{work})"  # the last column is the end of the round
    highest = f"MAX(INDEX({goal};1):INDEX({goal};{COLUMNS - 1}))"
    calories = f"(wall_calories_from+({i}-1)*wall_calories_step)"
    for step in range(COLUMNS):
        own = f"$J${TABLE + step - 1}"
        at = (f'IF({round_}>{highest}+1E-9;"";{round_}&"")' if step == 0 else
              f'IF(OR({own}=0;{round_}>{own}+1E-9);"";{clock(pc("WORKOUT.CLOCKS", "workout", own, "", round_, f"{stations}+2"))})')
        erg = (f'{calories}&""' if step == 0 else
               clock(pc("ERG.TIME", calories, f"(wall_rate_from+{step - 1}*wall_rate_step)")))
        for first, formula in ((PACE, f'IF({mine}=0;"";{pace[step]})'), (CLOCKS, at if step else f'IF(wall_ok=0;"";{at})'),
                               (RATES, f'IF(wall_rated=0;"";{erg})')):
            sheet.down(address(first + step, TABLE - 1), f"={formula}", ROWS, "working")
        # the page shows one of the three
        for row, count in ((head, 1), (TABLE, ROWS)):
            three = ";".join(address(first + step, row - 1) for first in (PACE, CLOCKS, RATES))
            sheet.down(address(step, row - 1), f'=IF(wall_kind=0;"";CHOOSE(wall_kind;{three}))', count)
    sheet.name("wall_table", body)
    sheet.mark(f"A{head}:{end}{head}", (f'A{head}<>""', "wall head"))
    sheet.mark(body, (f'$A{TABLE}=""', "base"),
               (f'OR(LEFT($G{TABLE};1)="✕";LEFT($G{TABLE};1)="▲")', "wall mark"),
               (f"COLUMN()=1", "wall goal"), (f'A${head}<>""', "wall cell"))
    note = last + 2
    for row, words in enumerate(NOTES, 2):
        sheet.text(f"L{row}", words, "working")
    sheet.merged(f"A{note}:{end}{note}", '=CHOOSE(1+wall_kind;"";$L$2;$L$3;$L$4)', "wall note")
    sheet.merged(f"A{note + 1}:{end}{note + 1}", _(CAUTION), "wall note")
    sheet.heights(PAGE, PAGE, 17)
    sheet.heights(PAGE + 1, PAGE + 2, 9)
    sheet.heights(head, head, 18)
    sheet.heights(TABLE, last, 10.6)
    sheet.heights(last + 1, last + 1, 3)
    sheet.heights(note, note, 12)
    sheet.heights(note + 1, note + 1, 16.5)
    sheet.hide_columns("J", column(RATES + COLUMNS))
    sheet.page(f"A{PAGE}:{end}{note + 1}", landscape=True, wide=1, tall=1, centre=True)


NOTES = (
    ("Even rounds unless said otherwise. Practice: one round at 82.5% of the pace, to feel it. No time left: the "
     "other stations alone take longer than the round. Too fast: more than the rate to mark above; take a lower "
     "goal."),
    ("Find your goal at the top, then go down to your round. Behind the time shown? Take the next lower goal; do "
     "not sprint."),
    ("Find the calories on the left, then go across to your rate. Air-braked machines; the clock starts with the "
     "first pull."))
HELP = ("Type in the yellow cells of the sheet Wall table; the page below them answers at once.",
        "Table shown: the pace table (goals, round times, needed cal/h), the clock table (the clock at the end of each "
        "round for each goal) or the ergometer table (time for calories at a rate).",
        "Cap: minutes and seconds with a colon, 20:00. Goals: the lowest, the highest, and the step between them; 12 goals "
        "fit on the pace table, 6 on the clock table.",
        "Calories, and everything else in a round: ask the coach. Everything else is the seconds of the other "
        "stations plus walking. With 0 calories the table shows no rates.",
        "If the announcement is corrected, raise the version number and set the time, so that an old page on the "
        "wall is recognised as old.",
        "Print: File, Print. It is one page on A4 and on Letter; this sheet does not print. For a PDF: File, Export As.",
        "This page shows nobody's tests, and never should: everyone can see it.")


def make_help(book):
    sheet, _ = book.help, book.texts
    sheet.widths("A", 6, 170)
    sheet.text("A1", "How to use it", "title")
    sheet.heights(1, 1, 11)
    for row, line in enumerate(HELP, 3):
        sheet.put(f"A{row}", "•", "note")
        sheet.text(f"B{row}", line, "note")
        sheet.sheet.Rows.getByIndex(row - 1).OptimalHeight = True
