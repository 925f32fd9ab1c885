"""A column of a table: typed, or calculated in each row."""

from dataclasses import dataclass


@dataclass
class Column:
    key: str
    label: str
    width: float
    style: str
    formula: str = ""     # {row}: the number of the row, {key}: the letters of a column, on results {cap}, {clocks}; empty: typed
    help: str = ""
    rule: tuple = ()      # a method of the sheet that limits what can be typed, and what it takes beside the cells
    named: bool = False   # a name for it: the sheet's and the key
    shown: str = "front"  # front, folded (in a closed group), hidden

    def limit(self, sheet, cells):
        if self.rule:
            kind, *rest = self.rule
            if kind == "choose":
                rest[0] = sheet.book.words.get(rest[0], rest[0])
            getattr(sheet, kind)(cells, *rest)
