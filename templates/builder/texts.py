"""The texts of a workbook: English is the key. `_("Round target")` gives the text in the language being built; formulas
that print words take theirs through `lit` and `say`, so that a translator finds every text in one file."""

import json
import re
from pathlib import Path

TEXTS = Path(__file__).parents[2] / "extension" / "texts"

CAUTION = ("Hard effort. Stop on chest pain, faintness or unusual pain. Screen health first (such as PAR-Q+). "
           "Newcomers, minors, people coming back and people with an injury: no goal and no maximal test. Local "
           "rules and licensed professionals come first.")


class Texts:
    """The texts of one language; English where a translation is missing."""

    def __init__(self, language="en"):
        file = TEXTS / language / "workbooks.json"
        self.language = language
        about = json.loads((TEXTS / language / "language.json").read_text(encoding="utf-8"))
        self.date = about["date"]  # such as DD.MM.YYYY
        self.known = json.loads(file.read_text(encoding="utf-8")) if file.is_file() else {}
        self.used = {}

    def __call__(self, key):
        self.used[key] = self.known.get(key, key)
        return self.used[key]

    def missing(self):
        return [] if self.language == "en" else sorted(key for key in self.used if key not in self.known)

    def lit(self, key):
        """A text as a formula writes it."""
        return quoted(self(key))

    def say(self, key, **parts):
        """A text with {places} as a formula expression: say("round {k}", k="A1") is "round "&A1."""
        pieces = []
        for piece in re.split(r"(\{\w+\})", self(key)):
            if piece.startswith("{") and piece.endswith("}"):
                pieces.append(parts[piece[1:-1]])
            elif piece:
                pieces.append(quoted(piece))
        return "&".join(pieces)


def quoted(text):
    return '"' + text.replace('"', '""') + '"'
