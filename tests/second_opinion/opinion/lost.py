"""One support lost: METHOD 11. The beam on what is left, jambs as supports where they are sound."""

import math

from . import line as L
from . import needle as N
from . import takedown as D


def patches(prof, leaf=None):
    """The accidental load as (a, b, w)."""
    out = []
    for (kind, lf), rows in prof.items():
        f = D.ACCIDENTAL.get(kind, 0.0)
        if f > 0.0 and (leaf is None or lf == leaf):
            out.extend((a, b, f * w) for a, b, w in rows)
    return out


def jambs(wall):
    """The cut edges that may carry."""
    op = wall.job["opening"]
    need = max(0.6, 0.2 * wall.width)
    sound = wall.job["wall"].get("condition", "doubtful") == "sound"
    out = []
    if sound and op["left_masonry_m"] >= need - 1e-9:
        out.append(0.0)
    if sound and op["right_masonry_m"] >= need - 1e-9:
        out.append(wall.width)
    return out


def one_lost(wall, profiles, xs, sec, yo, yi, days):
    """For each needle lost: [(largest outside prop, inside prop, bending use)], None where nothing holds."""
    out = []
    edges = jambs(wall)
    m_rd = N.bending_capacity(sec, days)
    if len(xs) == 1:
        # The jambs may keep the wall up, but nothing of the support is left to be judged.
        return [None]
    for gone in range(len(xs)):
        left = sorted([(x, k) for k, x in enumerate(xs) if k != gone] + [(e, -1) for e in edges])
        worst = [0.0, 0.0, 0.0]
        for prof in profiles:
            at = [x for x, _ in left]
            loads = patches(prof)
            r = L.push_only(at, loads, 0.0, wall.width)
            if r is None:
                worst = None
                break
            by_leaf = []
            lines = None
            alive = [k for k, v in enumerate(r) if v > 0.0]
            lines = L.continuous([at[k] for k in alive], 0.0, wall.width)
            for leaf in range(len(wall.leaves)):
                by_leaf.append([sum(w * ln.area(a, b) for a, b, w in patches(prof, leaf)) for ln in lines])
            for n, k in enumerate(alive):
                if left[k][1] < 0:
                    continue
                length = yi - yo + 2 * N.BEYOND
                own = (yo - N.BEYOND, yi + N.BEYOND, sec["mass"] * length / 1e3 * 9.81 / 1e3)
                parts = [(a, b, max(0.0, by_leaf[i][n])) for i, (a, b) in enumerate(wall.leaf_y)]
                ro, ri = N.prop_loads(parts, own, yo, yi)
                m = max(float(max(abs(N.section_forces(parts, own, yo + a, yi + b, n=61)[2]))) for a, b in ((-25.0, 25.0),))
                worst = [max(worst[0], ro), max(worst[1], ri), max(worst[2], m / m_rd)]
        out.append(worst)
    return out


def is_unstable(rows):
    """Whether one loss leaves nothing that holds."""
    return any(r is None or any(math.isinf(v) for v in r) for r in rows)
