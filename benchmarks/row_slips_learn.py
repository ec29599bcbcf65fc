"""Learns how usual each neighbourhood of a stitch is: the table of rules/shared/unlikely_rows.py.

    python benchmarks/row_slips_learn.py --write    # some minutes; writes the table that the package ships

Only pictures that our own scripts make up are learned from: signs, letters and figures (signs.py, figures.py), drawn
motifs and blocks (row_slip_pictures.py). Three in five have a slip in one row. For every way to undo a slip
anywhere the table gives the logarithm of its odds; what is brought down, picture by picture, is the surprise at what
was true (softmax over all ways and none; Adagrad; what is seldom seen stays near 0).
"""

import argparse
import random
from collections.abc import Callable, Sequence

import figures
import numpy as np
import row_slips
import signs
from numpy.typing import NDArray
from row_slip_pictures import Picture, blocks, motif

from lintarsia.rules.shared.neighbours import EXCHANGED, REACH, WAYS, Changes, Neighbours, Numbers, count_of_numbers
from lintarsia.rules.shared.suspect_rows import UNDONE
from lintarsia.rules.shared.unlikely_rows import FILE, Table

Floats = NDArray[np.float64]
PICTURES, SEED = 40_000, 4713
HONEST = 0.4
RATE, SMALL, DAMPING = 0.3, 0.1, 0.03  # Adagrad's rate and start; how strongly weights are drawn to 0
MOST_SURPRISE = 8.0  # a picture in which nothing tells of its slip is to teach little
UNIT = 0.04  # a finer table says the same and is larger
TO_BEGIN = -5.0  # what each way starts with
MADE: Sequence[tuple[Callable[[random.Random], NDArray[np.generic]], float]] = (
    (signs.sign, 5),
    (signs.dense, 3),
    (signs.letter, 1.5),
    (figures.figure, 3),
    (figures.loose, 1),
    (motif, 1),
    (lambda dice: blocks(1, dice.randrange(10**9))[0], 1),
)


class Learner:
    """`weights` (numbers of neighbourhoods) and `ways` as in Table, before they are rounded."""

    def __init__(self) -> None:
        self.weights, self._seen = np.zeros(count_of_numbers()), np.zeros(count_of_numbers())
        self.ways, self._seen_ways = np.full(WAYS, TO_BEGIN), np.zeros(WAYS)

    def learn(self, picture: Picture, true: tuple[int, int] | None, rate: float) -> float:
        """Takes in one picture, `true` its row and the way that undoes its slip; the surprise at that."""
        around = Neighbours(picture)
        made = around.all_changes(np.arange(len(picture)))
        odds, meant = self.odds(around, made), _is(made, true)
        if true is not None and not meant.any():
            return 0.0
        whole = np.logaddexp.reduce(np.concatenate([[0.0], odds]))
        surprise = float(whole - odds[meant].sum())
        pull = min(1.0, MOST_SURPRISE / max(surprise, 1e-9)) * (np.exp(odds - whole) - meant)
        slope_ways: Floats = np.bincount(made.way, pull, WAYS).astype(np.float64)
        slope = _slope(around, made, pull, len(self.weights))
        self._step(slope, slope_ways, rate)
        return surprise

    def odds(self, around: Neighbours, made: Changes) -> Floats:
        inside, numbers_before = _before(around, made)
        gained = (self.weights[around.numbers_of(made)] - self.weights[numbers_before]).sum(axis=(0, 3))
        odds: Floats = (gained * inside).sum(axis=1) + self.ways[made.way]
        return odds

    def _step(self, slope: Floats, slope_ways: Floats, rate: float) -> None:
        at = slope.nonzero()[0]
        here = slope[at] + DAMPING * self.weights[at]
        self._seen[at] += here**2
        self.weights[at] -= rate * here / np.sqrt(self._seen[at] + SMALL)
        self._seen_ways += slope_ways**2
        self.ways -= rate * slope_ways / np.sqrt(self._seen_ways + SMALL)

    def table(self) -> Table:
        return Table(np.round(self.weights / UNIT).clip(-127, 127).astype(np.int8), UNIT, self.ways.round(3))


def _is(made: Changes, true: tuple[int, int] | None) -> NDArray[np.bool_]:
    if true is None:
        return np.zeros(len(made.row), bool)
    return (made.row == true[0]) & (made.way == true[1])


def _before(around: Neighbours, made: Changes) -> tuple[NDArray[np.bool_], Numbers]:
    """Which lines are rows of the picture, and the numbers that stand there now."""
    lines = made.low[:, None] + np.arange(-REACH, 2 + REACH)
    inside = (lines >= 0) & (lines <= around.last)
    return inside, around.numbers[:, np.clip(lines, 0, around.last)]


def _slope(around: Neighbours, made: Changes, pull: Floats, size: int) -> Floats:
    """How the surprise grows with each weight, by how much it grows with the odds of each change."""
    inside, before = _before(around, made)
    after = around.numbers_of(made)
    differ = (after != before) & inside[None, :, :, None]
    each = np.broadcast_to(pull[None, :, None, None], differ.shape)[differ]
    more, less = np.bincount(after[differ], each, size), np.bincount(before[differ], each, size)
    return np.asarray(more - less, np.float64)


def learned(pictures: int, seed: int, told: bool = False) -> Table:
    dice, learner, surprise = random.Random(seed), Learner(), 0.0
    kinds, weights = zip(*MADE, strict=True)
    for at in range(pictures):
        picture = dice.choices(kinds, weights)[0](dice).astype(np.int16)
        slip = None if dice.random() < HONEST else row_slips.plant(picture, dice.choice(row_slips.KINDS), dice)
        rate = RATE * (1 - at / pictures) + RATE / 15
        if slip is None:
            surprise += learner.learn(picture, None, rate)
        else:
            surprise += learner.learn(slip.picture, (slip.row, way_back(picture, slip)), rate)
        if told and (at + 1) % 2000 == 0:
            print(at + 1, "pictures, surprise", round(surprise / 2000, 3), flush=True)
            surprise = 0.0
    return learner.table()


def way_back(picture: Picture, slip: row_slips.Planted) -> int:
    if slip.kind == "swapped":
        return EXCHANGED
    ways = [way for way, (kind, _) in enumerate(UNDONE) if kind == slip.kind]
    return next(
        way
        for way in ways
        if slip.kind == "mirrored"
        or np.array_equal(slip.picture[slip.row], row_slips.slips.moved(picture[slip.row], UNDONE[way][1]))
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--pictures", type=int, default=PICTURES)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--write", action="store_true")
    given = parser.parse_args()
    made = learned(given.pictures, given.seed, told=True)
    print("numbers of neighbourhoods:", len(made.weights), "unit", made.unit, "ways", made.ways.tolist())
    if given.write:
        made.write(FILE)
        print("written:", FILE.stat().st_size, "bytes")
