"""People onto the roster, the start list, and what is printed for them: the commands in the real office, without windows.

Uses BUILD/pacecells.oxt, its templates and BUILD/examples. What a command did is looked up in the file that it wrote or in
the workbook, never in what it says.
"""

import re
import shutil
import subprocess
import time

import pytest
from commands import run
from compare import check
from event_cells import by_key, typed
from office import named
from sharing import BUILD, OXT, folder_of

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"
TEMPLATES, EXAMPLES = BUILD / "templates" / "en", BUILD / "examples"


@pytest.fixture(scope="module", autouse=True)
def empty_folder():
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir()


@pytest.fixture
def event(office):
    document = office.open(TEMPLATES / "event.ots", AsTemplate=True)
    document.UndoManager.clear()
    return document


@pytest.fixture
def example(office):
    document = office.open(EXAMPLES / "rounds.ots", AsTemplate=True)
    document.calculateAll()
    document.UndoManager.clear()
    return document


def column(document, name, place=0):
    return [row[place] for row in by_key(document, name).getDataArray()]


def people(document):
    """All that is typed on the roster."""
    return [row for row in by_key(document, "roster_people").getFormulaArray() if any(row[:-2])]


# --- add athletes -------------------------------------------------------------------------------------------------

def test_add_athletes(office, event):
    typed(event, "workout.divisions.amount.1", "as prescribed", "scaled", "teens", "masters", across=True)
    event.UndoManager.clear()
    before = people(event)
    done, said = run(office, event, "add-athletes", List=(
        "Name;Shoes;Division;Goal;Plan for the day\n"
        "Ida Lund;38;SCALED;7+21;Easy\n"
        "\"Bo; the tall\";46;Masters;8;\n"
        " ida  lund ;;;;\n"
        "=1+1;;teens;9:30;locker\n"
        ";;;;\n"))
    assert done, said
    check("says what it did", said.split("\n")[0],
          "3 to add, 0 already on the roster, 1 twice in the list. The column Shoes is not read.")
    check("names", column(event, "roster_name")[:4], ["Ida Lund", "Bo; the tall", "=1+1", ""])
    check("a text that looks like a formula stays a text",
          by_key(event, "roster_name").getCellByPosition(0, 2).Type.value, "TEXT")
    check("every division is known, not the first alone", column(event, "roster_division")[:3], ["scaled", "masters", "teens"])
    check("plans in the workbook's words, from any language", column(event, "roster_plan")[:3], ["easy", "", "easy"])
    goals = column(event, "roster_goal")
    check("a goal as a score, in rounds, as a time", [goals[0], goals[1], round(goals[2] * 86400)], ["7+21", 8.0, 570])
    check("one step of undo", len(event.UndoManager.AllUndoActionTitles), 1)
    event.UndoManager.undo()
    check("undone", people(event), before)


def test_what_cannot_be_read_is_asked(office, event):
    """Nobody gets a full plan because a word was not understood."""
    list_ = "Name;Division;Plan;Group\nIda Lund;scaled;bad knee;C\nBo Berg;giants;;Z\n"
    before = people(event)
    for meaning, question in (("", '"bad knee" is not a plan for the day'), ("bad knee=easy", '"giants" is not one of the divisions'),
                              ("giants=scaled;Z=", '"bad knee" is not a plan for the day'),
                              ("giants=scaled;Z=;bad knee=", '"bad knee" is not a plan for the day'),
                              ("giants=scaled;Z=;bad knee=fine", '"bad knee" is not a plan for the day'),
                              ("giants=scaled;bad knee=easy", '"Z" is not one of the pace groups')):
        done, said = run(office, event, "add-athletes", List=list_, Meaning=meaning)
        check(f"{meaning!r}: asked", (done, said), (False, question + ". What is meant?"))
        check(f"{meaning!r}: nothing written", people(event), before)
    done, said = run(office, event, "add-athletes", List=list_, Meaning="giants=Scaled;BAD  knee=not today;Z=")
    assert done, said
    check("as answered", [column(event, f"roster_{name}")[:2] for name in ("division", "plan", "group")],
          [["scaled", "scaled"], ["not today", ""], ["C", ""]])


