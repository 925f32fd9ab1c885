"""The commands around the event workbook and its people in the real office, each through its dispatch, without windows.

Uses BUILD/pacecells.oxt and the workbooks in BUILD/templates.
Expected values are what was typed into the files, or what the tests workbook shows.
"""

import datetime
import time
import zipfile

from commands import LANGUAGES, private_office, run
from com.sun.star.table.CellContentType import EMPTY, TEXT, VALUE
from compare import check
from event_cells import by_key
from office import result, save
from old_tests import tests_workbook
from sharing import BUILD, folder_of

FILES = folder_of(__file__)
NEW, CHANGED, SAME = "new", "changed", "unchanged"


def cells(document, name):
    return by_key(document, name)


def cell(document, name, row=0, column=0):
    return cells(document, name).getCellByPosition(column, row)


def row_of(document, name, row, first=0, count=5):
    return [None if cell(document, name, row, k).Type == EMPTY else result(cell(document, name, row, k))
            for k in range(first, first + count)]


def state(document):
    """All that results of tests are written into: {(name, row, column): content}."""
    return {(name, row, column): content
            for name in ("tests_name", "tests_row", "tests_ski", "tests_bike", "tests_armbike", "tests_movements", "tests_sets")
            for row, contents in enumerate(cells(document, name).getFormulaArray())
            for column, content in enumerate(contents) if content}


def day(*date):
    return float((datetime.date(*date) - datetime.date(1899, 12, 30)).days)


def documents(office):
    return [component.RuntimeUID for component in office.desktop.Components]


def made(office, document, **arguments):
    """Dispatches new-event: (what it said, the new document or None)."""
    before = documents(office)
    good, said = run(office, document, "new-event", **arguments)
    new = [component for component in office.desktop.Components if component.RuntimeUID not in before]
    check(f"new-event {arguments}: documents", len(new), int(good))
    return said, new[0] if new else None


# --- new event ----------------------------------------------------------------------------------------------------

