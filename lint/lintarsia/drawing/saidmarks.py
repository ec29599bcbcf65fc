"""The layer of what test knitters said: an outline around the stitches, with a bubble that leads to the words."""

from collections.abc import Iterable
from typing import NamedTuple

from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.layers import layer
from lintarsia.drawing.shades import PAPER
from lintarsia.drawing.svg import escape, num

SHADES = {"warning": "#a85c00", "note": "#1f5f99", "clear": "#3f6b35"}
_SIGNS = {
    "warning": "M0-4.6v5.4M0 3.4v.2",  # !
    "note": "M-2.2-2.6q.3-2.3 2.3-2.3t2.2 2.1q0 1.5-2.2 2.3v1.2M0 3.5v.2",  # ?
    "clear": "M-3 .1l2.2 2.3 3.8-4.6",  # a tick
}


class SaidMark(NamedTuple):
    """Knitter's numbers; `stitches` None for the whole row. `state`: warning (trouble), note (a question), clear."""

    row: int
    stitches: tuple[int, int] | None
    state: str
    title: str


def said_layer(place: Geometry, marks: Iterable[SaidMark], prefix: str) -> str:
    """The layer `lx-layer-said`, not displayed; the mark numbered N links to `#said-N`. "" for none."""
    drawn = [_mark(place, number, mark, prefix) for number, mark in enumerate(marks) if mark.row <= place.rows]
    if not drawn:
        return ""
    return layer("said", "".join(drawn), prefix, shown=False)


def _mark(place: Geometry, number: int, mark: SaidMark, prefix: str) -> str:
    first, last = mark.stitches or (1, place.columns)
    x, y = place.x(place.columns - last) - 1, place.y(mark.row) - 1
    wide, high, shade = (last - first + 1) * place.cell_w + 2, place.cell_h + 2, SHADES[mark.state]
    box = f'x="{num(x)}" y="{num(y)}" width="{num(wide)}" height="{num(high)}" rx="4"'
    return (
        f'<a class="lx-said" href="#said-{number}" id="{prefix}said-{number}" data-said="{number}">'
        f"<title>{escape(mark.title)}</title>"
        f'<rect {box} fill="{shade}" fill-opacity=".18" stroke="{PAPER}" stroke-width="5"/>'
        f'<rect {box} fill="none" stroke="{shade}" stroke-width="2.2" stroke-dasharray="1 4" stroke-linecap="round"/>'
        f'<g transform="translate({num(x + 2)} {num(y)})" fill="none" stroke-linecap="round" stroke-linejoin="round">'
        f'<path d="M-7-8h14v13h-8l-4 4v-4h-2z" fill="{shade}" stroke="{PAPER}" stroke-width="1.4"/>'
        f'<path d="{_SIGNS[mark.state]}" transform="translate(0 -1.4)" stroke="{PAPER}" stroke-width="1.7"/></g></a>'
    )
