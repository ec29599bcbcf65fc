"""Finds the cells of a grid that was scanned, photographed or saved as a JPEG: nothing in it is exact any more.

Where colours change from one pixel to the next, they do so on the lines between cells. The strength of change in each
column of pixels is a comb, whose period is found as the strongest frequency of its spectrum (harmonics of the true
one are as strong, so the lowest of the strong ones is taken), and whose place is the phase at that frequency.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lintarsia.bringing.arrays import Bytes, Floats

Levels = NDArray[np.int16]

# House values, found on grids and pictures made by script (tests/bringing/dirty.py says which).
LEAST_CELL = 4  # pixels; smaller cells have no inside that noise leaves alone
FEWEST = 4  # cells along an axis
SHARP = 0.45  # share of all change that has to lie on the comb
AS_STRONG = 0.75  # of the strongest frequency: a harmonic of the same comb
FLAT = 0.12  # variance inside cells, as a share of the picture's own, up to which cells are cells
AT_THE_LINE = 0.8  # of the difference between unlike cells
UNLIKE = 60.0  # distance in RGB from which neighbouring cells are unlike
LINE = 12.0  # levels by which a drawn line differs from both its sides
ROWS_LINED, MOST_LINES = 0.2, 0.9  # shares of rows in which a line is seen, and of lines that are drawn
ONE_OFF = 0.5  # pixels between the last line and the picture's edge
SMALL = 8.0  # pixels of a cell
NEAR = 10  # pixels to either side that say what change is usual
MOST_OF_ONE = 0.6  # part of a cell that counts as one, where the picture has been cut
CUT, CROSSED = 0.1, 0.7  # part of a cell that may be cut away at the edge; share of lines that run through it
NEAREST = 3  # lines next to an end of the picture
LOBE = 3  # whole frequencies that a peak of the spectrum may be wide; the next harmonic is FEWEST away at least
FINE = 8  # steps of the spectrum between two whole frequencies


@dataclass(frozen=True, slots=True)
class Axis:
    """Cells along one axis, in pixels: their size, where the first begins, and how many there are."""

    size: float
    start: float
    cells: int
    lined: bool

    def middles(self) -> list[slice]:
        """The middle half of each cell. Of the first cell part may have been cut away."""
        starts = np.maximum(self.start + self.size * (np.arange(self.cells) + 0.25), 0)
        ends = starts + self.size / 2
        return [slice(int(a), int(b)) for a, b in zip(np.rint(starts), np.rint(ends), strict=True)]


@dataclass(frozen=True, slots=True)
class FoundGrid:
    """The cells of a grid: `across` its columns, `down` its rows."""

    across: Axis
    down: Axis

    @property
    def lined(self) -> bool:
        return self.across.lined and self.down.lined

    def take(self, colours: Bytes) -> Bytes:
        """One colour a cell, the median of its middle; shape (rows, columns, channels)."""
        columns = self.across.middles()
        deep = colours.shape[2]
        cells = [[np.median(colours[y, x].reshape(-1, deep), axis=0) for x in columns] for y in self.down.middles()]
        return np.rint(np.array(cells)).astype(np.uint8)


def find_grid(colours: Bytes) -> FoundGrid | None:
    """The grid of a picture of shape (height, width, channels), or None where there is none to be sure of."""
    light = colours[:, :, :3].astype(np.int16)  # half of what would be the next size, and large scans are large
    across, down = _axis(light), _axis(light.transpose(1, 0, 2))
    if across is None or down is None:
        return None
    if across.lined and down.lined:
        sideways = light.transpose(1, 0, 2)
        across = _to_the_edge(sideways, _to_the_edge(sideways, across, down, first=True), down, first=False)
        down = _to_the_edge(light, _to_the_edge(light, down, across, first=True), across, first=False)
    found = FoundGrid(across, down)
    if not _flat(light, found):
        return None
    return found if found.lined or _sharp(light, found) else None


def _axis(light: Levels) -> Axis | None:
    """The cells across a picture of shape (height, width, 3)."""
    change = _change(light)
    length = len(change) + 1
    if length < LEAST_CELL * FEWEST:
        return None
    comb = np.maximum(change - _around(change), 0)
    if not comb.any():
        return None
    strength = np.abs(np.fft.rfft(comb, FINE * length)) / comb.sum()
    lowest, highest = FINE * FEWEST, FINE * length // LEAST_CELL
    strong = strength[lowest : highest + 1]
    if strong.max() < SHARP:
        return None
    first = lowest + int(np.flatnonzero(strong >= AS_STRONG * strong.max())[0])
    top = first + int(strength[first : first + LOBE * FINE].argmax())
    size, at = _refined(comb, FINE * length / top)
    return _extent(light, comb, size, at)


def _to_the_edge(light: Levels, along: Axis, other: Axis, *, first: bool) -> Axis:
    """The axis with the cells between its last line and the picture's edge, where the other axis' lines run through
    them: `along` counts the rows of `light`. What no line crosses is paper."""
    end = along.start + along.size * along.cells
    top, bottom = (along.start - along.size, along.start) if first else (end, end + along.size)
    if top < -CUT * along.size or bottom > len(light) + CUT * along.size:
        return along
    strip = light[max(0, round(top)) : round(bottom)]
    places = other.start + other.size * np.arange(1, other.cells)
    if np.mean([_drawn(strip, place, other.size) for place in places]) < CROSSED:
        return along
    return Axis(along.size, along.start - along.size * first, along.cells + 1, lined=True)


def _change(light: Levels) -> Floats:
    """How much differs between each column of pixels and the next, over all rows."""
    total = np.zeros(light.shape[1] - 1)
    for top in range(0, len(light), 256):  # by strips, so that no second picture is held
        total += np.abs(np.diff(light[top : top + 256], axis=1)).sum(axis=(0, 2))
    return total


def _around(change: Floats) -> Floats:
    """The usual change near each place: shading and texture are everywhere, lines between cells are not."""
    padded = np.pad(change, NEAR, mode="reflect")
    near: Floats = np.median(np.lib.stride_tricks.sliding_window_view(padded, 2 * NEAR + 1), axis=1)
    return near


def _refined(comb: Floats, size: float) -> tuple[float, float]:
    """The period near `size` that gathers most of the comb, and the place of a line, counted in pixels' edges."""
    places = np.arange(len(comb)) + 1.0  # the edge between pixel i and i + 1
    sizes = size * (1 + np.linspace(-1, 1, 81) * size / len(comb) / 2)
    sums = (comb * np.exp(2j * np.pi * places / sizes[:, None])).sum(axis=1)
    best = int(np.abs(sums).argmax())
    return float(sizes[best]), float(np.angle(sums[best]) / (2 * np.pi) * sizes[best] % sizes[best])


