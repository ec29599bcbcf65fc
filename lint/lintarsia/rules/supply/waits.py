"""supply/waits: supplies that rest for rows while others work."""

from collections.abc import Iterator
from dataclasses import field

import numpy as np

from lintarsia.chart import Technique
from lintarsia.chart.grid import RowNumber
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.rules.shared.planned import stretch
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import length_in
from lintarsia.telling.names import row_word, rows_words


@dataclass(frozen=True, slots=True)
class Options:
    rows: int = field(default=1, metadata={"help": "from how many rows of rest on, in intarsia and mixed charts"})
    stranded_rows: int = field(default=7, metadata={"help": "the same in stranded charts, where a rest is usual"})


INFO = RuleInfo(
    name="supply/waits",
    level=Level.OFF,
    summary="a supply hangs unused for some rows and is then taken up again",
    why=(
        "A yarn that rests is in the way of the others, is easily taken up too soon or cut too early, and lies as a "
        "short ladder up the back when it is used again: drawn too tight it puckers the fabric."
    ),
    remedy="leave it hanging with a marker and take it up loosely, or finish it and join a new supply",
    keys={"rests": "a supply is not used in some rows between its first and its last"},
    sources=("common practice",),
    judges_by=frozenset({Basis.SYMBOLS, Basis.GAUGE}),
    subjects=(Kind.CHART, Kind.PATTERN),
)


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for the chart, at its longest rest. Its level is off: the row table says of every row what rests."""
    chart, threads = work.chart, work.plan.threads
    runs, cover = threads.runs, threads.cover
    stranded = chart.technique is Technique.STRANDED
    rests = np.flatnonzero(cover.idle >= max(1, options.stranded_rows if stranded else options.rows))
    if not len(rests):
        return
    longest = rests[np.argmax(cover.idle[rests])]
    first, column = int(runs.row[longest]) + 2, int(runs.exit[longest])
    rows = range(first, first + int(cover.idle[longest]))
    name = threads.ids(chart.grid.symbols)[int(cover.supply[longest])]
    height = length_in(chart, len(rows) * chart.gauge.row_mm)
    message = (
        f"{name} rests in {rows_words(row_word(chart), rows)} and is taken up again in "
        f"{row_word(chart)} {rows[-1] + 1}, {height} higher"
    )
    if len(rests) > 1:
        supplies = count(len(np.unique(cover.supply[rests])), "supply", "supplies")
        message = f"yarns rest {count(len(rests), 'time')} ({supplies}); the longest: {message}"
    place = stretch(chart, RowNumber(first - 1), column, column)
    here = chart.grid.stitch(column)
    yield Finding("rests", message, place.region, first - 1, (here, here), pattern=f"{name[0]} {len(rows)}")


check_pattern = on_pieces(INFO.name, check)
