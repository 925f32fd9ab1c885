"""The logbook: what is in the workbook, and the commands that fill it and take from it, in the real office.

Uses BUILD/pacecells.oxt and its templates.
"""

import datetime
import pathlib
import re
import shutil

import pytest
from commands import run
from compare import check
from event_cells import by_key, typed
from logbook_kit import TEMPLATES, TODAY, area, contents, copies, fill, new_event, new_logbook, rows_of, to_logbook
from office import save
from old_tests import tests_workbook
from paper import pages_of, print_sheet
from sharing import BUILD, OXT, ROOT, folder_of

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"


def documented():
    """Tables, rows and keys as NAMES.md tells them."""
    text = (ROOT / "templates" / "NAMES.md").read_text(encoding="utf-8")
    lines = re.findall(r"^\| (logbook_\w+) \| (\d+) \| ([^|]+) \|$", text, re.M)
    return {name: (int(rows), keys.strip().split(", ")) for name, rows, keys in lines}


@pytest.mark.parametrize("language", ["en", "de", "es", "fr"])
def test_the_workbook_is_as_documented(office, language):
    book = office.open(TEMPLATES / language / "logbook.ots", AsTemplate=True)
    check("known by", area(book, "logbook").getDataArray(), (("pacecells.logbook", 1.0, language),))
    tables = documented()
    assert len(tables) == 7
    for name, (rows, keys) in tables.items():
        cells = area(book, name)
        check(f"keys of {name}", list(cells.getDataArray()[0]), keys)
        check(f"rows of {name}", cells.Rows.Count, rows + 2)
        check(f"the keys of {name} are hidden", cells.Rows.getByIndex(0).IsVisible, False)
    movements = rows_of(book, "movements")
    check("movements to begin with", len(movements) >= 40, True)
    check("each once", len({row["name"].lower() for row in movements}), len(movements))
    check("each says where its values come from, and has a standard",
          [row["name"] for row in movements if not (row["basis"] and row["standard"] and row["rep_s"] > 0 and row["longest"] >= 1)], [])
    units = [cell for cell, in area(book, "list_units").getDataArray()]
    check("in units of the list", {row["unit"] for row in movements} <= set(units), True)
    what = [cell for cell, in area(book, "list_what").getDataArray() if cell]
    check("what can be tested", what, [row["name"] for row in rows_of(book, "machines") + movements])


# --- the file and its place ---------------------------------------------------------------------------------------

@pytest.fixture(scope="module", autouse=True)
def empty_folder():
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir()


@pytest.fixture
def place(office, request):
    """The file of a new logbook, which the commands find."""
    return new_logbook(office, WORK / request.node.name)


def test_new_logbook(office, place):
    check("no lock is left", list(place.parent.glob(".~lock*")), [])
    book = office.open(place)
    check("a logbook", area(book, "logbook").getDataArray()[0][0], "pacecells.logbook")
    book.close(True)
    done, said = run(office, office.new(), "open-logbook")
    check("found again", (done, str(place) in said), (True, True))
    done, said = run(office, office.new(), "new-logbook", File=str(WORK / "another.ods"))
    check("a second one is asked for", (done, said.startswith(f"There is a logbook already: {place}.")), (False, True))
    done, said = run(office, office.new(), "new-logbook", File=str(place), Another="true")
    check("never over a file", (done, said.startswith(f"{place} is there already.")), (False, True))
    done, said = run(office, office.new(), "new-logbook", File=str(WORK / "nowhere" / "Logbook.ods"), Another="true")
    check("a folder that is not there", (done, "could not be saved" in said), (False, True))
    done, said = run(office, office.new(), "open-logbook")
    check("still the first", (done, str(place) in said), (True, True))


def test_a_logbook_that_was_moved(office, place):
    moved = place.with_name("Moved here.ods")
    place.rename(moved)
    done, said = run(office, office.new(), "open-logbook")
    check("no file was named", (done, said), (False, "No file was chosen."))
    event = BUILD / "templates" / "en" / "event.ots"
    done, said = run(office, office.new(), "open-logbook", File=str(event))
    check("another workbook is none", (done, said), (False, "This workbook is no logbook of Pacecells."))
    done, said = run(office, office.new(), "open-logbook", File=str(moved))
    check("found in its new place", (done, str(moved) in said), (True, True))


