#!/usr/bin/python3
"""Every text in every language: none missing, none left over, none left in English, nothing lost on the way.

    texts_test.py BUILD    e.g. texts_test.py build/release

Reads BUILD/generated/catalog.json (functions) and BUILD/templates/texts.json (workbooks), written by the build, and the
translations in extension/texts. Ends with "N texts, N wrong" and fails if any is.
"""

import json
import re
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

ROOT, BUILD = Path(__file__).resolve().parents[1], Path(sys.argv[1])
sys.path.insert(0, str(ROOT / "extension" / "generate"))
from languages import languages  # noqa: E402

ENGLISH, *OTHERS = languages()
UNITS = {"cal", "h", "m", "s", "min", "Pacecells"}  # the same everywhere
UNITS |= {"P", "Riegel", "American", "Scientist"}

total, wrong = 0, []


def read(path):
    return json.loads(path.read_text(encoding="utf-8"))


CATALOG = {row["name"]: row for row in read(BUILD / "generated" / "catalog.json")["functions"]}


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
    wrong.append(f"{language.code} {where}: {what}")


def compare(language, where, english, text):
    """One text beside its translation."""
    global total
    total += 1
    if not text.strip():
        return complain(language, where, f"no text for {english!r}")
    words = re.findall(r"[^\W\d_]+", re.sub(r"\{\w+\}|%[1-9]", "", english))
    if text == english and english not in language.same and not UNITS.issuperset(words):
        complain(language, where, f"still English: {english!r}")
    if text != text.strip() or "  " in text:
        complain(language, where, f"stray spaces in {text!r}")
    if language.code == "fr" and re.search(r" [;:?!»]|« | %(?![1-9])", text):
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
    for name in keys(language, "functions", set(CATALOG), set(language.functions)):
        row, text = CATALOG[name], language.functions[name]
        for key in ("description", "domain", "source"):
            compare(language, f"{name} {key}", row[key], text.get(key, ""))
        english = {parameter["name"]: parameter["description"] for parameter in row["parameters"]}
        for parameter in keys(language, name, set(english), set(text["parameters"])):
            compare(language, f"{name} {parameter}", english[parameter], text["parameters"][parameter])


def workbooks(language):
    for key in keys(language, "workbooks", set(read(BUILD / "templates" / "texts.json")), set(language.workbooks)):
        compare(language, "workbooks", key, language.workbooks[key])


def bounds():
    """The largest number of a parameter, as the Function Wizard tells it."""
    wanted = {"en": "At most 10,000.", "de": "Höchstens 10.000.", "es": "Como máximo, 10.000.", "fr": "Au plus 10\u00a0000."}
    tree = ElementTree.parse(BUILD / "generated" / "CalcAddIns.xcu")
    name = "{http://openoffice.org/2001/registry}name"
    calories = next(node for function in tree.iter("node") if function.get(name) == "ergTime"
                    for node in function.iter("node") if node.get(name) == "calories")
    shown = {value.get("{http://www.w3.org/XML/1998/namespace}lang"): value.text
             for prop in calories if prop.get(name) == "Description" for value in prop}
    for language in (ENGLISH, *OTHERS):
        if not shown.get(language.code, "").endswith(wanted.get(language.code, "0.")):
            complain(language, "ERG.TIME", f"calories without their bound: {shown.get(language.code)!r}")


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
    for key in sorted(found - set(language.messages)):
        complain(language, "messages.json", f"no text for {key!r}")


def commands(language):
    written = sources()
    for file, texts in {"messages": language.messages, **language.commands}.items():
        for key, text in texts.items():
            if json.dumps(key, ensure_ascii=False) not in written:
                complain(language, file, f"a text that nothing uses: {key!r}")
            compare(language, file, key, text)


def pages(language):
    """The hand-written help: as many headings, lists and examples, and menu commands under the names that they have."""
    said = {text.replace("~", "").replace("\u00a0", " ").rstrip("…")
            for texts in language.commands.values() for text in texts.values()}
    for english in sorted((ENGLISH.folder / "help").glob("*.html")):
        page = language.folder / "help" / english.name
        if not page.is_file():
            complain(language, page.name, "no such page")
            continue
        text = page.read_text(encoding="utf-8")
        tags = [re.findall(r"<(/?(?:h\d|ol|ul|li|table|tr|th|td|pre))\b", t) for t in (english.read_text("utf-8"), text)]
        if tags[0] != tags[1]:
            complain(language, page.name, "other headings, lists or tables than in English")
        for command in re.findall(r"<b>Pacecells, ([^<]+)</b>", text):
            if command.replace("\u00a0", " ") not in said:
                complain(language, page.name, f"no menu command {command!r}")


for language in OTHERS:
    functions(language)
    pages(language)
    workbooks(language)
    commands(language)
    refusals(language)
bounds()
for line in wrong:
    print("WRONG", line)
print(f"{total} texts, {len(wrong)} wrong")
sys.exit(1 if wrong or not total else 0)
