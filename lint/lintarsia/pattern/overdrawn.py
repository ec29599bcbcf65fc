"""Shaping and partings of a piece that ask for more than is on the needle, or for rows that the piece does not have."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from lintarsia.chart import Shaping
from lintarsia.chart.shaping import Edge
from lintarsia.pattern.model import Parted
from lintarsia.pattern.pieceoutline import Columns, opens, outline_of


class Overdrawn(NamedTuple):
    """In `row` `asked` stitches are to go where there are `there`; at `edges`, or between two sides where there are
    none. `half` names the side of an opening."""

    row: int
    there: int
    asked: int
    edges: tuple[Edge, ...] = ()
    half: str = ""


class _Side(NamedTuple):
    name: str  # "" for the whole work
    edges: tuple[Edge, Edge]
    there: int


def overdrawn(
    shaping: Mapping[int, Shaping], divide: Mapping[int, Parted], cast_on: int, height: int
) -> Iterator[Overdrawn]:
    """The first of each side, and of the whole work: what is counted after it would be wrong as well. Shaping of a side
    that has no stitches left is one too."""
    whole = outline_of(shaping, cast_on, height)
    ends, gap, told = (0, cast_on), None, set[str]()
    for row in range(1, height + 1):
        if row in divide:
            gap = opens(whole, divide[row])
            told -= {"left", "right"}
            if (wide := _between(divide[row], ends)) is not None and "" not in told:
                told.add("")
                yield wide
        elif gap is not None and not _parted(divide, row):
            gap = None
        made = shaping.get(row)
        if made is None:
            continue
        for side in _sides(ends, gap):
            fault = _asked(row, made, side)
            if fault is not None and not told & {"", side.name}:
                told.add(side.name)
                yield fault
        ends = ends[0] - (made.left or 0), ends[1] + (made.right or 0)
        gap = gap and (gap[0] + made.neck_left, gap[1] - made.neck_right)


def _parted(divide: Mapping[int, Parted], row: int) -> bool:
    return any(said.row <= row and (said.to is None or row <= said.to) for said in divide.values())


def _sides(ends: Columns, gap: Columns | None) -> Iterator[_Side]:
    if gap is None:
        yield _Side("", (Edge.LEFT, Edge.RIGHT), ends[1] - ends[0])
        return
    yield _Side("right", (Edge.RIGHT, Edge.NECK_RIGHT), ends[1] - gap[1])
    yield _Side("left", (Edge.NECK_LEFT, Edge.LEFT), gap[0] - ends[0])


def _asked(row: int, made: Shaping, side: _Side) -> Overdrawn | None:
    numbers = {Edge.LEFT: made.left or 0, Edge.RIGHT: made.right or 0}
    numbers |= {Edge.NECK_LEFT: made.neck_left, Edge.NECK_RIGHT: made.neck_right}
    shaped = tuple(edge for edge in side.edges if numbers[edge])
    asked = -sum(min(0, numbers[edge]) for edge in shaped)
    if not shaped or (side.there > 0 and asked <= side.there):
        return None
    return Overdrawn(row, max(0, side.there), asked, shaped, side.name)


def _between(said: Parted, ends: Columns) -> Overdrawn | None:
    """An opening that is wider than the row below it."""
    there = max(0, ends[1] - ends[0])
    return Overdrawn(said.row, there, said.stitches) if said.stitches > there else None
