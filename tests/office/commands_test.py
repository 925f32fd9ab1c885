"""The menu commands in the real office, each through its dispatch, without windows.

Uses BUILD/pacecells.oxt. Expected values are the catalog's or arithmetic that can be done on paper.
"""

import json
import re
import zipfile
from pathlib import Path
from urllib.parse import unquote, urlparse
from xml.etree import ElementTree

import uno
from commands import LANGUAGES, PROTOCOL, TEXTS, private_office, run, used
from compare import check
from event_cells import bad_cells, by_key
from office import Office, enter, named, result, type_in
from sharing import BUILD, OXT, ROOT, alone, catalog, folder_of

SOURCES = ROOT / "extension"
WORK = folder_of(__file__)


def menu():
    """The names in the menu, read from its registration."""
    text = (BUILD / "generated" / "Addons.xcu").read_text()
    return list(dict.fromkeys(re.findall(PROTOCOL + r"([a-z-]+)</value>", text)))


def undo_is_one_step(document, what, before, state):
    """The command's change is one step of undo, and that step takes all of it back."""
    check(f"{what}: one step of undo", len(document.UndoManager.AllUndoActionTitles), 1)
    document.UndoManager.undo()
    check(f"{what}: undone", state(), before)


# ------------------------------------------------------------------------------------------------------------------

def test_mnemonics():
    """In each language, every submenu's entries have a letter, each another one; so have a window's."""
    sources = {file.name: re.sub(r'"\s*\n\s*"', "", file.read_text()) for file in (SOURCES / "commands").rglob("*.[ch]*")}
    items = json.loads((BUILD / "generated" / "catalog.json").read_text())["menu"]["items"]
    submenus = {"": list(dict.fromkeys(item["submenu"] for item in items if item["submenu"]))}
    for item in items:
        submenus.setdefault(item["submenu"], []).append(item["label"])
    assert len(submenus) > 1
    for language in LANGUAGES:
        for submenu, labels in submenus.items():
            keys = [re.findall("~(.)", TEXTS[language].sentence(label).lower()) for label in labels]
            check(f"{submenu}: mnemonics in {language}, one each", [len(letters) for letters in keys], [1] * len(labels))
            check(f"{submenu}: mnemonics in {language}, each once", len({letters[0] for letters in keys}), len(labels))
    for name, source in sources.items():
        for window in re.split(r"\b(?:Form|Dialog) \w+\(context", source)[1:]:
            window = re.split(r"\n}\n", window)[0]
            for language in LANGUAGES:
                keys = []
                for text in dict.fromkeys(map(json.loads, re.findall(r'tr\(("[^"\\\n]*~[^"\\\n]*")', window))):
                    text = TEXTS[language].sentence(text)
                    keys.append(text[text.index("~") + 1].lower())
                check(f"{name}: mnemonics of a window in {language}, each once", sorted(keys), sorted(set(keys)))


def test_registration():
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
        for command in menu():
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


def test_new_workbooks():
    """The templates open as untitled documents, and stand under File, New, Templates in our group."""
    for language in LANGUAGES:
        with private_office(language) as office:
            document = office.new()
            for kind in ("event", "wall", "roster"):
                before = [component.RuntimeUID for component in office.desktop.Components]
                check(f"{language} new-{kind}", run(office, document, f"new-{kind}"), (True, ""))
                made = [component for component in office.desktop.Components if component.RuntimeUID not in before]
                check(f"{language} new-{kind}: one document", len(made), 1)
                if made:
                    check(f"{language} new-{kind}: untitled", made[0].URL, "")
                    made[0].close(True)


