"""Shaping in words, as the knitter meets it: at the start and at the end of the row she works.

The file says left and right of the chart. A wrong-side row starts at the chart's left, so left and right would mislead
her in every second row of flat work; start and end never do.
"""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.chart.shaping import Change, ChangeKind, Divide, Order
from lintarsia.chart.sides import Half, Sides, Stint
from lintarsia.planning.model import Plan

_VERBS = {
    ChangeKind.DECREASE: "decrease", ChangeKind.INCREASE: "increase", ChangeKind.BIND_OFF: "bind off",
    ChangeKind.CAST_ON: "cast on", ChangeKind.HOLD: "hold",
}  # fmt: skip


def shaping_words(chart: Chart, plan: Plan, row: int) -> str:
    """`decrease 1 at each end: 28 to 26 stitches`, or "" where a row that is not parted changes nothing.

    The counts are left out where the chart does not agree with the shaping: a result says so already.
    """
    if row not in chart.shaping:
        return ""
    [stint] = Sides(chart).stints(row)
    after = stitches_of(plan, plan.rows[row - 1].runs)
    net = sum(change.net for change in stint.changes)
    before = stitches_of(plan, plan.rows[row - 2].runs) if row > 1 else after - net
    return _counted(stint, before, after)


def stitches_of(plan: Plan, runs: Sequence[int]) -> int:
    """How many stitches these runs of a plan have."""
    return sum(plan.runs[index].stitches for index in runs)


def stint_words(stint: Stint, before: int | None, after: int) -> str:
    """The same for a stint of a parted row. `before` is how many stitches its side had, None in the row that parts."""
    said = [f"{_do(stint.opening)} between the two sides"] if stint.opening else []
    told = _counted(stint, before, after)
    return "; ".join([*said, told] if told else said)


def parting_words(divide: Divide, half: Half, *, across: bool) -> str:
    """What the first stint of the row that parts the work has to say besides; `across`: the row goes on beyond it."""
    if divide.sides is Order.TOGETHER:
        return f"the work parts here: the {half}-hand side first, and each side with yarns of its own from here"
    if across:
        return "the work parts here"
    return f"the work parts here: the {half}-hand side alone, to its top"


def onward_words(divide: Divide, half: Half) -> str:
    """What the second stint of that row has to say besides, where both are worked at once."""
    return "" if divide.sides is Order.TOGETHER else f"from here the {half}-hand side alone, to its top"


def turning_words(half: Half, row: int) -> str:
    """Where one side is finished and the other is taken up."""
    return f"the other side is finished: back to row {row}, and now the {half}-hand side"


def _counted(stint: Stint, before: int | None, after: int) -> str:
    made, net = _made(stint), sum(change.net for change in stint.changes)
    if not made:
        return ""
    if before is None or before + net != after:
        return made
    return f"{made}: {f'{before} to {after}' if net else f'still {after}'} stitches"


def _made(stint: Stint) -> str:
    if len(stint.start) == len(stint.end) == 1 and stint.start[0].kind is stint.end[0].kind:
        start, end = stint.start[0], stint.end[0]
        if start.stitches == end.stitches:
            return f"{_do(start)} at each end"
        return f"{_do(start)} at the start and {end.stitches} at the end"
    said = [f"{_do(change)} at the start" for change in stint.start]
    said += [_do(change) for change in stint.inside]
    return ", ".join([*said, *(f"{_do(change)} at the end" for change in stint.end)])


def _do(change: Change) -> str:
    return f"{_VERBS[change.kind]} {change.stitches}"
