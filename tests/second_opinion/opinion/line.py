"""Needle loads by the lever rule and by a continuous beam on rigid supports.

The influence line of a support's reaction is the deflected shape when that support
is moved by one: a natural cubic spline through ones and zeros, straight past the
outer supports (Mueller-Breslau). The general library solves the same beam again.
"""

import numpy as np
from scipy.interpolate import CubicSpline

from . import tables as T


def _value(coeffs, x):
    """A polynomial by Horner's rule, highest power first."""
    out = 0.0
    for c in coeffs:
        out = out * x + c
    return out


class Influence:
    """One influence line over the cut width: pieces of cubics with exact integrals."""

    def __init__(self, breaks, coeffs):
        self.breaks, self.coeffs = breaks, coeffs
        lines = []
        for (p, q), c in zip(zip(breaks, breaks[1:]), coeffs):
            roots = [r.real + p for r in np.roots(c) if abs(r.imag) < 1e-9 and 1e-9 < r.real < q - p - 1e-9] if np.any(np.abs(c[:-1]) > 1e-12) else []
            cuts = [p, *sorted(roots), q]
            for r, s in zip(cuts, cuts[1:]):
                mid = _value(c, (r + s) / 2 - p)
                lines.append((r, s, p, [float(v) for v in np.polyint(c)], mid > 0))
        self.pieces = lines

    def area(self, a, b, positive=False):
        """Integral from a to b, of the positive part if asked."""
        out = 0.0
        for r, s, p, anti, up in self.pieces:
            lo, hi = max(a, r), min(b, s)
            if hi > lo and (up or not positive):
                out += _value(anti, hi - p) - _value(anti, lo - p)
        return out

    def positive_parts(self, a, b):
        """The stretches of [a, b] where the influence is positive."""
        return [(max(a, r), min(b, s)) for r, s, _, _, up in self.pieces if up and min(b, s) > max(a, r)]


def continuous(xs, lo, hi):
    """Influence lines of a continuous beam from lo to hi over supports xs."""
    out = []
    for i in range(len(xs)):
        unit = np.zeros(len(xs))
        unit[i] = 1.0
        if len(xs) == 1:
            out.append(Influence([lo, hi], [np.array([1.0])]))
            continue
        if len(xs) == 2:
            slope = (unit[1] - unit[0]) / (xs[1] - xs[0])
            out.append(Influence([lo, hi], [np.array([slope, unit[0] + slope * (lo - xs[0])])]))
            continue
        sp = CubicSpline(xs, unit, bc_type="natural")
        d0, d1 = float(sp(xs[0], 1)), float(sp(xs[-1], 1))
        breaks, coeffs = [], []
        if xs[0] > lo + 1e-9:
            breaks.append(lo)
            coeffs.append(np.array([d0, unit[0] - d0 * (xs[0] - lo)]))
        for k in range(len(xs) - 1):
            breaks.append(xs[k])
            coeffs.append(sp.c[:, k])
        if hi > xs[-1] + 1e-9:
            breaks.append(xs[-1])
            coeffs.append(np.array([d1, unit[-1]]))
        breaks.append(hi if hi > xs[-1] + 1e-9 else xs[-1])
        out.append(Influence(breaks, coeffs))
    return out


def lever(xs, lo, hi):
    """Influence lines of simple spans, the end strips whole on the outer needles."""
    out = []
    for i in range(len(xs)):
        nodes = [(lo, 1.0 if i == 0 else 0.0)] + [(x, 1.0 if k == i else 0.0) for k, x in enumerate(xs)]
        nodes.append((hi, 1.0 if i == len(xs) - 1 else 0.0))
        breaks, coeffs = [nodes[0][0]], []
        for (p, u), (q, v) in zip(nodes, nodes[1:]):
            if q > p + 1e-9:
                coeffs.append(np.array([(v - u) / (q - p), u]))
                breaks.append(q)
        out.append(Influence(breaks, coeffs))
    return out


def push_only(xs, loads, lo, hi):
    """Reactions to (a, b, w) loads; a support that would pull is taken away and the beam solved again.

    Returns None when no stable beam is left.
    """
    alive = list(range(len(xs)))
    while True:
        if not alive:
            return None
        lines = continuous([xs[k] for k in alive], lo, hi)
        r = [sum(w * line.area(a, b) for a, b, w in loads) for line in lines]
        if min(r) >= -1e-9 or len(alive) == 1:
            break
        if len(alive) == 2:
            return None
        alive.pop(min(range(len(alive)), key=lambda k: r[k]))
    if len(alive) == 1:
        moment = sum(w * (b - a) * ((a + b) / 2 - xs[alive[0]]) for a, b, w in loads)
        if abs(moment) > 1e-6 * max(1.0, abs(r[0])):
            return None
    out = [0.0] * len(xs)
    for k, v in zip(alive, r):
        out[k] = v
    return out


