"""The rows of the record, the search, the window and the program itself."""

import json
import os
import subprocess
import sys
from statistics import median

from . import tools, window
from .rows import Row, alike
from .tools import Done, NotRun, fresh, run, scratch


class Append(Row):
    key, work = "append", "An entry added and kept"
    against, reach, limit = "a row added to bare SQLite, WAL, FULL", "≤ 1.20", 1.2
    sizes, quick_sizes = (250, 500, 1000), (20, 40, 80)
    counted = "entries"

    def ours(self, size):
        return self.work_program("append", fresh("appended"), size)

    def theirs(self, size):
        return self.work_program("insert", fresh("inserted") / "bare.sqlite", size)

    def same(self, ours, theirs):
        alike("the numbers kept", ours.told["kept"], theirs.told["kept"])
        return "number of entries or rows kept"


class Open(Row):
    key, work = "open", "A job of 10,000 entries and 10,000 photos opened"
    against, reach, limit = "the same with 10", "≤ 1.50", 1.5
    sizes, quick_sizes = (100, 1000, 10000), (10, 30, 100)
    counted = "entries and as many photos"
    TIMES = 25

    def data(self, size):
        """A job of that length, made once and left from then on."""
        return tools.once(f"many-{size}", self.programs["work"], lambda folder: self.work_program("many", folder, size))

    def ours(self, size):
        done = self.work_program("open", self.data(size), self.TIMES)
        done.size = size
        return done

    def theirs(self, size):
        del size
        return self.work_program("open", self.data(10), self.TIMES)

    def same(self, ours, theirs):
        alike("the entries over those of both", ours.told["entries"] - theirs.told["entries"], 2 * (ours.size - 10))
        return "the same decisions about the wall in both"


class Search(Row):
    key, work = "search", "Full search, three aims, ready house types"
    against, reach, limit = "one beam of it in PyNiteFEA", "≤ 1.00, ≤ 16 ms", 1.0
    counted = "house type, the slowest beside its beam"

    def all(self, rounds):
        """Every house type: seconds here and there, in turns."""
        words = [sys.executable, tools.BENCHES / "beside.py", "--json", "--rounds", rounds, "--search", self.programs["search"], "--calc", self.programs["calc"]]
        return json.loads(run(words).out)

    def whole(self, runs):
        """Ours and theirs of the house type with the largest ratio."""
        types = self.all(runs)
        worst = max(types, key=lambda one: median(one["ours"]) / median(one["theirs"]))
        slowest = max(median(one["ours"]) for one in types)
        self.notes.append(f"{worst['name']}; slowest search {slowest * 1e3:.1f} ms")
        for one in types:
            self.notes.append(f"{one['name']} {median(one['ours']) / median(one['theirs']):.2f}")
        return worst["ours"], worst["theirs"], slowest <= 0.016, "sum of the reactions"


class Start(Row):
    key, work = "start", "Start until the first screen stands"
    against, reach, limit = "a bare window of the same kit", "≤ 1.30", 1.3
    counted = "window"

    def __init__(self, programs):
        super().__init__(programs)
        self.screen = self.bare = None

    def shown(self, words):
        """One start."""
        if self.screen is None:
            self.bare = window.bare()
            self.screen = window.Screen()
        seconds, colours = window.start(words or [self.bare], self.screen)
        done = Done(seconds, 0, "")
        done.colours = colours
        return done

    def ours(self, size):
        del size
        return self.shown([self.programs["upstay"]])

    def theirs(self, size):
        del size
        return self.shown(None)

    def same(self, ours, theirs):
        if min(ours.colours, theirs.colours) < 5:
            raise RuntimeError("a screen that stayed empty")
        return "both show text (counted by the colours of its edges)"

    def close(self):
        """Ends the display."""
        if self.screen is not None:
            self.screen.close()


class Scroll(Row):
    key, work = "scroll", "Frames while a record of 10,000 entries is scrolled, processor slowed 4 times"
    against, reach, unit = "–", "60 a second", "frames a second"
    sizes, quick_sizes = (10000,), (50,)
    counted = "entries and as many photos"
    most_runs = 3

    def ours(self, size):
        tools.need("chromium")
        done = self.work_program("scroll", size)
        if "not_run" in done.told:
            raise NotRun(done.told["not_run"])
        frames, plain, empty, screen = (done.told[name] for name in ("frames", "plain", "empty_of", "screen"))
        if min(frames["count"], plain["count"], screen["count"]) < 60:
            raise RuntimeError("hardly anything was scrolled")
        done.seconds = 1000 / frames["mean_ms"]
        self.notes.append(f"{frames['late']} of {frames['count']} frames late, largest {frames['largest_ms']:.0f} ms, page busy {done.told['work']['p95_ms']:.1f} ms at the 95th percentile; "
                          f"{done.told['moved_px']} px, entries missing in {empty[0]} of {empty[1]} frames")
        self.notes.append(f"a page of text without a script: {1000 / plain['mean_ms']:.1f} frames a second, {plain['late']} of {plain['count']} late, largest {plain['largest_ms']:.0f} ms")
        self.notes.append(f"by the browser's account {screen['dropped']} of {screen['count']} frames never reached the screen while it moved, {screen['missing']} with a part not painted")
        done.size = size
        return done

    def met(self, median):
        """A screen of 60 hertz gives a little more or less."""
        return median >= 59

    def same(self, ours, theirs):
        del ours, theirs
        return ""


class Size(Row):
    key, work = "program_size", "The program, stripped"
    against, reach, unit = "–", "≤ 15 MB", "MB"
    counted = "file"
    most_runs = 1

    def ours(self, size):
        del size
        path = self.programs["upstay"]
        if "/release/" not in path:
            raise NotRun("only the release profile strips the program")
        tools.need("file")
        kinds = subprocess.run(["file", "-b", path], capture_output=True, text=True, check=False).stdout
        if "not stripped" in kinds:
            raise RuntimeError("the program is not stripped")
        return Done(os.stat(path).st_size / 1e6, 0, "")

    def met(self, median):
        """As the reach says."""
        return median <= 15

    def same(self, ours, theirs):
        del ours, theirs
        return ""
