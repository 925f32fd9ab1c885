"""The test-results workbook in the real office, as an athlete and a coach use it.

Uses BUILD/functions.oxt and BUILD/templates/en/tests.ots; leaves pictures for a person to look at in BUILD/look. Expected
numbers are worked out here from the published formulas, with scipy's least squares, never by the functions under test. All athletes are invented.
"""

import datetime
import re
import subprocess
import time

from compare import check
from office import recalculate, result, save, type_in
from scipy.stats import linregress
from sharing import BUILD, FUNCTIONS, folder_of, shared

SCREEN = "1500x950"
WORK, LOOK = folder_of(__file__), BUILD / "look"
TEMPLATE = BUILD / "templates" / "en" / "tests.ots"
BAD = re.compile(r"###|Err:\d+|#(?:NAME|VALUE|REF|N/A|NUM|DIV)")

def cells(document, name):
    return document.NamedRanges.getByName(name).ReferredCells


def cell(document, name, row=0, col=0):
    return cells(document, name).getCellByPosition(col, row)


def ago(weeks):
    return (datetime.date.today() - datetime.timedelta(weeks=weeks)).isoformat()


# Typed as an athlete types: five tests a machine in the order of the columns, then date.
PEOPLE = [
    dict(name="Ada Quill", row=["4:01", "8:27", None, None, 216], row_date=ago(3), ski=["4:00", None, None, 140, None],
         ski_date=ago(2), sets=[14, None, None, 2]),
    dict(name="Bo Lantern", row=["3:36", "7:31", "2:05", 186, 297], row_date=ago(1), row_effort="104 %",
         sets=[22, 60, 5, 1.8]),
    dict(name="Cleo Marsh", row=[None, "9:30", None, None, None], row_date=ago(5)),
    dict(name="Dag Ferrow", bike=["4:10", "8:30", None, None, None], bike_date=ago(20)),
    dict(name="Eli Sandpiper", status="newcomer", row=["4:50", "10:20", None, None, None], row_date=ago(1)),
    dict(name="Fay Brindle", row=[None, "8:00", None, None, 180], row_date=ago(1)),
    dict(name="Gus Halloway", row=["4:10", "8:50", None, None, None]),
    dict(name="Hedda Moss", armbike=["4:00", 95], armbike_date=ago(2)),
    dict(name="Ivo Tarn", bike=[None, None, "1:55", None, 330], bike_date=ago(4)),
    dict(name="Juno Reed"),
]


def fill(document, people=PEOPLE):
    for row, person in enumerate(people):
        type_in(cell(document, "athlete_name", row), person["name"])
        if "status" in person:
            type_in(cell(document, "athlete_status", row), person["status"])
        for machine in ("row", "ski", "bike", "armbike"):
            for col, value in enumerate(person.get(machine, ())):
                if value is not None:
                    type_in(cell(document, f"athlete_{machine}", row, col), str(value))
            for part in ("date", "effort"):
                if f"{machine}_{part}" in person:
                    type_in(cell(document, f"athlete_{machine}_{part}", row), person[f"{machine}_{part}"])
        for col, value in enumerate(person.get("sets", ())):
            if value is not None:
                type_in(cell(document, "athlete_sets", row, col), str(value))
        if "sets" in person:
            type_in(cell(document, "athlete_sets_date", row), ago(1))


# The published formulas, written out again.

def seconds(text):
    minutes, rest = text.split(":")
    return 60 * int(minutes) + float(rest)


def watts_of(calories_per_hour):
    return (calories_per_hour - 300) / (4 * 0.8604)


def calories_of(watts):
    return 300 + 4 * 0.8604 * watts


def tests_of(person, machine):
    """Times and watts of what was typed."""
    per, distances = (1000, (2000, 4000)) if machine == "bike" else (500, (1000, 2000))
    constant = 0.35 if machine == "bike" else 2.80
    found = []
    for col, value in enumerate(person.get(machine, ())):
        if value is None:
            continue
        if col < 2:
            t = seconds(value)
            found.append((t, constant / (t / distances[col]) ** 3))
        elif col == 2:
            t = seconds(value)
            found.append((t, watts_of(50 * 3600 / t)))
        elif col == 3:
            found.append((600, watts_of(value * 6)))
        else:
            found.append((180, float(value)))
    return found


