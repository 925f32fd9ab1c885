"""A stamp belongs to a person: names corrected, rows sorted, doubled and deleted in a heat, a file that is read-only."""

import os
import random
import shutil

import uno
from com.sun.star.table import TableSortField
from heat_kit import QUIET, SEED, Day, check, eventually, kill, logs_of, now, office, screen
from office import named, save
from sharing import folder_of

WORK = folder_of(__file__)
ACTIONS = int(os.environ.get("PACECELLS_ACTIONS", 300))


def sort(day, cells, ascending=True):
    """By the first column, as the menu does it."""
    field = TableSortField()
    field.Field, field.IsAscending = 0, ascending
    cells.sort(named(SortFields=uno.Any("[]com.sun.star.table.TableSortField", (field,)), ContainsHeader=False))


def rows_of(day):
    """The people of Results: all columns."""
    table = day.cells("results")
    first = day.cells("results_name").RangeAddress.StartRow - table.RangeAddress.StartRow
    last = table.RangeAddress.EndRow - table.RangeAddress.StartRow
    return table.getCellRangeByPosition(0, first, table.Columns.Count - 1, last)


def stamp(day, *lanes):
    """In the window: the sheet may not have it yet."""
    for lane in lanes:
        day.lane(lane)
        day.press("Return")  # yes, it is a round, though it is short


def kept(running):
    """All that the logs hold."""
    return "".join(log.read_text() for log in sorted(logs_of(running).glob("*.heat")))


def test_a_name_corrected(screen):
    with office(screen) as private:
        day = Day(private, screen)
        ada, bela = day.heat(1)[1], day.heat(1)[2]
        day.running()
        stamp(day, 1, 2)
        day.has("a stamp", ada, 1)
        day.has("a stamp", bela, 1)
        row = day.row(ada)
        day.value("name", ada).String = "Quilla Anderstorp"
        day.shows("the window follows", "1 | Quilla Anderstorp | round 2")
        stamp(day, 1)
        day.has("both stamps", "Quilla Anderstorp", 2)
        check("in the same row", day.row("Quilla Anderstorp") == row)
        day.has("the other has one", bela, 1)
        eventually("the log has the new name", lambda: f"name\t{ada}\tQuilla Anderstorp" in kept(private))
        day.value("name", "Quilla Anderstorp").String = ada
        day.shows("the window follows", f"1 | {ada} | round 3")
        stamp(day, 1)
        day.has("and back", ada, 3)

        wrong = day.row(bela)
        name = day.cells("results_name").getCellByPosition(0, wrong)
        name.String = ada  # now two rows have the name
        day.says("two of one name: said", "twice, in rows")
        stamp(day, 1, 2)
        day.shows("the window has both", f"1 | {ada} | round 5", f"2 | {bela} | round 3")
        day.settled()
        counts = [len([value for value in line if value != ""]) for line in day.cells("results_clocks").getDataArray()]
        check("nothing is written meanwhile", sorted(counts)[-2:] == [1, 3], sorted(counts)[-4:])
        name.String = bela
        day.has("put right: all arrive", ada, 4)
        day.has("put right: all arrive", bela, 2)

        name.String = ""
        day.says("a name deleted: said", "no longer on the sheet Results")
        stamp(day, 2)
        day.shows("stamped in the window", f"2 | {bela} | round 4")
        name.String = bela
        day.has("typed again: all there", bela, 3)
        check("and nothing was deleted in the log", "\t-\n" not in kept(private), kept(private))


def test_sorted(screen):
    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(1)
        day.running()
        stamp(day, *names)
        for count, ascending in ((1, False), (2, True)):
            for name in names.values():
                day.has("before", name, count)
            before = {name: day.clocks(name) for name in names.values()}
            sort(day, rows_of(day), ascending)
            check("the rows moved", {name: day.clocks(name) for name in names.values()} == before)
            stamp(day, *names)
            for name in names.values():
                day.has(f"sorted: {name}", name, count + 1)
                check(f"sorted: {name}", day.clocks(name)[:-1] == before[name], (day.clocks(name), before[name]))
        before = day.cells("results_clocks").getDataArray()
        order = day.people()
        sort(day, day.cells("results_name"), order[0] > order[1])
        check("names alone were sorted", day.people() != order, order)
        day.says("only a part sorted: said", "part of the table sorted")
        moved = [lane for lane, name in names.items() if day.people().index(name) != order.index(name)]
        stamp(day, *moved)
        day.shows("stamped in the window", *(f"{lane} | {names[lane]} | round 5" for lane in moved))
        day.settled()
        check("nobody got another's stamp", day.cells("results_clocks").getDataArray() == before)
        for row, name in enumerate(order):
            day.cells("results_name").getCellByPosition(0, row).String = name
        for lane, name in names.items():
            day.has(f"put right: {name}", name, 3 + (lane in moved))


