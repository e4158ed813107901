"""Load take-down of METHOD 2: patches of uniform load swept from the roof down.

A patch is [kind, leaf, a, b, total_kn, spread_from_m]. `spread_from_m` is the level
below which it widens at 45 degrees each way, or None when it goes straight down.
Kinds: g, qf (floors, partitions), qs (snow), qr (roof imposed), qp (points).
"""

import math

from . import tables as T

KINDS = ("g", "qf", "qs", "qr", "qp")
PSI1 = {"qf": 0.5, "qs": 0.2, "qr": 0.0, "qp": 0.5}


class Wall:
    """Levels and leaves of a job."""

    def __init__(self, job):
        op, w = job["opening"], job["wall"]
        self.job = job
        self.width = op["width_m"]
        self.leaves = w["leaves"]
        self.cavity = w.get("cavity_mm", 0.0) if len(self.leaves) > 1 else 0.0
        self.thickness = [leaf["thickness_mm"] for leaf in self.leaves]
        y, self.leaf_y = 0.0, []
        for i, t in enumerate(self.thickness):
            self.leaf_y.append((y, y + t))
            y += t + (self.cavity if i + 1 < len(self.leaves) else 0.0)
        self.total_mm = y
        self.x0, self.x1 = -op["left_masonry_m"], self.width + op["right_masonry_m"]
        above = job["above"]
        self.levels = []
        for i, storey in enumerate(above):
            floor = storey.get("floor") or {}
            given = floor.get("bearing_m")
            self.levels.append(given if given is not None else self.levels[-1] + above[i - 1]["height_m"])
        roof = job.get("roof") or {}
        self.top = self.levels[-1] + above[-1]["height_m"] if above else roof.get("bearing_m") or 2.4
        if op.get("needle_soffit_m") is not None:
            self.soffit = op["needle_soffit_m"]
        elif op.get("flush"):
            self.soffit = self.levels[0] + above[0]["floor"]["joist_depth_m"] + 0.05
        else:
            self.soffit = op["head_m"] + op["beam_depth_mm"] / 1000 + 0.05
        self.holes = []
        for i, storey in enumerate(above):
            floor = storey.get("floor") or {}
            base = self.levels[i] + (floor.get("joist_depth_m") or 0.0)
            for o in storey.get("openings") or []:
                sill = base + o["sill_m"]
                self.holes.append(dict(a=o["x_m"], b=o["x_m"] + o["width_m"], sill=sill, head=sill + o["height_m"]))

    def leaf_shares(self, leaf):
        """How a load on inner, outer or both leaves falls on the leaves."""
        n = len(self.leaves)
        if n == 1:
            return [(0, 1.0)]
        return {"outer": [(0, 1.0)], "inner": [(n - 1, 1.0)], "both": [(0, 0.5), (n - 1, 0.5)]}[leaf]

    def leaf_weight(self, level):
        """kN/m2 of each leaf just above a level."""
        leaves = self.leaves
        for base, storey in zip(self.levels, self.job["above"]):
            if level >= base - 1e-9 and storey.get("leaves"):
                leaves = storey["leaves"]
        return [leaf["thickness_mm"] / 1000 * leaf.get("density_kn_m3", T.DENSITY[leaf["material"]])
                + leaf.get("plaster_mm", 0.0) / 1000 * T.PLASTER for leaf in leaves]


def floor_line(floor):
    """(g, q) in kN per metre of wall of one floor."""
    a, b = floor.get("inside_span_m", 0.0), floor.get("outside_span_m", 0.0)
    if floor.get("direction") == "along":
        reach = floor["joist_spacing_m"] / 2 * ((a > 0) + (b > 0))
    elif floor.get("continuous") and a > 0 and b > 0:
        hog = (a**3 + b**3) / (8 * (a + b))
        reach = a / 2 + b / 2 + hog / a + hog / b
    else:
        reach = a / 2 + b / 2
    imposed = 1.0 if floor.get("empty") else floor.get("imposed_kn_m2", 1.5)
    return floor["dead_kn_m2"] * reach, (imposed + floor["partitions_kn_m2"]) * reach


