"""grid/row-slip: a row that seems to be shifted, mirrored, exchanged with the next, doubled or left out."""

from collections.abc import Iterator
from dataclasses import field
from typing import TYPE_CHECKING

from lintarsia.chart import Chart
from lintarsia.chart.grid import MISSING, NO_STITCH_SYMBOL
from lintarsia.ground.kinds import Kind
from lintarsia.ground.values import dataclass
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.repeats_across import SlipAcross, slip_across
from lintarsia.rules.shared.rows_alike import SlipAlike, slip_alike
from lintarsia.rules.shared.slips import CERTAIN, DOUBTFUL, ENOUGH, SURE, Slip, filled, find_slip
from lintarsia.telling.counts import count, one_and_all, stitch_count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.pattern.work import About, PatternWork
    from lintarsia.rules.shared.late_rows import Late
    from lintarsia.rules.shared.rows_before import SlipSince

INFO = RuleInfo(
    name="grid/row-slip",
    level=Level.WARNING,
    summary="a row fits only if a slip in it is undone",
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
        "doubled": (
            "a row stands there twice: by the shaping above, by rows that ought to be alike, by other sizes of the "
            "piece, by the last commit"
        ),
        "left-out": "a row is missing, by the same evidence",
    },
    sources=("house values, measured on planted slips: benchmarks/row_slips.py",),
    subjects=(Kind.CHART, Kind.PATTERN),
)

# Of guesses of this score, how many were right where every second picture had a slip: measured on motifs, glyphs,
# digits and blocks, see benchmarks/row_slips.py --confidence. What is wrong more often than one time in ten is a note.
RIGHT = ((CERTAIN, "nearly always"), (SURE, "9 times in 10"), (ENOUGH, "2 times in 3"), (DOUBTFUL, "1 time in 3"))


@dataclass(frozen=True, slots=True)
class Options:
    doubtful: bool = field(
        default=False, metadata={"help": "whether guesses that are wrong more often than right are told too, as notes"}
    )


def check(work: Work, options: Options) -> Iterator[Finding]:
    """At most one finding, by the surest evidence: the last commit, the shaping, rows alike, the picture."""
    chart = work.chart
    if (before := work.committed) is not None:
        from lintarsia.rules.shared.rows_before import slip_since

        if (since := slip_since(_even(before), _even(chart))) is not None:
            yield _since(chart, since)
            return
    if chart.shaping:
        from lintarsia.rules.shared.late_rows import late_rows

        if (late := late_rows(chart)) is not None:
            yield _late(chart, late)
            return
    if not chart.grid.whole and int(chart.grid.cells.min()) == MISSING:
        return  # a row is short, and grid/stitch-count says so
    cells = chart.grid.cells if chart.grid.whole else filled(chart.grid.cells)
    if cells is None:
        return
    if (alike := slip_alike(cells)) is not None:
        yield _alike(chart, alike)
    elif chart.repeat is None and (across := slip_across(cells)) is not None:  # a stated one is repeat/broken-copy's
        yield _across(chart, across)
    elif (slip := find_slip(cells, DOUBTFUL if options.doubtful else ENOUGH)) is not None:
        yield _slip(chart, slip)


def check_pattern(work: "PatternWork", options: Options) -> "Iterator[About]":
    """At most one finding for each chart of a piece, by the charts that its other sizes have, told at the chart's row.

    What the chart's own check tells no less gravely, or the chart accepts, is not told again.
    """
    if all(len({*piece.charts.values()}) < 2 for piece in work.pattern.pieces.values()):
        return
    from lintarsia.rules.shared.told_by_sizes import Asked, told_by_sizes

    yield from told_by_sizes(work, Asked(INFO.name, check, options))


def _even(chart: Chart) -> tuple[str, ...]:
    """The rows, each as wide as the widest."""
    return tuple(row.rjust(chart.grid.width, NO_STITCH_SYMBOL) for row in chart.grid.rows)


