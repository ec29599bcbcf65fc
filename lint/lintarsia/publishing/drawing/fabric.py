"""The knitted fabric: every stitch a plump V in its colour, rows overlapping a little as knitting does."""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, sqrt

from lintarsia.chart import Chart
from lintarsia.grid import Grid
from lintarsia.planning.model import Plan
from lintarsia.publishing.drawing.back import TAIL_ROWS, draw_loose
from lintarsia.publishing.drawing.chart import describe
from lintarsia.publishing.drawing.geometry import geometry
from lintarsia.publishing.drawing.routes import Route, routes
from lintarsia.publishing.drawing.stitches import stitches_of
from lintarsia.publishing.drawing.svg import document, num

TOO_MANY = 40_000  # stitches beyond which a V is smaller than a pixel at any size a page shows


def fabric_svg(
    chart: Chart,
    *,
    back: bool = False,
    plan: Plan | None = None,
    prefix: str = "",
    size: tuple[str, str] | None = None,
    ways: Sequence[Route] | None = None,
) -> str:
    """The fabric as SVG, from the right side or from the `back` (mirrored, as one sees it on turning it over).

    With a `plan` the back shows its floats, carries and hanging ends too. A chart of more than 40,000 stitches is shown
    by every n-th stitch of it, without what hangs at the back. `ways` are the routes of the plan in the bare geometry
    of the chart, where they have been worked out already.
    """
    words = describe(chart)
    thinned = _thinned(chart)
    if thinned is not chart:
        chart, plan = thinned, None
    high = geometry(chart).cell_h
    tails = high * TAIL_ROWS if back and plan else 0.0
    place = geometry(chart, left=3, right=3, top=high * 0.75 + 2, bottom=max(high * 0.4, tails) + 2)
    body = stitches_of(chart, place, back=back, prefix=prefix)
    if back:
        if plan and ways is None:
            ways = routes(chart, plan, geometry(chart))
        loose = draw_loose(chart, ways, place, f"{prefix}back-") if plan and ways is not None else ""
        body = f'<g transform="translate({num(place.width)} 0)scale(-1 1)">{body}{loose}</g>'
    return document(
        body,
        kind="back" if back else "fabric",
        width=place.width,
        height=place.height,
        title=f"{chart.title}, {'wrong side' if back else 'as knitted'}",
        desc=words,
        prefix=prefix,
        size=size,
    )


def _thinned(chart: Chart) -> Chart:
    """The chart itself, or, where it has too many stitches to be seen, every second or third or n-th one of it."""
    grid = chart.grid
    step = ceil(sqrt(grid.cells.size / TOO_MANY))
    if step <= 1:
        return chart
    rows = tuple(text[::-1][::step][::-1] for text in grid.rows[::step])
    cells = grid.cells[::step, ::-1][:, ::step][:, ::-1]
    return replace(chart, grid=Grid(rows, grid.symbols, grid.known, cells), duplicate=())
