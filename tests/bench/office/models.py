"""The costly cell functions once more, as a Python add-in would have them: plain Python, SciPy for roots, lines and
distributions. Written from the formulas and not from the C++, so that equal answers say something."""

import math
from itertools import groupby

import numpy as np
import unohelper
from com.sun.star.lang import XServiceInfo
from org.pacecells.bench import XModels
from scipy import stats
from scipy.optimize import toms748

IMPLEMENTATION = "org.pacecells.bench.ModelsImplementation"
SERVICES = ("org.pacecells.bench.Models", "com.sun.star.sheet.AddIn")


POOLS = ((0.38, 10.0), (0.55, 90.0), (0.07, 3600.0))


def sets_plan(reps, rounds, max_unbroken, away):
    """Three pools of local fatigue, walked set by set and round by round; rests by SciPy, then the planner's choice."""
    spend = max_unbroken - 0.1 * (max_unbroken - 1)
    away_kept = [math.exp(-away / tau) for _, tau in POOLS]

    def excess(rest, scheme):
        kept = [math.exp(-rest / tau) for _, tau in POOLS]
        pools, worst = [0.0, 0.0, 0.0], 0.0
        for _ in range(rounds):
            for number, size in enumerate(scheme):
                if number:
                    pools = [pool * k for pool, k in zip(pools, kept)]
                pools = [pool + share * size for pool, (share, _) in zip(pools, POOLS)]
                worst = max(worst, sum(pools))
            pools = [pool * k for pool, k in zip(pools, away_kept)]
        return worst - spend

    plans, least = [], math.inf  # cost, scheme
    for sets in range(1, reps + 1):
        if 3 * (sets - 1) > least + max(5, 0.1 * least):
            break
        each, larger = divmod(reps, sets)
        scheme = [each + 1] * larger + [each] * (sets - larger)
        if excess(0 if sets == 1 else 3, scheme) <= 1e-9:
            cost = 3 * (sets - 1)
        elif sets > 1 and excess(1e9, scheme) < -1e-9:
            high = 12.0
            while excess(high, scheme) > 0:
                high *= 4
            cost = (sets - 1) * toms748(excess, 3.0, high, args=(scheme,), xtol=1e-9)
        else:
            continue
        plans.append((cost, scheme))
        least = min(least, cost)
    return next((scheme for cost, scheme in plans if cost <= least + max(5, 0.1 * least)), None)


def plan_hold(cap, calories, other, critical, reserve, share, keep, rest):
    """The highest rate that spends no more than the reserve less what is kept: root by SciPy."""
    limit = (1 - keep) * reserve

    def total(rounds, decay):
        return rounds if decay < 1e-12 else math.expm1(-rounds * decay) / math.expm1(-decay)

    def over(watts):
        erg, above, work = 3600 * calories / (300 + 4 * 0.8604 * watts), watts - critical, share * watts - critical
        each = above * erg + max(work, 0) * (other - rest)
        decay = (max(-work, 0) * (other - rest) + critical * rest) / reserve
        spent = above * erg + math.exp(-decay) * each * total((cap - erg) / (erg + other), decay)
        if work > 0:
            spent = max(spent, each * total((cap - erg - other + rest) / (erg + other) + 1, decay))
        return spent - limit

    lowest, highest = critical + limit / cap, critical + reserve / cap
    watts = highest if over(highest) <= 0 else lowest if over(lowest) >= 0 else toms748(over, lowest, highest, xtol=1e-9)
    return 300 + 4 * 0.8604 * watts


def score_forecast(cap, clocks, confidence):
    """Rounds in the cap: lower bound, expected, upper bound, from three clocks or more."""
    y = np.diff(clocks, prepend=0.0)
    m, usual = len(y), np.median(y)
    n, sigma, i = max(cap / usual, m), 0.04 * usual, np.arange(1, m + 1)
    fade = 0.06 * usual / n
    z = y - fade * (i - m)
    middles = np.median(np.lib.stride_tricks.sliding_window_view(z, 3), axis=1)
    alone = np.abs(z - np.concatenate([middles[:1], middles, middles[-1:]]))
    trust = np.minimum(1, 5 / (4 + (alone / sigma) ** 2))
    trust[-1] = min(1, 1.5 * sigma / max(alone[-1], 1e-300))
    w = trust * np.exp((i - m) / (0.35 * n))
    w[0] /= 2
    weight, centre, level = w.sum(), np.average(i, weights=w), np.average(y, weights=w)
    stiff = sigma**2 / (0.05 * usual / n) ** 2
    spread = w @ (i - centre) ** 2 + stiff
    slope = (w @ ((i - centre) * (y - level)) + stiff * fade) / spread
    variance = (8 * sigma**2 + trust @ (y - level - slope * (i - centre)) ** 2) / (7 + m)
    left, following = cap - clocks[-1], level + slope * (m - centre + 0.5)
    x = 2 * left / (following + math.sqrt(max(following**2 + 2 * slope * left, following**2 / 4)))
    total = (variance * x + x * x * (variance / weight + (m - centre + (x + 1) / 2) ** 2 * variance / spread
                                     + alone[-1] ** 2 * (1 - trust[-1]) / 4)
             + usual**2 * (0.03**2 * x**2 + 0.05**2 * x**3 / (3 * n)))
    slow = total + usual**2 * (0.08**2 * x**3 / (3 * n) + 0.09**2 * x)
    width = stats.t.ppf((1 + confidence) / 2, 7 + m) / left
    return [m + x * math.exp(-width * math.sqrt(slow)), m + x, m + x * math.exp(width * math.sqrt(total))]


class Models(unohelper.Base, XModels, XServiceInfo):
    def __init__(self, context):
        pass

    def pyErgTime(self, calories, rate):
        return calories * 3600 / rate / 86400

    def pySetsPlan(self, reps, rounds, max_unbroken, away):
        runs = [(size, len(list(run))) for size, run in groupby(sets_plan(int(reps), int(rounds), max_unbroken, away))]
        return "-".join(f"{sets}x{size}" if sets > 3 else "-".join([str(size)] * sets) for size, sets in runs)

    def pyPlanHold(self, cap, calories, other, critical, reserve, share):
        return plan_hold(cap * 86400, calories, other, critical, reserve, share, 0.10, 0.5)

    def pyScoreForecast(self, cap, clocks, reps, confidence, index):
        row = score_forecast(cap * 86400, [clock * 86400 for clock in clocks[0]], confidence)
        return row[int(index) - 1] * reps

    def getImplementationName(self):
        return IMPLEMENTATION

    def supportsService(self, name):
        return name in SERVICES

    def getSupportedServiceNames(self):
        return SERVICES


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Models, IMPLEMENTATION, SERVICES)
