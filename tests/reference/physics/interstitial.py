"""A year of condensation by another route: writes interstitial.csv.

Between wet planes the steady vapor pressure under the saturation curve is the solution of an
obstacle problem: least stretched string under a bound. It is solved here as bounded least squares
(scipy), and the condensation rate is the change of flow at each node. Time is stepped in hundredths
of a month, with no event finding, so that it agrees with the method within that step.
"""
import csv
import pathlib

import numpy as np
from scipy.optimize import lsq_linear

D0 = 2e-10


def psat(t):
    return 610.5 * np.where(t >= 0, np.exp(17.269 * t / (237.3 + t)), np.exp(21.875 * t / (265.5 + t)))


# (resistance, s_d) from inside: gypsum board, mineral wool, panel; the films of the check.
layers = [(0.0125 / 0.25, 0.125), (0.140 / 0.035, 0.140), (0.012 / 0.13, 0.60)]
rsi, rse = 0.25, 0.04
months = [  # outside degC, outside RH, days; inside 20 degC and 50 % throughout
    (-5.0, .90, 31), (-3.0, .88, 28), (2.0, .82, 31), (7.0, .78, 30), (12.0, .74, 31), (16.0, .72, 30),
    (18.0, .72, 31), (17.0, .75, 31), (13.0, .80, 30), (8.0, .84, 31), (2.0, .88, 30), (-3.0, .90, 31),
]
r, s, plane = [rsi], [0.0], []
for lr, ls in layers:
    parts = max(1, int(np.ceil(lr / 0.25)))
    for _ in range(parts):
        r.append(r[-1] + lr / parts)
        s.append(s[-1] + ls / parts)
    plane.append(len(r) - 1)
r, s = np.array(r), np.array(s)
total = r[-1] + rse
ds = np.diff(s)


def rates(t_e, rh_e, held):
    t = 20 - (20 - t_e) * r / total
    sat = psat(t)
    p_i, p_e = 0.5 * float(psat(np.array(20.0))), rh_e * float(psat(np.array(t_e)))
    n = len(s)
    fixed = {0: p_i, n - 1: p_e}
    fixed.update({k: sat[k] for k in range(1, n - 1) if held[k] > 0})
    free = [k for k in range(n) if k not in fixed]
    a = np.zeros((n - 1, n))
    for k in range(n - 1):
        w = 1 / np.sqrt(ds[k])
        a[k, k], a[k, k + 1] = -w, w
    b = -sum(a[:, k] * v for k, v in fixed.items())
    p = np.zeros(n)
    for k, v in fixed.items():
        p[k] = v
    scale = 1000.0
    p[free] = lsq_linear(a[:, free] * scale, b * scale, bounds=(-np.inf, sat[free]), tol=1e-14, method="bvls").x
    flow = D0 * (p[:-1] - p[1:]) / ds
    out = np.zeros(n)
    out[1:-1] = flow[:-1] - flow[1:]
    out[np.abs(out) < 1e-16] = 0
    for k in free:
        if p[k] < sat[k] - 1e-6:
            out[k] = 0
    return out


condensing = [bool((rates(t, h, np.zeros(len(s))) > 1e-15).any()) for t, h, _ in months]
start = next(m for m in range(12) if condensing[m] and not condensing[m - 1])
held = np.zeros(len(s))
steps = 100
here = pathlib.Path(__file__).parent
with open(here / "interstitial.csv", "w", newline="") as out:
    w = csv.writer(out, lineterminator="\n")
    w.writerow(["month", "held_plane_1_g_m2", "held_plane_2_g_m2"])
    for k in range(12):
        m = (start + k) % 12
        t_e, rh_e, days = months[m]
        for _ in range(steps):
            held = np.maximum(held + rates(t_e, rh_e, held) * days * 86400 / steps, 0)
        w.writerow([m, f"{1000 * held[1:plane[0] + 1].sum():.2f}", f"{1000 * held[plane[0] + 1:].sum():.2f}"])
