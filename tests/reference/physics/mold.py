"""Mold index by the published growth equations: writes mold.csv.

Hukka and Viitanen 1999, with the sensitivity classes of Ojanen et al. 2010. The constants are from
memory of the papers; the table proves that two codes of the same equations agree.
"""
import csv
import math
import pathlib

CLASSES = {  # k1 below and above M = 1, (A, B, C), lowest RH
    "very_sensitive": (1.0, 2.0, (1.0, 7.0, 2.0), 80.0),
    "sensitive": (0.578, 0.386, (0.3, 6.0, 1.0), 80.0),
    "medium": (0.072, 0.097, (0.0, 5.0, 1.5), 85.0),
    "resistant": (0.033, 0.014, (0.0, 3.0, 1.0), 85.0),
}


def critical(t, low):
    return max(-0.00267 * t**3 + 0.160 * t**2 - 3.13 * t + 100.0 if t <= 20 else low, low)


def step(m, dry, t, rh, cls):
    low_k, high_k, (a, b, c), low = CLASSES[cls]
    crit = critical(t, low)
    if 0 < t < 50 and rh >= crit:
        x = (crit - rh) / (crit - 100.0)
        m_max = a + b * x - c * x * x
        tm = math.exp(-0.68 * math.log(t) - 13.9 * math.log(rh) + 66.02)
        k1 = low_k if m < 1 else high_k
        k2 = max(1 - math.exp(2.3 * (m - m_max)), 0)
        return m + k1 * k2 / (7 * tm) / 24, 0
    dry += 1
    rate = -0.00133 if dry <= 6 else (0.0 if dry <= 24 else -0.000667)
    return max(m + rate, 0), dry


here = pathlib.Path(__file__).parent
with open(here / "mold.csv", "w", newline="") as out:
    w = csv.writer(out, lineterminator="\n")
    w.writerow(["class", "hour", "mold_index"])
    for cls in CLASSES:
        m, dry = 0.0, 0
        for hour in range(24 * 120):
            # A wet month at 20 degC and 97 %, then days of 18 wet hours and 6 drier ones.
            if hour < 24 * 40:
                t, rh = 20.0, 97.0
            elif hour < 24 * 80:
                t, rh = 18.0, (93.0 if hour % 24 < 18 else 70.0)
            else:
                t, rh = 15.0, 60.0
            m, dry = step(m, dry, t, rh, cls)
            if hour % (24 * 10) == 24 * 10 - 1:
                w.writerow([cls, hour + 1, f"{m:.8f}"])
