"""The pages of a site that wait to be put together: where each stands, what it is about, what is on it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING

from lintarsia.ground.kinds import KNITTED_FROM
from lintarsia.publishing.pages.entry import Entry, PieceEntry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.overview import overview_page
from lintarsia.publishing.pages.phrasescript import PHRASES
from lintarsia.publishing.pages.rulepages import Found, found, rule_page, rules_page
from lintarsia.publishing.pages.templates import fill
from lintarsia.publishing.site.pagefiles import CHART_SCRIPTS, card_of
from lintarsia.publishing.site.siteplan import SitePlan
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings import Answers
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.counts import count
from lintarsia.telling.languages import ENGLISH, is_english, phrase, spoken

if TYPE_CHECKING:
    from lintarsia.publishing.site.changes import Changed

MINE_SCRIPTS = ("logfile.js", "logread.js", "logs.js", "photos.js", "mine.js", "keep.js")
OVERVIEW_SCRIPTS = ("overview.js", "places.js")
SCRIPTS = tuple(dict.fromkeys((PHRASES, *CHART_SCRIPTS, *OVERVIEW_SCRIPTS, *MINE_SCRIPTS)))


@dataclass(frozen=True, slots=True)
class PageSpec:
    """A page: its place, its title and what it is about as plain text, and its content as HTML, made when asked for."""

    name: str
    title: str
    about: str
    content: Callable[[], str]
    picture: str = ""  # for previews where the page is linked: a file of the site
    of_chart: bool = False
    scripts: tuple[str, ...] = ()
    names: tuple[str, ...] = ()  # of its colours and yarns, for whoever searches


def chart_pages(plan: SitePlan, entries: Sequence[Entry], scratch: str) -> Iterator[PageSpec]:
    """Those of charts, patterns and their pieces, whose contents wait in `scratch`."""
    for number, entry in enumerate(entries):
        card = card_of(entry, plan.layout) if plan.cards else ""
        yield _chart_page(plan, entry, Path(scratch, f"{number}.html"), card)
        for at, piece in enumerate(entry.pieces):
            card = plan.layout.picture(piece.slug, "card.png") if plan.cards else ""
            yield _chart_page(plan, piece, Path(scratch, f"{number}-{at}.html"), card)


def _chart_page(plan: SitePlan, one: Entry | PieceEntry, waiting: Path, card: str) -> PageSpec:
    name = plan.layout.chart(one.slug)
    names = one.names if isinstance(one, Entry) else ()
    return PageSpec(name, one.title, one.about, waiting.read_text, card, True, CHART_SCRIPTS, names)


def _in_language(language: str, content: Callable[[], str]) -> str:
    with speaking(language):
        return content()


def _said(content: Callable[[], str]) -> Callable[[], str]:
    """Content that is made in the language that is spoken now, whenever that is."""
    return partial(_in_language, spoken(), content)


def _in_english(content: Callable[[], str]) -> str:
    with speaking(ENGLISH):
        return f'<div lang="{ENGLISH}">\n{content()}</div>'


def _english(content: Callable[[], str]) -> Callable[[], str]:
    """Content that is English in a site that may not be."""
    return content if is_english() else partial(_in_english, content)


def change_pages(changed: "Mapping[str, Changed]", layout: Layout) -> Iterator[PageSpec]:
    """What has changed since it went out, by slug."""
    for slug, one in changed.items():
        about = phrase("What has changed for the knitter since {since}, and what to read instead.", since=one.since)
        title = phrase("Changes: {title}", title=one.title)
        yield PageSpec(layout.changes(slug), title, about, _said(partial(one.page, slug, layout)))


def mine(layout: Layout, answers: Answers) -> PageSpec:
    """What a test knitter keeps."""
    home = layout.link(layout.mine, layout.overview)
    content = _said(partial(fill, "mine.html", home=home, mail=answers.mail, issue=answers.issue))
    about = phrase("What you keep of your test knits, in this browser.")
    return PageSpec(layout.mine, phrase("My knitting"), about, content, scripts=MINE_SCRIPTS)


def overview(plan: SitePlan, entries: Sequence[Entry]) -> PageSpec:
    """The page of all charts that have been gathered."""
    planned = sum(entry.kind in KNITTED_FROM for entry in entries)
    about = phrase("{charts}, checked and planned.", charts=count(planned, "knitting chart"))
    if plan.public:
        about = phrase("{patterns}, row by row.", patterns=count(len(entries), "knitting pattern"))
    first = min((entry for entry in entries if entry.cover), key=lambda entry: entry.title, default=None)
    card = card_of(first, plan.layout) if first and plan.cards else ""
    content = _said(partial(overview_page, plan.title, entries, plan.layout, public=plan.public))
    return PageSpec(plan.layout.overview, plan.title, about, content, card, scripts=OVERVIEW_SCRIPTS)


def rule_pages(book: Rulebook, entries: Sequence[Entry], layout: Layout) -> Iterator[PageSpec]:
    """A page for each rule, and one of them all, with what they found in `entries`."""

    @cache
    def all_found() -> Found:
        return found(entries)

    def of_all() -> str:
        return rules_page(book, all_found(), layout)

    def of(name: str) -> str:
        return rule_page(book.load(name), all_found(), layout)

    about = phrase("What a chart is looked over for, and why.")
    yield PageSpec(layout.rules, phrase("Rules"), about, _english(of_all))
    for name in book.names:
        yield PageSpec(layout.rule(name), name, book.info(name).summary, _english(partial(of, name)))


def search(layout: Layout, *, public: bool) -> PageSpec:
    """The page to search from."""
    links = {"home": layout.link(layout.search, layout.overview), "rules": layout.link(layout.search, layout.rules)}
    content = _said(partial(fill, "search.html", public=public, **links))
    title, about = phrase("Search"), phrase("Search.")
    return PageSpec(layout.search, title, about, content, scripts=("search-index.js", "search.js"))
