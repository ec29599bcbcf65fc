"""Transparent pixels: no stitch around a motif, and never a hole in the fabric without a word."""

import numpy as np

from lintarsia.bringing.arrays import Bools, Bytes
from lintarsia.bringing.reduce import distinct
from lintarsia.bringing.shade_space import bytes_of, shade_text
from lintarsia.bringing.shadenames import NAMES
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import stitch_count

SOLID = 128  # alpha from which a pixel is a stitch
GROUND = NAMES["Bone"]  # for holes of a motif that has no ground of its own


def clear_parts(name: str, pixels: Bytes, *, shade: str, fill: bool) -> tuple[Bytes, tuple[str, ...]]:
    """The pixels (rows, stitches, 4) with transparent ones given a shade, and what there is to say.

    `shade` is for all of them. Without it, with `fill`, those inside the picture take its background: the commonest
    shade along its edge, or GROUND where the edge is clear as well. Raises Trouble where nothing is solid.
    """
    solid = pixels[:, :, 3] >= SOLID
    if shade:
        return _painted(pixels, ~solid, bytes_of([shade])[0]), ()
    if not solid.any():
        raise Trouble(f"{name!r} is wholly transparent, so it has no stitches")
    inside = ~solid & ~_outside(~solid)
    if not inside.any():
        return pixels, ()
    number = stitch_count(int(inside.sum()))
    if not fill:
        return pixels, (f"{number} inside are transparent: holes in the fabric (--tidy or --transparent fills them)",)
    ground = _background(pixels, solid)
    note = f"transparent inside: {number} made {shade_text(ground)} (--transparent chooses another shade)"
    return _painted(pixels, inside, ground), (note,)


def _painted(pixels: Bytes, where: Bools, shade: Bytes) -> Bytes:
    return np.where(where[:, :, None], np.append(shade, 255).astype(np.uint8), pixels)


def _outside(clear: Bools) -> Bools:
    """The clear parts that reach the picture's edge, by sides and corners."""
    reached = np.pad(np.zeros_like(clear), 1, constant_values=True)
    open_ = np.pad(clear, 1, constant_values=True)
    while True:
        wider = reached.copy()
        for axis in (0, 1):
            wider |= np.roll(wider, 1, axis) | np.roll(wider, -1, axis)
        wider &= open_
        if (wider == reached).all():
            inner: Bools = reached[1:-1, 1:-1]
            return inner
        reached = wider


def _background(pixels: Bytes, solid: Bools) -> Bytes:
    rim = np.ones_like(solid)
    rim[1:-1, 1:-1] = False
    if 2 * (rim & solid).sum() < rim.sum():
        return bytes_of([GROUND]).reshape(3)
    colours, _, counts = distinct(pixels[rim & solid][:, :3])
    shade: Bytes = colours[counts.argmax()]
    return shade
