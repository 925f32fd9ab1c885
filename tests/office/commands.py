"""The menu commands, dispatched without windows."""

from com.sun.star.frame.DispatchResultState import SUCCESS
from languages import languages
from sharing import OXT, shared

TEXTS = {language.code: language for language in languages()}
LANGUAGES = {code: language.locale for code, language in TEXTS.items()}
PROTOCOL = "vnd.org.pacecells:"


def run(office, document, command, **arguments):
    """Dispatches a command without windows: (did it work, what it said)."""
    event = office.dispatch(document, PROTOCOL + command, Silent="true", **arguments)
    return event.State == SUCCESS, event.Result


def private_office(language="en"):
    """An office with the whole package, in that language."""
    return shared([OXT], language, language="en-US" if language == "en" else language,
                  locale=LANGUAGES.get(language, language))


def used(sheet):
    """The texts and formulas of a sheet."""
    cells = sheet.createCursor()
    cells.gotoEndOfUsedArea(False)
    end = cells.RangeAddress
    area = sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow)
    return [text for row in area.FormulaArray for text in row if text]


def swallow(what):
    """What is asked of an office that is killed meanwhile."""
    try:
        what()
    except Exception:  # the office is gone
        pass
