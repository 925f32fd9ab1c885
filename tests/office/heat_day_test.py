"""The heat day in the real office: keys sent to its window at known times, and what the sheet then holds.

Uses BUILD/pacecells.oxt and the example events of BUILD/examples, on an X server of its own. Times come from the
same clock of the computer that the office reads; how long the X server took to press a key is not held against the
office. PACECELLS_TEST_SEED repeats a run.
"""

import ctypes
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import time

import pytest
from compare import failed
from disks import disk, fill
from office import Office, result, save
from sharing import BUILD, OXT, folder_of

os.environ.setdefault("SAL_USE_VCLPLUGIN", "gen")  # or gtk3, where it is installed
os.environ.update(NO_AT_BRIDGE="1", GSETTINGS_BACKEND="memory")  # GTK would wait for a desktop that is not there

WORK = folder_of(__file__)
SEED = int(os.environ.get("PACECELLS_TEST_SEED", random.randrange(10**6)))
NEAR = float(os.environ.get("PACECELLS_NEAR", 0.050))  # seconds between a key and its stamp


def check(what, good, detail=""):
    """Goes on after a failure: conftest.py makes the case fail at its end."""
    if not good:
        failed.append(f"{what}: {detail}")


def now():
    return time.clock_gettime(time.CLOCK_BOOTTIME)


def of_day(at, shift=0):
    """The time of day, in seconds, at a reading of now(); on a clock set that much forward."""
    local = time.localtime(time.time() + at - now() + shift)
    return 3600 * local.tm_hour + 60 * local.tm_min + local.tm_sec


def beside(stamp, wanted):
    """How far a time of day on the sheet is from the wanted one, across midnight too."""
    return abs((stamp * 86400 - wanted + 43200) % 86400 - 43200)


class Screen:
    """An X server of its own, and keys pressed on it."""

    def __init__(self):
        reading, writing = os.pipe()
        self.server = subprocess.Popen(["Xvfb", "-displayfd", str(writing), "-noreset", "-screen", "0", "1366x768x24"],
                                       pass_fds=[writing], stderr=subprocess.DEVNULL)
        os.close(writing)
        self.name = ":" + os.fdopen(reading).readline().strip()
        self.x, self.test = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXtst.so.6")
        self.x.XOpenDisplay.restype = ctypes.c_void_p
        self.x.XStringToKeysym.restype = ctypes.c_ulong
        self.display = ctypes.c_void_p(self.x.XOpenDisplay(self.name.encode()))

    def code(self, name):
        return self.x.XKeysymToKeycode(self.display, ctypes.c_ulong(self.x.XStringToKeysym(name.encode())))

    def press(self, key, shift=False):
        """A key by name or code; the time just before it went down."""
        code = key if isinstance(key, int) else self.code(key)
        held = self.code("Shift_L")
        if shift:
            self.test.XTestFakeKeyEvent(self.display, held, 1, 0)
        at = now()
        for down in (1, 0):
            self.test.XTestFakeKeyEvent(self.display, code, down, 0)
        if shift:
            self.test.XTestFakeKeyEvent(self.display, held, 0, 0)
        self.x.XSync(self.display, 0)
        self.took = now() - at  # the server has it: the key went down within this time
        return at

    def type(self, text):
        for letter in text:
            self.press({":": "colon", " ": "space"}.get(letter, letter), shift=letter == ":")
            time.sleep(0.02)  # two of a letter at once look like one held key

    def click(self, x, y):
        self.test.XTestFakeMotionEvent(self.display, -1, x, y, 0)
        at = now()
        for down in (1, 0):
            self.test.XTestFakeButtonEvent(self.display, 1, down, 0)
        self.x.XFlush(self.display)
        return at

    def tool(self, *command):
        return subprocess.run(command, capture_output=True, text=True, env={**os.environ, "DISPLAY": self.name},
                              timeout=60).stdout

    def windows(self):
        return self.tool("xdotool", "search", "--onlyvisible", "--name", "^Heat day$").split()

    def close(self):
        self.server.terminate()
        self.server.wait()


