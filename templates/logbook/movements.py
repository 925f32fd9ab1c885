"""The sheet Movements: what the middle pace group does when fresh. The values that come with it are common practice,
without a source."""

from builder.words import words

from logbook.sizes import MOVEMENTS, YES
from builder import Column
from logbook.table import FIRST, make_table

SECONDS = lambda low, high: ("seconds", low, high, "Enter seconds as a plain number, such as 2.5.")
COLUMNS = (
    Column("name", "Movement", 50, "input words", help="As you write it in workouts."),
    Column("unit", "Unit", 20, "input", rule=("choose", "list_units", "Choose a unit from the list: rep, row cal, run m, rest …")),
    Column("rep_s", "Seconds per rep (or metre carried)", 30, "input number", rule=SECONDS(0.17, 600)),
    Column("handling_s", "Set-up, s per round", 23, "input number", rule=SECONDS(0, 600)),
    Column("grip", "Grip-limited", 18, "input center", rule=("choose", "list_yes", "Choose yes if grip or the same muscles stay under load; otherwise leave empty.")),
    Column("away_share", "Rest for other stations", 22, "input share", rule=("limit", 0, 1, "Enter a percentage from 0% to 100%."),
           help="How much of this movement's time rests the muscles of the other stations. Empty: 70%, 40% where grip limits both."),
    Column("longest", "Longest set of the middle group", 25, "input number", rule=("limit", 1, 999, "Enter the longest unbroken set, in reps.")),
    Column("standard", "Standard, in one line", 82, "input words", help="On judge's sheets."),
    Column("basis", "Where the values come from", 60, "input text"),
)

