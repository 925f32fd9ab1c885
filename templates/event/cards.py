"""The sheet Cards: one live page of four, in the order of the start list. card_first says whose come first."""

from builder import address, column, pc

from event.sizes import athlete, of_team, row_of

CARDS, COLUMNS = 4, 20
# The lines of ATHLETE.CARD, from 1. An easy plan has an end in place of goal, time and rate.
(GOAL_IS, TIME, TIME_IS, RULE, SETS_LINE, STATIONS_LABEL, STATION_NAME, STATION_TIME, TABLE_LABEL, HEADING, CLOCK, LOWER_CLOCK, RATE, LIMITS, GOAL,
 SETS_LABEL, CLOCK_LABEL, LOWER_LABEL) = range(1, 19)
LABEL, CLOCKS = 4, COLUMNS - 4  # columns of the label, clocks beside it
# air, name, workout, goal and rate, what they are, two rows of stations, sets, rounds, two rows of clocks, what to go by,
# caution, air. The commands that print leave the second row of stations out where it is blank, and give workout and sets
# as many lines as they need.
HEIGHTS = (2, 6.6, 8.2, 9.8, 4.4, 4.6, 4.6, 8.2, 4.2, 4.6, 4.6, 4.7, 4.3, 0.7)
NAME, LINE, VALUE, UNDER, OFF, MORE, SETS, ROUND, FIRST_CLOCK, SECOND_CLOCK, CHECK, CAUTION = range(1, len(HEIGHTS) - 1)
ROWS = len(HEIGHTS)
ASIDE = [column(COLUMNS + 2 + step) for step in range(3)]  # beside the card, out of sight
IN_A_ROW = 6  # stations


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
    lit = book.texts.lit
    first = card * ROWS + 1
    end = COLUMNS - 1
    cell = lambda col, line: address(col, first + line - 1)
    across = lambda start, stop, line: f"{cell(start, line)}:{cell(stop, line)}"
    for line, height in enumerate(HEIGHTS):
        sheet.heights(first + line, first + line, height)

    # Out of sight: place in the start list, how much later this lane starts, row of the roster; the goal, and of a team who does what.
    place, later = (f"${ASIDE[0]}${first + line}" for line in (0, 2))
    who, goal, turns = f"${ASIDE[1]}${first}", f"${ASIDE[2]}${first}", f"${ASIDE[0]}${first + 1}"
    put = lambda where, formula: sheet.put(where.replace("$", ""), formula, "working")
    line_of = lambda line, *more: athlete("CARD", f"INDEX(roster_people;{who};0)", line, *more)
    listed = lambda k: f"INDEX(heat_list;{place};{k})"
    shown = lambda value: f'=IF({who}=0;"";{value})'
    carded = lambda value: f'=IF({goal}="";"";{value})'  # nothing for who has no plan
    put(place, f"=MAX(card_first;1)+{card}")
    put(who, f'=IF({listed(4)}="";0;{row_of(listed(4))})')
    put(goal, shown(line_of(GOAL)))
    put(turns, shown(of_team(who, 8)))
    # on a shared machine people start one after the other; their clocks are those of the clock on the wall
    put(later, f"=N({listed(6)})")

    sheet.merged(across(0, 11, NAME), carded(of_team(who, 7)), "card name")
    sheet.merged(across(12, end, NAME), carded(pc("HEAT.START", "workout", f"INDEX(heat_list;{place};0)")), "card place")
    sheet.merged(across(0, end, LINE), carded(pc("WORKOUT.TEXT", "workout", f"INDEX(roster_division;{who})")), "card workout")
    # goal, time per round, rate: the largest on the card
    for start, stop, value, style, under in ((0, 5, goal, "card value", line_of(GOAL_IS, 1, later)),
                                             (6, 11, line_of(TIME, 1, later), "card value time", line_of(TIME_IS)),
                                             (12, end, line_of(RATE), "card value", line_of(LIMITS))):
        sheet.merged(across(start, stop, VALUE), carded(value), style)
        sheet.merged(across(start, stop, UNDER), carded(under), "card under")
    # the first round or window, station by station
    sheet.merged(across(0, 1, OFF), carded(line_of(STATIONS_LABEL)), "card label")
    for line, before in ((OFF, 0), (MORE, IN_A_ROW)):
        for station in range(IN_A_ROW):
            start = 2 + 3 * station
            sheet.merged(across(start, start + 1, line), shown(line_of(STATION_NAME, f"{before}+COLUMN()/3")), "card station")
            sheet.put(cell(start + 2, line), shown(line_of(STATION_TIME, f"{before}+(COLUMN()-2)/3", later)), "card time")
    sheet.merged(across(0, 1, SETS), carded(f'IF({turns}="";{line_of(SETS_LABEL)};{lit("turns")})'), "card label")
    sheet.merged(across(2, end, SETS), carded(f'IF({turns}="";{line_of(SETS_LINE)};{turns})'), "card words")
    # two rows of clocks: the goal, and the next goal down
    for line, label in ((ROUND, TABLE_LABEL), (FIRST_CLOCK, CLOCK_LABEL), (SECOND_CLOCK, LOWER_LABEL)):
        sheet.merged(across(0, LABEL - 1, line), carded(line_of(label)), "card label")
    for k in range(1, CLOCKS + 1):
        for line, what, style in ((ROUND, HEADING, "card round"), (FIRST_CLOCK, CLOCK, "card clock"), (SECOND_CLOCK, LOWER_CLOCK, "card clock")):
            sheet.put(cell(LABEL - 1 + k, line), shown(line_of(what, f"COLUMN()-{LABEL}", later)), style)
    for top, bottom in ((ROUND, ROUND), (FIRST_CLOCK, SECOND_CLOCK)):
        sheet.mark(f"{cell(LABEL, top)}:{cell(end, bottom)}", (f'{cell(LABEL, top)}=""', "card empty"))
    sheet.merged(across(0, 11, CHECK), carded(line_of(RULE, 1, later)), "card rule")
    sheet.merged(across(12, end, CHECK), carded("event_heading"), "card stamp")
    sheet.merged(across(0, end, CAUTION), carded(lit("Stop on chest pain, faintness or unusual pain. A plan is not medical advice.")), "card line")
    if card < CARDS - 1:  # marks to cut at, at both edges
        for edge in (0, end):
            sheet.styled(cell(edge, len(HEIGHTS) - 1), "cut bottom")