def test_rows_of_the_roster(office, event):
    run(office, event, "add-athletes", List="Ida Lund\nBo Berg")
    done, said = run(office, event, "add-athletes", List="Cy Dahl\nIDA LUND")
    check("goes below", column(event, "roster_name")[:4], ["Ida Lund", "Bo Berg", "Cy Dahl", ""])
    check("knows who is there", "1 already on the roster" in said)
    typed(event, "roster_goal", "7", row=1)
    typed(event, "roster_name", "", row=1)  # who was here left a goal behind
    run(office, event, "add-athletes", List="Dag Elm")
    check("nobody inherits a goal", (column(event, "roster_name")[:4], column(event, "roster_goal")[:4]),
          (["Ida Lund", "", "Cy Dahl", "Dag Elm"], ["", "7", "", ""]))
    check("nobody: refused", run(office, event, "add-athletes", List=" \n"), (False, "There is nobody to add yet."))


def test_a_roster_that_is_nearly_full(office, event):
    """With names doubled by hand it was written past its end."""
    by_key(event, "roster_name").setDataArray([[f"Somebody {row % 3}"] if row < 198 else [""] for row in range(200)])
    done, said = run(office, event, "add-athletes", List="\n".join(f"Athlete {i}" for i in range(1, 6)))
    assert done, said
    check("said", "No free row for 3" in said)
    check("the roster is full", column(event, "roster_name")[197:], ["Somebody 2", "Athlete 1", "Athlete 2"])
    sheet = event.Sheets[by_key(event, "roster_name").RangeAddress.Sheet]
    area = by_key(event, "roster_name").RangeAddress
    check("nothing below it", sheet.getCellByPosition(area.StartColumn, area.EndRow + 1).String, "")


def test_add_from_a_file(office, event):
    file = WORK / "list.csv"
    file.write_bytes("\ufeffNom,Division\r\nÉlodie Maï,\r\n".encode())
    run(office, event, "add-athletes", File=str(file))
    check("from a file", column(event, "roster_name")[0], "Élodie Maï")
    file.write_bytes("Name;Division\nJos\xe9 Mu\xf1oz;\n".encode("latin-1"))
    run(office, event, "add-athletes", File=str(file))
    check("from a file of an older program", column(event, "roster_name")[1], "José Muñoz")
    file.write_bytes(b"PK\x03\x04\x00\x00rubbish")
    done, said = run(office, event, "add-athletes", File=str(file))
    check("no list: refused", (done, "not a text list" in said), (False, True))
    check("no file: refused", run(office, event, "add-athletes", File=str(WORK / "nothing.csv")),
          (False, f"{WORK / 'nothing.csv'} cannot be opened."))
    check("nothing lost", column(event, "roster_name")[:3], ["Élodie Maï", "José Muñoz", ""])
    done, said = run(office, office.new(), "add-athletes", List="Ida")
    check("another workbook", (done, said.startswith("This is not an event workbook")), (False, True))


# --- the start list -----------------------------------------------------------------------------------------------

def start_list(document):
    """{name: (heat, lane)} on the sheet Results, in the order of its rows."""
    return {name: (heat, lane) for name, heat, lane in
            zip(column(document, "results_name"), column(document, "results_heat"), column(document, "results_lane")) if name}


def heats(document):
    return {row[3]: (row[0], row[1]) for row in by_key(document, "heat_list").getDataArray() if row[3]}


