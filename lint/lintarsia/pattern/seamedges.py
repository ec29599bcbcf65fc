"""The stitches along a piece's edge, named by their colours, so that two charts with their own keys can be compared."""

from collections.abc import Iterator, Sequence

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.ground.values import dataclass
from lintarsia.pattern.model import SeamEdge
from lintarsia.telling.names import colour_name


@dataclass(frozen=True, slots=True)
class Stitch:
    """A stitch at an edge: the colour's name, and its row (at a side) or stitch number (at top or bottom)."""

    colour: str
    number: int


def same_colour(one: str, other: str) -> bool:
    """Whether two charts mean one colour: the same name, however it is capitalised."""
    return one.strip().casefold() == other.strip().casefold()


def edge_of(chart: Chart, edge: SeamEdge, rows: tuple[int, int] | None) -> list[Stitch]:
    """The outermost real stitches of an edge: sides bottom-up, top and bottom from the chart's left to its right."""
    grid = chart.grid
    first, last = rows or (1, grid.height)
    if edge.upright:
        return list(_side(chart, edge, range(max(1, first), min(last, grid.height) + 1)))
    row = grid.height if edge is SeamEdge.TOP else 1
    line = grid.rows[row - 1]
    numbered = ((symbol, len(line) - column) for column, symbol in enumerate(line))
    return [Stitch(colour_name(chart, symbol), stitch) for symbol, stitch in numbered if symbol != NO_STITCH_SYMBOL]


def _side(chart: Chart, edge: SeamEdge, rows: range) -> Iterator[Stitch]:
    for row in rows:
        line = chart.grid.rows[row - 1].replace(NO_STITCH_SYMBOL, "")
        if line:
            yield Stitch(colour_name(chart, line[0] if edge is SeamEdge.LEFT else line[-1]), row)


def turned(edge: SeamEdge, other: SeamEdge) -> bool:
    """Whether the second edge is met from its other end: top to top, or bottom to bottom, as the pieces lie sewn."""
    return not edge.upright and edge is other


def differing(one: Sequence[Stitch], other: Sequence[Stitch]) -> Iterator[tuple[int, int]]:
    """The first and last index of each stretch along which the two edges differ in one and the same way."""
    start = -1
    for index, (a, b) in enumerate(zip(one, other, strict=False)):
        wrong = not same_colour(a.colour, b.colour)
        if start >= 0 and not (wrong and (a.colour, b.colour) == (one[start].colour, other[start].colour)):
            yield start, index - 1
            start = -1
        if wrong and start < 0:
            start = index
    if start >= 0:
        yield start, min(len(one), len(other)) - 1
