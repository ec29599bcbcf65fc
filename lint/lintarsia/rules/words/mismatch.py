"""words/mismatch: the written rows against the chart, stitch by stitch."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.written_once import as_charted, once
from lintarsia.telling.counts import count, stitch_count

if TYPE_CHECKING:
    from lintarsia.written.row import WrittenRow

Options = NoOptions
INFO = RuleInfo(
    name="words/mismatch",
    level=Level.ERROR,
    summary="a written row is not the row of the chart",
    why=(
        "Some knitters follow the chart, others the words. Where the two differ one of them makes another picture, and "
        "neither knows which is meant: most corrections to printed patterns are of this kind."
    ),
    remedy="change the words or the chart, whichever is wrong; `lintarsia write` gives the row as the chart has it",
    keys={
        "stitch-differs": "a stitch has another colour in the words than in the chart",
        "ends-early": "the words agree as far as they go and end before the row does",
        "goes-on": "the words agree with the chart and go on beyond it",
        "uneven-repeat": "a repeat in the words does not come out even in the stitches of the row",
    },
    sources=("common practice: a technical editor reads written rows against the chart",),
    judges_by=frozenset({Basis.SYMBOLS, Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row that differs, at its first differing stitch in working order.

    Where the words are the row from its other end, are another row, or come to another count, words/side and
    words/wrong-count say so, and one slip is one result.
    """
    yield from once((row, finding) for row in work.written for finding in _of_row(work, row))


def _of_row(work: Work, row: "WrittenRow") -> Iterator[Finding]:
    if row.made is None or row.count_is_off or row.turned_round or row.is_another(work.chart):
        return
    name = row.name
    if row.made.uneven:
        yield _uneven(work, row, name)
    elif row.differs_at is not None:
        yield _differs(work, row, row.differs_at, name)


def _uneven(work: Work, row: "WrittenRow", name: str) -> Finding:
    assert row.made is not None
    uneven = row.made.uneven[0]
    goal = "the end" if not uneven.left else f"the last {stitch_count(uneven.left)}"
    if uneven.over > 0:
        left = "is" if uneven.over == 1 else "are"
        found = f"after {count(uneven.times, 'time')} {stitch_count(uneven.over)} {left} left"
    else:
        found = f"{count(uneven.times, 'time')} takes {stitch_count(-uneven.over)} too many"
    message = f"{name}: a repeat to {goal} does not come out even: {found}; {row.both}"
    return _finding("uneven-repeat", message, work, row, None)


def _differs(work: Work, row: "WrittenRow", at: int, name: str) -> Finding:
    words, chart = row.symbols, row.charted
    counts = f"the words come to {stitch_count(len(words))}, the chart's row has {len(chart)}"
    if at == len(words):
        stitch = row.stitches[at]
        message = f"{name}: the words end before stitch {stitch}, {_colour(work, chart[at])}; {counts}; {row.both}"
        return _finding("ends-early", message, work, row, stitch)
    if at == len(chart):
        message = f"{name}: the words go on after the last stitch; {counts}; {row.both}"
        return _finding("goes-on", message, work, row, None)
    stitch = row.stitches[at]
    charted, written = _colour(work, chart[at]), _colour(work, words[at])
    counts = f"{counts}; " if len(words) != len(chart) else ""
    message = f"{name}: stitch {stitch} is {charted} in the chart and {written} in the words; {counts}{row.both}"
    return _finding("stitch-differs", message, work, row, stitch)


def _finding(key: str, message: str, work: Work, row: "WrittenRow", stitch: int | None) -> Finding:
    return Finding(
        key,
        message,
        row.region,
        row.row,
        None if stitch is None else (stitch, stitch),
        fixes=as_charted(work, row),
        pattern=f"{row.words}\n{row.charted}",
    )


def _colour(work: Work, symbol: str) -> str:
    colour = work.chart.colours.get(symbol)
    return symbol if colour is None or colour.name == symbol else f"{symbol} ({colour.name})"
