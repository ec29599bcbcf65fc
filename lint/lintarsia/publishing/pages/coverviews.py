"""What a pattern's cover shows: its pieces in their sizes, the picture that stands for it, its schematics."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate
from typing import NamedTuple

from markupsafe import Markup

from lintarsia.drawing.fabric import joint
from lintarsia.drawing.schematic import scale_for, schematic_svg
from lintarsia.drawing.silhouette import Silhouette
from lintarsia.pattern.model import Pattern
from lintarsia.publishing.pages.coverface import face, stacked
from lintarsia.publishing.pages.coverfacts import stated_of
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.piecepages import PiecePage, by_piece
from lintarsia.publishing.pages.words import fabric_size, unparted
from lintarsia.telling.bothunits import nested_words
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.languages import counted, phrase
from lintarsia.telling.names import row_word


class PieceView(NamedTuple):
    """A piece in some sizes as the cover shows it. `sizes` are the places of its sizes among the pattern's, `told` is
    what they are called, "" where they are all of them."""

    name: str
    words: str
    link: str
    fabric: str
    wide: int
    high: int
    sizes: tuple[int, ...]
    piece: str
    told: str = ""


class Face(NamedTuple):
    """What the cover shows first: `parts` are pictures set on one another, each with how far down it begins, px."""

    parts: tuple[tuple[PieceView, int], ...]
    words: str
    wide: int
    high: int
    sizes: tuple[int, ...]


class Schematic(NamedTuple):
    """A drawing, of all sizes (`mark` says that it is shown where none is chosen) or of one."""

    name: str
    svg: str
    mark: str


def piece_views(
    pattern: Pattern, pages: Sequence[PiecePage], here: str, layout: Layout, pictures: Mapping[str, tuple[int, int]]
) -> dict[str, PieceView]:
    """By slug; links are those of the page `here`, `pictures` are the sizes of the pieces' fabric drawings, px."""
    return {each.slug: _piece_view(pattern, each, here, layout, pictures[each.slug]) for each in pages}


def faces(pages: Sequence[PiecePage], views: Mapping[str, PieceView]) -> list[Face]:
    """What the cover shows first, in each of its sizes."""
    widths = {slug: view.wide for slug, view in views.items()}
    return [
        _stacked_face(views[each.slug], [views[one.slug] for one in stacked(pages, each, widths)], joint(each.chart))
        for each in face(pages)
    ]


def _piece_view(pattern: Pattern, page: PiecePage, here: str, layout: Layout, picture: tuple[int, int]) -> PieceView:
    chart = page.chart
    often = nested_counts(page)
    told = [
        phrase("knit {n}", n=often) if often != "1" else "",
        page.piece.stitch,
        f"{counted(page.cast_on, '{n} stitch', '{n} stitches')}, {count(chart.grid.height, row_word(chart))}",
        unparted(fabric_size(chart)),
    ]
    return PieceView(
        page.name,
        " · ".join(filter(None, told)),
        layout.link(here, layout.chart(page.slug)),
        layout.file_link(here, layout.fabric(page.slug)),
        *picture,
        _places(pattern, [page]),
        page.piece.name,
        page.told,
    )


def _stacked_face(view: PieceView, whole: Sequence[PieceView], overlap: int) -> Face:
    """`whole` are the pictures from the topmost down, which overlap by so many px; `view` is the one among them that
    stands for the pattern."""
    tops = tuple(accumulate((piece.high - overlap for piece in whole), initial=0))
    words = one_and_all([piece.piece for piece in whole]) if len(whole) > 1 else view.name
    parts = tuple(zip(whole, tops[:-1], strict=True))
    return Face(parts, words, max(piece.wide for piece in whole), tops[-1] + overlap, view.sizes)


def nested_counts(page: PiecePage) -> str:
    """How often a piece is knitted: `2`, or `1 (2)` where its sizes differ in that."""
    return nested_words([str(often) for often in page.times()])


def sizes_of(pattern: Pattern, sizes: Sequence[int]) -> Markup:
    """The attribute by which a part of the page is for some sizes only; none for what is for all."""
    if len(sizes) == len(pattern.sizes):
        return Markup()
    return Markup(f' data-sizes="{" ".join(map(str, sizes))}"')


def schematics(pattern: Pattern, pages: Sequence[PiecePage], shapes: Mapping[str, Silhouette]) -> Iterator[Schematic]:
    """Of each piece one drawing with all its sizes, and one for each of them to be shown where it is chosen."""
    scale = scale_for(list(shapes.values()))
    for number, (name, own) in enumerate(by_piece(pages).items()):
        nested = [shapes[page.slug] for size in pattern.sizes for page in own if size in page.sizes]
        sizes = [size for size in pattern.sizes if any(size in page.sizes for page in own)]
        said = stated_of(own[0].piece, sizes)
        svg = schematic_svg(name, nested, scale, prefix=f"m{number}-", stated=said)
        yield Schematic(
            name, svg, Markup(' data-sizes=""') if len(own) > 1 else sizes_of(pattern, _places(pattern, own))
        )
        for at, page in enumerate(own if len(own) > 1 else ()):
            said = stated_of(page.piece, page.sizes[:1])
            svg = schematic_svg(page.name, [shapes[page.slug]], scale, prefix=f"m{number}-{at}-", stated=said)
            yield Schematic(page.name, svg, Markup(f"{sizes_of(pattern, _places(pattern, [page]))} data-alone hidden"))


def _places(pattern: Pattern, pages: Sequence[PiecePage]) -> tuple[int, ...]:
    return tuple(pattern.sizes.index(size) for page in pages for size in page.sizes)
