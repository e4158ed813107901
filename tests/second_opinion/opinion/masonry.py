"""Masonry over and between needles: METHOD 5 and 6, EN 1996-1-1."""

import math

from . import tables as T
from . import takedown as D

LIME_KPA = 0.42 * 1.5
GAMMA_M = 3.0


def is_block(leaf):
    """Whether the leaf is of blocks."""
    return leaf["material"].endswith("_block")


def shape(leaf):
    """EN 772-1 shape factor after METHOD 6: linear between the widths named."""
    if not is_block(leaf):
        return 0.85
    rows = [(100.0, 1.38), (140.0, 1.24), (215.0, 1.1)]
    t = leaf["thickness_mm"]
    if t <= rows[0][0]:
        return rows[0][1]
    for (a, u), (b, v) in zip(rows, rows[1:]):
        if t <= b:
            return u + (v - u) * (t - a) / (b - a)
    return rows[-1][1]


def mortar(leaf):
    """Mortar strength, N/mm2."""
    return leaf.get("mortar_n_mm2", 1.0 if leaf["mortar"] == "lime" else 4.0)


def f_k(leaf):
    """Characteristic strength of a leaf, N/mm2."""
    unit = leaf.get("unit_n_mm2")
    if unit is None:
        unit = T.UNIT[leaf["material"]]
        if leaf["material"] == "clay_brick" and leaf.get("year", 2000) < 1920:
            unit = 7.0
    fb = unit if leaf.get("unit_is_normalised") else unit * shape(leaf)
    k = 0.75 if is_block(leaf) else 0.50
    fk = k * fb**0.7 * mortar(leaf) ** 0.3
    # A brick leaf thicker than one brick's breadth has a joint along inside it.
    if not is_block(leaf) and leaf["thickness_mm"] > 120.0:
        fk *= 0.8
    return fk


def is_lime(leaf):
    """Lime, or mortar below 2 N/mm2."""
    return leaf["mortar"] == "lime" or mortar(leaf) < 2.0


def bearing(leaf, strength_kn, service_kn, x, half_mm, pack_mm, neighbours, width, hc_m, prudent=False):
    """Use of the masonry on one needle in one leaf, 6.1.3.

    `Ab/Aef` above 0.45 counts as 0.45; read prudently it leaves no enhancement.
    """
    t, long = leaf["thickness_mm"], 2 * half_mm + 2 * pack_mm
    if is_lime(leaf):
        return service_kn * 1e3 / (long * t) / LIME_KPA
    hc = max(hc_m, 0.2) * 1e3
    reach = hc / 2 * math.tan(math.radians(30.0))
    lo, hi = x * 1e3 - long / 2 - reach, x * 1e3 + long / 2 + reach
    left = max([0.0] + [(x + n) / 2 * 1e3 for n in neighbours if n < x])
    right = min([width * 1e3] + [(x + n) / 2 * 1e3 for n in neighbours if n > x])
    effective = max(min(hi, right) - max(lo, left), long)
    ratio = min(long / effective, 0.45)
    beta = 1.0
    if leaf.get("unit_group", 1) == 1 and not (prudent and long / effective > 0.45):
        a1 = max(0.0, min(x, width - x) * 1e3 - half_mm)
        beta = (1 + 0.3 * a1 / hc) * (1.5 - 1.1 * ratio)
        beta = max(1.0, min(beta, 1.25 + a1 / (2 * hc), 1.5))
    return strength_kn * 1e3 / (beta * long * t * f_k(leaf) / GAMMA_M)


def depth_over(wall, top_m, a, b, gap):
    """Depth of the arch over a bay: masonry up to the top or the lowest sill over it, at most the gap."""
    high = wall.top - top_m
    for h in wall.holes:
        if h["b"] > a + 1e-9 and h["a"] < b - 1e-9 and h["sill"] > wall.soffit:
            high = min(high, h["sill"] - top_m)
    return min(high, gap)


def arches(wall, profiles, xs, needle_m, top_m):
    """Use per leaf of the flat arches between needles."""
    worst = [0.0] * len(wall.leaves)
    for a, b in zip(xs, xs[1:]):
        s = b - a - needle_m
        d = depth_over(wall, top_m, a, b, s)
        for k, leaf in enumerate(wall.leaves):
            w = max(D.total(p, D.STRENGTH, leaf=k, lo=a, hi=b) for p in profiles) / (b - a)
            if d <= 0.0:
                worst[k] = math.inf
                continue
            thrust = w * s * s / (8 * 0.9 * d)
            stress = thrust * 1e3 / (0.1 * d * 1e3 * leaf["thickness_mm"])
            worst[k] = max(worst[k], stress / (f_k(leaf) / GAMMA_M))
    return worst


def end_bays(wall, profiles, xs, needle_m, top_m):
    """(use, reason) of the two end bays."""
    op, width = wall.job["opening"], wall.width
    use, why = 0.0, None
    need = max(0.6, 0.2 * width)
    for edge, axis, beside in ((0.0, xs[0], op["left_masonry_m"]), (width, xs[-1], op["right_masonry_m"])):
        s = abs(axis - edge) - needle_m / 2
        if s <= 0.15 + 1e-9:
            continue
        if beside < need - 1e-9:
            why = "narrow masonry beside an end bay"
            continue
        lo, hi = min(edge, abs(edge - s)), max(edge, abs(edge - s))
        d = depth_over(wall, top_m, lo, hi, s)
        if d <= 0.0:
            why = "no masonry over an end bay"
            continue
        for p in profiles:
            for k in range(len(wall.leaves)):
                n = D.total(p, D.PERMANENT, leaf=k, lo=lo, hi=hi) / s * beside
                thrust = D.total(p, D.STRENGTH, leaf=k, lo=lo, hi=hi) * s / (8 * 0.9 * d)
                use = max(use, thrust / (0.3 * n), thrust * d / (n * beside / 6))
    return use, why


def stage(wall, profiles, xs, hole_m):
    """Use with all holes cut and nothing tight, worst leaf."""
    clear = wall.width - sum(min(x + hole_m / 2, wall.width) - max(x - hole_m / 2, 0.0) for x in xs)
    worst = 0.0
    for k, leaf in enumerate(wall.leaves):
        load = max(D.total(p, D.STRENGTH, leaf=k) for p in profiles)
        if clear <= 0.0:
            return math.inf
        worst = max(worst, load / (leaf["thickness_mm"] * clear) / (f_k(leaf) / GAMMA_M))
    return worst


def plate(wall, profiles, xs, needle_m, days):
    """Use in bending of the wall plate between needles, where there is no masonry for an arch.

    The plate lies dry under the roof (service class 2) and spans clear between packed needles.
    """
    b, d = (wall.job.get("roof") or {}).get("plate_mm", [100.0, 50.0])
    k_mod = 0.9 if days <= 7 else 0.8 if days <= 182 else 0.7
    worst = 0.0
    for p, q in zip(xs, xs[1:]):
        lo, hi = p + needle_m / 2, q - needle_m / 2
        w = max(D.total(prof, D.STRENGTH, lo=lo, hi=hi) for prof in profiles) / (hi - lo)
        moment = w * (hi - lo) ** 2 / 8
        worst = max(worst, moment * 1e6 / (b * d * d / 6) / (16.0 * k_mod / 1.3))
    return worst