def test_new_event():
    """What was typed stands in the workbook, what was left blank is blank there, and nothing else differs."""
    with private_office() as office:
        document = office.new()
        said, plain = made(office, document, Empty="true")
        check("empty workbook", (said, plain.URL, cell(plain, "workout.cap").Type, cell(plain, "roster_name").Type),
              ("", "", EMPTY, EMPTY))
        untouched = {name: cells(plain, name).getFormulaArray() for name in
                     ("workout.divisions.amount.1", "workout.groups.name", "workout.steps", "workout.machines.count",
                      "workout.paces.rep_s", "workout.stations.movement", "workout.cap", "workout.gym", "workout.title")}
        plain.close(True)

        said, event = made(office, document)
        check("nothing typed", (said, event.URL, cell(event, "workout.format").String), ("", "", "AMRAP"))
        check("nothing typed: the rest as in the workbook",
              {name: cells(event, name).getFormulaArray() for name in untouched}, untouched)
        event.close(True)

        said, event = made(
            office, document, Gym="Quayside Shed", Title="=1+1", Cap="13:00", Division3="", Division4="teens",
            Movement1="Row", Unit1=" Row  CAL ", Amount1="7/5/6", Movement3="Push press", Unit3="reps", Amount3="3-6-9-…",
            Load3="40 / - / 27,5", Movement4="Plank", Unit4="Halten s", Amount4="/30/-", Movement5="Squats", Unit5="rep",
            Amount5="21-15-9/15-12-9/-")
        check("typed", (said, cell(event, "workout.format").String), ("", "AMRAP"))
        check("cap", (result(cell(event, "workout.cap")), cell(event, "workout.cap").String), (780 / 86400, "13:00"))
        check("no formula of a text", (cell(event, "workout.title").Type, cell(event, "workout.title").String), (TEXT, "=1+1"))
        check("gym", cell(event, "workout.gym").String, "Quayside Shed")
        check("divisions", row_of(event, "workout.divisions.amount.1", 0, count=6),
              ["as written", "scaled", None, "teens", None, None])
        check("movements", [cell(event, "workout.stations.movement", row).String for row in range(5)],
              ["Row", "Push press", "Plank", "Squats", ""])
        check("units in the words of the list", [cell(event, "workout.stations.unit", row).String for row in range(5)],
              ["row cal", "reps", "hold s", "reps", ""])
        check("amounts", [row_of(event, "workout.stations.amount.1", row, count=6) for row in range(4)],
              [[7.0, 5.0, None, 6.0, None, None], ["3-6-9-…", "3-6-9-…", None, "3-6-9-…", None, None],
               [None, 30.0, None, None, None, None], ["21-15-9", "15-12-9", None, None, None, None]])
        check("loads", row_of(event, "workout.stations.load.1", 1, count=6), [40.0, None, None, 27.5, None, None])
        check("one step of undo", list(event.UndoManager.AllUndoActionTitles), ["New event"])
        check("not lost without a question", event.isModified(), True)
        event.close(True)

        said, event = made(office, document, Format="time", Rounds="5", Cap="1:02:30")
        check("for time", (said, cell(event, "workout.format").String, result(cell(event, "workout.rounds")),
                           result(cell(event, "workout.cap"))), ("", "for time", 5.0, 3750 / 86400))
        event.close(True)
        said, event = made(office, document, Format="intervals", Every="60", Windows="10")
        check("intervals", (said, cell(event, "workout.format").String, result(cell(event, "workout.every_s")),
                            result(cell(event, "workout.windows"))), ("", "intervals", 60.0, 10.0))
        event.close(True)

        number = "Needs one number from 0 to 99999 for all divisions, or 2 with / between, one for each."
        for arguments, sentence in (
                ({"Format": "relay"}, "Format: relay is not one of the choices."),
                ({"Cap": "15"}, "Cap: 15 minutes? Then type 15:00."),
                ({"Cap": "soon"}, "Cap: Needs a time such as 20:00, above 0:00 and below 4:00:00."),
                ({"Cap": "4:00:00"}, "Cap: Needs a time such as 20:00, above 0:00 and below 4:00:00."),
                ({"Rounds": "5"}, "Rounds, for time: Leave this blank: rounds are only set for the format for time."),
                ({"Windows": "5"}, "windows: Leave this blank: it is for intervals only."),
                ({"Format": "time", "Rounds": "41"}, "Rounds, for time: Needs a number from 1 to 40."),
                ({"Format": "time", "Rounds": "2.5"}, "Rounds, for time: Needs a whole number."),
                ({"Division2": "As  Written"}, "Division 2: Another division already has this name."),
                ({"Unit1": "cal"}, "Station 1, unit: Needs one of the units: reps, row cal, ski cal, bike cal, fan bike cal, "
                                   "row m, ski m, bike m, run m, carry m, hold s, rest s."),
                ({"Unit2": "rep", "Amount2": "12/10/9"}, f"Station 2, amount: {number}"),
                ({"Unit2": "rep", "Amount2": "-"}, f"Station 2, amount: {number}"),
                ({"Unit2": "rep", "Amount2": "-3"}, f"Station 2, amount: {number}"),
                ({"Unit2": "rep", "Amount2": "12/x"}, f"Station 2, amount: {number}"),
                ({"Unit2": "rep", "Amount2": "100000"}, f"Station 2, amount: {number}"),
                ({"Unit2": "rep", "Amount2": "12/10", "Division1": "all", "Division2": ""},
                 "Station 2, amount: Needs a number from 0 to 99999."),
                ({"Unit2": "rep", "Amount2": "12", "Division1": "", "Division2": ""},
                 "Division 1: Name a division first: amounts and loads belong to divisions."),
                ({"Unit8": "rep", "Load8": "1000"}, "Station 8, load: Needs one number from 0 to 999 for all divisions, or 2 "
                                                    "with / between, one for each."),
                ({"Movement1": "Row", "Amount1": "12"},
                 "Station 1, unit: Needs a unit, so that the numbers beside it mean something.")):
            check(f"new-event {arguments}", made(office, document, **arguments), (sentence, None))
    for language in LANGUAGES:
        with private_office(language) as office:
            document = office.new()
            _, plain = made(office, document, Empty="true")
            _, event = made(office, document, Cap="17:30,5", Unit1="rep", Amount1="2,5")
            if plain is None or event is None:
                continue
            check(f"{language}: divisions as in the workbook", row_of(event, "workout.divisions.amount.1", 0, count=6),
                  row_of(plain, "workout.divisions.amount.1", 0, count=6))
            check(f"{language}: format", cell(event, "workout.format").String, cell(plain, "list_format").String)
            check(f"{language}: unit", cell(event, "workout.stations.unit").String, cell(plain, "list_units").String)
            check(f"{language}: decimals", [result(cell(event, "workout.cap")), result(cell(event, "workout.stations.amount.1"))],
                  [1050.5 / 86400, 2.5])
            plain.close(True)
            event.close(True)


