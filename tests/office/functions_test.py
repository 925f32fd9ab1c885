"""The cell functions in the real office, typed as a person types them.

Uses BUILD/functions.oxt and BUILD/generated/catalog.json. Expected values are the catalog's own where it gives them; the
rest is arithmetic that can be done on paper.
"""

import time
import zipfile
from collections import namedtuple

import pytest
import uno
from function_contract import ARRAYS, CELLS, CONTRACT, seconds
from office import enter_array, named, recalculate, result, save, type_in
from sharing import BUILD, FUNCTIONS, alone, catalog, folder_of, shared

ALL = catalog()
CATALOG = alone(ALL)
WORK = folder_of(__file__)


def minutes_and_seconds(document):
    return document.NumberFormats.addNew("[M]:SS", uno.createUnoStruct("com.sun.star.lang.Locale"))


def lay_out(document):
    """Fills a sheet with CELLS, each block a named range."""
    document.Sheets.insertNewByName("data", 1)
    sheet, minutes, column = document.Sheets["data"], minutes_and_seconds(document), 0
    for name, rows in CELLS.items():
        for y, row in enumerate(rows):
            for x, text in enumerate(row):
                cell = sheet.getCellByPosition(column + x, y)
                if isinstance(text, str) and text.startswith("@"):
                    cell.NumberFormat = minutes
                    type_in(cell, text[1:])
                elif isinstance(text, str):
                    type_in(cell, text)
                elif text is not None:
                    cell.Value = text
        block = sheet.getCellRangeByPosition(column, 0, column + len(rows[0]) - 1, len(rows) - 1)
        document.NamedRanges.addNewByName(name, block.AbsoluteName, uno.createUnoStruct(
            "com.sun.star.table.CellAddress"), 0)
        column += len(rows[0])


def wanted(value):
    return value if isinstance(value, str) else pytest.approx(value, rel=1e-9, abs=1e-12)


@pytest.fixture(scope="module")
def sheet_beside_cells():
    """An empty sheet of a document that holds CELLS, the same for all cases: each types into a place of its own."""
    with shared([FUNCTIONS]) as office:
        document = office.new()
        lay_out(document)
        yield document.Sheets[0]


def type_examples(sheet):
    for row, function in enumerate(CATALOG):
        type_in(sheet.getCellByPosition(0, row), function["formula"])


def is_answer(got, answer):
    """Whether a cell shows the catalog's answer, as precise as that is written."""
    if not isinstance(got, float):
        return got == answer
    if ":" in answer:  # a time
        want = sum(float(part) * 60**power for power, part in enumerate(reversed(answer.split(":"))))
        return abs(got * 86400 - want) <= (0.5 if "." not in answer else 0.5 * 10 ** -len(answer.split(".")[1]))
    decimals = len(answer.partition(".")[2])
    return abs(got - float(answer)) <= (0.5 * 10**-decimals if decimals else 1e-9) * 1.000001


def wrong_examples(sheet):
    """What column A of a sheet shows where that is not the catalog's answer, by formula."""
    shown = {function["formula"]: result(sheet.getCellByPosition(0, row)) for row, function in enumerate(CATALOG)}
    return {function["formula"]: f"{shown[function['formula']]!r}, not {function['answer']}" for function in CATALOG
            if not is_answer(shown[function["formula"]], function["answer"])}


@pytest.mark.parametrize("function", CATALOG, ids=lambda function: function["formula"])
def test_example_gives_the_answer_that_the_catalog_promises(sheet_beside_cells, function):
    cell = sheet_beside_cells.getCellByPosition(0, CATALOG.index(function))
    type_in(cell, function["formula"])
    assert is_answer(result(cell), function["answer"]), f"{result(cell)!r}, not {function['answer']}"


@pytest.mark.parametrize("row", range(len(CONTRACT)), ids=[formula for formula, _ in CONTRACT])
def test_contract(sheet_beside_cells, row):
    """Values and errors of single cells."""
    formula, want = CONTRACT[row]
    cell = sheet_beside_cells.getCellByPosition(1, row)
    type_in(cell, formula)
    assert result(cell) == wanted(want)