def test_example_events():
    """Each example opens filled and calculated, in the words of its language; English has all of them."""
    for language in LANGUAGES:
        with private_office(language) as office:
            start = office.new()
            for example, athletes in [("rounds", 24)] + [("time", 24), ("ladder", 24)] * (language == "en"):
                check(f"{language} example {example}", run(office, start, "example-event", Example=example), (True, ""))
                document = next(component for component in office.desktop.Components if component != start)
                value = lambda name, row=0: by_key(document, name).getCellByPosition(0, row)
                listed = next(file for file in (ROOT / "templates" / "examples").glob(f"{example}.txt")).read_text()
                title = re.search(rf"\[workout.title{'' if language == 'en' else f' in {language}'}\]\n(.*)", listed)[1]
                check(f"{language} {example}: title", value("workout.title").String, title)
                check(f"{language} {example}: format", value("workout.format").String, value("list_format",
                      ("rounds", "time").index(example) if example != "ladder" else 0).String)
                check(f"{language} {example}: cap", value("workout.cap").String, re.search(r"\[workout.cap\]\n(.*)", listed)[1])
                units = [row[0] for row in by_key(document, "list_units").getDataArray()]
                check(f"{language} {example}: units of the list", value("workout.stations.unit").String in units)
                check(f"{language} {example}: complete", value("workout_check").String, "")
                check(f"{language} {example}: athletes", value("roster_name", athletes - 1).String != ""
                      and value("roster_name", athletes).String == "")
                goals = by_key(document, "roster").getDataArray()
                at = goals[0].index("aim")
                check(f"{language} {example}: goals", sum(row[at] != "" for row in goals[2:]) >= 18)
                check(f"{language} {example}: errors", bad_cells(document), [])
                check(f"{language} {example}: one step of undo", len(document.UndoManager.AllUndoActionTitles), 1)
                document.close(True)
            check(f"{language}: no such example", run(office, start, "example-event", Example="x")[0], False)


def test_minutes():
    """The number format on every selected range, in one step."""
    with private_office() as office:
        document = office.new()
        sheet = document.Sheets[0]
        cells = sheet.getCellRangeByName("B2:C4")
        enter(sheet["B2"], "=TIME(0;2;30)")
        check("minutes: a time", result(sheet["B2"]), 150 / 86400)
        document.UndoManager.clear()
        document.CurrentController.select(cells)
        before = sheet["B2"].NumberFormat
        check("minutes", run(office, document, "minutes"), (True, ""))
        check("minutes: shown", sheet["B2"].String, "2:30")
        type_in(sheet["C4"], "20:00")
        check("minutes: typed", sheet["C4"].Value, 20 / 1440)
        document.UndoManager.undo()
        undo_is_one_step(document, "minutes", before, lambda: sheet["B2"].NumberFormat)


def test_minutes_read_anew():
    """2:30 typed into a plain cell is two and a half hours; asked, it becomes 2 min 30 s, and only such cells do."""
    with private_office() as office:
        document = office.new()
        sheet = document.Sheets[0]
        for name, typed in (("B1", "2:30"), ("B2", "20:00"), ("B3", "7"), ("B4", "text"), ("B5", "0:00"), ("B6", "1:02:30"),
                            ("C1", "2:30")):
            type_in(sheet[name], typed)
        enter(sheet["B7"], "=B1*2")
        document.CurrentController.select(sheet.getCellRangeByName("B1:B7"))
        before = sheet["B1"].String
        good, text = run(office, document, "minutes")
        check(f"minutes: asks first: {text!r}", (good, "(cells: 2)" in text, sheet["B1"].String), (False, True, before))
        document.UndoManager.clear()
        check("minutes: not anew", run(office, document, "minutes", ReadAnew="false"), (True, ""))
        check("minutes: not anew, shown", sheet["B1"].String, "150:00")
        undo_is_one_step(document, "minutes, not anew", before, lambda: sheet["B1"].String)
        document.UndoManager.clear()
        check("minutes: anew", run(office, document, "minutes", ReadAnew="true"), (True, ""))
        check("minutes: anew, shown", [sheet[f"B{row}"].String for row in range(1, 8)],
              ["2:30", "20:00", "10080:00", "text", "0:00", "62:30", "5:00"])
        check("minutes: what is not selected stays", close_to(sheet["C1"].Value, 2.5 / 24))
        check("minutes: a second time there is nothing to read anew", run(office, document, "minutes"), (True, ""))
        document.UndoManager.undo()
        undo_is_one_step(document, "minutes, anew", before, lambda: sheet["B1"].String)


def block(sheet, name):
    """What stands in a block of cells, row by row."""
    cells = sheet.getCellRangeByName(name)
    address = cells.RangeAddress
    return [[result(cells.getCellByPosition(x, y)) for x in range(address.EndColumn - address.StartColumn + 1)]
            for y in range(address.EndRow - address.StartRow + 1)]


def close_to(got, want):
    return isinstance(got, float) and abs(got - want) <= 1e-9 * max(1, abs(want))


