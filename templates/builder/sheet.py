"""One sheet: texts, formulas, widths and rules."""

from com.sun.star.sheet.ConditionOperator import BETWEEN, FORMULA, NONE
from com.sun.star.sheet.FillDirection import TO_BOTTOM, TO_RIGHT
from com.sun.star.sheet.ValidationAlertStyle import STOP
from com.sun.star.sheet.ValidationType import CUSTOM, DECIMAL, LIST, WHOLE
from com.sun.star.table import CellAddress

from builder.cells import address, pc, place
from builder.pages import Pages
from office import named

LEAST_SECONDS = 0.17  # of one rep, as in cell_seconds of the model; below it a number is a time
LEAST_NUMBER = 0.05  # what is neither 0 nor above it was typed as a time, 0:30 or 1:00


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


class Sheet(Pages):
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

    def array(self, cells, formula, style):
        """One formula for all cells of a range, calculated once."""
        self.styled(cells, style)
        self[cells].setArrayFormula(formula)

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

    def hide_rows(self, first, last):
        self[f"A{first}:A{last}"].Rows.IsVisible = False

    def hide_columns(self, first, last):
        self[f"{first}1:{last}1"].Columns.IsVisible = False

    def close(self, cells, direction):
        """A closed group of rows or columns, opened by the plus beside it."""
        area = self[cells].RangeAddress
        self.sheet.group(area, direction)
        self.sheet.hideDetail(area)

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
        if low == 0 and high > 1:
            self._number_or_0(cells, LEAST_NUMBER, high, message)
        else:
            self._rule(cells, DECIMAL, BETWEEN, str(low), str(high), message)

    def whole(self, cells, low, high, message):
        self._rule(cells, WHOLE, BETWEEN, str(low), str(high), message)

    def seconds(self, cells, low, high, message):
        """Only plain seconds."""
        self._number_or_0(cells, max(low, LEAST_SECONDS), high, message, with_0=low == 0)

    def _number_or_0(self, cells, low, high, message, with_0=True):
        """To a cell of numbers a typed 0:30 is half an hour, 0.02 of a day, which two limits from 0 on would take."""
        first = cells.split(":")[0]
        zero = f"{first}=0;" if with_0 else ""
        self.check(cells, f"AND(ISNUMBER({first});OR({zero}AND({first}>={low};{first}<={high})))", message)

    def clock(self, cells, low, high, message):
        """Only times between two limits. 7:45.3, as a monitor writes it, is text where the office's decimals have a comma;
        the functions read that too, and say what its limits are."""
        first = cells.split(":")[0]
        self.check(cells, f"IF(ISNUMBER({first});AND({first}>={low};{first}<={high});ISNUMBER({pc('CLOCK.VALUE', first)}))", message)

    def check(self, cells, formula, message):
        """Only what makes the formula true, written for the first cell of the range."""
        self._rule(cells, CUSTOM, FORMULA, formula, "", message)

    def hint(self, cells, title, message):
        """A note that shows while one of the cells is chosen; rules on them stay."""
        target = self[cells]
        rule = target.Validation
        rule.ShowInputMessage, rule.InputTitle, rule.InputMessage = True, self._(title), self._(message)
        target.Validation = rule

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
        rule.ErrorTitle = self._("Not accepted")
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
