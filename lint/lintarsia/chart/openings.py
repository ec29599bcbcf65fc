"""Where the grid is parted: an opening followed upwards from the row that divides the work.

Columns are the grid's, from 0 at the left; a pair of columns is (first, last + 1). The grid is the truth for which
cells are stitches: `divide` says which of its gaps is an opening, and what does not fit is a fault.
"""

from collections.abc import Iterable, Iterator
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.grid import RowNumber
from lintarsia.chart.model import Chart
from lintarsia.chart.shaping import Change, Divide, Parting
from lintarsia.chart.ways import Worked
from lintarsia.ground.values import dataclass

Columns = tuple[int, int]
Real = NDArray[np.bool_]  # shape (rows, columns): whether a cell is a stitch


class Amiss(StrEnum):
    """In what a parting and the grid disagree."""

    IN_ROUNDS = "in rounds"  # a round has no edges to turn at
    NO_OPENING = "no opening"  # the row has neither a gap between stitches nor a slit that can be placed
    SEVERAL = "several"  # more than one gap opens in the row, and nothing says which is meant
    PARTED_ALREADY = "parted already"  # the row below is in two sides
    NOTHING_COMES_OFF = "nothing comes off"  # stitches are to be bound off or held, and none are there below
    STITCHES_LEFT = "stitches left"  # a slit, and stitches of the row below end in it
    OTHER_NUMBER = "other number"  # the neck's edges say another number than the opening has


@dataclass(frozen=True, slots=True)
class OpeningFault:
    """A parting that does not fit its chart. `found` and `stated` are numbers of stitches, where there are any.
    `begins` is the row where an opening begins, where that is another."""

    amiss: Amiss
    row: RowNumber
    found: int = 0
    stated: int = 0
    begins: int = 0


@dataclass(frozen=True, slots=True)
class Opening:
    """`gaps` has the columns of the opening in each row from `divide.row` up, and `splits` a column of which everything
    at its left belongs to the left-hand side. `stitches` are those of the row below that are bound off or held.
    """

    divide: Divide
    gaps: tuple[Columns, ...]
    splits: tuple[int, ...]
    stitches: int

    @property
    def first_row(self) -> RowNumber:
        return RowNumber(self.divide.row)

    @property
    def last_row(self) -> RowNumber:
        return RowNumber(self.divide.row + len(self.gaps) - 1)

    def split(self, row: int) -> int:
        """The first column of the right-hand side, or one of the gap before it."""
        return self.splits[row - self.divide.row]

    def gap(self, row: int) -> Columns:
        """The opening's columns in a row, which may be none at all."""
        return self.gaps[row - self.divide.row]


def find_openings(chart: Chart) -> tuple[tuple[Opening, ...], tuple[OpeningFault, ...]]:
    """The openings of a chart, bottom-up, and the partings that do not fit it."""
    openings: list[Opening] = []
    faults: list[OpeningFault] = []
    real = chart.grid.cells >= 0
    for row, divide in sorted(chart.divide.items()):
        if chart.worked is not Worked.FLAT:
            faults.append(OpeningFault(Amiss.IN_ROUNDS, RowNumber(row)))
        elif openings and row <= openings[-1].last_row:
            faults.append(OpeningFault(Amiss.PARTED_ALREADY, RowNumber(row)))
        elif isinstance(start := _start(chart, real, divide), OpeningFault):
            faults.append(start)
        else:
            openings.append(_follow(chart, real, divide, start))
            faults += _disagreeing(chart, openings[-1], real)
    return tuple(openings), tuple(faults)


def gaps_of(line: Real) -> list[Columns]:
    """The stretches without a stitch between the stitches of a row."""
    here = np.flatnonzero(line)
    after = np.flatnonzero(np.diff(here) > 1)
    return [(int(here[i]) + 1, int(here[i + 1])) for i in after]


def _start(chart: Chart, real: Real, divide: Divide) -> int | OpeningFault:
    """A column of the opening in the row that divides, or the column right of a slit."""
    line = real[divide.row - 1]
    if divide.at is not None:
        return chart.grid.width - divide.at
    gaps = gaps_of(line)
    below = real[divide.row - 2] if divide.row > 1 else np.zeros_like(line)
    opened = [gap for gap in gaps if below[slice(*gap)].any()] or gaps
    if len(opened) > 1:
        return OpeningFault(Amiss.SEVERAL, RowNumber(divide.row), found=len(opened))
    if opened:
        return _middle(opened[0])
    slit = _slit(chart, real, divide) if divide.by is Parting.NOTHING else None
    if slit is not None:
        return slit
    return OpeningFault(Amiss.NO_OPENING, RowNumber(divide.row), begins=_first_gap(real, divide.row))


