"""size/repeat-fit: the cast-on is so many repeats and an edge; the rows are so many repeats of rows and the rest."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.chart import Chart, Worked
from lintarsia.result import Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.pattern.fit import Fit
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.work import About, PatternWork, SizeFault

Options = NoOptions
INFO = RuleInfo(
    name="size/repeat-fit",
    level=Level.ERROR,
    summary="the stitches or rows of a size are not those that its chart and repeats come to",
    why=(
        "With a cast-on that does not hold whole repeats the first patterned row runs out of stitches, or has some "
        "left, and the knitter cannot tell which number is the wrong one."
    ),
    remedy="cast on the repeats and the edge stitches; say `plain` where a motif lies on plain knitting",
    keys={
        "cast-on": "the cast-on is not the repeats and the edge stitches, or not the chart's first row",
        "no-whole-repeat": "the cast-on less the edge stitches, or the rows, hold no whole number of repeats",
        "no-whole-rib": "a rib worked in rounds does not come out even",
        "rows": "the rows are not those of the chart and its repeats",
        "does-not-fit": "the chart reaches beyond the piece where it is said to lie",
        "other-side": "the chart's first row lies on a row of the piece that is worked on the other side",
        "plain-unknown": "the colour around the chart, or of a piece without one, is in no key",
        "too-many-taken": "the piece's shaping takes more stitches than are there",
        "beyond-last-row": "the piece is shaped or parted in a row beyond its last",
        "too-large": "the repeats come to more than anybody knits",
    },
    sources=("arithmetic: cast-on = repeat × n + edge; common practice of technical editing",),
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each number of a piece that is off, sizes with the same words together."""
    from lintarsia.pattern.fit import fit_of
    from lintarsia.pattern.work import SizeFault
    from lintarsia.rules.shared.outlines import outline_faults

    hint = f" (max-stitches in the settings: {work.most_stitches:,})"

    def judge(piece: "Piece", size: str) -> "Iterator[SizeFault]":
        chart = work.chart(piece, size)
        if chart is None and piece.colour is not None and work.key_of(piece.colour) is None:
            words = f"no chart of the pattern has the colour {piece.colour!r} in its key"
            yield SizeFault("plain-unknown", words, work.place("pieces", piece.name, "colour"))
        if chart is None:
            if piece.colour is not None and work.key_of(piece.colour) and size in piece.cast_on and size in piece.rows:
                words = "its rows and stitches come to more than anybody knits"
                yield SizeFault("too-large", words, work.place("pieces", piece.name), hint=hint)
            return
        fit = fit_of(chart, piece, size)
        for key, words, name in (*_stitches(chart, piece, size, fit), *_rows(chart, piece, size, fit)):
            yield SizeFault(key, words, work.place("pieces", piece.name, *name.split("."), size))
        for words in _ribs(chart, piece, size):
            region = work.place("pieces", piece.name, "cast-on", size)
            yield SizeFault("no-whole-rib", words, region, remedy="work whole repeats of the rib")
        if work.laid(piece, size) is None:
            words = "the repeats come to more than anybody knits"
            yield SizeFault("too-large", words, work.place("pieces", piece.name), hint=hint)
        yield from outline_faults(work, piece, size)

    return work.each(judge)


Fault = tuple[str, str, str]


def _stitches(chart: Chart, piece: "Piece", size: str, fit: "Fit") -> Iterator[Fault]:
    if piece.plain is not None and piece.plain not in chart.colours:
        known = ", ".join(chart.colours)
        yield "plain-unknown", f"the plain colour {piece.plain!r} is not in the chart's key; it has {known}", "plain"
    if fit.cast_on is None:
        return
    cast_on = f"{stitch_count(fit.cast_on)} cast on"
    if piece.plain is not None:
        right = piece.at_stitch.get(size, 1) - 1
        if right > fit.over:
            words = f"{stitch_count(fit.stitches)} of the chart from stitch {right + 1} reach beyond {cast_on}"
            yield "does-not-fit", words, "at.stitch" if size in piece.at_stitch else "cast-on"
        return
    if not fit.over:
        return
    if size in piece.repeats or not fit.box:
        edge = f" and {count(fit.edge, 'edge stitch')}" if fit.edge else ""
        if size in piece.repeats:
            made = f"{count(fit.repeats, 'repeat')} of {fit.repeat}{edge} make {fit.stitches}"
        else:
            made = f"the chart's first {row_word(chart)} has {fit.stitches}"
        yield "cast-on", f"{cast_on}; {made}", "cast-on"
        return
    less = f" less {count(fit.edge, 'edge stitch')}" if fit.edge else ""
    below = fit.repeat * max(1, (fit.cast_on - fit.edge) // fit.repeat) + fit.edge if fit.repeat else fit.edge
    words = f"{cast_on}{less}; no whole number of repeats of {fit.repeat}: {below} or {below + fit.repeat} would be"
    yield "no-whole-repeat", words, "cast-on"


def _ribs(chart: Chart, piece: "Piece", size: str) -> Iterator[str]:
    """A rib in rounds meets itself; worked flat it may end with an edge of its own."""
    from lintarsia.pattern.stitch import rib_of

    rib = rib_of(piece.stitch)
    if piece.charts or rib is None or chart.worked is not Worked.ROUND or not piece.cast_on[size] % sum(rib):
        return
    stitches, repeat = piece.cast_on[size], sum(rib)
    below = stitches // repeat * repeat
    fits = f"{below} or {below + repeat}" if below else str(repeat)
    yield f"{stitch_count(stitches)} around; no whole number of repeats of {repeat}, {piece.stitch}: {fits} would be"


def _rows(chart: Chart, piece: "Piece", size: str, fit: "Fit") -> Iterator[Fault]:
    if fit.rows is None:
        return
    word = row_word(chart)
    if piece.plain is not None:
        below = piece.at_row.get(size, 1) - 1
        if fit.rows < fit.high + below:
            words = f"{count(fit.high, word)} of the chart from {word} {below + 1} reach beyond {count(fit.rows, word)}"
            yield "does-not-fit", words, "at.row" if size in piece.at_row else "rows"
        elif below % 2 and chart.worked is not Worked.ROUND:
            side = chart.side(1)
            words = f"the chart's row 1 ({side}) lies on row {below + 1}, which is {side.other}"
            yield "other-side", f"{words} where row 1 of the piece is {side}", "at.row"
        return
    if fit.rows == fit.high:
        return
    if size in piece.row_repeats:
        rest = f" and {count(fit.edge_rows, word)} outside them" if fit.edge_rows else ""
        made = f"{count(fit.row_repeats, 'repeat')} of {fit.repeat_rows}{rest} make {fit.high}"
    elif fit.box:
        less = f" less {count(fit.edge_rows, word)} outside the repeat" if fit.edge_rows else ""
        words = f"{count(fit.rows, word)}{less}; no whole number of repeats of {fit.repeat_rows}"
        yield "no-whole-repeat", f"{words}: {fit.high} or {fit.high + fit.repeat_rows} would be", "rows"
        return
    else:
        made = f"the chart has {fit.high}"
    yield "rows", f"{count(fit.rows, word)}; {made}", "rows"
