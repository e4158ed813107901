"""Sets a full search with three aims beside one solution of the same job's continuous beam in a general structural library.

Needs: pip install PyNiteFEA==3.2.0, and a Rust toolchain. Run from the project's top folder:

    python3 tests/benches/beside.py

Both run in turns after one warm-up; medians and spreads are printed, and the reactions are compared, so that it is seen
that both worked on the same beam. The library's time is its analysis alone, without building the model.
"""

import argparse
import importlib.metadata
import json
import statistics
import subprocess
import time

from Pynite import FEModel3D

ROUNDS = 7
SEARCHES = 20


def build():
    """Builds program and benchmark with the release profile; gives the benchmark's path."""
    subprocess.run(["cargo", "build", "--release", "-p", "calc"], check=True)
    lines = subprocess.run(
        ["cargo", "bench", "-p", "calc", "--bench", "search", "--no-run", "--message-format=json"],
        check=True, capture_output=True, text=True).stdout.splitlines()
    artifacts = [json.loads(line) for line in lines if line.startswith("{")]
    benches = [a["executable"] for a in artifacts if a.get("executable") and a["target"]["name"] == "search"]
    programs = [a["executable"] for a in artifacts if a.get("executable") and a["target"]["name"] == "calc" and "bin" in a["target"]["kind"]]
    return benches[-1], programs[-1] if programs else benches[-1].rsplit("/deps/", 1)[0] + "/calc"


def program(path, *words, given=None):
    """Runs the calculation program."""
    done = subprocess.run([path, *words], input=given, capture_output=True, text=True, check=True)
    return done.stdout


def beam(proposal):
    """The wall over the cut as a beam on the needles of the first option, free at the cut edges, service load."""
    profile = proposal["load"]["profile"]
    axes = [needle["x_m"] for needle in proposal["options"][0]["needles"]]
    model = FEModel3D()
    model.add_material("one", 30e6, 12e6, 0.2, 20)
    model.add_section("wall", 0.02, 1e-3, 1e-3, 1e-3)
    places = sorted({round(x, 9) for x in [profile["x_m"][0], profile["x_m"][-1], *axes]})
    for k, x in enumerate(places):
        model.add_node(f"n{k}", x, 0, 0)
    nodes = {x: f"n{k}" for k, x in enumerate(places)}
    for k, x in enumerate(axes):
        model.def_support(nodes[round(x, 9)], k == 0, True, True, k == 0, k == 0, False)
    for k in range(len(places) - 1):
        model.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "one", "wall")
        a, b = places[k], places[k + 1]
        for left, right, g, q in zip(profile["x_m"], profile["x_m"][1:], profile["g_kn_m"], profile["q_kn_m"]):
            from_x, to_x = max(a, left), min(b, right)
            if to_x > from_x + 1e-12:
                model.add_member_dist_load(f"m{k}", "FY", -(g + q), -(g + q), from_x - a, to_x - a)
    return model, [nodes[round(x, 9)] for x in axes]


def solve(proposal):
    """Seconds of the analysis alone, and the reactions."""
    model, supports = beam(proposal)
    start = time.perf_counter()
    model.analyze_linear(log=False, check_stability=False, check_statics=False)
    seconds = time.perf_counter() - start
    return seconds, [model.nodes[n].RxnFY["Combo 1"] for n in supports]


def spread(values):
    """Median and range in milliseconds."""
    return f"{statistics.median(values) * 1e3:7.2f} ({min(values) * 1e3:.2f} to {max(values) * 1e3:.2f})"


def asked():
    """What stands on the command line; anything unknown prints how it is used and ends."""
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter, allow_abbrev=False)
    words.add_argument("--json", action="store_true", help="print the seconds of both as JSON, for side_by_side.py")
    words.add_argument("--rounds", type=int, default=ROUNDS, help=f"rounds in turns ({ROUNDS})")
    words.add_argument("--search", help="the benchmark, already built")
    words.add_argument("--calc", help="the calculation program, already built")
    return words.parse_args()


def measured(bench, calc, name, rounds):
    """Seconds of the search and of the library's beam, in turns after one warm-up; none where there is no beam."""
    proposal = json.loads(program(calc, "size", given=program(calc, "example", name)))
    if not proposal["options"]:
        return None
    _, reactions = solve(proposal)
    total = proposal["load"]["total_service_kn"]
    assert abs(sum(reactions) - total) < 1e-6 * total, f"{name}: {sum(reactions)} is not {total}"
    ours, theirs = [], []
    for _ in range(rounds):
        ours.append(float(program(bench, "time", name, str(SEARCHES))))
        theirs.append(solve(proposal)[0])
    return ours, theirs


def main():
    """Runs all ready house types that get options."""
    told = asked()
    bench, calc = (told.search, told.calc) if told.search and told.calc else build()
    names = program(calc, "example", "list").split()
    both = {name: measured(bench, calc, name, told.rounds) for name in names}
    if told.json:
        print(json.dumps([{"name": name, "ours": one[0], "theirs": one[1]} for name, one in both.items() if one]))
        return
    print(f"PyNiteFEA {importlib.metadata.version('PyNiteFEA')}; {told.rounds} rounds in turns, {SEARCHES} searches each; ms: median (range)")
    print(f"{'house type':24} {'search, three aims':28} {'one beam in the library':28} ratio")
    for name, one in both.items():
        if one is None:
            print(f"{name:24} NOT RUN: no option, so no beam to compare")
            continue
        ours, theirs = one
        ratio = statistics.median(ours) / statistics.median(theirs)
        print(f"{name:24} {spread(ours):28} {spread(theirs):28} {ratio:.2f}")


if __name__ == "__main__":
    main()
