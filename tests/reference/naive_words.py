"""Scores and goals as people write them, and the practice before the start: what the naive plan says of its numbers."""
import math


def number(x):
    return f"{x:.6g}"


def clock(seconds):
    whole = math.floor(seconds + 0.5 + 1e-9)
    minutes = f"{whole // 60 % 60}:{whole % 60:02d}"
    return f"{whole // 3600}:{minutes.zfill(5)}" if whole >= 3600 else minutes


def tenths(walk, point):
    return number(math.floor(walk.decimal(point) * 10 + 1e-9) / 10)


def in_goal(names, i):
    """More than 14 characters are one word, the first or else the last, that no other name has in it."""
    if len(names[i]) <= 14:
        return names[i]
    parts = names[i].replace("-", " ").split(" ")
    others = [name.lower() for name in names if name.lower() != names[i].lower()]
    return next((word for word in (parts[0], parts[-1]) if not any(word.lower() in other for other in others)), names[i])


def goal_words(task, walk, point, time):
    """"6"; "5 + Sandbags" at the end of a station, without the 0 in the first round; "5+14", or "5.4" where nothing counts."""
    k, i, amount = point
    if task["format"] == "time" and point == (walk.rounds, 0, 0):
        return clock(time) if time is not None else number(k)
    if k >= walk.rounds or not amount:
        return number(k)
    if amount >= sum(leg[2] for leg in walk.legs if leg[:2] == (k + 1, i)) - 1e-9:
        name = in_goal([station["name"] for station in task["stations"]], i)
        return f"{k} + {name}" if k else name
    if walk.points(k + 1):
        return f"{k}+{number(walk.reps(point) - walk.reps((k, 0, 0)))}"
    return tenths(walk, point)


def score_words(task, walk, score):
    """What a score sheet says: rounds and the reps of the next, the time, or the reps that are missing at the cap."""
    point = score["point"]
    if score["time"] is not None:
        return clock(score["time"])
    if task["format"] == "time":
        return (f"CAP+{number(walk.reps((walk.rounds, 0, 0)) - score['reps'])}" if walk.points(1)
                else goal_words(task, walk, point, None))
    if not walk.points(1):
        return tenths(walk, point)
    more = score["reps"] - walk.reps((point[0], 0, 0))
    return number(point[0]) + (f"+{number(more)}" if more else "")


def practice(task, goal_time, round_time, hold):
    """A fifth of the work at most: one or two easy rounds, then one at the planned pace, or less of one."""
    most = 0.2 * goal_time / round_time
    easy = min(max(0, math.floor(most + 1e-9) - 1), task["rehearsal_rounds"] - 1)
    slower = task["rehearsal"]
    return [easy, min(1, most), round_time / slower, round_time * min(1, most),
            hold and 5 * math.floor(hold * slower / 5 + 1e-9), hold]
