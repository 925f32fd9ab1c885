"""The sheet Season: from when to when, and how many results count. The standings below come from a command."""

from logbook.sizes import DAY, PEOPLE
from builder import Column
from logbook.table import make_table

COLUMNS = (
    Column("place", "Place", 18, "input number"),
    Column("name", "Name", 46, "input text"),
    Column("division", "Division", 50, "input text"),
    Column("events", "Events", 18, "input number"),
    Column("points", "Points", 18, "input number"),
)


def make(book):
    sheet = book.season
    make_table(sheet, "logbook_season", "Season", "The standings of the season.", COLUMNS, PEOPLE, landscape=False)
    for row, (name, label, style, rule) in enumerate((
            ("season_from", "From", "input date", DAY), ("season_to", "To", "input date", DAY),
            ("season_best", "Best results that count", "input number", ("whole", 1, 99, "Enter a whole number of results.")),
            ("season_missed", "A missed event counts as", "input", ("choose", "list_missed", "Choose a rule from the list.")),
            ("season_fixed", "The fixed place", "input number", ("whole", 1, 999, "Enter a place as a whole number."))), 5):
        sheet.text(f"H{row}", label)
        sheet.put(f"I{row}", None, style)
        getattr(sheet, rule[0])(f"I{row}", *rule[1:])
        sheet.name(name, f"I{row}")
    sheet.text("I8", "one place behind the last", "input")
    sheet.widths("G", 10, 74, 58)