def test_a_late_athlete_stays_in_the_heat_of_the_stamps(screen):
    with office(screen) as private:
        day = Day(private, screen)
        names, late = day.heat(1), day.heat(2)[1]

        def choose(heat):
            day.press("h")
            day.asks("which heat", "Heat, 1 to")
            day.answer(str(heat))
            day.shows("the heat", f", heat {heat} |")

        day.running()
        day.press("a")
        day.answer(late)
        lane = max(names) + 1
        day.says("added", f"{late} is in lane {lane}")
        stamp(day, lane, 1)
        day.has("stamped", late, 1)
        clocks = day.clocks(late)
        day.end()
        choose(2)
        check("not in the later heat", late not in day.words() and day.heat(2)[2] in day.words(), day.words())
        day.press("s")
        day.shows("which starts without a question", "countdown")
        check("and the result is there", day.clocks(late) == clocks, day.clocks(late))
        day.end()
        choose(1)
        shown = day.settled()
        check("but in the earlier", f"{lane} | {late} | 1+" in shown or f"{lane} | {late} | round 2" in shown, shown)
        day.press("s")
        day.asks("times already: asked", "has times already")
        day.press("Return")
        day.says("Enter deletes nothing", "Nothing was deleted")
        check("so", day.clocks(late) == clocks, day.clocks(late))
        day.press("Escape")
        day.press("s")
        day.answer("delete")
        day.has("the word does", late, 0)
        day.shows("and it starts", "countdown")
        day.end()


def test_two_of_one_name_do_not_start(screen):
    with office(screen) as private:
        day = Day(private, screen)
        name = day.heat(1)[1]
        roster = day.cells("roster_name")
        row = next(row for row, line in enumerate(roster.getDataArray()) if line[0] not in day.heat(1).values())
        roster.getCellByPosition(0, row).String = name
        for key in ("s", "r"):
            day.press("Escape")
            eventually("nothing said", lambda: not day.said(), day.words)
            day.press(key)
            day.says(f"{key}: refused", f"Two people on the sheet Roster are called {name}")
        check("no row was made", name not in day.people())


def test_rounds_put_right(screen):
    """A missed round, one moved, taken out, given to another lane, by key and by mouse; step by step taken back."""
    with office(screen) as private:
        day = Day(private, screen)
        one, two = day.heat(1)[1], day.heat(1)[2]
        day.running("8:00")
        stamp(day, 1)
        day.has("a stamp", one, 1)
        states = [(day.clocks(one), day.clocks(two))]

        def both():
            return [[round(clock, 2) for clock in day.clocks(name)] for name in (one, two)]

        def right(lane, typed, what, wanted_one, wanted_two):
            day.press("i")
            day.press(str(lane)) if lane else screen.click(300, 200)
            day.asks("what to put right", "One was missed")
            day.answer(typed)
            eventually(what, lambda: [[round(clock) for clock in clocks] for clocks in both()] == [wanted_one, wanted_two],
                       lambda: (both(), day.words()))
            states.append((day.clocks(one), day.clocks(two)))

        last = round(day.clocks(one)[0])
        right(1, "2:30", "a missed round", [150, last], [])
        right(0, "5:00", "another, by mouse", [150, 300, last], [])
        right(1, "2 4:50", "moved", [150, 290, last], [])
        right(1, "2 >2", "given to lane 2", [150, last], [290])
        right(1, "1 -", "taken out", [last], [290])
        eventually("times of day", lambda: day.value("stamps", two).Value and day.value("stamps", one).Value)
        stamps = [day.value("stamps", two, 0).Value, day.value("stamps", one, 0).Value]
        check("the time of day goes with it", abs((stamps[1] - stamps[0]) * 86400 % 86400 - (last - 290)) < 1.5, stamps)
        right(1, "9:59", "not shown yet: refused", [last], [290])
        day.says("said", "has not shown 9:59")
        day.press("Escape")
        states.pop()
        while len(states) > 1:
            states.pop()
            day.press("u")
            wanted = [[round(clock, 2) for clock in clocks] for clocks in states[-1]]
            eventually("taken back", lambda: both() == wanted, lambda: (both(), wanted))
        day.press("u")
        day.has("the stamp too", one, 0)
        day.press("u")
        day.says("no more", "nothing to undo")


