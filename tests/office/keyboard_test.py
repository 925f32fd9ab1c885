"""Every window of the menu's commands by keyboard alone, for a screen reader, and with text at 200 %.

In German, whose words are the longest, on the screen of a small laptop (1366 by 768), twice as large. Not here: the window
of a heat, which is painted (heat_window_test.py), and the office's own windows that ask for a file or show a document.
"""

import time
from contextlib import contextmanager
from threading import Thread

import pytest
import uno
from com.sun.star.awt.PosSize import SIZE
from commands import PROTOCOL, run
from compare import check
from examples import open_example
from logbook_kit import area
from office import type_in
from scenes import BY_HAND, SCENES, prepare
from sharing import OXT, folder_of, shared
from windows_kit import Calc, has_focus, role

SCREEN = "2732x1536"
WORK = folder_of(__file__)
WITHOUT = {"heat-day", "new-wall", "share", "copy-without-people", "minutes"}
COMMANDS = {f"{command} {kind}": (command, kind, arguments)
            for command, kind, arguments, _typed in SCENES if command not in WITHOUT}
QUESTIONS = ("new-logbook plain",)  # message boxes with a choice
# What is typed into a window so that another one follows.
FOLLOWING = {"add-athletes event": ("text Mila Sandhag, blue", "alt+h"), "new-event plain": ("alt+c",),
             "forget-person plain": ("text Ida Holmvik", "Return"), "pace-table plain": ("Return",)}


@pytest.fixture(scope="module")
def calc(display):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SAL_USE_VCLPLUGIN", "gen")  # looks the same on every machine, and needs no window manager
        patch.setenv("SAL_FORCEDPI", "192")
        with shared([OXT], display=display, language="de", locale="de-DE") as office:
            prepare(office, WORK / "files")
            event = open_example(office, "rounds", hidden=False)
            calc = Calc(display, office, "de", 2, WORK)
            calc.books = {"plain": calc.document, "event": event}
            type_in(calc.document.Sheets[0]["A1"], '=PACE.ROUND("18:00";8)')
            yield calc


def tops(calc):
    """The windows of commands that are open, message boxes too, the newest last.

    Asked only while none is being made or closed (settled): 7.4 may crash when it is.
    """
    toolkit = calc.office.service("com.sun.star.awt.Toolkit")
    found = [toolkit.getTopWindow(index) for index in range(toolkit.getTopWindowCount())]
    return [top for top in found if hasattr(top, "getWindows") and top.isVisible()
            and "LibreOffice" not in (top.getProperty("Title") or "LibreOffice")]


def until(condition, limit=20):
    deadline = time.monotonic() + limit
    while not (met := condition()) and time.monotonic() < deadline:
        time.sleep(0.02)
    return met


def settled(calc, condition, limit=20):
    """Waits until the screen's windows meet a condition and stay the same; asks the screen, not the office."""
    def met():
        there = calc.windows(".")
        return condition(there) and time.sleep(0.2) is None and calc.windows(".") == there

    return until(met, limit)


class Shown:
    """What is open at a time, and the next window after it, which gets the focus as a window manager would give it."""

    def __init__(self, calc):
        self.calc, self.tops, self.windows = calc, tops(calc), calc.windows(".")

    def next(self):
        new = lambda: [top for top in tops(self.calc)
                       if top not in self.tops and any(part.isVisible() for part in top.getWindows())]
        seen = lambda: [window for window in self.calc.windows(".") if window not in self.windows]
        assert settled(self.calc, lambda there: set(there) - set(self.windows)) and until(new), "it opens"
        top = new()[0]

        def focus():  # which a window that is just being shown may miss, or lose again to the one below it
            window = seen()[-1]
            kept = lambda: self.calc.run("xdotool", "getwindowfocus").decode().strip() == window and top.isActive()
            for one in (self.windows[0], window):
                self.calc.run("xdotool", "windowfocus", "--sync", one)
            return until(kept, 2) and time.sleep(0.2) is None and kept()

        assert until(focus), "it has the focus"
        return top


def version_to_print(calc, document, file):
    """As after a print whose cap was changed: the next print asks for the version's number."""
    done, said = run(calc.office, document, "print-pack", File=file, Overwrite="true")
    assert done, said
    workout = area(document, "workout")
    keys = [row[0] for row in workout.getDataArray()]
    workout.getCellByPosition(workout.getDataArray()[0].index("value"), keys.index("cap")).Value += 1 / 1440
    return "print-pack"


@contextmanager
def opened(calc, command, kind, arguments):
    """The window of a command. Escape closes it, and what still follows."""
    document = calc.books[kind]
    if kind == "event":
        roster = area(document, "roster")
        cell = roster.getCellByPosition(roster.getDataArray()[0].index("aim"), 2)
    else:
        cell = document.Sheets[0]["A1"]
    document.CurrentController.select(cell)
    arguments = {key: str(WORK / "files" / value) for key, value in arguments.items()}
    if command == BY_HAND:
        command = version_to_print(calc, document, arguments["File"])
    before = Shown(calc)
    beside = Thread(target=lambda: calc.office.dispatch(document, PROTOCOL + command, **arguments), daemon=True)
    beside.start()
    try:
        yield before.next()
    finally:
        for _ in range(4):
            if not beside.is_alive():
                break
            there = calc.windows(".")
            if tops(calc):
                calc.run("xdotool", "windowfocus", there[-1])
                calc.run("xdotool", "key", "Escape")
            settled(calc, lambda now: now != there or not beside.is_alive(), 3)
        beside.join(10)
    check("Escape closes it", (beside.is_alive(), len(tops(calc))), (False, 0))


