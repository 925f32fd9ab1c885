#!/usr/bin/python3
"""What the cell functions cost inside the office: hard recalculations, timed in turn.

    office_bench.py BUILD [PART...]      parts: calls models sheet plan column workbook start

Uses BUILD/functions.oxt and BUILD/tests/bench/bench.oxt; start also BUILD/pacecells.oxt. Every variant has a document of its own, its formulas made by
filling down; each round times one recalculation of each, in an order shuffled with a fixed seed. What is told is the
median, and for differences and ratios the median of those within a round. Other work on the machine shows: the load
is printed at the end.
"""

import os
import random
import statistics
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "templates"), str(ROOT / "tests" / "office")]
import plan_sheet  # noqa: E402
import uno  # noqa: E402
from office import Office, enter, enter_array  # noqa: E402

BUILD = Path(sys.argv[1]).resolve()
TO_BOTTOM = uno.Enum("com.sun.star.sheet.FillDirection", "TO_BOTTOM")
ROUNDS = 15
MACRO = """Function BasicErgTime(calories, rate)
    BasicErgTime = calories * 3600 / rate / 86400
End Function
"""


def rows_of(count, *makers):
    """The same invented numbers in every run."""
    chance = random.Random(1)
    return [[make(chance, row) for make in makers] for row in range(count)]


class Timed:
    """A document, and what its recalculations took for each of count cells (or athletes), in microseconds."""

    def __init__(self, document, count):
        self.document, self.count, self.times = document, count, []

    def time(self):
        start = time.perf_counter()
        self.document.calculateAll()
        self.times.append((time.perf_counter() - start) * 1e6 / self.count)

    def median(self):
        return statistics.median(self.times)

    def above(self, other):
        return statistics.median(a - b for a, b in zip(self.times, other.times))

    def share_of(self, other):
        return statistics.median(a / b for a, b in zip(self.times, other.times))

    def close(self):
        self.document.close(True)


class Variant(Timed):
    """Data, and one formula filled down beside it (or, whole=True, over it as one array formula)."""

    def __init__(self, office, name, formula, data, whole=False):
        super().__init__(office.new(), len(data))
        self.name = name
        sheet, width = self.document.Sheets[0], len(data[0])
        sheet.getCellRangeByPosition(0, 0, width - 1, self.count - 1).setDataArray([tuple(row) for row in data])
        cells = sheet.getCellRangeByPosition(width, 0, width, self.count - 1)
        if whole:
            enter_array(cells, formula)
        else:
            enter(sheet.getCellByPosition(width, 0), formula)
            cells.fillAuto(TO_BOTTOM, 1)
        self.answers = [row[0] for row in cells.getDataArray()]  # None where a cell has an error
        if None in self.answers:
            raise RuntimeError(f"{formula} gives an error in row {self.answers.index(None) + 1}")


def run(variants, rounds=ROUNDS):
    chance, variants = random.Random(2), list(variants)
    for variant in variants:
        variant.time()
        variant.times.clear()  # the first warms up
    for _ in range(rounds):
        for variant in chance.sample(variants, len(variants)):
            variant.time()


def line(name, value, unit, target="", met=None):
    mark = {None: "", True: "met", False: "MISSED"}[met]
    print(f"  {name:<58}{value:>10} {unit:<6}{target:<12}{mark}", flush=True)