NEWER = "This logbook was made by a newer Pacecells. Install that one."
OTHER = "This logbook has a layout that this version of Pacecells does not read. Make a new logbook and copy your rows over."


@pytest.mark.parametrize("version, sentence", [(2, NEWER), (1.5, NEWER), (0, OTHER), ("", OTHER), ("one", OTHER)],
                         ids=("newer", "between", "older", "blank", "a word"))
def test_a_logbook_of_another_version_is_refused_and_left_alone(office, place, version, sentence):
    book = office.open(place)
    cell = area(book, "logbook").getCellByPosition(1, 0)
    if isinstance(version, str):
        cell.String = version
    else:
        cell.Value = version
    other = WORK / "of another version.ods"
    save(book, other)
    book.close(True)
    before = other.read_bytes()
    done, said = run(office, office.new(), "open-logbook", File=str(other))
    check("opened", (done, said), (False, sentence))
    check("not written to", other.read_bytes() == before)
    done, said = run(office, office.new(), "open-logbook", File=str(place))
    check("the gym's own as ever", done)


# --- a new event from it ------------------------------------------------------------------------------------------

PEOPLE = (
    {"name": "Ida Lund", "division": "scaled", "group": "B", "judge": "yes"},
    {"name": "Bo Berg", "division": "as written", "plan": "easy", "until": TODAY - 1},
    {"name": "Cy Dahl", "division": "scaled", "plan": "technique", "until": TODAY, "group": "D"},
    {"name": "Dag Elm", "division": "giants", "plan": "technik", "minor": "yes"},
)
TESTS = (
    {"name": "ida  LUND", "date": TODAY - 10, "what": "Rower", "time": 5 / 1440, "watts": 320},
    {"name": "Ida Lund", "date": TODAY - 9, "what": "Rower", "time": 15 / 1440, "watts": 260},
    {"name": "Ida Lund", "date": TODAY - 200, "what": "Ski", "time": 5 / 1440, "calories": 70},
    {"name": "Ida Lund", "date": TODAY - 40, "what": "Pull-up", "reps": 10},
    {"name": "Ida Lund", "date": TODAY - 5, "what": "Pull-up", "reps": 14},
    {"name": "Bo Berg", "date": TODAY + 3, "what": "Rower", "time": 5 / 1440, "calories": 80},
)
WORKOUT = {"Format": "amrap", "Cap": "12:00", "Movement1": "Row", "Unit1": "row cal", "Amount1": "12", "Movement2": "pull-up",
           "Unit2": "rep", "Amount2": "5", "Movement3": "Shuttle hop", "Unit3": "rep", "Amount3": "10"}


def first(document, key, count=1, column=0):
    return [row[column] for row in by_key(document, key).getDataArray()[:count]]


