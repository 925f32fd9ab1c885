"""Share as values and the copy without people: what leaves the gym says no more than it should, and nothing false.

Uses BUILD/pacecells.oxt; each command through its dispatch, without windows.
"""

import csv
import re
import shutil
import zipfile

import pytest
from commands import private_office, run, used
from compare import check
from event_cells import by_key
from office import enter, result, type_in
from sharing import BUILD, alone, catalog, folder_of, shared, shown

CATALOG = alone(catalog())
WORK = folder_of(__file__)


def test_share():
    """A copy that reads the same without formulas, also where Pacecells is missing; the workbook untouched."""
    folder = WORK / "shared"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    with private_office() as office:
        document = office.new()
        document.Sheets.insertNewByName("Second one", 1)
        sheet, second = document.Sheets[0], document.Sheets[1]
        for row, function in enumerate(CATALOG):
            enter(sheet.getCellByPosition(0, row), function["formula"])
        enter(sheet["B1"], "=TIME(0;2;30)")
        enter(sheet["B2"], "=1/0")
        enter(sheet["B3"], "=NA()")
        enter(sheet["B4"], '=PACE.ROUND("0:00";8)')
        enter(sheet["B5"], '="007"')
        enter(sheet["B6"], '=""')
        enter(sheet["B8"], "=IF(TRUE();G1;1)")  # an empty cell: 0 that shows nothing
        type_in(sheet["B7"], "plain")
        sheet.getCellRangeByName("C1:F3").setArrayFormula('=PACE.TABLE("20:00";8;10;1;15;90)')
        enter(second["A1"], "=$Sheet1.A1")
        second.protect("")
        def state():
            return sum((shown(cells.getCellRangeByPosition(0, 0, 5, len(CATALOG) - 1)) for cells in (sheet, second)), [])
        state()
        before = state()
        formulas = used(sheet)
        document.setModified(False)
        for ending in ("ods", "xlsx", "csv", "pdf"):
            file = folder / f"with space.{ending}"
            check(f"share {ending}", run(office, document, "share", File=str(file)),
                  (True, f"Saved: {file}"))
            check(f"share {ending}: written", file.is_file() and file.stat().st_size > 500)
            again = run(office, document, "share", File=str(file))
            check(f"share {ending}: asks before overwriting", (again[0], "already exists" in again[1]), (False, True))
            check(f"share {ending}: no", run(office, document, "share", File=str(file), Overwrite="false"), (True, ""))
            check(f"share {ending}: yes", run(office, document, "share", File=str(file), Overwrite="true")[0])
        check("share: untouched", [used(sheet) == formulas, state() == before, document.isModified(),
                                   document.UndoManager.isRedoPossible()], [True, True, False, False])
        check("share: nothing half done left", sorted(file.name for file in folder.iterdir()),
              [f"with space.{ending}" for ending in ("csv", "ods", "pdf", "xlsx")])
        check("share: no other ending", run(office, document, "share", File=str(folder / "a.doc")),
              (False, "The file name must end in .ods, .xlsx, .csv or .pdf."))
        own = folder / "with space.ods.copy"
        own.write_text("somebody's")
        check("share: beside a file called like a copy", run(office, document, "share", File=str(folder / "with space.ods"),
                                                             Overwrite="true")[0])
        check("share: which stays", own.is_file() and own.read_text(), "somebody's")
        own.unlink()
        (folder / "file").write_text("in the way")
        check("share: no such folder", run(office, document, "share", File=str(folder / "file" / "a.ods"))[0], False)
        (folder / "file").unlink()
        check("share: no name", run(office, document, "share"), (False, "No file was chosen."))
        office.dispatch(document, ".uno:SaveAs", URL=(folder / "own.ods").as_uri(), FilterName="calc8")
        check("share: not over itself", run(office, document, "share", File=str(folder / "own.ods")),
              (False, "That is the workbook itself. Choose another name."))
        second.unprotect("")
        second.protect("secret")
        check("share: a sheet with a password", run(office, document, "share", File=str(folder / "b.ods")),
              (False, "The sheet Second one is password-protected. Remove the password first, or share a PDF."))
        check("share: refusals leave nothing", sorted(file.name for file in folder.glob("[!.]*")),
              ["own.ods"] + [f"with space.{ending}" for ending in ("csv", "ods", "pdf", "xlsx")])
    with open(folder / "with space.csv", newline="", encoding="utf-8") as file:
        check("share csv: the sheet in front, as it shows", list(csv.reader(file, delimiter=";")), before[:len(CATALOG)])
    with shared([], "without") as office:
        for ending in ("ods", "xlsx"):
            document = office.open(folder / f"with space.{ending}")
            document.calculateAll()
            after = sum((shown(cells.getCellRangeByPosition(0, 0, 5, len(CATALOG) - 1)) for cells in document.Sheets), [])
            for row, (got, want) in enumerate(zip(after, before)):
                check(f"share {ending}: line {row}", got, want)
            check(f"share {ending}: no formulas", [text for cells in document.Sheets for text in used(cells)
                                                   if text.startswith(("=", "{="))], [])
            check(f"share {ending}: text stays text", result(document.Sheets[0]["B5"]), "007")
            check(f"share {ending}: protection stays", document.Sheets[1].isProtected(), True)


