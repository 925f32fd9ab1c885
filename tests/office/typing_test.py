"""What people type into the yellow cells of the workbooks: into one of each kind, what its rule lets through. Nothing may show
an error unless a sentence says what to put right: the line on top, To fix, the result, the note on the wall.

The office asks a cell's rule at the keyboard alone, so `taken` asks it here. Of an event each cell without a rule is typed
into and so many of the others; the seed is printed, PACECELLS_TEST_SEED brings the same again, a release types into all
(tests/long-runs, PACECELLS_CELLS). Uses BUILD/pacecells.oxt, its templates and BUILD/examples.
"""

import os
import random

import pytest
from com.sun.star.sheet.FormulaResult import ERROR
from com.sun.star.sheet.ValidationType import ANY, CUSTOM, DECIMAL, LIST, WHOLE
from compare import check
from event_cells import by_key, column_of
from office import type_in
from sharing import BUILD, OXT, shared

EXTENSIONS = [OXT]
CELLS = int(os.environ.get("PACECELLS_CELLS", 8))
SEED = int(os.environ.get("PACECELLS_TEST_SEED", 20_261))
PEOPLE = 3
NUMBERS = ("0", "0.5", "1", "6", "60", "500", "5000", "80%", "0:30", "5:00", "16:00", "9:00:00", "2026-03-14")
TEXTS = ("5,5 ", "x")
FIRST_ROWS = "A1:BZ60"
ASIDE = 600  # columns to the right of a cell is where its rule is asked


def inputs(document, hidden=()):
    """The first cell of each column of open cells that are alike; of sheets in sight, and of those by name."""
    found = {}
    for sheet in document.Sheets:
        if not sheet.IsVisible and sheet.Name not in hidden:
            continue
        groups = sheet.getUniqueCellFormatRanges()
        for ranges in (groups.getByIndex(index) for index in range(groups.Count)):
            if not ranges.CellStyle.startswith("pace-input"):
                continue
            for area in ranges.RangeAddresses:
                table = area.EndRow - area.StartRow >= 4  # else settings below each other
                # of columns that are alike the first two: loads by division, clocks by round
                for column in range(area.StartColumn, min(area.EndColumn, area.StartColumn + 1) + 1):
                    for row in range(area.StartRow, area.StartRow + 1 if table else area.EndRow + 1):
                        cell = sheet.getCellByPosition(column, row)
                        merged = sheet.createCursorByRange(cell)
                        merged.collapseToMergedArea()
                        if (merged.RangeAddress.StartColumn, merged.RangeAddress.StartRow) == (column, row):
                            found[sheet.Name, column, row] = cell
    return [cell for _place, cell in sorted(found.items())]


def taken(document, cell):
    """Whether the rule of the cell lets through what is in it."""
    rule = cell.Validation
    if rule.Type == ANY or cell.Type.value == "EMPTY":
        return True
    if rule.Type == LIST:
        return cell.String.lower() in [word.lower() for word in choices(document, rule)]
    if rule.Type in (DECIMAL, WHOLE):
        whole = rule.Type != WHOLE or cell.Value == int(cell.Value)
        formula = f"AND({rule.Formula1}<={cell.Value!r};{cell.Value!r}<={rule.Formula2})"
        return cell.Type.value == "VALUE" and whole and asked(cell, cell.CellAddress, formula)
    assert rule.Type == CUSTOM, f"{cell.AbsoluteName} has a rule of another kind: {rule.Type.value}"
    return asked(cell, rule.getSourcePosition(), rule.Formula1)


def asked(cell, source, formula):
    """A formula written for the cell at source, of this cell: its copies move with it."""
    sheet, place = cell.Spreadsheet, cell.CellAddress
    first, copy = (sheet.getCellByPosition(at.Column + ASIDE, at.Row) for at in (source, place))
    first.setFormula("=" + formula)
    if (source.Column, source.Row) != (place.Column, place.Row):
        sheet.copyRange(copy.CellAddress, first.RangeAddress)
    answer = copy.getError() == 0 and copy.Value == 1
    first.setFormula("")
    copy.setFormula("")
    return answer


