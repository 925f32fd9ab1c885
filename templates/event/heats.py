"""The sheet Heats: the list of heats, and beside it one live page of judge's sheets, two to a page, from judge_first on."""

from builder import address, column, fixed, pc

from event.sizes import ATHLETES, STATIONS, athlete, of_team, row_of, top

HEAD, FIRST = 5, 6
LAST = FIRST + ATHLETES - 1
HEADS = (("Heat", 13, "listed strong"), ("Lane", 13, "listed center"), ("Start", 16, "listed clock"), ("Name", 46, "listed"),
         ("Judge", 46, "listed"), ("Starts later by", 16, "listed time"), ("Division", 53, "listed"), ("Machine", 28, "listed center"))
LATER = "F"                    # hidden: cards and judge's sheets say it
CHOICES = column(len(HEADS))
JUDGE = len(HEADS) + 2         # first column of the judge's sheets
ROUNDS = 12                    # columns of rounds on a judge's sheet; further ones are below where there is room
TEXT, TURNS, STAMP, COUNT, CLOCK, NO_REPS, STATION = range(1, 8)  # rows of one, below the name
BOXES = STATION + STATIONS
ONE_LINE = 26                  # characters of a station that fit; a longer one has two lines, of smaller letters
HALF, SHEETS = BOXES + 2, 2    # rows of one; between two of them there is air
ASIDE = JUDGE + ROUNDS + 2     # beside them


def make(book):
    sheet = book.heats
    top(sheet, "Heats")
    make_list(book)
    sheet.widths("A", *[width for _head, width, _style in HEADS], 44, 8, 54, *[10.9] * ROUNDS, 6, 40)
    sheet.hide_columns(LATER, LATER)
    sheet.heights(HEAD, HEAD, 8)
    sheet.heights(FIRST, LAST, 8.2)
    aside = column(ASIDE)
    sheet.text(f"{aside}4", "First sheet: lane in the list", "head")
    sheet.put(f"{aside}5", 1, "input number")
    sheet.whole(f"{aside}5", 1, 200, "Enter which lane of the list: 1, then 3, 5 … for the next pages.")
    sheet.name("judge_first", f"{aside}5")
    for half in range(SHEETS):
        make_judge(book, 1 + half * HALF, half)
    sheet.name("judge_page", f"{column(JUDGE)}1:{column(JUDGE + ROUNDS)}{SHEETS * HALF}")
    sheet.freeze(f"A{FIRST}")
    sheet.page(f"A1:{column(len(HEADS) - 1)}{LAST}", repeat=(1, HEAD))


def choice(sheet, row, label, message):
    """A cell beside the list: yes, or nothing."""
    sheet.text(f"{CHOICES}{row}", label, "head")
    sheet.styled(f"{CHOICES}{row + 1}", "input center")
    sheet.choose(f"{CHOICES}{row + 1}", "list_yes", message)
    return f"${CHOICES}${row + 1}"


def make_list(book):
    sheet, _ = book.heats, book.texts
    apart = choice(sheet, 1, "Heats by division", "Choose yes to keep divisions in heats of their own; otherwise leave empty.")
    shared = choice(sheet, 4, "Share machines", "Choose yes where people of a class share machines and start one after the other; otherwise leave empty.")
    # out of sight, beside the judge's sheets: people per machine, how much later they start
    many, later = (f"${column(ASIDE + 1)}${row}" for row in range(SHEETS * HALF + 1, SHEETS * HALF + 3))
    for index, cell in enumerate((many, later), 1):
        share = pc("HEAT.SHARED", "workout", "tests", "roster_keys", "roster_people", index)
        sheet.put(cell.replace("$", ""), f'=IF({shared}="";0;{share})', "working")
    day = lambda k: "=" + pc("HEAT.DAY", "workout", "roster_keys", "roster_people", "roster_rank", "roster_judge", apart, many, later, k)
    sheet.put("A4", day(0), "note line")
    # an array a column: the list is made once for each, not for every person
    for k, (head, _width, style) in enumerate(HEADS, 1):
        sheet.text(address(k - 1, HEAD - 1), head, "head")
        sheet.array(f"{column(k - 1)}{FIRST}:{column(k - 1)}{LAST}", day(k), style)
    last = column(len(HEADS) - 1)
    sheet.put(f"{last}{HEAD}", f'=IF({shared}="";"";{_.lit(HEADS[-1][0])})')
    # an empty text that nothing calculates is 0 when the file is opened
    sheet.mark(f"{last}{HEAD}:{last}{LAST}", (f'OR(${last}{HEAD}="";${last}{HEAD}=0)', "blank cell"))
    new_heat = f"AND($A{FIRST}<>$A{HEAD};$D{FIRST}<>\"\")"
    sheet.mark(f"A{FIRST}:B{LAST}", (new_heat, "first of heat"))
    sheet.mark(f"C{FIRST}:C{LAST}", (new_heat, "first of heat clock"))
    sheet.mark(f"D{FIRST}:G{LAST}", (new_heat, "first of heat left"))
    sheet.name("heat_list", f"A{FIRST}:{LATER}{LAST}")


