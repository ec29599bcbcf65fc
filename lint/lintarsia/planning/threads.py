"""The plan as plain arrays: every run in the order worked, and the supply that works it.

All sums over runs, supplies and rows are taken here, without a Python object for each run.
"""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Bounds, Chart, Worked
from lintarsia.chart.supplynames import supply_name
from lintarsia.ground.values import dataclass
from lintarsia.planning.cover.cover import Cover, best_cover
from lintarsia.planning.rates import Rates
from lintarsia.planning.runs import RunTable, chart_runs

Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


def thread(chart: Chart, bounds: Bounds) -> "Threads":
    """The optimal cover of a chart, with its runs."""
    runs = chart_runs(chart)
    cover = best_cover(runs, chart.worked, strand=bounds.strand, carry=bounds.carry, idle=bounds.idle)
    return Threads(runs, cover, chart.grid.height, chart.worked is Worked.ROUND)


@dataclass(frozen=True, eq=False)
class Threads:
    """The runs of a chart of `height` rows and how they are covered; arrays over runs are in the order worked.

    In the round (`spiral`) every step from run to run is a float along the spiral.
    """

    runs: RunTable
    cover: Cover
    height: int
    spiral: bool

    @cached_property
    def first(self) -> Ints:
        """The run in which each supply is joined; supplies are numbered in the order joined."""
        return (self.cover.previous < 0).nonzero()[0]

    @cached_property
    def last(self) -> Ints:
        """The run in which each supply finishes."""
        tails = (self.cover.next < 0).nonzero()[0]
        last = np.empty(len(tails), np.int64)
        last[self.cover.supply[tails]] = tails
        return last

    @cached_property
    def floats(self) -> Flags:
        """Whether the step that leaves a run is a float: inside its row, or along the spiral."""
        floats: Flags = self.cover.next >= 0 if self.spiral else self.cover.same_row
        return floats

    def per_supply(self, values: NDArray[np.generic]) -> Ints:
        """The sum over each supply's runs of something that runs have."""
        return np.bincount(self.cover.supply, values, len(self.first)).astype(np.int64)

    @cached_property
    def needs(self) -> Ints:
        """How many supplies each row works with: its runs, less the ones a float leads to."""
        row, floats = self.runs.row, self.cover.same_row
        return np.bincount(row, minlength=self.height) - np.bincount(row[floats], minlength=self.height)

    @cached_property
    def hangs(self) -> Ints:
        """How many supplies are attached to the work during each row: those that it needs, and those that rest."""
        rests = self.cover.idle > 0
        since = self.runs.row[rests] + 1
        change = np.bincount(since, minlength=self.height + 1)
        change -= np.bincount(since + self.cover.idle[rests], minlength=self.height + 1)
        hangs: Ints = self.needs + np.cumsum(change)[: self.height]
        return hangs

    @cached_property
    def float_lengths(self) -> Ints:
        """The stitches that each float passes, in the order worked; steps that pass none are no floats.

        A yarn that rests for whole rounds is carried up the inside, which is no float whatever the spiral's length.
        """
        lengths: Ints = self.cover.carried[self.floats & (self.cover.idle == 0) & (self.cover.carried > 0)]
        return lengths

    @cached_property
    def longest_float(self) -> int:
        """The most stitches that a yarn is stranded across; 0 where none is."""
        return int(self.float_lengths.max(initial=0))

    def supply_mm(self, per: Rates, cast_on: Ints, bind_off: Ints) -> NDArray[np.float64]:
        """Yarn of each supply, mm: its stitches; carries, floats and idle rows at fabric length; edges; and two tails.

        `cast_on` and `bind_off` count stitches by run. What casts on the first row has a tail more, to spare:
        nobody can tell to a stitch how far a cast-on reaches, and who runs out begins anew.
        """
        across = np.where(self.floats, per.floating, per.carry) * self.cover.carried
        own = self.runs.stitches * per.loop + across + self.cover.idle * per.row
        own = own + cast_on * per.cast_on + bind_off * per.bind_off
        mm = np.bincount(self.cover.supply, own, len(self.first)).astype(np.float64) + 2 * per.tail
        mm[self.runs.row[self.first] == self.runs.row[:1]] += per.spare
        return mm

    def ids(self, symbols: tuple[str, ...]) -> list[str]:
        """The id of each supply: its colour's symbol, and its number among that colour's in the order joined."""
        colours, numbers = self.runs.colour[self.first].tolist(), self.cover.number[self.first].tolist()
        return [supply_name(symbols[colour], number) for colour, number in zip(colours, numbers, strict=True)]


@dataclass(frozen=True, slots=True, eq=False)
class EndTable:
    """The joins or the finishes of all supplies, an entry a supply in every list.

    `run` is the run that the end hangs from, `beside` the neighbouring run of another colour, -1 at an edge of the
    piece, `room` in mm.
    """

    run: list[int]
    beside: list[int]
    room: list[float]
