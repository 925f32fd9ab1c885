"""WORKOUT and ATHLETE in the real office: a block, tests and a roster on sheets, and what cells say about them.

Expected values can be worked out on paper, or follow from others on the sheet; the plan itself is tested with the model.
"""

import hashlib
import re
import struct
import time
import uuid

import pytest
import uno
from office import enter, recalculate, result, save, type_in
from plan_cases import BAD_BLOCK, BAD_ROSTER, BAD_TESTS, SECOND, WORKOUT
from plan_sheet import BLOCK, ROSTER, TESTS, lay_out, name, of, put
from sharing import FUNCTIONS, catalog, folder_of, shared

FUNCTIONS_HERE = [function for function in catalog() if function["family"] in ("WORKOUT", "ATHLETE")]
WORK = folder_of(__file__)


@pytest.fixture(scope="module")
def event():
    """The event in a document that no case changes; each types into a row of its own."""
    with shared([FUNCTIONS]) as office:
        yield lay_out(office.new())


@pytest.fixture
def fresh(office):
    """An event to change."""
    return lay_out(office.new())


class Typist:
    """Types formulas below each other on the sheet Results."""

    def __init__(self, document):
        self.sheet, self.row = document.Sheets["Results"], 0

    def __call__(self, formula):
        cell = self.sheet.getCellByPosition(0, self.row)
        self.row += 1
        type_in(cell, formula)
        return result(cell)


@pytest.fixture
def answer(event):
    event.Sheets["Results"].clearContents(1023)
    return Typist(event)


def near(seconds):
    return pytest.approx(seconds * SECOND, abs=0.5 * SECOND)


@pytest.mark.parametrize("formula, want", WORKOUT, ids=[formula for formula, _ in WORKOUT])
def test_workout(answer, formula, want):
    got = answer(formula)
    assert got == (want if isinstance(want, str) else pytest.approx(want))


def test_goal_that_was_typed(answer):
    """Six rounds end a slip of 10 s before the cap of 17:00; rounds are a little faster at the end or at the start."""
    assert answer(of(1, "GOAL")) == 6
    assert answer(of(1, "GOAL", 3)) == "6"
    clocks = [answer(of(1, "CLOCK", k)) for k in range(1, 7)]
    assert clocks == sorted(clocks) and clocks[-1] == near(1010)
    assert answer(of(1, "TARGET")) == pytest.approx(clocks[-1] / 6, rel=1e-6)
    assert [answer(of(1, "TARGET", k)) for k in range(1, 7)] == pytest.approx(
        [b - a for a, b in zip([0, *clocks], clocks)])
    assert answer(of(1, "CLOCK", 7)) == "" and answer(of(1, "TARGET", 7)) == ""
    assert answer(of(1, "CLOCK", 0)) == "Err:502"


def test_clocks_of_the_stations_lie_inside_their_round(answer):
    ends = [answer(of(1, "CLOCK", 2, station)) for station in range(1, 5)]
    assert ends == sorted(ends)
    assert answer(of(1, "CLOCK", 1)) < ends[0] and ends[-1] <= answer(of(1, "CLOCK", 2))
    assert answer(of(1, "CLOCK", 2, '"ring rows"')) == ends[3]
    assert answer(of(1, "CLOCK", 2, 5)) == ""
    assert answer(of(1, "CLOCK", 2, '"rope"')) == "Err:502"


def test_next_goal_down_is_lower_and_its_rounds_longer(answer):
    assert re.fullmatch(r"5( \+ .+)?", answer(of(1, "GOAL", 4)))
    assert answer(of(1, "CLOCK", 1, "", 2)) > answer(of(1, "CLOCK", 1))


def test_goal_at_a_station(answer):
    assert answer(of(5, "GOAL", 3)) in ("5 + Ring rows", "6")
    assert 5 < answer(of(5, "GOAL")) <= 6


def test_suggested_goal_is_taken_where_none_is_typed(answer):
    assert answer(of(2, "GOAL")) == answer(of(2, "GOAL", 2)) > 0


def test_score_lies_in_its_range(answer):
    low, expected, high = (answer(of(2, "SCORE", index)) for index in (1, 2, 3))
    assert 0 < low < expected < high < 38 * 12
    text = answer(of(2, "SCORE", 4))
    assert answer(f'=SCORE.REPS("{text}";38)') == pytest.approx(expected, abs=1) if "+" in text else text
    assert " to " in answer(of(2, "SCORE", 5))
    assert answer(of(2, "SCORE", 6)) == expected  # by which heats are ordered: the more reps the later


