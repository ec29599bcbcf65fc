"""A whole document as plain text: a title, sections, the rows of every piece, sections again."""

from collections.abc import Sequence

from lintarsia.written.formats import DocumentPart, columns, printable, rows_text
from lintarsia.written.page import RowsPage

Sections = Sequence[DocumentPart]


def whole_text(title: str, before: Sections, pages: Sequence[RowsPage], behind: Sections) -> str:
    head = [title, "#" * len(title), ""]
    parts = ["\n".join(map(printable, head)), *map(_text, before), *map(rows_text, pages), *map(_text, behind)]
    return "\n".join(parts)


def _text(section: DocumentPart) -> str:
    lines = [section.title, "-" * len(section.title), *columns(section.lines)]
    return "".join(printable(line).rstrip() + "\n" for line in lines)
