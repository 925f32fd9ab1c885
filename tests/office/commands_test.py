#!/usr/bin/python3
"""The menu commands in the real office, each through its dispatch, without windows.

    commands_test.py BUILD [PART...]    e.g. commands_test.py build/release explain

Uses BUILD/pacecells.oxt. Ends with "N passed, N failed" and fails if anything did. Expected values are the catalog's or
arithmetic that can be done on paper.
"""

import json
import re
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
SOURCES = HERE.parents[1] / "extension"
sys.path.insert(0, str(HERE.parents[1] / "templates"))
import uno  # noqa: E402
from com.sun.star.frame.DispatchResultState import SUCCESS  # noqa: E402
from office import Office, enter, error_of, named, result, type_in  # noqa: E402

BUILD = Path(sys.argv[1]).resolve()
OXT = BUILD / "pacecells.oxt"
WORK = BUILD / "office-tests"
LANGUAGES = {"en": "en-US", "de": "de-DE", "es": "es-ES", "fr": "fr-FR"}
PROTOCOL = "vnd.org.pacecells:"

passed, failed = 0, []


def check(what, got, want=True):
    """Counts one comparison."""
    global passed
    if type(got) is type(want) and got == want:
        passed += 1
    else:
        failed.append(f"{what}: got {got!r}, expected {want!r}")
        print("FAILED", failed[-1], flush=True)


def run(office, document, command, **arguments):
    """Dispatches a command without windows: (did it work, what it said)."""
    event = office.dispatch(document, PROTOCOL + command, Silent="true", **arguments)
    return event.State == SUCCESS, event.Result


def private_office(language="en"):
    return Office([OXT], WORK / f"commands-{language}", language="en-US" if language == "en" else language,
                  locale=LANGUAGES[language], reuse=True)


def commands():
    """The names in the menu, read from its registration."""
    text = (BUILD / "generated" / "Addons.xcu").read_text()
    return list(dict.fromkeys(re.findall(PROTOCOL + r"([a-z-]+)</value>", text)))


def undo_is_one_step(document, what, before, state):
    """The command's change is one step of undo, and that step takes all of it back."""
    check(f"{what}: one step of undo", len(document.UndoManager.AllUndoActionTitles), 1)
    document.UndoManager.undo()
    check(f"{what}: undone", state(), before)


# ------------------------------------------------------------------------------------------------------------------

def texts():
    """Every text in every language with the same placeholders; every mnemonic of the menu once."""
    rows = {}
    for file in sorted((SOURCES / "package" / "texts").glob("*.json")):
        rows.update(json.loads(file.read_text()))
    check("there are texts", len(rows) > 20)
    for english, others in rows.items():
        check(f"{english!r}: languages", sorted(others), ["de", "es", "fr"])
        for language, text in others.items():
            check(f"{english!r} in {language}: placeholders", sorted(re.findall(r"%\d", text)),
                  sorted(re.findall(r"%\d", english)))
            check(f"{english!r} in {language}: mnemonic", text.count("~"), english.count("~"))
            check(f"{english!r} in {language}: text", bool(text.strip()))
    used = "".join(file.read_text() for file in (SOURCES / "commands").glob("*.[ch]*"))
    unused = [english for english in rows if json.dumps(english, ensure_ascii=False) not in used and "~Pacecells" != english]
    check("texts that nothing uses", unused, [])
    labels = re.findall(r'\{"[a-z-]+", ("[^"]+")', (SOURCES / "commands" / "menu.h").read_text())
    for language in LANGUAGES:
        keys = []
        for label in map(json.loads, labels):
            text = label if language == "en" else rows[label][language]
            keys.append(text[text.index("~") + 1].lower())
        check(f"menu mnemonics in {language}, each once", sorted(keys), sorted(set(keys)))


def registration():
    """Each menu item has a command in Calc and none elsewhere, and the menu its pictures."""
    with private_office() as office:
        sheet = office.new()
        others = {}
        for kind in ("swriter", "simpress", "sdraw", "smath"):
            try:
                others[kind] = office.desktop.loadComponentFromURL(f"private:factory/{kind}", "_blank", 0,
                                                                   named(Hidden=True))
            except Exception:  # that application is not installed
                pass
        transformer = office.service("com.sun.star.util.URLTransformer")
        for command in commands():
            url = uno.createUnoStruct("com.sun.star.util.URL")
            url.Complete = PROTOCOL + command
            _, url = transformer.parseStrict(url)
            check(f"{command}: there in Calc",
                  sheet.CurrentController.Frame.queryDispatch(url, "_self", 0) is not None)
            for kind, other in others.items():
                if other:
                    check(f"{command}: silent in {kind}", other.CurrentController.Frame.queryDispatch(url, "_self", 0), None)
            for size in (16, 26):
                check(f"{command}: icon of {size}",
                      (SOURCES / "package" / "office" / "icons" / f"{command}_{size}.png").is_file())
        url.Complete = PROTOCOL + "no-such-command"
        _, url = transformer.parseStrict(url)
        check("an unknown command", sheet.CurrentController.Frame.queryDispatch(url, "_self", 0), None)


def new_workbooks():
    """The three templates open as untitled documents, and stand under File, New, Templates in our group."""
    for language in LANGUAGES:
        with private_office(language) as office:
            document = office.new()
            for kind in ("event", "tests", "wall"):
                before = [component.RuntimeUID for component in office.desktop.Components]
                check(f"{language} new-{kind}", run(office, document, f"new-{kind}"), (True, ""))
                made = [component for component in office.desktop.Components if component.RuntimeUID not in before]
                check(f"{language} new-{kind}: one document", len(made), 1)
                if made:
                    check(f"{language} new-{kind}: untitled", made[0].URL, "")
                    made[0].close(True)


def minutes():
    """The number format on every selected range, in one step."""
    with private_office() as office:
        document = office.new()
        sheet = document.Sheets[0]
        cells = sheet.getCellRangeByName("B2:C4")
        enter(sheet["B2"], "=TIME(0;2;30)")
        document.UndoManager.clear()
        document.CurrentController.select(cells)
        before = sheet["B2"].NumberFormat
        check("minutes", run(office, document, "minutes"), (True, ""))
        check("minutes: shown", sheet["B2"].String, "2:30")
        type_in(sheet["C4"], "20:00")
        check("minutes: typed", sheet["C4"].Value, 20 / 1440)
        document.UndoManager.undo()
        undo_is_one_step(document, "minutes", before, lambda: sheet["B2"].NumberFormat)


def main():
    WORK.mkdir(parents=True, exist_ok=True)
    parts = [texts, registration, new_workbooks, minutes]
    chosen = sys.argv[2:] or [part.__name__ for part in parts]
    for part in parts:
        if part.__name__ in chosen:
            part()
    print(f"{passed} passed, {len(failed)} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
