"""The event workbook: from the announcement in the evening to the lessons learnt.

Sheets for people come first; four sheets of workings follow, hidden, one row or column an athlete, so that every
number can be traced. Formulas are written for the first row and filled down.
"""

from builder import Book, address, column, pc, quoted
from event_base import (ATHLETES, CAL, CARRY, CAUTION, DIVISIONS, GROUPS, MACHINES, METRES, MOVEMENTS, REP, RIEGEL, ROUNDS,
                        RUN, STATIONS, STILL, STRIP, TESTED, UNITS, Columns, no_athletes, own, stamp, texts_clock)
import event_after
import event_paper

class EventBook(Book):
    def __init__(self, office, language="en"):
        super().__init__(office, language)
        self.make(EventBook.lay_out)

    def lay_out(self):
        self.event = self.sheet("Event")
        self.roster = self.sheet("Roster")
        self.tests = self.sheet("Tests")
        self.sets = self.sheet("Sets")
        self.margins = self.sheet("Thinnest margins")
        self.version = self.sheet("Which version")
        self.pace = self.sheet("Pace table")
        self.clocks = self.sheet("Clock table")
        self.ergometer = self.sheet("Ergometer table")
        self.cards = self.sheet("Cards")
        self.messages = self.sheet("Messages")
        self.warmup = self.sheet("Warm-up")
        self.heats = self.sheet("Heats")
        self.judge = self.sheet("Judge sheet")
        self.day = self.sheet("Event day")
        self.review = self.sheet("Review")
        self.layout = self.sheet("Layout")
        self.field = self.sheet("The field")
        self.season = self.sheet("Season")
        self.by_event = self.sheet("Work event")
        self.by_round = self.sheet("Work rounds")
        self.by_station = self.sheet("Work stations")
        self.by_athlete = self.sheet("Work athletes")
        self.by_goal = self.sheet("Work goals")
        self.by_clock = self.sheet("Work clocks")
        self.by_day = self.sheet("Work day")
        self.lists = self.sheet("Lists")
        make_lists(self)
        make_event(self)
        make_roster_inputs(self)
        make_tests(self)
        make_workings(self)
        make_roster(self)
        make_pace(self)
        event_paper.make(self)
        event_after.make(self)
        for sheet in (self.by_event, self.by_round, self.by_station, self.by_athlete, self.by_goal, self.by_clock, self.by_day,
                      self.lists):
            sheet.sheet.IsVisible = False


# Lists ------------------------------------------------------------------------------------------------------------

def make_lists(book):
    sheet, _ = book.lists, book.texts
    choices = {
        "list_format": ("as many rounds as possible", "for time with a cap", "ladder"),
        "list_status": ("ready", "newcomer", "minor", "returning", "injured"),
        "list_answer": ("with more left", "only just", "no"),
        "list_when": ("every round", "first round only", "last round only"),
        "list_yes": ("yes",),
        "list_order": ("high", "low"),
        "list_missed": ("one place behind the last", "a fixed place", "not counted"),
    }
    col = 0
    for name, words in choices.items():
        sheet.put(address(col, 0), name, "working head")
        for row, word in enumerate(words, 1):
            sheet.put(address(col, row), _(word), "working")
        sheet.name(name, f"{address(col, 1)}:{address(col, len(words))}")
        col += 1
    first = col
    for step, head in enumerate(("list_units", "kind", "machine", "credit")):
        sheet.put(address(first + step, 0), head, "working head")
    for row, values in enumerate(UNITS, 1):
        sheet.row(address(first, row), values, "working")
    for step, name in enumerate(("list_units", "unit_kind", "unit_machine", "unit_credit")):
        sheet.name(name, f"{address(first + step, 1)}:{address(first + step, len(UNITS))}")


# Event ------------------------------------------------------------------------------------------------------------

FIRST = 20    # first station, amounts
PACES = 35    # first station, usual pace
GROUP = 50    # first pace group


