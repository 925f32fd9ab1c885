"""The sheet Roster: people, and what their plan comes to.

A column is one entry of COLUMNS: what it is called, what it holds, how wide it is, what it does. To add one, add it there
and its texts to the translations.
"""

from itertools import groupby

from builder import Column, column, pc
from com.sun.star.table.TableOrientation import COLUMNS as BY_COLUMN

from event.sizes import ATHLETES, DAY, athlete, top

KEYS, HEAD, FIRST = 5, 6, 7  # rows, counted from 1
LAST = FIRST + ATHLETES - 1


def plan(function, *arguments):
    """The function's answer for the person in this row."""
    return "=" + athlete(function, f"$B{{row}}:{column(len(READ))}{{row}}".replace(":", ":$"), *arguments)


def of_team(index, last="twice"):
    """HEAT.TEAM for the person in this row, from the columns up to that one."""
    people = (f"$B${KEYS}:${{{last}}}${KEYS}", f"$B${FIRST}:${{{last}}}${LAST}")
    return pc("HEAT.TEAM", "workout", "tests", *people, f"ROW()-ROW($B${HEAD})", index)


# What a plan reads, side by side from column B on; their keys are what the functions find them by.
READ = (
    Column("name", "Name", 34, "input text shrunk", named=True, help="Once only; if two people share a name, add a letter."),
    Column("division", "Division", 36, "input shrunk", named=True, help="The divisions are named on the sheet Workout.",
           rule=("choose", "list_divisions", "Choose a division; they are named on the sheet Workout.")),
    Column("plan", "Plan for the day", 19.5, "input shrunk", named=True, help="Empty is full. Easy and technique: no goal, and an end well before the cap.",
           rule=("choose", "list_plan", "Choose from the list; empty means full.")),
    Column("group", "Pace group", 13, "input center", named=True, help="Used where there is no test.",
           rule=("choose", "list_groups", "Choose a pace group; they are on the sheet Workout.")),
    Column("goal", "Own goal", 14, "input score", named=True, help="Rounds 7, a score 5+20, a station 5 + bags, or a time 10:30. Empty: the suggested goal."),
    Column("answer", "Could go on?", 16.5, "input shrunk", named=True, help="Asked after the practice round at planned pace: could you go on like this to the end?",
           rule=("choose", "list_answer", "Choose the answer from the list.")),
    Column("team", "Team", 14, "input shrunk", named=True, help="Workouts for pairs and teams: the same name, or number, for all people of a team."),
    Column("pacing", "Pacing", 28, "input shrunk", help="Even, with a fade, or faster at the end. Empty: as on the sheet Workout. To fix says what it costs.",
           rule=("choose", "pacing", "Choose a pacing from the list."), shown="folded"),
    Column("minor", "Minor", 12, "input center", help="Yes for people who need a guardian's consent. Without its date they get no plan and no card.",
           rule=("choose", "list_yes", "Choose yes for a minor; otherwise leave empty."), shown="folded"),
    Column("consent", "Guardian's consent", 22, "input date", help="The date of the guardian's consent; nothing else is stored.",
           rule=("limit", *DAY, "Enter the date of the consent."), shown="folded"),
    Column("twice", "Twice", 12, "working", '=' + pc("HEAT.PERSON", '${name}{row}&""', "roster_name", "", 2) + ">1", shown="hidden"),
    Column("team_plan", "Part of the team", 20, "working", f'=IF(${{team}}{{row}}="";"";{of_team(5)})', shown="hidden"),
)

JUDGE = Column("judge", "Can judge", 11, "input center", named=True, help="Only these people are asked to judge; who does not start is asked first.",
               rule=("choose", "list_yes", "Choose yes for people who can judge; otherwise leave empty."))

