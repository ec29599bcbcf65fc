"""The page of a file that cannot be drawn."""

from collections.abc import Iterator

from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.resulthtml import results_html
from lintarsia.publishing.pages.templates import fill
from lintarsia.result import Level, RuleInfo

EXCERPT = 4  # lines shown on either side of a fault in a file that cannot be read


def broken_page(entry: Entry, lede: str, text: str | None, layout: Layout, rules: dict[str, RuleInfo]) -> str:
    """The page of a file that cannot be shown: `lede` says so, and then what stands in the way, with the file, whose
    content is `text`, around it."""
    page = layout.chart(entry.slug)
    return fill(
        "broken.html",
        entry=entry,
        slug=entry.slug,
        lede=lede,
        home=layout.link(page, layout.overview),
        results=results_html(None, entry, layout, rules),
        excerpt=list(_excerpt(entry, text)) if text else [],
    )


def _excerpt(entry: Entry, text: str) -> Iterator[tuple[int, str, bool]]:
    standing = [r for r in entry.results if not r.suppressed]
    if not standing:
        return
    line = max(standing, key=lambda r: (Level(r.level).rank, -r.region.line)).region.line
    lines = text.split("\n")
    for number in range(max(1, line - EXCERPT), min(len(lines), line + EXCERPT) + 1):
        yield number, lines[number - 1][:200], number == line
