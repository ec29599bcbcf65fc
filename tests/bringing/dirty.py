"""Pictures of known charts as designers have them: JPEGs, scans on squared paper, halos, specks, rough edges.

Every maker takes the chart (colour numbers, top row first) and a generator of random numbers, so that each picture can
be made again; the chart is the truth that a brought chart is measured by.
"""

import io

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

Bytes = NDArray[np.uint8]
Chart = NDArray[np.intp]
Random = np.random.Generator

INK, RED, BONE = (22, 20, 24), (196, 38, 46), (238, 232, 220)
SHADES = np.array([BONE, INK, RED], np.uint8)


def encoded(pixels: Bytes, kind: str = "PNG", **more: object) -> bytes:
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, kind, **more)
    return out.getvalue()


def mushroom() -> Chart:
    """A chart of 34 stitches and 41 rows, lopsided: a red cap with bone dots, an ink outline below, a leaning stalk."""
    y, x = np.mgrid[0:41, 0:34]
    chart = np.zeros((41, 34), np.intp)
    chart[((x - 15) / 13.0) ** 2 + ((y - 18) / 13.0) ** 2 <= 1] = 2
    chart[(y > 20) & (chart == 2)] = 0
    chart[(y > 20) & (y < 38) & (np.abs(x - 15 - (y - 20) // 6) < 5)] = 1
    for row, column, reach in ((11, 10, 2), (15, 20, 3), (8, 17, 1)):
        chart[(np.abs(y - row) + np.abs(x - column)) <= reach] = 0
    return chart


def glyphs(random: Random, codes: list[tuple[str, NDArray[np.bool_]]]) -> Chart:
    """Three letters of a real font side by side, the middle one in the third colour."""
    chosen = [codes[int(i)][1] for i in random.integers(0, len(codes), 3)]
    bits = [np.pad(b, ((3, 2), (2, 3))) * (2 if at == 1 else 1) for at, b in enumerate(chosen)]
    return np.hstack(bits).astype(np.intp)


def near_shades(chart: Chart, random: Random, spread: int = 7, each: int = 4) -> Bytes:
    """Each colour as `each` near shades, stitch by stitch: twelve for three."""
    shades = np.clip(SHADES[:, None].astype(int) + random.integers(-spread, spread + 1, (len(SHADES), each, 3)), 0, 255)
    return shades[chart, random.integers(0, each, chart.shape)].astype(np.uint8)


def enlarged(pixels: Bytes, wide: int, high: int) -> Bytes:
    return pixels.repeat(high, axis=0).repeat(wide, axis=1)


def jpeg_grid(chart: Chart, random: Random, *, wide: int = 16, high: int = 12, quality: int = 60) -> bytes:
    return encoded(enlarged(near_shades(chart, random), wide, high), "JPEG", quality=quality)


def scan(
    chart: Chart, random: Random, *, wide: float = 17.3, high: float = 12.7, margin: tuple[int, int] = (23, 31)
) -> bytes:
    """Squared paper, every tenth line bolder, a margin on each side, uneven light, grain, and a JPEG on top."""
    rows, columns = chart.shape
    tall, broad = round(rows * high) + 2 * margin[0] + 5, round(columns * wide) + 2 * margin[1] + 9
    page = np.full((tall, broad, 3), 250.0)
    y = np.floor((np.arange(tall) + 0.5 - margin[0]) / high).astype(int)
    x = np.floor((np.arange(broad) + 0.5 - margin[1]) / wide).astype(int)
    inside = np.ix_((y >= 0) & (y < rows), (x >= 0) & (x < columns))
    page[inside] = near_shades(chart, random)[np.ix_(y[(y >= 0) & (y < rows)], x[(x >= 0) & (x < columns)])]
    top, left = margin
    for k in range(rows + 1):
        at, bold = round(top + k * high), 1 + (k % 10 == 0)
        page[at : at + bold, left : round(left + columns * wide) + 1] = 110
    for k in range(columns + 1):
        at, bold = round(left + k * wide), 1 + (k % 10 == 0)
        page[top : round(top + rows * high) + 1, at : at + bold] = 110
    light = 1 - 0.08 * np.linspace(0, 1, broad)[None, :, None] - 0.05 * np.linspace(0, 1, tall)[:, None, None]
    page = page * light + random.normal(0, 4, page.shape)
    return encoded(np.clip(page, 0, 255).astype(np.uint8), "JPEG", quality=80)


def squared(chart: Chart, *, cell: int = 22, line: int = 2) -> Bytes:
    """Squared paper cut right at the grid's outermost lines, on all sides."""
    page = enlarged(SHADES[chart], cell, cell)
    page = np.pad(page, ((0, line), (0, line), (0, 0)))
    for k in range(line):
        page[k::cell] = 95
        page[:, k::cell] = 95
    return page


def askew(page: Bytes, degrees: float) -> bytes:
    """The sheet laid askew on white, and a JPEG on top."""
    turned = Image.fromarray(page).rotate(degrees, Image.Resampling.BICUBIC, expand=True, fillcolor=(255, 255, 255))
    return encoded(np.asarray(turned), "JPEG", quality=85)


def by_a_window(page: Bytes, random: Random) -> bytes:
    """Photographed by a window at the right: nearly half the light is gone at the left; soft, with grain."""
    tall, broad = page.shape[:2]
    light = np.linspace(0.6, 1.05, broad)[None, :, None] * np.linspace(1, 0.9, tall)[:, None, None]
    lit = np.clip(page * light + random.normal(0, 5, page.shape), 0, 255).astype(np.uint8)
    return encoded(np.asarray(Image.fromarray(lit).filter(ImageFilter.GaussianBlur(0.8))), "JPEG", quality=85)


def haloed(chart: Chart, *, times: int = 5) -> bytes:
    """One pixel a stitch, drawn with soft edges: enlarged, blurred, and brought down again to a pixel a stitch."""
    soft = Image.fromarray(enlarged(SHADES[chart], times, times)).filter(ImageFilter.GaussianBlur(times * 0.42))
    small = soft.resize((chart.shape[1], chart.shape[0]), Image.Resampling.BOX)
    return encoded(np.asarray(small))


def specked(chart: Chart, random: Random, share: float = 0.006) -> bytes:
    """Single stitches of another colour, none at the edge of anything: dirt on the glass."""
    pixels = SHADES[chart].copy()
    for row, column in zip(*np.nonzero(random.random(chart.shape) < share), strict=True):
        around = chart[max(0, row - 1) : row + 2, max(0, column - 1) : column + 2]
        if (around == chart[row, column]).all():
            pixels[row, column] = SHADES[(chart[row, column] + 1) % 3]
    return encoded(pixels)


def rough(chart: Chart, random: Random, share: float = 0.06) -> bytes:
    """One pixel a stitch; some stitches beside another colour, never two together, have gone over to it."""
    out = chart.copy()
    for row in range(1, chart.shape[0] - 1):
        for column in range(1, chart.shape[1] - 1):
            sides = (chart[row, column + 1], chart[row, column - 1], chart[row + 1, column], chart[row - 1, column])
            other = [s for s in sides if s != chart[row, column]]
            near = slice(row - 1, row + 2), slice(column - 1, column + 2)
            if other and random.random() < share and (out[near] == chart[near]).all():
                out[row, column] = other[0]
    return encoded(SHADES[out])
