#!/usr/bin/python3
"""Compares the plans of the model with a second, naive implementation: naive_plan.py PATH_TO_plan_reference [SEED] [N].

800 random workouts and athletes, a third of them intervals. Here the workout is a list of single units with the time at which each is done; a score
is how many of them are done by then. Sets are simulated set by set, rests found by halving. Nothing is shared with the
model but the meaning of the numbers; defaults and constants are written here a second time, as include/pacecells says.
"""
import math
import random
import subprocess
import sys

driver = sys.argv[1]
seed = int(sys.argv[2]) if len(sys.argv) > 2 else random.SystemRandom().randrange(2**32)
count = int(sys.argv[3]) if len(sys.argv) > 3 else 800
print(f"seed {seed}")
rng = random.Random(seed)

MACHINES = ("row", "ski", "bike", "armbike")
CAL = tuple(f"{m} cal" for m in MACHINES)
METRES = {"row m": 500, "ski m": 500, "bike m": 1000, "run m": 1000}
MOST = 200


def watts(rate):
    return (rate - 300) / (4 * 0.8604)


def calh(power):
    return 300 + 4 * 0.8604 * power


def machine_of(unit):
    return None if unit == "run m" or unit.split()[0] not in MACHINES else unit.split()[0]


# ---- sets: three pools, set by set ----

POOLS = ((0.38, 10), (0.55, 90), (0.07, 3600))


def near_even(reps, sets):
    small, more = divmod(reps, sets)
    return [small + 1] * more + [small] * (sets - more)


def text(scheme):
    parts, i = [], 0
    while i < len(scheme):
        run = scheme[i:].count(scheme[i]) if scheme[i] == scheme[-1] else scheme.count(scheme[i])
        parts += [f"{run}x{scheme[i]}"] if run >= 4 else [str(scheme[i])] * run
        i += run
    return "-".join(parts)


def left(scheme, rounds, most, away, rest, recovery):
    """In hand at the worst end of a set, all rounds simulated."""
    pools, worst = [0.0] * 3, math.inf
    for k in range(rounds):
        for i, reps in enumerate(scheme):
            pause = (away if k else None) if i == 0 else rest
            if pause is not None:
                pools = [x * math.exp(-recovery * pause / tau) for x, (_, tau) in zip(pools, POOLS)]
            pools = [x + reps * share for x, (share, _) in zip(pools, POOLS)]
            worst = min(worst, most - sum(pools))
    return worst


def rest_for(scheme, rounds, most, away, recovery):
    margin = 0.1 * (most - 1)
    keeps = lambda rest: left(scheme, rounds, most, away, rest, recovery) >= margin - 1e-9
    if keeps(0):
        return 0.0
    if not keeps(1e9):
        return None
    low, high = 0.0, 1.0
    while not keeps(high):
        low, high = high, high * 2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if keeps(middle) else (middle, high)
    return max(0.5, high)


def plan_sets(reps, rounds, most, away, recovery):
    rests, costs = {}, {}
    for sets in range(1, reps + 1):
        if costs and 3 * (sets - 1) > max(min(costs.values()) + 5, 1.1 * min(costs.values())):
            break
        rest = rest_for(near_even(reps, sets), rounds, most, away, recovery)
        if rest is not None:
            rests[sets] = 0.0 if sets == 1 else max(3.0, rest)
            costs[sets] = (sets - 1) * rests[sets]
    if not costs:
        return None
    least = min(costs.values())
    for sets in sorted(costs):
        if costs[sets] <= least + max(5, 0.1 * least) + 1e-9:
            return near_even(reps, sets), rests[sets]


def fall_back(reps, rounds, most, away, recovery, from_test):
    first = plan_sets(reps, rounds, most, away, recovery)
    if first is None:
        return None
    noise = 0.7 + 0.06 * most if from_test else 0.25 * most
    second = plan_sets(reps, rounds, min(most, max(1.5, most - noise)), away, recovery)
    return second or ([1] * reps, max(3.0, first[1]))


def printed(rest):
    for step in (0, 3, 5, 10, 15, 20):
        if rest <= step + 1e-9:
            return step
    return 5 * math.ceil(rest / 5 - 1e-9)


# ---- the workout as a list of units ----

