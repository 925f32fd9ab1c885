"""Random edits of the event workbook: after each the sheets say what the naive plan says.

A workout and six people are typed into the workbook. Then one thing is changed at a time, as a coach would, and the roster's
own columns and further answers of ATHLETE are compared with the plans of tests/reference, which share nothing with the
model. So a cell that is not calculated again, or a plan kept too long, shows. Every hundredth edit saves, closes and opens
the workbook. The seed is printed, PACECELLS_TEST_SEED brings the same edits again; a release makes a thousand
(tests/long-runs, PACECELLS_EDITS).
"""

import math
import os
import re

from edited_event import PEOPLE, STATIONS, Event, Sheets, edit
from event_cells import by_key
from naive_cases import rng
from office import enter, save
from sharing import BUILD, OXT, folder_of, shared

WORK = folder_of(__file__)
EDITS = int(os.environ.get("PACECELLS_EDITS", 20))
SEED = int(os.environ.get("PACECELLS_TEST_SEED", 20_261))
REOPENED_EVERY = 100 if EDITS > 100 else 8
DAY = 86400
COLUMNS = ("aim", "target", "hold", "predicted", "suggested")  # of the roster
CLOCKS = [(k, None) for k in (1, 2, 3, 5)] + [(2, i) for i in range(STATIONS)]
ASKED = ([("GOAL", "1"), ("SCORE", "1"), ("SCORE", "2"), ("SCORE", "3"), ("NEEDS", ""), ("CHECK", "1"), ("CHECK", "2"), ("NOTE", "")]
         + [("CLOCK", f"{k}" if i is None else f"{k};{i + 1}") for k, i in CLOCKS]
         + [("SETS", f"{i + 1};{index}") for i in range(STATIONS) for index in (1, 3, 4)])


def ask(document):
    """A sheet with what else the plans answer: a row for each person."""
    document.Sheets.insertNewByName("Asked", document.Sheets.Count)
    sheet = document.Sheets["Asked"]
    for person in range(PEOPLE):
        for column, (function, arguments) in enumerate(ASKED):
            given = f"workout;tests;roster_keys;INDEX(roster_people;{person + 1};0)"
            enter(sheet.getCellByPosition(column, person), f"=ATHLETE.{function}({given}{';' * bool(arguments)}{arguments})")


def shown(document):
    """What the asked cells and the roster's columns show, by person; None for an error."""
    cells = document.Sheets["Asked"].getCellRangeByPosition(0, 0, len(ASKED) - 1, PEOPLE - 1).getDataArray()
    keys, _heads, *people = by_key(document, "roster").getDataArray()[:PEOPLE + 2]
    return [dict(zip(ASKED, answers)) | {key: row[keys.index(key)] for key in COLUMNS}
            for answers, row in zip(cells, people)]


def of_score(score, timed):
    """ATHLETE.SCORE: a time where it is done in time, else reps, or rounds where nothing counts."""
    return score["time"] / DAY if timed and score["time"] is not None else score["reps"] or score["rounds"]


def expected(event, plan):
    """What of the answers the naive plan says."""
    task = event.task
    if plan is None:
        return dict.fromkeys([*COLUMNS, *[one for one in ASKED if one[0] != "NOTE"]], "")
    timed, line, check = task["format"] == "time", plan["line"], plan["check"] or ("", None)
    want = {("SCORE", str(n)): of_score(plan[which], timed) for n, which in enumerate(("low", "expected", "high"), 1)}
    want["predicted"] = plan["expected"]["words"]
    want["aim"], want["suggested"] = plan["goal_words"], plan["suggested_words"]
    whole = timed and plan["goal_words"].count(":")
    want["GOAL", "1"] = plan["goal"][1] / DAY if whole else plan["goal_rounds"]
    if timed and plan["suggested_words"].count(":"):
        want["suggested"] = plan["suggested"][1] / DAY
    elif plan.get("suggested_rounds") is not None:
        want["suggested"] = plan["suggested_rounds"]
    want["target"] = line["target"] / DAY
    want["hold"] = plan["card"]["hold"] if plan["card"] else ""
    want["NEEDS", ""] = plan["needs"] if plan["needs"] is not None else ""
    want["CHECK", "1"], want["CHECK", "2"] = check[0], check[1] / DAY if plan["check"] else ""
    for k, i in CLOCKS:
        value = line["clocks"].get((k, "end" if i is None else i))
        want["CLOCK", f"{k}" if i is None else f"{k};{i + 1}"] = value / DAY if value is not None else ""
    for i in range(STATIONS):
        sets = plan["sets"].get(i)
        for index, key in ((1, "scheme"), (3, "rest"), (4, "left")):
            value = sets[key] if sets else ""
            want["SETS", f"{i + 1};{index}"] = value
    return want