def test_start_list(office, example):
    for name in ("results_name", "results_heat", "results_lane", "results_clocks", "results_partial", "results_tiebreak"):
        by_key(example, name).clearContents(1 | 2 | 4)
    example.calculateAll()
    example.UndoManager.clear()
    done, said = run(office, example, "start-list")
    assert done, said
    wanted = heats(example)
    assert len(wanted) == 23
    check("everyone who starts, in the order of heat and lane", list(start_list(example).items()), list(wanted.items()))
    check("names are values", {by_key(example, "results_name").getCellByPosition(0, row).Type.value for row in range(23)}, {"TEXT"})
    check("one step of undo", len(example.UndoManager.AllUndoActionTitles), 1)

    # A result stays with the person, whatever happens to the roster.
    first, second, third = list(wanted)[:3]
    by_key(example, "results_clocks").getCellByPosition(0, 1).Value = 150 / 86400
    by_key(example, "results_clocks").getCellByPosition(0, 0).Value = 140 / 86400
    by_key(example, "results_heat").getCellByPosition(0, 0).Value = 7  # came late, and went with another heat
    for gone in (second, third):
        row = column(example, "roster_name").index(gone)
        typed(example, "roster_plan", "not today", row=row)
    run(office, example, "add-athletes", List="Zelda Nordwind;scaled, women")
    example.calculateAll()
    done, said = run(office, example, "start-list")
    assert done, said
    after, now = start_list(example), heats(example)
    check("who has a result stays", (second in after, by_key(example, "results_clocks").getCellByPosition(0, 1).Value,
                                     column(example, "results_name")[1]), (True, 150 / 86400, second))
    check("who has none and does not start goes", third in after, False)
    check("who came is there", after.get("Zelda Nordwind"), now["Zelda Nordwind"])
    check("who has a result stays in its heat and lane", after[first], (7, wanted[first][1]))
    check("heat and lane of all others who start", {name: after.get(name) for name in now if name != first},
          {name: place for name, place in now.items() if name != first})
    check("first keeps the row", column(example, "results_name")[0], first)


def test_start_list_refused(office, event, example):
    check("nobody", run(office, event, "start-list"),
          (False, "Nobody starts: the roster is empty, or everybody's plan is not today."))
    names = column(example, "roster_name")
    typed(example, "roster_name", names[0].upper(), row=5)
    before = start_list(example)
    done, said = run(office, example, "start-list")
    check("two of one name", (done, said.startswith(names[0] + " is on the roster twice.")), (False, True))
    check("nothing written", start_list(example), before)
    typed(example, "roster_name", names[5], row=5)
    typed(example, "results_name", column(example, "results_name")[0], row=1)
    done, said = run(office, example, "start-list")
    check("two of one name on Results", (done, "is on the sheet Results twice" in said), (False, True))


# --- prints -------------------------------------------------------------------------------------------------------

def pages(pdf):
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True, check=True).stdout
    for trouble in ("###", "Err:", "#N/A", "#VALUE", "#NAME", "#REF"):
        check(f"{pdf.name}: no {trouble}", trouble in text, False)
    return text.split("\f")[:-1]


def on(page, names):
    """Those of the names that are on the page, in its order; a judge's name is on another page's list only."""
    return sorted((name for name in names if re.search(rf"^\W*{re.escape(name)}\s", page, re.M)), key=page.index)


def test_print_pack(office, example):
    starters = list(heats(example))
    data = people(example)
    done, said = run(office, example, "print-pack", File=str(WORK / "pack.pdf"))
    assert done, said
    printed = pages(WORK / "pack.pdf")
    check("wall 2, heats 1, cards 6, judges 12", len(printed), 2 + 1 + 6 + 12)
    check("the heats", all(name in printed[2] for name in starters))
    for page in range(6):
        check(f"cards, page {page}", on(printed[3 + page], starters), starters[4 * page:4 * page + 4])
    for page in range(12):
        check(f"judges, page {page}", on(printed[9 + page], starters), starters[2 * page:2 * page + 2])
    check("pages are counted through", [bool(re.search(rf"page {k + 1} of 21", page)) for k, page in enumerate(printed)],
          [True] * 21)
    check("no personal goal on what hangs in public", "Take the lower row" in "".join(printed[:3]), False)
    check("no card for who does not start, who judges", ["Vesna Hollowmick" in "".join(part) for part in (printed[3:9], printed[2:3])],
          [False, True])
    check("the people are as they were", people(example), data)

    # Only what changed.
    check("nothing changed", run(office, example, "print-changed", File=str(WORK / "none.pdf")),
          (False, "Nothing changed since the last print."))
    check("no file", (WORK / "none.pdf").exists(), False)
    name = starters[5]
    typed(example, "roster_goal", "5", row=column(example, "roster_name").index(name))
    done, said = run(office, example, "print-changed", File=str(WORK / "changed.pdf"))
    assert done, said
    changed = pages(WORK / "changed.pdf")
    check("one card, one judge's sheet", [on(page, starters) for page in changed], [[name], [name]])
    check("with the new goal", re.search(r"^\s*5\s", changed[0], re.M) is not None)
    check("that is known now", run(office, example, "print-changed", File=str(WORK / "none.pdf"))[0], False)


