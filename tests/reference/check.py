#!/usr/bin/python3
"""Compares the model with scipy on random cases: check.py PATH_TO_model_reference [SEED].

The formulas are written here a second time, as their sources print them, and solved by scipy's general tools:
curve_fit for the critical power, linregress for the fade, lstsq and brentq for the forecast, solve_ivp for the reserve,
Student's t from scipy.stats. Nothing is shared with the model but the meaning of a case.
"""
import math
import random
import subprocess
import sys
import warnings

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, curve_fit
from scipy.stats import linregress

from forecast import forecast

driver = sys.argv[1]
seed = int(sys.argv[2]) if len(sys.argv) > 2 else random.SystemRandom().randrange(2**32)
print(f"seed {seed}")
rng = random.Random(seed)
cases = []  # (line, function of the answer's words that returns a complaint or None)


def case(name, numbers, judge):
    cases.append((" ".join([name] + [repr(float(n)) for n in numbers]), judge))


def near(expected, relative=1e-9, absolute=0.0):
    """A judge: all of these numbers (or words) and no more."""
    def judge(words):
        if len(words) != len(expected):
            return f"expected {expected}"
        for word, want in zip(words, expected):
            if isinstance(want, str) or not is_number(word):
                if word != want:
                    return f"expected {expected}"
            elif not math.isclose(float(word), want, rel_tol=relative, abs_tol=absolute):
                return f"expected {expected}"
        return None
    return judge


def is_number(word):
    return word[0] in "-0123456789"


# ---- critical power: work over time ----

def critical_case():
    critical, reserve = rng.uniform(120, 350), rng.uniform(8000, 30000)
    times = sorted(rng.sample(range(100, 1500), rng.randint(3, 10)))
    watts = [(critical + reserve / t) * rng.uniform(0.97, 1.03) for t in times]
    work = np.array(times) * np.array(watts)
    scale = work.mean()
    line, gradient = lambda t, a, b: a * t + b, lambda t, a, b: np.column_stack([t, np.ones_like(t)])
    (slope, intercept), covariance = curve_fit(line, np.array(times, float), work / scale, jac=gradient)
    errors = np.sqrt(np.diag(covariance)) * scale
    slope, intercept = slope * scale, intercept * scale
    numbers = [n for pair in zip(times, watts) for n in pair]
    if slope <= 0 or intercept <= 0:
        case("critical", numbers, near(["no_solution"]))
        return
    rest = work - slope * np.array(times) - intercept
    r_squared = 1 - (rest @ rest) / ((work - work.mean()) @ (work - work.mean()))
    case("critical", numbers, near([slope, intercept, errors[0], errors[1], r_squared], 1e-7, 1e-6))


# ---- fade and steadiness ----

def fade_case():
    rounds = [rng.uniform(60, 200) for _ in range(rng.randint(2, 15))]
    fit = linregress(np.arange(1, len(rounds) + 1), rounds)
    case("fade", np.cumsum(rounds),
         near([fit.slope / np.mean(rounds), np.std(rounds, ddof=1) / np.mean(rounds)], 1e-9, 1e-12))


# ---- forecast: see forecast.py ----

def forecast_case():
    m = rng.randint(3, 14)  # of one and two rounds the unit tests have a second way
    start, trend = rng.uniform(40, 240), rng.uniform(-0.04, 0.04)
    noise = rng.choice([0.001, 0.02, 0.1, 0.3])
    rounds = [max(2.0, start * (1 + trend * i + noise * rng.gauss(0, 1))) for i in range(m)]
    clocks = np.cumsum(rounds)
    cap, confidence = clocks[-1] * rng.uniform(1.01, 4), rng.uniform(0.3, 0.98)
    plan = rng.choice([0, rounds[0] * rng.uniform(0.8, 1.2)])
    case("forecast", [cap, confidence, plan, *clocks], near(forecast(cap, clocks, confidence, plan), 1e-8))


# ---- the reserve, integrated step by step ----

PER_WATT = 4 * 0.8604


