"""Links: how a supply may go on from one run to a later one, and what each way costs."""

import numpy as np

from lintarsia.ground.values import dataclass
from lintarsia.planning.runs import Integers, RunTable

NEAR = 64  # places to look at for each run; beyond, bisecting is quicker


@dataclass(frozen=True, slots=True, eq=False)
class LinkTable:
    """Every allowed link of flat or turned work, in order of (`tail`, `head`), which index the runs in working order.

    `carried` is in stitches (those in between in the row, else columns from exit to entry), `idle` in rows waited.
    """

    tail: Integers
    head: Integers
    carried: Integers
    idle: Integers


def possible_links(runs: RunTable, *, strand: int | None, carry: int | None, idle: int | None) -> LinkTable:
    """All links that the bounds allow in work that turns at the end of each row; None is no bound."""
    if len(runs) == 0:
        nothing = np.zeros(0, np.int64)
        return LinkTable(nothing, nothing, nothing, nothing)
    rows, width = int(runs.row[-1]) + 1, int(runs.right.max()) + 1
    wait = rows - 1 if idle is None else min(idle, rows - 1)
    reach = width if carry is None else min(carry, width)
    look = _look_around if (wait + 1) * (2 * reach + 1) <= NEAR else _look_up
    tail, head = look(runs, reach, wait)
    if strand != 0:  # neighbouring runs differ in colour, so that a link in the row needs a strand of at least 1
        float_tail, float_head = _within_rows(runs, strand)
        tail, head = np.concatenate((float_tail, tail)), np.concatenate((float_head, head))
    if strand != 0 or look is _look_up:
        order = np.lexsort((head, tail))
        tail, head = tail[order], head[order]
    waited = runs.row[head] - runs.row[tail] - 1
    carried = np.abs(runs.entry[head] - runs.exit[tail])
    if strand != 0:
        between = runs.start[head] - runs.start[tail] - runs.stitches[tail]
        carried = np.where(waited < 0, between, carried)
        waited = np.maximum(waited, 0)
    return LinkTable(tail, head, carried, waited)


def _within_rows(runs: RunTable, strand: int | None) -> tuple[Integers, Integers]:
    """Pairs in one row with at most `strand` stitches between them."""
    total = int(runs.start[-1] + runs.stitches[-1])
    reach = total if strand is None else min(strand, total)
    line = runs.colour * (int(runs.row[-1]) + 1) + runs.row
    key = line * (2 * total + 2) + runs.start
    order = np.argsort(key, kind="stable")
    last = np.searchsorted(key[order], (key + runs.stitches + reach)[order], side="right")
    return _pairs(order, order, np.arange(1, len(runs) + 1), last)


def _look_around(runs: RunTable, reach: int, wait: int) -> tuple[Integers, Integers]:
    """Pairs whose rows have at most `wait` rows between them and whose ends are at most `reach` columns apart.

    Every run looks at each place within reach of its exit for a run of its colour entered there: quick for small reach.
    The places are looked at from left to right whatever the working direction, so that the pairs have to be sorted.
    """
    rows, width = int(runs.row[-1]) + 1, int(runs.right.max()) + 1
    span = width + 2 * reach
    size = (rows + wait + 1) * span
    colours, here = np.full(size, -1, np.int16), np.zeros(size, np.int32)
    line = runs.row * span + reach
    entry = line + runs.entry
    colours[entry], here[entry] = runs.colour, np.arange(len(runs))
    around = (np.arange(1, wait + 2)[:, None] * span + np.arange(-reach, reach + 1)).ravel()
    place = (line + runs.exit)[:, None] + around
    met = (colours[place] == runs.colour.astype(np.int16)[:, None]).ravel().nonzero()[0]
    pairs = met // len(around) * len(runs) + here[place.ravel()[met]]
    pairs.sort()
    return np.divmod(pairs, len(runs))


def _look_up(runs: RunTable, reach: int, wait: int) -> tuple[Integers, Integers]:
    """The same pairs, in no order, by bisecting the entries sorted by colour, row and column: any reach."""
    rows, width = int(runs.row[-1]) + 1, int(runs.right.max()) + 1
    span = width + 2 * reach + 1  # room at both sides, so that a reach over the edge meets no other row
    line = (runs.colour * (rows + wait + 1) + runs.row) * span + reach
    key, aim = line + runs.entry, line + runs.exit
    order = np.argsort(key, kind="stable")
    sorted_key = key[order]
    everyone = np.arange(len(runs))
    tails, heads = [], []
    for ahead in range(1, wait + 2):
        first = np.searchsorted(sorted_key, aim + ahead * span - reach)
        last = np.searchsorted(sorted_key, aim + ahead * span + reach, side="right")
        tail, head = _pairs(everyone, order, first, last)
        tails.append(tail)
        heads.append(head)
    return np.concatenate(tails), np.concatenate(heads)


def _pairs(tails: Integers, heads: Integers, first: Integers, last: Integers) -> tuple[Integers, Integers]:
    """Tail k with each of heads[first[k]:last[k]]."""
    count = np.maximum(last - first, 0)
    ends = np.cumsum(count)
    within = np.arange(int(ends[-1])) - np.repeat(ends - count, count)
    return np.repeat(tails, count), heads[np.repeat(first, count) + within]