def make_judge(book, first, half):
    sheet, _ = book.heats, book.texts
    say, lit = _.say, _.lit
    labelled = lambda label, value: say("{label}: {value}", label=lit(label), value=value)
    cell = lambda col, line: address(JUDGE + col, first + line - 1)
    across = lambda start, stop, line: f"{cell(start, line)}:{cell(stop, line)}"
    out = [column(ASIDE + 1 + step) for step in range(3)]  # out of sight: place in the list, row of the roster, goal
    place, who, aim = (f"${letter}${first}" for letter in out)
    if half == 0:
        sheet.hide_columns(out[0], out[-1])
    listed = lambda k: f"INDEX(heat_list;{place};{k})"
    division = f"INDEX(roster_division;{who})"
    shown = lambda value: f'=IF({who}=0;"";{value})'
    goal = athlete("GOAL", f"INDEX(roster_people;{who};0)", 1)
    sheet.put(f"{out[0]}{first}", "=" + pc("HEAT.ROW", "INDEX(heat_list;0;1)", "INDEX(heat_list;0;2)", f"MAX(judge_first;1)+{half}"), "working")
    sheet.put(f"{out[1]}{first}", f'=IF({place}=0;0;{row_of(listed(4))})', "working")
    sheet.put(aim.replace("$", ""), f"=IF({who}=0;0;IFERROR(N({goal});0))", "working")

    sheet.merged(across(0, 6, 0), shown(of_team(who, 2)), "judge name")
    start = pc("HEAT.START", "workout", f"INDEX(heat_list;{place};0)")
    sheet.merged(across(7, ROUNDS, 0), shown(start), "judge lane")
    # the stations with amounts and loads are below
    sheet.merged(across(0, ROUNDS, TEXT), shown(pc("WORKOUT.TEXT", "workout", division, 0)), "judge text")
    sheet.merged(across(0, ROUNDS, TURNS), shown(of_team(who, 4)), "card words")
    tiebreak = f"$'{book.workout.title}'.{book.settings['tiebreak']}"
    stamp = f'event_heading&IF({tiebreak}="";"";" · "&{labelled("tie-break", tiebreak)})'
    sheet.merged(across(0, ROUNDS, STAMP), shown(stamp), "card line")
    once = f"${out[1]}${first + 1}"  # a workout of one round has a column of clocks, one for each station
    sheet.put(once.replace("$", ""), f'=IF({who}=0;0;N({pc("WORKOUT.COUNT", "workout", division, 2)}=""))', "working")
    # the same formula in all of them, by where they are
    corner = fixed(cell(0, COUNT))
    counted = lambda row: shown(pc("HEAT.SHEET", "workout", division, row, f"COLUMN()-COLUMN({corner})", aim))
    for k in range(ROUNDS + 1):
        sheet.put(cell(k, COUNT), counted(0), "judge head" if k else "judge head left")
        for line in (CLOCK, NO_REPS) if k else ():  # a space to write in
            sheet.put(cell(k, line), f'=IF(OR({cell(0, line)}="";{cell(k, COUNT)}="");"";" ")', "judge count")
        for line in range(STATION, BOXES):
            sheet.put(cell(k, line), counted(f"ROW()-ROW({corner})-{STATION - COUNT - 1}"), "judge count" if k else "judge station")
    sheet.put(cell(0, CLOCK), f'=IF(OR({who}=0;{once});"";{lit("clock")})', "judge station")
    sheet.put(cell(0, NO_REPS), shown(lit("no-reps (tally)")), "judge station")
    for left, right, top, bottom in ((0, 0, COUNT, COUNT), (0, 0, CLOCK, BOXES - 1), (1, ROUNDS, COUNT, COUNT), (1, ROUNDS, CLOCK, BOXES - 1)):
        long = [(f"LEN({cell(left, top)})>{ONE_LINE}", "judge station long")] if left == 0 and top == CLOCK else []
        sheet.mark(f"{cell(left, top)}:{cell(right, bottom)}", (f'{cell(left, top)}=""', "blank cell"), *long)
    signature = "judge's signature"
    signed = f'IF({listed(5)}="";{lit(signature)};{labelled(signature, listed(5))})'
    for start, stop, label in ((0, 0, lit("score")), (1, 4, lit("tie-break")), (5, 8, lit("could go on? yes / just / no")), (9, ROUNDS, signed)):
        sheet.merged(across(start, stop, BOXES), shown(label), "judge box")
    if half < SHEETS - 1:  # marks to cut at, at both edges
        for edge in (0, ROUNDS):
            sheet.styled(cell(edge, HALF - 1), "cut bottom")