def stretch(spent, watts, seconds, critical, reserve):
    """Skiba et al. 2015 as a differential equation: above critical the reserve is spent, below it what was spent decays."""
    if seconds <= 0:
        return spent
    above = watts - critical
    slope = (lambda _, s: [above]) if above >= 0 else (lambda _, s: [above * s[0] / reserve])
    return solve_ivp(slope, (0, seconds), [spent], rtol=1e-9, atol=1e-9).y[0, -1]


def exact_stretch(spent, watts, seconds, critical, reserve):
    above = watts - critical
    return spent + above * seconds if above >= 0 else spent * math.exp(above * seconds / reserve)


def most_spent(task, rate, rounds, step):
    """Through so many rounds, each in the order ergometer, work, walking, rest."""
    _, calories, other, critical, reserve, share, walk, rest = task
    watts = (rate - 300) / PER_WATT
    spells = [(3600 * calories / rate, watts), (other - walk - rest, share * watts), (walk, 0.3 * critical), (rest, 0)]
    spent, most = 0.0, 0.0
    for _ in range(rounds):
        for seconds, power in spells:
            spent = step(spent, power, seconds, critical, reserve)
            most = max(most, spent)
    return most


def random_task():
    other = rng.choice([0, *[rng.uniform(20, 200)] * 9])
    walk = rng.choice([0, rng.uniform(0, other / 2)])
    return [rng.uniform(300, 2400), rng.uniform(5, 40), other, rng.uniform(120, 350), rng.uniform(8000, 30000),
            rng.uniform(0.3, 1), walk, rng.choice([0, rng.uniform(0, other / 2)])]


def left_case():
    """So many whole rounds, which may be those up to the cap."""
    task, rate, rounds = random_task(), rng.uniform(400, 2000), rng.randint(1, 8)
    task[0] = rounds * (3600 * task[1] / rate + task[2])
    case("left", [*task, rate, rounds], near([1 - most_spent(task, rate, rounds, stretch) / task[4]], 1e-6, 1e-7))


def hold_case():
    """The cap is the end of an ergometer at the answer, the keep what is left there: chosen from the answer."""
    task, rounds = random_task(), rng.randint(1, 8)
    critical, reserve = task[3:5]
    rate = 300 + PER_WATT * critical * rng.uniform(1.02, 1.5)
    ergometer = 3600 * task[1] / rate
    if task[5] * (rate - 300) / PER_WATT > critical:  # the work spends as well: only as hard as the ergometer is exact
        task[5] = 1
    ends = rounds * (ergometer + task[2]) - task[6] - task[7] - (0 if task[5] == 1 else task[2] - task[6] - task[7])
    task[0] = ends
    left = 1 - most_spent(task, rate, rounds, exact_stretch) / reserve
    alone = 300 + PER_WATT * (critical + reserve / ends)
    lowest = 300 + PER_WATT * (critical + (1 - left) * reserve / ends)
    if 0 <= left < 1 and lowest < rate < alone:
        case("hold", [*task, left], near([rate], 1e-7))


# ---- local fatigue: every set with the time since it, in one matrix ----

def weight(age):
    return 0.38 * np.exp(-age / 10) + 0.55 * np.exp(-age / 90) + 0.07 * np.exp(-age / 3600)


def in_hand(sets, rounds, longest, away, rest, recovery):
    starts = np.array([round_ * (away + rest * (len(sets) - 1)) + rest * k
                       for round_ in range(rounds) for k in range(len(sets))])
    ages = recovery * (starts[:, None] - starts[None, :])
    weights = np.where(ages >= 0, weight(np.maximum(ages, 0)), 0)
    weights = np.tril(weights)  # rests of 0 s: in the order of the sets
    return longest - (weights @ np.tile(sets, rounds)).max()


