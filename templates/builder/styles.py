"""Colours, number formats and cell styles."""

from com.sun.star.table import BorderLine2
from com.sun.star.table.CellHoriJustify import CENTER, LEFT, RIGHT

# Ink on paper, and little else: every fill is light enough to print well in black and white.
INK, LINE, PALE, SOFT, ENTRY, PAPER = 0x1B2430, 0x7C8790, 0xE3E9ED, 0xF3F6F8, 0xFFF9DF, 0xFFFFFF

SERIES = ((INK, 0, 0), (0x3B6EA5, 300, 1), (LINE, 120, 2))  # ink, length of dashes, symbol

TIME, CLOCK, DATE, TEXT = "[M]:SS", "HH:MM", "YYYY-MM-DD", "@"

def _style(parent="base", **properties):
    return parent, properties


STYLES = {
    "base": _style("Default", CharFontName="Liberation Sans", CharHeight=10, CharColor=INK, VertJustify=2),
    "title": _style(CharHeight=20, CharWeight=150),
    "stamp": _style(CharHeight=10),
    "printed at": _style("stamp", HoriJustify=RIGHT, format="YYYY-MM-DD HH:MM"),
    "section": _style(CharHeight=12, CharWeight=150, lines="b", line=INK),
    "label": _style(),
    "note": _style(CharHeight=9, IsTextWrapped=True, VertJustify=1),
    "explained": _style("note", HoriJustify=CENTER, VertJustify=3),
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
    "mark whole": _style("mark center", format="0"),
    "mark old": _style("mark center", CharHeight=9, format='YYYY-MM-DD" ▲ {old}"'),
    "mark strong": _style("cell words", CharWeight=150, CharColor=PAPER, CellBackColor=INK),
    "first of heat": _style("cell", line=INK, lines="t", CharWeight=150, HoriJustify=CENTER),
    "first of heat left": _style("cell", line=INK, lines="t", CharWeight=150),
    "first of heat time": _style("first of heat", format=TIME),
    "blank beside": _style(CharColor=PAPER, CellBackColor=PAPER, lines="tbr", line=PAPER),
    "blank below": _style(CharColor=PAPER, lines="br", line=PAPER),
    "blank row": _style(CharColor=PAPER, lines="tblr", line=PAPER),
    "blank entry": _style(CellBackColor=ENTRY, lines="br", line=ENTRY),
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
