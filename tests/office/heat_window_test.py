"""The window of a heat and the office around it: an office that is busy, windows opened and closed, offices that end."""

import os
import re
import shutil
import signal
import subprocess
import time
import zipfile
from pathlib import Path

import pytest
import sharing
import unohelper
from com.sun.star.uno import Exception as UnoException
from com.sun.star.util import XModifyListener
from heat_kit import Day, check, close_window, eventually, logs_of, now, office, screen
from office import named
from sharing import BUILD, ROOT, folder_of

WORK = folder_of(__file__)
STALL = 2.0  # seconds


class Busy(unohelper.Base, XModifyListener):
    """Keeps the office's main thread as long at each change of the document that it is told to."""

    def __init__(self):
        self.seconds, self.since = 0, None

    def modified(self, _):
        if self.seconds:
            seconds, self.seconds, self.since = self.seconds, 0, now()
            time.sleep(seconds)

    def disposing(self, _):
        pass


def test_a_busy_office(screen):
    """Keys pressed while the main thread is busy have the times of the keys."""
    with office(screen) as private:
        day = Day(private, screen)
        zero = day.running()
        names, busy = day.heat(1), Busy()
        day.document.addModifyListener(busy)
        busy.seconds = STALL
        day.press("1")
        eventually("the office is busy", lambda: busy.since)
        at = {}
        for lane in (2, 3, 4):
            time.sleep(STALL / 6)
            at[lane] = day.press(str(lane)) - zero
        check("all while it is", now() < busy.since + STALL - 0.1, (now(), busy.since))
        for lane, moment in at.items():
            day.has(f"lane {lane}", names[lane], 1)
            got = day.clocks(names[lane])[0]
            check(f"lane {lane}: the time of the key", abs(moment.off(got)) < 0.05, (got, moment))
        day.document.removeModifyListener(busy)


def office_of(private):
    """The process of the office; what was started waits for it."""
    first = private.process.pid
    return int((Path(f"/proc/{first}/task/{first}/children").read_text().split() or [first])[0])


def threads(private):
    return len(list(Path(f"/proc/{office_of(private)}/task").iterdir()))


def test_opened_two_hundred_times(screen):
    """While the heat runs and its window ticks: the clock goes on, and no thread is left."""
    with office(screen) as private:
        day = Day(private, screen)
        names, zero = day.first_stamp()
        before = threads(private)
        opened = 0
        for _ in range(200):
            close_window(screen, int(screen.windows()[0]))
            if not eventually("closed", lambda: not screen.windows(), limit=10):
                break
            private.dispatch(day.document, "vnd.org.pacecells:heat-day")
            if not eventually("open", screen.windows, limit=10):
                break
            opened += 1
        check("as often as it was closed", opened == 200, opened)
        screen.focus(screen.windows()[0])
        at = day.press("2") - zero
        day.has("it hears keys", names[2], 1, at)
        eventually("no thread is left", lambda: threads(private) <= before + 1, lambda: (before, threads(private)))


def test_the_office_ends(screen):
    """In a heat, with the room's window and the beep: by itself, without a crash, and the log has all."""
    with office(screen) as private:
        for kill in (False, True):
            day = Day(private, screen)
            names = day.heat(1)
            day.running()
            day.press("b")
            day.press("v")
            eventually("the room", lambda: screen.titled("Heat, for the room"))
            screen.focus(screen.windows()[-1])
            day.press("1")
            day.has("a stamp", names[1], 1)
            day.logged("logged", {1: names[1]}, {1: [None]})
            process = private.process
            if kill:  # as at the end of a session
                os.kill(office_of(private), signal.SIGTERM)
            else:
                day.document.storeAsURL((WORK / "ends.ods").as_uri(), named(FilterName="calc8", Overwrite=True))
                eventually("nothing to save", lambda: not day.document.isModified())
                try:
                    private.desktop.terminate()
                except UnoException:
                    pass  # the bridge may go down before the answer comes
            try:
                process.wait(30)
            except subprocess.TimeoutExpired:
                pass
            wanted = (255, 143, -signal.SIGTERM) if kill else (0, 81)  # 255: as an office without us
            check("it ends, and by itself", process.poll() in wanted, process.poll())
            shutil.rmtree(logs_of(private))
            if not kill:
                private._start()
    sharing.stop()


def test_the_library_has_no_hook():
    """What the tests do to clocks is in a library of their own: ours reads no variable of it, and exports what the
    office asks for alone."""
    with zipfile.ZipFile(sharing.OXT) as package:
        name = next(name for name in package.namelist() if name.endswith(".so"))
        library = package.extract(name, WORK)
    code = Path(library).read_bytes()
    assert b"PACECELLS_" not in code and b"other_time" not in code
    symbols = subprocess.run(["nm", "-D", "--defined-only", library], capture_output=True, text=True, check=True).stdout
    exported = {line.split()[-1] for line in symbols.splitlines()}
    own = {name for name in exported if not name.startswith(("_Z", "__", "_init", "_fini"))}
    components = re.findall(r'constructor="(\w+)"', (ROOT / "extension/package/pacecells.components").read_text())
    assert own == set(components)