def near_even(reps, sets):
    return [reps // sets + (k < reps % sets) for k in range(sets)]


def set_work():
    reps, rounds = rng.randint(1, 12), rng.randint(1, 5)
    longest = rng.uniform(1, 2.5 * reps + 1)
    return [reps, rounds, longest, rng.uniform(0, 200), rng.choice([0.1 * (longest - 1), rng.uniform(0, 4)]),
            rng.choice([1, rng.uniform(0.5, 2)])]


def least_rest(work, sets, shortest=0.0):
    reps, rounds, longest, away, margin, recovery = work
    off = lambda rest: in_hand(near_even(reps, sets), rounds, longest, away, rest, recovery) - margin
    if off(shortest) >= -1e-9:
        return shortest
    if sets == 1 or off(1e6) <= 1e-9:
        return None
    return brentq(off, shortest, 1e6, xtol=1e-10, rtol=1e-13, maxiter=200)


def sets_left_case():
    sets = [rng.randint(1, 12) for _ in range(rng.randint(1, 8))]
    rounds, longest, away, rest = rng.randint(1, 10), rng.uniform(1, 60), rng.uniform(0, 300), rng.choice([0, rng.uniform(0, 60)])
    recovery = rng.uniform(0.4, 2)
    case("sets_left", [rounds, longest, away, rest, recovery, *sets],
         near([in_hand(sets, rounds, longest, away, rest, recovery)], 1e-9, 1e-9))


def sets_rest_case():
    work = set_work()
    sets = rng.randint(1, work[0])
    rest = least_rest(work, sets)
    case("sets_rest", [*work, sets], near(["no_solution"] if rest is None else [rest and max(0.5, rest)], 1e-6, 1e-6))


def sets_plan_case():
    work = set_work()
    if rng.random() < 0.3:
        rest = rng.uniform(0.5, 30)
        enough = [k for k in range(1, work[0] + 1)
                  if in_hand(near_even(work[0], k), work[1], *work[2:4], rest, work[5]) >= work[4] - 1e-9]
        expected = [enough[0], rest if enough[0] > 1 else 0] if enough else ["no_solution"]
    else:
        rest = 0
        rests = {k: least_rest(work, k, 3.0 if k > 1 else 0.0) for k in range(1, work[0] + 1)}
        costs = {k: (k - 1) * r for k, r in rests.items() if r is not None}
        expected = ["no_solution"]
        if costs:
            least = min(costs.values())
            sets = min(k for k, cost in costs.items() if cost <= least + max(5, 0.1 * least))
            expected = [sets, rests[sets]]
    case("sets_plan", [*work, rest], near(expected, 1e-6, 1e-6))


def sets_recovery_case():
    first, rest = rng.uniform(2, 60), rng.uniform(5, 600)
    second = rng.uniform(1, first - 0.1)
    off = lambda t: (first + 0.5) * (1 - weight(t)) - (second + 0.5)
    case("sets_recovery", [first, second, rest], near([brentq(off, 0, 1e6, xtol=1e-12, rtol=1e-14) / rest], 1e-8))


warnings.simplefilter("ignore")
kinds = [(critical_case, 150), (fade_case, 100), (forecast_case, 300), (left_case, 150), (hold_case, 400),
         (sets_left_case, 200), (sets_rest_case, 150), (sets_plan_case, 150), (sets_recovery_case, 100)]
for make, count in kinds:
    for _ in range(count):
        make()

answers = subprocess.run([driver], input="\n".join(line for line, _ in cases) + "\n", text=True, check=True,
                         stdout=subprocess.PIPE).stdout.splitlines()
if len(answers) != len(cases):
    sys.exit(f"{len(cases)} cases, but {len(answers)} answers")

counts, wrong = {}, 0
for (line, judge), answer in zip(cases, answers):
    name, words = line.split()[0], answer.split()
    kind = counts.setdefault(name, [0, 0])
    kind[0] += 1
    kind[1] += "no_solution" in words
    complaint = judge(words)
    if complaint:
        wrong += 1
        print(f"MISMATCH {line}\n  got {answer}\n  {complaint}")
for name, (all_of_it, unsolvable) in counts.items():
    print(f"{name}: {all_of_it} cases, {unsolvable} of them without a solution")
print(f"{len(cases)} cases, {wrong} mismatches")
if len(cases) < 500:
    sys.exit("fewer than 500 cases")
sys.exit(1 if wrong else 0)
