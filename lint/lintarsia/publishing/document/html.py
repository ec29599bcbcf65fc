"""A document as one HTML file: no script, nothing fetched, its drawings inside as vectors; made for print as well."""

from base64 import b64encode
from collections.abc import Sequence
from html import escape

from lintarsia.publishing.document.model import (
    Block,
    Glossary,
    Key,
    Part,
    PatternDocument,
    Picture,
    Pictures,
    Prose,
    Rows,
    Table,
)
from lintarsia.publishing.document.sheet import sheet
from lintarsia.written.formats import printable


def to_html(document: PatternDocument) -> str:
    """A whole file."""
    designer = document.imprint.designer
    by = f'<p class="by">Design: {_text(designer.name)}</p>' if designer.name else ""
    facts = "".join(f"<div><dt>{_text(what)}</dt><dd>{_text(words)}</dd></div>" for what, words in document.facts)
    face = f'<figure class="face">{_picture(document.face)}</figure>' if document.face else ""
    head = (
        f'<header>{_logo(document)}<h1>{_text(document.title)}</h1>{by}<p class="lede">{_text(document.lede)}</p>'
        f'{face}<dl class="facts">{facts}</dl>{_contents(document.parts)}</header>'
    )
    parts = "\n".join(_part(number, part) for number, part in enumerate(document.parts))
    return sheet(document.title, f"{head}\n<main>\n{parts}\n</main>\n{_foot(document)}", document.imprint)


def _text(words: str) -> str:
    return escape(printable(words))


def _logo(document: PatternDocument) -> str:
    imprint = document.imprint
    if not imprint.logo:
        return ""
    kind = "image/png" if imprint.logo_name.endswith("png") else "image/svg+xml"
    return f'<img class="logo" src="{_held(imprint.logo, kind)}" alt="Logo of {_text(imprint.designer.name)}">'


def _held(data: bytes, kind: str) -> str:
    """The picture itself as an address; nothing inside of it acts, whatever it is."""
    return f"data:{kind};base64,{b64encode(data).decode('ascii')}"


def _contents(parts: Sequence[Part]) -> str:
    lines = "".join(
        f'<li><a href="#part-{number}">{_text(part.title)}</a></li>'
        for number, part in enumerate(parts)
        if part.level == 1
    )
    return f'<nav aria-label="In this pattern"><ul>{lines}</ul></nav>'


def _foot(document: PatternDocument) -> str:
    designer = document.imprint.designer
    told = [_text(designer.copyright)] if designer.copyright else []
    if designer.contact:
        told.append(f'Questions: <a href="{escape(designer.link)}">{_text(designer.contact)}</a>')
    told.append(_text(document.stamp))
    return f"<footer>{''.join(f'<p>{line}</p>' for line in told)}</footer>"


def _part(number: int, part: Part) -> str:
    h = f"h{part.level + 1}"
    fresh = ' class="fresh"' if part.fresh else ""
    body = "\n".join(map(_block, part.blocks))
    return f'<section{fresh}><{h} id="part-{number}">{_text(part.title)}</{h}>\n{body}</section>'


def _picture(picture: Picture) -> str:
    # In print a millimetre is one; on a screen no drawing is wider than the page.
    width = round(picture.wide_mm / 25.4 * 96)
    return f'<img src="{_held(picture.svg.encode(), "image/svg+xml")}" alt="{_text(picture.alt)}" width="{width}">'


def _block(block: Block) -> str:
    match block:
        case Prose():
            return f"<p>{_text(block.text)}</p>"
        case Glossary():
            lines = "".join(f"<dt>{_text(what)}</dt>\n<dd>{_text(words)}</dd>\n" for what, words in block.lines)
            return f'<dl class="terms">{lines}</dl>'
        case Table():
            return _table(block)
        case Key():
            return f'<ul class="key">{" ".join(_colour(*each) for each in block.colours)}</ul>'
        case Rows():
            lines = "".join(f"<li><b>{_text(label)}:</b> {_text(words)}</li>" for label, words in block.lines)
            return f'<ol class="rows">{lines}</ol>'
        case Pictures():
            figures = "".join(_figure(picture) for picture in block.pictures)
            return f'<div class="pictures">{figures}</div>'


def _figure(picture: Picture) -> str:
    caption = f"<figcaption>{_text(picture.caption)}</figcaption>" if picture.caption else ""
    return f"<figure{' class=page' if picture.whole_page else ''}>{_picture(picture)}{caption}</figure>"


def _colour(symbol: str, name: str, shade: str) -> str:
    return (
        f'<li><span class="shade" style="background:{escape(shade)}"></span><b>{_text(symbol)}</b> {_text(name)}</li>'
    )


def _table(table: Table) -> str:
    def cell(at: int, word: str, tag: str, scope: str = "") -> str:
        return f"<{tag}{scope}{' class=n' if at in table.right else ''}>{_text(word)}</{tag}>"

    head = "".join(cell(at, word, "th", ' scope="col"') for at, word in enumerate(table.head))
    rows = []
    for first, *others in table.rows:
        cells = "".join(cell(at, word, "td") for at, word in enumerate(others, 1))
        rows.append(f"<tr>{cell(0, first, 'th', ' scope=row')}{cells}</tr>")
    caption = f"<caption>{_text(table.caption)}</caption>" if table.caption else ""
    return f"<table>{caption}<thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"
