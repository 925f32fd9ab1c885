#!/usr/bin/env /usr/bin/python3
"""Makes the workbooks through a private office:

    templates/build.py --oxt functions.oxt --out DIR [--language en ...] [--only event]

leaves DIR/<language>/event.ots, tests.ots, wall.ots and roster.ots. DIR/texts.json lists every text they use, for the translations.
"""

import argparse
import importlib
import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "extension" / "generate"))

from event import EventBook  # noqa: E402
from languages import languages  # noqa: E402
from office import Office, save  # noqa: E402


MINUTE, HOUR = 1 / 1440, 1 / 24

# What a new event starts from.
USUAL = {
    "event_version": 1, "event_steps": 4, "event_step_s": 0.6, "event_rest_s": 3, "event_fade": 0.06, "event_push": 0.06,
    "event_goal_step": 0.5, "event_goal_step_time": 0.5 * MINUTE, "event_share": 0.75, "event_effort": 0.90,
    "event_keep": 0.10, "event_rehearsal": 0.825, "event_test_weeks": 12, "event_changeover": 5 * MINUTE,
    "event_places": 8, "event_first_start": 9 * HOUR, "wall_from": 4, "wall_to": 10, "wall_step": 0.5,
    "wall_from_time": 8 * MINUTE, "wall_to_time": 14 * MINUTE, "wall_step_time": 0.5 * MINUTE, "wall_most": 1600,
    "division_names": ["as written", "adapted", "men", "women"],
    "group_names": ["A", "B", "C", "D", "E"], "group_erg": [1.2, 1.1, 1, 0.9, 0.8],
    "group_rep": [0.85, 0.92, 1, 1.12, 1.3], "group_sets": [1.5, 1.2, 1, 0.8, 0.6],
}

KINDS = ("event", "tests", "wall", "roster")
LOCALES = {language.code: language.locale for language in languages()}


def cells(document, name):
    return document.NamedRanges.getByName(name).ReferredCells


def write(range_, values):
    """Values down a column or along a row."""
    address = range_.RangeAddress
    across = address.EndRow == address.StartRow
    for i, value in enumerate(values):
        cell = range_.getCellByPosition(i, 0) if across else range_.getCellByPosition(0, i)
        cell.setString(value) if isinstance(value, str) else cell.setValue(value)


def make_event(office, folder, language):
    book = EventBook(office, language)
    for name, value in USUAL.items():
        values = value if isinstance(value, list) else [value]
        write(cells(book.document, name), [book.texts(v) if isinstance(v, str) and len(v) > 1 else v for v in values])
    book.finish("Event")
    save(book.document, folder / "event.ots")
    book.document.close(True)
    return book.texts


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--oxt", type=Path, required=True, help="the extension with the functions")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--work", type=Path, help="folder for the private office; OUT/office if left out")
    parser.add_argument("--language", nargs="+", choices=LOCALES, default=list(LOCALES))
    parser.add_argument("--only", nargs="+", choices=KINDS, default=KINDS)
    options = parser.parse_args()
    used = set()
    for language in options.language:
        folder = options.out / language
        folder.mkdir(parents=True, exist_ok=True)
        for old in folder.glob("*.ots"):
            if old.stem not in KINDS:  # what is no longer made would stay in the package
                old.unlink()
        # In the locale of its readers: it stays in the file as the language, and as the decimals of stored texts.
        with Office([options.oxt], (options.work or options.out / "office") / language, locale=LOCALES[language],
                    reuse=True) as office:
            for kind in options.only:
                make = make_event if kind == "event" else importlib.import_module(kind).make
                texts = make(office, folder, language)
                used.update(texts.used)
                for key in texts.missing():
                    print(f"{language}: no text for {key!r}", file=sys.stderr)
    (options.out / "texts.json").write_text(json.dumps(sorted(used), ensure_ascii=False, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
