"""A stamp belongs to a person: names corrected, rows sorted, doubled and deleted in a heat, a file that is read-only."""

import os
import random
import shutil
import signal
import time

import uno
from com.sun.star.table import TableSortField
from heat_kit import SEED, Day, check, now, office, screen
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


def stamp(day, lane):
    day.press(str(lane))
    day.press("Return")  # yes, it is a round, though it is short
    time.sleep(0.6)


def kept(where):
    """All that the logs hold."""
    logs = sorted((where / "profile" / "user" / "pacecells").glob("*.heat"))
    return "".join(log.read_text() for log in logs)


def test_a_name_corrected(screen):
    with office(screen, WORK, "name") as private:
        day = Day(private, screen)
        ada, bela = day.heat(1)[1], day.heat(1)[2]
        day.running()
        stamp(day, 1)
        stamp(day, 2)
        row = day.row(ada)
        day.value("name", ada).String = "Quilla Anderstorp"
        time.sleep(1)
        check("the window follows", "1 | Quilla Anderstorp | round 2" in day.words(), day.words())
        stamp(day, 1)
        check("both stamps in the row", day.row("Quilla Anderstorp") == row and len(day.clocks("Quilla Anderstorp")) == 2)
        check("the other has one", len(day.clocks(bela)) == 1)
        check("the log has the new name", f"name\t{ada}\tQuilla Anderstorp" in kept(WORK / "name"))
        day.value("name", "Quilla Anderstorp").String = ada
        time.sleep(1)
        stamp(day, 1)
        check("and back", len(day.clocks(ada)) == 3, day.clocks(ada))

        day.value("name", bela).String = ada  # now two rows have the name
        time.sleep(0.8)
        check("two of one name: said", "twice, in rows" in day.said(), day.said())
        stamp(day, 1)
        stamp(day, 2)
        counts = [len([value for value in line if value != ""]) for line in day.cells("results_clocks").getDataArray()]
        check("nothing is written meanwhile", sorted(counts)[-2:] == [1, 3], sorted(counts)[-4:])
        check("the window has both", f"1 | {ada} | round 5" in day.words() and f"2 | {bela} | round 3" in day.words(),
              day.words())
        other = [row for row, name in enumerate(day.people()) if name == ada and row != day.row(ada)]
        rows = [day.row(ada), *other]
        mine = max(rows, key=lambda row: counts[row])
        [wrong] = [row for row in rows if row != mine]
        day.cells("results_name").getCellByPosition(0, wrong).String = bela
        time.sleep(2)
        check("put right: all arrive", (len(day.clocks(ada)), len(day.clocks(bela))) == (4, 2),
              (day.clocks(ada), day.clocks(bela)))

        day.value("name", bela).String = ""
        time.sleep(0.8)
        check("a name deleted: said", "no longer on the sheet Results" in day.said(), day.said())
        stamp(day, 2)
        day.cells("results_name").getCellByPosition(0, wrong).String = bela
        time.sleep(2)
        check("typed again: all there", len(day.clocks(bela)) == 3, day.clocks(bela))
        check("and nothing was deleted in the log", "\t-\n" not in kept(WORK / "name"), kept(WORK / "name"))


def test_sorted(screen):
    with office(screen, WORK, "sorted") as private:
        day = Day(private, screen)
        names = day.heat(1)
        day.running()
        for lane in names:
            stamp(day, lane)
        for ascending in (False, True):
            before = {name: day.clocks(name) for name in names.values()}
            sort(day, rows_of(day), ascending)
            time.sleep(0.7)
            check("the rows moved", {name: day.clocks(name) for name in names.values()} == before)
            for lane in names:
                stamp(day, lane)
            for name in names.values():
                check(f"sorted: {name}", day.clocks(name)[:-1] == before[name], (day.clocks(name), before[name]))
        before = {row: line for row, line in enumerate(day.cells("results_clocks").getDataArray())}
        order = day.people()
        sort(day, day.cells("results_name"), order[0] > order[1])
        check("names alone were sorted", day.people() != order, order)
        time.sleep(0.8)
        check("only a part sorted: said", "part of the table sorted" in day.said(), day.said())
        moved = [lane for lane, name in names.items() if day.people().index(name) != order.index(name)]
        for lane in moved:
            stamp(day, lane)
        after = {row: line for row, line in enumerate(day.cells("results_clocks").getDataArray())}
        check("nobody got another's stamp", after == before)
        for row, name in enumerate(order):
            day.cells("results_name").getCellByPosition(0, row).String = name
        time.sleep(2.5)
        for lane, name in names.items():
            check(f"put right: {name}", len(day.clocks(name)) == 3 + (lane in moved), day.clocks(name))


