"""Duplicate stitch in the flat chart: a cell shared by what is knitted and what is embroidered over it afterwards.

Both symbols stand in it, for a copy in grey has to tell as well which yarn to knit with and which to embroider with.
"""

from collections.abc import Mapping

from lintarsia.chart import Chart
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.shades import ink_on
from lintarsia.drawing.svg import escape, num

LEFT, RIGHT, TOP, WAIST, FOOT = 0.41, 0.95, 0.07, 0.62, 0.96  # of the embroidered V, in widths and heights of a cell
ASIDE = 0.27  # how far to the left, in widths of a cell, the knitted stitch's symbol makes way


def sewn_rows(chart: Chart) -> dict[int, dict[int, str]]:
    """By row: the columns that are embroidered over, each with the symbol of the colour; the later where two meet."""
    rows: dict[int, dict[int, str]] = {}
    for sewn in chart.duplicate:
        first, last = sewn.stitches
        if sewn.colour in chart.colours and 1 <= sewn.row <= chart.grid.height and 1 <= first <= last:
            columns = range(max(0, chart.grid.width - last), chart.grid.width - first + 1)
            rows.setdefault(sewn.row, {}).update(dict.fromkeys(columns, sewn.colour))
    return rows


def draw_sewn(chart: Chart, place: Geometry, cells: Mapping[int, str], top: float, size: float) -> str:
    """The embroidered stitches of one row whose cells have their upper edge at `top` and their letters `size` large;
    column 0 begins at x = 0."""
    columns: dict[str, list[int]] = {}
    for column, symbol in cells.items():
        columns.setdefault(symbol, []).append(column)
    letters = num(top + place.cell_h * 0.42 + size * 0.33)
    drawn = []
    for symbol, own in columns.items():
        shade = chart.colours[symbol].shade
        ink = ink_on(shade)
        path = "".join([_stitch(place, column, top) for column in own])
        drawn.append(f'<path fill="{shade}" stroke="{ink}" d="{path}"/>')
        for column in own:
            x = num((column + (LEFT + RIGHT) / 2) * place.cell_w)
            drawn.append(f'<text fill="{ink}" x="{x}" y="{letters}">{escape(symbol)}</text>')
    look = f'stroke-width="1" stroke-linejoin="round" font-size="{num(size * 0.9)}"'
    return f'<g class="lx-duplicate" {look}>{"".join(drawn)}</g>'


def _stitch(place: Geometry, column: int, top: float) -> str:
    """The outline of a plump V."""
    wide, high = place.cell_w, place.cell_h
    half, waist = num((RIGHT - LEFT) / 2 * wide), num((FOOT - WAIST) * high)
    return (
        f"M{num((column + LEFT) * wide)} {num(top + TOP * high)}h{num((RIGHT - LEFT) * wide)}"
        f"v{num((WAIST - TOP) * high)}l-{half} {waist}-{half}-{waist}z"
    )
