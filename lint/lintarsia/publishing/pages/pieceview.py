"""What stands around the page of a pattern's piece: the way to its pattern, other sizes, how often it is knitted."""

from collections.abc import Sequence

from lintarsia.drawing.svg import escape
from lintarsia.pattern.model import Pattern
from lintarsia.publishing.pages.coverviews import nested_counts
from lintarsia.publishing.pages.edgenotes import EdgeNotes
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.piecepages import PiecePage
from lintarsia.publishing.pages.setting import Setting
from lintarsia.telling.languages import phrase

_HERE = ' aria-current="page"'
_LONG = 60  # letters of a title that a phone shows whole


def setting_of(
    pattern: Pattern, slug: str, page: PiecePage, pages: Sequence[PiecePage], layout: Layout, edges: EdgeNotes
) -> Setting:
    """`slug` is the pattern's, `pages` are those of all its pieces."""
    here = layout.chart(page.slug)
    up = f'<a data-part="of-pattern" href="{layout.link(here, layout.chart(slug))}">{_short(pattern.title)}</a>'
    others = [other for other in pages if other.piece is page.piece]
    around = _often(page) + _edges(edges) + (_sizes(page, others, here, layout) if len(others) > 1 else "")
    return Setting(up, around, _heading(pattern.title, page), slug, judged=False, edges=edges)


def _heading(title: str, page: PiecePage) -> str:
    """Of a long title not the end is left out, which says of which piece the page is."""
    return f"{_short(f'{title}:')} {_short(page.name)}" if len(page.chart.title) > _LONG else ""


def _short(name: str) -> str:
    """Of any length and direction, on two lines at most."""
    return f'<bdi class="clamped">{escape(name)}</bdi>'


def _often(page: PiecePage) -> str:
    often = nested_counts(page)
    return "" if often == "1" else f'<p class="often">{phrase("Knit {n}.", n=escape(often))}</p>\n'


def _edges(edges: EdgeNotes) -> str:
    said = " ".join(filter(None, [edges.begins, edges.ends]))
    return f'<p class="often">{escape(said)}</p>\n' if said else ""


def _sizes(page: PiecePage, others: Sequence[PiecePage], here: str, layout: Layout) -> str:
    """Links to the piece in every size, and a line for whoever has chosen another."""
    chosen = phrase("You have chosen <b></b>, and this is another size: go to <a></a>.")
    links = "".join(
        f'<a href="{layout.link(here, layout.chart(other.slug))}" data-size="{escape(size)}"'
        f"{_HERE if other is page else ''}>{_short(size)}</a>"
        for other in others
        for size in other.sizes
    )
    return (
        f'<nav class="sizes" aria-label="{phrase("Sizes")}"><span>{phrase("Size")}</span> {links}</nav>\n'
        f'<p class="caution other-size" data-part="other-size" hidden>{chosen}</p>\n'
    )