def test_a_late_athlete_stays_in_the_heat_of_the_stamps(screen):
    with office(screen, WORK, "late") as private:
        day = Day(private, screen)
        names, late = day.heat(1), day.heat(2)[1]
        day.running()
        day.press("a")
        day.answer(late)
        time.sleep(0.5)
        lane = max(names) + 1
        stamp(day, lane)
        stamp(day, 1)
        clocks = day.clocks(late)
        check("stamped", len(clocks) == 1, clocks)
        day.press("e")
        day.press("Return")
        day.press("h")
        day.answer("2")
        time.sleep(0.5)
        check("not in the later heat", late not in day.words() and day.heat(2)[2] in day.words(), day.words())
        day.press("s")
        time.sleep(0.5)
        check("which starts without a question", "counting in" in day.words().split("\n")[0], day.words())
        check("and the result is there", day.clocks(late) == clocks, day.clocks(late))
        day.press("e")
        day.press("Return")
        day.press("h")
        day.answer("1")
        time.sleep(0.5)
        check("but in the earlier", f"{lane} | {late} | 1+" in day.words() or f"{lane} | {late} | round 2" in day.words(),
              day.words())
        day.press("s")
        check("times already: asked", "has times already" in day.words().split("\n")[-1], day.words())
        day.press("Return")
        time.sleep(0.3)
        check("Enter deletes nothing", "Nothing was deleted" in day.said() and day.clocks(late) == clocks, day.said())
        day.press("Escape")
        day.press("s")
        day.answer("delete")
        time.sleep(1)
        check("the word does", day.clocks(late) == [] and "counting in" in day.words(), day.words())
        day.press("e")
        day.press("Return")


def test_two_of_one_name_do_not_start(screen):
    with office(screen, WORK, "twice") as private:
        day = Day(private, screen)
        name = day.heat(1)[1]
        roster = day.cells("roster_name")
        row = next(row for row, line in enumerate(roster.getDataArray()) if line[0] not in day.heat(1).values())
        roster.getCellByPosition(0, row).String = name
        for key in ("s", "r"):
            day.press(key)
            check(f"{key}: refused", f"Two people on the sheet Roster are called {name}" in day.said(), day.said())
        check("no row was made", name not in day.people())


def test_rounds_put_right(screen):
    """A missed round, one moved, taken out, given to another lane, by key and by mouse; step by step taken back."""
    with office(screen, WORK, "right") as private:
        day = Day(private, screen)
        one, two = day.heat(1)[1], day.heat(1)[2]
        day.running("8:00")
        stamp(day, 1)
        states = [(day.clocks(one), day.clocks(two))]

        def right(lane, typed, what, wanted_one, wanted_two):
            day.press("i")
            day.press(str(lane)) if lane else day.screen.click(300, 200)
            time.sleep(0.3)
            for letter in typed:
                day.screen.press({":": "colon", " ": "space", "-": "minus", ">": "greater"}.get(letter, letter),
                                 shift=letter in ":>")
                time.sleep(0.03)
            day.press("Return")
            time.sleep(0.8)
            got = [[round(clock) for clock in day.clocks(name)] for name in (one, two)]
            check(what, got == [wanted_one, wanted_two], (got, day.words()))
            states.append((day.clocks(one), day.clocks(two)))

        last = round(day.clocks(one)[0])
        right(1, "2:30", "a missed round", [150, last], [])
        right(0, "5:00", "another, by mouse", [150, 300, last], [])
        right(1, "2 4:50", "moved", [150, 290, last], [])
        right(1, "2 >2", "given to lane 2", [150, last], [290])
        right(1, "1 -", "taken out", [last], [290])
        stamps = [day.value("stamps", two, 0).Value, day.value("stamps", one, 0).Value]
        check("the time of day goes with it", abs((stamps[1] - stamps[0]) * 86400 % 86400 - (last - 290)) < 1.5, stamps)
        right(1, "9:59", "not shown yet: refused", [last], [290])
        check("said", "has not shown 9:59" in day.said(), day.said())
        day.press("Escape")
        states.pop()
        while len(states) > 1:
            states.pop()
            day.press("u")
            time.sleep(0.8)
            got = (day.clocks(one), day.clocks(two))
            check("taken back", [[round(clock, 2) for clock in clocks] for clocks in got]
                  == [[round(clock, 2) for clock in clocks] for clocks in states[-1]], (got, states[-1]))
        day.press("u")
        time.sleep(0.8)
        check("the stamp too", day.clocks(one) == [], day.clocks(one))
        day.press("u")
        check("no more", "nothing to take back" in day.said(), day.said())


