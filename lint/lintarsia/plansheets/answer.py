"""What the plan command was asked, and its answer as one text. Each form is imported only when it is wanted."""

from collections.abc import Callable

from lintarsia.chart import HOUSE_RECKONING, Chart, Limits, Reckoning
from lintarsia.ground.values import dataclass
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.reporting.screen import PLAIN, Screen

FORMATS = ("text", "json", "csv", "csv-rows")
Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Question:
    """`tries` are limits to compare, `largest` the most stitches of a small area to weigh (None: no weighing).

    `whole` lists every supply and row in the text, and weighs every area, however many; `window` has the first and the
    last row to list alone. The rest is how yarn is reckoned.
    """

    format: str = "text"
    tries: tuple[Limits, ...] = ()
    largest: int | None = None
    whole: bool = False
    window: tuple[int, int] | None = None
    reckoning: Reckoning = HOUSE_RECKONING

    def plan(self, chart: Chart) -> Plan:
        """The plan of a chart, reckoned so."""
        return make_plan(chart, self.reckoning)


def answer(chart: Chart, asked: Question, screen: Screen = PLAIN, progress: Progress | None = None) -> str:
    """The answer, with a final newline. `progress` hears of long weighings."""
    if asked.tries:
        return _compare(chart, asked, screen)
    plan = asked.plan(chart)
    if asked.largest is not None:
        return _weigh(chart, plan, asked, screen, progress)
    if asked.format == "json":
        return _json(chart, plan, asked)
    if asked.format in ("csv", "csv-rows"):
        from lintarsia.plansheets.csv import rows_csv, supplies_csv

        return supplies_csv(chart, plan) if asked.format == "csv" else rows_csv(plan, asked.window)
    from lintarsia.plansheets.text import plan_text

    return plan_text(chart, plan, screen, whole=asked.whole, allowance=asked.reckoning.allowance, window=asked.window)


def _compare(chart: Chart, asked: Question, screen: Screen) -> str:
    from lintarsia.plansheets.sidebyside import compare_documents, compare_text, try_limits

    columns = try_limits(chart, asked.tries, asked.plan)
    if asked.format == "text":
        return compare_text(chart, columns, screen)
    return _json(chart, columns[0].plan, asked, tries=compare_documents(columns))


def _weigh(chart: Chart, plan: Plan, asked: Question, screen: Screen, progress: Progress | None) -> str:
    from lintarsia.planning.what_if import number_of_areas, weigh_areas
    from lintarsia.plansheets.choices import MOST_WEIGHED, choices_documents, choices_text

    assert asked.largest is not None
    most = None if asked.whole else MOST_WEIGHED
    areas = weigh_areas(chart, plan, largest=asked.largest, most=most, reckoning=asked.reckoning, progress=progress)
    left_out = number_of_areas(chart, plan, asked.largest) - len(areas)
    if asked.format == "text":
        return choices_text(chart, plan, areas, screen, left_out)
    return _json(chart, plan, asked, what_if=choices_documents(areas), what_if_left_out=left_out)


def _json(chart: Chart, plan: Plan, asked: Question, **more: object) -> str:
    from lintarsia.plansheets.json import plan_json

    return plan_json(chart, plan, allowance=asked.reckoning.allowance, tail_mm=asked.reckoning.tail_mm, **more)
