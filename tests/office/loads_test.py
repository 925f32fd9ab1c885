"""What goes on the bar, by person: ATHLETE.LOADS and the pages that the command prints. Expected numbers come from the
published formulas and a naive choice of plates, worked out here.

Leaves the pages as pictures in BUILD/look for a person to look at.
"""

import math
import re
import subprocess
from fractions import Fraction
from itertools import product

import pytest
from commands import run
from compare import check
from event_cells import typed_event, typed
from office import enter, result
from paper import pages_of
from sharing import BUILD, OXT, folder_of

EXTENSIONS = [OXT]
WORK, LOOK = folder_of(__file__), BUILD / "look"
KILOGRAMS, POUNDS = (25, 20, 15, 10, 5, 2.5, 1.25), (45, 35, 25, 10, 5, 2.5)
SHARES = (50, 60, 70, 80, 90)
KEYS, PERSON = "roster_keys", "INDEX(roster_people;{row};0)"
PEOPLE = {  # division, one-rep max of deadlifts and of thrusters
    "Ada Brimsole": ("as prescribed", 150, 70), "Bela Ostrevan": ("as prescribed", 112.5, None),
    "Cora Vantuil": ("scaled", 90, 47.5), "Dagny Tellmoor": ("scaled", None, None),
}
LOADS = {"as prescribed": (100, 43), "scaled": (60, 30)}
REPS = (21, 15)  # of the largest round: most that is not too heavy is 50 % of the maximum for 15 reps or more


def plates(load, bar, weights):
    """The fewest plates on each side, of up to six, heavier ones first; tried one by one."""
    left = (load - bar) / 2
    for count in range(7):
        for some in product(weights, repeat=count):
            if sum(some) == left and list(some) == sorted(some, reverse=True):
                return " + ".join(f"{plate:g}" for plate in some) or "0"
    return None


def nearest(load, step):
    """In steps; the lower of two as near."""
    below = math.floor(Fraction(load) / Fraction(step)) * Fraction(step)
    return float(below if Fraction(load) - below <= Fraction(step) / 2 else below + Fraction(step))


def reps(percent):
    """Whole reps by Epley 1985 and Brzycki 1993."""
    share = Fraction(percent) / 100
    both = sorted((math.floor(30 * (1 / share - 1)), math.floor(37 - 36 * share)))
    return f"{both[0]}–{both[1]}" if both[0] != both[1] else f"{both[0]}"


@pytest.fixture
def event(office):
    loads = (*zip(*LOADS.values()), (24, 16))
    document = typed_event(office, {"title": "Slack Water", "gym": "Quayside Shed", "format": "for time", "cap": "12:00"}, LOADS,
                         [(movement, "reps", [reps] * 2, load) for movement, reps, load
                          in zip(("Deadlifts", "Thrusters", "Kettlebell swings"), ("21-15-9", "15-12-9", "15-12-9"), loads)])
    typed(document, "workout.paces.rep_s", "3", "3", "2")
    typed(document, "tests_movements", "Deadlifts", across=True)
    document.NamedRanges.getByName("tests_movements").ReferredCells.getCellByPosition(4, 0).String = "Thrusters"
    tests = document.NamedRanges.getByName("tests_sets").ReferredCells
    for row, (name, (division, *maxima)) in enumerate(PEOPLE.items()):
        typed(document, "roster_name", name, row=row)
        typed(document, "roster_division", division, row=row)
        typed(document, "tests_name", name, row=row)
        for movement, maximum in enumerate(maxima):
            if maximum:
                tests.getCellByPosition(4 * movement + 1, row).Value = maximum
    return document


def answers(document, *formulas):
    sheet = document.Sheets["Roster"]
    cell = sheet["BZ1"]
    given = []
    for formula in formulas:
        enter(cell, formula)
        given.append(result(cell))
    return given


def loads(row, line, column, *more):
    arguments = ["workout", "tests", KEYS, PERSON.format(row=row), str(line), str(column), *map(str, more)]
    return f"=ATHLETE.LOADS({';'.join(arguments)})"


