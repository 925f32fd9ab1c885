"""What leaves the printer, in the real office: every page of the example's prints, on A4 and Letter, is measured.

Uses BUILD/pacecells.oxt. tests/look leaves the same pages as pictures, for a person to look at.
"""

import re
import subprocess
import time

import pytest
from commands import private_office
from compare import check
from event_cells import by_key, rows_of, typed
from examples import open_example
from office import recalculate, save, type_in
from paper import SIZES, overlapping, pages_of, print_pack, print_sheet, unboxed, use_paper
from sharing import OXT, folder_of, shared

EXTENSIONS = [OXT]
WORK = folder_of(__file__)
BAD = re.compile(r"###|Err:\d+|#(?:NAME|VALUE|REF|N/A|NUM|DIV)")
SMALLEST = {"A4": 9, "Letter": 8}  # points, rounded down: on the shorter paper long words of cards and roster shrink below 9


@pytest.fixture(params=SIZES)
def paper(request):
    return request.param


@pytest.fixture
def event(office, paper):
    document = open_example(office, "rounds")
    use_paper(document, paper)
    recalculate(document)
    return document


def starters(document):
    return [row[3] for row in rows_of(document, "heat_list") if row[3]]


def sound(pages, paper):
    """Nothing on them is an error or too small, and each says which workout it is and when it was printed."""
    for number, page in enumerate(pages, 1):
        check(f"errors on page {number}", BAD.findall(page.text), [])
        check(f"white on white on page {number}", page.unseen, [])
        check(f"page {number}: {page.smallest} pt", page.smallest >= SMALLEST[paper])
        for text in ("Quayside Shed", "version 2", "printed"):
            check(f"{text} on page {number}", text in page.text)


def filled(pages):
    """What hangs on the wall, whatever its number of goals, rounds or people."""
    for page in pages:
        check(f"{page.text.split()[0]}: {page.wide:.0%} by {page.deep:.0%}", page.wide >= 0.9 and page.deep >= 0.8)


