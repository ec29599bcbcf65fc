"""words/side: what a written row says of its own number and side, its direction, and whether it knits or purls."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.chart import Worked
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.citing import CHART_DIRECTIONS
from lintarsia.rules.shared.written_once import as_charted, once
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.written.row import WrittenRow

Options = NoOptions
INFO = RuleInfo(
    name="words/side",
    level=Level.ERROR,
    summary="a written row is on another side than in the chart, or is worked from the wrong end",
    why=(
        "Wrong-side rows are worked left to right on the chart and purled. Words for the other side turn the row "
        "round: every stitch lands in the mirror-image place, or its bump on the wrong face of the fabric."
    ),
    remedy="write each row in the order in which it is worked; `lintarsia write` gives it",
    keys={
        "wrong-side": "the words name the other side",
        "wrong-row": "the words name another row",
        "wrong-direction": "the words are right when they are worked from the other end",
        "wrong-stitch": "the row is knitted where stocking stitch purls, or the other way round",
        "other-stitch": "a stitch is knitted where the chart's `stitches` have it purled, or the other way round",
    },
    sources=(f"{CHART_DIRECTIONS}: RS right to left, WS left to right, rounds all right to left",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """Findings for each row; where all wrong-side rows are knitted, one for them all, since that may be meant."""
    yield from once((row, finding) for row in work.written for finding in _of_row(work, row))
    other = [row for row in work.written if row.spoken and not list(_of_row(work, row)) and _worked_otherwise(row)]
    if len(other) > 1 and len(other) == len([row for row in work.written if row.usual == other[0].usual]):
        yield _stitch(work, other)
    else:
        yield from once((row, _stitch(work, [row])) for row in other)


def _of_row(work: Work, row: "WrittenRow") -> Iterator[Finding]:
    if row.spoken is None:
        return
    yield from _label(work, row)
    if row.turned_round:
        yield _direction(work, row)
    elif (at := row.worked_otherwise_at) is not None:
        yield _other_stitch(work, row, at)


def _label(work: Work, row: "WrittenRow") -> Iterator[Finding]:
    assert row.spoken is not None
    label, chart = row.spoken.label, work.chart
    name = row.name
    if label.rows and row.row not in label.rows:
        said = one_and_all([str(number) for number in label.rows[:4]])
        message = f"{name}: the words call it {row_word(chart)} {said}"
        yield Finding("wrong-row", message, row.region, row.row, pattern=row.words)
        return
    side = str(chart.side(row.row))
    if label.side and label.side != side:
        shown = (
            "shows the right side, as every round does" if chart.worked is Worked.ROUND else f"is {side} in the chart"
        )
        message = f"{row_word(chart)} {row.row} {shown}; the words say {label.side}"
        yield Finding("wrong-side", message, row.region, row.row, pattern=row.words)


def _direction(work: Work, row: "WrittenRow") -> Finding:
    chart = work.chart
    way = "right to left" if chart.leftward(row.row) else "left to right"
    message = f"{row.name} is worked {way}; the words are the row from its other end; {row.both}"
    pattern = f"{row.words}\n{row.charted}"
    return Finding("wrong-direction", message, row.region, row.row, fixes=as_charted(work, row), pattern=pattern)


def _other_stitch(work: Work, row: "WrittenRow", at: int) -> Finding:
    said = {"k": "purled in the chart and knitted in the words", "p": "knitted in the chart and purled in the words"}
    stitch = row.stitches[at]
    assert row.made is not None
    message = f"{row.name}: stitch {stitch} is {said[row.made.kinds[at]]}"
    fixes, place = as_charted(work, row), (stitch, stitch)
    return Finding("other-stitch", message, row.region, row.row, place, fixes=fixes, pattern=row.words)


def _worked_as(row: "WrittenRow") -> str:
    """k or p where the whole row is worked so; "" for a row with both, with neither, or with nothing said."""
    assert row.made is not None
    kinds = set(row.made.kinds) - {""}
    return kinds.pop() if len(kinds) == 1 and kinds <= {"k", "p"} else ""


def _worked_otherwise(row: "WrittenRow") -> bool:
    return not row.kinds and _worked_as(row) not in ("", row.usual)


def _stitch(work: Work, rows: "list[WrittenRow]") -> Finding:
    chart, first = work.chart, rows[0]
    said, usual = ("purled", "knits") if first.usual == "k" else ("knitted", "purls")
    if len(rows) == 1:
        message = f"{first.name} is {said} in the words; stocking stitch {usual} it"
    else:
        numbers = [str(row.row) for row in rows[:6]] + (["others"] if len(rows) > 6 else [])
        side = "" if chart.worked is Worked.ROUND else f" ({chart.side(first.row)})"
        message = (
            f"{row_word(chart)}s {one_and_all(numbers)}{side} are {said} in the words; stocking stitch {usual} them"
        )
    remedy = "write p on the wrong side and k on the right, or accept it where another fabric is meant"
    return Finding("wrong-stitch", message, first.region, first.row, None, Level.WARNING, remedy, pattern=first.words)
