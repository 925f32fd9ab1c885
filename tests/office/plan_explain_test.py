"""Explain, in the menu, on cells of WORKOUT and ATHLETE: from which cells a plan's answer comes, and by which rule."""

import re
import time

import pytest
from commands import run
from office import type_in
from plan_sheet import BLOCK, lay_out, of
from sharing import OXT, folder_of, shared
from windows_kit import Calc

EXTENSIONS = [OXT]
CELL = re.compile(r": ([^:\n]+(?::\d\d)?) \((Workout|Tests|Roster)\.([A-Z]+[0-9]+)\)")


def explain(office, document, formula, place="A1"):
    cell = document.Sheets["Results"][place]
    type_in(cell, formula)
    document.CurrentController.select(cell)
    return run(office, document, "explain")


# The function, its further arguments, and cells that its answer cannot come without.
ANSWERS = [
    ("GOAL", (), {"Roster.F2"}),
    ("GOAL", (2,), {"Workout.C5", "Tests.B3"}),
    ("GOAL", (4,), {"Roster.F2"}),
    ("SCORE", (), {"Workout.C5", "Tests.B3"}),
    ("SCORE", (1,), {"Workout.C5"}),
    ("TARGET", (), {"Roster.F2"}),
    ("CLOCK", (2,), {"Roster.F2", "Tests.B3"}),
    ("RATE", (), {"Tests.B3", "Roster.F2"}),
    ("RATE", (3,), {"Tests.B3"}),
    ("NEEDS", (), {"Roster.F2"}),
    ("MARGIN", (3,), {"Tests.B3", "Roster.F2"}),
    ("SETS", ('"Sandbags"',), {"Tests.E3", "Workout.G11"}),
    ("SETS", ('"Ring rows"', 2), {"Tests.D3", "Workout.G13"}),
    ("REHEARSAL", (), {"Roster.F2"}),
    ("TEXT", (), {"Roster.F2"}),
]


@pytest.fixture
def event(office):
    return lay_out(office.new())


@pytest.mark.parametrize("function, arguments, cells", ANSWERS, ids=[f"{f}{a}" for f, a, _ in ANSWERS])
def test_reasons_of_an_answer(office, event, function, arguments, cells):
    event.setModified(False)
    good, text = explain(office, event, of(1, function, *arguments))
    assert good and f"ATHLETE.{function}: " in text, text
    assert "Rule: " in text, text
    named = {f"{sheet}.{place}": value for value, sheet, place in CELL.findall(text)}
    assert cells <= set(named), text
    numbers = lambda shown: re.sub(r"[^0-9:.]|\.(?![0-9])", "", shown)
    for where, value in named.items():  # what is said of a cell is what the cell shows
        sheet, place = where.split(".")
        cell = event.Sheets[sheet][place]
        if place != "C5":  # the cap is a time in a cell without a format
            assert numbers(cell.String) == numbers(value) or cell.String in value, (where, cell.String, value)


def test_steps_in_a_reasoning_are_each_told_once(office, event):
    _, text = explain(office, event, of(1, "RATE"))
    steps = [line for line in text.split("\n") if re.match(r"\S.*: ", line)]
    assert len(steps) == len(set(steps)) > 4, text


def test_refusal_names_the_cell(office, event):
    event.Sheets["Roster"]["C2"].String = "juniors"
    _, text = explain(office, event, of(1, "GOAL"))
    assert 'Refused: Roster.C2: there is no division "juniors" in the workout.' in text
    event.Sheets["Workout"]["A26"].String = ""
    _, text = explain(office, event, "=WORKOUT.TEXT(workout)")
    assert 'Refused: The workout has no end' in text


def test_a_cell_that_hands_a_plan_on_is_followed(office, event):
    type_in(event.Sheets["Results"]["D1"], of(1, "GOAL"))
    _, text = explain(office, event, '=IF(D1="";"";D1)')
    assert "D1 shows 6" in text and "(Roster.F2)" in text, text


def test_a_row_picked_by_index(office, event):
    _, text = explain(office, event, "=ATHLETE.GOAL(workout;tests;$Roster.$B$1:$H$1;INDEX($Roster.$B$2:$H$6;1;0))")
    assert "(Roster.F2)" in text, text


LANGUAGES = {"de": "Regel: ", "es": "Regla: ", "fr": "Règle\u00a0: "}


@pytest.mark.parametrize("language", LANGUAGES)
def test_reasons_in_the_interfaces_language(language):
    """Every sentence of the reasons is translated: none of the English ones is left."""
    with shared([OXT], "english") as office:
        event = lay_out(office.new())
        english = explain(office, event, of(1, "CLOCK", 2))[1]
    with shared([OXT], language, language=language, locale=f"{language}-{language.upper()}") as office:
        event = lay_out(office.new(), block=BLOCK)
        translated = explain(office, event, of(1, "CLOCK", 2))[1]
    assert LANGUAGES[language] in translated
    rules = {line.strip().removeprefix("Rule: ") for line in english.split("\n") if "Rule: " in line}
    assert rules and not [rule for rule in rules if rule in translated]


def test_explanation_is_the_same_however_often_it_is_asked(office, event):
    """Reasons are made by the same code as the numbers, beside plans that are kept."""
    first = explain(office, event, of(1, "RATE"))
    assert explain(office, event, of(1, "RATE")) == first
    type_in(event.Sheets["Roster"]["F2"], "5")
    assert explain(office, event, of(1, "GOAL"))[1] != first[1]
    assert "the coach's goal: 5 (Roster.F2)" in explain(office, event, of(1, "GOAL"))[1]


def at_cursor(document):
    return document.CurrentSelection.AbsoluteName.replace("$", "")


def test_its_cells_are_reached_by_keyboard_and_mouse(display):
    """From the list in the window, with the window open: Alt and its letter, then the arrows; or a click."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SAL_USE_VCLPLUGIN", "gen")
        with shared([OXT], "screen", display=display) as office:
            calc = Calc(display, office, "en-US", 1, folder_of(__file__))
            document = lay_out(calc.document)
            cell = document.Sheets["Results"]["A1"]
            type_in(cell, of(1, "SETS", '"Sandbags"'))
            document.CurrentController.setActiveSheet(document.Sheets["Results"])
            document.CurrentController.select(cell)
            with calc.opened("Explain this cell", "x") as window:
                assert at_cursor(document) == "Results.A1"
                calc.keys("alt+c", "Home")
                assert at_cursor(document) == "Workout.G11"
                calc.keys("Down")
                assert at_cursor(document) == "Tests.E3"
                items = next(part for part in calc.parts("Explain this cell") if part.name.startswith("Cells that"))
                at = [str(value) for value in (items.left + 20, items.bottom + 8)]
                calc.run("xdotool", "mousemove", "--window", window, *at, "click", "1")
                time.sleep(0.5)
                assert at_cursor(document) == "Workout.G11"
