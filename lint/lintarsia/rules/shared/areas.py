"""Areas: stitches of one colour that touch. Which stitches touch which, and which area each belongs to."""

from functools import cache
from itertools import repeat

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.grid import Grid, RowIndex

Integers = NDArray[np.int64]
View = tuple[slice, slice]


Sides = NDArray[np.int16] | None
"""Of each square the number of its side where the work is parted, 0 where it is whole; None where it never is."""


def lone_stitches(grid: Grid, *, corners: bool, tube: bool, sides: Sides = None) -> list[tuple[RowIndex, int]]:
    """(array row, column) of every stitch that touches no other of its colour, bottom-up and from the left.

    By sides, and by corners where `corners` is set; in a `tube` the first and the last stitch of a row are neighbours.
    A no-stitch cell between two stitches of a row does not part them; an opening does, and so does a slit.
    """
    cells = grid.cells
    if grid.width > 1 and grid.whole and sides is None:
        steps, rises = cells[:, 1:] != cells[:, :-1], cells[1:] != cells[:-1]
        alone = np.ones(cells.shape, bool)
        alone[:, 1:] = steps
        alone[:, :-1] &= steps
        alone[1:] &= rises
        alone[:-1] &= rises
        places = alone.ravel().nonzero()[0]
        if len(places) <= FEW:
            found = [(RowIndex(row), column) for row, column in map(divmod, places.tolist(), repeat(grid.width))]
            return [place for place in found if not _touches(grid, *place, corners, tube)]
    return lone_by_arrays(grid, corners=corners, tube=tube, sides=sides)


FEW = 40  # so many stitches are looked at one by one in the time that array operations take


def _touches(grid: Grid, row: RowIndex, column: int, corners: bool, tube: bool) -> bool:
    symbol = grid.rows[row][column]
    for line, step in CORNERS if corners else SIDES:
        other, beside = row + line, column + step
        if tube:
            beside %= grid.width
        inside = 0 <= other < grid.height and 0 <= beside < grid.width and (other, beside) != (row, column)
        if inside and grid.rows[other][beside] == symbol:
            return True
    return False


SIDES = ((0, -1), (0, 1), (-1, 0), (1, 0))
CORNERS = (*SIDES, (-1, -1), (-1, 1), (1, -1), (1, 1))


def lone_by_arrays(grid: Grid, *, corners: bool, tube: bool, sides: Sides = None) -> list[tuple[RowIndex, int]]:
    """What `lone_stitches` says, by comparing the whole grid with itself moved by one."""
    cells = grid.cells
    alone = cells >= 0
    for one, two in _neighbours(corners, tube and grid.width > 1):
        same = cells[one] == cells[two]
        if sides is not None:
            same &= _together(sides[one], sides[two])
        alone[one] &= ~same
        alone[two] &= ~same
    if not alone.any():
        return []
    found = [(RowIndex(int(row)), int(column)) for row, column in np.argwhere(alone)]
    if not grid.whole:
        linked = set(np.unique(np.concatenate(touching(grid, corners=corners, tube=tube, sides=sides))).tolist())
        number = _numbers(grid)
        found = [place for place in found if int(number[place]) not in linked]
    return found


def _together(one: NDArray[np.int16], other: NDArray[np.int16]) -> NDArray[np.bool_]:
    """Whether stitches of two sides can touch: of one side, or where the work is whole in one of their rows."""
    near: NDArray[np.bool_] = (one == other) | (one == 0) | (other == 0)
    return near


@cache
def _neighbours(corners: bool, tube: bool) -> list[tuple[View, View]]:
    """Pairs of views of the grid in which equal places are neighbours."""
    every, low, high = slice(None), slice(None, -1), slice(1, None)
    first, last = slice(0, 1), slice(-1, None)
    pairs = [((every, high), (every, low)), ((high, every), (low, every))]
    if corners:
        pairs += [((high, high), (low, low)), ((high, low), (low, high))]
    if tube:
        pairs.append(((every, first), (every, last)))
        if corners:
            pairs += [((high, first), (low, last)), ((low, first), (high, last))]
    return pairs


def touching(grid: Grid, *, corners: bool, tube: bool, sides: Sides = None) -> tuple[Integers, Integers]:
    """Every pair of stitches of one colour that touch, as two arrays of stitch numbers.

    Stitches are numbered through the grid row by row, bottom-up and from the left, no-stitch cells left out.
    """
    cells, number = grid.cells, _numbers(grid)
    at = np.flatnonzero(cells.ravel() >= 0)
    row, colour = at // grid.width, cells.ravel()[at]
    near = (colour[1:] == colour[:-1]) & (row[1:] == row[:-1])  # whatever no-stitch cells between
    if sides is not None:
        of_side = sides.ravel()[at]
        near &= _together(of_side[1:], of_side[:-1])
    beside = np.flatnonzero(near)
    ones, twos = [beside], [beside + 1]
    for one, two in _neighbours(corners, False)[1:]:
        same = (cells[one] == cells[two]) & (cells[one] >= 0)
        if sides is not None:
            same &= _together(sides[one], sides[two])
        ones.append(number[one][same])
        twos.append(number[two][same])
    if tube and len(at):
        heads = np.flatnonzero(np.concatenate(([True], row[1:] != row[:-1])))
        tails = np.concatenate((heads[1:] - 1, [len(at) - 1]))
        seams = [(heads, tails)]
        if corners:
            at_seam = np.flatnonzero(row[heads][1:] == row[heads][:-1] + 1)
            seams += [(heads[at_seam + 1], tails[at_seam]), (heads[at_seam], tails[at_seam + 1])]
        for head, tail in seams:
            same = (colour[head] == colour[tail]) & (head != tail)
            ones.append(head[same])
            twos.append(tail[same])
    return np.concatenate(ones), np.concatenate(twos)


def label_areas(grid: Grid, *, corners: bool, tube: bool, sides: Sides = None) -> Integers:
    """For every cell of the grid the number of the first stitch of its area; −1 where there is no stitch.

    Areas are joined by hooking the higher root of each touching pair to the lower and halving the paths, all pairs at
    once, until nothing moves.
    """
    one, two = touching(grid, corners=corners, tube=tube, sides=sides)
    number = _numbers(grid)
    root = np.arange(int(number.max(initial=-1)) + 1)
    while True:
        a, b = root[one], root[two]
        low, high = np.minimum(a, b), np.maximum(a, b)
        moving = low != high
        if not moving.any():
            break
        np.minimum.at(root, high[moving], low[moving])
        while not np.array_equal(root, root[root]):
            root = root[root]
    labels = np.full(number.shape, -1)
    labels[number >= 0] = root
    return labels


def _numbers(grid: Grid) -> Integers:
    stitch = grid.cells >= 0
    numbers = np.full(grid.cells.shape, -1)
    numbers[stitch] = np.arange(np.count_nonzero(stitch))
    return numbers