def make_event(book):
    sheet, _ = book.event, book.texts
    sheet.widths("A", 8, 48, 25, 27, 17, *[17] * 6, *[15] * 6)
    # a blank, for a lone empty text may be read back as 0
    sheet.put("A1", '=IF(event_called="";" ";event_called)', "title")
    sheet.heights(1, 1, 11)
    sheet.put("A2", "=event_stamp", "stamp")
    sheet.merged("A3:Q3", "=" + book.unless_absent("event_answers", 'IF(event_check="";"";"! "&event_check)'), "problem")
    hour = 1 / 24
    left = (("Gym", "event_gym", "input text"), ("Event", "event_title", "input text"),
            ("Date", "event_date", "input date"), ("Version of the announcement", "event_version", "input number"),
            ("Announced at", "event_issued", "input clock"), ("Format", "event_format", "input"),
            ("Cap", "event_cap", "input time"), ("Rounds, where it is for time", "event_rounds", "input number"),
            ("Tie-break", "event_tiebreak", "input text"))
    middle = (("Steps between stations", "event_steps", "input number"),
              ("Seconds a step", "event_step_s", "input number"),
              ("Rest between sets, seconds", "event_rest_s", "input number"),
              ("Fade of round times over the task", "event_fade", "input share"),
              ("Faster at the end, where more was left", "event_push", "input share"),
              ("Goals in steps of, rounds", "event_goal_step", "input number"),
              ("Goals in steps of, time", "event_goal_step_time", "input time"),
              ("Floor: share of the ergometer alone", "event_share", "input share"),
              ("Work between, of the ergometer's watts", "event_effort", "input share"),
              ("Reserve not to be touched", "event_keep", "input share"),
              ("Rehearsal: share of planned pace", "event_rehearsal", "input share"),
              ("Tests count for, weeks", "event_test_weeks", "input number"))
    right = (("First start", "event_first_start", "input clock"),
             ("Changeover", "event_changeover", "input time"),
             ("Places on the floor", "event_places", "input number"),
             ("Athletes a heat", "event_lanes", "cell whole"),
             ("From start to start", "event_every", "cell time"),
             ("Wall: goals from, rounds", "wall_from", "input number"),
             ("Wall: to, rounds", "wall_to", "input number"),
             ("Wall: in steps of, rounds", "wall_step", "input number"),
             ("Wall: goals from, time", "wall_from_time", "input time"),
             ("Wall: to, time", "wall_to_time", "input time"),
             ("Wall: in steps of, time", "wall_step_time", "input time"),
             ("Wall: highest cal/h shown", "wall_most", "input number"))
    for title, corner, rows, cells in (("The event", "A4:E4", left, ("A", "C", "E")),
                                       ("How it is calculated", "G4:K4", middle, ("G", "K", "K")),
                                       ("The day and the wall", "L4:Q4", right, ("M", "Q", "Q"))):
        sheet.styled(corner, "section")
        sheet.put(("M4" if cells[0] == "M" else corner.split(":")[0]), _(title))
        for row, (label, name, style) in enumerate(rows, 5):
            sheet.text(f"{cells[0]}{row}", label)
            if cells[1] != cells[2]:
                sheet.merged(f"{cells[1]}{row}:{cells[2]}{row}", None, style)
            else:
                sheet.styled(f"{cells[1]}{row}", style)
            sheet.name(name, f"{cells[1]}{row}")
    sheet["L4"].CellStyle = book.style("base")
    sheet.choose("C10", "list_format", "Choose a format from the list.")
    under_four = "Give minutes and seconds such as 18:00, under 4 hours."
    sheet.limit("C11", 1 / 86400, 4 * hour - 1e-9, under_four)
    for cell in ("Q6", "K11", "Q13", "Q14", "Q15"):
        sheet.limit(cell, 0, 4 * hour - 1e-9, under_four)
    sheet.whole("C12", 1, ROUNDS, "Give a whole number of rounds, 1 to 40.")
    sheet.whole("C8", 1, 99, "Give the version as a whole number: 1, then 2 after a correction.")
    sheet.limit("C9", 0, 1, "Give a time of day such as 21:40.")
    sheet.limit("Q5", 0, 1, "Give a time of day such as 9:00.")
    sheet.limit("C7", 36526, 73050, "Give a date.")
    sheet.whole("Q7", 1, 40, "Give the number of athletes that the floor holds at once.")
    sheet.limit("K5", 0, 200, "Give the number of steps from one station to the next.")
    sheet.limit("K6", 0.17, 5, "Give seconds a step; 0.6 is usual.")
    sheet.limit("K7", 0, 60, "Give seconds; 3 is usual.")
    sheet.limit("K8", 0, 0.5, "Give a share from 0 % to 50 %; 6 % is usual.")
    sheet.limit("K9", 0, 0.5, "Give a share from 0 % to 50 %; 6 % is usual.")
    sheet.limit("K10", 0.1, 5, "Give rounds; half a round (0.5) is usual.")
    sheet.limit("K12", 0.3, 1, "Give a share from 30 % to 100 %; 75 % is usual.")
    sheet.limit("K13", 0, 2, "Give a share from 0 % to 200 %; 110 % until it is fitted to an athlete.")
    sheet.limit("K14", 0, 0.9, "Give a share from 0 % to 90 %; 10 % is usual.")
    sheet.limit("K15", 0.3, 1, "Give a share from 30 % to 100 %; 80 to 85 % is usual.")
    sheet.limit("K16", 1, 104, "Give weeks; 12 is usual.")
    sheet.limit("Q16", 300, 5000, "Give cal/h that hardly anyone exceeds, such as 1600.")
    for cell in ("Q10", "Q11", "Q12"):
        sheet.limit(cell, 0.1, 99, "Give a number of rounds.")

    last = FIRST + STATIONS - 1
    sheet.styled("A18:Q18", "section")
    sheet.text("A18", "Stations, in working order", "section")
    sheet.text("F18", "Amounts by division", "section")
    sheet.text("L18", "Loads by division, kg", "section")
    for col, head in zip("ABCDE", ("No.", "Movement", "Unit", "When", "Change each round")):
        sheet.text(f"{col}19", head, "head")
    sheet.heights(19, 19, 13)
    sheet.styled("F19:K19", "input head")
    sheet.name("division_names", "F19:K19")
    sheet.right("L19", '=F19&""', DIVISIONS, "head")
    sheet.numbers(f"A{FIRST}", STATIONS)
    sheet.styled(f"B{FIRST}:B{last}", "input text")
    sheet.styled(f"C{FIRST}:D{last}", "input")
    sheet.styled(f"E{FIRST}:Q{last}", "input number")
    for name, col in (("movements", "B"), ("units", "C"), ("when", "D"), ("change", "E")):
        sheet.name(f"station_{name}", f"{col}{FIRST}:{col}{last}")
    sheet.name("station_amounts", f"F{FIRST}:K{last}")
    sheet.name("station_loads", f"L{FIRST}:Q{last}")
    for d in range(DIVISIONS):
        sheet.name(f"station_amounts_{d + 1}", f"{column(5 + d)}{FIRST}:{column(5 + d)}{last}")
        sheet.name(f"station_loads_{d + 1}", f"{column(11 + d)}{FIRST}:{column(11 + d)}{last}")
    sheet.choose(f"C{FIRST}:C{last}", "list_units", "Choose a unit from the list: rep, row cal, run m, rest …")
    sheet.choose(f"D{FIRST}:D{last}", "list_when", "Choose from the list; empty means every round.")
    sheet.limit(f"E{FIRST}:E{last}", -999, 999, "Give how much the amount changes from round to round; empty: not at all.")
    sheet.limit(f"F{FIRST}:K{last}", 0, 99999, "Give repetitions, calories, metres or seconds; empty where the "
                "division does not do this station.")
    sheet.limit(f"L{FIRST}:Q{last}", 0, 999, "Give kilograms.")

    end = PACES + STATIONS - 1
    sheet.styled("A33:Q33", "section")
    sheet.text("A33", "Usual pace: what the middle pace group does, fresh", "section")
    for col, head in zip("ABCDEFGHIJ", ("No.", "Movement", "Seconds a rep (a metre carried)", "cal/h",
                                        "Pace (500 m; bike, run 1000 m)", "Handling, s a round", "Steps to the next",
                                        "Hands held", "Longest set", "Credit for one")):
        sheet.text(f"{col}34", head, "head")
    sheet.merged("K34:Q34", _("To put right"), "head left")
    sheet.heights(34, 34, 18)
    sheet.numbers(f"A{PACES}", STATIONS)
    sheet.down(f"B{PACES}", f'=B{FIRST}&IF(B{FIRST}="";C{FIRST};"")', STATIONS, "cell")
    sheet.styled(f"C{PACES}:D{end}", "input number")
    sheet.styled(f"E{PACES}:E{end}", "input time")
    sheet.styled(f"F{PACES}:J{end}", "input number")
    for row in range(PACES, end + 1):
        sheet.merged(f"K{row}:Q{row}", f'=INDEX(st_problem;A{row})', "cell words")
    for name, col in (("rep_s", "C"), ("calh", "D"), ("pace", "E"), ("handling", "F"), ("next", "G"), ("grip", "H"),
                      ("longest", "I"), ("counts", "J")):
        sheet.name(f"station_{name}", f"{col}{PACES}:{col}{end}")
    sheet.limit(f"C{PACES}:C{end}", 0.17, 600, "Give seconds as a plain number, such as 2.5.")
    sheet.limit(f"D{PACES}:D{end}", 100, 5000, "Give calories an hour as the monitor shows them, such as 900.")
    sheet.limit(f"E{PACES}:E{end}", 1 / 1440, hour - 1e-9, "Give minutes and seconds such as 2:05.")
    sheet.limit(f"F{PACES}:F{end}", 0, 600, "Give seconds as a plain number.")
    sheet.limit(f"G{PACES}:G{end}", 0, 200, "Give steps; empty takes the number above.")
    sheet.choose(f"H{PACES}:H{end}", "list_yes", "Choose yes where the hands or the same muscles are held; else empty.")
    sheet.limit(f"I{PACES}:I{end}", 1, 999, "Give the longest set without a break, in repetitions.")
    sheet.limit(f"J{PACES}:J{end}", 0, 99, "Give what one unit counts for the score; empty takes the usual.")
    n = f"A{PACES}"
    kind = f"INDEX(st_kind;${n})"
    for col, wanted in (("C", f"OR({kind}={REP};{kind}={CARRY})"), ("D", f"{kind}={CAL}"),
                        ("E", f"OR({kind}={METRES};{kind}={RUN})"), ("H", f"{kind}={REP}"), ("I", f"{kind}={REP}")):
        sheet.mark(f"{col}{PACES}:{col}{end}", (f"NOT({wanted})", "not used"))

    sheet.styled("A48:E48", "section")
    sheet.text("A48", "Pace groups", "section")
    for col, head in zip("BCDE", ("Group", "Ergometer ×", "Seconds a rep ×", "Longest set ×")):
        sheet.text(f"{col}49", head, "head")
    sheet.numbers(f"A{GROUP}", GROUPS)
    sheet.styled(f"B{GROUP}:B{GROUP + 4}", "input text")
    sheet.styled(f"C{GROUP}:E{GROUP + 4}", "input number")
    for name, col in (("names", "B"), ("erg", "C"), ("rep", "D"), ("sets", "E")):
        sheet.name(f"group_{name}", f"{col}{GROUP}:{col}{GROUP + 4}")
    sheet.limit(f"C{GROUP}:E{GROUP + 4}", 0.2, 5, "Give a factor around 1.")
    sheet.styled("G48:K48", "section")
    sheet.text("G48", "Machines there are", "section")
    for row, machine in enumerate(("Rower", "Ski ergometer", "Bike ergometer", "Arm bike"), GROUP):
        sheet.text(f"G{row}", machine)
    sheet.styled(f"K{GROUP}:K{GROUP + 3}", "input number")
    sheet.name("machine_counts", f"K{GROUP}:K{GROUP + 3}")
    sheet.whole(f"K{GROUP}:K{GROUP + 3}", 0, 99, "Give the number of machines.")
    sheet.styled("M48:Q48", "section")
    sheet.text("M48", "Pages to print", "section")
    pages = (("Roster", "ROUNDUP(athletes/24;0)"), ("Cards", "ROUNDUP(athletes/4;0)"),
             ("Heats", "ROUNDUP(athletes/40;0)"), ("Event day", "ROUNDUP(athletes/24;0)"))
    for row, (title, pages_of) in enumerate(pages, GROUP):
        sheet.text(f"M{row}", title)
        sheet.put(f"Q{row}", f"=MAX(1;{pages_of})", "cell whole")
    sheet.name("print_pages", f"M{GROUP}:Q{GROUP + 3}")
    sheet.merged("M54:Q55", _("Names typed in by hand? The command Fit prints to the people, in the menu Pacecells, narrows the "
                              "pages to them."), "note")
    sheet.heights(55, 55, 9)
    sheet.merged("A56:Q57", _(CAUTION), "caution")
    sheet.page("A1:Q57", landscape=True, repeat=(1, 3))
    sheet.break_before(33)


# Roster -----------------------------------------------------------------------------------------------------------

ROSTER = 6  # first athlete


def make_roster_inputs(book):
    sheet = book.roster
    last = ROSTER + ATHLETES - 1
    sheet.numbers(f"A{ROSTER}", ATHLETES)
    for name, col, style in (("name", "B", "input text"), ("division", "C", "input"), ("status", "D", "input"),
                             ("group", "E", "input center"), ("goal", "F", "input score"),
                             ("goal_time", "G", "input time"), ("answer", "H", "input")):
        sheet.styled(f"{col}{ROSTER}:{col}{last}", style)
        sheet.name(f"roster_{name}", f"{col}{ROSTER}:{col}{last}")
    sheet.choose(f"C{ROSTER}:C{last}", "division_names", "Choose a division; they are named on the sheet Event.")
    sheet.choose(f"D{ROSTER}:D{last}", "list_status", "Choose from the list; empty means ready.")
    sheet.choose(f"E{ROSTER}:E{last}", "group_names", "Choose a pace group; they are named on the sheet Event.")
    sheet.limit(f"G{ROSTER}:G{last}", 1 / 86400, 4 / 24 - 1e-9, "Give minutes and seconds such as 11:30.")
    sheet.choose(f"H{ROSTER}:H{last}", "list_answer", "Choose the answer after the rehearsal from the list.")


