"""A page of written rows as plain text, Markdown or HTML. Every word of the chart's own is escaped."""

import re
from collections.abc import Callable, Mapping, Sequence
from html import escape

from lintarsia.ground.values import dataclass
from lintarsia.written.page import RowsPage
from lintarsia.written.sheet import html_sheet

_MARKED = re.compile(r"([\\`*_{}\[\]<>#|~&!$])")
# What begins a list, a rule or a fence where a paragraph begins with it.
_BEGINS = re.compile(r"\A(?:([0-9]{1,9})(?=[.)](?:\s|$))|(?=[-+=:]))")


# Stands before the rows, so that a page pasted back under `written:` ends with its last row.
SEWN = "Duplicate stitch, when the piece is finished"


@dataclass(frozen=True, slots=True)
class DocumentPart:
    """A part of a document around the rows. `lines` are (what, words); either may be empty."""

    title: str
    lines: tuple[tuple[str, str], ...]


def rows_text(page: RowsPage) -> str:
    """Plain text, one line a row however long."""
    lines = [page.title, "=" * len(page.title), "", f"{page.gauge_word}: {page.gauge}", *page.reading]
    lines += ["", "Key", *columns([(symbol, name) for symbol, name, _ in page.key])]
    if page.supplies:
        lines += ["", f"Supplies, {page.supplies_are}", *columns(page.supplies)]
    if page.abbreviations:
        lines += ["", "Abbreviations", *columns(page.abbreviations)]
    if page.sewn:
        lines += ["", SEWN, *columns(page.sewn)]
    lines += ["", *(f"{row.label}: {row.text}" for row in page.rows)]
    return "".join(printable(line).rstrip() + "\n" for line in lines)


def rows_markdown(page: RowsPage, depth: int = 1) -> str:
    """Markdown that shows the same in CommonMark and its usual relatives; its title is a heading of that depth."""
    top, under = "#" * depth, "#" * (depth + 1)
    lines = [f"{top} {marked(page.title)}", "", f"{page.gauge_word}: {marked(page.gauge)}", "", " ".join(page.reading)]
    lines += ["", f"{under} Key", "", *(f"- **{marked(symbol)}**: {marked(name)}" for symbol, name, _ in page.key)]
    if page.supplies:
        lines += ["", f"{under} Supplies, {page.supplies_are}", ""]
        lines += [f"- **{marked(name)}**: {marked(colour)}, {marked(what)}" for name, colour, what in page.supplies]
    if page.abbreviations:
        lines += ["", f"{under} Abbreviations", "", "; ".join(f"{short} {full}" for short, full in page.abbreviations)]
    if page.sewn:
        lines += ["", f"{under} {SEWN}", "", *(f"- **{marked(name)}**: {marked(words)}" for name, words in page.sewn)]
    lines += ["", f"{under} Rows", "", *(f"- **{row.label}:** {marked(row.text)}" for row in page.rows)]
    return "".join(printable(line) + "\n" for line in lines)


def rows_body(page: RowsPage, depth: int = 2) -> str:
    """HTML for the inside of a page: headings from `h2` or another depth, the key, the rows."""
    h = f"h{depth}"
    key = ""
    for symbol, name, shade in page.key:
        patch = f'<span class="shade" style="background:{escape(shade)}"></span>'
        key += f"<dt>{patch}{escape(symbol)}</dt><dd>{escape(name)}</dd>"
    parts = [f"<p>{page.gauge_word}: {escape(page.gauge)}</p>", f"<p>{escape(' '.join(page.reading))}</p>"]
    parts.append(f'<{h}>Key</{h}><dl class="key">{key}</dl>')
    if page.supplies:
        supplies = "".join(f"<dt>{escape(n)}</dt><dd>{escape(c)}, {escape(w)}</dd>" for n, c, w in page.supplies)
        parts.append(f'<{h}>Supplies, {escape(page.supplies_are)}</{h}><dl class="key">{supplies}</dl>')
    if page.abbreviations:
        short = "; ".join(f"<b>{escape(a)}</b> {escape(b)}" for a, b in page.abbreviations)
        parts.append(f"<{h}>Abbreviations</{h}><p>{short}</p>")
    if page.sewn:
        sewn = "".join(f"<dt>{escape(name)}</dt><dd>{escape(words)}</dd>" for name, words in page.sewn)
        parts.append(f'<{h}>{SEWN}</{h}><dl class="key">{sewn}</dl>')
    rows = "".join(f"<li><b>{escape(row.label)}:</b> {escape(row.text)}</li>" for row in page.rows)
    parts.append(f'<{h}>Rows</{h}><ol class="rows">{rows}</ol>')
    return "\n".join(map(_printable_lines, parts))


def rows_html(title: str, pages: Sequence[RowsPage]) -> str:
    """A whole HTML file that needs nothing else."""
    if len(pages) == 1:
        title = pages[0].title
    body = "\n".join(f"<h1>{escape(printable(page.title))}</h1>\n{rows_body(page)}" for page in pages)
    return html_sheet(printable(title), body)


FORMATS: Mapping[str, Callable[[str, Sequence[RowsPage]], str]] = {
    "text": lambda title, pages: "\n".join(map(rows_text, pages)),
    "markdown": lambda title, pages: "\n".join(map(rows_markdown, pages)),
    "html": rows_html,
}
"""By name: several pages under one title as one text."""


def columns(rows: "tuple[tuple[str, ...], ...] | list[tuple[str, str]]") -> list[str]:
    wide = max((len(row[0]) for row in rows), default=0)
    return [f"  {row[0]:{wide}}  {', '.join(row[1:])}" for row in rows]


def marked(text: str) -> str:
    """Text whose characters mean nothing to Markdown."""
    return _MARKED.sub(r"\\\1", text)


def paragraph(text: str) -> str:
    """The same where it begins a paragraph: no list, no rule and no block of code either."""
    return _BEGINS.sub(r"\1\\", marked(text.lstrip()), count=1)


def printable(text: str) -> str:
    """Text without control characters, which could speak to a terminal."""
    return text if text.isprintable() else "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)


def _printable_lines(text: str) -> str:
    return "\n".join(map(printable, text.split("\n")))
