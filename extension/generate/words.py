#!/usr/bin/python3
"""Writes the words that cells hold and those of announcements, in every language, for the model to be compiled with.

    words.py FOLDER_TO_WRITE
"""

import json
import sys
import unicodedata
from pathlib import Path

from languages import languages


def literal(text):
    return json.dumps(text, ensure_ascii=False)


def same_keys(known, file, texts):
    """Every language has the same lists and keys in a file."""
    english, *others = ({list_: set(words) for list_, words in texts(language).items()} for language in known)
    for language, keys in zip(known[1:], others):
        if keys != english:
            raise SystemExit(f"texts/{language.code}/{file} has other keys than texts/en/{file}")


def rows(known):
    """One row for each word: list, key, and the text in each language."""
    same_keys(known, "words.json", lambda language: language.words)
    for name, words in known[0].words.items():
        for key in words:
            texts = ", ".join(literal(language.words[name][key]) for language in known)
            yield f"{{{literal(name)}, {literal(key)}, {{{texts}}}}},\n"


def typed(spelling):
    """As it is spelled, and as people type it who have no key for its accents."""
    bare = "".join(c for c in unicodedata.normalize("NFD", spelling) if not unicodedata.combining(c))
    spread = spelling.translate(str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"}))
    return dict.fromkeys((spelling, bare, spread))


def spellings(known):
    """One line for each thing that announcements name: list, key, place of the language, spellings, with tabs between."""
    same_keys(known, "announcement.json", lambda language: language.announcement)
    for place, language in enumerate(known):
        for name, keys in language.announcement.items():
            for key, texts in keys.items():
                ways = (one for spelling in texts for one in typed(spelling))
                yield literal("\t".join((name, key, str(place), *ways)) + "\n") + "\n"


def main():
    folder, known = Path(sys.argv[1]), languages()
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "word_languages.inc").write_text("".join(f"{literal(language.code)},\n" for language in known))
    (folder / "words.inc").write_text("".join(rows(known)), encoding="utf-8")
    (folder / "announcement.inc").write_text("".join(spellings(known)), encoding="utf-8")


if __name__ == "__main__":
    main()
