"""Pairs and teams, from the roster to results: people of one team share a lane, a goal, the clocks and the result.

Uses BUILD/pacecells.oxt, BUILD/examples/pairs.ots and the templates.
"""

import re
import shutil

import heat_kit
import pytest
import uno
from com.sun.star.table import TableSortField
from commands import run
from compare import check
from event_cells import bad_cells, by_key, clock, column_of, rows_of, typed
from heat_kit import Day, eventually, screen
from logbook_kit import contents
from office import named, save, type_in
from paper import pages_of, print_pack
from sharing import BUILD, OXT, folder_of, shared

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"


@pytest.fixture
def pairs(office):
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir()
    document = office.open(BUILD / "examples" / "pairs.ots", AsTemplate=True)
    document.calculateAll()
    return document


def teams_of(document):
    """Names by what is typed under Team."""
    teams = {}
    for name, team in zip(column_of(document, "roster", "name"), column_of(document, "roster", "team")):
        if name:
            teams.setdefault(team, []).append(name)
    return teams


def seconds_in(text):
    return [clock(found) for found in re.findall(r"\d+:\d\d", text)]


def place_of(document, name):
    return column_of(document, "roster", "name").index(name)


def card_of(document, name):
    """The texts of the first card of the page, which is made this person's."""
    listed = [row[3] for row in rows_of(document, "heat_list")]
    by_key(document, "card_first").Value = listed.index(name) + 1
    document.calculateAll()
    page = by_key(document, "card_page")
    rows = page.RangeAddress.EndRow - page.RangeAddress.StartRow + 1
    card = page.getCellRangeByPosition(0, 0, page.RangeAddress.EndColumn, rows // 4 - 1)
    return [cell.String for cell in card.queryContentCells(23).Cells if cell.String]


PLANNED = ("aim", "target", "hold", "predicted", "range", "margin", "sets")
RESULT = ("division", "result", "place", "expected")
GONE = ("! on the roster once, and here once", "", "", "")  # of a result whose team is not on the roster


def by_name(document, table, keys):
    """What a row shows, by the name in it."""
    columns = [column_of(document, table, key) for key in ("name", *keys)]
    return {name: tuple(shown) for name, *shown in zip(*columns) if name}


def four_rounds(document):
    """Clocks of all eight teams: 4:00 a round for the first, a second more for each below."""
    for row in range(8):
        for k in range(4):
            by_key(document, "results_clocks").getCellByPosition(k, row).Value = (k + 1) * (240 + row) / 86400
    document.calculateAll()


@pytest.fixture
def results(office, pairs):
    """The event after the heats: eight teams with a result."""
    done, said = run(office, pairs, "start-list")
    assert done, said
    four_rounds(pairs)
    return pairs


@pytest.fixture
def logbook(office):
    file = WORK / "Logbook.ods"
    done, said = run(office, office.new(), "new-logbook", File=str(file), Another="true")
    assert done, said
    return file


def test_people_of_a_team_share_lane_goal_and_clocks(pairs):
    teams = teams_of(pairs)
    check("eight pairs", [len(people) for people in teams.values()], [2] * 8)
    check("errors", bad_cells(pairs), [])
    check("nothing to fix", [note.strip() for note in column_of(pairs, "roster", "note")[:16]], [""] * 16)
    lanes = {row[3]: (row[0], row[1], row[2], row[4]) for row in rows_of(pairs, "heat_list") if row[3]}
    check("everybody is on the list of heats", sorted(lanes), sorted(name for people in teams.values() for name in people))
    check("partners in one lane, with one judge", [lanes[a] == lanes[b] for a, b in teams.values()], [True] * 8)
    check("eight lanes", len({lane[:2] for lane in lanes.values()}), 8)
    for key in ("aim", "target", "predicted", "range"):
        column = column_of(pairs, "roster", key)
        check(f"one {key} for both in {column[:16]}", [column[place_of(pairs, a)] == column[place_of(pairs, b)] for a, b in teams.values()], [True] * 8)
    for a, b in list(teams.values())[:2]:
        first, second = card_of(pairs, a), card_of(pairs, b)
        check(f"each has a card: {first[0]}, {second[0]}", [first[0].split(" (")[0], second[0].split(" (")[0]], [a, b])
        turns = [text for text in first if f"{a.split(' ')[0]}: " in text and f"{b.split(' ')[0]}: " in text]
        check(f"who does what on both: {first}", (len(turns), turns[0] in second), (1, True))
        check("turns are no longer than a minute and a half", all(0 < one <= 90 for one in seconds_in(turns[0])))
        clocks = lambda card: [text for text in card if re.fullmatch(r"\d+:\d\d", text)]
        check("with the same clocks", clocks(first), clocks(second))


def test_reps_of_both_add_up(pairs):
    """Split any way: the 30 wall balls and 20 burpees of a round, in whole reps."""
    for a, _ in teams_of(pairs).values():
        turns = next(text for text in card_of(pairs, a) if f"{a.split(' ')[0]}: " in text)
        parts = [sum(map(int, scheme.split("-"))) for scheme in re.findall(r" ((?:\d+-)*\d+) \(", turns)]
        check(f"in {turns}", [parts[i] + parts[i + 3] for i in range(3)], [40, 30, 20])


def test_a_goal_for_one_is_the_goal_of_both(pairs):
    (a, b), *_ = teams_of(pairs).values()
    typed(pairs, "roster_goal", "5", row=place_of(pairs, a))
    pairs.calculateAll()
    aims = column_of(pairs, "roster", "aim")
    check("goals", [aims[place_of(pairs, one)] for one in (a, b)], ["5", "5"])
    typed(pairs, "roster_goal", "4", row=place_of(pairs, b))
    pairs.calculateAll()
    notes = column_of(pairs, "roster", "note")
    check("two goals", [f"two goals are entered; that of {a} counts." in notes[place_of(pairs, one)] for one in (a, b)], [True, True])


def test_what_is_wrong_with_a_team_is_said_in_its_rows(pairs):
    teams = teams_of(pairs)
    (a, b), (c, d), *_ = teams.values()
    note = lambda name: column_of(pairs, "roster", "note")[place_of(pairs, name)]
    typed(pairs, "roster_team", "", row=place_of(pairs, b))
    typed(pairs, "roster_plan", "not today", row=place_of(pairs, d))
    pairs.calculateAll()
    check(f"a team of one: {note(a)}", note(a).startswith('"1": people who start: 1; the workout is for teams of 2.'))
    check(f"no team: {note(b)}", note(b).startswith("Enter a team: the workout is for teams of 2."))
    check(f"who does not start: {note(c)}", f'"Kestrels": {d} does not start today.' in note(c))
    listed = [row[3] for row in rows_of(pairs, "heat_list") if row[3]]
    check("the others start all the same", (a in listed, b in listed, c in listed, d in listed), (True, True, True, False))
    typed(pairs, "roster_team", "Kestrels", row=place_of(pairs, b))
    typed(pairs, "roster_plan", "", row=place_of(pairs, d))
    pairs.calculateAll()
    check(f"three in a pair: {note(c)}", note(c).startswith('"Kestrels": people who start: 3; the workout is for teams of 2.'))
    typed(pairs, "workout.split", "60/50")
    pairs.calculateAll()
    check("shares that do not add up", "the shares add up to 110, not to 100." in by_key(pairs, "workout_check").String)


def test_shares_go_in_the_order_of_the_roster(pairs):
    typed(pairs, "workout.split", "75/25")
    pairs.calculateAll()
    a = next(iter(teams_of(pairs).values()))[0]
    turns = next(text for text in card_of(pairs, a) if f"{a.split(' ')[0]}: " in text)
    parts = [sum(map(int, scheme.split("-"))) for scheme in re.findall(r" ((?:\d+-)*\d+) \(", turns)]
    check(f"30 of 40, 23 of 30, 15 of 20 in {turns}", parts, [30, 23, 15, 10, 7, 5])


def test_a_team_is_listed_once_and_has_one_judges_sheet(office, pairs):
    teams = teams_of(pairs)
    done, said = run(office, pairs, "start-list")
    check(said, done)
    listed = [name for name in column_of(pairs, "results", "name") if name]
    called = [team if not team.isdigit() else f"{team}: " + " + ".join(name.split(" ")[0] for name in people) for team, people in teams.items()]
    check("one row each", sorted(listed), sorted(called))
    four_rounds(pairs)
    check("results", column_of(pairs, "results", "result")[:8], ["4+0"] * 8)
    check("in one division", column_of(pairs, "results", "place")[:8], ["1"] * 8)
    check("forecasts from the plan of the team", [bool(text) for text in column_of(pairs, "results", "expected")[:8]], [True] * 8)
    print_pack(office, pairs, WORK / "pack.pdf")
    pages = [page.text for page in pages_of(WORK / "pack.pdf")]
    for team, people in teams.items():
        both = f"{team}: " + " + ".join(people)
        check(f"a judge's sheet for {both}", sum(text.count(both) for text in pages), 1)
        for name in people:
            check(f"a card for {name}", sum(f"{name} (" in text for text in pages) >= 1)


def test_a_blank_behind_a_name_hides_nobody(pairs):
    both = next(iter(teams_of(pairs).values()))
    names = by_key(pairs, "roster_name")
    for name, typed_in in zip(both, (f" {both[0]}", f"{both[1]} ")):
        names.getCellByPosition(0, place_of(pairs, name)).String = typed_in
    pairs.calculateAll()
    for name in both:
        check(f"the card of {name}", any(f"{name} (" in text or text == name for text in card_of(pairs, name)))


def test_the_result_of_a_team_is_that_of_each_in_the_logbook(office, results, logbook):
    pairs, file = results, logbook
    done, said = run(office, pairs, "results-to-logbook")
    check(said, done)
    book = office.open(file, ReadOnly=True)
    results = [row for row in rows_of(book, "logbook_results")[2:] if row[0]]
    keys = by_key(book, "logbook_results").getDataArray()[0]
    names = sorted(name for people in teams_of(pairs).values() for name in people)
    check("everybody", sorted(row[0] for row in results), names)
    check("with the result of the team", {row[keys.index("result")] for row in results}, {"4+0"})
    check("from which nothing is learnt of one of them", {row[keys.index("ratio")] for row in results}, {""})
    book.close(True)


def test_the_window_of_a_heat_shows_teams(screen):
    with heat_kit.office(screen) as private:
        day = Day(private, screen, "pairs")
        day.shows("teams in the lanes of heat 1", "6: Ugo + Nadja", "5: Silas + Cora", "Slow Tide", "7: Xenia + Ada")
        day.running("5:00")
        day.lane(1)
        day.has("a key stamps the team", "6: Ugo + Nadja", 1)
        check("a row for each team of the heat", sorted(name for name in day.people() if name),
              ["5: Silas + Cora", "6: Ugo + Nadja", "7: Xenia + Ada", "Slow Tide"])
        check("its row of the roster is that of the first", by_key(day.document, "results").Spreadsheet is not None
              and column_of(day.document, "results", "division")[day.row("6: Ugo + Nadja")], "as prescribed")
        keys = by_key(day.document, "roster").getDataArray()[0]
        names = column_of(day.document, "roster", "name")
        for name in ("Nadja Fairwethen", next(name for name, label in zip(names, column_of(day.document, "roster", "team")) if label == "Slow Tide")):
            type_in(by_key(day.document, "roster").getCellByPosition(keys.index("minor"), 2 + names.index(name)), "yes")
        # a partner's name is as private as that of the first; a label names nobody
        eventually("the room", lambda: re.search(r"^room: .*", day.words(), re.M) and set(re.search(r"^room: (.*)", day.words(), re.M)[1].split(", "))
                   == {"–", "5: Silas + Cora", "7: Xenia + Ada", "Slow Tide"}, day.words)


def test_from_pasted_names_to_teams(office):
    run(office, office.new(), "new-event", Empty="true")
    event = next(one for one in office.desktop.Components if "roster_team" in getattr(one, "NamedRanges", None).ElementNames)
    done, said = run(office, event, "read-as-written", Text="In pairs, one works at a time, any way. 20 min AMRAP: 30 cal row, 40 wall balls 9 kg",
                     Names="Kestrels: Bela Ostrevan + Goran Whitsand\nIvo Lindquarl & Hedda Marroway\nOdo Kesslund")
    check(said, done)
    event.calculateAll()
    check("teams", teams_of(event), {"Kestrels": ["Bela Ostrevan", "Goran Whitsand"], "1": ["Ivo Lindquarl", "Hedda Marroway"], "": ["Odo Kesslund"]})
    notes = column_of(event, "roster", "note")
    check(f"who has no partner in {notes[:5]}", ["Enter a team" in note for note in notes[:5]], [False] * 4 + [True])
    check("three lanes", [name for name in column_of(event, "roster", "lane") if name], ["Kestrels", "1: Ivo + Hedda", "Odo Kesslund"])


def test_without_a_team_in_the_workout_the_column_changes_nothing(office, pairs):
    typed(pairs, "workout.team", "")
    typed(pairs, "workout.split", "")
    pairs.calculateAll()
    check("complete", by_key(pairs, "workout_check").String, "")
    check("a lane each", len({(row[0], row[1]) for row in rows_of(pairs, "heat_list") if row[3]}), 16)
    check("no part of a team", set(column_of(pairs, "roster", "team_plan")), {""})
    type_in(by_key(pairs, "roster_team").getCellByPosition(0, 0), "")
    check("errors", bad_cells(pairs), [])


# What a coach does to it afterwards -----------------------------------------------------------------------------------

def sort_roster(document, column, ascending):
    """All of a person's row, by the office's own command."""
    area = by_key(document, "roster").RangeAddress
    sheet = document.Sheets[area.Sheet]
    sheet.unprotect("")
    field = TableSortField()
    field.Field, field.IsAscending = column, ascending
    rows = sheet.getCellRangeByPosition(area.StartColumn, area.StartRow + 2, area.EndColumn, area.EndRow)
    rows.sort(named(SortFields=uno.Any("[]com.sun.star.table.TableSortField", (field,)), ContainsHeader=False))
    document.calculateAll()


def test_sorted_by_any_column_people_keep_team_and_plan(results):
    """By name, by division, by what is calculated; no result goes to another team."""
    before, placed = by_name(results, "roster", ("team", *PLANNED)), by_name(results, "results", RESULT)
    lanes = {row[3]: (row[0], row[1]) for row in rows_of(results, "heat_list") if row[3]}
    keys = by_key(results, "roster").getDataArray()[0]
    for key, ascending in (("name", True), ("name", False), ("team", True), ("aim", False)):
        sort_roster(results, keys.index(key), ascending)
        names = [name for name in column_of(results, "roster", "name") if name]
        check(f"{key}: in another order", names != list(before) and sorted(names) == sorted(before))
        check(f"{key}: plans", by_name(results, "roster", ("team", *PLANNED)), before)
        listed = {row[3]: (row[0], row[1]) for row in rows_of(results, "heat_list") if row[3]}
        check(f"{key}: lanes", len(set(listed.values())), len(set(lanes.values())))
        for team, people in teams_of(results).items():
            at = {listed[name] for name in people}
            check(f"{key}: {team} in one lane", len(at), 1)
        for name, shown in by_name(results, "results", RESULT).items():
            check(f"{key}: {name} has its result {placed[name]}, or the sheet says that it has not: {shown}", shown in (placed[name], GONE))
            check(f"{key}: {name} has it by its name", shown == placed[name] or name[0].isdigit())
    check("errors", bad_cells(results), [])


def test_a_result_of_a_team_that_is_not_there_is_nobodys(office, results, logbook):
    """A partner withdrawn, a team renamed, after the heats: told on the sheet, without a place, and not in the logbook."""
    placed = by_name(results, "results", RESULT)
    numbered = "3: Milo + Paloma"
    people = teams_of(results)["Kestrels"]
    for what, key, text, back, names, gone in (("withdrawn", "roster_plan", "not today", "", ["Paloma Reutway"], numbered),
                                               ("renamed", "roster_team", "Gulls", "Kestrels", people, "Kestrels")):
        for name in names:
            typed(results, key, text, row=place_of(results, name))
        results.calculateAll()
        shown = by_name(results, "results", RESULT)
        check(f"{what}: told", shown[gone], GONE)
        check(f"{what}: the others", {name: one for name, one in shown.items() if name != gone},
              {name: one for name, one in placed.items() if name != gone})
        check(f"{what}: the logbook", run(office, results, "results-to-logbook"),
              (False, f"{gone} has a result on the sheet Results, and is neither a person nor a team on the roster. Correct the roster "
                      "or that name first."))
        check(f"{what}: has nobody", contents(office, logbook, "people", "results"), [[], []])
        for name in names:
            typed(results, key, back, row=place_of(results, name))
        results.calculateAll()
        check(f"{what}, put back", by_name(results, "results", RESULT), placed)
    type_in(by_key(results, "results_name").getCellByPosition(0, 0), people[0])
    results.calculateAll()
    done, said = run(office, results, "results-to-logbook")
    check(f"one of a team, by name: {said}", (done, said.startswith(f"{people[0]} has a result")), (False, True))


def test_two_of_one_name_in_two_teams(office, pairs):
    (a, b), (c, d), *_ = teams_of(pairs).values()
    lanes = len({row[:2] for row in map(tuple, rows_of(pairs, "heat_list")) if row[3]})
    typed(pairs, "roster_name", a, row=place_of(pairs, d))
    pairs.calculateAll()
    rows = [row for row, name in enumerate(column_of(pairs, "roster", "name")) if name == a]
    for row in rows:
        check("no goal for either", column_of(pairs, "roster", "aim")[row], "Err:502")
        check("and why", f'the name "{a}" is on the roster twice' in column_of(pairs, "roster", "note")[row])
    for partner in (b, c):
        check(f"the partner: {partner}", f"{a} has no full plan; the others are planned without." in
              column_of(pairs, "roster", "note")[place_of(pairs, partner)])
    done, said = run(office, pairs, "start-list")
    check("nothing onto Results", (done, said.startswith(f"{a} is on the roster twice.")), (False, True))
    check("lanes", len({row[:2] for row in map(tuple, rows_of(pairs, "heat_list")) if row[3]}), lanes)


def test_one_name_is_one_person_however_it_is_typed(pairs):
    """As tests and cards are found by name: case and blanks are no second person, a star is no other letter."""
    (a, _), (_, d), *_ = teams_of(pairs).values()
    row, other = place_of(pairs, a), place_of(pairs, d)
    aim = lambda at: column_of(pairs, "roster", "aim")[at]
    for name, same in ((a.replace(" ", "  "), True), (f" {a.upper()}", True), (f"{a[:4]}*", False)):
        typed(pairs, "roster_name", name, row=other)
        pairs.calculateAll()
        check(f"{a} beside {name!r}", aim(row) == "Err:502", same)
    check("has a plan", bool(aim(row)))


def test_a_renamed_division_has_no_plan_of_another(results):
    typed(results, "workout.divisions.amount.1", "Masters")
    results.calculateAll()
    for name, (aim, target, *_more, note) in by_name(results, "roster", ("aim", "target", "note")).items():
        check(f"{name}: no goal", (aim, target), ("Err:502", "Err:502"))
        check(f"{name}: why", 'there is no division "as prescribed" in the workout' in note)
    check("no result, no place", set(by_name(results, "results", ("result", "place")).values()), {("Err:502", "")})


@pytest.mark.parametrize("kind", ("ods", "xlsx"))
def test_without_the_extension_teams_show_no_number(results, kind):
    """As it was saved until it is calculated anew; then nothing that looks like a plan or a place."""
    file = WORK / f"teams.{kind}"
    wanted, placed = by_name(results, "roster", PLANNED), by_name(results, "results", RESULT)
    save(results, file)
    with shared([], "bare") as bare:
        alone = bare.open(file)
        check("as saved", (by_name(alone, "roster", PLANNED), by_name(alone, "results", RESULT)), (wanted, placed))
        alone.calculateAll()
        check("told on top", "Pacecells" in by_key(alone, "workout_check").String)
        for name, shown in by_name(alone, "roster", PLANNED).items():
            check(f"{name}: nothing in {shown}", set(shown) <= {"#NAME?", ""})
        for name, (_division, *shown) in by_name(alone, "results", RESULT).items():
            check(f"{name}: no result in {shown}", set(shown) <= {"#NAME?", ""})


def test_the_roster_in_another_workbook_shows_no_number(office, pairs):
    other = office.new()
    other.Sheets.importSheet(pairs, pairs.Sheets[by_key(pairs, "roster").RangeAddress.Sheet].Name, 0)
    other.calculateAll()
    sheet = other.Sheets[0]
    area = by_key(pairs, "roster").RangeAddress
    keys = by_key(pairs, "roster").getDataArray()[0]
    for key in PLANNED:
        column = [sheet.getCellByPosition(area.StartColumn + keys.index(key), area.StartRow + 2 + row).String for row in range(16)]
        check(f"{key}: {column}", set(column) <= {"Err:504", "Err:502", "#NAME?", "#REF!"})
