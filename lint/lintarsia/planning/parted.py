"""The rows of an opening side by side: each side's own line-up, and what hangs on the other side meanwhile."""

from collections.abc import Mapping, Sequence
from itertools import combinations

import numpy as np

from lintarsia.chart import Chart
from lintarsia.chart.openings import Opening
from lintarsia.chart.shaping import Order
from lintarsia.chart.sides import Half, Sides, half_of
from lintarsia.planning.model import PartPlan, RowPlan
from lintarsia.planning.threads import Threads


def with_parts(
    chart: Chart, threads: Threads, ids: Sequence[str], rows: Sequence[RowPlan], twisted: Sequence[bool]
) -> tuple[RowPlan, ...]:
    """The rows, those of an opening with a part for each side in the row's own direction. `twisted`: of every run,
    whether its yarn is twisted with the one before."""
    sides = Sides(chart)
    held = {(row, half): names for o in sides.openings for row, half, names in _held(sides, o, threads, ids)}
    resting = _resting(sides, threads, ids)
    found = list(rows)
    for opening in sides.openings:
        for row in range(opening.first_row, opening.last_row + 1):
            made = found[row - 1]
            parts = [
                _part(made, half, threads, twisted, resting.get(row, {}), held.get((row, half), ()))
                for half in dict.fromkeys(half_of(int(threads.runs.side[run])) for run in made.runs)
                if half is not None
            ]
            found[row - 1] = made._replace(parts=tuple(parts))
    return tuple(found)


def _part(
    row: RowPlan,
    half: Half,
    threads: Threads,
    twisted: Sequence[bool],
    resting: Mapping[str, Half | None],
    held: tuple[str, ...],
) -> PartPlan:
    own = [k for k, run in enumerate(row.runs) if half_of(int(threads.runs.side[run])) is half]
    by = tuple(row.by[k] for k in own)
    line_up = tuple(name for name in row.line_up if name in by)
    return PartPlan(
        side=half.value,
        line_up=line_up,
        joins=tuple(name for name in row.joins if name in by),
        finishes=tuple(name for name in row.finishes if name in by),
        waiting=tuple(name for name in row.waiting if resting.get(name) is half),
        held=held,
        interlocks=sum(twisted[row.runs[k]] for k in own),
        crossings=_crossings(row, own, threads),
        needs=len(line_up),
        runs=tuple(row.runs[k] for k in own),
        by=by,
    )


def _crossings(row: RowPlan, own: Sequence[int], threads: Threads) -> int:
    """Pairs of a side's supplies that hang the other way round than this row of it needs them."""
    runs, previous = threads.runs, threads.cover.previous
    sources = [int(previous[row.runs[k]]) for k in own]
    left_at = [int(runs.exit[s]) for s in sources if s >= 0 and int(runs.row[s]) + 1 != row.row]
    if row.direction == "right-to-left":
        left_at = [-at for at in left_at]
    return sum(before > after for before, after in combinations(left_at, 2))


def _resting(sides: Sides, threads: Threads, ids: Sequence[str]) -> dict[int, dict[str, Half | None]]:
    """By row, on which side each supply rests that waits in it: where it is taken up again."""
    runs, cover = threads.runs, threads.cover
    found: dict[int, dict[str, Half | None]] = {}
    for tail in np.flatnonzero(cover.idle).tolist():
        head = int(cover.next[tail])
        half = half_of(int(runs.side[head])) or half_of(int(runs.side[tail]))
        for index in range(int(runs.row[tail]) + 1, int(runs.row[head])):
            at = half or sides.half_at(index + 1, int(runs.entry[head]))
            found.setdefault(index + 1, {})[ids[int(cover.supply[tail])]] = at
    return found


def _held(
    sides: Sides, opening: Opening, threads: Threads, ids: Sequence[str]
) -> list[tuple[int, Half, tuple[str, ...]]]:
    """(row, side, supplies) of every piece during which the other side waits, with what hangs on it, left to right."""
    if opening.divide.sides is Order.TOGETHER:
        return []
    first = Half.RIGHT if opening.divide.sides is Order.RIGHT_FIRST else Half.LEFT
    order = [p for p in sides.in_order if opening.first_row <= p.row <= opening.last_row]
    after = next((at for at, piece in enumerate(order) if piece.half is first), 0)
    later = {(piece.row, piece.half) for piece in order[after:] if piece.half is not first}
    runs, cover = threads.runs, threads.cover
    hanging = []
    for tail in np.flatnonzero(cover.next >= 0).tolist():
        head = int(cover.next[tail])
        waits = (int(runs.row[head]) + 1, half_of(int(runs.side[head]))) in later
        if waits and (int(runs.row[tail]) + 1, half_of(int(runs.side[tail]))) not in later:
            hanging.append((int(runs.exit[tail]), ids[int(cover.supply[tail])]))
    names = tuple(name for _, name in sorted(hanging))
    return [(piece.row, first, names) for piece in order[after:] if piece.half is first and names]
