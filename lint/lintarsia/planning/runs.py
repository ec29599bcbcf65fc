"""Runs: maximal stretches of neighbouring stitches of one colour in a row, found over the whole grid at once."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.chart.grid import Grid
from lintarsia.ground.values import dataclass

Integers = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class RunTable:
    """All runs of a chart in working order, one entry a run in every array (int64, read-only).

    `row` counts from 0 at the knitter's row 1; `left`, `right`, `entry`, `exit` are columns from 0 at the left, all of
    real stitches; `entry` is where the working direction meets the run first. `colour` indexes `Grid.symbols`.
    `stitches` leaves no-stitch cells out; `start` is how many stitches of the whole piece are worked before the run.
    """

    row: Integers
    left: Integers
    right: Integers
    colour: Integers
    stitches: Integers
    entry: Integers
    exit: Integers
    start: Integers

    def __len__(self) -> int:
        return len(self.row)


def find_runs(grid: Grid, leftward: Sequence[bool]) -> RunTable:
    """The runs of a grid in working order. `leftward[r]` says whether array row r is worked from right to left.

    No-stitch cells and what is missing from a short row are left out before runs are told apart, so that they neither
    break a run nor count. Symbols that the key does not know are colours like any other.
    """
    width = grid.width
    turned = np.asarray(leftward, dtype=bool)
    worked = np.where(turned[:, None], grid.cells[:, ::-1], grid.cells).ravel()
    if grid.whole:  # a third of the work
        at, colour = None, worked
        begins = np.empty(len(worked), bool)
        np.not_equal(colour[1:], colour[:-1], out=begins[1:])
        begins[::width] = True
    else:
        at = np.flatnonzero(worked >= 0)  # the stitches of the piece in the order they are worked
        colour, line = worked[at], at // width
        begins = np.ones(len(at), bool)
        begins[1:] = (colour[1:] != colour[:-1]) | (line[1:] != line[:-1])
    first = begins.nonzero()[0]
    stitches = np.empty_like(first)
    np.subtract(first[1:], first[:-1], out=stitches[:-1])
    stitches[-1:] = len(colour) - first[-1:]
    last = first + stitches - 1
    start_cell, end_cell = (first, last) if at is None else (at[first], at[last])
    row_of = start_cell // width
    column_0 = row_of * width + (turned * (width - 1))[row_of]  # where it stands among the cells of the row as worked
    entry, leave = np.abs(start_cell - column_0), np.abs(end_cell - column_0)
    arrays = (
        row_of,
        np.minimum(entry, leave),
        np.maximum(entry, leave),
        colour[first].astype(np.int64),
        stitches,
        entry,
        leave,
        first,
    )
    for array in arrays:
        array.setflags(write=False)
    return RunTable(*arrays)


def chart_runs(chart: Chart) -> RunTable:
    """The runs of a chart, each row taken in its own working direction."""
    return find_runs(chart.grid, chart.leftwards)
