#!/usr/bin/python3
"""Writes everything that follows from the catalog and the texts.

    write.py --catalog catalog.json --package extension/package --version 1.0.0 --out build/release/generated

The catalog is what the program `generate` leaves. Nothing written here is edited or committed. A file that would not
change is left alone, so that a new translation does not build the interface again.
"""

import argparse
import json
import shutil
from pathlib import Path

import help_pages
import interface
import registration
import sentences
from languages import languages


def write(path, content):
    data = content if isinstance(content, bytes) else content.encode("utf-8")
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.is_file() or path.read_bytes() != data:
        path.write_bytes(data)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for option in ("--catalog", "--package", "--out"):
        parser.add_argument(option, type=Path, required=True)
    parser.add_argument("--version", required=True)
    options = parser.parse_args()
    catalog, known = json.loads(options.catalog.read_text(encoding="utf-8")), languages()
    functions = catalog["functions"]
    rows = sentences.table(functions, known)

    write(options.out / "functions.idl", interface.idl(functions))
    write(options.out / "methods.inc", interface.methods(functions))
    write(options.out / "functions.md", interface.markdown(functions))
    write(options.out / "languages.inc", sentences.languages_inc(known))
    write(options.out / "headings.inc", sentences.headings_inc(known))
    write(options.out / "texts.inc", sentences.texts_inc(rows))
    write(options.out / "translations.inc", sentences.translations_inc(rows, known))
    write(options.out / "CalcAddIns.xcu", registration.functions(functions, known))
    write(options.out / "Addons.xcu", registration.menu(catalog["menu"], rows))
    write(options.out / "description.xml",
          registration.description(options.package / "description.xml", options.version, known))

    folder = options.out / "help"
    pages = help_pages.pages(functions, catalog["menu"]["items"], known)
    for old in folder.glob("*/*.*"):  # the page of a function that is gone goes too
        if str(old.relative_to(folder)) not in pages:
            old.unlink()
    for old in folder.glob("*/"):
        if old.is_dir() and not any(old.iterdir()):
            shutil.rmtree(old)
    for name, page in pages.items():
        write(folder / name, page)


if __name__ == "__main__":
    main()
