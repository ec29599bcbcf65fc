"""The one account of how the rows of a chart are worked in stints: plan, words, card and drawing all ask here.

A row that is not parted is one stint. Where the work is in two sides, each side's part of a row is a stint of its own:
its columns, the edge where it starts and what is bound off, cast on, decreased, increased or held there. `in_order` is
the order in which hands work them: row by row with the sides together, or one side to its top and then the other.
"""

from collections.abc import Iterable
from dataclasses import replace
from enum import StrEnum
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.grid import NO_STITCH_SYMBOL, RowNumber
from lintarsia.chart.model import Chart
from lintarsia.chart.openings import Columns, Opening, OpeningFault, find_openings, own_changes
from lintarsia.chart.shaping import FEWEST_BOUND_OFF, Change, ChangeKind, Edge, Order, Parting, usual_change
from lintarsia.ground.values import dataclass


class Half(StrEnum):
    """A side of an opening, as the chart shows it."""

    RIGHT = "right"
    LEFT = "left"

    @property
    def other(self) -> "Half":
        return Half.LEFT if self is Half.RIGHT else Half.RIGHT

    @property
    def outer(self) -> Edge:
        return Edge.RIGHT if self is Half.RIGHT else Edge.LEFT

    @property
    def inner(self) -> Edge:
        return Edge.NECK_RIGHT if self is Half.RIGHT else Edge.NECK_LEFT


@dataclass(frozen=True, slots=True)
class Stint:
    """What is worked without turning: a whole row, or a side's part of one.

    `columns` holds its stitches after the row, (first, last + 1), equal where none are left. `start` and `end` are the
    changes at the edges where it starts and ends; `inside` are those at no edge of it. `opening` is what is bound off
    or held between the sides before this stint is worked, in the row that divides.
    """

    row: RowNumber
    half: Half | None
    columns: Columns
    leftward: bool
    start: tuple[Change, ...] = ()
    end: tuple[Change, ...] = ()
    inside: tuple[Change, ...] = ()
    opening: Change | None = None

    @property
    def starts_at(self) -> Edge:
        """The edge where it starts."""
        return _edges(self.half)[self.leftward]

    @property
    def ends_at(self) -> Edge:
        """The edge where it ends."""
        return _edges(self.half)[not self.leftward]

    @property
    def changes(self) -> tuple[Change, ...]:
        """All changes of the stint besides those of the opening."""
        return (*self.start, *self.inside, *self.end)


def half_of(number: int) -> Half | None:
    """The side that a number of `Sides.numbers` stands for."""
    return None if number == 0 else Half.LEFT if number % 2 else Half.RIGHT


def _edges(half: Half | None) -> tuple[Edge, Edge]:
    """The left and the right edge of a side, or of the whole work."""
    if half is None:
        return Edge.LEFT, Edge.RIGHT
    return (half.inner, half.outer) if half is Half.RIGHT else (half.outer, half.inner)


class Sides:
    """A chart's rows in stints. `faults` are the partings that do not fit the grid; their rows count as not parted."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.openings: tuple[Opening, ...] = ()
        self.faults: tuple[OpeningFault, ...] = ()
        if chart.divide:
            self.openings, self.faults = find_openings(chart)

    def opening(self, row: int) -> Opening | None:
        """The opening that parts a row, if any does."""
        return next((o for o in self.openings if o.first_row <= row <= o.last_row), None)

    def half_at(self, row: int, column: int) -> Half | None:
        """Which side a column belongs to in a row; None where the row is not parted."""
        opening = self.opening(row)
        if opening is None:
            return None
        return Half.LEFT if column < opening.split(row) else Half.RIGHT

    @cached_property
    def numbers(self) -> NDArray[np.int16] | None:
        """Of each square of the grid, shape (rows, columns): 0 where the work is whole, else the number of its side. No
        two openings share a number; the left-hand side has the odd one. None where nothing is parted."""
        if not self.openings:
            return None
        numbers = np.zeros(self.chart.grid.cells.shape, np.int16)
        for at, opening in enumerate(self.openings):
            for row, split in enumerate(opening.splits, opening.first_row - 1):
                numbers[row, :split], numbers[row, split:] = 2 * at + 1, 2 * at + 2
        return numbers

    def stints(self, row: int) -> tuple[Stint, ...]:
        """The stints of a row in the row's own direction. A side that has ended has none."""
        opening, leftward = self.opening(row), self.chart.leftward(row)
        changes = row_changes(self.chart, row)
        columns = self._columns(row, 0, self.chart.grid.width)
        if opening is None:
            return (_stint(RowNumber(row), None, columns, leftward, changes),)
        if row == opening.first_row:
            own = own_changes(opening, changes)
            changes = tuple(c for c in changes if c not in own)
        found: list[Stint] = []
        for half in (Half.RIGHT, Half.LEFT) if leftward else (Half.LEFT, Half.RIGHT):
            between = _between(opening) if found and row == opening.first_row else None
            first, end = (0, opening.split(row)) if half is Half.LEFT else (opening.split(row), self.chart.grid.width)
            made = [c for c in changes if c.edge in _edges(half) or (c.edge is None and not found)]
            stint = _stint(RowNumber(row), half, self._columns(row, first, end), leftward, made, between)
            if stint.columns[0] < stint.columns[1] or stint.changes:
                found.append(stint)
        return tuple(found)

    @cached_property
    def in_order(self) -> tuple[Stint, ...]:
        """Every stint of the chart in the order of working."""
        order: list[Stint] = []
        row = 1
        while row <= self.chart.grid.height:
            opening = self.opening(row)
            last = row if opening is None else opening.last_row
            stints = [stint for r in range(row, last + 1) for stint in self.stints(r)]
            order += stints if opening is None else _worked(opening, stints)
            row = last + 1
        return tuple(order)

    def _columns(self, row: int, first: int, end: int) -> Columns:
        stitches = np.flatnonzero(self.chart.grid.cells[row - 1, first:end] >= 0)
        if not len(stitches):
            return (first, first)
        return first + int(stitches[0]), first + int(stitches[-1]) + 1


