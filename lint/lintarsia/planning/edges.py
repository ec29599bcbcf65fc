"""What a row gains or loses at the edge where it starts: the yarn works these columns itself, on its way.

Stitches are bound off, decreased, cast on or increased at the start of a row by the yarn that goes on into it, so that
what it passes there is no carry.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.grid import RowIndex

Integers = NDArray[np.int64]


class _Part(NamedTuple):
    """A row, or its part on one side of an opening: runs `first` to `last`, between columns `left` and `right`."""

    row: RowIndex
    side: int
    first: int
    last: int
    left: int
    right: int


def start_edges(
    row: Integers, side: Integers, entry: Integers, leave: Integers, leftward: NDArray[np.bool_]
) -> tuple[Integers, Integers]:
    """For each run, the columns (from, up to but without) that its part of the row gained or lost where it starts.

    Runs in working order. A part is set beside the one of its side in the row below, or the whole row below where the
    work was parted or joined in between. A first row, and one above a row without stitches, gains and loses nothing.
    """
    low, high = np.zeros(len(row), np.int64), np.zeros(len(row), np.int64)
    below: dict[tuple[int, int], _Part] = {}
    before: _Part | None = None
    for part in _parts(row, side, entry, leave):
        was = below.get((part.row - 1, part.side)) or below.get((part.row - 1, 0))
        if was:
            to_left = bool(leftward[part.row])
            newly_parted = part.side != was.side and before is not None and before.row == part.row
            if newly_parted and before is not None:  # what lies between the two sides is the opening
                edges = (part.right, before.left - 1) if to_left else (before.right + 1, part.left)
            else:
                edges = (part.right, was.right) if to_left else (part.left, was.left)
            low[part.first : part.last + 1] = min(edges) + to_left
            high[part.first : part.last + 1] = max(edges) + to_left
        below[part.row, part.side] = part
        if part.side:  # for a row that is whole again above
            whole = below.get((part.row, 0), part)
            below[part.row, 0] = whole._replace(
                side=0, left=min(whole.left, part.left), right=max(whole.right, part.right)
            )
        before = part
    return low, high


def _parts(row: Integers, side: Integers, entry: Integers, leave: Integers) -> Iterator[_Part]:
    if not len(row):
        return
    begins = np.ones(len(row), bool)
    begins[1:] = (row[1:] != row[:-1]) | (side[1:] != side[:-1])
    first = np.flatnonzero(begins)
    last = np.append(first[1:], len(row)) - 1
    start, end = entry[first], leave[last]
    columns = (row[first], side[first], first, last, np.minimum(start, end), np.maximum(start, end))
    yield from map(_Part, *(column.tolist() for column in columns))
