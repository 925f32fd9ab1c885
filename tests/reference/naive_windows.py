"""The plan of intervals: every window walked unit by unit."""
import math

from naive_ergometer import machine_of, naive_card
from naive_walk import share_of
from naive_words import number, practice


def naive_windows(task, person, out, walk, each, given):
    """The plan of intervals: every window walked unit by unit."""
    team = bool(task.get("part"))
    stations, limit, many, main = task["stations"], task["work"], task["windows"], given["main"]
    fixed = lambda i: stations[i]["unit"] in ("hold", "rest")
    out["card"], out["needs"], out["no_room"], out["ceiling"] = None, None, False, None

    def score(slower):
        held, reps = 0, []
        rows = out["window"] = {}
        for k in range(1, many + 1):
            pace, now, done, late = slower * (1 + task["fade"] * (k - 0.5) / many), 0.0, 0, False
            legs, end = [leg for leg in walk.legs if leg[0] == k], 0.0
            for r, i, amount, work, pause, x in legs:
                start, unit = now, (work + pause) / amount * (1 if fixed(i) else pace)
                for u in range(1, amount + 1):
                    if start + u * unit <= limit + 1e-9 * unit and not late:
                        done += stations[i]["points"]
                now = start + amount * unit
                late = late or now > limit + 1e-9
                end = now
                now += x * pace
            held += not late
            rows[k] = ((k - 1) * task["window"], end, limit - end, done)
            if legs:
                reps.append(done)
        return dict(rounds=held, reps=min(reps) if task["scoring"] == "lowest" else sum(reps), time=None)

    out["low"], out["high"] = score(1 + 1.2816 * given["below"]), score(max(0.5, 1 - 1.2816 * given["plain"]))
    out["expected"] = score(1)
    out["failing"] = next((k for k, row in out["window"].items() if row[2] < -1e-9), None)
    for which in ("low", "expected", "high"):
        out[which]["words"] = number(out[which]["reps"])
    first = many
    for k in range(1, many + 1):
        pace, now = 1 + task["fade"] * (k - 0.5) / many, 0.0
        for r, i, amount, work, pause, x in walk.legs:
            if r == k:
                now += (work + pause) * (1 if fixed(i) else pace)
                end = now
                now += x * pace
        if end > limit + 1e-9:
            first = max(1, k - 1)
            break
    held = max(1, min(many, int(person["goal"][1]))) if person["goal"] else first
    need, rate = None, given["found"][machine_of(stations[main]["unit"])] if main is not None else None
    rooms = []
    for k in range(1, held + 1):
        legs = [leg for leg in walk.legs if leg[0] == k]
        if main is None or not any(leg[1] == main for leg in legs):
            continue
        slow = lambda i: 1 if fixed(i) or machine_of(stations[i]["unit"]) else 1 + task["fade"]
        rest = sum((0 if i == main else work * slow(i)) + pause for _, i, a, work, pause, x in legs)
        rest += sum(x for *_, x in legs[:-1]) * (1 + task["fade"])
        rooms.append((limit - rest) / next(a for _, i, a, *_ in legs if i == main) / share_of(task, main))
    if rooms:
        out["no_room"] = min(rooms) <= 1e-9
        need = None if out["no_room"] else given["rate_at"](main, min(rooms))
        out["card"] = naive_card(rate, need, stations[main]["unit"] == "armbike cal", rate["alone"],
                                 given["calories"])
        out["on_machine"] = given["on_machine"](out["card"]["hold"])
        out["ceiling"] = rate["alone"]
    out["needs"] = need

    clocks, target = {}, 0.0
    for k in range(1, held + 1):
        now, end = 0.0, 0.0
        for r, i, amount, work, pause, x in walk.legs:
            if r != k:
                continue
            machine = machine_of(stations[i]["unit"])
            if out["card"] and not team and machine and machine == machine_of(stations[main]["unit"]):
                work = amount * task["share"] * given["each_at"](i, out["card"]["hold"])
            slow = 1 if machine or fixed(i) else 1 + task["fade"] / 2
            now += work * slow + pause * (slow if team else 1)
            clocks[k, i] = (k - 1) * task["window"] + now
            end = now
            now += x * (1 + task["fade"] / 2)
        target = max(target, end)
        clocks[k, "end"] = (k - 1) * task["window"] + end
    out["goal"] = (None, clocks[held, "end"])
    out["suggested"] = (None, 0)
    for which, many_held in (("suggested", first), ("goal", held)):
        out[which + "_words"], out[which + "_rounds"] = number(many_held), many_held
    out["rehearsal"] = practice(task, held * target, target, out["card"] and out["card"]["hold"])
    out["line"], out["down"], out["check"] = dict(clocks=clocks, target=target), None, None
    return out
