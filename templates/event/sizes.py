"""Sizes and small parts that the sheets of the event workbook share."""

from builder import pc

ATHLETES, STATIONS, DIVISIONS, ROUNDS, GROUPS, TESTED, MOVEMENTS = 200, 12, 6, 40, 5, 300, 8
MACHINES = ("row", "ski", "bike", "armbike")
MACHINE_NAMES = ("Rower", "Ski", "Bike", "Fan bike")

UNDER_FOUR_HOURS = (1 / 86400, 4 / 24 - 1e-9)
DAY = (36526, 73050)  # 2000 to 2099


def athlete(function, who, *arguments):
    """A call of ATHLETE.<function>: who is the person's row of roster_people."""
    return pc(f"ATHLETE.{function}", "workout", "tests", "roster_keys", who, *arguments)


def of_team(row, index):
    """A call of HEAT.TEAM for that row of roster_people."""
    return pc("HEAT.TEAM", "workout", "tests", "roster_keys", "roster_people", row, index)


def row_of(name):
    """The row of the roster of a name of the list of heats, 0 for none."""
    return pc("HEAT.PERSON", name, "roster_name", "roster_lane")


def top(sheet, title=None):
    """The lines on top of every sheet: what it is, which workout and version it belongs to, and what is missing."""
    sheet.put("A1", sheet._(title), "title") if title else sheet.put("A1", "=event_title", "title")
    sheet.put("A2", "=event_heading", "stamp")
    sheet.put("A3", '=IF(workout_check="";" ";workout_check)', "problem line")
    sheet.heights(1, 1, 10)
    sheet.heights(2, 3, 5.5)
