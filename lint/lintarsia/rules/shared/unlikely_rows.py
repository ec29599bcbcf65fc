"""Rows that are unlikely among their neighbours, and would be likelier with a slip in them undone.

How usual it is that a stitch has its colour, with such stitches around it, is a number for each neighbourhood: a table
that benchmarks/row_slips_learn.py learns from pictures of our own. Where a slip undone makes the stitches of a row and
of the rows about it more usual altogether, it may be one; how likely, against that there is none and against all others
in the picture, is what the table was learned for.
"""

import math
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.neighbours import REACH, WAYS, Changes, Neighbours, Numbers

Odds = NDArray[np.float64]  # (rows, ways): logarithms of odds against no slip; -inf where a way changes nothing
FILE = Path(__file__).with_name("stitch_weights.npz")
LOOKED_AT = 32  # rows of a chart that are tried, those whose stitches are the least usual
BESIDE = 1  # rows; a slip's neighbour, undone, often does as well
AWAY = 2  # rows; what is nearer to a slip is bent by it
# Where edges wander or stitches are strewn about, several rows would be likelier otherwise. How much that takes from a
# guess: how far the likeliest of them lie above QUIET, in the mean. Tried out on six kinds of pictures (house values).
RIVALS, QUIET, LOUD = 4, -4.5, 4.0


class Table(NamedTuple):
    """`weights` (numbers of neighbourhoods), times `unit` the logarithm of odds; `ways` what each way starts with."""

    weights: NDArray[np.int8]
    unit: float
    ways: NDArray[np.float64]


@lru_cache(1)
def table() -> Table:
    with np.load(FILE) as kept:
        return Table(kept["weights"], float(kept["unit"]), kept["ways"])


class Guess(NamedTuple):
    """`row` from 0, `way` as in Changes; `score` is the logarithm of the odds that there is a slip in that row or
    beside it rather than none or one elsewhere, less what rows elsewhere take from it."""

    row: int
    way: int
    score: float


def likeliest(odds: Odds) -> Guess | None:
    """The likeliest slip, however unlikely; None where no change was tried."""
    row, way = (int(at) for at in np.unravel_index(int(odds.argmax()), odds.shape))
    if odds[row, way] == -np.inf:
        return None
    return Guess(row, way, _against_all(odds, row) - (_elsewhere(odds, row) - QUIET))


def _against_all(odds: Odds, row: int) -> float:
    most = max(0.0, float(odds.max()))
    shares = np.exp(odds - most).sum(axis=1)
    here = float(shares[max(0, row - BESIDE) : row + BESIDE + 1].sum())
    elsewhere = float(shares[: max(0, row - BESIDE)].sum()) + float(shares[row + BESIDE + 1 :].sum())
    return math.log(here) - math.log(elsewhere + math.exp(-most))


def _elsewhere(odds: Odds, row: int) -> float:
    """The mean odds of the likeliest rows further away, between QUIET and LOUD."""
    best = odds.max(axis=1)
    best[max(0, row - AWAY) : row + AWAY + 1] = -np.inf
    rivals = np.sort(best)[-RIVALS:].clip(QUIET, LOUD)
    return float(rivals.sum() + QUIET * (RIVALS - len(rivals))) / RIVALS


def odds_of_slips(cells: Cells, known: Table, row: Numbers | None = None, way: Numbers | None = None) -> Odds:
    """Of the changes of each `row` (from 0) in a `way` (as in Changes), or of all in the rows that are least usual."""
    around = Neighbours(cells)
    usual = known.weights[around.numbers].sum(axis=(0, 2), dtype=np.int64)
    odds = np.full((len(cells), WAYS), -np.inf)
    changes = around.all_changes(_least_usual(usual)) if row is None or way is None else around.changes(row, way)
    odds[changes.row, changes.way] = _gained(changes, usual, known) * known.unit + known.ways[changes.way]
    return odds


def _gained(changes: Changes, usual: Numbers, known: Table) -> Numbers:
    """By how much rows become more usual altogether."""
    inside = (changes.lines >= 0) & (changes.lines < len(usual))
    before = usual[np.clip(changes.lines, 0, len(usual) - 1)]
    after = known.weights[changes.numbers].sum(axis=(0, 3), dtype=np.int64)
    gained: Numbers = ((after - before) * inside).sum(axis=1)
    return gained


def _least_usual(usual: Numbers) -> Numbers:
    if len(usual) <= LOOKED_AT:
        return np.arange(len(usual))
    about = np.convolve(usual, np.ones(2 * REACH + 1, np.int64), "same")
    return np.sort(np.argsort(about, kind="stable")[:LOOKED_AT])
