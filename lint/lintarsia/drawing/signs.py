"""What a chart's signs mean besides its colours: the other entries of its key, each with a small drawing.

The page's key, the print sheets and the drawing that stands alone all take their entries from here.
"""

from collections.abc import Iterator
from typing import NamedTuple

from lintarsia.chart import Chart, Worked
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.sewn import ASIDE, draw_sewn, sewn_rows
from lintarsia.drawing.shades import ACCENT, INK, edge_on, ink_on
from lintarsia.drawing.svg import FONT, escape, num

WIDE, HIGH = 24.0, 20.0  # of a sign's drawing


class Sign(NamedTuple):
    """A sign: its drawing in a box of WIDE x HIGH, what it is called, and what more there is to say of it."""

    drawing: str
    name: str
    words: str


def signs(chart: Chart) -> list[Sign]:
    """The signs that a chart has, in the order a knitter meets them."""
    return [*_no_stitch(chart), *_shaping(chart), *_sewn(chart), *_repeat(chart)]


def _no_stitch(chart: Chart) -> Iterator[Sign]:
    if any(NO_STITCH_SYMBOL in row for row in chart.grid.rows):
        stroke = '<path fill="none" stroke="#857b6d" stroke-width="1.3" d="M8.5 13.6l7-7.2"/>'
        yield Sign(stroke, "no stitch", "skipped in counts")


def _shaping(chart: Chart) -> Iterator[Sign]:
    """Triangles beside a cell, as they stand beside the chart."""
    changes = [change for row, change in chart.shaping.items() if 1 <= row <= chart.grid.height]
    sides = [side for change in changes for side in (change.left, change.right) if side]
    cell = f'<path fill="none" stroke="{INK}" d="M8.5 4.5h7v11h-7z"/>'
    more = ", as many as the number says" if any(abs(side) > 1 for side in sides) else ""
    if any(side < 0 for side in sides):
        yield Sign(cell + _triangles("M1 6v8l6-4zM23 6v8l-6-4z"), "decrease", f"at that edge{more}")
    if any(side > 0 for side in sides):
        yield Sign(cell + _triangles("M7 6v8l-6-4zM17 6v8l6-4z"), "increase", f"at that edge{more}")
    if any(change.left is None and change.right is None and change.net for change in changes):
        number = (
            f'<text x="12" y="14.4" text-anchor="middle" font-family="{FONT}" font-size="12" fill="{ACCENT}">±1</text>'
        )
        yield Sign(number, "more or fewer stitches", f"in that {_row(chart)}")


def _triangles(path: str) -> str:
    return f'<path fill="{ACCENT}" d="{path}"/>'


def _sewn(chart: Chart) -> Iterator[Sign]:
    """The first stitch that is embroidered over, as the chart has it."""
    rows = sewn_rows(chart)
    if rows:
        row = min(rows)
        column, symbol = max(rows[row].items())
        knitted = chart.grid.text(row, chart.grid.stitch(column), chart.grid.stitch(column))
        yield Sign(_shared_cell(chart, knitted, symbol), "duplicate stitch", "over what is knitted")


def _shared_cell(chart: Chart, knitted: str, sewn: str) -> str:
    shade, size = shade_of(chart, knitted), 12.0
    return (
        f'<rect x="1" y="1" width="22" height="18" rx="3" fill="{shade}" stroke="{edge_on(shade)}" stroke-width="1.2"/>'
        f'<g text-anchor="middle" font-family="{FONT}" transform="translate(1 1)">'
        f'<text x="{num(22 * (0.5 - ASIDE))}" y="13.3" font-size="{num(size)}" fill="{ink_on(shade)}">'
        f"{escape(knitted)}</text>{draw_sewn(chart, Geometry(1, 1, 22, 18), {0: sewn}, 0, size)}</g>"
    )


def _repeat(chart: Chart) -> Iterator[Sign]:
    if chart.repeat:
        (first, last), (low, high) = chart.repeat.stitches, chart.repeat.rows
        box = (
            f'<rect x="2.5" y="3.5" width="19" height="13" rx="1.5" fill="none" stroke="{ACCENT}" stroke-width="2.4"/>'
        )
        yield Sign(box, "repeat", f"stitches {first}–{last}, {_row(chart)}s {low}–{high}")


def _row(chart: Chart) -> str:
    return "round" if chart.worked is Worked.ROUND else "row"
