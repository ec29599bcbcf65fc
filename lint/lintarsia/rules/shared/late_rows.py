"""A row doubled or left out, told by the shaping: every change of count from some row up comes a row late or early."""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowNumber
from lintarsia.ground.values import dataclass

FEWEST = 2  # changes of count that must come late alike: one alone is a slip of its own (house value)


@dataclass(frozen=True, slots=True)
class Late:
    """`by` 1: the changes come a row late, so a row is doubled; -1: a row early, so one is left out.

    It happened between `after`, the last row whose change is in its place, and `before`, the first that is not (as the
    chart has it). `changes` is how many are late. `doubled` are the rows in between that are as the row below them.
    """

    by: int
    after: RowNumber
    before: RowNumber
    changes: int
    doubled: tuple[int, ...]


def late_rows(chart: Chart) -> Late | None:
    """What explains all changes of count that are not where the shaping has them, if one row does."""
    if not chart.shaping:
        return None
    height = chart.grid.height
    counts = [chart.grid.stitches(row) for row in range(1, height + 1)]
    made = {row: counts[row - 1] - counts[row - 2] for row in range(2, height + 1)}
    made = {row: change for row, change in made.items() if change}
    stated = {row: shaping.net for row, shaping in chart.shaping.items() if shaping.net and row > 1}
    if made == stated:
        return None
    for by in (1, -1):
        late = _explained(made, stated, by, height)
        if late is not None:
            after, before, changes = late
            return Late(by, RowNumber(after), RowNumber(before), changes, _alike(chart.grid.rows, after, before))
    return None


def _explained(made: dict[int, int], stated: dict[int, int], by: int, height: int) -> tuple[int, int, int] | None:
    """(last change in place, first that is not, how many are not) where all from there on are late by `by` rows."""
    for split in sorted(stated):
        below = {row: net for row, net in stated.items() if row < split}
        above = {row + by: net for row, net in stated.items() if row >= split and row + by <= height}
        if len(above) >= FEWEST and made == below | above:
            return max(below, default=1), min(above), len(above)
    return None


def _alike(rows: Sequence[str], after: int, before: int) -> tuple[int, ...]:
    return tuple(row for row in range(after + 1, before) if rows[row - 1] == rows[row - 2])
