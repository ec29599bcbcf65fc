"""A whole document: a title, sections, the rows of every piece, sections again; as text, Markdown or HTML."""

from collections.abc import Callable, Mapping, Sequence
from html import escape

from lintarsia.written.formats import (
    DocumentPart,
    columns,
    marked,
    printable,
    rows_body,
    rows_markdown,
    rows_text,
)
from lintarsia.written.page import RowsPage
from lintarsia.written.sheet import html_sheet

Sections = Sequence[DocumentPart]


def whole_text(title: str, before: Sections, pages: Sequence[RowsPage], behind: Sections) -> str:
    head = [title, "#" * len(title), ""]
    parts = ["\n".join(map(printable, head)), *map(_text, before), *map(rows_text, pages), *map(_text, behind)]
    return "\n".join(parts)


def _text(section: DocumentPart) -> str:
    lines = [section.title, "-" * len(section.title), *columns(section.lines)]
    return "".join(printable(line).rstrip() + "\n" for line in lines)


def whole_markdown(title: str, before: Sections, pages: Sequence[RowsPage], behind: Sections) -> str:
    pieces = [rows_markdown(page, 2) for page in pages]
    return "\n".join([f"# {printable(marked(title))}\n", *map(_markdown, before), *pieces, *map(_markdown, behind)])


def _markdown(section: DocumentPart) -> str:
    lines = [f"- **{marked(what)}**{': ' if what and words else ''}{marked(words)}" for what, words in section.lines]
    return "".join(printable(line) + "\n" for line in [f"## {section.title}", "", *lines])


def whole_html(title: str, before: Sections, pages: Sequence[RowsPage], behind: Sections) -> str:
    pieces = [f"<h2>{escape(printable(page.title))}</h2>\n{rows_body(page, 3)}" for page in pages]
    parts = [f"<h1>{escape(printable(title))}</h1>", *map(_html, before), *pieces, *map(_html, behind)]
    return html_sheet(title, "\n".join(parts))


def _html(section: DocumentPart) -> str:
    lines = "".join(
        f"<dt>{escape(printable(what))}</dt><dd>{escape(printable(words))}</dd>" for what, words in section.lines
    )
    return f'<h2>{section.title}</h2><dl class="key">{lines}</dl>'


WHOLE: Mapping[str, Callable[[str, Sections, Sequence[RowsPage], Sections], str]] = {
    "text": whole_text,
    "markdown": whole_markdown,
    "html": whole_html,
}
"""By name."""