def _extent(light: Levels, comb: Floats, size: float, at: float) -> Axis | None:
    """From line to line where all lines are drawn; else over the whole picture, but for parts of cells at its edges."""
    length = light.shape[1]
    lines = np.arange(at if at < size - ONE_OFF else at - size, length + ONE_OFF, size)
    there = np.flatnonzero([_drawn(light, place, size) for place in lines])
    if len(there) > FEWEST and len(there) >= MOST_LINES * (there[-1] - there[0] + 1):
        first, last = _outermost(comb, lines, int(there[0]), int(there[-1]))
        return Axis(size, float(lines[first]), last - first, lined=True)
    start = at - size if at > MOST_OF_ONE * size else at
    cells = int((length - start) / size + 1 - MOST_OF_ONE)
    return Axis(size, start, cells, lined=False) if cells >= FEWEST else None


def _outermost(comb: Floats, lines: Floats, first: int, last: int) -> tuple[int, int]:
    """A line further out at either end, where as much changes as on the others there, or where the picture ends.

    The outermost line lies between paper and stitches, so that its tone is between theirs and it is not seen as drawn;
    and between small cells the noise of a JPEG may pass for lines where there are none, but hardly for all.
    """
    change = np.array([comb[max(0, round(place) - 3) : round(place) + 2].max(initial=0) for place in lines])
    usual = float(np.median(change[first : last + 1])) / 2
    # Around a motif more changes than in the ground: the lines nearest to an end say what is usual there.
    low, high = (
        min(usual, float(np.median(near)) / 2) for near in (change[first:][:NEAREST], change[: last + 1][-NEAREST:])
    )
    ends = (abs(lines) < ONE_OFF) | (abs(lines - len(comb) - 1) < ONE_OFF)
    ends &= lines[1] - lines[0] < SMALL
    before = first > 0 and (change[first - 1] >= low or ends[first - 1])
    after = last + 1 < len(lines) and (change[last + 1] >= high or ends[last + 1])
    return first - int(before), last + int(after)


def _drawn(light: Levels, place: float, size: float) -> bool:
    """Whether a line is drawn at `place`: darker, or lighter, than what lies on both its sides, in many rows."""
    middle, reach = round(place), max(2, round(size / 3))
    on = light[:, max(0, middle - 2) : middle + 2]
    left = light[:, max(0, middle - reach - 1) : max(1, middle - reach + 1)]
    right = light[:, middle + reach - 1 : middle + reach + 1]
    if not right.size:
        return False
    sides = np.stack([left.mean(axis=(1, 2)), right.mean(axis=(1, 2))])
    tone = on.mean(axis=2)
    darker = tone.min(axis=1) < sides.min(axis=0) - LINE
    lighter = tone.max(axis=1) > sides.max(axis=0) + LINE
    return bool(max(darker.mean(), lighter.mean()) > ROWS_LINED)


def _flat(light: Levels, found: FoundGrid) -> bool:
    """Whether the middles of cells are of one colour each, measured against how much the picture varies at all."""
    inside = [
        light[y, x].reshape(-1, 3).var(axis=0).sum() for y in found.down.middles() for x in found.across.middles()
    ]
    whole = light[:: 1 + len(light) // 1000, :: 1 + light.shape[1] // 1000].reshape(-1, 3).var(axis=0).sum()
    return float(np.median(inside)) <= FLAT * float(whole)


def _sharp(light: Levels, found: FoundGrid) -> bool:
    """Whether unlike neighbours change colour right at the line between them.

    JPEG works in blocks of 8 pixels and leaves a comb of that period in any photograph, whose colours change anywhere.
    """
    shares = [*_shares(light, found.across, found.down), *_shares(light.transpose(1, 0, 2), found.down, found.across)]
    return len(shares) >= FEWEST and float(np.median(shares)) >= AT_THE_LINE


def _shares(light: Levels, across: Axis, down: Axis) -> list[float]:
    """For each pair of unlike neighbours in a row, how much of their difference lies in the three pixels' steps."""
    shares = []
    columns = across.middles()
    edges = [round(across.start + across.size * k) for k in range(1, across.cells)]
    for band in down.middles():
        line = np.median(light[band], axis=0)
        cells = np.array([np.median(line[x], axis=0) for x in columns])
        whole = np.diff(cells, axis=0)
        squares = (whole**2).sum(axis=1)
        for k in np.flatnonzero(squares > UNLIKE**2):
            step = line[edges[k] + 1] - line[edges[k] - 2]
            shares.append(float(step @ whole[k] / squares[k]))
    return shares
