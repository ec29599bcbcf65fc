"""What surrounds and divides the cells: lines, numbers, the repeat box."""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import ceil

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart, Worked
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.shades import ACCENT, INK, PAPER
from lintarsia.drawing.shapemarks import shape_marks
from lintarsia.drawing.svg import num
from lintarsia.telling.languages import phrase

GUTTER = 5.0  # between the cells and the numbers beside them
Spans = list[tuple[int, int]]
Flags = NDArray[np.bool_]


def _spans(flags: Flags) -> Spans:
    """(first, last + 1) of each stretch of true values."""
    padded = np.concatenate(([False], flags, [False]))
    ends = np.flatnonzero(padded[1:] != padded[:-1])
    return [(int(a), int(b)) for a, b in ends.reshape(-1, 2)]


def _between(real: Flags) -> Iterator[tuple[Spans, Spans]]:
    """For the line before each first-axis slice, and for the one after the last: where it has stitches on both sides,
    and where on one only."""
    many, length = real.shape
    if real.all():
        whole = [(0, length)]
        yield [], whole
        yield from ((whole, []) for _ in range(many - 1))
        yield [], whole
        return
    padded = np.zeros((many + 2, length), bool)
    padded[1:-1] = real
    for before, after in pairwise(padded):
        yield _spans(before & after), _spans(before ^ after)


def grid_lines(chart: Chart, place: Geometry, parted: Flags | None = None) -> str:
    """Lines between stitches and rows; every fifth and tenth stronger, counted from row 1 and stitch 1.

    A strong line is an ink line in a paper-coloured casing, so that it shows on a dark shade as well as on a light one.
    Where there is no stitch on either side of a line there is no line. The outline of the fabric goes along slits too:
    `parted` says at the left of which squares one runs, those of the grid.
    """
    real = chart.grid.cells >= 0  # an index into the key; NO_STITCH and MISSING are negative
    return _whole_lines(place) if parted is None and real.all() else _lines(real, place, parted)


@lru_cache(maxsize=16)  # charts of one size that lack no stitch have the same lines
def _whole_lines(place: Geometry) -> str:
    return _lines(np.ones((place.rows, place.columns), bool), place)


def _lines(real: Flags, place: Geometry, parted: Flags | None = None) -> str:
    xs = [num(place.x(column)) for column in range(place.columns + 1)]
    ys = [num(place.y(row)) for row in range(place.rows + 1)]
    groups: dict[int, list[str]] = {1: [], 5: [], 10: []}
    outline: list[str] = []
    for column, (inside, rim) in enumerate(_between(real.T)):
        x, weight = xs[column], _weight(place.columns - column + place.skip_stitches)
        groups[weight] += [f"M{x} {ys[a]}V{ys[b]}" for a, b in inside]
        outline += [f"M{x} {ys[a]}V{ys[b]}" for a, b in rim]
        if parted is not None and 0 < column < place.columns:
            slit = _spans(parted[:, column] & real[:, column] & real[:, column - 1])
            outline += [f"M{x} {ys[a]}V{ys[b]}" for a, b in slit]
    for row, (inside, rim) in enumerate(_between(real)):
        y, weight = ys[row], _weight(row + place.skip_rows)
        groups[weight] += [f"M{xs[a]} {y}H{xs[b]}" for a, b in inside]
        outline += [f"M{xs[a]} {y}H{xs[b]}" for a, b in rim]
    fine, fives, tens, edge = ("".join(part) for part in (groups[1], groups[5], groups[10], outline))
    return (
        '<g class="lx-lines" fill="none" stroke-linecap="square">'
        f'<path class="lx-line" stroke="#8b8175" stroke-width=".5" stroke-opacity=".7" d="{fine}"/>'
        f'<path class="lx-casing" stroke="{PAPER}" stroke-width="1.7" stroke-opacity=".75" d="{fives}"/>'
        f'<path class="lx-casing" stroke="{PAPER}" stroke-width="2.5" d="{tens}{edge}"/>'
        f'<path class="lx-line5" stroke="{INK}" stroke-width=".7" stroke-opacity=".75" d="{fives}"/>'
        f'<path class="lx-line10" stroke="{INK}" stroke-width="1.1" d="{tens}"/>'
        f'<path class="lx-outline" stroke="{INK}" stroke-width="1.6" d="{edge}"/></g>'
    )


def _weight(count: int) -> int:
    if count % 10 == 0:
        return 10
    return 5 if count % 5 == 0 else 1


def number_size(chart: Chart, place: Geometry) -> float:
    """Size of the numbers: larger where rows are numbered at both sides in turn, since every other row is free then."""
    room = place.cell_h if chart.worked is Worked.ROUND else place.cell_h * 1.5
    return min(12.5, room * 0.8)


def shaping_gutter(chart: Chart) -> float:
    """Room beside the cells for marks of shaping that stand outside the grid, in user units."""
    return 20.0 if any(mark.first < 0 or mark.last >= chart.grid.width for mark in shape_marks(chart)) else 0.0


