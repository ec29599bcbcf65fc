"""The row table: how the yarns hang at the start of each row, what is new and what ends.

Neighbouring rows in which nothing is joined, finished, crossed or rested, and whose yarns hang in the same order to
and fro, are one line: a knitter has nothing to lay out there.
"""

from collections.abc import Iterator
from itertools import groupby

from lintarsia.chart import Chart, Worked
from lintarsia.chart.shaping import Order
from lintarsia.chart.sides import Half, Sides, Stint
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.plansheets.materials import strong
from lintarsia.reporting.screen import Screen
from lintarsia.telling.names import row_word

NEW, LAST, OPENING = "+", "*", "|"
NAME, WAY, COUNTS = 10, 3, 22  # columns of a row's name, its arrow, and the three counts with the blanks after them
CROWD = 24  # above this no hands sort the yarns by a list: the row is summed up


def row_table(
    chart: Chart, plan: Plan, screen: Screen, *, whole: bool, window: tuple[int, int] | None = None
) -> list[str]:
    """The table, or the rows from the first to the last of `window` alone."""
    first, last = window or (1, len(plan.rows))
    word = row_word(chart)
    lines = [
        strong(f"{word.title()}s", screen) + f": yarns in working order, {NEW} joined here, {LAST} finishes here",
        f"  {word:<{NAME}} {'':<{WAY}} needs  hangs  twists  yarns",
    ]
    for heading, rows in sections(chart, plan):
        shown = tuple(row for row in rows if first <= row.row <= last)
        lines += wrap("  ", heading, screen.width) if heading and shown else []
        for stretch in stretches(shown, whole=whole):
            lines += _stretch(chart, stretch, screen, whole=whole)
    if any(f" {OPENING} " in line for line in lines):
        lines.append(f"  {OPENING} between the two sides of an opening, worked with yarns of their own")
    if not whole and any(row.needs > CROWD for row in plan.rows[first - 1 : last]):
        lines.append("  --all names the yarns of every row")
    return lines


def sections(chart: Chart, plan: Plan) -> Iterator[tuple[str, tuple[RowPlan, ...]]]:
    """The rows in the order of working, under a heading where one side of an opening is worked and the other waits."""
    if not any(divide.sides is not Order.TOGETHER for divide in chart.divide.values()):
        yield "", plan.rows
        return
    sides = Sides(chart)
    for half, stints in groupby(sides.in_order, key=lambda stint: _alone(sides, stint)):
        rows = tuple(dict.fromkeys(_as_row(plan, stint, half) for stint in stints))
        yield _heading(half, rows, plan) if half else "", rows


def _alone(sides: Sides, stint: Stint) -> Half | None:
    """The side that a stint is on while the other waits."""
    opening = sides.opening(stint.row)
    return stint.half if opening and opening.divide.sides is not Order.TOGETHER else None


def _as_row(plan: Plan, stint: Stint, half: Half | None) -> RowPlan:
    row = plan.rows[stint.row - 1]
    part = next((part for part in row.parts if half and part.side == half.value), None)
    if part is None:
        return (
            row
            if half is None
            else row._replace(line_up=(), joins=(), finishes=(), waiting=(), needs=0, hangs=0, parts=())
        )
    return row._replace(
        line_up=part.line_up,
        joins=part.joins,
        finishes=part.finishes,
        waiting=part.waiting,
        interlocks=part.interlocks,
        needs=part.needs,
        hangs=part.needs + len(part.waiting) + len(part.held),
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
    """A line for the stretch; a second one where its rows to and fro use the yarns in different orders."""
    row, last = stretch[0], stretch[-1]
    both = len(stretch) > 1 and chart.worked is not Worked.ROUND
    alike = both and row.line_up == row.line_up[::-1]
    name = f"{row.row}–{last.row}" if len(stretch) > 1 else str(row.row)
    if chart.worked is not Worked.ROUND and not alike:
        name += f" {row.side}"
    text = _sum(row) if row.needs > CROWD and not whole else _yarns(row)
    head = f"  {name:<{NAME}} {_arrow('both' if alike else row.direction, screen)} "
    lines = wrap(f"{head}{row.needs:>5}  {row.hangs:>5}  {row.interlocks or '–':>6}  ", text, screen.width)
    if both and not alike and (whole or row.needs <= CROWD):
        back = stretch[1]
        head = f"  {back.side!s:>{len(name)}}".ljust(NAME + 2) + f" {_arrow(back.direction, screen)} "
        lines += wrap(head + " " * COUNTS, _order(back), screen.width)
    return lines


ARROWS = {"right-to-left": ("←", "<-"), "left-to-right": ("→", "->"), "both": ("↔", "<->")}


def _arrow(way: str, screen: Screen) -> str:
    """An arrow that the console can print."""
    fancy, plain = ARROWS[way]
    return f"{fancy:<{WAY}}" if screen.unicode else f"{plain:<{WAY}}"


def _yarns(row: RowPlan) -> str:
    """`A1+ B1* (resting C2; 1 to cross)`."""
    notes = ["resting " + " ".join(row.waiting)] if row.waiting else []
    if row.crossings:
        notes.append(f"{row.crossings} to cross")
    return (_order(row) or "no stitches") + (f"  ({'; '.join(notes)})" if notes else "")


def _order(row: RowPlan) -> str:
    """`A1+ B1* | A2`: the yarns in the order of use, a stroke between the sides of an opening."""
    parts = [part.line_up for part in row.parts] or [row.line_up]
    return f" {OPENING} ".join(
        " ".join(name + (NEW if name in row.joins else "") + (LAST if name in row.finishes else "") for name in names)
        for names in parts
    )


def _sum(row: RowPlan) -> str:
    """A row of more yarns than hands sort by a list."""
    sums = ((len(row.joins), "joined"), (len(row.finishes), "finish"), (len(row.waiting), "resting"))
    text = ", ".join(f"{number} {what}" for number, what in (*sums, (row.crossings, "to cross")) if number)
    return text or "the same yarns as before"


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
