"""Colours, number formats and cell styles."""

from com.sun.star.table import BorderLine2
from com.sun.star.table.CellHoriJustify import CENTER, LEFT, RIGHT

# Ink on paper, and little else: every fill is light enough to print well in black and white.
INK, LINE, PALE, SOFT, ENTRY, PAPER = 0x1B2430, 0x7C8790, 0xE3E9ED, 0xF3F6F8, 0xFFF9DF, 0xFFFFFF
FAINT = 0x5F6A73  # text that may be passed over; 5 to 1 on SOFT

TIME, CLOCK, DATE, TEXT = "[M]:SS", "HH:MM", "{date}", "@"  # {date}: as the workbook's language writes dates

def _style(parent="base", **properties):
    return parent, properties


STYLES = {
    # Paper, also where the office would show cells without a colour dark
    "base": _style("Default", CharFontName="Liberation Sans", CharHeight=10, CharColor=INK, CellBackColor=PAPER, VertJustify=2),
    "title": _style(CharHeight=20, CharWeight=150),
    "stamp": _style(CharHeight=10),
    "printed at": _style("stamp", HoriJustify=RIGHT, format=f"{DATE} {CLOCK}"),
    "sentence": _style(CharHeight=10, IsTextWrapped=True),
    "section": _style(CharHeight=12, CharWeight=150, lines="b", line=INK),
    "label": _style(),
    "note": _style(CharHeight=9, IsTextWrapped=True, VertJustify=1),
    "explained": _style("note", HoriJustify=CENTER, VertJustify=3),
    "note line": _style(CharHeight=9),
    "problem line": _style(CharWeight=150),
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
    "input whole": _style("input number", format="0"),
    "input hundredths": _style("input number", format="0.00"),
    "input number shrunk": _style("input number", ShrinkToFit=True),
    "input text": _style("input", format=TEXT),
    "input text shrunk": _style("input text", ShrinkToFit=True),
    "input words": _style("input text", IsTextWrapped=True),
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
    "cell shrunk": _style("cell", ShrinkToFit=True),
    "cell center shrunk": _style("cell shrunk", HoriJustify=CENTER),
    "cell text": _style("cell", IsTextWrapped=True),
    # narrow: a long word must not break
    "column head": _style("head", CharFontName="Liberation Sans Narrow", CharHeight=10),
    "column head left": _style("column head", HoriJustify=LEFT),
    "cell small": _style("cell words", CharHeight=8),
    "cell time": _style("cell", HoriJustify=CENTER, format=TIME),
    "cell date": _style("cell", HoriJustify=CENTER, format=DATE),
    "cell clock": _style("cell", HoriJustify=CENTER, format=CLOCK),
    # a split is a time, cal/h and watts are whole numbers
    "cell rate": _style("cell", HoriJustify=CENTER, format="[<1][M]:SS;0"),
    "cell whole": _style("cell", HoriJustify=CENTER, format="0"),
    "cell tenth": _style("cell", HoriJustify=CENTER, format="0.0"),
    "cell share": _style("cell", HoriJustify=CENTER, format="0.0%"),
    "cell strong": _style("cell", CharWeight=150, HoriJustify=CENTER),
    "cell strong shrunk": _style("cell strong", CharFontName="Liberation Sans Narrow", CharHeight=11, ShrinkToFit=True),
    "input shrunk": _style("input", CharFontName="Liberation Sans Narrow", ShrinkToFit=True),
    "cell strong text": _style("cell strong", IsTextWrapped=True),
    "cell strong time": _style("cell strong", format=TIME),
    # For conditional formats; a word or a shape in the cell always says the same.
    "mark": _style("cell words", CharWeight=150, CellBackColor=PALE, lines="tblr", line=INK),
    "mark words": _style("cell words", CharWeight=150, CellBackColor=PALE, lines="tblr", line=INK),
    "mark text": _style("mark words", CharHeight=10),
    "mark center": _style("mark", HoriJustify=CENTER, CharHeight=10),
    "mark whole": _style("mark center", format="0"),
    "mark old": _style("mark center", CharHeight=9, format=DATE + '" ▲ {old}"'),
    "mark strong": _style("cell words", CharWeight=150, CharColor=PAPER, CellBackColor=INK),
    # The list of heats hangs on a wall.
    "listed": _style("cell", CharHeight=12, ShrinkToFit=True),
    "listed center": _style("listed", HoriJustify=CENTER),
    "listed strong": _style("listed center", CharWeight=150),
    "listed clock": _style("listed center", format=CLOCK),
    "listed time": _style("listed center", format=TIME),
    "first of heat": _style("listed strong", line=INK, lines="t"),
    "first of heat left": _style("listed", line=INK, lines="t", CharWeight=150),
    "blank beside": _style(CharColor=PAPER, CellBackColor=PAPER, lines="tbr", line=PAPER),
    "blank below": _style(CharColor=PAPER, lines="br", line=PAPER),
    "blank row": _style(CharColor=PAPER, lines="tblr", line=PAPER),
    "blank entry": _style(CellBackColor=ENTRY, lines="br", line=ENTRY),
    "blank strip": _style(lines="tbr", line=PAPER),
    "time shown": _style("input time"),
    "not used": _style("cell", CellBackColor=SOFT, CharColor=FAINT),
    # What hangs on a wall is read from two metres.
    "wall title": _style(CharHeight=36, CharWeight=150),
    "wall stamp": _style(CharHeight=16),
    "wall head": _style(CharFontName="Liberation Sans Narrow", CharHeight=15, CharWeight=150, IsTextWrapped=True, HoriJustify=CENTER, CellBackColor=PALE,
                        lines="tblr", line=INK),
    "wall cell": _style(CharHeight=32, HoriJustify=CENTER, lines="tblr", ShrinkToFit=True),
    "wall goal": _style("wall cell", CharWeight=150, format="[<1][M]:SS;General"),
    "wall time": _style("wall cell", format=TIME),
    # a split or a clock is a time, cal/h and rounds are numbers
    "wall value": _style("wall cell", format="[<1][M]:SS;0"),
    "wall mark": _style("wall cell", CharWeight=150, CellBackColor=PALE, lines="tblr", line=INK),
    "wall note": _style(CharHeight=13, IsTextWrapped=True, VertJustify=1),
    "blank cell": _style(CharColor=PAPER, CellBackColor=PAPER, lines="br", line=PAPER),
    # Cards.
    "card place": _style(CharHeight=12, HoriJustify=RIGHT, ShrinkToFit=True),
    "card under": _style(CharHeight=9.7, HoriJustify=CENTER, lines="b", ShrinkToFit=True),
    "card station": _style(CharFontName="Liberation Sans Narrow", CharHeight=10, HoriJustify=RIGHT, ParaLeftMargin=0, ShrinkToFit=True),
    # Not every Linux has the narrow font; without it a clock of five figures shrinks to 9 points.
    "card time": _style(CharFontName="Liberation Sans Narrow", CharHeight=10, CharWeight=150, HoriJustify=LEFT, ParaIndent=40,
                        ShrinkToFit=True, format=TIME),
    "card round": _style(CharHeight=9.7, HoriJustify=CENTER, lines="tblr", CellBackColor=PALE),
    "card clock": _style(CharFontName="Liberation Sans Narrow", CharHeight=11, CharWeight=150, HoriJustify=CENTER, lines="tblr",
                         ShrinkToFit=True, format=TIME),
    "card empty": _style(lines="br", line=PAPER, CellBackColor=PAPER),
    "card rule": _style(CharHeight=10.5, CharWeight=150, ShrinkToFit=True),
    "card stamp": _style(CharFontName="Liberation Sans Narrow", CharHeight=10, HoriJustify=RIGHT, ShrinkToFit=True),
    "card name": _style(CharHeight=16, CharWeight=150, ShrinkToFit=True),
    "card workout": _style(CharFontName="Liberation Sans Narrow", CharHeight=10, IsTextWrapped=True),
    "card line": _style(CharHeight=9.7, ShrinkToFit=True),
    "card label": _style(CharFontName="Liberation Sans Narrow", CharHeight=10, ShrinkToFit=True),
    "card value": _style(CharHeight=24, CharWeight=150, HoriJustify=CENTER, lines="t", ShrinkToFit=True),
    "card value time": _style("card value", format=TIME),
    "card words": _style(CharHeight=10, IsTextWrapped=True),
    "card strip": _style(CharHeight=9, HoriJustify=CENTER, lines="tblr"),
    "card strip time": _style("card strip", CharFontName="Liberation Sans Narrow", CharWeight=150, CharHeight=9.5),
    "judge name": _style(CharHeight=20, CharWeight=150, ShrinkToFit=True),
    "judge text": _style(CharHeight=11, ShrinkToFit=True),
    "judge lane": _style(CharHeight=13, HoriJustify=RIGHT, ShrinkToFit=True),
    "judge head": _style(CharHeight=11, CharWeight=150, HoriJustify=CENTER, CellBackColor=PALE, lines="tblr", ShrinkToFit=True),
    "judge head left": _style("judge head", HoriJustify=LEFT, ParaIndent=60),
    "judge station": _style(CharFontName="Liberation Sans Narrow", CharHeight=12, lines="tblr", HoriJustify=LEFT, ParaIndent=60, IsTextWrapped=True),
    "judge station long": _style("judge station", CharHeight=10),
    "judge count": _style(CharHeight=12, HoriJustify=CENTER, lines="tblr", ShrinkToFit=True),
    "judge box": _style(CharHeight=9.7, VertJustify=1, lines="tblr", HoriJustify=LEFT, ParaIndent=60, IsTextWrapped=True),
    "label right": _style(HoriJustify=RIGHT, ParaIndent=100),
    "first of heat clock": _style("first of heat", format=CLOCK),
    "cut right": _style(lines="r", dashed=True),
    "cut bottom": _style(lines="b", line=INK),
    "working": _style(CharHeight=9),
    "working head": _style(CharHeight=9, CharWeight=150, CellBackColor=PALE),
}


def line(color, dashed=False, width=18):
    drawn = BorderLine2()
    drawn.Color, drawn.OuterLineWidth, drawn.LineWidth, drawn.LineStyle = color, width, width, 2 if dashed else 0
    return drawn


SIDES = {"t": "TopBorder", "b": "BottomBorder", "l": "LeftBorder", "r": "RightBorder"}