def test_rate_and_what_the_goal_needs(answer):
    """12 calories in the time on the machine are the rate to hold."""
    hold, makes_it, most = (answer(of(1, "RATE", index)) for index in (1, 2, 3))
    assert hold <= most and hold % 5 == 0 and most % 5 == 0
    assert answer(of(1, "RATE", 4)) == pytest.approx(12 * 3600 / hold * SECOND, rel=1e-6)
    need = answer(of(1, "NEEDS"))
    assert need <= makes_it < need + 5
    assert answer(of(1, "NEEDS", 1)) == need and answer(of(1, "NEEDS", 2)) == ""
    assert answer(of(1, "RATE", 1, '"Sandbags"')) == ""


def test_no_tiebreak_no_clock(answer):
    assert answer(of(1, "CHECK", 3)) == ""


def test_margin(answer):
    situation = answer(of(1, "MARGIN", 2))
    assert answer(of(1, "MARGIN")) == {1: "fits", 2: "a stretch", 3: "out of reach"}[situation]
    assert 0 <= answer(of(1, "MARGIN", 3)) <= 1


def test_sets(answer):
    """6 ring rows and 6 sandbags, from the tests of 14 and 11; step-overs have no test and no usual longest set."""
    scheme = answer(of(1, "SETS", 4))
    assert answer(f'=SUMPRODUCT(VALUE(MID(SUBSTITUTE("{scheme}";"-";"");ROW($A$1:$A${len(scheme.replace("-", ""))});1)))') == 6
    assert answer(of(1, "SETS", '"Ring rows"')) == scheme
    assert answer(of(1, "SETS", 4, 3)) >= 0 and answer(of(1, "SETS", 4, 4)) > 0
    line = answer(of(1, "SETS", 0))
    assert "Ring rows " + scheme in line and "Sandbags" in line and " · " in line
    assert answer(of(1, "SETS", 2, 5)) == "30 kg" and answer(of(1, "SETS", 0, 5)) == "Sandbags 30 kg"
    assert answer(of(1, "SETS", 9)) == "" and answer(of(1, "SETS", 1)) == ""
    assert answer(of(1, "SETS", '"rope"')) == "Err:502"


def test_rehearsal(answer):
    """Easy rounds at 82.5 % of the pace of the goal (the default), then one at it."""
    easy, rounds, words = (answer(of(1, "REHEARSAL", index)) for index in (1, 3, 4))
    assert easy > answer(of(1, "TARGET")) and rounds >= 1
    assert "round" in words


def test_message_holds_what_the_cells_say(answer):
    text = answer(of(1, "TEXT"))
    hold = answer(of(1, "RATE"))
    assert text.startswith("Ilka Moorvane, Tide: goal 6, ")
    assert f"SKI: hold {hold:.0f} cal/h" in text
    assert answer(of(1, "SETS", 0)) in text


def test_people_without_a_goal_have_empty_cells_and_a_note(answer):
    for function in ("GOAL", "SCORE", "TARGET", "RATE", "NEEDS", "MARGIN", "REHEARSAL"):
        assert answer(of(3, function)) == "" and answer(of(4, function)) == "", function
    assert answer(of(3, "NOTE")).startswith("Easy: stop at 8:30 or after 3 rounds")
    assert "Easy: stop at 8:30" in answer(of(3, "TEXT"))
    assert answer(of(4, "NOTE")) == "" and answer(of(4, "TEXT")) == ""


def set_cell(sheet, place, content):
    if isinstance(content, str):
        sheet[place].String = content
    else:
        sheet[place].Value = content


@pytest.mark.parametrize("place, content, sentence", BAD_ROSTER, ids=[f"{p} {c}" for p, c, _ in BAD_ROSTER])
def test_roster_that_cannot_be_meant(fresh, place, content, sentence):
    set_cell(fresh.Sheets["Roster"], place, content)
    answer = Typist(fresh)
    assert answer(of(1, "GOAL")) == "Err:502"
    assert answer(of(1, "NOTE")) == sentence


