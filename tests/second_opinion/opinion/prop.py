"""What a prop may carry: METHOD 8, with the strut solved in closed form by pieces."""

import math
from functools import lru_cache

import numpy as np

from . import tables as T

ECC = [(1.25, 17), (1.5, 17), (1.75, 17), (2.0, 17), (2.25, 17), (2.5, 17), (2.75, 17), (3.0, 15), (3.25, 13), (3.5, 11), (3.75, 10)]
ECC4 = [(3.25, 17), (3.5, 14), (3.75, 11), (4.0, 10), (4.25, 9), (4.5, 8), (4.75, 7), (5.0, 7)]
RANGE = {0: (1.07, 1.82), 1: (1.75, 3.12), 2: (1.98, 3.35), 3: (2.59, 3.95), 4: (3.20, 4.87)}
TUBES = {
    "A": ((57.0, 3.2), (48.3, 3.2)),
    "B": ((60.3, 3.2), (48.3, 4.0)),
    "C": ((70.0, 3.2), (60.3, 3.2)),
    "D": ((76.1, 3.2), (60.3, 4.0)),
    "E": ((76.1, 3.2), (60.3, 4.0)),
}
LEAN = 1.5


def tube(d, t):
    """Area, second moment and elastic modulus of a tube."""
    di = d - 2 * t
    i = math.pi / 64 * (d**4 - di**4)
    return math.pi / 4 * (d * d - di * di), i, i / (d / 2)


def _stress_ratio(p, length, split, outer, inner, ef, eh, bow):
    """Largest stress over yield at the force p (N); None past the critical load."""
    k1, k2 = math.sqrt(p / (T.E_STEEL * outer[1])), math.sqrt(p / (T.E_STEEL * inner[1]))
    w = math.pi / length
    # Arm of the force: A cos kx + B sin kx + sine part, in each piece.
    s1, s2 = (bow * w * w / (w * w - k * k) for k in (k1, k2))
    a = split
    # Unknown: B1, A2, B2 (A1 = ef). Deflection y = arm - e - b0 is continuous with its slope.
    c1, n1, c2, n2 = math.cos(k1 * a), math.sin(k1 * a), math.cos(k2 * a), math.sin(k2 * a)
    cl, nl = math.cos(k2 * length), math.sin(k2 * length)
    m = np.array([[n1, -c2, -n2], [k1 * c1, k2 * n2, -k2 * c2], [0.0, cl, nl]])
    sw, cw = math.sin(w * a), math.cos(w * a)
    rhs = np.array([
        -ef * c1 - (s1 - s2) * sw,
        ef * k1 * n1 - (s1 - s2) * w * cw,
        eh,
    ])
    b1, a2, b2 = np.linalg.solve(m, rhs)
    x1, x2 = np.linspace(0.0, a, 60), np.linspace(a, length, 60)
    arm1 = ef * np.cos(k1 * x1) + b1 * np.sin(k1 * x1) + s1 * np.sin(w * x1)
    arm2 = a2 * np.cos(k2 * x2) + b2 * np.sin(k2 * x2) + s2 * np.sin(w * x2)
    worst1 = p / outer[0] + p * np.max(np.abs(arm1)) / outer[2]
    worst2 = p / inner[0] + p * np.max(np.abs(arm2)) / inner[2]
    return max(worst1, worst2) / T.FY_TUBE


def critical(length, split, outer, inner):
    """First buckling load of the stepped strut with hinged ends, N."""
    def f(p):
        k1, k2 = math.sqrt(p / (T.E_STEEL * outer[1])), math.sqrt(p / (T.E_STEEL * inner[1]))
        c = length - split
        return k2 * math.sin(k1 * split) * math.cos(k2 * c) + k1 * math.cos(k1 * split) * math.sin(k2 * c)

    top = math.pi**2 * T.E_STEEL * max(outer[1], inner[1]) / length**2 * 1.01
    low = math.pi**2 * T.E_STEEL * min(outer[1], inner[1]) / length**2 * 0.5
    grid = np.linspace(low, top, 400)
    vals = [f(p) for p in grid]
    for p, q, u, v in zip(grid, grid[1:], vals, vals[1:]):
        if u > 0 >= v:
            for _ in range(60):
                mid = (p + q) / 2
                if f(mid) > 0:
                    p = mid
                else:
                    q = mid
            return p
    return top


