#!/usr/bin/env python3
"""Turns a dump of an X display (as Xvfb keeps one with -fbdir) into a PNG; fails where all of it is of a few colours only.

    xwd_to_png.py DUMP PICTURE.png

The dump's head is a row of big-endian words (X11's XWDFile.h, from memory): its size, version 7, format, depth, width, height,
offset, byte order, …, bits per pixel, bytes per line, …, number of colours. Only 32 bits per pixel are read.
"""
import struct
import sys
import zlib

FEWEST = 16
"""A window with text in it has edges in many shades; an empty one has a handful."""


def main(dump, picture):
    data = open(dump, "rb").read()
    head = struct.unpack(">25I", data[:100])
    size, version, width, height, order, bits, line, colours = (head[i] for i in (0, 1, 4, 5, 7, 11, 12, 19))
    if version != 7 or bits != 32:
        sys.exit(f"not a dump that this can read: version {version}, {bits} bits")
    at = size + colours * 12
    rows, seen = [], set()
    for y in range(height):
        row = data[at + y * line : at + y * line + width * 4]
        blue, green, red = (row[i::4] for i in ((0, 1, 2) if order == 0 else (3, 2, 1)))
        rgb = bytes(part for dot in zip(red, green, blue) for part in dot)
        seen.update(zip(red, green, blue))
        rows.append(b"\0" + rgb)

    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    with open(picture, "wb") as file:
        file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">2I5B", width, height, 8, 2, 0, 0, 0)))
        file.write(chunk(b"IDAT", zlib.compress(b"".join(rows), 9)) + chunk(b"IEND", b""))
    print(f"{picture}: {width} x {height}, {len(seen)} colours")
    if len(seen) < FEWEST:
        sys.exit("there is no window to be seen on it")


main(*sys.argv[1:])
