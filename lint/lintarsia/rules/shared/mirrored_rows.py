"""Shaping that two edges have in turn: what starts a row at the right is made at the left in the row after."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.openings import Columns
from lintarsia.chart.shaping import Change
from lintarsia.chart.sides import Stint
from lintarsia.rules.base import Work


def made_a_row_later(work: Work) -> NDArray[np.bool_]:
    """The squares, shape (rows, columns), that differ left to right only because the other edge follows in the next
    row: stitches gone or new at the start of a row, and their mirror images."""
    chart = work.chart
    later = np.zeros(chart.grid.cells.shape, bool)
    for row in chart.shaping:
        if row + 1 not in chart.shaping:
            continue
        following = {change for stint in work.sides.stints(row + 1) for change in stint.start}
        for stint in work.sides.stints(row):
            for change in stint.start:
                if change.edge is not None and _same(change, following):
                    first, end = _columns(stint, change)
                    later[row - 1, max(0, first) : max(0, end)] = True
    return later | later[:, ::-1]


def _same(change: Change, following: set[Change]) -> bool:
    assert change.edge is not None
    mirrored = change.edge.mirrored
    return any(
        other.edge is mirrored and (other.kind, other.stitches) == (change.kind, change.stitches) for other in following
    )


def _columns(stint: Stint, change: Change) -> Columns:
    """Where the stitches were, or where the new ones are."""
    first, end = stint.columns
    if change.kind.adds:
        return (end - change.stitches, end) if stint.leftward else (first, first + change.stitches)
    return (end, end + change.stitches) if stint.leftward else (first - change.stitches, first)
