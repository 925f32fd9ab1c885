#!/usr/bin/env /usr/bin/python3
"""Makes the workbooks through a private office:

    templates/build.py --oxt functions.oxt --out DIR [--language en ...] [--only event]

leaves DIR/<language>/event.ots, logbook.ots, person.ots, testday.ots, wall.ots and roster.ots. DIR/texts.json lists every text they use, for the translations.
"""

import argparse
import importlib
import json
import sys
import tempfile
import zipfile
from pathlib import Path

import uno

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "extension" / "generate"))

from languages import languages  # noqa: E402
from builder import words  # noqa: E402
from office import Office, named  # noqa: E402

THUMBNAIL = 48  # pixels wide
KINDS = ("event", "logbook", "person", "testday", "wall", "roster")
LOCALES = {language.code: language.locale for language in languages()}


def shrink_thumbnail(office, path):
    """The first sheet's picture in the list of templates, as small as it is shown: in the package each byte counts."""
    graphics = office.service("com.sun.star.graphic.GraphicProvider")
    with zipfile.ZipFile(path) as package:
        parts = {item: package.read(item) for item in package.infolist()}
    with tempfile.TemporaryDirectory() as folder:
        picture = Path(folder) / "thumbnail.png"
        thumbnail = next(item for item in parts if item.filename == "Thumbnails/thumbnail.png")
        picture.write_bytes(parts[thumbnail])
        graphic = graphics.queryGraphic(named(URL=picture.as_uri()))
        size = graphic.SizePixel
        small = uno.Any("[]com.sun.star.beans.PropertyValue",
                        named(PixelWidth=THUMBNAIL, PixelHeight=THUMBNAIL * size.Height // size.Width, Compression=9))
        graphics.storeGraphic(graphic, named(URL=picture.as_uri(), MimeType="image/png", FilterData=small))
        parts[thumbnail] = picture.read_bytes()
    with zipfile.ZipFile(path, "w") as package:
        for item, content in parts.items():
            package.writestr(item, content)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--oxt", type=Path, required=True, help="the extension with the functions")
    parser.add_argument("--catalog", type=Path, help="the catalog of functions; beside the extension if left out")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--work", type=Path, help="folder for the private office; OUT/office if left out")
    parser.add_argument("--language", nargs="+", choices=LOCALES, default=list(LOCALES))
    parser.add_argument("--only", nargs="+", choices=KINDS, default=KINDS)
    options = parser.parse_args()
    words.CATALOG = options.catalog or options.oxt.parent / "generated" / "catalog.json"
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
                texts = importlib.import_module(kind).make(office, folder, language)
                shrink_thumbnail(office, folder / f"{kind}.ots")
                used.update(texts.used)
                for key in texts.missing():
                    print(f"{language}: no text for {key!r}", file=sys.stderr)
    (options.out / "texts.json").write_text(json.dumps(sorted(used), ensure_ascii=False, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
