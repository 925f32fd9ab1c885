"""A storm of random calls in the real office.

Every function with every kind of cell: empty, text, error, boolean, date, time, huge and tiny numbers, ranges of odd
shapes, whole columns. The office lives, each answer is a value or a proper error, and memory does not grow however
often the sheets are calculated. The seed is printed; PACECELLS_TEST_SEED brings the same storm again.
"""

import os
import random
import re
import time
from pathlib import Path

import pytest
import uno
from office import enter, enter_array
from sharing import FUNCTIONS, alone, catalog, shared

SEED = int(os.environ.get("PACECELLS_TEST_SEED", 20_240))
CATALOG = alone(catalog())
CALLS, COLUMNS, BLOCK = 100_000, 50, 100
ROWS = CALLS // COLUMNS
DATA_COLUMNS, DATA_ROWS = 26, 60
ARGUMENT, NOT_FOUND, RANGE_ERROR, DIVISION, NOT_AVAILABLE = 502, 523, 504, 532, 32767
TO_BOTTOM = uno.Enum("com.sun.star.sheet.FillDirection", "TO_BOTTOM")
TO_RIGHT = uno.Enum("com.sun.star.sheet.FillDirection", "TO_RIGHT")

chance = random.Random(SEED)

WORDS = ["2:30", "1:02:30", "20:00", "0:00", "9:00", "1:75", "7+21", "3-3-3", "3-2/3-2", "4x2", "split", "cal/h", "W",
         "row", "bike", "armbike", "rep", "Row  CAL", "run m", "hold", "epley", "high", "low", "Ann", " ", "-", "=1",
         "\u00a02:30", "\u20ac\U0001f600", "x" * 200, "1e308", "NaN"]
NUMBERS = [0, 1, -1, 2, 3, 8, 9, 15, 30, 80, 250, 300, 999, 1000, 20100, 0.17, 0.9, 1.1, 1e-9, 1e9, 2147483648, 1e15,
           1.7e308, -1.7e308, 5e-324, 4e-3, 0.0125, 0.0139, 0.1, 0.5, 2.5]
# How a kind of cell is entered; the two errors are what must come through.
CELLS = {"error": ["=1/0", "=NA()"], "boolean": ["=TRUE()", "=FALSE()"], "date": ["=DATE(2026;3;14)"],
         "empty text": ['=""'], "time": ["=TIME(0;2;30)", "=TIME(0;20;0)", "=TIME(2;30;0)"]}


class Data:
    """The sheet that the calls refer to. Remembers where its errors are."""

    def __init__(self, sheet):
        self.errors = {}
        for column in range(DATA_COLUMNS):
            # Columns of one kind, so that ranges make sense to some functions, and columns of everything.
            maker = chance.choice([self.number, self.number, self.word, self.anything, self.anything])
            errors = column % 3 == 0
            for row in range(DATA_ROWS):
                content = maker() if not errors or chance.random() > 0.1 else chance.choice(CELLS["error"])
                if content in CELLS["error"]:
                    self.errors[column, row] = DIVISION if content == "=1/0" else NOT_AVAILABLE
                cell = sheet.getCellByPosition(column, row)
                if isinstance(content, str) and content.startswith("=") and len(content) > 2:
                    enter(cell, content)
                elif isinstance(content, str):
                    cell.String = content
                elif content is not None:
                    cell.Value = float(content)

    @staticmethod
    def number():
        return chance.choice([None, *NUMBERS]) if chance.random() < 0.5 else round(chance.uniform(0, 30), 2)

    @staticmethod
    def word():
        return chance.choice([None, *WORDS])

    def anything(self):
        kind = chance.choice([*CELLS, "number", "word"])
        return getattr(self, kind)() if kind in ("number", "word") else chance.choice(CELLS[kind])


def name(column):
    return chr(ord("A") + column)


class Call:
    """A random call; knows which errors of input cells it may show."""

    def __init__(self, data):
        self.data, self.may_show = data, {ARGUMENT, NOT_FOUND, NOT_AVAILABLE}
        function = chance.choice(CATALOG)
        arguments = split(function["formula"].split("(", 1)[1][:-1])
        count = len(function["parameters"])
        if chance.random() < 0.3:
            arguments = [self.argument() for _ in range(chance.randint(0, count))]
        else:
            arguments += [""] * (count - len(arguments))
            for _ in range(chance.choice([0, 1, 1, 1, 2])):
                arguments[chance.randrange(count)] = self.argument()
            while arguments and arguments[-1] == "" and chance.random() < 0.9:
                arguments.pop()
        self.formula = f"={function['name']}({';'.join(arguments)})"

    def argument(self):
        return chance.choice([self.number, self.text, self.cell, self.cell, self.cell, self.range, self.range,
                              self.inline, lambda: ""])()

    @staticmethod
    def number():
        return repr(chance.choice(NUMBERS))

    @staticmethod
    def text():
        return f'"{chance.choice(WORDS)}"'

    def cell(self):
        column, row = chance.randrange(DATA_COLUMNS), chance.randrange(DATA_ROWS + 2)
        if (column, row) in self.data.errors:
            self.may_show.add(self.data.errors[column, row])
        return f"$data.{name(column)}{row + 1}"

    def range(self):
        """One column, one row, a block, or a single cell written as a range."""
        left, top = chance.randrange(DATA_COLUMNS), chance.randrange(DATA_ROWS)
        width, height = chance.choice([(1, chance.randint(1, 40)), (1, 4), (1, 4), (chance.randint(1, 12), 1),
                                       (chance.randint(1, 5), chance.randint(1, 5)), (1, 1)])
        right, bottom = min(left + width, DATA_COLUMNS) - 1, top + height - 1
        if any((column, row) in self.data.errors for column in range(left, right + 1) for row in range(top, bottom + 1)):
            self.may_show.add(RANGE_ERROR)
        return f"$data.{name(left)}{top + 1}:{name(right)}{bottom + 1}"

    @staticmethod
    def inline():
        rows = chance.randint(1, 4)
        columns = chance.choice([1, 1, 2, 3])
        return "{" + "|".join(";".join(str(chance.randint(-5, 40)) for _ in range(columns)) for _ in range(rows)) + "}"


