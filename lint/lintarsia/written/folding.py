"""Repeats in a row: the shortest way to say it, with brackets inside brackets once and an asterisk at most once."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby

from lintarsia.ground.values import dataclass
from lintarsia.written.motif import motif
from lintarsia.written.order import ColourSupply, YarnStretch

LONGEST_REPEAT = 24  # stretches in one repeat; longer ones are hard to find again in the knitting
DEEPEST = 2
# Characters of a repeat beside what it repeats and its count. A pair of brackets counts for one less than is printed:
# where both ways are as long, it reads better than the same stitches twice over.
AROUND = len("[]  times") - 1


@dataclass(frozen=True, slots=True)
class Repeated:
    """`parts` worked `times` times over."""

    parts: tuple["Part", ...]
    times: int


Part = YarnStretch | Repeated


def fold(row: Sequence[YarnStretch]) -> tuple[Part, ...]:
    """The row with what repeats said once, wherever that makes the words shorter. Exact inverse: `unfold`."""
    return _fold(tuple(row))


@lru_cache(maxsize=4096)  # rows come again
def _fold(row: tuple[YarnStretch, ...]) -> tuple[Part, ...]:
    folder = _Folder(row)
    length, parts = folder.fold(folder.coded(row), DEEPEST)
    motif = _motif(row)
    if motif is not None:
        inner, times = motif
        inside, whole = folder.fold(folder.coded(inner), DEEPEST - 1)
        if inside + AROUND + len(str(times)) <= length:
            return (Repeated(whole, times),)
    return parts


def unfold(parts: Sequence[Part]) -> list[YarnStretch]:
    """Every stretch, one after another."""
    row: list[YarnStretch] = []
    for part in parts:
        row += unfold(part.parts) * part.times if isinstance(part, Repeated) else [part]
    return row


def stitches_of(parts: Sequence[Part]) -> int:
    """How many stitches the parts come to."""
    return sum(stitches_of(part.parts) * part.times if isinstance(part, Repeated) else part.count for part in parts)


def _motif(row: tuple[YarnStretch, ...]) -> tuple[tuple[YarnStretch, ...], int] | None:
    """What a row that is one motif over and over repeats, and how often; a motif may begin and end in one colour."""
    codes: dict[tuple[ColourSupply, str], int] = {}  # numbers are compared far quicker than yarns
    stitches = [code for s in row for code in [codes.setdefault((s.yarn, s.stitch), len(codes))] * s.count]
    wide = motif(stitches)
    if wide is None or len(stitches) % wide or wide > LONGEST_REPEAT * 2:
        return None
    kinds = list(codes)
    one = [(kinds[code], len(list(run))) for code, run in groupby(stitches[:wide])]
    return tuple(YarnStretch(yarn, stitches, kind) for (yarn, kind), stitches in one), len(stitches) // wide


Codes = tuple[int, ...]


class _Folder:
    """Folds the stretches of one row. They are numbered, since the same few are compared and looked up very often."""

    def __init__(self, row: Sequence[YarnStretch]) -> None:
        self.numbers: dict[YarnStretch, int] = {}
        self.stretches: list[YarnStretch] = []
        self.lengths: list[int] = []
        self.known: dict[tuple[Codes, int], tuple[int, tuple[Part, ...]]] = {}
        self.coded(row)

    def coded(self, row: Sequence[YarnStretch]) -> Codes:
        for stretch in row:
            if stretch not in self.numbers:
                self.numbers[stretch] = len(self.stretches)
                self.stretches.append(stretch)
                self.lengths.append(_length(stretch))
        return tuple(self.numbers[stretch] for stretch in row)

    def fold(self, row: Codes, depth: int) -> tuple[int, tuple[Part, ...]]:
        """The shortest words for a row, as their length and the parts."""
        if (row, depth) not in self.known:
            self.known[row, depth] = self._fold(row, depth)
        return self.known[row, depth]

    def _fold(self, row: Codes, depth: int) -> tuple[int, tuple[Part, ...]]:
        size = len(row)
        if depth == 0 or size < 4:
            return sum(self.lengths[code] for code in row), tuple(self.stretches[code] for code in row)
        again = {period: _repeats(row, period) for period in range(1, min(LONGEST_REPEAT, size // 2) + 1)}
        # From each place on: the characters of the shortest words, and the period and times of the repeat that begins
        # there (period 0: a stretch by itself). Only decreases are repeated one by one.
        shortest = [0] * (size + 1)
        chosen = [(0, 1)] * size
        for start in range(size - 1, -1, -1):
            shortest[start] = self.lengths[row[start]] + shortest[start + 1]
            told: list[int] = []
            for period, times_at in again.items():
                if start >= len(times_at) or (times := times_at[start]) == 1:
                    continue
                if any(period % shorter == 0 for shorter in told):
                    continue  # the shorter repeat says as much
                told.append(period)
                inside, _ = self.fold(row[start : start + period], depth - 1)
                length = inside + AROUND + len(str(times)) + shortest[start + period * times]
                if length < shortest[start]:
                    shortest[start] = length
                    chosen[start] = (period, times)
        parts: list[Part] = []
        at = 0
        while at < size:
            period, times = chosen[at]
            if period == 0:
                parts.append(self.stretches[row[at]])
            else:
                parts.append(Repeated(self.fold(row[at : at + period], depth - 1)[1], times))
            at += max(1, period) * times
        return shortest[0], tuple(parts)


def _length(stretch: YarnStretch) -> int:
    """About how many characters a stretch takes in print."""
    supply = stretch.yarn.supply
    return len("k A, ") + len(str(stretch.count)) + (0 if supply is None else len(str(supply)))


def _repeats(row: Codes, period: int) -> list[int]:
    """For each start, how many times the `period` stretches there stand one after another."""
    same = 0
    times = [1] * (len(row) - period)
    for start in range(len(row) - period - 1, -1, -1):
        same = same + 1 if row[start] == row[start + period] else 0
        times[start] = 1 + same // period
    return times
