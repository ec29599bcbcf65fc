"""A slip told by rows that ought to be alike: a picture that is its own mirror image, or repeats, but for one row.

Whether a picture is symmetrical, or repeats upwards, is seen from all its other rows. The one row, or the row and the
next, that breaks it and would keep it with a slip undone has slipped.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from operator import ne
from typing import NamedTuple

import numpy as np

from lintarsia.ground.values import dataclass
from lintarsia.rules.shared.lanes import Cells

FEWEST = 5  # rows of more than one colour that must keep it before a likeness is evident (house value)
MOST_PERIODS = 3  # that are looked into
COPIES = 3  # of a repeat, so that two tell which of them is wrong
FURTHEST = 2  # stitches that a row has been shifted
HALVES, TURN = "the upper half is the lower one turned over", "the picture looks the same after half a turn"


@dataclass(frozen=True, slots=True)
class SlipAlike:
    """`kind`, `row` and `by` as those of a Slip, or `doubled` and `left-out` (`row` is the first above it); `told` says
    what the row would be like."""

    kind: str
    row: int
    by: int
    told: str


class _Likeness(NamedTuple):
    """What each row ought to be; None where nothing says so. `step` is 0 where each row stands for itself, -1 where
    rows are alike in pairs from the ends inwards, else the height of a repeat."""

    told: str
    wanted: Sequence[bytes | None]
    step: int

    def broken(self, rows: Sequence[bytes]) -> list[int]:
        return [at for at, (row, want) in enumerate(zip(rows, self.wanted, strict=True)) if want not in (None, row)]


def slip_alike(cells: Cells) -> SlipAlike | None:
    """The one slip that a likeness tells of. `cells` as for `find_slip`."""
    return _Picture(cells).slip()


class _Picture:
    """`rows` as bytes, and `turned` those of the rows read the other way."""

    def __init__(self, cells: Cells) -> None:
        self.cells = cells
        self.rows = _in_bytes(cells)
        self.turned = _in_bytes(cells[:, ::-1])

    def slip(self) -> SlipAlike | None:
        if len(set(self.rows)) < COPIES:
            return None
        found = (self._by(likeness) for likeness in self._likenesses())
        return next((slip for slip in found if slip is not None), None) or self._halves_apart()

    def _likenesses(self) -> Iterator[_Likeness]:
        yield _Likeness(HALVES, self.rows[::-1], -1)
        yield _Likeness(TURN, self.turned[::-1], -1)
        yield _Likeness("the two sides are alike", self.turned, 0)
        for period in self._periods():
            yield _Likeness(f"the picture repeats every {period} rows", _majority(self.rows, period), period)

    def _periods(self) -> list[int]:
        """Heights of a repeat of which all but a few rows are as one repeat further up, the likeliest first."""
        rows, found, kinds = self.rows, [], len(set(self.rows))
        for period in range(2, (len(rows) + 1) // COPIES + 1):
            few = max(4, period + 1)
            if kinds > period + few:
                continue  # every row that is unlike the one a repeat further down adds one kind at most
            unlike = sum(map(ne, rows[period:], rows))
            if unlike <= few and unlike * 2 < len(rows):
                found.append((unlike, period))
        return [period for _, period in sorted(found)[:MOST_PERIODS]]

    def _cells(self, row: bytes) -> Cells:
        return np.frombuffer(row, self.cells.dtype)

    def _by(self, likeness: _Likeness) -> SlipAlike | None:
        most = 4 if likeness.step < 0 else 2
        if likeness.step <= 0 and sum(map(ne, self.rows, likeness.wanted)) > most:
            return None
        broken = likeness.broken(self.rows)
        if not broken:
            return None
        if len(broken) > most:
            return self._out_of_step(likeness)
        if not self._evident(broken, likeness.step):
            return None
        return self._likeliest(likeness, broken)

    def _evident(self, broken: Sequence[int], step: int) -> bool:
        kept = [row for at, row in enumerate(self.rows) if at not in broken]
        many = sum(row != row[: self.cells.itemsize] * self.cells.shape[1] for row in kept)
        return bool(many >= FEWEST * (2 if step < 0 else 1))

    def _likeliest(self, likeness: _Likeness, broken: Sequence[int]) -> SlipAlike | None:
        """Of the changes that mend it all, the one after which the row also fits best between its neighbours."""
        pairs = 2 if likeness.step < 0 else 1
        found = []
        if len(broken) <= pairs:
            found = [
                (self._gain(at, made), -abs(by), kind, at, by) for kind, at, by, made in self._alone(likeness, broken)
            ]
        for at, above in pairwise(broken):
            wanted = likeness.wanted[at], likeness.wanted[above]
            if above == at + 1 and (self.rows[above], self.rows[at]) == wanted and len(broken) <= 2 * pairs:
                found.append((self._gain(at, self.cells[[above, at]]), 0, "swapped", at, 0))
        if not found:
            return None
        _, _, kind, at, by = max(found)
        return SlipAlike(kind, at + 1, by, likeness.told)

    def _alone(self, likeness: _Likeness, broken: Sequence[int]) -> Iterator[tuple[str, int, int, Cells]]:
        for at in broken:
            row, want = self.cells[at], likeness.wanted[at]
            assert want is not None
            text = self._cells(want)
            if likeness.step and np.array_equal(row[::-1], text):
                yield "mirrored", at, 0, row[None, ::-1]
            for by in (by for step in range(1, FURTHEST + 1) for by in (step, -step)):
                made = _moved(row, -by)
                inner = slice(abs(by), -abs(by))  # beyond it stands what a shift has pushed over the edge
                if np.array_equal(made[inner], (text if likeness.step else made[::-1])[inner]):
                    yield "shifted", at, by, made[None]

    def _gain(self, at: int, made: Cells) -> float:
        """By how much stitches become more usual."""
        from lintarsia.rules.shared.usual import gained  # few pictures come so far

        undone = self.cells.copy()
        undone[at : at + len(made)] = made
        return gained(self.cells, undone, at)

    def _halves_apart(self) -> SlipAlike | None:
        """One half that has a row more than the other."""
        for other, told in ((self.rows, HALVES),
                            (self.turned, TURN)):  # fmt: skip
            rows, last = self.rows, len(self.rows) - 1
            low = next((at for at in range(len(rows)) if rows[at] != other[last - at]), None)
            if low is None:
                continue
            for first, end, extra, lack in (
                (low + 1, last - low, low, last - low + 1),
                (low, last - 1 - low, last - low, low),
            ):
                inner, back = rows[first : end + 1], other[first : end + 1][::-1]
                if inner == back and self._evident((), -1):
                    return self._more(extra, lack, told)
        return None

    def _more(self, extra: int, lack: int, told: str) -> SlipAlike:
        """A row that is as one beside it is doubled; else the other half lacks it, below row `lack`."""
        beside = [self.rows[at] for at in (extra - 1, extra + 1) if 0 <= at < len(self.rows)]
        if self.rows[extra] in beside:
            return SlipAlike("doubled", extra + 1, 0, told)
        return SlipAlike("left-out", min(lack + 1, len(self.rows)), 0, told)

    def _out_of_step(self, likeness: _Likeness) -> SlipAlike | None:
        """From some row up a repeat comes a row late, or early."""
        if not self._evident((), 0):
            return None
        rows, period = self.rows, likeness.step
        for at in range(1, len(rows)):
            if rows[at] == rows[at - 1] and _repeats([*rows[:at], *rows[at + 1 :]], period):
                return SlipAlike("doubled", at + 1, 0, likeness.told)
        for at in range(len(rows) + 1):
            for from_row in (at - period, at + period - 1):
                if 0 <= from_row < len(rows) and _repeats([*rows[:at], rows[from_row], *rows[at:]], period):
                    return SlipAlike("left-out", min(at + 1, len(rows)), 0, likeness.told)
        return None


def _in_bytes(cells: Cells) -> list[bytes]:
    data, step = cells.tobytes(), cells.itemsize * cells.shape[1]
    return [data[at : at + step] for at in range(0, len(data), step)]


def _repeats(rows: Sequence[bytes], period: int) -> bool:
    return rows[period:] == rows[:-period]


def _majority(rows: Sequence[bytes], period: int) -> list[bytes | None]:
    """Of each row and those that ought to be like it, what more than half of them are."""
    found: list[bytes | None] = []
    for at in range(len(rows)):
        like = rows[at % period :: period]
        most = max(set(like), key=like.count)
        found.append(most if like.count(most) * 2 > len(like) else None)
    return found


def _moved(row: Cells, by: int) -> Cells:
    if by > 0:
        return np.concatenate([np.repeat(row[:1], by), row[:-by]])
    return np.concatenate([row[-by:], np.repeat(row[-1:], -by)])
