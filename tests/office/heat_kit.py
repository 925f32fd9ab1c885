"""The heat day in the real office: keys sent to its window at known times, and what the sheet then holds.

Uses BUILD/pacecells.oxt and the example events of BUILD/examples, on an X server of its own. Times come from the
same clock of the computer that the office reads; how long the X server took to press a key is not held against the
office. Nothing is waited for by a fixed time: `eventually` asks until it is so. PACECELLS_TEST_SEED repeats a run.
"""

import ctypes
import os
import random
import shutil
import signal
import subprocess
import sys
import time
from contextlib import contextmanager

import pytest
import sharing
from compare import failed
from sharing import BUILD, OXT

os.environ.setdefault("SAL_USE_VCLPLUGIN", "gen")  # or gtk3, where it is installed
os.environ.update(NO_AT_BRIDGE="1", GSETTINGS_BACKEND="memory")  # GTK would wait for a desktop that is not there

SEED = int(os.environ.get("PACECELLS_TEST_SEED", random.randrange(10**6)))
NEAR = float(os.environ.get("PACECELLS_NEAR", 0.050))  # seconds between a key and its stamp
QUIET = 1.05  # a key is heard again after a second, by the times of the keys
WRITTEN = ("clocks", "stamps", "partial", "finish", "left", "tiebreak", "out")


def check(what, good, detail=""):
    """Goes on after a failure: conftest.py makes the case fail at its end."""
    if not good:
        failed.append(f"{what}: {detail}")


def eventually(what, condition, detail=lambda: "", limit=30):
    """Checks that it becomes true."""
    end = time.monotonic() + limit
    while not (good := condition()) and time.monotonic() < end:
        time.sleep(0.02)
    check(what, good, "" if good else detail())
    return good


def now():
    return time.clock_gettime(time.CLOCK_BOOTTIME)


class Moment:
    """Somewhere between two readings of a clock."""

    def __init__(self, early, late):
        self.early, self.late = early, late

    def __add__(self, seconds):
        return Moment(self.early + seconds, self.late + seconds)

    def __sub__(self, other):
        if isinstance(other, Moment):
            return Moment(self.early - other.late, self.late - other.early)
        return self + -other

    def __mul__(self, speed):
        return Moment(self.early * speed, self.late * speed)

    def __repr__(self):
        return f"{self.early:.3f} to {self.late:.3f}"

    def off(self, clock):
        """How far a clock is from it; 0 within."""
        return clock - min(max(clock, self.early), self.late)

    def near(self, clock):
        return abs(self.off(clock)) <= NEAR


def of_day(at, shift=0):
    """The time of day, in seconds, at a reading of now(); on a clock set that much forward."""
    local = time.localtime(time.time() + at - now() + shift)
    return 3600 * local.tm_hour + 60 * local.tm_min + local.tm_sec


def beside(stamp, wanted):
    """How far a time of day on the sheet is from the wanted one, across midnight too."""
    return abs((stamp * 86400 - wanted + 43200) % 86400 - 43200)


