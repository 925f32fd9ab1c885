"""Every window of the menu's commands: on which workbook it opens, and the files that it asks for."""

import shutil

from examples import open_example
from logbook_kit import TODAY, area, fill
from office import save

PROTOCOL = "vnd.org.pacecells:"
PEOPLE = ("Ida Holmvik", "Bo Ekendal")
BY_HAND = "printed-by-hand"  # no command: the office's own print of a workbook that was changed since the last
# On which workbook, with which arguments; then what is typed into the window, each with a picture after it.
SCENES = (
    ("new-event", "plain", {}, ()),
    ("example-event", "plain", {}, ()),
    ("read-as-written", "event", {}, ("15 min AMRAP\n12 cal row\n9 burpees\n6 thrusters 40/30 kg",)),
    ("add-athletes", "event", {}, ("Mila Sandhag, scaled\nRuben Torvik",)),
    ("bring-tests", "event", {"File": "tests.csv"}, ()),
    ("new-wall", "plain", {}, ()),
    ("print-pack", "event", {"File": "pack.pdf"}, ()),
    ("print-changed", "event", {"File": "changed.pdf"}, ()),
    (BY_HAND, "event", {"File": "by-hand.ps"}, ()),
    ("cards", "event", {}, ("\n",)),
    ("loads", "event", {"File": "loads.pdf"}, ("\n",)),
    ("share", "event", {}, ("\n",)),
    ("copy-without-people", "event", {}, ("\n",)),
    ("fit-prints", "event", {}, ()),
    ("start-list", "event", {}, ()),
    ("heat-day", "event", {}, ("k",)),
    ("review", "event", {}, ()),
    ("results-to-logbook", "event", {}, ()),
    ("new-logbook", "plain", {}, ()),
    ("import-to-logbook", "plain", {"File": "old.ods"}, ()),
    ("person-page", "plain", {}, ()),
    ("test-day", "plain", {}, ()),
    ("take-tests", "plain", {"File": "day.ods"}, ()),
    ("season", "plain", {}, ()),
    ("forecasts", "plain", {}, ()),
    ("forget-person", "plain", {}, ("Ida Holmvik\n",)),
    ("pace-table", "plain", {}, ("abc\n",)),
    ("ergometer-table", "plain", {}, ()),
    ("minutes", "plain", {}, ()),
    ("explain", "plain", {}, ()),
    ("explain", "event", {}, ()),
    ("about", "plain", {}, ()),
)


def prepare(office, work):
    """The files that commands ask for: a logbook, results of tests, an older event and a test day."""
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir(parents=True)
    silent = lambda command, document, **arguments: office.dispatch(document, PROTOCOL + command, Silent="true", **arguments)
    start = office.new()
    silent("new-logbook", start, File=str(work / "logbook.ods"), Another="true")
    book = office.open(work / "logbook.ods")
    rower = area(book, "logbook_machines").getDataArray()[2][0]  # in the words of the language
    book.close(True)
    fill(office, work / "logbook.ods", people=[{"name": name} for name in PEOPLE],
         tests=[{"name": PEOPLE[0], "date": TODAY - days, "what": rower, "time": minutes / 1440, "watts": watts}
                for days, minutes, watts in ((40, 5, 320), (39, 15, 260))],
         results=[{"name": name, "date": TODAY - 30, "event": "Low tide", "score": 200 + step, "low": 190, "high": 220}
                  for step, name in enumerate(PEOPLE)])
    silent("test-day", start, File=str(work / "day.ods"), Names="\n".join(PEOPLE), Tests=f"{rower} 10:00")
    for document in list(office.desktop.Components):
        document.close(True)
    day = office.open(work / "day.ods")
    cells = area(day, "day_tests")
    for row, calories in enumerate((170, 900), 2):  # the second is more than anybody holds
        cells.getCellByPosition(cells.getDataArray()[0].index("calories"), row).Value = calories
    day.store()
    day.close(True)
    event = open_example(office, "rounds")
    names = event.NamedRanges.getByName("roster_name").ReferredCells
    (work / "tests.csv").write_text("Name;Rower critical power\n" + "".join(
        f"{names.getCellByPosition(0, row).String};{230 + row}\n" for row in range(3)))
    save(event, work / "old.ods")
    event.close(True)
