"""Where a chart's shaping is marked: in the very squares that lose or gain a stitch, one mark a stitch.

Bound-off, held and decreased stitches are marked in the squares that are empty from that row on, cast-on ones in the
empty squares beneath them. A change that the grid does not show is one mark beside the row, with its number.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import takewhile
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.chart.shaping import Change, ChangeKind, Edge
from lintarsia.chart.sides import Half, Sides, Stint


class ShapeMark(NamedTuple):
    """A mark over the columns from `first` to `last`, both included, of a knitter's row of the grid.

    `out` is -1 where the fabric ends to the left of it, 1 to the right, 0 between two sides. `signed` is the change as
    a number where the squares do not show it, else 0; with `kind` None it is all there is to say.
    """

    row: int
    first: int
    last: int
    kind: ChangeKind | None
    out: int
    signed: int = 0


@lru_cache(maxsize=1)  # the drawing, its sheets and their key ask one after the other
def shape_marks(chart: Chart) -> tuple[ShapeMark, ...]:
    """Every mark of a chart, bottom-up."""
    sides, real = Sides(chart), chart.grid.cells >= 0
    rows = sorted({*chart.shaping, *chart.divide})
    return tuple([m for row in rows if 1 <= row <= chart.grid.height for m in _Row(chart, sides, real, row).marks()])


def slits(chart: Chart) -> NDArray[np.bool_] | None:
    """Whether the work is parted at the left of a square that has stitches on both sides, shape (rows, columns); None
    where nothing is parted."""
    numbers = Sides(chart).numbers if chart.divide else None
    if numbers is None:
        return None
    parted = np.zeros(numbers.shape, bool)
    parted[:, 1:] = (numbers[:, 1:] != numbers[:, :-1]) & (numbers[:, 1:] > 0)
    return parted


class _Row:
    """The marks of one row. Squares are handed out from the outermost inward, each to one change."""

    def __init__(self, chart: Chart, sides: Sides, real: NDArray[np.bool_], row: int) -> None:
        self.chart, self.sides, self.row = chart, sides, row
        here = real[row - 1]
        below = real[row - 2] if row > 1 else here
        self.gone, self.come = below & ~here, here & ~below

    def marks(self) -> Iterator[ShapeMark]:
        stints = self.sides.stints(self.row)
        opening = self.sides.opening(self.row)
        between = next((stint.opening for stint in stints if stint.opening), None)
        if opening and between:
            first, end = opening.gap(self.row)
            columns = [c for c in range(first, end) if self.gone[c]]
            self.gone[first:end] = False
            if columns:
                yield ShapeMark(self.row, columns[0], columns[-1], between.kind, 0)
        for stint in stints:
            yield from self._of(stint)

    def _of(self, stint: Stint) -> Iterator[ShapeMark]:
        for change in stint.changes:
            if change.edge is None:
                yield self._beside(stint, change)
                continue
            out = 1 if _at_right(change.edge) else -1
            columns = self._columns(stint, change, out)
            if len(columns) != change.stitches:
                yield self._alone(stint, change, out)
            elif change.kind is ChangeKind.INCREASE:
                ends = (columns[0] + out, columns[0] + out * change.stitches)  # beside the new stitches
                yield ShapeMark(self.row, min(ends), max(ends), change.kind, out)
            else:
                row = self.row - (change.kind is ChangeKind.CAST_ON)
                yield ShapeMark(row, min(columns), max(columns), change.kind, out)

    def _columns(self, stint: Stint, change: Change, out: int) -> list[int]:
        """The squares in which a change at an edge is made, the outermost first; they are taken."""
        if change.kind.adds:
            pool, found = self.come, list(takewhile(self.come.__getitem__, self._inward(stint, out)))
        else:
            pool, found = self.gone, list(takewhile(self.gone.__getitem__, self._outward(stint, out)))[::-1]
        found = found[: change.stitches]
        pool[found] = False
        return found

    @staticmethod
    def _inward(stint: Stint, out: int) -> range:
        first, end = stint.columns
        return range(end - 1, first - 1, -1) if out > 0 else range(first, end)

    def _outward(self, stint: Stint, out: int) -> list[int]:
        """The columns outside a stint's stitches. Where none are left, all that it had."""
        low, high = self._room(stint.half)
        first, end = stint.columns
        if first == end:
            had = [c for c in range(low, high) if self.gone[c]]
            return had if out > 0 else had[::-1]
        return list(range(end, high) if out > 0 else range(first - 1, low - 1, -1))

    def _room(self, half: Half | None) -> tuple[int, int]:
        opening = self.sides.opening(self.row)
        if half is None or opening is None:
            return 0, self.chart.grid.width
        split = opening.split(self.row)
        return (0, split) if half is Half.LEFT else (split, self.chart.grid.width)

    def _alone(self, stint: Stint, change: Change, out: int) -> ShapeMark:
        """A mark outside the edge, where the squares do not show the change."""
        first, end = stint.columns
        edge = end if out > 0 else first - 1
        return ShapeMark(self.row, edge, edge, change.kind, out, change.net)

    def _beside(self, stint: Stint, change: Change) -> ShapeMark:
        """A number at the side where the number of the row does not stand."""
        out = -1 if stint.leftward else 1
        edge = stint.columns[1] if out > 0 else stint.columns[0] - 1
        return ShapeMark(self.row, edge, edge, None, out, change.net)


def _at_right(edge: Edge) -> bool:
    """Whether the fabric ends to the right of that edge: of the left-hand side, its inner one."""
    return edge in (Edge.RIGHT, Edge.NECK_LEFT)