def split(text):
    """Arguments of an example: no text in them holds a semicolon, an array may."""
    return re.split(r";(?![^{]*\})", text)


def memory(office):
    """Resident memory of the office and its launcher in MiB."""
    pages = 0
    for process in Path("/proc").glob("[0-9]*"):
        try:
            if os.getpgid(int(process.name)) == office.process.pid:
                pages += int((process / "statm").read_text().split()[1])
        except OSError:
            pass  # ended meanwhile
    return pages * os.sysconf("SC_PAGE_SIZE") / 2**20


@pytest.fixture(scope="module")
def calls():
    """All the calls, on a sheet of a document, and what each may show. Beside it a sheet with the number of each error."""
    print(f"PACECELLS_TEST_SEED={SEED}")
    with shared([FUNCTIONS]) as office:
        document = office.new()
        data = Data(document.Sheets[0])
        document.Sheets[0].Name = "data"
        document.Sheets.insertNewByName("calls", 1)
        document.Sheets.insertNewByName("errors", 2)
        sheet, errors = document.Sheets["calls"], document.Sheets["errors"]
        made = [[Call(data) for _ in range(COLUMNS)] for _ in range(ROWS)]
        document.enableAutomaticCalculation(False)
        for top in range(0, ROWS, BLOCK):
            sheet.getCellRangeByPosition(0, top, COLUMNS - 1, top + BLOCK - 1).setFormulaArray(
                tuple(tuple(call.formula for call in row) for row in made[top:top + BLOCK]))
        enter(errors["A1"], "=IF(ISERROR($calls.A1);ERRORTYPE($calls.A1);0)")
        errors.getCellRangeByPosition(0, 0, COLUMNS - 1, 0).fillAuto(TO_RIGHT, 1)
        errors.getCellRangeByPosition(0, 0, COLUMNS - 1, ROWS - 1).fillAuto(TO_BOTTOM, 1)
        document.calculateAll()
        yield office, document, made, errors.getCellRangeByPosition(0, 0, COLUMNS - 1, ROWS - 1)


def test_each_answer_is_a_value_or_a_proper_error(calls, record_property):
    _, _, made, errors = calls
    answered, wrong = {}, []
    for row, shown in zip(made, errors.getDataArray()):
        for call, error in zip(row, shown):
            answered[error] = answered.get(error, 0) + 1
            if error != 0 and error not in call.may_show:
                wrong.append(f"{call.formula[:300]} gives error {error}")
    told = f"{CALLS} random calls: " + ", ".join(f"{count} {'values' if error == 0 else f'with error {error}'}"
                                              for error, count in sorted(answered.items(), key=lambda item: -item[1]))
    print(told)
    record_property("measured", told)
    assert wrong[:30] == []
    assert answered.get(0, 0) >= CALLS // 10, "the storm reaches the functions"


def test_memory_does_not_grow(calls, record_property):
    office, document, _, _ = calls
    sizes = []
    for _ in range(8):
        document.calculateAll()
        sizes.append(memory(office))
    told = "MiB after each recalculation of all of them: " + ", ".join(f"{size:.0f}" for size in sizes)
    print(told)
    record_property("measured", told)
    assert min(sizes) > 50, "it was measured"
    assert sizes[-1] <= sizes[1] * 1.01 + 5


def test_arrays(office, document):
    """The same kind of calls over blocks, entered as arrays."""
    data = Data(document.Sheets[0])
    document.Sheets.insertNewByName("arrays", 1)
    document.Sheets[0].Name = "data"
    sheet, wrong, values = document.Sheets["arrays"], [], 0
    for number in range(300):
        call = Call(data)
        cells = sheet.getCellRangeByPosition(0, number * 4, 4, number * 4 + 2)
        enter_array(cells, call.formula)
        for x in range(5):
            for y in range(3):
                error = cells.getCellByPosition(x, y).getError()
                values += not error
                if error and error not in call.may_show:
                    wrong.append(f"{{{call.formula[:300]}}} gives error {error}")
    assert wrong[:30] == []
    assert values >= 300 * 15 // 10, "the calls reach the functions"


@pytest.mark.parametrize("formula, want", [
    ("=SCORE.PLACE(41;$Sheet1.A:A)", 0), ("=PLAN.ROUNDTIME($Sheet1.B:B;$Sheet1.A:A;$Sheet1.A:A;$Sheet1.C:C)", 0),
    ("=SCORE.FADE($Sheet1.A:D)", ARGUMENT), ("=CLOCK.TEXT($Sheet1.A:CV)", ARGUMENT)])
def test_whole_columns(document, formula, want):
    """One to a hundred of them, nearly empty."""
    sheet = document.Sheets[0]
    sheet["A1"].Value, sheet["A2"].Value, sheet["B1"].String = 42, 41, "rep"
    document.Sheets.insertNewByName("calls", 1)
    cell = document.Sheets["calls"]["A1"]
    start = time.monotonic()
    enter(cell, formula)
    error = cell.getError()
    print(f"error {error} after {time.monotonic() - start:.1f} s")
    assert error == want


def test_the_office_still_reads_a_clock(sheet):
    enter(sheet["A1"], '=CLOCK.TEXT("2:30")')
    assert sheet["A1"].String == "2:30"