def fit(tests):
    line = linregress([t for t, _ in tests], [t * w for t, w in tests])
    return line.slope, line.intercept, line.stderr, line.intercept_stderr


def entry(document, row, machine, step):
    """The answer beside the tests: 0 critical power, 1 reserve, 2 floor, 3 how sure, 4 age."""
    first = cells(document, f"athlete_{machine}_effort").RangeAddress
    return document.Sheets[first.Sheet].getCellByPosition(first.StartColumn + 1 + step, first.StartRow + row)


def note(document, row):
    return cell(document, "tests_note", row).String


# Parts ----------------------------------------------------------------------------------------------------------------

def test_meaning():
    """What the tests mean, against the formulas; what is doubtful is said in words."""
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        fill(document)
        for row, machine in ((0, "row"), (1, "row"), (0, "ski"), (2, "row"), (3, "bike"), (6, "row")):
            person, who = PEOPLE[row], f"{PEOPLE[row]['name']}, {machine}"
            tests = tests_of(person, machine)
            inside = [t for t in tests if 120 <= t[0] <= 1200]
            check(f"{who}: critical power", *(result(entry(document, row, machine, 0)), fit(inside)[0])
                  if len(inside) > 1 else (result(entry(document, row, machine, 0)), ""))
            if len(inside) > 1:
                power, reserve, *_ = fit(inside)
                check(f"{who}: reserve", result(entry(document, row, machine, 1)), reserve / 1000)
                check(f"{who}: floor", result(entry(document, row, machine, 2)),
                      calories_of(0.75 * (power + reserve / 1200)))
            else:
                t, w = inside[0]
                check(f"{who}: floor", result(entry(document, row, machine, 2)),
                      calories_of(0.75 * w * (t / 1200) ** (3 * (1 - 1 / 1.06))))
        sure = lambda row, machine: entry(document, row, machine, 3).String
        age = lambda row, machine: entry(document, row, machine, 4).String
        error = fit(tests_of(PEOPLE[1], "row"))[2]
        check("five tests: their error", sure(1, "row"), re.compile(rf"5 tests: ± {error:.1f} W|▲ 5 tests, ± {error:.0f} W"))
        check("two tests have no error", sure(0, "ski"), "two tests: the line is exact, its error unknown")
        check("one test", sure(2, "row"), re.compile("one test: only a share of it is used"))
        check("tests that contradict each other", sure(5, "row"), re.compile("▲ the tests contradict each other"))
        check("no critical power from them", result(entry(document, 5, "row", 0)), "")
        check("the longest alone is used", result(entry(document, 5, "row", 2)),
              calories_of(0.75 * 2.8 / (480 / 2000) ** 3 * (480 / 1200) ** (3 * (1 - 1 / 1.06))))
        check("outside the window", sure(8, "bike"), re.compile("▲ tests outside 2 to 20 minutes"))
        check("old in words", age(3, "bike"), "▲ too old, weeks: 20")
        check("fresh in words", age(0, "row"), "weeks old: 3")
        check("no date in words", age(6, "row"), "▲ no date: does not count")
        check("note: old", note(document, 3), re.compile("older than 12 weeks"))
        check("note: no date", note(document, 6), re.compile("enter the date"))
        check("note: newcomer", note(document, 4), re.compile("newcomer: no maximal test"))
        check("a newcomer has no floor", result(entry(document, 4, "row", 2)), "")
        check("note: none", note(document, 0), "")
        check("note: no tests", note(document, 9), re.compile("no tests yet"))
        check("an empty row says nothing", note(document, 10), "")
        for machine in ("ski", "bike"):
            check(f"nothing carried from the rower to the {machine}",
                  [result(entry(document, 1, machine, step)) for step in range(5)], [""] * 5)

        # Summary: what an event workbook takes over.
        take = lambda machine, row: [result(cell(document, f"tests_{machine}", row, col)) for col in range(6)]
        power, reserve, *_ = fit(tests_of(PEOPLE[1], "row"))
        got = take("row", 1)
        check("summary: critical power", got[0], power)
        check("summary: reserve in J", got[1], reserve)
        check("summary: date", got[2], float((datetime.date.fromisoformat(ago(1)) - datetime.date(1899, 12, 30)).days))
        check("summary: longest test", got[3] * 86400, 600)
        check("summary: its calories", got[4], 186)
        check("summary: fitted effort", got[5], 1.04)
        check("summary: one test only", [type(v) for v in take("row", 2)], [str, str, float, float, float, str])
        check("summary: calories of a distance", take("row", 2)[4],
              calories_of(2.8 / (570 / 2000) ** 3) * 570 / 3600)
        check("summary: no test", take("row", 9), [""] * 6)
        check("summary: arm bike", take("armbike", 7)[3:5], [600 / 86400, 95])
        check("summary: no power for the arm bike", [cell(document, "tests_armbike", 7, col).String for col in (0, 1)],
              ["", ""])
        check("summary: names", [cell(document, "tests_name", row).String for row in range(11)],
              [person["name"] for person in PEOPLE] + [""])
        check("summary: movement", cell(document, "tests_movements").String, cell(document, "athlete_movements").String)
        check("summary: sets", [result(cell(document, "tests_sets", 1, col)) for col in range(3)],
              [22.0, 60 * (1 + 5 / 30), 1.8])  # Epley 1985
        check("summary: no load", [result(cell(document, "tests_sets", 0, col)) for col in range(3)], [14.0, "", 2.0])

        # My tests.
        type_in(cell(document, "mine_athlete"), "Bo Lantern")
        page = {c.String for c in used_cells(document, "My tests")}
        for text in (f"{power:.0f}", f"{error:.1f}", f"{reserve / 1000:.1f}", "1000 m", "186 cal in 10:00",
                     f"{calories_of(power + reserve / 480):.0f}", "70.0", "49.0"):
            check(f"my tests shows {text}", text in page, True)
        type_in(cell(document, "mine_athlete"), "Nobody Here")
        check("a name that is not there", "▲ This name is not on the sheet Tests." in
              {c.String for c in used_cells(document, "My tests")}, True)
        check("no errors anywhere", errors(document), [])
        document.close(True)