def test_a_block_that_was_changed():
    """Rows inserted move nothing; a key that is gone or doubled is told, and nothing is written."""
    with private_office() as office:
        event = office.open(BUILD / "templates" / "en" / "event.ots")
        block = cells(event, "workout").RangeAddress
        sheet = event.Sheets[block.Sheet]
        sheet.unprotect("")
        keys = [row[0] for row in cells(event, "workout").getDataArray()]
        sheet.Rows.insertByIndex(block.StartRow + keys.index("stations"), 3)
        good, said = run(office, event, "bring-tests", File=written("one.csv", "Name;Rower critical power\nAda Brinkholde;200\n"))
        check("rows inserted", good, True)
        top = block.StartRow + keys.index("cap")
        cell_of = lambda row: sheet.getCellByPosition(block.StartColumn, row)
        cell_of(block.StartRow).String = "gone"
        good, said = run(office, event, "bring-tests", File=str(FILES / "one.csv"))
        check("first row gone", (good, said),
              (False, "The sheet Workout has no row with the key pacecells.workout. Undo what was deleted there."))


# --- bring in test results ----------------------------------------------------------------------------------------

ROSTER = ("Ada Brinkholde", "Bela Ossian", "Cora Varga", "Örjan Ähl", "Twin Two", "Twin  two", "Emil Sandgroven")


def event_with(office, names=ROSTER):
    event = office.open(BUILD / "templates" / "en" / "event.ots")
    for row, name in enumerate(names):
        cell(event, "roster_name", row).setString(name)
    event.UndoManager.clear()
    return event


def written(name, text, encoding="utf-8"):
    path = FILES / name
    path.write_bytes(text.encode(encoding))
    return str(path)


def bring(office, event, path, **arguments):
    good, said = run(office, event, "bring-tests", File=path, **arguments)
    return good, said.split("\n")


LIST = """Results of the autumn;;;;
Name;Rower critical power;Rower reserve;Rower: date;Ski time;Ski calories;Pull-up longest set;Deadlift one-repetition maximum, kg;Push-up – seconds a rep;Shoe size
ada   BRINKHOLDE;210;15000;2026-11-02;;;12;;;38
ÖRJAN ähl;;;;5:00;75;;100,5;1,5;41
Cora Varga;;;;;;;;;
Nobody Known;200;;;;;;;;
Twin two;200;;;;;;;;
Bela Ossian;200;;;;;;;;
bela ossian;201;;;;;;;;
Emil Sandgroven;1200;15000;;;;9;;;
"""


