"""How a piece begins and ends, in words: cast on, picked up, on another piece's stitches; bound off or left live."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from lintarsia.chart import Ends
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.sides import Sides
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.nested import nested
from lintarsia.pattern.work import PatternWork
from lintarsia.telling.languages import phrase
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms
from lintarsia.written.order import ColourSupply
from lintarsia.written.page import RowsPage
from lintarsia.written.symbols import written_yarn


def with_edges(work: PatternWork, page: RowsPage, sizes: Sequence[PieceInSize], terms: Terms) -> RowsPage:
    """The page of a piece, of one size or of several at once, with its first line, where it has none, and its last."""
    first, last = begins(work, sizes), ends(work, sizes, terms)
    at = 1 if page.reading and page.reading[0].startswith("Sizes: ") else 0
    head = (*page.reading[:at], *([] if first in page.reading else [first]))
    return replace(page, reading=(*head, *page.reading[at:], *([last] if last else [])))


def begins(work: PatternWork, sizes: Sequence[PieceInSize]) -> str:
    """`Cast on 66 (72, 78) sts.`"""
    piece, stitches = sizes[0].piece, [one.laid.cast_on for one in sizes]
    if piece.picked_up:
        return phrase("Pick up and knit {n} sts.", n=nested(stitches))
    if piece.continues is None:
        colour = _colour(sizes)
        if colour:
            return phrase("Cast on {n} sts in {yarn}.", n=nested(stitches), yarn=colour)
        return phrase("Cast on {n} sts.", n=nested(stitches))
    below = [_left(work, piece.continues, one.size) for one in sizes]
    if None in below or below == stitches:
        return phrase("Begin on the {n} sts of {piece}.", n=nested(stitches), piece=piece.continues)
    more = [n - (m or 0) for n, m in zip(stitches, below, strict=True)]
    told = {"left": nested([n or 0 for n in below]), "piece": piece.continues, "n": nested(stitches)}
    return _into_more(more, told)


def _into_more(more: Sequence[int], told: Mapping[str, str]) -> str:
    """How the stitches that another piece left become those of the first row; `more` has a number for each size."""
    if min(more) < 0 < max(more):  # neither word would be true of all sizes
        return phrase("Begin on the {left} sts of {piece}, and work them evenly into {n} sts.", **told)
    if set(more) == {1}:
        return phrase("Begin on the {left} sts of {piece}, increasing 1 st: {n} sts.", **told)
    if set(more) == {-1}:
        return phrase("Begin on the {left} sts of {piece}, decreasing 1 st: {n} sts.", **told)
    told = {**told, "changed": nested([abs(n) for n in more])}
    if min(more) >= 0:
        return phrase("Begin on the {left} sts of {piece}, increasing {changed} sts evenly: {n} sts.", **told)
    return phrase("Begin on the {left} sts of {piece}, decreasing {changed} sts evenly: {n} sts.", **told)


def _colour(sizes: Sequence[PieceInSize]) -> str:
    """`O`, where all of the first row is in one colour."""
    used = {symbol for one in sizes for symbol in one.chart.grid.rows[0] if symbol != NO_STITCH_SYMBOL}
    return written_yarn(ColourSupply(used.pop())) if len(used) == 1 else ""


def _left(work: PatternWork, piece: str, size: str) -> int | None:
    """The stitches that a piece leaves after its last row."""
    other = work.pattern.pieces.get(piece)
    laid = work.laid(other, size) if other is not None else None
    return None if laid is None else laid.chart.grid.stitches(laid.chart.grid.height)


def ends(work: PatternWork, sizes: Sequence[PieceInSize], terms: Terms) -> str:
    """`After the last row, bind off.`; "" where every stitch is gone by then, or the last row's words say it of each
    side of an opening."""
    piece, chart = sizes[0].piece, sizes[0].chart
    after = [other.name for other in work.pattern.pieces.values() if other.continues == piece.name]
    if not chart.grid.stitches(chart.grid.height):
        return ""
    what = phrase(terms.bind_off)
    if after:
        what = phrase("leave the sts on the needle for {piece}", piece=after[0])
    elif chart.ends is Ends.DRAWN_IN:
        left = nested([one.chart.grid.stitches(one.chart.grid.height) for one in sizes])
        what = phrase("cut the yarn, draw it through the {n} sts that are left and fasten it off", n=left)
    elif chart.ends is Ends.LIVE:
        what = phrase("leave the sts live")
    elif chart.divide and Sides(chart).opening(chart.grid.height) is not None:
        return ""
    after_all = phrase("After the last {word}", row_word(chart))
    return phrase("{after}, {what}.", after=after_all, what=what)
