"""A part of a plan in sums, and runs that a chart does not have put among its own."""

from collections.abc import Sequence
from dataclasses import field
from typing import NamedTuple

import numpy as np

from lintarsia.chart.grid import RowIndex
from lintarsia.ground.values import dataclass
from lintarsia.planning.rates import Rates
from lintarsia.planning.runs import RunTable
from lintarsia.planning.threads import Ints


class NewRun(NamedTuple):
    """A run that the chart does not have.

    `extent` counts the stitches from its first to its last, those of other colours that it is stranded across
    included; `floats` lists the length of each such float. `cast_on` and `bind_off` are stitches.
    """

    row: RowIndex
    left: int
    right: int
    colour: int
    entry: int
    exit: int
    start: int
    extent: int
    side: int
    changed_from: int
    changed_to: int
    cast_on: int = 0
    bind_off: int = 0
    floats: tuple[int, ...] = ()


@dataclass(frozen=True)
class Sums:
    """Sums over a part of a plan. `needs` are the supplies that this part brings to each row, `casting` to the first.

    `longest_float` is that of a part solved again; of what stands, `Islands.longest_without` knows it.
    """

    supplies: int
    stitches: int
    carried: int
    floated: int
    idle: int
    cast_on: int
    bind_off: int
    casting: int
    needs: Ints
    longest_float: int = 0
    components: frozenset[int] = field(default=frozenset())

    def mm(self, per: Rates) -> float:
        """The yarn of this part, mm."""
        across = self.carried * per.carry + self.floated * per.floating
        edges = self.cast_on * per.cast_on + self.bind_off * per.bind_off + self.casting * per.spare
        return self.stitches * per.loop + across + self.idle * per.row + 2 * per.tail * self.supplies + edges


def table_with(runs: RunTable, kept: Ints, new: Sequence[NewRun]) -> RunTable:
    """Some runs of the chart and some new ones, in the order worked."""
    fields = RunTable.__slots__
    columns = [getattr(runs, name)[kept] for name in fields]
    if new:
        fresh = [[getattr(p, "extent" if name == "stitches" else name) for p in new] for name in fields]
        columns = [np.concatenate([old, np.array(more, np.int64)]) for old, more in zip(columns, fresh, strict=True)]
        order = np.argsort(columns[fields.index("start")], kind="stable")
        columns = [column[order] for column in columns]
    return RunTable(*columns)
