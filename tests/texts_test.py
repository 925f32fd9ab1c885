"""Every text in every language: none missing, none left over, none left in English, nothing lost on the way.

Reads BUILD/generated/catalog.json (functions) and BUILD/templates/texts.json (workbooks), written by the build, and the
translations in extension/texts.
"""

import json
import os
import re
import xml.etree.ElementTree as ElementTree
from html.parser import HTMLParser
from pathlib import Path

import pytest
from languages import languages

ROOT = Path(__file__).resolve().parents[1]
BUILD = Path(os.environ.get("PACECELLS_BUILD", ROOT / "build" / "release"))

ENGLISH, *OTHERS = languages()
UNITS = {"cal", "h", "m", "s", "min", "Pacecells"}  # the same everywhere
UNITS |= {"P", "Riegel", "American", "Scientist"}


def read(path):
    return json.loads(path.read_text(encoding="utf-8"))


CATALOG = {row["name"]: row for row in read(BUILD / "generated" / "catalog.json")["functions"]}
MENU = read(BUILD / "generated" / "catalog.json")["menu"]["items"]


def marks(text):
    """What a translation must keep: places, marks, what is typed as it stands, numbers (2,5 is 2.5; 1RM is a word)."""
    text = re.sub(r"\b(\d\d)[./](\d\d)[./](\d{4})\b", r"\3-\2-\1", text)  # a date in the order of the language
    typed = re.findall(r'"([^"]*)"', text)
    return {
        "places": sorted(re.findall(r"\{\w+\}|%[1-9](?![0-9])", text)),
        "marks": re.findall("[▲▼●✕×±]", text),
        "typed words": sorted(word.replace(",", ".") for word in typed),
        "numbers": sorted(number.replace(",", ".") for number in
                          re.findall(r"[0-9]+(?:[.,:][0-9]+)*(?!\w)", text)),
        "mnemonics": text.count("~"),
    }


class Reading:
    """The texts of a language beside the English: how many were compared, and all that is wrong with them."""

    def __init__(self, language):
        self.language, self.compared, self.wrong = language, 0, []

    def complain(self, where, what):
        self.wrong.append(f"{where}: {what}")

    def compare(self, where, english, text):
        """One text beside its translation."""
        self.compared += 1
        if not text.strip():
            return self.complain(where, f"no text for {english!r}")
        words = re.findall(r"[^\W\d_]+", re.sub(r"\{\w+\}|%[1-9]", "", english))
        if text == english and english not in self.language.same and not UNITS.issuperset(words):
            self.complain(where, f"still English: {english!r}")
        if text != text.strip() or "  " in text:
            self.complain(where, f"stray spaces in {text!r}")
        if self.language.code == "fr" and re.search(r" [;:?!»]|« | %(?![1-9])", text):
            self.complain(where, f"a space where the line may break in {text!r}")
        kept = marks(text)
        for what, expected in marks(english).items():
            if kept[what] != expected:
                self.complain(where, f"{what} of {english!r} are {expected} and became {kept[what]} in {text!r}")

    def keys(self, where, wanted, found):
        for key in sorted(wanted - found):
            self.complain(where, f"no text for {key!r}")
        for key in sorted(found - wanted):
            self.complain(where, f"a text that nothing uses: {key!r}")
        return sorted(wanted & found)


@pytest.fixture(params=OTHERS, ids=lambda language: language.code)
def reading(request):
    return Reading(request.param)


def test_functions(reading):
    for name in reading.keys("functions", set(CATALOG), set(reading.language.functions)):
        row, text = CATALOG[name], reading.language.functions[name]
        for key in ("description", "domain", "source"):
            reading.compare(f"{name} {key}", row[key], text.get(key, ""))
        english = {parameter["name"]: parameter["description"] for parameter in row["parameters"]}
        for parameter in reading.keys(name, set(english), set(text["parameters"])):
            reading.compare(f"{name} {parameter}", english[parameter], text["parameters"][parameter])
    assert reading.compared and not reading.wrong, "\n".join(reading.wrong)


