"""An announcement as it was written and tonight's names, read into the event workbook by the command.

Uses BUILD/pacecells.oxt. What is expected of the sheets is what the announcement says; clocks and scores are not
expected here, only that everybody has a plan.
"""

import re

import pytest
from commands import private_office, run
from compare import check
from event_cells import bad_cells, by_key, column_of, rows_of
from office import recalculate
from sharing import BUILD

NAMES = "Ada Brimsole (f)\nBela Ostrevan, men\nCora Vantuil (women)\n4. Dagny Tellmoor (w)\n- Emil Sandruvel [m]\nFenja Okarell\twomen"
ALIKE = "Ada Brimsole\nBela Ostrevan; Cora Vantuil\nDagny Tellmoor"

# The text, the names, settings, stations as movement, unit, amounts and loads from the left, and how a goal is written.
ANNOUNCED = {
    "amrap": (
        "17 min AMRAP: 12/10 cal ski, 6 sandbags over shoulder 45/30 kg, 8 box step-overs, 6 ring rows", NAMES,
        {"format": "AMRAP", "cap": "17:00"},
        (("ski", "ski cal", "12", "10", "", ""), ("sandbags over shoulder", "reps", "6", "6", "45", "30"),
         ("box step-overs", "reps", "8", "8", "", ""), ("ring rows", "reps", "6", "6", "", "")),
        r"\d+( \+ .*)?"),
    "rep scheme": (
        "21-15-9 for time, cap 14: cal row, sandbag cleans 40 kg, burpees", ALIKE,
        {"format": "for time", "cap": "14:00", "rounds": ""},
        (("row", "row cal", "21-15-9", "", "", ""), ("sandbag cleans", "reps", "21-15-9", "", "40", ""),
         ("burpees", "reps", "21-15-9", "", "", "")),
        r"\d+:\d\d|\d+( \+ .*)?"),
    "growing scheme": (
        "13 min AMRAP: 2-4-6-… sandbag cleans 40 kg, 2-4-6-… burpees, 9 cal row", ALIKE,
        {"format": "AMRAP", "cap": "13:00"},
        (("sandbag cleans", "reps", "2-4-6-…", "", "40", ""), ("burpees", "reps", "2-4-6-…", "", "", ""),
         ("row", "row cal", "9", "", "", "")),
        r"\d+( \+ .*)?"),
    "rounds for time": (
        "4 rounds for time, 15 min cap: 350 m run, 16 kettlebell swings 24 kg, 8 burpees", ALIKE,
        {"format": "for time", "cap": "15:00", "rounds": "4"},
        (("run", "run m", "350", "", "", ""), ("kettlebell swings", "reps", "16", "", "24", ""), ("burpees", "reps", "8", "", "", "")),
        r"\d+:\d\d|\d+( \+ .*)?"),
    "chipper": (
        '"Stair Well"\nFor time, time cap 24 min\n44 wall balls 9/6 kg (m/w)\n36 box jumps\n28 cal row\n'
        "20 sandbag cleans 45/30 kg\n600 m run", NAMES,
        {"title": "Stair Well", "format": "for time", "cap": "24:00"},
        (("wall balls", "reps", "44", "44", "9", "6"), ("box jumps", "reps", "36", "36", "", ""), ("row", "row cal", "28", "28", "", ""),
         ("sandbag cleans", "reps", "20", "20", "45", "30"), ("run", "run m", "600", "600", "", "")),
        r"\d+:\d\d|\d+( \+ .*)?|[a-z ]+"),
    "every two minutes": (
        "E2MOM 18: 13/10 cal bike", NAMES,
        {"format": "intervals", "every_s": "120", "windows": "9", "in_turn": ""}, (("bike", "bike cal", "13", "10", "", ""),),
        r"\d+.*"),
    "in turn": (
        "EMOM 12, in turn: 12 cal row, 14 wall balls 9 kg, 10 burpees", ALIKE,
        {"format": "intervals", "every_s": "60", "windows": "12", "in_turn": "yes"},
        (("row", "row cal", "12", "", "", ""), ("wall balls", "reps", "14", "", "9", ""), ("burpees", "reps", "10", "", "", "")),
        r"\d+.*"),
    "work and rest": (
        "4 x 3 min AMRAP, 90 s rest between rounds: 12 cal row, 8 burpees, all in each window", ALIKE,
        {"format": "intervals", "work_s": "180", "rest_s": "90", "windows": "4", "in_turn": ""},
        (("row", "row cal", "12", "", "", ""), ("burpees", "reps", "8", "", "", "")),
        r"\d+.*"),
    "pairs": (
        "In pairs, one works at a time, any way. 20 min AMRAP: 30 cal row, 40 wall balls 9 kg, 50 air squats", ALIKE,
        {"format": "AMRAP", "cap": "20:00", "team": "2", "at_once": "1", "split": "any way"},
        (("row", "row cal", "30", "", "", ""), ("wall balls", "reps", "40", "", "9", ""), ("air squats", "reps", "50", "", "", "")),
        r"\d+( \+ .*)?"),
}


