#!/usr/bin/python3
"""The extension in an office that speaks German, Spanish or French, with that country's decimal comma.

    languages_test.py BUILD    e.g. languages_test.py build/release

Uses BUILD/functions.oxt and, where they are built, BUILD/templates/<language>. Ends with "N passed, N failed" and fails
if anything did.
"""

import json
import sys
from pathlib import Path

ROOT, BUILD = Path(__file__).resolve().parents[2], Path(sys.argv[1]).resolve()
sys.path.insert(0, str(ROOT / "templates"))
sys.path.insert(0, str(ROOT / "extension" / "generate"))

from checks import check, finish  # noqa: E402
from languages import languages  # noqa: E402
from office import Office, recalculate, result, type_in  # noqa: E402

from com.sun.star.lang import Locale  # noqa: E402

def wizard(office, language):
    """Every description that the Function Wizard shows, of functions and of their parameters."""
    shown, all_of_them = {}, office.service("com.sun.star.sheet.FunctionDescriptions")
    for i in range(all_of_them.Count):
        function = {item.Name: item.Value for item in all_of_them.getByIndex(i)}
        shown[function["Name"]] = function
    for function in json.loads((BUILD / "generated" / "catalog.json").read_text())["functions"]:
        name = function["name"]
        check(f"{language.code} {name}", shown[name]["Description"], language.functions[name]["description"])
        check(f"{language.code} {name}, parameters", {a.Name: a.Description for a in shown[name]["Arguments"]},
              {p["name"]: language.of_parameter(function, p) for p in function["parameters"]})


def typing(office, language):
    """A time typed with a decimal comma, into a formula and into a cell for minutes and seconds."""
    sheet, formats = (document := office.new()).Sheets[0], document.NumberFormats
    type_in(sheet["A1"], '=CLOCK.VALUE("2:30,5")')
    check(f"{language.code} CLOCK.VALUE", result(sheet["A1"]), 150.5 / 86400)
    sheet["A2"].NumberFormat = formats.addNewConverted("[M]:SS.0", Locale("en", "US", ""), Locale())
    type_in(sheet["A2"], "2:30,5")
    check(f"{language.code} typed 2:30,5", result(sheet["A2"]), 150.5 / 86400)
    check(f"{language.code} shown", sheet["A2"].String, "2:30,5")
    type_in(sheet["A3"], "=ERG.TIME(15,5;1000)")
    check(f"{language.code} ERG.TIME(15,5;1000)", result(sheet["A3"]), 15.5 / 1000 / 24)
    document.close(True)


def workbook(office, language):
    """An example opens in its language with the decimals of its readers, stored ones too, and calculates the same."""
    path = BUILD / "templates" / language.code / "wall.ots"
    if not path.is_file():
        return
    document = office.open(path)
    check(f"{language.code} sheet", document.Sheets[0].Name, language.workbooks["Wall table"])
    check(f"{language.code} document language", document.CharLocale.Language, language.code)
    table = document.NamedRanges.getByName("wall_table").ReferredCells
    before = table.getDataArray()
    check(f"{language.code} second goal", before[1][0], "6,5")
    recalculate(document)
    check(f"{language.code} recalculated", table.getDataArray(), before)
    document.close(True)


for language in languages()[1:]:
    with Office([BUILD / "functions.oxt"], BUILD / "languages" / language.code, language=language.code,
                locale=language.locale) as running:
        wizard(running, language)
        typing(running, language)
        workbook(running, language)
sys.exit(finish())
