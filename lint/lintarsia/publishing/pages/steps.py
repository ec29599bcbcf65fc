"""The steps in which a chart is knitted: its rows, and where the work is in two sides each side's part of a row.

They stand in the order in which hands work them, which is the order of the list on a chart's page and of its card.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.openings import Opening
from lintarsia.chart.shaping import Order, Parting
from lintarsia.chart.sides import Half, Sides, Stint
from lintarsia.planning.model import PartPlan, Plan, RowPlan
from lintarsia.publishing.pages.catchnotes import catch_words
from lintarsia.publishing.pages.shapingnotes import (
    TAKEN_BACK,
    holding_words,
    joining_words,
    onward_words,
    parting_words,
    shaping_words,
    stint_words,
    stitches_of,
    topmost_words,
    turning_words,
)
from lintarsia.telling.languages import phrase
from lintarsia.telling.terms import Terms


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


def steps(chart: Chart, plan: Plan, terms: Terms = Terms.AMERICAN) -> list[Step]:
    """Every step, in the order of working, told in such terms."""
    if not chart.divide:
        return [Step(str(row.row), row, _whole(chart, plan, row.row, terms)) for row in plan.rows]
    sides = Sides(chart)
    stints = [stint for stint in sides.in_order if stint.row <= len(plan.rows)]
    named, found = set[int](), []
    for stint, words in zip(stints, _words(chart, plan, sides, stints, terms), strict=True):
        name = f"{stint.row}-{stint.half}" if stint.row in named else str(stint.row)
        named.add(stint.row)
        found.append(_step(plan, sides, stint, name, words))
    return found


def _whole(chart: Chart, plan: Plan, row: int, terms: Terms) -> str:
    """What a row that is not parted has to say of shaping, and of floats to be caught."""
    shaped = shaping_words(chart, plan, row, terms) if row in chart.shaping else ""
    caught = "" if chart.caught is None else catch_words(chart, plan, plan.rows[row - 1].runs)
    return "; ".join(filter(None, [shaped, caught]))


def _step(plan: Plan, sides: Sides, stint: Stint, name: str, words: str) -> Step:
    row, opening = plan.rows[stint.row - 1], sides.opening(stint.row)
    if stint.half is None or opening is None:
        return Step(name, row, words)
    part = _part(row, stint.half)
    if part is None:  # nothing is left to knit: what there was is on a holder
        none = row._replace(line_up=(), joins=(), finishes=(), waiting=(), interlocks=0, crossings=0, needs=0, hangs=0)
        return Step(name, none._replace(runs=(), by=()), words, stint.half, stint.columns)
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
    return Step(name, own, words, stint.half, stint.columns, part.held)


def _part(row: RowPlan, half: Half) -> PartPlan | None:
    return next((part for part in row.parts if part.side == half.value), None)


def _words(chart: Chart, plan: Plan, sides: Sides, stints: list[Stint], terms: Terms) -> Iterator[str]:
    """What each stint has to say of shaping, parting and the way to the other side."""
    tops = {stint.half: stint for stint in stints}
    for before, stint in pairwise([None, *stints]):
        assert stint is not None
        opening = sides.opening(stint.row)
        if stint.half is None or opening is None:
            waited = before is not None and before.half is not None and _in_turn(sides, before)
            yield "; ".join(filter(None, [phrase(TAKEN_BACK) if waited else "", _whole(chart, plan, stint.row, terms)]))
            continue
        said, part = [], _part(plan.rows[stint.row - 1], stint.half)
        second = stint.row == opening.first_row and before is not None and before.row == stint.row
        turned = before is not None and before.row > stint.row
        if turned:
            said.append(turning_words(stint.half, stint.row))
        if turned or second:
            said.append(holding_words(stint, held=turned and stint.row > 1))
            said.append(joining_words(part, _inner(opening)))
        elif stint.row == opening.first_row and not (before and before.row == stint.row):
            across, others = _goes_across(stints, stint), _others(plan, stint, part)
            said.append(parting_words(opening.divide, stint.half, across=across, others=others))
        said.append(_of_stint(chart, plan, stint, terms, first=stint.row == opening.first_row))
        if second:
            said.append(onward_words(opening.divide, stint.half))
        said.append(catch_words(chart, plan, part.runs if part else ()))
        if tops[stint.half] is stint and opening.last_row == chart.grid.height:
            said.append(topmost_words(stint, terms))
        yield "; ".join(filter(None, said))


def _in_turn(sides: Sides, stint: Stint) -> bool:
    """Whether a stint is of an opening whose sides are worked one after the other."""
    opening = sides.opening(stint.row)
    return opening is not None and opening.divide.sides is not Order.TOGETHER


def _inner(opening: Opening) -> str:
    """Where the second side's yarn hangs."""
    return phrase("the slit") if opening.divide.by is Parting.NOTHING else phrase("the neck edge")


def _goes_across(stints: list[Stint], stint: Stint) -> bool:
    """Whether the other side of the row is worked at once after this one."""
    after = stints.index(stint) + 1
    return after < len(stints) and stints[after].row == stint.row


def _others(plan: Plan, stint: Stint, part: PartPlan | None) -> int:
    """The stitches of the row below that the first stint of the row that parts the work does not come to."""
    if stint.row == 1:
        return 0
    own = stitches_of(plan, part.runs if part else ()) - sum(change.net for change in stint.changes)
    return stitches_of(plan, plan.rows[stint.row - 2].runs) - own


def _of_stint(chart: Chart, plan: Plan, stint: Stint, terms: Terms, *, first: bool) -> str:
    row = plan.rows[stint.row - 1]
    here = _part(row, stint.half) if stint.half else None
    below = _part(plan.rows[stint.row - 2], stint.half) if stint.half and not first else None
    before = stitches_of(plan, below.runs) if below else None
    return stint_words(chart, stint, before, stitches_of(plan, here.runs) if here else 0, terms)