def test_new_event_takes_people_tests_and_usual_values(office, place):
    fill(office, place, people=PEOPLE, tests=TESTS)
    event, said = new_event(office, Division1="as written", Division2="scaled", Division3="", **WORKOUT)
    check("said", said.split("\n")[0], "4 people from the logbook, 1 of them with tests that count.")
    check("a division that this event has not, a minor, a test of tomorrow are told",
          [text in said for text in ("Dag Elm: this event has no division giants", "Dag Elm is a minor", "A test of Bo Berg")],
          [True] * 3)
    check("names", first(event, "roster_name", 5), ["Ida Lund", "Bo Berg", "Cy Dahl", "Dag Elm", ""])
    check("divisions", first(event, "roster_division", 4), ["scaled", "as written", "scaled", ""])
    check("a plan ends with its last day; its word may be of any language", first(event, "roster_plan", 4),
          ["", "", "technique", "technique"])
    check("groups", first(event, "roster_group", 4), ["B", "", "D", ""])
    check("tested", first(event, "tests_name", 2), ["Ida Lund", ""])
    row = by_key(event, "tests_row").getDataArray()[0]
    # 300 s at 320 W and 900 s at 260 W: the example of Gaesser's line in critical_power.h
    check("critical power and reserve of two tests", [round(value, 6) for value in row[:2]], [230, 27000])
    check("the day of the older one", row[2], TODAY - 10)
    check("what is too old is not taken", by_key(event, "tests_ski").getDataArray()[0], ("",) * 5)
    check("the latest of a movement", (first(event, "tests_movements")[0], by_key(event, "tests_sets").getDataArray()[0][0]), ("pull-up", 14))
    event.calculateAll()
    check("usual values by name, of a machine by its unit, none of an unknown one",
          (first(event, "workout.paces.rep_s", 3), first(event, "workout.paces.calh", 3), first(event, "workout.paces.longest", 3)),
          (["", pytest.approx(2), ""], [pytest.approx(900), "", ""], ["", pytest.approx(12), ""]))
    check("grip", first(event, "workout.paces.grip", 3), ["", "yes", ""])
    check("what is missing is said", by_key(event, "workout_check").String != "", True)
    typed(event, "workout.paces.rep_s", "1.5", row=2)
    event.calculateAll()
    check("complete", by_key(event, "workout_check").String, "")
    typed(event, "workout.stations.movement", "Thruster", row=2)
    event.calculateAll()
    check("a name typed on the sheet brings its values", round(first(event, "workout.paces.longest", 3)[2], 9), 12)
    check("what was typed stays", first(event, "workout.paces.rep_s", 3)[2], 1.5)
    rule = by_key(event, "workout.stations.movement").getCellByPosition(0, 0).Validation
    check("names to choose from, and others may be typed", (rule.Type.value, rule.ShowErrorMessage), ("LIST", False))


def test_whom_a_new_event_takes(office, place):
    fill(office, place, people=PEOPLE, tests=TESTS,
         results=[{"name": "Bo Berg", "date": TODAY - 7, "event": "Slow Tide"}, {"name": "cy dahl", "date": TODAY - 7, "event": "Slow Tide"},
                  {"name": "Ida Lund", "date": TODAY - 14, "event": "Low Water"}])
    event, said = new_event(office, People="last", **WORKOUT)
    check("those of the last event", first(event, "roster_name", 3), ["Bo Berg", "Cy Dahl", ""])
    check("divisions of the people, the most frequent first", by_key(event, "workout.divisions.amount.1").getDataArray()[0][:4],
          ("scaled", "as written", "giants", ""))
    event, said = new_event(office, People="none", **WORKOUT)
    check("nobody", (first(event, "roster_name", 1), said), ([""], ""))


def test_what_is_there_twice(office, place):
    """Two people of one name, and a row of tests that was pasted twice: said, and neither counts double."""
    low, good = ({"name": "Ida Lund", "date": TODAY - day, "what": "Rower", "time": 5 / 1440, "watts": watts} for day, watts in ((8, 200), (9, 300)))
    fill(office, place, people=[{"name": "Ida Lund"}, {"name": "ida  LUND"}], tests=[low, good, low])
    event, said = new_event(office, **WORKOUT)
    check("one name", (first(event, "roster_name", 2), "ida  LUND is in the logbook twice: taken once." in said), (["Ida Lund", ""], True))
    day = (datetime.date.today() - datetime.timedelta(8)).isoformat()
    check("one test", f"A test of Ida Lund in the logbook is not used: This test is there already: 200 W, 5:00 on {day}." in said, True)
    done, page = run(office, office.new(), "person-page", Name="Ida Lund", File=str(place.with_name("page.ods")))
    check("whose page is asked", (done, page), (False, "Name: Ida Lund is in the logbook twice. Add a letter to one of the names first."))
    book = office.open(place)
    cells = area(book, "logbook_people")
    cells.getCellByPosition(0, 3).String = "Ida Lund K."
    book.store()
    book.close(True)
    done, page = run(office, office.new(), "person-page", Name="Ida Lund", File=str(place.with_name("page.ods")))
    assert done, page
    page = office.open(place.with_name("page.ods"))
    said = [cell for cell, in area(page, "person_said").getDataArray() if cell]
    check("of two that contradict each other the low one is repeated, though it is there twice",
          [("200 W, 5:00" in line, line.endswith("repeat it.")) for line in said if "contradicts" in line], [(True, True)])


