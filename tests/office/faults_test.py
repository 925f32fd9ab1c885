"""What goes wrong around the commands: no room, no right, no file, the office killed. A sentence, and nothing lost.

Uses BUILD/pacecells.oxt and its templates. A full disk and a read-only one are mounted for the purpose, which only root
can do; without, those cases are skipped.
"""

import csv
import math
import os
import re
import shutil
import signal
import subprocess
import threading
import time
from contextlib import contextmanager
from urllib.parse import unquote

import pytest
import sharing
from commands import private_office, run, swallow
from disks import disk, fill, lock
from logbook_kit import contents, new_logbook
from office import FILTERS, named, recalculate, save
from old_tests import tests_workbook
from sharing import BUILD, OXT, folder_of, shared

EXTENSIONS = [OXT]
WORK = folder_of(__file__)
TEMPLATES = BUILD / "templates" / "en"
EXAMPLE = BUILD / "examples" / "rounds.ots"
PERSON = "Mara Lindqvarn"
SENTENCE = re.compile(r"^(?!That did not work)\S.{15,}[.?]$", re.S)
FILTERS["xls"] = "MS Excel 97"


def refused(what, outcome, mentions=""):
    done, said = outcome
    assert not done and SENTENCE.search(said) and mentions in said, f"{what}: {outcome}"


def cells(document, name):
    return document.NamedRanges.getByName(name).ReferredCells


def column(document, name):
    return [row[0] for row in cells(document, name).getDataArray()]


BAD = {"picture.csv": b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" + bytes(range(256)), "zeros.csv": bytes(4096),
       "half.csv": b"PK\x03\x04\x14\0\0\0\x08\0broken", "ole.csv": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600),
       "empty.csv": b""}
LIST = "Name;Division\nÉlodie Maï;\nJosé Muñoz;\n"


@pytest.fixture(scope="module")
def event():
    """An example event, the same for all cases that leave it as it is."""
    with private_office() as office:
        yield office, office.open(EXAMPLE)


def bad_list(name):
    """A file that is no list; what kind of file its name says."""
    path = WORK / name
    path.unlink(missing_ok=True) if path.is_symlink() or not path.is_dir() else path.rmdir()
    if name in BAD:
        path.write_bytes(BAD[name])
    elif name == "folder.csv":
        path.mkdir()
    elif name == "loop.csv":
        path.symlink_to(path)
    elif name == "closed.csv":
        if os.geteuid() == 0:
            pytest.skip("root may read any file")
        path.write_text(LIST)
        path.chmod(0)
    return path


@pytest.mark.parametrize("command", ("add-athletes", "bring-tests"))
@pytest.mark.parametrize("name", (*BAD, "folder.csv", "loop.csv", "missing.csv", "closed.csv"))
def test_no_list(event, name, command):
    """Files that are no lists, for the two commands that read some: a sentence, and the sheets stay as they were."""
    office, document = event
    columns = ("roster_name", "roster_division", "tests_name")
    before = [column(document, name) for name in columns]
    refused(name, run(office, document, command, File=str(bad_list(name))))
    assert [column(document, name) for name in columns] == before
    assert list(document.UndoManager.AllUndoActionTitles) == []
    assert len(list(office.desktop.Components)) == 1, "nothing is left open"


@pytest.mark.parametrize("encoding, mark", (("utf-16-le", b"\xff\xfe"), ("utf-16-be", b"\xfe\xff"), ("utf-8", b"\xef\xbb\xbf")))
def test_list_in_another_encoding(event, encoding, mark):
    office, document = event
    people = sum(1 for name in column(document, "roster_name") if name)
    (WORK / "list.csv").write_bytes(mark + LIST.encode(encoding))
    done, said = run(office, document, "add-athletes", File=str(WORK / "list.csv"))
    assert done, said
    assert column(document, "roster_name")[people:people + 3] == ["Élodie Maï", "José Muñoz", ""]
    document.UndoManager.undo()
    document.UndoManager.clear()


def test_package_without_its_workbooks():
    with private_office("en-GB") as office:
        document = office.new()
        folder = next((office.workdir / "packages").rglob("*.oxt/templates"))
        away = folder.with_name("templates-away")
        folder.rename(away)
        try:
            for command in ("new-event", "new-roster", "new-wall"):
                refused(f"{command} without its workbook", run(office, document, command), "Please reinstall it")
            assert len(list(office.desktop.Components)) == 1, "nothing is left open"
        finally:
            away.rename(folder)
        for command in ("new-roster", "new-wall"):
            assert run(office, document, command) == (True, "")


def empty_folder(name):
    folder = WORK / name
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    return folder


