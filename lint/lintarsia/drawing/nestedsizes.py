"""One chart with the outlines of several sizes nested on it, as printed patterns show them."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL, build_grid
from lintarsia.drawing.cells import CellPainter
from lintarsia.drawing.geometry import Geometry, geometry
from lintarsia.drawing.key import draw_key, key_lines
from lintarsia.drawing.lines import GUTTER, grid_lines, number_size, row_numbers, side_room
from lintarsia.drawing.shades import INK, MUTED, PAPER
from lintarsia.drawing.svg import FONT, document, escape, num
from lintarsia.pattern.allsizes import AllSizes, InSize
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms

STROKES = ("", "9 4", "2 4", "14 3 2 3", "5 2", "18 5", "1 3", "9 2 2 2 2 2")
"""Dashes of the outlines, the first size's first: told apart without colour, as on a black and white print."""

WIDE = 2.6  # px of an outline; it lies in a casing of paper, so that it shows on dark shades
LINE, ENTRY = 25.0, 168.0
Point = tuple[int, int]  # column and row lines, from the lower left corner


def nested_svg(whole: AllSizes, terms: Terms = Terms.AMERICAN) -> str:
    """The chart once, each size's outline on it, and a legend that says which is whose."""
    chart = whole.chart
    bare = geometry(chart)
    side = side_room(chart, bare, chart.grid.height)
    place = geometry(chart, left=side, right=side, top=8, bottom=number_size(chart, bare) + 10)._replace(
        skip_rows=-whole.rows.start, skip_stitches=whole.columns.stop - chart.grid.width
    )
    painter = CellPainter(chart, place)
    rows = "".join(
        f'<g transform="translate({num(place.left)} {num(place.y(row) + painter.baseline)})">{painter.row(row)}</g>'
        for row in range(place.rows, 0, -1)
    )
    body = (
        f'<rect class="lx-paper" width="100%" height="100%" fill="{PAPER}"/><g class="lx-rows lx-cells" '
        f'font-family="{FONT}" text-anchor="middle" fill="none" font-size="{painter.font_size}" '
        f'stroke-width="{painter.stroke}">{rows}</g>{_lines(whole, place)}{_numbers(whole, place)}'
    )
    body += "".join(_outline(size, place, at) for at, size in reversed(list(enumerate(whole.sizes))))
    legend, wide, high = _legend(whole, place, terms)
    names = ", ".join(size.size for size in whole.sizes)
    return document(
        body + legend,
        kind="nested",
        width=wide,
        height=high,
        title=f"Chart of {chart.title}",
        desc=f"The outlines of {count(len(whole.sizes), 'size')} on one chart: {names}.",
    )


def _lines(whole: AllSizes, place: Geometry) -> str:
    """Those between stitches; the edge of all of them is no outline of a size, and is drawn by its size."""
    return grid_lines(whole.chart, place)


def _numbers(whole: AllSizes, place: Geometry) -> str:
    size = number_size(whole.chart, place)
    asked = range(whole.rows.start + 1, whole.rows.stop + 1)
    y = num(place.y(0) + 4 + size * 0.72)
    texts = [
        f'<text x="{num(place.x(column) + place.cell_w / 2)}" y="{y}">{whole.columns.stop - column}</text>'
        for column in whole.columns
        if (whole.columns.stop - column) % 5 == 0 or column == whole.columns.stop - 1
    ]
    return (
        f'<g class="lx-rim" font-family="{FONT}" fill="{MUTED}" font-size="{num(size)}">'
        f'{row_numbers(whole.chart, place, GUTTER, rows=asked)}<g text-anchor="middle">{"".join(texts)}</g></g>'
    )


