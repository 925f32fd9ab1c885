"""The offices that the tests share: one runs at a time in a process, and goes on running until another is wanted."""

import json
import os
from contextlib import contextmanager
from pathlib import Path

from office import Office

ROOT = Path(__file__).resolve().parents[2]
BUILD = Path(os.environ.get("PACECELLS_BUILD", ROOT / "build" / "release")).resolve()
FUNCTIONS = BUILD / "functions.oxt"  # the cell functions alone
OXT = Path(os.environ.get("PACECELLS_OXT", BUILD / "pacecells.oxt")).resolve()  # everything
LIMIT = 600  # seconds that one case may keep an office


def catalog():
    """The cell functions."""
    return json.loads((BUILD / "generated" / "catalog.json").read_text())["functions"]


def alone(functions):
    """Those whose examples need no cells; plan_test.py has a sheet for the others."""
    return [function for function in functions if all(parameter["type"] == "any" for parameter in function["parameters"])]


_at_work = []  # the file of tests that runs: files may run beside each other, each in a folder of its own
_running = {}  # what was asked for, and the office: one entry at most


def folder_of(file):
    """Where a file of tests, given as its __file__, puts all that it makes."""
    folder = BUILD / "office-tests" / Path(file).stem
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def at_work(file):
    _at_work[:] = [file]


def alive(office):
    return office.process is not None and office.process.poll() is None


def stop():
    """Ends the office that runs, if one does."""
    while _running:
        _running.popitem()[1].stop()


@contextmanager
def shared(extensions=(OXT,), name="office", **options):
    """An office with those extensions, in a folder of that name beside the test's own; `options` are those of `Office`.

    One that runs already with the same is taken, another one is ended first. The documents opened meanwhile are closed.
    """
    folder = folder_of(_at_work[0]) / name
    wanted = (tuple(extensions), folder, repr(sorted(options.items())))
    if wanted not in _running or not alive(_running[wanted]):
        stop()
        started = Office(extensions, folder, reuse=True, **options)
        _running[wanted] = started.__enter__()
    office = _running[wanted]
    office.watch(LIMIT)
    before = {document.RuntimeUID for document in office.desktop.Components}
    try:
        yield office
    finally:
        if alive(office):
            for document in list(office.desktop.Components):
                if document.RuntimeUID not in before:
                    document.close(True)


def log():
    """The end of what the office printed that runs, or ran last; and whether it still lives."""
    for office in _running.values():
        text = (office.workdir / "office.log").read_text(errors="replace")[-3000:]
        return ("" if alive(office) else "THE OFFICE IS GONE.\n") + text
    return ""
