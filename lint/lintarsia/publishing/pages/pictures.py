"""The pictures of a chart: those in its page, and those that lie beside it."""

from collections.abc import Sequence
from dataclasses import dataclass

from lintarsia.chart import Chart
from lintarsia.drawing.chart import chart_geometry, chart_svg, overlay_svg
from lintarsia.drawing.cords import mark_scale
from lintarsia.drawing.fabric import both_sides
from lintarsia.drawing.geometry import CELL, geometry
from lintarsia.drawing.layers import LAYERS
from lintarsia.drawing.routes import routes
from lintarsia.drawing.saidmarks import SaidMark, said_layer
from lintarsia.drawing.sheet_pages import sheets
from lintarsia.drawing.sheets import SMALLEST, plan_sheets
from lintarsia.drawing.yarn_paths import yarn_paths_svg
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.resultview import MOST_MARKS
from lintarsia.publishing.pages.said import KINDS, Said, Spot
from lintarsia.result import Result
from lintarsia.telling.languages import phrase
from lintarsia.telling.terms import Terms

PRINTED = (132.0, 175.0)  # mm: the most that the style for printing gives a chart, on A4
PREFIX, BACK_PREFIX = "c-", "b-"  # of ids in the page's own drawings
MOST_LAID_RUNS = 8_000  # above this, yarns are shown in the picture of their own: layers would weigh tens of megabytes
# Stitches of a chart that is drawn into its page whole. Of a larger one the page has the cells: symbols are too small
# to be read until one zooms in, and rulers.js writes those in sight; layers are files that are loaded when asked for.
MOST_IN_A_PAGE = 3_000


@dataclass(frozen=True, slots=True)
class Drawings:
    """The pictures of a chart as SVG text: `chart` and, where it is not "", `back` go into its page; `fabric` is a file
    that the overview shows as well, and `files` are others by their names.

    Where `files` has no `paths.svg`, `chart` shows the paths of the yarns as well, has its symbols, and its layers.
    """

    chart: str
    back: str
    fabric: str
    files: dict[str, str]
    lying: bool  # whether the sheets lie on their side


def draw(
    chart: Chart, plan: Plan, results: Sequence[Result], stamp: str = "", terms: Terms = Terms.AMERICAN,
    said: Sequence[tuple[Said, Spot]] = (),
) -> Drawings:  # fmt: skip
    """Every picture of a chart. `stamp` is what its sheets say of its state, `said` what test knitters have said."""
    bare = geometry(chart)
    ways = routes(chart, plan, bare)
    laid = len(plan.threads.runs) <= MOST_LAID_RUNS
    small = mark_scale(bare) == 1 and chart.grid.width * chart.grid.height <= MOST_IN_A_PAGE
    front, back = both_sides(chart, plan, ways, BACK_PREFIX if small else "")
    files = {}
    if not small:  # larger labels, and too much for a page
        files = {"paths.svg": yarn_paths_svg(chart, plan, ways=ways), "back.svg": back}
        files["chart.svg"] = chart_svg(chart, layers=(), background=True, key=True, terms=terms)
        if laid:
            overlays = {f"{name}.svg": overlay_svg(chart, plan, name, ways) for name in LAYERS if name != "results"}
            files |= {name: drawn for name, drawn in overlays.items() if drawn}
    cut = plan_sheets(chart)
    if len(cut) > 1 or _printed_cell(chart) < min(SMALLEST, cut[0].cell_mm):
        files |= {f"sheet-{number}.svg": page for number, page in enumerate(sheets(chart, stamp=stamp, terms=terms), 1)}
    layers = LAYERS if small else ("results",)
    drawn = chart_svg(
        chart,
        plan=plan,
        results=results[:MOST_MARKS],
        layers=layers,
        prefix=PREFIX,
        ways=ways,
        labels=small,
        whole=not small,
        terms=terms,
        over=said_layer(chart_geometry(chart), [_said_mark(*one) for one in said], PREFIX) if said else "",
    )
    return Drawings(drawn, back if small else "", front, files, lying=cut[0].wide > cut[0].high)


def _said_mark(said: Said, spot: Spot) -> SaidMark:
    return SaidMark(spot.row, spot.stitches, said.state, f"{phrase(KINDS[said.kind])}: {said.words}")


def _printed_cell(chart: Chart) -> float:
    """Width of a cell in mm where the page is printed, with the key beside the chart."""
    place = chart_geometry(chart)
    return CELL * min(PRINTED[0] / place.width, PRINTED[1] / place.height)