def test_bring_list():
    """From CSV: what is brought is what the list says, on the row of that athlete alone; the rest stays."""
    with private_office() as office:
        event = event_with(office)
        cell(event, "tests_movements", 0, 4).setString("PULL-UP ")
        cell(event, "tests_sets", 7, 12).Value = 5  # a column that someone uses without a heading, and its row
        event.UndoManager.clear()
        before = state(event)
        path = written("list.csv", "\ufeff" + LIST)
        good, said = bring(office, event, path, Write="false")
        wanted = [
            "3 new, 0 changed, 0 unchanged, 1 not on the roster. 3 left out: the name appears twice. 1 without results. "
            "New movements on the sheet: Deadlift, Push-up. Columns not read: Shoe size.",
            "ada   BRINKHOLDE: new; Rower: critical power 210, reserve 15000, date 2026-11-02; Pull-up: longest set 12",
            "ÖRJAN ähl: new; Ski ergometer: time of one test 5:00, calories of one test 75; "
            "Deadlift: one-rep max 100.5; Push-up: seconds per rep 1.5",
            "Cora Varga: no results",
            "Nobody Known: not on the roster",
            "Twin two: twice on the roster: skipped",
            "Bela Ossian: twice in the file: skipped",
            "bela ossian: twice in the file: skipped",
            "Emil Sandgroven: new; Rower: critical power: 1200 cannot be imported; Pull-up: longest set 9"]
        check("list: report", (good, said), (True, wanted))
        check("list: only reported", (state(event) == before, len(event.UndoManager.AllUndoActionTitles)), (True, 0))
        check("list: written", bring(office, event, path), (True, wanted))
        check("list: names as on the roster", [cell(event, "tests_name", row).String for row in range(4)],
              ["Ada Brinkholde", "Örjan Ähl", "Emil Sandgroven", ""])
        check("list: rower", row_of(event, "tests_row", 0), [210.0, 15000.0, day(2026, 11, 2), None, None])
        check("list: rower that cannot be", row_of(event, "tests_row", 2), [None] * 5)
        check("list: ski", row_of(event, "tests_ski", 1), [None, None, None, 300 / 86400, 75.0])
        check("list: headings", [cell(event, "tests_movements", 0, 4 * k).String for k in range(4)],
              ["Deadlift", "PULL-UP ", "Push-up", ""])
        check("list: sets", [row_of(event, "tests_sets", row, 0, 12) for row in range(3)],
              [[None] * 4 + [12.0] + [None] * 7, [None, 100.5] + [None] * 8 + [1.5, None], [None] * 4 + [9.0] + [None] * 7])
        check("list: the sheet is shown", event.Sheets[cells(event, "tests_name").RangeAddress.Sheet].IsVisible)
        after = state(event)
        good, said = bring(office, event, path)
        check("list again", said[0].startswith("0 new, 0 changed, 3 unchanged, 1 not on the roster."))
        check("list again: nothing written", (state(event) == after, len(event.UndoManager.AllUndoActionTitles)), (True, 1))
        event.UndoManager.undo()
        check("list: undone by one step", (state(event) == before, len(event.UndoManager.AllUndoActionTitles)), (True, 0))
        event.UndoManager.redo()
        check("list: redone", state(event) == after)

        # A machine is replaced as a whole, one that the list does not know is kept; a comma, another language.
        cell(event, "tests_sets", 0, 7).Value = 1.5  # a recovery that the list does not know
        cell(event, "tests_bike", 0, 0).Value = 222
        path = written("second.csv", "Calorías remo,Tiempo remo,Fecha remo,Nombre,=2+3 serie más larga\n"
                       "80,\"4:59,5\",30/10/2026,Ada Brinkholde,7\n", "cp1252")
        good, said = bring(office, event, path)
        check("second list: report", said[1:], [
            "Ada Brinkholde: changed; Rower: critical power 210 → blank, reserve 15000 → blank, date 2026-11-02 → 2026-10-30, "
            "time of one test 5:00, calories of one test 80 (older than what is there); "
            "=2+3: longest set 7"])
        check("second list: rower", row_of(event, "tests_row", 0), [None, None, day(2026, 10, 30), 299.5 / 86400, 80.0])
        check("second list: bike kept", row_of(event, "tests_bike", 0), [222.0] + [None] * 4)
        check("second list: recovery kept", row_of(event, "tests_sets", 0, 7, 1), [1.5])
        check("second list: no formula of a text", (cell(event, "tests_movements", 0, 16).Type,
                                                    cell(event, "tests_movements", 0, 16).String), (TEXT, "=2+3"))

        # Headings over two lines, as the sheet Summary prints them; values that are not taken leave what is there.
        path = written("two.csv", ";Bike ergometer;;;Pull-up\nName;Critical power, W;Reserve, J;Date;Longest set\n"
                       "Ada Brinkholde;=9*9;16000;02/03/2026;0\nBela Ossian;230;16000;3.2.26;20\n", "utf-8")
        good, said = bring(office, event, path)
        check("two lines: report", said, [
            "1 new, 0 changed, 0 unchanged, 0 not on the roster. 1 without results.",
            'Ada Brinkholde: no results; Bike ergometer: critical power: "=9*9" cannot be imported; '
            "PULL-UP: longest set: 0 cannot be imported".replace("PULL-UP", "Pull-up"),
            "Bela Ossian: new; Bike ergometer: critical power 230, reserve 16000, date 2026-02-03; Pull-up: longest set 20"])
        check("two lines: kept", (row_of(event, "tests_bike", 0)[0], row_of(event, "tests_sets", 0, 4, 1)), (222.0, [12.0]))
        check("two lines: written", row_of(event, "tests_bike", 3), [230.0, 16000.0, day(2026, 2, 3), None, None])


