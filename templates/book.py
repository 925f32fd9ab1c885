"""What the workbooks are built with: sheets, styles, names, lists, protection, print pages and charts,
all through the office's own API.

Texts: English is the key. `_("Round target")` gives the text in the language being built; formulas that print
words take theirs through `lit` and `say`, so that a translator finds every text in one file.
"""

import json
import re
from pathlib import Path

import uno
from com.sun.star.awt import Rectangle, Size
from com.sun.star.chart.ChartLegendPosition import BOTTOM
from com.sun.star.chart2.SymbolStyle import NONE as NO_SYMBOL, STANDARD
from com.sun.star.drawing import LineDash
from com.sun.star.drawing.DashStyle import RECT
from com.sun.star.drawing.FillStyle import NONE as NO_FILL
from com.sun.star.drawing.LineStyle import DASH as DASHED, NONE as NO_LINE, SOLID
from com.sun.star.lang import Locale
from com.sun.star.sheet.ConditionOperator import BETWEEN, FORMULA, NONE
from com.sun.star.sheet.FillDirection import TO_BOTTOM, TO_RIGHT
from com.sun.star.sheet.ValidationAlertStyle import STOP
from com.sun.star.sheet.ValidationType import CUSTOM, DECIMAL, LIST, WHOLE
from com.sun.star.table import BorderLine2, CellAddress
from com.sun.star.table.CellHoriJustify import CENTER, LEFT
from com.sun.star.util import CellProtection

from office import named

TEXTS = Path(__file__).parent / "texts"

# Ink on paper, and little else: every fill is light enough to print well in black and white.
INK, LINE, PALE, SOFT, ENTRY, PAPER = 0x1B2430, 0x7C8790, 0xE3E9ED, 0xF3F6F8, 0xFFF9DF, 0xFFFFFF

SERIES = ((INK, 0, 0), (0x3B6EA5, 300, 1), (LINE, 120, 2))  # ink, length of dashes, symbol

TIME, CLOCK, DATE, TEXT = "[M]:SS", "HH:MM", "YYYY-MM-DD", "@"


# Texts ------------------------------------------------------------------------------------------------------------

class Texts:
    """The texts of one language; English stands in where a translation is missing."""

    def __init__(self, language="en"):
        file = TEXTS / f"{language}.json"
        self.language = language
        self.known = json.loads(file.read_text(encoding="utf-8")) if file.is_file() else {}
        self.used = {}

    def __call__(self, key):
        self.used[key] = self.known.get(key, key)
        return self.used[key]

    def missing(self):
        return [] if self.language == "en" else sorted(key for key in self.used if key not in self.known)

    def lit(self, key):
        """A text as it stands in a formula."""
        return quoted(self(key))

    def say(self, key, **parts):
        """A text with {places} as a formula expression: say("round {k}", k="A1") is "round "&A1."""
        pieces = []
        for piece in re.split(r"(\{\w+\})", self(key)):
            if piece.startswith("{") and piece.endswith("}"):
                pieces.append(parts[piece[1:-1]])
            elif piece:
                pieces.append(quoted(piece))
        return "&".join(pieces)


def quoted(text):
    return '"' + text.replace('"', '""') + '"'


def pc(function, *arguments):
    """A call of a cell function under the name that files keep: pc("PACE.ROUND", "C3", "8")."""
    return f"ORG.PACECELLS.FUNCTIONS.{function.replace('.', '').upper()}({';'.join(str(a) for a in arguments)})"


def column(index):
    """The letters of a column counted from 0."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def number_format(document, code):
    """The key of a number format, given as English writes it, that follows the reader's own locale."""
    formats = document.NumberFormats
    if code == "General":
        return formats.getStandardIndex(Locale())
    return formats.addNewConverted(code, Locale("en", "US", ""), Locale())


def iso_day(cell):
    """A date as 2026-03-14 in a formula, whatever letters the reader's language has for years and days."""
    return f'IF(ISNUMBER({cell});YEAR({cell})&"-"&TEXT(MONTH({cell});"00")&"-"&TEXT(DAY({cell});"00");{cell}&"")'


def address(col, row, fixed=""):
    """A cell from 0-based places; fixed holds "c", "r" or both."""
    return ("$" if "c" in fixed else "") + column(col) + ("$" if "r" in fixed else "") + str(row + 1)


