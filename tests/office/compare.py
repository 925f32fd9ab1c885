"""Checks that let their case go on: reaching a state of the office costs seconds, so all that differs is told at once."""

import math
import re

failed = []  # of the case that runs; conftest.py makes it fail


def same(got, want, tolerance=1e-9):
    """Numbers within a share of the wanted one, a pattern is searched for, all else exactly and of the same type."""
    if isinstance(want, re.Pattern):
        return bool(want.search(str(got)))
    if all(isinstance(value, (int, float)) and not isinstance(value, bool) for value in (got, want)):
        return math.isclose(got, want, rel_tol=tolerance, abs_tol=1e-12)
    return type(got) is type(want) and got == want


def check(what, got, want=True, tolerance=1e-9):
    """One comparison; true if it holds."""
    good = same(got, want, tolerance)
    if not good:
        failed.append(f"{what}: got {got!r}, expected {want!r}")
    return good
