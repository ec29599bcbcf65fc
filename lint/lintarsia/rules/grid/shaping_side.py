"""grid/shaping-side: shaping at an edge where it cannot be worked, or drawn at another edge than declared."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.chart import Chart, Worked
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.shaping import FEWEST_BOUND_OFF, Change, ChangeKind, Edge
from lintarsia.ground.kinds import Kind
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.chart.sides import Stint

Options = NoOptions
INFO = RuleInfo(
    name="grid/shaping-side",
    level=Level.WARNING,
    summary="shaping cannot be worked at its edge, or is drawn at another than it is declared for",
    why=(
        "Left and right are those of the chart as printed. A decrease worked at the wrong edge slants the wrong way "
        "and moves the whole picture by a stitch, although the count is right. Several stitches can be bound off only "
        "where a row starts: the yarn is there. Armholes therefore fall on two successive rows."
    ),
    remedy="exchange left and right in `shaping`, or move the `.` squares to the other edge",
    keys={
        "other-edge": "the edges of the grid move otherwise than declared",
        "end-of-row": "stitches are bound off at the edge where the row ends",
        "end-of-side": "a side of an opening binds off at the edge where its part of the row ends",
        "not-at-edge": "stitches are bound off or cast on at an edge that the grid does not move",
        "many-at-once": "three stitches or more are decreased or increased at one edge of a row",
        "unpadded-row": "a shaped row is written without `.` where it is narrower, so its place is a guess",
    },
    sources=(
        "common practice: a chart shows the right side, so its right edge is where right-side rows begin",
        "common practice: stitches are bound off at the beginning of a row, where the yarn is",
    ),
    subjects=(Kind.CHART, Kind.PATTERN),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row whose declared change is drawn at its edges with left and right otherwise shared out.

    Silent where the edges do not account for the change: then it is made inside the row, or the count is wrong. Rows
    without `.` stand with their stitch 1 in line, whatever is declared: the first of them says so, once for the chart.
    And one for each bind-off at the end of a row, or of a side's part of one.
    """
    yield from _late(work)
    yield from _many(work)
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
        outer = shaping.left + shaping.right
        if left + right == outer and (left, right) != (shaping.left, shaping.right):
            name = row_word(work.chart)
            message = (
                f"{name} {row} is drawn with {left:+d} at the left edge and {right:+d} at the right; "
                f"declared are left {shaping.left:+d} and right {shaping.right:+d}"
            )
            region = work.chart.places.row(row)
            yield Finding("other-edge", message, region, row, (1, len(here)), pattern=f"{below} {here}")
        elif left + right != outer and here.count(NO_STITCH_SYMBOL) == below.count(NO_STITCH_SYMBOL) - outer:
            yield from _elsewhere(work, row, {Edge.LEFT: left, Edge.RIGHT: right})


check_pattern = on_pieces(INFO.name, check, outline=True)


def _elsewhere(work: Work, row: int, drawn: dict[Edge, int]) -> Iterator[Finding]:
    """Stitches bound off or cast on at an edge, while the grid has them come or go inside the row."""
    chart = work.chart
    if work.sides.opening(row) or work.sides.opening(row - 1) or work.sides.faults:
        return
    for change in chart.shaping[row].changes:
        if change.edge in drawn and change.kind in _AT_EDGES and drawn[change.edge] != change.net:
            name, done = row_word(chart), "cast on" if change.kind.adds else "bound off"
            shown = "that edge does not move" if not drawn[change.edge] else f"drawn are {drawn[change.edge]:+d} there"
            message = (
                f"{name} {row} has {stitch_count(change.stitches)} {done} at {change.edge.words}; {shown}, and the "
                f"grid has them inside the {name}"
            )
            remedy = "draw them at that edge; what opens or closes inside the row is said in `divide`"
            region = chart.places.row(row)
            yield Finding("not-at-edge", message, region, row, (1, len(chart.grid.rows[row - 1])), remedy=remedy)


_AT_EDGES = (ChangeKind.BIND_OFF, ChangeKind.CAST_ON)


def _many(work: Work) -> Iterator[Finding]:
    """One note for each edge at which more stitches are decreased or increased at once than hands do there."""
    chart = work.chart
    for row, shaping in sorted(chart.shaping.items()):
        for change in shaping.stated:
            plain = change.kind in (ChangeKind.DECREASE, ChangeKind.INCREASE) and not change.name
            if plain and change.edge and change.stitches >= FEWEST_BOUND_OFF:
                yield _at_once(chart, row, change, change.edge)


def _at_once(chart: Chart, row: int, change: Change, edge: Edge) -> Finding:
    verb, usual = ("increases", "cast-on") if change.kind.adds else ("decreases", "bind-off")
    message = (
        f"{chart.row_name(row)} {verb} {stitch_count(change.stitches)} at {edge.words} at once; expected one or two"
    )
    remedy = f"write {{{usual}: {change.stitches}}}, or spread them over several rows"
    stitches = (1, len(chart.grid.rows[row - 1]))
    region = chart.places.key("shaping", str(row))
    return Finding("many-at-once", message, region, row, stitches, Level.NOTE, remedy)


def _late(work: Work) -> Iterator[Finding]:
    """Bind-offs where the yarn is not. A round goes on past its edge, so there they may stand at its end."""
    chart = work.chart
    if chart.worked is Worked.ROUND:
        return
    for row in sorted(chart.shaping):
        for stint in work.sides.stints(row):
            for change in stint.end:
                if change.kind is ChangeKind.BIND_OFF:
                    yield _at_the_end(chart, stint, change)


def _at_the_end(chart: Chart, stint: "Stint", change: Change) -> Finding:
    from lintarsia.rules.shared.moving import moved_up

    row = stint.row
    what = f"{chart.row_name(row)} binds off {stitch_count(change.stitches)} at {stint.ends_at.words}"
    if stint.half is None:
        key, message = "end-of-row", f"{what}, where the row ends; expected {stint.starts_at.words}, where the yarn is"
    else:
        side = f"the {stint.half}-hand side's part of it"
        key, message = "end-of-side", f"{what}, where {side} ends; expected {stint.starts_at.words}, where its yarn is"
    above = f"move it to {chart.row_name(row + 1)}, which starts there" if row < chart.grid.height else None
    remedy = above or f"bind them off in a row that starts at {stint.ends_at.words}"
    stitches = (1, len(chart.grid.rows[row - 1]))
    return Finding(
        key,
        message,
        chart.places.row(row),
        row,
        stitches,
        Level.ERROR,
        remedy,
        fixes=moved_up(chart, stint, change),
        pattern=f"{stint.ends_at} {chart.grid.rows[row - 1]}",
    )


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
