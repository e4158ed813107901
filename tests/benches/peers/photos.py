"""Photos of 12 megapixels with EXIF, made here: brickwork under uneven light, with the grain of a small sensor."""

import numpy
from PIL import Image

WIDE, HIGH = 4000, 3000
# Lets a file come to about three megabytes, as phones' do.
GRAIN, QUALITY = 7.0, 88


def bricks(rng):
    """Courses of bricks, each of its own shade, in light that falls off to one side."""
    y, x = numpy.mgrid[0:HIGH, 0:WIDE].astype(numpy.float32)
    course = numpy.floor(y / 130)
    shifted = x + (course % 2) * 190
    brick = numpy.floor(shifted / 380)
    shade = numpy.sin(course * 12.9898 + brick * 78.233 + rng.uniform(0, 9)) * 18
    joint = (y % 130 < 16) | (shifted % 380 < 16)
    light = 1.0 - 0.35 * (x / WIDE) * rng.uniform(0.4, 1.0)
    rgb = numpy.empty((HIGH, WIDE, 3), numpy.float32)
    for channel, (stone, mortar) in enumerate([(168, 205), (104, 198), (82, 184)]):
        rgb[..., channel] = numpy.where(joint, mortar, stone + shade) * light
    return rgb


def make(folder, count):
    """Makes so many photos, no two the same; those that lie there already stay."""
    folder.mkdir(parents=True, exist_ok=True)
    missing = [at for at in range(count) if not (folder / f"IMG_{at:04}.jpg").exists()]
    base = None
    for at in missing:
        rng = numpy.random.default_rng(at)
        if base is None or at % 10 == 0:
            base = bricks(rng)
        grain = rng.normal(0, GRAIN, (HIGH, WIDE, 1)).astype(numpy.float32)
        picture = Image.fromarray(numpy.clip(numpy.roll(base, 97 * at, axis=1) + grain, 0, 255).astype(numpy.uint8))
        exif = Image.Exif()
        exif[0x0112], exif[0x010F], exif[0x0132] = 1, "made up", f"2026:03:02 09:{at % 60:02}:00"
        exif.get_ifd(0x8769).update({0x9003: f"2026:03:02 09:{at % 60:02}:00", 0x9011: "+01:00", 0xA405: 26})
        part = folder / "part"
        picture.save(part, "JPEG", quality=QUALITY, subsampling="4:2:0", exif=exif)
        part.rename(folder / f"IMG_{at:04}.jpg")
    return folder


def size(path):
    """Width and height of a picture, px."""
    with Image.open(path) as picture:
        return picture.size
