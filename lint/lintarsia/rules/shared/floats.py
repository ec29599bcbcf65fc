"""The floats of a plan: every place where a yarn crosses the back of stitches that it does not work."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from lintarsia.chart import HOUSE_LIMITS, Technique, Worked
from lintarsia.chart.grid import RowNumber
from lintarsia.rules.base import Work


class Float(NamedTuple):
    """`crossed` stitches; runs `tail` to `head` are indices into the plan's runs in working order.

    `row` is the knitter's row that the float ends in, `stitches` those it crosses there (where it crosses none in that
    row, the stitch it ends at); `kind` is in-row, round-seam or between-rows.
    """

    tail: int
    head: int
    crossed: int
    row: RowNumber
    stitches: tuple[int, int]
    kind: str


def floats(work: Work, longer_than: int = 0) -> Iterator[Float]:
    """The floats over more than `longer_than` stitches, in working order.

    In a row: from one run of the supply to its next. Round the seam: the stitches between, along the spiral. Between
    rows (flat and turned, and in rounds after whole rounds without the colour): columns from where the yarn was left to
    where it is next needed, the shorter way about in rounds. A yarn that rests longer than the chart lets a supply wait
    (the house's 2 rows in stranded work, which sets no bound) is taken to be cut and joined anew: no float.
    """
    chart, threads = work.chart, work.plan.threads
    runs, cover = threads.runs, threads.cover
    wait = HOUSE_LIMITS.idle if work.bounds.idle is None else work.bounds.idle
    tails = np.flatnonzero((cover.next >= 0) & (cover.idle <= (wait or 0)))
    heads = cover.next[tails]
    crossed = cover.carried[tails]
    spiral = chart.worked is Worked.ROUND
    width = chart.grid.width
    if spiral:
        apart = np.abs(runs.entry[heads] - runs.exit[tails])
        crossed = np.where(cover.idle[tails] > 0, np.minimum(apart, width - apart), crossed)
    long = crossed > longer_than
    for tail, head, over in zip(tails[long].tolist(), heads[long].tolist(), crossed[long].tolist(), strict=True):
        row, entry, leave = int(runs.row[head]), int(runs.entry[head]), int(runs.exit[tail])
        if cover.same_row[tail]:
            kind, columns = "in-row", (min(entry, leave) + 1, max(entry, leave) - 1)
        elif spiral and cover.idle[tail] == 0:
            kind, columns = "round-seam", (min(entry + 1, width - 1), width - 1)
        else:
            kind, columns = "between-rows", (entry + 1, leave) if leave > entry else (leave, entry - 1)
            if spiral and over < abs(entry - leave):
                columns = (entry, entry)
        stitches = (chart.grid.stitch(columns[1]), chart.grid.stitch(columns[0]))
        yield Float(tail, head, over, RowNumber(row + 1), stitches, kind)


class EdgeFloat(NamedTuple):
    """A float from the last stitch of a colour in a repeat to its first in the next, over `crossed` stitches.

    `stitches` are those it crosses on the side of the box where it crosses more; `colour` is a code of the grid.
    """

    colour: int
    crossed: int
    row: RowNumber
    stitches: tuple[int, int]


def repeat_floats(work: Work, longer_than: int = 0) -> Iterator[EdgeFloat]:
    """The floats over more than `longer_than` stitches that arise when the repeat box is worked again beside itself.

    A colour that stands elsewhere in the row too is left out: there the chart shows what comes next, and the plan has
    that float.
    """
    chart, repeat = work.chart, work.chart.repeat
    if repeat is None or chart.technique is not Technique.STRANDED:
        return
    grid = chart.grid
    left, right = grid.column(repeat.stitches[1]), grid.column(repeat.stitches[0])
    for row in range(repeat.rows[0], repeat.rows[1] + 1):
        line = grid.cells[row - 1]
        box = line[left : right + 1]
        for colour in np.unique(box[box >= 0]).tolist():
            places = np.flatnonzero(line == colour)
            low, high = int(places[0]), int(places[-1])
            if low < left or high > right:
                continue
            before, after = box[: low - left], box[high + 1 - left :]
            crossed = int(np.count_nonzero(before >= 0) + np.count_nonzero(after >= 0))
            if crossed > longer_than:
                columns = (left, low - 1) if len(before) >= len(after) else (high + 1, right)
                yield EdgeFloat(colour, crossed, RowNumber(row), (grid.stitch(columns[1]), grid.stitch(columns[0])))
