"""Every command that writes into the logbook: on a disk that fills up, while somebody else has it open, and in an office that
is killed while it writes.

At every moment the file, or the dated copy made before the first change, is whole; and what a command could not save is said
in words and is not in the file. Full disks are mounted for the purpose, which only root can do.
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
from disks import disk, fill, lock
from logbook_kit import TODAY, contents, copies, new_logbook, until_kept
from office import save
from sharing import BUILD, OXT, folder_of

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"
SEEN = ("people", "results", "tests", "season")
ONE, OTHER = "Mara Lindqvarn", "Teo Osterby"
TABLES = {"people": [{"name": ONE}, {"name": OTHER}],
          "events": [{"date": TODAY - 9, "event": "Low tide", "format": "AMRAP", "season": "yes"}],
          "results": [{"name": ONE, "date": TODAY - 9, "event": "Low tide", "division": "scaled", "score": 201}]}
COMMANDS = {"results-to-logbook": {}, "import-to-logbook": {"File": "event.ods"}, "take-tests": {"File": "day.ods"},
            "season": {}, "forget-person": {"Name": ONE, "Delete": "true"}}


@pytest.fixture(scope="module", autouse=True)
def sources():
    """What the commands bring into the logbook: an event with results, and a test day."""
    folder = WORK / "sources"
    shutil.rmtree(folder, ignore_errors=True)
    with private_office() as office:
        new_logbook(office, folder, **TABLES)
        event = office.open(BUILD / "examples" / "rounds.ots", AsTemplate=True)
        event.calculateAll()
        save(event, folder / "event.ods")
        done, said = run(office, office.new(), "test-day", File=str(folder / "day.ods"), Names=ONE, Tests="Rower 3:00")
        assert done, said
        day = office.open(folder / "day.ods")
        cells = day.NamedRanges.getByName("day_tests").ReferredCells
        cells.getCellByPosition(cells.getDataArray()[0].index("watts"), 2).Value = 300
        day.store()


class Gym:
    """A logbook in a folder."""

    def __init__(self, office, folder):
        self.office, self.sources = office, WORK / "sources"
        self.place = new_logbook(office, folder, **TABLES)

    def run(self, command):
        arguments = {key: str(self.sources / value) if key == "File" else value for key, value in COMMANDS[command].items()}
        event = self.sources / "event.ods"
        document = self.office.open(event) if command == "results-to-logbook" else self.office.new()
        try:
            return run(self.office, document, command, **arguments)
        finally:
            document.close(True)

    def seen(self, file=None):
        """What the logbook holds, or another file of its kind; nothing where that is not whole."""
        try:
            return contents(self.office, file or self.place, *SEEN)
        except Exception:  # the office cannot open it
            return None


def leave(folder, room):
    """A disk with no more room than that."""
    rest = folder / "rest"
    fill(rest)
    os.truncate(rest, max(0, rest.stat().st_size - room))


@pytest.mark.parametrize("command", COMMANDS)
def test_full_disk(office, command):
    """With room for nothing, for the office's lock, for the copy; and at last with enough."""
    folder = WORK / "full"
    with disk(folder, "size=4m"):
        gym = Gym(office, folder / "gym")
        before, size = gym.seen(), gym.place.stat().st_size
        refusals = []
        for room in (0, 4096, size + 8192):
            for copy in copies(gym.place):
                (gym.place.with_suffix(".copies") / copy).unlink()
            leave(folder, room)
            done, said = gym.run(command)
            (folder / "rest").unlink()
            if done:  # forgetting makes no copy
                break
            refusals.append(said)
            assert gym.seen() == before, f"{room} bytes of room: as before"
            assert [file.name for file in gym.place.parent.glob(".~lock*")] == [], "no lock is left"
        assert len(refusals) == (2 if command == "forget-person" else 3)
        assert [said for said in refusals if "has space" not in said and "No copy of the logbook" not in said] == []
        done, said = (done, said) if done else gym.run(command)
        assert done, said
        assert gym.seen() != before


@pytest.mark.parametrize("command", COMMANDS)
def test_open_elsewhere(office, command):
    gym = Gym(office, WORK / "locked")
    before, theirs = gym.seen(), lock(gym.place)
    content, locked = gym.place.read_bytes(), theirs.read_bytes()
    done, said = gym.run(command)
    assert not done and "is open elsewhere" in said, said
    assert (gym.place.read_bytes(), theirs.read_bytes(), copies(gym.place)) == (content, locked, [])
    theirs.unlink()
    done, said = gym.run(command)
    assert done, said
    assert gym.seen() != before


def killed(office, command):
    """Kills the office as soon as the command writes: the dated copy is whole or, where none is made, something is new."""
    gym = Gym(office, WORK / "killed")
    until_kept(office, gym.place)
    gym.before, gym.lock = gym.seen(), gym.place.with_name(f".~lock.{gym.place.name}#")
    folder, bytes_before = gym.place.with_suffix(".copies"), gym.place.read_bytes()

    def writes():
        if command == "forget-person":
            return set(gym.place.parent.iterdir()) - {gym.place, gym.lock} or gym.place.read_bytes() != bytes_before
        return any(zipfile.is_zipfile(folder / name) for name in copies(gym.place))

    writing = threading.Thread(target=lambda: swallow(lambda: gym.run(command)), daemon=True)
    writing.start()
    deadline = time.monotonic() + 60
    while not writes():
        assert writing.is_alive() and time.monotonic() < deadline
        time.sleep(0.001)
    os.killpg(office.process.pid, signal.SIGKILL)
    office.process.wait()
    writing.join(30)
    return gym


def again(office, gym, command):
    """In the next office: the logbook is whole, or its copy is; the same command then does its work."""
    gym.office = office
    gym.lock.unlink(missing_ok=True)  # the office asks about a lock of its own
    safe = [gym.place.with_suffix(".copies") / name for name in copies(gym.place)]
    check(f"{command}: the copy is whole", [gym.seen(copy) == gym.before for copy in safe], [True] * (command != "forget-person"))
    if gym.seen() is None and safe:  # a person takes the copy, as the refusal says
        shutil.copy(safe[0], gym.place)
    done, said = gym.run(command)
    check(f"{command}: {said}", done or command == "forget-person")  # who is gone already
    check(f"{command}: is done", gym.seen() not in (None, gym.before))


def test_killed_while_it_writes():
    """Results: logbook_safe_test.py, which has more moments."""
    gym = before = None
    for command in ("import-to-logbook", "take-tests", "season", "forget-person", None):
        with private_office() as office:
            if gym:
                again(office, gym, before)
            gym, before = killed(office, command) if command else None, command
