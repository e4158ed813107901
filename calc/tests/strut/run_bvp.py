"""First yield and response of adjustable steel props as a boundary-value problem.

Written from the method (section 8) alone, beside the app's closed form: each tube obeys E·I·y'' + P·(e + w + y) = 0, where e
is the straight line between the eccentricities of both ends, w the bow the prop was made with and y the elastic
deflection; both ends are pinned, and deflection and slope are shared where the tubes meet. `scipy.integrate.solve_bvp`
finds y, and a root search outside it finds the load at which the fibre of either tube begins to yield.

Run: python run_bvp.py > bvp.json   (numpy, scipy 1.17.1)
"""

import itertools
import json
import math
import multiprocessing
import sys

import numpy as np
import scipy
from scipy.integrate import solve_bvp
from scipy.optimize import brentq

E, FY, SHARE, BOW = 210_000.0, 235.0, 0.2, 1.0 / 500.0

# name of the data in a job, outer tube, inner tube, closed length (m), lengths looked at (m)
PROPS = [
    ({"data": "tn79", "size": 0}, (60.3, 3.2), (48.3, 4.0), 1.07, [1.2, 1.75]),
    ({"data": "tn79", "size": 1}, (60.3, 3.2), (48.3, 4.0), 1.75, [1.9, 3.05]),
    ({"data": "tn79", "size": 2}, (60.3, 3.2), (48.3, 4.0), 1.98, [2.1, 3.3]),
    ({"data": "tn79", "size": 3}, (60.3, 3.2), (48.3, 4.0), 2.59, [2.7, 3.7]),
    ({"data": "tn79", "size": 4}, (60.3, 3.2), (48.3, 4.0), 3.20, [3.3, 4.8]),
    ({"data": "en1065", "class": "A30"}, (57.0, 3.2), (48.3, 3.2), 0.58 * 3.0, [1.9, 2.9]),
    ({"data": "en1065", "class": "B35"}, (60.3, 3.2), (48.3, 4.0), 0.58 * 3.5, [2.2, 3.4]),
    ({"data": "en1065", "class": "C40"}, (70.0, 3.2), (60.3, 3.2), 0.58 * 4.0, [2.5, 3.9]),
    ({"data": "en1065", "class": "D35"}, (76.1, 3.2), (60.3, 4.0), 0.58 * 3.5, [2.2, 3.4]),
    ({"data": "en1065", "class": "E40"}, (76.1, 3.2), (60.3, 4.0), 0.58 * 4.0, [2.5, 3.9]),
]
LEANS = [(0.0, 0.0), (-12.0, 16.0), (0.0, 25.0), (36.0, -15.0)]  # mm per m: along, across
ENDS = [(0.0, 0.0), (10.0, 10.0), (25.0, 0.0), (12.0, 25.0), (40.0, 5.0)]  # mm off centre: head, foot
LOADED = [0.5, 0.9]  # shares of the load at first yield at which the response is kept


def tube(d, t):
    inner = d - 2 * t
    return math.pi / 4 * (d**2 - inner**2), math.pi / 64 * (d**4 - inner**4), d / 2


