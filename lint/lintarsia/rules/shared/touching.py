"""Which colours of a chart touch, side to side or one above the other, and where first."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.rules.base import Work

Cells = NDArray[np.int16]
Touch = tuple[int, tuple[int, int]]  # the knitter's row and stitches

_SPAN = 2**17  # more than any code


def touching_pairs(work: Work) -> set[tuple[int, int]]:
    """Pairs of colour codes (lower first) that touch in the knitting, or where duplicate stitch meets the knitting."""
    chart = work.chart
    pairs = _pairs(chart.grid.cells, work.steps, chart.tube)
    if chart.duplicate:
        worn = worn_cells(chart)
        pairs |= _pairs(worn, worn[:, 1:] != worn[:, :-1], chart.tube)
        pairs |= {tuple(sorted(pair)) for pair in _over(chart)}  # type: ignore[misc]
    return pairs


def first_touches(work: Work, pairs: set[tuple[int, int]]) -> dict[tuple[int, int], Touch | None]:
    """Those of some pairs (lower code first) that touch, in order, each with its `first_touch`."""
    if work.chart.duplicate:
        return {pair: first_touch(work.chart, *pair) for pair in sorted(pairs & touching_pairs(work))}
    used = {code for code, symbol in enumerate(work.chart.grid.symbols) if symbol in work.used}
    firsts = ((pair, first_touch(work.chart, *pair)) for pair in sorted(pairs) if used.issuperset(pair))
    return {pair: touch for pair, touch in firsts if touch}


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


def first_touch(chart: Chart, one: int, two: int) -> Touch | None:
    """The lowest row where two colours touch, and the stitches of it that do, from the right: two side by side, the one
    that stands on the other, or stitch 1 at the seam of a tube. None where only duplicate stitch brings them together.
    """
    cells, stitch = chart.grid.cells, chart.grid.stitch
    is_one, is_two = cells == one, cells == two
    beside = (is_one[:, 1:] & is_two[:, :-1]) | (is_two[:, 1:] & is_one[:, :-1])
    above = (is_one[1:] & is_two[:-1]) | (is_two[1:] & is_one[:-1])
    touches: list[tuple[int, int, tuple[int, int]]] = []  # the middle number prefers the plainest of one row
    if beside.any():
        row = _lowest(beside)
        right = stitch(int(np.flatnonzero(beside[row])[-1]) + 1)
        touches.append((row + 1, 0, (right, right + 1)))
    if above.any():
        row = _lowest(above)
        place = stitch(int(np.flatnonzero(above[row])[-1]))
        touches.append((row + 2, 1, (place, place)))
    if chart.tube:
        seam = (is_one[:, :1] & is_two[:, -1:]) | (is_two[:, :1] & is_one[:, -1:])
        if seam.any():
            touches.append((_lowest(seam) + 1, 2, (1, 1)))
    if not touches:
        return None
    row, _, stitches = min(touches)
    return row, stitches


def _lowest(somewhere: NDArray[np.bool_]) -> int:
    """The first row that has a True, of those that have one."""
    return int(somewhere.argmax() // somewhere.shape[1])


def _pairs(cells: Cells, steps: NDArray[np.bool_], tube: bool) -> set[tuple[int, int]]:
    """Pairs of codes in neighbouring cells; `steps` says where a cell differs from the one to its right."""
    rises = cells[1:] != cells[:-1]
    meetings = [(cells[:, 1:][steps], cells[:, :-1][steps]), (cells[1:][rises], cells[:-1][rises])]
    if tube:
        meetings.append((cells[:, 0], cells[:, -1]))
    met: set[int] = set()
    for one, two in meetings:
        both = one.astype(np.int64) * _SPAN + two
        met.update((both if len(both) < 1000 else np.unique(both)).tolist())
    pairs = set()
    for both_codes in met:
        first, second = divmod(both_codes, _SPAN)
        if second >= _SPAN - 2:  # minus 1 or minus 2, no stitch or none at all, borrowed from the first
            continue
        if first != second and first >= 0:
            pairs.add((first, second) if first < second else (second, first))
    return pairs


def _over(chart: Chart) -> set[tuple[int, int]]:
    """The colour of each duplicate stitch with the colours it covers."""
    cells, worn = chart.grid.cells, worn_cells(chart)
    changed = (cells != worn) & (cells >= 0)
    return set(zip(cells[changed].tolist(), worn[changed].tolist(), strict=True))
