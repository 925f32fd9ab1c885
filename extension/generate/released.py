#!/usr/bin/python3
"""Holds names.lock to the catalog: which names have been released, and may never change.

    released.py build/release/generated/catalog.json            fails where the catalog has a name that is not in it
    released.py build/release/generated/catalog.json --write    adds them
"""

import json
import sys
from pathlib import Path

LOCK = Path(__file__).with_name("names.lock")

catalog = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
released = LOCK.read_text(encoding="utf-8").splitlines()
new = [name for name in (f"{function['method']} {function['name']}" for function in catalog["functions"])
       if name not in released]
if "--write" in sys.argv:
    LOCK.write_text("\n".join(released + new) + "\n", encoding="utf-8")
elif new:
    sys.exit(f"Not in {LOCK.name}: {', '.join(new)}. Run this with --write and commit it.")
