"""A slip of a row in one of several repeats side by side, told by the others.

Whether a picture repeats across is seen from all its other rows. In the row, or the row and the next, in which one
repeat is unlike the others, it is theirs with a slip.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from lintarsia.rules.shared.lanes import Cells

if TYPE_CHECKING:
    from lintarsia.rules.shared.rows_before import SlipSince

NARROWEST = 8  # stitches of a repeat: what is narrower is changed by a stitch or two as much as by a slip (house value)
COPIES = 3  # so that two tell which of them is wrong
FEWEST = 5  # rows of more than one colour that keep the repeat before it is evident (house value)
MOST = 2  # rows that a slip breaks
SAMPLE = 5  # rows that settle most charts


class SlipAcross(NamedTuple):
    """`slip` as of a commit; in the columns from `left` on, of a repeat of `step` stitches."""

    slip: "SlipSince"
    left: int
    step: int


def slip_across(cells: Cells) -> SlipAcross | None:
    """The one slip that a repeat tells of. `cells` as for `find_slip`."""
    steps = _likely_steps(cells)
    if not steps:
        return None
    from lintarsia.rules.shared.sizes_alike import plain, texts  # few charts come so far

    rows = texts(cells)
    told = [row for row in rows if not plain(row)]
    for step in steps:
        broken = [row for row in told if not _keeps(row, step)]
        if len(told) - len(broken) >= FEWEST and 0 < len(broken) <= MOST and not any(map(_repeats_otherwise, broken)):
            slip = _by(rows, step)
            if slip is not None:
                return slip
    return None


def _likely_steps(cells: Cells) -> list[int]:
    """Widths of a repeat that one row at least keeps of a few here and there."""
    size, width = cells.itemsize, cells.shape[1]
    sample = [row for row in map(_bytes, cells[:: max(1, len(cells) // SAMPLE)]) if row != row[:size] * width]
    if len(sample) <= MOST:  # mostly plain: they may be the rows that are broken
        sample = [row for row in map(_bytes, cells) if row != row[:size] * width]
    widths = range(NARROWEST, width // COPIES + 1)
    return [step for step in widths if any(row[step * size :] == row[: -step * size] for row in sample)]


def _bytes(row: Cells) -> bytes:
    return row.tobytes()


def _keeps(row: str, step: int) -> bool:
    return row[step:] == row[:-step]


def _repeats_otherwise(row: str) -> bool:
    return any(_keeps(row, step) for step in range(2, len(row) // 2 + 1))


def _by(rows: Sequence[str], step: int) -> SlipAcross | None:
    """Where one repeat alone is unlike the others, and a slip of its row, or of its row and the next, explains it."""
    wanted = [_most(row, step) for row in rows]
    repeats = {left: [row[left : left + step] for row in rows] for left in range(0, len(rows[0]) - step + 1, step)}
    others = {left: now for left, now in repeats.items() if now != wanted}
    if len(others) != 1:
        return None
    from lintarsia.rules.shared.rows_before import slips_in_place

    [(left, now)] = others.items()
    slips = list(slips_in_place(wanted, now))
    return SlipAcross(slips[0], left, step) if len(slips) == 1 else None


def _most(row: str, step: int) -> str:
    """What most repeats of a row are."""
    each = [row[left : left + step] for left in range(0, len(row) - step + 1, step)]
    return max(each, key=each.count)