def make_roster(book):
    sheet, _ = book.roster, book.texts
    stamp(sheet, "Roster")
    no_athletes(sheet, "F2")
    sheet.merged("A3:U3", _(CAUTION), "caution")
    sheet.heights(3, 3, 10)
    sheet.styled("B4:H4", "section")
    sheet.text("B4", "Type here", "section")
    sheet.styled("I4:U4", "section")
    sheet.text("I4", "What it comes to", "section")
    heads = ("No.", "Name", "Division", "Status", "Pace group", "Own goal, rounds", "Own goal, time",
             "Rehearsal: on to the end?", "Goal", "Round target", "Needs cal/h", "Floor cal/h", "Ceiling cal/h",
             "Margin", "Predicted", "Suggested goal", "Open with", "Rehearsal round", "Rehearsal cal/h", "Rate from",
             "To know")
    for step, head in enumerate(heads):
        sheet.text(address(step, 4), head, "head")
    sheet.heights(5, 5, 14)
    sheet.widths("A", 8, 40, 24, 21, 14, 15, 15, 26, 16, 14, 14, 14, 15, 31, 17, 18, 34, 18, 18, 27, 62)
    own(sheet, "roster", no="A")
    n = "roster_its_no"
    outputs = (("plan", "I", f"=INDEX(a_goal;{n})", "cell strong"),
               ("target", "J", f"=INDEX(a_target;{n})", "cell strong time"),
               ("need", "K", f"=INDEX(a_need_shown;{n})", "cell whole"),
               ("floor", "L", f"=INDEX(a_floor_shown;{n})", "cell whole"),
               ("ceiling", "M", f"=INDEX(a_ceiling_shown;{n})", "cell whole"),
               ("margin", "N", f"=INDEX(a_words;{n})", "cell words"),
               ("predicted", "O", f"=INDEX(a_predicted;{n})", "cell center"),
               ("suggested", "P", f"=INDEX(a_suggested;{n})", "cell center"),
               ("schemes", "Q", f"=INDEX(a_schemes;{n})", "cell words"),
               ("rehearsal", "R", f"=INDEX(a_rehearsal;{n})", "cell time"),
               ("rehearsal_rate", "S", f"=INDEX(a_rehearsal_rate;{n})", "cell whole"),
               ("source", "T", f"=INDEX(a_source;{n})", "cell words"),
               ("note", "U", f"=INDEX(a_note;{n})", "cell words"))
    last = ROSTER + ATHLETES - 1
    for name, col, formula, style in outputs:
        sheet.down(f"{col}{ROSTER}", formula, ATHLETES, style)
        sheet.name(f"roster_{name}", f"{col}{ROSTER}:{col}{last}")
    sheet.mark(f"N{ROSTER}:N{last}", (f"INDEX(a_grade;$A{ROSTER})>=5", "mark strong"),
               (f"INDEX(a_grade;$A{ROSTER})>=3", "mark"))
    sheet.mark(f"F{ROSTER}:F{last}", (f"AND($A{ROSTER}>0;event_kind=2)", "not used"))
    sheet.mark(f"G{ROSTER}:G{last}", (f"AND($A{ROSTER}>0;event_kind<>2)", "not used"))
    sheet.heights(ROSTER, last, 8.5)
    sheet.freeze(f"C{ROSTER}")
    sheet.page(f"A1:U{last}", landscape=True, repeat=(1, 5), fit="roster")

    thin = book.margins
    stamp(thin, "Thinnest margins")
    thin.merged("A3:G3", _("Those whose goal leaves the least come first: look at them before the start."), "note")
    for step, head in enumerate(("No.", "Name", "Division", "Goal", "Needs cal/h", "Floor to ceiling, cal/h", "Margin")):
        thin.text(address(step, 4), head, "head")
    thin.widths("A", 10, 52, 30, 22, 22, 34, 50)
    thin.numbers("A6", ATHLETES)
    own(thin, "margins", no="A", athlete="I")
    who = "margins_its_athlete"
    thin.down("I6", '=IFERROR(MATCH(SMALL(a_order;margins_its_no);a_order;0);0)', ATHLETES, "working")
    for col, name, style in (("B", "a_name", "cell"), ("C", "a_division", "cell"), ("D", "a_goal", "cell strong"),
                             ("E", "a_need_shown", "cell whole"), ("F", "a_band", "cell center"),
                             ("G", "a_words", "cell words")):
        thin.down(f"{col}6", f'=IF({who}=0;"";INDEX({name};{who}))', ATHLETES, style)
    thin.mark("G6:G205", ("IF($I6=0;0;INDEX(a_grade;$I6))>=5", "mark strong"),
              ("IF($I6=0;0;INDEX(a_grade;$I6))>=3", "mark"))
    thin.sheet.Columns.getByName("I").IsVisible = False
    thin.page("A1:G205", repeat=(1, 5), fit="margins")


# Tests ------------------------------------------------------------------------------------------------------------

TESTS = 8  # first row


def make_tests(book):
    sheet, _ = book.tests, book.texts
    stamp(sheet, "Tests")
    sheet.merged("A3:L3", _("Bring the results in from the tests workbook, or type them. One row an athlete, the name "
                            "as on the roster. A test speaks for its own machine only. Never a maximal test for "
                            "newcomers, minors, those returning or the injured, nor in the three days before an event."),
                 "note")
    sheet.heights(3, 3, 10)
    sheet.text("A7", "Name", "head")
    sheet.widths("A", 42, *[18, 18, 36, 18, 18, 18] * 4, *[20, 24, 20] * MOVEMENTS)
    last = TESTS + TESTED - 1
    sheet.styled(f"A{TESTS}:A{last}", "input text")
    sheet.name("tests_name", f"A{TESTS}:A{last}")
    heads = ("Critical power, W", "Reserve, J", "Date", "One test: time", "One test: calories", "Fitted effort between")
    styles = ("input number", "input number", "input date", "input time", "input number", "input share")
    for m, (machine, title) in enumerate(zip(MACHINES, ("Rower", "Ski ergometer", "Bike ergometer", "Arm bike"))):
        first = 1 + 6 * m
        sheet.merged(f"{address(first, 5)}:{address(first + 5, 5)}", _(title), "head")
        for step, (head, style) in enumerate(zip(heads, styles)):
            sheet.text(address(first + step, 6), head, "head")
            sheet.styled(f"{address(first + step, TESTS - 1)}:{address(first + step, last - 1)}", style)
        cells = [f"{address(first + step, TESTS - 1)}:{address(first + step, last - 1)}" for step in range(6)]
        sheet.limit(cells[0], 20, 900, "Give watts: the critical power of this machine, such as 210.")
        sheet.limit(cells[1], 500, 80000, "Give joules: the reserve above critical power, such as 15000.")
        sheet.limit(cells[2], 36526, 73050, "Give the date of the test.")
        sheet.limit(cells[3], 20 / 86400, 4 / 24 - 1e-9, "Give minutes and seconds such as 5:00.")
        sheet.limit(cells[4], 1, 2000, "Give the calories that the monitor showed at the end.")
        sheet.limit(cells[5], 0.1, 2, "Give the effort between stations that an earlier event implied, such as 104 %.")
        sheet.name(f"tests_{machine}", f"{address(first, TESTS - 1)}:{address(first + 5, last - 1)}")
        sheet.mark(cells[2], (f"AND({address(first + 2, TESTS - 1, 'c')}>0;event_date>0;"
                              f"event_date-{address(first + 2, TESTS - 1, 'c')}>7*event_test_weeks)", "mark old"))
    first = 25
    for k in range(MOVEMENTS):
        at = first + 3 * k
        sheet.merged(f"{address(at, 5)}:{address(at + 2, 5)}", None, "input head")
        for step, head in enumerate(("Longest set", "One-repetition maximum, kg", "Own seconds a rep")):
            sheet.text(address(at + step, 6), head, "head")
            sheet.styled(f"{address(at + step, TESTS - 1)}:{address(at + step, last - 1)}", "input number")
        sheet.limit(f"{address(at, TESTS - 1)}:{address(at, last - 1)}", 1, 999,
                    "Give the longest set without a break, at the event's load.")
        sheet.limit(f"{address(at + 1, TESTS - 1)}:{address(at + 1, last - 1)}", 1, 999, "Give kilograms.")
        sheet.limit(f"{address(at + 2, TESTS - 1)}:{address(at + 2, last - 1)}", 0.17, 600,
                    "Give seconds as a plain number, such as 2.5.")
    end = address(first + 3 * MOVEMENTS - 1, 5)
    sheet.text(address(first, 4), "Movements: write the name as on the sheet Event", "label")
    sheet.name("tests_movements", f"{address(first, 5)}:{end}")
    sheet.name("tests_sets", f"{address(first, TESTS - 1)}:{address(first + 3 * MOVEMENTS - 1, last - 1)}")
    sheet.heights(6, 6, 8)
    sheet.heights(7, 7, 14)
    sheet.freeze(f"B{TESTS}")
    # Two machines or four movements a page, each with the stamp; the scale fits A4 and Letter.
    breaks = (13, 25, 37, 49)
    for col in breaks:
        sheet.sheet.Columns.getByIndex(col).IsStartOfNewPage = True
        sheet.put(address(col, 3), "=event_heading", "stamp")
    sheet.page(f"A1:{address(first + 3 * MOVEMENTS - 1, last - 1)}", landscape=True, repeat=(1, 7),
               repeat_columns=("A", "A"), wide=0, scale=84, fit="tests")


