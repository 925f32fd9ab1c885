"""What results teach: two events go into the logbook, and the next event's rate and the person's page follow by the
model's formulas (learning.h), computed here a second time.

Uses BUILD/pacecells.oxt and its templates.
"""

import math

import pytest
from commands import run
from compare import check
from event_cells import by_key, typed
from logbook_kit import TODAY, area, contents, new_event, new_logbook, to_logbook
from office import type_in
from sharing import OXT, folder_of

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"
MARA, TEO = "Mara Lindqvarn", "Teo Osterby"
# 300 s at 320 W and 900 s at 260 W: critical power 230 W and a reserve of 27000 J, the example of critical_power.h
TESTS = ({"name": MARA, "date": TODAY - 40, "what": "Rower", "time": 5 / 1440, "watts": 320},
         {"name": MARA, "date": TODAY - 39, "what": "Rower", "time": 15 / 1440, "watts": 260})
ALONE = 230 + 27000 / 720  # W for 12 min
WORKOUT = {"Format": "amrap", "Cap": "12:00", "Movement1": "Row", "Unit1": "row cal", "Amount1": "12", "Movement2": "pull-up",
           "Unit2": "rep", "Amount2": "5", "Movement3": "Thruster", "Unit3": "rep", "Amount3": "10"}
REPS = 27  # of a round


def watts(rate):
    return (rate - 300) / (4 * 0.8604)


def rate_of(power):
    return 300 + 4 * 0.8604 * power


def before_rounding(row):
    """The rate to plan with of the tests alone, for the workout of a result."""
    return rate_of(row["share"] * ALONE)


@pytest.fixture
def place(office):
    return new_logbook(office, WORK, people=[{"name": MARA}, {"name": TEO}], tests=TESTS)


def event_on(office, day, title):
    event, said = new_event(office, Division1="as written", Division2="", Division3="", **WORKOUT)
    typed(event, "workout.title", title)
    by_key(event, "workout.date").getCellByPosition(0, 0).Value = day
    typed(event, "roster_division", "as written", "as written")
    event.calculateAll()
    check(f"{title} can be planned", by_key(event, "workout_check").String, "")
    return event


def times_typed(event, row, text):
    cells = by_key(event, "results")
    type_in(cells.getCellByPosition(cells.getDataArray()[0].index("erg_times"), 2 + row), text)


def came_of(event, *rounds):
    """So many rounds and reps in the row of each person, and times at the ergometer."""
    for row, (name, whole, more, *times) in enumerate(rounds):
        for time in times:
            times_typed(event, row, time)
        typed(event, "results_name", name, row=row)
        clocks = by_key(event, "results_clocks")
        for k in range(whole):
            clocks.getCellByPosition(k, row).Value = (k + 1) * 690 / whole / 86400
        by_key(event, "results_partial").getCellByPosition(0, row).Value = more
    event.calculateAll()


def held_by(event, row=0):
    """The rate to hold and the row of the sheet Tests."""
    sheet = by_key(event, "tests")
    keys = sheet.getDataArray()[0]
    values = dict(zip(keys, sheet.getDataArray()[2 + row]))
    cell = event.Sheets[0].getCellRangeByName("A200")
    cell.Formula = f"=ATHLETE.RATE(workout;tests;roster_keys;INDEX(roster_people;{row + 1};0);1)"
    return cell.Value, values


def sentence_of(office, place, name):
    file = place.with_name("page.ods")
    file.unlink(missing_ok=True)
    done, said = run(office, office.new(), "person-page", Name=name, File=str(file))
    assert done, said
    page = office.open(file)
    said = [cell for cell, in area(page, "person_said").getDataArray() if cell]
    page.close(True)
    return said


def learnt(results):
    """The factor of learning.h and its error, and what the results alone say, written out again."""
    weights = [1 / row["ratio_sd"] ** 2 for row in results]
    logs = [weight * math.log(row["ratio"]) for weight, row in zip(weights, results)]
    prior = 1 / 0.10 ** 2
    return (min(1.2, max(0.8, math.exp(sum(logs) / (prior + sum(weights))))), (prior + sum(weights)) ** -0.5,
            math.exp(sum(logs) / sum(weights)))


def percent(factor):
    return f"{abs(round(100 * (factor - 1)))}%"


