"""A slip of one row since the chart was committed last: what was there is known, and what has to be guessed is only
whether it was meant.

A row alone that stands a stitch or two further to the side, the other way round, in the place of the next, or over
another, with rows beside it as they were, is hardly what anybody draws. One row more or fewer may well be.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from lintarsia.ground.values import dataclass

FURTHEST = 2  # stitches
MOST_REDRAWN = 0.5  # share of rows that differ, beyond which the picture is another (house value)

Rows = Sequence[str]  # row 1 first, each with as many squares


@dataclass(frozen=True, slots=True)
class SlipSince:
    """`kind` is `shifted`, `mirrored`, `swapped` (row and the next), `copied` (over what was there), `doubled` (one row
    more, as the one below) or `left-out` (one row fewer: `row` is the first above it). `row` is the knitter's, `by` as
    in a Slip."""

    kind: str
    row: int
    by: int = 0


def slip_since(was: Rows, now: Rows) -> SlipSince | None:
    """The first slip from the lowest row up; None where there is none, or much is another."""
    if not was or not now or {*map(len, was)} != {*map(len, now)} or len({*map(len, now)}) != 1:
        return None
    if len(now) == len(was) + 1:
        return _one_more(was, now)
    if len(now) == len(was) - 1:
        return _one_fewer(was, now)
    return next(slips_in_place(was, now), None) if len(was) == len(now) else None


def slips_in_place(was: Rows, now: Rows) -> Iterator[SlipSince]:
    """All of one row, or of a row and the next, between rows that are as they were; `was` and `now` alike in number."""
    others = [row for row in range(len(now)) if was[row] != now[row]]
    if len(others) > MOST_REDRAWN * len(now):
        return
    for block in _blocks(others):
        row = block[0]
        if len(block) == 1:
            yield from _alone(was, now, row)
        elif len(block) == 2 and (now[row], now[row + 1]) == (was[row + 1], was[row]):
            yield SlipSince("swapped", row + 1)


def _alone(was: Rows, now: Rows, row: int) -> Iterator[SlipSince]:
    """What has become of a row of which the neighbours are as they were."""
    beside = [now[other] for other in (row - 1, row + 1) if 0 <= other < len(now)]
    if now[row] in beside and was[row] not in beside:
        if _far(was[row], now[row]):
            yield SlipSince("copied", row + 1)
        return
    for by in (by for step in range(1, FURTHEST + 1) for by in (step, -step)):
        if now[row] == moved(was[row], by):
            yield SlipSince("shifted", row + 1, by)
            return
    if now[row] == was[row][::-1]:
        yield SlipSince("mirrored", row + 1)


def _far(one: str, other: str) -> bool:
    """Whether more differs than somebody who smooths an edge changes in a row: more than one stitch."""
    return sum(a != b for a, b in zip(one, other, strict=True)) > 1


def _one_more(was: Rows, now: Rows) -> SlipSince | None:
    """A row that is as the one below it has come in, and nothing else is another."""
    at = next((row for row, (a, b) in enumerate(zip(was, now, strict=False)) if a != b), len(was))
    if at == 0 or now[at] != now[at - 1] or list(now[at + 1 :]) != list(was[at:]):
        return None
    return SlipSince("doubled", at + 1)


def _one_fewer(was: Rows, now: Rows) -> SlipSince | None:
    at = next((row for row, (a, b) in enumerate(zip(was, now, strict=False)) if a != b), len(now))
    if list(was[at + 1 :]) != list(now[at:]):
        return None
    return SlipSince("left-out", min(at + 1, len(now)))


def _blocks(rows: Sequence[int]) -> list[list[int]]:
    found = [[row] for row in rows[:1]]
    for below, row in pairwise(rows):
        if row == below + 1:
            found[-1].append(row)
        else:
            found.append([row])
    return found


def moved(row: str, by: int) -> str:
    """A row moved `by` stitches to the right (to the left where it is below 0), its end stitch repeated."""
    return row[0] * by + row[:-by] if by > 0 else row[-by:] + row[-1] * -by