def test_source_open_elsewhere(office):
    """It is read, and neither it nor its lock is touched."""
    document, file = office.open(EXAMPLE), empty_folder("locked") / "tests.ods"
    tests = tests_workbook(office)
    cells(tests, "tests_name").getCellByPosition(0, 0).String = "Nobody Known"
    cells(tests, "tests_row").getCellByPosition(0, 0).Value = 230
    save(tests, file)
    theirs, content = lock(file), file.read_bytes()
    done, said = run(office, document, "bring-tests", File=str(file))
    assert done and "1 not on the roster" in said, said
    assert (file.read_bytes() == content, theirs.exists()) == (True, True)


def writers(folder):
    """Every command that writes files, into this folder."""
    return [("share", {"File": (folder / "values.ods").as_uri()}), ("share", {"File": (folder / "values.xlsx").as_uri()}),
            ("share", {"File": (folder / "values.pdf").as_uri()}), ("cards", {"File": (folder / "cards.pdf").as_uri()}),
            ("cards", {"Files": "each", "Folder": folder.as_uri()}), ("loads", {"File": (folder / "loads.pdf").as_uri(), "Who": "all"}),
            ("print-pack", {"File": (folder / "pack.pdf").as_uri()}),
            ("copy-without-people", {"File": (folder / "nobody.ods").as_uri()}),
            ("new-logbook", {"File": (folder / "Logbook.ods").as_uri(), "Another": "true"}),
            ("test-day", {"File": (folder / "day.ods").as_uri(), "Names": PERSON, "Tests": "Rower 10:00"}),
            ("person-page", {"File": (folder / "person.pdf").as_uri(), "Name": PERSON}),
            ("person-page", {"File": (folder / "person.ods").as_uri(), "Name": PERSON})]


def properties_of(document):
    """What the workbook remembers of its last print, among others."""
    return {item.Name: item.Value for item in document.DocumentProperties.UserDefinedProperties.PropertyValues}


def small_workbook(office):
    document = office.new()
    document.Sheets[0].getCellRangeByName("A1:C50").setFormulaArray([["=ROW()", '=CLOCK.TEXT("2:30")', "text"]] * 50)
    return document


@pytest.fixture
def gym(office):
    """A logbook, and the document that each command writes from."""
    place = new_logbook(office, WORK / "gym", people=[{"name": PERSON}])
    document, small = office.open(EXAMPLE), small_workbook(office)
    return place, {command: document if command in ("cards", "loads", "print-pack", "copy-without-people") else small
                   for command, _ in writers(WORK)}


@pytest.fixture
def sources(office, gym):
    """Those documents; they stay as they are, and nothing else is left open."""
    place, documents = gym
    document, small = documents["cards"], documents["share"]
    before, modified, known = column(document, "roster_name"), document.isModified(), properties_of(document)
    opened = len(list(office.desktop.Components))
    yield documents
    assert (column(document, "roster_name"), document.isModified(), properties_of(document)) == (before, modified, known)
    assert len(list(office.desktop.Components)) == opened
    done, said = run(office, small, "person-page", Name=PERSON, File=str(WORK / "gym" / "page.ods"))
    assert done and contents(office, place, "people"), "the logbook is the one that was there"


def test_target_open_elsewhere(office, gym):
    """Whatever is written there stays as it is; once it is closed, it is written."""
    folder = empty_folder("locked")
    for command, arguments in writers(folder):
        if command == "new-logbook":  # writes over no file, open or not
            continue
        write = lambda: run(office, gym[1][command], command, Overwrite="true", **arguments)
        if "File" in arguments:
            file = folder / unquote(arguments["File"]).rsplit("/", 1)[1]
        else:  # one for each, the last of them
            done, said = write()
            assert done, said
            file = sorted(folder.iterdir())[-1]
        before = {one.name: one.read_bytes() for one in folder.iterdir()} | {file.name: b"theirs"}
        file.write_bytes(b"theirs")
        theirs = lock(file)
        before[theirs.name] = theirs.read_bytes()
        refused(f"{command} {arguments}", write(), "is open elsewhere")
        assert {one.name: one.read_bytes() for one in folder.iterdir()} == before
        theirs.unlink()
        done, said = write()
        assert done, said
        assert file.read_bytes() != b"theirs"
        assert {one.name for one in folder.iterdir()} == before.keys() - {theirs.name}, "nothing unfinished is left"
        for one in folder.iterdir():
            one.unlink()


def test_full_disk(office, sources):
    folder = WORK / "full"
    with disk(folder, "size=64k"):
        for name in ("values.ods", "cards.pdf"):
            (folder / name).write_bytes(name.encode())
        fill(folder / "rest")
        for command, arguments in writers(folder):
            refused(f"{command} {arguments}", run(office, sources[command], command, Overwrite="true", **arguments), "space")
        assert {file.name: file.read_bytes() for file in folder.iterdir() if file.name != "rest"} == {
            name: name.encode() for name in ("values.ods", "cards.pdf")}, "what was there is there, and nothing else"