class Walk:
    """legs: (round, station, amount, seconds of work, of pauses, of walking)."""

    def __init__(self, task, each, pauses, rounds):
        self.task, self.legs = task, []
        for k in range(1, rounds + 1):
            for i, s in enumerate(task["stations"]):
                amount = task_amount(task, i, k)
                if amount > 0:
                    walk = (s["handling"] or 0) + (task["steps"] if s["steps"] is None else s["steps"]) * 0.6
                    self.legs.append((k, i, amount, amount * each[i], pauses(i, k), walk))
        self.rounds = rounds
        # intervals: the rest of a window goes to the walking of its last station
        self.idle = {}
        if task["format"] == "intervals":
            for k in range(1, rounds + 1):
                busy = sum(leg[3] + leg[4] + leg[5] for leg in self.legs if leg[0] == k)
                self.idle[k] = max(0, task["window"] - busy)

    def units(self):
        """Times at which each unit is done, and when each station and round is over."""
        now, out = 0.0, []
        for k, i, amount, work, pause, walk in self.legs:
            out += [(now + (work + pause) * u / amount, k, i, u) for u in range(1, amount + 1)]
            now += work + pause + walk
        return out

    def round_time(self, k):
        return sum(w + p + x for r, _, _, w, p, x in self.legs if r == k)

    def points(self, k):
        return sum(a * self.task["stations"][i]["points"] for r, i, a, *_ in self.legs if r == k)

    def last_of(self, k):
        return [leg for leg in self.legs if leg[0] == k][-1]

    # a point is (whole rounds, station, amount of it); (k, 0, 0) is the end of round k
    def tidy(self, point):
        k, i, amount = point
        if amount and k < self.rounds and self.last_of(k + 1)[1] == i and amount >= self.last_of(k + 1)[2] - 1e-9:
            return (k + 1, 0, 0)
        return point

    def at(self, seconds):
        """The point reached by then."""
        now, point = 0.0, (0, 0, 0)
        for k, i, amount, work, pause, walk in self.legs:
            each = (work + pause) / amount
            done = min(amount, math.floor((seconds - now) / each + 1e-9)) if seconds >= now - 1e-9 else 0
            if seconds + 1e-9 < now + work + pause:
                return self.tidy((k - 1, i, max(0, done)))
            point = self.tidy((k - 1, i, amount))
            now += work + pause + walk
            if seconds + 1e-9 < now:
                return point
        return (self.rounds, 0, 0)

    def seconds(self, point):
        k, i, amount = point
        total = 0.0
        for r, j, a, work, pause, walk in self.legs:
            if r <= k or (r == k + 1 and j < i):
                total += work + pause + walk
            elif r == k + 1 and j == i and amount:
                total += (work + pause) * min(1, amount / a)
        return total

    def reps(self, point):
        k, i, amount = point
        points = [s["points"] for s in self.task["stations"]]
        return sum(a * points[j] for r, j, a, *_ in self.legs if r <= k or (r == k + 1 and j < i)) + \
            sum(math.floor(min(a, amount) + 1e-9) * points[j] for r, j, a, *_ in self.legs if r == k + 1 and j == i and amount)

    def decimal(self, point):
        k, i, amount = point
        if k >= self.rounds:
            return k
        by_points, part = self.points(k + 1) > 0, 0.0
        for r, j, a, w, p, x in self.legs:
            if r != k + 1 or j > i:
                continue
            share = 1 if j < i else min(1, amount / a)
            part += share * (a * self.task["stations"][j]["points"] / self.points(k + 1) if by_points
                             else (w + p + x) / self.round_time(k + 1))
        return k + part

    def of(self, rounds):
        whole = math.floor(rounds + 1e-9)
        part = rounds - whole
        if whole >= self.rounds:
            return (self.rounds, 0, 0)
        if part <= 1e-9:
            return (whole, 0, 0)
        by_points = self.points(whole + 1) > 0
        left_over = part * (self.points(whole + 1) if by_points else self.round_time(whole + 1))
        for r, j, a, w, p, x in self.legs:
            if r == whole + 1:
                each = self.task["stations"][j]["points"] if by_points else (w + p + x) / a
                if each > 0 and each * a >= left_over - 1e-9:
                    return self.tidy((whole, j, min(a, left_over / each)))
                left_over -= each * a
        return (whole + 1, 0, 0)

    def station_end(self, seconds):
        now, found = 0.0, None
        for k, i, amount, work, pause, walk in self.legs:
            last = self.last_of(k)[1] == i
            if now + work + pause + (walk if last else 0) > seconds + 1e-9:
                return found
            if self.task["stations"][i]["unit"] != "rest":
                found = self.tidy((k - 1, i, amount))
            now += work + pause + walk
        return found

    def first_end(self):
        return next(self.tidy((k - 1, i, a)) for k, i, a, *_ in self.legs if self.task["stations"][i]["unit"] != "rest")


def task_amount(task, i, k):
    s = task["stations"][i]
    if (s["when"] == "first" and k != 1) or (s["when"] == "last" and k != task["rounds"]):
        return 0
    kind, values = s["amounts"]
    if task.get("in_turn") and (k - 1) % len(task["stations"]) != i:
        return 0
    if kind == "every":
        return values[0]
    if k <= len(values):
        return values[k - 1]
    return values[-1] + (values[1] - values[0]) * (k - len(values)) if kind == "open" else 0


# ---- the plan ----

