"""What is asked for of a pattern in words: rows alone of some of its pieces, a document of all of them."""

import os
from collections.abc import Sequence

from lintarsia.engine.revision import revision_of
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.inwords import pages_alone, text_of_all
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.document.composing import compose
from lintarsia.publishing.document.html import to_html
from lintarsia.publishing.document.markdown import to_markdown
from lintarsia.publishing.document.model import PatternDocument
from lintarsia.publishing.document.written import Written
from lintarsia.publishing.imprint import imprint_of
from lintarsia.settings import Settings


def all_of(work: PatternWork, chosen: Sequence[PieceInSize]) -> bool:
    """Whether every piece of the pattern is among those chosen."""
    return len({one.piece.name for one in chosen}) == len(work.pattern.pieces)


def published(work: PatternWork, settings: Settings, written: Sequence[Written], paper: str = "A4") -> PatternDocument:
    """The document, with the designer's name and the revision that it is made of."""
    path = work.pattern.path
    state = revision_of(path) if os.path.exists(path) else None
    imprint, revision = imprint_of(settings), state.words if state else ""
    return compose(work, written, imprint=imprint, revision=revision, paper=paper)


def in_text(
    work: PatternWork, chosen: Sequence[PieceInSize], settings: Settings, written: Sequence[Written], format: str,
    paper: str = "A4",
) -> str:  # fmt: skip
    """As `text`, `markdown` or `html`; Markdown without its drawings, for which a text has no place."""
    if not all_of(work, chosen):
        return pages_alone(work, [each.page for each in written], format)
    if format == "text":
        return text_of_all(work, chosen, [each.page for each in written])
    made = published(work, settings, written, paper)
    return to_html(made) if format == "html" else to_markdown(made)