def used_cells(document, title):
    sheet = document.Sheets[title]
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    end = cursor.RangeAddress
    for row in range(min(end.EndRow + 1, 230)):
        for col in range(min(end.EndColumn + 1, 90)):
            yield sheet.getCellByPosition(col, row)


def errors(document):
    """Cells that show an error, on all sheets, hidden ones too; not the gaps (#N/A) in what a chart draws, which stands in
    columns too narrow to see."""
    from com.sun.star.sheet.FormulaResult import ERROR
    found = []
    for sheet in document.Sheets:
        for area in sheet.queryFormulaCells(ERROR).RangeAddresses:
            if sheet.Columns.getByIndex(area.StartColumn).Width >= 50:
                found.append((sheet.Name, area.StartColumn, area.StartRow))
    return found


def test_corrections():
    """The athlete's journey: enter, see, correct a wrong value, see again; and what pasting can bring in."""
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        type_in(cell(document, "athlete_name"), "Ada Quill")
        type_in(cell(document, "athlete_row_date"), ago(0))
        type_in(cell(document, "athlete_row", 0, 0), "4:05")
        type_in(cell(document, "athlete_row", 0, 1), "6:40")  # slip: 8:40 was meant
        check("a slip that makes the longer test the stronger one", entry(document, 0, "row", 3).String,
              re.compile("contradict"))
        type_in(cell(document, "athlete_row", 0, 1), "8:40")
        power, reserve, *_ = fit(tests_of(dict(row=["4:05", "8:40"]), "row"))
        check("corrected: critical power", result(entry(document, 0, "row", 0)), power)
        check("corrected: reserve", result(entry(document, 0, "row", 1)), reserve / 1000)
        cell(document, "athlete_row", 0, 1).String = ""
        check("taken out again: one test", entry(document, 0, "row", 3).String, re.compile("^one test"))
        # Pasting goes round the rules; the row says so and no number comes of it.
        cell(document, "athlete_row", 0, 1).String = "8;40"
        check("text in place of a time", note(document, 0), re.compile("a result is text"))
        cell(document, "athlete_row", 0, 1).Value = 8.6667
        check("a time that cannot be", note(document, 0), re.compile("impossible result"))
        check("it is left out", entry(document, 0, "row", 3).String, re.compile("^one test"))
        cell(document, "athlete_row", 0, 1).Value = 3 / 86400
        check("2000 m in 3 s", note(document, 0), re.compile("impossible result"))
        cell(document, "athlete_row", 0, 1).String = ""
        type_in(cell(document, "athlete_name", 3), "ada quill")
        check("a name twice", [note(document, row) for row in (0, 3)],
              ["▲ the name is here twice: only the first row is used"] * 2)
        cell(document, "athlete_name", 3).String = ""
        type_in(cell(document, "athlete_bike", 5, 0), "4:00")
        check("results without a name", note(document, 5), re.compile("results without a name"))
        cell(document, "athlete_status").String = "tired"
        check("a status that is not on the list", note(document, 0), re.compile("status is not on the list"))
        check("no floor then", result(entry(document, 0, "row", 2)), "")
        cell(document, "athlete_status").String = ""
        type_in(cell(document, "athlete_row", 0, 4), "330")
        type_in(cell(document, "athlete_row", 0, 2), "3:00")
        check("two tests of one length", entry(document, 0, "row", 3).String, re.compile("same length"))
        cell(document, "athlete_row_date").Value = 60000
        check("a date in the future", entry(document, 0, "row", 4).String, "▲ a date in the future")
        check("no errors anywhere", errors(document), [])

        # An empty workbook, and one that is full.
        empty = office.open(TEMPLATE)
        check("an empty workbook has no errors", errors(empty), [])
        check("an empty workbook says nothing", {note(empty, row) for row in range(200)}, {""})
        fill(empty, [dict(PEOPLE[1], name=f"Athlete {i}") for i in range(200)])
        check("200 athletes", {f"{result(entry(empty, row, 'row', 0)):.6f}" for row in range(200)},
              {f"{fit(tests_of(PEOPLE[1], 'row'))[0]:.6f}"})
        start = time.monotonic()
        recalculate(empty)
        spent = time.monotonic() - start
        print(f"recalculation with 200 athletes: {spent:.2f} s")
        check("recalculated within a second", spent < 1, True)



