"""The plan of one athlete, naively: see athlete_plan.h for the order of things."""
import math

import numpy
from naive_ergometer import CAL, EXPONENT, MACHINES, METRES, bouts_limit, calh, hold, machine_of, naive_card, watts
from naive_sets import fall_back, left, plan_sets, printed
from naive_walk import Walk, own_units, share_of, task_amount
from naive_windows import naive_windows
from naive_words import goal_words, practice, score_words

MOST = 200  # rounds of a course


def lost_by_pacing(time, drift, reserve, gain, parts=4000):
    """Seconds lost against even pace, step by step: the task in small parts, each longer or shorter than the mean, effort in
    shares of critical power, and what is above it taken from the reserve. The least slowing down with which it lasts."""
    lengths = 1 + drift * ((numpy.arange(parts) + 0.5) / parts - 0.5)
    even = 1 + reserve / time

    def spent(slower):
        effort = even * (1 + gain * (1 / (slower * lengths) - 1))
        return float(numpy.sum(numpy.maximum(0, effort - 1) * slower * lengths) * time / parts)

    low, high = 1, 4
    if spent(low) <= reserve * (1 + 1e-9):
        return 0
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if spent(middle) > reserve else (low, middle)
    return time * (high - 1)


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
        for k, i, amount, work, waits, walk in first.legs:
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
            waiting = max(first.idle.get(k, 0), sum(max(pauses(i, r), waits) for r, i, _, _, waits, _ in first.legs if r == k))
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
            rate = dict(source=4 if person["group"] else 5, rate=group_rate, doubt=0.20, alone=None,
                        share=share)
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
            r, j, _, work, waits, x = walk.legs[n]
            t = stations[j]
            share = (1 if t["unit"] == "rest" else 0 if t["name"] == s["name"] else t["away_share"]
                     if t["away_share"] is not None else 0.4 if t["grip"] and s["grip"] else 0.7)
            total += x + (work * share + waits if j != i else 0)
            if n + 1 == len(walk.legs) or walk.legs[n + 1][0] != r:
                total += sum(walk.idle.get(k, 0) for k in range(r, walk.legs[n + 1][0]))
        return total

    def finish_sets(plan, reps):
        scheme, rest = ([1] * reps, 60) if plan is None else (plan[0], min(60, printed(plan[1])))
        return scheme, rest if len(scheme) > 1 else 0, plan is None or plan[1] > 60

    sets = {}
    for i, s in enumerate(stations):
        amounts = [own_units(task, i, task_amount(task, i, k)) for k in range(1, whole + 1)]
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
        amount = own_units(task, i, task_amount(task, i, k))
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
            machines[m] += amount * share_of(task, i) * each_at(i, rate) - work
        elif stations[i]["unit"] not in ("rest", "hold"):
            others += work * (0.04 if stations[i]["own_rep"] else 0.08)
        backs[i] += pause_of(i, k, True) - pause
    plain = others ** 2 + sum(x ** 2 for x in machines.values())
    below = plain + sum(max(0, x) ** 2 for x in backs)
    out["spread"], out["spread_below"] = math.sqrt(plain) / total, math.sqrt(below) / total
    if task.get("part"):
        plain, below, total = task["spread"] ** 2, task["spread_below"] ** 2, 1
    out["whole"] = min(whole, walk.rounds)
    out["pause_of"] = [sum(pause_of(i, k) for k in range(1, out["whole"] + 1)) for i in range(len(stations))]
    mine = [leg for leg in walk.legs
            if main is not None and leg[0] <= whole and machine_of(stations[leg[1]]["unit"]) == machine_of(stations[main]["unit"])]
    calories = sum(w / 3600 * rate_at(i, each[i]) for k, i, a, w, p, x in mine) / max(1, len({leg[0] for leg in mine}))

    def on_machine(rate):
        """Seconds at the main ergometer at that rate, the first time."""
        amount = next((leg[2] for leg in walk.legs if leg[1] == main), None)
        if amount is None:
            return None
        return (own_units(task, main, amount) if task.get("part") else task["share"] * amount) * each_at(main, rate)

    if windows:
        return naive_windows(task, person, out, walk, each, dict(
            plain=math.sqrt(plain) / total, below=math.sqrt(below) / total, main=main, found=found, each_at=each_at,
            rate_at=rate_at, calories=calories, on_machine=on_machine))
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
    for which in ("low", "expected", "high"):
        out[which]["words"] = score_words(task, walk, out[which])

    # pacing: how much the clocks bend, and what that loses
    pacing = task["pacing"] if task["team"] > 1 else person["pacing"] or task["pacing"]
    drift = {"fade": task["fade"], "faster": -task["push"]}.get(pacing, 0)
    busy = gained = 0
    for k, i, amount, work, waits, walk_on in walk.legs:
        if k > min(whole, walk.rounds) or task["team"] > 1:
            continue
        unit, m = stations[i]["unit"], machine_of(stations[i]["unit"])
        rate = rate_at(i, each[i]) if m else 0
        gain = 1
        if m and unit in METRES:
            gain = 3
        elif m and m != "armbike":
            gain = min(5, rate / (rate - 300)) if rate > 300 else 5
        busy += work + waits + walk_on
        gained += (gain - 1) * work
    reserve = 75
    if main is not None and task["team"] == 1:
        source = found[machine_of(stations[main]["unit"])]
        if source["source"] == 1:
            own = person["tests"][machine_of(stations[main]["unit"])]
            reserve = own["reserve"] / own["cp"]
    lost = lambda t, drift: lost_by_pacing(t, drift, reserve, 1 + gained / busy if busy else 1)
    slower = 1 + lost(time, drift) / time
    if person["answer"] == "more_left":
        pacing, drift = "faster", -task["push"]

    # goals: (point, clock)
    step, step_time = task["goal_step"], task["goal_step_time"]
    up = lambda x, to: math.ceil(x / to - 1e-9) * to
    down = lambda x, to: math.floor(x / to + 1e-9) * to
    end = (walk.rounds, 0, 0)
    if timed and finish <= last * fade / slower + 1e-9:
        goal = (end, min(last, up(finish * slower / fade, step_time)))
    elif step:
        goal = (walk.of(max(step, down(walk.decimal(walk.at(last * fade / slower)), step))), last)
    else:
        goal = (walk.station_end(last * fade / slower) or walk.first_end(), last)
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

    if person["answer"] == "only_just":
        goal = lower(goal, 1.04, True) or goal
    if person["answer"] == "no":
        goal = lower(goal, 1 / task["rehearsal"], False) or goal
    out["goal"] = goal
    out["pacing"] = lost(goal[1], drift) if pacing in ("fade", "faster") else None

    # what it needs, and the card
    team = bool(task.get("part"))

    def way(point, times):
        """(machines, fixed, free) seconds on the way to a point; times(leg) gives work."""
        parts = [0.0, 0.0, 0.0]
        k, i, amount = point
        for leg in walk.legs:
            r, j, a, _, pause, x = leg
            part = 1 if r <= k or (r == k + 1 and j < i) else min(1, amount / a) if r == k + 1 and j == i and amount else 0
            unit = stations[j]["unit"]
            parts[0 if machine_of(unit) else 1 if unit in ("hold", "rest") else 2] += part * times(leg)
            parts[1 if not team else 2] += part * pause
            parts[2] += x if r <= k or (r == k + 1 and j < i) else 0
        return parts

    card, need, no_room = None, None, False
    if main is not None:
        rate = found[machine_of(stations[main]["unit"])]
        arm = stations[main]["unit"] == "armbike cal"
        on, fixed, free = way(goal[0], lambda leg: leg[3])
        if team:  # all that is shared goes faster or slower together
            k, i, amount = goal[0]
            steps = sum(leg[5] for leg in walk.legs if leg[0] <= k or (leg[0] == k + 1 and leg[1] < i))
            on, fixed, free = on + free - steps, fixed, steps
        if on > 0:
            room = goal[1] * fade - fixed - free
            no_room = room <= 1e-9
            need = None if no_room else rate_at(main, each[main] * room / on)
            ceiling = rate["alone"]
            if rate["source"] == 1:
                tests = person["tests"][machine_of(stations[main]["unit"])]
                ceiling = hold(time, calories, out["other"], tests["cp"], tests["reserve"])
            out["ceiling"] = ceiling
            card = naive_card(rate, need, arm, ceiling, calories)
    out["needs"], out["no_room"], out["card"] = need, no_room, card
    out["on_machine"] = on_machine(card["hold"]) if card else None

    def line(goal, rate, drift):
        point, clock = goal
        mine = machine_of(stations[main]["unit"]) if main is not None else None

        def work(leg):
            machine = machine_of(stations[leg[1]]["unit"])
            return leg[2] * task["share"] * each_at(leg[1], rate) if rate and machine == mine and not team else leg[3]

        on, fixed, free = way(point, work)
        if team:
            on, free = 0, on + free
        by = (clock - on - fixed) / free if free > 0 else 0
        alike = by < 0.5
        if alike:
            by = clock / (on + fixed + free)
        now, clocks, units = 0.0, {}, []
        bend = lambda t: clock * min(1, t / clock) * (1 + drift / 2 * (min(1, t / clock) - 1))
        times = {}
        for leg in walk.legs:
            k, i, a, _, pause, x = leg
            fix = (machine_of(stations[i]["unit"]) and not team) or stations[i]["unit"] in ("hold", "rest")
            w = work(leg) * (by if alike or not fix else 1) + pause * (by if alike or team else 1)
            times[k] = times.get(k, 0) + w + x * by
            if k <= point[0] or (k == point[0] + 1 and point[2] and (i < point[1] or (i == point[1] and point[2] >= a))):
                clocks[k, i] = bend(now + w)
            units += [(bend(now + w * u / a), walk.tidy((k - 1, i, u)) if u else (k - 1, i, 0)) for u in range(a + 1)]
            now += w + x * by
            if k <= point[0] and walk.last[k][1] == i:
                clocks[k, "end"] = clock if k == point[0] and not point[2] else bend(now)
        if point[2]:
            clocks[point[0] + 1, "end"] = clock
        # where to be at a quarter, half and three quarters: the last unit done by then; either of two where it is a tie
        there = lambda clock_then: next(point for done, point in reversed(units) if done <= clock_then)
        quarters = [{there(clock * q + late) for late in (-1e-6, 1e-6)} for q in (0.25, 0.5, 0.75)]
        return dict(clocks=clocks, target=times[reference], quarters=quarters, first=times[1])

    out["line"] = line(goal, card and card["hold"], drift)
    out["rehearsal"] = practice(task, goal[1], line(goal, None, 0)["first"], card and card["hold"])
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
    for which, one in (("suggested", out["suggested"]), ("goal", goal), ("down", low)):
        if one:
            out[which + "_words"] = goal_words(task, walk, *one)
            out[which + "_rounds"] = walk.decimal(one[0])
    return out
