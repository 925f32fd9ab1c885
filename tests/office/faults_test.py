#!/usr/bin/python3
"""What goes wrong around the commands: no room, no right, no file, the office killed. A sentence, and nothing lost.

    faults_test.py BUILD [PART...]      parts: lists templates locked disks killed others

Uses BUILD/pacecells.oxt and its templates. A full disk and a read-only one are mounted for the purpose, which only root
can do; without, that is said and passed over. Ends with "N passed, N failed" and fails if anything did.
"""

import csv
import math
import os
import re
import shutil
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "templates"))
import uno  # noqa: E402, F401
from checks import check, disk, fill, finish  # noqa: E402
from com.sun.star.frame.DispatchResultState import SUCCESS  # noqa: E402
from com.sun.star.table.CellContentType import FORMULA  # noqa: E402
from office import FILTERS, Office, named, recalculate, save  # noqa: E402

BUILD = Path(sys.argv[1]).resolve()
WORK = BUILD / "office-tests" / "faults"
TEMPLATES = BUILD / "templates" / "en"
EXAMPLE = BUILD / "examples" / "rounds.ots"
SENTENCE = re.compile(r"^(?!That did not work)\S.{15,}[.?]$", re.S)
FILTERS["xls"] = "MS Excel 97"


def run(office, document, command, **arguments):
    event = office.dispatch(document, "vnd.org.pacecells:" + command, Silent="true", **arguments)
    return event.State == SUCCESS, event.Result


def refused(what, outcome, mentions=""):
    check(f"{what}: refused", outcome[0], False)
    check(f"{what}: with a sentence of ours", outcome[1], SENTENCE)
    check(f"{what}: which tells {mentions!r}", mentions in outcome[1])


def cells(document, name):
    return document.NamedRanges.getByName(name).ReferredCells


def column(document, name):
    return [row[0] for row in cells(document, name).getDataArray()]


def private_office(name="office"):
    return Office([BUILD / "pacecells.oxt"], WORK / name, reuse=True)


def lists():
    """Files that are no lists, for the two commands that read some."""
    folder = WORK / "lists"
    folder.mkdir(exist_ok=True)
    text = "Name;Division\nÉlodie Maï;\nJosé Muñoz;\n"
    bad = {"picture.csv": b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" + bytes(range(256)), "zeros.csv": bytes(4096),
           "half.csv": b"PK\x03\x04\x14\0\0\0\x08\0broken", "ole.csv": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600)}
    for name, content in bad.items():
        (folder / name).write_bytes(content)
    (folder / "folder.csv").mkdir(exist_ok=True)
    (folder / "loop.csv").unlink(missing_ok=True)
    (folder / "loop.csv").symlink_to(folder / "loop.csv")
    (folder / "closed.csv").write_text(text)
    (folder / "closed.csv").chmod(0)
    names = [*bad, "folder.csv", "loop.csv", "missing.csv"] + ([] if os.geteuid() == 0 else ["closed.csv"])
    with private_office() as office:
        document = office.open(EXAMPLE)
        before = [column(document, name) for name in ("roster_name", "roster_division", "tests_name")]
        for name in names:
            for command in ("add-athletes", "bring-tests"):
                refused(f"{command} {name}", run(office, document, command, File=str(folder / name)))
        (folder / "empty.csv").write_bytes(b"")
        for command in ("add-athletes", "bring-tests"):
            refused(f"{command} of nothing", run(office, document, command, File=str(folder / "empty.csv")))
        after = [column(document, name) for name in ("roster_name", "roster_division", "tests_name")]
        check("bad lists: the sheets are as they were", after == before)
        check("bad lists: nothing to undo", list(document.UndoManager.AllUndoActionTitles), [])
        check("bad lists: nothing is left open", len(list(office.desktop.Components)), 1)

        people = sum(1 for name in before[0] if name)
        for encoding, mark in (("utf-16-le", b"\xff\xfe"), ("utf-16-be", b"\xfe\xff"), ("utf-8", b"\xef\xbb\xbf")):
            (folder / "list.csv").write_bytes(mark + text.encode(encoding))
            done, said = run(office, document, "add-athletes", File=str(folder / "list.csv"))
            check(f"a list in {encoding} is read", (done, column(document, "roster_name")[people:people + 2]),
                  (True, ["Élodie Maï", "José Muñoz"]))
            document.UndoManager.undo()


