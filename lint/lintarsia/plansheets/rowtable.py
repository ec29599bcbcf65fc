"""The row table: how the yarns hang at the start of each row, what is new and what ends.

Neighbouring rows in which nothing is joined, finished, crossed or rested, and whose yarns hang in the same order to
and fro, are one line: a knitter has nothing to lay out there.
"""

from collections.abc import Iterator
from itertools import groupby

from lintarsia.chart import Chart, Worked
from lintarsia.chart.shaping import Order
from lintarsia.chart.sides import Half, Piece, Sides
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.plansheets.materials import strong
from lintarsia.reporting.screen import Screen
from lintarsia.telling.names import row_word

NEW, LAST, OPENING = "+", "*", "|"
CROWD = 24  # above this no hands sort the yarns by a list: the row is summed up


def row_table(chart: Chart, plan: Plan, screen: Screen, *, whole: bool) -> list[str]:
    word = row_word(chart)
    lines = [
        strong(f"{word.title()}s", screen) + f": yarns in working order, {NEW} joined here, {LAST} finishes here",
        f"  {word:<9}   needs  twists  yarns",
    ]
    for heading, rows in sections(chart, plan):
        lines += wrap("  ", heading, screen.width) if heading else []
        for stretch in stretches(rows, whole=whole):
            lines += _stretch(chart, stretch, screen, whole=whole)
    if any(f" {OPENING} " in line for line in lines):
        lines.append(f"  {OPENING} between the two sides of an opening, worked with yarns of their own")
    if not whole and any(row.needs > CROWD for row in plan.rows):
        lines.append("  --all names the yarns of every row")
    return lines


def sections(chart: Chart, plan: Plan) -> Iterator[tuple[str, tuple[RowPlan, ...]]]:
    """The rows in the order of working, under a heading where one side of an opening is worked and the other waits."""
    if not any(divide.sides is not Order.TOGETHER for divide in chart.divide.values()):
        yield "", plan.rows
        return
    sides = Sides(chart)
    for half, pieces in groupby(sides.in_order, key=lambda piece: _alone(sides, piece)):
        rows = tuple(dict.fromkeys(_as_row(plan, piece, half) for piece in pieces))
        yield _heading(half, rows, plan) if half else "", rows


def _alone(sides: Sides, piece: Piece) -> Half | None:
    """The side that a piece is on while the other waits."""
    opening = sides.opening(piece.row)
    return piece.half if opening and opening.divide.sides is not Order.TOGETHER else None


def _as_row(plan: Plan, piece: Piece, half: Half | None) -> RowPlan:
    row = plan.rows[piece.row - 1]
    part = next((part for part in row.parts if half and part.side == half.value), None)
    if part is None:
        return row if half is None else row._replace(line_up=(), joins=(), finishes=(), waiting=(), needs=0, parts=())
    return row._replace(
        line_up=part.line_up,
        joins=part.joins,
        finishes=part.finishes,
        waiting=part.waiting,
        interlocks=part.interlocks,
        needs=part.needs,
        parts=(),
    )


def _heading(half: Half, rows: tuple[RowPlan, ...], plan: Plan) -> str:
    first, last = rows[0].row, rows[-1].row
    span = f"row {first}" if first == last else f"rows {first}–{last}"
    held = next((part.held for part in plan.rows[last - 1].parts if part.side == half.value), ())
    hanging = f"; left hanging on the {half.other}-hand side: {' '.join(held)}" if held else ""
    return f"{half}-hand side, {span}{hanging}"


def stretches(rows: tuple[RowPlan, ...], *, whole: bool) -> list[list[RowPlan]]:
    """The rows, gathered where nothing happens from one to the next."""
    found: list[list[RowPlan]] = []
    for row in rows:
        if found and not whole and _goes_on(found[-1][-1], row):
            found[-1].append(row)
        else:
            found.append([row])
    return found


def _goes_on(before: RowPlan, row: RowPlan) -> bool:
    turned = before.direction != row.direction
    expected = before.line_up[::-1] if turned else before.line_up
    quiet = not (row.joins or row.finishes or before.joins or before.finishes or row.crossings or before.crossings)
    return (
        quiet
        and row.line_up == expected
        and row.interlocks == before.interlocks
        and row.waiting == (before.waiting[::-1] if turned else before.waiting)
    )


def _stretch(chart: Chart, stretch: list[RowPlan], screen: Screen, *, whole: bool) -> list[str]:
    row = stretch[0]
    arrow = "←" if row.direction == "right-to-left" else "→"
    if len(stretch) > 1:
        name = f"{row.row}–{stretch[-1].row}"
        arrow = arrow if chart.worked is Worked.ROUND else "↔"
    else:
        name = str(row.row) if chart.worked is Worked.ROUND else f"{row.row} {row.side}"
    parts = [part.line_up for part in row.parts] or [row.line_up]
    text = f" {OPENING} ".join(_yarns(row, part) for part in parts) or "no stitches"
    notes = []
    if row.waiting:
        notes.append("resting " + " ".join(row.waiting))
    if row.crossings:
        notes.append(f"{row.crossings} to cross")
    if row.needs > CROWD and not whole:
        sums = ((len(row.joins), "joined"), (len(row.finishes), "finish"), (len(row.waiting), "resting"))
        text = ", ".join(f"{number} {what}" for number, what in (*sums, (row.crossings, "to cross")) if number)
        text = text or "the same yarns as before"
    elif notes:
        text += f"  ({'; '.join(notes)})"
    head = f"  {name:<9} {arrow} {row.needs:>5}  {row.interlocks or '–':>6}  "
    return wrap(head, text, screen.width)


def _yarns(row: RowPlan, names: tuple[str, ...]) -> str:
    return " ".join(
        name + (NEW if name in row.joins else "") + (LAST if name in row.finishes else "") for name in names
    )


def wrap(head: str, text: str, width: int) -> list[str]:
    """`head` and as many words of `text` as fit; the rest below, in line with the first."""
    lines, line = [], head
    room = len(head)
    for word in text.split(" "):
        if len(line) > room and len(line) + len(word) > width:
            lines.append(line)
            line = " " * room
        line += word + " "
    return [*lines, line]