def test_workbooks(reading):
    for key in reading.keys("workbooks", set(read(BUILD / "templates" / "texts.json")), set(reading.language.workbooks)):
        reading.compare("workbooks", key, reading.language.workbooks[key])
    assert reading.compared and not reading.wrong, "\n".join(reading.wrong)


def sources():
    """What is written in the sources, literals that follow each other joined."""
    files = [file for folder in ("extension", "src") for file in sorted((ROOT / folder).rglob("*")) if file.suffix in (".cpp", ".h")]
    return re.sub(r'"\s*"', "", "".join(file.read_text(encoding="utf-8") for file in files))


def test_refusals(reading):
    """Every sentence of the model and the readers, which are looked up when they are shown."""
    found = set()
    for literal, other in re.findall(r'\b(?:out_of_domain|no_solution|not_available)\(\s*(?:("(?:[^"\\]|\\.)*")|(.*))',
                                     sources()):
        if literal:
            found.add(json.loads(literal))
        else:
            reading.complain("sources", f"an error whose sentence is no literal: {other}")
    found |= {json.loads(literal) for literal in re.findall(r'(?<![\w.>])say\(\s*("(?:[^"\\]|\\.)*")', sources())}
    for key in sorted(found - set(reading.language.messages)):
        reading.complain("messages.json", f"no text for {key!r}")
    assert found and not reading.wrong, "\n".join(reading.wrong)


def test_commands(reading):
    written = sources()
    for file, texts in {"messages": reading.language.messages, **reading.language.commands}.items():
        for key, text in texts.items():
            if json.dumps(key, ensure_ascii=False) not in written:
                reading.complain(file, f"a text that nothing uses: {key!r}")
            reading.compare(file, key, text)
    assert reading.compared and not reading.wrong, "\n".join(reading.wrong)


def test_pages(reading):
    """The hand-written help: as many headings, lists and examples, and menu commands under the names that they have."""
    said = {text.replace("~", "").replace("\u00a0", " ").rstrip("…")
            for texts in reading.language.commands.values() for text in texts.values()}
    for english in sorted((ENGLISH.folder / "help").glob("*.html")):
        page = reading.language.folder / "help" / english.name
        if not page.is_file():
            reading.complain(page.name, "no such page")
            continue
        text = page.read_text(encoding="utf-8")
        tags = [re.findall(r"<(/?(?:section|h\d|ol|ul|li|table|tr|th|td|pre))\b", t) for t in (english.read_text("utf-8"), text)]
        if tags[0] != tags[1]:
            reading.complain(page.name, "other headings, lists or tables than in English")
        for command in re.findall(r"<b>Pacecells, ([^<]+)</b>", text):
            if command.replace("\u00a0", " ") not in said:
                reading.complain(page.name, f"no menu command {command!r}")
    assert said and not reading.wrong, "\n".join(reading.wrong)


class Pages(HTMLParser):
    """The pages of the help, sections of one file: where each leads. Its pictures, and its text."""

    def __init__(self, text):
        super().__init__()
        self.to, self.pictures, self.page = {}, [], None
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        if tag == "section":
            assert self.page is None, f"{attributes['id']} in {self.page}"
            self.page = attributes["id"]
            assert self.page not in self.to
            self.to[self.page] = []
        elif tag == "a":
            self.to[self.page].append(attributes["href"])
        self.pictures += [attributes["src"]] if "src" in attributes else []

    def handle_endtag(self, tag):
        if tag == "section":
            self.page = None


@pytest.mark.parametrize("language", [ENGLISH, *OTHERS], ids=lambda language: language.code)
def test_help_leads_everywhere_and_back(language):
    """Every link has its page, every picture is there, every page is reached from the contents, and leads back to them."""
    folder = BUILD / "generated" / "help" / language.code
    pages = Pages((folder / "index.html").read_text(encoding="utf-8"))
    assert set(CATALOG) | {item["command"] for item in MENU} <= set(pages.to)
    assert [name for name, to in pages.to.items() if "#contents" not in to] == ["contents"]
    assert [(name, to) for name, links in pages.to.items() for to in links if to.removeprefix("#") not in pages.to] == []
    assert {to.removeprefix("#") for to in pages.to["contents"]} == set(pages.to) - {"contents"}
    assert pages.pictures and [picture for picture in pages.pictures if not (folder / picture).is_file()] == []