@pytest.mark.parametrize("number", range(len(ARRAYS)), ids=[formula for formula, _ in ARRAYS])
def test_array(sheet_beside_cells, number):
    """Whole ranges, and that a formula in a normal cell shows the first of them."""
    formula, rows = ARRAYS[number]
    block = sheet_beside_cells.getCellRangeByPosition(2, 20 * number, 1 + len(rows[0]), 20 * number + len(rows) - 1)
    enter_array(block, formula)
    for y, row in enumerate(rows):
        assert [result(block.getCellByPosition(x, y)) for x in range(len(row))] == [wanted(want) for want in row]
    single = sheet_beside_cells.getCellByPosition(20, number)
    type_in(single, formula)
    assert result(single) == wanted(rows[0][0])


def test_table_in_sort_takes_the_cells_that_it_needs(office):
    """As README and help say; when it is typed, not when a program sets it."""
    provider = office.service("com.sun.star.configuration.ConfigurationProvider")
    product = provider.createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess",
                                                   named(nodepath="/org.openoffice.Setup/Product"))
    if [int(part) for part in product.ooSetupVersion.split(".")] < [25, 2]:
        pytest.skip("no function of this office takes the cells that it needs")
    document = office.new(hidden=False)
    sheet = document.Sheets[0]
    office.dispatch(document, ".uno:GoToCell", ToPoint="B2")
    office.dispatch(document, ".uno:EnterString", StringName='=SORT(PACE.TABLE("18:00";8;10))')
    assert [sheet[f"B{row}"].Value for row in range(2, 6)] == [8, 9, 10, 0]
    assert [sheet[f"C{row}"].Value for row in range(2, 5)] == pytest.approx([seconds(135), seconds(120), seconds(108)])


# A1:A3 hold 18:00, 21:30 and 25:00, B2 holds 1:00.
COLUMNS = [
    ("=PACE.ROUND(A:A;8)", seconds(135)),
    ("=CLOCK.TEXT(A:B)", "18:00"),
    ("=CLOCK.TEXT(A1:B65537)", "18:00"),
    ("=ROWS(CLOCK.TEXT(A:B))", 3),
    ("=COLUMNS(CLOCK.TEXT(A:B))", 2),
    ("=ROWS(CLOCK.TEXT(A1:B5))", 5),
    ("=SCORE.FADE(A:A)", -435 / 500),
]


@pytest.mark.parametrize("formula, want", COLUMNS, ids=[formula for formula, _ in COLUMNS])
def test_whole_column_ends_after_its_last_filled_cell(sheet, formula, want):
    """In much less than the minute that a column of a million texts takes the office."""
    for name, value in (("A1", 1080), ("A2", 1290), ("A3", 1500), ("B2", 60)):
        sheet[name].Value = seconds(value)
    begin = time.perf_counter()
    type_in(sheet["J1"], formula)
    assert result(sheet["J1"]) == wanted(want)
    assert time.perf_counter() - begin < 8


def test_answer_of_more_texts_than_calc_can_show_is_refused(sheet):
    sheet["A1"].Value = sheet["A120000"].Value = seconds(1080)
    for row, formula in enumerate(("=CLOCK.TEXT(A:A)", "=PACE.ROUND(A:A;8)", "=ERG.TIME(A1:A120000;1000)")):
        cell = sheet.getCellByPosition(9, row)
        type_in(cell, formula)
        assert result(cell) == "Err:502", formula


@pytest.fixture(scope="module")
def wizard():
    """What the Function Wizard shows, by the function's name."""
    with shared([FUNCTIONS]) as office:
        descriptions = office.service("com.sun.star.sheet.FunctionDescriptions")
        shown = [{item.Name: item.Value for item in descriptions.getByIndex(index)} for index in range(descriptions.Count)]
        return {properties["Name"]: properties for properties in shown}


