"""The window of a heat: keys at random times, layouts, what is refused, scores and results."""

import random
import re
import subprocess
import time

import pytest
import sharing
from event_cells import by_key
from heat_kit import (QUIET, SEED, Clocks, Day, Load, Screen, beside, check, compare, eventually, logs_of, now, of_day,
                      off_at, office, outlook, play, pressed, screen)
from office import result, save, type_in
from sharing import BUILD, folder_of

WORK = folder_of(__file__)


def faster(speed):
    """The variables of an office whose heats run faster."""
    return {"LD_PRELOAD": str(BUILD / "tests" / "libother_time.so"), "PACECELLS_OTHER_SPEED": str(speed)}


@pytest.mark.parametrize("kind", ("rounds", "time", "ladder"))
def test_heats(screen, kind):
    """The three formats, keys at random times, with other programs wanting the processor."""
    dice = random.Random(SEED)
    with office(screen) as private:
        day = Day(private, screen, kind)
        zero = day.running()
        with Load():
            before = day.steps()
            done = play(day, zero, 5, dice, pause=(1.1, 2.0), most=2)
            time.sleep(QUIET)
            for lane in done:  # all at once, as at the end of a round
                done[lane].append(pressed(day, lane, zero))
                time.sleep(0.03)
        compare(f"{kind}, under load", day, done)
        if kind == "rounds":
            outlook(kind, day)
        if kind == "time":
            for lane, name in day.heat(1).items():
                check(f"time: lane {lane} has not finished yet", day.value("finish", name).String == "")
        check(f"{kind}: a step of undo for each key", day.steps() - before >= sum(map(len, done.values())))
        for lane, name in day.heat(1).items():
            for column, clock in enumerate(day.clocks(name)):
                stamp, wanted = day.value("stamps", name, column).Value, of_day(zero.late + clock)
                check(f"{kind}: time of day of lane {lane}, stamp {column + 1}", beside(stamp, wanted) < 3,
                      (stamp * 86400, wanted))


@pytest.mark.slow
def test_two_minutes(screen):
    """Two minutes in real time."""
    with office(screen) as private:
        day = Day(private, screen)
        zero = day.running()
        done = play(day, zero, 120, random.Random(SEED), pause=(4, 12))
        off = compare("two minutes", day, done)
        check("two minutes: enough keys", len(off) > 40)


def one_division(day, lanes):
    """Two heats of so many, an hour long."""
    day.setting("places").Value = lanes
    block = day.cells("workout")
    keys = [row[0] for row in block.getDataArray()]
    count = block.getDataArray()[keys.index("machines")].index("count")
    for row, key in enumerate(keys):
        if key == "machine":
            block.getCellByPosition(count, row).Value = lanes
    day.setting("cap").Value = 61 / 1440
    division = day.cells("list_divisions").getCellByPosition(0, 0).String
    for row in range(200):
        for name, text in (("name", None), ("division", division), ("plan", "")):
            cell = day.cells(f"roster_{name}").getCellByPosition(0, row)
            if row >= 2 * lanes:
                cell.String = ""
            elif text is not None:
                cell.String = text