# Workings ---------------------------------------------------------------------------------------------------------

def make_workings(book):
    work_event(book)
    work_rounds(book)
    work_stations(book)
    work_athletes(book)


def work_event(book):
    """What follows from the sheet Event alone: stations one row each, then single values."""
    sheet, _ = book.by_event, book.texts
    lit = book.texts.lit
    sheet.put("A1", _("What follows from the sheet Event"), "working head")
    table = Columns(sheet, 4, STATIONS, "st")
    table.add("n", None)
    table.add("unit", 'INDEX(station_units;{n})&""')
    table.add("row", 'IF({unit}="";0;IFERROR(MATCH({unit};list_units;0);-1))')
    table.add("kind", "IF({row}>0;INDEX(unit_kind;{row});0)")
    table.add("machine", "IF({row}>0;INDEX(unit_machine;{row});0)")
    table.add("rate", f'CHOOSE({{kind}}+1;0;N(INDEX(station_rep_s;{{n}}));N(INDEX(station_calh;{{n}}));'
                      f'N(INDEX(station_pace;{{n}}));N(INDEX(station_pace;{{n}}));N(INDEX(station_rep_s;{{n}}));0)')
    table.add("extras", 'IF({row}>0;N(INDEX(station_handling;{n}))+event_step_s*IF(ISNUMBER(INDEX(station_next;{n}));'
                        "INDEX(station_next;{n});event_steps);0)")
    table.add("counts", "IF({row}>0;IF(ISNUMBER(INDEX(station_counts;{n}));INDEX(station_counts;{n});"
                        "INDEX(unit_credit;{row}));0)")
    table.add("when", "IFERROR(MATCH(INDEX(station_when;{n});list_when;0);1)")
    table.add("change", "N(INDEX(station_change;{n}))")
    table.add("grip", "IF(AND({kind}=1;INDEX(station_grip;{n})=INDEX(list_yes;1));1;0)")
    table.add("longest", "N(INDEX(station_longest;{n}))")
    table.add("column", 'IF(INDEX(station_movements;{n})="";0;IFERROR(MATCH(INDEX(station_movements;{n});'
                        "tests_movements;0);0))")
    table.add("rank", "IF({kind}=1;COUNTIF(INDEX(st_kind;1):{kind};1);0)")
    table.add("name", 'IF({row}>0;IF(INDEX(station_movements;{n})="";{unit};INDEX(station_movements;{n}));"")')
    amounts = "INDEX(station_amounts;{n};0)"
    table.add("problem", f'IF(AND({{unit}}="";INDEX(station_movements;{{n}})&""<>"");{lit("give a unit")};'
                         f'IF({{row}}=0;"";IF({{row}}<0;{lit("unit not known: choose one from the list")};'
                         f'IF(AND({{kind}}<>{STILL};{{rate}}<=0);CHOOSE({{kind}};{lit("give seconds a rep")};'
                         f'{lit("give cal/h")};{lit("give the pace")};{lit("give the pace")};'
                         f'{lit("give seconds a metre")});'
                         f'IF(AND({{kind}}<>{STILL};{{kind}}<>{METRES};{{kind}}<>{RUN};{{rate}}<0.17);'
                         f'{lit("seconds are plain numbers, not a time")};'
                         f'IF(OR(COUNT({amounts})=0;SUMPRODUCT(ISTEXT({amounts})*({amounts}<>""))>0;MIN({amounts})<0);'
                         f'{lit("give the amount of each division as a number")};""))))))')

    texts = book.texts
    singles = Columns(sheet, 20, 1, "event")
    say = texts.say
    singles.add("kind", "IFERROR(MATCH(event_format;list_format;0);0)")
    singles.add("trouble", 'SUMPRODUCT((st_problem<>"")*st_n*(st_n<=999))')
    singles.add("bad", 'IF({trouble}=0;0;SUMPRODUCT(MIN(st_n+999*(st_problem=""))))')
    singles.add("check",
                f'IF({{kind}}=0;{lit("Choose a format.")};'
                f'IF(NOT(ISNUMBER(event_cap));{lit("Give the cap as minutes and seconds, such as 18:00.")};'
                f'IF(OR(event_cap<=0;event_cap>=4/24);{lit("The cap must be under 4 hours; 18:00 is eighteen minutes.")};'
                f'IF(AND({{kind}}=2;NOT(N(event_rounds)>=1));{lit("Give the number of rounds.")};'
                f'IF(SUMPRODUCT((division_names<>"")*1)=0;{lit("Name a division.")};'
                f'IF(SUMPRODUCT((st_kind>0)*1)=0;{lit("Give at least one station.")};'
                f'IF({{bad}}>0;{say("Station {n}: {problem}.", n="{bad}", problem="INDEX(st_problem;{bad})")};'
                f'IF(AND({{kind}}<>2;SUMPRODUCT((st_when=3)*(st_kind>0))>0);'
                f'{lit("A last round is known only where the rounds are given: choose the format for time.")};""))))))))')
    singles.add("ok", 'IF({check}="";1;0)')
    singles.add("columns", f"IF(SUMPRODUCT((st_kind>0)*((st_when>1)+(st_change<>0)))=0;1;{ROUNDS})")
    singles.add("ref", "IF(SUMPRODUCT((st_kind>0)*(st_when=2))>0;2;1)")
    singles.add("main", f'IFERROR(MATCH({CAL};st_kind;0);0)')
    singles.add("machine", "IF({main}=0;0;INDEX(st_machine;{main}))")
    singles.add("fresh", "IF({ok}=1;event_cap*(1-event_fade/2);0)")
    singles.add("called", 'TEXTJOIN(": ";TRUE();event_gym;event_title)')
    singles.add("stamp", f'TEXTJOIN(", ";TRUE();IF(N(event_version)>0;{say("version {version}", version="event_version")};"");'
                         f'IF(ISNUMBER(event_issued);{texts_clock("event_issued")};""))')
    singles.add("heading", 'TEXTJOIN(", ";TRUE();{called};{stamp})')
    book.answers(sheet, "event_answers", "A34")
    singles.add("hint", book.unless_absent("event_answers",
                f'IF({{ok}}=0;"! "&{lit("Sheet Event:")}&" "&{{check}};'
                f'IF(COUNTA(roster_name)=0;{lit("No athletes yet: type names on the sheet Roster.")};""))'))
    sheet.put("A24", "machine", "working head")
    machines = Columns(sheet, 26, 4, "machine")
    machines.add("n", None)
    machines.add("used", f"IF(SUMPRODUCT((st_machine={{n}})*1)>0;1;0)")
    machines.add("calh", f"IFERROR(INDEX(st_rate;MATCH(1;INDEX((st_machine={{n}})*(st_kind={CAL});0);0));0)")
    machines.add("lanes", "IF({used}=1;IF(N(INDEX(machine_counts;{n}))>0;INDEX(machine_counts;{n});event_places);event_places)")
    sheet.put("A32", '=COUNTA(roster_name)', "working")
    sheet.name("athletes", "A32")
    event = book.event
    event.put("Q8", "=MAX(1;MIN(N(event_places)+99*(N(event_places)=0);MIN(machine_lanes)))")
    event.put("Q9", "=IF(event_ok=1;event_cap+event_changeover;0)")