RESULTS = (
    Column("aim", "Goal", 36, "cell strong shrunk", plan("GOAL", 3), help="Own goal if there is one, otherwise the suggested goal."),
    Column("target", "Target time per round", 14, "cell strong time", plan("TARGET"), help="Mean time per round that makes the goal."),
    Column("hold", "Rate to hold", 14, "cell rate", plan("RATE", 1), help="On the ergometer: cal/h, watts or split as set on the sheet Workout."),
    Column("predicted", "Predicted", 17, "cell center shrunk", plan("SCORE", 4), help="What the tests and the pace say is most likely."),
    Column("range", "Range", 24, "cell center shrunk", plan("SCORE", 5), help="Eight times in ten between these two."),
    Column("margin", "Margin", 19, "cell shrunk", plan("MARGIN", 1), help="How much room the goal leaves."),
    Column("sets", "Sets: start with, then", 84, "cell shrunk", plan("SETS", 0), help="Start with the first scheme; fall back to the second when it no longer holds."),
    Column("suggested", "Suggested goal", 20, "cell rate", plan("GOAL", 2), shown="folded"),
    Column("loads", "Loads", 70, "cell shrunk", plan("SETS", 0, 5), help="The division's loads, and their share of the person's maximum.", shown="folded"),
    Column("practice", "Practice", 80, "cell shrunk", plan("REHEARSAL", 4), shown="folded"),
    Column("message", "Message", 90, "cell words", plan("TEXT"), shown="folded"),
    Column("lane", "In the lane", 20, "working", f'=IF(${{team}}{{row}}="";TRIM(${{name}}{{row}});{of_team(1)})', named=True, shown="hidden"),
    Column("rank", "Order", 20, "working", plan("SCORE", 6), named=True, shown="hidden"),
    # at the end, where a long sentence runs on over empty cells
    Column("note", "To fix", 120, "cell", f'=TRIM({of_team(6)}&" "&{plan("NOTE")[1:]})', help="What is missing, old or unlikely in this row."),
)
COLUMNS = READ + (JUDGE,) + RESULTS


def make(book):
    sheet = book.roster
    top(sheet, "Roster")
    sheet.numbers(f"A{FIRST}", ATHLETES)
    sheet.text(f"A{HEAD}", "No.", "column head")
    sheet.widths("A", 8, *[col.width for col in COLUMNS])
    for place, col in enumerate(COLUMNS, 1):
        make_column(book, sheet, column(place), col)
    last_read = column(len(READ))
    sheet.name("roster", f"B{KEYS}:{column(len(COLUMNS))}{LAST}")
    sheet.name("roster_keys", f"B{KEYS}:{last_read}{KEYS}")
    sheet.name("roster_people", f"B{FIRST}:{last_read}{LAST}")
    sheet.hide_rows(KEYS, KEYS)
    sheet.text("B4", "Enter here", "section")
    sheet.styled(f"B4:{column(1 + len(READ))}4", "section")
    first = column(2 + len(READ))
    sheet.text(f"{first}4", "Calculated", "section")
    sheet.styled(f"{first}4:{column(len(COLUMNS))}4", "section")
    sheet.heights(HEAD, HEAD, 17)
    sheet.heights(FIRST, LAST, 5.6)  # 24 people fit on a page
    for shown, run in groupby(enumerate(COLUMNS, 1), lambda place: place[1].shown):
        if shown == "folded":
            folded = [column(place) for place, _col in run]
            sheet.close(f"{folded[0]}1:{folded[-1]}1", BY_COLUMN)
    sheet.freeze(f"C{FIRST}")
    # sets are on the cards, what is to be fixed is for the screen
    last = column(next(place for place, col in enumerate(COLUMNS, 1) if col.key == "margin"))
    sheet.page(f"A1:{last}{LAST}", landscape=True, repeat=(1, HEAD))


def make_column(book, sheet, letter, col):
    cells = f"{letter}{FIRST}:{letter}{LAST}"
    sheet.put(f"{letter}{KEYS}", col.key, "working")
    sheet.text(f"{letter}{HEAD}", col.label, "column head")
    if col.formula:
        letters = {other.key: column(place) for place, other in enumerate(COLUMNS, 1)}
        sheet.down(f"{letter}{FIRST}", col.formula.format(row=FIRST, **letters), ATHLETES, col.style)
    else:
        sheet.styled(cells, col.style)
    col.limit(sheet, cells)
    if col.help:
        sheet.hint(f"{letter}{HEAD}", col.label, col.help)
    if col.named:
        sheet.name(f"roster_{col.key}", cells)
    if col.shown == "hidden":
        sheet.hide_columns(letter, letter)
