"""The cells of a row by their symbol, as the strings that every picture of a chart is joined from.

Cells are drawn as lines as thick as a row is high: a stretch of them is then one step along the row, and the same text
serves the chart's own cells, the depth behind knitted stitches and the faint ground of yarn paths.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple

from lintarsia.chart.grid import Grid
from lintarsia.drawing.geometry import CELL

_RUN = re.compile(r"((.)\2*)", re.DOTALL)


class RowPart(NamedTuple):
    """All cells of one symbol in a row, `cells` in number, the first of them with its left edge at `left`.

    `line` leads from there along all of them, and `middles` are the x of their middles. `first` is the column of the
    first, and `steps` lead from it to the others in columns, "" where there are no others.
    """

    symbol: str
    cells: int
    first: int
    left: int
    line: str
    steps: str
    middles: str


def stretches_of_text(text: str, offset: int) -> Iterator[tuple[str, int, int]]:
    """(symbol, first column, number of cells) of each stretch of equal cells in a row's text that begins `offset`
    columns from the left; no-stitch cells are among them."""
    for run, symbol in _RUN.findall(text):
        yield symbol, offset, len(run)
        offset += len(run)


@lru_cache(maxsize=1)  # the pictures of a chart are drawn one after the other
def rows_in_parts(grid: Grid) -> tuple[tuple[RowPart, ...], ...]:
    """The parts of every row; those of row 1 are at index 0. No-stitch cells are among them."""
    width = grid.width
    known = {text: parts_of_text(text, width - len(text)) for text in set(grid.rows)}
    return tuple([known[text] for text in grid.rows])


def parts_of_text(text: str, offset: int) -> tuple[RowPart, ...]:
    """The parts of a row's text that begins `offset` columns from the left, in the order of their first cells."""
    found: dict[str, list[Any]] = {}
    first = offset
    for run, symbol in _RUN.findall(text):
        count = len(run)
        end = first + count
        line, steps, middles = _stretch(first, end)
        had = found.get(symbol)
        if had is None:
            found[symbol] = [count, first, end, line, steps, middles]
        else:
            gap = first - had[2]
            had[0] += count
            had[2] = end
            had[3] += f"m{gap * CELL} 0{line}"
            had[4] += f" {gap + 1}{steps}"
            had[5] += f" {middles}"
        first = end
    return tuple(
        [
            RowPart(symbol, cells, first, first * CELL, line, steps and f"h{steps[1:]}", middles)
            for symbol, (cells, first, _, line, steps, middles) in found.items()
        ]
    )


@lru_cache(maxsize=4096)  # there are few stretches of columns, and they come again and again
def _stretch(first: int, end: int) -> tuple[str, str, str]:
    """The way along a stretch of cells, the steps to all but the first, and the middles of all."""
    middles = [str(column * CELL + CELL // 2) for column in range(first, end)]
    return f"h{(end - first) * CELL}", " 1" * (end - first - 1), " ".join(middles)