def test_new_event_without_the_logbook(office, place):
    place.unlink()
    event, said = new_event(office, **WORKOUT)
    check("said, and made without it", (said.startswith("The logbook is not there any more"), first(event, "roster_name", 1)), (True, [""]))
    check("no usual values", first(event, "workout.paces.rep_s", 3), ["", "", ""])


# --- results back into it -----------------------------------------------------------------------------------------

@pytest.fixture
def example(office):
    """An event with 23 results."""
    document = office.open(BUILD / "examples" / "rounds.ots", AsTemplate=True)
    document.calculateAll()
    return document


def test_results_to_the_logbook(office, place, example):
    names = [name for name in first(example, "results_name", 40) if name]
    known = {"name": names[0].upper(), "division": "as it was", "group": "E"}
    fill(office, place, people=[known])
    before = {row["name"] for row in contents(office, place, "movements")}
    done, said = to_logbook(office, example)
    assert done, said
    check("said", said.split("\n")[0], f"{len(names)} new, 0 changed, 0 unchanged.")
    people, results, events, movements = contents(office, place)
    check("one row for each", [row["name"] for row in results], names)
    check("result and place as on the sheet", [(row["result"], row["place"]) for row in results],
          list(zip(first(example, "results_result", len(names)), first(example, "results_place", len(names)))))
    clocks = by_key(example, "results_clocks").getDataArray()
    check("clocks", [[sum(60 ** (1 - i) * int(part) for i, part in enumerate(clock.split(":"))) for clock in row["clocks"].split()]
                     for row in results], [[round(clock * 86400) for clock in row if clock] for row in clocks[:len(names)]])
    planned = [row for row in results if row["planned"] != ""]
    check("forecasts in order", (len(planned) > 15, [row["name"] for row in planned if not row["low"] <= row["planned"] <= row["high"]]), (True, []))
    titles = {(row["date"], row["event"]) for row in results}
    check("one event", [(row["date"], row["event"], row["people"]) for row in events], [(*titles.pop(), len(names))])
    check("who was there stays as it was, the others are added",
          (people[0]["name"], people[0]["division"], people[0]["group"], [row["name"] for row in people[1:]]),
          (names[0].upper(), "as it was", "E", names[1:]))
    stations = {name for name in first(example, "workout.stations.movement", 12) if name}
    added = {row["name"] for row in movements} - before
    check("movements that are new are added", (bool(added), added <= stations), (True, True))
    check("a copy with the date", [re.fullmatch(r"\d{4}-\d\d-\d\d \d\d\.\d\d\.\d\d\.ods", name) is not None for name in copies(place)], [True])

    kept, bytes_before = copies(place), place.read_bytes()
    done, said = to_logbook(office, example)
    check("a second time", (done, said), (True, f"0 new, 0 changed, {len(names)} unchanged."))
    check("nothing is written then", (copies(place), place.read_bytes() == bytes_before), (kept, True))


def test_a_correction_is_shown_before_it_is_written(office, place, example):
    to_logbook(office, example)
    rows = contents(office, place, "results")
    for row in (0, 1):
        by_key(example, "results_clocks").getCellByPosition(0, row).Value += 3 / 86400
    example.calculateAll()
    done, said = to_logbook(office, example, Write="false")
    check("old beside new", (done, f"\n{rows[0]['name']}: changed; clocks round 1 {rows[0]['clocks'].split()[0]} → " in said), (True, True))
    check("and nothing written", contents(office, place, "results"), rows)
    done, said = to_logbook(office, example, LeaveOut=rows[1]["name"].lower())
    check("one taken over, one left out", said.split("\n")[0], f"0 new, 1 changed, {len(rows) - 2} unchanged. 1 left out.")
    now = contents(office, place, "results")
    check("only that one is changed", [old["name"] for old, new in zip(rows, now) if old != new], [rows[0]["name"]])