def templates():
    """The package has lost its workbooks."""
    with private_office("package") as office:
        document = office.new()
        folder = next((WORK / "package" / "packages").rglob("*.oxt/templates"))
        away = folder.with_name("templates-away")
        folder.rename(away)
        try:
            for command in ("new-event", "new-tests", "new-wall"):
                refused(f"{command} without its workbook", run(office, document, command), "Install it again")
            check("nothing is left open", len(list(office.desktop.Components)), 1)
        finally:
            away.rename(folder)
        for command in ("new-tests", "new-wall"):
            check(f"{command} with it", run(office, document, command)[0])


def locked():
    """A file that somebody else has open."""
    folder = WORK / "locked"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    with private_office() as office:
        document, small = office.open(EXAMPLE), small_workbook(office)
        source = {"share": small, "cards": document}
        for name, command in (("a list.ods", "share"), ("values.xlsx", "share"), ("cards.pdf", "cards")):
            file, lock = folder / name, folder / f".~lock.{name}#"
            file.write_bytes(b"theirs")
            lock.write_text(",someone,other-computer,01.01.2026 10:00,file:///home/someone/.config;")
            outcome = run(office, source[command], command, File=file.as_uri(), Overwrite="true")
            refused(f"{command} into {name}, open elsewhere", outcome, "is open elsewhere")
            check(f"{name} is as it was", file.read_bytes(), b"theirs")
            lock.unlink()
            check(f"{name}: written when it is closed", run(office, source[command], command, File=file.as_uri(),
                                                            Overwrite="true")[0])
            check(f"{name}: is another now", file.read_bytes() != b"theirs")
        check("nothing unfinished is left", sorted(file.name for file in folder.iterdir()),
              ["a list.ods", "cards.pdf", "values.xlsx"])
        tests = folder / "tests.ods"
        shutil.copy(TEMPLATES / "tests.ots", tests)
        lock = folder / ".~lock.tests.ods#"
        lock.write_text(",someone,other-computer,01.01.2026 10:00,file:///home/someone/.config;")
        content = tests.read_bytes()
        done, said = run(office, document, "bring-tests", File=str(tests))
        check("bring-tests: reads what is open elsewhere, or says why not", done or SENTENCE.search(said) is not None)
        check("and leaves it and its lock alone", (tests.read_bytes() == content, lock.exists()), (True, True))


def writers(folder):
    """Every command that writes files, into this folder."""
    return [("share", {"File": (folder / "values.ods").as_uri()}), ("share", {"File": (folder / "values.xlsx").as_uri()}),
            ("share", {"File": (folder / "values.pdf").as_uri()}), ("cards", {"File": (folder / "cards.pdf").as_uri()}),
            ("cards", {"Files": "each", "Folder": folder.as_uri()})]


def small_workbook(office):
    document = office.new()
    document.Sheets[0].getCellRangeByName("A1:C50").setFormulaArray([["=ROW()", '=CLOCK.TEXT("2:30")', "text"]] * 50)
    return document


