"""repeat/broken-copy: a repeat drawn more than once, whose copies differ in a stitch or two."""

from collections.abc import Iterator
from dataclasses import field

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.names import row_word

INFO = RuleInfo(
    name="repeat/broken-copy",
    level=Level.WARNING,
    summary="the repeat is drawn again beside its box, and not quite the same",
    why=(
        "Whoever follows the box and whoever follows the whole chart knit two different fabrics. Where a copy beside "
        "the box differs in a few stitches, one of the two was corrected and the other forgotten."
    ),
    remedy="make the copies the same, or move the box so that the stitches that differ are edge stitches outside it",
    keys={
        "beside": "a copy of the repeat beside the box differs from it",
        "above-or-below": "a copy of the repeat above or below the box differs from it",
    },
    sources=("a repeat is an outlined box with edge stitches outside: common practice",),
    judges_by=frozenset({Basis.SYMBOLS}),
)


@dataclass(frozen=True, slots=True)
class Options:
    alike: float = field(
        default=0.8, metadata={"help": "share of stitches that must be the same for a stretch to count as a copy"}
    )


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for each row in which a whole copy of the repeat differs from the box, at the stitches that do.

    Only whole copies in the box's own rows, or its own stitches, are looked at, and only those that are mostly alike:
    edge stitches and other patterns are meant to differ.
    """
    chart, repeat = work.chart, work.chart.repeat
    if repeat is None or not chart.grid.regular:
        return
    top, low = repeat.rows[1], repeat.rows[0] - 1
    left, right = chart.grid.width - repeat.stitches[1], chart.grid.width - repeat.stitches[0] + 1
    box = chart.grid.cells[low:top, left:right]
    height, width = box.shape
    if not box.size:
        return
    for start in [*range(left - width, -1, -width), *range(right, chart.grid.width - width + 1, width)]:
        yield from _copy(chart, options, box, low, start, "beside")
    for start in [*range(low - height, -1, -height), *range(top, chart.grid.height - height + 1, height)]:
        yield from _copy(chart, options, box, start, left, "above-or-below")


def _copy(chart: Chart, options: Options, box: NDArray[np.int16], low: int, left: int, key: str) -> Iterator[Finding]:
    height, width = box.shape
    wrong = chart.grid.cells[low : low + height, left : left + width] != box
    if not 0 < np.count_nonzero(wrong) <= (1 - options.alike) * wrong.size:
        return
    for index in np.flatnonzero(wrong.any(axis=1)).tolist():
        columns = np.flatnonzero(wrong[index]) + left
        stitches = (chart.grid.stitch(int(columns[-1])), chart.grid.stitch(int(columns[0])))
        row = low + index + 1
        copy = f"{stitch_count(width)} by {count(height, row_word(chart))}"
        message = (
            f"{row_word(chart)} {row} differs in {stitch_count(len(columns))} from the repeat, "
            f"which is drawn again here ({copy})"
        )
        pattern = f"{key} {chart.grid.text(row, *stitches)}"
        yield Finding(key, message, chart.places.cells(row, *stitches), row, stitches, pattern=pattern)