def test_results_are_undone_in_one_step(office, place, example):
    book = office.open(place)
    tables = ("people", "results", "events", "movements")
    before = [rows_of(book, table) for table in tables]
    book.UndoManager.clear()
    done, said = to_logbook(office, example)
    assert done, said
    check("written into the open one, and into the file", ([len(rows_of(book, "results"))] * 2, book.isModified()),
          ([23, len(contents_of_file(office, place))], False))
    check("one step", len(book.UndoManager.AllUndoActionTitles), 1)
    book.UndoManager.undo()
    check("undone", [rows_of(book, table) for table in tables], before)


def contents_of_file(office, place):
    """The results in the file, though the logbook is open."""
    copy = place.with_name("copy.ods")
    shutil.copy(place, copy)
    return contents(office, copy, "results")


def test_only_what_is_filled_is_printed(office, place, example):
    """In letters that can be read; the tables have room for thousands of rows."""
    to_logbook(office, example)
    book = office.open(place)
    for sheet in [sheet for sheet in book.Sheets if sheet.IsVisible and sheet.Name not in ("Tests", "Season")]:
        print_sheet(book, sheet, place.with_suffix(".pdf"))
        pages = pages_of(place.with_suffix(".pdf"))
        check(f"{sheet.Name}: pages, and the smallest letters", (len(pages) <= (3 if sheet.Name == "Movements" else 1),
                                                                 min(page.smallest for page in pages) >= 8), (True, True))


def test_copies_expire(office, place, example):
    folder = place.with_suffix(".copies")
    folder.mkdir()
    day = lambda ago: (datetime.date.today() - datetime.timedelta(ago)).isoformat()
    for name in (f"{day(31)} 10.00.00.ods", f"{day(30)} 10.00.00.ods", "mine.ods"):
        (folder / name).write_bytes(b"old")
    done, said = to_logbook(office, example)
    assert done, said
    check("31 days are too many", [name for name in copies(place) if not name.startswith(day(0))], [f"{day(30)} 10.00.00.ods", "mine.ods"])
    fresh = next(name for name in copies(place) if name.startswith(day(0)))
    check("the copy is from before", contents(office, folder / fresh, "results"), [])


def test_a_logbook_that_cannot_be_written(office, place, example):
    before = place.read_bytes()
    book = office.open(place, ReadOnly=True)
    check("read-only", to_logbook(office, example), (False, f"The logbook is read-only: {place}. Nothing was written."))
    book.close(True)
    lock = place.with_name(f".~lock.{place.name}#")
    lock.write_text(",somebody,elsewhere,25.11.2026 18:00,file:///home/somebody;")
    check("open elsewhere", to_logbook(office, example),
          (False, f"The logbook is open elsewhere: {place}. Close it there, then try again."))
    lock.unlink()
    check("nothing was written", (place.read_bytes() == before, copies(place)), (True, []))
    book = office.open(place)
    cells = area(book, "logbook_results")
    cells.getCellByPosition(list(cells.getDataArray()[0]).index("clocks"), 0).String = ""
    book.store()
    book.close(True)
    before = place.read_bytes()
    done, said = to_logbook(office, example)
    check("a column is gone", (done, said), (False, "The table results of the logbook has no column with the key clocks. "
                                                    "Undo what was deleted there."))
    check("and nothing was written", place.read_bytes() == before, True)
    place.unlink()
    done, said = to_logbook(office, example)
    check("not there any more", (done, said.startswith("The logbook is not there any more")), (False, True))