class Prop:
    """A stepped strut, N and mm, z from the foot."""

    def __init__(self, outer, inner, closed_m, length_m, lean, head, foot):
        self.length = length_m * 1e3
        self.joint = (closed_m - 0.1) * 1e3
        self.tubes = [tube(*outer), tube(*inner)]
        from_lean = SHARE * length_m * math.hypot(*lean)
        self.foot, self.head = foot + from_lean, head + from_lean
        self.grid = np.linspace(0.0, 1.0, 41)

    def made(self, z):
        line = self.foot + (self.head - self.foot) * z / self.length
        return line + BOW * self.length * np.sin(math.pi * z / self.length)

    def solve(self, p):
        """Offsets from the line of thrust along both tubes, and the largest deflection."""
        spans = [(0.0, self.joint), (self.joint, self.length)]
        runs = [b - a for a, b in spans]

        def field(t, y):
            out = np.zeros_like(y)
            for k, ((a, _), run) in enumerate(zip(spans, runs)):
                area_i = self.tubes[k][1]
                out[2 * k] = y[2 * k + 1] * run
                out[2 * k + 1] = -p / (E * area_i) * (self.made(a + run * t) + y[2 * k]) * run
            return out

        def ends(at0, at1):
            return np.array([at0[0], at1[2], at1[0] - at0[2], at1[1] - at0[3]])

        found = solve_bvp(field, ends, self.grid, np.zeros((4, self.grid.size)), tol=1e-6, max_nodes=2000)
        if not found.success:
            raise RuntimeError(found.message)
        t = np.linspace(0.0, 1.0, 801)
        y = found.sol(t)
        offsets = [self.made(spans[k][0] + runs[k] * t) + y[2 * k] for k in (0, 1)]
        return [float(np.max(np.abs(o))) for o in offsets], float(np.max(np.abs(y[[0, 2]])))

    def stresses(self, p):
        offsets, _ = self.solve(p)
        return [p / a + p * o * c / i for (a, i, c), o in zip(self.tubes, offsets)]

    def critical(self):
        """Load at which the straight strut buckles, N: two half sines from the ends that meet with one slope."""
        a, b = self.joint, self.length - self.joint

        def joint(p):
            terms = []
            for (_, i, _), run in zip(self.tubes, (a, b)):
                k = math.sqrt(p / (E * i))
                terms.append((k, k * run))
            (w1, x1), (w2, x2) = terms
            return w1 * math.cos(x1) * math.sin(x2) + w2 * math.cos(x2) * math.sin(x1)

        step = 200.0
        p = step
        while joint(p + step) > 0.0:
            p += step
        return brentq(joint, p, p + step, rtol=1e-13)

    def first_yield(self):
        squash, critical = FY * min(t[0] for t in self.tubes), self.critical()
        # Halfway to the critical load again and again, since no solution is found close below it.
        high, rest = 0.5 * critical, 0.5
        while high < squash and max(self.stresses(high)) < FY and rest > 1e-4:
            rest /= 2.0
            high = critical * (1.0 - rest)
        return brentq(lambda p: max(self.stresses(p)) - FY, 100.0, min(high, squash), xtol=1.0, rtol=1e-6)


def worked(of):
    prop, outer, inner, closed, length, lean, (head, foot) = of
    one = Prop(outer, inner, closed, length, lean, head, foot)
    r = one.first_yield()
    row = [length, *lean, head, foot, round(r / 1e3, 5), round(one.critical() / 1e3, 5)]
    for share in LOADED:
        p = round(share * r / 1e3, 3)
        offsets, y = one.solve(p * 1e3)
        moments = [p * o * 1e-3 for o in offsets]
        row.append([p, *(round(v, 5) for v in [y, *moments, *one.stresses(p * 1e3)])])
    return row


def main():
    out = {
        "made_by": f"run_bvp.py, scipy {scipy.__version__}",
        "columns": "length m, lean along and across mm per m, off centre at head and foot mm, first yield kN, critical kN, "
        "then for each load: kN, deflection mm, moments kNm and stresses N/mm2 of outer and inner tube",
    }
    parts = []
    with multiprocessing.Pool(2) as pool:
        for prop, outer, inner, closed, lengths in PROPS:
            grid = [(prop, outer, inner, closed, *state) for state in itertools.product(lengths, LEANS, ENDS)]
            rows = pool.map(worked, grid, chunksize=1)
            states = ",\n  ".join(json.dumps(row, separators=(",", ":")) for row in rows)
            parts.append('{"prop": ' + json.dumps(prop) + ', "states": [\n  ' + states + "\n]}")
            print(prop, file=sys.stderr)
    print(json.dumps(out)[:-1] + ', "props": [\n' + ",\n".join(parts) + "\n]}")


if __name__ == "__main__":
    main()