def is_a(part, *interfaces):
    return any(f"com.sun.star.awt.{name}" == kind.typeName for kind in part.getTypes() for name in interfaces)


def control(part):
    """The field, list, button or table that a part of a window is, or is the frame of; None for a text beside them.

    26.8 shows what is in a frame to a screen reader, not to a program of ours. Of a table, the object without a window here,
    7.4 crashes when the focus moves after a program has asked for its context.
    """
    if is_a(part, "XButton"):
        return part
    if is_a(part, "XFixedText", "XScrollBar") or not hasattr(part, "getAccessibleContext"):
        return None
    context = part.getAccessibleContext()
    return context.getAccessibleChild(0) if context.getAccessibleRole() == role("PANEL") else None


def is_table(field):
    return not is_a(field, "XWindow2")


def caption(part):
    return (part.getProperty("Label") or part.getProperty("Text") or "").replace("~", "")


def lacks(part):
    """The pixels that a text or a button has too few, across and down. What is in a field or a list can be scrolled."""
    if not is_a(part, "XButton", "XFixedText") or not caption(part):
        return (0, 0)
    has = part.getPosSize()
    needs = part.getMinimumSize()
    if part.getProperty("MultiLine"):
        needs = part.calcAdjustedSize(uno.createUnoStruct("com.sun.star.awt.Size", has.Width, 1))
    return (max(0, needs.Width - has.Width - 8), max(0, needs.Height - has.Height - 8))  # a button's edge can be thinner


def look_at(calc, name, top):
    size, parts = top.getPosSize(), [part for part in top.getWindows() if part.isVisible()]
    width, height = map(int, SCREEN.split("x"))
    check(f"{name}: {size.Width} by {size.Height} is inside the screen", size.Width <= width and size.Height <= height)
    check(f"{name}: texts with room", [(caption(part), lacks(part)) for part in parts if lacks(part) != (0, 0)], [])
    check(f"{name}: a button on Return", len([part for part in parts if part.getProperty("DefaultButton")]), 1)
    fields = [(place, field) for place, part in enumerate(parts) if part.isEnabled() and (field := control(part))]
    check(f"{name}: tables with a label before them",
          [place for place, field in fields if is_table(field) and not caption(parts[place - 1])], [])
    contexts = {place: field.getAccessibleContext() for place, field in fields
                if not is_table(field) and hasattr(field, "getAccessibleContext")}
    check(f"{name}: fields with a name",
          [place for place, context in contexts.items() if not context.getAccessibleName().strip()], [])
    missing = {place: field for place, field in fields if not is_table(field)}
    for _ in range(4 * len(parts) + 8):  # more than once round: a key may lie in the queue until the next one
        missing = {place: field for place, field in missing.items()
                   if not field.hasFocus() and not (place in contexts and has_focus(contexts[place]))}
        if not missing:
            break
        calc.run("xdotool", "key", "Tab")
        time.sleep(0.02)
    check(f"{name}: not reached by Tab", [caption(field) or place for place, field in missing.items()], [])


@pytest.mark.parametrize("case", COMMANDS)
def test_window(calc, case):
    with opened(calc, *COMMANDS[case]) as top:
        look_at(calc, case, top)


@pytest.mark.parametrize("case", FOLLOWING)
def test_window_that_follows(calc, case):
    with opened(calc, *COMMANDS[case]):
        before = Shown(calc)
        calc.keys(*FOLLOWING[case])
        look_at(calc, f"after {case}", before.next())


@pytest.mark.parametrize("case", QUESTIONS)
def test_return_and_escape_answer_no(calc, case):
    files = sorted((WORK / "files").iterdir())
    for key in ("Return", "Escape"):
        with opened(calc, *COMMANDS[case]):
            there = calc.windows(".")
            calc.run("xdotool", "key", key)
            check(f"{key} closes it", settled(calc, lambda now: now != there) and not tops(calc))
    assert sorted((WORK / "files").iterdir()) == files


def test_a_text_without_room_is_seen(calc):
    with opened(calc, *COMMANDS["read-as-written event"]) as top:
        buttons = [part for part in top.getWindows() if part.getProperty("DefaultButton")]
        texts = [part for part in top.getWindows() if is_a(part, "XFixedText") and part.getProperty("MultiLine")]
        assert buttons and any(map(caption, texts))
        for part in (*buttons, *filter(caption, texts)):
            size = part.getPosSize()
            part.setPosSize(0, 0, size.Width // 3, size.Height, SIZE)
            assert lacks(part) != (0, 0), caption(part)