def said_default(parameter):
    value = parameter["left_out"]
    if value is None:
        return ""
    return f' If left out: "{value}".' if isinstance(value, str) else \
        f" If left out: {value // 60:.0f}:{value % 60:02.0f}." if parameter["time"] else f" If left out: {value:g}."


@pytest.mark.parametrize("function", ALL, ids=lambda function: function["name"])
def test_wizard_describes_the_function_and_its_parameters(wizard, function):
    shown = wizard[function["name"]]
    assert shown["Description"] == function["description"]
    assert [(argument.Name, argument.Description) for argument in shown["Arguments"]] == [
        (parameter["name"], ("May be left out. " if parameter["optional"] else "Needed. ") + parameter["description"] +
         said_default(parameter) + (f" At most {parameter['most']:,}." if parameter["most"] else ""))
        for parameter in function["parameters"]]


@pytest.mark.parametrize("word", ("ergometer", "rower", "calories", "watts", "split", "pace", "sets", "reps", "heat", "score",
                                  "round", "test"))
def test_words_that_people_look_for_are_in_the_descriptions(wizard, word):
    """Wizard and help list them; the wizard's search looks at names only (in 7.4)."""
    ours = {function["name"] for function in CATALOG}
    assert [name for name in ours if word in wizard[name]["Description"].lower()]


def shown_formulas(sheet):
    return [sheet.getCellByPosition(0, row).FormulaLocal for row in range(len(CATALOG))]


def test_decimal_comma_typed_into_a_time_cell_and_into_formulas():
    with shared([FUNCTIONS], "comma", language="de", locale="de-DE") as office:
        document = office.new()
        sheet = document.Sheets[0]
        sheet["A1"].NumberFormat = minutes_and_seconds(document)
        type_in(sheet["A1"], "2:30,5")
        assert sheet["A1"].Value == wanted(seconds(150.5))
        for row, (formula, want) in enumerate([('=CLOCK.TEXT(A1;1)', "2:30.5"), ('=CLOCK.TEXT("2:30,5";1)', "2:30.5"),
                                               ('=CLOCK.TEXT("2:30.5";1)', "2:30.5"),
                                               ('=ERG.TIME(15;1000;6,5)', seconds(60.5)),
                                               ('=PACE.ROUND("20:00";7,5)', seconds(160))]):
            cell = sheet.getCellByPosition(1, row)
            type_in(cell, formula)
            assert result(cell) == wanted(want), formula


KINDS = ("ods", "fods", "xlsx")
Passed = namedtuple("Passed", "typed shown errors_without")


@pytest.fixture(scope="module")
def passed_on():
    """The examples in a file of each kind, passed on and recalculated by an office without the extension."""
    with shared([FUNCTIONS]) as office:
        document = office.new()
        type_examples(document.Sheets[0])
        typed = shown_formulas(document.Sheets[0])
        shown = [document.Sheets[0].getCellByPosition(0, row).String for row in range(len(CATALOG))]
        for kind in KINDS:
            save(document, WORK / f"examples.{kind}")
        # Values for those without any of this: a list, read as text.
        save(document, WORK / "examples.csv", FilterOptions="59,34,76,1,,0,false,true")
    errors = {}
    with shared([], "without") as office:
        for kind in KINDS:
            document = office.open(WORK / f"examples.{kind}")
            save(document, WORK / f"passed-on.{kind}")
            recalculate(document)
            errors[kind] = {result(document.Sheets[0].getCellByPosition(0, row)) for row in range(len(CATALOG))}
            save(document, WORK / f"recalculated.{kind}")
    return Passed(typed, shown, errors)


@pytest.mark.parametrize("kind", KINDS)
def test_without_the_extension_a_recalculated_cell_says_so(passed_on, kind):
    assert passed_on.errors_without[kind] == {"#NAME?"}


def test_csv_holds_the_values_as_a_list(passed_on, office):
    values = office.open(WORK / "examples.csv", FilterName="Text - txt - csv (StarCalc)",
                         FilterOptions="59,34,76,1,1/2")
    assert [values.Sheets[0].getCellByPosition(0, row).String for row in range(len(CATALOG))] == passed_on.shown


