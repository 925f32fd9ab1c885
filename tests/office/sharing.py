"""The offices that the tests share: each goes on running until enough others were wanted after it."""

import json
import os
import time
from contextlib import contextmanager
from datetime import date, datetime, timedelta
from pathlib import Path

from office import Office

ROOT = Path(__file__).resolve().parents[2]
BUILD = Path(os.environ.get("PACECELLS_BUILD", ROOT / "build" / "release")).resolve()
FUNCTIONS = BUILD / "functions.oxt"  # the cell functions alone
OXT = Path(os.environ.get("PACECELLS_OXT", BUILD / "pacecells.oxt")).resolve()  # everything
LIMIT = 600  # seconds that one case may keep an office
MOST = 4  # offices that run at a time in a process: one for each language


def today():
    """Today, as a file of tests starts. Shortly before midnight it waits, so that the office has the same day until the end."""
    until_midnight = datetime.combine(date.today() + timedelta(1), datetime.min.time()) - datetime.now()
    if until_midnight < timedelta(minutes=2):
        time.sleep(until_midnight.total_seconds() + 1)
    return date.today()


def catalog():
    """The cell functions."""
    return json.loads((BUILD / "generated" / "catalog.json").read_text())["functions"]


def alone(functions):
    """Those whose examples need no cells; plan_test.py has a sheet for the others."""
    return [function for function in functions if all(parameter["type"] == "any" for parameter in function["parameters"])]


_at_work = []  # the file of tests that runs: files may run beside each other, each in a folder of its own
_running = {}  # what was asked for, and the office; the one used last is the last


def folder_of(file):
    """Where a file of tests, given as its __file__, puts all that it makes."""
    folder = BUILD / "office-tests" / Path(file).stem
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def at_work(file):
    _at_work[:] = [file]


def alive(office):
    return office.process is not None and office.process.poll() is None


def stop(which=lambda office: True):
    """Ends the offices that run, or those for which that is true."""
    for wanted, office in list(_running.items()):
        if which(office):
            _running.pop(wanted).stop()


@contextmanager
def shared(extensions=(OXT,), name="office", **options):
    """An office with those extensions, in a folder of that name beside the test's own; `options` are those of `Office`.

    One that runs already with the same is taken. The documents opened meanwhile are closed.
    """
    folder = folder_of(_at_work[0]) / name
    wanted = (tuple(extensions), folder, repr(sorted(options.items())))
    office = _running.pop(wanted, None)
    if office is None or not alive(office):
        office = Office(extensions, folder, reuse=True, **options)
        stop(lambda other: other.workdir == office.workdir or other.display and other.display == office.display)
        while len(_running) >= MOST:
            _running.pop(next(iter(_running))).stop()
        office.__enter__()
    _running[wanted] = office
    office.watch(LIMIT)
    before = {document.RuntimeUID for document in office.desktop.Components}
    try:
        yield office
    finally:
        if alive(office):
            for document in list(office.desktop.Components):
                if document.RuntimeUID not in before:
                    document.close(True)
            office.watch(None)


SHOWN = """
Function Shown(cells As Object) As Variant
    Dim area As Object, texts() As Variant, texts_of_row() As Variant, row As Long, column As Long
    area = cells.RangeAddress
    ReDim texts(area.EndRow - area.StartRow)
    For row = 0 To UBound(texts)
        ReDim texts_of_row(area.EndColumn - area.StartColumn)
        For column = 0 To UBound(texts_of_row)
            texts_of_row(column) = cells.getCellByPosition(column, row).String
        Next column
        texts(row) = texts_of_row
    Next row
    Shown = texts
End Function
"""


def shown(cells):
    """What the cells of a range show, as rows of texts: asked by a macro in the office that was used last, in a thirtieth of
    the time that it takes to ask for each cell from here."""
    office = next(reversed(_running.values()))
    if not hasattr(office, "shown"):
        library = office.service("com.sun.star.script.ApplicationScriptLibraryContainer").getByName("Standard")
        if library.hasByName("Cells"):
            library.removeByName("Cells")
        library.insertByName("Cells", SHOWN)
        office.shown = office.service("com.sun.star.script.provider.MasterScriptProviderFactory").createScriptProvider("") \
            .getScript("vnd.sun.star.script:Standard.Cells.Shown?language=Basic&location=application")
    return [list(row) for row in office.shown.invoke((cells,), (), ())[0]]


def log():
    """The end of what the office printed that runs, or ran last; and whether it still lives."""
    for office in reversed(_running.values()):
        text = (office.workdir / "office.log").read_text(errors="replace")[-3000:]
        return ("" if alive(office) else "THE OFFICE IS GONE.\n") + text
    return ""
