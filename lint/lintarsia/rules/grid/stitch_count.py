"""grid/stitch-count: every row against what the row below leaves on the needle."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.chart import Chart, Shaping
from lintarsia.chart.grid import NO_STITCH_SYMBOL, RowNumber
from lintarsia.result import Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.rules.shared.counting import Miscount

Options = NoOptions
INFO = RuleInfo(
    name="grid/stitch-count",
    level=Level.ERROR,
    summary="a row has more or fewer stitches than the row below it leaves",
    why=(
        "The knitter works each row into the stitches of the one below. A row with one stitch too many cannot be "
        "finished, a row with one too few leaves a stitch over, and every row above is off by one against the picture."
    ),
    remedy="put the missing stitch in or take the extra one out; if the count is meant to change, say so in `shaping`",
    keys={
        "row-too-short": "a row has fewer stitches than the row below leaves",
        "row-too-long": "a row has more stitches than the row below leaves",
        "uneven-row": "a row has the right stitches, but its line is longer or shorter than the line below",
    },
    sources=("common practice: a chart's row has as many squares as there are stitches on the needle after it",),
)

UNSHAPED = Shaping(0)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each slip. A row that is back at the count expected before a slip, or that goes on with the count
    the slip left, is not faulted again. Shaping is made in its row: that row already shows the new count. A shaped row
    may do without `.`: its count is right, and where its edges lie is the business of grid/shaping-side. Each side of
    an opening is counted by itself.
    """
    chart = work.chart
    widths = [len(row) for row in chart.grid.rows]
    if NO_STITCH_SYMBOL not in work.text and not chart.shaping and len(set(widths)) == 1:
        return
    from lintarsia.rules.shared.counting import begin, count_on

    strands = begin(work)
    squares = {widths[0]}  # what the row below may have been wide: in truth, or after a slip
    for row in range(2, chart.grid.height + 1):
        strands, slips = count_on(work, RowNumber(row), strands)
        yield from (_wrong_count(chart, slip) for slip in slips if not _told_as_opening(work, slip))
        width, net = widths[row - 1], chart.shaping.get(row, UNSHAPED).net
        if width in squares or width in {before + net for before in squares}:
            squares = squares | {width} if slips else {width}
            continue
        squares |= {width}
        if not slips:
            yield _uneven(chart, row, width, widths[row - 2])


def _told_as_opening(work: Work, slip: "Miscount") -> bool:
    """Whether all that is missing ends in an opening of which grid/opening tells what is amiss."""
    from lintarsia.rules.shared.taken_off import ended_inside, parting_told

    missing = slip.below + slip.net - slip.found
    return slip.half is None and parting_told(work, slip.row) and 0 < missing == ended_inside(work, slip.row)


def _wrong_count(chart: Chart, slip: "Miscount") -> Finding:
    name, row, net = row_word(chart), slip.row, slip.net
    side = f" in its {slip.half}-hand side" if slip.half else ""
    if slip.below + net < 0:
        stated = f"has {slip.below}; to go in {name} {row}: {-net}"
    elif net:
        kind = "increase" if net > 0 else "decrease"
        changes = kind if abs(net) == 1 else count(abs(net), kind)
        stated = f"leaves {slip.below + net} after the {changes} declared in {name} {row}"
    else:
        stated = f"has {slip.below} {'there ' if slip.half else ''}and no shaping is declared"
    message = f"{name} {row} has {stitch_count(slip.found)}{side}; {name} {row - 1} {stated}"
    if slip.found > slip.below + net:
        return _finding("row-too-long", message, chart, row, stitches=slip.stitches)
    from lintarsia.rules.shared.short_rows import completing

    fixes = completing(chart, row) if slip.half is None else ()
    return _finding("row-too-short", message, chart, row, fixes=fixes, stitches=slip.stitches)


def _uneven(chart: Chart, row: int, width: int, below: int) -> Finding:
    name = row_word(chart)
    slip = "missing" if width < below else "too many"
    message = (
        f"{name} {row} is {count(width, 'square')} wide and {name} {row - 1} is {below}; "
        f"its stitches are as many as they should be, so a `.` is {slip}"
    )
    remedy = "write a `.` for every square without a stitch, so that all lines are equally long"
    return _finding("uneven-row", message, chart, row, remedy=remedy)


def _finding(
    key: str,
    message: str,
    chart: Chart,
    row: int,
    remedy: str | None = None,
    fixes: tuple[Fix, ...] = (),
    stitches: tuple[int, int] | None = None,
) -> Finding:
    """Of the whole row, or of a side's stitches."""
    text = chart.grid.rows[row - 1]
    region = chart.places.cells(row, *stitches) if stitches else chart.places.row(row)
    pattern = f"{stitches[0]} {text}" if stitches else text
    return Finding(key, message, region, row, stitches or (1, len(text)), None, remedy, fixes, pattern)