class Screen:
    """An X server of its own, with screens of these widths beside each other, and keys pressed on it."""

    def __init__(self, *widths):
        reading, writing = os.pipe()
        self.server = subprocess.Popen(["Xvfb", "-displayfd", str(writing), "-noreset", "-screen", "0",
                                        f"{sum(widths) or 1366}x768x24"], pass_fds=[writing], stderr=subprocess.DEVNULL)
        os.close(writing)
        self.name = ":" + os.fdopen(reading).readline().strip()
        self.x, self.test = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXtst.so.6")
        self.x.XOpenDisplay.restype = ctypes.c_void_p
        self.x.XStringToKeysym.restype = ctypes.c_ulong
        self.display = ctypes.c_void_p(self.x.XOpenDisplay(self.name.encode()))
        self.last = None, 0
        self._divide(widths)

    def _divide(self, widths):
        """Makes monitors of the one screen; the first takes the server's own output."""
        class Monitor(ctypes.Structure):
            _fields_ = [("name", ctypes.c_ulong), ("primary", ctypes.c_int), ("automatic", ctypes.c_int),
                        ("count", ctypes.c_int), *((name, ctypes.c_int) for name in ("x", "y", "w", "h", "mw", "mh")),
                        ("outputs", ctypes.POINTER(ctypes.c_ulong))]

        class Resources(ctypes.Structure):
            _fields_ = [("times", ctypes.c_ulong * 2), ("crtcs", ctypes.c_int), ("crtc", ctypes.c_void_p),
                        ("count", ctypes.c_int), ("outputs", ctypes.POINTER(ctypes.c_ulong))]

        if not widths:
            return
        randr = ctypes.CDLL("libXrandr.so.2")
        randr.XRRGetScreenResources.restype = ctypes.POINTER(Resources)
        self.x.XDefaultRootWindow.restype = self.x.XInternAtom.restype = ctypes.c_ulong
        root = ctypes.c_ulong(self.x.XDefaultRootWindow(self.display))
        outputs = randr.XRRGetScreenResources(self.display, root).contents.outputs
        for number, width in enumerate(widths):
            name = self.x.XInternAtom(self.display, f"part {number}".encode(), 0)
            monitor = Monitor(name, 0, 0, number == 0, sum(widths[:number]), 0, width, 768, width, 768, outputs)
            randr.XRRSetMonitor(self.display, root, ctypes.byref(monitor))
        self.x.XSync(self.display, 0)

    def code(self, name):
        return self.x.XKeysymToKeycode(self.display, ctypes.c_ulong(self.x.XStringToKeysym(name.encode())))

    def press(self, key, shift=False):
        """A key by name or code; when it went down: before the server had it all."""
        code = key if isinstance(key, int) else self.code(key)
        if code == self.last[0]:  # twice at once it would look like one held key
            time.sleep(max(0, self.last[1] + 0.04 - now()))
        held = self.code("Shift_L")
        if shift:
            self.test.XTestFakeKeyEvent(self.display, held, 1, 0)
        at = now()
        for down in (1, 0):
            self.test.XTestFakeKeyEvent(self.display, code, down, 0)
        if shift:
            self.test.XTestFakeKeyEvent(self.display, held, 0, 0)
        self.x.XSync(self.display, 0)
        self.last = code, now()
        return Moment(at, self.last[1])

    def type(self, text):
        for letter in text:
            self.press({":": "colon", " ": "space", "-": "minus", ">": "greater"}.get(letter, letter),
                       shift=letter in ":>")

    def click(self, x, y):
        self.test.XTestFakeMotionEvent(self.display, -1, x, y, 0)
        at = now()
        for down in (1, 0):
            self.test.XTestFakeButtonEvent(self.display, 1, down, 0)
        self.x.XSync(self.display, 0)
        return Moment(at, now())

    def tool(self, *command):
        return subprocess.run(command, capture_output=True, text=True, env={**os.environ, "DISPLAY": self.name},
                              timeout=60).stdout

    def windows(self):
        return self.titled("Run heats")

    def titled(self, title):
        return self.tool("xdotool", "search", "--onlyvisible", "--name", f"^{title}$").split()

    def focus(self, window):
        """Keys go to that window, as a window manager would have it; until nothing takes them away."""
        def kept():
            if self.tool("xdotool", "getwindowfocus").strip() == window:
                return True
            self.tool("xdotool", "windowfocus", "--sync", window)
            return False

        eventually("the window has the keys", lambda: kept() and time.sleep(0.15) is None and kept())

    def close(self):
        self.server.terminate()
        self.server.wait()


@pytest.fixture(scope="module")
def screen():
    if not shutil.which("Xvfb") or not shutil.which("xdotool"):
        pytest.skip("no Xvfb or xdotool")
    print(f"PACECELLS_TEST_SEED={SEED}")
    made = Screen()
    yield made
    sharing.stop()  # an office does not outlive its screen
    made.close()
    with_variables({})


