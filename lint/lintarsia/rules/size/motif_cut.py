"""size/motif-cut: a motif that a size's shaping cuts, or that comes nearer to an edge than is stated."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import stitch_count
from lintarsia.telling.lengths import length_in
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.pattern.clearance import Clearance
    from lintarsia.pattern.laying import Laid
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.work import About, PatternWork, SizeFault

Options = NoOptions
INFO = RuleInfo(
    name="size/motif-cut",
    level=Level.ERROR,
    summary="a motif is cut by a size's shaping, or comes nearer to an edge than stated",
    why=(
        "A motif that sits well on the middle size may run into the armhole of the small one. On the chart nobody sees "
        "it: the ear of the fox is bound off with the underarm stitches."
    ),
    remedy="move the motif with `at`, make it smaller for this size, or state a smaller `clearance`",
    keys={
        "cut": "stitches of the motif lie where the piece has none",
        "too-near": "a stitch of the motif is nearer to an edge of the piece than its `clearance`",
    },
    sources=("arithmetic",),
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each piece that names the colour around its motif, sizes with the same words together."""
    from lintarsia.pattern.clearance import clearance_of
    from lintarsia.pattern.work import SizeFault

    def judge(piece: "Piece", size: str) -> "Iterator[SizeFault]":
        laid = work.laid(piece, size) if piece.plain is not None and piece.charts else None
        found = clearance_of(laid, piece.plain or "") if laid is not None else None
        if laid is None or found is None:
            return
        key, words = _said(piece, laid, found)
        if key:
            path = ("shaping", size) if key == "cut" else ("clearance",)
            yield SizeFault(
                key, words, work.place("pieces", piece.name, *path), Level.ERROR if key == "cut" else Level.WARNING
            )

    return work.each(judge)


def _said(piece: "Piece", laid: "Laid", found: "Clearance") -> tuple[str, str]:
    """The key, "" where nothing is wrong, and the words."""
    word, chart = row_word(laid.chart), laid.chart
    if found.cut:
        return (
            "cut",
            f"{stitch_count(found.cut)} of the motif lie outside the piece, the first in {word} {found.cut_row}",
        )
    if piece.clearance is None or found.nearest_mm + 1e-6 >= piece.clearance.mm:
        return "", ""
    near = length_in(chart, found.nearest_mm)
    return "too-near", f"the motif comes within {near} of an edge in {word} {found.row}; {piece.clearance} is stated"
