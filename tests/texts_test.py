#!/usr/bin/python3
"""Every text in every language: none missing, none left over, none left in English, nothing lost on the way.

    texts_test.py BUILD    e.g. texts_test.py build/release

Reads BUILD/generated/catalog.json (functions) and BUILD/templates/texts.json (workbooks), written by the build, and the
translations in the source tree. Ends with "N texts, N wrong" and fails if any is.
"""

import json
import re
import sys
from pathlib import Path

ROOT, BUILD = Path(__file__).resolve().parents[1], Path(sys.argv[1])
LANGUAGES = ("de", "es", "fr")

# Words that are the same in that language, or that a gym there uses in English.
SAME = {
    "de": {"Event", "Tests", "tests", "Test", "Heats", "Heat", "heat", "Heat %1", "heat %1", "Judge", "Score", "Tie", "Trend",
           "Format", "Ergometer ×", "Name", "Reserve, J", "Reserve, kJ", "Station {n}: {problem}.", "Division", "Status",
           "Burpee", "{c} cal in {t}", "Split", "Start", "Version", "Enter", "Esc", "~Format", "Division %1", "Division: %1"},
    "es": {"Tests", "tests", "Test", "no", "Burpee", "{n} tests: ± {w} W ({share} %)", "{reps} reps", "General", "Esc"},
    "fr": {"Minutes", "Tests", "tests", "Test", "Date", "Format", "version {version}", "version {v}, {day} {time}", "Version",
           "Ski", "Burpee", "Watts", "Split", "Machine", "~Machine", "Calories", "~Calories", "Place", "place %1", "Score", "~Format", "date"},
}
UNITS = {"cal", "h", "m", "s", "min", "Pacecells"}  # the same everywhere
UNITS |= {"P", "Riegel", "American", "Scientist"}

total, wrong = 0, []


def read(path):
    return json.loads(path.read_text(encoding="utf-8"))


def marks(text):
    """What a translation must keep: places, marks, what is typed as it stands, numbers (2,5 is 2.5; 1RM is a word)."""
    typed = re.findall(r'"([^"]*)"', text)
    return {
        "places": sorted(re.findall(r"\{\w+\}|%[1-9](?![0-9])", text)),
        "marks": re.findall("[▲▼●✕×±]", text),
        "typed words": sorted(word.replace(",", ".") for word in typed),
        "numbers": sorted(number.replace(",", ".") for number in
                          re.findall(r"[0-9]+(?:[.,:][0-9]+)*(?!\w)", text)),
        "mnemonics": text.count("~"),
    }


def complain(language, where, what):
    wrong.append(f"{language} {where}: {what}")


def compare(language, where, english, text):
    """One text beside its translation."""
    global total
    total += 1
    if not text.strip():
        return complain(language, where, f"no text for {english!r}")
    words = re.findall(r"[^\W\d_]+", re.sub(r"\{\w+\}|%[1-9]", "", english))
    if text == english and english not in SAME[language] and not UNITS.issuperset(words):
        complain(language, where, f"still English: {english!r}")
    if text != text.strip() or "  " in text:
        complain(language, where, f"stray spaces in {text!r}")
    if language == "fr" and re.search(r" [;:?!»]|« | %(?![1-9])", text):
        complain(language, where, f"a space where the line may break in {text!r}")
    kept = marks(text)
    for what, expected in marks(english).items():
        if kept[what] != expected:
            complain(language, where, f"{what} of {english!r} are {expected} and became {kept[what]} in {text!r}")


def keys(language, where, wanted, found):
    for key in sorted(wanted - found):
        complain(language, where, f"no text for {key!r}")
    for key in sorted(found - wanted):
        complain(language, where, f"a text that nothing uses: {key!r}")
    return sorted(wanted & found)


def functions(language):
    catalog = {row["name"]: row for row in read(BUILD / "generated" / "catalog.json")}
    texts = read(ROOT / "extension" / "package" / f"functions_{language}.json")
    domains = read(ROOT / "extension" / "package" / "texts" / "domains.json")
    for name in keys(language, "functions", set(catalog), set(texts)):
        row, text = catalog[name], texts[name]
        compare(language, name, row["description"], text["description"])
        for key in (row["domain"], row["source"]):
            if key not in domains:
                complain(language, name, f"no text for {key!r}")
        english = {parameter["name"]: parameter["description"] for parameter in row["parameters"]}
        for parameter in keys(language, name, set(english), set(text["parameters"])):
            compare(language, f"{name} {parameter}", english[parameter], text["parameters"][parameter])


def workbooks(language):
    texts = read(ROOT / "templates" / "texts" / f"{language}.json")
    for key in keys(language, "workbooks", set(read(BUILD / "templates" / "texts.json")), set(texts)):
        compare(language, "workbooks", key, texts[key])


def sources():
    """What is written in the sources, literals that follow each other joined."""
    files = [file for folder in ("extension", "src") for file in sorted((ROOT / folder).rglob("*.[ch]*"))]
    return re.sub(r'"\s*"', "", "".join(file.read_text(encoding="utf-8") for file in files))


def refusals(language):
    """Every sentence of the model and the readers, which are looked up when they are shown."""
    found = set()
    for literal, other in re.findall(r'\b(?:out_of_domain|no_solution|not_available)\(\s*(?:("(?:[^"\\]|\\.)*")|(.*))',
                                     sources()):
        if literal:
            found.add(json.loads(literal))
        else:
            complain(language, "sources", f"an error whose sentence is no literal: {other}")
    known = read(ROOT / "extension" / "package" / "texts" / "messages.json")
    for key in sorted(found - set(known)):
        complain(language, "messages.json", f"no text for {key!r}")


def commands(language):
    written = sources()
    for file in sorted((ROOT / "extension" / "package" / "texts").glob("*.json")):
        for key, texts in read(file).items():
            if json.dumps(key, ensure_ascii=False) not in written:
                complain(language, file.name, f"a text that nothing uses: {key!r}")
            compare(language, file.name, key, texts.get(language, ""))


def pages(language):
    """The hand-written help: as many headings, lists and examples, and menu commands under the names that they have."""
    commands = {texts[language].replace("~", "").replace("\u00a0", " ").rstrip("…")
                for file in (ROOT / "extension" / "package" / "texts").glob("*.json") for texts in read(file).values()}
    for english in sorted((ROOT / "extension" / "package" / "help").glob("*_en.html")):
        page = english.with_name(english.name.replace("_en.", f"_{language}."))
        if not page.is_file():
            complain(language, page.name, "no such page")
            continue
        text = page.read_text(encoding="utf-8")
        tags = [re.findall(r"<(/?(?:h\d|ol|ul|li|table|tr|th|td|pre))\b", t) for t in (english.read_text("utf-8"), text)]
        if tags[0] != tags[1]:
            complain(language, page.name, "other headings, lists or tables than in English")
        for command in re.findall(r"<b>Pacecells, ([^<]+)</b>", text):
            if command.replace("\u00a0", " ") not in commands:
                complain(language, page.name, f"no menu command {command!r}")


for language in LANGUAGES:
    functions(language)
    pages(language)
    workbooks(language)
    commands(language)
    refusals(language)
for line in wrong:
    print("WRONG", line)
print(f"{total} texts, {len(wrong)} wrong")
sys.exit(1 if wrong or not total else 0)