def test_a_unit_that_cannot_be_is_asked_for():
    """What is above the best in the world is refused where it is typed, and left out where it was pasted."""
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        sheet = cells(document, "athlete_row").Spreadsheet
        sheet.unprotect("")
        # 1000 m, 2000 m, 50 cal, calories in 10:00, average watts over 3:00: what people do, and what nobody does.
        for machine, column, good, wrong in (
                ("row", 0, "3:20", "2:15"), ("row", 1, "6:30", "4:59"), ("row", 2, "1:40", "0:40"), ("row", 3, "210", "600"),
                ("row", 4, "320", "900"), ("ski", 3, "180", "380"), ("bike", 0, "3:00", "1:59"), ("bike", 1, "6:30", "4:59"),
                ("armbike", 1, "150", "2000")):
            target = cell(document, f"athlete_{machine}", 0, column)
            rule = target.Validation
            check(f"{machine} {column}: what is said", "is the unit right?" in rule.ErrorMessage)
            scratch = sheet.getCellByPosition(200, 300)
            scratch.Formula = "=" + rule.getFormula1()
            for typed, taken in ((good, True), (wrong, False)):
                type_in(target, typed)
                check(f"{machine} {column} {typed}: taken", bool(scratch.Value) and not scratch.getError(), taken)
            target.String = ""
        fill(document, [dict(name="Ada Quill", row=[None, None, None, 600, None], row_date=ago(1))])
        recalculate(document)
        check("600 cal in 10:00: note", note(document, 0), re.compile("is the unit right"))
        check("600 cal in 10:00: no rate", [result(cell(document, "tests_row", 0, col)) for col in range(5)],
              ["", "", "", "", ""])

