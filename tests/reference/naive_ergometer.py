"""Rates, watts, and the reserve through bouts: what the naive plan knows of machines."""
import math

MACHINES = ("row", "ski", "bike", "armbike")
CAL = tuple(f"{m} cal" for m in MACHINES)
METRES = {"row m": 500, "ski m": 500, "bike m": 1000, "run m": 1000}


def watts(rate):
    return (rate - 300) / (4 * 0.8604)


def calh(power):
    return 300 + 4 * 0.8604 * power


def machine_of(unit):
    return None if unit == "run m" or unit.split()[0] not in MACHINES else unit.split()[0]


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


def naive_card(rate, need, arm, ceiling, calories):
    """What to hold, never above, situation, chance, and what it means each round of so many calories, from the rate to plan
    with and what is needed (None: no room)."""
    strength = (lambda x: x) if arm else watts
    show = (lambda x: x) if arm else calh
    asked = 100000 if need is None else need
    reach = show(strength(rate["rate"]) * math.exp(0.6745 * rate["doubt"]))
    limit = min(reach, max(ceiling, rate["rate"])) if ceiling else reach
    five = lambda x: 5 * math.floor(x / 5 + 1e-9 + 1e-13 * abs(x))  # rounding alone is no step
    floor, never, wanted = five(rate["rate"]), five(limit), -five(-asked)
    situation = 1 if wanted <= floor else 2 if wanted <= never else 3
    mean = need if arm and need is not None else wanted
    normal = lambda z: math.erfc(-z / math.sqrt(2)) / 2
    chance = 1 if strength(mean) <= 0 else normal(-math.log(strength(mean) / strength(rate["rate"])) / rate["doubt"])
    lower = show(strength(rate["rate"]) * math.exp(-0.6745 * rate["doubt"]))
    apart = None if need is None else 3600 * calories / wanted - 3600 * calories / floor
    return dict(hold=wanted if situation == 2 else floor, never=never, situation=situation, chance=chance, floor=floor,
                start={1: max(wanted, lower), 2: wanted, 3: lower}[situation],
                in_hand=apart if situation == 1 else None,
                to_find=-apart if apart is not None and situation > 1 else None)