def disks():
    """No room, and no right to write."""
    with private_office() as office:
        document = office.open(EXAMPLE)
        source = {"share": small_workbook(office), "cards": document}
        before, modified = column(document, "roster_name"), document.isModified()
        with disk(WORK / "full", "size=64k") as full:
            if full:
                for name in ("values.ods", "cards.pdf"):
                    (WORK / "full" / name).write_bytes(name.encode())
                fill(WORK / "full" / "rest")
                for command, arguments in writers(WORK / "full"):
                    refused(f"full disk, {command} {arguments}",
                            run(office, source[command], command, Overwrite="true", **arguments), "room")
                old = {file.name: file.read_bytes() for file in (WORK / "full").iterdir() if file.name != "rest"}
                check("full disk: what was there is there, and nothing else", old,
                      {name: name.encode() for name in ("values.ods", "cards.pdf")})
                (WORK / "full" / "rest").unlink()
            else:
                print("full disk: passed over, for nothing can be mounted here")
        with disk(WORK / "read-only", "ro,size=64k") as closed:
            if not closed:
                (WORK / "read-only").chmod(0o500)
            if closed or os.geteuid() != 0:
                for command, arguments in writers(WORK / "read-only"):
                    refused(f"read-only folder, {command} {arguments}",
                            run(office, source[command], command, **arguments), "right")
                check("read-only folder: nothing in it", list((WORK / "read-only").iterdir()), [])
            else:
                print("read-only folder: passed over, for nothing can be mounted here and root may write anywhere")
        check("the workbook is as it was", (column(document, "roster_name"), document.isModified()), (before, modified))
        check("nothing is left open", len(list(office.desktop.Components)), 2)


def whole(pdf):
    return subprocess.run(["pdftotext", pdf, "-"], capture_output=True).returncode == 0


def killed():
    """The office killed while it writes cards: no half file under a final name."""
    folder = WORK / "killed"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    one, each = folder / "all.pdf", folder / "each"
    each.mkdir()
    one.write_bytes(b"what was there before")

    def until_killed(arguments, there):
        """Runs the command and kills the office as soon as there() says so."""
        with private_office("kill") as office:
            document = office.open(TEMPLATES / "event.ots")
            run(office, document, "add-athletes", List="\n".join(f"Athlete {i:03}" for i in range(1, 201)))
            writing = threading.Thread(target=lambda: swallow(lambda: run(office, document, "cards", **arguments)))
            writing.start()
            deadline = time.monotonic() + 60
            while not there() and writing.is_alive() and time.monotonic() < deadline:
                time.sleep(0.001)
            at_work = writing.is_alive()
            os.killpg(office.process.pid, signal.SIGKILL)
            office.process.wait()
            writing.join(30)
            return at_work

    at_work = until_killed({"File": one.as_uri(), "Overwrite": "true"},
                           lambda: one.with_name("all.pdf.part").exists())
    check("killed: while it wrote", at_work)
    check("killed: what was there before is there still, or all of the new",
          one.read_bytes() == b"what was there before" or whole(one))
    at_work = until_killed({"Files": "each", "Folder": each.as_uri()}, lambda: len(list(each.glob("*.pdf"))) >= 5)
    check("killed: while it wrote one after the other", at_work)
    check("killed: every file with a final name is whole",
          [file.name for file in each.glob("*.pdf") if not whole(file)], [])
    check("killed: some are there, some are not", 5 <= len(list(each.glob("*.pdf"))) < 200)
    with private_office("kill") as office:
        document = office.open(TEMPLATES / "event.ots")
        run(office, document, "add-athletes", List="\n".join(f"Athlete {i:03}" for i in range(1, 21)))
        check("again: into one file", run(office, document, "cards", File=one.as_uri(), Overwrite="true")[0])
        check("again: it is whole", whole(one))
        check("again: one each", run(office, document, "cards", Files="each", Folder=each.as_uri(), Overwrite="true")[0])
    check("again: nothing unfinished is left", [file.name for file in folder.rglob("*.part")
                                                if file.name.split(".")[0] <= "Athlete 020"], [])


def swallow(what):
    try:
        what()
    except Exception:  # the office is gone
        pass


def shown(document):
    """Every visible sheet as a person reads it."""
    return {sheet.Name: texts_of(sheet) for sheet in document.Sheets if sheet.IsVisible}


def texts_of(sheet):
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    area = sheet.getCellRangeByPosition(0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow)
    return [list(row) for row in area.getDataArray()]


def alike(got, want):
    if isinstance(got, float) and isinstance(want, float):
        return math.isclose(got, want, rel_tol=1e-9, abs_tol=1e-9)
    return got == want