def work_rounds(book):
    """Amounts of every division, round by round, and what they add up to at the usual pace."""
    sheet = book.by_round
    many = DIVISIONS * ROUNDS
    sheet.put("A1", book.texts("Amounts by division and round"), "working head")
    sheet.put("A2", "division", "working head")
    sheet.put("A3", "round", "working head")
    sheet.right("B2", f"=INT((COLUMN()-2)/{ROUNDS})+1", many, "working head")
    sheet.right("B3", f"=MOD(COLUMN()-2;{ROUNDS})+1", many, "working head")
    sheet.numbers("A4", STATIONS, "working")
    sheet.moving("here_station", "$A1")
    sheet.moving("here_division", "A$2")
    sheet.moving("here_round", "A$3")
    amount = "N(INDEX(station_amounts;here_station;here_division))"
    sheet.block("B4", f"=IF(INDEX(st_kind;here_station)=0;0;CHOOSE(INDEX(st_when;here_station);MAX(0;{amount}+IF({amount}=0;0;"
                      f"INDEX(st_change;here_station)*(here_round-1)));IF(here_round=1;{amount};0);"
                      f"IF(here_round=event_rounds;{amount};0)))", STATIONS, many, "working")
    end = column(many)
    sheet.name("amounts_all", f"B4:{end}15")
    for row, name, formula in (
            (16, "reps_all", "=SUMPRODUCT(st_counts;B4:B15)"),
            (17, "cum_reps", "=IF(B$3=1;0;A17)+B16"),
            (18, "work_all", "=IF(event_ok=1;IFERROR(86400*" + pc("PLAN.ROUNDTIME", "station_units", "B4:B15", "st_rate",
                                                               "st_extras") + ";0);0)"),
            (19, "cum_work", "=IF(B$3=1;0;A19)+B18")):
        sheet.right(f"B{row}", formula, many, "working")
        sheet.put(f"A{row}", name, "working head")
        sheet.name(name, f"B{row}:{end}{row}")
    # what a judge counts: the score at the end of each station
    sheet.numbers("A21", STATIONS, "working")
    at = "COLUMN()-1"
    sheet.block("B21", f"=INDEX(cum_reps;1;{at})-INDEX(reps_all;1;{at})+SUMPRODUCT(INDEX(st_counts;1):INDEX(st_counts;here_station);"
                       f"INDEX(amounts_all;1;{at}):INDEX(amounts_all;here_station;{at}))", STATIONS, many, "working")
    sheet.name("cum_station", f"B21:{end}32")


STATION_BLOCKS = ("rate", "amount", "rounds", "reps", "time", "away", "max", "from", "open", "back", "hand",
                  "rate2", "extras2", "line", "inverse")


def work_stations(book):
    """One column an athlete, one row a station in each block: what PLAN and SETS are fed with."""
    sheet, say, lit = book.by_station, book.texts.say, book.texts.lit
    sheet.put("A1", book.texts("One column an athlete"), "working head")
    sheet.right("C1", "=COLUMN()-2", ATHLETES, "working head")
    heads = ("ok", "group", "tests", "first", "whole", "working")
    # Names that move with the cell keep the formula of a block the same, letter for letter, in all of its cells.
    sheet.moving("my_number", "C$1")
    sheet.moving("my_station", "$A1")
    for row, key in enumerate(heads, 2):
        sheet.put(f"B{row}", key, "working head")
        sheet.right(f"C{row}", f"=INDEX(a_{key};my_number)", ATHLETES, "working")
        sheet.moving(f"my_{key}", f"C${row}")
    ok, group, tests, first, whole, working = (f"my_{key}" for key in heads)
    start = {block: 12 + 14 * i for i, block in enumerate(STATION_BLOCKS)}

    def at(block):
        return f"INDEX(s_{block};my_station;my_number)"

    def span(block):
        return f"INDEX(s_{block};0;my_number)"

    def of(name, n):
        return f"INDEX(st_{name};{n})"

    def put(block, formula):
        first_cell = f"C{start[block]}"
        sheet.put(f"A{start[block] - 1}", block, "working head")
        sheet.numbers(f"A{start[block]}", STATIONS, "working")
        sheet.block(first_cell, "=" + formula("my_station"), STATIONS, ATHLETES, "working")
        sheet.name(f"s_{block}", f"{first_cell}:{column(1 + ATHLETES)}{start[block] + STATIONS - 1}")

    floor = "CHOOSE({m};INDEX(a_floor_1;my_number);INDEX(a_floor_2;my_number);INDEX(a_floor_3;my_number);INDEX(a_floor_4;my_number))"
    source = "CHOOSE({m};INDEX(a_source_1;my_number);INDEX(a_source_2;my_number);INDEX(a_source_3;my_number);4)"
    split = pc("ERG.CONVERT", "{floor}", '"cal/h"', '"split"', 'CHOOSE({m};"row";"ski";"bike")')

    def rate(n):
        m = of("machine", n)
        own = f"IF({tests}*{of('column', n)}=0;0;N(INDEX(tests_sets;{tests};{of('column', n)}+2)))"
        usual = f"{of('rate', n)}*INDEX(group_rep;{group})"
        metres = (f"IF({source.format(m=m)}<4;IFERROR({split.format(floor=floor.format(m=m), m=m)};"
                  f"{of('rate', n)}/INDEX(group_erg;{group}));{of('rate', n)}/INDEX(group_erg;{group}))")
        return (f"IF({ok}=0;0;CHOOSE({of('kind', n)}+1;0;IF({own}>=0.17;{own};{usual});{floor.format(m=m)};{metres};"
                f"{usual};IF({own}>=0.17;{own};{usual});0))")

    put("rate", rate)
    put("amount", lambda n: f"IF({ok}=0;0;IF(event_columns=1;INDEX(amounts_all;{n};{first});"
                            f"SUM(INDEX(amounts_all;{n};{first}):INDEX(amounts_all;{n};{first}+{whole}-1))/{whole}))")
    # sets: where rounds differ, the scheme is for the round in the middle; a station of one round only has one
    put("rounds", lambda n: f"IF(OR({ok}=0;{of('kind', n)}<>{REP});0;IF({of('when', n)}=1;{whole};1))")
    put("reps", lambda n: f"IF({at('rounds')}=0;0;ROUNDUP({at('amount')}*IF({of('when', n)}=1;1;{whole})-1E-9;0))")
    put("time", lambda n: f"IF(OR({ok}=0;{at('amount')}=0);0;IFERROR(86400*"
                          + pc("PLAN.ROUNDTIME", of("unit", n), at("amount"), at("rate"), of("extras", n)) + ";0))")
    work = f"({span('time')}-st_extras*({span('time')}>0))"
    put("away", lambda n: f"IF({at('reps')}=0;0;SUM({span('time')})-({at('time')}-{of('extras', n)})"
                          f"-IF({of('grip', n)}=1;0.5*(SUMPRODUCT(st_grip*{work})-({at('time')}-{of('extras', n)}));0))")
    held = f"IF({tests}*{{c}}=0;0;N(INDEX(tests_sets;{tests};{{c}})))"
    single = f"IF({tests}*{{c}}=0;0;N(INDEX(tests_sets;{tests};{{c}}+1)))"
    load = "N(INDEX(station_loads;{n};INDEX(a_d;my_number)))"
    put("from", lambda n: f"IF({at('reps')}=0;0;IF({held.format(c=of('column', n))}>=1;1;"
                          f"IF(AND({load.format(n=n)}>0;{single.format(c=of('column', n))}>={load.format(n=n)});2;"
                          f"IF({of('longest', n)}>0;3;4))))")
    put("max", lambda n: f"IF({at('from')}=0;0;CHOOSE({at('from')};{held.format(c=of('column', n))};"
                         f"IFERROR({pc('SETS.MAXREPS', load.format(n=n), single.format(c=of('column', n)))};0);"
                         f"{of('longest', n)}*INDEX(group_sets;{group});0))")
    put("open", lambda n: f'IF({at("max")}<=0;"";IFERROR({pc("SETS.PLAN", at("reps"), at("rounds"), at("max"), at("away"), "event_rest_s")};'
                          f'IFERROR({pc("SETS.SPLIT", at("reps"), at("reps"))};"")))')
    put("back", lambda n: f'IF({at("open")}="";"";IFERROR({pc("SETS.SPLIT", at("reps"), "MIN(" + at("reps") + ";" + pc("SETS.COUNT", at("open")) + "+1)")};""))')
    put("hand", lambda n: f'IF({at("open")}="";"";IFERROR({pc("SETS.LEFT", at("open"), at("rounds"), at("max"), at("away"), "event_rest_s")};""))')
    put("rate2", lambda n: f"IF(AND({n}=event_main;{working}>0);{working};{at('rate')})")
    put("extras2", lambda n: f'IF({ok}=0;0;{of("extras", n)}+IF({at("open")}="";0;IFERROR(({pc("SETS.COUNT", at("open"))}-1)*event_rest_s;0)))')
    put("line", lambda n: f'IF({at("open")}="";IF(AND({of("kind", n)}={CAL};{n}<>event_main;{at("amount")}>0);'
                          + say("{movement}: at least {rate} cal/h", movement=of("name", n), rate=f'ROUND({at("rate")};0)')
                          + f';"");IF({at("open")}={at("back")};'
                          + say("{movement}: {open}", movement=of("name", n), open=at("open")) + ";" + say("{movement}: {open}, then {back}", movement=of("name", n),
                                                          open=at("open"), back=at("back")) + "))")
    put("inverse", lambda n: f"IF({ok}=0;0;IF({single.format(c=of('column', n))}>0;1/{single.format(c=of('column', n))};0))")