def _outline(size: InSize, place: Geometry, at: int) -> str:
    """`at` is the size's place among the sizes."""
    way = "".join(
        "M" + "L".join(f"{num(place.x(column))} {num(place.y(row))}" for column, row in loop) + "Z"
        for loop in loops(size.stitches)
    )
    return (
        f'<g class="lx-size" data-size="{escape(size.size)}" fill="none" stroke-linejoin="round">'
        f'<path stroke="{PAPER}" stroke-width="{WIDE + 2.4:g}" d="{way}"/>{_stroke(way, at)}</g>'
    )


def _stroke(way: str, at: int) -> str:
    dashes = STROKES[at % len(STROKES)]
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<path stroke="{INK}" stroke-width="{WIDE:g}"{dashed} d="{way}"/>'


def loops(stitches: NDArray[np.bool_]) -> Iterator[list[Point]]:
    """The closed ways around stitches, shape (rows, columns) with row 1 first; stitches lie at the left of each way.
    Only corners are named."""
    steps = _steps(stitches)
    while steps:
        start = min(steps)
        way, here = [start], steps[start].pop()
        while here != start:
            way.append(here)
            here = steps[here].pop()
        steps = {point: ends for point, ends in steps.items() if ends}
        around = zip([way[-1], *way[:-1]], way, [*way[1:], way[0]], strict=True)
        yield [point for before, point, after in around if not _straight(before, point, after)]


def _steps(stitches: NDArray[np.bool_]) -> dict[Point, list[Point]]:
    """Every edge between a stitch and none, from its first point to its last."""
    padded = np.pad(stitches, 1)
    steps: dict[Point, list[Point]] = {}
    for row, column in np.argwhere(padded).tolist():
        x, y = column - 1, row - 1
        sides = (
            (padded[row - 1, column], (x, y), (x + 1, y)),
            (padded[row, column + 1], (x + 1, y), (x + 1, y + 1)),
            (padded[row + 1, column], (x + 1, y + 1), (x, y + 1)),
            (padded[row, column - 1], (x, y + 1), (x, y)),
        )
        for beside, first, last in sides:
            if not beside:
                steps.setdefault(first, []).append(last)
    return steps


def _straight(before: Point, here: Point, after: Point) -> bool:
    return before[0] == here[0] == after[0] or before[1] == here[1] == after[1]


def _legend(whole: AllSizes, place: Geometry, terms: Terms) -> tuple[str, float, float]:
    """Title, sizes and key beneath the chart, and the width and height of the drawing with them."""
    chart, size = whole.chart, 17.0
    wide = max(place.width, 16 + size * 0.62 * len(chart.title), ENTRY * 2)
    top = place.height + 10
    body = (
        f'<text class="lx-ink" x="8" y="{num(top + size)}" font-family="{FONT}" font-size="{num(size)}" '
        f'font-weight="700" fill="{INK}">{escape(chart.title)}</text>'
    )
    y = top + size + 12
    word = row_word(chart)
    for at, one in enumerate(whole.sizes):
        middle = y + LINE / 2
        told = f"{one.size}: {one.cast_on} sts, {count(one.rows, word)}"
        body += f'<g fill="none">{_stroke(f"M8 {num(middle)}H64", at)}</g>'
        body += (
            f'<text x="74" y="{num(middle + 5)}" font-family="{FONT}" font-size="14" fill="{INK}">{escape(told)}</text>'
        )
        y += LINE
    room, key = wide - 16, _without_gaps(chart)
    body += draw_key(key, 8, y + 4, room, ENTRY, LINE, terms)
    return body, wide, y + 4 + key_lines(key, room, ENTRY) * LINE + 4


def _without_gaps(chart: Chart) -> Chart:
    """The chart for its key: beyond the outlines there is nothing drawn, so no sign for it is explained."""
    rows = [row.replace(NO_STITCH_SYMBOL, "") for row in chart.grid.rows]
    used = dict.fromkeys("".join(rows) + "".join(patch.colour for patch in chart.duplicate))
    return replace(chart, grid=build_grid(["".join(used)], tuple(chart.colours)))
