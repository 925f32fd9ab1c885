"""The forecast of a score a second time: least squares and a root by SciPy where the model has closed forms."""
import math

import numpy as np
from scipy.optimize import brentq
from scipy.stats import t as student


def forecast(cap, clocks, confidence=0.9, plan=0):
    """Low, expected and high rounds at the cap, from three clocks or more and a planned round where there is one."""
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
    # What is known of the slope beforehand is one more observation of it.
    root = math.sqrt(sigma**2 / (0.05 * usual / n) ** 2)
    design = np.vstack([np.sqrt(w)[:, None] * np.column_stack([np.ones(m), i]), [0, root]])
    (at_zero, slope), *_ = np.linalg.lstsq(design, np.append(np.sqrt(w) * y, root * fade), rcond=None)
    centre = np.average(i, weights=w)
    level, weight = at_zero + slope * centre, w.sum()
    slope_variance = np.linalg.inv(design.T @ design)[1, 1]
    if plan:
        at_plan = sigma**2 / (0.1 * plan) ** 2
        level = (weight * level + at_plan * max(plan / 2, plan + fade * (centre - (n + 1) / 2))) / (weight + at_plan)
        weight += at_plan
    variance = (8 * sigma**2 + (trust * (y - level - slope * (i - centre)) ** 2).sum()) / (7 + m)
    jump = alone[-1] ** 2 * (1 - trust[-1]) / 4
    left = cap - clocks[-1]
    following = max(level / 4, level + slope * (m - centre + 0.5))
    x = brentq(lambda x: max(following * x + slope * x * x / 2, 0.75 * following * x) - left, 0, 2 * left / following,
               xtol=1e-13, rtol=1e-14)
    total = (variance * x + x * x * (variance / weight + (m - centre + (x + 1) / 2) ** 2 * variance * slope_variance + jump)
             + usual**2 * (0.03**2 * x**2 + 0.05**2 * x**3 / (3 * n)))
    slow = total + usual**2 * (0.08**2 * x**3 / (3 * n) + 0.09**2 * x)
    width = student.ppf((1 + confidence) / 2, 7 + m) / left
    up = width * math.sqrt(total)
    return [m + x * math.exp(-width * math.sqrt(slow)), m + x, m + x * (math.exp(up) if up < 1 else math.e * up)]