def _alike(chart: Chart, slip: SlipAlike) -> Finding:
    row, name, word = slip.row, chart.row_name(slip.row), row_word(chart)
    match slip.kind:
        case "swapped":
            said = f"but for {name} and {word} {row + 1}, {slip.told}; exchanged, they would keep it"
        case "mirrored":
            said = f"but for {name}, {slip.told}; the other way round it would keep it: it looks mirrored"
        case "doubled":
            said = f"without {name}, {slip.told}: it seems doubled"
        case "left-out":
            said = f"with a {word} more {_gone(chart, row)}, {slip.told}: one seems left out"
        case _:
            way, back = ("right", "left") if slip.by > 0 else ("left", "right")
            said = f"but for {name}, {slip.told}; {stitch_count(abs(slip.by))} further to the {back} it would keep it: "
            said += f"it looks shifted to the {way}"
    text = chart.grid.rows[row - 1]
    return Finding(slip.kind, said, chart.places.row(row), row, (1, len(text)), pattern=text)


def _across(chart: Chart, across: SlipAcross) -> Finding:
    slip, row, word = across.slip, across.slip.row, row_word(chart)
    first, last = chart.grid.stitch(across.left + across.step - 1), chart.grid.stitch(across.left)
    there = f"in stitches {first}–{last} {chart.row_name(row)}"
    others = f"the other repeats of {stitch_count(across.step)}"
    match slip.kind:
        case "swapped":
            said = f"{there} and {word} {row + 1} have changed places against {others}"
        case "mirrored":
            said = f"{there} is the other way round than in {others}: it looks mirrored"
        case "copied":
            said = f"{there} is as the {word} beside it, and another in {others}: it seems doubled"
        case _:
            way = "right" if slip.by > 0 else "left"
            said = f"{there} stands {stitch_count(abs(slip.by))} further to the {way} than in {others}: "
            said += "it looks shifted"
    region, text = chart.places.cells(row, first, last), chart.grid.text(row, first, last)
    return Finding(KEYS.get(slip.kind, slip.kind), said, region, row, (first, last), pattern=text)


KEYS = {"copied": "doubled"}


def _since(chart: Chart, slip: "SlipSince") -> Finding:
    row, name, word = slip.row, chart.row_name(slip.row), row_word(chart)
    match slip.kind:
        case "swapped":
            said = f"{name} and {word} {row + 1} have changed places since the last commit, and nothing beside them has"
        case "mirrored":
            said = f"{name} is the other way round than in the last commit, and nothing beside it is"
        case "copied":
            said = f"{name} is as the {word} beside it; in the last commit it is another, and nothing beside it is"
        case "doubled":
            said = f"{name} has come since the last commit and is as {word} {row - 1}: it seems doubled"
        case "left-out":
            said = f"a {word} of the last commit is gone {_gone(chart, row)}, and nothing else has changed"
        case _:
            way = "right" if slip.by > 0 else "left"
            said = f"{name} stands {stitch_count(abs(slip.by))} further to the {way} than in the last commit, "
            said += "and nothing beside it has moved"
    level = Level.NOTE if slip.kind in ("doubled", "left-out") else Level.WARNING  # one row more is often meant
    text = chart.grid.rows[row - 1]
    key = KEYS.get(slip.kind, slip.kind)
    return Finding(key, said, chart.places.row(row), row, (1, len(text)), level, pattern=text)


def _gone(chart: Chart, row: int) -> str:
    word = row_word(chart)
    if row == 1:
        return f"below {word} 1"
    return f"between {word}s {row - 1} and {row}"


def _slip(chart: Chart, slip: Slip) -> Finding:
    row = slip.row
    right = next(said for score, said in RIGHT if slip.score >= score)
    message = f"{_said(chart, slip)}; such a guess was right {right} where every second picture had a slip"
    level = Level.WARNING if slip.score >= SURE else Level.NOTE
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
