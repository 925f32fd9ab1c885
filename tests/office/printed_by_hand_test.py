"""The office's own print of a workout that was corrected since the last: a window asks for the number of the new version.

Uses BUILD/pacecells.oxt, Xvfb and xdotool.
"""

import pytest
from event_cells import by_key
from examples import open_example
from office import named
from paper import print_pack
from sharing import OXT, folder_of, shared
from windows_kit import Calc

WORK = folder_of(__file__)
TITLE = "New version"


@pytest.fixture(scope="module")
def calc(display):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SAL_USE_VCLPLUGIN", "gen")
        with shared([OXT], "screen", display=display) as office:
            calc = Calc(display, office, "en-US", 1, WORK)
            calc.document.close(True)
            yield calc


def stamp(event):
    """The version in the cell, and in the line that every print has."""
    heading = event.NamedRanges.getByName("event_heading").ReferredCells.String
    return by_key(event, "workout.announcement").getCellByPosition(0, 0).Value, heading.rpartition(" · ")[2]


@pytest.fixture
def event(calc):
    """An event whose cap was changed after its pack was printed as version 2."""
    event = open_example(calc.office, "rounds", hidden=False)
    print_pack(calc.office, event, WORK / "pack.pdf")
    assert stamp(event) == (2, "version 2")
    by_key(event, "workout.cap").getCellByPosition(0, 0).Value += 1 / 1440
    yield event
    event.close(True)


def print_by_hand(event):
    """File, Print into a file; it ends while a window of ours is open."""
    event.print(named(FileName=(WORK / "by-hand.ps").as_uri(), Wait=False))


def test_the_number_that_is_typed_is_on_the_next_print(calc, event):
    print_by_hand(event)
    assert calc.wait(TITLE) is not None, "it asks"
    calc.keys("ctrl+a", "text 2", "Return")
    assert calc.windows(TITLE), "2 was printed before"
    calc.keys("ctrl+a", "text 4", "Return")
    assert calc.wait(TITLE, there=False) is not None
    assert stamp(event) == (4, "version 4")
    print_by_hand(event)
    assert calc.wait(TITLE, limit=2) is None, "nothing changed since"


def test_escape_leaves_the_version_and_the_next_print_asks_again(calc, event):
    for _ in range(2):
        print_by_hand(event)
        assert calc.wait(TITLE) is not None, "it asks"
        calc.keys("Escape")
        assert calc.wait(TITLE, there=False) is not None
        assert stamp(event) == (2, "version 2")
