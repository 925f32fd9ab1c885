"""The event workbook opened again and again in one office: memory stays flat.

Each opening is calculated and closed, as a gym does that leaves the office open for weeks. What the office keeps for good
comes with the first of them. A release opens it a thousand times (tests/long-runs, PACECELLS_OPENINGS).
"""

import os
from itertools import pairwise
from statistics import median

from office import result
from sharing import BUILD, OXT, shared
from storm_test import memory

OPENINGS = int(os.environ.get("PACECELLS_OPENINGS", 30))
SAMPLES = 10
GROWTH = 0.02  # MiB an opening may leave for good
SWAY = 1  # MiB between two samples, by which the allocator gives memory back or does not


def sizes_of(office, calculated):
    """MiB of the office after every tenth part of the openings."""
    office.watch(300 + 3 * OPENINGS)
    sizes = []
    for number in range(1, OPENINGS + 1):
        document = office.open(BUILD / "examples" / "rounds.ots")
        aim = document.NamedRanges.getByName("roster_rank").ReferredCells.getCellByPosition(0, 0)
        assert isinstance(result(aim), float) or not calculated
        document.close(True)
        if number % max(1, OPENINGS // SAMPLES) == 0:
            sizes.append(memory(office))
    assert min(sizes) > 50, "it was measured"
    return sizes


def growth(sizes):
    """MiB an opening, of the later half: the usual step between two samples, for the office's allocator makes a leap at times."""
    later = sizes[len(sizes) // 2 - 1:]
    return median(b - a for a, b in pairwise(later)) / max(1, OPENINGS // SAMPLES)


def test_memory_stays_flat(record_property):
    """Where it grows, it grows as much in the office alone: 25.2.3 keeps 0.3 MiB of each opening, with the extension or not."""
    with shared([OXT]) as office:
        sizes = sizes_of(office, calculated=True)
    told = f"{OPENINGS} openings of the event workbook, MiB after each {OPENINGS // SAMPLES}: " + ", ".join(f"{size:.0f}" for size in sizes)
    usual = 0.0
    bound = GROWTH + SWAY / max(1, OPENINGS // SAMPLES)
    if growth(sizes) > bound:
        with shared([], "bare") as alone:
            bare = sizes_of(alone, calculated=False)
        usual = growth(bare)
        told += "; without the extension: " + ", ".join(f"{size:.0f}" for size in bare)
    print(told)
    record_property("measured", told)
    assert growth(sizes) <= usual + bound
