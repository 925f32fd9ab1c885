"""The sheet Review: one person planned against actual, the field, a test curve, and how much everybody slowed down. Hidden until the
command Review shows it.

Charts draw what is there: a series without values is not drawn, and what they draw from is out of sight beside them.
"""

from builder import column, pc
from com.sun.star.chart.ChartLegendPosition import RIGHT

from event.sizes import ATHLETES, MACHINES, athlete, top

REVIEWED = 16  # rounds of one person
FIELD = 24     # people of the field that are drawn
HEAD, FIRST = 6, 7
LAST = FIRST + REVIEWED - 1
ALL = LAST + 3  # heading of the list of everybody
MINUTES = (2, 3, 4, 6, 8, 10, 12, 15, 20)  # of the test curve


def make(book):
    sheet, _ = book.review, book.texts
    top(sheet, "Review")
    sheet.widths("A", 40, 20, 20, 20, 20, 20, 4, *[22] * 6)
    sheet.text("A4", "Person")
    sheet.merged("B4:D4", None, "input text")
    sheet.name("review_name", "B4")
    sheet.choose("B4", "results_name", "Choose a person of the sheet Results.")
    # out of sight: row of the results, of the roster, of the tests
    for letter, names in (("N", "results_name"), ("O", "roster_lane"), ("P", "tests_name")):
        sought = "TRIM($B$4)" if letter == "O" else "$B$4"
        sheet.put(f"{letter}4", f'=IF($B$4="";0;IFNA(MATCH({sought};{names};0);0))', "working")
    make_rounds(sheet)
    make_field(sheet)
    make_curve(sheet)
    sheet.name("review_charts", f"N{HEAD - 1}:S{FIRST + FIELD - 1}")
    sheet.hide_columns("N", "S")
    make_everybody(sheet)
    sheet.freeze(f"A{HEAD - 1}")
    sheet.page(f"A1:{column(12)}{ALL + ATHLETES}", landscape=True, repeat=(1, 3))
    sheet.sheet.IsVisible = False


def drawn(sheet, letter, first, count, head, formula):
    """A column out of sight that a chart draws: no point where the formula gives nothing."""
    sheet.put(f"{letter}{first - 1}", head, "working head")
    sheet.down(f"{letter}{first}", f'=IF(N({formula})>0;{formula};NA())', count, "working")


def chart(sheet, letter, title, axis):
    """What is above the two columns of a chart."""
    sheet.put(f"{letter}{HEAD - 1}", sheet._(title), "working")
    sheet.put(f"{chr(ord(letter) + 1)}{HEAD - 1}", sheet._(axis), "working")


def make_rounds(sheet):
    who, clock = "INDEX(roster_people;$O$4;0)", "N(INDEX(results_clocks;$N$4;$A7))"
    for letter, head in zip("ABCDEF", ("Round", "Planned clock", "Clock", "Planned round time", "Round", "Behind plan, s")):
        sheet.text(f"{letter}{HEAD}", head, "head")
    sheet.heights(HEAD, HEAD, 9)
    sheet.numbers(f"A{FIRST}", REVIEWED)
    sheet.down(f"B{FIRST}", f'=IF($O$4=0;"";{athlete("CLOCK", who, "$A7")})', REVIEWED, "cell time")
    sheet.down(f"C{FIRST}", f'=IF($N$4=0;"";IF({clock}>0;{clock};""))', REVIEWED, "cell time")
    sheet.down(f"D{FIRST}", '=IF($B7="";"";$B7-N($B6))', REVIEWED, "cell time")
    sheet.down(f"E{FIRST}", '=IF($C7="";"";$C7-N($C6))', REVIEWED, "cell time")
    sheet.down(f"F{FIRST}", '=IF(OR($B7="";$C7="");"";ROUND(86400*($C7-$B7);0))', REVIEWED, "cell center")
    # in seconds, which an axis divides well; a part of a round at the end of a goal is none
    sheet.put("Q4", f'=IF($O$4=0;0;IF(event_kind=1;{athlete("GOAL", who, 1)};{REVIEWED}))', "working")
    drawn(sheet, "N", FIRST, REVIEWED, sheet._("planned"), "IF($A7<=$Q$4;86400*N($D7);0)")
    drawn(sheet, "O", FIRST, REVIEWED, sheet._("actual"), "86400*N($E7)")
    chart(sheet, "N", "Seconds per round, planned and actual", "Round")


def make_field(sheet):
    """Everybody's scores from the first to the last: as predicted, and as they came."""
    place = "ROW(A1)"
    for letter, head, score in (("P", "predicted", f"ABS(LARGE(roster_rank;{place}))"),
                                ("Q", "actual", f"IF(event_kind=2;SMALL(results_score;{place});LARGE(results_score;{place}))")):
        sheet.put(f"{letter}{FIRST - 1}", sheet._(head), "working head")
        sheet.down(f"{letter}{FIRST}", f"=IFERROR({score}*IF(event_kind=2;1440;1);NA())", FIELD, "working")
    chart(sheet, "P", "The field: reps, or minutes, from first to last", "Place")


def make_curve(sheet):
    """What the tests of the person promise: watts that can be held, by minutes."""
    for step, machine in enumerate(MACHINES[:3]):  # the first machine with critical power and reserve
        sheet.put(f"R{step + 1}", f'=IF($P$4=0;0;N(INDEX(tests_{machine};$P$4;1)))', "working")
        sheet.put(f"S{step + 1}", f'=IF($P$4=0;0;N(INDEX(tests_{machine};$P$4;2)))', "working")
    for letter in "RS":
        sheet.put(f"{letter}4", f"=IF($R$1>0;{letter}1;IF($R$2>0;{letter}2;{letter}3))", "working")
    sheet.put(f"R{HEAD}", "min", "working head")
    for row, minutes in enumerate(MINUTES, FIRST):
        sheet.put(f"R{row}", minutes, "working")
    sheet.put(f"S{HEAD}", sheet._("power"), "working head")
    sheet.down(f"S{FIRST}", f'=IF($R$4*$S$4=0;NA();{pc("TEST.POWER", "$R7/1440", "$R$4", "$S$4")})', len(MINUTES), "working")
    chart(sheet, "R", "Test curve: watts that can be held, by minutes", "Minutes")


def make_everybody(sheet):
    sheet.text(f"A{ALL - 1}", "Everybody", "section")
    sheet.styled(f"A{ALL - 1}:F{ALL - 1}", "section")
    for letter, head in zip("AB", ("Name", "Fade per round")):
        sheet.text(f"{letter}{ALL}", head, "head")
    sheet.heights(ALL, ALL, 9)
    row = ALL + 1
    slower = pc("WORKOUT.RESULT", "workout", "INDEX(results_division;ROW(A1))", '""', "INDEX(results_clocks;ROW(A1);0)", 4)
    for letter, formula, style in (("A", 'INDEX(results_name;ROW(A1))&""', "cell"), ("B", f'IF($A{row}="";"";{slower})', "cell share")):
        sheet.down(f"{letter}{row}", "=" + formula, ATHLETES, style)
