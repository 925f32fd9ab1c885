"""What a heat keeps: the window closed, the office killed, no room on the disk, other clocks, two workbooks."""

import ctypes
import os
import random
import signal
import time

import pytest
from disks import disk, fill
from heat_kit import NEAR, SEED, Day, beside, check, compare, now, of_day, office, play, pressed, screen
from office import save
from sharing import BUILD, folder_of

WORK = folder_of(__file__)


def test_window(screen):
    """Closed and opened again, the clock goes on; the workbook closed, nothing is left behind."""
    with office(screen, WORK) as private:
        day = Day(private, screen)
        names = day.heat(1)
        zero = day.running()
        day.press("1")
        time.sleep(0.3)
        window_of = screen.windows()[0]
        quit_window(screen, int(window_of))
        time.sleep(1)
        check("the window is closed", not screen.windows())
        day.open()
        at = day.press("2")
        time.sleep(0.4)
        got = day.clocks(names[2])
        check("opened again, the clock went on", len(got) == 1 and abs(got[0] - (at - zero)) <= NEAR, (got, at - zero))
        check("and the stamps are there", len(day.clocks(names[1])) == 1)
        day.document.close(True)
        time.sleep(1)
        check("with its workbook the window closes",
              not screen.windows())
        private.new()
        process = private.process
    check("the office ends by itself", process.returncode in (0, 81), process.returncode)


def quit_window(screen, window_id):
    """What a window manager sends when its close button is pressed."""
    class Message(ctypes.Structure):
        _fields_ = [("type", ctypes.c_int), ("serial", ctypes.c_ulong), ("sent", ctypes.c_int),
                    ("display", ctypes.c_void_p), ("window", ctypes.c_ulong), ("kind", ctypes.c_ulong),
                    ("format", ctypes.c_int), ("data", ctypes.c_long * 5), ("rest", ctypes.c_long * 12)]
    screen.x.XInternAtom.restype = ctypes.c_ulong
    atom = lambda name: screen.x.XInternAtom(screen.display, name, 0)
    message = Message(33, 0, 1, screen.display, window_id, atom(b"WM_PROTOCOLS"), 32)
    message.data[0] = atom(b"WM_DELETE_WINDOW")
    screen.x.XSendEvent(screen.display, ctypes.c_ulong(window_id), 0, ctypes.c_long(0), ctypes.byref(message))
    screen.x.XFlush(screen.display)


def test_kill(screen):
    """The office killed in a heat, moments after a key: the file of before, and every stamp is put back."""
    file = WORK / "killed.ods"
    with office(screen, WORK, "kill") as private:
        day = Day(private, screen)
        names = day.heat(1)
        zero = day.running()
        done = play(day, zero, 6, random.Random(SEED), pause=(1.2, 3))
        day.press("p")
        day.press("1")
        day.answer("4")
        time.sleep(0.3)
        save(day.document, file)
        time.sleep(0.5)
        for lane in sorted(names):
            done[lane].append(pressed(day, lane, zero))
            time.sleep(0.1)
        time.sleep(0.1)
        os.killpg(private.process.pid, signal.SIGKILL)
        private.process.wait()
    with office(screen, WORK, "kill", after_a_crash=True) as private:
        day = Day(private, screen, file=file, by_itself=True)
        check("killed: the file opened, the window comes by itself", bool(screen.windows()))
        had = {lane: len(day.clocks(name)) for lane, name in names.items()}
        check("killed: the file lacks the last stamps", all(had[lane] == len(done[lane]) - 1 for lane in had), had)
        check("killed: the window asks", "Heat 1 was interrupted" in day.words(), day.words())
        day.press("Return")
        time.sleep(1)
        compare("killed, put back", day, done)
        check("killed: the partial score of a round since ended is gone",
              day.value("partial", names[1]).String == "")
        time.sleep(1)
        at = day.press("1")
        day.press("Return")
        time.sleep(0.4)
        got = day.clocks(names[1])[-1]
        check("killed: the clock goes on", abs(got - (at - zero)) <= NEAR, got - (at - zero))
        os.killpg(private.process.pid, signal.SIGKILL)
        private.process.wait()
    with office(screen, WORK, "kill", after_a_crash=True) as private:
        day = Day(private, screen, file=file)
        day.press("Return")
        time.sleep(1)
        check("killed twice: all is there", len(day.clocks(names[1])) == len(done[1]) + 1, day.clocks(names[1]))
        day.press("e")
        day.press("Return")
        time.sleep(0.5)
        save(day.document, file)
    with office(screen, WORK, "kill", after_a_crash=True) as private:
        document = private.open(file, hidden=False)
        time.sleep(2)
        check("ended and saved: no window comes by itself", not screen.windows(), screen.windows())
        document.close(True)
        day = Day(private, screen, file=file)
        check("ended and saved: nothing is asked", day.words().split("\n")[-1] == "", day.words())


@pytest.fixture
def logs(screen):
    """Where the office keeps a copy of the heat that runs."""
    with office(screen, WORK, "no-room"):
        pass  # makes the profile
    return WORK / "no-room" / "profile" / "user" / "pacecells"