def test_two_events_teach(office, place):
    first = event_on(office, TODAY - 14, "First tide")
    before, tests = held_by(first)
    check("nothing is known yet", (tests["factor"], tests["factor_sd"]), ("", ""))
    check("no sentence without a result", len(sentence_of(office, place, MARA)), 1)
    came_of(first, (MARA, 4, 5), (TEO, 4, 1))
    done, said = to_logbook(office, first)
    assert done, said
    mara, teo = contents(office, place, "results")
    check("said beside the score", f"watts held / promised {mara['ratio']:.2f}" in said, True)
    check("what was held beside what was promised", mara["ratio"], watts(mara["held"]) / (mara["share"] * ALONE))
    on_machine = 12 * 3600 / mara["held"]
    check("from the total alone it is unsure: 10 s a round where the others are the group's", mara["ratio_sd"],
          math.hypot(0.04, mara["held"] / (mara["held"] - 300) * 10 / on_machine))
    check("who has no tests was promised nothing, but held something", (teo["ratio"], teo["held"] > 400, 0.75 <= teo["share"] <= 0.9),
          ("", True, True))
    check("a second time", to_logbook(office, first)[1], "0 new, 0 changed, 2 unchanged.")

    second = event_on(office, TODAY - 7, "Second tide")
    factor, error, _alone = learnt([mara])
    rate, tests = held_by(second)
    check("the factor of one result", tests["factor"], factor)
    check("and its error", tests["factor_sd"], error)
    came_of(second, (MARA, 4, 8), (TEO, 4, 2))
    done, said = to_logbook(office, second)
    assert done, said
    results = [row for row in contents(office, place, "results") if row["name"] == MARA]
    check("two results", len(results), 2)
    check("the tests alone promise, not what was learnt", results[1]["ratio"], watts(results[1]["held"]) / (results[1]["share"] * ALONE))

    third = event_on(office, TODAY, "Third tide")
    factor, error, alone = learnt(results)
    rate, tests = held_by(third)
    check("the factor of two", tests["factor"], factor)
    check("and its error, which is smaller", tests["factor_sd"], error)
    floor = rate_of(watts(before_rounding(mara)) * factor)
    check("the rate follows", (rate > before, rate), (True, 5 * math.floor(floor / 5)))
    check("and the person's page says so", sentence_of(office, place, MARA)[1],
          f"Your last results say that you hold {percent(alone)} more than your tests promise; since one result can be luck, "
          f"we count {percent(factor)}.")

    by_key(second, "results_clocks").getCellByPosition(3, 0).Value -= 40 / 86400
    by_key(second, "results_partial").getCellByPosition(0, 0).Value = 20
    second.calculateAll()
    done, said = to_logbook(office, second, Write="false")
    check("old beside new", f"watts held / promised {results[1]['ratio']:.2f} → " in said, True)


def test_times_at_the_ergometer(office, place):
    """What was timed is known well: it counts for people without tests too."""
    first = event_on(office, TODAY - 14, "First tide")
    group, _tests = held_by(first, 1)
    came_of(first, (MARA, 4, 5, "0:48 0:50 0:52"), (TEO, 4, 1, "1:00 1:03"))
    done, said = to_logbook(office, first)
    assert done, said
    mara, teo = contents(office, place, "results")
    check("as they were typed", (mara["erg_times"], mara["erg_cal"]), ("0:48 0:50 0:52", 12))
    check("held", mara["held"], 3 * 12 * 3600 / 150)
    check("three rounds", mara["ratio_sd"], math.hypot(0.04, 0.05 / math.sqrt(3)))
    check("beside what was promised", mara["ratio"], watts(864) / (mara["share"] * ALONE))
    check("without tests", (round(teo["held"], 9), teo["ratio"]), (round(2 * 12 * 3600 / 123, 9), ""))

    second = event_on(office, TODAY - 7, "Second tide")
    factor, error, _alone = learnt([mara])
    _rate, tests = held_by(second)
    check("the factor is surer", (tests["factor"] == pytest.approx(factor), error < 0.05), (True, True))
    row = [name for name, in by_key(second, "tests_name").getDataArray()].index(TEO)
    rate, tests = held_by(second, 1)
    cells = by_key(second, "tests").getDataArray()
    past = dict(zip(cells[0], cells[2 + row]))
    check("what Teo held", past["result.calh"], teo["held"])
    check("how long, of which share", (round(past["result.time"] * 86400), past["result.share"]), (720, teo["share"]))
    check("how sure", past["result.sd"], teo["ratio_sd"])
    check("is his rate now, not the group's", (abs(rate - teo["held"]) < 0.03 * teo["held"], abs(rate - group) > 50), (True, True))

    typed(second, "results_name", TEO)
    typed(second, "results_partial", "3")
    times_typed(second, 0, "fast")
    second.calculateAll()
    done, said = to_logbook(office, second)
    check("what cannot be read is said", (done, said), (False, f"Sheet Results, {TEO}: the ergometer times fast cannot be read. "
                                                               "Write them such as 1:05 1:08 1:11."))