def test_read_only(screen):
    file = WORK / "read-only.ods"
    with office(screen, WORK, "read-only") as private:
        day = Day(private, screen)
        names = day.heat(2)
        save(day.document, file)
        day.document.close(True)
        time.sleep(0.5)

        real_open = private.open
        private.open = lambda path, **options: real_open(path, ReadOnly=True, **options)
        day = Day(private, screen, file=file)
        private.open = real_open
        day.press("h")
        day.answer("2")
        time.sleep(0.3)
        day.press("r")
        check("said before the start", "read-only" in day.words().split("\n")[-1], day.words())
        day.press("Return")
        day.running()
        for lane in names:
            stamp(day, lane)
        check("the window has them", all(f"{lane} | {name} | round 2" in day.words() for lane, name in names.items()),
              day.words())
        check("and says that they wait", "read-only" in day.said(), day.said())
        check("not in the sheet", not any(day.clocks(name) for name in names.values()))
        day.press("e")
        day.press("Return")
        day.document.close(True)
        time.sleep(1)

        day = Day(private, screen, file=file)
        check("offered again, by the name of the heat", "entries of heat 2" in day.words().split("\n")[-1], day.words())
        day.press("Escape")
        day.document.close(True)
        time.sleep(1)
        day = Day(private, screen, file=file)
        check("not now: offered next time too", "entries of heat 2" in day.words().split("\n")[-1], day.words())
        day.press("Return")
        time.sleep(1.5)
        check("put back", all(len(day.clocks(name)) == 1 for name in names.values()),
              [day.clocks(name) for name in names.values()])


