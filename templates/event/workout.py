"""The sheet Workout: one block of cells with a hidden column of keys, by which the functions read it.

What must be typed for a workout is on top and tinted. What few change is below, in closed groups, each value with a
sentence on what it does.
"""

from dataclasses import dataclass

from builder import address, column, pc
from com.sun.star.table.TableOrientation import COLUMNS, ROWS

from event import lists
from event.sizes import DAY, DIVISIONS, GROUPS, MACHINE_NAMES, MACHINES, ROUNDS, STATIONS, UNDER_FOUR_HOURS

KEY, NO, MOVEMENT, UNIT, WHEN, AMOUNT, LOAD = 0, 1, 2, 3, 4, 5, 5 + DIVISIONS
END = LOAD + DIVISIONS - 1
FIRST = 4  # first row of the block, counted from 1
LAYOUT = 1  # version of the block, as the model reads it
SHOWN = 4  # divisions in sight; the others are in a closed group
MINUTE, HOUR = 1 / 1440, 1 / 24
CLOCK_RULE = ("limit", *UNDER_FOUR_HOURS, "Enter minutes and seconds such as 18:00, under 4 hours.")
INTENDED = ("limit", 0.1, 200, "Enter rounds, such as 8 or 8.5.")
SHARE = lambda low, high: ("limit", low, high, f"Enter a percentage from {low * 100:.0f}% to {high * 100:.0f}%.")
SECONDS = lambda low, high: ("seconds", low, high, "Enter seconds as a plain number, such as 2.5.")


@dataclass
class Setting:
    """A value of the block: its key, how it is labelled and styled, what it is if nobody types it, what it does."""
    key: str
    label: str
    style: str
    default: object = None
    note: str = ""
    rule: tuple = ()


TYPED = (
    Setting("title", "Title", "input text", None, "On every sheet and print. Leave empty to use the workout's own line."),
    Setting("date", "Date", "input date", None, "The day of the workout; the age of tests is counted up to it.", ("limit", *DAY, "Enter a date.")),
    Setting("format", "Format", "input", "AMRAP", "As many rounds as possible, for time, or intervals (EMOM and the like).",
            ("choose", "format", "Choose a format from the list.")),
    Setting("cap", "Time cap", "input time", None, "Minutes and seconds, such as 17:00.", CLOCK_RULE),
    Setting("rounds", "Rounds (for time only)", "input number", None, "How many rounds there are to do; a rep scheme such as 21-15-9 brings its own.",
            ("whole", 1, ROUNDS, "Enter a whole number of rounds, 1 to 40.")),
)

FORMS = (
    Setting("work_s", "Work, s", "input number", None, "Intervals: seconds of work in each window.", SECONDS(1, 7200)),
    Setting("rest_s", "Rest, s", "input number", None, "Intervals: seconds of rest after it.", SECONDS(0, 7200)),
    Setting("every_s", "A new window every, s", "input number", None, "Instead of work and rest: 60 is every minute on the minute.", SECONDS(1, 7200)),
    Setting("windows", "Windows", "input number", None, "Intervals: how many of them.", ("whole", 1, ROUNDS, "Enter a whole number, 1 to 40.")),
    Setting("in_turn", "One station per window", "input", None, "Yes: the stations take turns. Empty: all stations in each window.",
            ("choose", "yes", "Choose yes, or leave the cell empty.")),
    Setting("scoring", "Intervals score", "input", None, "The lowest window, the sum of all, or the total of reps.",
            ("choose", "scoring", "Choose from the list.")),
    Setting("team", "People per team", "input number", None, "A team is people on the roster with the same text in the column Team. Empty: everybody for themselves.", ("whole", 1, 20, "Enter a whole number of people.")),
    Setting("at_once", "Working at once", "input number", None, "Teams: how many work at the same time; the others rest.",
            ("whole", 1, 20, "Enter a whole number of people.")),
    Setting("split", "Shares of the work", "input text", None, "Teams: shares such as 60/40, or any."),
)