@pytest.fixture
def screen():
    if not shutil.which("Xvfb") or not shutil.which("xdotool"):
        pytest.skip("no Xvfb or xdotool")
    print(f"PACECELLS_TEST_SEED={SEED}")
    made = Screen()
    yield made
    made.close()


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
        self.office, self.screen = office, screen
        self.document = office.open(file or BUILD / "examples" / f"{kind}.ots", hidden=False)
        if not file:
            for name in ("clocks", "stamps", "partial", "finish", "left", "tiebreak", "out"):
                self.cells(f"day_{name}").clearContents(1 | 2 | 4)
        if prepare:
            prepare(self)
        self.document.calculateAll()
        self.show_sheet("day_name")
        self.open(by_itself)

    def open(self, by_itself=False):
        if not by_itself:
            self.office.dispatch(self.document, "vnd.org.pacecells:heat-day")
        deadline = time.time() + 30
        while not self.screen.windows() and time.time() < deadline:
            time.sleep(0.1)
        time.sleep(1)
        if os.environ["SAL_USE_VCLPLUGIN"] == "gtk3":  # there is no window manager to do it
            self.screen.tool("xdotool", "windowfocus", self.screen.windows()[-1])
            time.sleep(0.5)

    def show_sheet(self, name):
        self.document.CurrentController.setActiveSheet(self.cells(name).Spreadsheet)

    def cells(self, name):
        return self.document.NamedRanges.getByName(name).ReferredCells

    def row(self, athlete):
        return [row[0] for row in self.cells("day_name").getDataArray()].index(athlete)

    def value(self, name, athlete, column=0):
        return self.cells(name).getCellByPosition(column, self.row(athlete))

    def clocks(self, athlete):
        """Seconds, as the sheet holds them."""
        cells = self.cells("day_clocks").getCellRangeByPosition(0, self.row(athlete), 39, self.row(athlete))
        return [value * 86400 for value in cells.getDataArray()[0] if value != ""]

    def heat(self, number):
        return {int(lane): name for heat, lane, _, name, _ in self.cells("heat_list").getDataArray() if heat == number}

    def words(self):
        """What the window shows, and what it said last."""
        seen = [None]
        while len(seen) < 20:
            time.sleep(0.2)
            words = self.office.dispatch(self.document, "vnd.org.pacecells:heat-day", Silent=True).Result
            seen.append((words.partition("\n")[2], words))
            if seen[-2] and seen[-2][0] == seen[-1][0]:
                break
        return seen[-1][1]

    def said(self):
        return self.words().split("\n")[-2]

    def press(self, key, shift=False):
        at = self.screen.press(key, shift)
        time.sleep(0.08)
        return at

    def answer(self, text):
        self.screen.type(text)
        time.sleep(0.3)
        return self.screen.press("Return")

    def running(self, clock="0:10"):
        """Starts with the clock showing that; the time at zero by the key."""
        self.press("r")
        at = self.answer(clock)
        minutes, seconds = clock.split(":")
        time.sleep(0.3)
        return at - 60 * int(minutes) - int(seconds)

    def steps(self):
        return len(self.document.UndoManager.AllUndoActionTitles)


def office(screen, name="office", limit=600, after_a_crash=False):
    if not after_a_crash:  # nobody's heat is left running
        shutil.rmtree(WORK / name / "profile" / "user" / "pacecells", ignore_errors=True)
    return Office([OXT], WORK / name, display=screen.name, reuse=True, limit=limit)


def pressed(day, lane, zero, speed=1.0):
    """Stamps a lane; the earliest and latest clock it may get."""
    at = day.screen.press(str(lane % 10)) - zero
    return at * speed, (at + day.screen.took) * speed


def play(day, zero, length, dice, speed=1.0, pause=(1.1, 6.0), most=40):
    """Random keys for so many real seconds, each lane in its own rhythm; by lane (earliest, latest clock) expected."""
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
    return [((clock - min(max(clock, early), late)) / speed, late)
            for lane, name in day.heat(1).items() for clock, (early, late) in zip(day.clocks(name), done[lane])]


def compare(what, day, done, speed=1.0, near=NEAR):
    """Each clock of the sheet against the key; prints how far off they are."""
    for lane, name in day.heat(1).items():
        got = day.clocks(name)
        check(f"{what}: lane {lane} has all its stamps", len(got) == len(done[lane]),
              f"{len(got)} of {len(done[lane])}")
    off = [error for error, _ in off_at(day, done, speed)]
    if off:
        check(f"{what}: every stamp within {1000 * near:.0f} ms", max(map(abs, off)) <= near, max(off, key=abs))
        print(f"{what}: {len(off)} stamps, off by {1000 * min(off):+.1f} to {1000 * max(off):+.1f} ms, "
              f"mean {1000 * sum(off) / len(off):+.1f} ms", flush=True)
    return off


