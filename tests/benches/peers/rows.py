"""The rows of files: photos, thumbnails, packs, reports. Each does a piece of work here and by a general tool, and looks
whether both made the same."""

import functools
import hashlib
import json
import shutil
import sys

from . import photos, tools
from .tools import Done, fresh, run, scratch, together

QUALITY = 82
# As many as the page has on the way at once.
HANDS = 2


class Row:
    """A piece of work: what it is called, what it is held against, and what is to be reached."""

    key = work = against = reach = ""
    unit = "s"
    # Ours over theirs at most; none where the row is a figure of its own.
    limit = None
    # The last one is measured in all runs, the others show the growth.
    sizes = (1,)
    quick_sizes = (1,)
    most_runs = 99
    counted = "photos"

    def __init__(self, programs):
        self.programs = programs
        self.notes = []

    def ours(self, size):
        """The app's way."""
        raise NotImplementedError

    def theirs(self, size):
        """The general tool's way; none where the row stands alone."""
        del size
        return None

    def same(self, ours, theirs):
        """Says in words what both have alike; raises where they differ."""
        raise NotImplementedError

    def work_program(self, *words, before=()):
        """Runs a word of the bench; its own seconds count, without its start and its preparation."""
        done = run([*before, self.programs["work"], *words])
        told = done.json()
        done = Done(told.get("seconds", done.seconds), told["peak_kb"] / 1024, done.out)
        done.told = told
        return done


def source(count):
    """So many photos."""
    return photos.make(scratch() / "photos", count)


def prepared(work, size):
    """A data folder with a job of so many photos, made once."""
    return tools.once(f"data-{size}", work, lambda data: run([work, "prepare", source(min(size, 60)), data, size]))


def job(data):
    """The only job's folder."""
    return next(one for one in (data / "jobs").iterdir() if not one.name.startswith("."))


def alike(what, ours, theirs):
    """Raises where two things differ that must be the same."""
    if ours != theirs:
        raise RuntimeError(f"{what} differ: {str(ours)[:300]} and {str(theirs)[:300]}")


def hashes(text):
    """The first column of a list of checksums."""
    return sorted(line.split()[0] for line in text.splitlines())


class Intake(Row):
    key, work = "intake", "A photo taken in: read, hash, EXIF, view, thumbnail, kept"
    against, reach, limit = "`vipsthumbnail` twice, `sha256sum`, `sync`", "≤ 0.60, ≤ 80 MB", 0.60
    sizes, quick_sizes = (15, 30, 60), (2, 3, 4)
    most_mb = 80

    def ours(self, size):
        return self.work_program("intake", source(size), fresh("taken"), size, HANDS)

    def theirs(self, size):
        tools.need("vipsthumbnail", "sha256sum")
        files = sorted(source(size).iterdir())[:size]
        out, kept = fresh("shown"), fresh("kept")
        for file in files:
            shutil.copy(file, kept)
        thumb = [["vipsthumbnail", *files, "-s", str(px), "-o", f"{out}/%s-{px}.jpg[Q={QUALITY}]"] for px in (1600, 320)]
        done = together(*thumb, ["sync", *sorted(kept.iterdir())], ["sha256sum", *files])
        done.files, done.folder = files, out
        return done

    def same(self, ours, theirs):
        alike("the hashes", sorted(ours.told["hashes"]), hashes(theirs.out))
        for file in theirs.files:
            sha = hashlib.sha256(file.read_bytes()).hexdigest()
            for name, px in (("view", 1600), ("thumb", 320)):
                alike("the sizes", photos.size(f"{ours.told['cache']}/{sha}-{name}.jpg"), photos.size(theirs.folder / f"{file.stem}-{px}.jpg"))
        return "hashes, pixel sizes of views and thumbnails"


class Two(Row):
    key, work = "two_at_once", "Photos taken in two at once"
    against, reach, limit = "the same one by one on one core", "≤ 0.59", 1 / 1.7
    sizes, quick_sizes = (60,), (4,)

    def ours(self, size):
        return self.work_program("intake", source(size), fresh("taken"), size, HANDS)

    def theirs(self, size):
        tools.need("taskset")
        return self.work_program("intake", source(size), fresh("taken-alone"), size, 1, before=["taskset", "-c", "0"])

    def same(self, ours, theirs):
        alike("the hashes", sorted(ours.told["hashes"]), sorted(theirs.told["hashes"]))
        return "hashes"


