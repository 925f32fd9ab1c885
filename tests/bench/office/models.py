"""The costly cell functions once more, as a Python add-in would have them: plain Python, SciPy for roots, lines and
distributions. Written from the formulas and not from the C++, so that equal answers say something."""

import math
from itertools import groupby

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


def plan_hold(cap, calories, other, critical, reserve, effort, keep=0.10):
    """The highest rate whose peak of spending stays within the reserve: rounds walked one by one, root by SciPy."""
    limit = (1 - keep) * reserve

    def stretch(spent, watts, seconds):
        if watts >= critical:
            return spent + (watts - critical) * seconds
        return spent * math.exp(-(critical - watts) * seconds / reserve)

    def over(rate):
        erg = 3600 * calories / rate
        watts = (rate - 300) / (4 * 0.8604)
        spent = peak = 0.0
        for _ in range(math.ceil(cap / (erg + other) - 1e-9)):
            spent = stretch(spent, watts, erg)
            peak = max(peak, spent)
            spent = stretch(spent, effort * critical, other)
        return peak - limit

    high = 400.0
    while over(high) <= 0:
        high *= 2
    return toms748(over, 300.0, high, xtol=1e-7)


def score_forecast(cap, clocks, confidence):
    """Rounds in the cap: lower bound, expected, upper bound. Five clocks or more, with a trend."""
    count = len(clocks)
    rounds = [b - a for a, b in zip([0.0] + clocks, clocks)]
    number = range(1, count + 1)
    line = stats.linregress(number, rounds)
    mean_x = (count + 1) / 2
    spread = sum((x - mean_x) ** 2 for x in number)
    residual = sum((y - line.intercept - line.slope * x) ** 2 for x, y in zip(number, rounds))
    variance = residual / (count - 2)
    width = stats.t.ppf((1 + confidence) / 2, count - 2)

    def clock(x):
        return clocks[-1] + line.intercept * x + line.slope * (count * x + x * (x + 1) / 2)

    def error(x):
        trend = count * x + x * (x + 1) / 2 - mean_x * x
        return math.sqrt(variance * (x + x * x / count + trend * trend / spread))

    def rounds_to_go(width):
        def late(x):
            return clock(x) + width * error(x) - cap
        high = 1.0
        while late(high) < 0:
            high *= 2
        return toms748(late, 0.0, high)

    return [count + rounds_to_go(t) for t in (width, 0.0, -width)]


class Models(unohelper.Base, XModels, XServiceInfo):
    def __init__(self, context):
        pass

    def pyErgTime(self, calories, rate):
        return calories * 3600 / rate / 86400

    def pySetsPlan(self, reps, rounds, max_unbroken, away):
        runs = [(size, len(list(run))) for size, run in groupby(sets_plan(int(reps), int(rounds), max_unbroken, away))]
        return "-".join(f"{sets}x{size}" if sets > 3 else "-".join([str(size)] * sets) for size, sets in runs)

    def pyPlanHold(self, cap, calories, other, critical, reserve, effort):
        return plan_hold(cap * 86400, calories, other, critical, reserve, effort)

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
