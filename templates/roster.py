"""The roster in one sheet, for the coach who wants formulas: the workout on top, 30 people below, each result by one
cell function. Nothing is locked. Formulas call the yellow cells on top by name: cap, goal, calories …
"""

from builder import CAUTION, Book, pc
from event.sizes import UNDER_FOUR_HOURS
from office import save

PEOPLE = 30
EXPLAIN, HEAD, FIRST = 8, 9, 10
LAST = FIRST + PEOPLE - 1
SECOND = 1 / 86400
CAP = ("limit", *UNDER_FOUR_HOURS, "Type the cap as minutes and seconds with a colon, such as 20:00.")
CLOCK = ("limit", 0, 1 / 24, "Enter minutes and seconds such as 2:05.")
TEST = ("limit", 20 * SECOND, 1 / 24, "Enter minutes and seconds such as 5:00.")
ROUNDS = ("limit", 1, 200, "Enter rounds, such as 8 or 8.5.")  # below 1 is a typed time
REPS = ("whole", 1, 999, "Enter the reps as a whole number.")

# label, name, style, value, rule; each column of the workout goes down
WORKOUT = (
    (("Cap", "cap", "input time", 1020 * SECOND, CAP),
     ("Goal, rounds", "goal", "input number", 6, ROUNDS),
     ("Reps per round", "reps_per_round", "input number", 31, REPS),
     ("Test: time", "test_time", "input time", 600 * SECOND, TEST)),
    (("Calories per round", "calories", "input number", 13, ("limit", 1, 500, "Enter calories, such as 8.")),
     ("Everything else per round", "other_s", "input time", 100 * SECOND, CLOCK),
     ("Practice: share of pace", "effort", "input share", 0.825, ("limit", 0.3, 1, "Enter a percentage from 30% to 100%.")),
     ("Scores read at", "clock", "input time", 510 * SECOND, ("check", "AND(ISNUMBER(clock);clock>0;clock<=cap)", "Enter minutes and seconds, not past the cap."))),
    (("Sets: reps per round", "reps", "input number", 8, REPS),
     ("Sets: time for them", "reps_time", "input time", 24 * SECOND, CLOCK)))
PLACES = (("A", "B"), ("D", "G"), ("I", "L"))  # first column of the label, column of the value

# column, width in mm, heading, what it does, style, formula for the first person; without one it is typed
COLUMNS = (
    ("A", 33.5, "Name", "type the names here", "input text", None),
    ("B", 14.5, "Goal", "change it per person", "input number", 'IF(A{r}="";"";goal)'),
    ("C", 13, "Time per round", "the cap shared by the goal", "cell strong time",
     'IF(A{r}="";"";' + pc("PACE.ROUND", "cap", "B{r}") + ")"),
    ("D", 14, "Needs, cal/h", "for which there is room", "cell whole",
     'IF(A{r}="";"";' + pc("PACE.ERGNEED", "C{r}", "calories", "other_s") + ")"),
    ("E", 14.5, "Time for calories", "at the rate it needs", "cell time",
     'IF(A{r}="";"";' + pc("ERG.TIME", "calories", "D{r}") + ")"),
    ("F", 14.5, "Test, calories", "type those done", "input number", None),
    ("G", 14, "Can plan, cal/h", "from the test, for this cap", "cell whole",
     'IF(OR(A{r}="";F{r}="");"";' + pc("TEST.RATE", "test_time", "F{r}", "cap") + ")"),
    ("H", 15, "Longest set", "type the reps unbroken", "input number", None),
    ("I", 14, "Sets", "as few as will last", "cell strong",
     'IF(OR(A{r}="";H{r}="");"";' + pc("SETS.PLAN", "reps", "B{r}", "H{r}", "C{r}-reps_time") + ")"),
    ("J", 18.5, "Practice round", "at a share of the pace", "cell time",
     'IF(A{r}="";"";' + pc("PACE.REHEARSAL", "C{r}", "effort") + ")"),
    ("K", 12, "Score so far", "such as 2+14", "input score", None),
    ("L", 14, "Reps at the cap", "at the pace so far", "cell whole",
     'IF(OR(A{r}="";K{r}="");"";' + pc("SCORE.PROJECT", "cap", "clock", "K{r}", "reps_per_round") + ")"))

RULES = {"B": ROUNDS,
         "F": ("check", f"ISNUMBER({pc('TEST.RATE', 'test_time', f'F{FIRST}', 'cap')})", "Enter the calories that the monitor showed at the end."),
         "H": ("limit", 1, 999, "Enter the longest unbroken set, in reps."),
         "K": ("check", f"ISNUMBER({pc('SCORE.REPS', f'K{FIRST}', 'reps_per_round')})", "Enter rounds and reps such as 2+14, or all reps as a number.")}