class Thumbnails(Row):
    key, work = "thumbnails", "Thumbnails made anew for 1,000 photos"
    against, reach, limit = "`vipsthumbnail`", "≤ 1.00", 1.0
    sizes, quick_sizes = (100, 300, 1000), (2, 4, 7)
    most_runs = 3

    def ours(self, size):
        return self.work_program("thumbnails", prepared(self.programs["work"], 1000 if size > 10 else 7), size, HANDS)

    def theirs(self, size):
        tools.need("vipsthumbnail")
        folder = job(prepared(self.programs["work"], 1000 if size > 10 else 7))
        # Those that were just made here.
        names = sorted(one.name.split("-")[0] for one in (folder / "cache").glob("*-thumb.jpg"))
        alike("the numbers of thumbnails", len(names), size)
        out = fresh("thumbnails")
        done = run(["vipsthumbnail", *names, "-s", "320", "-o", f"{out}/%s.jpg[Q={QUALITY}]"], folder / "photos")
        done.folder = out
        return done

    def same(self, ours, theirs):
        made = sorted(theirs.folder.iterdir())
        alike("the numbers of thumbnails", ours.told["shown"], len(made))
        for one in made[:50]:
            alike("the sizes", photos.size(f"{ours.told['cache']}/{one.stem}-thumb.jpg"), photos.size(one))
        return "number, pixel sizes"


class Report(Row):
    key, work = "report", "Report as PDF with 300 photos"
    against, reach, limit = "`img2pdf` of the same views", "≤ 1.20, memory ≤ 1.5 × the file + 60 MB", 1.2
    sizes, quick_sizes = (30, 100, 300), (2, 4, 6)

    def ours(self, size):
        out = scratch() / f"report-{size}.pdf"
        done = self.work_program("report", prepared(self.programs["work"], size), out)
        done.file, done.size = out, size
        done.most_mb = 1.5 * out.stat().st_size / 1e6 + 60
        return done

    def theirs(self, size):
        views = sorted((job(prepared(self.programs["work"], size)) / "cache").glob("*-view.jpg"))
        alike("the numbers of views", len(views), size)
        out = scratch() / "images.pdf"
        done = run([sys.executable, tools.BENCHES / "peers/images.py", out, *views])
        done.file, done.seconds = out, json.loads(done.out)["seconds"]
        return done

    def same(self, ours, theirs):
        tools.need("pdfimages")
        pictures = [[tuple(line.split()[3:5]) for line in run(["pdfimages", "-list", one.file]).out.splitlines()[2:]] for one in (ours, theirs)]
        views = set(pictures[1])
        alike("the pictures", sum(one in views for one in pictures[0]), len(pictures[1]))
        return "number and pixel sizes of the pictures"


class Pack(Row):
    key, work = "pack", "Pack of 300 photos with its list"
    against, reach, limit = "`zip -0` and `sha256sum` of the same files", "≤ 0.40, memory flat", 0.4
    sizes, quick_sizes = (30, 100, 300), (2, 4, 6)

    def ours(self, size):
        data, report = prepared(self.programs["work"], size), scratch() / f"report-{size}.pdf"
        if not report.exists():
            self.work_program("report", data, report)
        done = self.work_program("pack", data, report, fresh("packs"))
        return done

    def theirs(self, size):
        tools.need("zip", "sha256sum")
        folder = job(prepared(self.programs["work"], size)) / "photos"
        out = scratch() / "plain.zip"
        out.unlink(missing_ok=True)
        return together(["zip", "-0", "-q", "-r", out, "."], ["sha256sum", *sorted(one.name for one in folder.iterdir())], folder=folder)

    def same(self, ours, theirs):
        tools.need("unzip")
        listed = hashes(run(["unzip", "-p", ours.told["pack"], "SHA256SUMS"]).out)
        missing = set(hashes(theirs.out)) - set(listed)
        alike("the lists, but for the papers", missing, set())
        return "hashes of all photos"


class Verify(Row):
    key, work = "verify", "Pack of 300 photos checked"
    against, reach, limit = "`sha256sum -c` of the same files, unpacked", "≤ 0.50", 0.5
    sizes, quick_sizes = (30, 100, 300), (2, 4, 6)

    @functools.cache
    def pack(self, size):
        """A pack, and the same unpacked."""
        tools.need("unzip", "sha256sum")
        data, report = prepared(self.programs["work"], size), scratch() / f"report-{size}.pdf"
        self.work_program("report", data, report)
        pack = self.work_program("pack", data, report, fresh(f"checked-{size}")).told["pack"]
        plain = fresh(f"plain-{size}")
        run(["unzip", "-q", pack, "-d", plain])
        return pack, plain

    def ours(self, size):
        done = self.work_program("verify", self.pack(size)[0])
        done.size = size
        return done

    def theirs(self, size):
        return run(["sha256sum", "-c", "SHA256SUMS"], self.pack(size)[1])

    def same(self, ours, theirs):
        alike("the findings (0 is intact)", ours.told["code"], 0)
        named = len([line for line in theirs.out.splitlines() if line.endswith(": OK")])
        return f"both find {named} files as they were"
