#!/usr/bin/python3
"""Takes README's picture anew: the roster of the example event in a Calc window.

    extension/picture.py build/release        writes extension/package/roster.png

Needs xvfb and imagemagick.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "templates"))
from examples import open_example  # noqa: E402
from office import Office, recalculate  # noqa: E402

DISPLAY, WIDTH, HEIGHT = ":87", 1500, 980


def main():
    build = Path(sys.argv[1]).resolve()
    os.environ["SAL_USE_VCLPLUGIN"] = "gen"  # fills the screen where there is no window manager
    screen = subprocess.Popen(["Xvfb", DISPLAY, "-screen", "0", f"{WIDTH}x{HEIGHT}x24", "-noreset"],
                              stderr=subprocess.DEVNULL)
    try:
        time.sleep(3)
        with Office([build / "pacecells.oxt"], build / "picture", display=DISPLAY) as office:
            document = open_example(office, "rounds", hidden=False)
            recalculate(document)
            document.CurrentController.setActiveSheet(document.Sheets["Roster"])
            roster = document.NamedRanges.getByName("roster").ReferredCells
            hold = roster.getDataArray()[0].index("hold")
            document.CurrentController.select(roster.getCellByPosition(hold, 2))  # its formula shows
            office.dispatch(document, ".uno:Sidebar", Sidebar=False)
            time.sleep(20)  # until all is drawn, on a busy machine too
            subprocess.run(["import", "-display", DISPLAY, "-window", "root", "+dither",
                            "-colors", "64", "-strip", f"png8:{HERE / 'package' / 'roster.png'}"], check=True)
    finally:
        screen.terminate()


if __name__ == "__main__":
    main()