def naive(task, person):
    stations, cap, fade = task["stations"], task["cap"], 1 - task["fade"] / 2
    last = cap - task["slip"]
    windows = task["windows"] if task["format"] == "intervals" else None
    group = person["group"] or (1, 1, 1)
    timed = task["format"] == "time"
    out = {}

    def base_each(s):
        unit, usual = s["unit"], s["usual"]
        if unit in ("hold", "rest"):
            return 1.0
        if unit in CAL:
            return 3600 / (usual * group[0])
        if unit == "run m":
            return usual / 1000 * group[1]
        if unit in METRES:
            return usual / METRES[unit] / group[0]
        return s["own_rep"] or usual * group[1]

    base = [base_each(s) for s in stations]
    no_pause = lambda i, k: 0.0

    def walk_for(each, pauses):
        if timed or windows:
            return Walk(task, each, pauses, windows or task["rounds"])
        rounds = max(8, math.ceil(person["goal"][1] if person["goal"] and person["goal"][0] != "time" else 0) + 2)
        while True:
            made = Walk(task, each, pauses, min(rounds, MOST))
            if rounds >= MOST or sum(made.round_time(k) for k in range(1, made.rounds + 1)) > 2 * cap:
                return made
            rounds *= 2

    def expected(walk):
        return windows or task["rounds"] if timed or windows else max(1, math.ceil(walk.decimal(walk.at(cap * fade)) - 1e-9))

    first = walk_for(base, no_pause)
    whole = expected(first)
    time = cap
    if timed:
        time = min(cap, sum(first.round_time(k) for k in range(1, first.rounds + 1)) / fade)
    main = next((i for i, s in enumerate(stations) if s["unit"] in CAL), None)
    if main is None:
        main = next((i for i, s in enumerate(stations) if machine_of(s["unit"])), None)
    used = [m for m in MACHINES if any(machine_of(s["unit"]) == m for s in stations)]

    def other(machine, pauses):
        total, walking, rest, on = 0.0, 0.0, 0.0, set()
        for k, i, amount, work, _, walk in first.legs:
            if k > whole:
                continue
            walking += walk
            total += walk
            if machine_of(stations[i]["unit"]) != machine:
                total += work
                rest += work if stations[i]["unit"] == "rest" else 0
            if machine_of(stations[i]["unit"]) == machine:
                on.add(k)
        for k in range(1, min(whole, first.rounds) + 1):
            waiting = max(first.idle.get(k, 0), sum(pauses(i, r) for r, i, *_ in first.legs if r == k))
            total += waiting
            rest += waiting
        many = max(1, len(on))
        return total / many, walking / many, rest / many

    def rates(pauses):
        found = {}
        for m in used:
            total, walking, rest = other(m, pauses)
            work = (total - walking - rest + 0.3 * walking) / max(total, 30)
            share = min(0.9, person["factor"] * (0.90 - 0.15 * work))
            tests = person["tests"].get(m, {})
            old = tests.get("date") is not None and task["date"] - tests["date"] > 84
            sd = person["factor_sd"] or 0.10
            own = next(i for i, s in enumerate(stations) if machine_of(s["unit"]) == m)
            group_rate = (3600 / base[own] if stations[own]["unit"] in CAL
                          else calh(3.5e8 / (base[own] * METRES[stations[own]["unit"]]) ** 3))
            rate = dict(source=4 if person["group"] else 5, rate=group_rate, doubt=0.20, alone=None)
            rate["share"] = 0
            if tests.get("cp") and not old and m != "armbike":
                alone, error = tests["cp"] + tests["reserve"] / time, 0.03 ** 2
                if windows:
                    mine = [leg for leg in first.legs if machine_of(stations[leg[1]]["unit"]) == m]
                    bouts = len({leg[0] for leg in mine})
                    calories = sum(leg[3] / 3600 * rate_at(leg[1], base[leg[1]]) for leg in mine) / max(1, bouts)
                    rested = bouts and bouts_limit(bouts, calories, (total, walking, rest), tests["cp"], tests["reserve"])
                    if rested > alone:
                        alone, error = rested, 0.03 ** 2 + 0.1 ** 2
                rate = dict(source=1, rate=calh(share * alone), alone=calh(alone), share=share,
                            doubt=math.sqrt(sd ** 2 + 0.04 ** 2 + error))
            elif tests.get("time") and not old:
                shown = 3600 * tests["calories"] / tests["time"]
                strength = shown if m == "armbike" else watts(shown)
                alone = strength * (tests["time"] / time) ** EXPONENT
                show = (lambda x: x) if m == "armbike" else calh
                error = 0.04 * abs(math.log(time / tests["time"]))
                if strength > 0 and (m == "armbike" or show(share * alone) > 305):
                    rate = dict(source=2, rate=show(share * alone), alone=show(alone), share=share,
                                doubt=math.sqrt(sd ** 2 + 0.04 ** 2 + error ** 2))
            found[m] = rate
        return found

    def each_at(i, rate):
        unit = stations[i]["unit"]
        return 3600 / rate if unit in CAL else (3.5e8 / watts(rate)) ** (1 / 3) / METRES[unit]

    def rate_at(i, each):
        unit = stations[i]["unit"]
        return 3600 / each if unit in CAL else calh(3.5e8 / (each * METRES[unit]) ** 3)

    def paced(found):
        return [each_at(i, found[machine_of(s["unit"])]["rate"])
                if machine_of(s["unit"]) and found[machine_of(s["unit"])]["source"] < 4 else base[i]
                for i, s in enumerate(stations)]

    walk = walk_for(paced(rates(no_pause)), no_pause)
    whole = expected(walk)

    # sets
    def away_in(i, k):
        """Since the station was done before round k; 0 the first time."""
        s = stations[i]
        before = [n for n, leg in enumerate(walk.legs) if leg[1] == i and leg[0] < k]
        now = next((n for n, leg in enumerate(walk.legs) if leg[1] == i and leg[0] == k), None)
        if not before or now is None:
            return 0.0
        total = 0.0
        for n in range(before[-1], now):
            r, j, _, work, _, x = walk.legs[n]
            t = stations[j]
            share = (1 if t["unit"] == "rest" else 0 if t["name"] == s["name"] else t["away_share"]
                     if t["away_share"] is not None else 0.4 if t["grip"] and s["grip"] else 0.7)
            total += x + (work * share if j != i else 0)
            if n + 1 == len(walk.legs) or walk.legs[n + 1][0] != r:
                total += sum(walk.idle.get(k, 0) for k in range(r, walk.legs[n + 1][0]))
        return total

    def finish_sets(plan, reps):
        scheme, rest = ([1] * reps, 60) if plan is None else (plan[0], min(60, printed(plan[1])))
        return scheme, rest if len(scheme) > 1 else 0, plan is None or plan[1] > 60

    sets = {}
    for i, s in enumerate(stations):
        amounts = [task_amount(task, i, k) for k in range(1, whole + 1)]
        if s["unit"] != "rep" or not max(amounts):
            continue
        if s["own_longest"]:
            most, tested = s["own_longest"], True
        elif s["load"] and s["own_max"]:
            if s["load"] > s["own_max"]:
                continue
            most, tested = max(1, 30 * (s["own_max"] / s["load"] - 1)), False
        elif s["longest"]:
            most, tested = max(1, s["longest"] * group[2]), False
        else:
            continue
        largest, recovery = max(amounts), s["recovery"] or 1
        away_before = [away_in(i, k) for k in range(1, whole + 1)]
        if all(a in (0, largest) for a in amounts):
            rounds = amounts.count(largest)
            again = [away for a, away in zip(amounts, away_before) if a][1:]
            jobs = [(largest, rounds, min(again) if again else 0.0)]
        else:
            jobs = [(a, math.ceil(sum(amounts[:k + 1]) / a - 1e-9) if a else 0, away_before[k]) for k, a in enumerate(amounts)]
        done = [finish_sets(plan_sets(a, r, most, away, recovery), a) if a else None for a, r, away in jobs]
        at = [job[0] for job in jobs].index(largest)
        scheme, rest, _ = done[at]
        back, back_rest, _ = finish_sets(fall_back(*jobs[at][:2], most, jobs[at][2], recovery, tested), largest)
        _, rounds, away = jobs[at]
        sets[i] = dict(scheme=scheme, rest=rest, back=back, back_rest=back_rest, away=away, rounds=rounds, most=most,
                       hard=any(one and one[2] for one in done), jobs=jobs, done=done, reps=largest,
                       left=left(scheme, rounds, most, away, rest, recovery))

    def pause_of(i, k, back=False):
        amount = task_amount(task, i, k)
        if i not in sets or not amount:
            return 0.0
        s = sets[i]
        if back:
            longest, rest = s["back"], s["back_rest"]
            breaks = len(longest) - 1 if amount == s["reps"] else math.ceil(amount / max(longest)) - 1
            return breaks * rest
        if k <= len(s["jobs"]) and s["jobs"][k - 1][0] == amount:
            scheme, rest, _ = s["done"][k - 1]
            return (len(scheme) - 1) * rest
        scheme, rest, _ = s["done"][-1] or ([1], 0, False)
        breaks = len(scheme) - 1 if amount == s["jobs"][-1][0] else math.ceil(amount / max(scheme)) - 1
        return breaks * rest

    found = rates(pause_of)
    each = paced(found)
    walk = walk_for(each, pause_of)
    out["rate"], out["each"], out["sets"] = found, each, sets
    out["other"] = other(machine_of(stations[main]["unit"]), pause_of) if main is not None else (0, 0, 0)
    reference = 2 if any(s["when"] == "first" for s in stations) and walk.rounds > 1 else 1
    out["round"] = walk.round_time(reference) + walk.idle.get(reference, 0)

    # the predicted score and its range
    total = others = 0.0
    machines, backs = dict.fromkeys(MACHINES, 0.0), [0.0] * len(stations)
    for k, i, amount, work, pause, x in walk.legs:
        if k > min(whole, walk.rounds):
            continue
        total += work + pause + x
        m = machine_of(stations[i]["unit"])
        if m:
            weaker = math.exp(-found[m]["doubt"])
            rate = rate_at(i, each[i])
            rate = rate * weaker if m == "armbike" else 300 + (rate - 300) * weaker
            machines[m] += amount * each_at(i, rate) - work
        elif stations[i]["unit"] not in ("rest", "hold"):
            others += work * (0.04 if stations[i]["own_rep"] else 0.08)
        backs[i] += pause_of(i, k, True) - pause
    plain = others ** 2 + sum(x ** 2 for x in machines.values())
    below = plain + sum(max(0, x) ** 2 for x in backs)
    if windows:
        return naive_windows(task, person, out, walk, each, dict(
            plain=math.sqrt(plain) / total, below=math.sqrt(below) / total, main=main, found=found, each_at=each_at,
            rate_at=rate_at))
    finish = walk.seconds((walk.rounds, 0, 0))

    def score(point, clock=None):
        return dict(rounds=walk.decimal(point), reps=walk.reps(point), time=clock, point=point)

    def at(slower):
        if timed and finish * slower <= cap * fade + 1e-9:
            return score((walk.rounds, 0, 0), finish * slower / fade)
        return score(walk.at(cap * fade / slower))

    out["expected"] = at(1)
    out["low"] = at(1 + 1.2816 * math.sqrt(below) / total)
    out["high"] = at(max(0.5, 1 - 1.2816 * math.sqrt(plain) / total))

    # goals: (point, clock)
    step, step_time = task["goal_step"], 10
    up = lambda x, to: math.ceil(x / to - 1e-9) * to
    down = lambda x, to: math.floor(x / to + 1e-9) * to
    end = (walk.rounds, 0, 0)
    if timed and finish <= last * fade + 1e-9:
        goal = (end, min(last, up(finish / fade, step_time)))
    elif step:
        goal = (walk.of(max(step, down(walk.decimal(walk.at(last * fade)), step))), last)
    else:
        goal = (walk.station_end(last * fade) or walk.first_end(), last)
    out["suggested"] = goal
    if person["goal"]:
        kind, rounds, more = person["goal"]
        if kind == "time":
            goal = (end, more)
        elif kind == "rounds":
            goal = (walk.of(rounds), last)
        elif kind == "station":
            goal = (walk.tidy((rounds, more, task_amount(task, more, rounds + 1))), last)
        else:
            reps, point = more, (rounds, 0, 0)
            for r, j, a, *_ in walk.legs:
                if r == rounds + 1 and reps > 0:
                    points = stations[j]["points"]
                    if points and points * a >= reps:
                        point, reps = walk.tidy((rounds, j, reps / points)), 0
                    else:
                        reps -= points * a
            goal = (point, last)

    def lower(goal, slower, one_step):
        point, clock = goal
        if timed and point == end:
            later = max(up(clock * slower, step_time), clock + step_time)
            if later <= last + 1e-9:
                return point, later
        reached = walk.seconds(point) * last / clock / slower
        if step:
            before = walk.decimal(point)
            most = up(before - step, step) if one_step else down(walk.decimal(walk.at(reached)), step)
            rounds = max(step, min(most, up(before - step, step)))
            return (walk.of(rounds), last) if rounds < before - 1e-9 else None
        new = walk.station_end(reached) or walk.first_end()
        return (new, last) if walk.seconds(new) < walk.seconds(point) - 1e-9 else None

    drift = -0.06 if person["answer"] == "more_left" else 0
    if person["answer"] == "only_just":
        goal = lower(goal, 1.04, True) or goal
    if person["answer"] == "no":
        goal = lower(goal, 1 / 0.825, False) or goal
    out["goal"] = goal

    # what it needs, and the card
    def way(point, times):
        """(machines, fixed, free) seconds on the way to a point; times(leg) gives work."""
        parts = [0.0, 0.0, 0.0]
        k, i, amount = point
        for leg in walk.legs:
            r, j, a, _, pause, x = leg
            part = 1 if r <= k or (r == k + 1 and j < i) else min(1, amount / a) if r == k + 1 and j == i and amount else 0
            unit = stations[j]["unit"]
            parts[0 if machine_of(unit) else 1 if unit in ("hold", "rest") else 2] += part * times(leg)
            parts[1] += part * pause
            parts[2] += x if r <= k or (r == k + 1 and j < i) else 0
        return parts

    card, need, no_room = None, None, False
    if main is not None:
        rate = found[machine_of(stations[main]["unit"])]
        arm = stations[main]["unit"] == "armbike cal"
        on, fixed, free = way(goal[0], lambda leg: leg[3])
        mine = [leg for leg in walk.legs
                if leg[0] <= whole and machine_of(stations[leg[1]]["unit"]) == machine_of(stations[main]["unit"])]
        calories = sum(w / 3600 * rate_at(i, each[i]) for k, i, a, w, p, x in mine) / max(1, len({leg[0] for leg in mine}))
        if on > 0:
            room = goal[1] * fade - fixed - free
            no_room = room <= 1e-9
            need = None if no_room else rate_at(main, each[main] * room / on)
            ceiling = rate["alone"]
            if rate["source"] == 1:
                tests = person["tests"][machine_of(stations[main]["unit"])]
                ceiling = hold(time, calories, out["other"], tests["cp"], tests["reserve"])
            out["ceiling"] = ceiling
            card = naive_card(rate, need, arm, ceiling)
    out["needs"], out["no_room"], out["card"] = need, no_room, card

    def line(goal, rate, drift):
        point, clock = goal
        mine = machine_of(stations[main]["unit"]) if main is not None else None

        def work(leg):
            machine = machine_of(stations[leg[1]]["unit"])
            return leg[2] * each_at(leg[1], rate) if rate and machine == mine else leg[3]

        on, fixed, free = way(point, work)
        by = (clock - on - fixed) / free if free > 0 else 0
        alike = by < 0.5
        if alike:
            by = clock / (on + fixed + free)
        now, clocks = 0.0, {}
        bend = lambda t: clock * min(1, t / clock) * (1 + drift / 2 * (min(1, t / clock) - 1))
        times = {}
        for leg in walk.legs:
            k, i, a, _, pause, x = leg
            fix = machine_of(stations[i]["unit"]) or stations[i]["unit"] in ("hold", "rest")
            w = work(leg) * (by if alike or not fix else 1) + pause * (by if alike else 1)
            times[k] = times.get(k, 0) + w + x * by
            if k <= point[0] or (k == point[0] + 1 and point[2] and (i < point[1] or (i == point[1] and point[2] >= a))):
                clocks[k, i] = bend(now + w)
            now += w + x * by
            if k <= point[0] and walk.last_of(k)[1] == i:
                clocks[k, "end"] = clock if k == point[0] and not point[2] else bend(now)
        if point[2]:
            clocks[point[0] + 1, "end"] = clock
        return dict(clocks=clocks, target=times[reference])

    out["line"] = line(goal, card and card["hold"], drift)
    low = lower(goal, 1.04, True)
    out["down"] = low
    out["check"] = None
    if low:
        out["down_line"] = line(low, card and card["floor"], 0)
        rounds = goal[0][0] + (1 if goal[0][2] else 0)
        common = [k for k in range(1, min(goal[0][0], low[0][0]) + 1) if k != rounds]
        if common:
            k = min(common, key=lambda k: (abs(out["line"]["clocks"][k, "end"] - 0.4 * min(cap, goal[1])), k))
            out["check"] = (k, (out["line"]["clocks"][k, "end"] + out["down_line"]["clocks"][k, "end"]) / 2)
    return out