def close_window(screen, window_id):
    """What a window manager sends when its close button is pressed."""
    class Message(ctypes.Structure):
        _fields_ = [("type", ctypes.c_int), ("serial", ctypes.c_ulong), ("sent", ctypes.c_int),
                    ("display", ctypes.c_void_p), ("window", ctypes.c_ulong), ("kind", ctypes.c_ulong),
                    ("format", ctypes.c_int), ("data", ctypes.c_long * 5), ("rest", ctypes.c_long * 12)]
    screen.x.XInternAtom.restype = ctypes.c_ulong
    atom = lambda name: screen.x.XInternAtom(screen.display, name, 0)
    message = Message(33, 0, 1, screen.display, window_id, atom(b"WM_PROTOCOLS"), 32)
    message.data[0] = atom(b"WM_DELETE_WINDOW")
    screen.x.XSendEvent(screen.display, ctypes.c_ulong(window_id), 0, ctypes.c_long(0), ctypes.byref(message))
    screen.x.XFlush(screen.display)


class Load:
    """Other programs that want the processor."""

    def __enter__(self):
        self.busy = [subprocess.Popen([sys.executable, "-c", "while True: pass"]) for _ in range(os.cpu_count() or 2)]

    def __exit__(self, *_):
        for one in self.busy:
            one.kill()
            one.wait()


