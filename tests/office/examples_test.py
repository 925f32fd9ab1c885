"""The example events of the other forms of workout, from the announcement in the list to the cards.

Uses BUILD/pacecells.oxt and templates/examples. Amounts and names are those of the lists.
"""

import re
import subprocess
from datetime import date, timedelta

import pytest
from commands import private_office, run
from compare import check
from event_cells import bad_cells, by_key, column_of, rows_of
from office import enter, result, save
from paper import pages_of, print_pack
from sharing import OXT, ROOT, folder_of, shared

WORK = folder_of(__file__)
# What the announcement comes to: format, stations, people who start, and how a goal is written.
EXAMPLES = {
    "intervals": ("intervals", [("row", "row cal", "14"), ("push presses", "reps", "12"), ("burpees over the bar", "reps", "max")], 15, r"8 x \d+"),
    "scheme": ("for time", [("ski", "ski cal", "21-15-9"), ("thrusters", "reps", "21-15-9"), ("pull-ups", "reps", "21-15-9")], 15,
               r"\d+:\d\d|\d+( \+ .*)?|[a-z -]+"),
    "chipper": ("for time", [("wall balls", "reps", "50"), ("box jumps", "reps", "40"), ("row", "row cal", "30"),
                             ("sandbag cleans", "reps", "20"), ("toes to bar", "reps", "30"), ("run", "run m", "400")], 15,
                r"\d+:\d\d|[a-z -]+"),
    "pairs": ("AMRAP", [("row", "row cal", "40"), ("wall balls", "reps", "30"), ("burpees", "reps", "20")], 16, r"\d+( \+ .*)?"),
}


# What stands on a card of each form, beside goal and clocks.
CARDS = {
    "intervals": (r"goal: windows x burpees", r"of work per window, 0:\d\d to spare", r"All windows hold\.", r"per window", r"after window"),
    "scheme": (r"goal: finish · tie-break \d+:\d\d", r"per round", r"after round", r"Round \d after \d+:\d\d\? Take the lower row\."),
    "chipper": (r"goal: finish", r"half: \d+/\d+ .+", r"after station", r"\d+:\d\d: \d+/\d+ .+ · \d+:\d\d: \d+/\d+ .+"),
    "pairs": (r"goal: rounds", r"per round", r"after round"),
}


@pytest.fixture
def office():
    with private_office() as running:
        yield running


def opened(office, example):
    start = office.new()
    check(f"example {example}", run(office, start, "example-event", Example=example), (True, ""))
    return next(one for one in office.desktop.Components if one != start)


def list_of(example, heading):
    """The rows under a heading of the list."""
    text = (ROOT / "templates" / "examples" / f"{example}.txt").read_text(encoding="utf-8")
    return text.split(f"\n[{heading}]\n")[1].split("\n\n[")[0].split("\n")


