"""Writes jobs.jsonl: random but plausible jobs, each with a complete arrangement to be checked.

Run: python generate.py --seed 20251 --count 2200 --out .
Needs Python 3.11, numpy 2.4.6, scipy 1.17.1. Sizes are chosen by the reference result alone
(opinion/judge.py); the program under test is never asked.
"""

import argparse
import copy
import json
import random
from multiprocessing import Pool
from pathlib import Path

from opinion import houses
from opinion.judge import geometry, judge

CLASSES = ["holds"] * 8 + ["close"] * 5 + ["fails"] * 7


def wanted(k):
    """Class and features asked of job number k."""
    return dict(
        verdict=CLASSES[k % len(CLASSES)],
        windows=k % 3 == 0,
        points=k % 5 == 1 or k % 7 == 0,
        unequal=k % 5 != 2,
        geometry=k % 25 == 13,
    )


def in_class(ref, want):
    """Whether a reference result is what was asked for."""
    worst = ref["worst"]
    if worst is None:
        return False
    if bool(ref["geometry"]) != want["geometry"]:
        return False
    low, high = {"holds": (0.25, 0.90), "close": (0.90, 1.0), "fails": (1.0, 2.2)}[want["verdict"]]
    return low < worst <= high


def nudge(job, factor):
    """Scales what the needles carry by about a factor."""
    out = copy.deepcopy(job)
    if out.get("roof"):
        out["roof"]["span_m"] = round(min(14.0, max(2.0, out["roof"]["span_m"] * factor)), 2)
    for storey in out["above"]:
        floor = storey.get("floor")
        if floor:
            for key in ("inside_span_m", "outside_span_m"):
                if floor[key] > 0:
                    floor[key] = round(min(7.0, max(1.0, floor[key] * factor)), 2)
    for point in out.get("points", []):
        point["dead_kn"] = round(min(point["dead_kn"] * factor, 30.0), 2)
    return out


def make(args):
    """One job by seed and number; None where nothing fitted."""
    seed, k = args
    rng = random.Random(f"{seed}:{k}")
    want = wanted(k)
    for _ in range(60):
        job = houses.house(rng, want)
        for _ in range(6):
            houses.arrange(rng, job, want)
            if bool(geometry(job)) != want["geometry"]:
                continue
            ref = judge(job, quick=True)
            for _ in range(5):
                if ref["worst"] is None or in_class(ref, want):
                    break
                aim = {"holds": 0.75, "close": 0.95, "fails": 1.2}[want["verdict"]]
                near = 0.4 < ref["worst"] < 2.5
                if not near or ref["governs"] in ("end_bay",) or bool(ref["geometry"]) != want["geometry"]:
                    break
                tried = nudge(job, (aim / ref["worst"]) ** rng.uniform(0.8, 1.4))
                if not houses.in_scope(tried):
                    break
                job, ref = tried, judge(tried, quick=True)
            if in_class(ref, want) and houses.in_scope(job):
                return job
    return None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--seed", type=int, default=20251)
    parser.add_argument("--count", type=int, default=2200)
    parser.add_argument("--out", default=".")
    parser.add_argument("--workers", type=int, default=2)
    a = parser.parse_args()
    print(f"seed {a.seed}")
    with Pool(a.workers) as pool:
        jobs = pool.map(make, [(a.seed, k) for k in range(a.count)], chunksize=8)
    kept = [job for job in jobs if job]
    path = Path(a.out) / "jobs.jsonl"
    with path.open("w") as f:
        for job in kept:
            f.write(json.dumps(job, separators=(",", ":")) + "\n")
    (Path(a.out) / "about.txt").write_text(f"jobs by seed {a.seed}: {len(kept)} of {a.count}\n")
    print(f"{len(kept)} of {a.count} jobs, {path.stat().st_size / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
