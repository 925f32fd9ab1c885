"""What a heat keeps: the window closed, the office killed, no room on the disk, other clocks, two workbooks."""

import random
import shutil
import time

import pytest
import sharing
from disks import disk, fill
from heat_kit import (SEED, Clocks, Day, beside, check, close_window, compare, eventually, kill, logs_of, of_day, office,
                      play, pressed, screen)
from office import save
from sharing import folder_of

WORK = folder_of(__file__)


def test_window(screen):
    """Closed and opened again, the clock goes on; the workbook closed, nothing is left behind."""
    def none(what):
        eventually(what, lambda: not screen.windows())

    with office(screen) as private:
        day = Day(private, screen)
        names, zero = day.first_stamp()
        close_window(screen, int(screen.windows()[0]))
        none("the window is closed")
        day.open()
        at = day.press("2") - zero
        day.has("opened again, the clock went on", names[2], 1, at)
        day.has("and the stamps are there", names[1], 1)
        day.document.close(True)
        none("with its workbook the window closes")
        private.new()
        process = private.process
    sharing.stop()
    check("the office ends by itself", process.returncode in (0, 81), process.returncode)


def test_kill(screen):
    """The office killed in a heat, moments after a key: the file of before, and every stamp is put back."""
    file = WORK / "killed.ods"
    with office(screen) as private:
        day = Day(private, screen)
        names = day.heat(1)
        zero = day.running()
        done = play(day, zero, 6, random.Random(SEED), pause=(1.2, 3))
        day.press("p")
        day.press("1")
        day.answer("4")
        eventually("a partial score", lambda: day.value("partial", names[1]).String == "4")
        compare("before", day, done)
        save(day.document, file)
        for lane in sorted(names):
            at = day.lane(lane) - zero
            day.press("Return")  # yes, it is a round, though it is short
            done[lane].append(at)
        day.logged("kept", names, done)
        kill(private)
    with office(screen, after_a_crash=True) as private:
        day = Day(private, screen, file=file, by_itself=True)
        check("killed: the file opened, the window comes by itself", bool(screen.windows()))
        had = {lane: len(day.clocks(name)) for lane, name in names.items()}
        check("killed: the file lacks the last stamps", all(had[lane] == len(done[lane]) - 1 for lane in had), had)
        day.asks("killed: the window asks", "Heat 1 was interrupted")
        day.press("Return")
        compare("killed, put back", day, done)
        check("killed: the partial score of a round since ended is gone",
              day.value("partial", names[1]).String == "")
        at = day.press("1") - zero
        day.press("Return")
        day.has("killed: the clock goes on", names[1], len(done[1]) + 1, at)
        done[1].append(at)
        day.logged("kept", names, done)
        kill(private)
    with office(screen, after_a_crash=True) as private:
        day = Day(private, screen, file=file)
        day.asks("killed twice: it asks", "Heat 1 was interrupted")
        day.press("Return")
        day.has("killed twice: all is there", names[1], len(done[1]))
        day.end()
        day.rest("1", shift=True)
        day.has("a stamp taken out after the end", names[1], len(done[1]) - 1)
        save(day.document, file)
        day.document.close(True)
        eventually("closed", lambda: not screen.windows())
        document = private.open(file, hidden=False)
        time.sleep(1.5)
        check("ended and saved: no window comes by itself", not screen.windows(), screen.windows())
        document.close(True)
        day = Day(private, screen, file=file)
        day.settled()
        check("ended and saved: nothing is asked", day.question() == "", day.words())


def test_kill_in_the_third_heat(screen):
    """Nothing was saved since the start of the day: all three heats come back, each by its name."""
    file = WORK / "three.ods"
    expected = {}

    def stamps(day, heat, zero, lanes):
        for lane in lanes:
            expected.setdefault(day.heat(heat)[lane], []).append(day.lane(lane) - zero)
            day.press("Return")  # yes, it is a round, though it is short

    with office(screen) as private:
        day = Day(private, screen)
        save(day.document, file)
        for heat in (1, 2, 3):
            zero = day.running()
            lanes = sorted(day.heat(heat))
            stamps(day, heat, zero, lanes)
            stamps(day, heat, zero, lanes[:2])
            for lane in lanes:
                day.has(f"heat {heat}", day.heat(heat)[lane], 2 if lane in lanes[:2] else 1)
            if heat < 3:
                day.end()
                day.press("h")
                day.asks("which heat", "Heat, 1 to")
                day.press("Return")  # the next is offered
                day.shows("the next heat", f", heat {heat + 1} |")
        day.logged("the third on the disk", day.heat(3), {lane: [None] for lane in day.heat(3)})
        kill(private)
    with office(screen, after_a_crash=True) as private:
        day = Day(private, screen, file=file)
        day.asks("the third goes on", "Heat 3 was interrupted")
        day.press("Return")
        day.shows("it runs", ", heat 3 |", " left")
        day.end()
        for heat in (2, 1):
            day.asks("what the file lacks", f"Entries of heat {heat} ")
            day.press("Return")
        for name, moments in expected.items():
            day.has(f"back: {name}", name, len(moments))
            for clock, moment in zip(day.clocks(name), moments):
                check(f"back: {name}", moment.near(clock), (clock, moment))
        eventually("nothing more is asked", lambda: not day.question(), day.words)


