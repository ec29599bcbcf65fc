"""Opens an image, safely: known formats, bounded sizes, the first frame; then one pixel a stitch."""

import io
import warnings
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lintarsia.bringing.limits import MOST_PIXELS, MOST_ROWS, MOST_STITCHES
from lintarsia.ground.installing import how_to_install
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count, stitch_count

Bytes = NDArray[np.uint8]

FORMATS = ("PNG", "GIF", "JPEG", "BMP")
TINY = 64  # pixels: up to this size nobody enlarges a grid, and cells found in it would be chance
SMALL = 300  # pixels: up to this width an image is taken as one pixel a stitch without being asked
USUAL = 150  # stitches or rows: with more, a chart is larger than most garment pieces (house value)


@dataclass(frozen=True)
class Pixels:
    """`colours` has shape (rows, stitches, 4), RGBA, top row first; `notes` say what was done to get there."""

    colours: Bytes
    notes: tuple[str, ...] = ()


def open_image(name: str, data: bytes) -> Bytes:
    """The first frame as RGBA, shape (height, width, 4). Raises Trouble for what is no image or too large a one."""
    try:
        from PIL import Image, UnidentifiedImageError
    except ImportError:
        raise Trouble(f"images need one more library: {how_to_install('images')}") from None
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # Pillow warns of sizes that are refused here anyway
            with Image.open(io.BytesIO(data), formats=FORMATS) as image:
                wide, high = image.size
                if wide * high > MOST_PIXELS:
                    raise Trouble(f"{name!r} is {wide} × {high} pixels; at most {MOST_PIXELS:,} can be read")
                return np.asarray(image.convert("RGBA"), np.uint8)
    except UnidentifiedImageError:
        raise Trouble(f"{name!r} is not an image that can be read; expected {', '.join(FORMATS)}") from None
    except (OSError, ValueError, SyntaxError, EOFError, Image.DecompressionBombError, MemoryError) as failure:
        raise Trouble(f"{name!r} cannot be read as an image ({failure})") from None


def cell_size(colours: Bytes) -> tuple[int, int]:
    """Width and height, in pixels, of the cells of an enlarged grid; (1, 1) where there is none.

    Every place at which the colour changes lies on a line between cells, so cells are as wide as the greatest
    common divisor of those places and of the width. A picture of one colour is one cell; it is left as it is.
    """
    across = np.flatnonzero((colours[:, 1:] != colours[:, :-1]).any(axis=(0, 2))) + 1
    down = np.flatnonzero((colours[1:] != colours[:-1]).any(axis=(1, 2))) + 1
    if not len(across) and not len(down):
        return 1, 1
    return int(np.gcd.reduce([*across, colours.shape[1]])), int(np.gcd.reduce([*down, colours.shape[0]]))


def take_cells(colours: Bytes, wide: int, high: int) -> Bytes:
    """The commonest colour in the middle of each cell of `wide` x `high` pixels; lines between cells do not count."""
    rows, columns = colours.shape[0] // high, colours.shape[1] // wide
    if wide <= 2 and high <= 2:
        return colours[: rows * high : high, : columns * wide : wide]
    cells = colours[: rows * high, : columns * wide].reshape(rows, high, columns, wide, 4)
    inner = cells[:, high // 4 : high - high // 4, :, wide // 4 : wide - wide // 4]
    inner = inner.transpose(0, 2, 1, 3, 4).reshape(rows * columns, -1, 4)
    packed = np.ascontiguousarray(inner).view(np.uint32)[:, :, 0]
    ordered = np.sort(packed, axis=1)
    picked = np.array([_commonest(line) for line in ordered], np.uint32)
    return picked.view(np.uint8).reshape(rows, columns, 4)


def _commonest(ordered: NDArray[np.uint32]) -> np.uint32:
    starts = np.flatnonzero(np.concatenate(([True], ordered[1:] != ordered[:-1])))
    lengths = np.diff(np.append(starts, len(ordered)))
    value: np.uint32 = ordered[starts[lengths.argmax()]]
    return value


def resize(colours: Bytes, stitches: int, rows: int) -> Bytes:
    """The picture shrunk or enlarged to a grid; each stitch gets the mean of the pixels under it."""
    from PIL import Image

    premultiplied = Image.fromarray(colours).convert("RGBa")  # else clear pixels would lend their hidden colour
    kind = Image.Resampling.BOX if stitches <= colours.shape[1] else Image.Resampling.NEAREST
    return np.asarray(premultiplied.resize((stitches, rows), kind).convert("RGBA"), np.uint8)


def to_grid(
    name: str, colours: Bytes, *, stitches: int | None, cell: tuple[int, int] | None, gauge: tuple[float, float]
) -> Pixels:
    """One pixel a stitch. `stitches` is the width wished for; the rows follow from the gauge (stitches, rows).

    Without a wish: `cell` pixels a stitch if given, else the cells of an enlarged grid if the picture is one, else a
    pixel a stitch if it is small. Raises Trouble where none of these will do.
    """
    high, wide = colours.shape[:2]
    if stitches is not None:
        rows = max(1, round(stitches * (high / wide) * (gauge[1] / gauge[0])))
        _bound(stitches, rows)
        return Pixels(resize(colours, stitches, rows), (f"{wide} × {high} pixels drawn as {stitches} × {rows}",))
    asked = cell is not None
    if cell is None:
        cell = (1, 1) if max(wide, high) <= TINY else cell_size(colours)
        if cell == (1, 1) and wide > SMALL:
            raise Trouble(f"{name!r} is {wide} × {high} pixels; say how many stitches wide it shall be with --stitches")
    if cell[0] > wide or cell[1] > high:
        raise Trouble(f"{name!r} is {wide} × {high} pixels; a cell of {cell[0]} × {cell[1]} is larger than that")
    _bound(wide // cell[0], high // cell[1])
    if cell == (1, 1):
        return Pixels(colours, () if asked or max(wide, high) <= USUAL else (_large(wide, high),))
    return Pixels(take_cells(colours, *cell), (f"taken as a grid with cells of {cell[0]} × {cell[1]} pixels",))


def _large(stitches: int, rows: int) -> str:
    size = f"{stitch_count(stitches)} by {count(rows, 'row')}"
    return f"taken as one pixel a stitch, {size}, which is more than most charts have (see --stitches)"


def _bound(stitches: int, rows: int) -> None:
    if stitches > MOST_STITCHES or rows > MOST_ROWS:
        size = f"{stitch_count(stitches)} by {count(rows, 'row')}"
        raise Trouble(f"that is {size}; at most {MOST_STITCHES} by {MOST_ROWS} can be made")
