"""The knitted fabric: every stitch a plump V in its colour, rows overlapping a little as knitting does."""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, sqrt

from lintarsia.chart import Chart
from lintarsia.chart.grid import Grid
from lintarsia.chart.texture import build_texture
from lintarsia.drawing.back import TAIL_ROWS, draw_loose
from lintarsia.drawing.chart import describe
from lintarsia.drawing.fabricedges import draw_edges
from lintarsia.drawing.geometry import cell_height, geometry
from lintarsia.drawing.routes import Route, routes
from lintarsia.drawing.stitches import StitchDrawing
from lintarsia.drawing.svg import document, num
from lintarsia.planning.model import Plan
from lintarsia.telling.languages import phrase, phrase_of

ABOVE, BELOW, RIM = 0.75, 0.4, 2  # room for stitches beyond the outermost rows, in rows; beyond that, in units
TOO_MANY = 40_000  # stitches beyond which a V is smaller than a pixel at any size a page shows


class Fabric:
    """What the two sides of a chart's fabric share."""

    def __init__(self, chart: Chart) -> None:
        self.words = describe(chart)
        self.chart = _thinned(chart)
        self.whole = self.chart is chart
        self.bare = geometry(self.chart)
        high = self.bare.cell_h
        self.place = self.bare._replace(left=3, right=3, top=high * ABOVE + RIM, bottom=high * BELOW + RIM)
        self.stitches = StitchDrawing(self.chart, self.place)


def joint(chart: Chart) -> int:
    """By how many units the pictures of two pieces overlap, where one is knitted on from the other."""
    return round((ABOVE + BELOW) * cell_height(chart) + 2 * RIM)


def fabric_svg(
    chart: Chart,
    *,
    back: bool = False,
    plan: Plan | None = None,
    prefix: str = "",
    size: tuple[str, str] | None = None,
    ways: Sequence[Route] | None = None,
    shared: Fabric | None = None,
) -> str:
    """The fabric as SVG, from the right side or from the `back` (mirrored, as one sees it on turning it over).

    With a `plan` the back shows its floats, carries and hanging ends too. A chart of more than 40,000 stitches is shown
    by every n-th stitch of it, without what hangs at the back. `ways` are the routes of the plan in the bare geometry
    of the chart, and `shared` is the chart's `Fabric`, where they have been worked out already.
    """
    fabric = shared or Fabric(chart)
    chart, place = fabric.chart, fabric.place
    body = fabric.stitches.draw(back=back, prefix=prefix) + (draw_edges(chart, place) if fabric.whole else "")
    if back:
        loose = ""
        if plan and fabric.whole:
            place = place._replace(bottom=max(place.bottom, place.cell_h * TAIL_ROWS + 2))
            ways = routes(chart, plan, fabric.bare) if ways is None else ways
            loose = draw_loose(chart, ways, place, f"{prefix}back-")
        body = f'<g transform="translate({num(place.width)} 0)scale(-1 1)">{body}{loose}</g>'
    return document(
        body,
        kind="back" if back else "fabric",
        width=place.width,
        height=place.height,
        title=f"{chart.title}, {phrase_of('of the fabric', 'wrong side') if back else phrase('as knitted')}",
        desc=fabric.words,
        prefix=prefix,
        size=size,
    )


def both_sides(chart: Chart, plan: Plan, ways: Sequence[Route], prefix: str = "") -> tuple[str, str]:
    """The right side of the fabric and its back; ids of the back begin with `prefix`."""
    shared = Fabric(chart)
    back = fabric_svg(chart, back=True, plan=plan, prefix=prefix, ways=ways, shared=shared)
    return fabric_svg(chart, shared=shared), back


def _thinned(chart: Chart) -> Chart:
    """The chart itself, or, where it has too many stitches to be seen, every second or third or n-th one of it."""
    grid = chart.grid
    step = ceil(sqrt(grid.cells.size / TOO_MANY))
    if step <= 1:
        return chart
    rows = tuple(text[::-1][::step][::-1] for text in grid.rows[::step])
    cells = grid.cells[::step, ::-1][:, ::step][:, ::-1]
    texture = None
    if chart.texture is not None:  # garter stitch keeps its ridges: what is left are rows in turn, as any other
        layer = tuple(line[::-1][::step][::-1] for line in chart.texture.rows[::step])
        texture = build_texture(layer, chart.garter_purls[: len(layer)])
    return replace(chart, grid=Grid(rows, grid.symbols, grid.known, cells), texture=texture, duplicate=())