def test_pace_table():
    """8 to 10 rounds in 20:00 are 2:30, 2:13.3 and 2:00 each; 15 cal beside 90 s leave 60 s of 2:30: 900 cal/h."""
    with private_office() as office:
        document = office.new()
        sheet = document.Sheets[0]
        document.CurrentController.select(sheet["B3"])
        document.UndoManager.clear()
        check("pace table", run(office, document, "pace-table", From="8", To="10", Calories="15", Other="90"),
              (True, ""))
        rows = block(sheet, "B6:E8")
        want = [[8, 150, 600, 900], [9, 1200 / 9, 5 * 1200 / 9, 15 * 3600 / (1200 / 9 - 90)], [10, 120, 600, 1800]]
        for got, (goal, round_time, half, need) in zip(rows, want):
            check(f"pace table, {goal} rounds", [close_to(got[0], goal), close_to(got[1], round_time / 86400),
                                                 close_to(got[2], half / 86400), close_to(got[3], need)], [True] * 4)
        check("pace table: shown", [sheet["B4"].String, sheet["C6"].String, sheet["D6"].String, sheet["E6"].String],
              ["20:00", "2:30", "10:00", "900"])
        type_in(sheet["B4"], "18:00")
        check("pace table: goes on calculating", sheet["C6"].String, "2:15")
        document.UndoManager.undo()
        check("pace table: asks before overwriting",
              run(office, document, "pace-table")[0], False)
        check("pace table: no", run(office, document, "pace-table", Overwrite="false"), (True, ""))
        undo_is_one_step(document, "pace table", [], lambda: used(sheet))
        for arguments, sentence in (
                ({"Cap": "abc"}, "Cap: Needs a time such as 20:00, above 0:00 and below 4:00:00."),
                ({"Cap": "4:00:00"}, "Cap: Needs a time such as 20:00, above 0:00 and below 4:00:00."),
                ({"From": "0"}, "From rounds: Needs a number from 1 to 1000."),
                ({"From": "9", "To": "8"}, "To rounds: Needs a number from 9 to 1000."),
                ({"Step": "0.001"}, "In steps of: Needs a number from 0.01 to 1000."),
                ({"To": "1000", "Step": "0.5"}, "In steps of: That would be more than 500 rows."),
                ({"Calories": "15", "Other": "0.1"}, "Everything else per round: Needs plain seconds, such as 90."),
                ({"Calories": "nan"}, "Calories per round: Needs a number from 0.1 to 1000.")):
            check(f"pace table {arguments}", run(office, document, "pace-table", **arguments), (False, sentence))
        check("pace table: refusals leave nothing", used(sheet), [])
        document.CurrentController.select(sheet.getCellByPosition(0, sheet.Rows.Count - 3))
        check("pace table: at the edge", run(office, document, "pace-table")[0], False)
        sheet.protect("")
        document.CurrentController.select(sheet["A1"])
        check("pace table: on a protected sheet", run(office, document, "pace-table"),
              (False, "The cells here are protected. Choose another place or another sheet."))
    with private_office("de") as office:
        document = office.new()
        check("pace table with a decimal comma", run(office, document, "pace-table", Cap="2:30,5", From="1", To="1"),
              (True, ""))
        check("pace table with a decimal comma: cap", close_to(document.Sheets[0]["A2"].Value, 150.5 / 86400))
        check("pace table in German", document.Sheets[0]["A1"].String, "Zeitlimit")


def test_ergometer_table():
    """350 W are 1504.56 cal/h and 1:40; 15 cal at 900 cal/h take 60 s."""
    with private_office() as office:
        document = office.new()
        sheet = document.Sheets[0]
        document.UndoManager.clear()
        check("ergometer table", run(office, document, "ergometer-table", From="900", To="1504.56", Step="604.56"),
              (True, ""))
        check("ergometer table: shown", [[cell for cell in row] for row in
                                         ([sheet.getCellByPosition(x, y).String for x in range(4)] for y in (3, 4))],
              [["900", "174", "2:06", "1:00"], ["1504.56", "350", "1:40", "0:36"]])
        undo_is_one_step(document, "ergometer table", [], lambda: used(sheet))
        check("ergometer table: bike", run(office, document, "ergometer-table", Machine="bike"), (True, ""))
        check("ergometer table: bike heading", sheet["C3"].String, "Time for 1000 m")
        check("ergometer table: no such machine", run(office, document, "ergometer-table", Machine="boat"),
              (False, "Machine: boat is not one of the choices."))
        check("ergometer table: rates without power", run(office, document, "ergometer-table", From="300"),
              (False, "From cal/h: Needs a number from 301 to 10000."))


ALL = catalog()
CATALOG = alone(ALL)