# Styles -----------------------------------------------------------------------------------------------------------

def _style(parent="base", **properties):
    return parent, properties


STYLES = {
    "base": _style("Default", CharFontName="Liberation Sans", CharHeight=10, CharColor=INK, VertJustify=2),
    "title": _style(CharHeight=20, CharWeight=150),
    "stamp": _style(CharHeight=10),
    "section": _style(CharHeight=12, CharWeight=150, lines="b", line=INK),
    "label": _style(),
    "note": _style(CharHeight=9, IsTextWrapped=True, VertJustify=1),
    "problem": _style(CharWeight=150, IsTextWrapped=True),
    "hint": _style(CharWeight=150),
    "caution": _style(CharHeight=10, CharWeight=150, IsTextWrapped=True, lines="tblr", line=INK, HoriJustify=LEFT,
                      ParaIndent=150),
    "head": _style(CharHeight=9, CharWeight=150, CellBackColor=PALE, IsTextWrapped=True, HoriJustify=CENTER,
                   lines="tblr"),
    "head left": _style("head", HoriJustify=LEFT),
    "input": _style(CellBackColor=ENTRY, lines="tblr", open=True, HoriJustify=LEFT, ParaIndent=100),
    "input center": _style("input", HoriJustify=CENTER),
    "input number": _style("input", HoriJustify=CENTER, format="General"),
    "input text": _style("input", format=TEXT),
    "input score": _style("input", HoriJustify=CENTER, format=TEXT),
    "input time": _style("input", HoriJustify=CENTER, format=TIME),
    "input clock": _style("input", HoriJustify=CENTER, format=CLOCK),
    "input date": _style("input", HoriJustify=CENTER, format=DATE),
    "input share": _style("input", HoriJustify=CENTER, format="0.#%"),
    "input head": _style("input", CharHeight=9, CharWeight=150, IsTextWrapped=True, HoriJustify=CENTER),
    "input head time": _style("input head", format=TIME),
    "input head metres": _style("input head", format='0" m"'),
    "input head calories": _style("input head", format='0" cal"'),
    "cell": _style(lines="tblr", HoriJustify=LEFT, ParaIndent=100),
    "cell center": _style("cell", HoriJustify=CENTER),
    "cell words": _style("cell", CharHeight=9, IsTextWrapped=True),
    "cell small": _style("cell words", CharHeight=8),
    "cell time": _style("cell", HoriJustify=CENTER, format=TIME),
    "cell date": _style("cell", HoriJustify=CENTER, format=DATE),
    "cell clock": _style("cell", HoriJustify=CENTER, format=CLOCK),
    "cell whole": _style("cell", HoriJustify=CENTER, format="0"),
    "cell tenth": _style("cell", HoriJustify=CENTER, format="0.0"),
    "cell share": _style("cell", HoriJustify=CENTER, format="0.0%"),
    "cell strong": _style("cell", CharWeight=150, HoriJustify=CENTER),
    "cell strong time": _style("cell strong", format=TIME),
    # For conditional formats; a word or a shape in the cell always says the same.
    "mark": _style("cell words", CharWeight=150, CellBackColor=PALE, lines="tblr", line=INK),
    "mark words": _style("cell words", CharWeight=150, CellBackColor=PALE, lines="tblr", line=INK),
    "mark center": _style("mark", HoriJustify=CENTER, CharHeight=10),
    "mark old": _style("mark center", CharHeight=9, format='YYYY-MM-DD" ▲ {old}"'),
    "mark strong": _style("cell words", CharWeight=150, CharColor=PAPER, CellBackColor=INK),
    "first of heat": _style("cell", line=INK, lines="t", CharWeight=150, HoriJustify=CENTER),
    "first of heat left": _style("cell", line=INK, lines="t", CharWeight=150),
    "first of heat time": _style("first of heat", format=TIME),
    "blank beside": _style(CharColor=PAPER, CellBackColor=PAPER, lines="tbr", line=PAPER),
    "blank below": _style(CharColor=PAPER, lines="br", line=PAPER),
    "blank row": _style(CharColor=PAPER, lines="tblr", line=PAPER),
    "blank strip": _style(lines="tbr", line=PAPER),
    "time shown": _style("input time"),
    "not used": _style("cell", CellBackColor=SOFT, CharColor=LINE),
    # What hangs on a wall is read from two metres.
    "wall title": _style(CharHeight=34, CharWeight=150),
    "wall stamp": _style(CharHeight=16),
    "wall head": _style(CharHeight=18, CharWeight=150, IsTextWrapped=True, HoriJustify=CENTER, CellBackColor=PALE,
                        lines="tblr", line=INK),
    "wall cell": _style(CharHeight=22, HoriJustify=CENTER, lines="tblr"),
    "wall goal": _style("wall cell", CharWeight=150, CharHeight=24),
    "wall time": _style("wall cell", format=TIME),
    "wall mark": _style("wall cell", CharWeight=150, CellBackColor=PALE, lines="tblr", line=INK),
    "wall note": _style(CharHeight=13, IsTextWrapped=True, VertJustify=1),
    # Cards.
    "card name": _style(CharHeight=15, CharWeight=150),
    "card line": _style(CharHeight=9.5),
    "card label": _style(CharHeight=8.5, HoriJustify=CENTER, IsTextWrapped=True, CellBackColor=PALE, lines="tlr"),
    "card value": _style(CharHeight=17, CharWeight=150, HoriJustify=CENTER, lines="blr"),
    "card words": _style(CharHeight=10, IsTextWrapped=True, VertJustify=1),
    "card strip": _style(CharHeight=9, HoriJustify=CENTER, lines="tblr"),
    "card strip time": _style("card strip", CharFontName="Liberation Sans Narrow", CharWeight=150, CharHeight=9.5),
    "cut right": _style(lines="r", dashed=True),
    "cut bottom": _style(lines="b", dashed=True),
    "working": _style(CharHeight=9),
    "working head": _style(CharHeight=9, CharWeight=150, CellBackColor=PALE),
}


