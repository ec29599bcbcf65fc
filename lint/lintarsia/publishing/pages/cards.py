"""The picture that other programs show where a page is linked: the fabric as a PNG, knitted from a few pixels a stitch.

SVG is not shown in link previews anywhere, and no library for images is needed for a grid of stitches.
"""

import struct
import zlib

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.shades import rgb

WIDE, HIGH = 1200, 630  # pixels, 1.91 : 1, as the Open Graph protocol's readers show them
MARGIN = 45
PAPER = (247, 242, 232)
Pixels = NDArray[np.uint8]


def card(chart: Chart) -> bytes:
    """The fabric on paper as PNG (ISO/IEC 15948), 1200 x 630, the same bytes for the same chart."""
    return png(_on_paper(_knitted(chart)))


def _knitted(chart: Chart) -> Pixels:
    """The fabric, shape (height, width, 3): as many pixels as fit, each stitch a V of light and shade."""
    grid, ratio = chart.grid, min(5.0, max(0.2, chart.gauge.stitches / chart.gauge.rows))
    fit = min((WIDE - 2 * MARGIN) / grid.width, (HIGH - 2 * MARGIN) / (grid.height * ratio))
    wide, high = (max(1, round(fit * part)) for part in (grid.width, grid.height * ratio))
    x = np.arange(wide) * grid.width / wide
    y = np.arange(high) * grid.height / high
    # Within a stitch, pixels nearer its sides belong to the row as it was a little higher: that makes the V.
    lean = np.abs(x % 1 - 0.5) * (1.0 if fit >= 4 else 0.0)
    row = grid.height - 1 - np.clip(np.floor(y[:, None] + lean[None, :] - 0.25), 0, grid.height - 1).astype(np.intp)
    cells = grid.cells[row, np.minimum(x.astype(np.intp), grid.width - 1)[None, :]]
    palette = np.array([PAPER, PAPER, *_shades(chart)], np.uint8)  # MISSING is -2 and NO_STITCH -1
    colours = palette[cells + 2].astype(np.float32)
    if fit >= 4:
        across = x % 1
        edge = np.minimum(across, 1 - across)[None, :] * 2
        down = (y[:, None] + lean[None, :]) % 1
        light = 1 - 0.34 * np.exp(-14 * np.minimum(down, 1 - down)) - 0.22 * np.exp(-12 * np.minimum(edge, 1 - edge))
        colours *= np.where(cells >= 0, light, 1)[..., None]
    return np.clip(colours, 0, 255).astype(np.uint8)


def _shades(chart: Chart) -> list[tuple[int, ...]]:
    return [tuple(round(part * 255) for part in rgb(shade_of(chart, symbol))) for symbol in chart.grid.symbols]


def _on_paper(fabric: Pixels) -> Pixels:
    sheet = np.empty((HIGH, WIDE, 3), np.uint8)
    sheet[:] = PAPER
    top, left = (HIGH - fabric.shape[0]) // 2, (WIDE - fabric.shape[1]) // 2
    sheet[top : top + fabric.shape[0], left : left + fabric.shape[1]] = fabric
    return sheet


def png(pixels: Pixels) -> bytes:
    """Pixels of shape (height, width, 3) as PNG: one true-colour image, rows filtered by their left neighbour."""
    high, wide, _ = pixels.shape
    rows = np.empty((high, 1 + 3 * wide), np.uint8)
    rows[:, 0] = 1  # filter "sub": of the pixel to the left
    flat = pixels.reshape(high, 3 * wide)
    rows[:, 1:4] = flat[:, :3]
    rows[:, 4:] = flat[:, 3:] - flat[:, :-3]
    header = struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0)
    parts = ((b"IHDR", header), (b"IDAT", zlib.compress(rows.tobytes(), 6)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, data) for kind, data in parts)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
