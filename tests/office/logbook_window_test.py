"""The logbook's windows on a screen: results taken over person by person, with keyboard and mouse; a logbook that has a
password, asked for by the office's own window; half a file; movements completed as they are typed.

Uses BUILD/pacecells.oxt, BUILD/examples, Xvfb and xdotool. Leaves pictures to look at.
"""

import time

import pytest
from commands import run
from compare import check
from event_cells import by_key
from logbook_kit import contents, copies, new_logbook, to_logbook
from logbook_safe_test import PASSWORD, encrypt, is_encrypted
from office import save
from sharing import BUILD, OXT, folder_of, shared
from windows_kit import Calc

SCREEN = "1366x768"
WORK = folder_of(__file__)
RESULTS, ASKED, SAID = "Results to the logbook", "Enter Password|Password Protection", "^Pacecells$"


class Coach(Calc):
    """Somebody at the keyboard, with several workbooks open."""

    front = "LibreOffice Calc"

    def focus(self):
        for command in ("windowraise", "windowfocus"):
            self.run("xdotool", command, self.windows(self.front)[0])
        time.sleep(0.3)

    def until(self, what, condition, limit=30):
        end = time.monotonic() + limit
        while not condition():
            assert time.monotonic() < end, what
            time.sleep(0.05)

    def appears(self, title):
        assert self.wait(title, limit=30) is not None, title

    def answer(self, title, *keys):
        """Keys into a window that appears, which they close."""
        self.appears(title)
        self.keys(*keys)
        assert self.wait(title, there=False, limit=30) is not None, title

    def says(self, title):
        return [part.name for part in self.parts(title)]


@pytest.fixture(scope="module")
def coach(display):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SAL_USE_VCLPLUGIN", "gen")  # looks the same on every machine, and needs no window manager
        with shared([OXT], display=display) as office:
            yield Coach(display, office, "en-US", 1, WORK)


@pytest.fixture
def place(coach, request):
    return new_logbook(coach.office, WORK / request.node.name, people=[{"name": "Mara Lindqvarn"}])


@pytest.fixture
def event(coach, place):
    """An event with 23 results, in front of the coach."""
    office, file = coach.office, place.with_name("event.ods")
    made = office.open(BUILD / "examples" / "rounds.ots", AsTemplate=True)
    made.calculateAll()
    save(made, file)
    made.close(True)
    document = office.open(file, hidden=False)
    coach.front = "event.ods"
    coach.appears("event.ods")
    yield document
    coach.front = "LibreOffice Calc"
    document.close(True)
    for other in list(office.desktop.Components):
        if other.URL == place.as_uri():
            other.close(True)


def later(event, *rows):
    """The first round of these lasts three seconds more."""
    for row in rows:
        by_key(event, "results_clocks").getCellByPosition(0, row).Value += 3 / 86400
    event.calculateAll()


def changed(office, place, before):
    """The names of those whose results are not as before, in the file."""
    return [old["name"] for old, new in zip(before, contents(office, place, "results"), strict=True) if old != new]


