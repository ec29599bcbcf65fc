"""Looking for links: pairs (tail, head) of runs of one colour that lie near enough to each other, by several ways."""

import numpy as np

from lintarsia.planning.runs import Integers, RunTable

Pairs = tuple[Integers, Integers]


def within_rows(runs: RunTable, strand: int | None) -> Pairs:
    """Pairs in one row with at most `strand` stitches between them."""
    line = runs.colour * (int(runs.row[-1]) + 1) + runs.row
    return _within(runs, line, strand)


def within_spiral(runs: RunTable, strand: int | None) -> Pairs:
    """Pairs with at most `strand` stitches between them, in the same round or a later one."""
    return _within(runs, runs.colour, strand)


def _within(runs: RunTable, line: Integers, strand: int | None) -> Pairs:
    """Pairs of the same `line` with at most `strand` stitches between them."""
    if len(runs) == 0:
        return np.zeros(0, np.int64), np.zeros(0, np.int64)
    total = int(runs.start[-1] + runs.stitches[-1])
    reach = total if strand is None else min(strand, total)
    key = line * (2 * total + 2) + runs.start
    order = np.argsort(key, kind="stable")
    last = np.searchsorted(key[order], (key + runs.stitches + reach)[order], side="right")
    return _pairs(order, order, np.arange(1, len(runs) + 1), last)


def look_around(runs: RunTable, reach: int, wait: int) -> Pairs:
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


def look_up(runs: RunTable, reach: int, wait: int) -> Pairs:
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


def look_over_edges(runs: RunTable, reach: int, wait: int) -> Pairs:
    """Pairs further apart than `reach` that the change of stitches at the edge of the head's row may bring within it.

    Every head in such a row looks down for exits at both sides, as much further as its row has gained or lost.
    """
    rows, width = int(runs.row[-1]) + 1, int(runs.right.max()) + 1
    at = np.flatnonzero(runs.changed_from < runs.changed_to)
    more = (runs.changed_to - runs.changed_from)[at]
    room = 2 * width + reach + 1
    span = width + 2 * room  # so that nothing looked for beyond an edge meets another row
    line = (runs.colour * (rows + wait + 1) + runs.row + wait + 1) * span + room
    key, aim = line + runs.exit, (line + runs.entry)[at]
    order = np.argsort(key, kind="stable")
    sorted_key = key[order]
    tails, heads = [], []
    for behind in range(1, wait + 2):
        middle = aim - behind * span
        for low, high in ((middle - reach - more, middle - reach - 1), (middle + reach + 1, middle + reach + more)):
            first, last = np.searchsorted(sorted_key, low), np.searchsorted(sorted_key, high, side="right")
            head, tail = _pairs(at, order, first, last)
            tails.append(tail)
            heads.append(head)
    return np.concatenate(tails), np.concatenate(heads)


def _pairs(ones: Integers, others: Integers, first: Integers, last: Integers) -> Pairs:
    """The k-th of `ones` with each of others[first[k]:last[k]]."""
    count = np.maximum(last - first, 0)
    ends = np.cumsum(count)
    within = np.arange(int(ends[-1])) - np.repeat(ends - count, count)
    return np.repeat(ones, count), others[np.repeat(first, count) + within]
