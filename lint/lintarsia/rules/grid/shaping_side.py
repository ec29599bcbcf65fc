"""grid/shaping-side: shaping declared at one edge and drawn at the other, or drawn at no edge in particular."""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word

Options = NoOptions
INFO = RuleInfo(
    name="grid/shaping-side",
    level=Level.WARNING,
    summary="shaping is drawn at another edge than it is declared for",
    why=(
        "Left and right are those of the chart as printed. A decrease worked at the wrong edge slants the wrong way "
        "and moves the whole picture by a stitch, although the count is right."
    ),
    remedy="exchange left and right in `shaping`, or move the `.` squares to the other edge",
    keys={
        "other-edge": "the edges of the grid move otherwise than declared",
        "unpadded-row": "a shaped row is written without `.` where it is narrower, so its place is a guess",
    },
    sources=("common practice: a chart shows the right side, so its right edge is where right-side rows begin",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row whose declared change is drawn at its edges with left and right otherwise shared out.

    Silent where the edges do not account for the change: then it is made inside the row, or the count is wrong. Rows
    without `.` stand with their stitch 1 in line, whatever is declared: the first of them says so, once for the chart.
    """
    rows = work.chart.grid.rows
    unpadded = False
    for row, shaping in sorted(work.chart.shaping.items()):
        if not 2 <= row <= len(rows):
            continue
        below, here = rows[row - 2], rows[row - 1]
        if not unpadded and shaping.net and len(here) == len(below) + shaping.net and shaping.left != shaping.net:
            unpadded = True
            yield _unpadded(work.chart, row, below, here)
        if shaping.left is None or shaping.right is None:
            continue
        if len(below) != len(here) or not here.strip(NO_STITCH_SYMBOL) or not below.strip(NO_STITCH_SYMBOL):
            continue
        left, right = _left(below) - _left(here), _left(below[::-1]) - _left(here[::-1])
        if left + right == shaping.net and (left, right) != (shaping.left, shaping.right):
            name = row_word(work.chart)
            message = (
                f"{name} {row} is drawn with {left:+d} at the left edge and {right:+d} at the right; "
                f"declared are left {shaping.left:+d} and right {shaping.right:+d}"
            )
            region = work.chart.places.row(row)
            yield Finding("other-edge", message, region, row, (1, len(here)), pattern=f"{below} {here}")


def _unpadded(chart: Chart, row: int, below: str, here: str) -> Finding:
    name = row_word(chart)
    message = (
        f"{name} {row} is {count(len(here), 'square')} wide and {name} {row - 1} is {len(below)}; "
        "shaped rows without `.` are read with their stitch 1 in line"
    )
    remedy = "write a `.` for every square without a stitch, so that each edge is where you mean it"
    region = chart.places.row(row)
    return Finding("unpadded-row", message, region, row, (1, len(here)), Level.NOTE, remedy, pattern=here)


def _left(text: str) -> int:
    """How many squares without a stitch stand at the left."""
    return len(text) - len(text.lstrip(NO_STITCH_SYMBOL))