def needle_shares(prof, line, n_leaves):
    """g and q of one needle per leaf from one influence line: q only where it is positive."""
    g, q = [0.0] * n_leaves, [0.0] * n_leaves
    for (kind, leaf), patches in prof.items():
        for a, b, w in patches:
            if kind == "g":
                g[leaf] += w * line.area(a, b)
            else:
                q[leaf] += w * line.area(a, b, positive=True)
    return g, q


def pattern_loads(prof, line, gamma_g, gamma_q, leaf=None):
    """The (a, b, w) loads that press one needle most."""
    out = []
    for (kind, lf), patches in prof.items():
        if leaf is not None and lf != leaf:
            continue
        for a, b, w in patches:
            if kind == "g":
                out.append((a, b, gamma_g * w))
            else:
                out.extend((r, s, gamma_q * w) for r, s in line.positive_parts(a, b))
    return out


def candidates(profiles, xs, width, n_leaves):
    """For each needle the loads by profile and by theory: dicts with per-leaf service and strength loads."""
    lev, con = lever(xs, 0.0, width), continuous(xs, 0.0, width)
    out = []
    for i in range(len(xs)):
        mine = []
        for tag, prof in profiles.items():
            for how, lines in (("lever", lev), ("continuous", con)):
                g, q = needle_shares(prof, lines[i], n_leaves)
                service = [a + b for a, b in zip(g, q)]
                strength = [1.35 * a + 1.5 * b for a, b in zip(g, q)]
                if how == "continuous":
                    for target, fg, fq in ((service, 1.0, 1.0), (strength, 1.35, 1.5)):
                        full = push_only(xs, pattern_loads(prof, con[i], fg, fq), 0.0, width)
                        if full is None or abs(full[i] - sum(target)) < 1e-6:
                            continue
                        # A neighbour lifted off: keep the leaf split, correct the total.
                        scale = full[i] / sum(target) if sum(target) > 0 else 0.0
                        target[:] = [v * scale for v in target]
                mine.append(dict(profile=tag, how=how, service=service, strength=strength))
        out.append(mine)
    return out


def merged(loads):
    """The same loads as pieces that do not overlap."""
    marks = sorted({v for a, b, _ in loads for v in (a, b)})
    out = []
    for p, q in zip(marks, marks[1:]):
        w = sum(w for a, b, w in loads if a <= p + 1e-12 and b >= q - 1e-12)
        if w > 0.0 and q > p + 1e-9:
            out.append((p, q, w))
    return out


def library_reactions(xs, cases, lo, hi):
    """The general library on the same beam: reactions for each list of (a, b, w)."""
    from Pynite import FEModel3D

    model = FEModel3D()
    model.add_material("steel", T.E_STEEL * 1e3, 81e6, 0.3, 77.0)
    model.add_section("line", 1e-2, 1e-5, 1e-5, 1e-5)
    points = sorted({round(v, 9) for v in (lo, hi, *xs)})
    for k, x in enumerate(points):
        model.add_node(f"n{k}", x, 0, 0)
    at = {}
    for x in xs:
        k = min(range(len(points)), key=lambda j: abs(points[j] - x))
        at[x] = f"n{k}"
        model.def_support(f"n{k}", len(at) == 1, True, True, True, False, False)
    for k, (p, q) in enumerate(zip(points, points[1:])):
        model.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "steel", "line")
    for c, loads in enumerate(cases):
        for a, b, w in merged(loads):
            for k, (p, q) in enumerate(zip(points, points[1:])):
                r, s = max(a, p), min(b, q)
                if s > r + 1e-9:
                    model.add_member_dist_load(f"m{k}", "FY", -w, -w, r - p, s - p, case=f"c{c}")
        model.add_load_combo(f"k{c}", {f"c{c}": 1.0})
    model.analyze_linear(check_statics=False, sparse=False)
    return [[model.nodes[at[x]].RxnFY[f"k{c}"] for x in xs] for c in range(len(cases))]
