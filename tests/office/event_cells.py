"""Cells of the event workbook as NAMES.md finds them: by name, or by key as workout.cap, workout.stations.unit."""

import re

from com.sun.star.sheet.FormulaResult import ERROR
from office import type_in
from sharing import BUILD, shown

BAD = re.compile(r"###|Err:\d+|#(?:NAME|VALUE|REF|N/A|NUM|DIV)")
PARTS = {"stations": "station", "paces": "pace", "groups": "group", "machines": "machine"}


def names(document):
    return document.NamedRanges.ElementNames


def by_key(document, key):
    """The first cells of what the key stands for; a name gives all of its cells."""
    if "." not in key:
        return document.NamedRanges.getByName(key).ReferredCells
    table, *parts = key.split(".")
    block = document.NamedRanges.getByName(table).ReferredCells
    area, values = block.RangeAddress, block.getDataArray()
    sheet, keys = document.Sheets[area.Sheet], [row[0] for row in values]
    if len(parts) == 1:
        row, column = keys.index(parts[0]), values[0].index("value")
    elif parts[0] == "divisions":
        row, column = keys.index("divisions"), values[keys.index("stations")].index(".".join(parts[1:]))
    else:
        column = values[keys.index(parts[0])].index(".".join(parts[1:]))
        row = keys.index(PARTS[parts[0]])
    return sheet.getCellRangeByPosition(area.StartColumn + column, area.StartRow + row, area.EndColumn, area.EndRow)


def typed(document, key, *texts, row=0, across=False, keep=False):
    """Texts as at the keyboard, downwards or across; "" clears, or with keep leaves what is there."""
    cells = by_key(document, key)
    for step, text in enumerate(texts):
        if text or not keep:
            type_in(cells.getCellByPosition(step, row) if across else cells.getCellByPosition(0, row + step), text)


def typed_event(office, settings, divisions, stations):
    """The event workbook with this typed in it: texts by key of a setting, names of the divisions, and of each station its
    movement, unit, amounts and loads by division."""
    document = office.open(BUILD / "templates" / "en" / "event.ots")
    for key, text in settings.items():
        typed(document, f"workout.{key}", text)
    typed(document, "workout.divisions.amount.1", *divisions, across=True)
    for row, (movement, unit, amounts, loads) in enumerate(stations):
        typed(document, "workout.stations.movement", movement, row=row)
        typed(document, "workout.stations.unit", unit, row=row)
        typed(document, "workout.stations.amount.1", *amounts, row=row, across=True)
        typed(document, "workout.stations.load.1", *map(str, loads), row=row, across=True)
    return document


def rows_of(document, name):
    """What the cells of a name show."""
    return shown(by_key(document, name))[:41]


def column_of(document, table, key):
    """What a column of a table with a row of keys shows, without keys and headings."""
    cells = by_key(document, table)
    area = cells.RangeAddress
    keys = cells.getCellRangeByPosition(0, 0, area.EndColumn - area.StartColumn, 0).getDataArray()[0]
    column = keys.index(key)
    return [text for text, in shown(cells.getCellRangeByPosition(column, 2, column, 41))]


def clock(text):
    """Seconds of 2:30; 0 of anything else."""
    found = re.fullmatch(r"(\d+):(\d\d)", text)
    return int(found[1]) * 60 + int(found[2]) if found else 0


def bad_cells(document):
    """What shows an error on the sheets in sight, by itself or within a text."""
    found = []
    for sheet in document.Sheets:
        if sheet.IsVisible:
            found += [f"{cell.AbsoluteName} {cell.String}" for cell in sheet.queryFormulaCells(ERROR).Cells]
            used = sheet.createCursor()
            used.gotoStartOfUsedArea(False)
            used.gotoEndOfUsedArea(True)
            found += [f"{sheet.Name}: {value}" for row in used.getDataArray() for value in row
                      if isinstance(value, str) and BAD.search(value)]
    return found[:8]
