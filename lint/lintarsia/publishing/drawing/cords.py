"""Routes drawn as yarn: a casing that makes crossings read, an edge that is seen on paper, the yarn's own shade."""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.publishing.drawing.cells import shade_of
from lintarsia.publishing.drawing.geometry import Geometry
from lintarsia.publishing.drawing.routes import Point, Route
from lintarsia.publishing.drawing.shades import ACCENT, PAPER, edge_on
from lintarsia.publishing.drawing.svg import escape, num

CASING, EDGE, CORE = 6.0, 3.9, 2.7  # widths of a worked yarn's strokes


def mark_scale(place: Geometry) -> float:
    """How much larger dots and labels are drawn on a wide chart, so that they are still seen when it is shown whole."""
    return min(2.5, max(1.0, max(place.columns / 60, place.rows / 90)))


def draw_routes(chart: Chart, ways: Sequence[Route], prefix: str, scale: float = 1.0) -> str:
    """Floats beneath, then turns, then passes, each over its own casing; joins and finishes on top."""
    floats, turns, passes, ends = [], [], [], []
    for number, way in enumerate(ways):
        shade = shade_of(chart, way.supply.colour)
        edge = edge_on(shade)
        group = f'<g class="lx-supply" data-supply="{escape(way.supply.id)}">'
        if way.floats:
            floats.append(f"{group}{_cord(f'{prefix}float-{number}', way.floats, shade, edge, 0.55)}</g>")
        if way.turns:
            turns.append(f"{group}{_cord(f'{prefix}turn-{number}', way.turns, shade, edge)}</g>")
        passes.append(f"{group}{_cord(f'{prefix}pass-{number}', way.passes, shade, edge)}</g>")
        ends.append(f"{group}{_ends(way, shade, edge, scale)}</g>")
    return "".join(floats + turns + passes + ends)


def _cord(name: str, path: str, shade: str, edge: str, share: float = 1.0) -> str:
    """A yarn as a line: a casing in the paper's colour, an edge that is seen on paper, the yarn's own shade."""
    use = f'<use href="#{name}" stroke'
    return (
        f'<defs><path id="{name}" d="{path}"/></defs>'
        f'{use}="{PAPER}" stroke-width="{num(CASING * share)}" stroke-linecap="butt" class="lx-sheet-line"/>'
        f'{use}="{edge}" stroke-width="{num(EDGE * share)}" stroke-linecap="butt"/>'
        f'{use}="{shade}" stroke-width="{num(CORE * share)}"/>'
    )


def _ends(way: Route, shade: str, edge: str, scale: float) -> str:
    """A dot where the supply is joined, a ring where it finishes."""

    def disc(point: tuple[float, float], radius: float, fill: str, stroke: str, width: float) -> str:
        x, y = num(point[0]), num(point[1])
        look = f'fill="{fill}" stroke="{stroke}" stroke-width="{num(width * scale)}"'
        return f'<circle cx="{x}" cy="{y}" r="{num(radius * scale)}" {look}/>'

    dot = disc(way.start, 4.6, shade, PAPER, 4) + disc(way.start, 4.6, shade, edge, 1.4)
    ring = (
        disc(way.end, 3.8, PAPER, PAPER, 6) + disc(way.end, 3.8, PAPER, edge, 3) + disc(way.end, 3.8, PAPER, shade, 1.8)
    )
    return f'<g class="lx-join">{dot}</g><g class="lx-finish">{ring}</g>'


def draw_floats(chart: Chart, ways: Sequence[Route], prefix: str) -> str:
    """Only what lies loose at the back: floats and carries."""
    parts = []
    for number, way in enumerate(ways):
        if way.floats or way.carries:
            shade = shade_of(chart, way.supply.colour)
            cord = _cord(f"{prefix}loose-{number}", way.floats + way.carries, shade, edge_on(shade), 0.8)
            parts.append(f'<g class="lx-supply" data-supply="{escape(way.supply.id)}">{cord}</g>')
    return "".join(parts)


def draw_ends(chart: Chart, ways: Sequence[Route], place: Geometry) -> str:
    """Joins, finishes and the gaps beside them that weaving in will have to close."""
    parts = []
    for way in ways:
        shade = shade_of(chart, way.supply.colour)
        marks = "".join(_gap(point, place.cell_h) for point in way.gaps) + _ends(way, shade, edge_on(shade), 1.0)
        parts.append(f'<g class="lx-supply" data-supply="{escape(way.supply.id)}">{marks}</g>')
    return "".join(parts)


def _gap(point: Point, high: float) -> str:
    """Two bows that turn their backs to each other: the fabric is open here."""
    x, y = point
    bows = f"M{num(x - 3.4)} {num(y - high * 0.42)}q3.4 {num(high * 0.42)} 0 {num(high * 0.84)}"
    bows += f"M{num(x + 3.4)} {num(y - high * 0.42)}q-3.4 {num(high * 0.42)} 0 {num(high * 0.84)}"
    return (
        f'<g class="lx-gap" fill="none" stroke-linecap="round"><path stroke="{PAPER}" stroke-width="4" d="{bows}"/>'
        f'<path stroke="{ACCENT}" stroke-width="1.8" d="{bows}"/></g>'
    )
