"""The cover of a pattern: what it is, how large, of what yarn, and the pages of its pieces to knit from."""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from itertools import accumulate
from typing import Any, NamedTuple

from markupsafe import Markup

from lintarsia.drawing.fabric import joint
from lintarsia.drawing.schematic import scale_for, schematic_svg
from lintarsia.drawing.silhouette import Silhouette, silhouette
from lintarsia.knits.summary import PatternKnits
from lintarsia.pattern.model import Pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.pages.board import board
from lintarsia.publishing.pages.coverface import begun_with, face, stacked
from lintarsia.publishing.pages.coverfacts import BySize, besides, facts, measurements, stated_of, yarns
from lintarsia.publishing.pages.entry import Entry, PatternPart, blocking_words, standing_words
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.piecepages import PiecePage, by_piece
from lintarsia.publishing.pages.resulthtml import results_html
from lintarsia.publishing.pages.said import Said
from lintarsia.publishing.pages.templates import fill
from lintarsia.publishing.pages.words import fabric_size
from lintarsia.result import RuleInfo
from lintarsia.settings.designer import NOBODY, Designer
from lintarsia.telling.bothunits import nested_words
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.languages import ENGLISH, counted, phrase, share
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms

NO_BREAK = "\N{NO-BREAK SPACE}"


class PieceView(NamedTuple):
    """A piece in some sizes as the cover shows it. `sizes` are the places of its sizes among the pattern's."""

    name: str
    words: str
    link: str
    fabric: str
    wide: int
    high: int
    sizes: tuple[int, ...]
    piece: str


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


def summary(pattern: Pattern) -> str:
    """`pattern of 3 pieces in 2 sizes, version 1.0`"""
    pieces, sizes = count(len(pattern.pieces), "piece"), count(len(pattern.sizes), "size")
    told = phrase("pattern of {pieces}", pieces=pieces)
    if pattern.sized:
        told = phrase("pattern of {pieces} in {sizes}", pieces=pieces, sizes=sizes)
    return told + (f", {phrase('version {version}', version=pattern.version)}" if pattern.version else "")


def pattern_page(
    work: PatternWork,
    entry: Entry,
    layout: Layout,
    rules: Mapping[str, RuleInfo],
    pages: Sequence[PiecePage],
    pictures: Mapping[str, tuple[int, int]],
    stamp: str = "",
    knits: PatternKnits | None = None,
    said: Sequence[Said] = (),
    *,
    links: Mapping[str, str] | None = None,
    public: bool = False,
    designer: Designer = NOBODY,
    framed: bool = True,
    terms: Terms = Terms.AMERICAN,
    since: str = "",
) -> str:
    """The page's content as HTML. `pictures` are the sizes of the pieces' fabric drawings, by slug; `stamp` says what
    state it shows; `knits` are its test knits, where there are any, and `said` what was said in them and in those of
    its charts, whose slugs `links` has by their real paths. A `public` page says nothing of any of that. `framed`: the
    page around it tells whose it is. `since` is a revision that its page of changes begins with.
    """
    pattern, page = work.pattern, layout.chart(entry.slug)
    views = {each.slug: _view(pattern, each, page, layout, pictures[each.slug]) for each in pages}
    shapes = {each.slug: silhouette(each.chart) for each in pages}
    widths = {slug: size[0] for slug, size in pictures.items()}
    with speaking(ENGLISH):  # as the pattern itself says it
        own = besides(work, pages, terms)
    return fill(
        "pattern.html",
        pattern=pattern,
        entry=entry,
        slug=entry.slug,
        stamp=stamp,
        since=since,
        changes=layout.link(page, layout.changes(entry.slug)),
        public=public,
        designer=designer,
        framed=framed,
        home=layout.link(page, layout.overview),
        guide=lambda name: layout.link(page, layout.guide(name)),
        faces=[
            _face(views[each.slug], [views[one.slug] for one in stacked(pages, each, widths)], joint(each.chart))
            for each in face(pages)
        ],
        begun=[views[each.slug] for each in begun_with(pages)],
        facts=facts(work, pages, terms),
        pieces=[(name, [views[one.slug] for one in found]) for name, found in by_piece(pages).items()],
        sizes_of=lambda view: _sizes_of(pattern, view.sizes),
        column=lambda at: _sizes_of(pattern, (at,)),
        schematics=list(_schematics(pattern, pages, shapes)),
        measures=list(_measures(work, pages, shapes)),
        yarns=yarns(work),
        needed=own.needed,
        sections=own.sections,
        allowance=share(work.allowance),
        **({} if public else _judged(entry, layout, rules)),
        board=None
        if public
        else board(knits, said, partial(_place_of, pages, links or {}, layout, page), pattern.until),
    )


