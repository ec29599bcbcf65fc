"""repeat/odd-rows: a repeat that turns its sides round each time it is worked."""

from collections.abc import Iterator

from lintarsia.chart import Worked
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.citing import CHART_DIRECTIONS

Options = NoOptions
INFO = RuleInfo(
    name="repeat/odd-rows",
    level=Level.NOTE,
    summary="a repeat worked back and forth has an odd number of rows",
    why=(
        "Back and forth, an odd number of rows leaves the knitter on the other side: the second time every right-side "
        "row of the repeat is a wrong-side row and is read the other way. It can be done, but the chart's row numbers "
        "then stand at the wrong ends."
    ),
    remedy="add a row to the repeat, or draw it twice; leave it if the repeat is worked once, or only side by side",
    keys={"odd-rows": "right and wrong side change places from one repeat to the next"},
    sources=(f"{CHART_DIRECTIONS}: flat charts have their numbers on the side where the row begins",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding, at the repeat's rows, for work that is turned at the end of each row."""
    chart, repeat = work.chart, work.chart.repeat
    if repeat is None or chart.worked is Worked.ROUND:
        return
    first, last = repeat.rows
    rows = last - first + 1
    if rows % 2 and rows > 1:
        side = chart.side(first)
        message = (
            f"the repeat has {rows} rows; worked again, its row {first} is on the {side.other.words} instead of the "
            f"{side.words}"
        )
        yield Finding("odd-rows", message, chart.places.value("repeat", "rows"), pattern=f"{rows} rows")
