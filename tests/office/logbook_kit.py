"""The logbook in the tests: its file, its rows by key, events made from it, and results back into it."""

import datetime
import shutil
import time

from commands import run
from sharing import BUILD, today

TEMPLATES = BUILD / "templates"
TODAY = (today() - datetime.date(1899, 12, 30)).days


def area(document, name):
    return document.NamedRanges.getByName(name).ReferredCells


def rows_of(document, table):
    """The filled rows of a table, each by the keys of its columns."""
    keys, _headings, *rows = area(document, f"logbook_{table}").getDataArray()
    return [dict(zip(keys, row)) for row in rows if any(cell != "" for cell in row)]


def new_logbook(office, folder, **tables):
    """The file of a new logbook in an emptied folder, with these rows; the commands find it from then on."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    file = folder / "Logbook.ods"
    done, said = run(office, office.new(), "new-logbook", File=str(file), Another="true")
    assert done, said
    if tables:
        fill(office, file, **tables)
    return file


def until_kept(office, file):
    """Waits until the office has written where its logbook is, which it does a moment later: one that is killed before
    knows the logbook of before."""
    settings, deadline = office.workdir / "profile" / "user" / "registrymodifications.xcu", time.monotonic() + 60
    while file.as_uri() not in settings.read_text(encoding="utf-8"):
        assert time.monotonic() < deadline, f"{settings} does not name {file}"
        time.sleep(0.05)


def fill(office, file, **tables):
    """Rows into the logbook, each a dict of values by key, below those that are there."""
    book = office.open(file)
    for table, rows in tables.items():
        cells = area(book, f"logbook_{table}")
        keys = list(cells.getDataArray()[0])
        first = 2 + len(rows_of(book, table))
        for step, row in enumerate(rows):
            for key, value in row.items():
                cell = cells.getCellByPosition(keys.index(key), first + step)
                if isinstance(value, str):
                    cell.String = value
                else:
                    cell.Value = value
    book.store()
    book.close(True)


def new_event(office, **fields):
    """The workbook that the command makes, and what it said."""
    desktop = office.desktop
    before = {document.RuntimeUID for document in desktop.Components}
    done, said = run(office, office.new(), "new-event", **fields)
    assert done, said
    made = [document for document in desktop.Components
            if document.RuntimeUID not in before and "workout" in document.NamedRanges.ElementNames]
    assert len(made) == 1
    return made[0], said


def contents(office, place, *tables):
    book = office.open(place, ReadOnly=True)
    found = [rows_of(book, table) for table in tables or ("people", "results", "events", "movements")]
    book.close(True)
    return found[0] if len(tables) == 1 else found


def copies(place):
    return sorted(copy.name for copy in place.with_suffix(".copies").glob("*"))


def to_logbook(office, event, **arguments):
    return run(office, event, "results-to-logbook", **arguments)
