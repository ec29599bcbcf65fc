"""A document as Markdown, its drawings as files beside it."""

from collections.abc import Iterator, Mapping

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
from lintarsia.written.formats import marked, paragraph, printable

Names = Mapping[int, str]  # of drawings, by their ids


def to_markdown(document: PatternDocument, folder: str = "") -> str:
    """CommonMark with tables. Drawings are at `folder/NAME.svg`; without a folder they are left out."""
    designer, names = document.imprint.designer, document.file_names
    lines = [f"# {marked(document.title)}", ""]
    if designer.name:
        lines += [f"*Design: {marked(designer.name)}*", ""]
    lines += [paragraph(document.lede), ""]
    if document.face and folder:
        lines += [_image(document.face, folder, names), ""]
    lines += [*(f"- **{marked(what)}**: {marked(words)}" for what, words in document.facts), ""]
    for part in document.parts:
        lines += _part(part, folder, names)
    lines += ["---", ""]
    if designer.copyright:
        lines += [paragraph(designer.copyright), ""]
    if designer.contact:
        lines += [f"Questions: <{designer.contact}>", ""]
    lines.append(marked(document.stamp))
    return "".join(f"{printable(line)}\n" for line in lines)


def _image(picture: Picture, folder: str, names: Names) -> str:
    return f"![{marked(picture.alt)}](<{folder}/{names[id(picture)]}.svg>)"


def _part(part: Part, folder: str, names: Names) -> Iterator[str]:
    yield f"{'#' * (part.level + 1)} {marked(part.title)}"
    yield ""
    for block in part.blocks:
        made = list(_block(block, folder, names))
        if made:
            yield from made
            yield ""


def _block(block: Block, folder: str, names: Names) -> Iterator[str]:
    match block:
        case Prose():
            yield paragraph(block.text)
        case Glossary():
            for what, words in block.lines:
                yield f"- {f'**{marked(what)}**' if what else ''}{': ' if what and words else ''}{marked(words)}"
        case Table():
            yield from _table(block)
        case Key():
            for symbol, name, _ in block.colours:
                yield f"- **{marked(symbol)}**: {marked(name)}"
        case Rows():
            for label, words in block.lines:
                yield f"- **{label}:** {marked(words)}"
        case Pictures():
            for picture in block.pictures if folder else ():
                yield _image(picture, folder, names)


def _table(table: Table) -> Iterator[str]:
    if table.caption:
        yield f"{paragraph(table.caption)}:"
        yield ""
    yield _cells(table.head)
    yield _cells(tuple("---:" if at in table.right else "---" for at in range(len(table.head))), plain=True)
    for row in table.rows:
        yield _cells(row)


def _cells(cells: tuple[str, ...], *, plain: bool = False) -> str:
    return f"| {' | '.join(cells if plain else map(marked, cells))} |"
