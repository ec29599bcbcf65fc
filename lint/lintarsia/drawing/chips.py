"""Chips with supplies' names beside their joins, where there is room."""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import Geometry, at_corner
from lintarsia.drawing.routes import Point, Route
from lintarsia.drawing.shades import INK, PAPER, edge_on
from lintarsia.drawing.svg import FONT, num

Box = tuple[float, float, float, float]

BAND = 32.0  # height of the bands in which boxes look for one another
HIGH = 11.5
_STEPS = ((0, 13), (0, -13), (15, 0), (-15, 0), (15, 12), (-15, 12), (15, -12), (-15, -12))


class _Taken:
    """Boxes already drawn, none higher than BAND, in bands by where they begin, so that a thousand labels do not ask
    one another."""

    def __init__(self) -> None:
        self._bands: dict[int, list[Box]] = {}

    def add(self, box: Box) -> None:
        self._bands.setdefault(int(box[1] // BAND), []).append(box)

    def free(self, box: Box) -> bool:
        left, top, right, foot = box
        for band in range(int(top // BAND) - 1, int(foot // BAND) + 1):
            for other in self._bands.get(band, ()):
                if left < other[2] and other[0] < right and top < other[3] and other[1] < foot:
                    return False
        return True


def chips(chart: Chart, ways: Sequence[Route], place: Geometry, scale: float, prefix: str) -> str:
    """A chip with the supply's id beside each join; left out where it would cover another mark.

    `ways` are routes in the chart's bare geometry, and so are the chips; `place` is where they are put.
    """
    shapes: dict[int, str] = {}  # a box for each length of name
    drawn = []
    for way, (x, y) in _placed(ways, place, scale):
        letters, name = len(way.supply.id), way.name
        if letters not in shapes:
            shapes[letters] = _shape(f"{prefix}c{letters}", _width(way, scale), scale)
        drawn.append(
            f'<g data-supply="{name}" transform="translate({num(x)} {num(y)})"><use href="#{prefix}c{letters}" '
            f'stroke="{edge_on(shade_of(chart, way.supply.colour))}"/><text y="{num(3.1 * scale)}">{name}</text></g>'
        )
    look = f'font-family="{FONT}" font-size="{num(8.5 * scale)}" font-weight="600" text-anchor="middle" fill="{INK}"'
    return f'<g class="lx-chips" {look}{at_corner(place)}><defs>{"".join(shapes.values())}</defs>{"".join(drawn)}</g>'


def _width(way: Route, scale: float) -> float:
    return (6.2 + 5.4 * len(way.supply.id)) * scale


def _placed(ways: Sequence[Route], place: Geometry, scale: float) -> list[tuple[Route, Point]]:
    """The routes whose chips find room, and the middles of these."""
    taken = _Taken()
    reach = 5 * scale
    for way in ways:
        for x, y in (way.start, way.end):
            taken.add((x - reach, y - reach, x + reach, y + reach))
    least = (1 - place.left, 1 - place.top)
    most = (place.width - place.left, place.y(0) - place.top + 3)  # beneath are the stitch numbers
    steps = [(right * scale, down * scale) for right, down in _STEPS]
    found = []
    high = HIGH * scale / 2
    for way in ways:
        wide, (start, level) = _width(way, scale) / 2, way.start
        for right, down in steps:
            x, y = start + right, level + down
            box = (x - wide, y - high, x + wide, y + high)
            inside = box[0] >= least[0] and box[1] >= least[1] and box[2] < most[0] and box[3] < most[1]
            if inside and taken.free(box):
                taken.add(box)
                found.append((way, (x, y)))
                break
    return found


def _shape(name: str, wide: float, scale: float) -> str:
    high = HIGH * scale
    return (
        f'<rect id="{name}" x="{num(-wide / 2)}" y="{num(-high / 2)}" width="{num(wide)}" height="{num(high)}" '
        f'rx="{num(5.7 * scale)}" fill="{PAPER}" stroke-width="{num(0.9 * scale)}"/>'
    )
