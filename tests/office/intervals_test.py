"""Results of intervals as a coach types them: reps of the windows or the score alone, ranked, and to the logbook.

Expected scores and places are arithmetic done here.
"""

import pytest
from commands import run
from compare import check
from event_cells import BAD, by_key, column_of, typed_event, rows_of, typed
from logbook_kit import contents, to_logbook
from sharing import OXT, folder_of

EXTENSIONS = [OXT]
WORK = folder_of(__file__)
WINDOWS, MOST_PRESSES = 4, 10
PEOPLE = ("Ada Brimsole", "Bela Ostrevan", "Cora Vantuil", "Dagny Tellmoor")
TYPED = {"Ada Brimsole": "31 29 28 30", "Bela Ostrevan": "30, 30, 29, 29", "Cora Vantuil": "27", "Dagny Tellmoor": "29 29 29 29"}
SUMS = {"Cora Vantuil": "108"}  # who typed a score alone typed the lowest window


def scores(scoring):
    """By person: the lowest window, or all of them together."""
    found = {}
    for name, text in {**TYPED, **(SUMS if scoring != "lowest window" else {})}.items():
        numbers = [int(number) for number in text.replace(",", " ").split()]
        found[name] = numbers[0] if len(numbers) == 1 else min(numbers) if scoring == "lowest window" else sum(numbers)
    return found


@pytest.fixture
def event(office):
    """Four windows of three minutes: calories and presses, then as many ring rows as fit."""
    document = typed_event(office, {"title": "Slack Water", "date": "2026-03-14", "format": "intervals", "work_s": "180", "rest_s": "60",
                                  "windows": str(WINDOWS), "scoring": "lowest window"}, ["open", ""],
                         [("Rowing", "row cal", ["9"], []), ("Floor presses", "reps", [str(MOST_PRESSES)], []), ("Ring rows", "reps", ["max"], [])])
    typed(document, "workout.paces.calh", "900")
    typed(document, "workout.paces.rep_s", "2.5", "2", row=1)
    for row, name in enumerate(PEOPLE):
        typed(document, "roster_name", name, row=row)
        typed(document, "roster_division", "open", row=row)
        typed(document, "results_name", name, row=row)
        typed(document, "results_partial", TYPED[name], row=row)
    return document


def shown(document, key):
    return dict(zip(PEOPLE, column_of(document, "results", key)))


def test_windows_are_scored_and_ranked(event):
    check("the workout is complete", by_key(event, "workout_check").String, "")
    for scoring in ("lowest window", "sum of the windows", "total"):
        typed(event, "workout.scoring", scoring)
        typed(event, "results_partial", SUMS["Cora Vantuil"] if scoring != "lowest window" else "27", row=2)
        wanted = scores(scoring)
        check(f"{scoring}: results", shown(event, "result"), {name: str(score) for name, score in wanted.items()})
        check(f"{scoring}: places", shown(event, "place"),
              {name: str(1 + sum(other > score for other in wanted.values())) for name, score in wanted.items()})
    check("what is asked for", column_of_heading(event), "Reps by window, or score")
    check("no forecast, and no error", [set(shown(event, key).values()) for key in ("low", "expected", "high")], [{""}] * 3)
    typed(event, "workout.format", "AMRAP")
    typed(event, "workout.cap", "12:00")
    check("of rounds it is the open round", column_of_heading(event), "Reps in the open round")


def column_of_heading(document):
    cells = by_key(document, "results")
    area = cells.RangeAddress
    keys = cells.getCellRangeByPosition(0, 0, area.EndColumn - area.StartColumn, 0).getDataArray()[0]
    return cells.getCellByPosition(keys.index("partial"), 1).String


def test_what_cannot_be_is_told(event):
    """No half reps, no window too few, none above what fits; the others keep their places."""
    for text in ("30 29.5 28 27", "30 29 28", "30 29 28 27 26", "30 29 1200 28", "many", "-3 4 5 6", "1200"):
        typed(event, "results_partial", text)
        check(f"{text!r}: told", shown(event, "result")["Ada Brimsole"], "! unreadable")
        check(f"{text!r}: no place", shown(event, "place"), {"Ada Brimsole": "", "Bela Ostrevan": "1", "Cora Vantuil": "3", "Dagny Tellmoor": "1"})
    rule = by_key(event, "results_partial").getCellByPosition(0, 0).Validation
    check("the cell has a rule", (rule.ShowErrorMessage, "such as 15 14 13" in rule.ErrorMessage), (True, True))
    typed(event, "results_partial", "0 0 0 0")
    check("nothing done is a result", (shown(event, "result")["Ada Brimsole"], shown(event, "place")["Ada Brimsole"]), ("0", "4"))
    typed(event, "results_partial", "")
    check("blank is none", (shown(event, "result")["Ada Brimsole"], shown(event, "place")["Ada Brimsole"]), ("", ""))
    typed(event, "results_out", "yes")
    check("withdrawn", shown(event, "result")["Ada Brimsole"], "withdrew")
    check("no error on the sheet", BAD.findall(" ".join(" ".join(row) for row in rows_of(event, "results"))), [])


def test_results_go_to_the_logbook(office, event):
    path = WORK / "logbook.ods"
    path.unlink(missing_ok=True)
    done, said = run(office, office.new(), "new-logbook", File=str(path), Another="true")
    assert done, said
    done, said = to_logbook(office, event)
    assert done, said
    kept = {row["name"]: row for row in contents(office, path, "results")}
    wanted = scores("lowest window")
    check("people", sorted(kept), sorted(wanted))
    for name, score in wanted.items():
        row = kept.get(name, {})
        check(f"{name}: result", (row.get("result"), row.get("score")), (str(score), score))
        check(f"{name}: the forecast is of the lowest window too", 0 < float(row.get("planned") or 0) < 200)


def test_what_is_no_result_is_not_in_the_logbook(office, event):
    """Neither a text that cannot be read nor the windows of somebody who is not on the roster."""
    path = WORK / "refused.ods"
    path.unlink(missing_ok=True)
    done, said = run(office, office.new(), "new-logbook", File=str(path), Another="true")
    assert done, said
    typed(event, "results_partial", "30 29 28")
    check("too few windows", to_logbook(office, event),
          (False, "Sheet Results, Ada Brimsole: There are 4 windows, and reps of 3: give those of every window, 0 for none."))
    typed(event, "results_partial", TYPED["Ada Brimsole"])
    typed(event, "results_name", "Ada Brimsol")
    check("a name mistyped: no result", [column_of(event, "results", key)[0] for key in ("result", "place")], ["", ""])
    done, said = to_logbook(office, event)
    check(f"nor in the logbook: {said}", (done, said.startswith("Ada Brimsol has a result on the sheet Results, and is neither")), (False, True))
    check("which is as it was", contents(office, path, "people", "results"), [[], []])
    typed(event, "results_name", "Ada Brimsole")
    check("put right", to_logbook(office, event)[0])
    check("all four", len(contents(office, path, "results")), 4)
