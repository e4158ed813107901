#!/usr/bin/env python3
"""Sets the app's work beside general tools doing the same, in one run on one machine, and prints ratios.

    python3 tests/benches/side_by_side.py                  all rows; an hour of an idle machine with two cores
    python3 tests/benches/side_by_side.py --only pack,open rows by name; what was measured of the same program before stays
    python3 tests/benches/side_by_side.py --missing        rows that have no figures of this program yet, after a run was cut off
    python3 tests/benches/side_by_side.py --quick          small sizes in the test profile, only to see that it works
    python3 tests/benches/side_by_side.py --list           names of the rows

It fetches what it needs: packages of the system where apt is there, a Python environment, photos that it draws, and the app in
its release profile. Both sides run in turns after one warm-up; where they did not make the same, the row fails. Times are those
of the work on the wall: without the start of the app's process or of a Python interpreter, with that of the small programs.
`vipsthumbnail` gets all photos at once. Figures go to `last.json` after each row, which only this script writes; `tests/counts`
holds the README to it, and the table to put there is printed at the end. Photos and jobs that were made stay in the folder
`side_by_side` of Cargo's target folder for the next run, some ten gigabytes, and may be deleted.
"""

import argparse
import json
import math
import os
import pathlib
import statistics
import sys
import time

from peers import tools
from peers.tools import NotRun

LAST = pathlib.Path(__file__).resolve().parent / "last.json"


def asked():
    """What stands on the command line; anything unknown prints how it is used and ends."""
    names = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter, allow_abbrev=False)
    names.add_argument("--quick", action="store_true", help="small sizes, test profile; last.json is left alone")
    names.add_argument("--runs", type=int, default=5, help="runs of each side after the warm-up (5)")
    names.add_argument("--only", default="", help="names of rows, with commas between")
    names.add_argument("--missing", action="store_true", help="only rows that have no figures of this program")
    names.add_argument("--list", action="store_true", help="print the names of the rows")
    told = names.parse_args()
    if told.runs < 1:
        names.error("--runs is at least 1")
    if told.missing and (told.quick or told.only):
        names.error("--missing stands alone")
    return names, told


def fitted(points):
    """The exponent of a power law through points of size and figure: 0 is flat, 1 grows alike."""
    points = [(math.log(size), math.log(figure)) for size, figure in points if size > 0 and figure > 0]
    if len(points) < 2:
        return None
    mean_x, mean_y = (statistics.mean(part) for part in zip(*points))
    across = sum((x - mean_x) ** 2 for x, _ in points)
    return round(sum((x - mean_x) * (y - mean_y) for x, y in points) / across, 2) if across else None


def measure(row, runs, quick):
    """Both sides in turns after one warm-up, at all sizes."""
    *smaller, largest = row.quick_sizes if quick else row.sizes
    runs = min(runs, row.most_runs)
    if hasattr(row, "whole"):
        ours, theirs, within, same = row.whole(runs)
        return {"ours": ours, "theirs": theirs, "same": same, "reached_beside": within}
    warm = (smaller or [largest])[0]
    row.ours(warm)
    row.theirs(warm)
    row.notes.clear()
    ours, theirs, same = [], [], ""
    for _ in range(runs):
        ours.append(row.ours(largest))
        theirs.append(row.theirs(largest))
        same = row.same(ours[-1], theirs[-1])
    found = {"ours": [one.seconds for one in ours], "same": same, "size": largest, "peak_mb": round(max(one.peak_mb for one in ours), 1)}
    if theirs[0] is not None:
        found |= {"theirs": [one.seconds for one in theirs], "their_peak_mb": round(max(one.peak_mb for one in theirs), 1)}
    most = getattr(ours[-1], "most_mb", None) or getattr(row, "most_mb", None)
    if most:
        found |= {"most_mb": round(most, 1), "reached_beside": found["peak_mb"] <= most}
    if smaller:
        steps = []
        for size in smaller:
            pairs = [(row.ours(size), row.theirs(size)) for _ in range(min(runs, 2))]
            row.same(*pairs[-1])
            steps.append((size, *(statistics.median(one.seconds for one in side) for side in zip(*pairs)), max(one.peak_mb for one, _ in pairs)))
        steps.append((largest, statistics.median(found["ours"]), statistics.median(found["theirs"]), found["peak_mb"]))
        found["growth"] = {
            "steps": [[size, *(float(f"{figure:.4g}") for figure in rest)] for size, *rest in steps],
            "exponent": fitted([(one[0], one[1]) for one in steps]), "their_exponent": fitted([(one[0], one[2]) for one in steps]),
            "memory_exponent": fitted([(one[0], one[3]) for one in steps if one[3]]),
        }
    return found


def judged(row, found):
    """Ratio, and whether what is to be reached was reached."""
    ours = statistics.median(found["ours"])
    if "theirs" in found:
        ratio = ours / statistics.median(found["theirs"])
        reached = ratio <= row.limit
        found["ratio"] = round(ratio, 3)
    else:
        reached = row.met(ours)
    growth = found.get("growth", {}).get("memory_exponent")
    flat = "memory flat" not in row.reach or growth is None or growth <= 0.1
    found["reached"] = bool(reached and found.get("reached_beside", True) and flat)
    return found