@pytest.mark.parametrize("place, content, sentence", BAD_BLOCK, ids=[f"{p} {c}" for p, c, _ in BAD_BLOCK])
def test_block_that_cannot_be_meant(fresh, place, content, sentence):
    """A sentence that names the cell; every other cell is an error, never a shifted number."""
    answer = Typist(fresh)
    before = answer(of(1, "GOAL"))
    set_cell(fresh.Sheets["Workout"], place, content)
    said = answer("=WORKOUT.CHECK(workout)")
    assert sentence.search(said) if isinstance(sentence, re.Pattern) else said == sentence
    assert before == 6
    for formula in (of(1, "GOAL"), of(1, "TEXT"), of(1, "NOTE"), "=WORKOUT.TEXT(workout)"):
        assert answer(formula) == "Err:502"
    assert result(fresh.Sheets["Results"]["A1"]) == "Err:502", "a cell that was there before"
    assert answer(of(4, "NOTE")) == "", "a row without a name asks for nothing"


@pytest.mark.parametrize("place, content, sentence", BAD_TESTS, ids=[f"{p} {c}" for p, c, _ in BAD_TESTS])
def test_tests_that_cannot_be_meant(fresh, place, content, sentence):
    set_cell(fresh.Sheets["Tests"], place, content)
    answer = Typist(fresh)
    assert answer(of(1, "GOAL")) == "Err:502"
    assert answer(of(1, "NOTE")).startswith(sentence.split(" twice")[0])


@pytest.mark.parametrize("sheet, place", [("Workout", "C5"), ("Workout", "C19"), ("Tests", "B3"), ("Tests", "A2")])
def test_error_in_a_cell_that_is_read_is_refused(fresh, sheet, place):
    fresh.Sheets[sheet][place].Formula = "=1/0"
    answer = Typist(fresh)
    assert answer(of(1, "GOAL")) == "Err:502"
    said = answer("=WORKOUT.CHECK(workout)") if sheet == "Workout" else answer(of(1, "NOTE"))
    assert said == f"{sheet}.{place} shows an error."


def test_error_in_the_athletes_row_fails_the_call(fresh):
    fresh.Sheets["Roster"]["E2"].Formula = "=1/0"
    answer = Typist(fresh)
    assert answer(of(1, "GOAL")) == "Err:504"
    assert answer(of(2, "GOAL")) > 0


def test_round_to_check_by_and_the_words_of_the_machine(answer):
    """The round that ends nearest 40 % of the cap; its threshold is midway between the two goals' clocks."""
    ends = [answer(of(1, "CLOCK", k)) for k in range(1, 6)]
    check = int(answer(of(1, "CHECK")))
    cap = 17 * 60 / 86400
    assert min(ends, key=lambda end: abs(end - 0.4 * cap)) == ends[check - 1]
    lower = answer(f"{of(1, 'CLOCK', check)[:-1]};;2)")
    assert answer(of(1, "CHECK", 2)) == pytest.approx((ends[check - 1] + lower) / 2, abs=0.51 / 86400)
    assert answer(of(1, "CHECK", 4)) == "Err:502"
    assert (answer(of(1, "RATE", 5)), answer(of(1, "RATE", 6))) == ("SKI", "12 cal")
    assert answer(of(1, "RATE", 7)) == "Err:502"


def test_what_is_no_range_is_refused(answer):
    for wrong in ('=ATHLETE.GOAL(5;tests;$Roster.$B$1:$H$1;$Roster.B2:H2)',
                  '=ATHLETE.GOAL({"x"};tests;$Roster.$B$1:$H$1;$Roster.B2:H2)',
                  '=ATHLETE.GOAL(workout;"tests";$Roster.$B$1:$H$1;$Roster.B2:H2)'):
        assert answer(wrong) == "Err:504"
    assert answer("=ATHLETE.GOAL(workout;tests;$Roster.$B$1:$G$1;$Roster.B2:H2)") == "Err:502"
    assert answer("=ATHLETE.GOAL(workout;tests;$Roster.$B$1:$H$1)") == "Err:502"


def test_a_range_may_be_picked_by_index_and_offset(answer):
    want = answer(of(1, "RATE"))
    assert answer("=ATHLETE.RATE(workout;tests;$Roster.$B$1:$H$1;INDEX($Roster.$B$2:$H$6;1;0))") == want
    assert answer("=ATHLETE.RATE(workout;OFFSET(tests;0;0);$Roster.$B$1:$H$1;OFFSET($Roster.$B$1:$H$1;1;0))") == want