def work_athletes(book):
    """One row an athlete: from who it is to the goal and the words beside it."""
    sheet, say, lit = book.by_athlete, book.texts.say, book.texts.lit
    sheet.put("A1", book.texts("One row an athlete"), "working head")
    a = book.athletes = Columns(sheet, 4, ATHLETES, "a", long=True)
    amounts = "INDEX(amounts_all;0;{first}):INDEX(amounts_all;0;{first}+event_columns-1)"
    per_round = "INDEX(reps_all;1;{first}):INDEX(reps_all;1;{first}+event_columns-1)"
    units, base = "station_units", "INDEX(s_rate;0;{n})"
    walk = (units, amounts, "INDEX(s_rate2;0;{n})", "INDEX(s_extras2;0;{n})")

    a.add("n", None)
    a.add("name", 'INDEX(roster_name;{n})&""')
    a.add("division", 'IF({name}="";"";INDEX(roster_division;{n})&"")')
    a.add("d", 'IF({division}="";0;IFERROR(MATCH({division};division_names;0);0))')
    a.add("ok", "IF(AND({d}>0;event_ok=1);1;0)")
    a.add("status", 'IF({name}="";0;IFERROR(MATCH(INDEX(roster_status;{n});list_status;0);1))')
    a.add("sorted", 'IF({ok}=0;0;IFERROR(MATCH(INDEX(roster_group;{n});group_names;0);0))')
    a.add("group", "IF({sorted}=0;3;{sorted})")
    a.add("tests", 'IF({ok}=0;0;IFERROR(MATCH({name};tests_name;0);0))')
    a.add("first", f"IF({{ok}}=0;0;({{d}}-1)*{ROUNDS}+1)")
    for m, machine in enumerate(MACHINES, 1):
        used = f"{{tests}}*INDEX(machine_used;{m})"
        value = lambda k: f"N(INDEX(tests_{machine};{{tests}};{k}))"
        a.add(f"fresh_{m}", f"IF({used}=0;0;IF({value(3)}<=0;0;IF(OR(N(event_date)<=0;"
                            f"event_date-{value(3)}<=7*event_test_weeks);2;1)))")
        known = f"IF({{fresh_{m}}}=2;AND({value(1)}>0;{value(2)}>0);FALSE())"
        single = f"IF({{fresh_{m}}}=2;AND({value(4)}>0;{value(5)}>0);FALSE())"
        shown = f"{value(5)}/(24*{value(4)})"
        if machine == "armbike":
            a.add(f"fit_{m}", "0")
            power = f"event_share*{shown}*({value(4)}/event_cap)^{RIEGEL:.15g}"
        else:
            a.add(f"fit_{m}", f"IF({known};IFERROR({pc('TEST.FLOOR', 'event_cap', value(1), value(2), 'event_share')};0);0)")
            watts = pc("ERG.CONVERT", shown, '"cal/h"', '"W"', f'"{machine}"')
            power = pc("ERG.CONVERT", f"event_share*{watts}*({value(4)}/event_cap)^{RIEGEL:.15g}", '"W"', '"cal/h"',
                       f'"{machine}"')
        a.add(f"one_{m}", f"IF({single};IFERROR({power};0);0)")
        a.add(f"source_{m}", f"IF(INDEX(machine_used;{m})*{{ok}}=0;0;IF({{fit_{m}}}>0;IF({value(6)}>0;1;2);"
                             f"IF({{one_{m}}}>0;3;4)))" if machine != "armbike" else
              f"IF(INDEX(machine_used;{m})*{{ok}}=0;0;IF({{one_{m}}}>0;3;4))")
        a.add(f"floor_{m}", f"IF({{source_{m}}}=0;0;CHOOSE({{source_{m}}};{{fit_{m}}};{{fit_{m}}};{{one_{m}}};"
                            f"INDEX(machine_calh;{m})*INDEX(group_erg;{{group}})))")
    chosen = lambda key: "CHOOSE(event_machine;" + ";".join(f"{{{key}_{m}}}" for m in range(1, 5)) + ")"
    tested = lambda k: "CHOOSE(event_machine;" + ";".join(
        f"N(INDEX(tests_{machine};{{tests}};{k}))" for machine in MACHINES) + ")"
    a.add("from", f"IF(OR(event_machine=0;{{ok}}=0);0;{chosen('source')})")
    a.add("old", f"IF(OR(event_machine=0;{{ok}}=0);0;IF({chosen('fresh')}=1;1;0))")
    a.add("cp", f"IF(OR({{from}}=1;{{from}}=2);{tested(1)};0)")
    a.add("reserve", f"IF({{cp}}=0;0;{tested(2)})")
    a.add("effort", "event_effort")
    a.add("floor", f"IF({{from}}=0;0;{chosen('floor')})")
    # fresh, without rests between sets: how many rounds there are about to be
    a.add("reps0", f"IF({{ok}}=0;0;IFERROR({pc('PLAN.SCORE', 'event_fresh', units, amounts, base, 'st_extras', 'st_counts')};0))")
    a.add("per_round", "IF({ok}=0;0;INDEX(reps_all;1;{first}+event_ref-1))")
    a.add("round_s", f"IF({{ok}}=0;0;IFERROR(86400*{pc('PLAN.ROUNDTIME', units, amounts, base, 'st_extras', 'event_ref')};0))")

    def rounds_of(reps):
        """Rounds, decimal, that so many counted units are."""
        k = (f"IFERROR(MATCH({reps};INDEX(cum_reps;1;{{first}}):INDEX(cum_reps;1;{{first}}+{ROUNDS - 1});1);0)")
        done = f"IF({k}=0;0;INDEX(cum_reps;1;{{first}}+{k}-1))"
        return (f"IF(event_columns=1;{reps}/{{per_round}};{k}+IF({k}>={ROUNDS};0;IFERROR(({reps}-{done})/"
                f"INDEX(reps_all;1;{{first}}+{k});0)))")

    a.add("rounds0", f"IF({{ok}}*{{round_s}}=0;0;IF(event_kind=2;event_rounds;IF({{per_round}}=0;"
                     f"86400*event_fresh/{{round_s}};{rounds_of('{reps0}')})))")
    a.add("whole", f"IF({{ok}}=0;0;MIN({ROUNDS};MAX(1;ROUNDUP({{rounds0}}-1E-9;0))))")
    # an ergometer of one round only is one bout in the whole task
    once = "IF(INDEX(st_when;event_main)=1;1;{whole})"
    a.add("calories", f"IF({{from}}=0;0;INDEX(s_amount;event_main;{{n}})*{once})")
    a.add("other_s", f"IF({{from}}=0;0;{once}*(SUM(INDEX(s_time;0;{{n}}))-INDEX(s_time;event_main;{{n}})+INDEX(st_extras;event_main)))")
    a.add("alone", f"IF({{cp}}>0;IFERROR({pc('TEST.ALONE', 'event_cap', '{cp}', '{reserve}')};0);"
                   f"IF({{from}}=3;IF(event_machine=4;{{floor}}/event_share;IFERROR({pc('ERG.CONVERT', pc('ERG.CONVERT', '{floor}', quoted('cal/h'), quoted('W')) + '/event_share', quoted('W'), quoted('cal/h'))};0));0))")
    hold = pc("PLAN.HOLD", "event_cap", "{calories}", "{other_s}", "{cp}", "{reserve}", "{effort}", "event_keep")
    left = pc("PLAN.RESERVE", "event_cap", "{calories}", "{other_s}", "{cp}", "{reserve}", "{floor}", "{effort}")
    a.add("hold", f"IF(OR({{cp}}=0;{{calories}}=0);0;IFERROR({hold};IF(IFERROR({left};-1)>=event_keep;{{alone}};0)))")
    a.add("ceiling", "IF({from}=1;{hold};IF({from}=2;MIN({hold};{alone});IF({from}=3;{alone};0)))")
    a.add("working", "IF({from}=0;0;IF(AND({ceiling}>0;{ceiling}<{floor});{ceiling};{floor}))")
    # prediction: the stations walked at those rates, rests between sets included, with the usual fade
    a.add("reps", f"IF({{ok}}=0;0;IFERROR({pc('PLAN.SCORE', 'event_fresh', *walk, 'st_counts')};{{reps0}}))")
    a.add("round2_s", f"IF({{ok}}=0;0;IFERROR(86400*{pc('PLAN.ROUNDTIME', *walk, 'event_ref')};0))")
    a.add("rounds", f"IF({{ok}}*{{round2_s}}=0;0;IF({{per_round}}=0;86400*event_fresh/{{round2_s}};{rounds_of('{reps}')}))")
    a.add("finish", f"IF(OR({{ok}}=0;event_kind<>2);0;IFERROR({pc('PLAN.FINISH', 'event_rounds', *walk)}/(1-event_fade/2);0))")
    a.add("all_reps", "IF(OR({ok}=0;event_kind<>2);0;INDEX(cum_reps;1;{first}+event_rounds-1))")
    a.add("in_time", "IF(AND(event_kind=2;{finish}>0;{finish}<=event_cap);1;0)")
    a.add("free", "IF(AND({ok}=1;{status}=1);1;0)")
    a.carry_on(book.by_goal, book.texts("One row an athlete: goal and words"))
    a.add("predicted", f'IF({{free}}=0;"";IFERROR(IF(event_kind=2;IF({{in_time}}=1;{pc("CLOCK.TEXT", "{finish}")};'
                       f'{pc("SCORE.RESULT", "event_cap", "event_cap", "MAX(1;{all_reps}-{reps})")});'
                       f'IF({{per_round}}=0;FIXED({{rounds}};1);{pc("SCORE.TEXT", "{reps}", per_round)}));""))')
    a.add("step_down", "MAX(event_goal_step;FLOOR({rounds}+1E-9;event_goal_step))")
    a.add("suggested_clock", "IF({free}=0;0;IF({in_time}=1;MIN(event_cap;CEILING({finish}-1E-9;event_goal_step_time));event_cap))")
    a.add("suggested_rounds", "IF({free}=0;0;IF({in_time}=1;event_rounds;{step_down}))")
    goal_text = lambda clock, rounds: (f'IF({{free}}=0;"";IF(AND(event_kind=2;{rounds}=event_rounds);'
                                       f'IFERROR({pc("CLOCK.TEXT", clock)};"");ROUND({rounds};2)&""))')
    a.add("suggested", goal_text("{suggested_clock}", "{suggested_rounds}"))
    # the coach's own goal: -1 where it cannot be read
    typed = 'INDEX(roster_goal;{n})'
    number = f'IFERROR(VALUE({typed});0)'
    scored = rounds_of(pc("SCORE.REPS", typed, per_round))
    a.add("own", f'IF(OR({{ok}}=0;event_kind=2);0;IF({typed}&""="";0;IF(ISNUMBER({typed});IF(AND({typed}>0;{typed}<100);{typed};-1);'
                 f'IF({number}>0;IF({number}<100;{number};-1);IFERROR({scored};-1)))))')
    a.add("own_time", 'IF(OR({ok}=0;event_kind<>2);0;IF(INDEX(roster_goal_time;{n})&""="";0;IF(ISNUMBER(INDEX(roster_goal_time;{n}));'
                      'IF(AND(INDEX(roster_goal_time;{n})>0;INDEX(roster_goal_time;{n})<=event_cap);INDEX(roster_goal_time;{n});-1);-1)))')
    a.add("clock0", "IF({free}=0;0;IF({own_time}>0;{own_time};{suggested_clock}))")
    a.add("goal0", "IF({free}=0;0;IF({own_time}>0;event_rounds;IF({own}>0;{own};{suggested_rounds})))")
    a.add("timed", "IF(AND(event_kind=2;{goal0}=event_rounds;{free}=1);1;0)")
    a.add("answer", 'IF({free}=0;0;IFERROR(MATCH(INDEX(roster_answer;{n});list_answer;0);0))')
    # the rehearsal answer moves the goal: kept, the next lower one, or the rehearsed pace
    down = "MAX(event_goal_step;CEILING({goal0}-event_goal_step-1E-9;event_goal_step))"
    a.add("goal_rounds", f"IF(OR({{timed}}=1;{{answer}}<2);{{goal0}};IF({{answer}}=2;{down};"
                         "MAX(event_goal_step;FLOOR({goal0}*event_rehearsal+1E-9;event_goal_step))))")
    a.add("goal_clock", "IF({timed}=0;{clock0};MIN(event_cap;IF({answer}<2;{clock0};IF({answer}=2;{clock0}+event_goal_step_time;"
                        "{clock0}/event_rehearsal))))")
    a.add("goal", goal_text("{goal_clock}", "{goal_rounds}"))
    a.add("drift", "IF({answer}=1;-event_push;0)")
    k = "INT({goal_rounds}+1E-9)"
    a.add("work", f"IF({{free}}=0;0;IF(event_columns=1;{{goal_rounds}};IF({k}=0;0;INDEX(cum_work;1;{{first}}+{k}-1))+"
                  f"IF({{goal_rounds}}-{k}<1E-9;0;({{goal_rounds}}-{k})*INDEX(work_all;1;{{first}}+{k}))))")
    mean = pc("PACE.ROUND", "{goal_clock}", "{goal_rounds}")
    a.add("target", f'IF({{free}}=0;"";IFERROR(IF(event_columns=1;{mean};{mean}*{{goal_rounds}}*'
                    'INDEX(work_all;1;{first}+event_ref-1)/{work});""))')

    clocks = book.by_clock
    clocks.put("A1", book.texts("Planned clock at the end of each round, one row an athlete"), "working head")
    clocks.moving("here_step", "A$3")
    place = "IF(event_columns=1;here_step;{goal_rounds}*INDEX(cum_work;1;{first}+here_step-1)/{work})"
    planned = pc("PACE.CLOCK", "{goal_clock}", "{goal_rounds}", place, "{drift}")
    # a card's strip has 20 cells: where there are more rounds, it shows every second
    a.add("every", f"MAX(1;ROUNDUP({{goal_rounds}}/{STRIP}-1E-9;0))")
    first = 1
    for name, count, formula in (
            ("a_clocks", ROUNDS, f'IF(OR({{free}}=0;here_step>{{goal_rounds}}+1E-9);"";IFERROR({planned};""))'),
            ("a_strip", STRIP, 'IF(here_step*{every}>{goal_rounds}+1E-9;"";here_step*{every})'),
            ("a_strip_clock", STRIP, f'IFERROR({pc("CLOCK.TEXT", "INDEX(a_clocks;{n};INDEX(a_strip;{n};here_step))")};"")')):
        clocks.put(address(first, 1), name, "working head")
        clocks.row(address(first, 2), range(1, count + 1), "working head")
        clocks.block(address(first, 3), "=" + a.at(formula), ATHLETES, count, "working")
        clocks.name(name, f"{address(first, 3)}:{address(first + count - 1, 2 + ATHLETES)}")
        first += count + 1
    a.add("open", "INDEX(a_clocks;{n};1)")
    a.add("third", "INDEX(a_clocks;{n};3)")
    # one goal lower, for the rule on the card
    a.add("low_rounds", "IF({free}=0;0;IF({timed}=1;{goal_rounds};MAX(event_goal_step;{goal_rounds}-event_goal_step)))")
    a.add("low_clock", "IF({free}=0;0;IF({timed}=1;MIN(event_cap;{goal_clock}+event_goal_step_time);{goal_clock}))")
    a.add("late", 'IF(OR({free}=0;{third}="";AND({low_rounds}={goal_rounds};{low_clock}={goal_clock}));"";'
                  "{third}*({low_clock}/{low_rounds})/({goal_clock}/{goal_rounds}))")
    a.add("low", goal_text("{low_clock}", "{low_rounds}"))
    a.add("low_target", 'IF({late}="";"";{target}*({low_clock}/{low_rounds})/({goal_clock}/{goal_rounds}))')
    # what the goal asks of the ergometer: 0 without one, -1 where the other stations leave no room
    need = pc("PLAN.ERGNEED", "{goal_clock}*(1-event_fade/2)", "{goal_rounds}", *walk, "event_main")
    a.add("need", f"IF(OR({{free}}=0;{{from}}=0);0;IF({{calories}}=0;0;IFERROR({need};-1)))")
    a.add("rest_s", "IF({free}=0;0;{round2_s}-IF({from}=0;0;IF({working}=0;0;3600*INDEX(s_amount;event_main;{n})/{working})))")
    a.add("most", "IF({need}<0;86400*{goal_clock}*(1-event_fade/2)/MAX(1;{rest_s});0)")
    reach = "IF({timed}=1;IF({finish}>0;{goal_clock}/{finish};0);IF({goal_rounds}>0;{rounds}/{goal_rounds};0))"
    a.add("spare", f"IF({{free}}=0;0;IF({{need}}=0;{reach}-1;IF({{need}}<0;-9;IF({{ceiling}}>0;{{ceiling}};{{working}})/{{need}}-1)))")
    a.add("grade", "IF({free}=0;0;IF({need}=0;IF({spare}>=0.05;1;IF({spare}>=-0.001;2;IF({spare}>=-0.03;3;5)));"
                   "IF({need}<0;6;IF({need}<=0.95*{working};1;IF({need}<={working}*1.001;2;IF({ceiling}=0;"
                   "IF({need}<={working}*1.05;3;5);IF({need}<=({working}+{ceiling})/2;3;IF({need}<={ceiling};4;5))))))))")
    over = "ROUND({need}-IF({ceiling}>0;{ceiling};{working});0)"
    a.add("words", f'IF({{grade}}=0;"";CHOOSE({{grade}};"●●● "&{lit("comfortable")};"●●○ "&{lit("holds")};"●○○ "&{lit("thin")};'
                   f'"▲ "&{lit("very thin")};IF({{need}}=0;"▲ "&{lit("above what is predicted")};'
                   f'IF({{ceiling}}>0;{say("▲ {over} cal/h above the ceiling", over=over)};'
                   f'{say("▲ {over} cal/h above the group", over=over)}));"▲ "&{lit("no room at the ergometer")}))')
    a.add("order", 'IF({free}=0;"";-100*{grade}+{spare}+{n}*1E-9)')
    a.add("need_shown", f'IF(OR({{free}}=0;{{need}}=0);"";IF({{need}}<0;{lit("no room")};{{need}}))')
    a.add("floor_shown", 'IF(OR({free}=0;{working}=0);"";{working})')
    a.add("ceiling_shown", 'IF(OR({free}=0;{ceiling}=0);"";{ceiling})')
    a.add("band", 'IF(OR({free}=0;{working}=0);"";ROUND({working};0)&IF({ceiling}>0;"–"&ROUND({ceiling};0);""))')
    a.add("schemes", 'IF({ok}=0;"";TEXTJOIN(" | ";TRUE();INDEX(s_open;0;{n})))')
    a.add("rehearsal", f'IF({{free}}=0;"";IFERROR({pc("PACE.REHEARSAL", "{target}", "event_rehearsal")};""))')
    a.add("rehearsal_rate", 'IF(OR({free}=0;{need}<=0);"";{need}*event_rehearsal)')
    a.add("rehearsal_rounds", 'IF({free}=0;"";MAX(1;MIN(3;INT({goal_rounds}/5+1E-9))))')
    a.add("source", f'IF({{ok}}=0;"";IF({{from}}=0;IF({{sorted}}=0;{lit("middle pace group")};{say("pace group {group}", group="INDEX(group_names;{group})")});'
                    f'CHOOSE({{from}};{lit("fitted effort")};{lit("tests")};{lit("one test, by its share")};'
                    f'IF({{sorted}}=0;{lit("middle pace group")};{say("pace group {group}", group="INDEX(group_names;{group})")}))))')
    notes = (
        ('AND({name}<>"";COUNTIF(roster_name;{name})>1)', lit("name twice: add an initial")),
        ('AND({name}<>"";{d}=0)', lit("give a division")),
        ("AND({ok}=1;{status}=2)", lit("newcomer: no goal, no maximal test; builds up over weeks")),
        ("AND({ok}=1;{status}=3)", lit("minor: no goal, no maximal test")),
        ("AND({ok}=1;{status}=4)", lit("returning: no goal, no maximal test; builds up over weeks")),
        ("AND({ok}=1;{status}=5)", lit("injured: does not start")),
        ("OR({own}<0;{own_time}<0)", lit("own goal not understood: suggested goal taken")),
        ("{grade}=6", say("no ergometer is fast enough: the other stations alone allow {most} rounds",
                          most="FIXED(FLOOR({most};0.1);1)")),
        ('AND({free}=1;COUNTIF(INDEX(s_hand;0;{n});"<0")>0)', lit("not even single repetitions last: fewer, or the adapted version")),
        ("{grade}=5", say("nearer: {suggested}", suggested="{suggested}")),
        ("{answer}=1", lit("goal kept: open slower, push in the last quarter")),
        ("{answer}=2", lit("one goal lower after the rehearsal")),
        ("{answer}=3", lit("rehearsed pace is the goal")),
        ("AND({free}=1;{old}=1)", lit("test too old: not used")),
        ("AND({free}=1;{ceiling}>0;{ceiling}<{floor})", lit("reserve binds: ceiling below the usual floor")),
        ("AND({free}=1;{from}>=4;{sorted}=0)", lit("no test and no pace group: sort into a group")),
    )
    joined = ";".join(f'IF({when};{what};"")' for when, what in notes)
    a.add("note", f'IF({{name}}="";"";TEXTJOIN("; ";TRUE();{joined}))')
    a.add("heat_name", 'IF(OR({ok}=0;{status}=5);"";{name})')
    a.add("heat_order", 'IF({ok}=0;"";IF(event_kind=2;IF({finish}>0;1/{finish};0);{rounds}))')


