"""A pattern's rows in words as one text: pieces that are asked for, or all of them as a document."""

from collections.abc import Sequence
from dataclasses import replace

from lintarsia.pattern.aroundpieces import around
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.edgewords import with_edges
from lintarsia.pattern.stitchpage import in_its_stitch
from lintarsia.pattern.work import PatternWork
from lintarsia.written.answer import page_of, pages_in_words, style_of
from lintarsia.written.page import RowsPage
from lintarsia.written.whole import WHOLE


def pieces_in_words(
    work: PatternWork,
    chosen: Sequence[PieceInSize],
    format: str = "text",
    *,
    terms: str,
    supplies: bool = False,
    in_full: bool = False,
) -> str:
    """The rows of pieces laid out, as `text`, `markdown` or `html`; the arguments are those of `rows_in_words`."""
    pages = pages_of(work, chosen, terms, supplies=supplies, in_full=in_full)
    return as_document(work, chosen, pages, format)


def pages_of(
    work: PatternWork, chosen: Sequence[PieceInSize], terms: str, *, supplies: bool = False, in_full: bool = False
) -> list[RowsPage]:
    """A page for each of the pieces."""
    pages = []
    for one in chosen:
        reckoning = work.reckoning_of(one.piece, one.size)
        style = style_of(terms, in_full=in_full, reckoning=reckoning)
        page = in_its_stitch(page_of(one.chart, style, reckoning if supplies else None), one, style)
        pages.append(with_edges(work, page, (one,), style.terms))
    return pages


def as_document(work: PatternWork, chosen: Sequence[PieceInSize], pages: Sequence[RowsPage], format: str) -> str:
    """The pages alone, or where every piece of the pattern is among them, with what stands around the rows: every
    abbreviation is said once then."""
    if len({one.piece.name for one in chosen}) < len(work.pattern.pieces):
        return pages_in_words(pages, work.pattern.title, format)
    own = around(work, chosen, pages)
    bare = [replace(page, abbreviations=()) for page in pages]
    return WHOLE[format](work.pattern.title, own.before, bare, own.behind)
