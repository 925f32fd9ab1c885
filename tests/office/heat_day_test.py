"""The window of a heat: keys at random times, layouts, what is refused, scores and results."""

import os
import random
import re
import subprocess
import time

import pytest
from heat_kit import (NEAR, SEED, Day, Load, beside, check, compare, now, of_day, off_at, office, outlook, play, pressed,
                      screen)
from office import result, save
from sharing import BUILD, folder_of

WORK = folder_of(__file__)


def faster(speed):
    """The variables of an office whose heats run faster."""
    return {"LD_PRELOAD": str(BUILD / "tests" / "libother_time.so"), "PACECELLS_OTHER_SPEED": str(speed)}


@pytest.mark.parametrize("kind", ("rounds", "time", "ladder"))
def test_heats(screen, kind):
    """The three formats, keys at random times, with other programs wanting the processor."""
    dice = random.Random(SEED)
    with office(screen, WORK) as private:
        day = Day(private, screen, kind)
        zero = day.running()
        with Load():
            before = day.steps()
            done = play(day, zero, 15, dice, most=2)
            time.sleep(1.2)
            for lane in done:  # all at once, as at the end of a round
                done[lane].append(pressed(day, lane, zero))
                time.sleep(0.03)
            time.sleep(1)
        time.sleep(1)
        compare(f"{kind}, under load", day, done)
        if kind == "rounds":
            outlook(kind, day)
        if kind == "time":
            for lane, name in day.heat(1).items():
                check(f"time: lane {lane} has not finished yet", day.value("finish", name).String == "")
        check(f"{kind}: a step of undo for each key", day.steps() - before >= sum(map(len, done.values())))
        for lane, name in day.heat(1).items():
            for column, clock in enumerate(day.clocks(name)):
                stamp, wanted = day.value("stamps", name, column).Value, of_day(zero + clock)
                check(f"{kind}: time of day of lane {lane}, stamp {column + 1}", beside(stamp, wanted) < 3,
                      (stamp * 86400, wanted))


@pytest.mark.slow
def test_two_minutes(screen):
    """Two minutes in real time."""
    with office(screen, WORK) as private:
        day = Day(private, screen)
        zero = day.running()
        done = play(day, zero, 120, random.Random(SEED), pause=(4, 12))
        time.sleep(1)
        off = compare("two minutes", day, done)
        check("two minutes: enough keys", len(off) > 40)


def eight_lanes(day):
    day.setting("places").Value = 8
    block = day.cells("workout")
    keys = [row[0] for row in block.getDataArray()]
    count = block.getDataArray()[keys.index("machines")].index("count")
    for row, key in enumerate(keys):
        if key == "machine":
            block.getCellByPosition(count, row).Value = 8
    day.setting("cap").Value = 31 / 1440
    division = day.cells("list_divisions").getCellByPosition(0, 0).String
    for row in range(200):  # sixteen in one division: two heats of eight
        for name, text in (("name", None), ("division", division), ("plan", "")):
            cell = day.cells(f"roster_{name}").getCellByPosition(0, row)
            if row >= 16:
                cell.String = ""
            elif text is not None:
                cell.String = text