def test_a_changed_announcement_gets_a_number(office, example):
    check("nothing to compare with", run(office, example, "print-changed", File=str(WORK / "none.pdf")),
          (False, "Nothing was printed yet. Print the whole pack first."))
    done, said = run(office, example, "print-pack", File=str(WORK / "first.pdf"))
    assert done and "version 2" in pages(WORK / "first.pdf")[0], said
    by_key(example, "workout.stations.load.1").getCellByPosition(0, 1).Value = 40
    for command in ("print-pack", "print-changed", "cards"):
        done, said = run(office, example, command, File=str(WORK / "none.pdf"))
        check(f"{command}: asks", (done, "since version 2 was printed" in said), (False, True))
    check("not with an old number", run(office, example, "print-pack", File=str(WORK / "none.pdf"), Announcement="2")[1],
          "Version: Needs a whole number above 2.")
    check("nothing printed, nothing counted", ((WORK / "none.pdf").exists(),
          by_key(example, "workout.announcement").getCellByPosition(0, 0).Value), (False, 2.0))
    done, said = run(office, example, "print-pack", File=str(WORK / "second.pdf"), Announcement="3")
    assert done, said
    second = pages(WORK / "second.pdf")
    check("the stamp follows", ["version 3" in page for page in second], [True] * len(second))
    check("the load is on the cards", "40 kg" in second[3 + 5])
    check("counted in the workbook", by_key(example, "workout.announcement").getCellByPosition(0, 0).Value, 3.0)
    done, said = run(office, example, "print-pack", File=str(WORK / "third.pdf"))
    check("asked once", done)


def test_a_print_by_hand_counts_too(office, example):
    """The office's own File, Print: the next print of another workout gets a number of its own."""
    example.print(named(FileName=(WORK / "by-hand.ps").as_uri(), Wait=True))
    known = example.DocumentProperties.UserDefinedProperties
    deadline = time.monotonic() + 60
    while not known.PropertySetInfo.hasPropertyByName("Pacecells printed") and time.monotonic() < deadline:
        time.sleep(0.1)
    by_key(example, "workout.stations.load.1").getCellByPosition(0, 1).Value = 40
    done, said = run(office, example, "print-pack", File=str(WORK / "none.pdf"))
    check("asks", (done, "since version 2 was printed" in said), (False, True))


def test_prints_name_nobody(office, example):
    """What is remembered of a print holds no name."""
    run(office, example, "print-pack", File=str(WORK / "pack.pdf"), Overwrite="true")
    properties = example.DocumentProperties.UserDefinedProperties
    kept = properties.getPropertyValue("Pacecells printed")
    check("digests alone", re.fullmatch(r"[0-9 .]+", kept) is not None)