def places(area):
    """Sheet, column and row of each cell, as far as any input can be."""
    return [(area.Sheet, col, row) for col in range(area.StartColumn, min(area.EndColumn, 99) + 1)
            for row in range(area.StartRow, min(area.EndRow, 999) + 1)]


def test_locked():
    """Only what a person fills in is unlocked, and every such cell has a rule that explains itself."""
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        inputs = {"athlete_name", "athlete_status", "athlete_movements", "athlete_sets", "athlete_sets_date",
                  "mine_athlete", "setup_gym", "setup_title", "setup_today", "setup_weeks", "setup_cap", "setup_share"}
        for machine in ("row", "ski", "bike", "armbike"):
            inputs |= {f"athlete_{machine}", f"athlete_{machine}_date", f"header_{machine}"}
            if machine != "armbike":
                inputs.add(f"athlete_{machine}_effort")
        inputs_at = {at for name in inputs for at in places(cells(document, name).RangeAddress)}
        free = set()
        for sheet in document.Sheets:
            check(f"{sheet.Name} is protected", sheet.isProtected(), True)
            for alike in sheet.UniqueCellFormatRanges:
                if not alike.CellProtection.IsLocked:
                    free.update(at for area in alike.RangeAddresses for at in places(area))
        check("there are input cells", len(free) > 1000, True)
        wrong = free ^ inputs_at
        check("unlocked cells are the input cells", wrong, set())
        silent = []
        for name in inputs - {"athlete_movements", "setup_gym", "setup_title"}:
            rule = cells(document, name).getCellByPosition(0, 0).Validation
            if rule.Type.value == "ANY" or not rule.ShowErrorMessage or len(rule.ErrorMessage) < 20:
                silent.append(name)
        check("rules that explain themselves", silent, [])


def test_elsewhere():
    """In a German office: typed with commas, read the same."""
    with shared([FUNCTIONS], "german", language="de", locale="de-DE") as office:
        document = office.open(TEMPLATE)
        for name, col, text in (("athlete_name", 0, "Ada Quill"), ("athlete_row", 0, "4:01,5"), ("athlete_row", 1, "8:27"),
                                ("athlete_row_date", 0, datetime.date.today().strftime("%d.%m.%Y")),
                                ("athlete_sets", 1, "62,5"), ("athlete_sets", 3, "2,5")):
            type_in(cell(document, name, 0, col), text)
        power, reserve, *_ = fit(tests_of(dict(row=["4:01.5", "8:27"]), "row"))
        check("German: critical power", result(entry(document, 0, "row", 0)), power)
        check("German: age", entry(document, 0, "row", 4).String, "weeks old: 0")
        check("German: load", result(cell(document, "tests_sets", 0, 1)), 62.5)
        check("German: seconds a rep", result(cell(document, "tests_sets", 0, 2)), 2.5)
        check("German: date in the heading", cell(document, "setup_heading").String, re.compile(ago(0)))
        check("German: no errors", errors(document), [])


