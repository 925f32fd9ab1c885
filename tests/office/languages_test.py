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

from checks import check, finish  # noqa: E402
from office import Office, recalculate, result, type_in  # noqa: E402

from com.sun.star.lang import Locale  # noqa: E402

def wizard(office, language):
    """Every description that the Function Wizard shows, of functions and of their parameters."""
    texts = json.loads((ROOT / "extension" / "package" / f"functions_{language}.json").read_text(encoding="utf-8"))
    shown, all_of_them = {}, office.service("com.sun.star.sheet.FunctionDescriptions")
    for i in range(all_of_them.Count):
        function = {item.Name: item.Value for item in all_of_them.getByIndex(i)}
        shown[function["Name"]] = function
    for name, text in texts.items():
        check(f"{language} {name}", shown[name]["Description"], text["description"])
        check(f"{language} {name}, parameters", {a.Name: a.Description for a in shown[name]["Arguments"]},
              text["parameters"])


def typing(office, language):
    """A time typed with a decimal comma, into a formula and into a cell for minutes and seconds."""
    sheet, formats = (document := office.new()).Sheets[0], document.NumberFormats
    type_in(sheet["A1"], '=CLOCK.VALUE("2:30,5")')
    check(f"{language} CLOCK.VALUE", result(sheet["A1"]), 150.5 / 86400)
    sheet["A2"].NumberFormat = formats.addNewConverted("[M]:SS.0", Locale("en", "US", ""), Locale())
    type_in(sheet["A2"], "2:30,5")
    check(f"{language} typed 2:30,5", result(sheet["A2"]), 150.5 / 86400)
    check(f"{language} shown", sheet["A2"].String, "2:30,5")
    type_in(sheet["A3"], "=ERG.TIME(15,5;1000)")
    check(f"{language} ERG.TIME(15,5;1000)", result(sheet["A3"]), 15.5 / 1000 / 24)
    document.close(True)


def workbook(office, language):
    """An example opens in its language with the decimals of its readers, stored ones too, and calculates the same."""
    path = BUILD / "templates" / language / "wall.ots"
    if not path.is_file():
        return
    texts = json.loads((ROOT / "templates" / "texts" / f"{language}.json").read_text(encoding="utf-8"))
    document = office.open(path)
    check(f"{language} sheet", document.Sheets[0].Name, texts["Wall table"])
    check(f"{language} document language", document.CharLocale.Language, language)
    table = document.NamedRanges.getByName("wall_table").ReferredCells
    before = table.getDataArray()
    check(f"{language} second goal", before[1][0], "6,5")
    recalculate(document)
    check(f"{language} recalculated", table.getDataArray(), before)
    document.close(True)


for language, locale in (("de", "de-DE"), ("es", "es-ES"), ("fr", "fr-FR")):
    with Office([BUILD / "functions.oxt"], BUILD / "languages" / language, language=language, locale=locale) as running:
        wizard(running, language)
        typing(running, language)
        workbook(running, language)
sys.exit(finish())
