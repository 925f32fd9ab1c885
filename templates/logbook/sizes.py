"""How much a logbook holds."""

PEOPLE, TESTS, MOVEMENTS, EVENTS, RESULTS = 1000, 20000, 200, 500, 20000
MACHINES = (("row", "Rower"), ("ski", "Ski"), ("bike", "Bike"), ("armbike", "Fan bike"))
GROUPS = "ABCDE"

PAST = ("limit", 36526, "TODAY()", "Enter a date that is not in the future.")
DAY = ("limit", 36526, 73050, "Enter a date.")
TIME = ("limit", 1 / 86400, 4 / 24 - 1e-9, "Enter minutes and seconds such as 5:00.")
YES = ("choose", "list_yes", "Choose yes, or leave empty.")
