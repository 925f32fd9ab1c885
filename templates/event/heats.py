"""The sheet Heats: the list of heats, and beside it one live page of judge's sheets, two to a page, from judge_first on."""

from builder import address, column, pc

from event.sizes import ATHLETES, STATIONS, athlete, top

HEAD, FIRST = 5, 6
LAST = FIRST + ATHLETES - 1
HEADS = (("Heat", 13, "cell strong"), ("Lane", 13, "cell center"), ("Start", 16, "cell clock"), ("Name", 47, "cell"), ("Judge", 47, "cell"),
         ("Division", 50, "cell shrunk"))
GROUP = column(len(HEADS))     # out of sight: what keeps people in heats of their own
JUDGE = len(HEADS) + 2         # first column of the judge's sheets
ROUNDS = 12                    # rounds on a judge's sheet
HALF, SHEETS = 21, 2           # rows of one
ASIDE = JUDGE + ROUNDS + 2     # beside them


def make(book):
    sheet, _ = book.heats, book.texts
    top(sheet, "Heats")
    sheet.put("A4", "=" + _.say("{lanes} people per heat, a heat every {every}, slowest first", lanes="heat_lanes", every='TEXT(heat_every;"[M]:SS")'),
              "note line")
    sheet.text("E4", "Heats by division", "label right")
    sheet.styled("F4", "input center")
    sheet.choose("F4", "list_yes", "Choose yes to keep divisions in heats of their own; otherwise leave empty.")
    sheet.down(f"{GROUP}{FIRST}", '=IF($F$4="";"";INDEX(roster_division;ROW(A1))&"")', ATHLETES, "working")
    sheet.hide_columns(GROUP, GROUP)
    start = f"$'{book.workout.title}'.{book.settings['first_start']}"
    listed = pc("HEAT.LIST", "roster_starts", "roster_rank", "heat_lanes", start, "heat_every", f"${GROUP}${FIRST}:${GROUP}${LAST}", "ROW(A1)", "{k}")
    for step, (head, _width, style) in enumerate(HEADS):
        sheet.text(address(step, HEAD - 1), head, "head")
        if step == 5:
            formula = f'=IF($D{FIRST}="";"";INDEX(roster_division;MATCH($D{FIRST};roster_name;0)))'
        elif step == 2:
            formula = f'=IF(OR(ROW(A1)>heat_people;N({start})=0);"";{listed.format(k=3)})'
        else:
            # &"" makes a text of this document of a name; only then does MATCH find it
            formula = f'=IF(ROW(A1)>heat_people;"";{listed.format(k=step + 1)}{"" if step < 3 else "&" + chr(34) * 2})'
        sheet.down(f"{column(step)}{FIRST}", formula, ATHLETES, style)
    sheet.mark(f"A{FIRST}:B{LAST}", (f"$B{FIRST}=1", "first of heat"))
    sheet.mark(f"C{FIRST}:C{LAST}", (f"$B{FIRST}=1", "first of heat clock"))
    sheet.mark(f"D{FIRST}:F{LAST}", (f"$B{FIRST}=1", "first of heat left"))
    sheet.name("heat_list", f"A{FIRST}:E{LAST}")
    sheet.widths("A", *[width for _head, width, _style in HEADS], 10, 8, 46, *[11.6] * ROUNDS, 6, 40)
    sheet.heights(HEAD, LAST, 5.4)  # two judge's sheets fit on Letter too
    aside = column(ASIDE)
    sheet.text(f"{aside}4", "First sheet: place in list", "head")
    sheet.put(f"{aside}5", 1, "input number")
    sheet.whole(f"{aside}5", 1, 200, "Enter a place in the start list: 1, then 3, 5 … for the next pages.")
    sheet.name("judge_first", f"{aside}5")
    for half in range(SHEETS):
        make_judge(book, 1 + half * HALF, half)
    page = f"{column(JUDGE)}1:{column(JUDGE + ROUNDS)}{SHEETS * HALF}"
    sheet.name("judge_page", page)
    sheet.freeze(f"A{FIRST}")
    sheet.page(f"A1:F{LAST}", repeat=(1, HEAD))
    sheet.print_area(f"A1:F{LAST}", page)


def make_judge(book, first, half):
    sheet, _ = book.heats, book.texts
    say, lit = _.say, _.lit
    cell = lambda col, line: address(JUDGE + col, first + line - 1)
    across = lambda start, stop, line, deep=1: f"{cell(start, line)}:{cell(stop, line + deep - 1)}"
    out = [column(ASIDE + 1 + step) for step in range(3)]  # out of sight: place in the list, row of the roster, rounds
    place, who, rounds = (f"${letter}${first}" for letter in out)
    if half == 0:
        sheet.hide_columns(out[0], out[-1])
    listed = lambda k: f"INDEX(heat_list;{place};{k})"
    division = f"INDEX(roster_division;{who})"
    shown = lambda value: f'=IF({who}=0;"";{value})'
    goal = athlete("GOAL", f"INDEX(roster_people;{who};0)", 1)
    sheet.put(f"{out[0]}{first}", f"=judge_first+{half}", "working")
    sheet.put(f"{out[1]}{first}", f'=IF({listed(4)}="";0;IFNA(MATCH({listed(4)};roster_name;0);0))', "working")
    sheet.put(f"{out[2]}{first}", f"=IF({who}=0;0;IF(event_kind=1;ROUNDUP(N({goal}))+2;40))", "working")

    sheet.merged(across(0, 7, 0, 2), shown(listed(4)), "judge name")
    lane = say("Heat {heat}, lane {lane}", heat=listed(1), lane=listed(2)) + f'&IF({listed(3)}="";"";", "&TEXT({listed(3)};"H:MM"))'
    sheet.merged(across(8, ROUNDS, 0, 2), shown(lane), "judge lane")
    sheet.merged(across(0, ROUNDS, 2), shown(pc("WORKOUT.TEXT", "workout", division)), "card line")
    sheet.merged(across(0, ROUNDS, 3), shown("event_heading"), "card line")
    sheet.put(cell(0, 4), shown(lit("running count")), "judge head left")
    for k in range(1, ROUNDS + 1):
        there = pc("WORKOUT.COUNT", "workout", division, k)
        sheet.put(cell(k, 4), f'=IF({k}>{rounds};"";IF({there}="";"";"R{k}"))', "judge head")
        for line in (5, 6):
            sheet.styled(cell(k, line), "judge count")
        for station in range(1, STATIONS + 1):
            count = pc("WORKOUT.COUNT", "workout", division, k, station)
            sheet.put(cell(k, 6 + station), f'=IF({k}>{rounds};"";{count})', "judge count")
    for line, label in ((5, "clock"), (6, "no-reps (tally)")):
        sheet.put(cell(0, line), shown(lit(label)), "judge station")
    for station in range(1, STATIONS + 1):
        sheet.put(cell(0, 6 + station), shown(pc("WORKOUT.TEXT", "workout", division, station)), "judge station")
    for line in range(4, 7 + STATIONS):
        here = cell(0, line)
        sheet.mark(across(0, 0, line), (f'{here}=""', "blank cell"))
        sheet.mark(across(1, ROUNDS, line), (f'OR(${here[:-len(str(first + line))]}{first + line}="";{cell(1, 4)[:-len(str(first + 4))]}${first + 4}="")',
                                             "blank cell"))
    bottom = 7 + STATIONS
    for start, stop, label in ((0, 0, "score"), (1, 4, "tie-break"), (5, 8, "could go on? yes / just / no"), (9, ROUNDS, "judge's signature")):
        sheet.merged(across(start, stop, bottom, 2), shown(lit(label)), "judge box")
