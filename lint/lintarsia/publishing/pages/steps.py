"""The steps in which a chart is knitted: its rows, and where the work is in two sides each side's part of a row.

They stand in the order in which hands work them, which is the order of the list on a chart's page and of its card.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.shaping import Order
from lintarsia.chart.sides import Half, Piece, Sides
from lintarsia.planning.model import PartPlan, Plan, RowPlan
from lintarsia.publishing.pages.shapingwords import (
    onward_words,
    parting_words,
    piece_words,
    shaping_words,
    stitches_of,
    turning_words,
)


class Step(NamedTuple):
    """A row, or a side's part of it: `row` then has what that part works with.

    `name` is what the step is called in links, `14` or `14-left`: the first step of a row has its bare number. `half`
    and `columns` (first, last + 1) are None where the row is whole. `held` are the yarns that were left hanging on the
    other side.
    """

    name: str
    row: RowPlan
    shaped: str
    half: Half | None = None
    columns: tuple[int, int] | None = None
    held: tuple[str, ...] = ()


def steps(chart: Chart, plan: Plan) -> list[Step]:
    """Every step, in the order of working."""
    if not chart.divide:
        return [Step(str(row.row), row, _shaped(chart, plan, row.row)) for row in plan.rows]
    sides = Sides(chart)
    pieces = [piece for piece in sides.in_order if piece.row <= len(plan.rows)]
    named, found = set[int](), []
    for piece, words in zip(pieces, _words(chart, plan, sides, pieces), strict=True):
        name = f"{piece.row}-{piece.half}" if piece.row in named else str(piece.row)
        named.add(piece.row)
        found.append(_step(plan, sides, piece, name, words))
    return found


def _shaped(chart: Chart, plan: Plan, row: int) -> str:
    return shaping_words(chart, plan, row) if row in chart.shaping else ""


def _step(plan: Plan, sides: Sides, piece: Piece, name: str, words: str) -> Step:
    row, opening = plan.rows[piece.row - 1], sides.opening(piece.row)
    if piece.half is None or opening is None:
        return Step(name, row, words)
    part = _part(row, piece.half)
    if part is None:  # nothing is left to knit: what there was is bound off
        none = row._replace(line_up=(), joins=(), finishes=(), waiting=(), interlocks=0, crossings=0, needs=0, hangs=0)
        return Step(name, none._replace(runs=(), by=()), words, piece.half, piece.columns)
    alone = opening.divide.sides is not Order.TOGETHER
    own = row._replace(
        line_up=part.line_up,
        joins=part.joins,
        finishes=part.finishes,
        waiting=part.waiting,
        interlocks=part.interlocks,
        crossings=part.crossings,
        needs=part.needs,
        hangs=part.needs + len(part.waiting) + len(part.held) if alone else row.hangs,
        runs=part.runs,
        by=part.by,
    )
    return Step(name, own, words, piece.half, piece.columns, part.held)


def _part(row: RowPlan, half: Half) -> PartPlan | None:
    return next((part for part in row.parts if part.side == half.value), None)


def _words(chart: Chart, plan: Plan, sides: Sides, pieces: list[Piece]) -> Iterator[str]:
    """What each piece has to say of shaping, parting and the way to the other side."""
    for before, piece in pairwise([None, *pieces]):
        assert piece is not None
        opening = sides.opening(piece.row)
        if piece.half is None or opening is None:
            yield _shaped(chart, plan, piece.row)
            continue
        said = []
        if before is not None and before.row > piece.row:
            said.append(turning_words(piece.half, piece.row))
        elif piece.row == opening.first_row and not (before and before.row == piece.row):
            said.append(parting_words(opening.divide, piece.half, across=_goes_across(pieces, piece)))
        said.append(_of_piece(plan, piece, first=piece.row == opening.first_row))
        if piece.row == opening.first_row and before and before.row == piece.row:
            said.append(onward_words(opening.divide, piece.half))
        yield "; ".join(filter(None, said))


def _goes_across(pieces: list[Piece], piece: Piece) -> bool:
    """Whether the other side of the row is worked at once after this one."""
    after = pieces.index(piece) + 1
    return after < len(pieces) and pieces[after].row == piece.row


def _of_piece(plan: Plan, piece: Piece, *, first: bool) -> str:
    row = plan.rows[piece.row - 1]
    here = _part(row, piece.half) if piece.half else None
    below = _part(plan.rows[piece.row - 2], piece.half) if piece.half and not first else None
    before = stitches_of(plan, below.runs) if below else None
    return piece_words(piece, before, stitches_of(plan, here.runs) if here else 0)
