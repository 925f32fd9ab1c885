"""The sheet Cards: one live page of four, in the order of the start list. card_first says whose come first."""

from builder import address, column, fixed, pc

from event.sizes import athlete, of_team, team_size

CARDS, COLUMNS = 4, 20
# The lines of ATHLETE.CARD, from 1.
GOAL_IS, TIME, TIME_IS, RULE, SETS_LINE, STATIONS_LABEL, STATION_NAME, STATION_TIME, TABLE_LABEL, HEADING, CLOCK, LOWER_CLOCK, RATE, LIMITS = range(1, 15)
LABEL, CLOCKS = 4, COLUMNS - 4  # columns of the label, clocks beside it
# air, name, workout, goal and rate, what they are, two rows of stations, sets, rounds, two rows of clocks, what to go by,
# caution, air. The commands that print leave the second row of stations out where it is blank, and give workout and sets
# as many lines as they need.
HEIGHTS = (2, 6.6, 8.2, 9.8, 4.4, 4.6, 4.6, 8.2, 4.2, 4.6, 4.6, 4.7, 4.3, 0.7)
NAME, LINE, VALUE, UNDER, OFF, MORE, SETS, ROUND, FIRST_CLOCK, SECOND_CLOCK, CHECK, CAUTION = range(1, len(HEIGHTS) - 1)
ROWS = len(HEIGHTS)
ASIDE = [column(COLUMNS + 2 + step) for step in range(3)]  # beside the card, out of sight
IN_A_ROW = 6  # stations
TURNS = 165  # characters of the turns of a team that fit
MINUTES = '"[M]:SS"'


def make(book):
    sheet = book.cards
    sheet.widths("A", *[9.3] * COLUMNS, 6, 36)
    aside = column(COLUMNS + 1)
    sheet.text(f"{aside}1", "First card: place in the start list", "head")
    sheet.put(f"{aside}2", 1, "input number")
    sheet.whole(f"{aside}2", 1, 200, "Enter a place in the start list: 1, then 5, 9 … for the next pages.")
    sheet.name("card_first", f"{aside}2")
    for card in range(CARDS):
        make_card(book, sheet, card)
    last = CARDS * ROWS
    sheet.hide_columns(ASIDE[0], ASIDE[-1])
    sheet.name("card_page", f"A1:{column(COLUMNS - 1)}{last}")
    sheet.page(f"A1:{column(COLUMNS - 1)}{last}", wide=1, tall=1, centre=True, caution=False)