@pytest.fixture
def office():
    with private_office() as running:
        yield running


def new_event(office):
    """The untitled workbook of the command New event."""
    start, before = office.new(), {one.RuntimeUID for one in office.desktop.Components}
    check("new event", run(office, start, "new-event", Empty="true"), (True, ""))
    made = [one for one in office.desktop.Components if one.RuntimeUID not in before]
    return next(one for one in made if one != start)


def shown(document, key, row=0, column=0):
    return by_key(document, key).getCellByPosition(column, row).String


def content(document):
    """All that the command may write."""
    return [by_key(document, key).getFormulaArray() for key in
            ("workout", "roster_name", "roster_division", "roster_plan")]


@pytest.mark.parametrize("form", ANNOUNCED)
def test_from_the_text_to_a_plan(office, form):
    text, names, settings, stations, goal = ANNOUNCED[form]
    document = new_event(office)
    before = content(document)
    document.UndoManager.clear()
    good, said = run(office, document, "read-as-written", Text=text, Names=names)
    check(f"done: {said}", good, True)
    check("one step of undo", list(document.UndoManager.AllUndoActionTitles), ["Read as written"])
    for key, value in settings.items():
        check(key, shown(document, f"workout.{key}"), value)
    for row, (movement, unit, *numbers) in enumerate(stations):
        check(f"station {row + 1}", (shown(document, "workout.stations.movement", row), shown(document, "workout.stations.unit", row)),
              (movement, unit))
        got = [shown(document, f"workout.stations.{part}.{d}", row) for part in ("amount", "load") for d in (1, 2)]
        check(f"numbers of station {row + 1}", got, numbers)
    check("no more stations", shown(document, "workout.stations.movement", len(stations)), "")
    recalculate(document)
    check("complete", shown(document, "workout_check"), "")
    people = [row[0] for row in rows_of(document, "roster_name") if row[0]]
    check("people", len(people), 6 if names == NAMES else 4)
    if names == NAMES:
        check("divisions", [row[0] for row in rows_of(document, "roster_division")][:6], ["women", "men", "women", "women", "men", "women"])
    goals = column_of(document, "roster", "aim")[:len(people)]
    check(f"goals {goals}", all(re.fullmatch(goal, one) for one in goals))
    check("errors", bad_cells(document), [])
    page = [cell.String for cell in by_key(document, "card_page").queryContentCells(23).Cells if cell.String]
    listed = [row[3] for row in rows_of(document, "heat_list") if row[0]]
    check("everybody is in a heat", sorted(listed), sorted(people))
    check(f"a card each for the first four: {page}", all(any(name in text for text in page) for name in listed[:4]))
    document.UndoManager.undo()
    check("taken back", content(document), before)


def test_what_is_open_is_asked(office):
    """Stations in a window, or one after the other? Nobody guesses; what is not known stays blank."""
    document = new_event(office)
    text = "EMOM 12: 12 cal row, 14 plinth vaults, wibble"
    before = content(document)
    good, said = run(office, document, "read-as-written", Text=text)
    check(f"asks: {said}", (good, "Open questions" in said, content(document)), (False, True, before))
    good, said = run(office, document, "read-as-written", Text=text, Open="true")
    check("filled in", good)
    for sentence in ("To answer: It does not say whether a window holds one station, in turn, or all.",
                     "To answer: It does not say how many.", "plinth vaults: its usual pace is not known; 2.5 s per rep are taken."):
        check(f"{sentence} in {said}", sentence in said)
    check("a blank amount", shown(document, "workout.stations.amount.1", 2), "")
    check("the sheet asks too", shown(document, "workout_check") != "")


