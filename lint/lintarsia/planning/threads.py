"""The plan as plain arrays: every run in the order worked, and the supply that works it.

All sums over runs, supplies and rows are taken here, without a Python object for each run.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from lintarsia.planning.yarn import Rates

Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Threads:
    """Arrays over the runs, in the order worked (by row, then in the row's direction).

    `row`, `left`, `right` count from 0 (columns from the left, inclusive); `colour` indexes the grid's symbols.
    `after` is the run a supply goes on to, -1 where it finishes; `carried` and `idle` are the cost of that step, 0
    where there is none. `leftward` says of each row of the grid whether it is worked from right to left. In the round
    (`spiral`) every step is a float along the spiral.
    """

    height: int
    spiral: bool
    leftward: Flags
    row: Ints
    left: Ints
    right: Ints
    colour: Ints
    stitches: Ints
    after: Ints
    carried: Ints
    idle: Ints

    @cached_property
    def goes_left(self) -> Flags:
        """Of each run: whether it is worked from right to left."""
        return self.leftward[self.row]

    @cached_property
    def enter(self) -> Ints:
        """The column a run begins in."""
        return np.where(self.goes_left, self.right, self.left)

    @cached_property
    def leave(self) -> Ints:
        """The column a run ends in."""
        return np.where(self.goes_left, self.left, self.right)

    @cached_property
    def before(self) -> Ints:
        """The run a supply comes from, -1 where it is joined."""
        before = np.full(len(self.row), -1)
        going = np.flatnonzero(self.after >= 0)
        before[self.after[going]] = going
        return before

    @cached_property
    def same_row(self) -> Flags:
        """Whether the step that leaves a run stays in its row, and so is a float."""
        same: Flags = (self.after >= 0) & (self.row[self.after] == self.row)
        return same

    @cached_property
    def first(self) -> Ints:
        """The run in which each supply is joined; supplies are numbered in the order joined."""
        return np.flatnonzero(self.before < 0)

    @cached_property
    def supply(self) -> Ints:
        """The supply that works each run."""
        supply = [0] * len(self.row)
        for number, head in enumerate(self.first.tolist()):
            supply[head] = number
        for run, source in enumerate(self.before.tolist()):  # a source always stands before its run
            if source >= 0:
                supply[run] = supply[source]
        return np.array(supply, np.int64)

    @cached_property
    def last(self) -> Ints:
        """The run in which each supply finishes."""
        tails = np.flatnonzero(self.after < 0)
        last = np.empty(len(tails), np.int64)
        last[self.supply[tails]] = tails
        return last

    def per_supply(self, values: NDArray[np.generic]) -> Ints:
        """The sum over each supply's runs of something that runs have."""
        return np.bincount(self.supply, values, len(self.first)).astype(np.int64)

    @cached_property
    def needs(self) -> Ints:
        """How many supplies each row works with: its runs, less the ones a float leads to."""
        runs = np.bincount(self.row, minlength=self.height)
        return runs - np.bincount(self.row[self.same_row], minlength=self.height)

    def supply_mm(self, per: Rates) -> NDArray[np.float64]:
        """Yarn of each supply, mm: its stitches, carries, floats and idle rows at fabric length, and two tails."""
        across = np.where(self.same_row | self.spiral, per.floating, per.carry) * self.carried
        own = self.stitches * per.loop + across + self.idle * per.row
        lengths = np.bincount(self.supply, own, len(self.first)).astype(np.float64) + 2 * per.tail
        return lengths

    def ids(self, symbols: tuple[str, ...]) -> list[str]:
        """The id of each supply: its colour's symbol, and its number among that colour's in the order joined."""
        used: dict[int, int] = {}
        ids = []
        for colour in self.colour[self.first].tolist():
            used[colour] = number = used.get(colour, 0) + 1
            ids.append(f"{symbols[colour]}{number}")
        return ids
