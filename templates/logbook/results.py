"""The sheet Results: one row per person and event, with what was planned beside what came of it."""

from logbook.sizes import DAY, RESULTS
from builder import Column
from logbook.table import make_table

COLUMNS = (
    Column("name", "Name", 42, "input text"),
    Column("date", "Date", 26, "input date", rule=DAY),
    Column("event", "Event", 34, "input text"),
    Column("division", "Division", 50, "input text"),
    Column("plan", "Plan for the day", 22, "input"),
    Column("result", "Result", 24, "input score", help="As it was written on the list of results."),
    Column("score", "Score: reps, or seconds", 22, "input number", help="Reps of an AMRAP or of intervals; seconds of a workout for time."),
    Column("place", "Place", 16, "input number"),
    Column("goal", "Goal", 43, "input score"),
    Column("low", "Forecast low", 20, "input whole", help="Before the start: reps, or seconds. Eight times in ten between low and high."),
    Column("planned", "Predicted", 20, "input whole"),
    Column("high", "Forecast high", 20, "input whole"),
    Column("clocks", "Clock at the end of each round", 80, "input text", help="One behind the other, with a blank between."),
    Column("machine", "Ergometer", 22, "input", help="Its kind, as on the sheet Machines: row, ski, bike, armbike."),
    Column("erg_cal", "Calories per round on it", 22, "input number"),
    Column("erg_times", "Ergometer times, timed rounds", 30, "input text", help="One behind the other, with a blank between."),
    Column("answer", "Could go on?", 26, "input", rule=("choose", "list_answer", "Choose the answer from the list.")),
    Column("held", "Held on it, cal/h", 22, "input whole", help="From the ergometer times, or else from the score."),
    Column("share", "Share of the watts alone", 20, "input share", help="Planned for that workout, before results were counted."),
    Column("ratio", "Watts held : promised", 22, "input hundredths", help="1.1: ten per cent more than the tests promised. Left empty where there was no test."),
    Column("ratio_sd", "How sure: ±", 18, "input hundredths", help="How well the watts held are known: 0.05 is 5%."),
)


def make(book):
    make_table(book.results, "logbook_results", "Results", "One row per person and event; the command Results to the logbook fills it.", COLUMNS, RESULTS, printed="goal")