def no_copy_is_said(screen, before_the_start=lambda: None):
    with office(screen, WORK, "no-room", after_a_crash=True) as private:
        day = Day(private, screen)
        before_the_start()
        day.running()
        day.press("1")
        time.sleep(0.5)
        check("said", "The disk does not take the copy of this heat" in day.said(), day.said())
        check("stamped", len(day.clocks(day.heat(1)[1])) == 1, day.clocks(day.heat(1)[1]))
        day.press("e")
        day.press("Return")


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
    times = WORK / "other-time"

    def other_time(set_by, slept):
        times.with_suffix(".new").write_text(f"{set_by} {slept}")
        times.with_suffix(".new").rename(times)

    def stamp(day, lane, zero, shift, slept, what):
        at = day.press(str(lane))
        time.sleep(0.5)
        name = day.heat(1)[lane]
        got = day.clocks(name)
        check(f"{what}: the clock", len(got) == 1 and abs(got[0] - (at - zero + slept)) <= NEAR,
              (got, at - zero + slept))
        beside_it = day.value("stamps", name).Value
        check(f"{what}: time of day beside it", beside(beside_it, of_day(at, shift)) < 3,
              (beside_it * 86400, of_day(at, shift)))

    other_time(0, 0)
    os.environ.update(LD_PRELOAD=str(BUILD / "tests" / "libother_time.so"), PACECELLS_OTHER_TIME=str(times))
    try:
        with office(screen, WORK, "clock") as private:
            file = WORK / "clock.ods"
            day = Day(private, screen)
            save(day.document, file)
            zero = day.running()
            stamp(day, 1, zero, 0, 0, "before")
            other_time(3600, 0)
            stamp(day, 2, zero, 3600, 0, "an hour forward")
            other_time(-86400 - 7200, 0)
            stamp(day, 3, zero, -7200, 0, "yesterday")
            other_time(-86400 - 7200, 45)
            time.sleep(0.5)
            shown = day.words().split(" | ")[1]
            minutes, _, seconds = shown.partition(":")
            check("slept: the window shows it", abs(60 * int(minutes) + int(seconds) - (now() - zero + 45)) < 2, shown)
            stamp(day, 4, zero, -7200 + 45, 45, "slept")
            os.killpg(private.process.pid, signal.SIGKILL)
            private.process.wait()
        other_time(5000, 45)
        with office(screen, WORK, "clock", after_a_crash=True) as private:
            day = Day(private, screen, file=file)
            check("killed: it asks", "was interrupted" in day.words(), day.words())
            day.press("Return")
            time.sleep(1)
            check("killed: put back", [len(day.clocks(name)) for name in day.heat(1).values()][:4] == [1] * 4)
            at = day.press("1")
            day.press("Return")
            time.sleep(0.5)
            got = day.clocks(day.heat(1)[1])
            check("killed and the time of day set: the clock goes on",
                  len(got) == 2 and abs(got[1] - (at - zero + 45)) <= NEAR, (got, at - zero + 45))
            day.press("e")
            day.press("Return")
    finally:
        del os.environ["LD_PRELOAD"], os.environ["PACECELLS_OTHER_TIME"]


def test_floor(screen):
    """One floor: no second heat while one runs, in whichever workbook, open or not."""
    file = WORK / "floor.ods"

    def to(window):
        screen.tool("xdotool", "windowfocus", window)
        time.sleep(0.3)

    with office(screen, WORK, "floor") as private:
        one = Day(private, screen)
        first = screen.windows()[-1]
        one.running()
        two = Day(private, screen, "time")
        second = [window for window in screen.windows() if window != first][-1]
        for key in ("s", "r"):
            to(second)
            two.press(key)
            said = two.said()
            check(f"{key}: refused while the other runs", "is running in another workbook" in said
                  and one.cells("event_title").String in said, said)
        to(first)
        one.press("e")
        one.press("Return")
        time.sleep(0.3)
        to(second)
        two.running()
        check("allowed when it has ended", "left" in two.words(), two.words())
        save(two.document, file)
        two.press("1")
        time.sleep(0.5)
        two.document.close(True)
        time.sleep(1)

        two = Day(private, screen, file=file)
        to([window for window in screen.windows() if window != first][-1])
        check("closed and opened again: it asks", "Heat 1 was interrupted" in two.words(), two.words())
        two.press("Escape")
        two.press("h")
        two.answer("2")
        time.sleep(0.3)
        two.press("s")
        question = two.words().split("\n")[-1]
        check("another heat meanwhile: asked first", "Heat 1 was not ended" in question, question)
        two.press("Escape")
        check("no: not started", "| cap " in two.words().split("\n")[0], two.words())
        two.press("s")
        two.press("Return")
        two.press("s")
        check("given up: it starts", "counting in" in two.words().split("\n")[0], two.words())
        logs = WORK / "floor" / "profile" / "user" / "pacecells"
        ended = [log.read_text().endswith("\nend\n") for log in logs.glob("*-1.heat")]
        check("and what was kept is still on the disk, ended", ended == [True, True], (ended, list(logs.iterdir())))
