"""The signs of shaping, drawn as what they stand for, and none that printed charts have for a stitch (common practice).

A chain lies where stitches are bound off, loops on a holder where they wait; loops hang where new ones are cast on; a
triangle points at the fabric for a decrease and away from it for an increase. No sign hides a symbol.
"""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.chart.shaping import ChangeKind
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.lines import number_size
from lintarsia.drawing.shades import ACCENT
from lintarsia.drawing.shapemarks import ShapeMark, shape_marks
from lintarsia.drawing.svg import escape, num
from lintarsia.telling.languages import marked, phrase
from lintarsia.telling.terms import Terms


def sign_words(kind: ChangeKind, terms: Terms = Terms.AMERICAN) -> str:
    """What the sign of a change is called."""
    return phrase(
        {
            ChangeKind.BIND_OFF: terms.bind_off, ChangeKind.HOLD: "hold", ChangeKind.CAST_ON: "cast on",
            ChangeKind.DECREASE: "decrease", ChangeKind.INCREASE: "increase",
        }[kind]
    )  # fmt: skip


SIGNS = marked("bind off", "cast off", "hold", "cast on", "decrease", "increase")


FEWEST_NUMBERED = 3  # signs in a row that the eye no longer counts by itself
_PLAIN = (ChangeKind.DECREASE, ChangeKind.INCREASE)


def draw_shaping(chart: Chart, place: Geometry, terms: Terms = Terms.AMERICAN) -> str:
    """The marks of a chart in a geometry that may show a part of it: those that stand there or at its outer edge."""
    offset = chart.grid.width - place.skip_stitches - place.columns
    size = number_size(chart, place)
    left, right = (0 if offset else -9), (place.columns if place.skip_stitches else place.columns + 9)
    drawn = []
    for mark in shape_marks(chart):
        row = mark.row - place.skip_rows
        first, last = max(mark.first - offset, left), min(mark.last - offset, right - 1)
        if 1 <= row <= place.rows and first <= last:
            drawn.append(_mark(mark, place, row, (first, last), size, offset, terms))
    return "".join(drawn)


def _mark(
    mark: ShapeMark, place: Geometry, row: int, columns: tuple[int, int], size: float, offset: int, terms: Terms
) -> str:
    parts = list(_signs(mark, place, row, columns))
    if mark.signed and (mark.kind not in _PLAIN or abs(mark.signed) > 1):
        x = place.x(columns[0] + 0.5) + mark.out * (3 if mark.kind is None else 10)
        parts.append(_number(f"+{mark.signed}" if mark.signed > 0 else f"−{-mark.signed}", x, place.middle(row), size))
    elif mark.kind not in _PLAIN and mark.last - mark.first + 1 >= FEWEST_NUMBERED:
        x = place.x((mark.first + mark.last + 1) / 2 - offset)
        if place.x(0) <= x <= place.x(place.columns):
            parts.append(_count(mark, place, row, x, size))
    return f'<g class="lx-shaping" fill="{ACCENT}"><title>{escape(_told(mark, terms))}</title>{"".join(parts)}</g>'


def _told(mark: ShapeMark, terms: Terms) -> str:
    many = abs(mark.signed) or mark.last - mark.first + 1
    if mark.kind is None:
        return phrase("{n} more", n=many) if mark.signed > 0 else phrase("{n} fewer", n=many)
    return f"{sign_words(mark.kind, terms)} {many}"


def _signs(mark: ShapeMark, place: Geometry, row: int, columns: tuple[int, int]) -> Iterator[str]:
    if mark.kind is None:
        return
    if mark.kind in _PLAIN:
        way = mark.out if mark.kind is ChangeKind.INCREASE else -mark.out
        for x in _middles(mark, place, columns):
            yield _triangle(x, place.middle(row), way)
        return
    first, last = columns
    draw, high = _STITCHES[mark.kind], place.cell_h
    stitches = [draw(place.x(column), place.y(row), place.cell_w, high) for column in range(first, last + 1)]
    yield line_sign("".join(stitches))
    if mark.kind is ChangeKind.HOLD:
        yield line_sign(pin(place.x(first), place.x(last + 1), place.y(row) + high * 0.5), 2.2)


