"""Repeats in a row: the shortest way to say it, with brackets inside brackets once and an asterisk at most once."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

from lintarsia.words.order import Stretch

LONGEST_REPEAT = 24  # stretches in one repeat; longer ones are hard to find again in the knitting
DEEPEST = 2


@dataclass(frozen=True, slots=True)
class Repeated:
    """`parts` worked `times` times over."""

    parts: tuple["Part", ...]
    times: int


Part = Stretch | Repeated


def fold(row: Sequence[Stretch]) -> tuple[Part, ...]:
    """The row with what repeats said once, wherever that makes the words shorter. Exact inverse: `unfold`."""
    row = tuple(row)
    folded = _fold(row, DEEPEST)
    motif = _motif(row)
    if motif is None:
        return folded
    whole = Repeated(_fold(motif[0], DEEPEST - 1), motif[1])
    return (whole,) if _length(whole) <= sum(map(_length, folded)) else folded


def _motif(row: tuple[Stretch, ...]) -> tuple[tuple[Stretch, ...], int] | None:
    """What a row that is one motif over and over repeats, and how often; a motif may begin and end in one colour."""
    yarns = [stretch.yarn for stretch in row for _ in range(stretch.count)]
    size = len(yarns)
    for period in range(2, min(size // 2, LONGEST_REPEAT * 2) + 1):
        if size % period == 0 and yarns[period:] == yarns[:-period] and len(row) > 1:
            return tuple(Stretch(yarn, len(list(run))) for yarn, run in groupby(yarns[:period])), size // period
    return None


def unfold(parts: Sequence[Part]) -> list[Stretch]:
    """Every stretch, one after another."""
    row: list[Stretch] = []
    for part in parts:
        row += unfold(part.parts) * part.times if isinstance(part, Repeated) else [part]
    return row


def stitches_of(parts: Sequence[Part]) -> int:
    """How many stitches the parts come to."""
    return sum(stitches_of(part.parts) * part.times if isinstance(part, Repeated) else part.count for part in parts)


@lru_cache(maxsize=4096)
def _length(part: Part) -> int:
    """About how many characters a part takes in print."""
    if isinstance(part, Repeated):
        return len("[] times, ") + len(str(part.times)) + sum(map(_length, part.parts)) - len(", ")
    yarn = part.yarn
    return len("k , ") + len(str(part.count)) + 1 + (0 if yarn.supply is None else len(str(yarn.supply)))


def _fold(row: tuple[Stretch, ...], depth: int) -> tuple[Part, ...]:
    size = len(row)
    if depth == 0 or size < 4:
        return row
    again = [_repeats(row, period) for period in range(2, min(LONGEST_REPEAT, size // 2) + 1)]
    # best[i]: the shortest words for row[i:], as (characters, where to go on, the part that stands there)
    best: list[tuple[int, int, Part]] = [(0, size, row[0])] * (size + 1)
    for start in range(size - 1, -1, -1):
        choice: tuple[int, int, Part] = (_length(row[start]) + best[start + 1][0], start + 1, row[start])
        for period, times_at in enumerate(again, 2):
            times = times_at[start] if start < len(times_at) else 1
            if times > 1:
                part: Part = Repeated(_inner(row[start : start + period], depth - 1), times)
                end = start + period * times
                length = _length(part) + best[end][0]
                if length < choice[0]:
                    choice = (length, end, part)
        best[start] = choice
    parts: list[Part] = []
    at = 0
    while at < size:
        _, at, part = best[at]
        parts.append(part)
    return tuple(parts)


@lru_cache(maxsize=4096)
def _inner(row: tuple[Stretch, ...], depth: int) -> tuple[Part, ...]:
    return _fold(row, depth)


def _repeats(row: tuple[Stretch, ...], period: int) -> list[int]:
    """For each start, how many times the `period` stretches there stand one after another."""
    same = 0
    times = [1] * (len(row) - period)
    for start in range(len(row) - period - 1, -1, -1):
        same = same + 1 if row[start] == row[start + period] else 0
        times[start] = 1 + same // period
    return times
