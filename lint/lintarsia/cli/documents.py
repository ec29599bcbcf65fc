"""What `write` makes of the pages of a pattern: rows in words for some pieces, a document for all of them."""

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import click

from lintarsia.cli.ofpattern import Chosen
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.pattern.choosing import PieceInSize
    from lintarsia.publishing.document.model import PatternDocument
    from lintarsia.written.page import RowsPage

PICTURES = "-pictures"  # behind the name of a Markdown file: the folder of its drawings


class To(NamedTuple):
    """What is asked for: `format` is text, markdown, html or pdf, `output` a file or None."""

    format: str
    output: str | None
    paper: str


class WrittenPiece(NamedTuple):
    """A page of rows and the pieces in sizes that it is of. `as_charted`: its rows are the chart's own."""

    page: "RowsPage"
    pieces: "tuple[PieceInSize, ...]"
    as_charted: bool = False


def refuse_pdf(file: str, to: To, some_rows: bool) -> None:
    """Raises UsageError for a PDF that cannot be, before anything is read."""
    if to.format != "pdf":
        return
    if file == "-" or kind_of(file) is not Kind.PATTERN:
        raise click.UsageError("a PDF is made of a pattern; a chart prints with: lintarsia draw CHART --as sheets")
    if some_rows:
        raise click.UsageError("a PDF has all rows; --rows goes with the other formats")
    if to.output is None:
        raise click.UsageError("a PDF is no text for a screen; say where to put it with --output")


def document(found: Chosen, pages: Sequence[WrittenPiece], to: To) -> str | bytes:
    """The text or PDF. A Markdown document's drawings are written beside it."""
    from lintarsia.publishing.document.asked import all_of, in_text, published
    from lintarsia.publishing.document.written import Written
    from lintarsia.telling.terms import Terms

    settings, work, chosen = found
    written = [Written(*each, Terms(settings.terms)) for each in pages]
    if to.format == "pdf":
        from lintarsia.publishing.document.pdf import to_pdf

        return to_pdf(published(work, settings, written, to.paper), to.paper)
    if to.format == "markdown" and to.output is not None and all_of(work, chosen):
        return _with_drawings(published(work, settings, written, to.paper), to.output)
    return in_text(work, chosen, settings, written, to.format, to.paper)


def _refuse_strange(folder: str, output: str) -> None:
    """Raises Trouble for a folder of drawings that is no folder, leads elsewhere, belongs to no earlier document or has
    no folder to lie in."""
    if not os.path.isdir(os.path.dirname(os.path.abspath(output))):
        raise Trouble(f"{output!r} cannot be written (No such file or directory)")
    if os.path.islink(folder) or (os.path.exists(folder) and not os.path.isdir(folder)):
        raise Trouble(f"the drawings would go into {folder!r}, which is no folder; name another file with --output")
    if os.path.isdir(folder) and os.listdir(folder) and not os.path.exists(output):
        what = f"the drawings would go into {folder!r}, which holds files of something else"
        raise Trouble(f"{what}; move them, or name another file with --output")


def _with_drawings(made: "PatternDocument", output: str) -> str:
    """As Markdown, its drawings written into a folder beside `output`."""
    from lintarsia.ground.replacing import replace_file
    from lintarsia.publishing.document.markdown import to_markdown

    folder = os.path.splitext(output)[0] + PICTURES
    _refuse_strange(folder, output)
    os.makedirs(folder, exist_ok=True)
    names = made.file_names
    for picture in made.pictures:
        replace_file(os.path.join(folder, f"{names[id(picture)]}.svg"), picture.svg.encode())
    return to_markdown(made, os.path.basename(folder))
