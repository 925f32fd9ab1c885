"""A column of a table that people fill in."""

from dataclasses import dataclass


@dataclass
class Column:
    key: str
    label: str
    width: float
    style: str
    rule: tuple = ()  # a method of the sheet that limits what can be typed, and what it takes beside the cells
    help: str = ""

    def limit(self, sheet, cells):
        if self.rule:
            kind, *rest = self.rule
            getattr(sheet, kind)(cells, *rest)
