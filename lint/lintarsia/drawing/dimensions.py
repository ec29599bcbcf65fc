"""What a schematic measures on a piece: widths, lengths between the rows where its shape changes, neck and shoulder."""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import pairwise

from lintarsia.drawing.silhouette import Silhouette, Span
from lintarsia.ground.values import dataclass

FEWEST = 3  # stitches that go at once where an armhole or a shoulder begins: they are bound off (common practice)
APART = 6  # rows between the armhole's last bind-off and the shoulder's first: house value
TOLD_APART = 0.03  # a width within this share of another is not measured by itself


class Measured(StrEnum):
    """The words are those of printed schematics (common practice)."""

    CAST_ON = "width at the cast-on"
    AROUND = "around"
    WIDEST = "widest"
    WIDEST_AROUND = "widest, around"
    TOP = "width at the top"
    TOP_AROUND = "around at the top"
    HEIGHT = "height"
    TO_ARMHOLE = "to the armhole"
    ARMHOLE = "armhole depth"
    TO_SHAPING = "to the shaping"
    SHOULDER_SLOPE = "shoulder slope"
    NECK = "neck width"
    NECK_DEPTH = "neck depth"
    SHOULDER = "shoulder"


@dataclass(frozen=True, slots=True)
class Dimension:
    """`mm` is told; it is drawn from `start` to `end`, along x for what runs across and along y for what runs up, at
    `at` on the other axis (mm, as the silhouette's)."""

    what: Measured
    mm: float
    start: float
    end: float
    at: float

    @property
    def across(self) -> bool:
        return self.what not in UPWARD


UPWARD = frozenset(
    {Measured.HEIGHT, Measured.TO_ARMHOLE, Measured.ARMHOLE, Measured.TO_SHAPING, Measured.SHOULDER_SLOPE,
     Measured.NECK_DEPTH}
)  # fmt: skip


def dimensions(shape: Silhouette) -> tuple[Dimension, ...]:
    """Every measure of a piece that has such a thing, widths first."""
    return (*_widths(shape), *_lengths(shape), *_neck(shape))


def _widths(shape: Silhouette) -> Iterator[Dimension]:
    high = len(shape.rows)
    widths = [shape.width(row) for row in range(1, high + 1)]
    first, most = widths[0], max(widths)
    yield _across(shape, 1, Measured.AROUND if shape.tube else Measured.CAST_ON)
    if most > first * (1 + TOLD_APART):
        yield _across(shape, widths.index(most) + 1, Measured.WIDEST_AROUND if shape.tube else Measured.WIDEST)
    if not shape.parted and abs(widths[-1] - first) > first * TOLD_APART and widths[-1] < most and widths[-1] > 0:
        yield _across(shape, high, Measured.TOP_AROUND if shape.tube else Measured.TOP)


def _across(shape: Silhouette, row: int, what: Measured) -> Dimension:
    spans = _there(shape.rows[row - 1])
    y = 0.0 if row == 1 else (row if row == len(shape.rows) else row - 1) * shape.row_mm
    return Dimension(what, shape.width(row), spans[0][0], spans[-1][1], y)


def _lengths(shape: Silhouette) -> Iterator[Dimension]:
    yield _up(shape, Measured.HEIGHT, 0, len(shape.rows))
    if shape.tube:
        shaped = next((r for r in range(1, len(shape.rows)) if shape.width(r + 1) < shape.width(r)), 0)
        if shaped:
            yield _up(shape, Measured.TO_SHAPING, 0, shaped)
        return
    armhole, shoulder = _armhole(shape), _shoulder(shape)
    if armhole:
        yield _up(shape, Measured.TO_ARMHOLE, 0, armhole - 1)
        yield _up(shape, Measured.ARMHOLE, armhole - 1, (shoulder or len(shape.rows) + 1) - 1)
    if armhole and shoulder:
        yield _up(shape, Measured.SHOULDER_SLOPE, shoulder - 1, len(shape.rows))


def _up(shape: Silhouette, what: Measured, low: int, high: int) -> Dimension:
    """From the top of row `low` to that of row `high`."""
    mm = (high - low) * shape.row_mm
    return Dimension(what, mm, low * shape.row_mm, high * shape.row_mm, 0.0)


def _neck(shape: Silhouette) -> Iterator[Dimension]:
    if not shape.parted:
        return
    both = [spans for spans in shape.rows[shape.parted - 1 :] if len(spans) > 1 and all(spans)]
    if not both:
        return
    left, right = _there(both[-1])
    high, base = shape.height, (shape.parted - 1) * shape.row_mm
    if right[0] - left[1] > shape.stitch_mm / 2:
        yield Dimension(Measured.NECK, right[0] - left[1], left[1], right[0], high)
    yield Dimension(Measured.NECK_DEPTH, high - base, base, high, (left[1] + right[0]) / 2)
    widest = _there(shape.rows[_shoulder(shape) - 2] if _shoulder(shape) else both[-1])
    outer = max(widest[-1][1], right[1])
    yield Dimension(Measured.SHOULDER, outer - right[0], right[0], outer, high)


def _there(spans: Sequence[Span | None]) -> list[Span]:
    return [span for span in spans if span is not None]


def _drops(shape: Silhouette) -> list[int]:
    """The rows in which three stitches or more go at once from an outer edge."""
    found = []
    for row in range(2, len(shape.rows) + 1):
        below, here = _there(shape.rows[row - 2]), _there(shape.rows[row - 1])
        if below and here:
            gone = max(here[0][0] - below[0][0], below[-1][1] - here[-1][1])
            if gone > (FEWEST - 0.5) * shape.stitch_mm and not _side_ended(shape, row):
                found.append(row)
    return found


def _side_ended(shape: Silhouette, row: int) -> bool:
    """Whether a whole side of an opening was finished below a row."""
    return len(_there(shape.rows[row - 1])) < len(_there(shape.rows[row - 2]))


def _armhole(shape: Silhouette) -> int:
    """The row where the armhole begins; 0 where none does. What goes at once near the top alone is a shoulder."""
    drops = _drops(shape)
    return drops[0] if drops and drops[0] <= 0.85 * len(shape.rows) else 0


def _shoulder(shape: Silhouette) -> int:
    """The first row of the shoulder's steps, 0 where it has none."""
    drops = _drops(shape)
    if not drops:
        return 0
    if not _armhole(shape):
        return drops[0]
    gaps = [after for before, after in pairwise(drops) if after - before > APART]
    return gaps[0] if gaps else 0
