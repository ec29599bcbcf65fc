"""supply/crossings: rows before which supplies have to change places."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Technique
from lintarsia.ground.values import dataclass
from lintarsia.planning.rows import crossing_rows
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.telling.counts import count


@dataclass(frozen=True, slots=True)
class Options:
    most: int = field(default=0, metadata={"help": "how many pairs of supplies may change places without a word"})


INFO = RuleInfo(
    name="supply/crossings",
    level=Level.NOTE,
    summary="supplies do not hang in the order in which the row needs them",
    why=(
        "The yarns hang where the rows below left them. Where the row needs them in another order, one has to be "
        "passed over another at the back; passed the wrong way round they twist, and the tangle grows row by row."
    ),
    remedy="lay the yarns out in the row's order before it is begun; the row table has the order",
    keys={"must-cross": "pairs of supplies hang the other way round than the row needs them"},
    sources=("common practice: before each row the supplies are laid out untangled in the order of their use",),
)


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding a row. In stranded knitting the yarns are held, not hung, and cross at every change of colour."""
    chart = work.chart
    if chart.technique is Technique.STRANDED:
        return
    for row, pairs in crossing_rows(chart, work.plan.threads).items():
        if pairs > options.most:
            text = chart.grid.rows[row - 1]
            message = f"{chart.row_name(row)} needs its yarns in another order than they hang in: "
            message += f"{count(pairs, 'pair')} {'has' if pairs == 1 else 'have'} to cross"
            yield Finding("must-cross", message, chart.places.row(row), row, (1, len(text)), pattern=text)