def spread(values, unit):
    """Median and range."""
    middle = statistics.median(values)
    factor, name = (1e3, "ms") if unit == "s" and middle < 0.1 else (1, unit)
    return f"{middle * factor:.3g} ({min(values) * factor:.3g} to {max(values) * factor:.3g}) {name}"


def printed(row):
    """A row of the table, and what is to be known beside it."""
    if "ours" not in row:
        return f"{row['work']}\n    NOT RUN: {row['not_run']}"
    theirs = spread(row["theirs"], row["unit"]) if "theirs" in row else "–"
    ratio = f"{row['ratio']:.2f}" if "ratio" in row else "–"
    lines = [f"{row['work']}\n    {spread(row['ours'], row['unit'])} | {row['against']}: {theirs} | ratio {ratio} | {row['reach']}: {'reached' if row['reached'] else 'MISSED'}"]
    if row.get("peak_mb"):
        lines.append(f"    memory {row['peak_mb']:.0f} MB (theirs {row.get('their_peak_mb', 0):.0f} MB" + (f", allowed {row['most_mb']:.0f} MB)" if "most_mb" in row else ")"))
    if growth := row.get("growth"):
        steps = ", ".join(f"{size}: {ours:.3g} s / {theirs:.3g} s" for size, ours, theirs, _ in growth["steps"])
        lines.append(f"    growth {steps}; exponents {growth['exponent']} / {growth['their_exponent']}, memory {growth['memory_exponent']}")
    if row["same"]:
        lines.append(f"    the same in both: {row['same']}")
    lines += [f"    {note}" for note in row["notes"]]
    return "\n".join(lines)


def table(rows):
    """The README's table."""
    lines = ["| Work | Beside | Ratio | To reach |", "|---|---|---|---|"]
    for row in rows:
        if "ours" not in row:
            figure = "NOT RUN"
        elif "theirs" in row:
            figure = f"{statistics.median(row['ours']) / statistics.median(row['theirs']):.2f}"
        else:
            figure = f"{statistics.median(row['ours']):.1f} {row['unit']}"
        lines.append(f"| {row['work']} | {row['against']} | {figure} | {row['reach']} |")
    return "\n".join(lines)


def before(commit):
    """What was measured before of a commit that holds the same program."""
    try:
        last = json.loads(LAST.read_text())
    except FileNotFoundError:
        return {}
    return {row["key"]: row for row in last["rows"] if "ours" in row and not row["tree_changed"] and tools.same_program(row["commit"], commit)}


def main():
    """Runs the rows and keeps their figures."""
    names, told = asked()
    kinds = ["Intake", "Two", "Thumbnails", "Pack", "Report", "Verify", "Append", "Open", "Search", "Start", "Scroll", "Size"]
    keys = ["intake", "two_at_once", "thumbnails", "pack", "report", "verify", "append", "open", "search", "start", "scroll", "program_size"]
    if told.list:
        print("\n".join(keys))
        return
    only = [name for name in told.only.split(",") if name]
    if unknown := [name for name in only if name not in keys]:
        names.error(f"no row is called {', '.join(unknown)}; there are {', '.join(keys)}")
    tools.into_environment()
    from peers import others, rows
    tools.install()
    tools.need("time")
    os.environ["TMPDIR"] = str(tools.scratch() / "tmp")
    tools.fresh("tmp")
    commit, changed = tools.commit()
    programs = tools.build(told.quick)
    kinds = [row(programs) for row in (getattr(rows, kind, None) or getattr(others, kind) for kind in kinds)]
    blank = {row.key: {name: getattr(row, name) for name in ("key", "work", "against", "reach", "unit", "counted")} for row in kinds}
    # What was not measured says so in the file from the first row on, so that a run that is cut off leaves a whole file.
    out = {key: said | {"not_run": "not measured yet"} for key, said in blank.items()} | ({} if told.quick else before(commit))
    for row in kinds:
        if (only and row.key not in only) or (told.missing and "ours" in out[row.key]):
            continue
        out[row.key] = blank[row.key] | one(row, told, commit, changed)
        print(printed(out[row.key]), flush=True)
        keep(told.quick, {"rule": "Written by tests/benches/side_by_side.py only.", "machine": tools.machine(), "versions": tools.versions(),
                          "commit": commit, "rows": list(out.values())})
    print("\n" + table(out.values()))
    if any("failed" in row.get("not_run", "") for row in out.values()):
        sys.exit(1)


def one(row, told, commit, changed):
    """Figures of a row, or why there are none."""
    load, begun = os.getloadavg()[0], time.time()
    try:
        found = judged(row, measure(row, 2 if told.quick else told.runs, told.quick))
    except NotRun as why:
        return {"not_run": str(why)}
    except Exception as why:  # The other rows are still to be measured, whatever this one stumbled over.
        return {"not_run": f"failed: {type(why).__name__}: {why}"}
    finally:
        getattr(row, "close", lambda: None)()
    return found | {"notes": row.notes[-9:], "load_before": round(load, 1), "load_after": round(os.getloadavg()[0], 1), "took_s": round(time.time() - begun),
                    "at": time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime()), "commit": commit, "tree_changed": changed}


def keep(quick, last):
    """Writes the figures, after each row, so that a run that is stopped leaves what it found."""
    place = tools.scratch() / "quick.json" if quick else LAST
    place.write_text(json.dumps(last, indent=1, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()