# Pace table -------------------------------------------------------------------------------------------------------

GOALS = 14


def make_pace(book):
    sheet, _, lit = book.pace, book.texts, book.texts.lit
    sheet.widths("A", 40, 36, 40, *[38] * DIVISIONS)
    event_paper.wall_head(sheet)
    no_athletes(sheet, "A3")
    sheet.text("A5", "Goal", "wall head")
    sheet.text("B5", "Round", "wall head")
    sheet.text("C5", "Half-way", "wall head")
    sheet.right("D5", '=INDEX(division_names;1;COLUMN()-3)&""', DIVISIONS, "wall head")
    sheet.put("D4", f'=IF(event_main=0;"";INDEX(st_name;event_main)&": "&{lit("cal/h needed")})', "wall stamp")
    sheet.heights(4, 4, 11)
    sheet.heights(5, 5, 20)
    last = 5 + GOALS
    # column L: rounds, M: clock; the wall shows one of them
    step = "(ROW()-6)"
    sheet.down("L6", f"=IF(event_ok=0;0;IF(event_kind=2;IF(wall_from_time+{step}*wall_step_time<=MIN(wall_to_time;event_cap)+1E-9;event_rounds;0);"
                     f"IF(wall_from+{step}*wall_step<=wall_to+1E-9;wall_from+{step}*wall_step;0)))", GOALS, "working")
    sheet.down("M6", f"=IF(L6=0;0;IF(event_kind=2;wall_from_time+{step}*wall_step_time;event_cap))", GOALS, "working")
    sheet.down("N6", "=IF(L6=0;0;IF(event_columns=1;L6;INDEX(cum_work;1;INT(L6))+IF(L6-INT(L6)<1E-9;0;(L6-INT(L6))*INDEX(work_all;1;INT(L6)+1))))",
               GOALS, "working")
    sheet.name("wall_goals", f"A6:A{last}")
    sheet.name("wall_rounds", f"L6:L{last}")
    sheet.name("wall_clock", f"M6:M{last}")
    sheet.name("wall_work", f"N6:N{last}")
    sheet.down("A6", f'=IF($L6=0;"";IF(event_kind=2;IFERROR({pc("CLOCK.TEXT", "$M6")};"");ROUND($L6;2)&""))', GOALS, "wall goal")
    sheet.down("B6", f'=IF($L6=0;"";IFERROR({pc("PACE.ROUND", "$M6", "$L6")}*IF(event_columns=1;1;$L6*INDEX(work_all;1;event_ref)/$N6);""))',
               GOALS, "wall time")
    half = "ROUNDUP($L6/2-1E-9;0)"
    sheet.down("C6", f'=IF($L6=0;"";IFERROR({pc("PACE.CLOCK", "$M6", "$L6", f"IF(event_columns=1;{half};$L6*INDEX(cum_work;1;{half})/$N6)")};""))',
               GOALS, "wall time")
    first = f"((COLUMN()-4)*{ROUNDS}+1)"
    amounts = f"INDEX(amounts_all;0;{first}):INDEX(amounts_all;0;{first}+event_columns-1)"
    need = pc("PLAN.ERGNEED", "$M6*(1-event_fade/2)", "$L6", "station_units", amounts, "st_rate", "st_extras", "event_main")
    sheet.block("D6", f'=IF(OR($L6=0;event_main=0;D$5="");"";IF(SUM(INDEX(amounts_all;event_main;{first}):INDEX(amounts_all;event_main;{first}+event_columns-1))=0;"–";'
                      f'IFERROR(IF({need}>wall_most;"▲ "&{lit("no")};ROUND({need};0));"▲ "&{lit("no")})))', GOALS, DIVISIONS, "wall cell")
    sheet.mark(f"D5:{column(2 + DIVISIONS)}{last}", ('OR(event_main=0;D$5="")', "blank beside"), ("AND(ROW()>5;$L5=0)", "blank below"))
    sheet.mark(f"A6:C{last}", ('$L6=0', "blank below"))
    note = last + 2
    end = column(2 + DIVISIONS)
    sheet.merged(f"A{note}:{end}{note}", _("Half-way: the clock at the end of the middle round. cal/h needed: at the usual "
                                           "pace of the other stations, with the usual fade. ▲ no: the other stations leave no room, or more than the highest rate would be needed."), "wall note")
    sheet.heights(note, note, 16)
    sheet.merged(f"A{note + 1}:{end}{note + 1}", _(CAUTION), "caution")
    sheet.heights(note + 1, note + 1, 12)
    for letter in "LMN":
        sheet.sheet.Columns.getByName(letter).IsVisible = False
    sheet.page(f"A1:{end}{note + 1}", landscape=True, wide=1, tall=1, centre=True)