EXPONENT = 3 * (1 - 1 / 1.06)  # Riegel: time grows with distance to 1.06, so watts fall with this power of time


def hold(cap, calories, other, cp, reserve):
    """The largest rate between keeping a tenth of the reserve and all of it alone, by halving."""
    total, walking, rest = other
    work = total - walking - rest

    def spent(power):
        p, v = power - cp, 0.9 * power - cp
        t_e = 3600 * calories / calh(power)
        if cap <= t_e:
            return p * cap
        t = t_e + total
        used = p * t_e + max(v, 0) * work
        d = (max(-v, 0) * work + 0.7 * cp * walking + cp * rest) / reserve
        f = lambda m: m if d <= 1e-12 else math.expm1(-m * d) / math.expm1(-d)
        worst = p * t_e + math.exp(-d) * used * f((cap - t_e) / t)
        if v > 0:
            worst = max(worst, p * t_e + v * (cap - t_e) if cap < t_e + work else used * f((cap - t_e - work) / t + 1))
        return worst

    low, high = cp + 0.9 * reserve / cap, cp + reserve / cap
    if spent(high) <= 0.9 * reserve:
        return calh(high)
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if spent(middle) <= 0.9 * reserve else (low, middle)
    return calh(low)


def bouts_limit(bouts, calories, other, cp, reserve):
    """The highest watts at which so many bouts leave a tenth of the reserve, a third of the rest counted; by halving."""
    total, walking, rest = other
    work, rest = total - walking - rest, rest / 3

    def left(power):
        p, v, t_e = power - cp, 0.9 * power - cp, 3600 * calories / calh(power)
        used = p * t_e + max(v, 0) * work
        keeps = math.exp(-(max(-v, 0) * work + 0.7 * cp * walking + cp * rest) / reserve)
        now = 0.0
        for _ in range(bouts):
            now = now * keeps + used
        return 1 - now / reserve

    low, high = cp, 1500
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if left(middle) >= 0.1 else (low, middle)
    return low


