"""An edition: the package with workbooks and help of one language, in an office of that language and of others.

Uses BUILD/pacecells-<language>.oxt.
"""

import io
import re
import zipfile
from pathlib import Path
from urllib.parse import unquote, urlparse

import pytest
from commands import run
from compare import check
from office import Office
from sharing import BUILD

SHEETS = {"de": ("Workout", "Athleten"), "en": ("Workout", "Roster"), "es": ("Workout", "Atletas"), "fr": ("Workout", "Athlètes")}


@pytest.mark.parametrize("language", SHEETS)
def test_an_edition_is_small_and_holds_one_language(language):
    package = BUILD / f"pacecells-{language}.oxt"
    check(f"{package.stat().st_size} bytes", package.stat().st_size <= 1_400_000)
    with zipfile.ZipFile(package) as edition, zipfile.ZipFile(BUILD / "pacecells.oxt") as whole:
        other = [f"/{code}/" for code in SHEETS if code != language]
        expected = {name for name in whole.namelist() if name.startswith("description/") or not any(code in f"/{name}" for code in other)}
        check("files", set(edition.namelist()) ^ expected, set())
        check("workbooks", sum(name.endswith(".ots") for name in edition.namelist()), 6)


def test_no_workbook_has_the_day_of_its_build():
    """Each states the fixed date, wherever the office wrote today: so two builds of one source are the same."""
    stated = {}
    with zipfile.ZipFile(BUILD / "pacecells.oxt") as package:
        for name in filter(lambda one: one.endswith(".ots"), package.namelist()):
            with zipfile.ZipFile(io.BytesIO(package.read(name))) as workbook:
                content, styles = (workbook.read(part).decode() for part in ("content.xml", "styles.xml"))
            cells = re.findall(r'"of:=(?:NOW|TODAY)\(\)"[^>]*office:date-value="([^"]*)"', content)
            stated[name] = (len(cells), {*cells, *re.findall(r'text:date-value="([^"]*)"', styles)})
    check("the same day in all", [days for _, days in stated.values()], [{"2020-01-01"}] * len(stated))
    check("cells with the day: roster and wall in four languages", sum(cells for cells, _ in stated.values()), 8)


@pytest.mark.parametrize("language, spoken, made", [("de", "de", "de"), ("de", "en-US", "de"), ("en", "fr", "en"), ("fr", "nl", "fr")])
def test_it_speaks_the_language_that_it_has(language, spoken, made, tmp_path):
    with Office([BUILD / f"pacecells-{language}.oxt"], tmp_path, language=spoken) as office:
        start = office.new()
        check("new event", run(office, start, "new-event", Empty="true"), (True, ""))
        event = next(document for document in office.desktop.Components if document.NamedRanges.hasByName("roster"))
        check("sheets", tuple(event.Sheets.ElementNames[:2]), SHEETS[made])
        good, said = run(office, start, "help")
        page = Path(unquote(urlparse(said.partition("#")[0]).path))
        check(f"help {page.parent.name}", (good, page.parent.name, page.is_file()), (True, made, True))
