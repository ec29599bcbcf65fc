"""Shaping in words, as the knitter meets it: at the start and at the end of the row she works.

The file says left and right of the chart. A wrong-side row starts at the chart's left, so left and right would mislead
her in every second row of flat work; start and end never do.
"""

from lintarsia.chart import Chart
from lintarsia.chart.shaping import Change, Kind, Order
from lintarsia.chart.sides import Half, Piece, Sides
from lintarsia.planning.model import Plan, RowPlan

_VERBS = {
    Kind.DECREASE: "decrease", Kind.INCREASE: "increase", Kind.BIND_OFF: "bind off", Kind.CAST_ON: "cast on",
    Kind.HOLD: "hold",
}  # fmt: skip


def shaping_words(chart: Chart, plan: Plan, row: int) -> str:
    """`decrease 1 at each end: 28 to 26 stitches`, or "" where a row changes nothing.

    The counts are left out where the chart does not agree with the shaping: a result says so already. Each side of an
    opening is told by itself, and the row that parts the work tells what lies between.
    """
    if row not in chart.shaping and row not in chart.divide:
        return ""
    sides = Sides(chart)
    pieces = sides.pieces(row)
    if sides.opening(row):
        return "; ".join([*_parting(sides, row), *(_of_side(piece) for piece in pieces if piece.changes)])
    made, net = _made(pieces[0]), sum(change.net for change in pieces[0].changes)
    if not made:
        return ""
    after = _stitches(plan, plan.rows[row - 1])
    before = _stitches(plan, plan.rows[row - 2]) if row > 1 else after - net
    if before + net != after:
        return made
    return f"{made}: {f'{before} to {after}' if net else f'still {after}'} stitches"


def _stitches(plan: Plan, row: RowPlan) -> int:
    return sum(plan.runs[index].stitches for index in row.runs)


def _parting(sides: Sides, row: int) -> list[str]:
    """What becomes of the stitches between the sides in the row that parts the work, and how it goes on."""
    opening = sides.opening(row)
    if opening is None or row != opening.first_row:
        return []
    between = next((piece.opening for piece in sides.pieces(row) if piece.opening), None)
    said = [f"{_do(between)} between the two sides"] if between else ["part the work into two sides"]
    if opening.divide.sides is Order.TOGETHER:
        return [*said, "from here each side has its own yarns"]
    first = Half.RIGHT if opening.divide.sides is Order.RIGHT_FIRST else Half.LEFT
    return [*said, f"the {first} side of the chart is worked to its top first"]


def _of_side(piece: Piece) -> str:
    return f"{piece.half} side: {_made(piece)}"


def _made(piece: Piece) -> str:
    if len(piece.start) == len(piece.end) == 1 and piece.start[0].kind is piece.end[0].kind:
        start, end = piece.start[0], piece.end[0]
        if start.stitches == end.stitches:
            return f"{_do(start)} at each end"
        return f"{_do(start)} at the start and {end.stitches} at the end"
    said = [f"{_do(change)} at the start" for change in piece.start]
    said += [_do(change) for change in piece.inside]
    return ", ".join([*said, *(f"{_do(change)} at the end" for change in piece.end)])


def _do(change: Change) -> str:
    return f"{_VERBS[change.kind]} {change.stitches}"