@pytest.fixture
def logs(screen):
    """Where the office keeps a copy of the heat that runs."""
    with office(screen) as private:
        folder = logs_of(private)
        shutil.rmtree(folder, ignore_errors=True)
    return folder


def no_copy_is_said(screen, before_the_start=lambda: None):
    with office(screen, after_a_crash=True) as private:
        day = Day(private, screen)
        before_the_start()
        day.running()
        day.press("1")
        day.says("said", "The safety copy of this heat cannot be saved to disk")
        day.has("stamped", day.heat(1)[1], 1)
        day.press("e")
        day.press("Return")
        day.says("ended", "has ended")


def test_no_folder_for_the_copy(screen, logs):
    """No copy of the heat on the disk: that is said, and the heat goes on."""
    logs.write_text("a file where the folder should be")
    no_copy_is_said(screen)
    logs.unlink()


def test_no_room_for_the_copy(screen, logs):
    with disk(logs, "size=64k"):
        no_copy_is_said(screen, lambda: fill(logs / "rest"))


def test_clock(screen):
    """Somebody sets the time of day, the computer sleeps: the heat's clock goes on, the time beside it follows."""
    clocks = Clocks(WORK)

    def stamp(day, lane, zero, shift, slept, what):
        at = day.press(str(lane))
        name = day.heat(1)[lane]
        day.has(f"{what}: the clock", name, 1, at - zero + slept)
        beside_it = day.value("stamps", name).Value
        check(f"{what}: time of day beside it", beside(beside_it, of_day(at.late, shift)) < 3,
              (beside_it * 86400, of_day(at.late, shift)))

    file = WORK / "clock.ods"
    with office(screen, **clocks.variables) as private:
        day = Day(private, screen)
        save(day.document, file)
        names = day.heat(1)
        zero = day.running()
        stamp(day, 1, zero, 0, 0, "before")
        clocks.move(3600, 0)
        stamp(day, 2, zero, 3600, 0, "an hour forward")
        clocks.move(-86400 - 7200, 0)
        stamp(day, 3, zero, -7200, 0, "yesterday")
        before = seconds_shown(day)
        clocks.move(-86400 - 7200, 45)
        eventually("slept: the window shows it", lambda: 45 <= seconds_shown(day) - before < 60, day.words)
        stamp(day, 4, zero, -7200 + 45, 45, "slept")
        day.logged("kept", names, {lane: [None] * (lane < 5) for lane in names})
        kill(private)
    clocks.move(5000, 45)
    with office(screen, after_a_crash=True, **clocks.variables) as private:
        day = Day(private, screen, file=file)
        day.asks("killed: it asks", "was interrupted")
        day.press("Return")
        for lane in range(1, 5):
            day.has("killed: put back", names[lane], 1)
        at = day.press("1") - zero + 45
        day.press("Return")
        day.has("killed and the time of day set: the clock goes on", names[1], 2, at)
        day.end()


def seconds_shown(day):
    minutes, _, seconds = day.words().split(" | ")[1].partition(":")
    return 60 * int(minutes) + int(seconds)


def test_floor(screen):
    """One floor: no second heat while one runs, in whichever workbook, open or not."""
    file = WORK / "floor.ods"

    with office(screen) as private:
        one = Day(private, screen)
        first = screen.windows()[-1]
        one.running()
        two = Day(private, screen, "time")
        second = [window for window in screen.windows() if window != first][-1]
        for key in ("s", "r"):
            screen.focus(second)
            two.press("Escape")
            eventually(f"{key}: nothing said", lambda: not two.said())
            two.press(key)
            two.says(f"{key}: refused while the other runs", "is running in another workbook",
                     one.cells("event_title").String)
        screen.focus(first)
        one.end()
        screen.focus(second)
        two.running()
        save(two.document, file)
        two.press("1")
        two.has("stamped", two.heat(1)[1], 1)
        two.document.close(True)
        eventually("closed", lambda: screen.windows() == [first])

        two = Day(private, screen, file=file)
        screen.focus([window for window in screen.windows() if window != first][-1])
        two.asks("closed and opened again: it asks", "Heat 1 was interrupted")
        two.press("Escape")
        two.press("h")
        two.answer("2")
        two.shows("the second heat", "heat 2")
        two.press("s")
        two.asks("another heat meanwhile: asked first", "Heat 1 was never ended")
        two.press("Escape")
        eventually("no", lambda: not two.question(), two.words)
        check("no: not started", "| cap " in two.settled().split("\n")[0], two.words())
        two.press("s")
        two.press("Return")
        two.says("given up", "not running yet")
        two.press("s")
        two.shows("given up: it starts", "countdown")
        ended = [log.read_text().endswith("\nend\n") for log in logs_of(private).glob("*-1.heat")]
        check("and what was kept is still on the disk, ended", ended == [True, True],
              (ended, list(logs_of(private).iterdir())))
