#!/usr/bin/python3
"""Takes the pictures of README and help again: the example event in a Calc window, its wall and its cards as printed.

    extension/picture.py build/release        writes roster.png, wall.png and card.png of extension/texts/*/help,
                                              and extension/package/roster.png

Needs xvfb, imagemagick, poppler-utils and zopfli.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent / "templates"), str(HERE / "generate")]
from examples import open_example  # noqa: E402
from languages import languages  # noqa: E402
from office import Office, recalculate  # noqa: E402

DISPLAY, WIDTH, HEIGHT = ":87", 1500, 980
INKS = ["#ffffff", "#e4e4e4", "#8c8c8c", "#262626"]  # paper, shade, lines and ink, so that a picture is small


def run(*command):
    subprocess.run([str(part) for part in command], check=True)


def draw(source, picture, *changes):
    """A picture of the help in four inks."""
    inks = ["(", *(part for ink in INKS for part in ("-size", "1x1", f"xc:{ink}")), "+append", "-write", "mpr:inks", "+delete", ")"]
    run("convert", *inks, source, *changes, "-colorspace", "Gray", "+dither", "-remap", "mpr:inks", "-strip", f"png8:{picture}")
    run("zopflipng", "-y", picture, picture)


def take_roster(office, document, picture):
    """The Calc window, drawn when two pictures in a row are the same."""
    document.CurrentController.setActiveSheet(document.Sheets[1])
    roster = document.NamedRanges.getByName("roster").ReferredCells
    hold = roster.getDataArray()[0].index("hold")
    document.CurrentController.select(roster.getCellByPosition(hold, 2))  # its formula shows
    office.dispatch(document, ".uno:Sidebar", Sidebar=False)
    before = None
    for _ in range(60):
        run("import", "-display", DISPLAY, "-window", "root", "+dither", "-colors", "64", "-strip", f"png8:{picture}")
        now = picture.read_bytes()
        if now == before:
            return
        before = now
        time.sleep(3)
    raise SystemExit(f"{picture}: the window does not come to rest")


def take_pages(office, document, work, folder):
    """The first page of the wall, and the first card of the print pack."""
    pdf = work / "pack.pdf"
    done = office.dispatch(document, "vnd.org.pacecells:print-pack", Silent="true", File=str(pdf), Overwrite="true")
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True).stdout
    name = document.NamedRanges.getByName("roster_name").ReferredCells.getCellByPosition(0, 0).String
    named = [page for page, words in enumerate(text.split("\f"), 1) if name in words]  # the heats, a card, a judge's sheet
    print(done.Result)
    for page, picture, crop, sharp in ((1, "wall", None, 64), (named[1], "card", "100%x24.7%+0+0", 90)):
        run("pdftoppm", "-png", "-r", sharp, "-f", page, "-l", page, "-singlefile", pdf, work / picture)
        cut = ["-crop", crop, "+repage"] if crop else []
        draw(work / f"{picture}.png", folder / f"{picture}.png", *cut, "-trim", "+repage", "-bordercolor", "white", "-border", 8)


def main():
    build = Path(sys.argv[1]).resolve()
    work = build / "picture"
    os.environ["SAL_USE_VCLPLUGIN"] = "gen"  # fills the screen where there is no window manager
    screen = subprocess.Popen(["Xvfb", DISPLAY, "-screen", "0", f"{WIDTH}x{HEIGHT}x24", "-noreset"],
                              stderr=subprocess.DEVNULL)
    try:
        time.sleep(3)
        for language in languages():
            folder = language.folder / "help"
            code = "en-US" if language.english else language.code
            with Office([build / "pacecells.oxt"], work / language.code, display=DISPLAY, language=code,
                        locale=language.locale) as office:
                document = open_example(office, "rounds", hidden=False)
                recalculate(document)
                take_pages(office, document, work, folder)
                window = HERE / "package" / "roster.png" if language.english else work / "roster.png"
                take_roster(office, document, window)
                draw(window, folder / "roster.png", "-crop", f"{WIDTH - 150}x300+0+134", "+repage")
    finally:
        screen.terminate()


if __name__ == "__main__":
    main()
