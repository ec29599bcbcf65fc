"""Stitches that are cast on and bound off, and which supply does it: that of the run they stand in, or beside."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from lintarsia.chart import Begins, Chart, Ends, Worked
from lintarsia.chart.grid import RowIndex, RowNumber, row_index
from lintarsia.chart.shaping import Change, ChangeKind
from lintarsia.planning.threads import Flags, Ints, Threads

if TYPE_CHECKING:
    from lintarsia.chart.sides import Half, Stint


class EdgeRun(NamedTuple):
    """So many stitches of a colour that are cast on or bound off one after another, with the supply that does it."""

    colour: str
    stitches: int
    by: str


class EdgeWork(NamedTuple):
    """How many stitches the supply of each run casts on and binds off there, by run, in the order worked.

    The stitches of the chart's first row with stitches are cast on, unless they are there already. Those that the work,
    or a side of an opening, ends with are bound off, each run with the yarn that works it, unless the file puts them on
    a holder or they stay live. What shaping brings
    or takes, at an outer edge or between the sides, is cast on or bound off by the yarn that stands there.
    """

    cast_on: Ints
    bind_off: Ints


class Emptied(NamedTuple):
    """A stint of which no stitch is left: what becomes of those of `runs`, the side's last, in row `row`."""

    row: RowNumber
    half: "Half | None"
    runs: tuple[int, ...]
    bound_off: bool


def edge_work(chart: Chart, threads: Threads) -> EdgeWork:
    """What is cast on and bound off in all the chart."""
    runs = threads.runs
    cast_on, bind_off = np.zeros(len(runs), np.int64), np.zeros(len(runs), np.int64)
    if not len(runs):
        return EdgeWork(cast_on, bind_off)
    low = runs.row == runs.row[0]
    if chart.begins is Begins.CAST_ON:
        cast_on[low] = runs.stitches[low]
    if chart.ends is Ends.BOUND_OFF:
        ends = _ends(chart, threads)
        bind_off[ends] = runs.stitches[ends]
    for stint in _changed(chart):
        at = _runs_of(threads, stint.row, stint.half)
        for change, run in _by(chart, threads, stint, at) if len(at) and stint.row - 1 > runs.row[0] else ():
            (cast_on if change.kind.adds else bind_off)[run] += change.stitches
    return EdgeWork(cast_on, bind_off)


def emptied(chart: Chart, threads: Threads) -> tuple[Emptied, ...]:
    """The stints in which all that was left of the work, or of a side of it, is bound off or put on a holder."""
    found = []
    for stint in _changed(chart):
        kinds = {change.kind for change in stint.changes}
        if stint.columns[0] == stint.columns[1] and kinds in ({ChangeKind.BIND_OFF}, {ChangeKind.HOLD}):
            below = _runs_of(threads, RowNumber(stint.row - 1), stint.half)
            found.append(Emptied(stint.row, stint.half, tuple(below.tolist()), kinds == {ChangeKind.BIND_OFF}))
    return tuple(found)


def _changed(chart: Chart) -> "Iterator[Stint]":
    """The stints of the rows that are shaped or that part the work."""
    if not chart.shaping and not chart.divide:
        return
    from lintarsia.chart.sides import Sides

    sides = Sides(chart)
    for row in sorted({*chart.shaping, *chart.divide}):
        if row <= chart.grid.height:
            yield from sides.stints(row)


def _runs_of(threads: Threads, row: RowNumber, half: "Half | None") -> Ints:
    """The runs of a row, or of a side of it, in working order."""
    from lintarsia.chart.sides import half_of

    runs = threads.runs
    at = np.arange(*np.searchsorted(runs.row, (row_index(row), row)))
    sides = [half_of(side) for side in runs.side[at].tolist()]
    return at[[side is half for side in sides]] if at.size else at


def _ends(chart: Chart, threads: Threads) -> Flags:
    """Whether no stitch is worked above a run, on its side of an opening or over all the work: it is bound off."""
    runs = threads.runs
    ends: Flags = runs.row == runs.row[-1]
    if chart.divide:
        opening = (runs.side - 1) // 2  # -1 where the work is whole
        for side in np.unique(runs.side).tolist():
            own = runs.side == side
            last = runs.row[own].max()
            above = (runs.row > last) & (opening != (side - 1) // 2)
            ends[own] = (runs.row[own] == last) & ~above.any()
    for stint in emptied(chart, threads) if chart.shaping else ():
        ends[list(stint.runs)] = stint.bound_off
    return ends


def _by(chart: Chart, threads: Threads, stint: "Stint", at: Ints) -> Iterator[tuple[Change, int]]:
    """What a stint casts on and binds off, with the run whose supply does it: the first for what is done before the
    stint is worked, the last for what is done behind it, and beside new stitches in its midst the one that has them."""
    between = (stint.opening,) if stint.opening else ()
    made = [(change, int(at[0])) for change in (*between, *stint.start)]
    made += [(change, int(at[-1])) for change in stint.end]
    made += [(change, _midst(chart, threads, stint, at)) for change in stint.inside]
    yield from ((change, run) for change, run in made if change.kind in (ChangeKind.CAST_ON, ChangeKind.BIND_OFF))


def _midst(chart: Chart, threads: Threads, stint: "Stint", at: Ints) -> int:
    """The first run of a stint with a stitch above no stitch, and stitches below on both hands; else the first run."""
    below, here = chart.grid.cells[stint.row - 2] >= 0, chart.grid.cells[stint.row - 1] >= 0
    old = np.flatnonzero(below)
    new = np.flatnonzero(here & ~below)
    new = new[(new > old[0]) & (new < old[-1])] if len(old) else new
    left, right = threads.runs.left, threads.runs.right
    return next((run for run in at.tolist() if ((left[run] <= new) & (new <= right[run])).any()), int(at[0]))


def first_row(threads: Threads) -> RowIndex:
    """The lowest row that has stitches, from 0; 0 where none has."""
    return RowIndex(int(threads.runs.row[0]) if len(threads.runs) else 0)


def cast_on_order(chart: Chart, threads: Threads, names: list[str]) -> tuple[EdgeRun, ...]:
    """The stitches to cast on before row 1, in order: what is cast on last is worked first, unless one goes round."""
    if chart.begins is not Begins.CAST_ON:
        return ()
    edge = _edge(chart, threads, names, np.flatnonzero(threads.runs.row == first_row(threads)))
    return edge if chart.worked is Worked.ROUND else edge[::-1]


def bind_off_order(chart: Chart, threads: Threads, names: list[str]) -> tuple[EdgeRun, ...]:
    """The stitches to bind off after the last row, and after the last of each side that ends below it, in order: back
    over them, or on around. Those that the file binds off in a row of their own are none of these.
    """
    if not len(threads.runs) or chart.ends is not Ends.BOUND_OFF:
        return ()
    ends = _ends(chart, threads)
    for stint in emptied(chart, threads) if chart.shaping else ():
        ends[list(stint.runs)] = False
    edge = _edge(chart, threads, names, np.flatnonzero(ends))
    return edge if chart.worked is Worked.ROUND else edge[::-1]


def _edge(chart: Chart, threads: Threads, names: list[str], at: Ints) -> tuple[EdgeRun, ...]:
    runs, symbols = threads.runs, chart.grid.symbols
    columns = (runs.colour[at], runs.stitches[at], threads.cover.supply[at])
    return tuple(EdgeRun(symbols[c], n, names[s]) for c, n, s in zip(*(a.tolist() for a in columns), strict=True))
