#!/usr/bin/python3
"""Makes workbooks that the office saved the same in every build: repack.py FOLDER

The office writes the moment of saving into each file. Here every .ots below the folder is packed again with a fixed
date inside and out, as small as it goes, without the styles that nothing in it uses; of the content only what the
office calculates when it opens the file, the moment and the day, is the fixed one too.
"""

import re
import sys
import zipfile
from pathlib import Path

DATE = (2020, 1, 1, 0, 0, 0)
MOMENTS = [(re.compile(rb"<(dc:date|meta:creation-date|meta:print-date)>[^<]*<"), rb"<\1>2020-01-01T00:00:00<"),
           (re.compile(rb"<meta:editing-duration>[^<]*<"), b"<meta:editing-duration>PT0S<"),
           (re.compile(rb"<meta:editing-cycles>[^<]*<"), b"<meta:editing-cycles>1<")]
PRINTED = re.compile(rb'text:date-value="[^"]*"')  # below a page
NOW = re.compile(rb'(table:formula="of:=(?:NOW|(TODAY))\(\)"[^>]* office:date-value=")[^"]*("[^>]*><text:p>)([^<]*)(?=</text:p>)')
CALCULATED = re.compile(rb'<table:table-cell [^>]*table:formula="[^>]*(?<!/)>.*?</table:table-cell>', re.S)

# Pictures of charts, which are drawn anew, empty folders, and what says nothing: when a chart was made, that it has no
# styles of its own, and that the parts of the file are its parts.
LEFT_OUT = re.compile(r"ObjectReplacements/|Configurations2/|\w+/(meta|styles)\.xml$|manifest\.rdf$")
ENTRY = re.compile(rb'\s*<manifest:file-entry manifest:full-path="([^"]*)"[^>]*/>')
STYLE = re.compile(rb'<(style:style|number:[a-z]+-style) style:name="([^"]+)"[^>]*?(?:/>|>.*?</\1>)', re.S)
LATER = {b"pace-not-used"}  # a command gives it to cells


def without_unused_styles(parts):
    """What styles.xml has after the styles are gone that no cell, condition or other style names."""
    styles = parts["styles.xml"]
    content = b"".join(part for name, part in parts.items() if name.endswith("content.xml"))
    while True:
        named = re.findall(rb' (?!style:name|style:display-name)[a-z:-]+="([^"]*)"', content + styles)
        used = {name.replace(b" ", b"_20_") for name in named} | LATER
        fewer = STYLE.sub(lambda style: style[0] if style[2] in used else b"", styles)
        if fewer == styles:
            return styles
        styles = fewer


def with_fixed_day(content):
    """The content with the fixed date in cells that have the moment or the day, and in what formulas made of that day."""
    days = {shown for _, today, _, shown in NOW.findall(content) if today}
    content = NOW.sub(rb"\g<1>2020-01-01\g<3>2020-01-01", content)
    for day in days:
        content = CALCULATED.sub(lambda cell, day=day: cell[0].replace(day, b"2020-01-01"), content)
    return content


def repack(path):
    with zipfile.ZipFile(path) as package:
        parts = {item.filename: package.read(item) for item in package.infolist()}
    for pattern, fixed in MOMENTS:
        parts["meta.xml"] = pattern.sub(fixed, parts["meta.xml"])
    parts["content.xml"] = with_fixed_day(parts["content.xml"])
    parts["styles.xml"] = PRINTED.sub(b'text:date-value="2020-01-01"', without_unused_styles(parts))
    parts = {name: part for name, part in parts.items() if not LEFT_OUT.match(name)}
    parts["META-INF/manifest.xml"] = ENTRY.sub(lambda entry: b"" if LEFT_OUT.match(entry[1].decode()) else entry[0],
                                               parts["META-INF/manifest.xml"])
    names = ["mimetype", *sorted(name for name in parts if name != "mimetype")]
    with zipfile.ZipFile(path, "w") as package:
        for name in names:
            entry = zipfile.ZipInfo(name, DATE)
            entry.compress_type = zipfile.ZIP_STORED if name == "mimetype" else zipfile.ZIP_DEFLATED
            package.writestr(entry, parts[name], compresslevel=9)


if __name__ == "__main__":
    for workbook in sorted(Path(sys.argv[1]).rglob("*.ots")):
        repack(workbook)