def as_read(path):
    """Every sheet of a file in an office without Pacecells: what its cells hold and show."""
    with shared([], "without") as office:
        document = office.open(path)
        found = {}
        for sheet in document.Sheets:
            cells = sheet.createCursor()
            cells.gotoEndOfUsedArea(False)
            end = cells.RangeAddress
            area = sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow)
            found[sheet.Name] = area.getDataArray(), area.getFormulaArray()
        document.close(True)
        return found


@pytest.mark.parametrize("example", ("rounds", "pairs"))
def test_share_an_event(example):
    """Blank cells stay blank, texts stay texts, times are whole seconds as they show."""
    folder = WORK / f"shared {example}"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    with private_office() as office:
        document = office.open(BUILD / "examples" / f"{example}.ots", AsTemplate=True)
        document.calculateAll()
        wanted, times = {}, {}
        for sheet in document.Sheets:
            area = sheet.createCursor()
            area.gotoEndOfUsedArea(False)
            end = area.RangeAddress
            cells = sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow)
            wanted[sheet.Name] = cells.getDataArray()
            for row, values in enumerate(wanted[sheet.Name]):
                for column, value in enumerate(values):
                    if isinstance(value, float) and 0 < value < 1:
                        text = sheet.getCellByPosition(column, row).String
                        if re.fullmatch(r"\d+:\d\d", text) and sheet.getCellByPosition(column, row).Formula.startswith("="):
                            times[sheet.Name, row, column] = text
        assert len(times) > (100 if example == "rounds" else 50)
        for ending in ("ods", "xlsx"):
            done, said = run(office, document, "share", File=str(folder / f"event.{ending}"))
            assert done, said
        document.close(True)
    for ending in ("ods", "xlsx"):
        got = as_read(folder / f"event.{ending}")
        for name, values in wanted.items():
            formulas = [text for row in got[name][1] for text in row
                        if text.startswith(("=", "{=")) and text not in ("=TRUE()", "=FALSE()")]  # so a truth is read
            check(f"{ending}, {name}: no formulas", formulas, [])
            wrong = []
            for row, line in enumerate(values):
                for column, value in enumerate(line):
                    cells = got[name][0]
                    read = cells[row][column] if row < len(cells) and column < len(cells[row]) else ""
                    text = times.get((name, row, column))
                    if text and ":" in text:
                        first, second = map(int, text.split(":"))
                        seconds = first * 60 + second
                        # a clock of the day shows hours and minutes; what an office that cuts decimals off would show
                        cut = int if ending == "xlsx" else round  # ods keeps times in words: PT11M06S
                        good = isinstance(read, float) and seconds in (cut(read * 86400), cut(read * 1440))
                    elif isinstance(value, float) and isinstance(read, float):
                        good = abs(read - value) <= 1e-9 * max(1, abs(value)) or abs(read - value) < 0.51 / 86400
                    else:
                        good = read == value or (value in ("", None, 0.0) and read in ("", None)) or value is None
                    if not good:
                        wrong.append((row, column, value, read))
            check(f"{ending}, {name}: as shown", wrong[:5], [])


def test_copy_without_people():
    """Not one name is left anywhere in the file; the workout is."""
    file = WORK / "nobody.ods"
    file.unlink(missing_ok=True)
    with private_office() as office:
        document = office.open(BUILD / "examples" / "rounds.ots", AsTemplate=True)
        document.DocumentProperties.Author = "Coach Quill"
        names = [row[0] for row in by_key(document, "roster_name").getDataArray() if row[0]]
        assert len(names) == 24
        run(office, document, "print-pack", File=str(WORK / "before.pdf"), Overwrite="true")
        workout = by_key(document, "workout").getDataArray()
        done, said = run(office, document, "copy-without-people", File=str(file))
        assert done, said
        check("the workbook itself keeps them", [row[0] for row in by_key(document, "roster_name").getDataArray() if row[0]], names)
        with zipfile.ZipFile(file) as package:
            parts = {name: package.read(name).decode("utf-8", "ignore") for name in package.namelist()}
        for name in [*names, "Coach Quill", "Pacecells printed"]:
            check(f"{name}: nowhere", [part for part, text in parts.items() if name in text], [])
        for surname in {name.split()[-1] for name in names}:
            check(f"{surname}: nowhere", [part for part, text in parts.items() if surname in text], [])
        copy = office.open(file)
        check("the workout", by_key(copy, "workout").getDataArray(), workout)
        check("complete", by_key(copy, "workout_check").String, "")
        run(office, copy, "add-athletes", List="Zelda Nordwind;scaled, women")
        check("goes on working", by_key(copy, "heat_list").getDataArray()[0][3], "Zelda Nordwind")
