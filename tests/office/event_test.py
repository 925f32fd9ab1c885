"""The event workbook in the real office, as a coach uses it: a workout, people, tests, cards, heats, results.

Uses BUILD/functions.oxt and BUILD/templates/en/event.ots; leaves its pages as pictures in BUILD/look for a person to look
at. Expected numbers are arithmetic done here, not by the functions.
"""

import re
import subprocess
import zipfile

import pytest
from compare import check
from event_cells import by_key, clock, column_of, names, rows_of, typed
from office import recalculate, save, type_in
from sharing import BUILD, FUNCTIONS, ROOT, folder_of, shared, shown

TEMPLATE = BUILD / "templates" / "en" / "event.ots"
WORK, LOOK = folder_of(__file__), BUILD / "look"
BAD = re.compile(r"###|Err:\d+|#(?:NAME|VALUE|REF|N/A|NUM|DIV)")
FREE = {"Workout", "Roster", "Wall", "Cards", "Heats", "Results"}  # what a new workbook shows

PEOPLE = (  # name, division, plan for the day, pace group
    ("Ada Brimsole", "as prescribed", "", "C"), ("Bela Ostrevan", "as prescribed", "", "B"),
    ("Cora Vantuil", "scaled", "", "D"), ("Dagny Tellmoor", "scaled", "easy", "D"),
    ("Emil Sandruvel", "scaled", "not today", "C"), ("Fenja Okarell", "as prescribed", "", "A"),
)


@pytest.fixture
def office():
    with shared([FUNCTIONS], "functions") as running:
        yield running


@pytest.fixture
def event(office):
    """A workout typed as a coach types it, and six people."""
    document = office.open(TEMPLATE)
    type_workout(document)
    for row, person in enumerate(PEOPLE):
        for key, text in zip(("name", "division", "plan", "group"), person):
            typed(document, f"roster_{key}", text, row=row)
    return document


def type_workout(document, cap="17:00"):
    typed(document, "workout.title", "Slack Water")
    typed(document, "workout.gym", "Quayside Shed")
    typed(document, "workout.cap", cap)
    typed(document, "workout.first_start", "9:30")
    typed(document, "workout.divisions.amount.1", "as prescribed", "scaled", across=True)
    stations = (("Ski", "ski cal", "12", "10"), ("Sandbags", "reps", "6", "6"), ("Ring rows", "reps", "10", "6"))
    for row, (movement, unit, written, scaled) in enumerate(stations):
        typed(document, "workout.stations.movement", movement, row=row)
        typed(document, "workout.stations.unit", unit, row=row)
        typed(document, "workout.stations.amount.1", written, scaled, row=row, across=True)
    typed(document, "workout.stations.load.1", "45", "30", row=1, across=True)
    typed(document, "workout.paces.calh", "850")
    typed(document, "workout.paces.rep_s", "3.4", "1.9", row=1)
    typed(document, "workout.paces.longest", "26", "32", row=1)


def errors_in(document):
    """Cells on visible sheets that show an error."""
    found = []
    for sheet in document.Sheets:
        if sheet.IsVisible:
            for area in sheet.queryFormulaCells(4).RangeAddresses:
                cell = sheet.getCellByPosition(area.StartColumn, area.StartRow)
                found.append(f"{cell.AbsoluteName} {cell.String}")
    return found


def plan_of(document, name):
    """What the roster says of a person, wherever the row is."""
    for row, shown in enumerate(rows_of(document, "roster_name")):
        if shown[0] == name:
            keys = ("aim", "target", "hold", "predicted", "range", "sets", "note")
            return {key: column_of(document, "roster", key)[row] for key in keys}
    return None


def result_of(document, name):
    for row, shown in enumerate(rows_of(document, "results_name")):
        if shown[0] == name:
            return {key: rows_of(document, f"results_{key}")[row][0] for key in ("division", "result", "place")}
    return None


# What it weighs ---------------------------------------------------------------------------------------------------

