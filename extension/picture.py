#!/usr/bin/python3
"""Takes README's picture anew: the roster of the example event in a Calc window.

    extension/picture.py build/release        writes extension/package/roster.png

Needs xvfb and imagemagick.
"""

import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "templates"))
from office import Office, recalculate  # noqa: E402

DISPLAY, SIZE = ":87", "1500x840"


def main():
    build = Path(sys.argv[1]).resolve()
    screen = subprocess.Popen(["Xvfb", DISPLAY, "-screen", "0", f"{SIZE}x24", "-noreset"], stderr=subprocess.DEVNULL)
    try:
        time.sleep(3)
        with Office([build / "pacecells.oxt"], build / "picture", display=DISPLAY, reuse=True) as office:
            document = office.open(build / "templates" / "en" / "example-rounds.ots", hidden=False)
            recalculate(document)
            document.CurrentController.setActiveSheet(document.Sheets["Roster"])
            office.dispatch(document, ".uno:Sidebar", Sidebar=False)
            time.sleep(8)  # until all is drawn
            subprocess.run(["import", "-display", DISPLAY, "-window", "root", "-colors", "64", "-strip",
                            f"png8:{HERE / 'package' / 'roster.png'}"], check=True)
    finally:
        screen.terminate()


if __name__ == "__main__":
    main()
