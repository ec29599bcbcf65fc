"""What the rules on the plan share: colours, yarn lengths and runs in the knitter's words and places."""

from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowNumber
from lintarsia.result import Region


class Stretch(NamedTuple):
    """Neighbouring stitches of a row: the knitter's row and first and last stitch, their text and where it stands."""

    row: RowNumber
    stitches: tuple[int, int]
    text: str
    region: Region


def stretch(chart: Chart, row: RowNumber, left: int, right: int) -> Stretch:
    """Columns `left` to `right` (inclusive, from 0) of the knitter's row."""
    first, last = chart.grid.stitch(right), chart.grid.stitch(left)
    return Stretch(row, (first, last), chart.grid.text(row, first, last), chart.places.cells(row, first, last))