def click_a_link(private, screen, document, url, opened):
    """Ctrl and a click on a cell with a hyperlink, as a person does it: once more where the window was not ready for it."""
    sheets = document.Sheets
    if not sheets.hasByName("Links"):
        sheets.insertNewByName("Links", 0)
    sheet = sheets.getByName("Links")
    document.CurrentController.setActiveSheet(sheet)
    cell = sheet["A1"]
    cell.Formula, cell.CharHeight, sheet.Columns[0].Width = f'=HYPERLINK("{url}";"a link to click on")', 80, 15000
    window = document.CurrentController.ComponentWindow
    eventually("painted", window.isVisible)
    where = window.PosSize  # below the menu; no window manager moves the window, and a message may stand above the cell
    for _ in range(5):
        screen.focus(screen.titled(".*LibreOffice Calc")[0])
        screen.tool("xdotool", "mousemove", str(where.X + 120), str(where.Y + 130), "keydown", "ctrl", "click", "1", "keyup", "ctrl")
        until = time.monotonic() + 5
        while time.monotonic() < until and not opened():
            time.sleep(0.1)
        if opened():
            return


def test_a_link_answers_for_nobody(screen):
    """Silent, Overwrite and File in a link that somebody clicks are nothing: windows open, and no file is touched."""
    file = WORK / "not for links.csv"
    with office(screen) as private:
        document = private.open(BUILD / "examples" / "rounds.ots", hidden=False)
        click_a_link(private, screen, document, "vnd.org.pacecells:heat-day?%53ilent=true&Silent=true", screen.windows)
        eventually("the heat's window opens", screen.windows)
        close_window(screen, int(screen.windows()[0]))
        eventually("closed", lambda: not screen.windows())
        file.write_text("as before")
        asked = lambda: screen.titled("Share as values")
        click_a_link(private, screen, document, "vnd.org.pacecells:share?Silent=true&Overwrite=true&File=" + file.as_uri(), asked)
        eventually("a person is asked where to", asked)
        check("the file is as before", file.read_text() == "as before", file.read_text()[:100])
        screen.focus(asked()[0])
        screen.press("Escape")
        eventually("closed", lambda: not asked())
        check("and stays so", file.read_text() == "as before", file.read_text()[:100])
        done = private.dispatch(document, "vnd.org.pacecells:share", Silent=True, Overwrite=True, File=file.as_uri())
        check("a program may", file.read_text() != "as before", done)


def test_a_screen_reader_hears_what_the_window_says(screen):
    """Its accessible name is the last sentence or the question; the room's window has its title."""
    with office(screen) as private:
        day = Day(private, screen)
        toolkit = private.service("com.sun.star.awt.Toolkit")

        def name(title):
            tops = [toolkit.getTopWindow(index) for index in range(toolkit.getTopWindowCount())]
            return next((top.getProperty("AccessibleName") for top in tops if top.getProperty("Title") == title), "")

        eventually("which heat", lambda: "heat 1" in name("Run heats"), lambda: name("Run heats"))
        day.press("r")
        eventually("a question", lambda: name("Run heats").startswith("Run heats: Type what the clock will show"),
                   lambda: name("Run heats"))
        day.answer("0:10")
        day.press("2")
        eventually("a stamp", lambda: f"Lane 2, {day.heat(1)[2]}: round 1 at 0:" in name("Run heats"),
                   lambda: name("Run heats"))
        day.press("v")
        eventually("the room's", lambda: name("Heat, for the room") == "Heat, for the room")


def contrast(one, other):
    """Of two colours, by WCAG 2.2, "relative luminance" and "contrast ratio"."""
    def light(colour):
        parts = ((colour >> shift & 255) / 255 for shift in (16, 8, 0))
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    dark, bright = sorted((light(one), light(other)))
    return (bright + 0.05) / (dark + 0.05)


def test_contrast():
    """At least 4.5 to 1 for every text on what it is written on (WCAG 2.2, 1.4.3)."""
    assert contrast(0xFFFFFF, 0x767676) == pytest.approx(4.54, abs=0.005)  # the lightest such grey on white
    source = (ROOT / "extension/commands/heat_day/heat_day_paint.cpp").read_text()
    palettes = re.findall(r"constexpr Palette \w+\{([^}]+)\}", source)
    assert len(palettes) == 2
    for palette in palettes:
        paper, ink, soft, _, ahead, behind, fresh = (int(colour, 16) for colour in palette.split(", "))
        for ground in (paper, fresh):
            for colour in (ink, soft, ahead, behind):
                assert contrast(colour, ground) >= 4.5, (hex(colour), hex(ground))
