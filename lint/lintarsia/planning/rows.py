"""Each row as the knitter meets it: what hangs in which order, what is new, what ends, what rests, what must cross."""

from bisect import bisect_right, insort
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart, Technique, Worked
from lintarsia.chart.grid import RowNumber
from lintarsia.planning.model import RowPlan
from lintarsia.planning.threads import Threads


def row_plans(chart: Chart, threads: Threads, ids: Sequence[str]) -> tuple[RowPlan, ...]:
    """A RowPlan for every row of the chart; `ids` names the supplies."""
    runs, cover = threads.runs, threads.cover
    starts = np.searchsorted(runs.row, np.arange(chart.grid.height + 1)).tolist()
    names = [ids[supply] for supply in cover.supply.tolist()]
    after, before = cover.next.tolist(), cover.previous.tolist()
    row, leave = runs.row.tolist(), runs.exit.tolist()
    resting, links = waiting(threads), interlocks(chart, threads)
    ring = chart.worked is Worked.ROUND
    sides = chart.side(1), chart.side(2)  # they alternate, or are all alike
    plans = []
    for index, leftward in enumerate(chart.leftwards):
        start, end = starts[index], starts[index + 1]
        line_up, joins, finishes, left_at = [], [], [], []
        for run in range(start, end):
            source, name = before[run], names[run]
            if source < 0:
                joins.append(name)
                line_up.append(name)
            elif row[source] != index:
                line_up.append(name)
                left_at.append(-leave[source] if leftward else leave[source])
            if after[run] < 0:
                finishes.append(name)
        rest = sorted(resting[index], key=lambda at: (-at[0] if leftward else at[0], at[1])) if index in resting else ()
        plans.append(
            RowPlan(
                row=RowNumber(index + 1),
                side=sides[index % 2],
                direction="right-to-left" if leftward else "left-to-right",
                line_up=tuple(line_up),
                joins=tuple(joins),
                finishes=tuple(finishes),
                waiting=tuple([ids[supply] for _, supply in rest]),
                interlocks=links[index],
                crossings=crossings(left_at, ring=ring),
                needs=len(line_up),
                hangs=len(line_up) + len(rest),
                runs=tuple(range(start, end)),
                by=tuple(names[start:end]),
            )
        )
    return _garment(chart, threads, ids, plans) if chart.divide or chart.shaping else tuple(plans)


def _garment(chart: Chart, threads: Threads, ids: Sequence[str], rows: Sequence[RowPlan]) -> tuple[RowPlan, ...]:
    """The rows with what openings and bound-off sides make of them, which few charts have."""
    from lintarsia.planning.boundoff import with_bound_off
    from lintarsia.planning.parted import with_parts

    if chart.divide:
        rows = with_parts(chart, threads, ids, rows, _twisted(chart, threads).tolist())
    return with_bound_off(chart, threads, ids, rows)


def waiting(threads: Threads) -> dict[int, list[tuple[int, int]]]:
    """Row index to the (column it hangs at, supply) of every supply that rests in it, joined below and used above."""
    resting: dict[int, list[tuple[int, int]]] = {}
    runs, cover = threads.runs, threads.cover
    rests = np.flatnonzero(cover.idle)
    for leave, supply, row, rows in zip(
        *(a[rests].tolist() for a in (runs.exit, cover.supply, runs.row, cover.idle)), strict=True
    ):
        for index in range(row + 1, row + 1 + rows):
            resting.setdefault(index, []).append((leave, supply))
    return resting


def interlocks(chart: Chart, threads: Threads) -> list[int]:
    """How many times two yarns are twisted in each row: at every change from one to the other in intarsia.

    Not where a yarn works its very first stitch, for there is nothing yet to twist; and not where a yarn runs behind
    the change, which holds the fabric together as it is (in stranded knitting, everywhere). No-stitch cells between do
    not break the fabric, so they are no break here; an opening does. In the round, the change from the last run of a
    round to the first of the next counts in the later round, where two supplies meet there; the turns of a turned tube
    are joins, not interlocks.
    """
    twists: list[int] = np.bincount(threads.runs.row[_twisted(chart, threads)], minlength=chart.grid.height).tolist()
    return twists


def _twisted(chart: Chart, threads: Threads) -> NDArray[np.bool_]:
    """Of every run, whether its yarn is twisted with that of the run before."""
    runs, cover = threads.runs, threads.cover
    twisted = np.zeros(len(runs), bool)
    if chart.technique is not Technique.STRANDED and len(runs):
        met = runs.row[1:] - runs.row[:-1] <= (1 if chart.worked is Worked.ROUND and not chart.panel else 0)
        met &= (runs.side[1:] == runs.side[:-1]) & (cover.supply[1:] != cover.supply[:-1])
        twisted[1:] = met & (cover.previous[1:] >= 0) & ~_stranded(threads)
    return twisted


def _stranded(threads: Threads) -> NDArray[np.bool_]:
    """Whether a float runs behind the change from each run but the last to the next one."""
    tails = np.flatnonzero(threads.floats & (threads.cover.idle == 0))
    change = np.bincount(tails, minlength=len(threads.runs))
    change -= np.bincount(threads.cover.next[tails], minlength=len(threads.runs))
    behind: NDArray[np.bool_] = np.cumsum(change)[:-1] > 0
    return behind


def crossing_rows(chart: Chart, threads: Threads) -> dict[int, int]:
    """Row to its number of crossings, for the rows that have any; the same as `RowPlan.crossings`, without the rest."""
    runs, cover = threads.runs, threads.cover
    taken = (cover.previous >= 0).nonzero()[0]
    source = cover.previous[taken]
    if cover.same_row.any():
        hangs = ~cover.same_row[source]
        taken, source = taken[hangs], source[hangs]
    row, enter, at = runs.row[taken], runs.entry[taken], runs.exit[source]
    # What the row needs further on has to hang further on, whichever way the row is worked.
    crossed = (row[1:] == row[:-1]) & ((enter[1:] - enter[:-1]) * (at[1:] - at[:-1]) < 0)
    if not crossed.any():
        return {}
    ring = chart.worked is Worked.ROUND
    counted = {}
    # np.unique would import numpy's masked arrays, which takes as long as the plan of many charts
    for index in sorted(set(row[1:][crossed].tolist())):
        left_at = -at[row == index] if chart.leftward(index + 1) else at[row == index]
        if pairs := crossings(left_at.tolist(), ring=ring):
            counted[index + 1] = pairs
    return counted


def crossings(left_at: Sequence[int], *, ring: bool = False) -> int:
    """Pairs of supplies whose hanging order must swap before a row can be worked.

    `left_at` is where each supply that already hangs was left, as a distance along the row's working direction, in
    the order the row needs them. Inversions of that order; two that hang from one stitch need not swap. In the round
    the yarns hang in a ring, which may be read from any place: the reading with the fewest swaps counts.
    """
    found = inversions(left_at)
    if not ring or found == 0:
        return found
    order = sorted(set(left_at))
    for cut in order[:-1]:  # everything up to `cut` is read after all the rest
        far = order[-1] - order[0] + 1
        found = min(found, inversions([at + far if at <= cut else at for at in left_at]))
    return found


def inversions(values: Sequence[int]) -> int:
    """How many pairs stand in falling order."""
    if sorted(values) == list(values):
        return 0
    seen: list[int] = []
    found = 0
    for value in values:
        found += len(seen) - bisect_right(seen, value)
        insort(seen, value)
    return found
