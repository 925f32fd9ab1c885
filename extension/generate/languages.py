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
        self.date = about["date"]
        self.at_most, self.left_out = about["at most"], about["left out"]
        self.help_words, self.wizard_words = about["help"], about["wizard"]
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

    def default(self, parameter):
        """What a parameter that is left out is taken as, as it is typed; None where its description says it."""
        value = parameter["left_out"]
        if value is None or isinstance(value, str):
            return value and f'"{value}"'
        if parameter["time"]:
            return f"{value // 60:.0f}:{value % 60:02.0f}"
        return self.number(f"{value:g}")

    def of_parameter(self, function, parameter):
        """The description of a parameter, with its default and the largest number that it takes."""
        text = parameter["description"] if self.english else \
            self.functions[function["name"]]["parameters"][parameter["name"]]
        default = self.default(parameter)
        if default is not None:
            text += " " + self.left_out.replace("%1", default)
        if parameter["most"]:
            text += " " + self.at_most.replace("%1", f"{parameter['most']:,}".replace(",", self.thousands))
        return text

    def in_wizard(self, function, parameter):
        """The same for the Function Wizard, which calls every parameter of an add-in optional."""
        which = "may be left out" if parameter["optional"] else "needed"
        return f"{self.wizard_words[which]} {self.of_parameter(function, parameter)}"


def languages(folder=TEXTS):
    """English first, then by code."""
    found = [Language(file.parent) for file in sorted(Path(folder).glob("*/language.json"))]
    return sorted(found, key=lambda language: (not language.english, language.code))
