"""The sheet Cards: one live page of four, in the order of the start list. card_first says whose come first."""

from builder import address, column, pc

from event.sizes import athlete

CARDS, COLUMNS = 4, 20
LABEL, CLOCKS = 3, COLUMNS - 3  # columns of the label, clocks beside it
HEIGHTS = (7, 4.8, 10.5, 4.8, 5.2, 8.6, 4, 5, 5, 5, 4.2, 1.5)
ROWS = len(HEIGHTS)
ASIDE = [column(COLUMNS + 2 + step) for step in range(7)]  # beside the card, out of sight
STATIONS = 6
RATE = '"[<1][M]:SS;0"'  # a split is a time, cal/h and watts are whole


def first_word(cell):
    """Enough of a movement's name for those who have done it."""
    return f'LEFT({cell};FIND(" ";{cell}&" ")-1)'


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
    parts = (("GOAL", 3), ("GOAL", 4), ("RATE", 1), ("RATE", 2), ("RATE", 3), ("RATE", 4), ("RATE", 5), ("RATE", 6), ("CHECK", 1), ("CHECK", 2), ("NOTE",), ("SETS", 0))
    kept = {}
    for step, part in enumerate(parts):
        at = f"{ASIDE[2 + step // 5]}{first + step % 5}"
        sheet.put(at, shown(of(*part)), "working")
        kept[part] = at.replace(ASIDE[2 + step // 5], f"${ASIDE[2 + step // 5]}$")
    goal, lower = kept["GOAL", 3], kept["GOAL", 4]
    unit = f"$'{book.workout.title}'.{book.settings['rate_unit']}"
    unit = f'IF({unit}="";INDEX({book.words["rate"]};1);{unit})'
    planned = lambda value: f'=IF({goal}="";"";{value})'

    division = f"INDEX(roster_division;{who})"
    sheet.merged(across(0, 9, 0), shown(listed(4)), "card name")
    lane = say("Heat {heat}, lane {lane}", heat=listed(1), lane=listed(2)) + f'&IF({listed(3)}="";"";", "&TEXT({listed(3)};"H:MM"))'
    sheet.merged(across(10, end, 0), shown(lane), "card place")
    sheet.merged(across(0, end, 1), shown(pc("WORKOUT.TEXT", "workout", division)), "card line")
    # goal, time per round, rate: the largest on the card
    sheet.merged(across(0, 5, 2), planned(goal), "card value")
    sheet.merged(across(6, 10, 2), planned(of("TARGET")), "card value time")
    sheet.merged(across(11, end, 2), planned(f'IF({kept["RATE", 1]}="";"";{kept["RATE", 5]}&" "&TEXT({kept["RATE", 1]};{RATE})&" "&{unit})'), "card value")
    sheet.merged(across(0, 5, 3), planned(f'IF(event_kind=2;{lit("goal: finish")};{lit("goal: rounds")})'), "card under")
    sheet.merged(across(6, 10, 3), planned(lit("per round")), "card under")
    limits = say("{amount} in {time} ({from} makes it; max {most})", amount=kept["RATE", 6], time=f'TEXT({kept["RATE", 4]};"[M]:SS")',
                 **{"from": f'TEXT({kept["RATE", 2]};{RATE})', "most": f'TEXT({kept["RATE", 3]};{RATE})'})
    sheet.merged(across(11, end, 3), f'=IF({kept["RATE", 1]}="";"";{limits})', "card under")
    # the first round, station by station
    sheet.merged(across(0, 1, 4), planned(lit("off by")), "card label")
    for station in range(STATIONS):
        start = 2 + 3 * station
        heading = f"${ASIDE[-1]}${first + station}"
        # the headings of any goal: one round, or for time the cap
        goal_of_any = f"IF(event_kind=2;$'{book.workout.title}'.{book.settings['cap']};1)"
        sheet.put(heading.replace("$", ""), shown(pc("WORKOUT.CLOCKS", "workout", goal_of_any, division, 0, station + 2)), "working")
        sheet.merged(across(start, start + 1, 4), planned(f'IF({cell(start + 2, 4)}="";"";{first_word(heading)})'), "card station")
        sheet.put(cell(start + 2, 4), shown(of("CLOCK", 1, station + 1)), "card time")
    sheet.merged(across(0, 1, 5), planned(lit("sets")), "card label")
    sheet.merged(across(2, end, 5), f'=IF({goal}="";{kept["NOTE",]};{kept["SETS", 0]})', "card words")
    # two rows of clocks: the goal, and the next goal down
    sheet.merged(across(0, LABEL - 1, 6), planned(lit("round")), "card label")
    for line, label in ((7, goal), (8, lower)):
        sheet.merged(across(0, LABEL - 1, line), f'=IF({label}="";"";{say("for {goal}", goal=label)})', "card label")
    for k in range(1, CLOCKS + 1):
        at = lambda line: cell(LABEL - 1 + k, line)
        sheet.put(at(7), shown(of("CLOCK", k)), "card clock")
        sheet.put(at(8), shown(of("CLOCK", k, "", 2)), "card clock")
        sheet.put(at(6), f'=IF({at(7)}="";"";{k})', "card round")
    for line in (6, 7, 8):
        sheet.mark(across(LABEL, end, line), (f'{cell(LABEL, line)}=""', "card empty"))
    rule = say("Round {round} after {clock}? Take the lower row.", round=kept["CHECK", 1], clock=f'TEXT({kept["CHECK", 2]};"[M]:SS")')
    sheet.merged(across(10, end, 9), shown("event_heading"), "card stamp")
    sheet.merged(across(0, 9, 9), f'=IF({kept["CHECK", 1]}="";"";{rule})', "card rule")
    sheet.merged(across(0, end, 10), shown(lit("Stop on chest pain, faintness or unusual pain. A plan is not medical advice.")), "card line")
    if card < CARDS - 1:  # marks to cut at, at both edges
        for edge in (0, end):
            sheet.styled(cell(edge, 11), "cut bottom")
