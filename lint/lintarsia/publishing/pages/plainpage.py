"""The page of a file that is no drawing: what there is to read of it, and what was found in it."""

from collections.abc import Mapping

from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.resulthtml import results_html
from lintarsia.publishing.pages.templates import fill
from lintarsia.result import RuleInfo


def plain_page(entry: Entry, content: str, layout: Layout, rules: Mapping[str, RuleInfo] | None, home: str) -> str:
    """`content` is HTML; `rules` are those that found something, None where nothing of that is told; `home` is what the
    way up is called."""
    page = layout.chart(entry.slug)
    return fill(
        "plain.html",
        entry=entry,
        slug=entry.slug,
        up=layout.link(page, layout.overview),
        home=home,
        content=content,
        results="" if rules is None else results_html(None, entry, layout, rules),
    )
