"""The sheet Machines: the four kinds of ergometers, with the names that tests and workouts use for them."""

from logbook.sizes import MACHINES
from builder import Column
from logbook.table import FIRST, make_table

COLUMNS = (
    Column("name", "Machine", 52, "input text"),
    Column("machine", "Kind", 20, "cell center"),
    Column("count", "Number", 26, "input number", rule=("whole", 0, 99, "Enter the number of machines."), help="How many there are; a heat has no more people."),
    Column("damper", "Usual damper", 30, "input number", rule=("limit", 0, 20, "Enter the damper setting, such as 5.")),
    Column("calh", "cal/h of the middle pace group", 42, "input number", rule=("limit", 100, 5000, "Enter calories per hour as the monitor shows them, such as 900."),
           help="Fresh, over a mixed workout of 10 to 20 minutes."),
    Column("handling_s", "Set-up, s per round", 36, "input number", rule=("seconds", 0, 600, "Enter seconds as a plain number, such as 2.5."), help="Strapping in, or climbing on."),
)
USUAL = ((900, 5), (850, 2), (800, 4), (750, 3))


def make(book):
    sheet = book.machines
    make_table(sheet, "logbook_machines", "Machines",
               "cal/h and set-up that come with this sheet are common practice, no source: type your own over them.", COLUMNS, len(MACHINES),
               landscape=False)
    sheet.hide_columns("B", "B")  # the same in every language, for commands
    for row, ((kind, name), (calh, handling)) in enumerate(zip(MACHINES, USUAL), FIRST):
        sheet.text(f"A{row}", name, "input text")
        sheet.put(f"B{row}", kind)
        sheet.put(f"E{row}", calh)
        sheet.put(f"F{row}", handling)
