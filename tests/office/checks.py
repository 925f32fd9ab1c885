"""Counting comparisons; a test of the office closes with `sys.exit(finish())`."""

import math

passed, failed = 0, []


def check(what, got, want=True, tolerance=1e-6):
    """One comparison: numbers within a share of the wanted one, all else exactly."""
    global passed
    if isinstance(want, float) and isinstance(got, (int, float)):
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
