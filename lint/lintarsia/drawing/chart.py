"""The chart as a knitter reads it: flat cells with a symbol in each, numbers, lines, and layers laid over it."""

from collections.abc import Collection, Sequence
from functools import lru_cache

from lintarsia.chart import Chart, Side
from lintarsia.drawing.cells import CellPainter, draw_no_stitch, draw_whole
from lintarsia.drawing.geometry import Geometry, geometry
from lintarsia.drawing.key import draw_key, key_lines
from lintarsia.drawing.layers import LAYERS, draw_layers
from lintarsia.drawing.lines import (
    GUTTER,
    beyond_numbers,
    direction_mark,
    grid_lines,
    number_size,
    repeat_box,
    row_numbers,
    shaping_gutter,
    side_room,
    stitch_numbers,
)
from lintarsia.drawing.routes import Route
from lintarsia.drawing.shades import INK, MUTED, PAPER
from lintarsia.drawing.shapemarks import slits
from lintarsia.drawing.shapesigns import draw_shaping
from lintarsia.drawing.svg import FONT, document, escape, num
from lintarsia.drawing.texture import draw_dots
from lintarsia.planning.model import Plan
from lintarsia.result import Result
from lintarsia.telling.languages import marked, phrase, spoken
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms

KEY_ENTRY, KEY_LINE = 168.0, 25.0
LONGEST_TITLE = 80


@lru_cache(maxsize=1)  # a chart's drawing and its page ask one after the other
def chart_geometry(chart: Chart) -> Geometry:
    """The geometry of `chart_svg`, margins included: for scripts and tests that must know where a stitch lies."""
    bare = geometry(chart)
    side = side_room(chart, bare, bare.rows)
    left = side if any(not chart.leftward(r) for r in (1, 2)) else 8 + shaping_gutter(chart)
    return geometry(chart, left=left, right=side, top=8, bottom=number_size(chart, bare) + 10)


def chart_svg(
    chart: Chart,
    *,
    results: Sequence[Result] = (),
    plan: Plan | None = None,
    layers: Collection[str] = LAYERS,
    shown: Collection[str] = (),
    prefix: str = "",
    whole: bool = False,
    background: bool = False,
    key: bool = False,
    ways: Sequence[Route] | None = None,
    labels: bool = False,
    over: str = "",
    terms: Terms = Terms.AMERICAN,
) -> str:
    """The chart as SVG.

    Each row is `<g class="lx-row" id="{prefix}row-14" data-row="14" data-side="WS">` with cells and symbols.
    `layers` names what is laid over it where `results` and `plan` give it ("results", "supplies", "floats", "ends"):
    each of class `lx-layer lx-layer-NAME` and id `{prefix}layer-NAME`, not displayed unless it is in `shown`.
    The root carries the geometry as `data-` attributes: columns, rows, left, top, cell-width, cell-height.
    `background` paints the paper and `key` adds title and key, for a file that stands alone. `ways` are the routes of
    the plan in the bare geometry of the chart, where they have been worked out already. With `labels` the supplies
    have their names beside them in a group of its own, not displayed. `whole` draws all rows in one, without groups and
    without symbols. `over` is SVG that lies over all layers; `terms` are those of the key's words.
    """
    place = chart_geometry(chart)
    painter = CellPainter(chart, place)
    gutter = GUTTER + shaping_gutter(chart)
    cells = draw_whole(chart, place) if whole else _rows(chart, place, painter, prefix)
    beyond = beyond_numbers(chart, place, place.rows, gutter)
    arrows = "".join(direction_mark(chart, place, r, beyond) for r in (1, 2) if r <= place.rows)
    paper = f'<rect class="lx-paper" width="100%" height="100%" fill="{PAPER}"/>' if background else ""
    body = (
        f'{paper}{draw_no_stitch(chart.grid, place)}<g class="lx-rows lx-cells" font-family="{FONT}" '
        f'text-anchor="middle" fill="none" font-size="{painter.font_size}" stroke-width="{painter.stroke}">'
        f"{cells}</g>"
    )
    body += draw_dots(chart, place)
    layered = draw_layers(
        chart, place, results=results, plan=plan, layers=layers, shown=shown, prefix=prefix, ways=ways, labels=labels
    )
    # Numbers lie on top, for loose yarn of rounds reaches past the edge of the cells; a page gives them a rim of paper.
    small = f'<g class="lx-rim" font-family="{FONT}" fill="{MUTED}" font-size="{num(number_size(chart, place))}">'
    body += f"{grid_lines(chart, place, slits(chart))}{repeat_box(chart, place)}{layered}{over}"
    body += f"{small}{row_numbers(chart, place, gutter)}{stitch_numbers(chart, place, 4)}"
    body += f"{draw_shaping(chart, place, terms)}</g>{arrows}"
    wide, high = place.width, place.height
    if key:
        legend, wide, high = _legend(chart, place, terms)
        body += legend
    return document(
        body,
        kind="chart",
        width=wide,
        height=high,
        title=phrase("Chart of {title}", title=chart.title),
        desc=describe(chart),
        prefix=prefix,
        attributes=(
            f' data-columns="{place.columns}" data-rows="{place.rows}" data-left="{num(place.left)}"'
            f' data-top="{num(place.top)}" data-cell-width="{num(place.cell_w)}" data-cell-height="{num(place.cell_h)}"'
        ),
    )


