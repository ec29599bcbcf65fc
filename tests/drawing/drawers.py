"""Charts that have among them all that a drawing may show, and every kind of drawing that there is."""

from collections.abc import Callable, Mapping
from functools import cache, partial

from drawn import make_chart

from lintarsia.chart import Chart, DuplicateStitch, Repeat, Shaping
from lintarsia.drawing import (
    HOLDERS,
    TECHNIQUES,
    chart_svg,
    fabric_svg,
    holder_svg,
    line_up_svg,
    mark_svg,
    schematic_svg,
    sheets,
    yarn_paths_svg,
)
from lintarsia.drawing.chart import overlay_svg
from lintarsia.drawing.fabric import both_sides
from lintarsia.drawing.geometry import geometry
from lintarsia.drawing.routes import routes
from lintarsia.drawing.schematic import scale_for
from lintarsia.drawing.silhouette import silhouette
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.result import NOWHERE, Level, Result

NECK = """\
lintarsia: 1
title: Front <&> 'so'
gauge: {stitches: 20, rows: 28, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Dusk blue, shade: "#27406b"}
  "7": {name: Moss, shade: "#5b7443"}
shaping:
  3: {right: -3}
  4: {left: {hold: 2}}
  5: {right: 1, left: -1}
  7: {right: {cast-on: 3}}
  11: {neck-right: -1}
divide: {9: {by: bind-off, sides: right-first}}
repeat: {stitches: [5, 7], rows: [2, 4]}
duplicate-stitch: [{colour: B, row: 2, stitches: [6, 8]}, {colour: A, row: 6, stitches: [9, 9]}]
chart: |
  ...AAAA....AAAA
  ...AAAA....AAAA
  ...AAAA...AAAAA
  ...AAAA...BBBAA
  ...AAB7777BBBAA
  ...AAB7777BBBAA
  ...AAB7777BB...
  ...AAB7777BB...
  ...ABBB77BBA...
  ..AABBB77BBA...
  AAABBBB77BBBAAA
  AAABBBBBBBBBAAA
stitches: |
  ...............
  ...............
  ...............
  ...............
  ...............
  ...............
  ...............
  ...............
  ....p..........
  ..gg...........
  ...............
  pkpk...........
"""


@cache
def neck() -> Chart:
    reading = read_chart("front.chart.yaml", NECK.encode())
    assert reading.chart is not None
    return reading.chart


@cache
def charts() -> dict[str, Chart]:
    """Charts that have among them all that a drawing may show."""
    lines = ["B" * 26] * 30
    lines[3:9] = ["BBBWWWWWRRBB" + "B" * 14] * 6
    return {
        "moon": make_chart(repeat=Repeat((2, 5), (3, 9)), duplicate=(DuplicateStitch("W", 2, (2, 4)),)),
        "neck": neck(),
        "round": make_chart("WWBRRW\nWBBBRW\nBBBBBB\nWWWWWW\nRRRRBB", worked="round", technique="stranded"),
        "turned": make_chart("BBWWB\nBWWBB\nBBWWB", worked="turned", technique="mixed"),
        "ragged": make_chart("BBB\nWBBB\n.WWBB\nBBWBB", shaping={2: Shaping(-1)}),
        "tall": make_chart("\n".join(lines), title="A title of very many words " * 5, stitches=18, rows=40),
        "odd": make_chart(
            '7x\n"<\n&7', {"7": ("Seven", "#808080"), '"': ("Quote", "#ffffff"), "<": ("Less", "#000000")}
        ),
    }


RESULTS = tuple(
    Result("area/single-stitch", "key", level, f"row {row} <&>", "a", NOWHERE, row, stitches)
    for level, row, stitches in (
        (Level.ERROR, 1, (1, 2)), (Level.WARNING, 2, (2, 3)), (Level.NOTE, 3, None), (Level.NOTE, None, None),
    )
)  # fmt: skip
Drawer = Callable[[Chart], str]


def planned(draw: Callable[..., str], **more: object) -> Drawer:
    return lambda chart: draw(chart, make_plan(chart), **more)


def laid(chart: Chart) -> str:
    """The chart with all layers shown."""
    every = ("results", "supplies", "floats", "ends")
    return chart_svg(chart, results=RESULTS, plan=make_plan(chart), shown=every, background=True, key=True, labels=True)


def overlay(layer: str) -> Drawer:
    def draw(chart: Chart) -> str:
        plan = make_plan(chart)
        return overlay_svg(chart, plan, layer, routes(chart, plan, geometry(chart)))

    return draw


def backed(chart: Chart) -> str:
    plan = make_plan(chart)
    return both_sides(chart, plan, routes(chart, plan, geometry(chart)), "x")[1]


def outlined(chart: Chart) -> str:
    shapes = [silhouette(chart)]
    return schematic_svg("Front <&>", shapes, scale_for(shapes), background=True)


DRAWERS: Mapping[str, Drawer] = {
    "chart": chart_svg,
    "chart with all layers and its key": laid,
    "thumbnail": lambda chart: chart_svg(chart, whole=True, prefix="t"),
    "fabric": fabric_svg,
    "back": lambda chart: fabric_svg(chart, plan=make_plan(chart), back=True),
    "both sides": backed,
    "paths": planned(yarn_paths_svg),
    "line-up": lambda chart: line_up_svg(chart, make_plan(chart), 2),  # type: ignore[arg-type]
    "supplies": overlay("supplies"),
    "floats": overlay("floats"),
    "ends": overlay("ends"),
    "sheet": lambda chart: sheets(chart, "A4", "version 1 <&>")[-1],
    "schematic": outlined,
}
SMALL: Mapping[str, Callable[[], str]] = {
    "mark": mark_svg,
    "mark without ground": lambda: mark_svg(ground=False, prefix="m"),
    **{name: partial(draw, prefix="g") for name, draw in TECHNIQUES.items()},
    **{f"holder {name}": partial(holder_svg, name, "#d8a23a") for name in HOLDERS},
    "holder on dark": lambda: holder_svg("bobbin", "#101010", prefix="h"),
}
