"""What the extension says at run time, in every language: one table, by the English sentence."""

import json


def of_language(functions, language):
    """Where each sentence is, the English sentence, and its translation."""
    for english, text in language.messages.items():
        yield "messages.json", english, text
    for command, texts in language.commands.items():
        for english, text in texts.items():
            yield f"commands/{command}.json", english, text
    for function in functions:
        for key in ("domain", "source"):
            yield "functions.json", function[key], language.of_function(function, key)


def missing(functions, language):
    """The texts of functions that a language lacks."""
    for function in functions:
        texts = language.functions.get(function["name"], {})
        for key in ("description", "domain", "source"):
            if not texts.get(key):
                yield f"{function['name']}: {key}"
        for parameter in function["parameters"]:
            if not texts.get("parameters", {}).get(parameter["name"]):
                yield f"{function['name']}: {parameter['name']}"


def table(functions, languages):
    """English -> code -> text. Fails where a language lacks a text or has it twice, and differently."""
    rows = {}
    others = [language for language in languages if not language.english]
    lacking = [f"texts/{language.code}/functions.json: nothing for {what}"
               for language in others for what in missing(functions, language)]
    if lacking:
        raise SystemExit("\n".join(lacking))
    for language in others:
        for file, english, text in of_language(functions, language):
            known = rows.setdefault(english, {}).setdefault(language.code, text)
            if known != text:
                raise SystemExit(f"texts/{language.code}/{file}: {english!r} is {known!r} in another place")
    for english, texts in rows.items():
        for language in others:
            if not texts.get(language.code):
                raise SystemExit(f"texts/{language.code}: no text for {english!r}")
    return rows


def literal(text):
    return json.dumps(text, ensure_ascii=False)


def in_order(rows):
    """The English texts, sorted by their bytes."""
    return sorted(rows, key=str.encode)


def texts_inc(rows):
    """The English texts for the compiler, which looks up each sentence of a command."""
    return "".join(f"{literal(english)},\n" for english in in_order(rows))


def translations_inc(rows, languages):
    """The same rows, English among them, as one text per language: a table of them would need an address for each."""
    lines = []
    for language in languages:
        for english in in_order(rows):
            text = english if language.english else rows[english][language.code]
            lines.append(f"{literal(text)} \"\\0\"\n")
        lines.append(",\n")
    return "".join(lines)


def headings_inc(languages):
    """Every spelling of a column's heading by its key, longer ones first."""
    english = languages[0]
    for language in languages:
        if set(language.headings) != set(english.headings):
            raise SystemExit(f"texts/{language.code}/headings.json has other keys than texts/en/headings.json")
    lines = []
    for key in english.headings:
        spellings = {spelling for language in languages for spelling in language.headings[key]}
        for spelling in sorted(spellings, key=lambda spelling: (-len(spelling), spelling)):
            lines.append(f"{{{literal(key)}, {literal(spelling)}}},\n")
    return "".join(lines)


def languages_inc(languages):
    return "".join(f"{{{literal(language.code)}, {literal(language.decimal)}, {literal(language.date)}}},\n" for language in languages)