def explain_cell(office, document, name):
    document.CurrentController.select(document.Sheets[0][name])
    return run(office, document, "explain")


def test_explain():
    """What went in, what came out, whose fault it is; the document untouched."""
    with private_office() as office:
        document = office.new()
        sheet = document.Sheets[0]
        format = document.NumberFormats.addNew("[M]:SS", uno.createUnoStruct("com.sun.star.lang.Locale"))
        sheet["B1"].NumberFormat = format
        type_in(sheet["B1"], "18:00")
        type_in(sheet["B2"], "20:00")
        sheet["B3"].Value = 8
        enter(sheet["B4"], "=1/0")
        document.NamedRanges.addNewByName("our_cap", "$Sheet1.$B$1", uno.createUnoStruct(
            "com.sun.star.table.CellAddress"), 0)
        cases = {
            # value, and how a time is shown
            "=PACE.ROUND(B1;B3)": ["cap: 18:00 (B1)", "goal: 8 (B3)", "reps_per_round: left out", "Gives: 2:15",
                                   "This is a time", "Source: "],
            "=PACE.ROUND(our_cap;B3)": ["cap: 18:00 (our_cap, B1)", "Gives: 2:15"],
            # inside another function, with an expression as argument, one within the other
            '=IF(B3>0;"goal "&CLOCK.TEXT(PACE.ROUND(B1;B3+1));"")': [
                "shows goal 2:00", "time: 2:00 (PACE.ROUND(B1;B3+1))", 'Gives: "2:00"', "goal: 9 (B3+1)",
                "Gives: 2:00"],
            # the trap of the unformatted cell: 20 h
            "=PACE.ROUND(B2;B3)": ["shows Err:502", "cap: 20:00:00 (B2 shows ", "Refused: cap needs a time below 4 hours"],
            '=PACE.ERGNEED("2:30";15;150)': ["shows Err:523", "No answer: ", "What it needs: "],
            "=SCORE.FORECAST(\"20:00\";{\"2:30\"};42)": ["Gives a table"],
            "=PACE.ROUND(B1;B4)": ["Not used: goal refers to B4, which shows #DIV/0!"],
            "=PACE.ROUND(B1;1/0)": ["Not used: goal shows #DIV/0! by itself."],
            "=PACE.ROUND(B1;B3;1;2)": ["Not used: it takes at most 3 arguments, and here are 4."],
            "=PACE.ROUND(B1;)": ["goal: missing", "Refused: goal is needed and was left out."],
            "=PACE.ROUND(B1;B3)+B4": ["Gives: 2:15", "The error comes from another part of the formula. B4 shows #DIV/0!."],
            "=PACE.ROUND(B1;OFFSET(B2;1;0))": ["The values above may differ."],
            '=ERG.CONVERT(1000;"cal/h";"W")&" is ""ERG.TIME(1)"" B9"': ['from: "cal/h"', "Gives: 203.394"],
        }
        for formula, wanted in cases.items():
            enter(sheet["D5"], formula)
            document.setModified(False)
            steps = len(document.UndoManager.AllUndoActionTitles)
            good, text = explain_cell(office, document, "D5")
            check(f"explain {formula}", good)
            for part in wanted:
                check(f"explain {formula}: {part!r} in {text!r}", part in text)
            check(f"explain {formula}: untouched",
                  [document.isModified(), len(document.UndoManager.AllUndoActionTitles), sheet["D5"].Formula != ""],
                  [False, steps, True])
        check("explain: no more functions than there are", explain_cell(office, document, "D5")[1].count("Source: "), 1)
        sheet.getCellRangeByName("D7:G9").setArrayFormula("=PACE.TABLE(B1;8;10;1;15;90)")
        good, text = explain_cell(office, document, "E8")
        check("explain a cell of an array", (good, "One formula fills D7:G9." in text, "cap: 18:00 (B1)" in text),
              (True, True, True))
        check("explain a number", explain_cell(office, document, "B3"),
              (False, "B3 has no formula. Select a cell that calculates something."))
        check("explain another formula", explain_cell(office, document, "B4"),
              (False, "Neither the formula in B4 nor the cells it refers to hold a Pacecells function."))
        # On another sheet, by names, one of which moves with the cell; and formulas that only hand a value on.
        document.Sheets.insertNewByName("Work it out", 1)
        work = document.Sheets[1]
        position = uno.createUnoStruct("com.sun.star.table.CellAddress")
        for row, goal in enumerate((8, 9, 10)):
            work.getCellByPosition(0, row).Value = goal
            enter(work.getCellByPosition(1, row), "=IF($Sheet1.$B$3=0;PACE.REHEARSAL(our_cap);PACE.ROUND(our_cap;row_goal))")
        position.Sheet, position.Column, position.Row = 1, 1, 0
        document.NamedRanges.addNewByName("row_goal", "$'Work it out'.$A1", position, 0)
        document.NamedRanges.addNewByName("results", "$'Work it out'.$B$1:$B$3", position, 0)
        document.calculateAll()
        for formula in ("=INDEX(results;2)", '=IF(B3=0;"";INDEX(results;2))', "=$'Work it out'.B2", "=H2*2"):
            if "H2" in formula:
                enter(sheet["H2"], "=$'Work it out'.B2")
            enter(sheet["D5"], formula)
            good, text = explain_cell(office, document, "D5")
            for part in ("D5 shows ", "Work it out.B2 shows ", "cap: 18:00 (our_cap, B1)",
                         "goal: 9 (row_goal, Work it out.A2)", "Gives: 2:00"):
                check(f"explain {formula}: {part!r} in {text!r}", good and part in text)
            check(f"explain {formula}: not the branch not taken", "REHEARSAL: " in text, False)
        components = len(list(office.desktop.Components))
        for function in CATALOG:
            enter(sheet["D5"], function["formula"])
            good, text = explain_cell(office, document, "D5")
            check(f"explain {function['name']}", good and "Gives" in text and function["source"] in text and all(
                f"  {parameter['name']}: " in text for parameter in function["parameters"]))
        check("explain: leaves no document open", len(list(office.desktop.Components)), components)
    with private_office("de") as office:
        document = office.new()
        enter(document.Sheets[0]["D5"], '=PACE.ROUND("18:00";8.5)')
        good, text = explain_cell(office, document, "D5")
        check(f"explain in German: {text!r}", good and "goal: 8,5" in text and "Ergibt: 2:07.1" in text)
        enter(document.Sheets[0]["D5"], '=PACE.ROUND("25:00:00";8)')
        good, text = explain_cell(office, document, "D5")
        check(f"refused in German: {text!r}", good and "Abgelehnt: cap braucht eine Zeit unter 4 Stunden: " in text
              and "Was sie braucht: Zeitlimit und Ziel über 0." in text and "Quelle: Reine Rechnung." in text)


