"""The sheet Tests: one row per test, over the years."""

from logbook.sizes import PAST, TESTS, TIME
from builder import Column
from logbook.table import make_table

NUMBER = lambda low, high, message: ("limit", low, high, message)
REPS = NUMBER(1, 999, "Enter the reps as a whole number.")
COLUMNS = (
    Column("name", "Name", 42, "input text", help="As on the sheet People."),
    Column("date", "Date", 24, "input date", rule=PAST),
    Column("what", "Machine or movement", 44, "input text", rule=("choose", "list_what", "Choose a machine or movement; they are on the sheets Machines and Movements."),
           help="What was tested, as named on the sheets Machines and Movements."),
    Column("time", "Time", 16, "input time", rule=TIME, help="Machines: how long the test took, such as 5:00."),
    Column("calories", "Calories", 18, "input number", rule=NUMBER(1, 5000, "Enter the calories that the monitor showed at the end."),
           help="What the monitor showed at the end, of that one effort."),
    Column("metres", "Metres", 16, "input number", rule=NUMBER(50, 50000, "Enter metres, such as 2000."), help="Instead of calories."),
    Column("watts", "Watts", 16, "input number", rule=NUMBER(20, 1500, "Enter average watts, such as 210."), help="Average over the time, instead of calories."),
    Column("reps", "Reps in one set", 18, "input number", rule=REPS, help="The longest unbroken set; with a load, the reps at that load."),
    Column("load", "Load, kg", 17, "input number", rule=NUMBER(1, 999, "Enter kilograms."), help="Empty: at the usual load of the workout, or none."),
    Column("damper", "Damper", 20, "input number", rule=NUMBER(0, 20, "Enter the damper setting, such as 5."), help="Always the same for one person."),
    Column("critical", "Critical power, W, as imported", 24, "input whole", rule=NUMBER(20, 900, "Enter watts: the critical power on this machine, such as 210.")),
    Column("reserve", "Reserve, J, as imported", 22, "input whole", rule=NUMBER(500, 80000, "Enter joules: the reserve above critical power, such as 15000.")),
    Column("second", "Second set, reps", 18, "input number", rule=REPS, help="After a short rest, to failure again: it says how fast you recover."),
    Column("rest_s", "Rest before it, s", 18, "input number", rule=NUMBER(1, 600, "Enter seconds as a plain number, such as 30.")),
    Column("rep_s", "Seconds per rep", 18, "input number", rule=NUMBER(0.17, 600, "Enter seconds as a plain number, such as 2.5.")),
    Column("recovery", "Recovery, as imported", 26, "input hundredths", rule=NUMBER(0.3, 3, "Enter a factor around 1.")),
)


def make(book):
    make_table(book.tests, "logbook_tests", "Tests",
               "One row per test, in any order; nothing is typed over: the latest that still count are used, the others are the curve.",
               COLUMNS, TESTS, printed="reserve")