def all_answers(document, people=(1, 2, 5)):
    """Every answer for some people, by the person's name."""
    answer = Typist(document)
    found = {}
    for person in people:
        who = document.Sheets["Roster"].getCellByPosition(1, person).String
        found[who] = [answer(of(person, function, *arguments)) for function, arguments in
                      [("GOAL", ()), ("GOAL", (3,)), ("SCORE", ()), ("TARGET", ()), ("CLOCK", (2, 3)), ("RATE", ()),
                       ("NEEDS", ()), ("MARGIN", ()), ("SETS", (0,)), ("REHEARSAL", (4,)), ("NOTE", ()), ("TEXT", ())]]
    return found


def test_rows_and_columns_may_be_inserted(fresh):
    before = all_answers(fresh)
    for sheet, row in (("Workout", 11), ("Workout", 6), ("Tests", 3)):
        fresh.Sheets[sheet].Rows.insertByIndex(row, 1)
    for sheet, column in (("Workout", 4), ("Tests", 2), ("Roster", 3)):
        fresh.Sheets[sheet].Columns.insertByIndex(column, 1)
    recalculate(fresh)
    answer = Typist(fresh)
    answer.row = 200
    assert answer("=WORKOUT.CHECK(workout)") == ""
    wide = of(1, "TEXT").replace("$H$1", "$I$1").replace(":H2", ":I2")
    assert answer(wide) == before["Ilka Moorvane"][-1]


def test_a_sorted_roster_gives_each_person_their_own_plan(fresh):
    before = all_answers(fresh)
    roster = fresh.Sheets["Roster"].getCellRangeByName("B2:H6")
    rows = roster.getDataArray()
    roster.setDataArray(tuple(reversed(rows)))
    assert all_answers(fresh, (1, 4, 5)) == before


def test_rows_of_the_tests_may_change_places(fresh):
    before = all_answers(fresh)
    people = fresh.Sheets["Tests"].getCellRangeByName("A3:E4")
    people.setDataArray(tuple(reversed(people.getDataArray())))
    assert all_answers(fresh) == before


def test_a_typed_goal_recalculates_its_row_alone(fresh):
    """The row of another person is not asked again: its cell keeps what a change behind the office's back would undo."""
    answer = Typist(fresh)
    assert answer(of(1, "GOAL")) == 6
    other = answer(of(2, "TEXT"))
    sheet = fresh.Sheets["Results"]
    sheet["C1"].Formula = of(1, "GOAL") + "+0*RAND()*0"
    counted = {}
    for person, cell in ((1, "E1"), (2, "E2")):  # changes with each calculation of its formula
        sheet[cell].Formula = of(person, "GOAL") + "*0+CURRENT()*0+RANDBETWEEN.NV(1;1000000000)"
        counted[person] = sheet[cell].Value
    fresh.Sheets["Roster"]["F2"].Value = 5
    assert result(sheet["A1"]) == 5
    assert sheet["E1"].Value != counted[1] and sheet["E2"].Value == counted[2]
    assert result(sheet["A2"]) == other


def test_a_typed_test_changes_the_plan(fresh):
    answer = Typist(fresh)
    before = answer(of(2, "RATE"))
    fresh.Sheets["Tests"]["B4"].Value = 200
    assert result(fresh.Sheets["Results"]["A1"]) < before


def test_copied_to_another_workbook_it_never_gives_someone_elses_numbers(office, fresh):
    """Copied by the office itself, as a person does: alone the names are gone, beside another event they are its own."""
    fresh.Sheets["Results"]["A1"].Formula = of(1, "TARGET")
    fresh.Sheets["Results"]["A2"].Formula = of(1, "TEXT")
    empty = office.new()
    empty.Sheets.importSheet(fresh, "Results", 0)
    recalculate(empty)
    for place in ("A1", "A2"):
        assert result(empty.Sheets[0][place]) in ("#NAME?", "#REF!", "Err:504", "Err:502", "Err:508"), place
    other = lay_out(office.new(), block=BLOCK.replace("17:00", "12:00"),
                    roster=ROSTER.replace("Ilka Moorvane", "Vera Holm"))
    other.Sheets.removeByName("Results")
    other.Sheets.importSheet(fresh, "Results", 3)
    recalculate(other)
    got = result(other.Sheets["Results"]["A2"])
    assert got in ("#NAME?", "#REF!", "Err:504", "Err:502", "Err:508") or got.startswith("Vera Holm"), got