def test_help_pages():
    """A page for each function and workbook in each language, every link in them good, and the way to it."""
    for language in LANGUAGES:
        with private_office(language) as office:
            good, url = run(office, office.new(), "help")
            folder = Path(unquote(urlparse(url).path)).parent
            check(f"help in {language}", good and folder.name == language and urlparse(url).fragment == "contents")
            document = office.new()
            enter(document.Sheets[0]["D5"], '=ROUND(ERG.CONVERT(PACE.ROUNDS("18:00";"2:15");"cal/h";"W");0)')
            document.CurrentController.select(document.Sheets[0]["D5"])
            good, url = run(office, document, "help")
            check(f"help on the function of a cell in {language}", good and urlparse(url).fragment, "ERG.CONVERT")
        names = {"contents", "first-steps", "heat-day", "event", "logbook", "tests", "wall", "roster", *menu()} | \
            {function["name"] for function in ALL}
        text = (folder / "index.html").read_text()
        try:
            body = ElementTree.fromstring(re.sub(r"<(meta|link|input|img)([^>]*)>", r"<\1\2/>",
                                                 text.removeprefix("<!DOCTYPE html>"))).find("body")
        except ElementTree.ParseError as error:
            check(f"help {language}: {error}", False)
            continue
        pages = {page.get("id"): page for page in body.findall("section")}
        check(f"help in {language}: pages", sorted(pages), sorted(names))
        for function in ALL:
            page = pages[function["name"]]
            said = {"".join(part.itertext()) for part in page.iter()}
            answer = TEXTS[language].number(function["answer"])
            for part in (function["synopsis"], function["formula"], answer,
                         *(TEXTS[language].of_function(function, key) for key in ("domain", "source"))):
                check(f"help {language} {function['name']}: {part}", part in said)
    with private_office() as office:
        good, text = run(office, office.new(), "about")
        version = re.search(r'version value="([^"]+)"', (BUILD / "generated" / "description.xml").read_text())[1]
        check("about", good and text.startswith(f"Pacecells {version}\n") and "chest pain" in text)


