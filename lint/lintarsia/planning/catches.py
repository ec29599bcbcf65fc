"""Catches: where a float that is too long to lie loose is trapped behind the stitches it passes.

A float that crosses more stitches than the limit is caught as often as is needed for no part to be longer than the
limit, at even distances (common practice; where exactly is left to the knitter). A catch falls between two stitches.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowIndex
from lintarsia.planning.threads import Threads


class Catch(NamedTuple):
    """A catch of the float that leaves `run`, in array row `row`, between columns `left` and `right`."""

    run: int
    row: RowIndex
    left: int
    right: int


def catches(chart: Chart, threads: Threads, most: int) -> Iterator[Catch]:
    """Every catch that floats inside a row need, in the order worked; `most` stitches may be crossed without one."""
    runs, cover = threads.runs, threads.cover
    for run in np.flatnonzero(cover.same_row & (cover.carried > most)).tolist():
        row, length = RowIndex(int(runs.row[run])), int(cover.carried[run])
        crossed = _crossed(chart, row, int(runs.exit[run]), int(runs.entry[cover.next[run]]))
        times = -(-length // max(most, 1)) - 1
        for k in range(1, times + 1):
            at = round(k * length / (times + 1))
            left, right = sorted((crossed[at - 1], crossed[at]))
            yield Catch(run, row, left, right)


def _crossed(chart: Chart, row: RowIndex, leave: int, enter: int) -> list[int]:
    """The columns of the real stitches strictly between two columns, in the order they are passed."""
    step = 1 if enter > leave else -1
    return [column for column in range(leave + step, enter, step) if chart.grid.cells[row, column] >= 0]
