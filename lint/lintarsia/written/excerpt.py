"""The part of a row that a message shows: what stands around one stitch."""

from lintarsia.written.order import YarnStretch, stretches
from lintarsia.written.rowphrase import row_phrase

BEFORE, AFTER = 2, 3  # stretches shown on either side of the one that differs


def around(symbols: str, at: int, stitch: str) -> str:
    """The stretches about stitch `at` (from 0, in working order), with `…` where more stand before or after."""
    row = list(stretches(symbols))
    if not row:
        return "nothing"
    here = _index(row, at)
    first, last = max(0, here - BEFORE), min(len(row), here + AFTER + 1)
    shown = row_phrase(row[first:last], stitch, stars=False)
    return f"{'… ' if first else ''}{shown}{' …' if last < len(row) else ''}"


def _index(row: list[YarnStretch], at: int) -> int:
    """The stretch that holds stitch `at`; the last one where the row is shorter."""
    for index, stretch in enumerate(row):
        at -= stretch.count
        if at < 0:
            return index
    return len(row) - 1