def calls(office):
    """One call of a function, and one cell of its array form."""
    count = 20_000
    pairs = rows_of(count, lambda c, _: c.uniform(5, 30), lambda c, _: c.uniform(700, 1500))
    tests = rows_of(count, lambda c, _: c.uniform(0.002, 0.012), lambda c, _: c.uniform(150, 350),
                    lambda c, _: c.uniform(1e4, 3e4))
    loads = rows_of(count, lambda c, _: c.uniform(40, 80), lambda c, _: c.uniform(80, 140))

    def made(name, formula, data, whole=False):
        return Variant(office, name, formula, data, whole)

    nothing = {
        2: made("do-nothing, 2 of 2 arguments", "=NOTHINGTWO(A1;B1)", pairs),
        3: made("do-nothing, 2 of 3 arguments", "=NOTHINGTHREE(A1;B1)", pairs),
        33: made("do-nothing, 3 of 3 arguments", "=NOTHINGTHREE(A1;B1;C1)", tests),
        4: made("do-nothing, 3 of 4 arguments, two of them text", '=NOTHINGFOUR(A1;"cal/h";"W")',
                [row[::-1] for row in pairs]),
    }
    ours = [
        (made("ERG.TIME", "=ERG.TIME(A1;B1)", pairs), 3),
        (made("ERG.RATE", '=ERG.RATE(B1/50;A1/8640)', pairs), None),
        (made("PACE.ROUND", "=PACE.ROUND(C1;A1)", [[a, b, 0.0125] for a, b in pairs]), None),
        (made("SETS.MAXREPS", "=SETS.MAXREPS(A1;B1)", loads), 3),
        (made("TEST.POWER", "=TEST.POWER(A1;B1;C1)", tests), 33),
        (made("ERG.CONVERT", '=ERG.CONVERT(A1;"cal/h";"W")', [row[::-1] for row in pairs]), 4),
    ]
    arrays = [
        (made("ERG.TIME as an array", f"=ERG.TIME(A1:A{count};1000)", pairs, True), 0),
        (made("TEST.POWER as an array", f"=TEST.POWER(A1:A{count};250;20000)", tests, True), 4),
        (made("SETS.MAXREPS as an array", f"=SETS.MAXREPS(A1:A{count};140)", loads, True), 3),
        (made("ERG.CONVERT as an array", f'=ERG.CONVERT(A1:A{count};"cal/h";"W")', [row[::-1] for row in pairs], True), 5),
    ]
    others = [made("office add-in function (GESTEP)", "=GESTEP(A1;B1)", pairs),
              made("native formula of ERG.TIME", "=A1*3600/B1/86400", pairs)]
    few = pairs[:2000]
    slow = [made("Basic function of ERG.TIME", "=BASICERGTIME(A1;B1)", few),
            made("Python add-in of ERG.TIME", "=PYERGTIME(A1;B1)", few)]
    everything = list(nothing.values()) + [v for v, _ in ours + arrays] + others + slow
    run(everything)
    print(f"\nOne cell of {count}, hard recalculation")
    for variant in list(nothing.values()) + others + slow:
        line(variant.name, f"{variant.median():.3f}", "us")
    for variant, base in ours:
        line(variant.name, f"{variant.median():.3f}", "us")
        if base:
            above = variant.above(nothing[base])
            line(f"  above {nothing[base].name}", f"{above:.3f}", "us", "<= 0.3", above <= 0.3)
    for variant, scalar in arrays:
        share = variant.share_of(ours[scalar][0])
        line(variant.name, f"{variant.median():.3f}", "us")
        line("  of the same call in every cell", f"{share:.2f}", "times", "<= 0.4", share <= 0.4)
    for variant in everything:
        variant.close()


def models(office):
    """The costly ones against the same models in a Python add-in with SciPy, calls included."""
    count = 200
    athletes = rows_of(count, lambda c, _: c.uniform(200, 300), lambda c, _: c.uniform(15e3, 25e3))
    # Nine reps in nine rounds: from unbroken with 30 at most to almost singles with 24.
    tests = rows_of(count, lambda c, _: round(c.uniform(24, 30), 1))
    clocks = []
    for watts, _ in athletes:
        chance, clock, row = random.Random(watts), 0.0, []
        for number in range(6):
            clock += (130 + 2 * number + chance.uniform(-3, 3)) / 86400
            row.append(clock)
        clocks.append(row)
    pairs = []
    for name, ours, python, data, least in [
            ("SETS.PLAN", "=SETS.PLAN(9;9;A1;80)", "=PYSETSPLAN(9;9;A1;80)", tests, 5),
            ("PLAN.HOLD", '=PLAN.HOLD(17/1440;13;94;A1;B1;1;;;0.5)', '=PYPLANHOLD(17/1440;13;94;A1;B1;1)', athletes, 5),
            ("SCORE.FORECAST", "=SCORE.FORECAST(20/1440;A1:F1;30;0.9;1)", "=PYSCOREFORECAST(20/1440;A1:F1;30;0.9;1)",
             clocks, 20)]:
        pairs.append((name, Variant(office, name, ours, data * 20), Variant(office, name, python, data), least))
    run([variant for _, ours, python, _ in pairs for variant in (ours, python)])
    print("\nThe same model in a Python add-in with SciPy")
    for name, ours, python, least in pairs:
        apart = max(abs(a / b - 1) if isinstance(a, float) else float(a != b)
                    for a, b in zip(ours.answers, python.answers))
        factor = 1 / ours.share_of(python)
        line(name, f"{ours.median():.2f}", "us")
        line("  in Python, SciPy where it helps", f"{python.median():.1f}", "us")
        line("  times faster", f"{factor:.0f}", "", f">= {least}", factor >= least)
        line("  answers apart at most by", f"{apart:.0e}", "", "< 1e-6", apart < 1e-6)
        ours.close()
        python.close()