def test_read_only(screen):
    file = WORK / "read-only.ods"
    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(2)
        save(day.document, file)

        def close():
            day.document.close(True)
            eventually("closed", lambda: not screen.windows())

        close()
        real_open = private.open
        private.open = lambda path, **options: real_open(path, ReadOnly=True, **options)
        day = Day(private, screen, file=file)
        private.open = real_open
        day.press("h")
        day.answer("2")
        day.shows("the second heat", ", heat 2 |")
        day.press("r")
        day.asks("said before the start", "read-only")
        day.press("Return")
        day.running()
        stamp(day, *names)
        day.shows("the window has them", *(f"{lane} | {name} | round 2" for lane, name in names.items()))
        day.says("and says that they wait", "read-only")
        check("not in the sheet", not any(day.clocks(name) for name in names.values()))
        day.press("e")
        day.press("Return")
        day.says("ended", "has ended")
        close()

        day = Day(private, screen, file=file)
        day.asks("offered again, by the name of the heat", "Entries of heat 2")
        day.press("Escape")
        eventually("not now", lambda: not day.question(), day.words)
        close()
        day = Day(private, screen, file=file)
        day.asks("not now: offered next time too", "Entries of heat 2")
        day.press("Return")
        for name in names.values():
            day.has("put back", name, 1)


def test_shared(screen):
    def share(day):
        settings = day.document.createInstance("com.sun.star.sheet.DocumentSettings")
        settings.setPropertyValue("IsDocumentShared", True)

    with office(screen) as private:
        day = Day(private, screen, prepare=share)
        for key in ("s", "r"):
            day.press(key)
            day.asks(f"{key}: said before the start", "This file is shared")
            day.press("Escape")
            eventually("no", lambda: not day.question(), day.words)
        check("not started", "| cap " in day.words(), day.words())
        day.press("r")
        day.asks("asked again", "This file is shared")
        day.press("Return")
        day.says("yes", "not running yet")
        day.running()
        stamp(day, 1)
        day.has("stamped", day.heat(1)[1], 1)