def test_read_only_folder(office, sources):
    folder = WORK / "read-only"
    with disk(folder, "ro,size=64k") if os.geteuid() == 0 else closed(folder):
        for command, arguments in writers(folder):
            refused(f"{command} {arguments}", run(office, sources[command], command, **arguments), "writable")
        assert list(folder.iterdir()) == []


@contextmanager
def closed(folder):
    folder.mkdir(exist_ok=True)
    folder.chmod(0o500)
    try:
        yield
    finally:
        folder.chmod(0o700)


def whole(pdf):
    return subprocess.run(["pdftotext", pdf, "-"], capture_output=True).returncode == 0


def many(office, count):
    document = office.open(EXAMPLE)
    for name in ("name", "division", "plan", "group", "goal"):
        cells(document, f"roster_{name}").clearContents(1 | 2 | 4)
    run(office, document, "add-athletes", List="\n".join(f"Athlete {i:03};scaled, women" for i in range(1, count + 1)))
    return document


def killed_while_writing(arguments, there):
    """Writes 200 cards and kills the office as soon as there() says so; whether it was still at work."""
    with private_office() as office:
        document = many(office, 200)
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


def test_killed_while_it_writes_one_file():
    """No half file under a final name; afterwards the same works."""
    one = empty_folder("killed") / "all.pdf"
    one.write_bytes(b"what was there before")
    part = one.with_name("all.pdf.part")  # is there for a moment, which a busy machine may miss
    assert any(killed_while_writing({"File": one.as_uri(), "Overwrite": "true"}, part.exists) for _ in range(5))
    assert one.read_bytes() == b"what was there before" or whole(one)
    # the office writes into a file lu….tmp of its own first, which a killed one leaves
    left = {file.name for file in one.parent.iterdir() if re.fullmatch(r"lu\w+\.tmp", file.name)}
    with private_office() as office:
        done, said = run(office, many(office, 20), "cards", File=one.as_uri(), Overwrite="true")
        assert done, said
    assert whole(one)
    assert {file.name for file in one.parent.iterdir()} == left | {one.name}, "nothing of ours is left"


def test_killed_while_it_writes_many_files():
    """Every file with a final name is whole; afterwards the same works."""
    each = empty_folder("killed-each")
    assert killed_while_writing({"Files": "each", "Folder": each.as_uri()}, lambda: len(list(each.glob("*.pdf"))) >= 5)
    assert [file.name for file in each.glob("*.pdf") if not whole(file)] == []
    assert 5 <= len(list(each.glob("*.pdf"))) < 200
    with private_office() as office:
        done, said = run(office, many(office, 20), "cards", Files="each", Folder=each.as_uri(), Overwrite="true")
        assert done, said
    assert [file.name for file in each.glob("*.part") if file.name.split(".")[0] <= "Athlete 020"] == []


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


WORKBOOKS = {"rounds": EXAMPLE, "wall": TEMPLATES / "wall.ots"}


@pytest.mark.parametrize("name", WORKBOOKS)
def test_csv_holds_every_value(office, name):
    document = office.open(WORKBOOKS[name])
    recalculate(document)
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
        used = cursor.RangeAddress
        for y, texts in enumerate(sharing.shown(sheet.getCellRangeByPosition(0, 0, min(19, used.EndColumn), min(24, used.EndRow)))):
            for x, text in enumerate(texts):
                there = rows[y][x] if y < len(rows) and x < len(rows[y]) else ""
                if text != there:
                    lost.append((y, x, text, there))
        assert lost[:3] == [], sheet.Name


@pytest.mark.parametrize("name", WORKBOOKS)
def test_xls_holds_the_values_of_a_shared_copy(office, name):
    document = office.open(WORKBOOKS[name])
    recalculate(document)
    copy = WORK / f"{name}-values.ods"
    done, said = run(office, document, "share", Overwrite="true", File=copy.as_uri())
    assert done, said
    values = office.open(copy)
    save(values, WORK / f"{name}.xls")
    assert differences(shown(office.open(WORK / f"{name}.xls")), shown(values)) == []


@pytest.mark.parametrize("name, ending", (("rounds", "ods"), ("wall", "ods"), ("wall", "xlsx")))
def test_through_an_office_without_us(name, ending):
    """Formulas and values are there again."""
    there, back = WORK / f"{name}.{ending}", WORK / f"{name}-passed-on.{ending}"
    with private_office() as office:
        document = office.open(WORKBOOKS[name])
        recalculate(document)
        values, count = shown(document), formulas(document)
        save(document, there)
    with shared([], "without") as office:
        office.open(there).storeToURL(back.as_uri(), named(FilterName=FILTERS[ending], Overwrite=True))
    with private_office() as office:
        document = office.open(back)
        recalculate(document)
        assert formulas(document) == count
        assert differences(shown(document), values) == []


def glob_safe(name):
    return re.sub(r"[\[\]*?]", "?", name)
