"""The search index: a script that holds charts, rules and results, so that it can be loaded from a disk as well."""

import json
from collections.abc import Iterator, Sequence

from lintarsia.publishing.entry import Entry
from lintarsia.publishing.layout import Layout
from lintarsia.publishing.resultview import anchors
from lintarsia.rulebook import Rulebook

Line = tuple[str, str, str, str]  # kind, title, text, link from the search page
MOST_RESULTS = 50  # of one chart: a hundred places of one fault do not help whoever searches


def index_script(entries: Sequence[Entry], book: Rulebook, guides: Sequence[tuple[str, str]], layout: Layout) -> str:
    """The whole index as a script with a final newline. `guides` are page and title."""
    lines = [*_charts(entries, layout), *_rules(book, layout), *_guides(guides, layout)]
    text = json.dumps(lines, ensure_ascii=True, separators=(",", ":"))
    return f"globalThis.lintarsiaIndex={text};\n"


def _charts(entries: Sequence[Entry], layout: Layout) -> Iterator[Line]:
    page = layout.search
    for entry in entries:
        link = layout.link(page, layout.chart(entry.slug))
        yield "chart", entry.title, f"{entry.summary or 'cannot be read'} ({entry.file})", link
        names = anchors(entry.results)
        told: set[tuple[str, str]] = set()
        for result, name in zip(entry.results, names, strict=True):
            if not result.suppressed and (result.rule, result.message) not in told and len(told) < MOST_RESULTS:
                told.add((result.rule, result.message))
                yield "result", f"{entry.title}: {result.rule}", result.message, f"{link}#{name}"


def _rules(book: Rulebook, layout: Layout) -> Iterator[Line]:
    for name in book.names:
        info = book.info(name)
        yield "rule", name, info.summary, layout.link(layout.search, layout.rule(name))


def _guides(guides: Sequence[tuple[str, str]], layout: Layout) -> Iterator[Line]:
    for page, title in guides:
        yield "guide", title, "", layout.link(layout.search, page)
