"""round/intarsia: blocks of colour worked round and round, where their yarn is never at the right end."""

from collections.abc import Iterator

import numpy as np

from lintarsia.chart import Chart, Technique, Worked
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
INFO = RuleInfo(
    name="round/intarsia",
    level=Level.ERROR,
    summary="intarsia is worked in the round",
    why=(
        "In the round every block is worked in the same direction, so its yarn finishes at the far side and is not "
        "there when the next round begins the block. Plain intarsia cannot be worked so."
    ),
    remedy="write `worked: turned` and work the tube back and forth, joined at each turn; or work it flat, or stranded",
    keys={
        "intarsia-in-rounds": "blocks of colour, no stranding, and rounds",
        "out-of-reach": "with stranding, a block whose yarn cannot reach its start in the next round",
    },
    sources=(
        "in the round the yarn finishes at the far side of its block; intarsia tubes are worked back and forth and "
        "joined at each turn: as teachers print it",
    ),
    judges_by=frozenset({Basis.SYMBOLS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for the chart, at `worked`. Rounds of one colour each are stripes and no intarsia."""
    chart = work.chart
    if chart.worked is not Worked.ROUND or chart.technique is Technique.STRANDED:
        return
    blocks = _rounds_with_blocks(chart)
    if not blocks:
        return
    region = chart.places.value("worked")
    if work.bounds.strand == 0:
        rounds = count(len(blocks), "round")
        message = f"blocks of colour in {rounds}, first in round {blocks[0]}; intarsia cannot be worked in the round"
        yield Finding("intarsia-in-rounds", message, region, pattern="intarsia-in-rounds")
        return
    stranded = _out_of_reach(work)
    if stranded:
        symbol, row = stranded[0]
        most = work.bounds.strand
        assert most is not None, "without a bound nothing is out of reach"
        allowed = f"at most {stitch_count(most)} {'is' if most == 1 else 'are'} stranded across"
        message = (
            f"{count(len(stranded), 'block')} cannot be reached by the yarn of the round below, the first being "
            f"{colour_and_symbol(chart, symbol)} in round {row}; {allowed}"
        )
        yield Finding("out-of-reach", message, region, level=Level.WARNING, pattern="out-of-reach")


def _rounds_with_blocks(chart: Chart) -> list[int]:
    cells = chart.grid.cells
    lowest = np.where(cells >= 0, cells, np.iinfo(np.int16).max).min(axis=1)
    rows = np.flatnonzero(lowest < cells.max(axis=1)) + 1
    return [int(row) for row in rows]


def _out_of_reach(work: Work) -> list[tuple[str, int]]:
    """(colour, round) of every run that is joined anew although the round below has the colour."""
    threads = work.plan.threads
    runs = threads.runs
    used = set(zip(runs.row.tolist(), runs.colour.tolist(), strict=True))
    anew = zip(runs.row[threads.first].tolist(), runs.colour[threads.first].tolist(), strict=True)
    symbols = work.chart.grid.symbols
    return [(symbols[colour], row + 1) for row, colour in anew if (row - 1, colour) in used]