@pytest.mark.parametrize("kind", ("ods", "xlsx"))
def test_saved_and_opened_again(office, fresh, kind):
    before = all_answers(fresh)
    path = WORK / f"plan.{kind}"
    save(fresh, path)
    opened = office.open(path)
    recalculate(opened)
    rows = sum(map(len, before.values()))
    shown = [result(opened.Sheets["Results"].getCellByPosition(0, row)) for row in range(rows)]
    assert shown == [pytest.approx(one) if isinstance(one, float) else one for answers in before.values() for one in answers]


LANGUAGES = [("de", "Mia", "Ilka Moorvane, Tide: Ziel 6, "), ("es", "Mia", "Ilka Moorvane, Tide: objetivo 6, "),
             ("fr", "Mia", "Ilka Moorvane, Tide\u00a0: objectif 6, ")]


@pytest.mark.parametrize("language, _, start", LANGUAGES, ids=[language for language, *_ in LANGUAGES])
def test_cells_speak_the_workbooks_language(office, language, _, start):
    document = lay_out(office.new(), block=BLOCK.replace("| en", f"| {language}"))
    answer = Typist(document)
    text = answer(of(1, "TEXT"))
    assert text.startswith(start)
    assert not re.search(r"\b(hold|never|Sets|after|Before|Stop|easy)\b", text), text


FOR_TIME = BLOCK.replace("| AMRAP", "| for time").replace("| 6 | 6 | 45", "| 21-15-9 | 21-15-9 | 45")
# 12 calories, 21, 15 and 9 sandbags, 8 step-overs and 6 ring rows: 47, 41 and 35 points.
TIMED = [
    ("=WORKOUT.CHECK(workout)", ""),
    ('=WORKOUT.REPS(workout;"scaled";3)', 35),
    ('=SUM(WORKOUT.REPS(workout;"scaled"))', 47 + 41 + 35),
    ('=WORKOUT.REPS(workout;"scaled";4)', ""),
    ('=WORKOUT.COUNT(workout;"scaled";2;2)', 47 + 12 + 15),
    ('=WORKOUT.TEXT(workout;"scaled";2)', "21-15-9 Sandbags 30 kg"),
    ('=WORKOUT.SCORE(workout;"scaled";"1:15";;3)', "0+12"),
    ('=WORKOUT.TABLE(workout;"10:00";"12:00";"1:00";2;1)', 660 * SECOND),
    ('=WORKOUT.TABLE(workout;"10:00";"18:00")', "Err:502"),
    ("=ISNUMBER(WORKOUT.TABLE(workout;;;;1;1))", 1),
    ('=WORKOUT.CLOCKS(workout;"12:00";"scaled";3;6)', 720 * SECOND),
    (of(1, "GOAL"), 720 * SECOND),
    (of(1, "GOAL", 3), "12:00"),
    (of(1, "CLOCK", 3), 720 * SECOND),
    (of(1, "CLOCK", 4), ""),
]


def test_workout_for_time(office):
    document = lay_out(office.new(), block=FOR_TIME, roster=ROSTER.replace("middle | 6 ", "middle | 12:00 ").replace(
        "5+Ring rows", ""))
    answer = Typist(document)
    for formula, want in TIMED:
        got = answer(formula)
        assert got == (want if isinstance(want, str) else pytest.approx(want)), formula
    low, expected, high = (answer(of(1, "SCORE", index)) for index in (1, 2, 3))
    assert low > expected > high > 0, "low is the slower time"


def test_seal_is_the_name_based_uuid_of_the_cells(event, answer):
    """Against Python's uuid5: columns, then for each cell its kind and the bits of the number or the text's length and text."""
    block = event.NamedRanges.getByName("workout").ReferredCells
    contents = struct.pack("<q", block.Columns.Count)
    for value in (value for row in block.getDataArray() for value in row):
        if isinstance(value, float):
            contents += struct.pack("<bd", 1, value)
        else:
            text = value.encode()
            contents += struct.pack("<bq", 2, len(text)) + text if text else b"\0"
    digest = hashlib.sha1(uuid.NAMESPACE_OID.bytes + contents).digest()[:16]
    assert answer("=WORKOUT.SEAL(workout)") == f"seal {uuid.UUID(bytes=digest, version=5)}"
    assert answer("=WORKOUT.SEAL(A1:A2000)") == "", "too tall for a workout"


