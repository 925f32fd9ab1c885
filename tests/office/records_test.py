"""What the logbook says about people: a person's page, a test day and the way back, the season, forecasts, and forgetting.

Uses BUILD/pacecells.oxt and its templates.
"""

import datetime
import re
import shutil
import subprocess
import zipfile

import pytest
from commands import run
from compare import check
from logbook_kit import area, new_logbook
from sharing import BUILD, OXT, folder_of, shared, today

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"
TODAY = today()
NO_TESTS = "This file has no tests to take in. Choose the sheet of a test day, or a person's page."
DAMAGED = "{} cannot be opened: it is no workbook, it has a password, or it is damaged."
MARA, TEO, IDA, JOS = "Mara Lindqvarn", "Teo Osterby", "Ida Quellmann", "José Brandel"


def ago(days):
    """A day as the sheet counts days."""
    return float((TODAY - datetime.date(1899, 12, 30)).days - days)


def day_text(days):
    return (TODAY - datetime.timedelta(days=days)).isoformat()


def clock(text):
    minutes, seconds = text.split(":")
    return (60 * int(minutes) + int(seconds)) / 86400


def rows_of(document, table):
    """The filled rows of a table, each by the keys of its columns."""
    keys, _headings, *rows = area(document, f"logbook_{table}").getDataArray()
    return [{key: value for key, value in zip(keys, row) if value != ""} for row in rows if any(cell != "" for cell in row)]


def write(document, table, *rows):
    """Rows below the headings of a table, each by key."""
    cells = area(document, f"logbook_{table}")
    keys = cells.getDataArray()[0]
    for row, values in enumerate(rows, 2):
        for key, value in values.items():
            cell = cells.getCellByPosition(keys.index(key), row)
            cell.setString(value) if isinstance(value, str) else cell.setValue(value)


def read(office, file, table):
    book = office.open(file)
    rows = rows_of(book, table)
    book.close(True)
    return rows


@pytest.fixture(scope="module", autouse=True)
def empty_folder():
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir()


PEOPLE = ({"name": MARA, "division": "scaled"}, {"name": TEO, "division": "scaled", "plan": "easy"},
          {"name": IDA, "division": "scaled", "minor": "yes"}, {"name": JOS, "division": "scaled"})
TESTS = ({"name": MARA, "date": ago(400), "what": "Rower", "time": clock("10:00"), "calories": 140},
         {"name": MARA, "date": ago(300), "what": "Rower", "time": clock("10:00"), "calories": 151},
         {"name": MARA, "date": ago(30), "what": "Rower", "time": clock("10:00"), "calories": 148, "damper": 4},
         {"name": MARA, "date": ago(200), "what": "Ring row", "reps": 18}, {"name": MARA, "date": ago(20), "what": "Ring row", "reps": 22},
         {"name": MARA, "date": ago(500), "what": "Deadlift", "load": 90, "reps": 5},
         {"name": MARA, "date": ago(150), "what": "Deadlift", "load": 100, "reps": 3},
         {"name": JOS, "date": ago(15), "what": "Rower", "time": clock("10:00"), "calories": 173})
EVENTS = tuple({"date": ago(days), "event": title, "format": form, "season": season} for days, title, form, season in
               ((60, "First tide", "AMRAP", "yes"), (40, "Second tide", "for time", "yes"), (20, "Third tide", "AMRAP", "")))


def result(name, event, score, **more):
    date = next(row["date"] for row in EVENTS if row["event"] == event)
    return {"name": name, "date": date, "event": event, "division": "scaled", "score": float(score)} | more


RESULTS = (result(MARA, "First tide", 210, low=190, high=220, ratio=1.1, ratio_sd=0.05),
           result(JOS, "First tide", 230, low=200, high=225), result(TEO, "First tide", 180, low=170, high=200),
           result(JOS, "Second tide", 640, low=700, high=630), result(MARA, "Second tide", 655, low=700, high=630),
           result(JOS, "Third tide", 99, low=100, high=120))


@pytest.fixture
def logbook(office, request):
    """The file of a logbook of four people, which the commands find."""
    file = new_logbook(office, WORK / request.node.name)
    book = office.open(file)
    area(book, "logbook_gym").setString("Tidewater Hall")
    for table, rows in (("people", PEOPLE), ("tests", TESTS), ("events", EVENTS), ("results", RESULTS)):
        write(book, table, *rows)
    book.store()
    book.close(True)
    return file