EVENT = (
    Setting("gym", "Gym", "input text", None, "On every print."),
    Setting("announcement", "Version", "input number", 1, "Count it up when cap, amounts or loads change after a print; prints show it.",
            ("whole", 1, 99, "Enter the version as a whole number: 1, then 2 after a correction.")),
    Setting("issued", "Announced at", "input clock", None, "Time of day of this version.", ("limit", 0, 1, "Enter a time of day such as 21:40.")),
    Setting("tiebreak", "Tie-break", "input text", None, "In words, as announced; judge's sheets show it."),
    Setting("intended_low", "Intended score from", "input number", None, "Rounds that the workout is meant for, such as 6; scale below it.", INTENDED),
    Setting("intended_high", "Intended score to", "input number", None, "Its upper end, such as 8.", INTENDED),
    Setting("first_start", "First start", "input clock", None, "Time of day of the first heat.", ("limit", 0, 1, "Enter a time of day such as 9:00.")),
    Setting("changeover", "Changeover", "input time", 5 * MINUTE, "From the end of a heat to the start of the next.", CLOCK_RULE),
    Setting("places", "Lanes on the floor", "input number", 8, "How many people fit at once. Machines may allow fewer.",
            ("whole", 1, 99, "Enter how many people fit on the floor at once.")),
)

RULES = (  # left empty they are as the model has them; its numbers are said here
    Setting("steps", "Steps between stations", "input number", None, "Walking from one station to the next. Empty: 3.", ("limit", 0, 200, "Enter the number of steps.")),
    Setting("step_s", "Seconds per step", "input number", None, "Empty: 0.6, a brisk walk.", SECONDS(0.17, 5)),
    Setting("fade", "Fade from first to last round", "input share", None, "How much slower the last round may be than the first. Empty: 6%.", SHARE(0, 0.5)),
    Setting("push", "Final push after easy practice", "input share", None, "After an easy practice round: start slower, end faster by this share. Empty: 6%.", SHARE(0, 0.5)),
    Setting("pacing", "Pacing", "input", None, "Of the clocks on cards: even, with the fade above, or faster at the end by the final push. Empty: even.",
            ("choose", "pacing", "Choose a pacing from the list.")),
    Setting("slip_s", "Goals end before the cap, s", "input number", None, "One slip must not cost the last rep. Empty: 10.", SECONDS(0, 120)),
    Setting("goal_step", "Goal step, rounds", "input number", None, "Empty: a goal may end at any station. 0.5: half rounds.", ("limit", 0.1, 5, "Enter rounds, such as 0.5.")),
    Setting("goal_step_time", "Goal step, time", "input time", None, "For time: goals go in steps of this. Empty: 0:10.", CLOCK_RULE),
    Setting("share_work", "Watts to hold, hard rounds", "input share", None, "Share of what the ergometer alone would allow where the rest of the round is hard. Empty: 75%.", SHARE(0.3, 1)),
    Setting("share_rest", "Watts to hold, rounds with rest", "input share", None, "The same where the rest of the round is rest; in between by how hard it is. Empty: 90%.", SHARE(0.3, 1)),
    Setting("work_share", "Effort elsewhere, % of critical", "input share", None, "How hard the work off the ergometer is, for the reserve. Empty: 90%.", SHARE(0.1, 1)),
    Setting("keep", "Reserve held back", "input share", None, "The rate never to exceed leaves this much of the reserve. Empty: 10%.", SHARE(0, 0.9)),
    Setting("rehearsal", "Practice round, % of pace", "input share", None, "Pace of the easy practice rounds. Empty: 82.5%; common practice is 80 to 85%.", SHARE(0.3, 1)),
    Setting("rehearsal_rounds", "Practice rounds", "input number", None, "Never more than a fifth of the work. Empty: up to 3.", ("whole", 1, 5, "Enter a whole number, 1 to 5.")),
    Setting("test_weeks", "Tests valid for, weeks", "input number", None, "An older test is not used. Empty: 12.", ("whole", 1, 104, "Enter weeks; 12 is usual.")),
    Setting("rate_unit", "Rates shown in", "input", None, "cal/h, watts, or split per 500 m (1000 m on a bike). Empty: cal/h.", ("choose", "rate", "Choose from the list.")),
)

WALL = (
    Setting("wall_from", "Wall: lowest goal", "input score", None, "Rounds, or for time a finish such as 9:00. Empty: from the intended score or the pace groups."),
    Setting("wall_to", "Wall: highest goal", "input score", None, "The page shows nine goals."),
    Setting("wall_step", "Wall: goal step", "input score", None, "Rounds, or time. Empty: one round, or half a minute."),
    Setting("wall_most", "Wall: highest cal/h shown", "input number", 1600, "A goal that needs more than this is beyond anyone here.",
            ("limit", 300, 5000, "Enter cal/h that hardly anyone exceeds, such as 1600.")),
)

