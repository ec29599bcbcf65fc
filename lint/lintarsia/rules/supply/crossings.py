"""supply/crossings: rows before which supplies have to change places."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Technique
from lintarsia.ground.values import dataclass
from lintarsia.planning.rows import crossing_rows
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import spans


@dataclass(frozen=True, slots=True)
class Options:
    most: int = field(default=0, metadata={"help": "how many pairs of supplies may change places without a word"})


INFO = RuleInfo(
    name="supply/crossings",
    level=Level.OFF,
    summary="supplies do not hang in the order in which the row needs them",
    why=(
        "The yarns hang where the rows below left them. Where the row needs them in another order, one has to be "
        "passed over another at the back; passed the wrong way round they twist, and the tangle grows row by row."
    ),
    remedy="lay the yarns out in the row's order before it is begun; the row table has the order",
    keys={"must-cross": "pairs of supplies hang the other way round than the row needs them"},
    sources=("common practice: before each row the supplies are laid out untangled in the order of their use",),
    judges_by=frozenset({Basis.SYMBOLS}),
    subjects=(Kind.CHART, Kind.PATTERN),
)


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for the chart, at the row where most cross. In stranded knitting the yarns are held, not hung, and
    cross at every change of colour. Its level is off: the row table has each row's order.
    """
    chart = work.chart
    if chart.technique is Technique.STRANDED:
        return
    crossing = {row: pairs for row, pairs in crossing_rows(chart, work.plan.threads).items() if pairs > options.most}
    if not crossing:
        return
    row = max(crossing, key=lambda each: (crossing[each], -each))
    rows, word, many = spans(crossing), row_word(chart), len(crossing) > 1
    where = f"{word}s {rows} need their" if many else f"{chart.row_name(row)} needs its"
    most = f", most in {word} {row}" if many else ""
    message = (
        f"{where} yarns in another order than they hang in: "
        f"{count(crossing[row], 'pair')} {'has' if crossing[row] == 1 else 'have'} to cross{most}"
    )
    text = chart.grid.rows[row - 1]
    yield Finding("must-cross", message, chart.places.row(row), row, (1, len(text)), pattern=text)


check_pattern = on_pieces(INFO.name, check)