def test_is_small_and_can_be_read_aloud():
    """Formulas that a coach can follow, few names, one hidden sheet of lists, a small file."""
    with zipfile.ZipFile(TEMPLATE) as package:
        content = package.read("content.xml").decode()
        thumbnail = package.getinfo("Thumbnails/thumbnail.png").file_size
    formulas = re.findall(r'table:formula="of:=([^"]*)"', content)
    longest = max(formulas, key=lambda formula: len(formula.replace("&quot;", '"').replace("&lt;", "<").replace("&gt;", ">")))
    plain = longest.replace("&quot;", '"').replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
    check(f"longest formula {plain}", len(plain) <= 200)
    check("names", len(re.findall(r"<table:named-(?:range|expression) ", content)) <= 60)
    check("content.xml in MB", len(content.encode()) / 1e6 <= 4)
    check(f"file of {TEMPLATE.stat().st_size} bytes", TEMPLATE.stat().st_size <= 120_000 * 1.024)
    check("thumbnail", thumbnail <= 3072)


def test_every_name_is_described(office):
    """NAMES.md is what commands are written from."""
    described = (ROOT / "templates" / "NAMES.md").read_text(encoding="utf-8")
    event = described[described.index("## Event workbook"):].partition("\n## ")[0]
    document = office.open(TEMPLATE)
    missing = [name for name in document.NamedRanges.ElementNames if not re.search(rf"\b{name}\b", event)]
    assert not missing


def test_sheets_in_sight(office):
    document = office.open(TEMPLATE)
    assert {sheet.Name for sheet in document.Sheets if sheet.IsVisible} == FREE
    assert {sheet.Name for sheet in document.Sheets} - FREE == {"Tests", "Review", "Lists"}


# A coach's evening ------------------------------------------------------------------------------------------------

def test_an_empty_workbook_says_what_to_type(office):
    document = office.open(TEMPLATE)
    assert by_key(document, "workout_check").String not in ("", "0")
    assert not BAD.search(by_key(document, "workout_check").String)
    check("errors on the roster", [e for e in errors_in(document) if "Roster" in e], [])


def test_people_without_tests_have_plans_from_their_pace_group(event):
    check("nothing is missing", by_key(event, "workout_check").String.strip(), "")
    check("errors", errors_in(event), [])
    ada, cora = plan_of(event, "Ada Brimsole"), plan_of(event, "Cora Vantuil")
    for plan in (ada, cora):
        assert plan["aim"] and clock(plan["target"]) and float(plan["hold"])
    easy = plan_of(event, "Dagny Tellmoor")
    check("an easy plan has no goal", (easy["aim"], easy["hold"]), ("", ""))
    check("but says where to end", "8:30" in easy["note"], True)


def test_a_goal_typed_is_the_goal(event):
    """7 rounds end ten seconds before the cap of 17:00."""
    typed(event, "roster_goal", "7")
    plan = plan_of(event, "Ada Brimsole")
    check("goal", plan["aim"], "7")
    check("time per round", clock(plan["target"]), round((17 * 60 - 10) / 7))
    typed(event, "roster_goal", "seven")
    check("no one reading: refused in sight", BAD.search(plan_of(event, "Ada Brimsole")["aim"]) is not None)
    assert plan_of(event, "Ada Brimsole")["note"]


def test_the_figures_of_a_card_agree(event):
    """First round's stations in order, rounds up to the cap less ten seconds, the lower goal slower."""
    typed(event, "roster_goal", "6")
    starts = [row[3] for row in rows_of(event, "heat_list")]
    by_key(event, "card_first").setValue(starts.index("Ada Brimsole") + 1)
    card = rows_of(event, "card_page")[1:13]
    check("name", card[0][0], "Ada Brimsole")
    check("goal, time per round", (card[2][0], clock(card[2][6])), ("6", round((17 * 60 - 10) / 6)))
    stations = [clock(text) for text in card[4] if re.fullmatch(r"\d+:\d\d", text)]
    check("stations one after the other", stations, sorted(stations))
    check("three of them", len(stations), 3)
    rows = [[clock(text) for text in card[line] if re.fullmatch(r"\d+:\d\d", text)] for line in (8, 9)]
    check("rounds of the goal", len(rows[0]), 6)
    check("it ends ten seconds before the cap", rows[0][-1], 17 * 60 - 10)
    check("the lower goal is slower", rows[1][0] > rows[0][0])
    check("the last station ends no later than the round", stations[-1] <= rows[0][0])
    assert "12 cal" in card[1][0] and "45 kg" in card[1][0]