def test_bring_what_nobody_holds():
    """More than the best in the world hold is a wrong unit: said by name, left out, and the rest is taken."""
    with private_office() as office:
        event = event_with(office)
        path = written("units.csv", "Name;Ski time;Ski calories;Rower critical power;Rower reserve\n"
                       "Ada Brinkholde;10:00;600;;\nBela Ossian;10:00;150;520;20000\nCora Varga;4:00;45;250;20000\n")
        good, said = bring(office, event, path)
        wrong = "W for {} is more than the best in the world hold, about {} W. Is the unit right?"
        check("units: report", (good, said), (True, [
            "2 new, 0 changed, 0 unchanged, 0 not on the roster. 1 without results.",
            "Ada Brinkholde: no results; Ski ergometer: 959 " + wrong.format("10:00", 530),
            "Bela Ossian: new; Rower: 537 " + wrong.format("20:00", 462) +
            "; Ski ergometer: time of one test 10:00, calories of one test 150",
            "Cora Varga: new; Rower: critical power 250, reserve 20000; "
            "Ski ergometer: time of one test 4:00, calories of one test 45"]))
        check("units: rower of Bela", row_of(event, "tests_row", 0), [None] * 5)


def test_bring_full():
    """Where no column or no row is free that is said; the event's own movements come first."""
    with private_office() as office:
        event = event_with(office)
        for slot in range(7):
            cell(event, "tests_movements", 0, 4 * slot).setString(f"Movement {slot}")
        cell(event, "workout.stations.movement").setString("Ring row")
        names = cells(event, "tests_name")
        count = names.RangeAddress.EndRow - names.RangeAddress.StartRow + 1
        names.setDataArray([[f"Someone {row}"] if row != 41 else [""] for row in range(count)])
        cell(event, "tests_armbike", 41, 2).Value = 60  # somebody's, whose name is gone
        good, said = bring(office, event, written("full.csv", "Name;Push-up longest set;Ring row longest set\n"
                                                  "Ada Brinkholde;20;21\n"))
        check("full: report", (good, said), (True, [
            "0 new, 0 changed, 0 unchanged, 0 not on the roster. No free row for 1. New movements on the sheet: Ring row. "
            "No free columns on the sheet Tests for: Push-up.",
            "Ada Brinkholde: no free row on the sheet Tests"]))
        check("full: nothing written", cell(event, "tests_movements", 0, 28).Type, EMPTY)
        cell(event, "tests_armbike", 41, 2).setString("")
        good, said = bring(office, event, written("full.csv", "Name;Push-up longest set;Ring row longest set\n"
                                                  "Ada Brinkholde;20;21\n"))
        check("one row: written", (cell(event, "tests_name", 41).String, cell(event, "tests_movements", 0, 28).String,
                                   row_of(event, "tests_sets", 41, 28, 3)), ("Ada Brinkholde", "Ring row", [21.0, None, None]))
        cell(event, "tests_name", 42).setString("ada brinkholde")
        good, said = bring(office, event, str(FILES / "full.csv"))
        check("twice on the sheet", said[1], "Ada Brinkholde: twice on the sheet Tests: skipped")