def in_files(folder, name):
    """The files below a folder in which the name is to be found, packed or not."""
    found = []
    for file in sorted(folder.rglob("*")):
        if not file.is_file():
            continue
        parts = [file.read_bytes()]
        if zipfile.is_zipfile(file):
            with zipfile.ZipFile(file) as package:
                parts += [package.read(item) for item in package.namelist()]
        if any(name.encode() in part or name.encode("utf-16-le") in part for part in parts):
            found.append(str(file.relative_to(folder)))
    return found


# --- a person's page ----------------------------------------------------------------------------------------------

def test_a_persons_page(office, logbook):
    file = logbook.parent / "mara.ods"
    done, said = run(office, office.new(), "person-page", Name="mara  LINDQVARN", File=str(file))
    check("made", (done, said), (True, f"{MARA}'s page: {file}"))
    page = office.open(file)
    check("whose", area(page, "person_name").String, MARA)
    check("of which day", area(page, "person_stamp").String, f"Tidewater Hall: tests as of {day_text(0)}")
    said = [cell for cell, in area(page, "person_said").getDataArray() if cell]
    check("what comes next", said[0], "Rower: Test 3:00: a second test of another length makes the rate surer. "
                                      "Damper 4, as last time.")
    check("what was learnt", said[1], "Your last result says that you hold 10% more than your tests promise; since one result "
                                      "can be luck, we count 8%.")
    check("what is out of date", said[2], "Out of date, so that plans do not use it: Deadlift.")
    rows = [row for row in area(page, "person_tests").getDataArray() if row[0]]
    check("latest and best", rows, [("Ring row", "22", ago(20), ago(20) + 84, "22", ago(20)),
                                    ("Rower", "148 cal, 10:00", ago(30), ago(30) + 84, "151 cal, 10:00", ago(300)),
                                    ("Deadlift", "3 × 100 kg", ago(150), "out of date", "3 × 100 kg", ago(150))])
    charts = page.Sheets[0].Charts
    check("curves", sorted(charts.ElementNames), ["machines", "movements"])
    shapes = page.Sheets[0].DrawPage
    check("a screen reader has a name for each", [shapes.getByIndex(one).Title for one in range(shapes.Count)],
          [charts.getByName(one).EmbeddedObject.Title.String for one in ("machines", "movements")])
    data = area(page, "person_data").getDataArray()
    check("power of 10:00, over the days", [row[:2] for row in data[1:4]],
          [(ago(400), 156.9), (ago(300), 176.1), (ago(30), 170.9)])  # (6 cal - 300) / (4 * 0.8604)
    check("sets and maxima", data[0][6:8], ("Deadlift, kg", "Ring row, reps"))
    check("nobody else is in it", [other for other in (TEO, IDA, JOS) if in_files(file.parent, other) != ["Logbook.ods"]], [])
    check("the sheets are protected", [sheet.isProtected() for sheet in page.Sheets], [True] * 3)
    how = page.Sheets.getByName("How to test")
    said = "\n".join(how.getCellByPosition(1, row).String for row in range(60))
    check("and how to test is among them", [part in said for part in ("No maximal test for newcomers, minors", "Each is a row")], [True] * 2)


def test_a_page_on_one_sheet_of_paper(office, logbook):
    file = logbook.parent / "mara.pdf"
    done, said = run(office, office.new(), "person-page", Name=MARA, File=str(file))
    assert done, said
    pages = subprocess.run(["pdfinfo", str(file)], capture_output=True, text=True, check=True).stdout
    check("pages", re.search(r"Pages: +(\d+)", pages)[1], "1")
    text = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    check("the person", MARA in text and "148 cal, 10:00" in text, True)
    check("nobody else", [other for other in (TEO, IDA, JOS) if other in text], [])
    check("no empty table to fill in", "New tests" in text, False)


def test_who_is_asked_to_test(office, logbook):
    def next_for(name):
        file = logbook.parent / f"{name}.ods"
        done, said = run(office, office.new(), "person-page", Name=name, File=str(file))
        assert done, said
        page = office.open(file)
        check(f"no chart of {name} without tests", list(page.Sheets[0].Charts.ElementNames), [])
        return area(page, "person_said").getDataArray()[0][0]
    check("a minor", next_for(IDA), "No maximal test: minors train in a pace group.")
    check("on another plan, without a reason", next_for(TEO), "No maximal test at the moment.")
    done, said = run(office, office.new(), "person-page", Name="Jose Brandel", File=str(logbook.parent / "no.pdf"))
    check("nearly the same is asked about", (done, said), (False, f"Name: Jose Brandel is not in the logbook. Is it {JOS}?"))
    check("no file", (logbook.parent / "no.pdf").exists(), False)