def test_heats_hold_everybody_who_starts(event):
    listed = [row[3] for row in rows_of(event, "heat_list") if row[3]]
    check("who starts", sorted(listed), sorted(name for name, _d, plan, _g in PEOPLE if plan != "not today"))
    typed(event, "workout.places", "3")
    heats = [row[0] for row in rows_of(event, "heat_list") if row[3]]
    check("five people on three lanes", heats, ["1", "1", "2", "2", "2"])
    starts = [row[2] for row in rows_of(event, "heat_list") if row[3]]
    check("a heat every 22 minutes", (starts[0], starts[2]), ("09:30", "09:52"))


def test_a_class_shares_machines(event):
    """17 people on 5 rowers in two heats; the second one on a machine starts later, and the card's clocks say when."""
    typed(event, "workout.stations.unit", "row cal")
    typed(event, "workout.stations.movement", "Step-overs", row=3)  # a round long enough for two
    typed(event, "workout.stations.unit", "reps", row=3)
    typed(event, "workout.stations.amount.1", "24", "24", row=3, across=True)
    typed(event, "workout.paces.rep_s", "3", row=3)
    typed(event, "workout.places", "20")
    machines = by_key(event, "workout.machines.unit").getDataArray()
    typed(event, "workout.machines.count", "5", row=[line[0] for line in machines].index("row"))
    for row in range(17):
        for key, text in zip(("name", "division", "plan", "group"), (f"Wendel {chr(65 + row)}", "scaled" if row % 2 else "as prescribed", "", "C")):
            typed(event, f"roster_{key}", text, row=row)
    heats = lambda: {row[0] for row in rows_of(event, "heat_list") if row[3]}
    check("heats with a machine each", len(heats()), 4)
    area = by_key(event, "heat_list").RangeAddress
    choices = event.Sheets[area.Sheet].getCellRangeByPosition(area.EndColumn, 0, area.EndColumn + 10, 5)
    label = next(cell for cell in (choices.getCellByPosition(c, 3) for c in range(11)) if cell.String == "Share machines")
    place = label.CellAddress
    type_in(event.Sheets[area.Sheet].getCellByPosition(place.Column, place.Row + 1), "yes")
    check("heats with two people on each", len(heats()), 2)
    listed = [row for row in rows_of(event, "heat_list") if row[3]]
    check("everybody once", len({row[3] for row in listed}), 17)
    later = {row[5] for row in listed}
    check("one starts at once, the next one later", len(later) == 2 and "0:00" in later)
    # 12 cal at 850 cal/h take some 51 s and 10 cal 42 s, both with a little for the start; 10 s to change places
    check("after the first one's calories", 52 <= max(map(clock, later)) <= 70)
    place = next(n for n, row in enumerate(listed) if row[5] != "0:00")
    by_key(event, "card_first").setValue(place + 1)
    card = by_key(event, "card_page")
    texts = shown(card.getCellRangeByPosition(0, 0, 19, 12))
    check("the card says when", f"start at {listed[place][5]}" in texts[1][12])
    target, first = clock(texts[3][6]), clock(texts[9][4])
    check("and its clocks are those on the wall", abs(first - target - clock(listed[place][5])) <= 2)


def test_judges_are_those_who_are_ticked(event):
    typed(event, "workout.places", "3")
    judged = lambda: [row[4] for row in rows_of(event, "heat_list") if row[3]]
    check("nobody is ticked", judged(), [""] * 5)
    keys = by_key(event, "roster").getDataArray()[0]
    ticks = by_key(event, "roster").getCellRangeByPosition(keys.index("judge"), 2, keys.index("judge"), 8)
    for row, (name, *_rest) in enumerate(PEOPLE):
        if name in ("Emil Sandruvel", "Bela Ostrevan"):
            type_in(ticks.getCellByPosition(0, row), "yes")
    heat_of = {row[3]: row[0] for row in rows_of(event, "heat_list") if row[3]}
    other = "1" if heat_of["Bela Ostrevan"] == "2" else "2"
    for heat in ("1", "2"):
        names = [row[4] for row in rows_of(event, "heat_list") if row[0] == heat]
        check(f"heat {heat}", names, ["Emil Sandruvel"] + ["Bela Ostrevan"] * (heat == other) + [""] * (len(names) - 1 - (heat == other)))


