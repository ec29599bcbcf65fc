"""The row table: how the yarns hang at the start of each row, what is new and what ends.

Neighbouring rows in which nothing is joined, finished, crossed or rested, and whose yarns hang in the same order to
and fro, are one line: a knitter has nothing to lay out there.
"""

from lintarsia.chart import Chart, Worked
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.plansheets.materials import strong
from lintarsia.reporting.screen import Screen
from lintarsia.telling.names import row_word

NEW, LAST = "+", "*"
CROWD = 24  # above this no hands sort the yarns by a list: the row is summed up


def row_table(chart: Chart, plan: Plan, screen: Screen, *, whole: bool) -> list[str]:
    word = row_word(chart)
    lines = [
        strong(f"{word.title()}s", screen) + f": yarns in working order, {NEW} joined here, {LAST} finishes here",
        f"  {word:<9}   needs  twists  yarns",
    ]
    for stretch in stretches(plan.rows, whole=whole):
        lines += _stretch(chart, stretch, screen, whole=whole)
    if not whole and any(row.needs > CROWD for row in plan.rows):
        lines.append("  --all names the yarns of every row")
    return lines


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
    yarns = [
        name_ + (NEW if name_ in row.joins else "") + (LAST if name_ in row.finishes else "") for name_ in row.line_up
    ]
    text = " ".join(yarns) or "no stitches"
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
