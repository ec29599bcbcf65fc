"""The picture of the supplies: each one continuous line from its join to its finish."""

from collections.abc import Sequence
from math import ceil

from lintarsia.chart import Chart
from lintarsia.grid import NO_STITCH_SYMBOL
from lintarsia.planning.model import Plan
from lintarsia.publishing.drawing.cells import shade_of, stretches
from lintarsia.publishing.drawing.chips import chips
from lintarsia.publishing.drawing.cords import draw_routes, mark_scale
from lintarsia.publishing.drawing.geometry import Geometry, at_corner, geometry
from lintarsia.publishing.drawing.lines import number_size, row_number, stitch_numbers
from lintarsia.publishing.drawing.routes import Route, routes
from lintarsia.publishing.drawing.shades import MUTED, PAPER, mix
from lintarsia.publishing.drawing.svg import FONT, document, num


def yarn_paths_svg(
    chart: Chart, plan: Plan, *, prefix: str = "", labels: bool = True, ways: Sequence[Route] | None = None
) -> str:
    """Each supply of the plan as a line: a dot where it is joined, a ring where it finishes, thin where it floats.

    What belongs to a supply is in groups `<g class="lx-supply" data-supply="A1">`: floats, turns, passes, ends, label.
    `ways` are the routes of the plan in the bare geometry of the chart, where they have been worked out already.
    """
    place = _geometry(chart)
    scale = mark_scale(place)
    ways = routes(chart, plan, geometry(chart)) if ways is None else ways
    numbers = "".join(
        f'<g transform="translate(0 {num(place.y(r))})">{row_number(chart, place, r, 12, scale=scale)}</g>'
        for r in range(1, place.rows + 1)
        if r % 5 == 0 or r == 1
    )
    body = (
        f'<rect class="lx-sheet" width="100%" height="100%" fill="{PAPER}"/>{_ground(chart, place)}'
        f'<g font-family="{FONT}" fill="{MUTED}" font-size="{num(number_size(chart, place) * scale)}">'
        f"{numbers}{stitch_numbers(chart, place, 6, scale=scale)}</g>"
        f'<g class="lx-supplies" fill="none" stroke-linecap="round" stroke-linejoin="round"{at_corner(place)}>'
        f"{draw_routes(chart, ways, f'{prefix}paths-', scale)}</g>"
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


def _geometry(chart: Chart) -> Geometry:
    """Room at both sides for turns and for rounds that go on, and for numbers that grow with the chart."""
    bare = geometry(chart)
    size = number_size(chart, bare) * mark_scale(bare)
    side = ceil(22 + len(str(bare.rows)) * size * 0.62)
    left = side if any(not chart.leftward(row) for row in (1, 2)) else 18
    return geometry(chart, left=left, right=side, top=10, bottom=size + 14)


def _ground(chart: Chart, place: Geometry) -> str:
    """The chart's colours, faint, so that one sees where one is."""
    paths: dict[str, list[str]] = {}
    edges = [num(place.x(column)) for column in range(place.columns + 1)]
    for row in range(1, place.rows + 1):
        y, foot = num(place.y(row)), num(place.y(row - 1))
        for symbol, first, count in stretches(chart, row):
            if symbol != NO_STITCH_SYMBOL:
                left = edges[first]
                paths.setdefault(symbol, []).append(f"M{left} {y}H{edges[first + count]}V{foot}H{left}z")
    return "".join(f'<path fill="{mix(PAPER, shade_of(chart, s), 0.2)}" d="{"".join(d)}"/>' for s, d in paths.items())


def _describe(chart: Chart, plan: Plan) -> str:
    each = ", ".join(
        f"{chart.colours[s].name if s in chart.colours else s}: {t.supplies}" for s, t in plan.colours.items()
    )
    return f"{plan.totals.supplies} supplies, at most {plan.totals.most_in_a_row} in a row. {each}."
