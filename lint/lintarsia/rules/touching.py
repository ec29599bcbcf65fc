"""Which colours of a chart touch, side to side or one above the other, and where first."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart

Cells = NDArray[np.int16]


def touching_pairs(chart: Chart) -> set[tuple[int, int]]:
    """Pairs of colour codes (lower first) that touch in the knitting, or where duplicate stitch meets the knitting."""
    pairs = _pairs(chart.grid.cells, chart.tube, len(chart.grid.symbols))
    if chart.duplicate:
        pairs |= _pairs(worn_cells(chart), chart.tube, len(chart.grid.symbols))
        pairs |= {tuple(sorted(pair)) for pair in _over(chart)}  # type: ignore[misc]
    return pairs


def worn_cells(chart: Chart) -> Cells:
    """The cells as the finished piece shows them: knitted, with the duplicate stitches on top. Shape as the grid's."""
    cells = chart.grid.cells.copy()
    for entry in chart.duplicate:
        if 1 <= entry.row <= chart.grid.height and entry.colour in chart.grid.symbols:
            stretch = cells[
                entry.row - 1, chart.grid.width - entry.stitches[1] : chart.grid.width + 1 - entry.stitches[0]
            ]
            stretch[stretch >= 0] = chart.grid.symbols.index(entry.colour)
    return cells


def first_touch(chart: Chart, one: int, two: int) -> tuple[int, tuple[int, int]] | None:
    """The lowest row where two colours touch, and the stitches that do, from the right; None where only a duplicate
    stitch brings them together.
    """
    cells = chart.grid.cells
    is_one, is_two = cells == one, cells == two
    beside = (is_one[:, 1:] & is_two[:, :-1]) | (is_two[:, 1:] & is_one[:, :-1])
    above = (is_one[1:] & is_two[:-1]) | (is_two[1:] & is_one[:-1])
    best: tuple[int, tuple[int, int]] | None = None
    rows = np.flatnonzero(beside.any(axis=1))
    if len(rows):
        column = int(np.flatnonzero(beside[rows[0]])[-1])
        stitch = chart.grid.stitch(column + 1)
        best = (int(rows[0]) + 1, (stitch, stitch + 1))
    rows = np.flatnonzero(above.any(axis=1))
    if len(rows) and (best is None or int(rows[0]) + 2 < best[0]):
        stitch = chart.grid.stitch(int(np.flatnonzero(above[rows[0]])[-1]))
        best = (int(rows[0]) + 2, (stitch, stitch))
    return best


def _pairs(cells: Cells, tube: bool, colours: int) -> set[tuple[int, int]]:
    base = colours + 2
    code = (cells + 2).astype(np.intp)  # no stitch and what is missing have codes too
    times = code * base
    found = np.zeros(base * base, bool)
    found[times[:, 1:] + code[:, :-1]] = True
    found[times[1:] + code[:-1]] = True
    if tube:
        found[times[:, 0] + code[:, -1]] = True
    pairs = set()
    for pair in np.flatnonzero(found).tolist():
        one, two = pair // base - 2, pair % base - 2
        if one != two and one >= 0 and two >= 0:
            pairs.add((one, two) if one < two else (two, one))
    return pairs


def _over(chart: Chart) -> set[tuple[int, int]]:
    """The colour of each duplicate stitch with the colours it covers."""
    cells, worn = chart.grid.cells, worn_cells(chart)
    changed = (cells != worn) & (cells >= 0)
    return set(zip(cells[changed].tolist(), worn[changed].tolist(), strict=True))
