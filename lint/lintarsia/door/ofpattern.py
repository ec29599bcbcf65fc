"""Patterns through the door: their pieces by name, laid out in a size."""

from typing import NamedTuple

from lintarsia.door.trouble import sound
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.choosing import PieceInSize, choose
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.settings import Settings

MOST_NAMED = 6  # pieces in a message


class KnittedPiece(NamedTuple):
    """A piece of a pattern that is knitted in a size, so many times: what `piece=` and `size=` take."""

    piece: str
    size: str
    times: int


class Chosen(NamedTuple):
    """A pattern, and the pieces of it that are asked for."""

    file: str
    work: PatternWork
    pieces: tuple[PieceInSize, ...]

    @property
    def one(self) -> PieceInSize:
        """The piece in a size that alone is asked for. Raises Trouble where there are several."""
        if len(self.pieces) == 1:
            return self.pieces[0]
        names = [one.name for one in self.pieces]
        more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
        known = "; ".join(names[:MOST_NAMED])
        raise Trouble(f"{self.file!r} has {len(names)} of these; name one by piece= and size=: {known}{more}")


def pieces_of(file: str, data: bytes | None, settings: Settings, piece: str | None, size: str | None) -> Chosen:
    """The pieces by that name in that size, None standing for all. Raises Unreadable for a pattern with errors, and
    Trouble for a name that it does not have."""
    reading = read_pattern(file, data, max_bytes=settings.max_bytes)
    work = work_on(sound(file, reading.problems, reading.pattern), settings)
    return Chosen(file, work, choose(work, piece, size))
