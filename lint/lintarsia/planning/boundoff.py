"""Rows in which all that is left of the work, or of one side of an opening, is bound off.

No stitch of the chart is worked there, and yet a yarn is: the one that stands there binds off and only then finishes.
"""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowNumber
from lintarsia.planning.edgework import Emptied, emptied
from lintarsia.planning.model import PartPlan, RowPlan
from lintarsia.planning.threads import Threads


def with_bound_off(chart: Chart, threads: Threads, ids: Sequence[str], rows: Sequence[RowPlan]) -> tuple[RowPlan, ...]:
    """The rows, each such row worked by the yarns that worked the side's last stitches; they finish there."""
    found = list(rows)
    for stint in emptied(chart, threads):
        if stint.bound_off and stint.runs and stint.row > 1:
            names = _names(threads, ids, stint)
            found[stint.row - 2] = _unfinished(found[stint.row - 2], names)
            found[stint.row - 1] = _binding(found[stint.row - 1], stint, names)
    return tuple(found)


def last_rows(chart: Chart, threads: Threads) -> dict[int, tuple[RowNumber, int]]:
    """The row in which a supply binds off, by supply, where no stitch of the chart is left in it, and the run that it
    comes to last: it goes back over them, so that is the one worked first."""
    supply = threads.cover.supply
    stints = [stint for stint in emptied(chart, threads) if stint.bound_off]
    return {int(supply[run]): (stint.row, run) for stint in stints for run in stint.runs[::-1]}


def _names(threads: Threads, ids: Sequence[str], stint: Emptied) -> tuple[str, ...]:
    """The yarns as they hang: what was used last comes first after the turn."""
    return tuple(dict.fromkeys(ids[threads.cover.supply[run]] for run in stint.runs[::-1]))


def _unfinished(row: RowPlan, names: tuple[str, ...]) -> RowPlan:
    parts = tuple(part._replace(finishes=_without(part.finishes, names)) for part in row.parts)
    return row._replace(finishes=_without(row.finishes, names), parts=parts)


def _without(names: tuple[str, ...], gone: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name for name in names if name not in gone)


def _binding(row: RowPlan, stint: Emptied, names: tuple[str, ...]) -> RowPlan:
    """The row with the yarns that bind off, in their place among those of the other side."""
    first = stint.half is None or (stint.half.value == "right") == (row.direction == "right-to-left")
    parts = row.parts
    if stint.half is not None:
        new = PartPlan(stint.half.value, names, (), names, (), (), 0, 0, len(names), (), ())
        parts = (new, *parts) if first else (*parts, new)
    return row._replace(
        line_up=(*names, *row.line_up) if first else (*row.line_up, *names),
        finishes=(*names, *row.finishes) if first else (*row.finishes, *names),
        needs=row.needs + len(names),
        hangs=row.hangs + len(names),
        parts=parts,
    )