def choices(document, rule):
    """The words of a list, which has a name or is a range such as $Lists.$J$2:$J$4."""
    title, _, cells = rule.Formula1.rpartition(".")
    listed = document.Sheets.getByName(title.strip("$'")).getCellRangeByName(cells) if title else by_key(document, cells)
    return [str(word) for row in listed.getDataArray() for word in row if word != ""]


def what_to_type(document, cell):
    """The first and the last of a list, texts, or the lowest and the highest number that is taken; and nothing."""
    rule = cell.Validation
    if rule.Type == LIST:
        words = choices(document, rule)
        return [*words[:1], *words[-1:], ""]
    if rule.Type == ANY:
        return TEXTS
    fitting = []
    for text in NUMBERS:
        type_in(cell, text)
        if taken(document, cell):
            fitting.append(text)
    return [*dict.fromkeys((*fitting[:1], *fitting[-1:])), ""]


def errors(document):
    """The cells in sight that show one; of long tables the first rows, where the people are."""
    return {part for sheet in document.Sheets if sheet.IsVisible
            for part in sheet.getCellRangeByName(FIRST_ROWS).queryFormulaCells(ERROR).RangeAddressesAsString.split(";") if part}


def walk(document, said, cells):
    """Types into each cell and takes it back. said() is a sentence that explains errors, or nothing."""
    for sheet in document.Sheets:
        sheet.unprotect("")
    before, done, wrong = errors(document), 0, []
    for cell in cells:
        formula, local = cell.Formula, cell.FormulaLocal
        for text in what_to_type(document, cell):
            type_in(cell, text)
            done += 1
            new = errors(document) - before
            if new and not said():
                wrong.append(f"{cell.AbsoluteName}, typed {text!r}: {', '.join(sorted(new))[:200]}")
        type_in(cell, local)
        if cell.Formula != formula:
            cell.setFormula(formula)
    check("after all is taken back", errors(document), before)
    check("errors that nothing explains", wrong, [])
    return done


# --- the event workbook -------------------------------------------------------------------------------------------

def small(office, example):
    """The example with its first people alone, to be quick."""
    document = office.open(BUILD / "examples" / f"{example}.ots")
    for name, first in (("roster", 2), ("results", 2)):
        area = by_key(document, name).RangeAddress
        sheet = document.Sheets[area.Sheet]
        sheet.unprotect("")
        sheet.getCellRangeByPosition(area.StartColumn, area.StartRow + first + PEOPLE, area.EndColumn, area.EndRow).clearContents(7)
    return document


def told(document):
    """The sentences that say what to put right."""
    wall = document.Sheets[by_key(document, "wall_page").RangeAddress.Sheet]
    return [by_key(document, "workout_check").String.strip(), *column_of(document, "roster", "note")[:PEOPLE],
            *column_of(document, "results", "result")[:PEOPLE], wall["A13"].String, wall["K17"].String]


@pytest.mark.parametrize("example", ("rounds", "time"))
def test_cells_of_an_event(office, example, record_property):
    print(f"PACECELLS_TEST_SEED={SEED}")
    office.watch(600 + 10 * CELLS)
    document = small(office, example)
    document.calculateAll()
    usual = told(document)
    said = lambda: any(now and now != before for before, now in zip(usual, told(document)))
    cells = inputs(document, ("Tests",))
    pages = [by_key(document, name).AbsoluteName for name in ("card_first", "judge_first")]
    free = [cell for cell in cells if cell.Validation.Type == ANY or cell.AbsoluteName in pages]
    others = [cell for cell in cells if cell not in free]
    assert len(free) > 15 and len(others) > 80
    chosen = random.Random(f"{SEED} {example}").sample(others, min(CELLS, len(others)))
    done = walk(document, said, (free if example == "rounds" else free[-7:]) + chosen)
    record_property("measured", f"{done} entries in {len(cells)} cells of an event")


def wall(document):
    return document.Sheets[by_key(document, "wall_page").RangeAddress.Sheet]