def test_a_workout_that_is_there(office):
    """Asked before it is replaced; the usual pace of a station that comes again stays."""
    document = new_event(office)
    run(office, document, "read-as-written", Text="8 min AMRAP: 5 burpees, 10 cal ski, 4 cleans 50 kg", Names="Ada Brimsole")
    by_key(document, "workout.paces.rep_s").getCellByPosition(0, 0).setValue(4.5)
    good, said = run(office, document, "read-as-written", Text="3 rounds for time, cap 12: 9 cal row, 6 burpees")
    check(f"asks: {said}", (good, "Replace the workout" in said), (False, True))
    good, said = run(office, document, "read-as-written", Text="3 rounds for time, cap 12: 9 cal row, 6 burpees", Overwrite="true",
                     Names="ada brimsole\nBela Ostrevan")
    check(f"replaced: {said}", good)
    check("stations", [shown(document, "workout.stations.movement", row) for row in range(3)], ["row", "burpees", ""])
    check("nothing is left of the first", [shown(document, "workout.stations.load.1", 2), shown(document, "workout.paces.rep_s", 2),
                                           shown(document, "workout.paces.calh", 1)], ["", "", ""])
    check("the gym's own pace", shown(document, "workout.paces.rep_s", 1), "4.5")
    check("complete", shown(document, "workout_check"), "")
    check("people once", [row[0] for row in rows_of(document, "roster_name")][:3], ["Ada Brimsole", "Bela Ostrevan", ""])


def test_refusals(office):
    document = new_event(office)
    before = content(document)
    many = "For time, cap 30: " + ", ".join(f"{n} burpees" for n in range(10, 23))
    for arguments, sentence in (
            ({}, "Paste the announcement first."),
            ({"Text": "see you tonight"}, "No station was found in the announcement."),
            ({"Text": many}, "The announcement has 13 stations, but the sheet Workout has room for 12."),
            ({"Text": "EMOM 60, in turn: 5 burpees, 8 cal row"},
             "The announcement has 60 rounds or windows, but the sheets have room for 40."),
            ({"Text": "8 min AMRAP, men/women: 5/4 burpees", "Names": "Ada Brimsole (blue)"},
             '"blue" is not one of the divisions. What is meant?')):
        check(f"{arguments}", run(office, document, "read-as-written", **arguments), (False, sentence))
        check("nothing is written", content(document) == before)
    good, said = run(office, document, "read-as-written", Text="8 min AMRAP, men/women: 5/4 burpees", Names="Ada Brimsole (blue)",
                     Meaning="blue=women")
    check(f"what blue means: {said}", (good, shown(document, "roster_division")), (True, "women"))


def test_anywhere_else_it_makes_an_event(office):
    start, before = office.new(), {one.RuntimeUID for one in office.desktop.Components}
    good, said = run(office, start, "read-as-written", Text="8 min AMRAP: 5 burpees")
    made = [one for one in office.desktop.Components if one.RuntimeUID not in before and one != start]
    check(f"made: {said}", (good, len(made)), (True, 1))
    check("with the station", shown(made[0], "workout.stations.movement"), "burpees")
    before = len(list(office.desktop.Components))
    check("refused", run(office, start, "read-as-written", Text="")[0], False)
    check("nothing is left open", len(list(office.desktop.Components)), before)


@pytest.mark.parametrize("language, text, movement, unit", (
    ("de", "AMRAP 12 Min: 10 Kal Rudern, 8 Liegestütze", "Liegestütze", "Wdh"),
    ("es", "AMRAP 12 min: 10 cal remo, 8 flexiones", "flexiones", "reps"),
    ("fr", "AMRAP 12 min : 10 cal rameur, 8 pompes", "pompes", "reps")))
def test_in_other_languages(language, text, movement, unit):
    with private_office(language) as office:
        document = new_event(office)
        good, said = run(office, document, "read-as-written", Text=text, Names="Ada Brimsole\nBela Ostrevan")
        check(f"{language}: {said}", good)
        check(f"{language}: station", shown(document, "workout.stations.movement", 1), movement)
        check(f"{language}: complete", shown(document, "workout_check"), "")
        check(f"{language}: goals", all(column_of(document, "roster", "aim")[:2]))
        check(f"{language}: errors", bad_cells(document), [])