STATION_COLUMNS = (("no", NO, "No."), ("movement", MOVEMENT, "Movement"), ("unit", UNIT, "Unit"), ("when", WHEN, "When"))
PACES = (  # key, column, heading, style, rule
    ("rep_s", UNIT, "Seconds per rep (or metre carried)", "input number", SECONDS(0.17, 600)),
    ("calh", WHEN, "cal/h", "input number", ("limit", 100, 5000, "Enter calories per hour as the monitor shows them, such as 900.")),
    ("pace", AMOUNT, "Pace per 500 m (bike, run: 1000 m)", "input time", ("limit", MINUTE, HOUR - 1e-9, "Enter minutes and seconds such as 2:05.")),
    ("handling_s", AMOUNT + 1, "Set-up, s per round", "input number", SECONDS(0, 600)),
    ("steps", AMOUNT + 2, "Steps to next station", "input number", ("limit", 0, 200, "Enter steps; empty: the number below is used.")),
    ("grip", AMOUNT + 3, "Grip-limited", "input", ("choose", "yes", "Choose yes if grip or the same muscles stay under load; otherwise leave empty.")),
    ("longest", LOAD, "Longest unbroken set", "input number", ("limit", 1, 999, "Enter the longest unbroken set, in reps.")),
    ("away_share", LOAD + 1, "Rest for other stations", "input share", SHARE(0, 1)),
    ("counts", LOAD + 2, "Score per unit", "input number", ("limit", 0, 99, "Enter what one unit scores; empty: the usual value.")),
)
GROUP_FACTORS = ((1.2, 0.85, 1.5), (1.1, 0.92, 1.2), (1, 1, 1), (0.9, 1.12, 0.8), (0.8, 1.3, 0.6))


class Block:
    """Writes the block row by row, and keeps where each key is: cells["cap"] is "$D$9"."""

    def __init__(self, book):
        self.book, self.sheet, self._ = book, book.workout, book.texts
        self.row, self.cells, self.closed = FIRST, {}, []

    def key(self, key, row=None):
        self.sheet.put(f"A{row or self.row}", key, "working")

    def label(self, *texts, style="section"):
        """A row of headings: pairs of column and text, or one heading for the whole row."""
        self.key("label")
        if style == "section":
            self.sheet.styled(f"B{self.row}:{column(END)}{self.row}", "section")
        for col, text in texts:
            self.sheet.text(address(col, self.row - 1), text, style)
        self.row += 1

    def settings(self, settings):
        for setting in settings:
            row, cell = self.row, f"D{self.row}"
            self.key(setting.key)
            self.sheet.text(f"B{row}", setting.label)
            self.sheet.merged(f"D{row}:E{row}", None, setting.style)
            default = setting.default
            self.sheet.put(cell, self._(default) if isinstance(default, str) else default)
            if setting.note:
                self.sheet.text(f"F{row}", setting.note, "note line")
            self.rule(cell, setting.rule)
            self.cells[setting.key] = f"$D${row}"
            self.row += 1

    def rule(self, cells, rule):
        if rule:
            kind, *rest = rule
            if kind == "choose":
                rest[0] = self.book.words[rest[0]]
            getattr(self.sheet, kind)(cells, *rest)

    def header(self, part, columns):
        """The hidden row of keys above a part."""
        self.key(part)
        for key, col in columns:
            self.sheet.put(address(col, self.row - 1), key, "working")
        self.sheet.hide_rows(self.row, self.row)
        self.row += 1

    def rows(self, part, key, columns, count):
        """The cells of a part: columns are (key, column, style, rule)."""
        first, last = self.row, self.row + count - 1
        for row in range(first, last + 1):
            self.key(key, row)
        for name, col, style, rule in columns:
            letter = column(col)
            cells = f"{letter}{first}:{letter}{last}"
            if name == "no":
                self.sheet.numbers(f"{letter}{first}", count)
            else:
                self.sheet.styled(cells, style)
                self.rule(cells, rule)
            self.cells[f"{part}.{name}"] = f"${letter}${first}:${letter}${last}"
        self.row += count
        return first, last

    def group(self, first, last):
        """Rows that open with a click on the plus at the left."""
        self.closed.append((first, last))


