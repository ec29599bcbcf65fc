"""Stitches that end in the middle of a row: several neighbours at once, as only binding off or a holder takes them."""

from collections.abc import Iterator

from lintarsia.chart.openings import Amiss, Columns, gaps_of
from lintarsia.chart.shaping import FEWEST_BOUND_OFF
from lintarsia.rules.base import Work


def parting_told(work: Work, row: int) -> bool:
    """Whether grid/opening says already how the opening that begins in a row and `divide` disagree."""
    return any(row in (fault.row, fault.begins) for fault in work.sides.faults)


def ended_inside(work: Work, row: int) -> int:
    """How many stitches of the row below end in gaps between the stitches of a row."""
    real = work.chart.grid.cells >= 0
    return sum(int(real[row - 2, first:end].sum()) for first, end in gaps_of(real[row - 1])) if row > 1 else 0


def taken_off_inside(work: Work) -> Iterator[tuple[int, Columns]]:
    """(row, columns) of gaps between stitches where that many neighbouring stitches of the row below end, and the
    file says that so many go. Rows that `divide` parts are left out.

    Where nothing says that they go, the count is wrong and the grid may only be drawn badly: grid/stitch-count tells.
    Where `divide` names a row without an opening, the one that begins further up is told there.
    """
    chart = work.chart
    if "." not in work.text or not chart.shaping:
        return
    unopened = [fault.row for fault in work.sides.faults if fault.amiss is Amiss.NO_OPENING]
    real = chart.grid.cells >= 0
    for row, shaping in sorted(chart.shaping.items()):
        if row < 2 or -shaping.net < FEWEST_BOUND_OFF or row in chart.divide or work.sides.opening(row):
            continue
        if any(earlier < row for earlier in unopened):
            continue
        for first, end in gaps_of(real[row - 1]):
            if int(real[row - 2, first:end].sum()) >= FEWEST_BOUND_OFF:
                yield row, (first, end)
