"""A large drawing of a chart cut into bands of rows, so that the letters of a few rows at a time are made into pixels.

The library that draws PNGs makes shapes of every letter first: four kilobytes each, a gigabyte for a chart of 512 by
512 stitches, which in bands takes a fifth of that.
"""

import io
import math
import re
from collections.abc import Callable, Iterator

MOST_LETTERS = 40_000  # of a drawing made at once, a chart of 200 by 200: its rows stay together below that
BAND_LETTERS = 20_000

_COUNTS = re.compile(r' data-columns="([0-9]+)" data-rows="([0-9]+)" data-left="[0-9.]+" data-top="([0-9.]+)"')
_CELL = re.compile(r' data-cell-height="([0-9.]+)"')
_ROW = re.compile(r'<g class="lx-row" id="[^"]*" data-row="([0-9]+)".*?</g>', re.DOTALL)
_BOX = re.compile(r'viewBox="0 0 ([0-9.]+) ([0-9.]+)" width="[0-9.]+" height="[0-9.]+"')
_PAPER = 'width="100%" height="100%"'  # of what a band shows; the paper of the whole reaches as far as that


def wants_bands(svg: str) -> bool:
    """Whether a drawing is of a chart with so many letters."""
    counts = _COUNTS.search(svg[:2000])
    return counts is not None and int(counts[1]) * int(counts[2]) > MOST_LETTERS and "lx-row" in svg


def in_bands(svg: str, width: int, draw: Callable[[str], bytes]) -> bytes:
    """The drawing as PNG, `width` pixels wide, from the pictures that `draw` makes of its bands at that width."""
    from PIL import Image

    wide, high = map(float, (_BOX.search(svg) or _nothing()).groups())
    scale = width / wide
    whole = Image.new("RGBA", (width, math.ceil(high * scale - 1e-6)))
    for first, end, band in _bands(svg, scale, whole.height):
        with Image.open(io.BytesIO(draw(band))) as picture:
            whole.paste(picture.crop((0, 0, width, end - first)), (0, first))
    out = io.BytesIO()
    whole.save(out, "PNG")
    return out.getvalue()


def _bands(svg: str, scale: float, height: int) -> Iterator[tuple[int, int, str]]:
    """First pixel row, the one behind the last, and the drawing of them: all but the rows that lie elsewhere."""
    columns, rows, top = map(float, (_COUNTS.search(svg) or _nothing()).groups())
    cell = float((_CELL.search(svg) or _nothing())[1])
    step = max(1, int(BAND_LETTERS / columns * cell * scale))
    wide, high = (_BOX.search(svg) or _nothing()).groups()
    for first in range(0, height, step):
        end = min(first + step, height)
        above, below = first / scale, end / scale

        def near(row: re.Match[str], above: float = above, below: float = below) -> str:
            """A row, where it comes within a row of the band: letters may reach into the next."""
            upper = top + (rows - int(row[1])) * cell
            return row[0] if upper - cell < below and upper + 2 * cell > above else ""

        part = _ROW.sub(near, svg).replace(_PAPER, f'width="{wide}" height="{high}"', 1)
        box = f'viewBox="0 {above:.4f} {wide} {below - above:.4f}" width="{wide}" height="{below - above:.4f}"'
        yield first, end, _BOX.sub(box, part, count=1)


def _nothing() -> re.Match[str]:
    raise ValueError("this is no drawing of ours")
