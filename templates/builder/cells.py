"""Cells, functions and number formats as formulas and the office write them."""

import re

from com.sun.star.lang import Locale


def pc(function, *arguments):
    """A call of a cell function under the name that files keep: pc("PACE.ROUND", "C3", "8")."""
    return f"ORG.PACECELLS.FUNCTIONS.{function.replace('.', '').upper()}({';'.join(str(a) for a in arguments)})"


def column(index):
    """The letters of a column counted from 0."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def number_format(document, code):
    """The key of a number format, given as English writes it, that follows the reader's own locale."""
    formats = document.NumberFormats
    if code == "General":
        return formats.getStandardIndex(Locale())
    return formats.addNewConverted(code, Locale("en", "US", ""), Locale())


def day_text(cell, pattern):
    """A date in a formula as a pattern such as DD.MM.YYYY writes it, whatever letters the reader's language has for years
    and days."""
    parts = {"YYYY": f"YEAR({cell})", "MM": f'TEXT(MONTH({cell});"00")', "DD": f'TEXT(DAY({cell});"00")'}
    pieces = [parts.get(piece, f'"{piece}"') for piece in re.findall(r"YYYY|MM|DD|[^YMD]+", pattern)]
    return f'IF(ISNUMBER({cell});{"&".join(pieces)};{cell}&"")'


def address(col, row, fixed=""):
    """A cell from 0-based places; fixed holds "c", "r" or both."""
    return ("$" if "c" in fixed else "") + column(col) + ("$" if "r" in fixed else "") + str(row + 1)


def fixed(cells):
    """Cells that stay the same in every copy of a formula: "C7" is "$C$7"."""
    return re.sub(r"([A-Z]+)([0-9]+)", r"$\1$\2", cells)


def place(cell):
    """0-based column and row of "C7"."""
    letters, row = re.fullmatch(r"\$?([A-Z]+)\$?([0-9]+)", cell).groups()
    col = 0
    for letter in letters:
        col = col * 26 + ord(letter) - 64
    return col - 1, int(row) - 1
