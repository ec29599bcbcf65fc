"""A piece of a pattern in words, as it comes to be put into a document."""

from lintarsia.ground.values import dataclass
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.telling.terms import Terms
from lintarsia.written.page import RowsPage


@dataclass(frozen=True, slots=True)
class Written:
    """A piece in words: its page, and the pieces in sizes that the page is for. `as_charted`: the page speaks of the
    chart as it is drawn, with its repeat; else of the piece laid out. `terms` are those of its words and
    of its charts' keys."""

    page: RowsPage
    pieces: tuple[PieceInSize, ...]
    as_charted: bool = False
    terms: Terms = Terms.AMERICAN