# --- a test day ---------------------------------------------------------------------------------------------------

def test_a_test_day_and_back(office, logbook):
    file = logbook.parent / "day.ods"
    done, said = run(office, office.new(), "test-day", Tests="Rower 3:00; Ring row", File=str(file))
    check("made", (done, said.split(":")[0]), (True, "2 people, 2 tests each"))
    check("who is on another plan, or a minor, is not on it", [in_files(file.parent, name) for name in (TEO, IDA)],
          [["Logbook.ods"]] * 2)
    day = office.open(file)
    keys, _heads, *rows = area(day, "day_tests").getDataArray()
    filled = [{key: value for key, value in zip(keys, row) if value != ""} for row in rows if row[0]]
    three = pytest.approx(clock("3:00"))
    check("today's people and tests, nobody's history", filled,
          [{"name": MARA, "what": "Rower", "time": three, "machine": "row"}, {"name": JOS, "what": "Rower", "time": three, "machine": "row"},
           {"name": MARA, "what": "Ring row"}, {"name": JOS, "what": "Ring row"}])
    cells, place = area(day, "day_tests"), {key: place for place, key in enumerate(keys)}
    open_cells = {key for key in keys if not cells.getCellByPosition(place[key], 2).CellProtection.IsLocked}
    check("what may be typed for a rower", open_cells, {"time", "calories", "metres", "watts", "damper"})
    open_cells = {key for key in keys if not cells.getCellByPosition(place[key], 4).CellProtection.IsLocked}
    check("what may be typed for a movement", open_cells, {"reps", "load", "second", "rest_s"})
    cells.getCellByPosition(place["calories"], 2).setValue(52)
    meaning = cells.Spreadsheet.getCellByPosition(place["machine"] + 1, cells.RangeAddress.StartRow + 2)
    power = (1040 - 300) / (4 * 0.8604)  # 52 calories in 3:00 are 1040 cal/h
    minutes, seconds = divmod(500 * (2.8 / power) ** (1 / 3), 60)  # Dudhia's formula
    check("what it means at once", meaning.String, f"1040 cal/h · {power:.0f} W · {minutes:.0f}:{seconds:04.1f}")
    cells.getCellByPosition(place["calories"], 3).setValue(400)
    below = cells.Spreadsheet.getCellByPosition(place["machine"] + 1, cells.RangeAddress.StartRow + 3)
    check("and why it cannot be", below.String, "▲ 2237 W for 3:00 is more than the best in the world hold, about 711 W. Is the unit right?")
    cells.getCellByPosition(place["reps"], 5).setValue(30)
    day.store()
    day.close(True)

    done, said = run(office, office.new(), "take-tests", File=str(file), Write="false")
    check("shown first", said.split("\n"), [
        "New tests: 2. Left out: 1.", f"{MARA}; Rower; 52 cal, 3:00; ; new",
        f"{JOS}; Rower; ; ; left out: 2237 W for 3:00 is more than the best in the world hold, about 711 W. Is the unit right?",
        f"{JOS}; Ring row; 30; ; new"])
    before = read(office, logbook, "tests")
    check("nothing written yet", len(before), len(TESTS))
    done, said = run(office, office.new(), "take-tests", File=str(file))
    after = read(office, logbook, "tests")
    check("what was there stays", after[:len(TESTS)], before)
    check("what came", after[len(TESTS):],
          [{"name": MARA, "date": ago(0), "what": "Rower", "time": three, "calories": 52.0},
           {"name": JOS, "date": ago(0), "what": "Ring row", "reps": 30.0}])
    check("a copy from before", len(list((logbook.parent / "Logbook.copies").glob("*.ods"))), 1)
    done, said = run(office, office.new(), "take-tests", File=str(file))
    check("twice is harmless", (said.split("\n")[0], len(read(office, logbook, "tests"))),
          ("New tests: 0. Left out: 3.", len(after)))


