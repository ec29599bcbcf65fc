"""Stitches that end in the middle of a row: several neighbours at once, as only binding off or a holder takes them."""

from collections.abc import Iterator

from lintarsia.chart.openings import Amiss, Columns, gaps_of
from lintarsia.chart.shaping import FEWEST_BOUND_OFF
from lintarsia.rules.base import Work


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
