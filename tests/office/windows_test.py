"""The commands' windows on a real screen, by keyboard alone: they open, refuse at the field, do their work.

Uses BUILD/pacecells.oxt, Xvfb and xdotool. What a window says that it shows (its texts, and where they are) is
held against its picture: each is inside the window, apart from the others, and something is drawn there. Leaves pictures of every window to look at: in English, and in German at 200 % scaling.
"""

import json
import os
import time
from collections import Counter

import pytest
from languages import languages
from office import enter
from sharing import BUILD, OXT, folder_of, shared
from windows_kit import WINDOWS, Calc

SCREEN = "1400x1000"
WORK = folder_of(__file__)
OPENED = WORK / "opened"  # what the office gave to a browser
ITEMS = json.loads((BUILD / "generated" / "catalog.json").read_text())["menu"]["items"]
SUBMENUS = Counter(item["submenu"] for item in ITEMS)  # how many entries each has; "" is the menu itself


def apart(one, other):
    return one.right <= other.left or other.right <= one.left or one.bottom <= other.top or other.bottom <= one.top


@pytest.fixture(scope="module", params=(("en-US", 1), ("de", 2)), ids=("English", "German at 200 %"))
def calc(request, display):
    language, scale = request.param
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SAL_USE_VCLPLUGIN", "gen")  # looks the same on every machine, and needs no window manager
        patch.setenv("SAL_FORCEDPI", str(96 * scale))
        browser = WORK / "bin" / "xdg-open"
        browser.parent.mkdir(exist_ok=True)
        browser.write_text(f'#!/bin/sh\necho "$@" >>"{OPENED}"\n')
        browser.chmod(0o755)
        patch.setenv("PATH", str(browser.parent), prepend=os.pathsep)
        with shared([OXT], language, language=language, locale="de-DE" if language == "de" else "en-US",
                    display=display) as office:
            yield Calc(display, office, language, scale, WORK)


def test_menu_and_submenus_show_all_their_items(calc):
    """Each is opened by its letter, and what it adds to the picture is high enough for its entries."""
    def shown(before, name, items):
        until, high_enough = time.monotonic() + 10, False
        while not high_enough and time.monotonic() < until:  # the first menu takes its time
            picture = calc.picture("root", f"{name}, {calc.language}")
            width, height = picture.changed(before)
            high_enough = width > 120 * calc.scale and height > 15 * calc.scale * items
        assert high_enough, (name, width, height)
        return picture

    language = next(language for language in languages() if calc.language.startswith(language.code))
    for submenu in list(SUBMENUS)[:-1]:
        calc.focus()
        before = calc.picture("root", "no menu")
        calc.keys("F10", "p")
        menu = shown(before, "menu", len(SUBMENUS) - 1 + SUBMENUS[""])
        label = language.sentence(submenu)
        calc.keys(label[label.index("~") + 1].lower())
        shown(menu, f"menu, {submenu.replace('~', '')}", SUBMENUS[submenu])
        calc.keys("Escape", "Escape", "Escape")


@pytest.mark.parametrize("command", WINDOWS)
def test_window_opens_and_escape_closes_it(calc, command):
    """Twice. How soon is a benchmark."""
    title, keys = WINDOWS[command][calc.language]
    cell = calc.document.Sheets[0]["D5"]
    enter(cell, '=PACE.ROUND("18:00";8)')
    calc.document.CurrentController.select(cell)
    for _ in range(2):
        calc.choose(keys)
        assert calc.wait(title) is not None, "it opens"
        calc.keys("Escape")
        assert calc.wait(title, there=False) is not None, "Escape closes it"


@pytest.mark.parametrize("command", WINDOWS)
def test_everything_a_window_says_is_drawn_in_it(calc, command):
    title, keys = WINDOWS[command][calc.language]
    cell = calc.document.Sheets[0]["D5"]
    enter(cell, '=PACE.ROUND("18:00";8)')
    calc.document.CurrentController.select(cell)
    with calc.opened(title, keys) as window:
        picture, parts = calc.picture(window, title), calc.parts(title)
    assert len(parts) >= 2
    for part in parts:
        assert 0 <= part.left < part.right <= picture.width and 0 <= part.top < part.bottom <= picture.height, part
        assert picture.ink(part) > 0.005, part
    assert [(one, other) for at, one in enumerate(parts) for other in parts[:at] if not apart(one, other)] == []


@pytest.mark.parametrize("calc", [("en-US", 1)], ids=["English"], indirect=True)
def test_pace_table_is_refused_at_its_field_then_done_and_undone_in_one_step(calc):
    title, sheet = "Pace table", calc.document.Sheets[0]
    enter(sheet["D5"], "")
    calc.document.CurrentController.select(sheet["A1"])
    with calc.opened(title, "tp") as window:
        calc.keys("ctrl+a", "text abc", "Return")
        assert calc.windows(title), "refused, it is still open"
        calc.picture(window, f"{title}, refused")
        assert any("Needs a time such as 20:00" in part.name for part in calc.parts(title)), "and says why"
        calc.keys("ctrl+a", "text 18:00", "Return")  # the focus is in the field again
        assert calc.wait(title, there=False) is not None
    assert [sheet["A2"].String, sheet["B6"].String] == ["18:00", "2:15"]
    calc.focus()
    calc.keys("ctrl+z")
    time.sleep(0.5)
    assert [sheet["A2"].String, sheet["B6"].String] == ["", ""]


def test_f1_opens_the_page_of_a_function_of_ours_and_else_what_it_ever_did(calc):
    sheet, cursor = calc.document.Sheets[0], calc.document.CurrentController
    ours = calc.office.workdir / "profile" / "user" / "pacecells" / "help.html"  # leads a browser to the page

    def until(condition):
        deadline = time.monotonic() + 20
        while not condition() and time.monotonic() < deadline:
            time.sleep(0.05)
        return condition()

    def pressed(formula, *keys):
        OPENED.unlink(missing_ok=True)
        enter(sheet["D5"], formula)
        cursor.select(sheet["D5"])
        calc.focus()
        calc.keys(*keys)

    for keys, formula, page in ((["F1"], '=ROUND(ERG.CONVERT(PACE.ROUNDS("18:00";"2:15");"cal/h";"W");0)', "ERG.CONVERT"),
                                (["F2", "F1", "Escape"], '=PACE.ROUND("18:00";8)', "PACE.ROUND")):
        pressed(formula, *keys)
        assert until(OPENED.is_file) and ours.as_uri() in OPENED.read_text(), page
        language = next(language for language in languages() if calc.language.startswith(language.code))
        assert f'/help/{language.code}/index.html#{page}"' in ours.read_text()
    before = calc.windows(".")
    pressed("=SUM(1;2)", "F1")  # the office's help opens, or its window which says that it is not installed
    assert until(lambda: OPENED.is_file() or len(calc.windows(".")) > len(before))
    assert not OPENED.is_file() or ours.as_uri() not in OPENED.read_text()
    for window in set(calc.windows(".")) - set(before):
        calc.run("xdotool", "windowfocus", window)
        calc.keys("Escape")
    assert until(lambda: len(calc.windows(".")) == len(before))
    everywhere = calc.office.service("com.sun.star.ui.GlobalAcceleratorConfiguration")
    assert 768 not in [key.KeyCode for key in everywhere.getAllKeyEvents() if not key.Modifiers], "F1 of other documents"