def _worked(opening: Opening, stints: list[Stint]) -> Iterable[Stint]:
    """The stints of an opening's rows in the order of working. One side after the other: the row that divides is worked
    as far as the yarn reaches, which is across both sides where it meets the later side first."""
    if opening.divide.sides is Order.TOGETHER:
        return stints
    first = Half.RIGHT if opening.divide.sides is Order.RIGHT_FIRST else Half.LEFT
    dividing = [stint for stint in stints if stint.row == opening.first_row]
    across = bool(dividing) and dividing[0].half is not first
    head = dividing if across else [stint for stint in dividing if stint.half is first]
    rest = [stint for stint in stints if stint not in head]
    return [*head, *(p for p in rest if p.half is first), *(p for p in rest if p.half is not first)]


def _between(opening: Opening) -> Change | None:
    if opening.divide.by is Parting.NOTHING or opening.stitches <= 0:
        return None
    return Change(ChangeKind(opening.divide.by.value), opening.stitches)


def _stint(
    row: RowNumber,
    half: Half | None,
    columns: Columns,
    leftward: bool,
    changes: Iterable[Change],
    opening: Change | None = None,
) -> Stint:
    left, right = _edges(half)
    start, end = (right, left) if leftward else (left, right)
    return Stint(
        row,
        half,
        columns,
        leftward,
        tuple(c for c in changes if c.edge is start),
        tuple(c for c in changes if c.edge is end),
        tuple(c for c in changes if c.edge not in (start, end)),
        opening,
    )


def row_changes(chart: Chart, row: int) -> tuple[Change, ...]:
    """The changes of a row. A number with no edge said goes to the edges where the grid shows just that number."""
    shaping = chart.shaping.get(row)
    if shaping is None:
        return ()
    changes = shaping.changes
    bare = next((c for c in changes if c.edge is None), None)
    if bare is not None and bare not in shaping.stated and _spread(chart, row, bare):
        spread = replace(bare, kind=ChangeKind.INCREASE if bare.kind.adds else ChangeKind.DECREASE)
        return tuple(spread if c is bare else c for c in changes)
    if bare is None or (drawn := _drawn(chart, row)) is None or sum(drawn) != bare.net:
        return changes
    shown = [usual_change(n, edge) for n, edge in zip(drawn, (Edge.RIGHT, Edge.LEFT), strict=True) if n]
    return (*(c for c in changes if c is not bare), *shown)


def _spread(chart: Chart, row: int, bare: Change) -> bool:
    """Whether the grid shows the stitches of a bare number come or go by ones and twos in between: a crown's decreases
    are never bound off, however many there are."""
    if bare.stitches < FEWEST_BOUND_OFF or row < 2 or len(chart.grid.rows[row - 2]) != len(chart.grid.rows[row - 1]):
        return False
    below, here = chart.grid.cells[row - 2] >= 0, chart.grid.cells[row - 1] >= 0
    ends = (here & ~below) if bare.kind.adds else (below & ~here)
    at = np.flatnonzero(ends)
    together = max(map(len, np.split(at, np.flatnonzero(np.diff(at) > 1) + 1)))
    return len(at) == bare.stitches and together < FEWEST_BOUND_OFF


def _drawn(chart: Chart, row: int) -> tuple[int, int] | None:
    """How many stitches the grid shows to come at the right and at the left edge; fewer are negative."""
    if row < 2:
        return None
    below, here = chart.grid.rows[row - 2], chart.grid.rows[row - 1]
    if len(below) != len(here) or not below.strip(NO_STITCH_SYMBOL) or not here.strip(NO_STITCH_SYMBOL):
        return None
    return _padding(below[::-1]) - _padding(here[::-1]), _padding(below) - _padding(here)


def _padding(text: str) -> int:
    return len(text) - len(text.lstrip(NO_STITCH_SYMBOL))