def test_refusals(display):
    """In a real window, typed on the keyboard: what is wrong is refused with a sentence, what is right is taken."""
    with shared([FUNCTIONS], "window", display=display) as office:
        document = office.open(TEMPLATE, hidden=False)
        keys = Keys(display, document)
        type_in(cell(document, "athlete_name", 1), "Bo Lantern")
        cases = [
            ("athlete_name", 0, 0, "Bo Lantern", False, "a name twice"),
            ("athlete_name", 0, 0, "Ada Quill", True, "a name"),
            ("athlete_status", 0, 0, "tired", False, "a status not on the list"),
            ("athlete_row", 0, 0, "4;05", False, "a time with a semicolon"),
            ("athlete_row", 0, 0, "405", False, "a time without a colon"),
            ("athlete_row", 0, 0, "4:05", True, "a time"),
            ("athlete_row", 0, 3, "18200", False, "calories beyond reason"),
            ("athlete_row", 0, 4, "three hundred", False, "watts in words"),
            ("athlete_row", 0, 4, "300", True, "watts"),
            ("athlete_row_date", 0, 0, "2090-01-01", False, "a date in the future"),
            ("athlete_row_date", 0, 0, "2026-01-05", True, "a date"),
            ("header_row", 0, 0, "1500", False, "an amount with results below"),
            ("header_ski", 0, 0, "1500", True, "an amount without results below"),
            ("athlete_sets", 0, 0, "9.5", False, "half a repetition"),
            ("mine_athlete", 0, 0, "Nobody", False, "a name that is not on the list"),
        ]
        for name, row, col, text, taken, what in cases:
            target = cell(document, name, row, col)
            before = target.Formula
            refused = keys.enter(target, text)
            check(f"{what}: {'taken' if taken else 'refused'}", refused, not taken)
            check(f"{what}: the cell {'changes' if taken else 'keeps what it had'}", target.Formula != before, taken)
        document.CurrentController.setActiveSheet(document.Sheets["Tests"])
        check("heads and names stay in sight", document.CurrentController.hasFrozenPanes(), True)
        keys.picture(cell(document, "athlete_row", 0, 1), "845", LOOK / "tests-refused.png")
        check("refused times stay out", cell(document, "athlete_row", 0, 1).String, "")
        document.close(True)


class Keys:
    """Types into the office's window; there is no window manager, so every window is given the focus first."""

    def __init__(self, display, document):
        self.display, self.document = display, document
        self.window = self.wait("LibreOffice Calc", 60)

    def run(self, *arguments):
        return subprocess.run(["xdotool", *arguments], env={"DISPLAY": self.display, "PATH": "/usr/bin:/bin"},
                              capture_output=True, text=True).stdout.split()

    def windows(self, title):
        return self.run("search", "--onlyvisible", "--name", title)

    def wait(self, title, limit):
        deadline = time.monotonic() + limit
        while time.monotonic() < deadline:
            if found := self.windows(title):
                time.sleep(0.5)
                return found[0]
            time.sleep(0.1)
        return None

    def press(self, window, key):
        self.run("windowfocus", "--sync", window)
        self.run("key", key)
        time.sleep(0.5)

    def write(self, target, text):
        controller = self.document.CurrentController
        controller.setActiveSheet(self.document.Sheets[target.CellAddress.Sheet])
        controller.select(target)
        self.run("windowfocus", "--sync", self.window)
        time.sleep(0.3)
        self.run("type", "--delay", "30", text)
        self.run("key", "Return")

    def enter(self, target, text):
        """True where a message refused it; False where the cell took it; None where nothing happened."""
        before = target.Formula
        self.write(target, text)
        deadline = time.monotonic() + 10
        while time.monotonic() < deadline:
            if found := self.windows("Not accepted"):
                time.sleep(0.3)
                while found := self.windows("Not accepted"):
                    self.press(found[0], "Escape")
                self.press(self.window, "Escape")
                return True
            if target.Formula != before:
                return False
            time.sleep(0.1)
        return None

    def picture(self, target, text, path):
        path.parent.mkdir(parents=True, exist_ok=True)
        self.write(target, text)
        self.wait("Not accepted", 10)
        subprocess.run(["import", "-window", "root", str(path)], env={"DISPLAY": self.display, "PATH": "/usr/bin:/bin"},
                       check=True)
        while found := self.windows("Not accepted"):
            self.press(found[0], "Escape")
        self.press(self.window, "Escape")


