"""Opens an image, safely: known formats, bounded sizes, the first frame; then one pixel a stitch."""

import io
import struct
import warnings
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from lintarsia.bringing.arrays import Bytes
from lintarsia.bringing.gridding import find_grid
from lintarsia.bringing.limits import MOST_PIXELS, MOST_ROWS, MOST_STITCHES
from lintarsia.bringing.straightening import MOST_ASKEW, straight, too_askew
from lintarsia.ground.installing import how_to_install
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count, stitch_count

if TYPE_CHECKING:
    from PIL import Image


FORMATS = ("PNG", "GIF", "JPEG", "BMP")
TINY = 64  # pixels: up to this size nobody enlarges a grid, and cells found in it would be chance
SMALL = 300  # pixels: up to this width an image is taken as one pixel a stitch without being asked
THICK = 4  # pixels of a line between cells (house value)
HALF = 0.5
FLAT_ART = 24  # colours: a picture of no more was never a JPEG, and a grid in it is exact or has lines drawn
ALIKE = 0.1  # how far from square a cell may be and still be called square, and a gauge likewise
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
                return np.asarray(_upright(image).convert("RGBA"), np.uint8)
    except UnidentifiedImageError:
        raise Trouble(f"{name!r} is not an image that can be read; expected {', '.join(FORMATS)}") from None
    except (OSError, ValueError, SyntaxError, EOFError, Image.DecompressionBombError, MemoryError) as failure:
        raise Trouble(f"{name!r} cannot be read as an image ({failure})") from None