def test_a_minor_without_consent_has_no_card(event):
    keys = by_key(event, "roster").getDataArray()[0]
    minor, consent = (by_key(event, "roster").getCellByPosition(keys.index(key), 2) for key in ("minor", "consent"))
    type_in(minor, "yes")
    plan = plan_of(event, "Ada Brimsole")
    check("no goal", plan["aim"], "")
    assert "consent" in plan["note"]
    listed = [row[3] for row in rows_of(event, "heat_list")]
    by_key(event, "card_first").setValue(listed.index("Ada Brimsole") + 1)
    check("a blank card", set(sum(rows_of(event, "card_page")[:13], [])), {""})
    type_in(consent, "2026-11-20")
    assert plan_of(event, "Ada Brimsole")["aim"]
    by_key(event, "card_first").setValue([row[3] for row in rows_of(event, "heat_list")].index("Ada Brimsole") + 1)
    check("the card", rows_of(event, "card_page")[1][0], "Ada Brimsole")


def test_an_easy_plan_has_a_card_with_its_end(event):
    listed = [row[3] for row in rows_of(event, "heat_list")]
    by_key(event, "card_first").setValue(listed.index("Dagny Tellmoor") + 1)
    card = set(sum(rows_of(event, "card_page")[:13], []))
    for text in ("easy", "8:30", "stop at this clock", "or after 3 rounds", "at a pace at which you can talk"):
        check(text, text in card)


def test_a_judges_sheet_needs_no_goal(event):
    """Whose goal cannot be read has no plan, and is judged all the same."""
    first = rows_of(event, "heat_list")[0][3]
    typed(event, "roster_goal", "x", row=[name[0] for name in rows_of(event, "roster_name")].index(first))
    recalculate(event)
    assert "goal" in plan_of(event, first)["note"]
    by_key(event, "judge_first").setValue([row[3] for row in rows_of(event, "heat_list")].index(first) + 1)
    sheet = sum(rows_of(event, "judge_page"), [])
    check("the sheet", {first, "running count"} <= set(sheet))
    check("errors", [cell for cell in sheet if cell.startswith(("Err:", "#"))], [])


def test_a_blank_behind_a_name_costs_nobody_a_card(event):
    first = rows_of(event, "heat_list")[0][3]
    typed(event, "roster_name", first + " ", row=[name[0] for name in rows_of(event, "roster_name")].index(first))
    recalculate(event)
    place = [row[3] for row in rows_of(event, "heat_list")].index(first) + 1
    for page, chosen in (("card_page", "card_first"), ("judge_page", "judge_first")):
        by_key(event, chosen).setValue(place)
        check(page, first in [cell.strip() for row in rows_of(event, page) for cell in row])


# Nobody gets another's numbers ------------------------------------------------------------------------------------

def with_results(document):
    clocks = {"Ada Brimsole": ("2:30", "5:10", "7:50"), "Bela Ostrevan": ("2:20", "4:50", "7:20"), "Cora Vantuil": ("2:40", "5:30")}
    for row, (name, times) in enumerate(clocks.items()):
        typed(document, "results_name", name, row=row)
        typed(document, "results_clocks", *times, row=row, across=True)
        typed(document, "results_partial", str(4 + row), row=row)