def make_card(book, sheet, card):
    _, lit, say = book.texts, book.texts.lit, book.texts.say
    first = card * ROWS + 1
    end = COLUMNS - 1
    cell = lambda col, line: address(col, first + line - 1)
    across = lambda start, stop, line: f"{cell(start, line)}:{cell(stop, line)}"
    for line, height in enumerate(HEIGHTS):
        sheet.heights(first + line, first + line, height)

    # Out of sight: place in the start list, row of the roster, and what several lines use.
    place, who = f"${ASIDE[0]}${first}", f"${ASIDE[1]}${first}"
    of = lambda function, *more: athlete(function, f"INDEX(roster_people;{who};0)", *more)
    shown = lambda value: f'=IF({who}=0;"";{value})'
    listed = lambda k: f"INDEX(heat_list;{place};{k})"
    sheet.put(f"{ASIDE[0]}{first}", f"=card_first+{card}", "working")
    sheet.put(f"{ASIDE[1]}{first}", f'=IF({listed(4)}="";0;IFNA(MATCH({listed(4)};roster_name;0);0))', "working")
    # goal, the next goal down, and of an easy plan its end in time and rounds; a row that cannot be read has no card
    goal, lower, ends, rounds = (f"${ASIDE[2]}${first + step}" for step in range(4))
    for step in range(4):
        sheet.put(f"{ASIDE[2]}{first + step}", shown(f'IFERROR({of("GOAL", 3 + step)};"")'), "working")
    planned = lambda value: f'=IF({goal}="";"";{value})'

    # on a shared machine people start one after the other; their clocks are those of the clock on the wall
    later, starts = (fixed(f"{ASIDE[0]}{first + line}") for line in (2, 3))
    sheet.put(later.replace("$", ""), f"=N({listed(6)})", "working")
    sheet.put(starts.replace("$", ""), f'=IF({listed(3)}="";"";", "&TEXT({listed(3)};"HH:MM"))&IF({later}=0;"";", "&{say("start at {clock}", clock=f"TEXT({later};{MINUTES})")})', "working")
    division = f"INDEX(roster_division;{who})"
    card_line = lambda line, *more: of("CARD", line, *more)
    carded = lambda value: f'=IF(AND({goal}="";{ends}="");"";{value})'  # nothing for who has no plan
    # of a team the first names, and who does what
    people, turns, sets = (fixed(f"{ASIDE[0]}{first + line}") for line in (4, 5, 6))
    sheet.put(people.replace("$", ""), f'=IF(OR({who}=0;{team_size(book)}<2);"";{of_team(who, 3)})', "working")
    # what two lines hold; of a large team the person's own turns
    sheet.put(turns.replace("$", ""), f'=IF({people}="";"";{of_team(who, 4)})', "working")
    sheet.put(sets.replace("$", ""), shown(f'IF(OR({turns}="";LEN({turns})>{TURNS});{card_line(SETS_LINE)};{turns})'), "working")
    sheet.merged(across(0, 11, NAME), carded(f'{listed(4)}&IF({people}="";"";" ("&{people}&")")'), "card name")
    lane = say("Heat {heat}, lane {lane}", heat=listed(1), lane=listed(2)) + f"&{starts}"
    sheet.merged(across(12, end, NAME), carded(lane), "card place")
    sheet.merged(across(0, end, LINE), carded(pc("WORKOUT.TEXT", "workout", division)), "card workout")
    # goal, time per round, rate: the largest on the card. An easy plan has an end in their place.
    if_rounds = lambda text: f'IF({rounds}="";"";{text})'  # a workout may have fewer than an easy plan
    ending = lambda value, ending: f'=IF({ends}="";IF({goal}="";"";{value});{ending})'
    for start, stop, value, style, under, ended, ended_under in (
            (0, 5, goal, "card value", card_line(GOAL_IS, 1, later), f"INDEX(roster_plan;{who})", lit("plan for the day")),
            (6, 11, card_line(TIME, 1, later), "card value time", card_line(TIME_IS), f"{ends}+{later}", lit("stop at this clock")),
            (12, end, card_line(RATE), "card value", card_line(LIMITS), if_rounds(say("or after {n} rounds", n=rounds)), if_rounds(lit("whichever comes first")))):
        sheet.merged(across(start, stop, VALUE), ending(value, ended), style)
        sheet.merged(across(start, stop, UNDER), ending(under, ended_under), "card under")
    # the first round or window, station by station
    sheet.merged(across(0, 1, OFF), planned(card_line(STATIONS_LABEL)), "card label")
    for line, before in ((OFF, 0), (MORE, IN_A_ROW)):
        for station in range(IN_A_ROW):
            start = 2 + 3 * station
            sheet.merged(across(start, start + 1, line), shown(card_line(STATION_NAME, f"{before}+COLUMN()/3")), "card station")
            sheet.put(cell(start + 2, line), shown(card_line(STATION_TIME, f"{before}+(COLUMN()-2)/3", later)), "card time")
    sheet.merged(across(0, 1, SETS), planned(f'IF({sets}="";"";IF({people}="";{lit("sets")};{lit("turns")}))'), "card label")
    sheet.merged(across(2, end, SETS), carded(f'IF({ends}="";{sets};{lit("at a pace at which you can talk")})'), "card words")
    # two rows of clocks: the goal, and the next goal down
    sheet.merged(across(0, LABEL - 1, ROUND), planned(card_line(TABLE_LABEL)), "card label")
    for line, label in ((FIRST_CLOCK, goal), (SECOND_CLOCK, lower)):
        sheet.merged(across(0, LABEL - 1, line), f'=IF({label}="";"";{say("for {goal}", goal=label)})', "card label")
    for k in range(1, CLOCKS + 1):
        for line, what, style in ((ROUND, HEADING, "card round"), (FIRST_CLOCK, CLOCK, "card clock"), (SECOND_CLOCK, LOWER_CLOCK, "card clock")):
            sheet.put(cell(LABEL - 1 + k, line), shown(card_line(what, f"COLUMN()-{LABEL}", later)), style)
    for top, bottom in ((ROUND, ROUND), (FIRST_CLOCK, SECOND_CLOCK)):
        sheet.mark(f"{cell(LABEL, top)}:{cell(end, bottom)}", (f'{cell(LABEL, top)}=""', "card empty"))
    sheet.merged(across(0, 11, CHECK), planned(card_line(RULE, 1, later)), "card rule")
    sheet.merged(across(12, end, CHECK), carded("event_heading"), "card stamp")
    sheet.merged(across(0, end, CAUTION), carded(lit("Stop on chest pain, faintness or unusual pain. A plan is not medical advice.")), "card line")
    if card < CARDS - 1:  # marks to cut at, at both edges
        for edge in (0, end):
            sheet.styled(cell(edge, len(HEIGHTS) - 1), "cut bottom")