def shown_on(sheet, *cells):
    return [sheet[cell].String for cell in cells]


def test_goals_of_the_wall(office):
    """Rounds of an AMRAP, and no times: said once, where it is typed or below the table; the page is blank."""
    document = small(office, "rounds")
    document.calculateAll()
    sheet = wall(document)
    for text, goal in (("5", "5"), ("5,5", "5.5"), (" 6 ", "6"), ("0", ""), ("", "")):
        type_in(sheet["K16"], text)
        title = sheet["A15"].String
        check(f"goal shown {text!r}", (title.endswith(goal), title != "", sheet["K17"].String), (True, True, ""))
    for text in ("10:00", "1600", "x", "5+20"):
        type_in(sheet["K16"], text)
        check(f"goal shown {text!r}", (shown_on(sheet, "A15", "A18", "K15"), len(sheet["K17"].String) > 40), (["", "", "Goal shown"], True))
    type_in(sheet["K16"], "6")
    type_in(sheet["K19"], "")
    check("no division: the first", (sheet["A15"].String, sheet["A16"].String[-len("as prescribed, men"):]), ("Clock for goal 6", "as prescribed, men"))
    lowest = by_key(document, "workout.wall_from").getCellByPosition(0, 0)
    for text in ("10:00", "100"):
        type_in(lowest, text)
        check(f"lowest goal {text!r}", (shown_on(sheet, "A3", "A4", "B4"), len(sheet["A13"].String) > 40), (["", "", ""], True))
    type_in(lowest, "6,5")
    check("lowest goal", (sheet["A4"].String, "13:00" in sheet["A13"].String), ("6.5", False))
    check("no errors", errors(document), set())


def test_results_by_hand(office):
    """A slip in one row is told there, and takes nobody's place."""
    document = small(office, "rounds")
    document.calculateAll()
    at = lambda key, row=0: by_key(document, f"results_{key}").getCellByPosition(0, row)
    places = lambda: [at("place", row).String for row in range(PEOPLE)]
    usual = places()
    check("places", all(usual))
    for text in ("x", "5 min"):
        type_in(at("tiebreak"), text)
        check(f"tie-break {text!r}", (at("result").String, places()[0], [place != "" for place in places()[1:]]), ("! unreadable", "", [True] * (PEOPLE - 1)))
    type_in(at("tiebreak"), "6:40,5")  # a text here: decimals of another language
    check("a tie-break as text is a time", (at("result").String, places()), ("7+6", usual))
    for text in (" Ada Brimsole", "Ada Brimsole ", "ada brimsole"):
        type_in(at("name"), text)
        check(f"name {text!r}", (at("result").String, at("division").String), ("7+6", "scaled, women"))
    type_in(by_key(document, "roster_name").getCellByPosition(0, 0), "Ada Brimsole ")
    type_in(at("name"), "Ada Brimsole")
    check("a blank behind the name on the roster", at("result").String, "7+6")
    type_in(at("name"), "Nobody")
    check("told", at("division").String, "! on the roster once, and here once")
    check("no errors", errors(document), set())
    type_in(by_key(document, "roster_division").getCellByPosition(0, 1), "")
    check("no division", (at("result", 1).String, at("place", 1).String), ("! unreadable", ""))


def test_reps_left(office):
    document = small(office, "time")
    document.calculateAll()
    left = by_key(document, "results_left").getCellByPosition(0, 0)
    for text, fits in (("5", True), ("5000", False), ("5.5", False), ("0", False), ("x", False)):
        type_in(left, text)
        check(f"reps left {text!r}", taken(document, left), fits)


# --- one sheet each -----------------------------------------------------------------------------------------------

def test_wall_table(office):
    document = office.open(BUILD / "templates" / "en" / "wall.ots")
    document.calculateAll()
    walk(document, lambda: by_key(document, "wall_check").String, inputs(document))


