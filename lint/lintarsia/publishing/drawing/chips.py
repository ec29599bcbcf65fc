"""Chips with supplies' names beside their joins, where there is room."""

from collections.abc import Iterator, Sequence

from lintarsia.chart import Chart
from lintarsia.publishing.drawing.cells import shade_of
from lintarsia.publishing.drawing.geometry import Geometry, at_corner
from lintarsia.publishing.drawing.routes import Route
from lintarsia.publishing.drawing.shades import INK, PAPER, edge_on
from lintarsia.publishing.drawing.svg import FONT, escape, num

Box = tuple[float, float, float, float]

BUCKET = 64.0  # of the coarse net in which boxes look for one another
_STEPS = ((0, 13), (0, -13), (15, 0), (-15, 0), (15, 12), (-15, 12), (15, -12), (-15, -12))


class _Taken:
    """Boxes already drawn, kept by where they are, so that a thousand labels do not ask one another."""

    def __init__(self) -> None:
        self._net: dict[tuple[int, int], list[Box]] = {}

    def _squares(self, box: Box) -> Iterator[tuple[int, int]]:
        for across in range(int(box[0] // BUCKET), int(box[2] // BUCKET) + 1):
            for down in range(int(box[1] // BUCKET), int(box[3] // BUCKET) + 1):
                yield across, down

    def add(self, box: Box) -> None:
        for square in self._squares(box):
            self._net.setdefault(square, []).append(box)

    def free(self, box: Box) -> bool:
        return not any(_meet(box, other) for square in self._squares(box) for other in self._net.get(square, ()))


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def chips(chart: Chart, ways: Sequence[Route], place: Geometry, scale: float) -> str:
    """A chip with the supply's id beside each join; left out where it would cover another mark.

    `ways` are routes in the chart's bare geometry, and so are the chips; `place` is where they are put.
    """
    taken = _Taken()
    for way in ways:
        for x, y in (way.start, way.end):
            taken.add((x - 5 * scale, y - 5 * scale, x + 5 * scale, y + 5 * scale))
    least = (1 - place.left, 1 - place.top)
    most = (place.width - place.left, place.y(0) - place.top + 3)  # beneath are the stitch numbers
    drawn = []
    for way in ways:
        wide, high = (6.2 + 5.4 * len(way.supply.id)) * scale, 11.5 * scale
        for right, down in _STEPS:
            left = way.start[0] + right * scale - wide / 2
            top = way.start[1] + down * scale - high / 2
            box = (left, top, left + wide, top + high)
            inside = left >= least[0] and top >= least[1] and box[2] < most[0] and box[3] < most[1]
            if inside and taken.free(box):
                taken.add(box)
                drawn.append(_chip(way, shade_of(chart, way.supply.colour), box, scale))
                break
    size = num(8.5 * scale)
    look = f'font-family="{FONT}" font-size="{size}" font-weight="600"{at_corner(place)}'
    return f'<g class="lx-chips" {look}>{"".join(drawn)}</g>'


def _chip(way: Route, shade: str, box: Box, scale: float) -> str:
    left, top, right, foot = box
    name = escape(way.supply.id)
    return (
        f'<g data-supply="{name}"><rect x="{num(left)}" y="{num(top)}" width="{num(right - left)}" '
        f'height="{num(foot - top)}" rx="{num(5.7 * scale)}" fill="{PAPER}" stroke="{edge_on(shade)}" '
        f'stroke-width="{num(0.9 * scale)}"/><text x="{num((left + right) / 2)}" '
        f'y="{num((top + foot) / 2 + 3.1 * scale)}" text-anchor="middle" fill="{INK}">{name}</text></g>'
    )
