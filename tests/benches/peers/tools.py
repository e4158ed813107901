"""Running programs, and putting in place what is needed: packages, a Python environment, the app's own programs."""

import functools
import hashlib
import json
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import time

TOP = pathlib.Path(__file__).resolve().parents[3]
BENCHES = TOP / "tests/benches"
# The packages of each program that a row needs.
PACKAGES = {"vipsthumbnail": "libvips-tools", "zip": "zip", "unzip": "unzip", "sha256sum": "coreutils",
            "time": "time", "taskset": "util-linux", "pdfimages": "poppler-utils", "Xvfb": "xvfb", "file": "file"}
PYTHON = ["img2pdf==0.6.3", "PyNiteFEA==3.2.0", "pillow==13.0.0", "numpy==2.4.6"]


class NotRun(Exception):
    """A row that cannot run here, and why."""


def target():
    """Cargo's folder."""
    return pathlib.Path(os.environ.get("CARGO_TARGET_DIR", TOP / "target")).resolve()


def scratch():
    """A folder on the same disk as everything else, so that a sync costs the same for all."""
    folder = target() / "side_by_side"
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def into_environment():
    """Goes on in a Python environment that holds the Python peers; makes it the first time."""
    place = scratch() / "venv"
    python = place / "bin/python3"
    if pathlib.Path(sys.prefix).resolve() == place.resolve():
        return
    if not (place / "complete").exists():
        subprocess.run([sys.executable, "-m", "venv", place], check=True)
        subprocess.run([python, "-m", "pip", "install", "--quiet", *PYTHON], check=True)
        (place / "complete").touch()
    os.execv(python, [str(python), *sys.argv])


def install():
    """Fetches the packages of programs that are missing, where that is allowed."""
    missing = sorted({package for program, package in PACKAGES.items() if not shutil.which(program)})
    if missing and shutil.which("apt-get"):
        first = [] if os.geteuid() == 0 else ["sudo"]
        subprocess.run([*first, "apt-get", "install", "-y", "-qq", "--no-install-recommends", *missing], stdout=subprocess.DEVNULL, check=False)


def need(*programs):
    """Says NOT RUN where a program is missing."""
    for program in programs:
        if not shutil.which(program):
            raise NotRun(f"{program} is not installed")


def build(quick):
    """Builds the app's programs; gives their paths. The app is built as its package is, and `work` with it in one go, so that both
    share everything. A quick run takes the test profile with the features that the tests were built with (so with `taps`)."""
    if quick:
        every = [["--workspace", "--bin", "upstay", "--bin", "work", "--bin", "calc", "--bench", "search", "--bench", "taps"]]
    else:
        every = [["--release", "-p", "upstay", "-p", "work", "--bin", "upstay", "--bin", "work", "--features", "tauri/custom-protocol"],
                 ["--release", "-p", "calc", "--bin", "calc", "--bench", "search"]]
    made = {}
    for words in every:
        done = subprocess.run(["cargo", "build", *words, "--message-format=json-render-diagnostics"], cwd=TOP, check=True, stdout=subprocess.PIPE, text=True)
        told = [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]
        made |= {one["target"]["name"]: one["executable"] for one in told if one.get("executable")}
    return made


class Done:
    """What a program did: seconds on the wall, most memory held, what it printed."""

    def __init__(self, seconds, peak_mb, out):
        self.seconds, self.peak_mb, self.out = seconds, peak_mb, out

    def json(self):
        """What it printed, as JSON."""
        return json.loads(self.out)


def run(words, folder=None, given=None):
    """Runs a program to its end. Its memory is read by a small program between, since a child's peak starts with its parent's."""
    note = scratch() / "peak"
    before = time.perf_counter()
    done = subprocess.run(["/usr/bin/time", "-f", "%M", "-o", note, *map(str, words)], cwd=folder, input=given, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - before
    if done.returncode != 0:
        raise RuntimeError(f"{words[0]} ended with {done.returncode}: {done.stderr[-2000:]}")
    return Done(seconds, int(note.read_text().split()[-1]) / 1024, done.stdout)


def together(*all_words, folder=None):
    """Runs programs one after the other; their seconds add up, and the largest peak counts."""
    done = [run(words, folder) for words in all_words]
    return Done(sum(one.seconds for one in done), max(one.peak_mb for one in done), done[-1].out)


def fresh(name):
    """An empty folder."""
    folder = scratch() / name
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    return folder


@functools.cache
def made_by(program):
    """What tells a program from every other."""
    return hashlib.sha256(pathlib.Path(program).read_bytes()).hexdigest()


def once(name, program, make):
    """A folder that a program fills once; a later run of the script with the same program finds it as it was left."""
    folder, mark = scratch() / name, scratch() / f"{name}.made-by"
    if not mark.exists() or mark.read_text() != made_by(program):
        mark.unlink(missing_ok=True)
        make(fresh(name))
        mark.write_text(made_by(program))
    return folder


def first_line(*words):
    """The first line that a program prints of itself."""
    try:
        done = subprocess.run(words, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL)
    except FileNotFoundError:
        return None
    text = (done.stdout or done.stderr).strip()
    return text.splitlines()[0].strip() if text else None


def versions():
    """Of everything that is measured or measures."""
    from importlib.metadata import version
    zip_line = subprocess.run(["zip", "-v"], capture_output=True, text=True, check=False).stdout if shutil.which("zip") else ""
    found = re.search(r"This is Zip ([\d.]+)", zip_line)
    return {
        "vipsthumbnail": first_line("vipsthumbnail", "--vips-version"), "zip": found and found[1],
        "sha256sum": first_line("sha256sum", "--version"), "img2pdf": version("img2pdf"), "PyNiteFEA": version("PyNiteFEA"),
        "chromium": first_line("chromium", "--version"), "webkit2gtk": first_line("pkg-config", "--modversion", "webkit2gtk-4.1"),
        "rustc": first_line("rustc", "--version"), "python": sys.version.split()[0],
    }


def machine():
    """What it ran on."""
    models = re.findall(r"model name\s*: (.*)", pathlib.Path("/proc/cpuinfo").read_text())
    memory = int(re.search(r"MemTotal:\s*(\d+)", pathlib.Path("/proc/meminfo").read_text())[1])
    return {"processor": models[0] if models else os.uname().machine, "cores": os.cpu_count(), "memory_gb": round(memory / 1024 / 1024, 1),
            "system": " ".join([os.uname().sysname, os.uname().release]), "open_files": resource.getrlimit(resource.RLIMIT_NOFILE)[0]}


PROGRAM = ["Cargo.toml", "Cargo.lock", "calc/src", "calc/Cargo.toml", "src-tauri", "ui", "tests/Cargo.toml", "tests/benches/work.rs", "tests/benches/work"]


def git(*words):
    """What git says."""
    return subprocess.run(["git", *words], cwd=TOP, capture_output=True, text=True, check=False)


def commit():
    """The commit that was measured, and whether the tree holds another program than that."""
    return git("rev-parse", "HEAD").stdout.strip(), bool(git("status", "--porcelain", "--", *PROGRAM).stdout)


def same_program(one, other):
    """Whether two commits hold the same program, page and benchmark for page."""
    return git("diff", "--quiet", one, other, "--", *PROGRAM).returncode == 0
