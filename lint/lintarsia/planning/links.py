"""Links: how a supply may go on from one run to a later one, and what each way costs."""

from dataclasses import dataclass

import numpy as np

from lintarsia.planning.runs import Integers, RunTable


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
    parts = [_within_rows(runs, strand)]
    rows = int(runs.row[-1]) + 1 if len(runs) else 0
    parts += _between_rows(runs, carry, rows - 1 if idle is None else min(idle, rows - 1))
    tail, head = (np.concatenate(ends) for ends in zip(*parts, strict=True))
    order = np.lexsort((head, tail))
    tail, head = tail[order], head[order]
    waited = runs.row[head] - runs.row[tail] - 1
    same_row = waited < 0
    carried = np.where(
        same_row,
        runs.start[head] - runs.start[tail] - runs.stitches[tail],
        np.abs(runs.entry[head] - runs.exit[tail]),
    )
    return LinkTable(tail, head, carried, np.maximum(waited, 0))


def _within_rows(runs: RunTable, strand: int | None) -> tuple[Integers, Integers]:
    """Pairs in one row with at most `strand` stitches between them."""
    if strand == 0 or len(runs) == 0:  # neighbouring runs differ in colour, so at least one stitch is between
        return np.zeros(0, np.int64), np.zeros(0, np.int64)
    total = int(runs.start[-1] + runs.stitches[-1])
    reach = total if strand is None else min(strand, total)
    line = runs.colour * (int(runs.row[-1]) + 1) + runs.row
    key = line * (2 * total + 2) + runs.start
    order = np.argsort(key, kind="stable")
    last = np.searchsorted(key[order], (key + runs.stitches + reach)[order], side="right")
    return _pairs(order, order, np.arange(1, len(runs) + 1), last)


def _between_rows(runs: RunTable, carry: int | None, idle: int) -> list[tuple[Integers, Integers]]:
    """Pairs whose rows have at most `idle` rows between them and whose ends are at most `carry` columns apart."""
    if len(runs) == 0:
        return []
    width = int(runs.right.max()) + 1
    reach = width if carry is None else min(carry, width)
    span = width + 2 * reach + 1  # room at both sides, so that a reach over the edge meets no other row
    rows = int(runs.row[-1]) + 1
    key = (runs.colour * (rows + idle + 1) + runs.row) * span + reach + runs.entry
    order = np.argsort(key, kind="stable")
    sorted_key = key[order]
    aim = (runs.colour * (rows + idle + 1) + runs.row) * span + reach + runs.exit
    everyone = np.arange(len(runs))
    pairs = []
    for wait in range(idle + 1):
        first = np.searchsorted(sorted_key, aim + (wait + 1) * span - reach)
        last = np.searchsorted(sorted_key, aim + (wait + 1) * span + reach, side="right")
        pairs.append(_pairs(everyone, order, first, last))
    return pairs


def _pairs(tails: Integers, heads: Integers, first: Integers, last: Integers) -> tuple[Integers, Integers]:
    """Tail k with each of heads[first[k]:last[k]]."""
    count = np.maximum(last - first, 0)
    ends = np.cumsum(count)
    within = np.arange(int(ends[-1])) - np.repeat(ends - count, count)
    return np.repeat(tails, count), heads[np.repeat(first, count) + within]
