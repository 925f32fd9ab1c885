"""The languages of the product: a folder of extension/texts each, and nothing else knows which there are."""

import json
from pathlib import Path

TEXTS = Path(__file__).resolve().parents[1] / "texts"


def read(path):
    return json.loads(path.read_text(encoding="utf-8")) if path.is_file() else {}


class Language:
    """The texts of one folder. English has none of its own for what is English in the sources."""

    def __init__(self, folder):
        self.folder, self.code = folder, folder.name
        self.english = self.code == "en"
        about = read(folder / "language.json")
        self.locale, self.decimal, self.thousands = about["locale"], about["decimal"], about["thousands"]
        self.at_most, self.help_words, self.wizard_words = about["at most"], about["help"], about["wizard"]
        self.same = set(about.get("same as in English", ()))
        self.functions = read(folder / "functions.json")
        self.messages = read(folder / "messages.json")
        self.workbooks = read(folder / "workbooks.json")
        self.words = read(folder / "words.json")
        self.announcement = read(folder / "announcement.json")
        self.headings = read(folder / "headings.json")
        self.commands = {file.stem: read(file) for file in sorted((folder / "commands").glob("*.json"))}

    def sentence(self, english):
        """What the commands and the model say."""
        if self.english:
            return english
        return next(texts[english] for texts in (self.messages, *self.commands.values()) if english in texts)

    def number(self, text):
        """A number written in English, as this language writes it."""
        return text.replace(".", self.decimal)

    def of_function(self, function, key):
        """The description, domain or source of a function of the catalog."""
        return function[key] if self.english else self.functions[function["name"]][key]

    def of_parameter(self, function, parameter):
        """The description of a parameter, with the largest number that it takes."""
        text = parameter["description"] if self.english else \
            self.functions[function["name"]]["parameters"][parameter["name"]]
        if not parameter["most"]:
            return text
        most = f"{parameter['most']:,}".replace(",", self.thousands)
        return f"{text} {self.at_most.replace('%1', most)}"

    def in_wizard(self, function, parameter):
        """The same for the Function Wizard, which calls every parameter of an add-in optional."""
        which = "may be left out" if parameter["optional"] else "needed"
        return f"{self.wizard_words[which]} {self.of_parameter(function, parameter)}"


def languages(folder=TEXTS):
    """English first, then by code."""
    found = [Language(file.parent) for file in sorted(Path(folder).glob("*/language.json"))]
    return sorted(found, key=lambda language: (not language.english, language.code))
