"""The tests workbook's workings: a table whose columns name each other."""

import re

from builder import column

RIEGEL = 3 * (1 - 1 / 1.06)  # power falls with this power of time where time grows with distance to 1.06 (Riegel 1981)


class Columns:
    """A table: columns are added with formulas that name other columns of the same row as {key}. Those stand in the
    formula as cells, or in long tables as names that move with the row, which keeps a column's formula the same in
    all of its cells: readable, and small in the file."""

    def __init__(self, sheet, first_row, count, prefix, long=False):
        self.sheet, self.row, self.count, self.prefix, self.long = sheet, first_row, count, prefix, long
        self.cells, self.letters, self.used = {}, {}, 0

    def at(self, formula):
        return re.sub(r"\{(\w+)\}", lambda match: self.cells[match[1]], formula)

    def carry_on(self, sheet, title):
        """Further columns on another sheet: a row longer than what compression looks back on makes large files."""
        self.sheet, self.used = sheet, 0
        sheet.put("A1", title, "working head")

    def add(self, key, formula, label=None):
        letter = self.letters[key] = column(self.used)
        self.used += 1
        self.cells[key] = self._cells(key, f"${letter}")
        self.sheet.put(f"{letter}{self.row - 1}", label or key, "working head")
        if formula is None:
            self.sheet.numbers(f"{letter}{self.row}", self.count, "working")
        else:
            self.sheet.down(f"{letter}{self.row}", "=" + self.at(formula), self.count, "working")
        self.sheet.name(f"{self.prefix}_{key}", f"{letter}{self.row}:{letter}{self.row + self.count - 1}")

    def span(self, key, first, last):
        """The columns from first to last, on one sheet, as {key}."""
        self.cells[key] = self._cells(key, f"${self.letters[first]}", f"${self.letters[last]}")

    def _cells(self, key, *ends):
        if not self.long:
            return ":".join(f"{end}{self.row}" for end in ends)
        self.sheet.moving(f"its_{key}", ":".join(f"{end}1" for end in ends))
        return f"its_{key}"
