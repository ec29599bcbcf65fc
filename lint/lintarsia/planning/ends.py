"""The two ends of every supply: where they hang, what they can be woven along, and whether there is room.

An end is woven across the gap that its join or finish leaves, then along the boundary of its own block (common
practice): along the row of its first or last stitches and up or down the edge at which it hangs. The room is the length
of that path in the fabric, for as many rows as the supply works one after the other.
"""

from collections.abc import Sequence

import numpy as np

from lintarsia.chart import Chart, Technique
from lintarsia.planning.model import End
from lintarsia.planning.rates import Rates
from lintarsia.planning.threads import EndTable, Threads


def joins_and_finishes(chart: Chart, threads: Threads, per: Rates) -> tuple[EndTable, EndTable]:
    """All ends: the joins, then the finishes. Plain lists: every path is short, and few charts have many."""
    cover, leftward, row = threads.cover, chart.leftwards, threads.runs.row.tolist()
    stitches, edges = threads.runs.stitches.tolist(), _edges(threads)
    tables = []
    for at, onward, step in ((threads.first, cover.next, 1), (threads.last, cover.previous, -1)):
        ends, after = at.tolist(), onward.tolist()
        room = []
        for run in ends:
            hangs_right = leftward[row[run]] == (step > 0)
            rows, moved = _path(run, after, row, edges[hangs_right])
            # Whole rows and stitches are added up before they are measured: the sum has one rounding.
            room.append((stitches[run] + moved) * per.carry + (1 + rows) * per.row)
        tables.append(EndTable(ends, _beside(chart, threads, ends, -step, row), room))
    return tables[0], tables[1]


def plan_ends(chart: Chart, threads: Threads, ids: Sequence[str], tables: tuple[EndTable, EndTable]) -> tuple[End, ...]:
    """A join and a finish for every supply, in the order of `ids`; `tables` are those of `joins_and_finishes`."""
    runs, symbols, width = threads.runs, chart.grid.symbols, chart.grid.width
    twisted = chart.technique is not Technique.STRANDED
    row, colour = runs.row.tolist(), runs.colour.tolist()
    kinds = []
    for kind, columns, table in zip(("join", "finish"), (runs.entry, runs.exit), tables, strict=True):
        hangs = columns.tolist()
        along = ["" if run < 0 else symbols[colour[run]] for run in table.beside]
        kinds.append(
            [
                End(name, kind, row[run] + 1, width - hangs[run], other, room, twisted and other != "")
                for name, run, other, room in zip(ids, table.run, along, table.room, strict=True)
            ]
        )
    return tuple(end for pair in zip(*kinds, strict=True) for end in pair)


def _path(run: int, after: Sequence[int], row: Sequence[int], edge: Sequence[int]) -> tuple[int, int]:
    """How many rows the edge can be followed beyond that of `run`, and how many stitches it moves aside in them.

    `after` is where the supply goes on to, or where it came from. A float inside a row moves nothing: the edge is the
    same at both its ends.
    """
    end, moved = run, 0
    while (further := after[end]) >= 0 and abs(row[further] - row[end]) <= 1:
        moved += abs(edge[further] - edge[end])
        end = further
    return abs(row[end] - row[run]), moved


def _edges(threads: Threads) -> tuple[list[int], list[int]]:
    """How far to the left, and how far to the right, the supply of each run gets in the run's row."""
    runs, cover = threads.runs, threads.cover
    left, right = runs.left.tolist(), runs.right.tolist()
    floats = cover.same_row.nonzero()[0]
    pairs = list(zip(floats.tolist(), cover.next[floats].tolist(), strict=True))
    for run, target in pairs:
        left[target], right[target] = min(left[run], left[target]), max(right[run], right[target])
    for run, target in reversed(pairs):
        left[run], right[run] = left[target], right[target]
    return left, right


def _beside(chart: Chart, threads: Threads, at: Sequence[int], step: int, row: Sequence[int]) -> list[int]:
    """The neighbour of each run one `step` on in its row, on the same side of an opening; of a tube, the first and the
    last run are neighbours."""
    side = threads.runs.side.tolist()
    place = list(zip(row, side, strict=True))
    beside = [run + step if 0 <= run + step < len(row) and place[run + step] == place[run] else -1 for run in at]
    if chart.tube and -1 in beside:
        colour = threads.runs.colour
        far = np.searchsorted(threads.runs.row, threads.runs.row[at], side="right" if step < 0 else "left")
        around = far - 1 if step < 0 else far
        opposite = np.where(colour[around] == colour[at], -1, around).tolist()
        beside = [other if run < 0 else run for run, other in zip(beside, opposite, strict=True)]
    return beside
