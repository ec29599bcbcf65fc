"""The knitted fabric: every stitch a plump V in its colour, rows overlapping a little as knitting does.

A stitch is drawn once a colour, as a marker, and set at the vertices of one path a row and colour: about three bytes
a stitch, which keeps a thousand thumbnails small.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from math import ceil, sqrt

from lintarsia.chart import Chart
from lintarsia.grid import NO_STITCH_SYMBOL, Grid
from lintarsia.planning.model import Plan
from lintarsia.publishing.drawing.back import TAIL_ROWS, draw_loose
from lintarsia.publishing.drawing.cells import shade_of, stretches, stretches_of_text
from lintarsia.publishing.drawing.chart import describe
from lintarsia.publishing.drawing.geometry import CELL, Geometry, geometry
from lintarsia.publishing.drawing.routes import Route, routes
from lintarsia.publishing.drawing.shades import luminance, mix
from lintarsia.publishing.drawing.svg import document, num

TOO_MANY = 40_000  # stitches beyond which a V is smaller than a pixel at any size a page shows
MANY_CHANGES = 2_500  # of colour, beyond which each no longer gets its own ground


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
        loose = draw_loose(chart, ways, place) if plan and ways is not None else ""
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


def stitches_of(chart: Chart, place: Geometry, *, back: bool, prefix: str = "") -> str:
    """The stitches alone, without a document around them; the back unmirrored."""
    # Named by what they show, so that two fabrics on one page cannot lend each other the wrong stitch.
    names = {
        symbol: f"{prefix}{'purl' if back else 'knit'}-{shade_of(chart, symbol)[1:]}-{round(place.cell_h * 100)}"
        for symbol in chart.grid.symbols
        if symbol != NO_STITCH_SYMBOL
    }
    stitch = _purl if back else _knit
    stitches = {name: shade_of(chart, symbol) for symbol, name in names.items()}
    defs = "".join(stitch(name, shade, place.cell_h) for name, shade in stitches.items())
    order = range(place.rows, 0, -1) if back else range(1, place.rows + 1)
    rows = "".join(_row(chart, place, row, names) for row in order)
    sewn = "" if back else _duplicates(chart, place, names)
    return f'<defs>{defs}</defs>{_grounds(chart, replace(place, bottom=0.0))}<g fill="none">{rows}{sewn}</g>'


def _row(chart: Chart, place: Geometry, row: int, names: dict[str, str]) -> str:
    """One row's stitches: a path a colour, with a vertex in the middle of each stitch's upper edge."""
    text = chart.grid.rows[row - 1]
    y = num(place.y(row))
    return "".join(
        [
            _set(names[symbol], f"M{num(place.x(first + 0.5))} {y}{steps}")
            for symbol, first, steps in _steps(text, place.columns - len(text))
        ]
    )


@lru_cache(maxsize=256)  # the wrong side has the rows of the right one
def _steps(text: str, offset: int) -> tuple[tuple[str, int, str], ...]:
    """(symbol, column of its first stitch, path from there to all its others) of each symbol in a row."""
    paths: dict[str, list[str]] = {}
    begins: dict[str, int] = {}
    last: dict[str, int] = {}
    for symbol, first, count in stretches_of_text(text, offset):
        if symbol == NO_STITCH_SYMBOL:
            continue
        steps = "h20" + " 20" * (count - 2) if count > 1 else "h0"  # a lone point is no vertex to some renderers
        if symbol in last:
            paths[symbol].append(f"m{(first - last[symbol]) * 20} 0{steps}")
        else:
            begins[symbol], paths[symbol] = first, [steps]
        last[symbol] = first + count - 1
    return tuple((symbol, begins[symbol], "".join(path)) for symbol, path in paths.items())


def _set(name: str, path: str) -> str:
    at = f'"url(#{name})"'
    return f'<path marker-start={at} marker-mid={at} marker-end={at} d="{path}"/>'


@lru_cache(maxsize=1)  # both sides of a fabric have the same, whatever hangs beneath
def _grounds(chart: Chart, place: Geometry) -> str:
    """The dark depth behind the stitches, seen between their legs.

    Each stitch has its own, unless there are so many changes of colour that nobody could tell; then a row has that of
    its commonest colour.
    """
    found = [stretches(chart, row) for row in range(1, place.rows + 1)]
    if sum(map(len, found)) > MANY_CHANGES:
        found = [tuple(_joined(row)) for row in found]
    high = place.cell_h
    edges = [num(place.x(column)) for column in range(place.columns + 1)]
    grounds: dict[str, list[str]] = {}
    for row, parts in enumerate(found, 1):
        top, foot = num(place.y(row) - high * 0.1), num(place.y(row) + high * (0.9 if row > 1 else 0.7))
        for symbol, first, count in parts:
            if symbol != NO_STITCH_SYMBOL:
                left = edges[first]
                grounds.setdefault(symbol, []).append(f"M{left} {top}H{edges[first + count]}V{foot}H{left}z")
    return "".join(
        f'<path fill="{mix(shade_of(chart, s), "#000000", 0.36)}" d="{"".join(d)}"/>' for s, d in grounds.items()
    )


def _joined(parts: Sequence[tuple[str, int, int]]) -> Iterator[tuple[str, int, int]]:
    """Stretches of stitches of whatever colour, under the row's commonest symbol."""
    counts: Counter[str] = Counter()
    for symbol, _, count in parts:
        if symbol != NO_STITCH_SYMBOL:
            counts[symbol] += count
    start, end = -1, -1
    for symbol, first, count in [*parts, (NO_STITCH_SYMBOL, -1, 0)]:
        if symbol == NO_STITCH_SYMBOL:
            if end > start:
                yield max(counts, key=lambda s: (counts[s], s)), start, end - start
            start, end = -1, -1
        else:
            start, end = (first if start < 0 else start), first + count


