"""knit/no-such-place: what was said by row is about rows and stitches that the piece has."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import count, one_and_all, stitch_count
from lintarsia.telling.guessing import did_you_mean
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import span

if TYPE_CHECKING:
    from lintarsia.chart import Chart
    from lintarsia.knits.model import Remark
    from lintarsia.knits.work import KnitWork

Options = NoOptions
INFO = RuleInfo(
    name="knit/no-such-place",
    level=Level.ERROR,
    summary="a remark is about a piece, a row or stitches that there are not",
    why=(
        "A remark is worth as much as the place that it names. One about a row that the piece does not have cannot be "
        "answered, and would be laid over the wrong stitches or over none."
    ),
    remedy="state piece, row and stitches as the chart's page numbers them",
    keys={
        "piece": "the pattern has no such piece, or not in this size",
        "unsaid": "the pattern has several pieces and the remark names none",
        "row": "the piece has no such row",
        "stitches": "the row has no such stitches",
    },
    subjects=(Kind.KNIT,),
)


def check_knit(work: "KnitWork", options: NoOptions) -> Iterator[Finding]:
    """One finding for each remark out of place."""
    if work.knitted is None or work.size is None:
        return
    for remark in work.log.rows:
        piece = work.piece_of(remark)
        laid = work.laid(piece) if piece is not None else None
        if piece is None or not piece.knitted(work.size):
            yield _no_piece(work, remark)
        elif laid is not None:  # a piece that cannot be laid out is the pattern's own fault, and told there
            yield from _in_chart(work, remark, laid.chart)


def _no_piece(work: "KnitWork", remark: "Remark") -> Finding:
    assert work.knitted is not None
    names, places = list(work.knitted.pattern.pieces), work.log.places
    if remark.piece is None:
        message = f"the remark on row {remark.row} names no piece; the pattern has {one_and_all(names)}"
        return Finding("unsaid", message, places.value("rows", remark.index), remark.row, pattern=f"{remark.row}")
    hint = did_you_mean(remark.piece, [n for n in names if n != remark.piece]) or f"; it has {', '.join(names)}"
    inside = f" in {work.size}" if remark.piece in names else ""
    message = f"the pattern has no piece {remark.piece!r}{inside}{'' if inside else hint}"
    return Finding("piece", message, places.value("rows", remark.index, "piece"), pattern=remark.piece)


def _in_chart(work: "KnitWork", remark: "Remark", chart: "Chart") -> Iterator[Finding]:
    word, places, name = row_word(chart), work.log.places, remark.piece or f"the {work.log.of}"
    if remark.row > chart.grid.height:
        message = f"{name} has no {word} {remark.row}; it has {count(chart.grid.height, word)}"
        yield Finding("row", message, places.value("rows", remark.index, "row"), pattern=f"{name} {remark.row}")
    elif remark.stitches is not None and remark.stitches[1] > chart.grid.width:
        which = f"stitch{'es' if remark.stitches[0] != remark.stitches[1] else ''} {span(*remark.stitches)}"
        message = f"{name} has no {which} in {word} {remark.row}; it is {stitch_count(chart.grid.width)} wide"
        region = places.value("rows", remark.index, "stitches")
        yield Finding("stitches", message, region, pattern=f"{name} {remark.row} {which}")
