"""The edges of a garment's fabric: a chain where stitches are cast on or bound off, a dark line where a slit runs.

Binding off lays a link of a chain over each stitch, a cast-on has one beneath each (common practice). Stitches that
wait on a holder, and those whose end the file does not say, keep their live loops.
"""

from collections.abc import Iterator

import numpy as np

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.shaping import ChangeKind
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.shades import mix
from lintarsia.drawing.shapemarks import shape_marks, slits
from lintarsia.drawing.svg import num

Link = tuple[str, int, int]  # the colour's symbol, the column, the knitter's row whose upper edge it lies on


def draw_edges(chart: Chart, place: Geometry) -> str:
    """The chains and slits of a chart that is shaped or parted; "" for any other, whose edges are those of a swatch."""
    if not chart.shaping and not chart.divide:
        return ""
    by_shade: dict[str, list[str]] = {}
    for symbol, column, row in _links(chart):
        by_shade.setdefault(shade_of(chart, symbol), []).append(_link(place, column, row))
    chains = "".join(
        f'<path fill="{shade}" stroke="{mix(shade, "#000000", 0.3)}" d="{"".join(way)}"/>'
        for shade, way in by_shade.items()
    )
    return f'<g class="lx-edges" stroke-width=".8">{chains}</g>{_slits(chart, place)}'


def _links(chart: Chart) -> Iterator[Link]:
    """Every link, from the cast-on up. Of a bound-off stitch the colour is that of the stitch beneath, of one cast on
    that of the stitch above."""
    for column, symbol in enumerate(chart.grid.rows[0].rjust(chart.grid.width, NO_STITCH_SYMBOL)):
        if symbol != NO_STITCH_SYMBOL:
            yield symbol, column, 0
    for mark in shape_marks(chart):
        beside = {ChangeKind.BIND_OFF: mark.row - 1, ChangeKind.CAST_ON: mark.row + 1}.get(mark.kind or ChangeKind.HOLD)
        if beside is None or mark.signed or not 1 <= beside <= chart.grid.height:
            continue
        line = chart.grid.rows[beside - 1].rjust(chart.grid.width, NO_STITCH_SYMBOL)
        edge = mark.row - 1 if mark.kind is ChangeKind.BIND_OFF else mark.row
        for column in range(mark.first, mark.last + 1):
            if line[column] != NO_STITCH_SYMBOL:
                yield line[column], column, edge


def _link(place: Geometry, column: int, row: int) -> str:
    """A lens a little wider than the stitch, its point under the next one."""
    wide, high = place.cell_w, place.cell_h * (0.44 if row else 0.36)
    x, y = place.x(column) - wide * 0.14, place.y(row) + place.cell_h * (-0.3 if row else 0.02)
    return (
        f"M{num(x)} {num(y)}c{num(wide * 0.3)} {num(-high)} {num(wide * 0.98)} {num(-high)} {num(wide * 1.28)} 0"
        f"c{num(-wide * 0.3)} {num(high)} {num(-wide * 0.98)} {num(high)} {num(-wide * 1.28)} 0z"
    )


def _slits(chart: Chart, place: Geometry) -> str:
    parted = slits(chart)
    if parted is None:
        return ""
    real = chart.grid.cells >= 0
    real[:, 1:] &= real[:, :-1]
    way = [
        f"M{num(place.x(column))} {num(place.y(row + 1))}v{num(place.cell_h)}"
        for row, column in np.argwhere(parted & real).tolist()
    ]
    drawn = f'<path fill="none" stroke="#000" stroke-opacity=".55" stroke-width="2.6" d="{"".join(way)}"/>'
    return drawn if way else ""
