"""The picture of the supplies: each one continuous line from its join to its finish."""

from lintarsia.chart import Chart
from lintarsia.grid import NO_STITCH_SYMBOL
from lintarsia.planning.model import Plan
from lintarsia.publishing.drawing.cells import shade_of, stretches
from lintarsia.publishing.drawing.chart import chart_geometry
from lintarsia.publishing.drawing.chips import chips
from lintarsia.publishing.drawing.geometry import Geometry, geometry
from lintarsia.publishing.drawing.lines import number_size, row_number, stitch_numbers
from lintarsia.publishing.drawing.routes import Route, routes
from lintarsia.publishing.drawing.shades import MUTED, PAPER, edge_on, mix
from lintarsia.publishing.drawing.svg import FONT, document, escape, num

CASING, EDGE, CORE = 6.0, 3.9, 2.7  # widths of a worked yarn's strokes


def yarn_paths_svg(chart: Chart, plan: Plan, *, prefix: str = "", labels: bool = True) -> str:
    """Each supply of the plan as a line: a dot where it is joined, a ring where it finishes, thin where it floats.

    Each supply is `<g class="lx-supply" data-supply="A1" data-first-row="1" data-last-row="9">`.
    """
    place = _geometry(chart)
    scale = mark_scale(place)
    ways = routes(chart, plan, place)
    numbers = "".join(
        f'<g transform="translate(0 {num(place.y(r))})">{row_number(chart, place, r, 12)}</g>'
        for r in range(1, place.rows + 1)
        if r % 5 == 0 or r == 1
    )
    body = (
        f'<rect class="lx-sheet" width="100%" height="100%" fill="{PAPER}"/>{_ground(chart, place)}'
        f'<g font-family="{FONT}" fill="{MUTED}" font-size="{num(number_size(place))}">'
        f"{numbers}{stitch_numbers(place, 6)}</g>"
        f'<g class="lx-supplies" fill="none" stroke-linecap="round" stroke-linejoin="round">'
        f"{draw_routes(chart, ways, prefix, scale)}</g>"
        f"{chips(chart, ways, place, scale) if labels else ''}"
    )
    return document(
        body,
        kind="paths",
        width=place.width,
        height=place.height,
        title=f"Yarn paths of {chart.title}",
        desc=_describe(chart, plan),
        prefix=prefix,
    )


def mark_scale(place: Geometry) -> float:
    """How much larger dots and labels are drawn on a wide chart, so that they are still seen when it is shown whole."""
    return min(2.5, max(1.0, max(place.columns / 60, place.rows / 90)))


def _geometry(chart: Chart) -> Geometry:
    """The chart's own, with room at both sides for turns and for rounds that go on."""
    place = chart_geometry(chart)
    return geometry(chart, left=max(place.left, 16), right=place.right, top=10, bottom=place.bottom + 4)


def draw_routes(chart: Chart, ways: list[Route], prefix: str, scale: float = 1.0) -> str:
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


def _ground(chart: Chart, place: Geometry) -> str:
    """The chart's colours, faint, so that one sees where one is."""
    paths: dict[str, list[str]] = {}
    for row in range(1, place.rows + 1):
        y, foot = num(place.y(row)), num(place.y(row - 1))
        for symbol, first, count in stretches(chart, row):
            if symbol != NO_STITCH_SYMBOL:
                left, right = num(place.x(first)), num(place.x(first + count))
                paths.setdefault(symbol, []).append(f"M{left} {y}H{right}V{foot}H{left}z")
    return "".join(f'<path fill="{mix(PAPER, shade_of(chart, s), 0.2)}" d="{"".join(d)}"/>' for s, d in paths.items())


def _describe(chart: Chart, plan: Plan) -> str:
    each = ", ".join(
        f"{chart.colours[s].name if s in chart.colours else s}: {t.supplies}" for s, t in plan.colours.items()
    )
    return f"{plan.totals.supplies} supplies, at most {plan.totals.most_in_a_row} in a row. {each}."