def make(book):
    block = Block(book)
    sheet, _ = book.workout, book.texts
    sheet.widths("A", 20, 9, 46, 24, 24, *[23] * DIVISIONS, *[20] * DIVISIONS)
    sheet.sheet.Columns.getByName("A").IsVisible = False
    block.key("pacecells.workout")
    sheet.put(f"D{FIRST}", "value", "working")
    for row, (key, value) in enumerate((("version", LAYOUT), ("language", book.texts.language)), FIRST + 1):
        block.key(key, row)
        sheet.put(f"D{row}", value, "working")
    block.row += 3
    sheet.hide_rows(FIRST, FIRST + 2)
    block.label((NO, "Enter here"))
    block.settings(TYPED)
    make_stations(block)
    for title, settings in (("Intervals, pairs and teams", FORMS), ("Prints and heats", EVENT)):
        block.label((NO, title))
        first = block.row
        block.settings(settings)
        block.group(first, block.row - 1)
    make_paces(block)
    make_groups(block)
    for title, settings in (("How it is calculated", RULES), ("Wall", WALL)):
        block.label((NO, title))
        first = block.row
        block.settings(settings)
        block.group(first, block.row - 1)
    last = block.row
    block.key("end")
    sheet.hide_rows(last, last)
    sheet.put(f"E{FIRST}", "=" + pc("WORKOUT.SEAL", f"A{FIRST + 1}:{column(END)}{last}"), "working")
    sheet.name("workout", f"A{FIRST}:{column(END)}{last}")
    book.settings = block.cells
    make_top(book, sheet, block.cells)
    for first, end in block.closed:
        sheet.close(f"A{first}:A{end}", ROWS)
    for start in (AMOUNT, LOAD):
        sheet.close(f"{column(start + SHOWN)}1:{column(start + DIVISIONS - 1)}1", COLUMNS)
    sheet.freeze(f"A{FIRST + 3}")
    sheet.page(f"B1:{column(END)}{last}", landscape=True, repeat=(1, 3))


def make_top(book, sheet, cells):
    _ = book.texts
    of, lists = lambda key: cells[key], f"$'{book.lists.title}'."
    # Where the extension is missing the line says so; NOW() has the office calculate it on loading.
    # a blank, for a lone empty text may be read back as 0
    sheet.put("B1", f'=IF({of("title")}="";{_.lit("Workout")};{of("title")})', "title")
    cap = f'IF(N({of("cap")})>0;{pc("CLOCK.TEXT", of("cap"))};"")'
    version = _.say("version {n}", n=of("announcement"))
    sheet.put("B2", f'=TEXTJOIN(" · ";TRUE();{of("gym")};{of("title")};{cap};IF({of("announcement")}="";"";{version}))', "stamp")
    sheet.put("B3", f"=IF(ISERROR({lists}$A$1)+0*NOW();{lists}$A$2;{pc('WORKOUT.CHECK', 'workout')})", "problem line")
    for name, cell in (("event_title", "B1"), ("event_heading", "B2"), ("workout_check", "B3")):
        sheet.name(name, cell)
    sheet.heights(1, 1, 10)
    sheet.heights(2, 3, 5.5)