def sets_in(words, reps):
    """The sets of "5-4", "9 sets of 2", "5-5, then singles"."""
    sets = []
    for part in re.split("-|, then ", words):
        number = [int(digits) for digits in re.findall(r"\d+", part)]
        sets += [1] * (reps - sum(sets)) if part == "singles" else number if len(number) == 1 else [number[1]] * number[0]
    return sets


def differs(got, want):
    if got is None:
        return True
    if isinstance(want, list):
        return sets_in(got, sum(want)) != want
    if isinstance(got, str) and isinstance(want, str):
        return got != want
    if isinstance(got, str) or isinstance(want, str):
        return not (isinstance(want, str) and want == f"{got:g}")  # a goal of 6 rounds is the number 6 in its cell
    return not math.isclose(got, want, rel_tol=1e-6, abs_tol=1e-9)


def compare(event, answers):
    """How many values were compared, and what differs from the naive plan."""
    wrong, count = [], 0
    for person, got, plan in zip(event.people, answers, event.plans()):
        for what, want in expected(event, plan).items():
            count += 1
            if differs(got[what], want):
                wrong.append(f"{person['name']}, {what}: {got[what]!r}, expected {want!r}; {got['NOTE', '']}")
    return count, wrong


def refusal(document, answers):
    """The sentence of a workout or a person that cannot be planned, which the naive plan has none of."""
    said = by_key(document, "workout_check").getCellByPosition(0, 0).String.strip()
    return said or next((person["NOTE", ""] for person in answers if person["GOAL", "1"] is None), "")


def test_after_each_edit_the_sheets_say_what_the_naive_plan_says(record_property):
    print(f"PACECELLS_TEST_SEED={SEED}")
    rng.seed(SEED)
    with shared([OXT]) as office:
        office.watch(900 + 10 * EDITS)
        document = office.open(BUILD / "templates" / "en" / "event.ots")
        ask(document)
        sheets, event = Sheets(document), Event()
        sheets.type(event.cells())
        done, refused, typed, compared, kinds = 0, 0, 0, 0, {}
        while done < EDITS:
            what, after = edit(event)
            typed += sheets.type(after.cells())
            answers = shown(document)
            if said := refusal(document, answers):
                refused += 1
                print(f"refused: {what}: {said}")
                assert refused <= 5 + (done + refused) / 10, "too many refused"
                sheets.type(event.cells())
                answers, what = shown(document), "taken back"
            else:
                event, done = after, done + 1
                kinds[what] = kinds.get(what, 0) + 1
            if done % REOPENED_EVERY == 0 and what != "taken back":
                path = WORK / "edited.ods"
                save(document, path)
                document.close(True)
                document = office.open(path)
                sheets.opened_again(document)
                answers, what = shown(document), what + ", saved and opened again"
            count, wrong = compare(event, answers)
            compared += count
            assert not wrong, f"after edit {done} ({what}):\n" + "\n".join(wrong[:8]) + f"\n{event.task}"
        assert compared > done * PEOPLE * 20, "plans were compared"
        told = f"{done} edits of the event workbook, {typed} cells typed, {compared} values as in the naive plan, {refused} refused"
        print(told, kinds)
        record_property("measured", told)
