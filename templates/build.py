#!/usr/bin/env /usr/bin/python3
"""Makes the workbooks through a private office:

    templates/build.py --oxt functions.oxt --out DIR [--language en ...] [--only event]

leaves DIR/<language>/event.ots and the example events as example-*.ots. DIR/texts.json lists every text they
use, for the translations.
"""

import argparse
import datetime
import importlib
import json
import random
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

import examples  # noqa: E402
from event import EventBook, fit_prints  # noqa: E402
from office import Office, save  # noqa: E402


LOCALES = {"en": "en-US", "de": "de-DE", "es": "es-ES", "fr": "fr-FR"}


def cells(document, name):
    return document.NamedRanges.getByName(name).ReferredCells


def write(range_, values):
    """Values down a column or along a row; None leaves a cell empty, a string stays a text."""
    address = range_.RangeAddress
    across = address.EndRow == address.StartRow
    for i, value in enumerate(values):
        if value is not None:
            cell = range_.getCellByPosition(i, 0) if across else range_.getCellByPosition(0, i)
            cell.setString(value) if isinstance(value, str) else cell.setValue(value)


def day(*date):
    return (datetime.date(*date) - datetime.date(1899, 12, 30)).days


def choice(document, name, index):
    """A word from a list, in the language of the workbook."""
    return cells(document, name).getCellByPosition(0, index).String


def fill_event(document, event, texts):
    """Fills the sheet Event; what the event does not say is left as it is."""
    for name, value in event.items():
        if name == "stations":
            continue
        if name == "event_date":
            value = day(*value)
        elif name == "event_format":
            value = choice(document, "list_format", value)
        elif isinstance(value, str):
            value = texts(value)
        target = cells(document, name)
        write(target, [texts(v) if isinstance(v, str) and len(v) > 1 else v for v in value]
              if isinstance(value, list) else [value])
    for row, station in enumerate(event.get("stations", ())):
        movement, unit, when, change, amounts, loads, *rest = station
        for name, value in zip(("movements", "units", "when", "change"),
                               (texts(movement), unit, None if when is None else choice(document, "list_when", when), change)):
            write(cells(document, f"station_{name}").getCellRangeByPosition(0, row, 0, row), [value])
        write(cells(document, "station_amounts").getCellRangeByPosition(0, row, 5, row), amounts)
        write(cells(document, "station_loads").getCellRangeByPosition(0, row, 5, row), loads)
        for name, value in zip(("rep_s", "calh", "pace", "handling", "next", "grip", "longest", "counts"), rest):
            if name == "grip" and value:
                value = choice(document, "list_yes", 0)
            write(cells(document, f"station_{name}").getCellRangeByPosition(0, row, 0, row), [value])


def fill_roster(document, people, event, texts):
    """Athletes and their tests on the machine of the event's first calorie station."""
    machine = next((s[1].split()[0] for s in event["stations"] if s[1].endswith("cal")), "row")
    moves = [s for s in event["stations"] if s[1] == "rep"]
    names = cells(document, "division_names")
    for name, value in (
            ("name", [p["name"] for p in people]),
            ("division", [names.getCellByPosition(p["division"], 0).String for p in people]),
            ("status", [None if p["status"] is None else choice(document, "list_status", p["status"]) for p in people]),
            ("group", [None if p["group"] is None else choice(document, "group_names", p["group"]) for p in people])):
        write(cells(document, f"roster_{name}"), value)
    for k, station in enumerate(moves):
        write(cells(document, "tests_movements").getCellRangeByPosition(3 * k, 0, 3 * k, 0), [texts(station[0])])
    today, row = day(*event["event_date"]), 0
    for person in people:
        if person["kind"] is None or person["status"] is not None:
            continue
        block = cells(document, f"tests_{machine}").getCellRangeByPosition(0, row, 5, row)
        days = person["days"] + (120 if person["kind"] == "old" else 0)
        if person["kind"] == "one":
            rate = 300 + 4 * 0.8604 * person["power"] * 1.12
            values = [None, None, today - days, 300 / 86400, round(rate * 300 / 3600)]
        else:
            values = [person["power"], person["reserve"], today - days, None, None,
                      person["effort"] if person["kind"] == "fitted" else None]
        write(cells(document, "tests_name").getCellRangeByPosition(0, row, 0, row), [person["name"]])
        write(block, values)
        for k, station in enumerate(moves):
            write(cells(document, "tests_sets").getCellRangeByPosition(3 * k, row, 3 * k, row),
                  [round(station[12] * person["longest"])])
            if station[5] and k % 2 == 0 and person["kind"] != "old":
                write(cells(document, "tests_sets").getCellRangeByPosition(3 * k + 1, row, 3 * k + 1, row),
                      [person["strength"]])
        row += 1


