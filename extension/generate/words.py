#!/usr/bin/python3
"""Writes the words that cells hold, in every language, for the model to be compiled with.

    words.py FOLDER_TO_WRITE
"""

import json
import sys
from pathlib import Path

from languages import languages


def literal(text):
    return json.dumps(text, ensure_ascii=False)


def rows(known):
    """One row for each word: list, key, and the text in each language."""
    english, *others = known
    for language in others:
        if {list_: set(words) for list_, words in language.words.items()} != \
                {list_: set(words) for list_, words in english.words.items()}:
            raise SystemExit(f"texts/{language.code}/words.json has other keys than texts/en/words.json")
    for name, words in english.words.items():
        for key in words:
            texts = ", ".join(literal(language.words[name][key]) for language in known)
            yield f"{{{literal(name)}, {literal(key)}, {{{texts}}}}},\n"


def main():
    folder, known = Path(sys.argv[1]), languages()
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "word_languages.inc").write_text("".join(f"{literal(language.code)},\n" for language in known))
    (folder / "words.inc").write_text("".join(rows(known)), encoding="utf-8")


if __name__ == "__main__":
    main()
