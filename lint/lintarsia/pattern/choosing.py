"""Which pieces of a pattern, in which sizes, somebody asks for."""

from collections.abc import Iterable

from lintarsia.chart import Chart
from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.pattern.laying import Laid
from lintarsia.pattern.model import Piece
from lintarsia.pattern.work import PatternWork
from lintarsia.result import Region
from lintarsia.telling.guessing import did_you_mean


class NotLaidOut(Trouble):
    """A piece that cannot be laid out, and where it stands in the pattern's file."""

    def __init__(self, message: str, region: Region) -> None:
        super().__init__(message)
        self.region = region


@dataclass(frozen=True, slots=True)
class PieceInSize:
    """A piece of a pattern in one of its sizes, laid out; `name` is how it is told of, `side, large`."""

    piece: Piece
    size: str
    laid: Laid
    name: str

    @property
    def chart(self) -> Chart:
        return self.laid.chart

    @property
    def times(self) -> int:
        return self.piece.knitted(self.size)


def choose(work: PatternWork, piece: str | None, size: str | None) -> tuple[PieceInSize, ...]:
    """The pieces by that name in that size, None standing for all; those that a size has not are left out.

    Raises Trouble for a name that the pattern does not have and for a piece that a size has not, NotLaidOut for one
    that cannot be laid out.
    """
    pattern = work.pattern
    _known("piece", piece, pattern.pieces)
    _known("size", size, pattern.sizes)
    chosen = [
        _one(work, one, each)
        for each in pattern.sizes
        for one in pattern.pieces.values()
        if piece in (None, one.name) and size in (None, each) and one.knitted(each)
    ]
    if not chosen:
        what = piece if size is None else "any piece" if piece is None else f"{piece} in {size}"
        raise Trouble(f"the pattern does not knit {what}")
    return tuple(chosen)


def _one(work: PatternWork, piece: Piece, size: str) -> PieceInSize:
    laid, name = work.laid(piece, size), work.pattern.about(piece.name, size)
    if laid is None:
        said = piece.charts.get(size)
        why = _why_plain(work, piece, size) if said is None else work.charts[said].fault or work.too_large
        raise NotLaidOut(f"{name} cannot be laid out: {why}", work.place("pieces", piece.name))
    return PieceInSize(piece, size, laid, name)


def _why_plain(work: PatternWork, piece: Piece, size: str) -> str:
    if piece.colour is not None and work.key_of(piece.colour) is None:
        return f"no chart of the pattern has its colour, {piece.colour}, in the key"
    if piece.colour is None:
        return "it has no chart there"
    said = size in piece.cast_on and size in piece.rows
    return work.too_large if said else "its stitches or rows are not said there"


def _known(what: str, name: str | None, known: Iterable[str]) -> None:
    names = list(known)
    if name is not None and name not in names:
        meant = did_you_mean(name, names) or f"; it has {', '.join(names)}"
        raise Trouble(f"the pattern has no {what} {name!r}{meant}")
