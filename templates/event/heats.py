"""The sheet Heats: the list of heats, and beside it one live page of judge's sheets, two to a page, from judge_first on."""

from builder import address, column, fixed, pc

from event import lists
from event.sizes import ATHLETES, STATIONS, athlete, of_team, team_size, top

HEAD, FIRST = 5, 6
LAST = FIRST + ATHLETES - 1
HEADS = (("Heat", 13, "listed strong"), ("Lane", 13, "listed center"), ("Start", 16, "listed clock"), ("Name", 46, "listed"),
         ("Judge", 46, "listed"), ("Starts later by", 16, "listed time"), ("Division", 53, "listed"), ("Machine", 28, "listed center"))
LATER = "F"                    # hidden: cards and judge's sheets say it
# out of sight: what keeps people in heats of their own, who can judge, team
GROUP, CAN, TEAM = (column(len(HEADS) + step) for step in range(3))
CHOICES = column(len(HEADS) + 3)
JUDGE = len(HEADS) + 5         # first column of the judge's sheets
ROUNDS = 12                    # columns of rounds on a judge's sheet; further ones are below where there is room
TEXT, TURNS, STAMP, COUNT, CLOCK, NO_REPS, STATION = range(1, 8)  # rows of one, below the name
BOXES = STATION + STATIONS
HALF, SHEETS = BOXES + 2, 2    # rows of one; between two of them there is air
ASIDE = JUDGE + ROUNDS + 2     # beside them


