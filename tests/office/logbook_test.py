"""The logbook: what is in the workbook, and the commands that fill it and take from it, in the real office.

Uses BUILD/pacecells.oxt and its templates.
"""

import re

import pytest
from compare import check
from sharing import BUILD, OXT, ROOT

EXTENSIONS = [OXT]
TEMPLATES = BUILD / "templates"


def area(document, name):
    return document.NamedRanges.getByName(name).ReferredCells


def rows_of(document, table):
    """The filled rows of a table, each by the keys of its columns."""
    keys, _headings, *rows = area(document, f"logbook_{table}").getDataArray()
    return [dict(zip(keys, row)) for row in rows if any(cell != "" for cell in row)]


def documented():
    """Tables, rows and keys as NAMES.md tells them."""
    text = (ROOT / "templates" / "NAMES.md").read_text(encoding="utf-8")
    lines = re.findall(r"^\| (logbook_\w+) \| (\d+) \| ([^|]+) \|$", text, re.M)
    return {name: (int(rows), keys.strip().split(", ")) for name, rows, keys in lines}


@pytest.mark.parametrize("language", ["en", "de", "es", "fr"])
def test_the_workbook_is_as_documented(office, language):
    book = office.open(TEMPLATES / language / "logbook.ots", AsTemplate=True)
    check("known by", area(book, "logbook").getDataArray(), (("pacecells.logbook", 1.0, language),))
    tables = documented()
    assert len(tables) == 7
    for name, (rows, keys) in tables.items():
        cells = area(book, name)
        check(f"keys of {name}", list(cells.getDataArray()[0]), keys)
        check(f"rows of {name}", cells.Rows.Count, rows + 2)
        check(f"the keys of {name} are hidden", cells.Rows.getByIndex(0).IsVisible, False)
    movements = rows_of(book, "movements")
    check("movements to begin with", len(movements) >= 40, True)
    check("each once", len({row["name"].lower() for row in movements}), len(movements))
    check("each says where its values come from, and has a standard",
          [row["name"] for row in movements if not (row["basis"] and row["standard"] and row["rep_s"] > 0 and row["longest"] >= 1)], [])
    units = [cell for cell, in area(book, "list_units").getDataArray()]
    check("in units of the list", {row["unit"] for row in movements} <= set(units), True)
    what = [cell for cell, in area(book, "list_what").getDataArray() if cell]
    check("what can be tested", what, [row["name"] for row in rows_of(book, "machines") + movements])
