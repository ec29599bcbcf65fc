"""The two ends of every supply: where they hang, what they can be woven along, and whether there is room.

An end is woven across the gap that its join or finish leaves, then along the boundary of its own block (common
practice): along the row of its first or last stitches and up or down the edge at which it hangs. The room is the length
of that path in the fabric, for as many rows as the supply works one after the other.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from lintarsia.chart import Chart, Technique
from lintarsia.chart.grid import RowNumber
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


def plan_ends(
    chart: Chart,
    threads: Threads,
    ids: Sequence[str],
    tables: tuple[EndTable, EndTable],
    bound: Mapping[int, tuple[RowNumber, int]],
) -> tuple[End, ...]:
    """A join and a finish for every supply, in the order of `ids`; `tables` are those of `joins_and_finishes`.

    `bound`: by number, the supplies that bind off where no stitch of the chart is left, with the row of that, in
    knitter's numbers, and the run whose stitches each comes to last. It has gone back over them to where that began.
    """
    runs, symbols, width = threads.runs, chart.grid.symbols, chart.grid.width
    twisted = chart.technique is not Technique.STRANDED
    row, colour = runs.row.tolist(), runs.colour.tolist()
    hems = _over_the_edge(chart, threads, bound, row)
    kinds = []
    for kind, columns, table in zip(("join", "finish"), (runs.entry, runs.exit), tables, strict=True):
        hangs = columns.tolist()
        along = ["" if run < 0 else symbols[colour[run]] for run in table.beside]
        places = [(row[run] + 1, hangs[run], other) for run, other in zip(table.run, along, strict=True)]
        for supply, (at, column, run) in hems.items() if kind == "finish" else ():
            places[supply] = (at, column, "" if run < 0 else symbols[colour[run]])
        kinds.append(
            [
                End(name, kind, at, width - column, other, room, twisted and other != "")
                for name, (at, column, other), room in zip(ids, places, table.room, strict=True)
            ]
        )
    return tuple(end for pair in zip(*kinds, strict=True) for end in pair)


def _over_the_edge(
    chart: Chart, threads: Threads, bound: Mapping[int, tuple[RowNumber, int]], row: list[int]
) -> dict[int, tuple[RowNumber, int, int]]:
    """Of each supply that binds off so: the row, the column where its end hangs, and the run beside it, -1 for none."""
    runs = [run for _, run in bound.values()]
    beside = _beside(chart, threads, runs, -1, row) if runs else []
    entry = threads.runs.entry
    return {
        supply: (at, int(entry[run]), other) for (supply, (at, run)), other in zip(bound.items(), beside, strict=True)
    }


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
