"""The sheet People: who trains here, and what an event takes over. No reason for a plan is kept."""

from logbook.sizes import DAY, PAST, PEOPLE, YES
from builder import Column
from logbook.table import make_table

COLUMNS = (
    Column("name", "Name", 46, "input text", help="Once only; if two people share a name, add a letter."),
    Column("division", "Division", 50, "input text", help="Named as in your events."),
    Column("plan", "Plan for the day", 24, "input", rule=("choose", "list_plan", "Choose from the list; empty means full."),
           help="Empty is full. No reason is kept."),
    Column("until", "Plan ends on", 26, "input date", rule=DAY, help="The last day of this plan; from the next day on it is full. Empty: until you change it."),
    Column("group", "Pace group", 16, "input center", rule=("choose", "list_groups", "Choose a pace group, A to E."), help="Used where there is no test."),
    Column("judge", "Can judge", 18, "input center", rule=YES),
    Column("minor", "Minor", 24, "input center", rule=YES),
    Column("consent", "Guardian's consent", 26, "input date", rule=PAST, help="The day on which a guardian agreed, for minors."),
)


def make(book):
    sheet = book.people
    make_table(sheet, "logbook_people", "People",
               "One row per person. A new event takes over those whom you choose, with division, plan, pace group and tests that still count.",
               COLUMNS, PEOPLE)
    sheet.text("I1", "Gym")
    sheet.merged("J1:L1", None, "input text")
    sheet.name("logbook_gym", "J1")
    sheet.widths("I", 14, 24, 24, 24)
