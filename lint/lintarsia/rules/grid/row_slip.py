"""grid/row-slip: a row that seems to be shifted, mirrored, exchanged with the next, doubled or left out."""

from collections.abc import Iterator
from dataclasses import field
from typing import TYPE_CHECKING

from lintarsia.chart import Chart
from lintarsia.chart.grid import MISSING
from lintarsia.ground.values import dataclass
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.slips import DOUBTFUL, ENOUGH, Slip, filled, find_slip
from lintarsia.telling.counts import count, one_and_all, stitch_count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.rules.shared.late_rows import Late

INFO = RuleInfo(
    name="grid/row-slip",
    level=Level.WARNING,
    summary="a row fits between its neighbours only if a slip in it is undone",
    why=(
        "Rows are copied, moved and retyped while a chart is drawn. One that has slipped a stitch to the side, or "
        "stands in the place of the next, has the right count and the right colours: nothing else tells of it, and the "
        "picture has a jag."
    ),
    remedy="look at the row beside those below and above it; if it is meant, accept it with a reason",
    keys={
        "shifted": "the row fits if it is moved one or two stitches to the side",
        "mirrored": "the row fits the other way round",
        "swapped": "the row and the next fit if they change places",
        "doubled": "every change of count from some row up comes one row late",
        "left-out": "every change of count from some row up comes one row early",
    },
    sources=("house values, measured on drawn motifs: benchmarks/row_slips.py",),
)

# Of alarms as strong as this, how many in ten were right where every second picture had a slip: measured, see
# benchmarks/row_slips.py --confidence. The doubtful ones are notes, and told on request alone.
RIGHT_IN_TEN = ((4.0, "nearly always"), (ENOUGH, "8 times in 10"), (DOUBTFUL, "4 times in 10"))


@dataclass(frozen=True, slots=True)
class Options:
    doubtful: bool = field(
        default=False, metadata={"help": "whether guesses that are wrong more often than right are told too, as notes"}
    )


def check(work: Work, options: Options) -> Iterator[Finding]:
    """At most one finding by the picture and one by the shaping, each the likeliest."""
    chart = work.chart
    if chart.shaping:
        from lintarsia.rules.shared.late_rows import late_rows

        if (late := late_rows(chart)) is not None:
            yield _late(chart, late)
            return
    if not chart.grid.whole and int(chart.grid.cells.min()) == MISSING:
        return  # a row is short, and grid/stitch-count says so
    cells = chart.grid.cells if chart.grid.whole else filled(chart.grid.cells)
    slip = None if cells is None else find_slip(cells, DOUBTFUL if options.doubtful else ENOUGH)
    if slip is not None:
        yield _slip(chart, slip)


def _slip(chart: Chart, slip: Slip) -> Finding:
    row = slip.row
    right = next(said for score, said in RIGHT_IN_TEN if slip.score >= score)
    message = f"{_said(chart, slip)}; such a guess was right {right} on drawn motifs"
    level = Level.WARNING if slip.score >= ENOUGH else Level.NOTE
    text = chart.grid.rows[row - 1]
    return Finding(slip.kind, message, chart.places.row(row), row, (1, len(text)), level, pattern=text)


def _said(chart: Chart, slip: Slip) -> str:
    name, row = chart.row_name(slip.row), slip.row
    if slip.kind == "swapped":
        return f"{name} and {row_word(chart)} {row + 1} would fit between their neighbours if they changed places"
    between = _between(chart, row)
    if slip.kind == "mirrored":
        return f"{name} would fit {between} if it were the other way round: it looks mirrored"
    way = "right" if slip.by > 0 else "left"
    back = "left" if slip.by > 0 else "right"
    by = stitch_count(abs(slip.by))
    return f"{name} would fit {between} if it stood {by} further to the {back}: it looks shifted to the {way}"


def _between(chart: Chart, row: int) -> str:
    word = row_word(chart)
    if row == 1:
        return f"below {word} 2"
    if row == chart.grid.height:
        return f"above {word} {row - 1}"
    return f"between {word}s {row - 1} and {row + 1}"


def _late(chart: Chart, late: "Late") -> Finding:
    word = row_word(chart)
    when, what = ("late", "doubled") if late.by > 0 else ("early", "left out")
    where = f"between {word}s {late.after} and {late.before}"
    message = f"from {word} {late.before} up every change of count ({late.changes}) comes one {word} {when}"
    message += f": a {word} seems to be {what} {where}"
    if late.by > 0 and late.doubled:
        shown = [str(row) for row in late.doubled[:4]] + (["others"] if len(late.doubled) > 4 else [])
        alike = f"{count(len(late.doubled), word)} there {'is' if len(late.doubled) == 1 else 'are'} as the one below"
        message += f"; {alike}: {one_and_all(shown)}"
    text = chart.grid.rows[late.before - 1]
    key = "doubled" if late.by > 0 else "left-out"
    return Finding(key, message, chart.places.row(late.before), late.before, (1, len(text)), pattern=text)
