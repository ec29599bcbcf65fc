"""Runs: maximal stretches of neighbouring stitches of one colour in a row, found over the whole grid at once."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.chart.grid import Grid
from lintarsia.ground.values import dataclass
from lintarsia.planning.edges import start_edges

if TYPE_CHECKING:
    from lintarsia.chart.sides import Half

Integers = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class RunTable:
    """All runs of a chart in working order, one entry a run in every array (int64, read-only).

    `row` counts from 0 at the knitter's row 1; `left`, `right`, `entry`, `exit` are columns from 0 at the left, all of
    real stitches; `entry` is where the working direction meets the run first. `colour` indexes `Grid.symbols`.
    `stitches` leaves no-stitch cells out; `start` is how many stitches of the whole piece are worked before the run.
    `side` is 0 where the work is whole and numbers the sides of an opening, which no run and no link crosses.
    The columns from `changed_from` up to, not with, `changed_to` are those that the run's row, or its side of an
    opening, gained or lost at the edge where it starts; none where the two are equal.
    """

    row: Integers
    left: Integers
    right: Integers
    colour: Integers
    stitches: Integers
    entry: Integers
    exit: Integers
    start: Integers
    side: Integers
    changed_from: Integers
    changed_to: Integers

    def __len__(self) -> int:
        return len(self.row)

    @property
    def shaped(self) -> bool:
        """Whether any row gains or loses stitches where it starts."""
        return bool((self.changed_from < self.changed_to).any())


def find_runs(
    grid: Grid, leftward: Sequence[bool], sides: NDArray[np.integer] | None = None, beyond: int = 0
) -> RunTable:
    """The runs of a grid in working order. `leftward[r]` says whether array row r is worked from right to left.

    No-stitch cells and what is missing from a short row are left out before runs are told apart, so that they neither
    break a run nor count. Symbols that the key does not know are colours like any other. `sides`, of the grid's shape,
    numbers the side of an opening that each cell belongs to, from 1 (0: the work is whole there). `beyond` stitches of
    each round belong to other panels and are worked after the chart's own.
    """
    width = grid.width
    turned = np.asarray(leftward, dtype=bool)
    worked = _as_worked(grid.cells, turned)
    if grid.whole and sides is None:  # a third of the work
        at, colour = None, worked
        begins = np.empty(len(worked), bool)
        np.not_equal(colour[1:], colour[:-1], out=begins[1:])
        begins[::width] = True
    else:
        at = np.flatnonzero(worked >= 0)  # the stitches of the piece in the order they are worked
        colour, line = worked[at], at // width
        begins = np.ones(len(at), bool)
        begins[1:] = (colour[1:] != colour[:-1]) | (line[1:] != line[:-1])
        if sides is not None:
            of_side = _as_worked(sides, turned)[at]
            begins[1:] |= of_side[1:] != of_side[:-1]
    first = begins.nonzero()[0]
    stitches = np.empty_like(first)
    np.subtract(first[1:], first[:-1], out=stitches[:-1])
    stitches[-1:] = len(colour) - first[-1:]
    last = first + stitches - 1
    start_cell, end_cell = (first, last) if at is None else (at[first], at[last])
    row = start_cell // width
    column_0 = row * width + (turned * (width - 1))[row]  # where it stands among the cells of the row as worked
    entry, leave = np.abs(start_cell - column_0), np.abs(end_cell - column_0)
    none = np.zeros(len(row), np.int64)
    side = none if sides is None else of_side[first].astype(np.int64)
    changed = (none, none) if at is None else start_edges(row, side, entry, leave, turned)
    arrays = (
        row,
        np.minimum(entry, leave),
        np.maximum(entry, leave),
        colour[first].astype(np.int64),
        stitches,
        entry,
        leave,
        first + row * beyond,
        side,
        *changed,
    )
    for array in arrays:
        array.setflags(write=False)
    return RunTable(*arrays)


def _as_worked(cells: NDArray[np.integer], turned: NDArray[np.bool_]) -> NDArray[np.integer]:
    """The cells row by row, each row in its own working direction."""
    return np.where(turned[:, None], cells[:, ::-1], cells).ravel()


def side_numbers(chart: Chart) -> NDArray[np.int16] | None:
    """As `Sides.numbers`; None where nothing is parted, as in most charts."""
    if not chart.divide:
        return None
    from lintarsia.chart.sides import Sides

    return Sides(chart).numbers


def chart_runs(chart: Chart) -> RunTable:
    """The runs of a chart, each row taken in its own working direction; those of each side of an opening apart."""
    beyond = chart.of - chart.grid.width if chart.of and chart.panel else 0
    runs = find_runs(chart.grid, chart.leftwards, side_numbers(chart), beyond)
    held = dict(_held_at_start(chart)) if chart.shaping or chart.divide else {}
    return _without_held(runs, held) if held else runs


def _held_at_start(chart: Chart) -> "Iterator[tuple[tuple[int, Half | None], tuple[int, bool]]]":
    """Of each stint that starts beside stitches put on a holder: row and side, how many, whether it goes leftward."""
    from lintarsia.chart.shaping import ChangeKind
    from lintarsia.chart.sides import Sides

    sides = Sides(chart)
    for row in {*chart.shaping, *chart.divide}:
        for stint in sides.stints(row) if row <= chart.grid.height else ():
            between = (stint.opening,) if stint.opening else ()
            number = sum(change.stitches for change in (*stint.start, *between) if change.kind is ChangeKind.HOLD)
            if number:
                yield (row - 1, stint.half), (number, stint.leftward)


def _without_held(runs: RunTable, held: "Mapping[tuple[int, Half | None], tuple[int, bool]]") -> RunTable:
    """The runs with held stitches no longer among those that the yarn works on its way: it is carried over them. They
    lie at the far end of what the row loses, since the yarn goes on right beside them."""
    from lintarsia.chart.sides import half_of

    low, high = runs.changed_from.copy(), runs.changed_to.copy()
    for at, (row, side) in enumerate(zip(runs.row.tolist(), runs.side.tolist(), strict=True)):
        number, leftward = held.get((row, half_of(side)), (0, False))
        if leftward:
            high[at] = max(low[at], high[at] - number)
        else:
            low[at] = min(high[at], low[at] + number)
    for array in (low, high):
        array.setflags(write=False)
    return replace(runs, changed_from=low, changed_to=high)