def test_results_by_arithmetic(event):
    """28 reps a round as prescribed, 22 scaled; ties go to the lower tie-break."""
    with_results(event)
    check("Ada", result_of(event, "Ada Brimsole"), {"division": "as prescribed", "result": "3+4", "place": "2"})
    check("Bela", result_of(event, "Bela Ostrevan"), {"division": "as prescribed", "result": "3+5", "place": "1"})
    check("Cora", result_of(event, "Cora Vantuil"), {"division": "scaled", "result": "2+6", "place": "1"})
    check("scores", [row[0] for row in rows_of(event, "results_score")][:3], [str(3 * 28 + 4), str(3 * 28 + 5), str(2 * 22 + 6)])
    typed(event, "results_partial", "5")
    typed(event, "results_tiebreak", "2:30", "2:20")
    check("tie", [result_of(event, name)["place"] for name in ("Ada Brimsole", "Bela Ostrevan")], ["2", "1"])
    typed(event, "results_out", "yes", row=1)
    check("withdrew", result_of(event, "Bela Ostrevan")["result"], "withdrew")
    check("no place", (result_of(event, "Bela Ostrevan")["place"], result_of(event, "Ada Brimsole")["place"]), ("", "1"))


def test_a_time_for_time(event):
    typed(event, "workout.format", "for time")
    typed(event, "workout.rounds", "4")
    for row, (name, finish, left) in enumerate((("Ada Brimsole", "12:34", ""), ("Bela Ostrevan", "", "23"), ("Fenja Okarell", "11:59", ""))):
        typed(event, "results_name", name, row=row)
        typed(event, "results_finish", finish, row=row)
        typed(event, "results_left", left, row=row)
    check("results", [result_of(event, name)["result"] for name in ("Ada Brimsole", "Bela Ostrevan", "Fenja Okarell")],
          ["12:34", "CAP+23", "11:59"])
    check("places", [result_of(event, name)["place"] for name in ("Ada Brimsole", "Bela Ostrevan", "Fenja Okarell")], ["2", "3", "1"])


def test_pacing_bends_the_clocks_and_says_what_it_costs(event):
    """A fade of 30 % in 45 minutes loses minutes; the clocks follow what is chosen for the event, or for a person."""
    typed(event, "workout.cap", "45:00")
    typed(event, "workout.fade", "30%")
    keys = by_key(event, "roster").getDataArray()[0]
    pacing = by_key(event, "roster").getCellByPosition(keys.index("pacing"), 2)
    place = [row[3] for row in rows_of(event, "heat_list")].index("Ada Brimsole")
    by_key(event, "card_first").getCellByPosition(0, 0).Value = place + 1

    def rounds():
        cards = event.Sheets.getByName("Cards")
        clocks = [clock(text) for text in (cards.getCellByPosition(col, 9).String for col in range(4, 20)) if text]
        return [later - earlier for earlier, later in zip([0, *clocks], clocks)]

    plans = {}
    for of_event, of_person, bends in (("", "", 0), ("fade", "", 1), ("faster at the end", "", -1), ("fade", "even", 0), ("", "fade", 1)):
        typed(event, "workout.pacing", of_event)
        type_in(pacing, of_person)
        plan, times = plan_of(event, "Ada Brimsole"), rounds()
        name = f"{of_event or 'nothing'} for the event, {of_person or 'nothing'} for the person"
        plans[of_event, of_person] = plan
        middle = len(times) // 2
        first, last = sum(times[:middle]) / middle, sum(times[middle:-1]) / len(times[middle:-1])
        check(f"{name}: {first:.0f} s, then {last:.0f} s", abs(last - first) < 3 if bends == 0 else (last - first) * bends > 3)
        check(f"{name}: told", "Pacing: " in plan["note"], bends != 0)
        check(f"{name}: with reps that it costs", " reps against even pace" in plan["note"] or bends <= 0)
        under = event.Sheets.getByName("Cards").getCellByPosition(6, 4).String
        check(f"{name}: on the card", under, re.compile({0: "^per round$", 1: "per round, fade", -1: "per round, faster at the end"}[bends]))
    score = lambda plan: float(plan["aim"].split(" ")[0].split("+")[0])
    check("the goal of a fade is no higher", score(plans["fade", ""]) <= score(plans["", ""]))
    check("a person's own pacing is as the event's", plans["", "fade"], plans["fade", ""])
    check("errors", errors_in(event), [])


