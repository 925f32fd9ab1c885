"""Sets simulated set by set with three pools, rests found by halving."""
import math

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
    kept_within, kept_between = ([math.exp(-recovery * pause / tau) for _, tau in POOLS] for pause in (rest, away))
    (share_a, _), (share_b, _), (share_c, _) = POOLS
    a = b = c = 0.0
    worst = math.inf
    for k in range(rounds):
        for i, reps in enumerate(scheme):
            if i or k:
                kept_a, kept_b, kept_c = kept_within if i else kept_between
                a, b, c = a * kept_a, b * kept_b, c * kept_c
            a, b, c = a + reps * share_a, b + reps * share_b, c + reps * share_c
            worst = min(worst, most - (a + b + c))
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
    for _ in range(40):
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
