"""The printed page of a sheet. Mixed into Sheet."""

import re

CAUTION = "A coach's plan is not medical advice. Stop if you have chest pain, feel faint or have unusual pain."


class Pages:
    """How a sheet prints."""

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
        content.LeftText.String = _(CAUTION) + "\n" if caution else ""
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