def test_results_are_taken_over_person_by_person(coach, place, event):
    office = coach.office
    to_logbook(office, event)
    before = contents(office, place, "results")
    names = [row["name"] for row in before]
    later(event, 0, 1, 3)
    safe = place.read_bytes()

    coach.choose("rl")
    coach.answer(RESULTS, "Escape")
    check("cancelled, nothing is written", (place.read_bytes() == safe, len(copies(place))), (True, 1))

    coach.choose("rl")
    coach.appears(RESULTS)
    check("what will happen", coach.says(RESULTS)[0], "0 new, 3 changed, 20 unchanged.")
    coach.keys("Down", "alt+y")
    coach.until("one says no", lambda: coach.says(RESULTS)[0] == "0 new, 2 changed, 20 unchanged. 1 left out.")
    coach.keys("Down", "alt+y")
    check("who is unchanged stays so", coach.says(RESULTS)[0], "0 new, 2 changed, 20 unchanged. 1 left out.")
    window = coach.windows(RESULTS)[0]
    coach.picture(window, "results, one left out")
    top = next(part for part in coach.parts(RESULTS) if part.name == "Preview").bottom
    button = next(part for part in coach.parts(RESULTS) if part.name == "Yes or no")
    row = 16  # pixels of a row of the table, below its headings
    for x, y in ((60, top + row + 3 * row + row // 2), (button.left + 20, button.top + 10)):
        coach.run("xdotool", "mousemove", "--window", window, str(x), str(y), "click", "1")
        time.sleep(0.3)
    coach.until("another by the mouse", lambda: coach.says(RESULTS)[0] == "0 new, 1 changed, 20 unchanged. 2 left out.")
    coach.picture(window, "results, two left out")
    coach.keys("alt+s")
    assert coach.wait(RESULTS, there=False) is not None
    coach.until("written", lambda: len(copies(place)) == 2 or place.read_bytes() != safe)
    book = next(other for other in office.desktop.Components if other.URL == place.as_uri())
    coach.until("stored", lambda: not book.isModified())
    check("in one step", book.UndoManager.AllUndoActionTitles[:1], (RESULTS,))
    book.close(True)
    check("the one who was left", changed(office, place, before), [names[0]])

    coach.choose("rl")
    coach.appears(RESULTS)
    check("the others are asked about again", coach.says(RESULTS)[0], "0 new, 2 changed, 21 unchanged.")
    coach.keys("alt+a")
    coach.until("nobody", lambda: coach.says(RESULTS)[0] == "0 new, 0 changed, 21 unchanged. 2 left out.")
    coach.keys("alt+a")
    coach.until("everybody", lambda: coach.says(RESULTS)[0] == "0 new, 2 changed, 21 unchanged.")
    coach.keys("Return")
    assert coach.wait(RESULTS, there=False) is not None
    book = next(other for other in office.desktop.Components if other.URL == place.as_uri())
    coach.until("stored", lambda: not book.isModified() and len(changed_in(book, before)) == 3)


def changed_in(book, before):
    cells = book.NamedRanges.getByName("logbook_results").ReferredCells
    keys, _headings, *rows = cells.getDataArray()
    return [old for old, row in zip(before, rows) if old != dict(zip(keys, row))]


def test_the_password_is_asked_for(coach, place, event):
    """By the office's own window: cancelled or mistyped, a sentence and nothing else; typed, the command goes on."""
    office = coach.office
    encrypt(office, place)
    safe = place.read_bytes()
    for keys in ("rl", "lb", "lh", "ls", "lp", "lt", "lf"):
        coach.choose(keys)
        coach.answer(ASKED, "Escape")
        coach.answer(SAID, "Return")
        check(f"{keys}: nothing is written", (place.read_bytes() == safe, copies(place)), (True, []))
    coach.choose("rl")
    coach.appears(ASKED)
    coach.picture("root", "the password")
    coach.keys("text not this one", "Return")
    coach.answer("Warning", "Return")
    coach.answer(ASKED, f"text {PASSWORD}", "Return")
    coach.appears(RESULTS)
    check("all of them", coach.says(RESULTS)[0], "23 new, 0 changed, 0 unchanged.")
    coach.picture(coach.windows(RESULTS)[0], "results, all new")
    coach.keys("Return")
    assert coach.wait(RESULTS, there=False) is not None
    book = next(other for other in office.desktop.Components if other.URL == place.as_uri())
    coach.until("written", lambda: place.read_bytes() != safe and not book.isModified())
    check("file and copy keep it", [is_encrypted(file) for file in (place, *place.with_suffix(".copies").glob("*"))], [True, True])


def test_half_a_file(coach, place, event):
    """Nothing is repaired by guess: a sentence says where the copies are, and the file stays as it is."""
    whole = place.read_bytes()
    place.write_bytes(whole[:len(whole) // 2])
    half = place.read_bytes()
    for keys in ("rl", "lb", "lh"):
        coach.choose(keys)
        coach.answer(SAID, "Return")
        check(f"{keys}: as it was", (place.read_bytes() == half, copies(place)), (True, []))


def test_a_movement_is_completed_as_it_is_typed(coach, place):
    before = {document.RuntimeUID for document in coach.office.desktop.Components}
    coach.choose("ee")
    coach.appears("New event")
    window, parts = coach.windows("New event")[0], {part.name: part for part in coach.parts("New event")}
    coach.run("xdotool", "mousemove", "--window", window, str(parts["Movement"].left + 60), str((parts["1"].top + parts["1"].bottom) // 2), "click", "1")
    coach.keys("text thru", "Tab", "alt+m")
    coach.answer(SAID, "Return")
    made = next(document for document in coach.office.desktop.Components
                if document.RuntimeUID not in before and "workout" in document.NamedRanges.ElementNames)
    check("as the logbook writes it", by_key(made, "workout.stations.movement").getDataArray()[0][0], "Thruster")
    check("with its usual seconds per rep", round(by_key(made, "workout.paces.rep_s").getDataArray()[0][0], 6), 2.4)