def fill_day(document, event, seed=5):
    """The event as it might have gone: round clocks around each plan, slower towards the end."""
    dice = random.Random(seed)
    people = list(zip(*(column_of(document, name) for name in
                        ("roster_name", "roster_status", "roster_division", "day_target", "a_goal_rounds", "a_goal_clock"))))
    cap = event["event_cap"]
    chosen = None
    for row, (name, status, division, target, rounds, clock) in enumerate(people):
        if not name or status == choice(document, "list_status", 4):
            continue
        mean = clock / rounds if rounds else cap / 5.5
        goal = rounds or 5
        weights = [column_of(document, "work_all", True)[k] or 1 for k in range(40)] if event["event_format"] else [1] * 40
        total = sum(weights[:int(goal)]) + (goal % 1) * weights[int(goal)]
        slow, now, clocks = 1 + 0.04 * dice.gauss(0.2, 1), 0.0, []
        limit = event.get("event_rounds", 40) if event["event_format"] == 1 else 40
        for k in range(limit):
            drift = 0.10 * (k / max(1, goal - 1) - 0.5)
            now += mean * goal * weights[k] / total * slow * (1 + drift) * (1 + 0.015 * dice.gauss(0, 1))
            if now > cap:
                break
            clocks.append(round(now * 86400) / 86400)
        write(cells(document, "day_clocks").getCellRangeByPosition(0, row, 39, row), clocks)
        if event["event_format"] == 1:
            if len(clocks) == limit:
                write(cells(document, "day_finish").getCellRangeByPosition(0, row, 0, row), [clocks[-1]])
            else:
                write(cells(document, "day_left").getCellRangeByPosition(0, row, 0, row), [5 + dice.randrange(25)])
        else:
            write(cells(document, "day_partial").getCellRangeByPosition(0, row, 0, row), [dice.randrange(1, 18)])
        if len(clocks) > 2:
            write(cells(document, "day_tiebreak").getCellRangeByPosition(0, row, 0, row), [clocks[2]])
        if status == "" and chosen is None:
            chosen = name
    for name in ("review_athlete", "layout_athlete"):
        write(cells(document, name), [chosen])


def fill_season(document, event, texts, seed=3):
    """Three events behind the athletes of the roster, a few of them missed."""
    dice = random.Random(seed)
    people = [(name, division) for name, division in zip(column_of(document, "roster_name"), column_of(document, "roster_division")) if name]
    write(cells(document, "season_names"), [name for name, _ in people])
    write(cells(document, "season_divisions"), [division for _, division in people])
    for k, (title, order, mean, spread) in enumerate(((texts("Tide Table"), 0, 240, 30), (texts("Long Pier"), 1, 15.5 / 1440, 1.2 / 1440),
                                                      (texts("Stair Well"), 0, 190, 25))):
        write(cells(document, "season_titles").getCellRangeByPosition(2 * k, 0, 2 * k, 0), [title])
        write(cells(document, "season_order").getCellRangeByPosition(2 * k, 0, 2 * k, 0), [choice(document, "list_order", order)])
        values = [mean + spread * dice.gauss(0, 1) for _ in people]
        values = [round(v) if order == 0 else round(v * 86400) / 86400 for v in values]
        write(cells(document, f"season_results_{k + 1}"), [None if dice.random() < 0.12 else v for v in values])


def column_of(document, name, across=False):
    data = cells(document, name).getDataArray()
    return list(data[0]) if across else [row[0] for row in data]


def make_event(office, folder, language):
    book = EventBook(office, language)
    document, texts = book.document, book.texts
    fill_event(document, examples.DEFAULTS, texts)
    book.finish("Event")
    save(document, folder / "event.ots")
    document.close(True)
    for name, title, event in (("rounds", "Example: as many rounds as possible", examples.ROUNDS),
                               ("time", "Example: for time with a cap", examples.TIME),
                               ("ladder", "Example: ladder", examples.LADDER)):
        document = office.open(folder / "event.ots", hidden=False)  # hidden, it would lose its frozen panes
        fill_event(document, event, texts)
        fill_roster(document, examples.athletes(), event, texts)
        document.calculateAll()
        fill_day(document, event)
        fill_season(document, event, texts)
        fit_prints(document)
        document.DocumentProperties.Title = texts(title)
        document.calculateAll()
        save(document, folder / f"example-{name}.ots")
        document.close(True)
    return texts


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--oxt", type=Path, required=True, help="the extension with the functions")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--work", type=Path, help="folder for the private office; OUT/office if left out")
    parser.add_argument("--language", nargs="+", choices=LOCALES, default=list(LOCALES))
    parser.add_argument("--only", nargs="+", choices=("event", "tests", "wall"), default=["event", "tests", "wall"])
    options = parser.parse_args()
    used = set()
    for language in options.language:
        folder = options.out / language
        folder.mkdir(parents=True, exist_ok=True)
        # In the locale of its readers: it stays in the file as the language, and as the decimals of stored texts.
        with Office([options.oxt], (options.work or options.out / "office") / language, locale=LOCALES[language],
                    reuse=True) as office:
            for kind in options.only:
                if kind == "event":
                    texts = make_event(office, folder, language)
                elif (Path(__file__).parent / f"{kind}.py").is_file():
                    texts = importlib.import_module(kind).make(office, folder, language)
                else:
                    continue
                used.update(texts.used)
                for key in texts.missing():
                    print(f"{language}: no text for {key!r}", file=sys.stderr)
    (options.out / "texts.json").write_text(json.dumps(sorted(used), ensure_ascii=False, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
