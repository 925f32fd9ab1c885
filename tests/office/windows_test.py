#!/usr/bin/python3
"""The commands' windows on a real screen, by keyboard alone: they open fast, refuse at the field, do their work.

    windows_test.py BUILD

Uses BUILD/pacecells.oxt, Xvfb and xdotool. Leaves pictures of every window in BUILD/office-tests/windows, to look at:
in English, and in German at 200 % scaling. Ends with "N passed, N failed" and fails if anything did.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "templates"))
import uno  # noqa: E402
from checks import check, finish  # noqa: E402
from office import Office, enter  # noqa: E402

os.environ["SAL_USE_VCLPLUGIN"] = "gen"  # looks the same on every machine, and needs no window manager
BUILD = Path(sys.argv[1]).resolve()
WORK = BUILD / "office-tests" / "windows"
LIMIT = 0.3  # seconds from the key to the window, after the first time
LAST = ("End", "Return")  # of the menu; its letter, Ü, is on no key of this keyboard, and one made up for it gets lost


class Screen:
    """An X server of its own, its keyboard and its windows."""

    def __init__(self):
        reading, writing = os.pipe()
        self.server = subprocess.Popen(["Xvfb", "-displayfd", str(writing), "-noreset", "-screen", "0", "1400x1000x24"],
                                       pass_fds=[writing], stderr=subprocess.DEVNULL)
        os.close(writing)
        self.name = ":" + os.fdopen(reading).readline().strip()

    def run(self, *command):
        return subprocess.run(command, env={**os.environ, "DISPLAY": self.name}, capture_output=True, text=True)

    def keys(self, *names):
        for name in names:
            if name.startswith("text "):
                self.run("xdotool", "type", "--delay", "15", name[5:])
            else:
                self.run("xdotool", "key", name)
            time.sleep(0.15)

    def windows(self, title):
        return self.run("xdotool", "search", "--onlyvisible", "--name", title).stdout.split()

    def wait(self, title, there=True, since=None, limit=10):
        """The seconds until a window is there, or gone; it gets the focus, as a window manager would give it."""
        since = since or time.monotonic()
        while bool(self.windows(title)) != there:
            if time.monotonic() > since + limit:
                return None
        taken = time.monotonic() - since
        time.sleep(0.5)
        if there:
            self.run("xdotool", "windowfocus", self.windows(title)[0])
            time.sleep(0.2)
        return taken

    def picture(self, name):
        """Saves the screen; true if there is something on it."""
        file = WORK / f"{name}.png"
        self.run("import", "-window", "root", str(file))
        colours = self.run("identify", "-format", "%k", str(file)).stdout
        return colours.isdigit() and int(colours) > 20


def main_window(screen):
    screen.run("xdotool", "windowfocus", screen.windows("LibreOffice Calc")[0])
    time.sleep(0.3)


def choose(screen, *keys):
    """A command of our menu: F10, P, and its keys. Gives the time just before the last of them."""
    main_window(screen)
    screen.keys("F10", "p", *keys[:-1])
    time.sleep(0.3)
    before = time.monotonic()
    screen.run("xdotool", "key", keys[-1])
    return before


def open_and_close(screen, title, keys, picture):
    """Twice: the second time counts."""
    for again in (False, True):
        taken = screen.wait(title, since=choose(screen, *keys))
        check(f"{title}: opens", taken is not None)
        if not again:
            check(f"{title}: picture", screen.picture(picture))
        screen.keys("Escape")
        check(f"{title}: Escape closes", screen.wait(title, there=False) is not None)
    check(f"{title}: {1000 * taken:.0f} ms, below {1000 * LIMIT:.0f}", taken < LIMIT)
    print(f"{title}: {1000 * taken:.0f} ms")


def pace_table(screen, document, title):
    """Refused at the field, which has the focus; then done, and undone in one step."""
    sheet = document.Sheets[0]
    choose(screen, "p")
    check("pace table: opens", screen.wait(title) is not None)
    screen.keys("ctrl+a", "text abc", "Return")
    check("pace table: refused, still open", bool(screen.windows(title)))
    check("pace table: picture of the refusal", screen.picture(f"{title}, refused"))
    screen.keys("ctrl+a", "text 18:00", "Return")  # the focus is in the field again
    check("pace table: closed", screen.wait(title, there=False) is not None)
    check("pace table: inserted", [sheet["A2"].String, sheet["B6"].String], ["18:00", "2:15"])
    main_window(screen)
    screen.keys("ctrl+z")
    time.sleep(0.5)
    check("pace table: undone in one step", [sheet["A2"].String, sheet["B6"].String], ["", ""])


def session(screen, language, titles, scaled):
    if scaled:
        os.environ["SAL_FORCEDPI"] = "192"
    with Office([BUILD / "pacecells.oxt"], WORK / language, language=language,
                locale="de-DE" if language == "de" else "en-US", display=screen.name, reuse=True) as office:
        document = office.new(hidden=False)
        time.sleep(3)
        main_window(screen)
        screen.keys("F10", "p")
        check(f"{language}: picture of the menu", screen.picture(f"menu, {language}"))
        screen.keys("Escape", "Escape")
        for title, keys in titles.items():
            if title in ("Explain this cell", "Diese Zelle erklären"):
                cell = document.Sheets[0]["D5"]
                enter(cell, '=PACE.ROUND("18:00";8)')
                document.CurrentController.select(cell)
            open_and_close(screen, title, keys, title)
        if language == "en-US":
            document.CurrentController.select(document.Sheets[0]["A1"])
            enter(document.Sheets[0]["D5"], "")
            pace_table(screen, document, "Pace table")
    os.environ.pop("SAL_FORCEDPI", None)


def main():
    WORK.mkdir(parents=True, exist_ok=True)
    screen = Screen()
    try:
        session(screen, "en-US", {"Pace table": "p", "Ergometer table": "r", "Explain this cell": "x",
                                  "About Pacecells": "o"}, scaled=False)
        session(screen, "de", {"Tempotabelle": "p", "Ergometertabelle": "o", "Diese Zelle erklären": "z",
                               "Über Pacecells": LAST}, scaled=True)
    finally:
        screen.server.terminate()
    return finish()


if __name__ == "__main__":
    sys.exit(main())
