"""What can be laid over the chart. Each layer is one group that a page shows or hides."""

from collections.abc import Collection, Sequence

from lintarsia.chart import Chart
from lintarsia.drawing.chips import chips
from lintarsia.drawing.cords import draw_floats, draw_routes
from lintarsia.drawing.geometry import Geometry, at_corner, geometry
from lintarsia.drawing.marks import draw_ends, draw_gaps
from lintarsia.drawing.routes import Route, routes
from lintarsia.drawing.shades import PAPER
from lintarsia.drawing.svg import escape, num
from lintarsia.planning.model import Plan
from lintarsia.result import Level, Result
from lintarsia.telling.languages import in_english

MOST_TITLED = 100  # marks that say what they mark: the results are told beside a chart as well

LAYERS = ("results", "supplies", "floats", "ends")

# Told apart by shape and dash as well as by colour.
LEVEL_COLOURS = {Level.ERROR: "#b3123b", Level.WARNING: "#a85c00", Level.NOTE: "#1f5f99"}
_DASHES = {Level.ERROR: "", Level.WARNING: ' stroke-dasharray="7 3"', Level.NOTE: ' stroke-dasharray="1.5 3"'}


def draw_layers(
    chart: Chart,
    place: Geometry,
    *,
    results: Sequence[Result],
    plan: Plan | None,
    layers: Collection[str],
    shown: Collection[str],
    prefix: str,
    ways: Sequence[Route] | None = None,
    labels: bool = False,
) -> str:
    """The groups of the layers asked for, in the order they lie on one another.

    `ways` are routes of the plan in the chart's bare geometry, where they have been worked out already.
    """
    drawn, shapes = {}, ""
    if results:
        drawn["results"] = results_layer(place, results, prefix)
    if plan and any(name in layers for name in ("supplies", "floats", "ends")):
        ways = routes(chart, plan, geometry(chart)) if ways is None else ways
        look = f'fill="none" stroke-linecap="round" stroke-linejoin="round"{at_corner(place)}'
        names = f'<g display="none" class="lx-labels">{chips(chart, ways, place, 1.0, prefix)}</g>' if labels else ""
        # Two layers have the ends, so that they are drawn apart from both; laid out where one of them is to be seen.
        unseen = "" if any(name in shown for name in ("supplies", "ends")) else ' display="none"'
        shapes = f'<defs{unseen}><g id="{prefix}ends">{draw_ends(chart, ways, prefix)}</g></defs>'
        ends = f'<use href="#{prefix}ends"/>'
        drawn["supplies"] = f"<g {look}>{draw_routes(chart, ways, prefix)}{ends}</g>{names}"
        loose = draw_floats(chart, ways, prefix)
        drawn["floats"] = f"<g {look}>{loose}</g>" if loose else ""
        drawn["ends"] = f"<g{at_corner(place)}>{draw_gaps(ways, place.cell_h, prefix)}{ends}</g>"
    wanted = [name for name in ("supplies", "floats", "ends", "results") if name in layers and drawn.get(name)]
    return shapes + "".join(layer(name, drawn[name], prefix, shown=name in shown) for name in wanted)


def layer(name: str, drawn: str, prefix: str, *, shown: bool) -> str:
    """A group that is one of the layers. One that is not shown is a `<switch>` of one group (SVG 2, "Conditional
    processing"): what a `<g>` holds browsers style and lay out even where it is not displayed, thousands of elements
    on a chart's page, since others may refer to it.
    """
    look = f'class="lx-layer lx-layer-{name}" id="{prefix}layer-{name}"'
    return f"<g {look}>{drawn}</g>" if shown else f'<switch {look} display="none"><g>{drawn}</g></switch>'


def results_layer(place: Geometry, results: Sequence[Result], prefix: str) -> str:
    """An outline around the stitches of each result that has a row; ids are `{prefix}mark-N` for `results[N]`."""
    parts = []
    titled = len(results) <= MOST_TITLED
    for index, result in enumerate(results):
        if result.row is None or not 1 <= result.row <= place.rows or result.suppressed:
            continue
        first, last = result.stitches or (1, place.columns)
        first, last = max(1, first), min(place.columns, last)
        if first > last:
            continue
        title = f"<title{in_english()}>{escape(result.message)}</title>" if titled else ""
        parts.append(
            f'<g class="lx-mark lx-{result.level}" id="{prefix}mark-{index}" data-row="{result.row}" '
            f'data-first="{first}" data-last="{last}">{title}'
            f"{_outline(place, result.row, first, last, result.level)}</g>"
        )
    return "".join(parts)


def _outline(place: Geometry, row: int, first: int, last: int, level: Level) -> str:
    x, y = place.x(place.columns - last) - 1, place.y(row) - 1
    wide, high = (last - first + 1) * place.cell_w + 2, place.cell_h + 2
    colour = LEVEL_COLOURS[level]
    box = f'x="{num(x)}" y="{num(y)}" width="{num(wide)}" height="{num(high)}" rx="3" fill="none"'
    return (
        f'<rect class="lx-casing" {box} stroke="{PAPER}" stroke-width="5"/>'
        f'<rect {box} stroke="{colour}" stroke-width="2.4"{_DASHES[level]}/>'
        f"{_badge(min(x + wide, place.x(place.columns) - 2), y, level)}"  # clear of the row's number
    )


def _badge(x: float, y: float, level: Level) -> str:
    """A diamond for an error, a triangle for a warning, a disc for a note."""
    colour = LEVEL_COLOURS[level]
    look = f'fill="{colour}" stroke="{PAPER}" stroke-width="1.2"'
    if level is Level.ERROR:
        return f'<path {look} d="M{num(x)} {num(y - 6)}l6 6-6 6-6-6z"/>'
    if level is Level.WARNING:
        return f'<path {look} d="M{num(x)} {num(y - 6)}l6 10.5h-12z"/>'
    return f'<circle {look} cx="{num(x)}" cy="{num(y)}" r="4.6"/>'
