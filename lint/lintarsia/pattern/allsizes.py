"""A piece in several sizes laid over one another: one chart as large as all of them, and the stitches of each size.

They are laid so that the motif lies on itself; a plain piece from its cast-on up, middle on middle.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart, DuplicateStitch, Places
from lintarsia.chart.grid import NO_STITCH_SYMBOL, build_grid
from lintarsia.ground.regions import NOWHERE
from lintarsia.ground.values import dataclass
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.weave import PLAIN

Place = tuple[int, int]  # row and column, from 0


@dataclass(frozen=True, slots=True)
class InSize:
    """The stitches of one size within the whole, shape (rows, columns), row 1 first."""

    size: str
    stitches: NDArray[np.bool_]
    cast_on: int
    rows: int


@dataclass(frozen=True, slots=True)
class AllSizes:
    """`chart` has every stitch that some size has, and shapes nothing; its first row is worked as the lowest of `rows`
    is. `rows` and `columns`, from 0, are those that are numbered: the motif's, by the chart's own numbers, or all."""

    chart: Chart
    sizes: tuple[InSize, ...]
    rows: range
    columns: range


def all_sizes(sizes: Sequence[PieceInSize], title: str) -> AllSizes:
    """The piece in these sizes, which have one chart or none. Where their stitches differ the largest size is drawn."""
    anchors = [_anchor(one) for one in sizes]
    below, left = max(row for row, _ in anchors), max(column for _, column in anchors)
    placed = [(one, below - row, left - column) for one, (row, column) in zip(sizes, anchors, strict=True)]
    high = max(row + one.chart.grid.height for one, row, _ in placed)
    wide = max(column + one.chart.grid.width for one, _, column in placed)
    cells = np.full((high, wide), NO_STITCH_SYMBOL)
    found = []
    for one, row, column in placed:
        own = np.array([list(text.rjust(one.chart.grid.width, NO_STITCH_SYMBOL)) for text in one.chart.grid.rows])
        here = np.zeros((high, wide), bool)
        here[row : row + own.shape[0], column : column + own.shape[1]] = own != NO_STITCH_SYMBOL
        cells[here] = own[own != NO_STITCH_SYMBOL]
        found.append(InSize(one.size, here, one.laid.cast_on, one.chart.grid.height))
    rows, columns = range(high), range(wide)
    if sizes[0].laid.motif is not None:
        grid = sizes[0].laid.source.grid
        rows, columns = range(below, below + grid.height), range(left, left + grid.width)
    whole = _whole(sizes[-1].chart, ["".join(line) for line in cells], title)
    one, row, column = placed[-1]
    whole = replace(whole, duplicate=_moved(one.chart, row, wide - column - one.chart.grid.width))
    side = sizes[0].chart.side(anchors[0][0] + 1)
    return AllSizes(replace(whole, first_row=side), tuple(found), rows, columns)


def _moved(chart: Chart, up: int, across: int) -> tuple[DuplicateStitch, ...]:
    """What is embroidered, so many rows up and stitches to the left."""
    return tuple(
        replace(patch, row=patch.row + up, stitches=(patch.stitches[0] + across, patch.stitches[1] + across))
        for patch in chart.duplicate
    )


def _anchor(one: PieceInSize) -> Place:
    """What is laid on itself: the motif's lowest row and leftmost column, or row 1 and the middle."""
    weave = one.laid.weave
    if one.laid.motif is None:
        return 0, one.chart.grid.width // 2
    rows = [at for at, source in enumerate(weave.rows) if source != PLAIN]
    columns = [at for at, source in enumerate(weave.columns) if source != PLAIN]
    return rows[0], columns[0]


def _whole(chart: Chart, rows: list[str], title: str) -> Chart:
    return replace(
        chart,
        title=title,
        grid=build_grid(rows, tuple(chart.colours)),
        shaping={},
        divide={},
        duplicate=(),
        repeat=None,
        texture=None,
        supplies=None,
        places=Places(lines=(NOWHERE,) * len(rows)),
    )
