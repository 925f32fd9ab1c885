"""The sheet Review: one person planned against actual with a chart, then everybody. Hidden until there is a result."""

from builder import column, pc

from event.sizes import ATHLETES, athlete, top

REVIEWED = 20  # rounds of one person
HEAD, FIRST = 6, 7
LAST = FIRST + REVIEWED - 1
ALL = LAST + 3  # heading of the list of everybody


def make(book):
    sheet, _ = book.review, book.texts
    top(sheet, "Review")
    sheet.widths("A", 42, 28, 28, 28, 28, 28, 8)
    sheet.text("A4", "Person")
    sheet.merged("B4:D4", None, "input text")
    sheet.name("review_name", "B4")
    sheet.choose("B4", "results_name", "Choose a person of the sheet Results.")
    # out of sight: row of the results, row of the roster
    sheet.put("N4", '=IF($B$4="";0;MATCH($B$4;results_name;0))', "working")
    sheet.put("O4", '=IF($B$4="";0;MATCH($B$4;roster_name;0))', "working")
    who = "INDEX(roster_people;$O$4;0)"
    clock = "N(INDEX(results_clocks;$N$4;$A7))"
    for letter, head in zip("ABCDEF", ("Round", "Planned clock", "Clock", "Planned round time", "Round", "Behind plan, s")):
        sheet.text(f"{letter}{HEAD}", head, "head")
    sheet.heights(HEAD, HEAD, 9)
    sheet.numbers(f"A{FIRST}", REVIEWED)
    sheet.down(f"B{FIRST}", f'=IF($O$4=0;"";{athlete("CLOCK", who, "$A7")})', REVIEWED, "cell time")
    sheet.down(f"C{FIRST}", f'=IF($N$4=0;"";IF({clock}>0;{clock};""))', REVIEWED, "cell time")
    sheet.down(f"D{FIRST}", '=IF($B7="";"";$B7-N($B6))', REVIEWED, "cell time")
    sheet.down(f"E{FIRST}", '=IF($C7="";"";$C7-N($C6))', REVIEWED, "cell time")
    sheet.down(f"F{FIRST}", '=IF(OR($B7="";$C7="");"";ROUND(86400*($C7-$B7);0))', REVIEWED, "cell center")
    # what the chart draws: no point where there is no round
    for letter, source, head in (("N", "D", "planned"), ("O", "E", "actual")):
        sheet.text(f"{letter}{HEAD}", head, "working head")
        sheet.down(f"{letter}{FIRST}", f'=IF(${source}7="";NA();${source}7)', REVIEWED, "working")
    sheet.hide_columns("N", "O")
    chart = sheet.chart("rounds", "Line", f"H{HEAD}", (150, 100), (f"N{HEAD}:O{LAST}",), "Round times, planned and actual", "Round", None, 2,
                        labels=False, time=True)
    chart.Diagram.IncludeHiddenCells = True

    sheet.text(f"A{ALL - 1}", "Everybody", "section")
    sheet.styled(f"A{ALL - 1}:F{ALL - 1}", "section")
    heads = ("Name", "Goal", "Result", "Place", "Fade per round", "Round time variation")
    for letter, head in zip("ABCDEF", heads):
        sheet.text(f"{letter}{ALL}", head, "head")
    sheet.heights(ALL, ALL, 9)
    row = ALL + 1
    of = lambda name: f"INDEX(results_{name};ROW(A1))"
    clocks = "INDEX(results_clocks;ROW(A1);0)"
    goal = athlete("GOAL", f"INDEX(roster_people;MATCH($A{row};roster_name;0);0)", 3)
    for letter, formula, style in (("A", f'{of("name")}&""', "cell"), ("B", f'IF($A{row}="";"";{goal})', "cell center"),
                                   ("C", f'IF($A{row}="";"";{of("result")})', "cell strong"), ("D", f'IF($A{row}="";"";{of("place")})', "cell center"),
                                   ("E", f'IF(COUNT({clocks})<2;"";{pc("SCORE.FADE", clocks)})', "cell share"),
                                   ("F", f'IF(COUNT({clocks})<2;"";{pc("SCORE.STEADINESS", clocks)})', "cell share")):
        sheet.down(f"{letter}{row}", "=" + formula, ATHLETES, style)
    sheet.freeze(f"A{HEAD - 1}")
    sheet.page(f"A1:{column(12)}{row + ATHLETES - 1}", landscape=True, repeat=(1, 3))
    sheet.sheet.IsVisible = False