# What stands beside each athlete, and the twelve formulas over it. The block of ten stations has columns for four
# rounds where amounts differ, so that an argument has up to 40 cells.
SHEET_DATA = (lambda c, row: f"Athlete {row + 1}", lambda c, _: c.uniform(200, 300), lambda c, _: c.uniform(15e3, 25e3),
              lambda c, _: c.randint(34, 60), lambda c, _: c.randint(120, 260), lambda c, _: c.uniform(4, 8))
BLOCK = "$stations.$A$1:$A$10;$stations.$B$1:$E$10;$stations.$F$1:$F$10;$stations.$G$1:$G$10"
SHEET_FORMULAS = ['=PACE.ROUND("20:00";F1)', "=PACE.REHEARSAL(O1)", "=PACE.ERGNEED(O1;10;60)",
                  "=SETS.PLAN(12;8;D1;80)", '=SETS.LEFT("4-4-4";8;D1;80)', '=TEST.FLOOR("20:00";B1;C1)',
                  '=PLAN.HOLD("20:00";10;75;B1;C1)', f"=PLAN.SCORE(N1;{BLOCK})",
                  f'=PLAN.ERGNEED("20:00";2.5;{BLOCK})',
                  '=SCORE.FORECAST("20:00";G1:N1;30;;2)', "=SCORE.TEXT(E1;30)"]


def big_sheet(office, count):
    """A sheet with so many athletes and twelve formulas for each, places as one array formula."""
    document = office.new()
    sheet = document.Sheets[0]
    document.Sheets.insertNewByName("stations", 1)
    units = ["rep", "row cal", "rep", "run m", "rep", "ski cal", "rep", "carry m", "hold", "rep"]
    rates = [2.5, 1000, 2, 300 / 86400, 3, 950, 1.5, 1, 0, 2]
    document.Sheets["stations"].getCellRangeByPosition(0, 0, 6, 9).setDataArray(
        [(unit, 10.0, 10.0, 12.0, 12.0, float(rate), 6.0) for unit, rate in zip(units, rates)])
    rows = rows_of(count, *SHEET_DATA)
    for number, row in enumerate(rows):
        chance, clock = random.Random(number), 0.0
        for _ in range(8):
            clock += (125 + chance.uniform(-4, 4)) / 86400
            row.append(clock)
    sheet.getCellRangeByPosition(0, 0, 13, count - 1).setDataArray(
        [tuple(cell if isinstance(cell, str) else float(cell) for cell in row) for row in rows])
    for number, formula in enumerate(SHEET_FORMULAS):
        enter(sheet.getCellByPosition(14 + number, 0), formula)
    last = 14 + len(SHEET_FORMULAS)
    sheet.getCellRangeByPosition(14, 0, last - 1, count - 1).fillAuto(TO_BOTTOM, 1)
    enter_array(sheet.getCellRangeByPosition(last, 0, last, count - 1), f"=SCORE.PLACE(E1:E{count};E1:E{count})")
    for column_index in range(14, last + 1):
        for row in (0, count - 1):
            cell = sheet.getCellByPosition(column_index, row)
            if cell.getError():
                raise RuntimeError(f"{cell.Formula} gives {cell.String}")
    return document


def sheet(office):
    """Twelve formulas for each of many athletes; the time must grow as the athletes do."""
    print("\nTwelve formulas an athlete on one sheet")
    sheets = {count: Timed(big_sheet(office, count), count) for count in (1000, 2000, 5000, 10_000)}
    run(sheets.values(), 7)
    for count, timed in sheets.items():
        seconds = timed.median() * count / 1e6
        line(f"{count} athletes", f"{seconds:.3f}", "s", *(("< 1.5", seconds < 1.5) if count == 10_000 else ()))
    growth = sheets[10_000].share_of(sheets[1000])
    line("an athlete among 10000, against one among 1000", f"{growth:.2f}", "times", "< 1.25", growth < 1.25)
    for timed in sheets.values():
        timed.close()