def rules(document, sheet, cells):
    """Texts that a cell takes, and what is then shown; texts that it refuses."""
    for name, fitting, refused in cells:
        cell = sheet[name]
        local, formula = cell.FormulaLocal, cell.Formula
        for text in (*fitting, *refused):
            type_in(cell, text)
            check(f"{name} takes {text!r}", taken(document, cell), text in fitting)
            if text in fitting:
                check(f"{name}, typed {text!r}: errors", errors(document), set())
        type_in(cell, local)
        if cell.Formula != formula:
            cell.setFormula(formula)


def test_roster_in_one_sheet(office):
    document = office.open(BUILD / "templates" / "en" / "roster.ots")
    sheet = document.Sheets[0]
    for cell, text in (("A10", "Ada"), ("A11", "Bea"), ("F10", "120"), ("H10", "15"), ("K10", "2+14")):
        type_in(sheet[cell], text)
    rules(document, sheet, (
        ("B3", ("15:00", "1:02:30"), ("15", "4:00:00", "x")), ("B4", ("5.5", "8"), ("0", "5,5", "10:00", "7+10")),
        ("B5", ("40",), ("31.5", "0", "x")), ("B6", ("9:00",), ("5", "0:10", "61:00")), ("G3", ("15", "12.5"), ("0", "15,5", "0:15")),
        ("G4", ("1:30", "0:00"), ("100", "x")), ("G5", ("80%", "1"), ("80", "0,8")), ("G6", ("8:00", "17:00"), ("17:30", "0:00", "8")),
        ("L3", ("9",), ("8-4", "0")), ("L4", ("0:30",), ("24", "x")), ("B10", ("7", "7.5"), ("0", "7,5", "6+10", "8:00")),
        ("F10", ("98.5", "2000 m", "200 W"), ("0", "x")), ("H10", ("12",), ("0", "x")),
        ("K10", ("2+14", " 2 + 14 ", "76", "0"), ("2+40", "x", "2+"))))
    type_in(sheet["K10"], "76")
    check("reps alone as rounds and reps", sheet["L10"].String, "152")


@pytest.mark.parametrize("language, locale, refused", (("en-US", "en-US", "80,5"), ("de", "de-DE", "80.5")))
def test_day_of_tests(language, locale, refused):
    """A monitor writes 7:45.3 in every language."""
    with shared([OXT], language, language=language, locale=locale) as office:
        document = office.open(BUILD / "templates" / language[:2] / "testday.ots")
        sheet = document.Sheets[0]
        for row, cells in ((7, {"A": "Ada", "B": "Rower", "L": "row"}), (8, {"A": "Ada", "B": "Thruster"})):
            for column, text in cells.items():
                sheet[f"{column}{row}"].String = text
        type_in(sheet["D7"], "80")
        rules(document, sheet, (("C7", ("5:00", "7:45.3", "7:45,3", "1:02:30"), ("5", "0:10", "x")),))
        type_in(sheet["C7"], "5:00")
        rules(document, sheet, (("D7", ("80",), (refused, "0", "x")), ("K7", ("0", "5"), ("0:05", "x"))))
        type_in(sheet["D7"], "")
        type_in(sheet["E7"], "2000")
        for text in ("7:45.3", "7:45,3"):
            type_in(sheet["C7"], text)
            check(f"{text}: what it says", sheet["M7"].String, "1065 cal/h · 222 W · 1:56.3")
        type_in(sheet["G8"], "12")
        type_in(sheet["I8"], "8")
        rules(document, sheet, (("J8", ("30",), ("0:30", "0", "x")),))


@pytest.mark.parametrize("book", ("event", "logbook", "wall"))
def test_seconds_are_no_times(office, book):
    """To a cell of numbers a typed 0:30 is half an hour: it must not be taken for 30 s, or 0.02 of something."""
    document = office.open(BUILD / "templates" / "en" / f"{book}.ots")
    for sheet in document.Sheets:
        sheet.unprotect("")
    found = [cell for cell in inputs(document, ("Tests",)) if cell.CellStyle == "pace-input-number" and cell.Validation.Type != ANY]
    assert len(found) > 5
    for cell in found:
        type_in(cell, "0:30")
        check(f"{cell.AbsoluteName} takes 0:30", taken(document, cell), False)
        type_in(cell, "")