def naive_windows(task, person, out, walk, each, given):
    """The plan of intervals: every window walked unit by unit."""
    stations, limit, many, main = task["stations"], task["work"], task["windows"], given["main"]
    fixed = lambda i: stations[i]["unit"] in ("hold", "rest")
    out["card"], out["needs"], out["no_room"], out["ceiling"] = None, None, False, None

    def score(slower):
        held, reps = 0, []
        for k in range(1, many + 1):
            pace, now, done, late = slower * (1 + task["fade"] * (k - 0.5) / many), 0.0, 0, False
            legs = [leg for leg in walk.legs if leg[0] == k]
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
            if legs:
                reps.append(done)
        return dict(rounds=held, reps=min(reps) if task["scoring"] == "lowest" else sum(reps), time=None)

    out["expected"] = score(1)
    out["low"], out["high"] = score(1 + 1.2816 * given["below"]), score(max(0.5, 1 - 1.2816 * given["plain"]))
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
        rooms.append((limit - rest) / next(a for _, i, a, *_ in legs if i == main))
    if rooms:
        out["no_room"] = min(rooms) <= 1e-9
        need = None if out["no_room"] else given["rate_at"](main, min(rooms))
        out["card"] = naive_card(rate, need, stations[main]["unit"] == "armbike cal", rate["alone"])
        out["ceiling"] = rate["alone"]
    out["needs"] = need

    clocks, target = {}, 0.0
    for k in range(1, held + 1):
        now, end = 0.0, 0.0
        for r, i, amount, work, pause, x in walk.legs:
            if r != k:
                continue
            machine = machine_of(stations[i]["unit"])
            if out["card"] and machine and machine == machine_of(stations[main]["unit"]):
                work = amount * given["each_at"](i, out["card"]["hold"])
            now += work * (1 if machine or fixed(i) else 1 + task["fade"] / 2) + pause
            clocks[k, i] = (k - 1) * task["window"] + now
            end = now
            now += x * (1 + task["fade"] / 2)
        target = max(target, end)
        clocks[k, "end"] = (k - 1) * task["window"] + end
    out["goal"] = (None, clocks[held, "end"])
    out["suggested"] = (None, 0)
    out["line"], out["down"], out["check"] = dict(clocks=clocks, target=target), None, None
    return out


