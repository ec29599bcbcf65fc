"""The search index: a script that holds charts with their colours and yarns, rules, results, changes and the guide.

A script, so that it can be loaded from a disk as well.
"""

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.resultview import anchors
from lintarsia.rules.rulebook import Rulebook
from lintarsia.telling.languages import marked, phrase

Line = tuple[str, str, str, str]  # kind, title, text, link from the search page
KINDS = marked("chart", "pattern", "rule", "guide", "result", "changes")
MOST_RESULTS = 50  # of one chart: a hundred places of one fault do not help whoever searches


class GuidePage(NamedTuple):
    """A page that is written by hand: its `title`, the `text` up to the first heading below that, and what stands below
    each of these: its words, its id, its text."""

    page: str
    title: str
    text: str = ""
    parts: tuple[tuple[str, str, str], ...] = ()


def index_script(charts: Iterable[Line], book: Rulebook | None, guides: Sequence[GuidePage], layout: Layout) -> str:
    """The whole index as a script with a final newline; `charts` are the lines of all charts, by `chart_lines`. Without
    a book there are no rules in it."""
    lines = [*charts, *(() if book is None else _rules(book, layout)), *_guides(guides, layout)]
    text = json.dumps(lines, ensure_ascii=True, separators=(",", ":"))
    return f"globalThis.lintarsiaIndex={text};\n"


def chart_lines(entry: Entry, layout: Layout, *, public: bool = False) -> Iterator[Line]:
    """What a chart or pattern is found by, the pages of its pieces, and its results; for a `public` site neither these
    nor the name of the file."""
    link = layout.link(layout.search, layout.chart(entry.slug))
    text = (entry.summary or phrase("cannot be read")) + ("" if public else f" ({entry.file})")
    names = f"; {', '.join(entry.names)}" if entry.names else ""
    yield entry.kind.noun, entry.title, text + names, link
    for piece in entry.pieces:
        yield "chart", piece.title, piece.about, layout.link(layout.search, layout.chart(piece.slug))
    if public:
        return
    told: set[tuple[str, str]] = set()
    for result, anchor in zip(entry.results, anchors(entry.results), strict=True):
        if not result.suppressed and (result.rule, result.message) not in told and len(told) < MOST_RESULTS:
            told.add((result.rule, result.message))
            yield "result", f"{entry.title}: {result.rule}", result.message, f"{link}#{anchor}"


def changes_line(slug: str, title: str, told: Iterable[str], layout: Layout) -> Line:
    """A page of changes, found by what it tells of rows, colours and yarns."""
    return (
        "changes",
        phrase("Changes: {title}", title=title),
        "; ".join(told),
        layout.link(layout.search, layout.changes(slug)),
    )


def _rules(book: Rulebook, layout: Layout) -> Iterator[Line]:
    for name in book.names:
        info = book.info(name)
        yield "rule", name, info.summary, layout.link(layout.search, layout.rule(name))


def _guides(guides: Sequence[GuidePage], layout: Layout) -> Iterator[Line]:
    for guide in guides:
        link = layout.link(layout.search, guide.page)
        yield "guide", guide.title, guide.text, link
        for words, anchor, text in guide.parts:
            yield "guide", words, f"{guide.title}: {text}", f"{link}#{anchor}"