@pytest.mark.slow
def test_soak(screen):
    """An hour at eight lanes, the clock sixty times as fast."""
    speed = 60
    with office(screen, **faster(speed)) as private:
        day = Day(private, screen, prepare=lambda day: one_division(day, 8))
        check("soak: eight lanes", len(day.heat(1)) == 8, len(day.heat(1)))
        zero = day.running("0:00")
        done = play(day, zero, 59, random.Random(SEED), speed, pause=(1.3, 2.6))
        # Nothing is lost, every stamp is near its key, and the clock does not wander.
        off = compare("soak", day, done, speed)
        early, last = (sorted(error for error, late in off_at(day, done, speed) if start < late < start + 1200)
                       for start in (0, 2400))  # the key that set the clock going may have been late itself
        check("soak: no drift", early and last and abs(last[len(last) // 2] - early[len(early) // 2]) <= 0.01,
              (early, last))
        check("soak: an hour", max(moment.late for clocks in done.values() for moment in clocks) > 3400)
        check("soak: enough keys", len(off) > 150, len(off))
        outlook("soak", day)


def test_layouts(screen):
    """Shift and a digit take back wherever the digits are, and whatever they type."""
    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(1)
        # Swiss, Czech, Canadian: the sign that Shift makes of one digit is that of another elsewhere.
        for layout in ("us", "gb", "de", "es", "fr", "se", "ch", "ch fr", "cz", "ca", "it"):
            screen.tool("setxkbmap", *layout.split())
            time.sleep(0.6)  # until the office asks anew
            for number in range(1, 11):
                day.rest(9 + number, shift=True)  # what is said of the key before is of another lane
                wanted = f"Lane {number}, {names[number]}: no stamp to undo" if number in names else (
                    f"There is no lane {number} ")
                eventually(f"{layout}: Shift and key {number} mean lane {number}", lambda: wanted in day.said(), day.said,
                           limit=10)
        screen.tool("setxkbmap", "hu")  # its digits begin with 0, in the place of the 1 there is none
        time.sleep(0.6)
        day.press("Escape")
        eventually("nothing said", lambda: not day.said(), day.said)
        day.rest(12, shift=True)
        day.says("hu: the third key", f"Lane 3, {names[3]}: no stamp to undo")
        zero = day.running()
        screen.tool("setxkbmap", "fr")
        time.sleep(2)  # until the office has the layout
        at = day.press(10 + 2) - zero  # the third key of the digits' row types a quotation mark there
        day.has("the third key of an AZERTY row", names[3], 1, at)
        day.rest(10 + 2, shift=True)
        day.has("and with Shift it takes back", names[3], 0)
        screen.tool("setxkbmap", "de")
        time.sleep(2)  # until the office has the layout
        day.press(10 + 3)
        day.has("a German row", names[4], 1)
        day.rest(10 + 3, shift=True)
        day.has("and back", names[4], 0)
        screen.tool("setxkbmap", "us")


def test_key_layouts(screen):
    """The numeric pad whether it types or moves; half a keyboard for each of two judges; shown in the rows."""
    def nothing_said():
        day.press("Escape")
        eventually("nothing said", lambda: not day.said(), day.said)

    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(1)
        zero = day.running()
        day.press("k")
        day.says("chosen", "numeric pad")
        at = day.press("KP_End") - zero
        day.has("the pad's 1, moving", names[1], 1, at)
        day.press("KP_Left", shift=True)
        day.says("Shift and the pad's 4", f"Lane 4, {names[4]}: no stamp to undo")
        screen.press("Num_Lock")
        at = day.press("KP_Down") - zero  # the same key types 2 now
        screen.press("Num_Lock")
        day.has("the pad's 2, typing", names[2], 1, at)
        day.rest("KP_Down", shift=True)
        day.has("taken back", names[2], 0)
        day.press("k")
        day.says("chosen", "A S D F G and H J K L ;")
        at = [day.press(key) - zero for key in "df"]
        day.has("the third key of the left half", names[3], 1, at[0])
        day.has("the fourth", names[4], 1, at[1])
        day.press("d", shift=True)
        day.has("with Shift", names[3], 0)
        nothing_said()
        day.press("h")
        day.says("the first of the right half", "no lane 6")
        nothing_said()
        day.press("semicolon")
        day.says("the last of the right half", "no lane 10")
        nothing_said()
        day.press("minus")
        day.says("the row of digits goes on beyond it", "no lane 11")
        screen.tool("setxkbmap", "fr")
        time.sleep(2)  # until the office has the layout
        at = day.press(38) - zero  # types q there
        day.press("Return")  # yes, it is a round
        day.has("the same place on another keyboard", names[1], 2, at)
        screen.tool("setxkbmap", "us")
        time.sleep(2)  # until the office has the layout
        screen.tool("import", "-window", screen.windows()[0], str(WORK / "halves.png"))
        screen.tool("xdotool", "key", "ctrl+p")
        day.asks("a command", "Partial score: which lane?")
        day.press("f")
        day.asks("of a lane by its letter", names[4])
        day.answer("2")
        eventually("a number is typed", lambda: day.value("partial", names[4]).String == "2", day.words)
        screen.tool("xdotool", "key", "ctrl+e")
        day.asks("ended", "End heat")
        day.press("Return")
        day.says("the end", "has ended")
        day.document.close(True)
        eventually("closed", lambda: not screen.windows())
        day = Day(private, screen)
        day.asks("what this new file lacks", "Entries of heat 1")
        day.press("Escape")
        day.press("d", shift=True)
        day.says("the choice is kept", f"Lane 3, {names[3]}")
        screen.tool("xdotool", "key", "ctrl+k")
        day.says("and goes round", "row of digits")


def test_keys(screen):
    """Held keys, clicks, and what is refused."""
    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(1)
        day.press("1")
        day.says("no stamp before the start", "not running")
        zero = day.running()
        day.press("s")
        day.says("a second start is refused", "running already")
        day.press("h")
        day.says("a second heat is refused", "Only one heat can run at a time")
        day.press("9")
        day.says("no such lane", "no lane 9")
        day.lane(1)
        for _ in range(20):  # as a held key repeats
            time.sleep(0.04)
            day.press("1")
        day.settled()
        day.has("a held key is one stamp", names[1], 1)
        day.press("1", shift=True)
        day.has("Shift takes it back", names[1], 0)
        time.sleep(QUIET)
        at = screen.click(300, 200) - zero
        day.has("a click on the row", names[1], 1, at)
        before = day.document.UndoManager.getCurrentUndoActionTitle()
        check("the step has a name", names[1] in before, before)
        day.document.UndoManager.undo()
        day.shows("undone in the sheet, gone in the window", "1 | " + names[1] + " | round 1 ")


def test_commands(screen):
    """Partial scores, tie-break, withdrawal, late athletes, the end, results and judges."""
    clocks = Clocks(WORK)
    with office(screen, **clocks.variables) as private:
        day = Day(private, screen, prepare=lambda d: setattr(d.setting("cap"), "Value", 60 / 86400))
        names = day.heat(1)
        zero = day.running("0:20")

        def partial(lane):
            return day.value("partial", names[lane]).String

        day.press("2")
        day.has("a stamp", names[2], 1)
        day.press("p")
        day.press("2")
        day.answer("5")
        eventually("partial score", lambda: partial(2) == "5")
        day.lane(2)
        day.asks("a round of seconds is asked about", "Is it a round?", names[2])
        day.press("Escape")
        eventually("answered", lambda: not day.question())
        day.settled()
        day.has("no: none", names[2], 1)
        at = day.lane(2) - zero
        day.asks("asked again", "Is it a round?")
        day.lane(2)
        day.has("the same key once more: yes, at the first press", names[2], 2, at)
        eventually("a stamp ends the open round", lambda: partial(2) == "")
        day.press("p")
        day.press("4")
        day.answer("999")
        day.says("a partial score beyond the round is refused", "below the reps")
        day.answer("7")
        eventually("what is typed then replaces it", lambda: partial(4) == "7", day.words)
        day.press("t")
        at = day.lane(2) - zero
        eventually("tie-break", lambda: day.value("tiebreak", names[2]).Value > 0)
        got = day.value("tiebreak", names[2]).Value * 86400
        check("tie-break: when", at.near(got), (got, at))
        day.press("w")
        day.press("3")
        eventually("withdrawn", lambda: day.value("out", names[3]).String == "yes")
        day.lane(3)
        day.says("withdrawn lanes are not stamped", names[3], "withdrawn. W undoes this")
        check("so", day.clocks(names[3]) == [], day.clocks(names[3]))
        late = day.heat(2)[1]
        day.press("a")
        day.answer(late.split()[0].lower())
        lane = max(names) + 1
        day.says("a late athlete has a lane", f"{late} is in lane {lane}")
        at = day.lane(lane) - zero
        day.has("and is stamped", late, 1, at)
        day.press("o")
        day.says("no list while the clock runs", "Not while the clock is running")
        clocks.move(slept=62 - (now() - zero.late))  # beyond the cap, and a second of grace
        eventually("the cap", lambda: "time is up" in day.words(), day.words)
        day.press("1")
        day.says("no stamp after the cap", "cap has passed")
        day.press("p")
        day.press("1")
        day.answer("7")
        eventually("the final partial score", lambda: partial(1) == "7")
        day.asks("and the next lane is asked for", names[2])
        day.press("Escape")
        day.end()
        day.press("j")
        first = day.cells("judge_first")
        eventually("judge sheets of the next heat", lambda: first.getCellByPosition(0, 0).Value == 1 + [
            row[0] for row in day.cells("heat_list").getDataArray()].index(2)
              and day.document.CurrentController.ActiveSheet.Name == first.Spreadsheet.Name)
        stamped, corrected = day.clocks(names[2])[0], round(day.clocks(names[2])[0]) - 2
        day.value("clocks", names[2]).Value = corrected / 86400
        log = lambda: "".join(log.read_text() for log in logs_of(private).glob("*.heat"))
        eventually("the change is in the log, with what was before", lambda: re.search(
            rf"\nfix\tresults_clocks\t{names[2]}\t0\t0\.\S+\t0\.\S+\t\d+\.?\d*\t", log()), log)
        before = len(list(private.desktop.Components))
        day.press("o")
        others = lambda: [one for one in private.desktop.Components if one != day.document]
        eventually("the list of results is a document of its own", lambda: len(others()) == before, others)
        shown = lambda: [[result(others()[0].Sheets[0].getCellByPosition(x, y)) for x in range(5)] for y in range(60)]
        eventually("all of it", lambda: any(row[1:3] == [names[2], "round 1"] and row[4] for row in shown()), shown)
        shown = shown()
        check("with place, name and result", any(row[1] == names[1] and row[2] == "0+7" for row in shown), shown)
        check("by division", any(row[0] == day.value("division", names[1]).String for row in shown))
        save(others()[0], WORK / "results.pdf")
        pages = subprocess.run(["pdftotext", "-layout", WORK / "results.pdf", "-"], capture_output=True, text=True,
                               check=True).stdout.split("\f")[:-1]
        divisions = {day.value("division", name).String for name, *_ in day.cells("results_name").DataArray
                     if name and day.value("result", name).String}
        check("a page for each division, and one of corrections", len(pages) == len(divisions) + 1, pages)
        check("which has the clock as stamped and as it is now", re.search(
            rf"{names[2]} +round 1 +0:{stamped:04.1f} +0:{corrected:04.1f}\s+Changed \d{{4}}-\d\d-\d\d \d\d:\d\d", pages[-1]),
              (pages[-1], stamped, corrected))
        for page in pages[:-1]:
            check("each under title, gym, version and time", all(re.search(part, page) for part in (
                re.escape(day.cells("event_title").DataArray[0][0]),
                re.escape(day.setting("gym").String), r"Standings, \d+:\d\d", "Tie-break +Heat")), page)


def test_beep(screen):
    """No sound until it is asked for; where none can be made, that is said."""
    clocks = Clocks(WORK)
    with office(screen, **clocks.variables) as private:
        sound = private.workdir / "profile" / "user" / "pacecells" / "beep.wav"
        day = Day(private, screen)
        day.running()
        clocks.move(slept=120)
        day.shows("two minutes", "| 2:")
        check("without a sound", not sound.exists())
        day.press("b")
        player = private.service("com.sun.star.comp.avmedia.Manager_GStreamer")
        day.says("a sound at once, or a sentence", "Beep every minute" if player else "cannot play sounds")
        eventually("a sound", sound.exists)
        wave = sound.read_bytes()
        check("it is a sound", wave[:4] + wave[8:12] == b"RIFFWAVE"
              and int.from_bytes(wave[4:8], "little") == len(wave) - 8)


def test_twelve_lanes(screen):
    """Each has a key: the two beside the 0 are lanes 11 and 12."""
    with office(screen) as private:
        day = Day(private, screen, prepare=lambda day: one_division(day, 12))
        names = day.heat(1)
        check("twelve lanes", list(names) == list(range(1, 13)), names)
        zero = day.running()
        keys = [*"1234567890", "minus", "equal"]
        at = {lane: day.press(key) - zero for lane, key in zip(names, keys)}
        for lane, name in names.items():
            day.has(f"lane {lane}", name, 1, at[lane])
        day.rest("equal", shift=True)
        day.has("taken back", names[12], 0)
        day.rest("2")
        day.press("Return")  # yes, it is a round
        at = screen.click(300, 586) - zero  # in the twelfth row
        day.has("a key and a click at once", names[2], 2)
        day.has("both count", names[12], 1, at)
        day.press("v")
        eventually("the room", lambda: screen.titled("Heat, for the room"))
        screen.tool("import", "-window", screen.titled("Heat, for the room")[0], str(WORK / "room_twelve.png"))
        day.press("v")
        eventually("closed", lambda: not screen.titled("Heat, for the room"))
        day.press("l")
        day.settled()
        screen.tool("import", "-window", screen.windows()[0], str(WORK / "coach_twelve_dark.png"))


def shared_machines(day):
    """Lanes 2 and 3 start 30 and 600 seconds after lane 1."""
    keys = day.cells("results").getDataArray()[0]
    column = keys.index("offset") if "offset" in keys else len(keys) - 1  # the last stamp's: nobody needs it here
    day.cells("results").getCellByPosition(column, 0).String = "offset"
    row = day.cells("results_name").RangeAddress.StartRow - day.cells("results").RangeAddress.StartRow
    names = day.heat(1)
    for k, (lane, later) in enumerate(((2, 30), (3, 600))):
        for name, value in (("name", names[lane]), ("heat", 1), ("lane", lane)):
            cell = day.cells(f"results_{name}").getCellByPosition(0, k)
            if isinstance(value, str):
                cell.String = value
            else:
                cell.Value = value
        day.cells("results").getCellByPosition(column, row + k).Value = later / 86400


def test_lanes_that_start_later(screen):
    """Each lane's clocks count from its own start; its name, not its row, knows when that is."""
    with office(screen) as private:
        day = Day(private, screen, prepare=shared_machines)
        names = day.heat(1)
        zero = day.running("2:30")
        day.shows("the lane's own clock", f"2 | {names[2]} | 2:0", f"3 | {names[3]} | starts in 7:")
        at = [day.press(str(lane)) - zero for lane in (1, 2)]
        day.has("from the start of the heat", names[1], 1, at[0])
        day.has("from its own", names[2], 1, at[1] - 30)
        stamp, wanted = day.value("stamps", names[2]).Value, of_day(zero.late + 30 + day.clocks(names[2])[0])
        check("and the time of day", beside(stamp, wanted) < 3, (stamp * 86400, wanted))
        day.press("3")
        day.says("not started", f"Lane 3, {names[3]}: starts 10:00 after the others")
        check("and not stamped", day.clocks(names[3]) == [], day.clocks(names[3]))
        day.shows("the heat ends with the last", "| 24:", " left")
        day.press("v")
        eventually("the room", lambda: screen.titled("Heat, for the room"))
        screen.tool("import", "-window", screen.titled("Heat, for the room")[0], str(WORK / "room_later.png"))
        screen.tool("import", "-window", screen.windows()[0], str(WORK / "coach_later.png"))


def test_the_room(screen):
    """A second window without keys; closed with the coach's."""
    def rooms(count):
        eventually(f"rooms: {count}", lambda: len(screen.titled("Heat, for the room")) == count)

    with office(screen) as private:
        day = Day(private, screen)
        day.running()
        day.press("v")
        rooms(1)
        names = [name for _, name in sorted(day.heat(1).items())]
        check("everybody has a name there", f"\nroom: {', '.join(names)}\n" in day.words(), day.words())
        keys = by_key(day.document, "roster").getDataArray()[0]
        row = [name[0] for name in by_key(day.document, "roster_name").getDataArray()].index(names[1])
        type_in(by_key(day.document, "roster").getCellByPosition(keys.index("minor"), 2 + row), "yes")
        without = ", ".join([names[0], "–", *names[2:]])
        eventually("a minor has the lane alone", lambda: f"\nroom: {without}\n" in day.words() and names[1] in day.words(), day.words)
        screen.tool("import", "-window", screen.titled("Heat, for the room")[0], str(WORK / "room.png"))
        screen.focus(screen.windows()[-1])
        day.press("1")
        day.has("keys go to the coach's", day.heat(1)[1], 1)
        day.press("v")
        rooms(0)
        day.press("v")
        rooms(1)
        day.document.close(True)
        rooms(0)


def test_the_room_on_another_screen(screen):
    """It fills the screen that is chosen; the other one is offered."""
    two = Screen(1366, 800)
    try:
        with office(two) as private:
            day = Day(private, two)
            day.press("v")
            day.asks("which", "on which screen? 1: 1366 × 768; 2: 800 × 768")
            day.answer("3")
            day.says("no third", "no screen 3")
            day.press("Escape")
            day.press("v")
            day.asks("which", "on which screen?")
            day.press("Return")  # the other one
            eventually("the room", lambda: two.titled("Heat, for the room"))
            window = two.titled("Heat, for the room")[0]
            place = lambda: two.tool("xdotool", "getwindowgeometry", "--shell", window).split()
            eventually("all of the second screen", lambda: {"X=1366", "Y=0", "WIDTH=800", "HEIGHT=768"} <= set(place()),
                       place)
            two.focus(two.windows()[-1])
            day.press("v")
            eventually("closed", lambda: not two.titled("Heat, for the room"))
    finally:
        sharing.stop()
        two.close()
