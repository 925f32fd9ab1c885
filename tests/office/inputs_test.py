"""How little a coach with 24 people, with a logbook and without one, has to type until the cards are printed. Each field
that is typed and each click counts one, the menu and the file's name included.

Uses BUILD/pacecells.oxt and its templates.
"""

import re
import shutil
import subprocess

import pytest
from commands import run
from compare import check
from event_cells import by_key, column_of
from logbook_kit import TODAY, area, new_event, new_logbook
from office import type_in
from paper import print_sheet
from sharing import OXT, folder_of

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWX"
NAMES = [f"{letter}ea {letter}arnvik" for letter in LETTERS]


@pytest.fixture
def logbook(office):
    """24 people, every second with a test on the ski ergometer; values of the gym's own."""
    file = new_logbook(
        office, WORK, people=[{"name": name, "division": "as written", "group": "BCD"[k % 3]} for k, name in enumerate(NAMES)],
        tests=[{"name": name, "date": TODAY - 20, "what": "Ski", "time": 5 / 1440, "calories": 55 + k} for k, name in enumerate(NAMES[::2])])
    book = office.open(file)
    for table, name, key, value in (("movements", "Ring row", "rep_s", 2.7), ("machines", "Ski", "calh", 777)):
        keys, _headings, *rows = area(book, f"logbook_{table}").getDataArray()
        row = next(place for place, row in enumerate(rows) if row[keys.index("name")] == name)
        area(book, f"logbook_{table}").getCellByPosition(keys.index(key), 2 + row).Value = value
    book.store()
    book.close(True)
    return file


def gyms_own(event):
    """The values of the logbook are in the event."""
    check("the gym's own pace of a movement", round(by_key(event, "workout.paces.rep_s").getDataArray()[3][0], 6), 2.7)
    check("and of a machine", round(by_key(event, "workout.paces.calh").getDataArray()[0][0], 6), 777)


def read_as_written(office, names):
    """The workbook that the command makes of an announcement and a list of names, what was typed, and what it said."""
    before = {document.RuntimeUID for document in office.desktop.Components}
    pasted = {"Text": "17 min AMRAP: 12 cal ski, 6 thrusters 40 kg, 8 box step-overs, 6 ring rows", "Names": "\n".join(names)}
    done, said = run(office, office.new(), "read-as-written", **pasted)
    assert done, said
    event = next(document for document in office.desktop.Components
                 if document.RuntimeUID not in before and "workout" in document.NamedRanges.ElementNames)
    return event, ["menu", "Read as written…", *pasted, "Fill in"], said


def printed(office, event):
    """The cards, and the inputs that it takes to have them."""
    event.calculateAll()
    check("the workout is complete", by_key(event, "workout_check").String, "")
    goals = column_of(event, "roster", "aim")[:24]
    check(f"everybody has a goal: {goals}", all(re.fullmatch(r"\d+( \+ .*)?", goal) for goal in goals))
    file = WORK / "cards.pdf"
    file.unlink(missing_ok=True)
    done, said = run(office, event, "cards", File=file.as_uri())
    assert done, said
    text = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    check("cards without", [name for name in NAMES if name not in text], [])
    return ["menu", "Cards as PDF…", "name of the file"]


def test_names_in_a_text_and_no_tests(office):
    """Without a logbook: nobody has a test, and everybody has a goal."""
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir()
    event, inputs, said = read_as_written(office, NAMES)
    check("said", "logbook" in said, False)
    check("tests", [row[0] for row in by_key(event, "tests_name").getDataArray() if row[0]], [])
    inputs += printed(office, event)
    print(f"{len(inputs)} inputs: {', '.join(inputs)}")
    check("at most 60", len(inputs) <= 60)


def test_typed_into_the_window(office, logbook):
    fields = {"Cap": "17:00", "Movement1": "Ski", "Unit1": "ski cal", "Amount1": "12", "Movement2": "Thruster", "Unit2": "reps",
              "Amount2": "6", "Load2": "40", "Movement3": "Box step-over", "Unit3": "reps", "Amount3": "8", "Movement4": "Ring row",
              "Unit4": "reps", "Amount4": "6"}
    event, said = new_event(office, **fields)
    check("said", said.split("\n")[0], "24 people from the logbook, 12 of them with tests that count.")
    gyms_own(event)
    inputs = ["menu", "New event…", *fields, "Make", *printed(office, event)]
    print(f"{len(inputs)} inputs: {', '.join(inputs)}")
    check("at most 30", len(inputs) <= 30, True)


def test_read_as_written(office, logbook):
    event, inputs, said = read_as_written(office, NAMES)
    check("names as the logbook has them", [row[0] for row in by_key(event, "workout.stations.movement").getDataArray()[:4]],
          ["ski", "Thruster", "Box step-over", "Ring row"])
    check("tests come along", "24 of them are in the logbook, 12 with tests that count." in said, True)
    gyms_own(event)
    inputs += printed(office, event)
    print(f"{len(inputs)} inputs: {', '.join(inputs)}")
    check("at most 12", len(inputs) <= 12, True)
    pace = by_key(event, "workout.paces.rep_s").getCellByPosition(0, 3)
    check("the sheet goes on looking it up", pace.Formula.startswith("="), True)


def test_wall_table_alone(office):
    """Office staff who know the cap and the goals: a page for the wall, without an event."""
    before = {document.RuntimeUID for document in office.desktop.Components}
    done, said = run(office, office.new(), "new-wall")
    assert done, said
    wall = next(document for document in office.desktop.Components
                if document.RuntimeUID not in before and "wall_cap" in document.NamedRanges.ElementNames)
    choices = {"wall_title": "Slack Water", "wall_cap": "17:00", "wall_from": "5", "wall_to": "9", "wall_calories": "12"}
    for name, value in choices.items():
        type_in(area(wall, name).getCellByPosition(0, 0), value)
    wall.calculateAll()
    WORK.mkdir(exist_ok=True)
    print_sheet(wall, wall.Sheets[0], WORK / "wall.pdf")
    text = subprocess.run(["pdftotext", "-layout", str(WORK / "wall.pdf"), "-"], capture_output=True, text=True, check=True).stdout
    check("pages", text.count("\f"), 1)
    for goal, clock in (("5", "3:24"), ("8.5", "2:00")):  # 17:00 by 5, and by 8.5
        check(f"goal {goal} in {text}", re.search(rf"^\s*{goal}\s+{clock}\b", text, re.M) is not None)
    check("the title", "Slack Water" in text)
    inputs = ["menu", "New wall table", *choices, "Print"]
    print(f"{len(inputs)} inputs: {', '.join(inputs)}")
    check("at most 8", len(inputs) <= 8, True)