def test_a_test_day_where_the_extension_is_missing(office, logbook):
    """It says so in sight; what is typed there is taken in all the same."""
    file = logbook.parent / "day.ods"
    run(office, office.new(), "test-day", Tests="Rower 3:00", File=str(file))
    line = lambda day: area(day, "day_tests").Spreadsheet["A3"].String
    day = office.open(file)
    check("with it, what to do", line(day).startswith("Type what the monitor showed"), True)
    day.close(True)  # two offices cannot write one file
    with shared([], "without") as bare:
        day = bare.open(file)
        check("without it, that nothing is calculated", line(day), "! Pacecells is missing in this office: nothing here is "
              "recalculated. Install the extension and open the file again.")
        cells = area(day, "day_tests")
        cells.getCellByPosition(list(cells.getDataArray()[0]).index("calories"), 2).setValue(52)
        day.store()
    with shared([OXT]) as again:
        check("here it says what to do again", line(again.open(file)).startswith("Type what the monitor showed"), True)
        check("taken in", run(again, again.new(), "take-tests", File=str(file))[1].split("\n")[0], "New tests: 1. Left out: 0.")


def test_old_and_new_side_by_side(office, logbook):
    file = logbook.parent / "mara.ods"
    run(office, office.new(), "person-page", Name=MARA, File=str(file))
    page = office.open(file)
    area(page, "day_date").setValue(ago(1))
    cells = area(page, "day_tests")
    keys = cells.getDataArray()[0]
    for key, value in {"what": "Rower", "time": clock("10:00"), "calories": 90.0}.items():
        cell = cells.getCellByPosition(keys.index(key), 2)
        cell.setString(value) if isinstance(value, str) else cell.setValue(value)
    page.store()
    page.close(True)
    done, said = run(office, office.new(), "take-tests", File=str(file), Write="false")
    line = said.split("\n")[1]
    check("the old beside the new", line.startswith(f"{MARA}; Rower; 90 cal, 10:00; 148 cal, 10:00 ({day_text(30)}); new. "), True)
    check("the bad one is named, and is the one to repeat", (f"90 cal, 10:00 on {day_text(1)} contradicts" in line,
                                                            line.endswith("repeat it.")), (True, True))


def test_what_cannot_be_a_test_day(office, logbook):
    def refused(**arguments):
        done, said = run(office, office.new(), "test-day", File=str(logbook.parent / "no.ods"), **arguments)
        return "done" if done else said
    check("no test", refused(), "Say what is tested, such as: Rower 10:00; Rower 2000 m")
    check("an unknown movement", refused(Tests="Cartwheel"), "Cartwheel is no machine and no movement of the logbook.")
    check("a slip", refused(Tests="Ring rov"), "Ring rov is not in the logbook. Is it Ring row?")
    check("a strange amount", refused(Tests="Rower far").startswith('"Rower far" cannot be read.'), True)
    check("a stranger", refused(Tests="Rower", Names="Ola Nordman"), "Ola Nordman is not in the logbook.")
    check("a day", refused(Tests="Rower", Day="soon"), "The day cannot be read. Write it such as 2026-03-14.")
    check("no file", (logbook.parent / "no.ods").exists(), False)
    done, said = run(office, office.new(), "take-tests", File=str(logbook))
    check("no tests in it", (done, said), (False, NO_TESTS))
    (logbook.parent / "half.ods").write_bytes(logbook.read_bytes()[:9000])
    (logbook.parent / "empty.ods").write_bytes(b"")
    (logbook.parent / "text.txt").write_text("Rower 10:00 148\n")
    event = BUILD / "examples" / "rounds.ots"
    for file, sentence in ((logbook.parent / "half.ods", DAMAGED),
                           (logbook.parent / "empty.ods", NO_TESTS), (logbook.parent / "text.txt", DAMAGED), (event, NO_TESTS)):
        done, said = run(office, office.new(), "take-tests", File=str(file))
        check(f"{file.name} is refused", (done, said), (False, sentence.format(file)))


# --- season and forecasts -----------------------------------------------------------------------------------------

def standings(office, logbook, **rules):
    book = office.open(logbook)
    for name, value in rules.items():
        cell = area(book, name)
        cell.setString(value) if isinstance(value, str) else cell.setValue(value)
    book.store()
    book.close(True)
    done, said = run(office, office.new(), "season")
    assert done, said
    return [(row["place"], row["name"], row["events"], row["points"]) for row in read(office, logbook, "season")]


