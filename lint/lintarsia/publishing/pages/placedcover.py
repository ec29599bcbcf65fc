"""A pattern in somebody's page: its picture, what it measures, its pieces, and the way to its cover."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from lintarsia.drawing.schematic import scale_for, schematic_svg
from lintarsia.drawing.silhouette import silhouette
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.pages.coverface import face
from lintarsia.publishing.pages.coverfacts import facts, stated_of
from lintarsia.publishing.pages.coverviews import faces, piece_views
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.piecepages import PiecePage, by_piece
from lintarsia.publishing.pages.placedview import FILE
from lintarsia.publishing.pages.svgsize import svg_size
from lintarsia.publishing.pages.templates import fill
from lintarsia.settings.designer import NOBODY, Designer
from lintarsia.telling.terms import Terms


class PlacedCover(NamedTuple):
    """`html` with the links of the pattern's own page; `drawing`, the SVG that lies among its pictures as `FILE`."""

    html: str
    drawing: str


def placed_cover(
    work: PatternWork, entry: Entry, layout: Layout, pages: Sequence[PiecePage],
    pictures: Mapping[str, tuple[int, int]], terms: Terms = Terms.AMERICAN, designer: Designer = NOBODY,
) -> PlacedCover:  # fmt: skip
    """`pages` are its pieces', at least one; `pictures` are the sizes of their fabric drawings by slug, px.

    Of its schematics it shows that of the piece which stands for the pattern: all of them are as long as its cover.
    """
    here = layout.chart(entry.slug)
    views = piece_views(work.pattern, pages, here, layout, pictures)
    drawing = _schematic(work, face(pages))
    wide, high = svg_size(drawing)
    html = fill(
        "placedcover.html", entry=entry, face=faces(pages, views)[-1], designer=designer,
        facts=facts(work, pages, terms), page=layout.link(here, here), measured=face(pages)[0].piece.name,
        picture=layout.file_link(here, layout.picture(entry.slug, FILE)), wide=wide, high=high,
        pieces=[(name, [(views[one.slug], _told(one)) for one in own]) for name, own in by_piece(pages).items()],
    )  # fmt: skip
    return PlacedCover(html, drawing)


def _schematic(work: PatternWork, own: Sequence[PiecePage]) -> str:
    """Of a piece in all its sizes."""
    sizes = [size for size in work.pattern.sizes if any(size in page.sizes for page in own)]
    nested = [silhouette(page.chart) for size in sizes for page in own if size in page.sizes]
    return schematic_svg(own[0].piece.name, nested, scale_for(nested), stated=stated_of(own[0].piece, sizes))


def _told(page: PiecePage) -> str:
    """The sizes of one of the pages of a piece: what its title says after the piece's name."""
    return page.name.removeprefix(page.piece.name).removeprefix(", ")