def test_the_table_agrees_with_the_published_formulas(event):
    event.Sheets["Roster"].unprotect("")
    check("headings", answers(event, *(loads(1, 0, column) for column in (1, 4, 8, 9, 13))),
          ["Movement", "Load, kg", "For the reps up to, kg", "50%: 19–30 reps", "70%: 11–12 reps"])
    check("reps at each share", answers(event, *(loads(1, 0, 9 + 2 * k) for k in range(5))), [f"{p}%: {reps(p)} reps" for p in SHARES])
    for row, (name, (division, *maxima)) in enumerate(PEOPLE.items(), 1):
        for line, (maximum, load, most) in enumerate(zip(maxima, LOADS[division], REPS), 1):
            told = answers(event, *(loads(row, line, column) for column in range(1, 20)))
            near = nearest(load, 2.5)
            side = ("" if near == load else f"≈ {near:g}: ") + plates(near, 20, KILOGRAMS)
            check(f"{name}, line {line}", told[:6], [("Deadlifts", "Thrusters")[line - 1], maximum or "", most, load,
                                                     pytest.approx(load / maximum) if maximum else "", side])
            if not maximum:
                check(f"{name}: nothing of a maximum", set(told[6:]), {""})
                continue
            check(f"{name}: unbroken", told[6], reps(100 * Fraction(load) / Fraction(maximum)) if load <= maximum else "")
            check(f"{name}: up to", told[7], math.floor(maximum / 2 / 2.5) * 2.5)
            wanted = [nearest(Fraction(maximum) * share / 100, 2.5) for share in SHARES]
            check(f"{name}: shares", told[8:18:2], wanted)
            check(f"{name}: sides", told[9:18:2], [plates(one, 20, KILOGRAMS) or "–" for one in wanted])
            check(f"{name}: too heavy", "reason to scale" in told[18] or "above" in told[18], load > maximum / 2)
        check(f"{name}: no line more", answers(event, loads(row, 3, 1)), [""])
    check("a bar of 15 kg", answers(event, loads(3, 1, 6, 15)), [plates(60, 15, KILOGRAMS)])
    check("pounds", answers(event, loads(1, 1, 2, 45, '"lb"'), loads(1, 1, 6, 45, '"lb"')),
          [pytest.approx(330.7), f"≈ 220: {plates(220, 45, POUNDS)}"])
    check("refused", answers(event, loads(1, 1, 1, -1), loads(1, 1, 1, 20, '"st"'), loads(1, -1, 1)), ["Err:502"] * 3)


def printed(office, document, name, **arguments):
    path = WORK / f"{name}.pdf"
    path.unlink(missing_ok=True)
    done, said = run(office, document, "loads", File=str(path), Overwrite="true", **arguments)
    assert done, said
    return path, pages_of(path), said


def test_the_pages_hold_everybody(office, event):
    before = [sheet.Name for sheet in event.Sheets]
    path, pages, said = printed(office, event, "everyone", Who="all", Bar="20 kg")
    check("said", said.startswith("Loads saved: 4 people"))
    text = "\n".join(page.text for page in pages)
    for name in PEOPLE:
        check(name, name in text)
    for shown in ("25 + 15", "100 (67%)", "60 (67%)", "75", "▲ Deadlifts: the load is 67% of the maximum", "reason to scale", "Slack Water", "Quayside Shed", "Brzycki 1993", "page 1 of 1"):
        check(shown, shown in text)
    check("no swing on a bar", "Kettlebell" in text, False)
    check("the sentence below is on two lines", [line for line in text.split("\n") if "Bar of 20 kg" in line and "common practice" in line], [])
    check("no error", re.findall(r"###|Err:\d+|#(?:NAME|VALUE|REF|N/A)", text), [])
    check(f"letters of {min(page.smallest for page in pages)} pt", min(page.smallest for page in pages) >= 9)
    check("the page is used", pages[0].wide >= 0.9)
    check("the workbook is as it was", [sheet.Name for sheet in event.Sheets], before)
    LOOK.mkdir(parents=True, exist_ok=True)
    subprocess.run(["pdftoppm", "-r", "90", "-png", "-singlefile", path, LOOK / "loads"], check=True)

    _path, pages, _said = printed(office, event, "division", Who="division:scaled", Bar="15 kg")
    text = pages[0].text
    check("one division", [name in text for name in PEOPLE], [False, False, True, True])
    check("on the lighter bar", "20 + 2.5" in text and "Bar of 15 kg" in text)
    _path, pages, _said = printed(office, event, "pounds", Who="all", Bar="45 lb")
    check("in pounds", "≈ 220: 45 + 35" in pages[0].text and "330.7" in pages[0].text)


def test_nobody_to_load(office, event):
    for row in range(len(PEOPLE)):
        typed(event, "roster_plan", "not today", row=row)
    done, said = run(office, event, "loads", File=str(WORK / "none.pdf"), Who="all", Bar="20 kg")
    check("refused", (done, "Nobody here has a load" in said), (False, True))
    check("no file", (WORK / "none.pdf").exists(), False)