def outlook(what, day):
    """The window's projection is the sheet's, for each lane."""
    rows = [line.split(" | ") for line in day.words().split("\n")[1:] if line.count(" | ") == 5]
    check(f"{what}: a row for each lane", len(rows) == len(day.heat(1)), rows)
    for lane, name, _, _, expected, _ in rows:
        sheet = day.value("day_reads", name).String
        check(f"{what}: projection of lane {lane}", expected and (expected == sheet or expected == "over the cap"),
              f"{expected!r}, sheet {sheet!r}")


@pytest.mark.parametrize("kind", ("rounds", "time", "ladder"))
def test_heats(screen, kind):
    """The three formats, keys at random times, with other programs wanting the processor."""
    dice = random.Random(SEED)
    with office(screen) as private:
        day = Day(private, screen, kind)
        zero = day.running()
        with Load():
            before = day.steps()
            done = play(day, zero, 15, dice, most=2)
            time.sleep(1.2)
            for lane in done:  # all at once, as at the end of a round
                done[lane].append(pressed(day, lane, zero))
                time.sleep(0.03)
            time.sleep(1)
        time.sleep(1)
        compare(f"{kind}, under load", day, done)
        outlook(kind, day)
        if kind == "time":
            for lane, name in day.heat(1).items():
                check(f"time: lane {lane} has not finished yet", day.value("day_finish", name).String == "")
        check(f"{kind}: a step of undo for each key", day.steps() - before >= sum(map(len, done.values())))
        for lane, name in day.heat(1).items():
            for column, clock in enumerate(day.clocks(name)):
                stamp, wanted = day.value("day_stamps", name, column).Value, of_day(zero + clock)
                check(f"{kind}: time of day of lane {lane}, stamp {column + 1}", beside(stamp, wanted) < 3,
                      (stamp * 86400, wanted))


@pytest.mark.slow
def test_two_minutes(screen):
    """Two minutes in real time."""
    with office(screen) as private:
        day = Day(private, screen)
        zero = day.running()
        done = play(day, zero, 120, random.Random(SEED), pause=(4, 12))
        time.sleep(1)
        off = compare("two minutes", day, done)
        check("two minutes: enough keys", len(off) > 40)


def eight_lanes(day):
    day.cells("event_places").getCellByPosition(0, 0).Value = 8
    machines = day.cells("machine_counts")
    for row in range(4):
        machines.getCellByPosition(0, row).Value = 8
    day.cells("event_cap").getCellByPosition(0, 0).Value = 31 / 1440
    division = day.cells("division_names").getCellByPosition(0, 0).String
    for row in range(200):  # sixteen in one division: two heats of eight
        for name, text in (("name", None), ("division", division), ("status", "")):
            cell = day.cells(f"roster_{name}").getCellByPosition(0, row)
            if row >= 16:
                cell.String = ""
            elif text is not None:
                cell.String = text