def _upright(image: "Image.Image") -> "Image.Image":
    """The picture as it is to be looked at: a phone turns it by a note (Exif 2.3, tag 274), not by its pixels.

    A note that cannot be read says nothing.
    """
    from PIL import ImageOps

    with suppress(
        struct.error, ArithmeticError, AttributeError, LookupError, OSError, SyntaxError, TypeError, ValueError
    ):
        return ImageOps.exif_transpose(image)
    return image


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
    """The commonest colour in the middle of each cell of `wide` x `high` pixels; lines between cells do not count.

    Where no colour has half of the middle, as in a JPEG, its median.
    """
    rows, columns = colours.shape[0] // high, colours.shape[1] // wide
    if wide <= 2 and high <= 2:
        return colours[: rows * high : high, : columns * wide : wide]
    cells = colours[: rows * high, : columns * wide].reshape(rows, high, columns, wide, 4)
    inner = cells[:, high // 4 : high - high // 4, :, wide // 4 : wide - wide // 4]
    inner = inner.transpose(0, 2, 1, 3, 4).reshape(rows * columns, -1, 4)
    packed = np.ascontiguousarray(inner).view(np.uint32)[:, :, 0]
    ordered = np.sort(packed, axis=1)
    picked = np.array([_commonest(line) for line in ordered], np.uint32)
    taken = picked.view(np.uint8).reshape(rows * columns, 4)
    noisy = (packed == picked[:, None]).mean(axis=1) < HALF
    taken[noisy] = np.rint(np.median(inner[noisy], axis=1))
    return taken.reshape(rows, columns, 4)


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

    Without a wish: `cell` pixels a stitch if given, else the cells of an enlarged or a squared grid if the picture is
    one, else a pixel a stitch if it is small. Raises Trouble where none of these will do.
    """
    high, wide = colours.shape[:2]
    if stitches is not None:
        rows = max(1, round(stitches * (high / wide) * (gauge[1] / gauge[0])))
        _bound(stitches, rows)
        return Pixels(resize(colours, stitches, rows), (f"{wide} × {high} pixels drawn as {stitches} × {rows}",))
    if cell is not None:
        return _by_cells(name, colours, cell)
    exact = (1, 1) if max(wide, high) <= TINY else cell_size(colours)
    if exact != (1, 1) and max(exact) <= THICK and (lined := _found(colours, lined=True)) is not None:
        return lined  # lines of two pixels between cells of fourteen are no cells of two
    if exact != (1, 1):
        taken = _by_cells(name, colours, exact)
        return Pixels(taken.colours, (*taken.notes, *_squashed(exact, taken.colours, gauge)))
    found = _found(colours)
    if found is not None:
        return found
    if wide > SMALL:
        raise Trouble(_no_grid(name, colours))
    _bound(wide, high)
    notes = (_large(wide, high),) if max(wide, high) > USUAL else ()
    return Pixels(colours, (*notes, *_squashed(exact, colours, gauge)))


def _no_grid(name: str, colours: Bytes) -> str:
    """Why a large picture is not taken as it is, and what would help."""
    high, wide = colours.shape[:2]
    if too_askew(colours):
        return (
            f"{name!r} looks like squared paper that lies askew by more than {MOST_ASKEW:g}°, too far to be turned "
            "straight here; straighten it first, or say how many stitches wide it shall be with --stitches"
        )
    return (
        f"{name!r} is {wide} × {high} pixels; say how many stitches wide it shall be with --stitches, "
        "or how many pixels a cell has with --cell if it is a grid"
    )


def _by_cells(name: str, colours: Bytes, cell: tuple[int, int]) -> Pixels:
    high, wide = colours.shape[:2]
    if cell[0] > wide or cell[1] > high:
        raise Trouble(f"{name!r} is {wide} × {high} pixels; a cell of {cell[0]} × {cell[1]} is larger than that")
    _bound(wide // cell[0], high // cell[1])
    if cell == (1, 1):
        return Pixels(colours)
    return Pixels(take_cells(colours, *cell), (f"taken as a grid with cells of {cell[0]} × {cell[1]} pixels",))


def _found(colours: Bytes, *, lined: bool = False) -> Pixels | None:
    """The cells of a grid that is not exact any more; None where there is none to be sure of, or with `lined` none that
    has lines between its cells."""
    if max(colours.shape[:2]) <= TINY:
        return None
    flat = _flat_art(colours)
    upright, angle = (colours, 0.0) if flat else straight(colours)
    if angle and too_askew(colours):
        return None
    found = find_grid(upright)
    if found is None or (not found.lined and (flat or lined)):
        return None
    _bound(found.across.cells, found.down.cells)
    size = f"{found.across.size:.1f} × {found.down.size:.1f}".replace(".0", "")
    lines = ", with lines between them" if found.lined else ""
    cells = f"{found.across.cells} × {found.down.cells} cells of {size} pixels"
    turned = (f"askew by {angle:.1f}°, so turned straight first: compare its edges",) if angle else ()
    return Pixels(
        found.take(upright),
        (
            *turned,
            f"taken as a grid of {cells}{lines} (--cell says otherwise)",
        ),
    )


def _flat_art(colours: Bytes) -> bool:
    packed = np.ascontiguousarray(colours).view(np.uint32)
    return len(np.unique(packed)) <= FLAT_ART


def _squashed(cell: tuple[int, int], taken: Bytes, gauge: tuple[float, float]) -> tuple[str, ...]:
    """Said of square cells where stitches are not square: as drawn, the picture comes out flatter, or taller."""
    as_high = gauge[0] / gauge[1]
    if abs(cell[0] / cell[1] - 1) > ALIKE or abs(as_high - 1) <= ALIKE or max(taken.shape[:2]) < 2:
        return ()
    how = f"{1 - as_high:.0%} flatter" if as_high < 1 else f"{as_high - 1:.0%} taller"
    return (
        f"its squares are stitches now, and stitches at {gauge[0]:g} × {gauge[1]:g} are not square: "
        f"knitted, it will be {how} (--stitches {taken.shape[1]} keeps its proportions)",
    )


def _large(stitches: int, rows: int) -> str:
    size = f"{stitch_count(stitches)} by {count(rows, 'row')}"
    return f"taken as one pixel a stitch, {size}, which is more than most charts have (see --stitches)"


def _bound(stitches: int, rows: int) -> None:
    if stitches > MOST_STITCHES or rows > MOST_ROWS:
        size = f"{stitch_count(stitches)} by {count(rows, 'row')}"
        raise Trouble(f"that is {size}; at most {MOST_STITCHES} by {MOST_ROWS} can be made")
