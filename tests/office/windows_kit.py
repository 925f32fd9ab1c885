"""A spreadsheet's windows on a screen: keys pressed, pictures taken, and what the windows say that they show."""

import os
import re
import subprocess
import time
from collections import Counter, namedtuple
from contextlib import contextmanager

import uno

Part = namedtuple("Part", "name left top right bottom")


class Picture:
    """The colours of a window, or of the whole screen."""

    def __init__(self, data):
        size = re.match(rb"P6\s+(\d+)\s+(\d+)\s+255\s", data)
        self.width, self.height, self.pixels = int(size[1]), int(size[2]), data[size.end():]

    def row(self, y, left=0, right=None):
        return self.pixels[3 * (y * self.width + left):3 * (y * self.width + (self.width if right is None else right))]

    def ink(self, part):
        """The share of a part's pixels that are unlike its commonest colour."""
        colours = Counter()
        for y in range(max(part.top, 0), min(part.bottom, self.height)):
            row = self.row(y, max(part.left, 0), min(part.right, self.width))
            colours.update(row[at:at + 3] for at in range(0, len(row), 3))
        return 1 - colours.most_common(1)[0][1] / colours.total()

    def changed(self, other):
        """Width and height of what differs."""
        rows = [y for y in range(self.height) if self.row(y) != other.row(y)]
        places = [at // 3 for y in rows for at, (a, b) in enumerate(zip(self.row(y), other.row(y))) if a != b]
        return (max(places) - min(places) + 1, rows[-1] - rows[0] + 1) if rows else (0, 0)


# The titles, and the keys in the menu and its submenu.
WINDOWS = {
    "pace table": {"en-US": ("Pace table", "tp"), "de": ("Tempotabelle", "tp")},
    "ergometer table": {"en-US": ("Ergometer table", "tr"), "de": ("Ergometertabelle", "to")},
    "explain": {"en-US": ("Explain this cell", "x"), "de": ("Diese Zelle erklären", "z")},
    "about": {"en-US": ("About Pacecells", "o"), "de": ("Über Pacecells", "r")},
}
ACCESSIBLE = "com.sun.star.accessibility.Accessible"


def role(name):
    return uno.getConstantByName(f"{ACCESSIBLE}Role.{name}")


def has_state(context, name):
    """Newer offices give a number of bits, older ones a set."""
    states, wanted = context.getAccessibleStateSet(), uno.getConstantByName(f"{ACCESSIBLE}StateType.{name}")
    return bool(states & wanted) if isinstance(states, int) else states.contains(wanted)


def has_focus(context):
    """A field has it itself, or the part of it that is typed into."""
    inside = [context.getAccessibleChild(place) for place in range(min(context.getAccessibleChildCount(), 4))]
    return any(has_state(one, "FOCUSED") for one in [context, *(child.getAccessibleContext() for child in inside)])


class Calc:
    """A spreadsheet's window on a screen, its keyboard and the windows above it."""

    def __init__(self, display, office, language, scale, folder):
        self.display, self.office, self.language, self.scale, self.folder = display, office, language, scale, folder
        self.document = office.new(hidden=False)
        assert self.wait("LibreOffice Calc", limit=60) is not None

    def run(self, *command):
        return subprocess.run(command, env={**os.environ, "DISPLAY": self.display}, capture_output=True).stdout

    def keys(self, *names):
        for name in names:
            if name.startswith("text "):
                self.run("xdotool", "type", "--delay", "15", name[5:])
            else:
                self.run("xdotool", "key", name)
            time.sleep(0.15)

    def windows(self, title):
        return self.run("xdotool", "search", "--onlyvisible", "--name", title).decode().split()

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

    def focus(self):
        self.run("xdotool", "windowfocus", self.windows("LibreOffice Calc")[0])
        time.sleep(0.3)

    @contextmanager
    def opened(self, title, keys):
        """A window opened from our menu, closed at the end by Escape."""
        self.choose(keys)
        assert self.wait(title) is not None
        try:
            yield self.windows(title)[0]
        finally:
            if self.windows(title):
                self.keys("Escape")
                self.wait(title, there=False)

    def choose(self, keys):
        """A command of our menu: F10, P, and its letters. Gives the time just before the last of them."""
        self.focus()
        self.keys("F10", "p", *keys[:-1])
        time.sleep(0.3)
        before = time.monotonic()
        self.run("xdotool", "key", keys[-1])
        return before

    def picture(self, window, name):
        data = self.run("import", "-window", window, "-depth", "8", "ppm:-")
        subprocess.run(["convert", "ppm:-", self.folder / f"{name}.png"], input=data, check=True)
        return Picture(data)

    def top(self, title):
        toolkit = self.office.service("com.sun.star.awt.Toolkit")
        tops = [toolkit.getTopWindow(index) for index in range(toolkit.getTopWindowCount())]
        return next(top for top in tops if top.getProperty("Title") == title)

    def parts(self, title):
        """What a window says that it shows: every part with a text on it, in the window's own pixels."""
        found = []
        for part in self.top(title).getWindows():
            text, at = part.getProperty("Text"), part.getPosSize()
            if text and part.isVisible():
                found.append(Part(text.replace("~", ""), at.X, at.Y, at.X + at.Width, at.Y + at.Height))
        return found
