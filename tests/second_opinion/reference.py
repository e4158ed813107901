"""Writes reference.jsonl: results for every job of jobs.jsonl, from METHOD alone.

Nothing of the project is imported. The continuous line of every job and the frame of its most
loaded needle are solved a second time with a general structural library; where they part by more
than one part in a thousand the script stops.

Run: python reference.py --dir . [--no-library]
Needs Python 3.11, numpy 2.4.6, scipy 1.17.1, PyNiteFEA 3.2.0.
"""

import argparse
import json
from collections import Counter
from multiprocessing import Pool
from pathlib import Path

from opinion.judge import judge

LIBRARY = True
# The frame is read at its nodes, 17 along the span, and the needle is integrated in 400 steps.
TOLERANCE = (1e-6, 8e-3)


def one(line):
    """Reference record of one job."""
    return judge(json.loads(line), library=LIBRARY)


def main():
    global LIBRARY
    parser = argparse.ArgumentParser()
    parser.add_argument("--dir", default=".")
    parser.add_argument("--no-library", action="store_true")
    parser.add_argument("--workers", type=int, default=2)
    a = parser.parse_args()
    LIBRARY = not a.no_library
    lines = (Path(a.dir) / "jobs.jsonl").read_text().splitlines()
    with Pool(a.workers) as pool:
        refs = pool.map(one, lines, chunksize=8)
    if LIBRARY:
        worst = [max(r["library"][k] for r in refs) for k in (0, 1)]
        words = f"general library against own solution on {len(refs)} jobs: line within {worst[0]:.1e}, frame within {worst[1]:.1e}"
        print(words)
        about = Path(a.dir) / "about.txt"
        first = about.read_text().splitlines()[0]
        about.write_text(f"{first}\n{words}\n")
        assert worst[0] < TOLERANCE[0] and worst[1] < TOLERANCE[1], "the library disagrees"
        for r in refs:
            del r["library"]
    path = Path(a.dir) / "reference.jsonl"
    with path.open("w") as f:
        for r in refs:
            f.write(json.dumps(r, separators=(",", ":")) + "\n")
    print(Counter(r["verdict"] for r in refs), Counter(r["governs"] for r in refs).most_common(12))
    print(f"one lost: {sum(r['lost'] is not None for r in refs)}, {path.stat().st_size / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