@lru_cache(maxsize=100_000)
def first_yield(length_mm, closed_mm, outer_dt, inner_dt, head, foot, lean_deg):
    """Load at first yield of either tube, kN."""
    outer, inner = tube(*outer_dt), tube(*inner_dt)
    split = min(closed_mm - 100.0, length_mm)
    lean = 0.2 * length_mm * math.tan(math.radians(lean_deg))
    lo, hi = 1.0, critical(length_mm, split, outer, inner) * 0.99999
    if split >= length_mm - 1.0:
        split = length_mm - 1.0
    for _ in range(48):
        mid = (lo + hi) / 2
        if _stress_ratio(mid, length_mm, split, outer, inner, foot + lean, head + lean, length_mm / 500) > 1.0:
            hi = mid
        else:
            lo = mid
    return lo / 1e3


def next_row(rows, longest, length):
    """Row at or above a length, linear where rows stand 100 mm apart or less; None outside."""
    usable, done = [], False
    for x, load in rows:
        if not done:
            usable.append((x, load))
        done = done or x >= longest - 1e-9
    if not usable or length > usable[-1][0] + 1e-9:
        return None
    for k, (x, load) in enumerate(usable):
        if length <= x + 1e-9:
            if k and x - usable[k - 1][0] <= 0.1 + 1e-9:
                x0, l0 = usable[k - 1]
                return l0 + (load - l0) * (length - x0) / (x - x0)
            return load
    return None


def rating(prop, length_m, foot_fixed):
    """dict(working, lost) in kN, or None where the prop does not stand at this length.

    `lost` is the resistance used where a support is lost.
    """
    design = (25.0, 0.0 if foot_fixed else 25.0, LEAN)
    mm = length_m * 1e3

    def r(closed, tubes, state):
        return first_yield(round(mm, 3), round(closed * 1e3, 3), tubes[0], tubes[1], *state)

    if prop["data"] == "tn79":
        low, high = RANGE[prop["size"]]
        if not low + 0.05 - 1e-9 <= length_m <= high - 0.05 + 1e-9:
            return None
        load = next_row(ECC4 if prop["size"] == 4 else ECC, high, length_m)
        if load is None:
            return None
        kappa = 1.0
        if not foot_fixed:
            kappa = min(1.0, r(low, TUBES["B"], design) / r(low, TUBES["B"], (25.0, 0.0, LEAN)))
        working = kappa * load
        return dict(working=working, lost=min(1.5 * working, r(low, TUBES["B"], design)))
    if prop["data"] == "en1065":
        letter, longest = prop["class"][0], float(prop["class"][1:]) / 10
        closed = 0.58 * longest
        if not closed + 0.05 - 1e-9 <= length_m <= longest - 0.05 + 1e-9:
            return None
        tubes = TUBES[letter]
        state = r(closed, tubes, design)
        if letter in "DE":
            nominal = min({"D": 34.0, "E": 51.0}[letter], state)
        else:
            factor, cap = {"A": (51.0, 44.0), "B": (68.0, 51.0), "C": (102.0, 59.5)}[letter]
            nominal = min(cap, factor * longest / length_m**2)
            nominal *= min(1.0, state / r(closed, tubes, (10.0, 10.0, 0.0)))
        return dict(working=nominal / 1.65, lost=nominal)
    low, high = prop["min_m"], prop["max_m"]
    if not low + 0.05 - 1e-9 <= length_m <= high - 0.05 + 1e-9:
        return None
    load = next_row([tuple(row) for row in prop["table"]], high, length_m)
    if load is None:
        return None
    given = prop.get("tubes")
    tubes = (tuple(given["outer_mm"]), tuple(given["inner_mm"])) if given else TUBES["B"]
    closed = given["closed_m"] if given else 0.58 * high
    basis = prop.get("basis")
    state0 = (basis["head_mm"], basis["foot_mm"], basis["lean_deg"]) if basis else (10.0, 10.0, 0.0)
    characteristic = prop["load"] == "characteristic"
    working = load / 1.65 if characteristic else load
    kappa = 1.0
    if state0 != design:
        kappa = min(1.0, r(closed, tubes, design) / r(closed, tubes, state0))
    working *= kappa
    lost = load * kappa if characteristic else min(1.5 * working, r(closed, tubes, design))
    return dict(working=working, lost=lost)