@pytest.mark.slow
def test_soak(screen):
    """Thirty minutes at eight lanes, the clock thirty times as fast."""
    speed = 30
    os.environ.update(faster(speed))
    try:
        with office(screen, WORK, "soak") as private:
            day = Day(private, screen, prepare=eight_lanes)
            check("soak: eight lanes", len(day.heat(1)) == 8, len(day.heat(1)))
            day.press("r")
            zero = day.answer("0:00")
            time.sleep(0.3)
            check("soak: the clock runs", "left" in day.words(), day.words())
            done = play(day, zero, 59, random.Random(SEED), speed, pause=(1.3, 2.6))
            time.sleep(1)
            # Nothing is lost, every stamp is near its key, and the clock does not wander.
            off = compare("soak", day, done, speed)
            early, last = (sorted(error for error, late in off_at(day, done, speed) if start < late < start + 600)
                           for start in (0, 1200))  # the key that set the clock going may have been late itself
            check("soak: no drift", early and last and abs(last[len(last) // 2] - early[len(early) // 2]) <= 0.01,
                  (early, last))
            check("soak: thirty minutes", max(late for clocks in done.values() for _, late in clocks) > 1700)
            check("soak: enough keys", len(off) > 150, len(off))
            outlook("soak", day)
    finally:
        for name in faster(1):
            del os.environ[name]


def test_keys(screen):
    """Held keys, other layouts, clicks, and what is refused."""
    with office(screen, WORK) as private:
        day = Day(private, screen)
        names = day.heat(1)
        for layout in ("us", "gb", "de", "es", "fr", "se"):
            screen.tool("setxkbmap", layout)
            time.sleep(0.5)
            for number in range(1, 11):
                screen.press(9 + number, shift=True)
                said = day.said()
                check(f"{layout}: Shift and key {number} mean lane {number}",
                      f"lane {number} " in said or f"Lane {number}," in said and "to take back" in said, said)
        screen.tool("setxkbmap", "us")
        time.sleep(0.5)
        day.press("1")
        check("no stamp before the start", day.clocks(names[1]) == [] and "not running" in day.said(), day.said())
        zero = day.running()
        day.press("s")
        check("a second start is refused", "running already" in day.said(), day.said())
        day.press("h")
        check("a second heat is refused", "Two heats at once" in day.said(), day.said())
        day.press("9")
        check("no such lane", "no lane 9" in day.said(), day.said())
        for _ in range(20):  # as a held key repeats
            day.screen.press("1")
            time.sleep(0.04)
        time.sleep(0.3)
        check("a held key is one stamp", len(day.clocks(names[1])) == 1, day.clocks(names[1]))
        day.press("1", shift=True)
        time.sleep(0.3)
        check("Shift takes it back", day.clocks(names[1]) == [], day.clocks(names[1]))
        time.sleep(1.2)
        at = day.press(day.screen.code("KP_2"))  # the numeric keypad; its keys need no NumLock here
        time.sleep(1.2)
        day.screen.tool("setxkbmap", "fr")
        time.sleep(1)
        at = day.press(10 + 2)  # the third key of the digits' row types a quotation mark there
        time.sleep(0.4)
        got = day.clocks(names[3])
        check("the third key of an AZERTY row", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, got)
        time.sleep(1.2)
        day.screen.press(10 + 2, shift=True)
        time.sleep(0.4)
        check("and with Shift it takes back", day.clocks(names[3]) == [], day.clocks(names[3]))
        day.screen.tool("setxkbmap", "de")
        time.sleep(1)
        day.press(10 + 3)
        time.sleep(1.3)
        day.screen.press(10 + 3, shift=True)
        time.sleep(0.4)
        check("a German row", day.clocks(names[4]) == [] and "taken back" in day.said(), day.said())
        day.screen.tool("setxkbmap", "us")
        time.sleep(1)
        at = day.screen.click(300, 200)
        time.sleep(0.4)
        got = day.clocks(names[1])
        check("a click on the row", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, got)
        before = day.document.UndoManager.getCurrentUndoActionTitle()
        check("the step has a name", names[1] in before, before)
        day.document.UndoManager.undo()
        time.sleep(0.8)
        check("undone in the sheet, gone in the window", "1 | " + names[1] + " | round 1 " in day.words(), day.words())


def test_commands(screen):
    """Partial scores, tie-break, withdrawal, late athletes, the end, results and judges."""
    with office(screen, WORK) as private:
        day = Day(private, screen, prepare=lambda d: setattr(d.setting("cap"), "Value", 60 / 86400))
        names = day.heat(1)
        zero = day.running("0:20")
        day.press("2")
        day.press("p")
        day.press("2")
        day.answer("5")
        time.sleep(0.4)
        check("partial score", day.value("partial", names[2]).Value == 5)
        time.sleep(1)
        day.press("2")
        question = day.words().split("\n")[-1]
        check("a round of seconds is asked about", "Is it a round?" in question and names[2] in question, question)
        day.press("Escape")
        time.sleep(0.4)
        check("no: none", len(day.clocks(names[2])) == 1, day.clocks(names[2]))
        at = day.press("2")
        time.sleep(1.2)
        day.press("2")
        time.sleep(0.4)
        got = day.clocks(names[2])
        check("the same key once more: yes, at the first press", abs(got[-1] - (at - zero)) <= NEAR, (got, at - zero))
        check("a stamp ends the open round", day.value("partial", names[2]).String == ""
              and len(day.clocks(names[2])) == 2)
        day.press("p")
        day.press("2")
        day.answer("999")
        check("a partial score beyond the round is refused", "below the reps" in day.said(), day.said())
        day.press("Escape")
        day.press("t")
        time.sleep(1.2)
        at = day.press("2")
        time.sleep(0.4)
        got = day.value("tiebreak", names[2]).Value * 86400
        check("tie-break", abs(got - (at - zero)) <= NEAR, got)
        day.press("w")
        day.press("3")
        time.sleep(0.4)
        check("withdrawn", day.value("out", names[3]).String == "yes" and "withdrawn" in day.said(), day.said())
        time.sleep(1)
        day.press("3")
        check("withdrawn lanes are not stamped", "withdrawn" in day.said() and day.clocks(names[3]) == [])
        late = day.heat(2)[1]
        day.press("a")
        day.answer(late.split()[0].lower())
        time.sleep(0.5)
        lane = max(names) + 1
        check("a late athlete has a lane", f"{late} is in lane {lane}" in day.said(), day.said())
        at = day.press(str(lane))
        time.sleep(0.4)
        got = day.clocks(late)
        check("and is stamped", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, got)
        day.press("o")
        check("no list while the clock runs", "Not while the clock runs" in day.said(), day.said())
        time.sleep(max(0, zero + 61.5 - now()))
        day.press("1")
        check("no stamp after the cap", "cap has passed" in day.said(), day.said())
        day.press("p")
        time.sleep(1)
        day.press("1")
        day.answer("7")
        time.sleep(0.4)
        check("the final partial score", day.value("partial", names[1]).Value == 7)
        check("and the next lane is asked for", names[2] in day.words().split("\n")[-1], day.words())
        day.press("Escape")
        day.press("e")
        day.press("Return")
        check("the end", "has ended" in day.said(), day.said())
        day.press("j")
        time.sleep(1.5)
        check("judge sheets of the next heat", day.cells("judge_first").getCellByPosition(0, 0).Value == 1 + [
            row[0] for row in day.cells("heat_list").getDataArray()].index(2)
              and day.document.CurrentController.ActiveSheet.Name == day.cells("judge_first").Spreadsheet.Name)
        stamped, corrected = day.clocks(names[2])[0], round(day.clocks(names[2])[0]) - 2
        day.value("clocks", names[2]).Value = corrected / 86400
        open_before = len(list(private.desktop.Components))
        day.press("o")
        time.sleep(3)
        others = [one for one in private.desktop.Components if one != day.document]
        check("the list of results is a document of its own", len(others) == open_before, len(others))
        if others:
            shown = [[result(others[0].Sheets[0].getCellByPosition(x, y)) for x in range(3)] for y in range(40)]
            check("with place, name and result", any(row[1] == names[1] and row[2] == "0+7" for row in shown), shown)
            check("by division", any(row[0] == day.value("division", names[1]).String for row in shown))
            save(others[0], WORK / "results.pdf")
            pages = subprocess.run(["pdftotext", "-layout", WORK / "results.pdf", "-"], capture_output=True, text=True,
                                   check=True).stdout.split("\f")[:-1]
            divisions = {day.value("division", name).String for name, *_ in day.cells("results_name").DataArray
                         if name and day.value("result", name).String}
            check("a page for each division, and one of corrections", len(pages) == len(divisions) + 1, pages)
            check("which has the clock as stamped and as it is now", re.search(
                rf"{names[2]} +round 1 +0:{stamped:04.1f} +0:{corrected:04.1f}", pages[-1]), (pages[-1], stamped, corrected))
            for page in pages[:-1]:
                check("each under title, gym, version and time", all(re.search(part, page) for part in (
                    re.escape(day.cells("event_title").DataArray[0][0]),
                    re.escape(day.setting("gym").String), r"Places so far, \d+:\d\d", "Tie-break +Heat")), page)


def test_the_room(screen):
    """A second window without keys; closed with the coach's."""
    def rooms():
        return screen.tool("xdotool", "search", "--onlyvisible", "--name", "^Heat, for the room$").split()

    with office(screen, WORK) as private:
        day = Day(private, screen)
        day.running()
        day.press("v")
        time.sleep(1.5)
        check("open", len(rooms()) == 1, rooms())
        screen.tool("import", "-window", rooms()[0], str(WORK / "room.png"))
        day.screen.tool("xdotool", "windowfocus", screen.windows()[-1])
        time.sleep(0.3)
        day.press("1")
        time.sleep(0.5)
        check("keys go to the coach's", len(day.clocks(day.heat(1)[1])) == 1, day.clocks(day.heat(1)[1]))
        day.press("v")
        time.sleep(1)
        check("closed by its key", not rooms(), rooms())
        day.press("v")
        time.sleep(1)
        check("open again", len(rooms()) == 1, rooms())
        day.document.close(True)
        time.sleep(1)
        check("closed with the workbook", not rooms(), rooms())


def test_beep(screen):
    """No sound until it is asked for; where none can be made, that is said."""
    os.environ.update(faster(30))
    try:
        with office(screen, WORK, "beep") as private:
            sound = WORK / "beep" / "profile" / "user" / "pacecells" / "beep.wav"
            day = Day(private, screen)
            day.running()
            time.sleep(5)
            check("two minutes without a sound", not sound.exists())
            day.press("b")
            said = day.said()
            player = private.service("com.sun.star.comp.avmedia.Manager_GStreamer")
            check("a sound at once, or a sentence", sound.exists() and
                  ("A beep each minute" if player else "cannot play sounds") in said, said)
            wave = sound.read_bytes()
            check("it is a sound", wave[:4] + wave[8:12] == b"RIFFWAVE"
                  and int.from_bytes(wave[4:8], "little") == len(wave) - 8)
    finally:
        for name in faster(1):
            del os.environ[name]
