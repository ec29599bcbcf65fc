"""What a chart's signs mean besides its colours: the other entries of its key, each with a small drawing.

The page's key, the print sheets and the drawing that stands alone all take their entries from here.
"""

from collections.abc import Iterator
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.shaping import ChangeKind
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.sewn import ASIDE, draw_sewn, sewn_rows
from lintarsia.drawing.shades import ACCENT, INK, NO_STITCH, PAPER, edge_on, ink_on
from lintarsia.drawing.shapemarks import shape_marks
from lintarsia.drawing.shapesigns import hanging_loop, line_sign, link, loop, sign_words
from lintarsia.drawing.svg import FONT, escape, num
from lintarsia.telling.languages import marked, phrase
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms

WIDE, HIGH = 24.0, 20.0  # of a sign's drawing


class Sign(NamedTuple):
    """A sign: its drawing in a box of WIDE x HIGH, what it is called, and what more there is to say of it."""

    drawing: str
    name: str
    words: str


def signs(chart: Chart, terms: Terms = Terms.AMERICAN) -> list[Sign]:
    """The signs that a chart has, in the order a knitter meets them."""
    return [*_no_stitch(chart), *_purl(chart), *_shaping(chart, terms), *_sewn(chart), *_repeat(chart)]


def _no_stitch(chart: Chart) -> Iterator[Sign]:
    if any(NO_STITCH_SYMBOL in row for row in chart.grid.rows):
        yield Sign(_box(""), phrase("no stitch"), phrase("no fabric here, skipped in counts"))


def _purl(chart: Chart) -> Iterator[Sign]:
    if chart.texture is not None:
        dot = f'<path stroke="{INK}" stroke-width="4.4" stroke-linecap="round" d="M18.6 15.4h.01"/>'
        rim = f'<rect x="1" y="1" width="22" height="18" rx="1" fill="{PAPER}" stroke="{INK}" stroke-width=".8"/>'
        said = phrase("shows a purl on the right side: purl it there, knit it from the wrong side")
        yield Sign(rim + dot, phrase("purl"), said)


def _shaping(chart: Chart, terms: Terms) -> Iterator[Sign]:
    """The marks of shaping, at the edge of a bit of fabric as they stand in the chart."""
    marks = shape_marks(chart)
    found = {mark.kind for mark in marks}
    numbered = {mark.kind for mark in marks if abs(mark.signed) > 1}
    for kind, (drawing, words) in _SHAPING.items():
        if kind in found:
            more = phrase(", or as many as the number beside it says") if kind in numbered else ""
            yield Sign(drawing, sign_words(kind, terms), phrase(words) + more)
    if None in found:
        number = (
            f'<text x="12" y="14.4" text-anchor="middle" font-family="{FONT}" font-size="12" fill="{ACCENT}">±1</text>'
        )
        yield Sign(number, phrase("more or fewer stitches"), phrase("in that {word}", row_word(chart)))


def _box(inside: str) -> str:
    """A grey square with something in it."""
    rim = 'rx="1" fill="none" stroke="#8b8175" stroke-width=".8"'
    ground = f'<path class="lx-none" fill="{NO_STITCH}" d="M1 1h22v18h-22z"/>'
    return f'{ground}{inside}<rect x="1" y="1" width="22" height="18" {rim}/>'


def _fabric(area: str, edge: str) -> str:
    """A bit of fabric in such a square, and the edge that it has there."""
    return f'<path fill="{PAPER}" d="{area}"/><path fill="none" stroke="{INK}" stroke-width="1.6" d="{edge}"/>'


def _at_foot(way: str, more: str = "") -> str:
    """A sign over the upper edge of the fabric."""
    return _box(_fabric("M1 13h22v6h-22z", "M1 13h22") + line_sign(way) + more)


def _at_head(way: str) -> str:
    """A sign beneath the lower edge of the fabric."""
    return _box(_fabric("M1 1h22v6h-22z", "M1 7h22") + line_sign(way))


def _at_sides(triangles: str) -> str:
    """Triangles at both sides of the fabric."""
    drawn = f'<path fill="{ACCENT}" d="{triangles}"/>'
    return _box(_fabric("M8.5 1h7v18h-7z", "M8.5 1v18M15.5 1v18") + drawn)


_SHAPING = {
    ChangeKind.BIND_OFF: (
        _at_foot(link(1.4, -1, 10.6, 15) + link(12, -1, 10.6, 15)),
        *marked("one link of the chain a stitch"),
    ),
    ChangeKind.HOLD: (
        _at_foot(loop(1, 0, 11, 13) + loop(12, 0, 11, 13), line_sign("M2.5 7H21.5", 1.9)),
        *marked("one loop a stitch, kept on a holder"),
    ),
    ChangeKind.CAST_ON: (
        _at_head(hanging_loop(1, 7, 11, 12) + hanging_loop(12, 7, 11, 12)),
        *marked("one loop a stitch, beneath the new ones"),
    ),
    ChangeKind.DECREASE: (
        _at_sides("M2.6 6.2v7.6l4.6-3.8zM21.4 6.2v7.6l-4.6-3.8z"),
        *marked("one triangle a stitch, pointing at the fabric"),
    ),
    ChangeKind.INCREASE: (
        _at_sides("M6.8 6.2v7.6l-4.6-3.8zM17.2 6.2v7.6l4.6-3.8z"),
        *marked("one triangle a stitch, pointing away from the fabric"),
    ),
}


def _sewn(chart: Chart) -> Iterator[Sign]:
    """The first stitch that is embroidered over, as the chart has it."""
    rows = sewn_rows(chart)
    if rows:
        row = min(rows)
        column, symbol = max(rows[row].items())
        knitted = chart.grid.text(row, chart.grid.stitch(column), chart.grid.stitch(column))
        yield Sign(_shared_cell(chart, knitted, symbol), phrase("duplicate stitch"), phrase("over what is knitted"))


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
        words = phrase(
            "stitches {first}–{last}, {words} {low}–{high}", row_word(chart), first=first, last=last, low=low, high=high
        )
        yield Sign(box, phrase("repeat"), words)