def test_season(office, logbook):
    # Places: José 1 and 1, Mara 2 and 2, Teo 3 and, where he was not, one behind the last.
    behind = [(1.0, JOS, 2.0, 2.0), (2.0, MARA, 2.0, 4.0), (3.0, TEO, 1.0, 6.0)]
    check("behind the last, without choosing", standings(office, logbook), behind)
    check("once more", standings(office, logbook), behind)
    check("a fixed place", standings(office, logbook, season_missed="a fixed place", season_fixed=30)[2], (3.0, TEO, 1.0, 33.0))
    check("left out", standings(office, logbook, season_missed="nothing: it is left out")[2], (3.0, TEO, 1.0, 3.0))
    check("the best one", standings(office, logbook, season_best=1), [(1.0, JOS, 2.0, 1.0), (2.0, MARA, 2.0, 2.0), (3.0, TEO, 1.0, 3.0)])
    check("from a day on", standings(office, logbook, season_from=ago(50)), [(1.0, JOS, 1.0, 1.0), (2.0, MARA, 1.0, 2.0)])
    check("no row is left over", len(read(office, logbook, "season")), 2)


def test_forecasts(office, logbook):
    done, said = run(office, office.new(), "forecasts")
    lines = said.split("\n")
    check("verdicts", lines[:2], ["Scores: 4 of 6 results lay in the range, where 5 should: that is within luck.",
                                  "Rates: 1 of 1 results lay in the range, where 1 should: that is within luck."])
    check("each event", lines[2:5], [f"{day_text(60)}; First tide; 0; 2; 1", f"{day_text(40)}; Second tide; 0; 2; 0",
                                     f"{day_text(20)}; Third tide; 1; 0; 0"])


# --- forgetting ---------------------------------------------------------------------------------------------------

def test_forget_a_person(office, logbook):
    for _copy in range(2):
        run(office, office.new(), "season")
    copies = logbook.parent / "Logbook.copies"
    logs = next(office.workdir.rglob("user")) / "pacecells"
    logs.mkdir(exist_ok=True)
    (logs / "1-2.heat").write_text(f"heat\t1\tTide\t2\nlane\t1\t{MARA}\nlane\t2\t{TEO}\nlane\t3\t4: Jos + Mara\nend\n"
                                   f"fix\tresults_clocks\t{MARA}\t0\t0.002\t0.003\t1700000000\tcoach\n")
    before = in_files(logbook.parent, MARA)
    check("the search finds the name where it is", before[:1] + [len(before) >= 2], ["Logbook.copies/" + min(copies.iterdir()).name, True])
    done, said = run(office, office.new(), "forget-person", Name="mara lindqvarn", Delete="true")
    check("said", (done, said), (True, f"{MARA} is gone from the logbook, its copies and the logs of heats, 11 rows. Other "
                                       "workbooks that you saved, and the office's backups of them, are not touched: events hold names on "
                                       "their sheets, and of teams with a number the first names on Results."))  # one of people, 7 tests, 2 results, 1 of the season
    check("the name is in no file any more", in_files(logbook.parent, MARA), [])
    check("nor in a log of a heat", (logs / "1-2.heat").read_text(), f"heat\t1\tTide\t2\nlane\t2\t{TEO}\nlane\t3\t4: Jos\nend\n")
    others = {"backup/day.ods.bak", "backup/mara.ods.bak"}  # newer offices keep what a file was before it was saved
    check("nor in any file of the office", [file for file in in_files(logs.parent, "Lindqvarn") if file not in others], [])
    check("nor a part of it", in_files(logbook.parent, "Lindqvarn"), [])
    book = office.open(logbook)
    check("the others stay", [row["name"] for row in rows_of(book, "people")], [TEO, IDA, JOS])
    check("with their tests", rows_of(book, "tests"), [dict(TESTS[-1], time=pytest.approx(TESTS[-1]["time"]))])
    check("and results", len(rows_of(book, "results")), len([row for row in RESULTS if row["name"] != MARA]))
    book.close(True)
    copy = office.open(min(copies.iterdir()))
    check("a copy stays a logbook of the others", [row["name"] for row in rows_of(copy, "people")], [TEO, IDA, JOS])
    done, said = run(office, office.new(), "forget-person", Name=MARA, Delete="true")
    check("twice", (done, said), (False, f"Name: {MARA} is not in the logbook."))


def test_forgetting_is_asked_about(office, logbook):
    done, said = run(office, office.new(), "forget-person", Name=MARA, Delete="false")
    check("no", (done, len(read(office, logbook, "people"))), (True, 4))