def test_whose_result_it_is(office, place, example):
    names = [name for name in first(example, "results_name", 40) if name]
    almost = names[0][:-1] + ("x" if names[0][-1] != "x" else "y")
    blanks = names[2].upper().replace(" ", "  ")
    accent = next(names[3].replace(plain, marked, 1) for plain, marked in ("aá", "eé", "oó", "ií", "uú") if plain in names[3])
    fill(office, place, people=[{"name": almost}, {"name": names[1]}, {"name": names[1].upper()}, {"name": blanks}, {"name": accent}])
    done, said = to_logbook(office, example)
    assert done, said
    check("an accent is asked about", f"{names[3]}: left out: is this {accent} of the logbook?" in said, True)
    check("said", (f"{names[0]}: left out: is this {almost} of the logbook?" in said, f"{names[1]}: left out: in the logbook twice" in said),
          (True, True))
    people, results, *_ = contents(office, place)
    check("the others are taken over", [row["name"] for row in results], [names[2], *names[4:]])
    check("two blanks and another case are the same person", [row["name"] for row in people if row["name"].split()[0].lower() == names[2].split()[0].lower()],
          [blanks])
    typed(example, "workout.date", "")
    check("no date", to_logbook(office, example)[1].startswith("Give the date of the event"), True)
    check("another workbook", to_logbook(office, office.new())[0], False)


# --- older workbooks ----------------------------------------------------------------------------------------------

def saved(office, document, name):
    file = WORK / name
    save(document, file)
    document.close(True)
    return str(file)


def brought(office, file, **arguments):
    return run(office, office.new(), "import-to-logbook", File=file, **arguments)


def test_import_of_an_older_event(office, place, example):
    names = [name for name in first(example, "roster_name", 200) if name]
    tested = [name for name in first(example, "tests_name", 300) if name]
    machine = by_key(example, "tests_ski").getDataArray()[0]
    results = [name for name in first(example, "results_name", 200) if name]
    file = saved(office, example, "event of the spring.ods")
    done, said = brought(office, file, Write="false")
    check("shown, not written", (done, contents(office, place, "people"), copies(place)), (True, [], []))
    done, said = brought(office, file)
    assert done, said
    people, tests, found = contents(office, place, "people", "tests", "results")
    check("people", [row["name"] for row in people], names)
    check("no plan for a day that is over", {row["plan"] for row in people}, {""})
    check("tests of those who have some", ({row["name"] for row in tests} - set(tested), len({row["name"] for row in tests}) > 10), (set(), True))
    ski = next(row for row in tests if row["name"] == tested[0] and row["what"] == "Ski")
    check("a machine's values", tuple(ski[key] for key in ("critical", "reserve", "date", "time", "calories")), machine)
    check("results", [row["name"] for row in found], results)
    check("said", said.split("\n")[0],
          f"{len(names)} people, {len(tests)} tests and {len(results)} results are new; 0 tests are there already.")
    done, said = brought(office, file)
    check("a second time", said.split("\n")[0], f"0 people, 0 tests and 0 results are new; {len(tests)} tests are there already.")
    check("nothing twice", contents(office, place, "people", "tests", "results"), [people, tests, found])
    event, said = new_event(office, **WORKOUT)
    check("the next event has them all", first(event, "roster_name", len(names)), names)


def test_import_of_a_tests_workbook(office, place):
    book = tests_workbook(office)
    day = TODAY - 20
    for name, row, column, value in (
            ("athlete_row", 0, 0, 450 / 86400), ("athlete_row", 0, 3, 160), ("athlete_row", 0, 4, 240), ("athlete_row_date", 0, 0, day),
            ("athlete_armbike", 1, 1, 120), ("athlete_armbike_date", 1, 0, day), ("athlete_sets", 0, 0, 13), ("athlete_sets", 0, 1, 80),
            ("athlete_sets", 0, 2, 5), ("athlete_sets_date", 0, 0, day), ("athlete_ski", 1, 3, 50)):
        area(book, name).getCellByPosition(column, row).Value = value
    for row, name in enumerate(("Ida Lund", "Bo Berg")):
        area(book, "athlete_name").getCellByPosition(0, row).String = name
    heading = area(book, "header_row").getDataArray()[0]
    fan = area(book, "header_armbike").getDataArray()[0]
    movement = area(book, "athlete_movements").getDataArray()[0][0]
    done, said = brought(office, saved(office, book, "tests of the spring.ods"))
    assert done, said
    people, tests = contents(office, place, "people", "tests")
    check("people", [row["name"] for row in people], ["Ida Lund", "Bo Berg"])
    filled = [{key: value for key, value in row.items() if value != ""} for row in tests]
    ida = {"name": "Ida Lund", "date": day}
    check("each test is a row", filled, [
        {**ida, "what": "Rower", "time": 450 / 86400, "metres": heading[0]},
        {**ida, "what": "Rower", "time": heading[3], "calories": 160},
        {**ida, "what": "Rower", "time": heading[4], "watts": 240},
        {"name": "Bo Berg", "date": day, "what": "Fan bike", "time": fan[1], "calories": 120},
        {**ida, "what": movement, "reps": 13},
        {**ida, "what": movement, "reps": 5, "load": 80}])
    check("one without its date is left out in words", "Tests of Bo Berg left out: 1. This test has no date." in said, True)


