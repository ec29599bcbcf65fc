"""Shaping in words, as the knitter meets it: at the start and at the end of the row she works.

The file says left and right of the chart. A wrong-side row starts at the chart's left, so left and right would mislead
her in every second row of flat work; start and end never do.
"""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.chart.shaping import Change, ChangeKind, Divide, Order
from lintarsia.chart.sides import Half, Sides, Stint
from lintarsia.planning.model import PartPlan, Plan
from lintarsia.telling.counts import one_and_all, stitch_count
from lintarsia.telling.languages import counted, marked, phrase
from lintarsia.telling.names import half_words
from lintarsia.telling.terms import Terms
from lintarsia.written.insidewords import inside_decreases
from lintarsia.written.shapingphrases import named
from lintarsia.written.style import Style
from lintarsia.written.writer import write_rows


def _verb(kind: ChangeKind, terms: Terms) -> str:
    """`bind off {n}`: what is done, with a place for how many stitches."""
    return {
        ChangeKind.DECREASE: "decrease {n}", ChangeKind.INCREASE: "increase {n}", ChangeKind.CAST_ON: "cast on {n}",
        ChangeKind.BIND_OFF: f"{terms.bind_off} {{n}}", ChangeKind.HOLD: "hold {n}",
    }[kind]  # fmt: skip


CHANGES = marked("decrease {n}", "increase {n}", "bind off {n}", "cast off {n}", "cast on {n}", "hold {n}")


def shaping_words(chart: Chart, plan: Plan, row: int, terms: Terms = Terms.AMERICAN) -> str:
    """`decrease 1 at each end: 28 to 26 stitches`, or "" where a row that is not parted changes nothing.

    The counts are left out where the chart does not agree with the shaping: a result says so already.
    """
    if row not in chart.shaping:
        return ""
    [stint] = Sides(chart).stints(row)
    after = stitches_of(plan, plan.rows[row - 1].runs)
    net = sum(change.net for change in stint.changes)
    before = stitches_of(plan, plan.rows[row - 2].runs) if row > 1 else after - net
    return _counted(chart, stint, before, after, terms)


def stitches_of(plan: Plan, runs: Sequence[int]) -> int:
    """How many stitches these runs of a plan have."""
    return sum(plan.runs[index].stitches for index in runs)


def stint_words(chart: Chart, stint: Stint, before: int | None, after: int, terms: Terms = Terms.AMERICAN) -> str:
    """The same for a stint of a parted row. `before` is how many stitches its side had, None in the row that parts."""
    off = stint.opening and stint.opening.kind is ChangeKind.BIND_OFF
    said = [phrase("{change} between the two sides", change=_do(stint.opening, terms))] if stint.opening and off else []
    told = _counted(chart, stint, before, after, terms)
    return "; ".join([*said, told] if told else said)


def holding_words(stint: Stint, *, held: bool = False) -> str:
    """What is put aside between the two sides, before the second one is begun; `held`: it is on a holder already, with
    the stitches of that side."""
    opening = stint.opening
    if opening is None or opening.kind is not ChangeKind.HOLD:
        return ""
    stitches = stitch_count(opening.stitches)
    if held:
        return phrase("leave the next {stitches} on the holder, and put the others on the needle", stitches=stitches)
    return phrase("put the next {stitches} on a holder", stitches=stitches)


def parting_words(divide: Divide, half: Half, *, across: bool, others: int = 0) -> str:
    """What the first stint of the row that parts the work has to say besides; `across`: the row goes on beyond it.
    `others` are the stitches that it does not come to, 0 where the rows do not say how many."""
    side = half_words(half)
    if divide.sides is Order.TOGETHER:
        return phrase("the work parts here: the {side} first, and each side with yarns of its own from here", side=side)
    if across:
        return phrase("the work parts here")
    alone = phrase("the work parts here: the {side} alone, to its top", side=side)
    left = phrase("leave the other {stitches} on a holder, and turn", stitches=stitch_count(others))
    return f"{alone}; {left}" if others > 0 else alone