def _thinned(chart: Chart) -> Chart:
    """The chart itself, or, where it has too many stitches to be seen, every second or third or n-th one of it."""
    grid = chart.grid
    step = ceil(sqrt(grid.cells.size / TOO_MANY))
    if step <= 1:
        return chart
    rows = tuple(text[::-1][::step][::-1] for text in grid.rows[::step])
    cells = grid.cells[::step, ::-1][:, ::step][:, ::-1]
    return replace(chart, grid=Grid(rows, grid.symbols, grid.known, cells), duplicate=())


def _duplicates(chart: Chart, place: Geometry, names: dict[str, str]) -> str:
    """Stitches embroidered over the knitted ones, in the order the file gives them."""
    parts = []
    for sewn in chart.duplicate:
        (first, last), name = sewn.stitches, names.get(sewn.colour)
        if name and 1 <= sewn.row <= place.rows and 1 <= first <= last <= place.columns:
            x, y = place.x(place.columns - last + 0.5), place.y(sewn.row)
            parts.append(_set(name, f"M{num(x)} {num(y)}" + ("h20" * (last - first) or "h0")))
    return "".join(parts)


def _knit(name: str, shade: str, high: float) -> str:
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
        f'overflow="visible" stroke="{mix(shade, "#000000", 0.24)}" stroke-width=".6" fill="{shade}">'
        f'<path d="{leg}"/><path transform="scale(-1 1)" d="{leg}"/>'
        f'<path fill="none" stroke="{light}" stroke-width="1.8" stroke-linecap="round" stroke-opacity=".6" '
        f'd="{gleam}M2.6 {y(28)}C3.6 {y(10)} 4.6 {y(-8)} 5.6 {y(-26)}"/></marker>'
    )


def _purl(name: str, shade: str, high: float) -> str:
    """One stitch from the back: the yarn's wave over the head of the loop and down between the stitches."""

    def y(percent: float) -> str:
        return num(high * percent / 100)

    over = f"M-6 {y(46)}C-5.4 {y(6)} -3.2 {y(-12)} 0 {y(-12)}S5.4 {y(6)} 6 {y(46)}"
    under = f"M-10 {y(88)}C-7.4 {y(88)} -6.4 {y(74)} -6 {y(46)}M6 {y(46)}C6.4 {y(74)} 7.4 {y(88)} 10 {y(88)}"
    light = mix(shade, "#ffffff", 0.26 if luminance(shade) < 0.4 else 0.6)
    dark = mix(shade, "#000000", 0.3)
    gleam = f"M-3.4 {y(-2)}C-2.4 {y(-14)} -1.2 {y(-18)} .6 {y(-18)}"
    return (
        f'<marker id="{name}" markerUnits="userSpaceOnUse" markerWidth="{num(CELL)}" markerHeight="{num(high)}" '
        f'overflow="visible" fill="none" stroke-width="6.4"><path stroke="{dark}" d="{under}"/>'
        f'<path stroke="{mix(shade, "#000000", 0.12)}" stroke-width="5.2" d="{under}"/>'
        f'<g stroke-linecap="round"><path stroke="{dark}" d="{over}"/>'
        f'<path stroke="{shade}" stroke-width="5.2" d="{over}"/>'
        f'<path stroke="{light}" stroke-width="1.6" stroke-opacity=".6" d="{gleam}"/></g></marker>'
    )