def roof_line(job, n_storeys):
    """(g, q, kind of q) in kN per metre of wall of the roof."""
    roof, site = job.get("roof") or {}, job.get("site") or {}
    if not roof or roof["kind"] == "none" or not roof.get("bears", True):
        return 0.0, 0.0, "qr"
    pitch = 0.0 if roof["kind"] == "flat" else roof["pitch_deg"]
    imposed = 0.6 * min(1.0, max(0.0, (60.0 - pitch) / 30.0))
    if site.get("snow_kn_m2") is not None:
        ground = site["snow_kn_m2"]
    elif site.get("snow_zone") is not None:
        ground = 0.15 + 0.1 * site["snow_zone"] + 0.05 + (site["altitude_m"] - 100.0) / 525.0
    else:
        ground = 0.6
    snow = 0.8 * min(1.0, max(0.0, (60.0 - pitch) / 30.0)) * ground
    reach = roof["span_m"] / 2 + roof["overhang_m"]
    each = roof["dead_kn_m2"] / math.cos(math.radians(pitch)) + roof["ceiling_kn_m2"] + max(imposed, snow)
    if roof["kind"] == "rafters":
        # The purlins' posts stand at the roof's bearing; they must bring half of what is left off at least.
        posts = sum(p["dead_kn"] + p.get("imposed_kn", 0.0) for p in job.get("points") or [] if p["level"] == n_storeys)
        if posts >= 0.5 * each * roof["span_m"] / 4 * job["opening"]["width_m"]:
            reach = roof["span_m"] / 4 + roof["overhang_m"] if posts > 0.0 else reach
    g = (roof["dead_kn_m2"] / math.cos(math.radians(pitch)) + roof["ceiling_kn_m2"]) * reach
    return g, max(imposed, snow) * reach, "qs" if snow > imposed else "qr"


def _extent(patch, level, wall):
    """Extent of a patch at a level, held within the wall."""
    _, _, a, b, _, start = patch
    grow = max(0.0, start - level) if start is not None else 0.0
    return max(a - grow, wall.x0), min(b + grow, wall.x1)


def _pass_head(patches, hole, wall, spread):
    """At the head of an opening what stands over it goes to the jambs."""
    a, b = hole["a"], hole["b"]
    left_end, right_end = wall.x0, wall.x1
    for other in wall.holes:
        if other is hole or other["head"] <= hole["sill"] or other["sill"] >= hole["head"]:
            continue
        if other["b"] <= a:
            left_end = max(left_end, other["b"])
        elif other["a"] >= b:
            right_end = min(right_end, other["a"])
    high = hole["head"] - hole["sill"]
    dl, dr = min(high, a - left_end), min(high, right_end - b)
    out, jambs = [], {}
    for patch in patches:
        p, q = _extent(patch, hole["head"], wall)
        lo, hi = max(p, a), min(q, b)
        if hi <= lo + 1e-12:
            # Straight down: below the head of an opening nothing spreads any more.
            if patch[5] is None:
                out.append(patch)
                continue
            # With the spread: on from the highest sill of the openings it passes in one storey.
            passed = patch[5] if patch[5] < hole["head"] else hole["sill"]
            out.append([*patch[:2], p, q, patch[4], max(passed, hole["sill"]) if spread else None])
            continue
        kind, leaf, _, _, total, _ = patch
        w = total / (q - p)
        for r, s in ((p, lo), (hi, q)):
            if s > r + 1e-12:
                out.append([kind, leaf, r, s, w * (s - r), None])
        load, mid = w * (hi - lo), (lo + hi) / 2
        right = load * (mid - a) / (b - a)
        acc = jambs.setdefault((kind, leaf), [0.0, 0.0])
        acc[0] += load - right
        acc[1] += right
    start = hole["sill"] if spread else None
    for (kind, leaf), (left, right) in jambs.items():
        out.append([kind, leaf, a - dl, a, left, start])
        out.append([kind, leaf, b, b + dr, right, start])
    return out