def make(book):
    sheet = book.heats
    top(sheet, "Heats")
    make_list(book)
    sheet.widths("A", *[width for _head, width, _style in HEADS], 10, 10, 10, 44, 8, 54, *[10.9] * ROUNDS, 6, 40)
    sheet.hide_columns(LATER, LATER)
    sheet.hide_columns(GROUP, TEAM)
    sheet.heights(HEAD, HEAD, 8)
    sheet.heights(FIRST, LAST, 7.4)
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
    say = _.say
    apart = choice(sheet, 1, "Heats by division", "Choose yes to keep divisions in heats of their own; otherwise leave empty.")
    shared = choice(sheet, 4, "Share machines", "Choose yes where people of a class share machines and start one after the other; otherwise leave empty.")
    of = lambda letter: f"${letter}${FIRST}:${letter}${LAST}"
    # out of sight, beside the judge's sheets: people per machine, how much later they start, shared machines
    many, later, machines = (f"${column(ASIDE + 1)}${row}" for row in range(SHEETS * HALF + 1, SHEETS * HALF + 4))
    start = f"$'{book.workout.title}'.{book.settings['first_start']}"
    put = lambda cell, formula: sheet.put(cell.replace("$", ""), formula, "working")
    share = lambda index: pc("HEAT.SHARED", "workout", "tests", "roster_keys", "roster_people", index)
    put(many, f'=IF({shared}="";1;{share(1)})')
    put(later, f'=IF({shared}="";0;{share(2)})')
    put(machines, f'=IF({shared}="";0;{lists.machine_count(book)})')
    book.heat_many = f"$'{sheet.title}'.{many}"
    for letter, formula in ((GROUP, f'=IF({apart}="";"";INDEX(roster_division;ROW(A1))&"")'),
                            (TEAM, f'=IF({team_size(book)}<2;"";INDEX(roster_team;ROW(A1))&"")'),
                            (CAN, f'=IF({book.roster_judge}="";"";INDEX(roster_name;ROW(A1))&"")')):
        sheet.down(f"{letter}{FIRST}", formula, ATHLETES, "working")
    every = 'TEXT(heat_every;"[M]:SS")'
    sheet.put("A4", f'=IF({shared}="";"";{say("{many} per machine, one after the other", many=many)}&"; ")&'
              + say("{lanes} lanes per heat, a heat every {every}, slowest first", lanes="heat_lanes", every=every), "note line")
    # an array a column: the list is made once for each, not for every person
    listed = lambda k: pc("HEAT.LIST", "roster_starts", "roster_rank", "heat_lanes", start, "heat_every", of(GROUP), "", k, of(CAN), machines, later, of(TEAM))
    text = '&""'  # makes a text of this document of a name; only then does MATCH find it
    formulas = (*(f"={listed(k)}" for k in (1, 2, 3)), f"={listed(4)}{text}", f"={listed(5)}{text}", f"={listed(6)}", None,
                f'=IF({shared}="";"";{listed(7)})')
    for step, ((head, _width, style), formula) in enumerate(zip(HEADS, formulas)):
        sheet.text(address(step, HEAD - 1), head, "head")
        cells = f"{column(step)}{FIRST}:{column(step)}{LAST}"
        if formula:
            sheet.array(cells, formula, style)
    row = f"MATCH($D{FIRST};roster_name;0)"
    sheet.down(f"G{FIRST}", f'=IF($D{FIRST}="";"";INDEX(roster_division;{row})&IF(INDEX({of(TEAM)};{row})="";"";" · "&INDEX({of(TEAM)};{row})))',
               ATHLETES, HEADS[6][2])
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
    out = [column(ASIDE + 1 + step) for step in range(4)]  # out of sight: place in the list, row of the roster, goal, a later start
    place, who, aim, later = (f"${letter}${first}" for letter in out)
    if half == 0:
        sheet.hide_columns(out[0], out[-1])
    listed = lambda k: f"INDEX(heat_list;{place};{k})"
    division = f"INDEX(roster_division;{who})"
    shown = lambda value: f'=IF({who}=0;"";{value})'
    goal = athlete("GOAL", f"INDEX(roster_people;{who};0)", 1)
    # the first row of that lane: where heat or lane are others than in the row above
    other = "+".join(f"(${letter}${FIRST}:${letter}${LAST}<>${letter}${HEAD}:${letter}${LAST - 1})" for letter in "AB")
    sheet.array(f"{out[0]}{first}", f"=IFERROR(SMALL(IF({other}>0;ROW($A${FIRST}:$A${LAST})-{HEAD});judge_first+{half});{ATHLETES + 1})", "working")
    sheet.put(f"{out[1]}{first}", f'=IF({place}>{ATHLETES};0;IF({listed(4)}="";0;IFNA(MATCH({listed(4)};roster_name;0);0)))', "working")
    sheet.put(aim.replace("$", ""), f"=IF({who}=0;0;N({goal}))", "working")
    sheet.put(f"{out[3]}{first}", shown(f'IF({listed(3)}="";"";", "&TEXT({listed(3)};"HH:MM"))'), "working")
    at = say("start at {clock}", clock=f"TEXT({listed(6)};{chr(34)}[M]:SS{chr(34)})")
    sheet.put(f"{out[3]}{first + 1}", shown(f'IF(N({listed(6)})=0;"";", "&{at})'), "working")

    sheet.put(f"{out[0]}{first + 1}", f'=IF(OR({who}=0;{team_size(book)}<2);"";{of_team(who, 2)})', "working")
    people = f"${out[0]}${first + 1}"
    sheet.merged(across(0, 6, 0), shown(f'IF({people}="";{listed(4)};{people})'), "judge name")
    lane = say("Heat {heat}, lane {lane}", heat=listed(1), lane=listed(2)) + f"&{later}&${out[3]}${first + 1}"
    sheet.merged(across(7, ROUNDS, 0), shown(lane), "judge lane")
    # the stations with amounts and loads are below
    sheet.merged(across(0, ROUNDS, TEXT), shown(pc("WORKOUT.TEXT", "workout", division, 0)), "judge text")
    sheet.merged(across(0, ROUNDS, TURNS), shown(f'IF({people}="";"";{of_team(who, 4)})'), "card words")
    tiebreak = f"$'{book.workout.title}'.{book.settings['tiebreak']}"
    stamp = f'event_heading&IF({tiebreak}="";"";" · "&{labelled("tie-break", tiebreak)})'
    sheet.merged(across(0, ROUNDS, STAMP), shown(stamp), "card line")
    once = f"${out[1]}${first + 1}"  # a workout of one round has a column of clocks, one for each station
    sheet.put(once.replace("$", ""), f'=IF({who}=0;0;N({pc("WORKOUT.COUNT", "workout", division, 2)}=""))', "working")
    # the same formula in all of them, by where they are
    corner = fixed(cell(0, COUNT))
    counted = lambda station: shown(pc("WORKOUT.COUNT", "workout", division, f"COLUMN()-COLUMN({corner})", station, aim))
    for k in range(ROUNDS + 1):
        sheet.put(cell(k, COUNT), counted(0), "judge head" if k else "judge head left")
        for line in (CLOCK, NO_REPS) if k else ():  # a space to write in
            sheet.put(cell(k, line), f'=IF(OR({cell(0, line)}="";{cell(k, COUNT)}="");"";" ")', "judge count")
        for line in range(STATION, BOXES):
            sheet.put(cell(k, line), counted(f"ROW()-ROW({corner})-{STATION - COUNT - 1}"), "judge count" if k else "judge station")
    sheet.put(cell(0, CLOCK), f'=IF(OR({who}=0;{once});"";{lit("clock")})', "judge station")
    sheet.put(cell(0, NO_REPS), shown(lit("no-reps (tally)")), "judge station")
    for left, right, top, bottom in ((0, 0, COUNT, COUNT), (0, 0, CLOCK, BOXES - 1), (1, ROUNDS, COUNT, COUNT), (1, ROUNDS, CLOCK, BOXES - 1)):
        sheet.mark(f"{cell(left, top)}:{cell(right, bottom)}", (f'{cell(left, top)}=""', "blank cell"))
    signature = "judge's signature"
    signed = f'IF({listed(5)}="";{lit(signature)};{labelled(signature, listed(5))})'
    for start, stop, label in ((0, 0, lit("score")), (1, 4, lit("tie-break")), (5, 8, lit("could go on? yes / just / no")), (9, ROUNDS, signed)):
        sheet.merged(across(start, stop, BOXES), shown(label), "judge box")
    if half < SHEETS - 1:  # marks to cut at, at both edges
        for edge in (0, ROUNDS):
            sheet.styled(cell(edge, HALF - 1), "cut bottom")
