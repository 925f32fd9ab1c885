"""What can happen to the logbook's file: a password, half a file, an office that is killed while it writes; and undo.

Uses BUILD/pacecells.oxt, its templates and BUILD/examples.
"""

import os
import shutil
import signal
import threading
import time
import zipfile

import pytest
from commands import private_office, run, swallow
from compare import check
from event_cells import by_key
from logbook_kit import TODAY, area, contents, copies, fill, new_logbook, rows_of, to_logbook
from sharing import BUILD, OXT, folder_of

from office import named  # isort: skip

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"
PASSWORD = "tide and ebb"
PEOPLE = [{"name": "Mara Lindqvarn"}, {"name": "Teo Osterby"}]


def made(office, folder):
    return new_logbook(office, WORK / folder, people=PEOPLE)


def example(office):
    document = office.open(BUILD / "examples" / "rounds.ots", AsTemplate=True)
    document.calculateAll()
    return document


def parts_of(file):
    with zipfile.ZipFile(file) as package:
        return {name: package.read(name) for name in package.namelist()}


def encrypt(office, place):
    """Gives the logbook a password."""
    book = office.open(place)
    book.storeToURL(place.with_name("secret.ods").as_uri(), named(FilterName="calc8", Password=PASSWORD))
    book.close(True)
    place.with_name("secret.ods").replace(place)


def with_password(office, file, **properties):
    return office.desktop.loadComponentFromURL(file.as_uri(), "_blank", 0, named(Password=PASSWORD, **properties))


def is_encrypted(file):
    parts = parts_of(file)
    return b"encryption-data" in parts["META-INF/manifest.xml"] and not any(b"Lindqvarn" in part for part in parts.values())


def cannot_be_opened(place):
    return (False, f"{place} cannot be opened: it has a password, or it is damaged. Dated copies of the last 30 days are in "
                   f"{place.with_suffix('.copies')}.")


def test_a_password(office):
    """Who has not typed it is refused; where the logbook is open, commands write into it, and file and copies keep it."""
    place = made(office, "password")
    encrypt(office, place)
    assert is_encrypted(place)
    event, before = example(office), place.read_bytes()
    check("without it", to_logbook(office, event), cannot_be_opened(place))
    check("nothing was written", (place.read_bytes() == before, copies(place)), (True, []))
    book = with_password(office, place)
    done, said = to_logbook(office, event)
    check("open, with it", (done, len(rows_of(book, "results"))), (True, 23))
    book.close(True)
    check("file and copy keep it", [is_encrypted(file) for file in (place, *place.with_suffix(".copies").glob("*"))], [True, True])


def test_a_password_does_not_keep_the_forgotten(office):
    """Copies with the logbook's password lose the person too, and keep the password."""
    place = made(office, "forgotten")
    encrypt(office, place)
    book = with_password(office, place, Hidden=True)
    to_logbook(office, example(office))
    done, said = run(office, office.new(), "forget-person", Name="mara lindqvarn", Delete="true")
    check("forgotten", (done, "delete it yourself" in said), (True, False))
    book.close(True)
    files = [place, *place.with_suffix(".copies").glob("*")]
    check("a copy is there", len(files), 2)
    for file in files:
        check(f"{file.name} is encrypted", is_encrypted(file), True)
        book = with_password(office, file, Hidden=True)
        check(f"and {file.name} has only the other", [row["name"] for row in rows_of(book, "people")][:1], ["Teo Osterby"])
        book.close(True)


def test_half_a_file(office):
    """A file that was cut short is refused in words and left as it is; the dated copy is there to go back to."""
    place, event = made(office, "half"), example(office)
    done, said = to_logbook(office, event)
    assert done, said
    whole = place.read_bytes()
    place.write_bytes(whole[:len(whole) // 2])
    half = place.read_bytes()
    check("refused", to_logbook(office, event), cannot_be_opened(place))
    check("left as it is", (place.read_bytes() == half, len(copies(place))), (True, 1))
    shutil.copy(place.with_suffix(".copies") / copies(place)[0], place)
    done, said = to_logbook(office, event)
    check("the copy goes on", (done, len(contents(office, place, "results"))), (True, 23))


def test_killed_while_it_writes():
    """Killed at any moment after the copy: the logbook is as before or as after, or the copy is as before."""
    for moment in (0, 0.05, 0.15, 0.3):
        with private_office() as office:
            place, event = made(office, "killed"), example(office)
            writing = threading.Thread(target=lambda: swallow(lambda: to_logbook(office, event)), daemon=True)
            writing.start()
            deadline = time.monotonic() + 60
            while not copies_whole(place) and writing.is_alive() and time.monotonic() < deadline:
                time.sleep(0.001)
            time.sleep(moment)  # on purpose: another moment each time
            os.killpg(office.process.pid, signal.SIGKILL)
            office.process.wait()
            writing.join(30)
        place.with_name(f".~lock.{place.name}#").unlink(missing_ok=True)  # the office asks about a lock of its own
        with private_office() as office:
            safe = place.with_suffix(".copies") / copies(place)[0]
            found = [results_in(office, file) for file in (place, safe)]
            check(f"after {moment} s: the file or the copy, whole", (found[0] in (0, 23) or found[1] == 0, found[1]), (True, 0))


def copies_whole(place):
    return any(zipfile.is_zipfile(place.with_suffix(".copies") / name) for name in copies(place))


def results_in(office, file):
    """How many results a logbook holds; nothing where it cannot be read."""
    try:
        return len(contents(office, file, "results"))
    except Exception:
        return None


def test_tests_taken_are_undone_in_one_step(office):
    place = made(office, "undo")
    file = place.with_name("day.ods")
    done, said = run(office, office.new(), "test-day", Tests="Rower 3:00", File=str(file))
    assert done, said
    day = office.open(file)
    cells = area(day, "day_tests")
    place_of = {key: number for number, key in enumerate(cells.getDataArray()[0])}
    for row in (2, 3):
        cells.getCellByPosition(place_of["calories"], row).setValue(50 + row)
    day.store()
    day.close(True)
    book = office.open(place)
    before = rows_of(book, "tests")
    book.UndoManager.clear()
    done, said = run(office, office.new(), "take-tests", File=str(file))
    check("taken", (done, len(rows_of(book, "tests"))), (True, len(before) + 2))
    check("one step", len(book.UndoManager.AllUndoActionTitles), 1)
    book.UndoManager.undo()
    check("undone", rows_of(book, "tests"), before)


def test_a_season_is_undone_in_one_step(office):
    place = made(office, "season")
    fill(office, place, events=[{"date": TODAY - 9, "event": "First tide", "season": "yes"}],
         results=[{"name": person["name"], "date": TODAY - 9, "event": "First tide", "division": "scaled", "score": 200 + k, "place": 2 - k}
                  for k, person in enumerate(PEOPLE)])
    book = office.open(place)
    before = rows_of(book, "season")
    book.UndoManager.clear()
    done, said = run(office, office.new(), "season")
    check("added up", (done, len(rows_of(book, "season"))), (True, 2))
    check("one step", len(book.UndoManager.AllUndoActionTitles), 1)
    book.UndoManager.undo()
    check("undone", rows_of(book, "season"), before)