def naive_card(rate, need, arm, ceiling):
    """What to hold, never above, situation, chance, from the rate to plan with and what is needed (None: no room)."""
    strength = (lambda x: x) if arm else watts
    show = (lambda x: x) if arm else calh
    asked = 100000 if need is None else need
    reach = show(strength(rate["rate"]) * math.exp(0.6745 * rate["doubt"]))
    limit = min(reach, max(ceiling, rate["rate"])) if ceiling else reach
    five = lambda x: 5 * math.floor(x / 5 + 1e-9)
    floor, never, wanted = five(rate["rate"]), five(limit), -five(-asked)
    situation = 1 if wanted <= floor else 2 if wanted <= never else 3
    mean = need if arm and need is not None else wanted
    normal = lambda z: math.erfc(-z / math.sqrt(2)) / 2
    chance = 1 if strength(mean) <= 0 else normal(-math.log(strength(mean) / strength(rate["rate"])) / rate["doubt"])
    return dict(hold=wanted if situation == 2 else floor, never=never, situation=situation, chance=chance, floor=floor)


# ---- random cases ----

NAMES = ("Sandbags", "Box step-overs", "Ring rows", "Floor presses", "Kettle swings", "Leg raises")
GROUPS = {"quick": (1.15, 0.9, 1.2), "middle": (1, 1, 1), "steady": (0.85, 1.15, 0.8)}


def random_task():
    timed = rng.random() < 0.35
    rounds = rng.randint(1, 6) if timed else None
    ladder = rng.random() < 0.25 and (not timed or rounds > 1)
    names = rng.sample(NAMES, len(NAMES))
    units = rng.sample(("rep", "rep", "rep", "rep", "row cal", "ski cal", "bike cal", "armbike cal", "row m", "bike m",
                        "run m", "carry m", "hold", "rest"), rng.randint(2, 5))
    if all(u in ("rest", "hold") for u in units):
        units[0] = "rep"
    stations = []
    for i, unit in enumerate(units):
        usual = (rng.choice((1.5, 2, 2.5, 3, 5)) if unit == "rep" else 50 * rng.randint(9, 22) if unit in CAL
                 else rng.randint(100, 160) if unit in ("row m", "ski m") else rng.randint(110, 190) if unit == "bike m"
                 else rng.randint(240, 400) if unit == "run m" else 0.8 if unit == "carry m" else 0)
        amount = lambda: (rng.randint(4, 20) if unit == "rep" or unit in CAL else 50 * rng.randint(2, 8)
                          if unit in METRES else rng.randint(10, 40))
        amounts = ("every", [amount()])
        if ladder and unit == "rep":
            if timed:
                amounts = ("list", [rng.randint(3, 30) for _ in range(rounds)])
            else:
                start, grow = rng.randint(1, 5), rng.randint(1, 3)
                amounts = ("open", [start, start + grow, start + 2 * grow])
        when = "every"
        if rng.random() < 0.1 and i > 0 and amounts[0] == "every":
            when = "last" if timed and rng.random() < 0.5 else "first"
        rep = unit == "rep"
        stations.append(dict(
            unit=unit, name=names.pop() if rep else unit, amounts=amounts, when=when, usual=usual,
            handling=rng.choice((None, 4, 6)), steps=rng.choice((None, None, 0, 8)),
            grip=rep and rng.random() < 0.3, away_share=rng.choice((None, None, None, 0.2, 1)),
            longest=rng.choice((None, 8, 12, 20)) if rep else None, points=1 if rep or unit in CAL else 0,
            load=rng.choice((None, 20, 40)) if rep else None,
            own_rep=rng.choice((None, None, 1.8, 2.7)) if rep else None,
            own_longest=rng.choice((None, None, 6, 10, 25)) if rep else None,
            own_max=rng.choice((None, None, 35, 60)) if rep else None,
            recovery=rng.choice((None, None, 0.8, 1.3)) if rep else None))
    if all(s["when"] != "every" for s in stations):
        stations[0]["when"] = "every"
    return dict(format="time" if timed else "amrap", rounds=rounds, cap=60 * rng.randint(5, 24), stations=stations,
                fade=rng.choice((0.06, 0.06, 0, 0.12)), slip=rng.choice((10, 10, 0, 20)), steps=3, date=46354,
                goal_step=rng.choice((None, None, None, 0.5, 1)))


