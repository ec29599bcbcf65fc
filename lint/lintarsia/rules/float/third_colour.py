"""float/third-colour: stranded rows with more than two colours."""

from collections.abc import Iterator
from dataclasses import field

import numpy as np

from lintarsia.chart import Technique
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.telling.counts import one_and_all


@dataclass(frozen=True, slots=True)
class Options:
    most: int = field(default=2, metadata={"help": "most colours in one stranded row"})


INFO = RuleInfo(
    name="float/third-colour",
    level=Level.WARNING,
    summary="a stranded row works with more than two colours",
    why=(
        "Two yarns are held, one in each hand or both in one. A third has to be put down and taken up again, its "
        "floats are long, and behind every stitch lie two strands: the row is slower, thicker and less elastic."
    ),
    remedy="keep to two colours a row, or work the third in duplicate stitch afterwards",
    keys={"too-many-colours": "a row has more colours than can be held"},
    sources=("common practice: two colours a row by tradition",),
    judges_by=frozenset({Basis.SYMBOLS}),
)


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding a row, in stranded charts only: elsewhere every block has its own supply."""
    chart = work.chart
    if chart.technique is not Technique.STRANDED:
        return
    ordered = np.sort(chart.grid.cells, axis=1)
    kinds = 1 + np.count_nonzero(ordered[:, 1:] != ordered[:, :-1], axis=1)  # no stitch counts as one, for now
    for index in np.flatnonzero(kinds > options.most).tolist():
        cells = chart.grid.cells[index]
        codes = np.unique(cells[cells >= 0])
        if len(codes) <= options.most:
            continue
        row, text = index + 1, chart.grid.rows[index]
        colours = one_and_all([chart.grid.symbols[code] for code in codes])
        usual = "two are usual" if options.most == 2 else f"the settings allow {options.most}"
        message = f"{chart.row_name(row)} works with {len(codes)} colours, {colours}; {usual}"
        yield Finding("too-many-colours", message, chart.places.row(row), row, (1, len(text)), pattern=text)
