"""The extension in an office that speaks German, Spanish or French, with that country's decimal comma.

Uses BUILD/functions.oxt and BUILD/templates/<language>.
"""


import pytest
from com.sun.star.lang import Locale
from languages import languages
from office import recalculate, result, type_in
from sharing import BUILD, FUNCTIONS, catalog, shared

CATALOG = catalog()


@pytest.fixture(scope="module", params=languages()[1:], ids=lambda language: language.code)
def language(request):
    return request.param


@pytest.fixture
def speaking(language):
    """The office in that language."""
    with shared([FUNCTIONS], language.code, language=language.code, locale=language.locale) as office:
        yield office


@pytest.fixture(scope="module")
def wizard(language):
    """What the Function Wizard shows, by the function's name."""
    with shared([FUNCTIONS], language.code, language=language.code, locale=language.locale) as office:
        descriptions = office.service("com.sun.star.sheet.FunctionDescriptions")
        shown = [{item.Name: item.Value for item in descriptions.getByIndex(index)} for index in range(descriptions.Count)]
        return {properties["Name"]: properties for properties in shown}


@pytest.mark.parametrize("function", CATALOG, ids=lambda function: function["name"])
def test_wizard_describes_the_function_and_its_parameters(wizard, language, function):
    shown = wizard[function["name"]]
    assert shown["Description"] == language.functions[function["name"]]["description"]
    assert {argument.Name: argument.Description for argument in shown["Arguments"]} == {
        parameter["name"]: language.in_wizard(function, parameter) for parameter in function["parameters"]}


@pytest.mark.parametrize("typed, want", [
    ('=CLOCK.VALUE("2:30,5")', 150.5 / 86400),
    ("=ERG.TIME(15,5;1000)", 15.5 / 1000 / 24),
])
def test_decimal_comma_in_a_formula(speaking, typed, want):
    cell = speaking.new().Sheets[0]["A1"]
    type_in(cell, typed)
    assert result(cell) == pytest.approx(want, rel=1e-9)


def test_decimal_comma_in_a_time_cell(speaking):
    document = speaking.new()
    cell = document.Sheets[0]["A1"]
    cell.NumberFormat = document.NumberFormats.addNewConverted("[M]:SS.0", Locale("en", "US", ""), Locale())
    type_in(cell, "2:30,5")
    assert result(cell) == pytest.approx(150.5 / 86400, rel=1e-9)
    assert cell.String == "2:30,5"


def test_wall_table_has_the_words_and_decimals_of_its_readers(speaking, language):
    """Stored values too; calculated again, they are the same."""
    document = speaking.open(BUILD / "templates" / language.code / "wall.ots")
    assert document.Sheets[0].Name == language.workbooks["Wall table"]
    assert document.CharLocale.Language == language.code
    table = document.NamedRanges.getByName("wall_table").ReferredCells
    before = table.getDataArray()
    assert before[1][0] == "6,5", "the second goal"
    recalculate(document)
    assert table.getDataArray() == before