@pytest.mark.slow
def test_soak(screen):
    """Thirty minutes at eight lanes, the clock thirty times as fast."""
    speed = 30
    os.environ["PACECELLS_HEAT_CLOCK"] = str(speed)
    try:
        with office(screen, "soak") as private:
            day = Day(private, screen, prepare=eight_lanes)
            check("soak: eight lanes", len(day.heat(1)) == 8, len(day.heat(1)))
            day.press("r")
            zero = day.answer("0:00")
            time.sleep(0.3)
            check("soak: the clock runs", "left" in day.words(), day.words())
            done = play(day, zero, 59, random.Random(SEED), speed, pause=(1.3, 2.6))
            time.sleep(1)
            # Nothing is lost, every stamp is near its key, and the clock does not wander.
            off = compare("soak", day, done, speed)
            early, last = (sorted(error for error, late in off_at(day, done, speed) if start < late < start + 600)
                           for start in (0, 1200))  # the key that set the clock going may have been late itself
            check("soak: no drift", early and last and abs(last[len(last) // 2] - early[len(early) // 2]) <= 0.01,
                  (early, last))
            check("soak: thirty minutes", max(late for clocks in done.values() for _, late in clocks) > 1700)
            check("soak: enough keys", len(off) > 150, len(off))
            outlook("soak", day)
    finally:
        del os.environ["PACECELLS_HEAT_CLOCK"]


def test_keys(screen):
    """Held keys, other layouts, clicks, and what is refused."""
    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(1)
        for layout in ("us", "gb", "de", "es", "fr", "se"):
            screen.tool("setxkbmap", layout)
            time.sleep(0.5)
            for number in range(1, 11):
                screen.press(9 + number, shift=True)
                said = day.said()
                check(f"{layout}: Shift and key {number} mean lane {number}",
                      f"lane {number} " in said or f"Lane {number}," in said and "to take back" in said, said)
        screen.tool("setxkbmap", "us")
        time.sleep(0.5)
        day.press("1")
        check("no stamp before the start", day.clocks(names[1]) == [] and "not running" in day.said(), day.said())
        zero = day.running()
        day.press("s")
        check("a second start is refused", "running already" in day.said(), day.said())
        day.press("h")
        check("a second heat is refused", "Two heats at once" in day.said(), day.said())
        day.press("9")
        check("no such lane", "no lane 9" in day.said(), day.said())
        for _ in range(20):  # as a held key repeats
            day.screen.press("1")
            time.sleep(0.04)
        time.sleep(0.3)
        check("a held key is one stamp", len(day.clocks(names[1])) == 1, day.clocks(names[1]))
        day.press("1", shift=True)
        time.sleep(0.3)
        check("Shift takes it back", day.clocks(names[1]) == [], day.clocks(names[1]))
        time.sleep(1.2)
        at = day.press(day.screen.code("KP_2"))  # the numeric keypad; its keys need no NumLock here
        time.sleep(1.2)
        day.screen.tool("setxkbmap", "fr")
        time.sleep(1)
        at = day.press(10 + 2)  # the third key of the digits' row types a quotation mark there
        time.sleep(0.4)
        got = day.clocks(names[3])
        check("the third key of an AZERTY row", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, got)
        time.sleep(1.2)
        day.screen.press(10 + 2, shift=True)
        time.sleep(0.4)
        check("and with Shift it takes back", day.clocks(names[3]) == [], day.clocks(names[3]))
        day.screen.tool("setxkbmap", "de")
        time.sleep(1)
        day.press(10 + 3)
        time.sleep(1.3)
        day.screen.press(10 + 3, shift=True)
        time.sleep(0.4)
        check("a German row", day.clocks(names[4]) == [] and "taken back" in day.said(), day.said())
        day.screen.tool("setxkbmap", "us")
        time.sleep(1)
        at = day.screen.click(300, 200)
        time.sleep(0.4)
        got = day.clocks(names[1])
        check("a click on the row", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, got)
        before = day.document.UndoManager.getCurrentUndoActionTitle()
        check("the step has a name", names[1] in before, before)
        day.document.UndoManager.undo()
        time.sleep(0.8)
        check("undone in the sheet, gone in the window", "1 | " + names[1] + " | round 1 " in day.words(), day.words())


def test_commands(screen):
    """Partial scores, tie-break, withdrawal, late athletes, the end, results and judges."""
    with office(screen) as private:
        day = Day(private, screen, prepare=lambda d: setattr(d.cells("event_cap").getCellByPosition(0, 0), "Value",
                                                             60 / 86400))
        names = day.heat(1)
        zero = day.running("0:20")
        day.press("2")
        day.press("p")
        day.press("2")
        day.answer("5")
        time.sleep(0.4)
        check("partial score", day.value("day_partial", names[2]).Value == 5)
        time.sleep(1)
        day.press("2")
        time.sleep(0.4)
        check("a stamp ends the open round", day.value("day_partial", names[2]).String == ""
              and len(day.clocks(names[2])) == 2)
        day.press("p")
        day.press("2")
        day.answer("999")
        check("a partial score beyond the round is refused", "below the reps" in day.said(), day.said())
        day.press("Escape")
        day.press("t")
        time.sleep(1.2)
        at = day.press("2")
        time.sleep(0.4)
        got = day.value("day_tiebreak", names[2]).Value * 86400
        check("tie-break", abs(got - (at - zero)) <= NEAR, got)
        day.press("w")
        day.press("3")
        time.sleep(0.4)
        check("withdrawn", day.value("day_out", names[3]).String == "yes" and "withdrawn" in day.said(), day.said())
        time.sleep(1)
        day.press("3")
        check("withdrawn lanes are not stamped", "withdrawn" in day.said() and day.clocks(names[3]) == [])
        late = day.heat(2)[1]
        day.press("a")
        day.answer(late.split()[0].lower())
        time.sleep(0.5)
        lane = max(names) + 1
        check("a late athlete has a lane", f"{late} is in lane {lane}" in day.said(), day.said())
        at = day.press(str(lane))
        time.sleep(0.4)
        got = day.clocks(late)
        check("and is stamped", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, got)
        day.press("o")
        check("no list while the clock runs", "Not while the clock runs" in day.said(), day.said())
        time.sleep(max(0, zero + 61.5 - now()))
        day.press("1")
        check("no stamp after the cap", "cap has passed" in day.said(), day.said())
        day.press("p")
        time.sleep(1)
        day.press("1")
        day.answer("7")
        time.sleep(0.4)
        check("the final partial score", day.value("day_partial", names[1]).Value == 7)
        check("and the next lane is asked for", names[2] in day.words().split("\n")[-1], day.words())
        day.press("Escape")
        day.press("e")
        day.press("Return")
        check("the end", "has ended" in day.said(), day.said())
        day.press("j")
        time.sleep(1.5)
        check("judge sheets of the next heat", day.cells("judge_heat").getCellByPosition(0, 0).Value == 2
              and day.document.CurrentController.ActiveSheet.Name == "Judge sheet")
        open_before = len(list(private.desktop.Components))
        day.press("o")
        time.sleep(3)
        others = [one for one in private.desktop.Components if one != day.document]
        check("the list of results is a document of its own", len(others) == open_before, len(others))
        if others:
            shown = [[result(others[0].Sheets[0].getCellByPosition(x, y)) for x in range(3)] for y in range(40)]
            check("with place, name and result", any(row[1] == names[1] and row[2] == "0+7" for row in shown), shown)
            check("by division", any(row[0] == day.value("day_division", names[1]).String for row in shown))
            save(others[0], WORK / "results.pdf")
            pages = subprocess.run(["pdftotext", "-layout", WORK / "results.pdf", "-"], capture_output=True, text=True,
                                   check=True).stdout.split("\f")[:-1]
            divisions = {day.value("day_division", name).String for name, *_ in day.cells("day_name").DataArray
                         if name and day.value("day_result", name).String}
            check("a page for each division", len(pages) == len(divisions), pages)
            for page in pages:
                check("each under title, gym, version and time", all(re.search(part, page) for part in (
                    day.cells("event_title").DataArray[0][0], day.cells("event_gym").DataArray[0][0],
                    day.cells("event_stamp").DataArray[0][0], r"Places so far, \d+:\d\d", "Tie-break +Heat")), page)


def test_window(screen):
    """Closed and opened again, the clock goes on; the workbook closed, nothing is left behind."""
    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(1)
        zero = day.running()
        day.press("1")
        time.sleep(0.3)
        window_of = screen.windows()[0]
        quit_window(screen, int(window_of))
        time.sleep(1)
        check("the window is closed", not screen.windows())
        day.open()
        at = day.press("2")
        time.sleep(0.4)
        got = day.clocks(names[2])
        check("opened again, the clock went on", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, (got, at - zero))
        check("and the stamps are there", len(day.clocks(names[1])) == 1)
        day.document.close(True)
        time.sleep(1)
        check("with its workbook the window closes",
              not screen.windows())
        private.new()
        process = private.process
    check("the office ends by itself", process.returncode in (0, 81), process.returncode)


def quit_window(screen, window_id):
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


def test_kill(screen):
    """The office killed in a heat, moments after a key: the file of before, and every stamp is put back."""
    file = WORK / "killed.ods"
    with office(screen, "kill") as private:
        day = Day(private, screen)
        names = day.heat(1)
        zero = day.running()
        done = play(day, zero, 6, random.Random(SEED), pause=(1.2, 3))
        day.press("p")
        day.press("1")
        day.answer("4")
        time.sleep(0.3)
        save(day.document, file)
        time.sleep(0.5)
        for lane in sorted(names):
            done[lane].append(pressed(day, lane, zero))
            time.sleep(0.1)
        time.sleep(0.1)
        os.killpg(private.process.pid, signal.SIGKILL)
        private.process.wait()
    with office(screen, "kill", after_a_crash=True) as private:
        day = Day(private, screen, file=file, by_itself=True)
        check("killed: the file opened, the window comes by itself", bool(screen.windows()))
        had = {lane: len(day.clocks(name)) for lane, name in names.items()}
        check("killed: the file lacks the last stamps", all(had[lane] == len(done[lane]) - 1 for lane in had), had)
        check("killed: the window asks", "Heat 1 was interrupted" in day.words(), day.words())
        day.press("Return")
        time.sleep(1)
        compare("killed, put back", day, done)
        check("killed: the partial score of a round since ended is gone",
              day.value("day_partial", names[1]).String == "")
        time.sleep(1)
        at = day.press("1")
        time.sleep(0.4)
        got = day.clocks(names[1])[-1]
        check("killed: the clock goes on", abs(got - (at - zero)) <= NEAR, got - (at - zero))
        os.killpg(private.process.pid, signal.SIGKILL)
        private.process.wait()
    with office(screen, "kill", after_a_crash=True) as private:
        day = Day(private, screen, file=file)
        day.press("Return")
        time.sleep(1)
        check("killed twice: all is there", len(day.clocks(names[1])) == len(done[1]) + 1, day.clocks(names[1]))
        day.press("e")
        day.press("Return")
        time.sleep(0.5)
        save(day.document, file)
    with office(screen, "kill", after_a_crash=True) as private:
        document = private.open(file, hidden=False)
        time.sleep(2)
        check("ended and saved: no window comes by itself", not screen.windows(), screen.windows())
        document.close(True)
        day = Day(private, screen, file=file)
        check("ended and saved: nothing is asked", day.words().split("\n")[-1] == "", day.words())


@pytest.fixture
def logs(screen):
    """Where the office keeps a copy of the heat that runs."""
    with office(screen, "no-room"):
        pass  # makes the profile
    return WORK / "no-room" / "profile" / "user" / "pacecells"


def no_copy_is_said(screen, before_the_start=lambda: None):
    with office(screen, "no-room", after_a_crash=True) as private:
        day = Day(private, screen)
        before_the_start()
        day.running()
        day.press("1")
        time.sleep(0.5)
        check("said", "The disk does not take the copy of this heat" in day.said(), day.said())
        check("stamped", len(day.clocks(day.heat(1)[1])) == 1, day.clocks(day.heat(1)[1]))
        day.press("e")
        day.press("Return")


def test_no_folder_for_the_copy(screen, logs):
    """No copy of the heat on the disk: that is said, and the heat goes on."""
    logs.write_text("a file where the folder should be")
    no_copy_is_said(screen)
    logs.unlink()


def test_no_room_for_the_copy(screen, logs):
    with disk(logs, "size=64k"):
        no_copy_is_said(screen, lambda: fill(logs / "rest"))


def test_clock(screen):
    """Somebody sets the time of day, the computer sleeps: the heat's clock goes on, the time beside it follows."""
    times = WORK / "other-time"

    def other_time(set_by, slept):
        times.with_suffix(".new").write_text(f"{set_by} {slept}")
        times.with_suffix(".new").rename(times)

    def stamp(day, lane, zero, shift, slept, what):
        at = day.press(str(lane))
        time.sleep(0.5)
        name = day.heat(1)[lane]
        got = day.clocks(name)
        check(f"{what}: the clock", len(got) == 1 and abs(got[0] - (at - zero + slept)) <= NEAR,
              (got, at - zero + slept))
        beside_it = day.value("day_stamps", name).Value
        check(f"{what}: time of day beside it", beside(beside_it, of_day(at, shift)) < 3,
              (beside_it * 86400, of_day(at, shift)))

    other_time(0, 0)
    os.environ.update(LD_PRELOAD=str(BUILD / "tests" / "libother_time.so"), PACECELLS_OTHER_TIME=str(times))
    try:
        with office(screen, "clock") as private:
            file = WORK / "clock.ods"
            day = Day(private, screen)
            save(day.document, file)
            zero = day.running()
            stamp(day, 1, zero, 0, 0, "before")
            other_time(3600, 0)
            stamp(day, 2, zero, 3600, 0, "an hour forward")
            other_time(-86400 - 7200, 0)
            stamp(day, 3, zero, -7200, 0, "yesterday")
            other_time(-86400 - 7200, 45)
            time.sleep(0.5)
            shown = day.words().split(" | ")[1]
            minutes, _, seconds = shown.partition(":")
            check("slept: the window shows it", abs(60 * int(minutes) + int(seconds) - (now() - zero + 45)) < 2, shown)
            stamp(day, 4, zero, -7200 + 45, 45, "slept")
            os.killpg(private.process.pid, signal.SIGKILL)
            private.process.wait()
        other_time(5000, 45)
        with office(screen, "clock", after_a_crash=True) as private:
            day = Day(private, screen, file=file)
            check("killed: it asks", "was interrupted" in day.words(), day.words())
            day.press("Return")
            time.sleep(1)
            check("killed: put back", [len(day.clocks(name)) for name in day.heat(1).values()][:4] == [1] * 4)
            at = day.press("1")
            time.sleep(0.5)
            got = day.clocks(day.heat(1)[1])
            check("killed and the time of day set: the clock goes on",
                  len(got) == 2 and abs(got[1] - (at - zero + 45)) <= NEAR, (got, at - zero + 45))
            day.press("e")
            day.press("Return")
    finally:
        del os.environ["LD_PRELOAD"], os.environ["PACECELLS_OTHER_TIME"]


def test_floor(screen):
    """One floor: no second heat while one runs, in whichever workbook, open or not."""
    file = WORK / "floor.ods"

    def to(window):
        screen.tool("xdotool", "windowfocus", window)
        time.sleep(0.3)

    with office(screen, "floor") as private:
        one = Day(private, screen)
        first = screen.windows()[-1]
        one.running()
        two = Day(private, screen, "time")
        second = [window for window in screen.windows() if window != first][-1]
        for key in ("s", "r"):
            to(second)
            two.press(key)
            said = two.said()
            check(f"{key}: refused while the other runs", "is running in another workbook" in said
                  and one.cells("event_title").String in said, said)
        to(first)
        one.press("e")
        one.press("Return")
        time.sleep(0.3)
        to(second)
        two.running()
        check("allowed when it has ended", "left" in two.words(), two.words())
        save(two.document, file)
        two.press("1")
        time.sleep(0.5)
        two.document.close(True)
        time.sleep(1)

        two = Day(private, screen, file=file)
        to([window for window in screen.windows() if window != first][-1])
        check("closed and opened again: it asks", "Heat 1 was interrupted" in two.words(), two.words())
        two.press("Escape")
        two.press("h")
        two.answer("2")
        time.sleep(0.3)
        two.press("s")
        question = two.words().split("\n")[-1]
        check("another heat meanwhile: asked first", "Heat 1 was not ended" in question, question)
        two.press("Escape")
        check("no: not started", "| cap " in two.words().split("\n")[0], two.words())
        two.press("s")
        two.press("Return")
        two.press("s")
        check("given up: it starts", "counting in" in two.words().split("\n")[0], two.words())
        logs = WORK / "floor" / "profile" / "user" / "pacecells"
        check("and what was kept is still on the disk", len(list(logs.glob("*-1.heat.old"))) == 1, list(logs.iterdir()))


def test_beep(screen):
    """No sound until it is asked for; where none can be made, that is said."""
    os.environ["PACECELLS_HEAT_CLOCK"] = "30"
    try:
        with office(screen, "beep") as private:
            sound = WORK / "beep" / "profile" / "user" / "pacecells" / "beep.wav"
            day = Day(private, screen)
            day.running()
            time.sleep(5)
            check("two minutes without a sound", not sound.exists())
            day.press("b")
            said = day.said()
            player = private.service("com.sun.star.comp.avmedia.Manager_GStreamer")
            check("a sound at once, or a sentence", sound.exists() and
                  ("A beep each minute" if player else "cannot play sounds") in said, said)
            wave = sound.read_bytes()
            check("it is a sound", wave[:4] + wave[8:12] == b"RIFFWAVE"
                  and int.from_bytes(wave[4:8], "little") == len(wave) - 8)
    finally:
        del os.environ["PACECELLS_HEAT_CLOCK"]
