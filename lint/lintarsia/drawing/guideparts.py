"""What the small drawings of the guide are made of: a few stitches, yarn over them, arrows, the sheet beneath.

The gold yarn is always the one to look at. Coordinates are in stitches and rows from the lower left of the swatch.
"""

from collections.abc import Callable, Sequence
from typing import Protocol

from lintarsia.chart import Chart, Colour, Gauge
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.drawing.geometry import Geometry, geometry
from lintarsia.drawing.holders import cord
from lintarsia.drawing.shades import ACCENT, PAPER
from lintarsia.drawing.stitches import StitchDrawing
from lintarsia.drawing.svg import document, num

BLUE, OAT, GOLD = "#3a5a8c", "#e9dfc9", "#d8a23a"
_SHADES = {"B": BLUE, "O": OAT, "G": GOLD}
SCALE = 2.0


def swatch(*lines: str) -> Chart:
    """A few stitches, top line first."""
    used = [s for s in _SHADES if any(s in line for line in lines)]
    colours = {s: Colour(s, s, _SHADES[s]) for s in used}
    return Chart("", "", Gauge(22, 30, Length(10, "cm")), colours, build_grid(lines[::-1], used))


def way(at: Geometry, *parts: str | float) -> str:
    """Path data from commands and from pairs of stitch and row, counted from the lower left corner."""
    text, pair = "", list[float]()
    for part in parts:
        if isinstance(part, str):
            text += part
            continue
        pair.append(part)
        if len(pair) == 2:
            text += f"{num(at.x(pair[0]))} {num(at.y(pair[1]))} "
            pair.clear()
    return text.replace(" C", "C").replace(" S", "S").strip()


def cased(path: str, shade: str, width: float) -> str:
    return f'<path stroke="{PAPER}" stroke-width="{num(width + 4.4)}" stroke-linecap="butt" d="{path}"/>' + cord(
        path, shade, width
    )


def arrow(at: Geometry, stitch: float, row: float, turn: float) -> str:
    """An arrow head turned by `turn` degrees from pointing right."""
    where = f'transform="translate({num(at.x(stitch))} {num(at.y(row))})rotate({num(turn)})"'
    head = "M-5-4L0 0L-5 4"
    return (
        f'<path {where} stroke="{PAPER}" stroke-width="5.4" d="{head}"/>'
        f'<path {where} stroke="{ACCENT}" stroke-width="2.4" d="{head}"/>'
    )


class SmallDrawing(Protocol):
    """A small drawing as SVG. `prefix` begins every id in it, so that many can stand on one page."""

    def __call__(self, *, prefix: str = "") -> str: ...


def drawn(
    kind: str, title: str, desc: str, rows: Sequence[str], *, back: bool
) -> Callable[[Callable[[Geometry], str]], SmallDrawing]:
    """Of a function that draws yarns over a swatch, the whole drawing: the sheet, the swatch of `rows` (top line first)
    from its right side or its `back`, the yarns, and what it shows in words."""

    def decorate(over: Callable[[Geometry], str]) -> SmallDrawing:
        def draw(*, prefix: str = "") -> str:
            return _picture(kind, title, desc, swatch(*rows), over, back=back, prefix=prefix)

        draw.__doc__ = over.__doc__
        return draw

    return decorate


def _picture(
    kind: str, title: str, desc: str, swatch: Chart, over: Callable[[Geometry], str], *, back: bool, prefix: str
) -> str:
    place = geometry(swatch, left=14, right=14, top=22, bottom=30)
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    stitches = StitchDrawing(swatch, place).draw(back=back, prefix=f"{prefix}{kind}-")
    return document(
        f'<rect class="lx-sheet" width="100%" height="100%" rx="10" fill="{PAPER}"/>{stitches}'
        f"<g {look}>{over(place)}</g>",
        kind=kind,
        width=place.width,
        height=place.height,
        title=title,
        desc=desc,
        prefix=prefix,
        size=(num(place.width * SCALE), num(place.height * SCALE)),
    )
