"""The colours of a whole chart beneath something else: a path a colour, with a line for each stretch of cells."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL, Grid
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import CELL, Geometry
from lintarsia.drawing.rowparts import rows_in_parts, stretches_of_text
from lintarsia.drawing.svg import num

Line = tuple[str, int, str]  # a symbol, the x where its first cell begins, and the path from there along its cells


def draw_ground(
    chart: Chart,
    place: Geometry,
    tone: Callable[[str], str],
    *,
    drop: float = 0.0,
    lowest: float = 1.0,
    most_changes: int | None = None,
) -> str:
    """Every cell in the `tone` of its shade, moved down by `drop` of a row's height; row 1 is only `lowest` of it high.

    Beyond `most_changes` of colour each row is drawn in the colour of its commonest symbol.
    """
    grid = chart.grid
    simple = most_changes is not None and grid.cells.size > most_changes and changes(grid) > most_changes
    paths = _above_row_1(grid, simple)
    row_1 = list(_lines(grid, 1, simple))
    tones = {symbol: tone(shade_of(chart, symbol)) for symbol in {*paths, *(symbol for symbol, _, _ in row_1)}}
    drawn = [f'<path stroke="{tones[symbol]}" d="{path}"/>' for symbol, path in paths.items()]
    # Heights are in rows here, and the group makes a row as high as it is.
    y, thick = num(grid.height - 1.5 + lowest / 2), f' stroke-width="{num(lowest)}"' if lowest != 1 else ""
    drawn += [f'<path stroke="{tones[symbol]}"{thick} d="M{left} {y}{line}"/>' for symbol, left, line in row_1]
    high = place.cell_h
    moved = f"translate({num(place.left)} {num(place.top + (drop + 0.5) * high)})scale(1 {num(high)})"
    return f'<g fill="none" transform="{moved}">{"".join(drawn)}</g>'


def changes(grid: Grid) -> int:
    """How many stretches of equal cells there are."""
    return sum([len(list(stretches_of_text(text, 0))) for text in grid.rows])


@lru_cache(maxsize=1)  # the pictures of a chart that have a ground are drawn one after the other
def _above_row_1(grid: Grid, simple: bool) -> dict[str, str]:
    """By symbol: the path through all rows but the first; the last row's cells have their middle at y = 0."""
    paths: dict[str, list[str]] = {}
    height = grid.height
    for y in range(height - 1):
        for symbol, left, line in _lines(grid, height - y, simple):
            piece = f"M{left} {y}{line}"
            if symbol in paths:
                paths[symbol].append(piece)
            else:
                paths[symbol] = [piece]
    return {symbol: "".join(path) for symbol, path in paths.items()}


def _lines(grid: Grid, row: int, simple: bool) -> Iterable[Line]:
    if simple:
        text = grid.rows[row - 1]
        return _joined(list(stretches_of_text(text, grid.width - len(text))))
    parts = rows_in_parts(grid)[row - 1]
    return [(part.symbol, part.left, part.line) for part in parts if part.symbol != NO_STITCH_SYMBOL]


def _joined(parts: Sequence[tuple[str, int, int]]) -> Iterator[Line]:
    """Stretches of stitches of whatever colour, under the row's commonest symbol."""
    counts: Counter[str] = Counter()
    for symbol, _, count in parts:
        if symbol != NO_STITCH_SYMBOL:
            counts[symbol] += count
    start, end = -1, -1
    for symbol, first, count in [*parts, (NO_STITCH_SYMBOL, -1, 0)]:
        if symbol == NO_STITCH_SYMBOL:
            if end > start:
                yield max(counts, key=lambda s: (counts[s], s)), start * CELL, f"h{(end - start) * CELL}"
            start, end = -1, -1
        else:
            start, end = (first if start < 0 else start), first + count
