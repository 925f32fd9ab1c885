"""Counting comparisons, a test of the office closes with `sys.exit(finish())`; and small disks to be filled."""

import errno
import math
import os
import re
import subprocess
from contextlib import contextmanager

passed, failed = 0, []


def check(what, got, want=True, tolerance=1e-9):
    """One comparison: numbers within a share of the wanted one, a pattern is searched for, all else exactly."""
    global passed
    if isinstance(want, re.Pattern):
        good = bool(want.search(str(got)))
    elif all(isinstance(value, (int, float)) and not isinstance(value, bool) for value in (got, want)):
        good = math.isclose(got, want, rel_tol=tolerance, abs_tol=1e-12)
    else:
        good = type(got) is type(want) and got == want
    if good:
        passed += 1
    else:
        failed.append(what)
        print(f"FAILED {what}: got {got!r}, expected {want!r}", flush=True)
    return good


def finish():
    """The closing line; 1 where something failed or nothing was compared."""
    print(f"{passed} passed, {len(failed)} failed")
    return 1 if failed or not passed else 0


@contextmanager
def disk(folder, options):
    """A small disk mounted on a folder; False where nothing can be mounted, for only root can."""
    folder.mkdir(parents=True, exist_ok=True)
    mounted = os.geteuid() == 0 and subprocess.run(["mount", "-t", "tmpfs", "-o", options, "tmpfs", folder],
                                                   capture_output=True).returncode == 0
    try:
        yield mounted
    finally:
        if mounted:
            subprocess.run(["umount", "-l", folder], check=True)


def fill(file):
    """A file that takes all the room its disk has."""
    with open(file, "wb", buffering=0) as rest:
        try:
            while rest.write(bytes(4096)):
                pass
        except OSError as problem:
            if problem.errno != errno.ENOSPC:
                raise
