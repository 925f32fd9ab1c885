#!/usr/bin/python3
"""Writes the registration of bench.idl's methods and zips the benchmark's extension: package.py LIBRARY TYPES OXT."""

import re
import sys
import zipfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
COMPONENTS = "application/vnd.sun.star.uno-components"
MANIFEST = {"bench.rdb": "application/vnd.sun.star.uno-typelibrary;type=RDB",
            "bench.components": f"{COMPONENTS};platform=Linux_x86_64",
            "python.components": COMPONENTS,
            "CalcAddIns.xcu": "application/vnd.sun.star.configuration-data"}


def registration():
    services = []
    for interface, body in re.findall(r"interface X(\w+) .*?\{(.*?)\n\};", (HERE / "bench.idl").read_text(), re.S):
        functions = []
        for method, arguments in re.findall(r"any (\w+)\((.*?)\);", body, re.S):
            shown = "".join(f'<node oor:name="{name}" oor:op="replace"><prop oor:name="DisplayName"><value xml:lang="en">'
                            f'{name}</value></prop></node>' for name in re.findall(r"any (\w+)", arguments))
            functions.append(f'<node oor:name="{method}" oor:op="replace"><prop oor:name="DisplayName">'
                             f'<value xml:lang="en">{method.upper()}</value></prop><prop oor:name="Category">'
                             f'<value>Add-In</value></prop><node oor:name="Parameters">{shown}</node></node>')
        services.append(f'<node oor:name="org.pacecells.bench.{interface}" oor:op="replace">'
                        f'<node oor:name="AddInFunctions">{"".join(functions)}</node></node>')
    return ('<?xml version="1.0" encoding="UTF-8"?>\n<oor:component-data xmlns:oor="http://openoffice.org/2001/registry"'
            ' xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="CalcAddIns" oor:package="org.openoffice.Office">'
            f'<node oor:name="AddInInfo">{"".join(services)}</node></oor:component-data>\n')


def main():
    library, types, oxt = sys.argv[1:]
    with zipfile.ZipFile(oxt, "w") as package:
        entries = "".join(f'<manifest:file-entry manifest:full-path="{name}" manifest:media-type="{kind}"/>'
                          for name, kind in MANIFEST.items())
        package.writestr("META-INF/manifest.xml", '<?xml version="1.0" encoding="UTF-8"?>\n<manifest:manifest'
                         f' xmlns:manifest="http://openoffice.org/2001/manifest">{entries}</manifest:manifest>\n')
        package.writestr("CalcAddIns.xcu", registration())
        package.writestr("description.xml", '<?xml version="1.0" encoding="UTF-8"?>\n<description'
                         ' xmlns="http://openoffice.org/extensions/description/2006">'
                         '<identifier value="org.pacecells.bench"/><version value="1.0"/></description>\n')
        package.write(types, "bench.rdb")
        package.write(library, "libnothing.so")
        for name in ("bench.components", "python.components", "models.py"):
            package.write(HERE / name, name)


if __name__ == "__main__":
    main()
