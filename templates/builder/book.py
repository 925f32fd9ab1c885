"""One workbook in the making: its styles, sheets and names."""

import re

import uno
from com.sun.star.table import CellAddress
from com.sun.star.util import CellProtection

from builder.cells import fixed, number_format, pc, place
from builder.pages import CAUTION
from builder.sheet import Planned, Sheet
from builder.styles import DATE, LINE, SIDES, STYLES, line
from builder.texts import Texts, quoted


class Book:
    """One workbook in the making."""

    def __init__(self, office, language="en"):
        self.office, self.texts = office, Texts(language)
        self.document = office.new(hidden=False)  # a hidden window freezes no panes
        self.words = {}  # of lists: where they are, by key
        self.document.enableAutomaticCalculation(False)  # nothing is worth calculating until all of it is there
        self.document.addActionLock()
        self.document.Wildcards = self.document.RegularExpressions = False  # names of people are not patterns
        self.sheets = []
        self._make_styles()

    def format(self, code):
        return number_format(self.document, code)

    def _make_styles(self):
        family = self.document.StyleFamilies.getByName("CellStyles")
        for name, (parent, properties) in STYLES.items():
            style = self.document.createInstance("com.sun.star.style.CellStyle")
            family.insertByName(self.style(name), style)
            style.ParentStyle = self.style(parent)
            properties = dict(properties)
            lines, dashed = properties.pop("lines", ""), properties.pop("dashed", False)
            drawn = line(properties.pop("line", LINE), dashed)
            for side in lines:
                setattr(style, SIDES[side], drawn)
            if "format" in properties:
                code = properties.pop("format").replace(DATE, self.texts.date)
                words = re.sub(r"\{(\w+)\}", lambda match: self.texts(match[1]), code)
                style.NumberFormat = self.format(words)
            if properties.pop("open", False):
                style.CellProtection = _protection(False)
            for key, value in properties.items():
                setattr(style, key, uno.Any("float", value) if key in ("CharHeight", "CharWeight") else value)

    @staticmethod
    def style(name):
        # without blanks, which a file writes as five letters in each of 20,000 cells
        return name if name == "Default" else f"pace {name}".replace(" ", "-")

    def make(self, lay_out):
        """Runs lay_out(book) twice: first only to learn sheets and names, which must stand before any formula
        (the office compiles every formula again for each name that comes later), then to write."""
        self.planned = []
        lay_out(self)
        names, self.planned = self.planned, None
        for sheet in self.sheets:
            sheet.create()
        for name, sheet, cells, seen_from in names:
            title = "'" + sheet.title.replace("'", "''") + "'"
            self.document.NamedRanges.addNewByName(name, f"${title}.{cells}", CellAddress(0, *seen_from), 0)
        self.made = iter(self.sheets)
        lay_out(self)

    def sheet(self, title):
        """A new sheet at the end, titled in the language of the book."""
        if self.planned is None:
            return next(self.made)
        self.sheets.append(Sheet(self, self.texts(title)))
        return Planned(self.sheets[-1])

    def answers(self, sheet, name, cell):
        """A cell with a number of ours. Where the extension is missing it is #NAME? on loading, but only if it has no
        style: the office keeps the last value of cells that have one."""
        sheet[cell].setFormula("=" + pc("CLOCK.VALUE", quoted("0:01")))
        sheet.name(name, cell)

    def unless_absent(self, answers, formula):
        """The formula, or where the extension is missing a line that says so. NOW() has the office calculate it on
        loading, and not keep what it was."""
        missing = self.texts.lit("! Pacecells is missing in this office: nothing here is recalculated. "
                                 "Install the extension and open the file again.")
        return f"IF(ISERROR({answers})+0*NOW();{missing};{formula})"

    def name(self, name, sheet, cells):
        """A named range with a fixed place: name("event_cap", sheet, "C7")."""
        if self.planned is not None:
            self.planned.append((name, sheet, fixed(cells), (0, 0)))

    def moving(self, name, sheet, cell, seen_from="A1"):
        """A name that moves with the cell that uses it: "C$1" is row 1 of the same column, as "A1" would be itself;
        seen from B1, "A1" is the cell to the left."""
        if self.planned is not None:
            self.planned.append((name, sheet, re.sub(r"(?<![$A-Z])[A-Z]+", "A", cell), place(seen_from)))

    def finish(self, title):
        """The title that File, New, Templates shows; the first sheet in front."""
        self.document.DocumentProperties.Title = self.texts(title)
        # a PDF has it for those who hear it: screen readers pass over what is below each page
        self.document.DocumentProperties.Subject = self.texts(CAUTION)
        for sheet in self.sheets:
            sheet.protect()
        while self.document.isActionLocked():
            self.document.removeActionLock()
        controller = self.document.CurrentController
        for sheet in reversed([sheet for sheet in self.sheets if sheet.sheet.IsVisible]):
            controller.setActiveSheet(sheet.sheet)
            controller.ShowGrid = False  # the lines that matter are drawn
        self.document.enableAutomaticCalculation(True)
        self.document.calculateAll()


def _protection(locked):
    protection = CellProtection()
    protection.IsLocked = locked
    return protection
