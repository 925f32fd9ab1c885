#!/usr/bin/python3
"""What a key of the heat day costs, in the real office on an X server of its own.

    heat_bench.py BUILD

How late a stamp is, alone and with other programs that want the processor; and from a key to its row: in the window,
and in the sheet with all that follows from it calculated. Uses BUILD/pacecells.oxt and BUILD/examples.
"""

import os
import statistics
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
os.environ["PACECELLS_BUILD"] = str(Path(sys.argv[1]).resolve())
sys.path[:0] = [str(ROOT / "templates"), str(ROOT / "tests" / "office")]
import sharing  # noqa: E402
from heat_kit import Day, Load, Screen, now, office  # noqa: E402

ROUNDS = 12


def line(name, values, target):
    middle, most = statistics.median(values), max(values)
    share = sum(value <= target for value in values) / len(values)
    print(f"  {name:<48}{middle:>8.1f} ms median {most:>8.1f} ms at most   within {target} ms: {100 * share:.0f}%",
          flush=True)


def until(condition):
    while not condition():
        time.sleep(0.001)
    return now()


def late(day, lanes):
    """Milliseconds from a key to the clock it got."""
    off = []
    for _ in range(ROUNDS):
        for lane, name in lanes.items():
            count = len(day.clocks(name))
            at = day.lane(lane)
            day.press("Return")  # yes, it is a round, though it is short
            until(lambda: len(day.clocks(name)) > count)
            off.append(1000 * (at - day.zero).off(day.clocks(name)[-1]))
            day.press(str(lane), shift=True)
            until(lambda: len(day.clocks(name)) == count)
    return off


def key_to_row(day, lanes):
    """Milliseconds to the cell and its results, and to what the window shows."""
    sheet, window = [], []
    for number in range(ROUNDS):
        for lane, name in lanes.items():
            row = day.row(name)
            cells = day.cells("results_clocks").getCellRangeByPosition(0, row, 39, row)
            result = day.cells("results_result").getCellByPosition(0, row)
            count, before = len(day.clocks(name)), result.String
            watched, seen = (window, lambda: f"{lane} | {name} | round {count + 2}" in day.words()) if number % 2 else (
                sheet, lambda: cells.getDataArray()[0][count] != "" and result.String != before)
            at = day.lane(lane)
            day.press("Return")
            watched.append(1000 * (until(seen) - at.early))
            day.has("in the sheet", name, count + 1)
    return sheet, window


sharing.at_work(Path(__file__))
screen = Screen()
try:
    with office(screen) as running:
        day = Day(running, screen)
        lanes = day.heat(1)
        day.zero = day.running("0:10")
        print("\nFrom a key to its row")
        sheet, window = key_to_row(day, lanes)
        line("in the window", window, 50)
        line("in the sheet, with its result", sheet, 50)
        print("\nHow late a stamp is")
        line("alone", [abs(value) for value in late(day, lanes)], 50)
        with Load():
            line("with as many busy programs as processors", [abs(value) for value in late(day, lanes)], 50)
finally:
    sharing.stop()
    screen.close()
print("\nload of the machine:", *(f"{load:.1f}" for load in os.getloadavg()))
