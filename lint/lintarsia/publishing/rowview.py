"""The rows of a chart as its page tells them: the stitches run by run, and how the yarns hang."""

from dataclasses import dataclass

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.publishing.keyview import Key
from lintarsia.publishing.words import side_words

# Above this, a page that drew a key beside every run would weigh megabytes: runs are then told in symbols alone.
MOST_DRAWN_RUNS = 12_000


@dataclass(frozen=True, slots=True)
class RunView:
    stitches: int
    key: int  # the number of its colour's drawing on the page
    name: str


@dataclass(frozen=True, slots=True)
class YarnView:
    """A supply as it hangs in a row. `hang` is the number of its drawing on the page."""

    id: str
    hang: int
    new: bool
    last: bool


@dataclass(frozen=True, slots=True)
class RowView:
    number: int
    side: str
    leftward: bool
    runs: tuple[RunView, ...]
    terse: str  # instead of `runs` in a chart of very many
    yarns: tuple[YarnView, ...]
    waiting: tuple[YarnView, ...]
    interlocks: int
    crossings: int


def row_views(chart: Chart, plan: Plan, key: Key) -> list[RowView]:
    """Every row from row 1 up."""
    drawn = len(plan.runs) <= MOST_DRAWN_RUNS
    return [_row(chart, plan, row, key, drawn) for row in plan.rows]


def _row(chart: Chart, plan: Plan, row: RowPlan, key: Key, drawn: bool) -> RowView:
    runs = [plan.runs[number] for number in row.runs]
    joins, finishes = set(row.joins), set(row.finishes)

    def yarn(name: str) -> YarnView:
        return YarnView(name, key.hang[name], name in joins, name in finishes)

    return RowView(
        number=row.row,
        side=side_words(chart, row.row),
        leftward=row.direction == "right-to-left",
        runs=tuple(RunView(run.stitches, key.number[run.colour], key.name[run.colour]) for run in runs)
        if drawn
        else (),
        terse="" if drawn else ", ".join(f"{run.stitches} {run.colour}" for run in runs),
        yarns=tuple(map(yarn, row.line_up)),
        waiting=tuple(map(yarn, row.waiting)),
        interlocks=row.interlocks,
        crossings=row.crossings,
    )
