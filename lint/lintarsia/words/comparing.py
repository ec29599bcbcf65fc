"""A written row and its charted one side by side, in words short enough for a message."""

from lintarsia.words.order import Stretch, stretches
from lintarsia.words.phrases import row_phrase
from lintarsia.words.written import WrittenRow

BEFORE, AFTER = 2, 3  # stretches shown on either side of the one that differs


def both(row: WrittenRow) -> str:
    """`chart: k3 A, k6 B, k3 A; words: k3 A, k5 B, k4 A`, cut to what stands around the first difference."""
    at = row.differs_at or 0
    return f"chart: {_around(row.charted, at, row.usual)}; words: {_around(row.symbols, at, row.usual)}"


def _around(symbols: str, at: int, stitch: str) -> str:
    row = list(stretches(symbols))
    if not row:
        return "nothing"
    here = _index(row, at)
    first, last = max(0, here - BEFORE), min(len(row), here + AFTER + 1)
    shown = row_phrase(row[first:last], stitch, stars=False)
    return f"{'… ' if first else ''}{shown}{' …' if last < len(row) else ''}"


def _index(row: list[Stretch], at: int) -> int:
    """The stretch that holds stitch `at`; the last one where the row is shorter."""
    for index, stretch in enumerate(row):
        at -= stretch.count
        if at < 0:
            return index
    return len(row) - 1


def reversed_words(row: WrittenRow) -> bool:
    """Whether the words are the charted row, worked from the wrong end."""
    return row.symbols != row.charted and row.symbols == row.charted[::-1]
