"""The row table: how the yarns hang at the start of each row, what is new and what ends.

Neighbouring rows in which nothing is joined, finished, crossed or rested, and whose yarns hang in the same order to
and fro, are one line: a knitter has nothing to lay out there.
"""

from lintarsia.chart import Chart, Worked
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.plansheets.materials import strong
from lintarsia.plansheets.units import row_word
from lintarsia.reporting.screen import Screen

NEW, LAST = "+", "*"
NAME, WAY, COUNTS = 10, 3, 22  # columns of a row's name, its arrow, and the three counts with the blanks after them
CROWD = 24  # above this no hands sort the yarns by a list: the row is summed up


def row_table(
    chart: Chart, plan: Plan, screen: Screen, *, whole: bool, window: tuple[int, int] | None = None
) -> list[str]:
    """The table, or the rows from the first to the last of `window` alone."""
    first, last = window or (1, len(plan.rows))
    rows = plan.rows[first - 1 : last]
    word = row_word(chart)
    lines = [
        strong(f"{word.title()}s", screen) + f": yarns in working order, {NEW} joined here, {LAST} finishes here",
        f"  {word:<{NAME}} {'':<{WAY}} needs  hangs  twists  yarns",
    ]
    for stretch in stretches(rows, whole=whole):
        lines += _stretch(chart, stretch, screen, whole=whole)
    if not whole and any(row.needs > CROWD for row in rows):
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
        lines += wrap(head + " " * COUNTS, " ".join(back.line_up), screen.width)
    return lines


ARROWS = {"right-to-left": ("←", "<-"), "left-to-right": ("→", "->"), "both": ("↔", "<->")}


def _arrow(way: str, screen: Screen) -> str:
    """An arrow that the console can print."""
    fancy, plain = ARROWS[way]
    return f"{fancy:<{WAY}}" if screen.unicode else f"{plain:<{WAY}}"


def _yarns(row: RowPlan) -> str:
    """`A1+ B1* (resting C2; 1 to cross)`."""
    yarns = [name + (NEW if name in row.joins else "") + (LAST if name in row.finishes else "") for name in row.line_up]
    notes = ["resting " + " ".join(row.waiting)] if row.waiting else []
    if row.crossings:
        notes.append(f"{row.crossings} to cross")
    return (" ".join(yarns) or "no stitches") + (f"  ({'; '.join(notes)})" if notes else "")


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