def differences(got, want):
    """Cells that differ, at most five."""
    found = []
    for name, rows in want.items():
        there = got.get(name, [])
        for y, row in enumerate(rows):
            for x, value in enumerate(row):
                other = there[y][x] if y < len(there) and x < len(there[y]) else ""
                if not alike(other, value):
                    found.append((name, y, x, value, other))
    return found[:5]


def formulas(document):
    return sum((area.EndColumn - area.StartColumn + 1) * (area.EndRow - area.StartRow + 1)
               for sheet in document.Sheets for area in sheet.queryContentCells(16).RangeAddresses)


def others():
    """Values through .csv and .xls, formulas through an office that lacks the extension."""
    workbooks = {"rounds": EXAMPLE, "tests": TEMPLATES / "tests.ots"}
    kinds = {"rounds": ("ods",), "tests": ("ods", "xlsx")}
    before = {}
    with private_office() as office:
        for name, endings in kinds.items():
            document = office.open(workbooks[name])
            recalculate(document)
            before[name] = shown(document), formulas(document)
            for ending in endings:
                save(document, WORK / f"{name}.{ending}")
            check(f"{name}: shared as values", run(office, document, "share", Overwrite="true",
                                                   File=(WORK / f"{name}-values.ods").as_uri())[0])
            values = office.open(WORK / f"{name}-values.ods")
            before[name] += (shown(values),)
            save(values, WORK / f"{name}.xls")
            values.close(True)
            save(document, WORK / f"{name}.csv", FilterOptions="59,34,76,1,,0,false,true,true,false,false,-1")
            for sheet in document.Sheets:
                if not sheet.IsVisible:
                    continue
                file = next(WORK.glob(f"{name}-{glob_safe(sheet.Name)}.csv"))
                with open(file, newline="", encoding="utf-8") as stream:
                    rows = list(csv.reader(stream, delimiter=";"))
                cursor = sheet.createCursor()
                cursor.gotoEndOfUsedArea(False)
                lost = []
                for y in range(min(25, cursor.RangeAddress.EndRow + 1)):
                    for x in range(min(20, cursor.RangeAddress.EndColumn + 1)):
                        text = sheet.getCellByPosition(x, y).String
                        there = rows[y][x] if y < len(rows) and x < len(rows[y]) else ""
                        if text != there:
                            lost.append((y, x, text, there))
                check(f"{name}, {sheet.Name} as .csv: every value", lost[:3], [])
            document.close(True)
    with Office([], WORK / "without", reuse=True) as office:
        for name, endings in kinds.items():
            for ending in endings:
                document = office.open(WORK / f"{name}.{ending}")
                document.storeToURL((WORK / f"{name}-passed-on.{ending}").as_uri(),
                                    named(FilterName=FILTERS[ending], Overwrite=True))
                document.close(True)
    with private_office() as office:
        for name, endings in kinds.items():
            values, count, flat = before[name]
            for ending in endings:
                document = office.open(WORK / f"{name}-passed-on.{ending}")
                recalculate(document)
                check(f"{name}.{ending} through an office without us: formulas", formulas(document), count)
                check(f"{name}.{ending} through an office without us: values", differences(shown(document), values), [])
                document.close(True)
            document = office.open(WORK / f"{name}.xls")
            check(f"{name}.xls: values", differences(shown(document), flat), [])
            document.close(True)


def glob_safe(name):
    return re.sub(r"[\[\]*?]", "?", name)


def main():
    WORK.mkdir(parents=True, exist_ok=True)
    parts = [lists, templates, locked, disks, killed, others]
    chosen = sys.argv[2:] or [part.__name__ for part in parts]
    for part in parts:
        if part.__name__ in chosen:
            begin = time.monotonic()
            part()
            print(f"{part.__name__}: {time.monotonic() - begin:.0f} s", flush=True)
    return finish()


if __name__ == "__main__":
    sys.exit(main())
