"""Where the stitches of a chart lie in a drawing: one geometry for all pictures of it.

A cell is `CELL` wide and `CELL` x stitches/rows high, as the knitted stitch is (sources: gauge arithmetic). The y axis
points down, as SVG's does; row 1 is at the bottom; column 0 is at the left.
"""

from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.drawing.svg import num

CELL = 20  # whole and even, so that without margins every edge and middle of a cell has a whole x


def cell_height(chart: Chart) -> float:
    """Height of a cell of width `CELL`. Held between a fifth and five times the width, lest a typing slip in the
    gauge make a drawing that cannot be seen."""
    ratio = chart.gauge.stitches / chart.gauge.rows
    return round(CELL * min(5.0, max(0.2, ratio)), 2)


class Geometry(NamedTuple):
    """Cells of `cell_w` x `cell_h` with margins around them; all in SVG user units.

    A geometry that shows a part of a chart says what is left out: `skip_rows` beneath it, `skip_stitches` at its right.
    Rows and columns count from the part's own corner; only numbers and strong lines take heed of what is left out.
    """

    columns: int
    rows: int
    cell_w: float
    cell_h: float
    left: float = 0.0
    right: float = 0.0
    top: float = 0.0
    bottom: float = 0.0
    skip_rows: int = 0
    skip_stitches: int = 0

    @property
    def width(self) -> float:
        return self.left + self.columns * self.cell_w + self.right

    @property
    def height(self) -> float:
        return self.top + self.rows * self.cell_h + self.bottom

    def x(self, column: float) -> float:
        """The left edge of a column; `x(columns)` is the right edge of the last."""
        return self.left + column * self.cell_w

    def y(self, row: float) -> float:
        """The upper edge of the knitter's row `row`; `y(0)` is the lower edge of row 1."""
        return self.top + (self.rows - row) * self.cell_h

    def middle(self, row: float) -> float:
        """The height at which the stitches of the knitter's row `row` have their middle."""
        return self.y(row) + self.cell_h / 2


def at_corner(place: Geometry) -> str:
    """The attribute that puts what was drawn without margins where `place` has its stitches, for one drawing serves
    every picture of a chart."""
    return f' transform="translate({num(place.left)} {num(place.top)})"' if place.left or place.top else ""


def geometry(chart: Chart, *, left: float = 0, right: float = 0, top: float = 0, bottom: float = 0) -> Geometry:
    """The chart's geometry with the margins asked for."""
    grid = chart.grid
    return Geometry(grid.width, grid.height, CELL, cell_height(chart), left, right, top, bottom)