def test_the_pack(office, event, paper):
    """Wall, heats, cards, judge's sheets: as many pages as there must be, and each is filled."""
    print_pack(office, event, WORK / "pack.pdf")
    pages, people = pages_of(WORK / "pack.pdf"), len(starters(event))
    sound(pages, paper)
    cards, judges = -(-people // 4), -(-people // 2)
    check("pages", len(pages), 2 + 1 + cards + judges)
    wall, heats, carded, judged = pages[:2], pages[2], pages[3:3 + cards], pages[3 + cards:]
    filled(wall + [heats])
    for name, group, least in (("card", carded, 0.85), ("judge's sheets", judged, 0.8)):
        for page in group[:-1]:
            check(f"{name}: {page.used:.0%}", page.used >= least)
    check("each clock is in its box, and no box is without one", unboxed(WORK / "pack.pdf"), [])
    check("every card", sum(name in page.text for name in starters(event) for page in carded), people)
    check("every judge's sheet", all(any(name in page.text for page in judged) for name in starters(event)))


def test_a_chipper_fills_its_paper(office):
    """A workout of one round: a long text on each card, and on the wall the clock after each station for every goal."""
    event = open_example(office, "chipper")
    recalculate(event)
    print_pack(office, event, WORK / "chipper.pdf")
    pages, people = pages_of(WORK / "chipper.pdf"), len(starters(event))
    wall, carded, judged = pages[:2], pages[3:3 - people // -4], pages[3 - people // -4:]
    filled(pages[:3])
    goals = [row[0] for row in event.Sheets.getByName("Wall")["A4:A12"].getDataArray() if row[0] != ""]
    lines = [line.split() for line in wall[1].text.splitlines() if re.match(r"\s*\d+:\d\d\s", line)]
    check("a line for each goal, and its last clock is the goal", [line[0] == line[-1] for line in lines], [True] * len(goals))
    check("cards and judge's sheets", [page.smallest >= 9 for page in carded + judged], [True] * len(carded + judged))
    check("the whole workout is on each", sum(len(re.findall(r"400\s+m\s+run", page.text)) for page in carded), people)
    check("clocks in their boxes", unboxed(WORK / "chipper.pdf"), [])


def test_few_rounds_fill_the_wall(office):
    """Three rounds have clocks as large as the paper is wide, and their rows share its height; so do those of eight people."""
    event = open_example(office, "rounds")
    names = event.NamedRanges.getByName("roster_name").ReferredCells
    for row in range(8, names.Rows.Count):
        names.getCellByPosition(0, row).String = ""
    wall = event.Sheets.getByName("Wall")
    label = next(cell for cell in (wall.getCellByPosition(10, row) for row in range(40)) if cell.String == "Goal shown")
    type_in(wall.getCellByPosition(10, label.CellAddress.Row + 1), "3")
    event.Sheets[by_key(event, "heat_list").RangeAddress.Sheet].setPrintAreas(())  # somebody took it off
    recalculate(event)
    print_pack(office, event, WORK / "few.pdf")
    pages = pages_of(WORK / "few.pdf")
    check("rounds on the page of clocks", len(re.findall(r"^\s*\d\s+\d+:\d\d", pages[1].text, re.MULTILINE)), 3)
    check("people on the list", len(re.findall(r"^\s*\d\s+\d\s+\d\d:\d\d", pages[2].text, re.MULTILINE)), 8)
    filled(pages[:3])


def test_a_minor_has_a_lane_on_the_list_that_hangs(office):
    """And a name on the card and on the judge's sheet."""
    event = open_example(office, "rounds")
    minor = starters(event)[2]
    keys = by_key(event, "roster").getDataArray()[0]
    row = [name[0] for name in rows_of(event, "roster_name")].index(minor)
    for key, text in (("minor", "yes"), ("consent", "2026-11-20")):
        type_in(by_key(event, "roster").getCellByPosition(keys.index(key), 2 + row), text)
    listed = [row[:3] for row in rows_of(event, "heat_list") if row[3] == minor][0]
    print_pack(office, event, WORK / "minor.pdf")
    pages = [page.text for page in pages_of(WORK / "minor.pdf")]
    heats = next(text for text in pages if "lanes per heat" in text)
    check("no name on the list", minor in heats, False)
    check("the lane is there", len(re.findall(rf"{listed[0]} +{listed[1]} +{listed[2]} +–", heats)), 1)
    check("everybody else is", [name for name in starters(event) if name != minor and name not in heats], [])
    check("card and judge's sheet", sum(minor in text for text in pages), 2)


def test_the_list_says_who_shares_a_machine(office):
    """Where people share machines, which are chosen after the list had none."""
    event = open_example(office, "rounds")
    heats = event.Sheets[by_key(event, "heat_list").RangeAddress.Sheet]
    check("without", [area.EndColumn for area in heats.PrintAreas][:1], [6])
    typed(event, "workout.places", "20")
    units = [row[0] for row in by_key(event, "workout.machines.unit").getDataArray() if row[0]]
    typed(event, "workout.machines.count", *["6"] * len(units))
    label = next(cell for cell in (heats.getCellByPosition(column, 3) for column in range(20)) if cell.String == "Share machines")
    type_in(heats.getCellByPosition(label.CellAddress.Column, label.CellAddress.Row + 1), "yes")
    print_pack(office, event, WORK / "shared.pdf")
    listed = next(page.text for page in pages_of(WORK / "shared.pdf") if "lanes per heat" in page.text)
    check("what they share", "2 per machine, one after the other" in listed and "Machine" in listed)
    rows = [row for row in rows_of(event, "heat_list") if row[3]]
    check("each with a machine", len(re.findall(r"(?:men|women) +\d+$", listed, re.MULTILINE)), len(rows))


@pytest.mark.parametrize("language", ("en", "de", "es", "fr"))
def test_a_judges_sheet_says_where_its_rounds_end(language):
    """Six stations have no room for a second table below; the line is legible in the pack, and live."""
    with private_office(language) as office:
        event = open_example(office, "rounds")
        unit = by_key(event, "workout.stations.unit").getCellByPosition(0, 1).String
        for row in (4, 5):
            for key, text in (("movement", f"Zug {row}"), ("unit", unit), *((f"amount.{division}", "1") for division in range(1, 5))):
                typed(event, f"workout.stations.{key}", text, row=row)
            typed(event, "workout.paces.rep_s", "2", row=row)
        typed(event, "workout.cap", "50:00")
        recalculate(event)
        said = [cell for row in rows_of(event, "judge_page") for cell in row if "R13" in cell]
        check(f"live: {said}", len(said), 2)
        print_pack(office, event, WORK / f"rounds {language}.pdf")
    judged = [page for page in pages_of(WORK / f"rounds {language}.pdf") if "R12" in page.text]
    check("judge's sheets", len(judged) > 1)
    for page in judged:
        words = " ".join(page.text.split())
        check(f"{said[0]} on each sheet", words.count("R13"), words.count("R12"))
        check("no further round", "R14" in words, False)
    legible(WORK / f"rounds {language}.pdf")


LISTED = ("50 wall balls 9/6 kg", "40 box jumps", "30/24 cal row", "20 sandbag cleans 45/30 kg", "30 toes to bar", "400 m run",
          "24 dumbbell snatches 22.5/15 kg", "40 air squats", "36 kettlebell swings 24/16 kg", "28 burpees", "18 ring rows",
          "20 dumbbell thrusters 15/10 kg")
MOVES = ("wall balls", "box jumps", "row", "sandbag cleans", "toes to bar", "run", "dumbbell snatches", "air squats", "kettlebell swings",
         "burpees", "ring rows", "dumbbell thrusters")


def announced(office, text):
    """A new event with this announcement and three people."""
    start, before = office.new(), {one.RuntimeUID for one in office.desktop.Components}
    office.dispatch(start, "vnd.org.pacecells:new-event", Silent="true", Empty="true")
    document = next(one for one in office.desktop.Components if one.RuntimeUID not in before and one != start)
    done = office.dispatch(document, "vnd.org.pacecells:read-as-written", Silent="true", Text=text,
                           Names="Ada Brimsole (f)\nBela Ostrevan (m)\nCora Vantuil (f)")
    assert done.State == 1, done.Result
    recalculate(document)
    return document


@pytest.mark.parametrize("form", ("for time", "AMRAP"))
@pytest.mark.parametrize("count", (1, 8, 9, 12))
def test_every_station_is_on_paper(office, paper, form, count):
    """However long the list: on the wall, on each card and on each judge's sheet, and nothing small or cut."""
    document = announced(office, f'"Long Shelf"\n{form}, cap 60 min, men/women\n' + "\n".join(LISTED[:count]))
    use_paper(document, paper)
    print_pack(office, document, WORK / "stations.pdf")
    pages = pages_of(WORK / "stations.pdf")
    wall = [page for page in pages if page.text.lstrip().startswith("Clock")]
    cards = [page for page in pages if "Stop on chest pain" in page.text]
    judged = [page for page in pages if "running count" in page.text]
    if count > 1:  # of one station there are many rounds
        check("pages of clocks", len(wall), 1 if count + (form == "AMRAP") <= 8 else 2)
    check("pages", len(pages), 2 + len(wall) + len(cards) + len(judged))
    words = " ".join(" ".join(page.text.split()) for page in wall)
    for move in MOVES[:count]:
        check(f"{move} on the wall", all(word in words for word in move.split()))
        check(f"{move} with the judges", sum(page.text.count(move.split()[0]) for page in judged) >= 3)
    for move in MOVES[:count]:
        word = move.split()[-1 if count == 12 and move.startswith("dumbbell") else 0]
        check(f"{word} on each card", sum(len(re.findall(rf"\b{word}\s+\d+:\d\d", page.text)) for page in cards) >= 3)
    for number, page in enumerate(pages, 1):
        check(f"errors on page {number}", BAD.findall(page.text), [])
        check(f"page {number}: {page.smallest} pt", page.smallest >= SMALLEST[paper])
    check("nothing lies over the line below", overlapping(WORK / "stations.pdf"), [])


LONG = {0: "single-arm dumbbell hang clean and jerks", 1: "box jump-overs facing the box, step down",
        3: "sandbag-over-shoulder throws with a walk", 6: "alternating dumbbell snatches from the floor"}


@pytest.fixture
def long_names(office, paper):
    """Twelve stations, some with names that no column holds in one line."""
    document = announced(office, '"Long Shelf"\nAMRAP, cap 60 min, men/women\n' + "\n".join(LISTED))
    for row, name in LONG.items():
        typed(document, "workout.stations.movement", name, row=row)
    use_paper(document, paper)
    recalculate(document)
    return document


def legible(pdf):
    for number, page in enumerate(pages_of(pdf), 1):
        check(f"{pdf.stem}, page {number}: {page.smallest} pt", page.smallest >= 9)
    check(f"{pdf.stem}: nothing lies over the line below", overlapping(pdf), [])


def test_long_names_are_legible_in_the_pack(office, long_names):
    print_pack(office, long_names, WORK / "names.pdf")
    legible(WORK / "names.pdf")
    judged = [" ".join(page.text.split()) for page in pages_of(WORK / "names.pdf") if "running count" in page.text]
    for name in LONG.values():
        check(f"each word of {name} with the judges", all(word in judged[0] for word in name.split()))


def test_the_cards_of_the_workbook_show_all_of_a_long_workout(office, long_names):
    """When somebody turns to them, on screen and in the office's own print; and when other cards are chosen."""
    page = by_key(long_names, "card_page").RangeAddress
    long_names.Sheets[page.Sheet].Rows[2].Height = 400  # the workout on the first card, in one line
    save(long_names, WORK / "long.ods")
    opened = office.open(WORK / "long.ods")
    sheet = opened.Sheets[page.Sheet]

    def wait():
        for _ in range(400):
            if sheet.Rows[2].Height > 1000:
                return
            time.sleep(0.05)
        pytest.fail(f"the workout has a height of {sheet.Rows[2].Height / 100} mm")

    opened.CurrentController.setActiveSheet(sheet)
    wait()
    check("no change to be saved, and no step to be undone", (opened.isModified(), opened.UndoManager.AllUndoActionTitles), (False, ()))
    check("the row of sets, where there are none, is left out", [sheet.Rows[row].IsVisible for row in (6, 7)], [True, False])
    print_sheet(opened, sheet, WORK / "live.pdf")
    legible(WORK / "live.pdf")
    text = " ".join(" ".join(page.text.split()) for page in pages_of(WORK / "live.pdf"))
    check("the last station on each of three cards", len(re.findall(r"20 dumbbell thrusters 1[05] kg", text)), 3)
    sheet.Rows[2].Height = 400
    by_key(opened, "card_first").setValue(2)
    wait()


def test_every_window_in_turn_is_on_paper(office):
    """24 windows of twelve stations: the wall names each with its station, and the judge has a column for both times."""
    text = "EMOM 24, in turn, men/women: " + ", ".join(("12/9 cal row" if " row" in one else "200 m run" if " run" in one else f"9 {move}")
                                                       for one, move in zip(LISTED, MOVES))
    document = announced(office, text)
    print_pack(office, document, WORK / "windows.pdf")
    pages = pages_of(WORK / "windows.pdf")
    wall = [page for page in pages if page.text.lstrip().startswith("Clock")]
    check("pages of clocks", len(wall), 1)
    lines = [line for line in wall[0].text.splitlines() if len(re.findall(r"\d+:\d\d", line)) == 3]
    numbers = [int(number) for line in lines for number in re.findall(r"(?<![\d:])(\d+)\s+[a-z]", line)]
    check("every window", sorted(numbers), list(range(1, 25)))
    check("names are legible", wall[0].smallest >= 8)  # the footer, which shrinks with so wide a page
    judged = [page.text for page in pages if "running count" in page.text]
    check("both times", [(text.count("1–12"), text.count("13–24")) for text in judged], [(2, 2), (1, 1)])


def test_long_headings_of_the_wall_are_whole():
    """Four divisions with names of three words, as the French example has them."""
    with shared([OXT], "french", language="fr", locale="fr-FR") as french:
        event = open_example(french, "ladder")
        recalculate(event)
        print_pack(french, event, WORK / "headings.pdf")
    boxes = subprocess.run(["pdftotext", "-bbox", "-l", "1", WORK / "headings.pdf", "-"], capture_output=True, check=True).stdout.decode()
    words = [(text, float(top), float(bottom)) for top, bottom, text in
             re.findall(r'yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">(.*?)</word>', boxes)]
    above = max(bottom for text, _top, bottom in words if text == "Quayside")
    below = min(top for text, top, _bottom in words if text == "1:49")
    check("below the line with the gym", min(top for text, top, _bottom in words if text == "RAMEUR") >= above - 1)
    check("above the first goal", max(bottom for text, _top, bottom in words if text in ("femmes", "hommes")) <= below + 3)


def test_a_large_caution_does_not_push_the_wall_off_its_page():
    """Few goals and no long headings make the scale of a page large, and the French caution is the longest."""
    with shared([OXT], "french", language="fr", locale="fr-FR") as french:
        event = open_example(french, "pairs")
        use_paper(event, "Letter")
        recalculate(event)
        print_pack(french, event, WORK / "caution.pdf")
    pages = pages_of(WORK / "caution.pdf")
    check("goals, clocks, heats", [page.text.split()[0] for page in pages[:3]], ["Deux", "Chrono", "Vagues"])
    filled(pages[:3])


@pytest.mark.parametrize("sheet", ("Roster", "Results"))
def test_24_people_are_one_page(office, event, paper, sheet):
    office.dispatch(event, "vnd.org.pacecells:fit-prints", Silent="true")
    print_sheet(event, event.Sheets.getByName(sheet), WORK / f"{sheet}.pdf")
    pages = pages_of(WORK / f"{sheet}.pdf")
    sound(pages, paper)
    check("pages", len(pages), 1)
    check(f"{sheet}: {pages[0].wide:.0%} by {pages[0].deep:.0%}", pages[0].used >= 0.8)


def test_judges_sheets_are_two_to_a_page(office, event, paper):
    """Each sheet is whole: where its rounds are, there is the place for score and signature."""
    print_pack(office, event, WORK / "pack.pdf")
    judged = [page.text for page in pages_of(WORK / "pack.pdf") if "signature" in page.text or "running count" in page.text]
    check("pages for 23 people", len(judged), 12)
    for number, text in enumerate(judged, 1):
        sheets = 2 if number < 12 else 1
        check(f"page {number}", (text.count("running count"), text.count("signature")), (sheets, sheets))