def children(content):
    """Titles of what is inside a content of the office's broker, with their addresses."""
    command = uno.createUnoStruct("com.sun.star.ucb.Command")
    argument = uno.createUnoStruct("com.sun.star.ucb.OpenCommandArgument2")
    title = uno.createUnoStruct("com.sun.star.beans.Property")
    title.Name, title.Handle = "Title", -1
    argument.Mode, argument.Properties = 0, (title,)
    command.Name, command.Handle, command.Argument = "open", -1, argument
    rows = content.execute(command, 0, None).getStaticResultSet()
    found = {}
    while rows.next():
        found[rows.getString(1)] = rows.queryContentIdentifierString()
    return found


def template_titles(office):
    """What stands under File, New, Templates: the titles in each group."""
    templates = office.service("com.sun.star.frame.DocumentTemplates")
    templates.update()
    broker = office.service("com.sun.star.ucb.UniversalContentBroker")
    return {group: sorted(children(broker.queryContent(broker.createContentIdentifier(address))))
            for group, address in children(templates.getContent()).items()}


def test_package():
    """description.xml names what it should, and what it names is in the package; each template stands in its group."""
    with zipfile.ZipFile(OXT) as file:
        names = set(file.namelist())
        text = file.read("description.xml").decode()
        for part in ("identifier value=\"org.pacecells\"", "LibreOffice-minimal-version", "platform", "display-name"):
            check(f"description: {part}", part in text)
        for link in re.findall(r'xlink:href="([^"]+)"', text):
            check(f"description: {link}", link in names)
        manifest = file.read("META-INF/manifest.xml").decode()
        for path in re.findall(r'full-path="([^"]+)"', manifest):
            check(f"manifest: {path}", path in names)
        for name in names:
            if name.endswith((".xcu", ".xml", ".components")):
                ElementTree.fromstring(file.read(name))
    # English for everyone, and the language of the office beside it.
    for language in (*LANGUAGES, "en-GB", "pt"):
        with private_office(language) as office:
            groups = {group: titles for group, titles in template_titles(office).items() if group.startswith("Pacecells")}
            check(f"templates in {language}: groups", sorted(groups),
                  ["Pacecells"] + [f"Pacecells ({language})"] * (language in LANGUAGES and language != "en"))
            for group, titles in groups.items():
                check(f"templates in {language}, {group}: at least three, {titles}", len(titles) >= 3)


def test_upgrade():
    """A file made with an older version works in the newer one, and keeps its formulas where Pacecells is taken out."""
    older, file = WORK / "older.oxt", WORK / "made-with-older.ods"
    with zipfile.ZipFile(OXT) as new, zipfile.ZipFile(older, "w", zipfile.ZIP_DEFLATED) as old:
        for name in new.namelist():
            text = new.read(name)
            if name == "description.xml":
                text = re.sub(rb'(<(?:\w+:)?version value=)"[^"]+"', rb'\1"0.9.9"', text)
            old.writestr(name, text)

    def version(office):
        provider = office.context.getValueByName("/singletons/com.sun.star.deployment.PackageInformationProvider")
        return [version for name, version in provider.getExtensionList() if name == "org.pacecells"]

    def values(sheet):
        return [result(sheet.getCellByPosition(0, row)) for row in range(len(CATALOG))]

    office = Office([older], WORK / "upgrade")
    with office:
        check("upgrade: the older one first", version(office), ["0.9.9"])
        document = office.new()
        for row, function in enumerate(CATALOG):
            enter(document.Sheets[0].getCellByPosition(0, row), function["formula"])
        before = values(document.Sheets[0])
        document.storeToURL(file.as_uri(), ())
    office.unopkg("add", "--force", "--suppress-license", OXT)
    office.reuse = True
    with office:
        check("upgrade: the newer one alone", [text != "0.9.9" for text in version(office)], [True])
        document = office.open(file)
        document.calculateAll()
        check("upgrade: the file's values", values(document.Sheets[0]), before)
        check("upgrade: a command", run(office, document, "about")[0])
    office.unopkg("remove", "org.pacecells")
    without = WORK / "saved-without.ods"
    with office:
        check("removed", version(office), [])
        document = office.open(file)
        document.storeToURL(without.as_uri(), ())
    office.unopkg("add", "--suppress-license", OXT)
    with office:
        document = office.open(without)
        document.calculateAll()
        check("back again: values of a file saved without Pacecells", values(document.Sheets[0]), before)