def random_intervals():
    task = random_task()
    while task["format"] == "time" or any(s["amounts"][0] != "every" for s in task["stations"]):
        task = random_task()
    for s in task["stations"]:
        s["when"] = "every"
        if s["unit"] in METRES:
            s["amounts"] = ("every", [50 * rng.randint(1, 4)])
    many, in_turn = rng.randint(3, 12), rng.random() < 0.5
    work = rng.choice((40, 60, 90)) if in_turn else rng.choice((120, 180, 240))
    rest = rng.choice((0, 0, 20, 60))
    task.update(format="intervals", windows=many, in_turn=in_turn, work=work, window=work + rest, rounds=None,
                cap=many * (work + rest), goal_step=None, scoring=rng.choice(("lowest", "sum")))
    return task


def random_person(task):
    tests = {}
    for m in MACHINES:
        if rng.random() < 0.5:
            continue
        one = {"date": rng.choice((None, 46300, 46320, 46200))}
        if rng.random() < 0.6 and m != "armbike":
            one["cp"], one["reserve"] = rng.randint(120, 320), 500 * rng.randint(12, 50)
        if rng.random() < 0.6:
            one["time"] = rng.choice((180, 300, 480, 720))
            one["calories"] = round(one["time"] / 3600 * rng.randint(700, 1600))
        tests[m] = one
    goal = None
    kind = rng.choice((None, None, "rounds", "score", "station", "time"))
    if task["format"] == "intervals":
        kind = rng.choice((None, None, "rounds"))
    most = task["rounds"] if task["format"] == "time" else task["windows"] if task["format"] == "intervals" else 9
    round_points = lambda k: sum(task_amount(task, i, k) * s["points"] for i, s in enumerate(task["stations"]))
    if kind == "rounds":
        goal = (kind, min(most, rng.choice((1, 2, 3.5, 4, 5.25, 6) if task["format"] != "intervals" else (1, 3, 5))), None)
    elif kind == "score":
        k = rng.randint(0, most - 1)
        if round_points(k + 1) > 1:
            goal = (kind, k, rng.randint(1, round_points(k + 1) - 1))
    elif kind == "station":
        k = rng.randint(0, most - 1)
        i = rng.randrange(len(task["stations"]))
        if task_amount(task, i, k + 1) > 0 and task["stations"][i]["unit"] != "rest" \
                and sum(s["name"] == task["stations"][i]["name"] for s in task["stations"]) == 1:
            goal = (kind, k, i)
    elif kind == "time" and task["format"] == "time":
        goal = (kind, 0, rng.randint(120, task["cap"] - task["slip"]))
    name = rng.choice((None, *GROUPS))
    return dict(group=GROUPS.get(name), group_name=name, tests=tests, goal=goal,
                factor=rng.choice((1, 1, 0.93, 1.08)), factor_sd=rng.choice((None, 0.05)),
                answer=rng.choice((None, None, None, "more_left", "only_just", "no")))


def written(task, person):
    cell = lambda x: "" if x is None or x is False else str(x)
    clock = lambda s: f"{s // 60}:{s % 60:02d}"
    lines = ["pacecells.workout | value", "version | 1", "language | en", f"format | {task['format']}",
             f"cap | {clock(task['cap']) if task['format'] != 'intervals' else ''}", f"rounds | {cell(task['rounds'])}", f"date | {task['date']}",
             f"fade | {task['fade']}", f"slip_s | {task['slip']}", f"goal_step | {cell(task['goal_step'])}",
             *([f"work_s | {task['work']}", f"rest_s | {task['window'] - task['work']}", f"windows | {task['windows']}",
                f"in_turn | {'yes' if task['in_turn'] else ''}", f"scoring | {task['scoring']}"]
               if task["format"] == "intervals" else []),
             "stations | no | movement | unit | when | amount.1 | load.1", "divisions | | | | | open |"]
    for no, s in enumerate(task["stations"], 1):
        kind, values = s["amounts"]
        amounts = "-".join(map(str, values)) + ("-…" if kind == "open" else "")
        if kind == "list" and len(values) == 1:
            amounts = str(values[0])
        lines.append(f"station | {no} | {s['name']} | {s['unit']} | {'' if s['when'] == 'every' else s['when']} | {amounts} | {cell(s['load'])}")
    lines.append("paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts")
    for no, s in enumerate(task["stations"], 1):
        unit = s["unit"]
        rep = s["usual"] if unit in ("rep", "carry m") else None
        pace = clock(s["usual"]) if unit in METRES else None
        lines.append(f"pace | {no} | {cell(rep)} | {cell(s['usual'] if unit in CAL else None)} | {cell(pace)} | "
                     f"{cell(s['handling'])} | {cell(s['steps'])} | {'yes' if s['grip'] else ''} | {cell(s['away_share'])} | "
                     f"{cell(s['longest'])} |")
    lines.append("groups | name | erg | rep | sets")
    lines += [f"group | {name} | {a} | {b} | {c}" for name, (a, b, c) in GROUPS.items()]
    lines += ["end |", "--"]
    keys, labels, row = ["name", "factor", "factor_sd"], ["", "", ""], ["Ida Quellmann", person["factor"], cell(person["factor_sd"])]
    for m, one in person["tests"].items():
        for key, name in (("critical", "cp"), ("reserve", "reserve"), ("date", "date"), ("calories", "calories")):
            keys.append(f"{m}.{key}"), labels.append(""), row.append(cell(one.get(name)))
        keys.append(f"{m}.time"), labels.append(""), row.append(clock(one["time"]) if "time" in one else "")
    for s in task["stations"]:
        if s["unit"] == "rep":
            for key, name in (("longest", "own_longest"), ("max", "own_max"), ("rep_s", "own_rep"), ("recovery", "recovery")):
                keys.append(key), labels.append(s["name"]), row.append(cell(s[name]))
    lines += [" | ".join(map(str, part)) for part in (keys, labels, row)]
    goal = ""
    if person["goal"]:
        kind, rounds, more = person["goal"]
        goal = {"rounds": f"{rounds}", "score": f"{rounds}+{more}", "time": clock(more) if kind == "time" else "",
                "station": f"{rounds} + {task['stations'][more]['name']}" if kind == "station" else ""}[kind]
    lines += ["--", "name | division | group | goal | answer",
              f"Ida Quellmann | open | {cell(person['group_name'])} | {goal} | {cell(person['answer'])}", "=="]
    return "\n".join(lines) + "\n"