def _place_of(pages: Sequence[PiecePage], links: Mapping[str, str], layout: Layout, here: str, said: Said) -> str:
    """Where a remark's stitches are shown: on the page of its piece, or of its chart; "" for neither."""
    own = next((p for p in pages if p.piece.name == said.piece and (not said.size or said.size in p.sizes)), None)
    if own is not None and said.spot is not None:
        return layout.link(here, layout.chart(own.slug)) + said.spot.address
    slug = links.get(said.chart)
    return layout.link(here, layout.chart(slug)) + said.spot_in_chart.address if slug and said.spot_in_chart else ""


def _judged(entry: Entry, layout: Layout, rules: Mapping[str, RuleInfo]) -> dict[str, Any]:
    """What the working site has besides: what stands in the charts, results."""
    page = layout.chart(entry.slug)
    return {
        "parts": [
            (part.title, layout.link(page, layout.chart(part.slug)) + "#results" if part.slug else "", _standing(part))
            for part in entry.parts
            if any(part.tally)
        ],
        "results": results_html(None, entry, layout, rules),
    }


def _standing(part: PatternPart) -> tuple[str, str]:
    """The state of a chart and what stands in it, in words."""
    blocks, errors, warnings, _ = part.tally
    told = standing_words(part.tally)
    state = "blocks" if blocks else "warning" if errors or warnings else "note"
    return state, told + (f"; {blocking_words(blocks)}" if blocks else "")


def _view(pattern: Pattern, page: PiecePage, here: str, layout: Layout, picture: tuple[int, int]) -> PieceView:
    chart = page.chart
    often = nested_counts(page)
    told = [
        phrase("knit {n}", n=often) if often != "1" else "",
        page.piece.stitch,
        f"{counted(page.cast_on, '{n} stitch', '{n} stitches')}, {count(chart.grid.height, row_word(chart))}",
        fabric_size(chart).replace(" ", NO_BREAK),
    ]
    return PieceView(
        page.name,
        " · ".join(filter(None, told)),
        layout.link(here, layout.chart(page.slug)),
        layout.file_link(here, layout.fabric(page.slug)),
        *picture,
        _places(pattern, [page]),
        page.piece.name,
    )


def _face(view: PieceView, whole: Sequence[PieceView], overlap: int) -> Face:
    """`whole` are the pictures from the topmost down, which overlap by so many px; `view` is the one among them that
    stands for the pattern."""
    tops = tuple(accumulate((piece.high - overlap for piece in whole), initial=0))
    words = one_and_all([piece.piece for piece in whole]) if len(whole) > 1 else view.name
    parts = tuple(zip(whole, tops[:-1], strict=True))
    return Face(parts, words, max(piece.wide for piece in whole), tops[-1] + overlap, view.sizes)


def nested_counts(page: PiecePage) -> str:
    """How often a piece is knitted: `2`, or `1 (2)` where its sizes differ in that."""
    return nested_words([str(often) for often in page.times()])


def _sizes_of(pattern: Pattern, sizes: Sequence[int]) -> Markup:
    """The attribute by which a part of the page is for some sizes only; none for what is for all."""
    if len(sizes) == len(pattern.sizes):
        return Markup()
    return Markup(f' data-sizes="{" ".join(map(str, sizes))}"')


def _schematics(pattern: Pattern, pages: Sequence[PiecePage], shapes: Mapping[str, Silhouette]) -> Iterator[Schematic]:
    """Of each piece one drawing with all its sizes, and one for each of them to be shown where it is chosen."""
    scale = scale_for(list(shapes.values()))
    for number, (name, own) in enumerate(by_piece(pages).items()):
        nested = [shapes[page.slug] for size in pattern.sizes for page in own if size in page.sizes]
        sizes = [size for size in pattern.sizes if any(size in page.sizes for page in own)]
        said = stated_of(own[0].piece, sizes)
        svg = schematic_svg(name, nested, scale, prefix=f"m{number}-", stated=said)
        yield Schematic(
            name, svg, Markup(' data-sizes=""') if len(own) > 1 else _sizes_of(pattern, _places(pattern, own))
        )
        for at, page in enumerate(own if len(own) > 1 else ()):
            said = stated_of(page.piece, page.sizes[:1])
            svg = schematic_svg(page.name, [shapes[page.slug]], scale, prefix=f"m{number}-{at}-", stated=said)
            yield Schematic(page.name, svg, Markup(f"{_sizes_of(pattern, _places(pattern, [page]))} data-alone hidden"))


def _places(pattern: Pattern, pages: Sequence[PiecePage]) -> tuple[int, ...]:
    return tuple(pattern.sizes.index(size) for page in pages for size in page.sizes)


def _measures(
    work: PatternWork, pages: Sequence[PiecePage], shapes: Mapping[str, Silhouette]
) -> Iterator[tuple[str, BySize]]:
    """The lines of the table, each with its piece's name in the first of its lines alone."""
    for name, own in by_piece(pages).items():
        sizes = [size for page in own for size in page.sizes]
        drawn = [shapes[page.slug] for page in own for _ in page.sizes]
        for number, line in enumerate(measurements(work, own[0].piece, sizes, drawn)):
            yield ("" if number else name), line
