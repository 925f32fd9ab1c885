#!/usr/bin/python3
"""How soon the windows of the commands open, from the last key of the menu, on an X server of their own.

    windows_bench.py BUILD

Uses BUILD/pacecells.oxt.
"""

import os
import statistics
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
os.environ["PACECELLS_BUILD"] = str(Path(sys.argv[1]).resolve())
os.environ["SAL_USE_VCLPLUGIN"] = "gen"
sys.path[:0] = [str(ROOT / "templates"), str(ROOT / "tests" / "office")]
import sharing  # noqa: E402
from heat_kit import Screen  # noqa: E402
from office import enter  # noqa: E402
from windows_kit import WINDOWS, Calc  # noqa: E402

ROUNDS, TARGET = 6, 300

sharing.at_work(Path(__file__))
screen = Screen()
try:
    with sharing.shared([sharing.OXT], display=screen.name) as office:
        calc = Calc(screen.name, office, "en-US", 1, sharing.folder_of(__file__))
        cell = calc.document.Sheets[0]["D5"]
        enter(cell, '=PACE.ROUND("18:00";8)')
        calc.document.CurrentController.select(cell)
        print("\nFrom a key to a window, which was open before")
        for title, keys in (languages["en-US"] for languages in WINDOWS.values()):
            taken = []
            for _ in range(ROUNDS):
                taken.append(1000 * calc.wait(title, since=calc.choose(keys)))
                calc.keys("Escape")
                calc.wait(title, there=False)
            middle, most = statistics.median(taken[1:]), max(taken[1:])
            print(f"  {title:<48}{middle:>8.1f} ms median {most:>8.1f} ms at most   target {TARGET} ms: "
                  f"{'met' if most <= TARGET else 'missed'}", flush=True)
finally:
    sharing.stop()
    screen.close()