BESIDE = ("Type the names: the rows fill. Change any cell or formula; nothing is locked.",
          "cap, goal, calories and the like in a formula are the names of the yellow cells on top.",
          "One row more: insert it, select it with the row above, press Ctrl+D.",
          "Err:523: no answer, such as a round without time left. Err:502: an impossible value. Pacecells, "
          "Explain this cell says which.",
          "Bold, in a frame: it needs more than the test lets plan. Take a lower goal.")


def lay_out(book):
    book.roster = book.sheet("Roster")
    make_workout(book.roster)
    make_people(book.roster)
    make_beside(book.roster)
    make_paper(book.roster)
    book.roster.open = True


def make(office, folder, language):
    book = Book(office, language)
    book.make(lay_out)
    book.finish("Roster in one sheet")
    save(book.document, folder / "roster.ots")
    book.document.close(True)
    return book.texts


def make_workout(sheet):
    _, book = sheet._, sheet.book
    sheet.widths("A", *(width for _, width, *_ in COLUMNS))
    sheet.merged("A1:L1", _("Rounds against the clock"), "title")
    sheet.merged("A2:G2", _("Our gym"), "stamp")
    sheet.text("H2", "Version")
    sheet.put("I2", 1, "input number")
    sheet.merged("J2:L2", "=NOW()", "printed at")
    for (label_at, value_at), cells in zip(PLACES, WORKOUT):
        for row, (label, name, style, value, (kind, *rule)) in enumerate(cells, 3):
            sheet.text(f"{label_at}{row}", label)
            sheet.put(f"{value_at}{row}", value, style)
            getattr(sheet, kind)(f"{value_at}{row}", *rule)
            sheet.name(name, f"{value_at}{row}")
    sheet.text("I6", "Sets: movement")
    sheet.merged("K6:L6", None, "input text")
    sheet.heights(1, 1, 10)
    sheet.heights(2, 6, 5.5)


def make_people(sheet):
    for letter, _, head, explained, style, formula in COLUMNS:
        sheet.text(f"{letter}{EXPLAIN}", explained, "explained")
        sheet.text(f"{letter}{HEAD}", head, "head")
        cells = f"{letter}{FIRST}:{letter}{LAST}"
        if formula:
            sheet.down(f"{letter}{FIRST}", "=" + formula.format(r=FIRST), PEOPLE, style)
        else:
            sheet.styled(cells, style)
        if letter in RULES:
            kind, *rule = RULES[letter]
            getattr(sheet, kind)(cells, *rule)
        marks = [(f'$A{FIRST}=""', "blank entry" if letter == "A" else "blank below")]
        if letter == "D":
            marks.append((f"AND(ISNUMBER($D{FIRST});ISNUMBER($G{FIRST});$D{FIRST}>$G{FIRST})", "mark whole"))
        sheet.mark(cells, *marks)
    sheet.heights(7, 7, 2)
    sheet.heights(EXPLAIN, EXPLAIN, 16)
    sheet.heights(HEAD, HEAD, 13)
    sheet.heights(FIRST, LAST, 6)
    sheet.freeze("B1")


def make_beside(sheet):
    """To the right of what prints: how to change it, and a sentence for each person."""
    _, book = sheet._, sheet.book
    sheet.widths("M", 5, 118)
    sheet.put("N1", "=" + book.unless_absent("roster_answers", _.lit("Formulas to read, change and fill down")), "section")
    sheet.merged(f"N2:N{EXPLAIN}", "\n".join(_(line) for line in BESIDE), "note")
    book.answers(sheet, "roster_answers", "P1")
    sheet.sheet.Columns.getByName("P").IsVisible = False
    sheet.text(f"N{HEAD}", "Message: CLOCK.TEXT writes a time into a sentence", "head")
    message = _.say("{name}: {goal} rounds, {time} per round, {rate} cal/h", name=f"A{FIRST}", goal=f"B{FIRST}",
                    time=pc("CLOCK.TEXT", f"C{FIRST}"), rate=f"ROUND(D{FIRST};0)")
    sheet.down(f"N{FIRST}", f'=IF(A{FIRST}="";"";{message})', PEOPLE, "cell words")
    sheet.mark(f"N{FIRST}:N{LAST}", (f'$A{FIRST}=""', "blank below"))


def make_paper(sheet):
    sheet.heights(LAST + 1, LAST + 1, 2)
    sheet.merged(f"A{LAST + 2}:L{LAST + 2}", sheet._(CAUTION), "note")
    sheet.heights(LAST + 2, LAST + 2, 9)
    sheet.page(f"A1:L{LAST + 2}", wide=1, tall=1, centre=True)
