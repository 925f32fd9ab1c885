"""The sheet Events: one row per event. Date and title are what an event is known by."""

from logbook.sizes import DAY, EVENTS, TIME
from builder import Column
from logbook.table import make_table

COLUMNS = (
    Column("date", "Date", 26, "input date", rule=DAY),
    Column("event", "Event", 54, "input text", help="The title of the workout; date and title are what an event is known by."),
    Column("format", "Format", 26, "input", rule=("choose", "list_format", "Choose a format from the list.")),
    Column("cap", "Time cap", 20, "input time", rule=TIME),
    Column("workout", "Workout", 100, "input words", help="In one line."),
    Column("people", "Results", 23, "input number", rule=("whole", 0, 1000, "Enter a whole number of people."), help="How many have a result."),
    Column("season", "Counts for the season", 24, "input center", rule=("choose", "list_yes", "Choose yes, or leave empty.")),
)


def make(book):
    make_table(book.events, "logbook_events", "Events", "One row per event; the command Results to the logbook fills it.", COLUMNS, EVENTS)
