"""The outline of a laid-out piece in millimetres: every edge as it is knitted, the steps of shaping drawn as one line.

x runs to the right from the middle of the cast-on, y up from it. A tube lies flat, as it is measured: half its stitches
wide, and every round in the middle.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

import numpy as np

from lintarsia.chart import Chart
from lintarsia.chart.openings import Opening
from lintarsia.chart.sides import Sides
from lintarsia.ground.values import dataclass

Point = tuple[float, float]
Span = tuple[float, float]  # left and right end, mm
Size = tuple[float, float]  # width and height of a stitch, mm
STEPS = 1.3  # a step of shaping this much larger than a stitch or two rows is an edge of its own: house value
AT_ONCE, ALONE = 2.5, 5  # so many stitches that go at once are a corner, unless others go within so many rows


@dataclass(frozen=True, slots=True)
class Silhouette:
    """`rows` are the spans of every row, bottom-up: one, or one for each side of an opening (None where that side has
    ended), the right-hand side last. `parted` is the first row of the opening that reaches the top, 0 where none does.
    `outline` is closed; `holes` are openings that close again. `tube` says that a width is half of what is around."""

    rows: tuple[tuple[Span | None, ...], ...]
    parted: int
    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    stitch_mm: float
    row_mm: float
    tube: bool
    imperial: bool

    @property
    def height(self) -> float:
        return len(self.rows) * self.row_mm

    def width(self, row: int) -> float:
        """From the left end of a row to its right one, mm; of a tube all around."""
        spans = [span for span in self.rows[row - 1] if span is not None]
        wide = spans[-1][1] - spans[0][0] if spans else 0.0
        return 2 * wide if self.tube else wide


def silhouette(chart: Chart) -> Silhouette:
    """The silhouette of a chart as it lies flat."""
    st, row_mm = chart.gauge.stitch_mm, chart.gauge.row_mm
    sides = Sides(chart)
    bare = [_spans(chart, sides, row) for row in range(1, chart.grid.height + 1)]
    middle = next(((s[0][0] + s[0][1]) / 2 for s in bare if s and s[0]), 0.0)
    rows = tuple(
        tuple(None if s is None else ((s[0] - middle) * st, (s[1] - middle) * st) for s in spans) for spans in bare
    )
    top = next((o for o in sides.openings if o.last_row == chart.grid.height), None)
    step = STEPS * max(st, 2 * row_mm)
    return Silhouette(
        rows,
        top.first_row if top else 0,
        _outline(rows, top.first_row if top else 0, (st, row_mm), step),
        tuple(_hole(rows, o, row_mm, step) for o in sides.openings if o is not top),
        st,
        row_mm,
        chart.tube,
        chart.gauge.over.imperial,
    )


def _spans(chart: Chart, sides: Sides, row: int) -> tuple[Span | None, ...]:
    """Of a row, in columns."""
    real = np.flatnonzero(chart.grid.cells[row - 1] >= 0)
    opening = sides.opening(row)
    if opening is not None:
        split = opening.split(row)
        return (_span(real[real < split]), _span(real[real >= split]))
    if not len(real):
        return (None,)
    middle, wide = (real[0] + real[-1] + 1) / 2, float(len(real))
    if chart.tube:
        return ((chart.grid.width / 2 - wide / 4, chart.grid.width / 2 + wide / 4),)
    return ((middle - wide / 2, middle + wide / 2),)  # squares without a stitch inside a row take no room


def _span(columns: "np.ndarray[tuple[int], np.dtype[np.intp]]") -> Span | None:
    return (float(columns[0]), float(columns[-1]) + 1) if len(columns) else None


def _outline(rows: Sequence[tuple[Span | None, ...]], parted: int, size: Size, step: float) -> tuple[Point, ...]:
    """From the lower right-hand corner up, and around. Edges that are sewn keep their corners; a neck is a curve."""
    whole = rows[: parted - 1] if parted else rows
    right, left = _edge(whole, -1, size[1], right=True), _edge(whole, 0, size[1], right=False)
    if not parted:
        return (*_straight(right, step, size), *_straight(left, step, size)[::-1])
    above, base = rows[parted - 1 :], (parted - 1) * size[1]
    outer, inner = (_edge(above, -1, size[1], right=side, base=base) for side in (True, False))
    further, last = (_edge(above, 0, size[1], right=side, base=base) for side in (True, False))
    return (  # the last step of a shoulder is knitted level, and the line of its slope ends at the neck all the same
        *_straight([*right, *outer, inner[-1]], step, size),
        *_straight(inner[::-1], step)[1:],
        *_straight(further, step),
        *_straight([*left, *last, further[-1]], step, size)[-2::-1],
    )


def _hole(rows: Sequence[tuple[Span | None, ...]], opening: Opening, row_mm: float, step: float) -> tuple[Point, ...]:
    own, base = rows[opening.first_row - 1 : opening.last_row], (opening.first_row - 1) * row_mm
    right = _edge(own, -1, row_mm, right=False, base=base)
    left = _edge(own, 0, row_mm, right=True, base=base)
    return (*_straight(right, step), *_straight(left, step)[::-1])


def _edge(
    rows: Sequence[tuple[Span | None, ...]], side: int, row_mm: float, *, right: bool, base: float = 0.0
) -> list[Point]:
    """The steps of one edge, from below."""
    points = []
    for number, spans in enumerate(rows):
        span = spans[side] if spans else None
        if span is not None:
            x = span[1] if right else span[0]
            points += [(x, base + number * row_mm), (x, base + (number + 1) * row_mm)]
    return points or [(0.0, base)]


def _corners(points: Sequence[Point], size: Size) -> list[int]:
    """Where many stitches come or go at once, and no others soon before or after: an armhole, and not the steps of a
    shoulder."""
    wide, high = size
    jumps = [i for i in range(1, len(points) - 2) if abs(points[i + 1][0] - points[i][0]) > AT_ONCE * wide]
    alone = [i for i in jumps if all(i == j or abs(points[i][1] - points[j][1]) > ALONE * high for j in jumps)]
    return [at for i in alone for at in (i, i + 1)]


def _straight(points: Sequence[Point], step: float, size: Size | None = None) -> list[Point]:
    """The same line with fewer points, none of the old ones further from it than `step` (Ramer 1972, Douglas and
    Peucker 1973), so that shaping every few rows is one slope. With the size of a stitch, corners stay."""
    fixed = [0, *(_corners(points, size) if size else ()), len(points) - 1]
    keep, parts = set(fixed), list(pairwise(fixed))
    while parts:
        first, last = parts.pop()
        far = max(range(first + 1, last), key=lambda i: _away(points[i], points[first], points[last]), default=0)
        if far and _away(points[far], points[first], points[last]) > step:
            keep.add(far)
            parts += [(first, far), (far, last)]
    return [points[i] for i in sorted(keep)]


def _away(point: Point, start: Point, end: Point) -> float:
    """Distance of a point from a stretch of a line."""
    (x, y), (x1, y1), (x2, y2) = point, start, end
    wide, high = x2 - x1, y2 - y1
    long = wide * wide + high * high
    along = 0.0 if long == 0 else max(0.0, min(1.0, ((x - x1) * wide + (y - y1) * high) / long))
    return hypot(x - x1 - along * wide, y - y1 - along * high)