class Walk:
    """Random actions, and beside them what each person did: lists of moments by lane."""

    def __init__(self, dice, screen):
        self.dice, self.screen, self.file = dice, screen, WORK / "walk.ods"
        self.actions = self.renamed = self.heats = self.before = 0

    def done(self):
        """The sheet or the heat's time has no room for much more."""
        return now() - self.zero.late > 900 or sum(map(len, self.record.values())) > 36 * len(self.record)

    def kept(self):
        return self.before + sum(map(len, self.record.values()))

    def another(self):
        self.before = self.kept()
        self.day.end()
        self.day.document.close(True)
        eventually("walk: closed", lambda: not self.screen.windows())
        shutil.rmtree(logs_of(self.office))  # the next workbook is as new
        self.begin(self.office)

    def begin(self, private):
        self.office = private
        self.day = Day(private, self.screen)
        self.names = self.day.heat(1)
        self.record = {lane: [] for lane in self.names}
        self.last = {lane: 0.0 for lane in self.names}
        self.partial = {lane: None for lane in self.names}
        self.zero = self.day.running()
        self.heats += 1

    def stamp(self, lane):
        if len(self.record[lane]) >= 38:
            return
        self.record[lane].append(self.day.lane(lane) - self.zero)
        self.day.press("Return")
        self.last[lane] = now()
        self.partial[lane] = None

    def stamp_any(self, lane):
        """A key counts when it was quiet for a second: one of those that were, where there is one."""
        quiet = [one for one in self.names if now() - self.last[one] > QUIET and len(self.record[one]) < 38]
        self.stamp(self.dice.choice(quiet) if quiet else min(self.last, key=self.last.get))

    def take_back(self, lane):
        if self.record[lane]:
            self.day.rest(str(lane), shift=True)
            self.record[lane].pop()
            self.settle(lane)

    def rename(self, lane):
        self.settle(lane)
        self.renamed += 1
        name = f"{self.dice.choice(('Oda', 'Pelle', 'Quirin', 'Runa'))} Nobodal {self.renamed}"
        self.day.value("name", self.names[lane]).String = name
        self.names[lane] = name
        self.day.shows("walk: the window follows a name", f"{lane} | {name} | ")

    def rename_on_roster(self, lane):
        cells = self.day.cells("roster_name")
        row = self.dice.randrange(6)
        cells.getCellByPosition(0, row).String = f"Somebody Nobodal {self.actions}"

    def sort(self, lane):
        sort(self.day, rows_of(self.day), self.dice.random() < 0.5)

    def write_partial(self, lane):
        self.settle(lane)
        self.day.press("p")
        self.day.press(str(lane))
        self.last[lane] = now()
        reps = self.dice.randrange(1, 4)
        self.screen.type(str(reps))
        self.day.press("Return")
        self.partial[lane] = reps
        self.settle(lane)

    def undo(self, lane):
        """Of the stamp just made."""
        if len(self.record[lane]) < 38 and self.partial[lane] is None:
            self.settle(*self.names)
            self.stamp(lane)
            self.settle(lane)
            self.day.document.UndoManager.undo()
            self.record[lane].pop()
            self.shown(lane)

    def two_rows(self, lane):
        """A name that another has, for a while; both go on."""
        other = self.dice.choice([one for one in self.names if one != lane])
        self.settle(lane, other)
        cell = self.day.value("name", self.names[lane])
        cell.String = self.names[other]
        self.day.says("walk: two of one name", "twice, in rows")
        self.stamp(lane)
        self.stamp(other)
        self.shown(lane)
        self.shown(other)
        cell = self.day.cells("results_name").getCellByPosition(0, self.row_without(lane, other))
        cell.String = self.names[lane]
        self.settle(lane, other)

    def row_without(self, lane, other):
        """The row that has the other's name, and lane's place."""
        rows = [row for row, name in enumerate(self.day.people()) if name == self.names[other]]
        return next(row for row in rows if self.day.cells("results_lane").getCellByPosition(0, row).Value == lane)

    def keep(self, lane):
        self.settle(*self.names)
        save(self.day.document, self.file)

    def kill(self, lane):
        self.keep(lane)
        for one in self.names:
            self.stamp(one)
        self.day.logged("walk: on the disk", self.names, self.record)
        kill(self.office)
        self.office._start()
        self.day = Day(self.office, self.screen, file=self.file)
        self.day.asks("walk: asked after a kill", "Heat 1 was interrupted")
        self.day.press("Return")
        self.settle(*self.names)

    def settle(self, *lanes):
        """The sheet has what these did."""
        for lane in lanes:
            self.day.has(f"walk: lane {lane}", self.names[lane], len(self.record[lane]))
            partial = "" if self.partial[lane] is None else str(self.partial[lane])
            eventually(f"walk: partial of lane {lane}",
                       lambda: self.day.value("partial", self.names[lane]).String == partial)

    def shown(self, lane):
        self.day.shows(f"walk: the window's lane {lane}", f"{lane} | {self.names[lane]} | round {len(self.record[lane]) + 1}")

    def compare(self):
        self.settle(*self.names)
        where = f"walk, after {self.actions} actions"
        for lane, name in self.names.items():
            got, want = self.day.clocks(name), self.record[lane]
            for clock, moment in zip(got, want):
                check(f"{where}: lane {lane}, {name}", moment.near(clock), (clock, moment))
            self.shown(lane)
        others = [name for name in self.day.people() if name and name not in self.names.values()]
        check(f"{where}: nobody else has stamps", not any(self.day.clocks(name) for name in others), others)


def test_random_walk(screen, record_property):
    """Keys, edits of the sheet, sorts, renames, undo, saves, kills: every stamp is with its person."""
    dice = random.Random(SEED)
    walk = Walk(dice, screen)
    with office(screen) as private:
        private.watch(900 + 5 * ACTIONS)
        walk.begin(private)
        often = ([walk.stamp_any] * 60 + [walk.take_back] * 5 + [walk.rename] * 6 + [walk.rename_on_roster] * 3
                 + [walk.sort] * 10 + [walk.write_partial] * 4 + [walk.undo] * 4 + [walk.two_rows] * 3
                 + [walk.keep] * 3 + [walk.kill])
        while walk.actions < ACTIONS:
            dice.choice(often)(dice.choice(list(walk.names)))
            walk.actions += 1
            if walk.actions % 25 == 0:
                walk.compare()
            if walk.done():
                walk.compare()
                walk.another()
        walk.compare()
        told = f"{walk.actions} actions in {walk.heats} heats, {walk.kept()} stamps kept, {walk.renamed} renamed"
        print(told)
        record_property("measured", told)