class Day:
    """An event workbook with the window of its heat day."""

    def __init__(self, office, screen, kind="rounds", file=None, prepare=None, by_itself=False):
        self.office, self.screen, self.heard = office, screen, {}
        self.document = office.open(file or BUILD / "examples" / f"{kind}.ots", hidden=False)
        if not file:
            for name in ("name", "heat", "lane", *WRITTEN):
                self.cells(f"results_{name}").clearContents(1 | 2 | 4)
        if prepare:
            prepare(self)
        self.document.calculateAll()
        self.show_sheet("results_name")
        self.open(by_itself)

    def open(self, by_itself=False):
        before = self.screen.windows()
        if not by_itself:
            self.office.dispatch(self.document, "vnd.org.pacecells:heat-day")
        eventually("the window opens", lambda: self.screen.windows() and "|" in self.words())
        windows = self.screen.windows()
        self.screen.focus(([one for one in windows if one not in before] or windows or [""])[-1])

    def show_sheet(self, name):
        self.document.CurrentController.setActiveSheet(self.cells(name).Spreadsheet)

    def cells(self, name):
        return self.document.NamedRanges.getByName(name).ReferredCells

    def setting(self, key):
        """The cell of a setting, found by its keys."""
        block = self.cells("workout")
        values = block.getDataArray()
        column = values[[row[0] for row in values].index("pacecells.workout")].index("value")
        return block.getCellByPosition(column, [row[0] for row in values].index(key))

    def people(self):
        return [row[0] for row in self.cells("results_name").getDataArray()]

    def row(self, athlete):
        return self.people().index(athlete)

    def value(self, name, athlete, column=0):
        """A cell of somebody's row of Results; a cell far below where there is no such row."""
        row = self.row(athlete) if athlete in self.people() else 199
        return self.cells(f"results_{name}").getCellByPosition(column, row)

    def clocks(self, athlete):
        """Seconds, as the sheet holds them."""
        if athlete not in self.people():
            return []
        cells = self.cells("results_clocks").getCellRangeByPosition(0, self.row(athlete), 39, self.row(athlete))
        return [value * 86400 for value in cells.getDataArray()[0] if value != ""]

    def heat(self, number):
        return {int(lane): name for heat, lane, _, name, *_ in self.cells("heat_list").getDataArray() if heat == number}

    def words(self):
        """What the window shows; "" before it shows anything."""
        try:
            return self.office.dispatch(self.document, "vnd.org.pacecells:heat-day", Silent=True).Result or ""
        except Exception:
            return ""

    def settled(self):
        """What the window shows when for a while nothing but the clock changed."""
        last, since = None, 0
        while True:
            words = self.words()
            if last is None or words.partition("\n")[2] != last.partition("\n")[2]:
                last, since = words, time.monotonic()
            elif time.monotonic() - since > 0.3:
                return words
            time.sleep(0.05)

    def said(self):
        return self.words().split("\n")[-2]

    def question(self):
        return self.words().split("\n")[-1]

    def says(self, what, *parts):
        eventually(what, lambda: all(part in self.said() for part in parts), self.words)

    def asks(self, what, *parts):
        eventually(what, lambda: all(part in self.question() for part in parts), self.words)

    def shows(self, what, *parts):
        eventually(what, lambda: all(part in self.words() for part in parts), self.words)

    def has(self, what, athlete, count, at=None):
        """So many stamps in the sheet, the last one at that moment."""
        eventually(what, lambda: len(self.clocks(athlete)) == count, lambda: (self.clocks(athlete), self.words()))
        got = self.clocks(athlete)
        if at and len(got) == count:
            check(f"{what}: when", at.near(got[-1]), (got, at))

    def logged(self, what, names, done):
        """The last stamp of each lane is on the disk, and was not taken back since."""
        def clocks():
            kept = {}  # by name and round
            for log in sorted(logs_of(self.office).glob("*.heat")):
                for kind, *words in (line.split("\t") for line in log.read_text().splitlines() if line.count("\t") > 1):
                    if kind == "set" and words[0] == "results_clocks" and len(words) == 4:
                        kept[words[1], words[2]] = words[3] != "-"
                    elif kind == "name":
                        kept = {(words[1] if name == words[0] else name, k): there for (name, k), there in kept.items()}
            return kept

        last = [(names[lane], str(len(clocks) - 1)) for lane, clocks in done.items() if clocks]
        eventually(what, lambda: all(map(clocks().get, last)), lambda: (last, clocks()))

    def press(self, key, shift=False):
        at = self.screen.press(key, shift)
        self.heard[key, shift] = now()
        return at

    def rest(self, key, shift=False):
        """A key after it was quiet for as long as it takes to be heard again."""
        time.sleep(max(0, self.heard.get((key, shift), 0) + QUIET - now()))
        return self.press(key, shift)

    def lane(self, lane):
        return self.rest(str(lane % 10))

    def answer(self, text):
        eventually("something is asked", lambda: self.question(), self.words)
        self.screen.type(text)
        return self.press("Return")

    def running(self, clock="0:10"):
        """Starts with the clock showing that; when it showed zero."""
        self.press("r")
        self.asks("the clock is asked for", "Type what the clock will show")
        at = self.answer(clock)
        minutes, seconds = clock.split(":")
        self.shows("the clock runs", " left")
        return at - 60 * int(minutes) - int(seconds)

    def first_stamp(self):
        """Heat 1 runs and lane 1 has its first stamp: who is in which lane, and when the clock showed zero."""
        names, zero = self.heat(1), self.running()
        self.press("1")
        self.has("a stamp", names[1], 1)
        return names, zero

    def end(self):
        self.press("e")
        self.asks("the end is asked about", "End heat")
        self.press("Return")
        self.says("the end", "has ended")

    def steps(self):
        return len(self.document.UndoManager.AllUndoActionTitles)


_plain, _now = dict(os.environ), {}  # the variables of this program, and what the office that runs has beside them


def with_variables(environment):
    """Later offices have these, and no longer those of before."""
    for name in _now:
        os.environ.pop(name, None)
        if name in _plain:
            os.environ[name] = _plain[name]
    _now.clear()
    _now.update(environment)
    os.environ.update(environment)


@contextmanager
def office(screen, after_a_crash=False, **environment):
    """The office of the file; anew where it was killed, and where it wants other environment variables."""
    if environment != _now:
        sharing.stop()
        with_variables(environment)
    with sharing.shared((OXT,), display=screen.name) as running:
        if not after_a_crash:  # nobody's heat is left running
            shutil.rmtree(logs_of(running), ignore_errors=True)
        yield running


