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
from lintarsia.publishing.drawing.shades import mix
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
    symbols = [s for s in chart.grid.symbols if s != NO_STITCH_SYMBOL]
    defs = "".join(_marker(f"{prefix}v{i}", shade_of(chart, s), high) for i, s in enumerate(symbols))
    index = {s: i for i, s in enumerate(symbols)}
    rows = "".join(_row(chart, place, row, index, prefix) for row in range(1, place.rows + 1))
    return document(
        f'<defs>{defs}</defs><g fill="none">{rows}</g>',
        kind="fabric",
        width=place.width,
        height=place.height,
        title=f"{chart.title} as knitted",
        desc=describe(chart),
        prefix=prefix,
        size=size,
    )


def _row(chart: Chart, place: Geometry, row: int, index: dict[str, int], prefix: str) -> str:
    y = place.y(row)
    paths: dict[str, list[str]] = {}
    for symbol, first, count in stretches(chart, row):
        if symbol == NO_STITCH_SYMBOL:
            continue
        steps = "h20" + " 20" * (count - 2) if count > 1 else ""
        paths.setdefault(symbol, []).append(f"M{num(place.x(first + 0.5))} {num(y)}{steps}")
    return "".join(
        f'<path marker-start="url(#{prefix}v{index[s]})" marker-mid="url(#{prefix}v{index[s]})" '
        f'marker-end="url(#{prefix}v{index[s]})" d="{"".join(d)}"/>'
        for s, d in paths.items()
    )


def _marker(name: str, shade: str, high: float) -> str:
    """One knit stitch with its origin in the middle of the cell's upper edge."""
    leg = (
        f"M-9.4 {num(-high * 0.55)}C-10.6 {num(high * 0.1)} -5 {num(high * 0.85)} -.3 {num(high * 1.2)}"
        f"C.6 {num(high * 0.75)} -1 {num(high * 0.45)} -2.6 {num(high * 0.1)}"
        f"C-4.4 {num(-high * 0.3)} -7.6 {num(-high * 0.75)} -9.4 {num(-high * 0.55)}z"
    )
    return (
        f'<marker id="{name}" markerUnits="userSpaceOnUse" markerWidth="{num(CELL)}" markerHeight="{num(high)}" '
        f'overflow="visible" stroke="{mix(shade, "#000000", 0.32)}" stroke-width=".8" fill="{shade}">'
        f'<path d="{leg}"/><path transform="scale(-1 1)" d="{leg}"/></marker>'
    )