def test_paper():
    """Every page printed, read back, and its picture left to look at."""
    LOOK.mkdir(parents=True, exist_ok=True)
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        fill(document)
        type_in(cell(document, "setup_gym"), "Quayside Shed")
        type_in(cell(document, "mine_athlete"), "Bo Lantern")
        for title, pages in (("How to test", 1), ("My tests", 2), ("Set-up", 1)):
            for paper_size in ("A4", "Letter"):
                text, count = print_sheet(document, title, paper_size)
                check(f"{title}, {paper_size}: pages", count, pages)
                check(f"{title}, {paper_size}: no errors", BAD.findall(text), [])
                check(f"{title}, {paper_size}: caution", text.replace("\n", " "), re.compile("is not medical advice"))
        text, _ = print_sheet(document, "My tests", "A4")
        power, reserve, error, _ = fit(tests_of(PEOPLE[1], "row"))
        for word in (f"{power:.0f}", f"{error:.1f}", f"{reserve / 1000:.1f}", "Bo Lantern", "Quayside Shed"):
            check(f"printed: {word}", word in text, True)
        drawn = document.Sheets.getByName("My tests").Charts.getByName("power").EmbeddedObject.getData().getData()
        line = {round(point[0]): point[1] for point in drawn[:19]}
        points = {round(60 * x): watts for x, _, _, watts, *_ in drawn[19:24]}
        for time_, watts in tests_of(PEOPLE[1], "row"):
            check(f"drawn: the test of {time_} s", points[round(time_)], watts, 1e-3)
        for minutes in (3, 12):
            check(f"drawn: the line at {minutes} minutes", line[minutes], power + reserve / (60 * minutes), 1e-6)
        for title in ("Tests", "Summary"):
            narrow(document, title, 20)
            text, count = print_sheet(document, title, "A4")
            check(f"{title}: no errors", BAD.findall(text), [])
            check(f"{title}: names and stamp on every page", [text.count("Hedda Moss"), text.count("as of 20")], [count] * 2)
            check(f"{title}: the date as a date", ago(5) in text, True)
        document.close(True)


def narrow(document, title, last):
    sheet = document.Sheets[title]
    area = sheet.PrintAreas[0]
    area.EndRow = last
    sheet.PrintAreas = (area,)


def print_sheet(document, title, size):
    """Text and number of pages of one sheet alone; pictures of A4 are kept."""
    kept = {sheet.Name: sheet.PrintAreas for sheet in document.Sheets}
    for sheet in document.Sheets:
        if sheet.Name != title:
            sheet.PrintAreas = ()
    style = document.StyleFamilies.getByName("PageStyles").getByName(document.Sheets[title].PageStyle)
    width, height = (21000, 29700) if size == "A4" else (21590, 27940)
    style.Width, style.Height = (height, width) if style.IsLandscape else (width, height)
    pdf = WORK / f"{title}-{size}.pdf"
    save(document, pdf)
    for sheet in document.Sheets:
        sheet.PrintAreas = kept[sheet.Name]
    if size == "A4":
        subprocess.run(["pdftoppm", "-r", "80", "-png", pdf, LOOK / f"tests-{title.replace(' ', '-').lower()}"], check=True)
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True).stdout
    info = subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout
    return text, int(re.search(r"Pages:\s+(\d+)", info)[1])


def test_files():
    """Saved and opened again: formulas and values stay."""
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        fill(document)
        names = ("tests_row", "tests_ski", "tests_bike", "tests_armbike", "tests_sets", "tests_note")
        values = {name: [[result(cell(document, name, row, col)) for col in range(cells(document, name).Columns.Count)]
                         for row in range(12)] for name in names}
        formula = cell(document, "tests_row").Formula
        for kind in ("ods", "fods", "xlsx"):
            save(document, WORK / f"saved.{kind}")
        document.close(True)
        for kind in ("ods", "fods", "xlsx"):
            again = office.open(WORK / f"saved.{kind}")
            recalculate(again)
            same = True
            for name in names:
                for row in range(12):
                    for col, want in enumerate(values[name][row]):
                        got = result(cell(again, name, row, col))
                        same = same and (got == want or isinstance(got, float) and isinstance(want, float) and
                                         abs(got - want) <= 1e-9 * abs(want))
            check(f"{kind}: values", same, True)
            check(f"{kind}: formula", cell(again, "tests_row").Formula, formula)
            check(f"{kind}: critical power is still calculated", "TESTCRITICAL" in cell(again, "w_row_cp").Formula.replace(".", ""), True)
            check(f"{kind}: errors", errors(again), [])
            check(f"{kind}: sheets are protected", {sheet.isProtected() for sheet in again.Sheets}, {True})
            again.close(True)
