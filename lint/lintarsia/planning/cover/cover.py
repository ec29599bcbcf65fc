"""The optimal cover: which run each supply goes on to, so that every run is worked by exactly one supply.

Contract
    runs = chart_runs(chart)                                   # lintarsia.planning.runs
    cover = best_cover(runs, chart.worked, strand=…, carry=…, idle=…)
The arrays of `Cover` have one entry a run, in the working order of `RunTable`. `next[i]` is the run that the supply of
run i goes on to, −1 where the supply ends; `previous[j]` is where it comes from, −1 where it is joined. `carried[i]`
(stitches), `idle[i]` (rows), `same_row[i]` and `goes_on[i]` (the supply stays in its block) describe the link from i to
next[i]; they are 0 and False where there is none. `supply[i]` numbers the supplies of the chart from 0, and `number[i]`
those of run i's colour from 1, both in the order in which the supplies are joined (the working order of their first
runs). `supplies` is how many there are.

The cover is optimal, lexicographically:
    1. most links that go on with a block: inside a row, or to a run of the next row that shares a column;
    2. fewest supplies;
    3. fewest idle rows;
    4. fewest carried stitches.
Of all covers equal in these, it is the one where the run worked last has the earliest possible next run (none counts as
the latest), then the run before it, and so on down to the first: what is put down last is taken up first. That order is
total, so the answer depends on nothing but the chart and the bounds.

Why no yarn takes turns with another inside a block. Say a supply leaves run i and waits, while run k, of the next row
and above a stitch of i, is worked by a supply that did not come from this block, and the first could have gone to k.
Give k to the first: one more link goes on with its block, and none less. So the cover was not the best.

Where nothing bounds how far a yarn is stranded, in stranded knitting, every yarn runs along behind the whole work and
is in every block at once: all links go on then, and the cover has a supply for each colour (see `_chain`). To count
blocks there would give every stripe of a stranded tube a yarn of its own.
"""

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Worked
from lintarsia.ground.values import dataclass
from lintarsia.planning.cover.links import LinkTable, costs, goes_on, possible_links, spiral_links
from lintarsia.planning.cover.match import best_links
from lintarsia.planning.runs import Integers, RunTable


@dataclass(frozen=True, slots=True, eq=False)
class Cover:
    """The cover of one chart; see the top of this file."""

    next: Integers
    previous: Integers
    goes_on: NDArray[np.bool_]
    carried: Integers
    idle: Integers
    same_row: NDArray[np.bool_]
    supply: Integers
    number: Integers
    supplies: int


def best_cover(runs: RunTable, worked: Worked, *, strand: int | None, carry: int | None, idle: int | None) -> Cover:
    """The one optimal cover of `runs`. `strand` and `carry` in stitches, `idle` in rows; None is no bound."""
    spiral = worked is Worked.ROUND
    if spiral and strand is not None and len(runs) and strand >= runs.start[-1]:
        strand = None  # no two runs have as much between them
    parted = bool(runs.side.any())  # then not every later run of the colour can be gone on to
    everywhere = strand is None and (spiral or carry is None) and not parted
    if everywhere:
        following = _chain(runs, None if spiral else idle)
    else:
        within = {"strand": strand, "carry": carry, "idle": idle}
        following = _match(spiral_links(runs, strand or 0) if spiral else possible_links(runs, **within), len(runs))
    return _describe(runs, following, spiral=spiral, everywhere=everywhere)


def _chain(runs: RunTable, idle: int | None) -> Integers:
    """Each run linked to the next of its colour wherever that is allowed; for work without bounds on strand and carry.

    Why that is the optimum, and the only one, where every link goes on with its block, so that the most links are the
    best: a colour's runs are in a total order, and a link over a longer stretch waits for at least as many rows as
    every consecutive link inside it, so that it is allowed only if they are. Cut the colour's runs at the consecutive
    links that are not allowed. No allowed link crosses a cut, since it would contain that consecutive link.
    Between two cuts lie m runs, which take at most m − 1 links, and m − 1 links in one order-keeping path that visits
    every run are the consecutive ones and no others.
    """
    following = np.full(len(runs), -1)
    order = np.argsort(runs.colour, kind="stable")
    tail, head = order[:-1], order[1:]
    allowed = runs.colour[tail] == runs.colour[head]
    if idle is not None:
        allowed &= runs.row[head] - runs.row[tail] - 1 <= idle
    following[tail[allowed]] = head[allowed]
    return following


def _match(links: LinkTable, runs: int) -> Integers:
    taken = best_links(links, runs)
    if not len(links.head):
        return taken
    following = links.head[taken]
    following[taken < 0] = -1
    return following


def _describe(runs: RunTable, following: Integers, *, spiral: bool, everywhere: bool) -> Cover:
    count = len(runs)
    tail = (following >= 0).nonzero()[0]
    head = following[tail]
    previous = np.full(count, -1)
    previous[head] = tail
    carried, idle = np.zeros(count, np.int64), np.zeros(count, np.int64)
    stays, same_row = np.zeros(count, bool), np.zeros(count, bool)
    idle[tail], carried[tail] = costs(runs, tail, head, spiral=spiral)
    stays[tail] = True if everywhere else goes_on(runs, tail, head)
    same_row[tail] = runs.row[head] == runs.row[tail]
    supply, number, supplies = _numbered(previous.tolist(), runs.colour.tolist())
    arrays = (following, previous, stays, carried, idle, same_row, supply, number)
    for array in arrays:
        array.setflags(write=False)
    return Cover(*arrays, supplies=supplies)


def _numbered(previous: list[int], colours: list[int]) -> tuple[Integers, Integers, int]:
    """The supply of each run, its number among its colour's, and how many supplies there are.

    A run's previous one is worked before it, so that one pass will do.
    """
    supply: list[int] = []
    numbers: list[int] = []  # of each supply, among its colour's
    of_colour = dict.fromkeys(colours, 0)
    for before, colour in zip(previous, colours, strict=True):
        if before >= 0:
            supply.append(supply[before])
            continue
        of_colour[colour] += 1
        supply.append(len(numbers))
        numbers.append(of_colour[colour])
    by = np.array(supply, np.int64)
    return by, np.array(numbers, np.int64)[by], len(numbers)