def test_wall_says_what_a_dash_means(event):
    """Bags and rings take 6 × 3.4 and 10 × 1.9 s each round: with 36 s per round no calories fit, with 2:50 they do."""
    wall = event.Sheets.getByName("Wall")
    for first, last, dashed in (("5", "7", False), ("6", "30", True)):
        typed(event, "workout.wall_from", first)
        typed(event, "workout.wall_to", last)
        typed(event, "workout.wall_step", "1" if last == "7" else "3")
        rates = {wall[f"A{row}"].String: wall[f"E{row}"].String for row in range(4, 13) if wall[f"A{row}"].String}
        check("a rate where one is fast enough", rates["6"].isdigit())
        check(f"dashes up to {last} rounds", "–" in rates.values(), dashed)
        check("and what they mean", wall["A13"].String.startswith("– No rate"), dashed)
        if dashed:
            check("the last goal is beyond all", rates["30"], "–")


def test_wall_and_cards_of_a_workout_for_time(event):
    """Goals are times wherever they stand, stations have their names, judges count the rounds there are."""
    typed(event, "workout.format", "for time")
    typed(event, "workout.rounds", "4")
    typed(event, "workout.wall_from", "13:00")
    typed(event, "workout.wall_to", "15:00")
    check("errors", errors_in(event), [])
    wall, cards, heats = (event.Sheets.getByName(name) for name in ("Wall", "Cards", "Heats"))
    check("first goal of the wall", wall["A4"].String, "13:00")
    check("title of the clocks", "13:30" in wall[f"A{1 + 9 + 5}"].String)
    check("first station of a card", cards["C6"].String, "Ski")
    judge = by_key(event, "judge_page").RangeAddress
    marks = [heats.getCellByPosition(judge.StartColumn + k, judge.StartRow + 4).String for k in range(1, 7)]
    check("rounds", marks, ["R1", "R2", "R3", "R4", "", ""])


def test_sorted_rows_keep_their_people(event):
    typed(event, "roster_goal", "6", row=1)
    with_results(event)
    plans = {name: plan_of(event, name) for name, *_ in PEOPLE}
    results = {name: result_of(event, name) for name in ("Ada Brimsole", "Bela Ostrevan", "Cora Vantuil")}
    for area, width in (("roster_name", 6), ("results_name", 1)):
        first = by_key(event, area).RangeAddress
        sheet = event.Sheets[first.Sheet]
        rows = len(PEOPLE) if width == 6 else 3
        cells = [list(sheet.getCellByPosition(first.StartColumn + c, first.StartRow + r).FormulaLocal for c in range(width)) for r in range(rows)]
        if width == 6:  # the inputs of the roster, last name first
            for r, values in enumerate(reversed(cells)):
                for c, value in enumerate(values):
                    sheet.getCellByPosition(first.StartColumn + c, first.StartRow + r).FormulaLocal = value
    check("plans", {name: plan_of(event, name) for name, *_ in PEOPLE}, plans)
    check("results", {name: result_of(event, name) for name in results}, results)


def test_two_of_one_name_get_nothing(event):
    with_results(event)
    typed(event, "roster_name", "Ada Brimsole", row=6)
    typed(event, "roster_division", "scaled", row=6)
    plan = plan_of(event, "Ada Brimsole")
    check("no goal", bool(BAD.search(plan["aim"])) or plan["aim"] == "")
    check("says why", plan["note"] != "")
    check("no result", result_of(event, "Ada Brimsole")["result"], "")
    check("and says so", "!" in result_of(event, "Ada Brimsole")["division"])


def test_a_renamed_division_loses_nobody(event):
    before = [row[3] for row in rows_of(event, "heat_list") if row[3]]
    typed(event, "workout.divisions.amount.1", "", "lighter", across=True, keep=True)
    plan = plan_of(event, "Cora Vantuil")
    check("no plan of another division", bool(BAD.search(plan["aim"])) or plan["aim"] == "")
    check("the note says which division is unknown", "scaled" in plan["note"], True)
    check("nobody is lost", sorted(set(before)), sorted(row[3] for row in rows_of(event, "heat_list") if row[3]))