@pytest.mark.parametrize("language", [ENGLISH, *OTHERS], ids=lambda language: language.code)
def test_a_default_is_written_from_the_catalog_alone(language):
    """"Share of the watts; 0.75 if left out" would be a second place for the number that the function takes."""
    words = re.escape(language.left_out.split(":")[0].strip().lower())
    value = r'(?:"\w+"|\d[\d.,]*(?:\s?\w{1,3})?)'
    stated, shown = [], 0
    for function in CATALOG.values():
        for parameter in function["parameters"]:
            text = parameter["description"] if language.english else \
                language.functions[function["name"]]["parameters"][parameter["name"]]
            default = language.default(parameter)
            where = f"{function['name']} {parameter['name']}: {text!r}"
            if re.search(rf"{value}\s+{words}|{words},?\s+{value}", text.lower()) or default and words in text.lower():
                stated.append(where)
            if default:
                assert language.left_out.replace("%1", default) in language.of_parameter(function, parameter), where
                shown += 1
    assert shown > 40 and not stated, "\n".join(stated)


GLOSSARY = read(ROOT / "extension" / "texts" / "glossary.json")["terms"]


def test_glossary_has_each_term_in_every_language():
    wanted = {"meaning", "source", ENGLISH.code, *(language.code for language in OTHERS)}
    assert GLOSSARY
    assert [term for term in GLOSSARY if not wanted <= set(term) or not all(term[key].strip() for key in wanted)] == []
    english = [term["en"] for term in GLOSSARY]
    assert len(set(english)) == len(english)


def shown(language):
    """All that people read in a language: where, and the text. English functions are in the catalog; other English texts are
    the keys of translations."""
    for name, row in CATALOG.items() if language.english else ():
        yield from ((f"{name} {key}", row[key]) for key in ("description", "domain", "source"))
        yield from ((f"{name} {parameter['name']}", parameter["description"]) for parameter in row["parameters"])
    for name, row in language.functions.items():
        yield from ((f"{name} {key}", row[key]) for key in ("description", "domain", "source"))
        yield from ((f"{name} {parameter}", text) for parameter, text in row["parameters"].items())
    source = OTHERS[0] if language.english else language
    for file, texts in {"messages": source.messages, "workbooks": source.workbooks, **source.commands}.items():
        yield from ((file, text) for text in (texts if language.english else texts.values()))
    yield from (("words", word) for words in language.words.values() for word in words.values())
    for page in sorted((language.folder / "help").glob("*.html")):
        text = page.read_text(encoding="utf-8")
        yield page.name, "".join(ElementTree.fromstring(f"<body>{text}</body>").itertext())
    yield "description.txt", (language.folder / "description.txt").read_text(encoding="utf-8")
    if language.english:
        yield "README.md", (ROOT / "README.md").read_text(encoding="utf-8")


def told(text):
    """The words of a text: without places such as {division}, names of functions and keys such as "name, division, goal"."""
    return re.sub(r"\{\w+\}|\b[A-Z]+\.[A-Z]+\b|name, division, goal", "", text).replace("~", "").replace("\u00a0", " ")


@pytest.mark.parametrize("language", [ENGLISH, *OTHERS], ids=lambda language: language.code)
def test_no_text_uses_a_word_that_the_glossary_rules_out(language):
    out = {word: term[language.code] for term in GLOSSARY for word in term.get("not", {}).get(language.code, ())}
    texts = [(where, told(text)) for where, text in shown(language)]
    assert out and len(texts) > 1000
    found = [f"{where}: {word!r} in {text[:200]!r}; say {better!r}" for where, text in texts for word, better in out.items()
             if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text, re.IGNORECASE)]
    assert not found, "\n".join(found)