def onward_words(divide: Divide, half: Half) -> str:
    """What the second stint of that row has to say besides, where both are worked at once."""
    if divide.sides is Order.TOGETHER:
        return ""
    return phrase(
        "leave the {other} on a holder; from here the {side} alone, to its top",
        other=half_words(half.other),
        side=half_words(half),
    )


def turning_words(half: Half, row: int) -> str:
    """Where one side is finished and the other is taken up."""
    return phrase("the other side is finished: back to row {row}, and now the {side}", row=row, side=half_words(half))


def joining_words(part: PartPlan | None, at: str) -> str:
    """Which yarn the second side of an opening begins with; `at` is where it hangs: `the neck edge`, `the slit`."""
    if part is None or not part.line_up:
        return ""
    name = part.line_up[0]
    if name in part.joins:
        return phrase("join {yarn} at {place}", yarn=name, place=at)
    return phrase("take up {yarn}, which hangs there", yarn=name)


def topmost_words(stint: Stint, terms: Terms = Terms.AMERICAN) -> str:
    """What becomes of the stitches that a side ends with, which the file does not say."""
    left = stint.columns[1] - stint.columns[0]
    if not left:
        return ""
    if left == 1:
        return phrase("after this row leave the one stitch of this side on a holder, or draw the yarn through it")
    return phrase(
        "after this row leave the {stitches} of this side on a holder, or {bind_them_off}",
        stitches=stitch_count(left),
        bind_them_off=phrase(terms.bind_them_off),
    )


OFF = marked("bind them off", "cast them off")
IN_BRACKETS = Style(stars=False, merge=False)
(TAKEN_BACK,) = marked("first put the stitches of the side that waits back on the needle")


def _counted(chart: Chart, stint: Stint, before: int | None, after: int, terms: Terms) -> str:
    if not after and len(stint.changes) == 1 and stint.columns[0] == stint.columns[1]:
        return _emptied(stint.changes[0], terms)
    made, net = _made(stint, terms) + _how(chart, stint), sum(change.net for change in stint.changes)
    if not stint.changes:
        return ""
    if before is None or before + net != after:
        return made
    if net:
        return phrase("{change}: {before} to {after} stitches", change=made, before=before, after=after)
    return phrase("{change}: still {n} stitches", change=made, n=after)


def _emptied(change: Change, terms: Terms) -> str:
    """The last of a side, or of all the work."""
    left = counted(change.stitches, "the {n} stitch that is left", "the {n} stitches that are left")
    if change.kind is ChangeKind.HOLD:
        return phrase("put {left} on a holder, and cut the yarn", left=left)
    return phrase("{change}, and fasten off", change=phrase(_verb(change.kind, terms), n=left))


def _made(stint: Stint, terms: Terms) -> str:
    if len(stint.start) == len(stint.end) == 1 and stint.start[0].kind is stint.end[0].kind:
        start, end = stint.start[0], stint.end[0]
        if start.stitches == end.stitches:
            return phrase("{change} at each end", change=_do(start, terms))
        return phrase("{change} at the start and {n} at the end", change=_do(start, terms), n=end.stitches)
    said = [phrase("{change} at the start", change=_do(change, terms)) for change in stint.start]
    said += [_do(change, terms) for change in stint.inside]
    return ", ".join([*said, *(phrase("{change} at the end", change=_do(change, terms)) for change in stint.end)])


def _how(chart: Chart, stint: Stint) -> str:
    """`, 2 stitches in, as ssk and k2tog`: the designer's own decreases at the edges, where the file says them."""
    if inside_decreases(chart, stint):
        [line] = write_rows(chart, first=stint.row, last=stint.row, style=IN_BRACKETS)
        return phrase(", as {words}", words=line.words)
    if chart.decreases is None and not any(change.name for change in stint.changes):
        return ""
    made = [how for how in (named(chart, stint, stint.start), named(chart, stint, stint.end)) if how]
    if not made or len({how.after for how in made}) > 1:
        return ""
    inside = phrase(", {stitches} in", stitches=stitch_count(made[0].after)) if made[0].after else ""
    return inside + phrase(", as {words}", words=one_and_all([how.name for how in made]))


def _do(change: Change, terms: Terms) -> str:
    return phrase(_verb(change.kind, terms), n=change.stitches)
