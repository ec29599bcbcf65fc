"""The knitted fabric: every stitch a plump V in its colour, rows overlapping a little as knitting does.

A stitch is drawn once a colour, as a marker, and set at the vertices of one path a row and colour: about three bytes
a stitch, which keeps a thousand thumbnails small.
"""

from lintarsia.chart import Chart
from lintarsia.grid import NO_STITCH_SYMBOL
from lintarsia.planning.model import Plan
from lintarsia.publishing.drawing.cells import shade_of, stretches
from lintarsia.publishing.drawing.chart import describe
from lintarsia.publishing.drawing.geometry import CELL, Geometry, geometry
from lintarsia.publishing.drawing.shades import luminance, mix
from lintarsia.publishing.drawing.svg import document, num

TOO_MANY = 40_000  # stitches beyond which a V is smaller than a pixel at any size a page shows


def fabric_svg(
    chart: Chart, *, back: bool = False, plan: Plan | None = None, prefix: str = "", size: tuple[str, str] | None = None
) -> str:
    """The fabric as SVG, from the right side or from the `back` (mirrored, as one sees it on turning it over).

    With a `plan` the back shows its floats, carries and hanging ends too.
    """
    high = geometry(chart).cell_h
    place = geometry(chart, left=2, right=2, top=high * 0.75 + 2, bottom=high * 0.35 + 2)
    index = {s: i for i, s in enumerate(s for s in chart.grid.symbols if s != NO_STITCH_SYMBOL)}
    defs = "".join(_marker(f"{prefix}v{i}", shade_of(chart, s), high) for s, i in index.items())
    grounds: dict[str, list[str]] = {}
    rows = "".join(_row(chart, place, row, index, prefix, grounds) for row in range(1, place.rows + 1))
    ground = "".join(
        f'<path fill="{mix(shade_of(chart, s), "#000000", 0.4)}" d="{"".join(d)}"/>' for s, d in grounds.items()
    )
    return document(
        f'<defs>{defs}</defs>{ground}<g fill="none">{rows}</g>',
        kind="fabric",
        width=place.width,
        height=place.height,
        title=f"{chart.title} as knitted",
        desc=describe(chart),
        prefix=prefix,
        size=size,
    )


def _row(
    chart: Chart, place: Geometry, row: int, index: dict[str, int], prefix: str, grounds: dict[str, list[str]]
) -> str:
    """One row's stitches; adds to `grounds` the dark depth behind them."""
    high = place.cell_h
    y = place.y(row)
    top, foot = num(y - high * 0.1), num(y + high * (0.9 if row > 1 else 0.7))
    paths: dict[str, list[str]] = {}
    for symbol, first, count in stretches(chart, row):
        if symbol == NO_STITCH_SYMBOL:
            continue
        left, right = num(place.x(first)), num(place.x(first + count))
        grounds.setdefault(symbol, []).append(f"M{left} {top}H{right}V{foot}H{left}z")
        steps = "h20" + " 20" * (count - 2) if count > 1 else ""
        paths.setdefault(symbol, []).append(f"M{num(place.x(first + 0.5))} {num(y)}{steps}")
    parts = []
    for symbol, path in paths.items():
        at = f'"url(#{prefix}v{index[symbol]})"'
        parts.append(f'<path marker-start={at} marker-mid={at} marker-end={at} d="{"".join(path)}"/>')
    return "".join(parts)


def _marker(name: str, shade: str, high: float) -> str:
    """One knit stitch with its origin in the middle of the cell's upper edge: two plump legs and a gleam on each."""

    def y(percent: float) -> str:
        return num(high * percent / 100)

    leg = (
        f"M-8.9 {y(-58)}C-10.9 {y(-20)} -9 {y(62)} -.1 {y(124)}"
        f"C.4 {y(92)} .2 {y(44)} -1.7 {y(4)}C-3.8 {y(-40)} -7.4 {y(-78)} -8.9 {y(-58)}z"
    )
    gleam = f"M-7.9 {y(-20)}C-7.5 {y(12)} -6 {y(46)} -3.2 {y(74)}"
    light = mix(shade, "#ffffff", 0.26 if luminance(shade) < 0.4 else 0.6)
    return (
        f'<marker id="{name}" markerUnits="userSpaceOnUse" markerWidth="{num(CELL)}" markerHeight="{num(high)}" '
        f'overflow="visible" stroke="{mix(shade, "#000000", 0.3)}" stroke-width=".6" fill="{shade}">'
        f'<path d="{leg}"/><path transform="scale(-1 1)" d="{leg}"/>'
        f'<path fill="none" stroke="{light}" stroke-width="1.8" stroke-linecap="round" stroke-opacity=".6" '
        f'd="{gleam}M2.6 {y(28)}C3.6 {y(10)} 4.6 {y(-8)} 5.6 {y(-26)}"/></marker>'
    )
