"""grid/parted-row: squares without a stitch that part a row in two."""

import re
from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Chart, Worked
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.shaping import ChangeKind
from lintarsia.ground.values import dataclass
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word

INFO = RuleInfo(
    name="grid/parted-row",
    level=Level.NOTE,
    summary="squares without a stitch stand between the stitches of a row",
    why=(
        "Such squares are skipped, so the stitches on both sides are taken for neighbours: one yarn works across. That "
        "is right for a decrease inside the row. A neckline or a slit parts the fabric: each side then needs its own "
        "yarns."
    ),
    remedy="leave it where stitches are only drawn apart; where the fabric is parted, say so in `divide`",
    keys={"parted": "a gap between stitches of a row"},
    sources=("no stitch takes no yarn and breaks no run: the chart format",),
)


@dataclass(frozen=True, slots=True)
class Options:
    squares: int = field(default=3, metadata={"help": "least squares without a stitch that count as a gap"})


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for each stretch of rows that follow each other with a gap, at the lowest of them.

    Silent where `divide` parts the rows or tries to, where stitches end in the gap (then it is no drawing apart, and
    grid/opening says so), and over the decreases of a crown.
    """
    chart = work.chart
    if "." not in work.text:
        return
    from lintarsia.rules.shared.taken_off import parting_told, taken_off_inside

    gap = re.compile(rf"(?<=[^.])\.{{{max(1, options.squares)},}}(?=[^.])")
    start, first = 0, None
    ended = {row for row, _ in taken_off_inside(work)}
    for row, text in enumerate((*chart.grid.rows, ""), 1):
        parted = row <= chart.grid.height and work.sides.opening(row) is not None
        found = gap.search(text) if "." in text and not parted else None
        if found and not start:
            start, first = row, found
        elif start and not found:
            assert first is not None
            if start not in ended and not parting_told(work, start) and not _crown(chart, start):
                yield _finding(chart, start, row - 1, first)
            start = 0


def _crown(chart: Chart, row: int) -> bool:
    """Whether the gaps of a row are what declared decreases have left. A neck has but one; a round cannot be parted."""
    from lintarsia.chart.sides import row_changes

    line, flat = chart.grid.rows[row - 1], chart.worked is Worked.FLAT
    gaps = [gap for gap in re.split(r"[^.]+", line.strip(NO_STITCH_SYMBOL) if flat else line) if gap]
    declared = [change for r in range(1, row + 1) for change in row_changes(chart, r) if change.edge is None]
    decreased = sum(change.stitches for change in declared if change.kind is ChangeKind.DECREASE)
    return (len(gaps) > 1 or not flat) and decreased == sum(map(len, gaps))


def _finding(chart: Chart, start: int, end: int, gap: re.Match[str]) -> Finding:
    length = len(chart.grid.rows[start - 1])
    stitches = (length - gap.end() + 1, length - gap.start())
    name = row_word(chart)
    where = f"{name} {start} has" if start == end else f"{name}s {start}–{end} have"
    squares = count(len(gap[0]), "square")
    message = f"{where} {squares} without a stitch between stitches; the yarn is taken to work straight across"
    return Finding("parted", message, chart.places.cells(start, *stitches), start, stitches, pattern=gap.string)
