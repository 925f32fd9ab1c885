#!/usr/bin/python3
"""What a logbook of years costs: 500 people, 10,000 tests and 200 events of 24 people.

    logbook_bench.py BUILD

Uses BUILD/pacecells.oxt and BUILD/examples. Each figure is the best of three, through the command as the menu has it.
"""

import datetime
import os
import random
import shutil
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "templates"), str(ROOT / "tests" / "office"), str(ROOT / "extension" / "generate")]
from office import Office, named  # noqa: E402, I001  (makes com.sun.star importable)
from commands import run  # noqa: E402

BUILD = Path(sys.argv[1]).resolve()
PEOPLE, TESTS, EVENTS, IN_EVENT = 500, 10_000, 200, 24
TODAY = (datetime.date.today() - datetime.date(1899, 12, 30)).days


def fill(book, table, rows):
    cells = book.NamedRanges.getByName(f"logbook_{table}").ReferredCells
    keys = cells.getDataArray()[0]
    data = tuple(tuple(row.get(key, "") for key in keys) for row in rows)
    cells.getCellRangeByPosition(0, 2, len(keys) - 1, 1 + len(data)).setDataArray(data)


def person(place):
    return f"Person {chr(65 + place % 26)}{chr(97 + place // 26 % 26)}rig Number{place}"


def made(office, file):
    """The logbook as a file."""
    chance = random.Random(7)
    done, said = run(office, office.new(), "new-logbook", File=str(file), Another="true")
    assert done, said
    book = office.open(file)
    fill(book, "people", [{"name": person(k), "division": ("as written", "scaled")[k % 2], "group": "ABCDE"[k % 5]} for k in range(PEOPLE)])
    machine = lambda: {"what": chance.choice(("Rower", "Ski", "Bike")), "time": chance.choice((3, 5, 10)) / 1440, "watts": float(chance.randint(150, 320))}
    movement = lambda: {"what": chance.choice(("Pull-up", "Thruster", "Deadlift")), "reps": float(chance.randint(5, 30))}
    fill(book, "tests", [{"name": person(k % PEOPLE), "date": float(TODAY - chance.randint(1, 2000)),
                          **(machine() if k % 2 else movement())} for k in range(TESTS)])
    days = [float(TODAY - 7 * (EVENTS - k)) for k in range(EVENTS)]
    fill(book, "events", [{"date": day, "event": f"Event {k}", "cap": 17 / 1440, "people": float(IN_EVENT)} for k, day in enumerate(days)])
    fill(book, "results", [{"name": person((k * 7 + lane) % PEOPLE), "date": days[k], "event": f"Event {k}", "result": "6+14", "score": 170.0 + lane,
                            "place": lane + 1.0, "low": 150.0, "planned": 171.0 + lane, "high": 190.0, "clocks": "2:48 5:37 8:25 11:13 14:02 16:50",
                            "goal": "6"} for k in range(EVENTS) for lane in range(IN_EVENT)])
    book.store()
    book.close(True)


def best(work, prepare=lambda: None):
    taken = []
    for _ in range(3):
        prepared = prepare()
        start = time.perf_counter()
        finish = work(prepared)
        taken.append(time.perf_counter() - start)
        finish()
    return min(taken)


def line(name, value, unit, target):
    print(f"  {name:<40}{value:>8.2f} {unit:<4} below {target}  {'met' if value < target else 'MISSED'}", flush=True)


def close_new(office, before):
    for document in list(office.desktop.Components):
        if document.RuntimeUID not in before:
            document.close(True)


def main():
    folder = BUILD / "bench-logbook"
    shutil.rmtree(folder / "files", ignore_errors=True)
    (folder / "files").mkdir(parents=True)
    file = folder / "files" / "Logbook.ods"
    with Office([BUILD / "pacecells.oxt"], folder, reuse=True, limit=1200) as office:
        made(office, file)
        print(f"A logbook of {PEOPLE} people, {TESTS} tests and {EVENTS} events")
        line("file", file.stat().st_size / 1e6, "MB", 1)

        def opened(_):
            book = office.desktop.loadComponentFromURL(file.as_uri(), "_blank", 0, named(Hidden=True))
            return lambda: book.close(True)

        def new_event(document):
            done, said = run(office, document, "new-event", People="last", Movement1="Pull-up", Unit1="rep", Amount1="5")
            assert done, said
            return lambda: close_new(office, set())

        def results(event):
            done, said = run(office, event, "results-to-logbook")
            assert done and said.startswith("23 new"), said
            return lambda: close_new(office, set())

        def event():
            shutil.copy(folder / "files" / "kept.ods", file)
            document = office.open(BUILD / "examples" / "rounds.ots", AsTemplate=True)
            document.calculateAll()
            return document

        line("open it", best(opened), "s", 1)
        line("a new event from it", best(new_event, office.new), "s", 1)
        shutil.copy(file, folder / "files" / "kept.ods")
        line("results back into it, copy and all", best(results, event), "s", 1)
    print(f"Load of the machine: {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
