"""Stitches that are cast on and bound off, and which supply does it: that of the run they stand in, or beside."""

from typing import NamedTuple

import numpy as np

from lintarsia.chart import Chart, Worked
from lintarsia.planning.threads import Ints, Threads


class EdgeRun(NamedTuple):
    """So many stitches of a colour that are cast on or bound off one after another, with the supply that does it."""

    colour: str
    stitches: int
    by: str


class EdgeWork(NamedTuple):
    """How many stitches the supply of each run casts on and binds off there, by run, in the order worked.

    The stitches of the chart's first row with stitches are cast on and those of its last are bound off, each run with
    the yarn that works it; so are those that its shaping brings or takes at an outer edge of another row, with the yarn
    that stands there.
    """

    cast_on: Ints
    bind_off: Ints


def edge_work(chart: Chart, threads: Threads) -> EdgeWork:
    """What is cast on and bound off in all the chart."""
    runs = threads.runs
    cast_on, bind_off = np.zeros(len(runs), np.int64), np.zeros(len(runs), np.int64)
    if not len(runs):
        return EdgeWork(cast_on, bind_off)
    low, high = int(runs.row[0]), int(runs.row[-1])
    cast_on[runs.row == low] = runs.stitches[runs.row == low]
    bind_off[runs.row == high] = runs.stitches[runs.row == high]
    if chart.shaping:
        _add_shaping(chart, threads, cast_on, bind_off)
    return EdgeWork(cast_on, bind_off)


def _add_shaping(chart: Chart, threads: Threads, cast_on: Ints, bind_off: Ints) -> None:
    """What the rows' shaping casts on and binds off at outer edges, added to the runs that stand there."""
    from lintarsia.chart.shaping import ChangeKind, Edge
    from lintarsia.chart.sides import row_changes

    runs, low = threads.runs, int(threads.runs.row[0])
    for row in chart.shaping:
        at = np.flatnonzero(runs.row == row - 1)
        if not len(at) or row - 1 == low:
            continue
        for change in row_changes(chart, row):
            if change.kind in (ChangeKind.CAST_ON, ChangeKind.BIND_OFF) and not (change.edge and change.edge.inner):
                ends = change.edge is (Edge.LEFT if chart.leftward(row) else Edge.RIGHT)
                (cast_on if change.kind.adds else bind_off)[at[-1] if ends else at[0]] += change.stitches


def first_row(threads: Threads) -> int:
    """The lowest row that has stitches, from 0; 0 where none has."""
    return int(threads.runs.row[0]) if len(threads.runs) else 0


def cast_on_order(chart: Chart, threads: Threads, names: list[str]) -> tuple[EdgeRun, ...]:
    """The stitches to cast on before row 1, in order: what is cast on last is worked first, unless one goes round."""
    edge = _edge(chart, threads, names, first_row(threads))
    return edge if chart.worked is Worked.ROUND else edge[::-1]


def bind_off_order(chart: Chart, threads: Threads, names: list[str]) -> tuple[EdgeRun, ...]:
    """The stitches to bind off after the last row, in order: back over them, or on around."""
    edge = _edge(chart, threads, names, int(threads.runs.row[-1]) if len(threads.runs) else 0)
    return edge if chart.worked is Worked.ROUND else edge[::-1]


def _edge(chart: Chart, threads: Threads, names: list[str], row: int) -> tuple[EdgeRun, ...]:
    runs, symbols = threads.runs, chart.grid.symbols
    at = np.flatnonzero(runs.row == row)
    columns = (runs.colour[at], runs.stitches[at], threads.cover.supply[at])
    return tuple(EdgeRun(symbols[c], n, names[s]) for c, n, s in zip(*(a.tolist() for a in columns), strict=True))