INTERVALS = BLOCK.replace("| AMRAP", "| intervals").replace("cap | Cap | 17:00", "windows | W | 5\nwork_s | S | 180\nrest_s | R | 60")


def test_intervals(office):
    """Five windows of 3:00 with a rest of 1:00: 32 points each; the last ends 16 min after the start at most."""
    answer = Typist(lay_out(office.new(), block=INTERVALS, roster=ROSTER.replace("middle | 6 ", "middle | 5 ")))
    assert answer("=WORKOUT.CHECK(workout)") == ""
    assert answer('=WORKOUT.TEXT(workout;"scaled")').startswith("5 windows of 3:00, 1:00 rest, scaled: ")
    assert answer('=WORKOUT.COUNT(workout;"scaled";5)') == 160
    assert answer(of(1, "GOAL")) == 5
    assert 240 * SECOND < answer(of(1, "CLOCK", 2)) < 420 * SECOND
    assert answer(of(1, "CLOCK", 6)) == ""
    # The wall: the last row is the whole time to work, with nothing to spare.
    assert answer("=WORKOUT.TABLE(workout;;;;0;1)") == "DONE AFTER"
    assert answer("=WORKOUT.TABLE(workout;;;;9;1)") == pytest.approx(180 * SECOND)
    assert answer("=WORKOUT.TABLE(workout;;;;9;2)") == 0
    assert answer("=WORKOUT.TABLE(workout;;;;10;1)") == ""


@pytest.mark.parametrize("function", FUNCTIONS_HERE, ids=lambda function: function["name"])
def test_example_gives_the_answer_that_the_catalog_promises(event, function):
    """The catalog's formula, on a sheet with the roster in it."""
    sheet = event.Sheets["Roster"]
    if not event.NamedRanges.hasByName("broken"):  # the block without its last row
        name(event, "broken", event.Sheets["Workout"].getCellRangeByName("A1:K25"))
        event.Sheets.insertNewByName("Windows", event.Sheets.Count)
        name(event, "windows", put(event.Sheets["Windows"], INTERVALS))
    type_in(sheet["K1"], function["formula"])
    got = result(sheet["K1"])
    shown = sheet["K1"].String
    wanted = function["answer"]
    sheet["K1"].String = ""
    if ":" in wanted and isinstance(got, float):
        minutes, seconds = wanted.split(":")
        assert got == near(int(minutes) * 60 + int(seconds))
    elif isinstance(got, float):
        assert got == pytest.approx(float(wanted), abs=0.5)
    else:
        assert got == wanted, shown


def test_recalculation_of_a_full_roster_is_quick(office):
    """200 people with 11 results each. The bar of 0.3 s is the benchmark's; here the machine may be busy."""
    people = [f"P{k:03} | scaled | full | middle | {5 + k % 3} | | FALSE" for k in range(200)]
    tests = [f"P{k:03} | {170 + k % 60} | {12000 + 50 * k} | {8 + k % 12} | {6 + k % 9}" for k in range(200)]
    document = lay_out(office.new(), tests=TESTS + "\n".join(tests), roster=ROSTER.split("\n")[1] + "\n" + "\n".join(people))
    sheet = document.Sheets["Roster"]
    for column, (function, arguments) in enumerate(
            [("GOAL", ()), ("SCORE", ()), ("TARGET", ()), ("CLOCK", (1,)), ("RATE", ()), ("NEEDS", ()), ("MARGIN", ()),
             ("SETS", (0,)), ("REHEARSAL", ()), ("NOTE", ()), ("TEXT", ())], 10):
        enter(sheet.getCellByPosition(column, 1), of(1, function, *arguments))
    sheet.getCellRangeByPosition(10, 1, 20, 200).fillAuto(uno.Enum("com.sun.star.sheet.FillDirection", "TO_BOTTOM"), 1)
    times = []
    for _ in range(3):
        begin = time.perf_counter()
        document.calculateAll()
        times.append(time.perf_counter() - begin)
    print(f"hard recalculation {min(times):.3f} s")
    begin = time.perf_counter()
    sheet["F100"].Value = 8
    assert sheet["K100"].Value == 8
    print(f"one goal typed {time.perf_counter() - begin:.4f} s")
    assert min(times) < 3