def column(office):
    """A million cells below each other, and one edit: of what one of them reads, and of what all of them read."""
    count, edits = 1_000_000, 20
    print(f"\n{count} cells of one formula, one edit")
    kinds = {"native formula": "=A1/$C$1", "PACE.ROUND": "=PACE.ROUND(A1;$C$1)"}
    one, everything = {}, {}
    for name, formula in kinds.items():
        document = office.new()
        sheet = document.Sheets[0]
        sheet["C1"].Value = 8
        sheet.getCellRangeByPosition(0, 0, 0, count - 1).setDataArray(((0.0125,),) * count)
        enter(sheet["B1"], formula)
        cells = sheet.getCellRangeByPosition(1, 0, 1, count - 1)
        cells.fillAuto(TO_BOTTOM, 1)
        document.calculateAll()
        times = []
        for edit in range(edits):
            row, begin = (edit * 7919) % count, time.perf_counter()
            sheet.getCellByPosition(0, row).Value = 0.02 + edit * 1e-4
            document.calculate()
            shown = sheet.getCellByPosition(1, row).Value
            times.append((time.perf_counter() - begin) * 1000)
            assert abs(shown - (0.02 + edit * 1e-4) / 8) < 1e-12
        one[name], times = statistics.median(times), []
        for rounds in (9, 10, 11):
            begin = time.perf_counter()
            sheet["C1"].Value = rounds
            document.calculate()
            shown = sheet.getCellByPosition(1, count - 1).Value
            times.append(time.perf_counter() - begin)
            assert abs(shown - 0.0125 / rounds) < 1e-12
        everything[name] = statistics.median(times)
        document.close(True)
    for name in kinds:
        line(f"{name}: a cell that one of them reads", f"{one[name]:.2f}", "ms")
        line(f"{name}: a cell that all of them read", f"{everything[name]:.2f}", "s")
    ratio = one["PACE.ROUND"] / one["native formula"]
    line("  the first, of a native formula's", f"{ratio:.2f}", "times", "<= 1", ratio <= 1)
    line("  the second, of a native formula's", f"{everything['PACE.ROUND'] / everything['native formula']:.1f}", "times")


ATHLETES, IN_EXAMPLE, FORMULA_CELLS = 200, 24, 16
RESULTS = [("GOAL",), ("SCORE",), ("TARGET",), ("CLOCK", 1), ("RATE",), ("NEEDS",), ("MARGIN",), ("SETS", 0), ("REHEARSAL",),
           ("NOTE",), ("TEXT",)]


def planned(office, block, tests):
    """A roster of 200 with eleven results each, from a block and tests of so many rows and columns."""
    people = "".join(f"P{k:03} | scaled | full | middle | {5 + k % 3} | | FALSE\n" for k in range(ATHLETES))
    results = "".join(f"P{k:03} | {170 + k % 60} | {12000 + 50 * k} | {8 + k % 12} | {6 + k % 9}\n" for k in range(ATHLETES))
    keys = plan_sheet.ROSTER.split("\n")[1] + "\n"
    document = plan_sheet.lay_out(office.new(), tests="\n".join(plan_sheet.TESTS.split("\n")[1:3]) + "\n" + results,
                                  roster=keys + people)
    for name, sheet, (rows, columns) in (("workout", "Workout", block), ("tests", "Tests", tests)):
        cells = document.Sheets[sheet].getCellRangeByPosition(0, 0, columns - 1, rows - 1)
        plan_sheet.name(document, name, cells)
    unused = document.Sheets["Tests"].getCellRangeByPosition(5, 2, tests[1] - 1, ATHLETES + 1)  # columns without keys
    unused.setDataArray(((1.0,) * (tests[1] - 5),) * ATHLETES)
    sheet = document.Sheets["Roster"]
    for column, (function, *arguments) in enumerate(RESULTS, 10):
        enter(sheet.getCellByPosition(column, 1), plan_sheet.of(1, function, *arguments))
    sheet.getCellRangeByPosition(10, 1, 9 + len(RESULTS), ATHLETES).fillAuto(TO_BOTTOM, 1)
    return Timed(document, ATHLETES * len(RESULTS))


def plan(office):
    """Plans in cells: everything again, and one goal typed."""
    print(f"\nPlans of {ATHLETES} people, {len(RESULTS)} results each")
    for block, tests in (((26, 11), (202, 6)), ((60, 14), (202, 46))):
        timed = planned(office, block, tests)
        run([timed], 7)
        seconds = timed.median() * timed.count / 1e6
        line(f"block of {block[0]} by {block[1]}, tests of {tests[0]} by {tests[1]}: a result", f"{timed.median():.1f}", "us")
        line("  hard recalculation", f"{seconds:.3f}", "s", "<= 0.3", seconds <= 0.3)
        sheet, times = timed.document.Sheets["Roster"], []
        for goal in range(30):
            begin = time.perf_counter()
            sheet["F100"].Value = 5 + goal % 3
            assert sheet["K100"].Value == 5 + goal % 3
            times.append((time.perf_counter() - begin) * 1000)
        typed = statistics.median(times)
        line("  one goal typed", f"{typed:.1f}", "ms", "< 10", typed < 10)
        timed.close()