def test_cards(office, example):
    starters = list(heats(example))
    divisions = dict(zip(column(example, "roster_name"), column(example, "roster_division")))
    everyone = WORK / "everyone.pdf"
    done, said = run(office, example, "cards", File=str(everyone))
    assert done, said
    printed = pages(everyone)
    check("in the order of heat and lane, four to a page", [on(page, starters) for page in printed],
          [starters[k:k + 4] for k in range(0, len(starters), 4)])

    division = divisions[starters[0]]
    some = [name for name in starters if divisions[name] == division]
    done, said = run(office, example, "cards", File=str(WORK / "division.pdf"), Who="division:" + division)
    printed = pages(WORK / "division.pdf")
    check("cards of a division", [name for page in printed for name in on(page, starters)], some)

    folder = WORK / "cards of all"
    folder.mkdir()
    done, said = run(office, example, "cards", Files="each", Folder=folder.as_uri())
    assert done, said
    check("a file each: named after the athlete", sorted(p.name for p in folder.iterdir()),
          sorted(f"{name}.pdf" for name in starters))
    for name in starters:
        alone = pages(folder / f"{name}.pdf")
        check(f"a file each: {name} alone on one page", [on(page, starters) for page in alone], [[name]])
    done, said = run(office, example, "cards", Files="each", Folder=folder.as_uri())
    check("a file each: does not replace without a yes", done, False)
    done, said = run(office, example, "cards", Files="each", Folder=folder.as_uri(), Overwrite="true",
                     Who="athlete:" + starters[1])
    check("a file each: replaces with it", done)

    file_as_folder = WORK / "a file"
    file_as_folder.write_text("not a folder")
    done, said = run(office, example, "cards", File=str(file_as_folder / "x.pdf"))
    check("no folder: refused with a sentence", (done, "could not be saved" in said), (False, True))
    check("nothing unfinished is left", [p.name for p in WORK.rglob("*.part")], [])


@pytest.mark.parametrize("name, movement", (("time", "Bike"), ("ladder", "Row")))
def test_cards_of_other_formats(office, name, movement):
    """The station's names and no errors on them, for time and with a rep scheme too."""
    document = office.open(EXAMPLES / f"{name}.ots", AsTemplate=True)
    document.calculateAll()
    starters = list(heats(document))
    done, said = run(office, document, "print-pack", File=str(WORK / f"{name}.pdf"))
    assert done, said
    cards = [page for page in pages(WORK / f"{name}.pdf") if "off by" in page]
    check("cards for everyone", sorted(who for page in cards for who in on(page, starters)), sorted(starters))
    check("stations are named", [bool(re.search(rf"off by\s+{movement}", page)) for page in cards], [True] * len(cards))


def test_no_cards(office, event, example):
    done, said = run(office, event, "cards", File=str(WORK / "empty.pdf"))
    check("a workout that is not complete", (done, said.startswith("The workout is not complete yet: ")), (False, True))
    for name in ("roster_name", "results_name"):
        by_key(example, name).clearContents(1 | 2 | 4)
    check("nobody", run(office, example, "cards", File=str(WORK / "empty.pdf")),
          (False, "Nobody starts: the roster is empty, or everybody's plan is not today."))
    check("no file", (WORK / "empty.pdf").exists(), False)
    done, said = run(office, example, "print-pack", File=str(WORK / "wall.pdf"), Overwrite="true")
    check("the pack is the wall alone", (done, said.endswith("(wall)"), len(pages(WORK / "wall.pdf"))), (True, True, 2))
    check("nothing has changed since", run(office, example, "print-changed", File=str(WORK / "wall.pdf")),
          (False, "Nothing changed since the last print."))


def test_two_hundred(office, example):
    for name in ("name", "division", "plan", "group", "goal", "answer"):
        by_key(example, f"roster_{name}").clearContents(1 | 2 | 4)
    run(office, example, "add-athletes", List="Name;Division\n" + "\n".join(
        f"Athlete {i:03};scaled, {('women', 'men')[i % 2]}" for i in range(1, 201)))
    for command, count in (("cards", 50), ("print-pack", 2 + 8 + 50 + 100)):
        start = time.monotonic()
        done, said = run(office, example, command, File=str(WORK / "two-hundred.pdf"), Overwrite="true")
        print(f"{command} for 200: {time.monotonic() - start:.1f} s")
        check(f"{command}: pages", (done, len(pages(WORK / "two-hundred.pdf"))), (True, count))