def _rows(chart: Chart, place: Geometry, painter: CellPainter, prefix: str) -> str:
    openings = _row_openings(place, painter.baseline, chart.side(1), chart.side(2), prefix)
    return "".join([f"{openings[row]}{painter.row(row)}</g>" for row in range(place.rows, 0, -1)])


def overlay_svg(chart: Chart, plan: Plan, layer: str, ways: Sequence[Route]) -> str:
    """A layer ("supplies", "floats" or "ends") by itself, to be laid over `chart_svg` of the same chart: "" where there
    is nothing to show. `ways` are the routes of the plan in the bare geometry of the chart."""
    place = chart_geometry(chart)
    drawn = draw_layers(
        chart, place, results=(), plan=plan, layers=(layer,), shown=(layer,), prefix=f"{layer}-", ways=ways
    )
    if f'id="{layer}-layer-{layer}"' not in drawn:
        return ""
    return document(
        drawn, kind="layer", width=place.width, height=place.height, title=f"{chart.title}: {layer}", desc="",
        prefix=f"{layer}-",
    )  # fmt: skip


@lru_cache(maxsize=16)  # charts of one size that are worked alike have the same rows to be filled
def _row_openings(place: Geometry, baseline: float, odd: Side, even: Side, prefix: str) -> list[str]:
    """By row: how its group begins; `odd` and `even` are the sides that face the knitter in such rows."""
    left, sides = num(place.left), (even, odd)
    return [
        f'<g class="lx-row" id="{prefix}row-{row}" data-row="{row}" data-side="{sides[row % 2]}" '
        f'transform="translate({left} {num(place.y(row) + baseline)})">'
        for row in range(place.rows + 1)
    ]


def _legend(chart: Chart, place: Geometry, terms: Terms) -> tuple[str, float, float]:
    """Title and key beneath the chart, and the width and height of the drawing with them."""
    title = chart.title if len(chart.title) <= LONGEST_TITLE else chart.title[: LONGEST_TITLE - 1].rstrip() + "…"
    size = 17.0
    wide = max(place.width, 16 + size * 0.62 * len(title), KEY_ENTRY + 16)
    top = place.height + 10
    words = (
        f'<text class="lx-ink" x="8" y="{num(top + size)}" font-family="{FONT}" font-size="{num(size)}" '
        f'font-weight="700" fill="{INK}">{escape(title)}</text>'
    )
    room = wide - 16
    entries = draw_key(chart, 8, top + size + 12, room, KEY_ENTRY, KEY_LINE, terms)
    high = top + size + 12 + key_lines(chart, room, KEY_ENTRY) * KEY_LINE + 4
    return words + entries, wide, high


def describe(chart: Chart) -> str:
    """A chart in one breath, for those who do not see the drawing."""
    return _described(chart, spoken())


@lru_cache(maxsize=1)  # the pictures of a chart are drawn one after the other
def _described(chart: Chart, language: str) -> str:
    grid = chart.grid
    colours = ", ".join(f"{c.name} ({c.symbol})" for c in chart.colours.values())
    size = phrase("{wide} stitches by {high} {words}", row_word(chart), wide=grid.width, high=grid.height)
    technique, worked = phrase(chart.technique), phrase(f"worked {chart.worked}")
    return f"{size}, {technique}, {worked}. {phrase('Colours: {colours}.', colours=colours)}"


WORKED = marked("worked flat", "worked round", "worked turned")