# ---- the comparison ----

def complaints(answer, want):
    """What differs between the lines of the driver and the naive plan."""
    wrong = []

    def same(what, got, expected, tolerance=1e-7):
        if got == "-" or expected is None:
            good = got == "-" and expected is None
        else:
            good = math.isclose(float(got), expected, rel_tol=tolerance, abs_tol=1e-6)
        if not good:
            wrong.append(f"{what}: got {got}, expected {expected}")

    seen = set()
    for text_line in answer:
        name, *words = text_line.split()
        seen.add(name)
        if name == "rate":
            one = want["rate"][MACHINES[int(words[0])]]
            same("source", words[1], one["source"])
            for what, word in zip(("rate", "share", "doubt", "alone"), words[2:]):
                same(f"{what} of {MACHINES[int(words[0])]}", word, one[what])
        elif name == "each":
            same("seconds each", words[1], want["each"][int(words[0])])
        elif name == "sets":
            one = want["sets"].get(int(words[0]))
            if one is None:
                wrong.append("sets where none are expected")
                continue
            if (words[1], words[3]) != (text(one["scheme"]), text(one["back"])):
                wrong.append(f"schemes {words[1]}, {words[3]}: expected {text(one['scheme'])}, {text(one['back'])}")
            for what, word in zip(("rest", "back_rest", "left", "away", "rounds", "most", "hard"), [words[2], *words[4:]]):
                same(f"{what} of sets", word, one[what], 1e-6)
        elif name == "other":
            for word, value in zip(words, want["other"]):
                same("other time", word, value)
        elif name == "round":
            same("round", words[0], want["round"])
        elif name in ("low", "expected", "high"):
            for what, word in zip(("rounds", "reps", "time"), words):
                same(f"{name} {what}", word, want[name][what])
        elif name == "suggested":
            same("suggested clock", words[1], want["suggested"][1])
        elif name in ("goal", "down"):
            same(f"{name} clock", words[1], want[name][1] if want[name] else None)
            if want[name]:
                same(f"{name} target", words[2], want["line" if name == "goal" else "down_line"]["target"])
        elif name in ("goal_clock", "down_clock"):
            if not want[name[:4]]:
                continue
            clocks = want["line" if name == "goal_clock" else "down_line"]["clocks"]
            k = int(words[0])
            same(f"{name} {k}", words[1], clocks.get((k, "end")))
            for i, word in enumerate(words[2:]):
                same(f"{name} {k}, station {i}", word, clocks.get((k, i)))
        elif name == "check":
            same("check round", words[0], want["check"] and want["check"][0])
            same("check clock", words[1], want["check"] and want["check"][1])
        elif name == "needs":
            same("needs", words[0], want["needs"])
            same("no room", words[1], want["no_room"])
        elif name == "ceiling":
            same("ceiling", words[0], want.get("ceiling"))
        elif name == "card":
            for what, word in zip(("hold", "never", "situation", "chance"), words):
                same(what, word, want["card"] and want["card"][what], 1e-6)
    if ("card" in seen) != bool(want["card"]) or ("down" in seen) != bool(want["down"]):
        wrong.append("a card or a next goal down where none is expected, or the other way round")
    return wrong


cases = []
while len(cases) < count:
    task = random_intervals() if rng.random() < 0.35 else random_task()
    cases.append((task, random_person(task)))
answers = subprocess.run([driver], input="".join(written(*case) for case in cases), text=True, check=True,
                         stdout=subprocess.PIPE).stdout.split("==\n")[:-1]
if len(answers) != len(cases):
    sys.exit(f"{len(cases)} cases, but {len(answers)} answers")
bad = refused = 0
for (task, person), answer in zip(cases, answers):
    if answer.startswith("refused"):
        refused += 1
        print(answer.strip())
        continue
    wrong = complaints(answer.splitlines(), naive(task, person))
    if wrong:
        bad += 1
        if bad <= 5:
            print("MISMATCH", *wrong[:8], "in", written(task, person), answer, sep="\n  ")
print(f"{len(cases)} plans, {refused} refused, {bad} mismatches")
if refused > len(cases) / 20:
    sys.exit("too many refused")
sys.exit(1 if bad else 0)
