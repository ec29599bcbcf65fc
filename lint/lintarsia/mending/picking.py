"""Which fixes go into one round: in the order of their results, each that clashes with none before it."""

from collections.abc import Iterable
from typing import NamedTuple

from lintarsia.reading.applying import Splice, splices
from lintarsia.reading.source import Lines
from lintarsia.result import Fix, Result


class Choice(NamedTuple):
    """A fix, the result it mends, and where it changes the text."""

    result: Result
    fix: Fix
    pieces: tuple[Splice, ...]


def fix_of(result: Result, *, risky: bool) -> Fix | None:
    """The fix that would be taken for a result: its first that is safe, or its first of any kind where `risky`.

    An accepted result is left alone: somebody has looked at it and given a reason.
    """
    if result.suppressed:
        return None
    return next((fix for fix in result.fixes if fix.safe or risky), None)


def choose(results: Iterable[Result], text: str, *, risky: bool) -> list[Choice]:
    """The fixes of one round, at most one a result."""
    chosen: list[Choice] = []
    lines = Lines(text)
    taken = _Taken()
    for result in sorted(results, key=lambda result: result.order):
        fix = fix_of(result, risky=risky)
        found = splices(fix, lines) if fix else None
        if fix and found and taken.free(found):
            taken.add(found)
            chosen.append(Choice(result, fix, found))
    return chosen


class _Taken:
    """The pieces chosen so far, by the hundred characters they touch, so that thousands are told apart quickly."""

    STEP = 100

    def __init__(self) -> None:
        self._near: dict[int, list[Splice]] = {}

    def free(self, found: tuple[Splice, ...]) -> bool:
        return not any(
            piece.clashes(other) for piece in found for step in self._steps(piece) for other in self._near.get(step, ())
        )

    def add(self, found: tuple[Splice, ...]) -> None:
        for piece in found:
            for step in self._steps(piece):
                self._near.setdefault(step, []).append(piece)

    def _steps(self, piece: Splice) -> range:
        return range(piece.start // self.STEP, piece.end // self.STEP + 1)
