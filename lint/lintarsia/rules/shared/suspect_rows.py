"""Which changes of one row are worth weighing, by counting stitches over the whole grid at once.

Undoing a slip helps only where a row has stitches that neither the row below nor the row above has in their place, and
where there are fewer of these afterwards, and fewer stitches that change from row to row. Most rows of most charts are
settled by that, in a tenth of the time that weighing one change takes.
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.grid import RowIndex

Cells = NDArray[np.int16]  # (rows, stitches): row 0 is the knitter's row 1, column 0 the leftmost stitch
Counts = NDArray[np.int64]
UNDONE = (("mirrored", 0), ("shifted", 2), ("shifted", 1), ("shifted", -1), ("shifted", -2))
LOOKED_AT = 16  # rows of a chart that are tried, those at which edges bend most
NEAR = 3  # rows on either side that a row's neighbours reach
# How the two counts foretell what rules/shared/slips.py makes of a change: its weight for the first, and what its
# weights for edges come to in steps from row to row, over some 400 changes of drawn motifs.
OWN, STEP = 1.61, 5.0


class Suspect(NamedTuple):
    """`kind`, `by` and `row` as those of a Slip, but the row counts from 0; `promise` foretells the score, base and
    busyness apart."""

    promise: float
    kind: str
    row: RowIndex
    by: int


def unsupported(differs: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Which stitches neither the row below nor the row above has in their place; `differs` says which stitches of each
    row but the first differ from the row below."""
    odd = np.empty((len(differs) + 1, differs.shape[1]), bool)
    odd[0], odd[-1] = differs[0], differs[-1]
    np.logical_and(differs[1:], differs[:-1], out=odd[1:-1])
    return odd


def suspects(cells: Cells, differs: NDArray[np.bool_], least: float) -> list[Suspect]:
    """The changes that promise `least`, best first. `differs` as for `unsupported`."""
    odd = unsupported(differs).sum(axis=1)
    if not odd.any():
        return []
    rows = _Rows(cells, differs.sum(axis=1), odd)
    return sorted([*rows.alone(least), *rows.exchanged(least)], key=lambda suspect: -suspect.promise)


class _Rows:
    """A chart's rows by their counts: `moved` (rows - 1) stitches that differ from row to row, `apart` (rows - 2) those
    that differ between rows two apart, `odd` unsupported ones, `around` those that differ in a row's neighbourhood."""

    def __init__(self, cells: Cells, moved: Counts, odd: Counts) -> None:
        self.cells, self.moved, self.odd = cells, moved, odd
        self.last = len(cells) - 1
        self.apart = (cells[2:] != cells[:-2]).sum(axis=1)
        self.excess = np.concatenate([moved[:1], moved[1:] + moved[:-1] - self.apart, moved[-1:]])
        up_to = np.concatenate([[0], np.cumsum(moved)])
        rows = np.arange(len(cells))
        self.around = up_to[np.minimum(rows + NEAR + 1, self.last)] - up_to[np.maximum(rows - NEAR, 0)]
        self.bent = self._most_bent()

    def _most_bent(self) -> NDArray[np.bool_]:
        """The LOOKED_AT rows at which edges bend most: a slip is among them."""
        bent = np.ones(len(self.cells), bool)
        if len(bent) > LOOKED_AT:
            bends = np.zeros(len(bent) + 2, np.int64)
            bends[2:-2] = self.moved[1:] + self.moved[:-1] + self.excess[1:-1]
            here = bends[:-2] + bends[1:-1] + bends[2:]
            bent[np.argsort(-here, kind="stable")[LOOKED_AT:]] = False
        return bent

    def alone(self, least: float) -> list[Suspect]:
        """Rows mirrored or shifted."""
        # At best no stitch is left unsupported and no step is longer than the one between the two rows beside it.
        most = _promise(self.odd, 0 * self.odd, self.around, self.excess)
        rows = ((most >= least) & self.bent).nonzero()[0]
        if not len(rows):
            return []
        # A first or last row has its one neighbour on both sides: its unsupported stitches come out right so.
        below, above = self.cells[np.abs(rows - 1)], self.cells[self.last - np.abs(self.last - 1 - rows)]
        here = self.cells[rows[:, None, None], _undone(self.cells.shape[1])]  # (rows, ways, stitches)
        from_below, to_above = here != below[:, None], here != above[:, None]
        left = np.logical_and(from_below, to_above).sum(axis=2)
        steps = from_below.sum(axis=2) * (rows > 0)[:, None] + to_above.sum(axis=2) * (rows < self.last)[:, None]
        saved = self._beside(rows)[:, None] - steps
        promise = _promise(self.odd[rows, None], left, self.around[rows, None], saved)
        return [
            Suspect(float(promise[at, way]), UNDONE[way][0], RowIndex(int(rows[at])), UNDONE[way][1])
            for at, way in np.argwhere(promise >= least).tolist()
        ]

    def _beside(self, rows: Counts) -> Counts:
        """Stitches in which rows differ from those below and above them."""
        moved = np.concatenate([[0], self.moved, [0]])
        beside: Counts = moved[rows] + moved[rows + 1]
        return beside

    def exchanged(self, least: float) -> list[Suspect]:
        """Rows exchanged with the next."""
        saved = np.zeros(self.last, np.int64)  # by the lower row of the two
        saved[1:] += self.moved[:-1] - self.apart
        saved[:-1] += self.moved[1:] - self.apart
        odd = self.odd[:-1] + self.odd[1:]
        most = _promise(odd, 0 * odd, self.around[:-1], saved)
        rows = ((most >= least) & self.bent[:-1]).nonzero()[0]
        if not len(rows):
            return []
        promise = _promise(odd[rows], self._left_of(rows), self.around[rows], saved[rows])
        return [
            Suspect(float(promise[at]), "swapped", RowIndex(int(rows[at])), 0) for at in (promise >= least).nonzero()[0]
        ]

    def _left_of(self, rows: Counts) -> Counts:
        """Unsupported stitches of each row and the next once they have changed places."""
        a, b = self.cells[np.maximum(rows - 1, 0)], self.cells[rows]
        c, d = self.cells[rows + 1], self.cells[np.minimum(rows + 2, self.last)]
        from_below, between, to_above = c != a, b != c, b != d
        # Beyond an edge there is nothing to differ from.
        from_below[rows == 0], to_above[rows + 1 == self.last] = between[rows == 0], between[rows + 1 == self.last]
        left: Counts = (from_below & between).sum(axis=1) + (between & to_above).sum(axis=1)
        return left


def _promise(before: Counts, left: Counts, around: Counts, saved: Counts) -> NDArray[np.float64]:
    """Of changes that leave fewer unsupported stitches and fewer steps; of others, less than anybody asks for."""
    own, step = (before + 0.5) / (left + 0.5), (around + 0.5) / (around - saved + 0.5)
    promise: NDArray[np.float64] = OWN * np.log(own) + STEP * np.log(step)
    promise[(left >= before) | (saved <= 0)] = -np.inf
    return promise


@lru_cache(32)
def _undone(width: int) -> Counts:
    """For each of UNDONE the columns that a row's stitches come from, (ways, stitches)."""
    columns = np.arange(width)
    ways = [columns[::-1], *(np.clip(columns + by, 0, width - 1) for _, by in UNDONE[1:])]
    return np.array(ways)