def line(color, dashed=False, width=18):
    drawn = BorderLine2()
    drawn.Color, drawn.OuterLineWidth, drawn.LineWidth, drawn.LineStyle = color, width, width, 2 if dashed else 0
    return drawn


SIDES = {"t": "TopBorder", "b": "BottomBorder", "l": "LeftBorder", "r": "RightBorder"}


# The book ---------------------------------------------------------------------------------------------------------

class Book:
    """One workbook in the making."""

    def __init__(self, office, language="en"):
        self.office, self.texts = office, Texts(language)
        self.document = office.new(hidden=False)  # a hidden window freezes no panes
        self.document.enableAutomaticCalculation(False)  # nothing is worth calculating until all of it stands
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
                words = re.sub(r"\{(\w+)\}", lambda match: self.texts(match[1]), properties.pop("format"))
                style.NumberFormat = self.format(words)
            if properties.pop("open", False):
                style.CellProtection = _protection(False)
            for key, value in properties.items():
                setattr(style, key, uno.Any("float", value) if key in ("CharHeight", "CharWeight") else value)

    @staticmethod
    def style(name):
        return name if name == "Default" else f"pace {name}"

    def make(self, lay_out):
        """Runs lay_out(book) twice: first only to learn sheets and names, which must stand before any formula
        (the office compiles every formula anew for each name that comes later), then to write."""
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
        missing = self.texts.lit("! Pacecells is missing in this office: nothing here is calculated anew. "
                                 "Install the extension and open the file again.")
        return f"IF(ISERROR({answers})+0*NOW();{missing};{formula})"

    def name(self, name, sheet, cells):
        """A named range with a fixed place: name("event_cap", sheet, "C7")."""
        if self.planned is not None:
            self.planned.append((name, sheet, re.sub(r"([A-Z]+)([0-9]+)", r"$\1$\2", cells), (0, 0)))

    def moving(self, name, sheet, cell, seen_from="A1"):
        """A name that moves with the cell that uses it: "C$1" is row 1 of the same column, as "A1" would be itself;
        seen from B1, "A1" is the cell to the left."""
        if self.planned is not None:
            self.planned.append((name, sheet, re.sub(r"(?<![$A-Z])[A-Z]+", "A", cell), place(seen_from)))

    def finish(self, title):
        """The title that File, New, Templates shows; the first sheet in front."""
        self.document.DocumentProperties.Title = self.texts(title)
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