def sweep(wall, spread):
    """Patches at the needle soffit, straight down or with the 45 degree spread going on."""
    job, patches = wall.job, []
    x0, x1 = wall.x0, wall.x1
    events = {wall.top, wall.soffit}
    events.update(z for z in wall.levels if z > wall.soffit)
    for h in wall.holes:
        events.update((h["sill"], h["head"]))
    levels = sorted(events, reverse=True)
    g, q, kind = roof_line(job, len(wall.levels))
    roof_leaf = (job.get("roof") or {}).get("leaf", "inner")
    for leaf, share in wall.leaf_shares(roof_leaf):
        patches.append(["g", leaf, x0, x1, g * share * (x1 - x0), None])
        patches.append([kind, leaf, x0, x1, q * share * (x1 - x0), None])
    for i, level in enumerate(levels):
        if level < wall.soffit - 1e-9:
            break
        for h in wall.holes:
            if abs(h["sill"] - level) < 1e-9:
                for leaf in range(len(wall.leaves)):
                    total = T.GLAZING * (h["b"] - h["a"]) * (h["head"] - h["sill"]) / len(wall.leaves)
                    patches.append(["g", leaf, h["a"], h["b"], total, None])
        for n, base in enumerate(wall.levels):
            floor = job["above"][n].get("floor")
            if floor and abs(base - level) < 1e-9:
                fg, fq = floor_line(floor)
                for leaf, share in wall.leaf_shares(floor["leaf"]):
                    patches.append(["g", leaf, x0, x1, fg * share * (x1 - x0), None])
                    patches.append(["qf", leaf, x0, x1, fq * share * (x1 - x0), None])
        for point in job.get("points") or []:
            n = point["level"]
            at = wall.levels[n] if n < len(wall.levels) else wall.top
            if abs(at - level) < 1e-9:
                for leaf, share in wall.leaf_shares(point["leaf"]):
                    patches.append(["g", leaf, point["x_m"], point["x_m"], point["dead_kn"] * share, at])
                    patches.append(["qp", leaf, point["x_m"], point["x_m"], point.get("imposed_kn", 0.0) * share, at])
        for h in wall.holes:
            if abs(h["head"] - level) < 1e-9:
                patches = _pass_head(patches, h, wall, spread)
        if i + 1 < len(levels) and level > wall.soffit + 1e-9:
            low = max(levels[i + 1], wall.soffit)
            weights = wall.leaf_weight((low + level) / 2)
            cuts = sorted((h["a"], h["b"]) for h in wall.holes if h["sill"] < level - 1e-9 and h["head"] > low + 1e-9)
            at = x0
            for a, b in cuts + [(x1, x1)]:
                if a > at:
                    for leaf, w in enumerate(weights):
                        patches.append(["g", leaf, at, a, w * (level - low) * (a - at), None])
                at = max(at, b)
    return patches


def profile(wall, spread):
    """{(kind, leaf): [(a, b, w_kn_m)]} over the cut width."""
    out = {}
    for patch in sweep(wall, spread):
        kind, leaf, _, _, total, _ = patch
        if total <= 0.0:
            continue
        p, q = _extent(patch, wall.soffit, wall)
        if q - p < 1e-6:
            p, q = p - 5e-4, q + 5e-4
        w = total / (q - p)
        a, b = max(p, 0.0), min(q, wall.width)
        if b > a:
            rows = out.setdefault((kind, leaf), {})
            rows[(a, b)] = rows.get((a, b), 0.0) + w
    return {key: [(a, b, w) for (a, b), w in rows.items()] for key, rows in out.items()}


def total(prof, factors, leaf=None, lo=None, hi=None):
    """Load of a profile in kN, whole or between two x, with a factor per kind."""
    out = 0.0
    for (kind, lf), patches in prof.items():
        if leaf is not None and lf != leaf:
            continue
        for a, b, w in patches:
            p = a if lo is None else max(a, lo)
            q = b if hi is None else min(b, hi)
            if q > p:
                out += factors.get(kind, 0.0) * w * (q - p)
    return out


SERVICE = {k: 1.0 for k in KINDS}
STRENGTH = {k: 1.35 if k == "g" else 1.5 for k in KINDS}
ACCIDENTAL = {"g": 1.0, **PSI1}
PERMANENT = {"g": 1.0}
