"""Marks on yarns: a dot where a supply is joined, a ring where it finishes, bows where the fabric is open beside it.

Each is drawn once a colour and then set wherever it belongs, with the class of what it marks.
"""

from collections.abc import Sequence
from functools import lru_cache

from lintarsia.chart import Chart
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.routes import Point, Route
from lintarsia.drawing.shades import ACCENT, PAPER, edge_on
from lintarsia.drawing.svg import num


def draw_ends(chart: Chart, ways: Sequence[Route], prefix: str, *, scale: float = 1.0) -> str:
    """A dot where each supply is joined, a ring where it finishes. Ids begin with `prefix`."""
    numbers = {symbol: n for n, symbol in enumerate(dict.fromkeys([way.supply.colour for way in ways]))}
    shapes = [_dot_and_ring(f"{prefix}j{n}", f"{prefix}e{n}", shade_of(chart, s), scale) for s, n in numbers.items()]
    drawn = []
    for way in ways:
        number = numbers[way.supply.colour]
        dot = _set("join", f"{prefix}j{number}", way.start)
        ring = _set("finish", f"{prefix}e{number}", way.end)
        drawn.append(f'<g data-supply="{way.name}">{dot}{ring}</g>')
    return f"<defs>{''.join(shapes)}</defs>{''.join(drawn)}"


def draw_gaps(ways: Sequence[Route], high: float, prefix: str) -> str:
    """Two bows that turn their backs to each other at each gap: the fabric is open there."""
    drawn = [
        f'<g data-supply="{way.name}">{"".join([_set("gap", f"{prefix}gap", point) for point in way.gaps])}</g>'
        for way in ways
        if way.gaps
    ]
    return f"<defs>{_bows(f'{prefix}gap', high)}</defs>{''.join(drawn)}" if drawn else ""


def _set(kind: str, name: str, point: Point) -> str:
    return f'<use class="lx-{kind}" href="#{name}" x="{num(point[0])}" y="{num(point[1])}"/>'


@lru_cache(maxsize=256)  # a chart has two pictures with ends, and charts share colours
def _dot_and_ring(dot: str, ring: str, shade: str, scale: float) -> str:
    def disc(radius: float, look: str) -> str:
        return f'<circle r="{num(radius * scale)}" {look}/>'

    def stroke(shade: str, width: float) -> str:
        return f'stroke="{shade}" stroke-width="{num(width * scale)}"'

    edge, paper = edge_on(shade), f'fill="{PAPER}"'
    return (
        f'<g id="{dot}">{disc(6.6, paper)}{disc(4.6, f"""fill="{shade}" {stroke(edge, 1.4)}""")}</g>'
        f'<g id="{ring}" {paper}>{disc(6.8, "")}{disc(3.8, stroke(edge, 3))}{disc(3.8, stroke(shade, 1.8))}</g>'
    )


@lru_cache(maxsize=64)  # charts of one gauge have the same
def _bows(name: str, high: float) -> str:
    top, bow, long = num(-high * 0.42), num(high * 0.42), num(high * 0.84)
    bows = f"M-3.4 {top}q3.4 {bow} 0 {long}M3.4 {top}q-3.4 {bow} 0 {long}"
    return (
        f'<g id="{name}" fill="none" stroke-linecap="round"><path stroke="{PAPER}" stroke-width="4" d="{bows}"/>'
        f'<path stroke="{ACCENT}" stroke-width="1.8" d="{bows}"/></g>'
    )
