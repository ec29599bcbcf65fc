"""Shaping in words, as the knitter meets it: at the start and at the end of the row she works.

The file says left and right of the chart. A wrong-side row starts at the chart's left, so left and right would mislead
her in every second row of flat work; start and end never do.
"""

from lintarsia.chart import Chart, Shaping
from lintarsia.planning.model import Plan, RowPlan


def shaping_words(chart: Chart, plan: Plan, row: int) -> str:
    """`decrease 1 at each end: 28 to 26 stitches`, or "" where a row changes nothing.

    The counts are left out where the chart does not agree with the shaping: a result says so already.
    """
    change = chart.shaping.get(row)
    made = _made(change, chart.leftward(row)) if change else ""
    if not change or not made:
        return ""
    after = _stitches(plan, plan.rows[row - 1])
    before = _stitches(plan, plan.rows[row - 2]) if row > 1 else after - change.net
    if before + change.net != after:
        return made
    return f"{made}: {f'{before} to {after}' if change.net else f'still {after}'} stitches"


def _stitches(plan: Plan, row: RowPlan) -> int:
    return sum(plan.runs[index].stitches for index in row.runs)


def _made(change: Shaping, leftward: bool) -> str:
    if change.left is None and change.right is None:
        return _do(change.net) if change.net else ""
    left, right = change.left or 0, change.right or 0
    start, end = (right, left) if leftward else (left, right)
    if start and start == end:
        return f"{_do(start)} at each end"
    if start * end > 0:
        return f"{_do(start)} at the start and {abs(end)} at the end"
    ends = ((start, "at the start"), (end, "at the end"))
    return ", ".join(f"{_do(number)} {where}" for number, where in ends if number)


def _do(number: int) -> str:
    return f"{'increase' if number > 0 else 'decrease'} {abs(number)}"