def test_rows_inserted_change_nothing(event):
    before = {name: plan_of(event, name) for name, *_ in PEOPLE}
    for name, row in (("Workout", 9), ("Workout", 20), ("Roster", 9)):
        sheet = event.Sheets.getByName(name)
        sheet.unprotect("")
        sheet.Rows.insertByIndex(row, 1)
    recalculate(event)
    check("workout", by_key(event, "workout_check").String.strip(), "")
    check("plans", {name: plan_of(event, name) for name, *_ in PEOPLE}, before)


# What leaves the office -------------------------------------------------------------------------------------------

@pytest.mark.parametrize("kind", ("ods", "xlsx"))
def test_saved_and_opened_again(office, event, kind):
    with_results(event)
    before = {name: plan_of(event, name) for name, *_ in PEOPLE}
    results = {name: result_of(event, name) for name in ("Ada Brimsole", "Bela Ostrevan", "Cora Vantuil")}
    save(event, WORK / f"again.{kind}")
    again = office.open(WORK / f"again.{kind}")
    recalculate(again)
    check("plans", {name: plan_of(again, name) for name, *_ in PEOPLE}, before)
    check("results", {name: result_of(again, name) for name in results}, results)
    check("errors", errors_in(again), [])


def test_without_the_extension_cells_show_it(event):
    """No number that looks right where nothing can be calculated."""
    save(event, WORK / "alone.ods")
    with shared([], "alone") as bare:
        alone = bare.open(WORK / "alone.ods")
        recalculate(alone)
        assert "Pacecells" in by_key(alone, "workout_check").String
        for key in ("aim", "target", "hold", "predicted", "sets"):
            check(key, column_of(alone, "roster", key)[0], "#NAME?")


def test_pages(event):
    """Every page is whole, nothing on it is an error, and it is filled; the pictures are for a person to look at."""
    with_results(event)
    people = len(PEOPLE)
    for sheet in event.Sheets:
        areas = list(sheet.getPrintAreas())
        for area in areas:
            if area.EndRow - area.StartRow > 150:
                area.EndRow = area.StartRow + 6 + people
        sheet.setPrintAreas(tuple(areas))
    LOOK.mkdir(exist_ok=True)
    save(event, LOOK / "event.pdf")
    text = subprocess.run(["pdftotext", "-layout", LOOK / "event.pdf", "-"], capture_output=True, text=True, check=True).stdout
    check("errors in print", BAD.findall(text), [])
    pages = text.split("\f")[:-1]
    check("pages", len(pages) <= 9)
    for page in pages:
        check(f"stamp on {page.split()[0]}", "Quayside Shed" in page and "version 1" in page and "printed" in page)
        check(f"caution on {page.split()[0]}", "chest pain" in page)
    subprocess.run(["pdftoppm", "-r", "70", "-png", LOOK / "event.pdf", LOOK / "event"], check=True)


EDITS = (("workout.cap", "16:00"), ("workout.stations.amount.1", "11"), ("workout.stations.movement", "Row"),
         ("workout.paces.rep_s", "2.2", 2), ("workout.divisions.amount.1", "written"), ("workout.keep", "0.2"),
         ("workout.machines.count", "3"), ("workout.cap", "17:00"))


def test_plans_follow_every_cell_below_the_seal(event):
    """After each edit the roster says with the seal what it says without one, when the whole block is read."""
    seal = next(cell for cell in (event.NamedRanges.getByName("workout").ReferredCells.getCellByPosition(column, 0)
                                  for column in range(10)) if "SEAL" in cell.Formula)
    formula, told = seal.Formula, []
    event.Sheets["Workout"].unprotect("")
    roster = event.NamedRanges.getByName("roster").ReferredCells
    for key, value, *row in EDITS:
        typed(event, key, value, row=row[0] if row else 0)
        with_seal = roster.getDataArray()
        seal.String = ""
        assert roster.getDataArray() == with_seal, key
        seal.Formula = formula
        told.append(with_seal)
    assert len({str(one) for one in told}) >= 6, "the edits matter"
    assert told[0] != told[-1]
