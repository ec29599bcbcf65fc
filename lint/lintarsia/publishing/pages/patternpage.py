"""The cover of a pattern: what it is, how large, of what yarn, and the pages of its pieces to knit from."""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from lintarsia.drawing.silhouette import Silhouette, silhouette
from lintarsia.knits.summary import PatternKnits
from lintarsia.pattern.model import Pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.pages.board import board
from lintarsia.publishing.pages.coverface import begun_with
from lintarsia.publishing.pages.coverfacts import BySize, besides, facts, measurements, yarns
from lintarsia.publishing.pages.coverviews import faces, piece_views, schematics, sizes_of
from lintarsia.publishing.pages.entry import Entry, PatternPart, blocking_words, standing_words
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.piecepages import PiecePage, by_piece
from lintarsia.publishing.pages.resulthtml import results_html
from lintarsia.publishing.pages.said import Said
from lintarsia.publishing.pages.templates import fill
from lintarsia.result import RuleInfo
from lintarsia.settings.designer import NOBODY, Designer
from lintarsia.telling.counts import count
from lintarsia.telling.languages import phrase, share
from lintarsia.telling.terms import Terms


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
    views = piece_views(pattern, pages, page, layout, pictures)
    shapes = {each.slug: silhouette(each.chart) for each in pages}
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
        faces=faces(pages, views),
        begun=[views[each.slug] for each in begun_with(pages)],
        facts=facts(work, pages, terms),
        pieces=[(name, [views[one.slug] for one in found]) for name, found in by_piece(pages).items()],
        sizes_of=lambda view: sizes_of(pattern, view.sizes),
        column=lambda at: sizes_of(pattern, (at,)),
        schematics=list(schematics(pattern, pages, shapes)),
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


def _measures(
    work: PatternWork, pages: Sequence[PiecePage], shapes: Mapping[str, Silhouette]
) -> Iterator[tuple[str, BySize]]:
    """The lines of the table, each with its piece's name in the first of its lines alone."""
    for name, own in by_piece(pages).items():
        sizes = [size for page in own for size in page.sizes]
        drawn = [shapes[page.slug] for page in own for _ in page.sizes]
        for number, line in enumerate(measurements(work, own[0].piece, sizes, drawn)):
            yield ("" if number else name), line
