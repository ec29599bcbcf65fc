"""A page of written rows as plain text, Markdown or HTML. Every word of the chart's own is escaped."""

import re
from collections.abc import Callable, Mapping, Sequence
from html import escape

from lintarsia.written.page import RowsPage
from lintarsia.written.sheet import html_sheet

_MARKED = re.compile(r"([\\`*_{}\[\]<>#|~&!$])")


def rows_text(page: RowsPage) -> str:
    """Plain text, one line a row however long."""
    lines = [page.title, "=" * len(page.title), "", f"{page.gauge_word}: {page.gauge}", *page.reading]
    lines += ["", "Key", *_columns([(symbol, name) for symbol, name, _ in page.key])]
    if page.supplies:
        lines += ["", f"Supplies, {page.supplies_are}", *_columns(page.supplies)]
    lines += ["", "Abbreviations", *_columns(page.abbreviations), ""]
    lines += [f"{row.label}: {row.text}" for row in page.rows]
    return "".join(_printable(line).rstrip() + "\n" for line in lines)


def rows_markdown(page: RowsPage) -> str:
    """Markdown that shows the same in CommonMark and its usual relatives."""
    lines = [f"# {_marked(page.title)}", "", f"{page.gauge_word}: {_marked(page.gauge)}", "", " ".join(page.reading)]
    lines += ["", "## Key", "", *(f"- **{_marked(symbol)}**: {_marked(name)}" for symbol, name, _ in page.key)]
    if page.supplies:
        lines += ["", f"## Supplies, {page.supplies_are}", ""]
        lines += [f"- **{_marked(name)}**: {_marked(colour)}, {_marked(what)}" for name, colour, what in page.supplies]
    lines += ["", "## Abbreviations", "", "; ".join(f"{short} {full}" for short, full in page.abbreviations)]
    lines += ["", "## Rows", "", *(f"- **{row.label}:** {_marked(row.text)}" for row in page.rows)]
    return "".join(_printable(line) + "\n" for line in lines)


def rows_body(page: RowsPage) -> str:
    """HTML for the inside of a page: headings from `h2`, the key, the rows."""
    key = ""
    for symbol, name, shade in page.key:
        patch = f'<span class="shade" style="background:{escape(shade)}"></span>'
        key += f"<dt>{patch}{escape(symbol)}</dt><dd>{escape(name)}</dd>"
    parts = [f"<p>{page.gauge_word}: {escape(page.gauge)}</p>", f"<p>{escape(' '.join(page.reading))}</p>"]
    parts.append(f'<h2>Key</h2><dl class="key">{key}</dl>')
    if page.supplies:
        supplies = "".join(f"<dt>{escape(n)}</dt><dd>{escape(c)}, {escape(w)}</dd>" for n, c, w in page.supplies)
        parts.append(f'<h2>Supplies, {escape(page.supplies_are)}</h2><dl class="key">{supplies}</dl>')
    short = "; ".join(f"<b>{escape(a)}</b> {escape(b)}" for a, b in page.abbreviations)
    parts.append(f"<h2>Abbreviations</h2><p>{short}</p>")
    rows = "".join(f"<li><b>{escape(row.label)}:</b> {escape(row.text)}</li>" for row in page.rows)
    parts.append(f'<h2>Rows</h2><ol class="rows">{rows}</ol>')
    return "\n".join(map(_printable_lines, parts))


def rows_html(title: str, pages: Sequence[RowsPage]) -> str:
    """A whole HTML file that needs nothing else."""
    if len(pages) == 1:
        title = pages[0].title
    body = "\n".join(f"<h1>{escape(_printable(page.title))}</h1>\n{rows_body(page)}" for page in pages)
    return html_sheet(title, body)


FORMATS: Mapping[str, Callable[[str, Sequence[RowsPage]], str]] = {
    "text": lambda title, pages: "\n".join(map(rows_text, pages)),
    "markdown": lambda title, pages: "\n".join(map(rows_markdown, pages)),
    "html": rows_html,
}
"""By name: several pages under one title as one text."""


def _columns(rows: "tuple[tuple[str, ...], ...] | list[tuple[str, str]]") -> list[str]:
    wide = max((len(row[0]) for row in rows), default=0)
    return [f"  {row[0]:{wide}}  {', '.join(row[1:])}" for row in rows]


def _marked(text: str) -> str:
    """Text whose characters mean nothing to Markdown."""
    return _MARKED.sub(r"\\\1", text)


def _printable(text: str) -> str:
    """Text without control characters, which could speak to a terminal."""
    return text if text.isprintable() else "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)


def _printable_lines(text: str) -> str:
    return "\n".join(map(_printable, text.split("\n")))