@pytest.mark.parametrize("example", EXAMPLES)
def test_from_the_announcement_to_cards(office, example):
    form, stations, starters, goal = EXAMPLES[example]
    document = opened(office, example)
    shown = lambda key, row=0: by_key(document, key).getCellByPosition(0, row).String
    check("complete", shown("workout_check"), "")
    check("format", shown("workout.format"), form)
    got = [tuple(shown(f"workout.stations.{key}", row) for key in ("movement", "unit", "amount.1")) for row in range(len(stations) + 1)]
    check("stations", got, [*stations, ("", "", "")])
    check("title is that of the announcement", shown("workout.title"), list_of(example, "announcement")[0].strip('"'))
    check("errors", bad_cells(document), [])

    names = [row[0] for row in rows_of(document, "roster_name") if row[0]]
    check("people of the list", names, list_of(example, "roster_name"))
    goals = dict(zip(names, column_of(document, "roster", "aim")))
    plans = dict(zip(names, (row[0] for row in rows_of(document, "roster_plan"))))
    starts = [name for name in names if plans[name] != "not today"]
    check("who starts", len(starts), starters)
    full = [name for name in starts if not plans[name]]
    check(f"goals {goals}", all(re.fullmatch(goal, goals[name]) for name in full))
    check(f"sets {column_of(document, 'roster', 'sets')}", any(column_of(document, "roster", "sets")))

    listed = [row[3] for row in rows_of(document, "heat_list") if row[0]]
    check("everybody who starts is in a heat", sorted(listed), sorted(starts))
    cards = by_key(document, "card_page")
    page = [cell.String for cell in cards.queryContentCells(23).Cells if cell.String]
    for name in listed[:4]:
        check(f"a card for {name}", any(name in text for text in page))
        if name in full:
            check(f"its goal {goals[name]} in {page}", any(text.split(" ")[0] == goals[name].split(" ")[0] or goals[name] in text for text in page))
    if example == "pairs":
        check(f"who does what in {page}", any(re.fullmatch(r"\w+: row .+ burpees .+ · \w+: row .+", text) for text in page))
        check("the team on the card", any("teams of 2, 1 at a time" in text for text in page))
    if example == "scheme":  # "clock after the 15 pull-ups": within round 2, after its thrusters
        sheet = document.Sheets.getByName("Lists")
        of = lambda row, call, *more: f"=ATHLETE.{call}(workout;tests;roster_keys;INDEX(roster_people;{row};0);{';'.join(map(str, more))})"
        clocks = []
        for step, call in enumerate((("CHECK", 3), ("CLOCK", 2, 2), ("CLOCK", 2))):
            enter(sheet.getCellByPosition(40, step), of(2, *call))
            clocks.append(result(sheet.getCellByPosition(40, step)))
        check(f"clock at the tie-break {clocks}", clocks[1] < clocks[0] <= clocks[2])
    if example in ("scheme", "chipper"):  # for time, with no goals typed for the wall
        seconds = lambda text: sum(int(part) * 60 ** place for place, part in enumerate(reversed(text.split(":"))))
        wall = [document.Sheets["Wall"][f"A{row}"].String for row in range(4, 13)]  # a note is below
        hung = [seconds(text) for text in wall if text]
        inside = [name for name in full if hung[0] <= seconds(goals[name].split("+")[0].strip()) <= hung[-1]]
        check(f"goals {goals} on the wall {wall}", 4 * len(inside) >= 3 * len(full))
    judge = [cell.String.strip() for cell in by_key(document, "judge_page").queryContentCells(23).Cells if cell.String.strip()]
    check("a judge's sheet for the first two", all(any(name in text for text in judge) for name in listed[:2]))
    if example == "intervals":  # 11 cal and 12 presses: a window is counted by itself
        check(f"running count in {judge}", judge.count("11") >= 16 and judge.count("23") >= 16)
        cell = document.Sheets.getByName("Lists").getCellByPosition(40, 0)
        for formula, reps in (('=WORKOUT.COUNT(workout;"women";2;2)', 23), ('=WORKOUT.COUNT(workout;"women";2)', 46)):
            enter(cell, formula)
            check(f"{formula}: a window alone where a judge counts, all that was done for the result", result(cell), reps)
        enter(cell, "")
    for pattern in CARDS[example]:
        check(f"{pattern} on a card: {page}", any(re.fullmatch(pattern, text) for text in page))
    check("a card speaks of rounds where there are some", any("per round" in text for text in page), example in ("scheme", "pairs"))
    if example == "chipper":  # each station once: its clocks, for both goals, and where to be in between
        clocks = [text for text in page if re.fullmatch(r"\d+:\d\d", text)]
        check(f"clocks by station in {clocks}", len(clocks) >= 4 * 2 * len(stations))
    if example == "scheme":
        check("judges know the tie-break", any(text.endswith("tie-break: clock after the 15 pull-ups") for text in judge))
    print_pack(office, document, WORK / f"{example}-pack.pdf")
    heads = [page.text.strip().split("\n")[0] for page in pages_of(WORK / f"{example}-pack.pdf")]
    check(f"a page each for goals and clocks, then the heats: {heads[:4]}",
          [heads[0], heads[1].startswith("Clock "), heads[2]], [shown("event_title"), True, "Heats"])
    save(document, WORK / f"{example}.pdf")  # to look at
    shown_on_paper = subprocess.run(["pdftotext", "-layout", WORK / f"{example}.pdf", "-"], capture_output=True, text=True, check=True).stdout
    check("nothing too wide for its cell", [line for line in shown_on_paper.split("\n") if "###" in line], [])
    save(document, WORK / f"{example}.ods")


def test_prints_are_dated_in_the_language_of_the_workbook():
    """In an office whose settings write dates and times in another way."""
    with shared([OXT], "dates", language="de", locale="en-US") as office:
        document = opened(office, "pairs")
        print_pack(office, document, WORK / "dates.pdf")
    text = subprocess.run(["pdftotext", "-layout", WORK / "dates.pdf", "-"], capture_output=True, text=True, check=True).stdout
    pages = text.split("\f")[:-1]
    today = {f"{day:%d.%m.%Y}" for day in (date.today(), date.today() - timedelta(1))}
    footers = [re.search(r"gedruckt (\S+) (\S+), Seite (\d+) von (\d+)", page) for page in pages]
    assert all(footers), text
    check("pages", [[int(footer[3]), int(footer[4])] for footer in footers], [[k + 1, len(pages)] for k in range(len(pages))])
    assert {footer[1] for footer in footers} <= today
    assert all(re.fullmatch(r"\d\d:\d\d", footer[2]) for footer in footers)
