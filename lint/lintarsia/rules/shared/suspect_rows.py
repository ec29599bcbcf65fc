"""Which changes of one row are worth weighing, by counting stitches.

Undoing a slip helps only where a row has stitches that neither the row below nor the row above has in their place, and
where there are fewer of these afterwards, and fewer stitches that change from row to row. Most rows of most charts are
settled by that, in a tenth of the time that weighing one change takes.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from lintarsia.chart.grid import RowIndex
from lintarsia.rules.shared.lanes import Cells, lanes_of

UNDONE = (("mirrored", 0), ("shifted", 2), ("shifted", 1), ("shifted", -1), ("shifted", -2))
LOOKED_AT = 16  # rows of a chart that are tried, those at which edges bend most
NEAR = 3  # rows on either side that a row's neighbours reach
# How much the two counts promise of a change: fitted to some 400 changes of drawn motifs.
OWN, STEP = 1.61, 5.0


class Suspect(NamedTuple):
    """`kind`, `by` and `row` as those of a Slip, but the row counts from 0; `promise` says which to
    weigh first."""

    promise: float
    kind: str
    row: RowIndex
    by: int


class RowLanes:
    """A chart's rows, from 0, and how they differ: `rows` in lanes, `differs` each but the last from the next, `moved`
    in how many stitches; `odd` has how many stitches of each row neither the row below nor the row above has in their
    place. `cells` without squares that have no stitch, two rows at least."""

    def __init__(self, cells: Cells) -> None:
        self.last = len(cells) - 1
        self.lanes = lanes_of(cells.shape[1])
        self.rows, self.turned = self.lanes.rows(cells), self.lanes.turned(cells)
        self.differs = self.lanes.steps(self.rows)
        self.moved = [differs.bit_count() for differs in self.differs]
        self.odd = unsupported(self.differs)

    def undone(self, row: int) -> tuple[int, ...]:
        """The row with each of UNDONE undone."""
        here = self.rows[row]
        return (self.turned[row], *(self.lanes.moved(here, -by) for _, by in UNDONE[1:]))


def unsupported(differs: Sequence[int]) -> list[int]:
    """How many stitches of each row neither the row below nor the row above has in their place; `differs` as that of
    RowLanes."""
    between = [(below & above).bit_count() for below, above in pairwise(differs)]
    return [differs[0].bit_count(), *between, differs[-1].bit_count()]


def suspects(rows: RowLanes, least: float) -> list[Suspect]:
    """The changes that promise `least`, best first."""
    if not any(rows.odd):
        return []
    search = _Search(rows)
    return sorted([*search.alone(least), *search.exchanged(least)], key=lambda suspect: -suspect.promise)


class _Search:
    """Rows by their counts: `apart` stitches that differ between a row and the next but one, `many` how many, `excess`
    by how many the steps to both neighbours are longer than the one between these, `around` those that differ in a
    row's neighbourhood; `bent` are the rows that are looked at."""

    def __init__(self, rows: RowLanes) -> None:
        self.known, self.rows, self.moved, self.last, self.odd = rows, rows.rows, rows.moved, rows.last, rows.odd
        self.apart = rows.lanes.steps(self.rows, 2)
        self.many = [apart.bit_count() for apart in self.apart]
        inner = [a + b - apart for (a, b), apart in zip(pairwise(self.moved), self.many, strict=True)]
        self.excess = [self.moved[0], *inner, self.moved[-1]]
        up_to = [0] * (NEAR + 1) + list(accumulate(self.moved))
        up_to += up_to[-1:] * (NEAR + 1)
        self.around = [above - below for below, above in zip(up_to, up_to[2 * NEAR + 1 :], strict=False)]
        self.bent = self._most_bent()

    def _most_bent(self) -> list[int]:
        """The LOOKED_AT rows at which edges bend most: a slip is among them."""
        rows = range(self.last + 1)
        if len(rows) <= LOOKED_AT:
            return list(rows)
        bends = [a + b + excess for (a, b), excess in zip(pairwise(self.moved), self.excess[1:-1], strict=True)]
        bends = [0, 0, *bends, 0, 0]
        here = [a + b + c for a, b, c in zip(bends, bends[1:], bends[2:], strict=False)]
        return sorted(sorted(rows, key=here.__getitem__, reverse=True)[:LOOKED_AT])

    def alone(self, least: float) -> Iterator[Suspect]:
        """Rows mirrored or shifted."""
        for row in self.bent:
            # At best no stitch is left unsupported and no step is longer than the one between the two rows beside it.
            if self.odd[row] and self._promise(row, self.odd[row], 0, self.excess[row]) >= least:
                yield from self._alone(RowIndex(row), least)

    def _alone(self, row: RowIndex, least: float) -> list[Suspect]:
        # A first or last row has its one neighbour on both sides: its unsupported stitches come out right so.
        below, above = self.rows[row - 1 if row else 1], self.rows[row + 1 if row < self.last else row - 1]
        to_below, to_above = int(row > 0), int(row < self.last)
        beside = (self.moved[row - 1] if row else 0) + (self.moved[row] if row < self.last else 0)
        odd, low, high, found = self.odd[row], self.known.lanes.low, self.known.lanes.high, []
        for (kind, by), here in zip(UNDONE, self.known.undone(row), strict=True):
            from_below, from_above = ((below ^ here) + low) & high, ((here ^ above) + low) & high  # as `steps`
            left = (from_below & from_above).bit_count()
            if left >= odd:
                continue
            saved = beside - from_below.bit_count() * to_below - from_above.bit_count() * to_above
            if saved > 0 and (promise := self._promise(row, odd, left, saved)) >= least:
                found.append(Suspect(promise, kind, row, by))
        return found

    def exchanged(self, least: float) -> Iterator[Suspect]:
        """Rows exchanged with the next."""
        for row in self.bent:
            if row == self.last:
                continue
            saved = self.moved[row - 1] - self.many[row - 1] if row else 0
            saved += self.moved[row + 1] - self.many[row] if row + 1 < self.last else 0
            odd = self.odd[row] + self.odd[row + 1]
            if self._promise(row, odd, 0, saved) < least:
                continue
            promise = self._promise(row, odd, self._left_of(row), saved)
            if promise >= least:
                yield Suspect(promise, "swapped", RowIndex(row), 0)

    def _left_of(self, row: int) -> int:
        """Unsupported stitches of a row and the next once they have changed places."""
        between = self.known.differs[row]
        # Beyond an edge there is nothing to differ from.
        from_below = self.apart[row - 1] if row else between
        to_above = self.apart[row] if row + 1 < self.last else between
        return (from_below & between).bit_count() + (between & to_above).bit_count()

    def _promise(self, row: int, before: int, left: int, saved: int) -> float:
        """Of a change that leaves fewer unsupported stitches and fewer steps; of others, less than anybody asks for."""
        if left >= before or saved <= 0:
            return -math.inf
        around = self.around[row]
        own, step = (before + 0.5) / (left + 0.5), (around + 0.5) / (around - saved + 0.5)
        return OWN * math.log(own) + STEP * math.log(step)
