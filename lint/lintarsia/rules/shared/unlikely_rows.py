"""Rows that are unlikely among their neighbours, and would be likelier with a slip in them undone.

How usual it is that a stitch has its colour, with such stitches around it, is a number for each neighbourhood: a table
that benchmarks/row_slips_learn.py learns from pictures of our own. Where a slip undone makes the stitches of a row and
of the rows about it more usual altogether, it may be one; how likely, against that there is none and against all others
in the picture, is what the table was learned for.
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.neighbours import (
    REACH,
    SEEN,
    WAYS,
    Changes,
    Codes,
    Neighbours,
    Numbers,
    Patterns,
    numbers_of_patterns,
)

Odds = NDArray[np.float64]  # (rows, ways): logarithms of odds against no slip; -inf where a way changes nothing
Tried = Sequence[tuple[float, int, int]]  # odds, row and way of each change that changes something
FILE = Path(__file__).with_name("stitch_weights.npy")
LINES = SEEN - 2 * REACH  # rows that see a change
_LINES = np.arange(LINES)
AT_ONCE = 65_536  # stitches that are looked up at a time, so that a large picture takes no more room than that
LOOKED_AT = 32  # rows of a chart that are tried, those whose stitches are the least usual
BESIDE = 1  # rows; a slip's neighbour, undone, often does as well
AWAY = 2  # rows; what is nearer to a slip is bent by it
# Where edges wander or stitches are strewn about, several rows would be likelier otherwise. How much that takes from a
# guess: how far the likeliest of them lie above QUIET, in the mean. Tried out on six kinds of pictures (house values).
RIVALS, QUIET, LOUD = 4, -4.5, 4.0


class Table:
    """`weights` (numbers of neighbourhoods), times `unit` the logarithm of odds; `ways` what each way starts with."""

    def __init__(self, weights: NDArray[np.int8], unit: float, ways: NDArray[np.float64]) -> None:
        self.weights, self.unit, self.ways = weights, unit, ways
        self._by_pattern = weights.astype(np.int16)[numbers_of_patterns()]

    def usual(self, around: Neighbours, rows: Codes) -> Numbers:
        """How usual the stitches of each row are altogether; `rows` as for `Neighbours.patterns`."""
        many = max(1, AT_ONCE // rows.shape[1])
        starts = range(0, max(1, len(rows) - 2 * REACH), many)
        return np.concatenate([self._usual(around.patterns(rows[at : at + many + 2 * REACH])) for at in starts])

    def _usual(self, patterns: Patterns) -> Numbers:
        wide, tall = self._by_pattern.take(patterns)
        of_rows: Numbers = np.add.reduce(wide + tall, 1, np.int64)
        return of_rows

    def write(self, path: Path) -> None:
        """Arrays one after the other, as NumPy writes them: a packed archive would cost each run its unpacking."""
        with path.open("wb") as kept:
            for part in (self.weights, np.float64(self.unit), self.ways):
                np.save(kept, part)


@lru_cache(1)
def table() -> Table:
    with FILE.open("rb") as kept:
        weights, unit, ways = (np.load(kept) for _ in range(3))
    return Table(weights, float(unit), ways)


class Guess(NamedTuple):
    """`row` from 0, `way` as in Changes; `score` is the logarithm of the odds that there is a slip in that row or
    beside it rather than none or one elsewhere, less what rows elsewhere take from it."""

    row: int
    way: int
    score: float


def likeliest(odds: Odds) -> Guess | None:
    """The likeliest slip, however unlikely; None where no change was tried."""
    # As Python's numbers: a calm picture has a dozen, and a call of NumPy costs as much as all of them.
    rows, ways = (odds > -np.inf).nonzero()
    if not len(rows):
        return None
    tried = list(zip(odds[rows, ways].tolist(), rows.tolist(), ways.tolist(), strict=True))
    most, row, way = max(tried, key=lambda one: one[0])
    return Guess(row, way, _against_all(tried, most, row) - (_elsewhere(tried, row) - QUIET))


def _against_all(tried: Tried, most: float, row: int) -> float:
    most, here, elsewhere = max(0.0, most), 0.0, 0.0
    for each, at, _ in tried:
        if abs(at - row) <= BESIDE:
            here += math.exp(each - most)
        else:
            elsewhere += math.exp(each - most)
    return math.log(here) - math.log(elsewhere + math.exp(-most))


def _elsewhere(tried: Tried, row: int) -> float:
    """The mean odds of the likeliest rows further away, between QUIET and LOUD."""
    best: dict[int, float] = {}
    for each, at, _ in tried:
        if abs(at - row) > AWAY and each > best.get(at, QUIET):
            best[at] = min(each, LOUD)
    rivals = sorted(best.values())[-RIVALS:]
    return (sum(rivals) + QUIET * (RIVALS - len(rivals))) / RIVALS


def odds_of_slips(cells: Cells, known: Table, row: Numbers | None = None, way: Numbers | None = None) -> Odds:
    """Of the changes of each `row` (from 0) in a `way` (as in Changes), or of all in the rows that are least usual."""
    around = Neighbours(cells)
    odds = np.full((len(cells), WAYS), -np.inf)
    if row is None or way is None:
        changes = around.all_changes(_least_usual(known.usual(around, around.tall)[REACH:-REACH]))
    else:
        changes = around.changes(row, way)
    odds[changes.row, changes.way] = _gained(changes, around, known) * known.unit + known.ways[changes.way]
    return odds


def _gained(changes: Changes, around: Neighbours, known: Table) -> Numbers:
    """By how much rows become more usual altogether."""
    many, width = len(changes.row), around.tall.shape[1]
    # One above the other, so that all are looked up in one go.
    rows = known.usual(around, np.concatenate([changes.seen.reshape(many * SEEN, width), around.tall]))
    lines = changes.low[:, None] + _LINES
    after, before = rows[: many * SEEN].reshape(many, SEEN)[:, :LINES], rows[many * SEEN :][lines]
    more = after - before
    if many and (int(lines[:, 0].min()) < REACH or int(lines[:, -1].max()) - REACH > around.last):
        more *= (lines >= REACH) & (lines - REACH <= around.last)  # the others are no rows of the picture
    gained: Numbers = more.sum(1)
    return gained


def _least_usual(usual: Numbers) -> Numbers:
    if len(usual) <= LOOKED_AT:
        return np.arange(len(usual))
    about = np.convolve(usual, np.ones(2 * REACH + 1, np.int64), "same")
    return np.sort(np.argsort(about, kind="stable")[:LOOKED_AT])