def _middles(mark: ShapeMark, place: Geometry, columns: tuple[int, int]) -> list[float]:
    """Where triangles stand: for decreases in the squares of the stitches that went, for others close to the edge."""
    first, last = columns
    if mark.kind is ChangeKind.DECREASE and not mark.signed:
        return [place.x(column + 0.5) for column in range(first, last + 1)]
    edge = place.x(first) if mark.out > 0 else place.x(last + 1)
    return [edge + mark.out * (7 + 7.5 * number) for number in range(last - first + 1)]


def line_sign(way: str, width: float = 1.5) -> str:
    return (
        f'<path class="lx-shaping-line" fill="none" stroke="{ACCENT}" stroke-width="{num(width)}" '
        f'stroke-linecap="round" stroke-linejoin="round" d="{way}"/>'
    )


def link(x: float, y: float, wide: float, high: float) -> str:
    """A link of a chain along the foot of a square whose corner is at (x, y): where a stitch is bound off."""
    middle, half = y + high * 0.66, high * 0.21
    return (
        f"M{num(x + wide * 0.06)} {num(middle)}c{num(wide * 0.3)} {num(-half * 1.5)} {num(wide * 0.82)} "
        f"{num(-half * 1.4)} {num(wide * 0.82)} 0s{num(-wide * 0.52)} {num(half * 1.5)} {num(-wide * 0.82)} 0z"
    )


def loop(x: float, y: float, wide: float, high: float) -> str:
    """A live loop that rises from the foot of a square."""
    foot, top = y + high * 0.96, high * 0.68
    return (
        f"M{num(x + wide * 0.26)} {num(foot)}c{num(-wide * 0.02)} {num(-top * 1.28)} {num(wide * 0.5)} "
        f"{num(-top * 1.28)} {num(wide * 0.48)} 0"
    )


def hanging_loop(x: float, y: float, wide: float, high: float) -> str:
    """A new loop that hangs from the head of a square, beneath the stitch that was cast on."""
    return (
        f"M{num(x + wide * 0.16)} {num(y + high * 0.08)}c0 {num(high * 0.74)} {num(wide * 0.68)} {num(high * 0.74)} "
        f"{num(wide * 0.68)} 0"
    )


def pin(left: float, right: float, y: float) -> str:
    """A holder through loops, from edge to edge, with a stop at both ends."""
    first, last, top = num(left + 2), num(right - 2), num(y - 2.4)
    return f"M{first} {num(y)}H{last}M{first} {top}v4.8M{last} {top}v4.8"


_STITCHES = {ChangeKind.BIND_OFF: link, ChangeKind.HOLD: loop, ChangeKind.CAST_ON: hanging_loop}


def _count(mark: ShapeMark, place: Geometry, row: int, x: float, size: float) -> str:
    """How many stitches a stretch has, in the squares beyond it; a rim of paper keeps it clear of what lies there."""
    beyond = row - 1 if mark.kind is ChangeKind.CAST_ON else row + 1
    if not 1 <= beyond <= place.rows:
        return ""
    many = mark.last - mark.first + 1
    return _number(str(many), x, place.middle(beyond), size * 0.92, ' font-weight="700"')


def _triangle(x: float, y: float, way: int) -> str:
    return f'<path d="M{num(x - way * 3)} {num(y - 4)}v8l{num(way * 6.5)}-4z"/>'


def _number(text: str, x: float, y: float, size: float, more: str = "") -> str:
    at = f'x="{num(x)}" y="{num(y + size * 0.36)}" text-anchor="middle" font-size="{num(size)}"'
    return f"<text {at}{more}>{text}</text>"
