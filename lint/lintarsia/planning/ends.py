"""The two ends of every supply: where they hang, what they can be woven along, and whether there is room.

An end is woven across the gap that its join or finish leaves, then along the boundary of its own block (common
practice): along the row of its first or last stitches and up or down the edge at which it hangs. The room is the length
of that path in the fabric, for as many rows as the supply works one after the other.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart, Technique
from lintarsia.planning.model import End
from lintarsia.planning.threads import Flags, Ints, Threads
from lintarsia.planning.yarn import Rates
from lintarsia.values import dataclass

Lengths = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class EndTable:
    """The joins or the finishes of all supplies, an entry a supply in every array.

    `run` is the run that the end hangs from, `beside` the neighbouring run of another colour, -1 at an edge of the
    piece, `room` in mm.
    """

    run: Ints
    beside: Ints
    room: Lengths


def joins_and_finishes(chart: Chart, threads: Threads, per: Rates) -> tuple[EndTable, EndTable]:
    """All ends as arrays: the joins, then the finishes."""
    leftward = np.array(chart.leftwards)
    tables = []
    for runs, forward in ((threads.first, True), (threads.last, False)):
        on_right = leftward[threads.runs.row[runs]] == forward
        beside = _beside(chart, threads, runs, -1 if forward else 1)
        tables.append(EndTable(runs, beside, _room(threads, per, runs, on_right, forward=forward)))
    return tables[0], tables[1]


def surely_roomy(chart: Chart, threads: Threads, per: Rates, wanted: float) -> bool:
    """Whether every end inside the piece has more than `wanted` mm to be woven along; False where that is not plain.

    Each path is followed only as far as it takes. That is a tenth of the work of measuring all paths, and most charts
    need no more.
    """
    runs, cover = threads.runs, threads.cover
    row = runs.row
    wanted += 1e-6  # more than what sums in another order can differ by
    for at, forward in ((threads.first, True), (threads.last, False)):
        step, onward = (1, cover.next) if forward else (-1, cover.previous)
        for run in at[runs.stitches[at] * per.carry + per.row < wanted].tolist():
            beside = run - step
            if not chart.tube and (not 0 <= beside < len(row) or row[beside] != row[run]):
                continue  # at an edge of the piece
            if cover.same_row.any():
                return False
            edge = runs.right if chart.leftward(int(row[run]) + 1) == forward else runs.left
            room = runs.stitches[run] * per.carry + per.row
            while room < wanted:
                further = onward[run]
                if further < 0 or row[further] != row[run] + step:
                    return False
                room += per.row + abs(edge[further] - edge[run]) * per.carry
                run = further
    return True


def plan_ends(chart: Chart, threads: Threads, ids: Sequence[str], per: Rates) -> tuple[End, ...]:
    """A join and a finish for every supply, in the order of `ids`."""
    runs, symbols, width = threads.runs, chart.grid.symbols, chart.grid.width
    twisted = chart.technique is not Technique.STRANDED
    kinds = []
    for kind, column, table in zip(
        ("join", "finish"), (runs.entry, runs.exit), joins_and_finishes(chart, threads, per), strict=True
    ):
        colours = np.where(table.beside < 0, -1, runs.colour[table.beside]).tolist()
        along = ["" if code < 0 else symbols[code] for code in colours]
        arrays = (runs.row[table.run] + 1, width - column[table.run], table.room)
        kinds.append(
            [
                End(name, kind, row, stitch, colour, room, twisted and colour != "")
                for name, colour, row, stitch, room in zip(ids, along, *(a.tolist() for a in arrays), strict=True)
            ]
        )
    return tuple(end for pair in zip(*kinds, strict=True) for end in pair)


def _beside(chart: Chart, threads: Threads, at: Ints, step: int) -> Ints:
    """The neighbour of each run one `step` on in its row; of a tube, the first and the last run are neighbours."""
    row, count = threads.runs.row, len(threads.runs)
    beside = at + step
    inside = (beside >= 0) & (beside < count)
    inside[inside] = row[beside[inside]] == row[at[inside]]
    if not chart.tube:
        return np.where(inside, beside, -1)
    around = np.searchsorted(row, row[at], side="right") - 1 if step < 0 else np.searchsorted(row, row[at])
    around = np.where(threads.runs.colour[around] == threads.runs.colour[at], -1, around)
    return np.where(inside, beside, around)


def _room(threads: Threads, per: Rates, at: Ints, on_right: Flags, *, forward: bool) -> Lengths:
    """The path open to the end at run `at` of each supply, which hangs at the block's right edge or its left, mm."""
    runs, cover, count = threads.runs, threads.cover, len(threads.runs)
    head, left, right = _visits(threads)
    edge = np.where(on_right[cover.supply], right, left)
    leaving = np.flatnonzero((cover.next >= 0) & ~cover.same_row)
    below, above = head[leaving], cover.next[leaving]
    straight = runs.row[above] == runs.row[below] + 1
    below, above = below[straight], above[straight]
    length, onward = np.zeros(count + 1), np.full(count + 1, count)  # the last entry is where every path ends
    step = per.row + np.abs(edge[above] - edge[below]) * per.carry
    start, goal = (below, above) if forward else (above, below)
    length[start], onward[start] = step, goal
    while (onward < count).any():  # each pass doubles how far every path has been followed
        length += length[onward]
        onward = onward[onward]
    found: Lengths = runs.stitches[at] * per.carry + per.row + length[head[at]]
    return found


def _visits(threads: Threads) -> tuple[Ints, Ints, Ints]:
    """Of each run, the first run that its supply works in that row, and how far left and right the supply gets there.

    The extent is that of the whole row for the first run, which is where it is looked up.
    """
    runs, cover = threads.runs, threads.cover
    head = np.arange(len(runs))
    floats = np.flatnonzero(cover.same_row)
    if not len(floats):
        return head, runs.left, runs.right
    for run, target in zip(floats.tolist(), cover.next[floats].tolist(), strict=True):
        head[target] = head[run]
    left, right = runs.left.copy(), runs.right.copy()
    np.minimum.at(left, head, runs.left)
    np.maximum.at(right, head, runs.right)
    return head, left, right