class Nothing:
    """Takes any call, any attribute, any place, and does nothing."""

    def __getattr__(self, _):
        return self

    def __setattr__(self, _, value):
        pass

    def __call__(self, *_, **__):
        return self

    def __getitem__(self, _):
        return self


class Planned(Nothing):
    """A sheet of the first run: only its title and its names count."""

    def __init__(self, sheet):
        self.__dict__.update(book=sheet.book, title=sheet.title, _=sheet._, name=sheet.name, page=self._page, moving=sheet.moving)

    def _page(self, cells=None, fit=None, **_):
        if fit:
            self.__dict__["name"](f"paper_{fit}", cells)


class Sheet:
    """One sheet: texts, formulas, widths, rules and its printed page."""

    def __init__(self, book, title):
        self.book, self.title, self._ = book, title, book.texts
        self.open = False

    def create(self):
        sheets = self.book.document.Sheets
        if self is self.book.sheets[0]:
            sheets.getByIndex(0).setName(self.title)
        else:
            sheets.insertNewByName(self.title, sheets.Count)
        self.sheet = sheets.getByName(self.title)
        self.sheet.getCellRangeByName("A1:AMJ2000").CellStyle = self.book.style("base")

    def __getitem__(self, cells):
        return self.sheet.getCellRangeByName(cells)

    # Content

    def styled(self, cells, style):
        self[cells].CellStyle = self.book.style(style)
        return self[cells]

    def put(self, cell, value, style=None):
        """A text, a number or a formula; a text that is no formula stays a text whatever it looks like."""
        target = self[cell]
        if style:
            target.CellStyle = self.book.style(style)
        if isinstance(value, str):
            if value.startswith("="):
                target.setFormula(value)
            else:
                target.setString(value)
        elif value is not None:
            target.setValue(value)
        return target

    def text(self, cell, key, style="label"):
        return self.put(cell, self._(key), style)

    def merged(self, cells, value, style):
        self.styled(cells, style)
        self[cells].merge(True)
        return self.put(cells.split(":")[0], value)

    def row(self, cell, values, style=None):
        """Values to the right of a cell."""
        col, row = place(cell)
        for step, value in enumerate(values):
            self.put(address(col + step, row), value, style)

    def down(self, cell, formula, count, style=None):
        """A formula and its copies below, as fill-down makes them."""
        return self._fill(cell, formula, count, style, TO_BOTTOM)

    def right(self, cell, formula, count, style=None):
        return self._fill(cell, formula, count, style, TO_RIGHT)

    def _fill(self, cell, formula, count, style, direction):
        col, row = place(cell)
        end = address(col, row + count - 1) if direction == TO_BOTTOM else address(col + count - 1, row)
        cells = self[f"{cell}:{end}"]
        if style:
            cells.CellStyle = self.book.style(style)
        self.put(cell, formula)
        if count > 1:
            cells.fillAuto(direction, 1)
        return f"{cell}:{end}"

    def block(self, cell, formula, rows, columns, style=None):
        """A formula over a block, filled right and then down."""
        across = self.right(cell, formula, columns, style)
        col, row = place(cell)
        cells = self[f"{cell}:{address(col + columns - 1, row + rows - 1)}"]
        if style:
            cells.CellStyle = self.book.style(style)
        if rows > 1:
            cells.fillAuto(TO_BOTTOM, 1)
        return across

    def repeat_down(self, cells, times):
        """Copies of a block of rows below itself, with row heights; doubles what there is until it is enough."""
        source = self[cells].RangeAddress
        rows, top, done = source.EndRow - source.StartRow + 1, source.StartRow, 1
        heights = [self.sheet.Rows.getByIndex(top + row).Height for row in range(rows)]
        while done < times:
            more = min(done, times - done)
            source.EndRow = top + more * rows - 1
            target = CellAddress()
            target.Sheet, target.Column, target.Row = source.Sheet, source.StartColumn, top + done * rows
            self.sheet.copyRange(target, source)
            done += more
        for row in range(rows, rows * times):
            self.sheet.Rows.getByIndex(top + row).Height = heights[row % rows]

    def numbers(self, cell, count, style="cell center", start=1):
        """1, 2, 3 … downwards."""
        col, row = place(cell)
        cells = self[f"{cell}:{address(col, row + count - 1)}"]
        cells.CellStyle = self.book.style(style)
        cells.setDataArray(tuple((float(start + i),) for i in range(count)))

    def name(self, name, cells):
        self.book.name(name, self, cells)

    def moving(self, name, cell, seen_from="A1"):
        self.book.moving(name, self, cell, seen_from)

    # Shape

    def widths(self, start, *millimetres):
        first = place(start + "1")[0]
        for step, width in enumerate(millimetres):
            self.sheet.Columns.getByIndex(first + step).Width = int(width * 100)

    def heights(self, first, last, millimetres):
        self[f"A{first}:A{last}"].Rows.Height = int(millimetres * 100)

    def freeze(self, cell):
        """Keeps what is above and left of a cell in sight; needs a window, be it one without a screen."""
        controller = self.book.document.CurrentController
        if controller:
            controller.setActiveSheet(self.sheet)
            controller.freezeAtPosition(*place(cell))

    # Rules

    def choose(self, cells, source, message):
        """Only entries of a list (a named range) are taken; what else is typed is refused with a sentence."""
        self._rule(cells, LIST, NONE, source, "", message)

    def limit(self, cells, low, high, message):
        """Only numbers between two limits, times as shares of a day."""
        self._rule(cells, DECIMAL, BETWEEN, str(low), str(high), message)

    def whole(self, cells, low, high, message):
        self._rule(cells, WHOLE, BETWEEN, str(low), str(high), message)

    def check(self, cells, formula, message):
        """Only what makes the formula true, written for the first cell of the range."""
        self._rule(cells, CUSTOM, FORMULA, formula, "", message)

    def _rule(self, cells, kind, operator, first, second, message):
        target = self[cells]
        rule = target.Validation
        rule.Type = kind
        rule.setOperator(operator)
        rule.setSourcePosition(target.getCellByPosition(0, 0).CellAddress)
        rule.setFormula1(first)
        rule.setFormula2(second)
        rule.IgnoreBlankCells = True
        rule.ErrorAlertStyle = STOP
        rule.ShowErrorMessage = True
        rule.ErrorTitle = self._("Not taken")
        rule.ErrorMessage = self._(message)
        target.Validation = rule

    def mark(self, cells, *rules):
        """Conditional formats: pairs of a formula for the first cell and a style; the first that holds wins.
        A formula names a cell of its own row, without $ before the number: of one that does not the office makes a
        cell, and each hard recalculation sets all that depends on its place to be calculated once more."""
        target = self[cells]
        entries = target.ConditionalFormat
        entries.clear()
        for formula, style in rules:
            entries.addNew(named(Operator=FORMULA, Formula1=formula, StyleName=self.book.style(style),
                                 SourcePosition=target.getCellByPosition(0, 0).CellAddress))
        target.ConditionalFormat = entries

    def protect(self):
        if not self.open:
            self.sheet.protect("")

    # Paper

    def page(self, cells=None, landscape=False, footer=True, repeat=None, repeat_columns=None, wide=1, tall=0,
             margin=12, centre=False, fit=None, scale=100):
        """How the sheet prints. Sizes are A4; with margins of 12 mm or more the same sheet fits Letter paper.
        wide, tall: pages the print is scaled to, 0 for as many as it takes; with both 0 it is scaled to so many percent
        and keeps the page breaks that were set. fit: the area gets the name paper_<fit>,
        for whoever narrows it to the rows in use."""
        if fit:
            self.name(f"paper_{fit}", cells)
        document = self.book.document
        style = document.createInstance("com.sun.star.style.PageStyle")
        name = f"pace {len(document.StyleFamilies.getByName('PageStyles').ElementNames)} {self.title}"
        document.StyleFamilies.getByName("PageStyles").insertByName(name, style)
        style.IsLandscape = landscape
        style.Width, style.Height = (29700, 21000) if landscape else (21000, 29700)
        for side in ("LeftMargin", "RightMargin", "TopMargin", "BottomMargin"):
            setattr(style, side, margin * 100)
        style.HeaderIsOn, style.FooterIsOn = False, footer
        style.CenterHorizontally = centre
        style.PrintGrid = style.PrintHeaders = False
        if wide or tall:
            style.ScaleToPagesX, style.ScaleToPagesY = wide, tall
        else:
            style.PageScale = scale
        if footer:
            self._footer(style)
        self.sheet.PageStyle = name
        self.print_area(cells)
        if repeat:
            first, last = repeat
            self.sheet.setPrintTitleRows(True)
            self.sheet.setTitleRows(self[f"A{first}:A{last}"].RangeAddress)
        if repeat_columns:
            first, last = repeat_columns
            self.sheet.setPrintTitleColumns(True)
            self.sheet.setTitleColumns(self[f"{first}1:{last}1"].RangeAddress)

    def print_area(self, cells):
        self.sheet.setPrintAreas((self[cells].RangeAddress,) if cells else ())

    def break_before(self, *rows):
        for row in rows:
            self.sheet.Rows.getByIndex(row - 1).IsStartOfNewPage = True

    def _footer(self, style):
        document, content = self.book.document, style.RightPageFooterContent
        content.LeftText.String = self._("A coach's plan is no medical advice. Stop on chest pain, faintness or "
                                         "unusual pain.")
        content.CenterText.String = ""
        right = content.RightText
        right.String = self.title + "  "
        cursor = right.createTextCursor()
        cursor.gotoEnd(False)
        right.insertTextContent(cursor, document.createInstance("com.sun.star.text.TextField.PageNumber"), False)
        for part in (content.LeftText, right):
            cursor = part.createTextCursor()
            cursor.gotoEnd(True)
            cursor.CharHeight = 8.0
        style.RightPageFooterContent = content

    # Charts

    @staticmethod
    def series(chart, index, ink, dash, symbol):
        """How one series is drawn: dash None is no line, symbol None no points."""
        drawn = chart.getFirstDiagram().getCoordinateSystems()[0].getChartTypes()[0].getDataSeries()[index]
        drawn.Color, drawn.LineWidth = ink, 70
        if dash is None:
            drawn.LineStyle = NO_LINE
        elif dash:
            drawn.LineStyle, drawn.LineDash = DASHED, LineDash(RECT, 0, 0, 1, dash, dash * 2 // 3)
        else:
            drawn.LineStyle = SOLID
        mark = drawn.Symbol
        mark.Style = NO_SYMBOL if symbol is None else STANDARD
        if symbol is not None:
            mark.StandardSymbol, mark.Size, mark.BorderColor, mark.FillColor = symbol, Size(220, 220), ink, ink
        drawn.Symbol = mark

    def chart(self, name, kind, corner, size, ranges, title, axis_x, axis_y, series, headers=True, labels=True,
              time=False):
        """A chart over ranges of this sheet; sizes in millimetres; time: the value axis reads minutes and seconds."""
        left = self[corner].Position
        box = Rectangle(left.X, left.Y, size[0] * 100, size[1] * 100)
        areas = tuple(self[part].RangeAddress for part in ranges)
        charts = self.sheet.Charts
        charts.addNewByName(name, box, areas, headers, labels)
        chart = charts.getByName(name).EmbeddedObject
        chart.Diagram = chart.createInstance(f"com.sun.star.chart.{kind}Diagram")
        chart.HasMainTitle = True
        chart.Title.String = self._(title)
        chart.Title.CharHeight = 12
        diagram = chart.Diagram
        for axis, text in (("X", axis_x), ("Y", axis_y)):
            if text:
                setattr(diagram, f"Has{axis}AxisTitle", True)
                getattr(diagram, f"{axis}AxisTitle").String = self._(text)
        chart.HasLegend = True
        chart.Legend.Alignment = BOTTOM
        chart.Legend.FillStyle, chart.Legend.LineStyle = NO_FILL, NO_LINE
        diagram.Wall.FillStyle = NO_FILL
        # told apart by dash and symbol, not by colour alone
        for index in range(series):
            ink, dash, symbol = SERIES[index % len(SERIES)]
            self.series(chart, index, ink, dash, symbol)
        if time:
            diagram.YAxis.LinkNumberFormatToSource = False
            diagram.YAxis.NumberFormat = number_format(chart, TIME)
            diagram.YAxis.AutoStepMain, diagram.YAxis.StepMain = False, 10 / 86400
        return chart


def place(cell):
    """0-based column and row of "C7"."""
    letters, row = re.fullmatch(r"\$?([A-Z]+)\$?([0-9]+)", cell).groups()
    col = 0
    for letter in letters:
        col = col * 26 + ord(letter) - 64
    return col - 1, int(row) - 1