class Clocks:
    """Clocks that a test moves: `office(screen, **clocks.variables)` reads them."""

    def __init__(self, folder):
        self.file = folder / "other-time"
        self.variables = {"LD_PRELOAD": str(BUILD / "tests" / "libother_time.so"), "PACECELLS_OTHER_TIME": str(self.file)}
        self.move()

    def move(self, day=0, slept=0):
        """The time of day is set by so many seconds, and the computer has slept."""
        new = self.file.with_suffix(".new")
        new.write_text(f"{day} {slept}")
        new.rename(self.file)


def logs_of(running):
    """Where an office keeps the copies of its heats."""
    return running.workdir / "profile" / "user" / "pacecells"


def kill(running):
    os.killpg(running.process.pid, signal.SIGKILL)
    running.process.wait()


def pressed(day, lane, zero, speed=1.0):
    """Stamps a lane; when, on the heat's clock."""
    at = day.press(str(lane % 10))
    day.press("Return")  # yes, it is a round, though it is short
    return (at - zero) * speed


def play(day, zero, length, dice, speed=1.0, pause=(1.1, 6.0), most=40):
    """Random keys for so many real seconds, each lane in its own rhythm; by lane the moments expected."""
    lanes = sorted(day.heat(1))
    due = {lane: now() + dice.uniform(0.2, pause[1]) for lane in lanes}
    done, end = {lane: [] for lane in lanes}, now() + length
    while True:
        lane = min(due, key=due.get)
        if due[lane] > end:
            return done
        time.sleep(max(0, due[lane] - now()))
        if done[lane] and len(done[lane]) > 1 and dice.random() < 0.08:
            day.screen.press(str(lane % 10), shift=True)
            done[lane].pop()
        elif len(done[lane]) < most:
            done[lane].append(pressed(day, lane, zero, speed))
        due[lane] = now() + dice.uniform(*pause)


def off_at(day, done, speed):
    """How far off each stamp is, in real seconds, and the clock it belongs to."""
    return [(moment.off(clock) / speed, moment.late)
            for lane, name in day.heat(1).items() for clock, moment in zip(day.clocks(name), done[lane])]


def compare(what, day, done, speed=1.0, near=NEAR):
    """Each clock of the sheet against the key; prints how far off they are."""
    for lane, name in day.heat(1).items():
        day.has(f"{what}: lane {lane} has all its stamps", name, len(done[lane]))
    off = [error for error, _ in off_at(day, done, speed)]
    if off:
        check(f"{what}: every stamp within {1000 * near:.0f} ms", max(map(abs, off)) <= near, max(off, key=abs))
        print(f"{what}: {len(off)} stamps, off by {1000 * min(off):+.1f} to {1000 * max(off):+.1f} ms, "
              f"mean {1000 * sum(off) / len(off):+.1f} ms", flush=True)
    return off


def outlook(what, day):
    """The window's projection is the sheet's, for each lane with a goal."""
    rows = [line.split(" | ") for line in day.settled().split("\n")[1:] if line.count(" | ") == 5]
    check(f"{what}: a row for each lane", len(rows) == len(day.heat(1)), rows)
    scratch = day.document.Sheets.getByIndex(day.document.Sheets.Count - 1).getCellByPosition(200, 0)
    for lane, name, shown, _, expected, _ in rows:
        if " by " not in shown:
            continue  # without a goal the sheet takes the mean round for the plan
        row = day.row(name)
        table = day.cells("results")
        keys = table.getDataArray()[0]
        reps, division = (table.getCellByPosition(keys.index(key), row + 2).AbsoluteName for key in ("expected", "division"))
        scratch.Formula = f"=SCORE.TEXT({reps};WORKOUT.REPS(workout;{division}))"
        check(f"{what}: projection of lane {lane}", expected and expected == scratch.String,
              f"{expected!r}, sheet {scratch.String!r}")
    scratch.Formula = ""