@pytest.mark.parametrize("kind", KINDS)
def test_file_opens_with_its_values(passed_on, office, kind):
    assert wrong_examples(office.open(WORK / f"examples.{kind}").Sheets[0]) == {}


@pytest.mark.parametrize("name", ("examples", "passed-on", "recalculated"))
@pytest.mark.parametrize("kind", KINDS)
def test_formulas_outlive_the_file(passed_on, office, kind, name):
    """Also a stay in an office without the extension."""
    document = office.open(WORK / f"{name}.{kind}")
    sheet = document.Sheets[0]
    recalculate(document)
    assert wrong_examples(sheet) == {}
    assert shown_formulas(sheet) == passed_on.typed
    assert [sheet.getCellByPosition(0, row).Formula.partition("(")[0] for row in range(len(CATALOG))] == [
        "=" + function["saved"] for function in CATALOG], "names kept in the file"


def says_missing(document):
    """The visible sheets that say the extension is missing."""
    found = []
    for sheet in document.Sheets:
        search = sheet.createSearchDescriptor()
        search.SearchString, search.SearchType = "Pacecells is missing in this office", 1  # in values
        if sheet.IsVisible and sheet.findFirst(search):
            found.append(sheet.Name)
    return found


def roster(document):
    """Name, goal and numbers of each person, by the keys of the columns."""
    keys, _, *people = document.NamedRanges.getByName("roster").ReferredCells.getDataArray()
    places = [keys.index(key) for key in ("name", "aim", "target", "hold", "rank")]
    # xlsx keeps 15 digits
    return [tuple(float(f"{row[k]:.9g}") if isinstance(row[k], float) else row[k] for k in places) for row in people]


@pytest.mark.parametrize("kind", ("ods", "xlsx"))
def test_workbook_says_that_the_extension_is_missing_and_calculates_again_with_it(kind):
    path, changed = WORK / f"roster.{kind}", WORK / f"passed-on-roster.{kind}"
    with shared([FUNCTIONS]) as office:
        document = office.open(BUILD / "examples" / "rounds.ots")
        recalculate(document)
        assert says_missing(document) == []
        before = roster(document)
        assert sum(1 for row in before if row[1] != "") > 10, "the roster has goals to keep"
        save(document, path)
    with shared([], "without") as office:
        document = office.open(path)
        if kind == "xlsx":  # keeps the last values until then
            recalculate(document)
        assert {"Workout", "Roster"} <= set(says_missing(document))
        document.NamedRanges.getByName("results_name").ReferredCells.getCellByPosition(0, 199).String = "Changed"
        save(document, changed)
    with shared([FUNCTIONS]) as office:
        document = office.open(changed)
        recalculate(document)
        assert says_missing(document) == []
        assert roster(document) == before
        assert document.NamedRanges.getByName("results_name").ReferredCells.getCellByPosition(0, 199).String == "Changed"


@pytest.mark.parametrize("name", ("wall", "roster", "testday", "person"))
def test_template_says_that_the_extension_is_missing(name):
    with shared([], "without") as office:
        assert says_missing(office.open(BUILD / "templates" / "en" / f"{name}.ots")) != []


@pytest.mark.parametrize("library", ("missing", "unloadable"))
def test_examples_tell_a_package_without_its_library(library):
    """Such a package installs without complaint."""
    package = WORK / f"{library}.oxt"
    with zipfile.ZipFile(FUNCTIONS) as whole, zipfile.ZipFile(package, "w") as broken:
        for item in whole.infolist():
            content = whole.read(item)
            if item.filename.endswith(".so"):
                if library == "missing":
                    continue
                content = b"no library\n"
            broken.writestr(item, content)
    with shared([package], library) as office:
        sheet = office.new().Sheets[0]
        type_examples(sheet)
        assert len(wrong_examples(sheet)) == len(CATALOG)
