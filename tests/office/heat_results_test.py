"""Results after a heat: places by division, ties and tie-breaks, capped results, and what was changed, when, by whom."""

import re
import subprocess

import pytest
from com.sun.star.beans import NamedValue
from heat_kit import Day, check, eventually, logs_of, office, screen
from office import save
from sharing import folder_of

WORK = folder_of(__file__)
MINUTE = 60 / 86400


def called(private, given, family):
    """The office's own settings of who sits at it."""
    provider = private.service("com.sun.star.configuration.ConfigurationProvider")
    path = NamedValue()
    path.Name, path.Value = "nodepath", "/org.openoffice.UserProfile/Data"
    data = provider.createInstanceWithArguments("com.sun.star.configuration.ConfigurationUpdateAccess", (path,))
    data.setPropertyValue("givenname", given)
    data.setPropertyValue("sn", family)
    data.commitChanges()


def typed(day, name, **cells):
    for key, value in cells.items():
        day.value(key, name).Value = value


def listed(private, day):
    """The list of results: its rows as the page has them, and the PDF's pages."""
    others = lambda: [one for one in private.desktop.Components if one != day.document]
    before = len(others())
    day.press("o")
    eventually("the list", lambda: len(others()) == before + 1, day.words)
    document = others()[-1]
    sheet = document.Sheets[0]
    shown = lambda: [[sheet.getCellByPosition(x, y).String for x in range(5)] for y in range(80)]
    eventually("all of it", lambda: sheet.PrintAreas is not None and shown() == shown())
    rows = shown()
    save(document, WORK / "results.pdf")
    pages = subprocess.run(["pdftotext", "-layout", WORK / "results.pdf", "-"], capture_output=True, text=True,
                           check=True).stdout.split("\f")[:-1]
    document.close(True)
    check("cautions on each page", ["not medical advice" in page for page in pages], [True] * len(pages))
    eventually("the window of the heats", lambda: bool(day.screen.windows()))  # an office repaints when a document goes
    day.screen.focus(day.screen.windows()[-1])
    return rows, pages


@pytest.mark.parametrize("user", (("Kaia", "Nobodal"), ("", "")), ids=("named", "nobody"))
def test_a_mixed_heat_for_time(screen, user):
    """Two divisions in one heat: each has its own first; ties share a place, a tie-break parts them, capped results
    follow by the reps left. What is changed afterwards is listed old beside new."""
    with office(screen, USER="") as private:
        called(private, *user)
        day = Day(private, screen, "time")
        names = day.heat(1)
        seats = {name: lane for lane, name in names.items()}
        one, two, three, four = list(seats)[:4]
        roster = [row[0] for row in day.cells("roster_name").getDataArray()]
        other, last = [name for name in roster if name and name not in seats][:2]
        divisions = day.cells("list_divisions").getDataArray()[0][:2]
        day.running()
        for name in (one, two, three, four, other, last):
            cell = day.cells("roster_division").getCellByPosition(0, roster.index(name))
            cell.String = divisions[name in (four, other, last)]
        for name in (other, last):  # as after the second heat
            day.cells("results_name").getCellByPosition(0, day.people().index("")).String = name
        typed(day, one, finish=8 * MINUTE, tiebreak=4 * MINUTE)
        typed(day, two, finish=8 * MINUTE, tiebreak=3.5 * MINUTE)
        typed(day, three, left=12)
        typed(day, four, left=5)
        typed(day, other, heat=2, lane=1, finish=9 * MINUTE)
        typed(day, last, heat=2, lane=2, left=5)
        places = lambda: [day.value("place", name).String for name in (one, two, three, four, other, last)]
        eventually("places", lambda: places() == ["2", "1", "3", "2", "1", "2"], places)
        day.end()
        for name, place, division in ((two, 1, 0), (one, 2, 0), (three, 3, 0), (four, 2, 1)):
            day.shows("the window says the place with its division",
                      f"{seats[name]} | {name} | ", f"{divisions[division]}: place {place} |")
        rows, pages = listed(private, day)
        listing = {row[1]: [row[0], row[2], row[3]] for row in rows if row[1] in roster}
        cap = day.value("result", three).String
        check("capped", cap.endswith("+12"), cap)
        for name, wanted in ((two, ["1", "8:00", "3:30"]), (one, ["2", "8:00", "4:00"]), (three, ["3", cap, ""]),
                             (other, ["1", "9:00", ""]), (four, ["2", cap[:-2] + "5", ""]), (last, ["2", cap[:-2] + "5", ""])):
            check(f"listed: {name}", listing.get(name) == wanted, (listing.get(name), wanted))
        check("a page for each division, none of changes", len(pages) == 2, pages)

        typed(day, four, left=4)
        typed(day, one, tiebreak=3.25 * MINUTE)
        day.value("finish", two).String = ""
        typed(day, two, left=1)
        eventually("places", lambda: places() == ["1", "2", "3", "2", "1", "3"], places)
        text = lambda: "".join(log.read_text() for log in logs_of(private).glob("*.heat"))
        eventually("the log has the changes", lambda: text().count("\nfix\t") >= 4, text)
        rows, pages = listed(private, day)
        check("a page of changes", len(pages) == 3, pages)
        who = " ".join(user).strip()
        told = rf"Changed \d{{4}}-\d\d-\d\d \d\d:\d\d{f' by {who}' if who else ''}\n"
        for name, change in ((four, r"reps left +5 +4"), (one, r"tie-break +4:00\.0 +3:15\.0"),
                             (two, r"finish +8:00\.0"), (two, r"reps left +1")):
            check(f"changed: {name}, {change}", re.search(rf"1 +{name} +{change}\s+{told}", pages[-1]), pages[-1])
        check("no more than these", pages[-1].count("Changed 2") == 4, pages[-1])
        check("the pages are counted", all(re.search(rf"\b{k} ?/ ?3\b", page) for k, page in enumerate(pages, 1)), pages)
        subprocess.run(["pdftoppm", "-r", "60", "-png", WORK / "results.pdf", WORK / f"results-{who or 'nobody'}"], check=True)