def test_bring_workbook():
    """From an older tests workbook, as ods and as xlsx: what its sheet Summary shows, and its file is left as it is."""
    with private_office() as office:
        tests = tests_workbook(office)
        today = day(2026, 11, 20)
        for row, name in enumerate(("Ada Brinkholde", "Stranger", "ÖRJAN  ähl", "Cora Varga")):
            cell(tests, "tests_name", row).setString(name)
        for row, values in ((0, (251.5, 20100, today - 3, 480 / 86400, 140.5, "")), (2, (230, 18000, today - 3, 540 / 86400, 150, 1.04))):
            cells(tests, "tests_row").getCellRangeByPosition(0, row, 5, row).setDataArray((values,))
        cell(tests, "tests_sets", 0, 0).Value = 14
        cell(tests, "tests_sets", 2, 19).Value = 116.7
        summary = {name: cells(tests, name).getDataArray() for name in ("tests_row", "tests_movements", "tests_sets")}
        paths = [FILES / f"results {kind}.{kind}" for kind in ("ods", "xlsx")]
        for path in paths:
            save(tests, path)
        tests.close(True)
        for path in paths:
            kind = path.suffix[1:]
            event = event_with(office)
            open_before, bytes_before = documents(office), path.read_bytes()
            good, said = bring(office, event, str(path))
            check(f"{kind}: report", (good, said[0].split(" New movements")[0]),
                  (True, "2 new, 0 changed, 0 unchanged, 1 not on the roster. 1 without results."))
            check(f"{kind}: names", [cell(event, "tests_name", row).String for row in range(3)],
                  ["Ada Brinkholde", "Örjan Ähl", ""])
            for row, source in ((0, 0), (1, 2)):
                for k, (got, want) in enumerate(zip(row_of(event, "tests_row", row), summary["tests_row"][source])):
                    check(f"{kind}: rower {row}, {k}", got, want if want != "" else None)
                check(f"{kind}: values alone", all(cell(event, "tests_row", row, k).Type in (VALUE, EMPTY) for k in range(5)))
            slots = {cell(event, "tests_movements", 0, 4 * k).String: 4 * k for k in range(8)}
            for row, source in ((0, 0), (1, 2)):
                for k in range(0, 30, 3):
                    values = [value or None for value in summary["tests_sets"][source][k:k + 3]]
                    if any(values):
                        at = slots.get(summary["tests_movements"][0][k], -1)
                        got = row_of(event, "tests_sets", row, at, 3) if at >= 0 else [None] * 3
                        for what in range(3):
                            check(f"{kind}: {summary['tests_movements'][0][k]} {row}, {what}", got[what], values[what])
            good, said = bring(office, event, str(path))
            check(f"{kind}: again", said[0].startswith("0 new, 0 changed, 2 unchanged"))
            check(f"{kind}: file closed and untouched", (documents(office) == open_before, path.read_bytes() == bytes_before),
                  (True, True))
            event.close(True)


