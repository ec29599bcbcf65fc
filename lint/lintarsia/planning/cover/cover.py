"""The optimal cover: which run each supply goes on to, so that every run is worked by exactly one supply.

Contract
    runs = chart_runs(chart)                                   # lintarsia.planning.runs
    cover = best_cover(runs, chart.worked, strand=…, carry=…, idle=…)
The arrays of `Cover` have one entry a run, in the working order of `RunTable`. `next[i]` is the run that the supply of
run i goes on to, −1 where the supply ends; `previous[j]` is where it comes from, −1 where it is joined. `carried[i]`
(stitches), `idle[i]` (rows) and `same_row[i]` describe the link from i to next[i]; they are 0 and False where there is
none. `supply[i]` numbers the supplies of the chart from 0, and `number[i]` those of run i's colour from 1, both in the
order in which the supplies are joined (the working order of their first runs). `supplies` is how many there are.

The cover is optimal, lexicographically: fewest supplies, fewest carried stitches, fewest idle rows. Of all covers equal
in these, it is the one where the run worked last has the earliest possible next run (none counts as the latest), then
the run before it, and so on down to the first: what is put down last is taken up first. That order is total, so the
answer depends on nothing but the chart and the bounds.
"""

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Worked
from lintarsia.ground.values import dataclass
from lintarsia.planning.cover.links import LinkTable, possible_links
from lintarsia.planning.cover.match import best_links
from lintarsia.planning.runs import Integers, RunTable


@dataclass(frozen=True, slots=True, eq=False)
class Cover:
    """The cover of one chart; see the top of this file."""

    next: Integers
    previous: Integers
    carried: Integers
    idle: Integers
    same_row: NDArray[np.bool_]
    supply: Integers
    number: Integers
    supplies: int


def best_cover(runs: RunTable, worked: Worked, *, strand: int | None, carry: int | None, idle: int | None) -> Cover:
    """The one optimal cover of `runs`. `strand` and `carry` in stitches, `idle` in rows; None is no bound."""
    if worked is Worked.ROUND:
        following = _chain(runs, strand, None)
    elif strand is None and carry is None:
        following = _chain(runs, None, idle)
    else:
        following = _match(possible_links(runs, strand=strand, carry=carry, idle=idle), len(runs))
    return _describe(runs, worked, following)


def _chain(runs: RunTable, strand: int | None, idle: int | None) -> Integers:
    """Each run linked to the next of its colour wherever that is allowed.

    Why that is the optimum, and the only one, wherever the runs of a colour are in a total order and a link over a
    longer stretch is allowed only if every consecutive link inside it is: cut the colour's runs at the consecutive
    links that are not allowed. No allowed link crosses a cut, since it would contain that consecutive link. Between two
    cuts lie m runs, which take at most m − 1 links, and m − 1 links in one order-keeping path that visits every run
    are the consecutive ones and no others. In rounds the order is the spiral and the length the stitches between,
    which grow with the stretch; in flat work without bounds on strand and carry it is the rows between that grow.
    """
    following = np.full(len(runs), -1)
    order = np.argsort(runs.colour, kind="stable")
    tail, head = order[:-1], order[1:]
    allowed = runs.colour[tail] == runs.colour[head]
    if strand is not None:
        allowed &= runs.start[head] - runs.start[tail] - runs.stitches[tail] <= strand
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


def _describe(runs: RunTable, worked: Worked, following: Integers) -> Cover:
    count = len(runs)
    tail = (following >= 0).nonzero()[0]
    head = following[tail]
    previous = np.full(count, -1)
    previous[head] = tail
    waited = runs.row[head] - runs.row[tail] - 1
    inside = waited < 0
    across = np.abs(runs.entry[head] - runs.exit[tail])
    if worked is Worked.ROUND or inside.any():
        between = runs.start[head] - runs.start[tail] - runs.stitches[tail]
        across = between if worked is Worked.ROUND else np.where(inside, between, across)
    carried, idle, same_row = np.zeros(count, np.int64), np.zeros(count, np.int64), np.zeros(count, bool)
    carried[tail], idle[tail], same_row[tail] = across, np.maximum(waited, 0), inside
    supply, number, supplies = _numbered(previous.tolist(), runs.colour.tolist())
    arrays = (following, previous, carried, idle, same_row, supply, number)
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
