"""size/off-centre: a motif that is to lie in the middle and cannot, because one more stitch is on one side."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import stitch_count

if TYPE_CHECKING:
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.work import About, PatternWork, SizeFault

Options = NoOptions
INFO = RuleInfo(
    name="size/off-centre",
    level=Level.NOTE,
    summary="a motif cannot lie in the middle of a size",
    why=(
        "An odd motif on an even piece leaves one stitch more on one side. It hardly shows on a large piece, but the "
        "knitter must be told on which side it is, and two pieces should have it on the same."
    ),
    remedy="say where the motif lies with `at`, or change the cast-on by one stitch",
    keys={"off-centre": "the stitches on both sides of the motif differ by one"},
    sources=("arithmetic",),
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each piece, sizes with the same words together."""
    from lintarsia.pattern.work import SizeFault

    def judge(piece: "Piece", size: str) -> "Iterator[SizeFault]":
        laid = work.laid(piece, size)
        if laid is not None and laid.motif and laid.motif.centred and laid.motif.left != laid.motif.right:
            words = (
                f"the motif of {stitch_count(laid.fit.stitches)} cannot lie in the middle of {laid.cast_on}: "
                f"{laid.motif.right} at its right, {laid.motif.left} at its left"
            )
            yield SizeFault("off-centre", words, work.place("pieces", piece.name, "cast-on", size))

    return work.each(judge)
