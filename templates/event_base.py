"""Sizes and small parts that the sheets of the event workbook share."""

import re

from builder import column

ATHLETES, STATIONS, DIVISIONS, ROUNDS, GROUPS, TESTED = 200, 12, 6, 40, 5, 300
MACHINES = ("row", "ski", "bike", "armbike")
MOVEMENTS = 10
STRIP = 20  # rounds on the clock strip of a card
CARD_ROWS = 14

# unit, kind, machine (1 to 4), credit for one: what the cell functions know, and how the sheets treat it
REP, CAL, METRES, RUN, CARRY, STILL = 1, 2, 3, 4, 5, 6
UNITS = (("rep", REP, 0, 1), ("row cal", CAL, 1, 1), ("ski cal", CAL, 2, 1), ("bike cal", CAL, 3, 1),
         ("armbike cal", CAL, 4, 1), ("cal", CAL, 1, 1), ("row m", METRES, 1, 0), ("ski m", METRES, 2, 0),
         ("bike m", METRES, 3, 0), ("m", METRES, 1, 0), ("run m", RUN, 0, 0), ("carry m", CARRY, 0, 0),
         ("hold", STILL, 0, 0), ("rest", STILL, 0, 0))

CAUTION = ("Hard effort. Stop on chest pain, faintness or unusual pain. Screen first (PAR-Q+). Newcomers, minors, "
           "those returning and the injured: no goal and no maximal test. Local rules and licensed professionals "
           "come first.")
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


def own(sheet, prefix, **columns):
    """Names for cells of the row that uses them: own(sheet, "day", done="H") makes day_its_done. With them a column's
    formula is the same in all of its cells."""
    for key, letters in columns.items():
        sheet.moving(f"{prefix}_its_{key}", ":".join(f"${letter}1" for letter in letters.split(":")))


def stamp(sheet, title):
    """The two lines on top of every sheet: what it is, and which event, version and time it belongs to."""
    sheet.put("A1", sheet._(title), "title")
    sheet.put("A2", "=event_heading", "stamp")
    sheet.heights(1, 1, 10)


def no_athletes(sheet, cell):
    """What a sheet says where nothing can be calculated yet."""
    sheet.put(cell, "=event_hint", "hint")


def texts_clock(cell):
    """A time of day as text, the same in every language."""
    return f'TEXT(HOUR({cell});"0")&":"&TEXT(MINUTE({cell});"00")'