REP, CARRY = 0, 9  # places in the list of units
# name, unit, seconds per rep or metre, set-up s, grip, rest for other stations, longest set, standard
KNOWN = (
    ("Pull-up", REP, 2, 2, True, None, 12, "Arms straight at the bottom, chin over the bar at the top."),
    ("Strict pull-up", REP, 2.6, 2, True, None, 6, "No swing. Arms straight at the bottom, chin over the bar at the top."),
    ("Chest-to-bar pull-up", REP, 2.2, 2, True, None, 8, "Arms straight at the bottom, the chest touches the bar."),
    ("Toes-to-bar", REP, 2.2, 2, True, None, 10, "Heels behind the bar at the bottom, both feet touch it together."),
    ("Hanging knee raise", REP, 1.9, 2, True, None, 15, "Arms straight, knees above the hips."),
    ("Bar muscle-up", REP, 3.5, 3, True, None, 4, "Arms straight at the bottom, elbows locked out above the bar."),
    ("Ring muscle-up", REP, 4, 3, True, None, 3, "Arms straight at the bottom, elbows locked out above the rings."),
    ("Rope climb", REP, 11, 3, True, None, 2, "From the floor; one hand touches the mark."),
    ("Ring row", REP, 1.8, 2, True, None, 15, "Arms straight at the bottom, the rings touch the chest, body straight."),
    ("Ring dip", REP, 2.2, 3, False, None, 6, "Shoulders below the elbows, elbows locked out at the top."),
    ("Push-up", REP, 1.6, 1, False, None, 20, "The chest touches the floor, elbows locked out at the top, body straight."),
    ("Hand-release push-up", REP, 2.1, 1, False, None, 15, "Hands off the floor at the bottom, elbows locked out at the top."),
    ("Handstand push-up", REP, 2.6, 3, False, None, 8, "The head touches the floor, elbows locked out at the top, heels on the wall."),
    ("Wall walk", REP, 9, 1, False, None, 4, "The chest on the floor at start and end, hands on the mark at the top."),
    ("Burpee", REP, 3.5, 1, False, 0.5, 20, "The chest touches the floor; jump with the hands above the head."),
    ("Burpee over the bar", REP, 4, 1, False, 0.5, 15, "The chest touches the floor; both feet jump over the bar together."),
    ("Burpee box jump-over", REP, 5.5, 1, False, 0.5, 12, "The chest touches the floor; both feet touch the box."),
    ("Box jump", REP, 2.6, 1, False, 0.6, 20, "Both feet on the box, hips and knees straight at the top."),
    ("Box jump-over", REP, 2.8, 1, False, 0.6, 20, "Both feet touch the box; down on the other side."),
    ("Box step-up", REP, 2.4, 1, False, 0.6, 30, "Hips and knees straight on the box."),
    ("Box step-over", REP, 3, 1, False, 0.6, 25, "Both feet touch the box; down on the other side."),
    ("Air squat", REP, 1.4, 1, False, 0.6, 50, "Hips below the knees, hips and knees straight at the top."),
    ("Single-leg squat", REP, 2.6, 1, False, 0.6, 12, "Hip below the knee, the free foot off the floor, knee straight at the top."),
    ("Lunge", REP, 1.7, 1, False, 0.6, 40, "The back knee touches the floor, hips straight at the top."),
    ("Sit-up", REP, 1.9, 2, False, None, 30, "Shoulder blades on the floor, hands touch the feet at the top."),
    ("Double-under", REP, 0.6, 3, False, None, 40, "The rope passes twice under the feet in one jump."),
    ("Single-under", REP, 0.55, 3, False, None, 100, "The rope passes once under the feet in each jump."),
    ("Wall ball", REP, 2.1, 3, False, 0.5, 20, "Hips below the knees, the ball touches the target."),
    ("Ball slam", REP, 2.3, 2, False, None, 20, "The ball above the head, then onto the floor."),
    ("Kettlebell swing", REP, 1.9, 2, True, None, 25, "The bell above the head or at eye level, as announced; hips straight."),
    ("Deadlift", REP, 2.3, 3, True, None, 15, "Plates touch the floor, hips and knees straight at the top."),
    ("Sumo deadlift high pull", REP, 2.1, 3, True, None, 15, "Plates touch the floor, hands at the collarbone, hips straight."),
    ("Power clean", REP, 2.8, 3, True, None, 8, "From the floor to the shoulders, elbows in front, hips and knees straight."),
    ("Power snatch", REP, 3, 3, True, None, 8, "From the floor above the head in one movement, all joints straight."),
    ("Clean and jerk", REP, 4.3, 3, True, None, 6, "From the floor to the shoulders, then above the head, all joints straight."),
    ("Dumbbell snatch", REP, 2.3, 2, False, None, 20, "One head touches the floor; above the head in one movement, arm straight."),
    ("Front squat", REP, 2.5, 3, False, 0.6, 10, "Hips below the knees, hips and knees straight at the top."),
    ("Overhead squat", REP, 2.6, 3, False, 0.6, 10, "Arms straight, hips below the knees, hips and knees straight at the top."),
    ("Goblet squat", REP, 2.3, 3, False, 0.6, 20, "The weight at the chest, hips below the knees, straight at the top."),
    ("Thruster", REP, 2.4, 3, False, 0.5, 12, "Hips below the knees, then above the head in one movement, all joints straight."),
    ("Push press", REP, 2, 3, False, None, 12, "From the shoulders above the head, all joints straight."),
    ("Sandbag over the shoulder", REP, 5, 2, True, None, 8, "From the floor over the shoulder to the other side."),
    ("Farmer's carry", CARRY, 0.6, 3, True, None, 50, "Both weights off the floor; set down on or behind the line."),
)


def make(book):
    sheet = book.movements
    make_table(sheet, "logbook_movements", "Movements",
               "Values that come with this sheet are common practice, no source. Type your own over them, and say so in the last column.",
               COLUMNS, MOVEMENTS, printed="standard")
    _, language = book.texts, book.texts.language
    units, yes = words("units", language), words("yes", language)[0]
    rows = [(_(name), units[unit], rep_s, handling, yes if grip else "", "" if away is None else away, longest, _(standard),
             _("common practice, no source"))
            for name, unit, rep_s, handling, grip, away, longest, standard in KNOWN]
    sheet[f"A{FIRST}:I{FIRST + len(rows) - 1}"].setDataArray(tuple(
        tuple(float(value) if isinstance(value, (int, float)) else value for value in row) for row in rows))
