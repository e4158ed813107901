"""How long a window takes from its start until its first screen stands, seen from outside: from the pixels of the screen."""

import mmap
import os
import signal
import struct
import subprocess
import time
import zlib

import numpy

from . import tools

WIDE, HIGH = 400, 800
# Nothing changes for so long once a screen stands, s.
STILL = 1.5
PATIENCE = 60
# A screen counts as standing from when so many of its pixels are as they stay: a caret may blink.
SAME = 0.99


def bare():
    """Builds the window that is compared with."""
    tools.need("cc", "pkg-config")
    out = tools.scratch() / "bare_window"
    flags = subprocess.run(["pkg-config", "--cflags", "--libs", "webkit2gtk-4.1"], capture_output=True, text=True, check=True).stdout.split()
    subprocess.run(["cc", "-O2", "-o", out, tools.BENCHES / "peers/bare_window.c", *flags], check=True)
    return out


class Screen:
    """A display without a screen, whose picture lies in a file."""

    def __init__(self):
        tools.need("Xvfb")
        folder = tools.fresh("display")
        reads, writes = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(writes), "-screen", "0", f"{WIDE}x{HIGH}x24", "-fbdir", str(folder), "-nolisten", "tcp"],
            pass_fds=[writes], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(writes)
        with os.fdopen(reads) as told:
            self.name = f":{told.readline().strip()}"
        with open(folder / "Xvfb_screen0", "rb") as file:
            self.memory = mmap.mmap(file.fileno(), 0, prot=mmap.PROT_READ)
        # The header of the file (X Window Dump) tells its own length first and its number of colours as the 20th word; each
        # colour takes 12 bytes.
        words = struct.unpack(">25I", self.memory[:100])
        self.at = words[0] + words[19] * 12

    def picture(self):
        """What stands on the screen."""
        return self.memory[self.at:self.at + WIDE * HIGH * 4]

    def close(self):
        """Ends the server that was started here."""
        self.memory.close()
        self.server.terminate()
        self.server.wait()


def start(words, screen):
    """Seconds from the start of a program until its first screen stands; ends the program."""
    home = tools.fresh("home")
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("XDG_", "WAYLAND", "DBUS"))}
    environment = {**kept, "DISPLAY": screen.name, "HOME": str(home), "GDK_BACKEND": "x11", "NO_AT_BRIDGE": "1", "XDG_RUNTIME_DIR": str(home)}
    seen = [(0.0, screen.picture())]
    mark = zlib.crc32(seen[0][1])
    begun = time.perf_counter()
    child = subprocess.Popen(list(map(str, words)), env=environment, start_new_session=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        while True:
            time.sleep(0.004)
            now, picture = time.perf_counter() - begun, screen.picture()
            if zlib.crc32(picture) != mark:
                mark = zlib.crc32(picture)
                seen.append((now, picture))
            elif len(seen) > 1 and now - seen[-1][0] > STILL:
                break
            if now > PATIENCE or child.poll() is not None:
                raise RuntimeError(f"{words[0]} showed nothing that stays (ended: {child.poll()})")
    finally:
        os.killpg(child.pid, signal.SIGTERM)
        try:
            child.wait(10)
        except subprocess.TimeoutExpired:
            os.killpg(child.pid, signal.SIGKILL)
            child.wait()
        time.sleep(0.3)
    last = numpy.frombuffer(seen[-1][1], numpy.uint32)
    stood = None
    for at, picture in reversed(seen):
        if (numpy.frombuffer(picture, numpy.uint32) == last).mean() < SAME:
            break
        stood = at
    return stood, len(numpy.unique(last))