def make_stations(block):
    sheet, _ = block.sheet, block._
    divisions = [(f"amount.{d + 1}", AMOUNT + d) for d in range(DIVISIONS)]
    loads = [(f"load.{d + 1}", LOAD + d) for d in range(DIVISIONS)]
    block.key("label")
    sheet.styled(f"B{block.row}:{column(END)}{block.row}", "section")
    sheet.text(f"B{block.row}", "Stations, in order", "section")
    sheet.text(address(AMOUNT, block.row - 1), "Amounts by division: 12, or 21-15-9", "section")
    sheet.text(address(LOAD, block.row - 1), "Loads by division, kg", "section")
    block.row += 1
    block.header("stations", [(key, col) for key, col, _label in STATION_COLUMNS] + divisions + loads)
    row = block.row
    block.key("divisions")
    for _key, col, label in STATION_COLUMNS:
        sheet.text(address(col, row - 1), label, "head")
    sheet.styled(f"{address(AMOUNT, row - 1)}:{address(AMOUNT + DIVISIONS - 1, row - 1)}", "input head")
    for d, name in enumerate(("as written", "scaled")):
        sheet.put(address(AMOUNT + d, row - 1), _(name))
    amount = column(AMOUNT)
    sheet.right(address(LOAD, row - 1), f'={amount}{row}&""', DIVISIONS, "head")
    sheet.heights(row, row, 13)
    block.cells["divisions"] = f"${amount}${row}:${column(AMOUNT + DIVISIONS - 1)}${row}"
    block.row += 1
    rules = {"unit": ("choose", "units", "Choose a unit from the list: rep, row cal, run m, rest …"),
             "when": ("choose", "when", "Choose from the list; empty means every round.")}
    styles = {"movement": "input text", "no": "cell center"}
    columns = [(key, col, styles.get(key, "input"), rules.get(key)) for key, col, _label in STATION_COLUMNS]
    columns += [(key, col, "input score", None) for key, col in divisions]
    columns += [(key, col, "input number", ("limit", 0, 999, "Enter kilograms.")) for key, col in loads]
    block.rows("stations", "station", columns, STATIONS)


def make_paces(block):
    sheet, cells = block.sheet, block.cells
    block.label((NO, "Usual pace of the middle pace group, when fresh"))
    first = block.row
    block.header("paces", [("no", NO)] + [(key, col) for key, col, *_rest in PACES])
    block.label((NO, "No."), (MOVEMENT, "Movement"), *[(col, head) for _key, col, head, *_rest in PACES], style="head")
    sheet.heights(block.row - 1, block.row - 1, 18)
    stations = cells["stations.movement"].split(":")[0].replace("$", "")
    sheet.down(f"C{block.row}", f'={stations}&""', STATIONS, "cell")
    block.rows("paces", "pace", [("no", NO, "cell center", None)] + [(key, col, style, rule) for key, col, _head, style, rule in PACES],
               STATIONS)
    make_usual(block)
    block.group(first, block.row - 1)


def make_usual(block):
    """What the logbook says of a movement by its name, or of a machine by its unit, until somebody types over it."""
    name, unit = (block.cells[key].split(":")[0].replace("$", "") for key in ("paces.no", "stations.unit"))
    name = "$C" + name[1:]
    for key, names in (("rep_s", [name]), ("calh", ['""', "$" + unit]), ("handling_s", [name, "$" + unit]), ("grip", [name]),
                       ("away_share", [name]), ("longest", [name])):
        first = block.cells[f"paces.{key}"].split(":")[0].replace("$", "")
        block.sheet.down(first, lists.usual(block.book, key, *names), STATIONS)


def make_groups(block):
    sheet = block.sheet
    block.label((NO, "Pace groups and machines"))
    first = block.row
    factor = ("limit", 0.2, 5, "Enter a factor around 1.")
    columns = [("name", MOVEMENT, "input text", None), ("erg", UNIT, "input number", factor),
               ("rep", WHEN, "input number", factor), ("sets", AMOUNT, "input number", factor)]
    block.header("groups", [(key, col) for key, col, *_rest in columns])
    block.label((MOVEMENT, "Pace group"), (UNIT, "Ergometer ×"), (WHEN, "Seconds per rep ×"), (AMOUNT, "Longest set ×"), style="head")
    sheet.heights(block.row - 1, block.row - 1, 9)
    top, _last = block.rows("groups", "group", columns, GROUPS)
    for row, (name, factors) in enumerate(zip("ABCDE", GROUP_FACTORS), top):
        sheet.put(f"C{row}", name)
        sheet.row(f"D{row}", factors)
    columns = [("unit", MOVEMENT, "cell", None), ("count", UNIT, "input number", ("whole", 0, 99, "Enter the number of machines."))]
    block.header("machines", [(key, col) for key, col, *_rest in columns])
    block.label((MOVEMENT, "Machines available"), (UNIT, "Number"), style="head")
    top, _last = block.rows("machines", "machine", columns, len(MACHINES))
    for row, (unit, name) in enumerate(zip(MACHINES, MACHINE_NAMES), top):
        sheet.put(f"C{row}", unit)
        sheet.text(f"E{row}", name)
    block.group(first, block.row - 1)
