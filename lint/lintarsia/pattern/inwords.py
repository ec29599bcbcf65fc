"""A pattern's rows in words as one text: of the pieces that are asked for, or of all with what stands around them."""

from collections.abc import Sequence
from dataclasses import replace

from lintarsia.pattern.aroundpieces import around
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.edgewords import with_edges
from lintarsia.pattern.stitchpage import in_its_stitch
from lintarsia.pattern.work import PatternWork
from lintarsia.written.answer import page_of, pages_in_words, style_of
from lintarsia.written.page import RowsPage
from lintarsia.written.whole import whole_text


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


def pages_alone(work: PatternWork, pages: Sequence[RowsPage], format: str) -> str:
    """The pages and nothing around them, as `text`, `markdown` or `html`."""
    return pages_in_words(pages, work.pattern.title, format)


def text_of_all(work: PatternWork, chosen: Sequence[PieceInSize], pages: Sequence[RowsPage]) -> str:
    """The pages of every piece as plain text, with what stands around the rows: each abbreviation is said once then."""
    own = around(work, chosen, pages)
    bare = [replace(page, abbreviations=()) for page in pages]
    return whole_text(work.pattern.title, own.before, bare, own.behind)