def _first_gap(real: Real, row: int) -> int:
    """The first row above that has one gap between its stitches; 0 where there is none."""
    return next((r for r in range(row + 1, len(real) + 1) if len(gaps_of(real[r - 1])) == 1), 0)


def _begun(real: Real, row: int, gap: Columns) -> int:
    """The lowest row that the gap of a row reaches down to; 0 where that is the row itself, or the very first row."""
    begins = row
    while begins > 1 and not real[begins - 2, slice(*gap)].any():
        begins -= 1
    return begins if 1 < begins < row else 0


def _slit(chart: Chart, real: Real, divide: Divide) -> int | None:
    """Where a slit runs that the grid shows only further up: beneath the gap that its edges' decreases make there."""
    last = divide.to or chart.grid.height
    for row in range(divide.row + 1, last + 1):
        gaps = gaps_of(real[row - 1])
        if len(gaps) == 1:
            gone = sum(-chart.shaping[r].neck_left for r in range(divide.row, row + 1) if r in chart.shaping)
            first, end = gaps[0]
            return first + gone if 0 < gone <= end - first else _middle(gaps[0])
    return None


def _middle(gap: Columns) -> int:
    return (gap[0] + gap[1]) // 2


def _follow(chart: Chart, real: Real, divide: Divide, split: int) -> Opening:
    """The opening from its first row up: to its stated end, until stitches close it, or to the top."""
    gaps: list[Columns] = []
    splits: list[int] = []
    opened = False
    for line in real[divide.row - 1 : divide.to or chart.grid.height]:
        gap = _gap_at(line, split)
        if opened and gap[0] == gap[1]:
            break
        opened = opened or gap[0] < gap[1]
        if opened and line[: gap[0]].any() and line[gap[1] :].any():
            split = _middle(gap)  # an opening may wander
        gaps.append(gap)
        splits.append(split)
    first = gaps[0]
    below = int(real[divide.row - 2, first[0] : first[1]].sum()) if divide.row > 1 else 0
    return Opening(divide, tuple(gaps), tuple(splits), below - _decreased(chart, divide))


def _gap_at(line: Real, split: int) -> Columns:
    """The columns without stitches on both sides of a split."""
    left, right = np.flatnonzero(line[:split]), np.flatnonzero(line[split:])
    return (int(left[-1]) + 1 if len(left) else 0), (split + int(right[0]) if len(right) else len(line))


def own_changes(opening: Opening, changes: Iterable[Change]) -> tuple[Change, ...]:
    """Those changes of the dividing row that tell of the opening itself: at its edges and of its kind, or of its very
    number with no edge said."""
    return tuple(c for c in changes if _opens(opening.divide, c) or (c.edge is None and c.net == -opening.stitches))


def _opens(divide: Divide, change: Change) -> bool:
    return change.edge is not None and change.edge.inner and change.kind.value == divide.by.value


def _decreased(chart: Chart, divide: Divide) -> int:
    """Stitches that the inner edges lose in the dividing row besides those of the opening."""
    changes = chart.shaping[divide.row].changes if divide.row in chart.shaping else ()
    inner = [c for c in changes if c.edge is not None and c.edge.inner and not _opens(divide, c)]
    return -sum(change.net for change in inner)


def _disagreeing(chart: Chart, opening: Opening, real: Real) -> Iterator[OpeningFault]:
    divide, found = opening.divide, opening.stitches
    changes = chart.shaping[divide.row].changes if divide.row in chart.shaping else ()
    told = sum(change.stitches for change in changes if _opens(divide, change))
    if divide.by is Parting.NOTHING and found:
        yield OpeningFault(Amiss.STITCHES_LEFT, RowNumber(divide.row), found=found)
    elif divide.by is not Parting.NOTHING and found <= 0:
        begins = _begun(real, divide.row, opening.gap(divide.row))
        yield OpeningFault(Amiss.NOTHING_COMES_OFF, RowNumber(divide.row), begins=begins)
    elif told and told != found:
        yield OpeningFault(Amiss.OTHER_NUMBER, RowNumber(divide.row), found=found, stated=told)
