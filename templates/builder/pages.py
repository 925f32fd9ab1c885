"""The printed page of a sheet, and its charts. Mixed into Sheet."""

import re

from com.sun.star.awt import Rectangle, Size
from com.sun.star.chart.ChartLegendPosition import BOTTOM
from com.sun.star.chart2.SymbolStyle import NONE as NO_SYMBOL, STANDARD
from com.sun.star.drawing import LineDash
from com.sun.star.drawing.DashStyle import RECT
from com.sun.star.drawing.FillStyle import NONE as NO_FILL
from com.sun.star.drawing.LineStyle import DASH as DASHED, NONE as NO_LINE, SOLID

from builder.cells import number_format
from builder.styles import INK, LINE, TIME

SERIES = ((INK, 0, 0), (0x3B6EA5, 300, 1), (LINE, 120, 2))  # ink, length of dashes, symbol


class Pages:
    """How a sheet prints, and what it draws."""

    def page(self, cells=None, landscape=False, footer=True, repeat=None, repeat_columns=None, wide=1, tall=0,
             margin=12, centre=False, fit=None, scale=100, caution=True):
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
            self._footer(style, caution)
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

    def print_area(self, *areas):
        self.sheet.setPrintAreas(tuple(self[cells].RangeAddress for cells in areas if cells))

    def break_before(self, *rows):
        for row in rows:
            self.sheet.Rows.getByIndex(row - 1).IsStartOfNewPage = True

    def _footer(self, style, caution):
        """The caution, and below it when it was printed and which page of how many it is."""
        _, create, content = self._, self.book.document.createInstance, style.RightPageFooterContent
        warning = _("A coach's plan is not medical advice. Stop if you have chest pain, feel faint or have unusual pain.")
        content.LeftText.String = warning + "\n" if caution else ""
        content.CenterText.String = ""
        right = content.RightText
        right.String = "\n" if caution else ""
        parts = re.split(r"\{(\w+)\}", _("printed {date} {time}, page {page} of {pages}"))
        fields = {"date": "Date", "time": "Time", "page": "PageNumber", "pages": "PageCount"}
        for place, part in enumerate(parts):
            cursor = right.createTextCursor()
            cursor.gotoEnd(False)
            if place % 2:
                right.insertTextContent(cursor, create(f"com.sun.star.text.TextField.{fields[part]}"), False)
            else:
                right.insertString(cursor, part, False)
        for part in (content.LeftText, right):
            cursor = part.createTextCursor()
            cursor.gotoStart(False)
            cursor.gotoEnd(True)
            cursor.CharHeight = 9.0
        style.RightPageFooterContent = content
        style.FooterBodyDistance, style.FooterIsDynamicHeight = 200, True

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
        page = self.sheet.DrawPage
        page.getByIndex(page.Count - 1).Title = self._(title)  # what a screen reader says of it
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
