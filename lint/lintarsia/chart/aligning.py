"""Rows of two charts matched, so that a row put in below does not make every row above it a changed one.

An exact minimum: of all ways to match the rows in their order it takes the one with the least to tell.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

GAP = 0.5  # a row added or dropped; one of which every stitch has changed costs as much as both
TELLING = 0.2  # of it, however few stitches: six rows each a little changed are rather one in and one out
MOST_PAIRS = 1_500_000  # rows by rows that are weighed against each other; more are matched from the bottom up
MOST_MOVED = 20_000_000  # stitches by rows up to which a row that has moved as a whole counts as near
FURTHEST = 8  # stitches that it may have moved


class RowPair(NamedTuple):
    """Row numbers from 1, bottom-up; None where the other chart has no such row."""

    was: int | None
    now: int | None


def align(was: Sequence[str], now: Sequence[str]) -> list[RowPair]:
    """The rows of two charts, bottom-up as in `Grid.rows`, matched. Like rows at the bottom go together first, so that
    among equal rows it is the topmost that was added."""
    low = _common(was, now)
    high = _common(was[low:][::-1], now[low:][::-1])
    middle = _matched(was[low : len(was) - high], now[low : len(now) - high])
    pairs = [RowPair(row, row) for row in range(1, low + 1)]
    pairs += [RowPair(a and a + low, b and b + low) for a, b in middle]
    pairs += [RowPair(len(was) - left, len(now) - left) for left in range(high - 1, -1, -1)]
    for at in range(len(pairs) - 2, -1, -1):
        _raise(pairs, at, was, now)
    return pairs


def _raise(pairs: list[RowPair], at: int, was: Sequence[str], now: Sequence[str]) -> None:
    """A row that was added, or dropped, past the equal rows above it."""
    while at + 1 < len(pairs):
        gap, above = pairs[at : at + 2]
        if above.was is None or above.now is None or was[above.was - 1] != now[above.now - 1]:
            return
        if gap.was is None and gap.now is not None and now[gap.now - 1] == now[above.now - 1]:
            pairs[at : at + 2] = [RowPair(above.was, gap.now), RowPair(None, above.now)]
        elif gap.now is None and gap.was is not None and was[gap.was - 1] == was[above.was - 1]:
            pairs[at : at + 2] = [RowPair(gap.was, above.now), RowPair(above.was, None)]
        else:
            return
        at += 1


def _common(one: Sequence[str], other: Sequence[str]) -> int:
    return next((k for k, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))


def _matched(was: Sequence[str], now: Sequence[str]) -> list[RowPair]:
    if not was or not now or len(was) * len(now) > MOST_PAIRS:
        both = min(len(was), len(now))
        pairs = [RowPair(row, row) for row in range(1, both + 1)]
        pairs += [RowPair(row, None) for row in range(both + 1, len(was) + 1)]
        return pairs + [RowPair(None, row) for row in range(both + 1, len(now) + 1)]
    return _walk_back(_costs(distances(was, now)))


def distances(was: Sequence[str], now: Sequence[str]) -> NDArray[np.float64]:
    """Share of stitches that differ, shape (rows of was, rows of now); a row shifted or mirrored as a whole is near."""
    wide = max(map(len, (*was, *now)))
    a, b = _codes(was, wide), _codes(now, wide)
    found = _apart(a, b)
    if found.size * wide > MOST_MOVED:
        return found
    found = np.minimum(found, _apart(a[:, ::-1], b) + 2 / wide)
    for step in range(1, min(FURTHEST, wide // 3) + 1):
        for left in (True, False):
            found = np.minimum(found, _apart(_moved(a, step, left=left), b) + 2 / wide)
    return found


def _apart(a: NDArray[np.uint32], b: NDArray[np.uint32]) -> NDArray[np.float64]:
    return np.array([(row != b).mean(axis=1) for row in a])


def _moved(rows: NDArray[np.uint32], step: int, *, left: bool) -> NDArray[np.uint32]:
    if left:
        return np.hstack([rows[:, step:], np.repeat(rows[:, -1:], step, axis=1)])
    return np.hstack([np.repeat(rows[:, :1], step, axis=1), rows[:, :-step]])


def _codes(rows: Sequence[str], wide: int) -> NDArray[np.uint32]:
    joined = "".join(row.rjust(wide, "\0") for row in rows)
    return np.frombuffer(joined.encode("utf-32-le"), np.uint32).reshape(len(rows), wide)


def _costs(apart: NDArray[np.float64]) -> tuple[list[list[float]], list[list[float]]]:
    """Of matching the rows from each pair upwards to the top, and of changing a row: a row that is told of at all, and
    its stitches."""
    change = np.where(apart > 0, TELLING + (2 * GAP - TELLING) * apart, 0.0).tolist()
    rows, others = apart.shape
    best = [[GAP * (others - j) for j in range(others + 1)]]
    for i in range(rows - 1, -1, -1):
        above, own = best[-1], change[i]
        here = [0.0] * others + [above[others] + GAP]
        for j in range(others - 1, -1, -1):
            here[j] = min(above[j + 1] + own[j], above[j] + GAP, here[j + 1] + GAP)
        best.append(here)
    return best[::-1], change


def _walk_back(costs: tuple[list[list[float]], list[list[float]]]) -> list[RowPair]:
    best, change = costs
    pairs, i, j = [], 0, 0
    rows, others = len(change), len(change[0])
    while i < rows or j < others:
        if i < rows and j < others and best[i][j] >= best[i + 1][j + 1] + change[i][j] - 1e-12:
            i, j = i + 1, j + 1
            pairs.append(RowPair(i, j))
        elif i < rows and best[i][j] >= best[i + 1][j] + GAP - 1e-12:
            i += 1
            pairs.append(RowPair(i, None))
        else:
            j += 1
            pairs.append(RowPair(None, j))
    return pairs
