"""A small event on four sheets, for tests of WORKOUT and ATHLETE: the block of a workout, tests, people and results.

An invented gym: a 17-minute task of ski calories, sandbags, box step-overs and ring rows.
"""

import uno

BLOCK = """
pacecells.workout | | value
version | Layout | 1
language | Language | en
format | Format | AMRAP
cap | Cap | 17:00
title | Title | Tide
steps | Steps | 3
stations | no | movement | unit | when | amount.1 | amount.2 | load.1 | load.2
divisions | | | | | as prescribed | scaled
station | 1 | | ski cal | | 14 | 12
station | 2 | Sandbags | rep | | 6 | 6 | 45 | 30
station | 3 | Box step-overs | rep | | 10 | 8
station | 4 | Ring rows | rep | | 8 | 6
station | 5
paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts
pace | 1 | | 620 | | 4
pace | 2 | 5 | | | | | yes | | 8
pace | 3 | 3
pace | 4 | 2 | | | | | yes | | 12
groups | name | erg | rep | sets
group | quick | 1.15 | 0.9 | 1.2
group | middle | 1 | 1 | 1
group | steady | 0.85 | 1.15 | 0.8
machines | unit | count
machine | ski | 4
end
"""
TESTS = """
name | ski.critical | ski.reserve | longest | longest
Name | Critical power | Reserve | Ring rows | Sandbags
Ilka Moorvane | 190 | 15000 | 14 | 11
Bero Tann | 240 | 18000 | 25 | 20
"""
ROSTER = """
name | division | plan | group | goal | answer | twice
Ilka Moorvane | scaled | full | middle | 6 | | FALSE
Bero Tann | as prescribed | | quick | | |
Cilla Feld | scaled | easy | | | |
 | scaled | | | | |
Dorn Esch | scaled | | steady | 5+Ring rows | |
"""
FIRST_ROW = 2  # of the roster's people, as people count; keys are in row 1, columns B to H


def cells(text):
    rows = [[cell.strip() for cell in line.split("|")] for line in text.strip("\n").split("\n")]
    width = max(map(len, rows))
    return [row + [""] * (width - len(row)) for row in rows]


def value(cell):
    """A number as a number, a clock as a Calc time, TRUE and FALSE as such, anything else as text."""
    if cell in ("TRUE", "FALSE"):
        return float(cell == "TRUE")
    minutes, colon, seconds = cell.partition(":")
    if colon and minutes.isdigit() and seconds.isdigit():
        return (int(minutes) * 60 + int(seconds)) / 86400
    try:
        return float(cell)
    except ValueError:
        return cell


def put(sheet, text, column=0, row=0):
    """Writes a table; the range that it fills."""
    rows = [tuple(value(cell) for cell in line) for line in cells(text)]
    block = sheet.getCellRangeByPosition(column, row, column + len(rows[0]) - 1, row + len(rows) - 1)
    block.setDataArray(tuple(rows))
    return block


def name(document, name_, block):
    if document.NamedRanges.hasByName(name_):
        document.NamedRanges.removeByName(name_)
    document.NamedRanges.addNewByName(name_, block.AbsoluteName, uno.createUnoStruct("com.sun.star.table.CellAddress"), 0)


def lay_out(document, block=BLOCK, tests=TESTS, roster=ROSTER):
    """The event in a new document: sheets Workout, Tests, Roster, and Results for formulas, which is the last."""
    document.Sheets[0].Name = "Workout"
    for place, title in enumerate(("Tests", "Roster", "Results"), 1):
        document.Sheets.insertNewByName(title, place)
    name(document, "workout", put(document.Sheets["Workout"], block))
    name(document, "tests", put(document.Sheets["Tests"], tests))
    put(document.Sheets["Roster"], roster, column=1)
    return document


def of(person, function, *arguments):
    """The formula for a person by number, 1 the first: =ATHLETE.GOAL(workout;tests;…)."""
    row = FIRST_ROW + person - 1
    parts = ["workout", "tests", "$Roster.$B$1:$H$1", f"$Roster.B{row}:H{row}", *map(str, arguments)]
    return f"=ATHLETE.{function}({';'.join(parts)})"