def test_bring_refused():
    """A file that is none of ours gets a sentence, and nothing happens."""
    with private_office() as office:
        event = event_with(office)
        before = state(event)
        plain = office.new()
        save(plain, FILES / "plain.ods")
        plain.close(True)
        with zipfile.ZipFile(FILES / "broken.ods", "w") as broken:
            broken.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
            broken.writestr("content.xml", "<office:document-content")
        (FILES / "cut.xlsx").write_bytes(b"PK\x03\x04 and no more")
        (FILES / "noise.csv").write_bytes(bytes(range(256)))
        written("plain.csv", "Ada;12\nBela;13\n")
        written("empty.csv", "")
        written("nobody.csv", "Name;Rower critical power\n")
        heading = ("No line of this list has a heading for the name. Use headings such as: Name; Rower critical power; "
                   "Rower reserve; Rower date; Pull-up longest set.")
        neither = "This file is neither a workbook nor a list. Choose another event, an older tests workbook, or a list saved as CSV."
        damaged = "{file} cannot be opened: it is no workbook, it has a password, or it is damaged."
        others = documents(office)
        for name, sentence in (
                ("plain.ods", "This workbook has no sheet of tests: the cells named tests_name are missing or different. "
                              "Choose another event, an older tests workbook, or a list saved as CSV."),
                ("broken.ods", damaged), ("cut.xlsx", damaged), ("missing.ods", "{file} cannot be opened."), ("noise.csv", neither),
                ("plain.csv", heading), ("empty.csv", heading), ("nobody.csv", "There are no names in this file.")):
            good, said = bring(office, event, str(FILES / name))
            check(f"{name}: refused", good, False)
            check(f"{name}: why", said, [sentence.format(file=FILES / name)])
        for name, sentence in (
                ("testday", "This is the sheet of a test day, or a person's page. Bring it in with Take tests into the logbook."),
                ("logbook", "This is a logbook. Choose it with Open the logbook: new events then take people and tests from it.")):
            check(f"{name}: goes elsewhere", bring(office, event, str(BUILD / "templates" / "en" / f"{name}.ots")), (False, [sentence]))
        check("refused: nothing written", (state(event) == before, len(event.UndoManager.AllUndoActionTitles)), (True, 0))
        check("refused: nothing left open", documents(office), others)
        check("no file", bring(office, event, "")[0], False)
        sheet = office.new()
        check("not an event workbook", run(office, sheet, "bring-tests", File=str(FILES / "plain.csv")),
              (False, "This is not an event workbook, or it was made before its sheets changed: there are no cells named workout."))


def test_bring_many():
    """200 athletes with four machines and eight movements each, in one step, while one can wait for it."""
    with private_office() as office:
        names = [f"Athlete {k:03}" for k in range(200)]
        event = event_with(office, names)
        machines = ("Row", "Ski", "Bike", "Fan bike")
        head = ["Name"] + [f"{machine} {what}" for machine in machines for what in
                           ("critical power", "reserve", "date")] + [f"Movement {k} longest set" for k in range(8)]
        rows = [[name] + [str(200 + k % 50), "15000", "2026-11-02"] * 4 + [str(10 + k % 9)] * 8 for k, name in enumerate(names)]
        path = written("many.csv", "\n".join("\t".join(row) for row in [head] + rows))
        start = time.monotonic()
        good, said = bring(office, event, path)
        seconds = time.monotonic() - start
        print(f"200 athletes, 12 blocks each: {seconds:.1f} s")
        check("many", (good, said[0][:11], seconds < 30), (True, "200 new, 0 ", True))
        check("many: the last", (row_of(event, "tests_armbike", 199, 0, 2), row_of(event, "tests_bike", 199, 0, 2),
                                 row_of(event, "tests_sets", 199, 28, 1)), ([day(2026, 11, 2), None], [249.0, 15000.0], [11.0]))
        check("many: no calories without a formula", "Columns not read: Fan bike critical power, Fan bike reserve." in said[0])
        check("many: one step", len(event.UndoManager.AllUndoActionTitles), 1)