class Walk:
    """Random actions, and beside them what each person did: lists of (earliest, latest) clocks by lane."""

    def __init__(self, dice, screen):
        self.dice, self.screen, self.file = dice, screen, WORK / "walk.ods"
        self.actions = 0

    def begin(self, private):
        self.office = private
        self.day = Day(private, self.screen)
        self.names = self.day.heat(1)
        self.record = {lane: [] for lane in self.names}
        self.last = {lane: 0.0 for lane in self.names}
        self.partial = {lane: None for lane in self.names}
        self.zero = self.day.running()
        self.renamed = 0

    def rest(self, lane):
        """A key counts when it was quiet for a second."""
        time.sleep(max(0, self.last[lane] + 1.15 - now()))

    def stamp(self, lane):
        if len(self.record[lane]) >= 38:
            return
        self.rest(lane)
        at = self.screen.press(str(lane)) - self.zero
        took = self.screen.took
        self.screen.press("Return")
        self.last[lane] = now()
        self.record[lane].append((at, at + took))
        self.partial[lane] = None

    def take_back(self, lane):
        if self.record[lane]:
            time.sleep(0.2)
            self.screen.press(str(lane), shift=True)
            time.sleep(1.2)
            self.record[lane].pop()

    def rename(self, lane):
        self.settle()
        self.renamed += 1
        name = f"{self.dice.choice(('Oda', 'Pelle', 'Quirin', 'Runa'))} Nobodal {self.renamed}"
        self.day.value("name", self.names[lane]).String = name
        self.names[lane] = name
        time.sleep(0.7)

    def rename_on_roster(self, lane):
        cells = self.day.cells("roster_name")
        row = self.dice.randrange(6)
        cells.getCellByPosition(0, row).String = f"Somebody Nobodal {self.actions}"

    def sort(self, lane):
        sort(self.day, rows_of(self.day), self.dice.random() < 0.5)

    def write_partial(self, lane):
        self.settle()
        self.day.press("p")
        self.day.press(str(lane))
        time.sleep(0.1)
        reps = self.dice.randrange(1, 4)
        self.day.answer(str(reps))
        time.sleep(0.4)
        self.partial[lane] = reps
        self.last[lane] = now()

    def undo(self, lane):
        """Of the stamp just made."""
        if len(self.record[lane]) < 38:
            self.settle()
            if self.partial[lane] is None:
                self.stamp(lane)
                time.sleep(0.6)
                self.day.document.UndoManager.undo()
                self.record[lane].pop()
                time.sleep(0.7)

    def two_rows(self, lane):
        """A name that another has, for a while; both go on."""
        other = self.dice.choice([one for one in self.names if one != lane])
        self.settle()
        row = self.day.row(self.names[lane])
        self.day.cells("results_name").getCellByPosition(0, row).String = self.names[other]
        time.sleep(0.6)
        self.stamp(lane)
        self.stamp(other)
        time.sleep(0.3)
        self.day.cells("results_name").getCellByPosition(0, row).String = self.names[lane]
        time.sleep(1.2)

    def keep(self, lane):
        self.settle()
        save(self.day.document, self.file)

    def kill(self, lane):
        self.keep(lane)
        for one in self.names:
            self.stamp(one)
        time.sleep(0.3)
        os.killpg(self.office.process.pid, signal.SIGKILL)
        self.office.process.wait()
        self.office._start()
        self.day = Day(self.office, self.screen, file=self.file)
        check("walk: asked after a kill", "Heat 1 was interrupted" in self.day.words(), self.day.words())
        self.day.press("Return")
        time.sleep(1.5)

    def settle(self):
        time.sleep(0.7)

    def compare(self):
        time.sleep(1.5)
        where = f"walk, after {self.actions} actions"
        for lane, name in self.names.items():
            got, want = self.day.clocks(name), self.record[lane]
            check(f"{where}: lane {lane}, {name}: all of them", len(got) == len(want), (len(got), len(want)))
            for clock, (early, late) in zip(got, want):
                check(f"{where}: lane {lane}, {name}", early - 0.5 < clock < late + 0.5, (clock, early, late))
            reps = self.day.value("partial", name).String
            check(f"{where}: partial of lane {lane}", reps == ("" if self.partial[lane] is None
                                                              else str(self.partial[lane])), reps)
            check(f"{where}: the window's lane {lane}", f"{lane} | {name} | round {len(want) + 1}" in self.day.words(),
                  self.day.words())
        others = [name for name in self.day.people() if name and name not in self.names.values()]
        check(f"{where}: nobody else has stamps", not any(self.day.clocks(name) for name in others), others)


def test_random_walk(screen):
    """Keys, edits of the sheet, sorts, renames, undo, saves, kills: every stamp is with its person."""
    dice = random.Random(SEED)
    walk = Walk(dice, screen)
    with office(screen, WORK, "walk", limit=1500) as private:
        shutil.rmtree(walk.file, ignore_errors=True)
        walk.begin(private)
        often = ([walk.stamp] * 60 + [walk.take_back] * 5 + [walk.rename] * 6 + [walk.rename_on_roster] * 3
                 + [walk.sort] * 10 + [walk.write_partial] * 4 + [walk.undo] * 4 + [walk.two_rows] * 3
                 + [walk.keep] * 3 + [walk.kill])
        started = now()
        while walk.actions < ACTIONS and now() - started < 800:
            dice.choice(often)(dice.choice(list(walk.names)))
            walk.actions += 1
            if walk.actions % 25 == 0:
                walk.compare()
        walk.compare()
        print(f"{walk.actions} actions, {sum(map(len, walk.record.values()))} stamps kept, {walk.renamed} renamed")
