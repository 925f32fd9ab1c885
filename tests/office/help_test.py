"""README and the pages of the help that are written by hand: what is printed there is what the office answers."""

import re
import xml.etree.ElementTree as ElementTree

import pytest
from languages import languages
from office import recalculate, result, type_in
from plan_sheet import lay_out, of
from sharing import ROOT

README = ROOT / "README.md"
LANGUAGES = {language.code: language for language in languages()}
PAGES = [README] + [page for language in LANGUAGES.values() for page in sorted((language.folder / "help").glob("*.html"))]


def called(path):
    return str(path.relative_to(ROOT))


def codes(path):
    """What is printed as code, in order."""
    text = path.read_text(encoding="utf-8")
    if path == README:
        return re.findall(r"`([^`]+)`", re.sub(r"<!-- functions: begin.*functions: end -->|```.*?```", "", text, flags=re.S))
    return ["".join(code.itertext()) for code in ElementTree.fromstring(f"<body>{text}</body>").iter("code")]


FORMULAS = [(path, formula, answer) for path in PAGES for formula, answer in zip(codes(path), codes(path)[1:])
            if re.match(r"=[A-Z]+\.[A-Z]+\(", formula)]


def clock(days):
    seconds = round(days * 86400)
    return f"{seconds // 60}:{seconds % 60:02}"


@pytest.mark.parametrize("path, formula, answer", FORMULAS, ids=[f"{called(path)} {formula}" for path, formula, _ in FORMULAS])
def test_formula_gives_the_answer_printed_after_it(sheet, path, formula, answer):
    type_in(sheet["A1"], formula)
    got = result(sheet["A1"])
    if isinstance(got, float):
        got = clock(got) if ":" in answer else f"{got:.{len(answer.partition('.')[2])}f}"
    assert got == answer


def test_there_are_formulas():
    assert {path for path, *_ in FORMULAS} >= {README, *(page for page in PAGES if page.stem in ("event", "first-steps"))}


def example(language):
    """The text of the worked example on the page of the event."""
    text = (language.folder / "help" / "event.html").read_text(encoding="utf-8")
    page = ElementTree.fromstring(f"<body>{text}</body>")
    return "".join(page.find("ol").itertext())


@pytest.fixture
def answer(office):
    """What a function of the family ATHLETE says of the person of the example."""
    document = lay_out(office.new())
    cell = document.Sheets["Results"]["A1"]

    def ask(function, *arguments):
        type_in(cell, of(1, function, *arguments))
        recalculate(document)
        return result(cell)

    return ask


@pytest.mark.parametrize("language", LANGUAGES)
def test_example_has_the_numbers_of_the_plan(answer, language):
    text = example(LANGUAGES[language])
    low, high = re.findall(r"\d+\+\d+", answer("SCORE", 5))
    clocks = ", ".join(clock(answer("CLOCK", k)) for k in range(1, 7))
    expected = [clock(answer("TARGET")), f"{answer('RATE', 1):.0f} cal/h", f"{answer('RATE', 2):.0f}", f"{answer('RATE', 3):.0f}",
                clock(answer("RATE", 4)), answer("SCORE", 4), low, high, answer("SETS", '"Sandbags"', 1), answer("SETS", '"Sandbags"', 2),
                f"{answer('SETS', chr(34) + 'Sandbags' + chr(34), 3):.0f} s", clocks, clock(answer("CHECK", 2)),
                answer("GOAL", 4).partition(" ")[0] + " + "]
    assert [number for number in expected if number not in text] == []
    assert answer("GOAL", 3) == "6" and answer("SETS", '"Ring rows"', 1) == "6"


def test_readme_links_to_files_that_are_there():
    links = re.findall(r"\]\(([^)#]+)\)", README.read_text(encoding="utf-8"))
    assert links
    assert [link for link in links if "://" not in link and not (ROOT / link).is_file()] == []
