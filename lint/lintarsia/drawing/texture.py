"""Purl stitches in the drawings: a dot in the square of the chart, a bump in the fabric.

A dot for a purl is what printed charts have (common practice); a knit stitch has no sign.
"""

from collections.abc import Mapping

import numpy as np

from lintarsia.chart import Chart
from lintarsia.chart.grid import Grid
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.shades import ink_on
from lintarsia.drawing.svg import num

FIRST = 0xF0000  # where characters begin that no key can have: stand-ins for the purl stitches of each colour
DOT = 0.2  # of a square's height


def textured(chart: Chart) -> tuple[Grid, Mapping[str, str]]:
    """The grid with symbols of their own for stitches that show a purl on the right side, and what these stand for."""
    grid, texture = chart.grid, chart.texture
    if texture is None:
        return grid, {}
    known = len(grid.symbols)
    turned = {chr(FIRST + at): symbol for at, symbol in enumerate(grid.symbols)}
    cells = np.where(texture.purl & (grid.cells >= 0), grid.cells + known, grid.cells)
    symbols = (*grid.symbols, *turned)
    rows = tuple(
        "".join(symbols[code] if code >= known else text for code, text in zip(line[-len(row) :], row, strict=True))
        for line, row in zip(cells.tolist(), grid.rows, strict=True)
    )
    return Grid(rows, symbols, grid.known, cells), turned


def draw_dots(chart: Chart, place: Geometry) -> str:
    """A dot in the corner of every square whose stitch shows a purl, so that the colour's letter stays readable."""
    if chart.texture is None:
        return ""
    by_ink: dict[str, list[str]] = {}
    symbols, cells = chart.grid.symbols, chart.grid.cells
    for row, column in np.argwhere(chart.texture.purl & (cells >= 0)).tolist():
        ink = ink_on(shade_of(chart, symbols[cells[row, column]]))
        x = place.left + (column + 0.82) * place.cell_w
        y = place.y(row + 1) + 0.8 * place.cell_h
        by_ink.setdefault(ink, []).append(f"M{num(x)} {num(y)}h.01")
    wide = num(DOT * place.cell_h)
    dots = [f'<path stroke="{ink}" d="{"".join(way)}"/>' for ink, way in by_ink.items()]
    look = f'class="lx-purl" fill="none" stroke-linecap="round" stroke-width="{wide}"'
    return f"<g {look}>{''.join(dots)}</g>"
