"""What the plan has of a stint, and whether the yarn that it begins with hangs on the work already."""

from typing import TYPE_CHECKING

from lintarsia.chart import Chart, Reckoning
from lintarsia.chart.sides import Stint

if TYPE_CHECKING:
    from lintarsia.planning.model import PartPlan, Plan, RowPlan


def made_of(plan: "Plan", stint: Stint) -> "RowPlan | PartPlan | None":
    """The plan of a stint; None for a side without a stitch left."""
    row = plan.rows[stint.row - 1]
    if stint.half is None:
        return row
    return next((part for part in row.parts if part.side == stint.half), None)


class Hanging:
    """Whether the yarn that a side begins with hangs on the work already, as the plan has it.

    Words without supplies ask only in the row in which an opening begins, and make the plan for it: it has the last
    word on what is joined.
    """

    def __init__(self, chart: Chart, plan: "Plan | None", reckoning: Reckoning) -> None:
        self.chart, self.plan, self.reckoning = chart, plan, reckoning

    def __call__(self, stint: Stint) -> bool:
        if self.plan is None:
            from lintarsia.planning.planner import make_plan

            self.plan = make_plan(self.chart, self.reckoning)
        made = made_of(self.plan, stint)
        return made is not None and bool(made.line_up) and made.line_up[0] not in made.joins