def crowd(document):
    """The example's people again and again, under names of their own, with all that was typed of them."""
    for name in document.NamedRanges.ElementNames:
        cells = document.NamedRanges.getByName(name).ReferredCells
        if (not name.startswith(("roster_", "tests_", "day_")) or cells is None or cells.Rows.Count != ATHLETES
                or cells.queryContentCells(FORMULA_CELLS).Count):
            continue
        rows = [list(row) for row in cells.getDataArray()[:IN_EXAMPLE]]
        if name in ("roster_name", "tests_name"):
            rows = [[f"{row[0]} {turn}" if row[0] else ""] for turn in range(1, 10) for row in rows]
        cells.setDataArray(tuple(tuple(rows[i % len(rows)]) for i in range(ATHLETES)))


def workbook(office):
    """The event workbook with all its places taken, from the test to the day."""
    document = office.open(BUILD / "examples" / "rounds.ots")
    crowd(document)
    timed = Timed(document, 1)
    run([timed], 7)
    rank = document.NamedRanges.getByName("roster_rank").ReferredCells.getDataArray()
    goals = sum(isinstance(row[0], float) for row in rank)
    heats = sum(bool(row[3]) for row in document.NamedRanges.getByName("heat_list").ReferredCells.getDataArray())
    print(f"\nEvent workbook, {ATHLETES} athletes: {goals} with a goal, {heats} in heats")
    line("hard recalculation", f"{timed.median() / 1e6:.2f}", "s", "<= 0.3", timed.median() <= 3e5)
    file_of(office, document)


def file_of(office, document):
    """Saved under a name, opened, and saved again after each change, as people do."""
    def seconds(what):
        start = time.perf_counter()
        given = what()
        return time.perf_counter() - start, given

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "event.ods"
        first, _ = seconds(lambda: document.storeAsURL(path.as_uri(), ()))
        document.close(True)
        opened = []
        for _ in range(3):
            taken, document = seconds(lambda: office.open(path))
            opened.append(taken)
            if len(opened) < 3:
                document.close(True)
        typed, again = [], []
        name = document.NamedRanges.getByName("roster_name").ReferredCells.getCellByPosition(0, 0)
        for _ in range(7):
            name.String += "a"
            typed.append(seconds(document.calculate)[0])  # the office does that while nobody types
            again.append(seconds(document.store)[0])
        document.close(True)
    line("open", f"{statistics.median(opened):.2f}", "s", "<= 0.4", statistics.median(opened) <= 0.4)
    line("save, the first time (the office draws the charts)", f"{first:.2f}", "s")
    line("recalculation after a name was typed", f"{statistics.median(typed):.2f}", "s")
    line("save", f"{statistics.median(again):.2f}", "s", "<= 0.2", statistics.median(again) <= 0.2)


def start(_):
    """From nothing to the first spreadsheet in a window, with the extension and without, in turn."""
    offices = [Office(oxts, BUILD / "bench-start" / str(len(oxts)), reuse=True)
               for oxts in ([], [BUILD / "pacecells.oxt"])]
    for office in offices:
        with office:  # a new profile is set up
            office.new(hidden=False)
    times = [], []
    for _ in range(ROUNDS):
        for which in random.sample((0, 1), 2):
            begin = time.perf_counter()
            with offices[which] as office:
                office.new(hidden=False)
                times[which].append((time.perf_counter() - begin) * 1000)
    print("\nOffice, up to the first spreadsheet")
    line("without the extension", f"{statistics.median(times[0]):.0f}", "ms")
    more = statistics.median(b - a for a, b in zip(*times))
    line("more with it", f"{more:.0f}", "ms", "at most 50", more <= 50)


def main():
    parts = {part.__name__: part for part in (calls, models, sheet, plan, column, workbook, start)}
    with Office([BUILD / "functions.oxt", BUILD / "tests" / "bench" / "bench.oxt"], BUILD / "bench-office",
                reuse=True, limit=3000) as office:
        library = office.service("com.sun.star.script.ApplicationScriptLibraryContainer").getByName("Standard")
        if not library.hasByName("Bench"):
            library.insertByName("Bench", MACRO)
        for name in sys.argv[2:] or parts:
            parts[name](office)
    print(f"\nLoad of the machine at the end: {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