def side_room(chart: Chart, place: Geometry, rows: int) -> int:
    """Room beside the cells for shaping marks, numbers up to `rows` and an arrow; whole, so that every x is short."""
    return ceil(GUTTER + len(str(rows)) * number_size(chart, place) * 0.6 + 16) + round(shaping_gutter(chart))


def beyond_numbers(chart: Chart, place: Geometry, rows: int, gutter: float) -> float:
    """How far from the cells an arrow stands clear of numbers up to `rows` that begin `gutter` away."""
    return gutter + len(str(rows)) * number_size(chart, place) * 0.6 + 4


def row_numbers(
    chart: Chart, place: Geometry, gutter: float, *, scale: float = 1.0, rows: Iterable[int] | None = None
) -> str:
    """Numbers of rows, of all or those asked for, each on the side where its row begins and `gutter` away from it."""
    drop = number_size(chart, place) * scale * 0.36
    asked = range(1, place.rows + 1) if rows is None else tuple(rows)
    return _row_numbers(place, asked, (chart.leftward(2), chart.leftward(1)), gutter, drop)


@lru_cache(maxsize=16)  # charts of one size that are worked alike have the same numbers
def _row_numbers(
    place: Geometry, rows: Sequence[int], at_right: tuple[bool, bool], gutter: float, drop: float
) -> str:  # fmt: skip
    """`at_right`: whether even numbers, and whether odd ones, stand at the right."""
    sides: dict[bool, list[str]] = {True: [], False: []}
    for row in rows:
        number = row + place.skip_rows
        strong = ' font-weight="700"' if number % 10 == 0 else ""
        sides[at_right[number % 2]].append(f'<text y="{num(place.middle(row) + drop)}"{strong}>{number}</text>')
    groups = []
    for right, texts in sides.items():
        x, anchor = (place.x(place.columns) + gutter, "start") if right else (place.x(0) - gutter, "end")
        if texts:
            groups.append(f'<g text-anchor="{anchor}" transform="translate({num(x)} 0)">{"".join(texts)}</g>')
    return f'<g class="lx-number lx-row-numbers" data-part="row-numbers">{"".join(groups)}</g>'


def direction_mark(chart: Chart, place: Geometry, row: int, beyond: float) -> str:
    """A small arrow beyond a row's number: which way the row is worked. Drawn at the first two rows only."""
    return _arrow(place, row, chart.leftward(row + place.skip_rows), beyond)


@lru_cache(maxsize=32)  # two a chart, and the same in charts of one size
def _arrow(place: Geometry, row: int, right: bool, beyond: float) -> str:
    x = place.x(place.columns) + beyond if right else place.x(0) - beyond
    way = -1 if right else 1
    y = place.middle(row)
    head = 3.0
    start = x + (8 if right else -8)
    return (
        f'<path class="lx-way" fill="none" stroke="{ACCENT}" stroke-width="1.3" stroke-linecap="round" '
        f'stroke-linejoin="round" d="M{num(start)} {num(y)}H{num(x)}m{num(-way * head)} {num(-head)}'
        f'l{num(way * head)} {num(head)} {num(-way * head)} {num(head)}"/>'
    )


def stitch_numbers(chart: Chart, place: Geometry, drop: float, *, scale: float = 1.0) -> str:
    """Numbers of stitches beneath the lowest row, from the right: 1, then every fifth."""
    return _stitch_numbers(place, drop, number_size(chart, place) * scale)


@lru_cache(maxsize=16)
def _stitch_numbers(place: Geometry, drop: float, size: float) -> str:
    y = num(place.y(0) + drop + size * 0.72)
    texts = []
    for stitch in range(place.skip_stitches + 1, place.skip_stitches + place.columns + 1):
        if stitch == 1 or stitch % 5 == 0:
            strong = ' font-weight="700"' if stitch % 10 == 0 else ""
            x = num(place.x(place.columns - (stitch - place.skip_stitches) + 0.5))
            texts.append(f'<text x="{x}" y="{y}"{strong}>{stitch}</text>')
    return f'<g class="lx-number lx-stitch-numbers" text-anchor="middle">{"".join(texts)}</g>'


def repeat_box(chart: Chart, place: Geometry) -> str:
    """The stitches and rows that are worked again and again, boxed."""
    if not chart.repeat:
        return ""
    (first, last), (low, high) = chart.repeat.stitches, chart.repeat.rows
    x, y = place.x(place.columns - last), place.y(high)
    box = (
        f'x="{num(x)}" y="{num(y)}" width="{num((last - first + 1) * place.cell_w)}" '
        f'height="{num((high - low + 1) * place.cell_h)}" rx="2" fill="none"'
    )
    said = phrase(
        "repeat: stitches {first} to {last}, rows {low} to {high}", first=first, last=last, low=low, high=high
    )
    return (
        f'<g class="lx-repeat"><title>{said}</title>'
        f'<rect class="lx-casing" {box} stroke="{PAPER}" stroke-width="5"/>'
        f'<rect {box} stroke="{ACCENT}" stroke-width="2.6"/></g>'
    )
