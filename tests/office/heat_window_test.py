"""The window of a heat and the office around it: an office that is busy, windows opened and closed, offices that end."""

import time

import unohelper
from com.sun.star.util import XModifyListener
from heat_kit import Day, check, eventually, now, office, screen

STALL = 2.0  # seconds


class Busy(unohelper.Base, XModifyListener):
    """Keeps the office's main thread as long at each change of the document that it is told to."""

    def __init__(self):
        self.seconds, self.since = 0, None

    def modified(self, _):
        if self.seconds:
            seconds, self.seconds, self.since = self.seconds, 0, now()
            time.sleep(seconds)

    def disposing(self, _):
        pass


def test_a_busy_office(screen):
    """Keys pressed while the main thread is busy have the times of the keys."""
    with office(screen) as private:
        day = Day(private, screen)
        zero = day.running()
        names, busy = day.heat(1), Busy()
        day.cells("results_clocks").addModifyListener(busy)
        busy.seconds = STALL
        day.press("1")
        eventually("the office is busy", lambda: busy.since)
        at = {}
        for lane in (2, 3, 4):
            time.sleep(STALL / 6)
            at[lane] = day.press(str(lane)) - zero
        check("all while it is", now() < busy.since + STALL - 0.1, (now(), busy.since))
        for lane, moment in at.items():
            day.has(f"lane {lane}", names[lane], 1)
            got = day.clocks(names[lane])[0]
            check(f"lane {lane}: the time of the key", abs(moment.off(got)) < 0.05, (got, moment))
        day.cells("results_clocks").removeModifyListener(busy)
