#!/usr/bin/python3
"""Makes workbooks that the office saved the same in every build: repack.py FOLDER

The office writes the moment of saving into each file. Here every .ots below the folder is packed again with a fixed
date inside and out, as small as it goes; the content is left alone.
"""

import re
import sys
import zipfile
from pathlib import Path

DATE = (2020, 1, 1, 0, 0, 0)
MOMENTS = [(re.compile(rb"<(dc:date|meta:creation-date|meta:print-date)>[^<]*<"), rb"<\1>2020-01-01T00:00:00<"),
           (re.compile(rb"<meta:editing-duration>[^<]*<"), b"<meta:editing-duration>PT0S<"),
           (re.compile(rb"<meta:editing-cycles>[^<]*<"), b"<meta:editing-cycles>1<")]


def repack(path):
    with zipfile.ZipFile(path) as package:
        parts = {item.filename: package.read(item) for item in package.infolist()}
    for pattern, fixed in MOMENTS:
        parts["meta.xml"] = pattern.sub(fixed, parts["meta.xml"])
    for name in [name for name in parts if name.startswith("ObjectReplacements/")]:
        del parts[name]
        entry = rb'\s*<manifest:file-entry manifest:full-path="' + re.escape(name.encode()) + rb'"[^>]*/>'
        parts["META-INF/manifest.xml"] = re.sub(entry, b"", parts["META-INF/manifest.xml"])
    names = ["mimetype", *sorted(name for name in parts if name != "mimetype")]
    with zipfile.ZipFile(path, "w") as package:
        for name in names:
            entry = zipfile.ZipInfo(name, DATE)
            entry.compress_type = zipfile.ZIP_STORED if name == "mimetype" else zipfile.ZIP_DEFLATED
            package.writestr(entry, parts[name], compresslevel=9)


if __name__ == "__main__":
    for workbook in sorted(Path(sys.argv[1]).rglob("*.ots")):
        repack(workbook)