def test_what_cannot_be_imported(office, place, example):
    """Wrong files, each told what it is; nothing is written, nothing is left open."""
    whole = saved(office, example, "whole.ods")
    (WORK / "half.ods").write_bytes(pathlib.Path(whole).read_bytes()[:20000])
    (WORK / "empty.ods").write_bytes(b"")
    (WORK / "text.txt").write_text("Mara Lindqvarn 5:20\n")
    (WORK / "list.csv").write_text("Name;Group\nMara Lindqvarn;B\n")
    other = saved(office, office.new(), "something else.ods")
    documents = {document.RuntimeUID for document in office.desktop.Components}
    neither = "This is neither an event workbook nor an older tests workbook of Pacecells."
    damaged = "{} cannot be opened: it is no workbook, it has a password, or it is damaged."
    logbook = "This is a logbook. Choose it with Open the logbook: new events then take people and tests from it."
    day = "This is the sheet of a test day, or a person's page. Bring it in with Take tests into the logbook."
    before = place.read_bytes()
    for file, sentence in ((other, neither), (WORK / "half.ods", damaged), (WORK / "empty.ods", neither), (WORK / "text.txt", damaged),
                           (WORK / "list.csv", neither), (WORK / "missing.ods", damaged), (place, logbook),
                           (TEMPLATES / "en" / "testday.ots", day), (TEMPLATES / "en" / "person.ots", day)):
        done, said = brought(office, str(file))
        check(f"{file} is refused", (done, said), (False, sentence.format(file)))
    opened = {document.RuntimeUID for document in office.desktop.Components} - documents
    check("nothing is left open but the spreadsheets that asked", len(opened), 9)
    check("nothing is written", (place.read_bytes() == before, copies(place)), (True, []))


def test_names_that_the_logbook_knows(office, place):
    fill(office, place, people=PEOPLE, tests=TESTS)
    event, _said = new_event(office, People="none", Division1="as written", Division2="scaled", Division3="", **WORKOUT)
    typed(event, "workout.test_weeks", "4")
    event.UndoManager.clear()
    done, said = run(office, event, "add-athletes", List="Name;Group\nIDA LUND;C\nZoe Nord;\nCy Dahl;")
    assert done, said
    check("said", said.split("\n")[-1], "2 of them are in the logbook, 1 with tests that count.")
    check("what the list says wins, the logbook fills the blanks",
          (first(event, "roster_group", 4), first(event, "roster_division", 4), first(event, "roster_plan", 4)),
          (["C", "", "D", ""], ["scaled", "", "scaled", ""], ["", "", "technique", ""]))
    check("tests", (first(event, "tests_name", 2), round(by_key(event, "tests_row").getDataArray()[0][0], 6)), (["IDA LUND", ""], 230))
    check("one step of undo", len(event.UndoManager.AllUndoActionTitles), 1)
    by_key(event, "tests_row").getCellByPosition(0, 0).Value = 222
    typed(event, "roster_name", "", row=0)
    run(office, event, "add-athletes", List="Ida Lund")
    check("tests that are on the sheet stay", by_key(event, "tests_row").getDataArray()[0][0], 222)
