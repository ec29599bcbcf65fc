"""The picture of the supplies: each one continuous line from its join to its finish."""

from collections.abc import Sequence
from math import ceil

from lintarsia.chart import Chart
from lintarsia.drawing.chips import chips
from lintarsia.drawing.cords import draw_routes, mark_scale
from lintarsia.drawing.geometry import Geometry, at_corner, geometry
from lintarsia.drawing.ground import draw_ground
from lintarsia.drawing.lines import number_size, row_numbers, stitch_numbers
from lintarsia.drawing.marks import draw_ends
from lintarsia.drawing.routes import Route, routes
from lintarsia.drawing.shades import MUTED, PAPER, mix
from lintarsia.drawing.svg import FONT, document, num
from lintarsia.planning.model import Plan
from lintarsia.telling.languages import phrase


def yarn_paths_svg(
    chart: Chart, plan: Plan, *, prefix: str = "", labels: bool = True, ways: Sequence[Route] | None = None
) -> str:
    """Each supply of the plan as a line: a dot where it is joined, a ring where it finishes, thin where it floats.

    What belongs to a supply is in elements with `data-supply="A1"`: floats, turns, passes, ends, label.
    `ways` are the routes of the plan in the bare geometry of the chart, where they have been worked out already.
    """
    place = _geometry(chart)
    scale = mark_scale(place)
    ways = routes(chart, plan, geometry(chart)) if ways is None else ways
    name = f"{prefix}y"  # of what several elements share
    numbers = row_numbers(chart, place, 12, scale=scale, rows=[1, *range(5, place.rows + 1, 5)])
    body = (
        f'<rect class="lx-sheet" width="100%" height="100%" fill="{PAPER}"/>{draw_ground(chart, place, _faint)}'
        f'<g font-family="{FONT}" fill="{MUTED}" font-size="{num(number_size(chart, place) * scale)}">'
        f"{numbers}{stitch_numbers(chart, place, 6, scale=scale)}</g>"
        f'<g fill="none" stroke-linecap="round" stroke-linejoin="round"{at_corner(place)}>'
        f"{draw_routes(chart, ways, name)}{draw_ends(chart, ways, name, scale=scale)}</g>"
        f"{chips(chart, ways, place, scale, name) if labels else ''}"
    )
    return document(
        body,
        kind="paths",
        width=place.width,
        height=place.height,
        title=phrase("Yarn paths of {title}", title=chart.title),
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


def _faint(shade: str) -> str:
    """Enough of a colour to see where one is."""
    return mix(PAPER, shade, 0.2)


def _describe(chart: Chart, plan: Plan) -> str:
    each = ", ".join(
        f"{chart.colours[s].name if s in chart.colours else s}: {t.supplies}" for s, t in plan.colours.items()
    )
    totals = plan.totals
    said = phrase("{n} supplies, at most {most} in a row.", n=totals.supplies, most=totals.most_in_a_row)
    return f"{said} {each}."
