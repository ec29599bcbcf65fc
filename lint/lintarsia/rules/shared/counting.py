"""Stitches counted up the chart, row by row; side by side where the work is parted."""

from collections.abc import Mapping

from lintarsia.chart.grid import RowNumber
from lintarsia.chart.openings import Opening
from lintarsia.chart.sides import Half, row_changes
from lintarsia.ground.values import dataclass
from lintarsia.rules.base import Work

Strands = Mapping[Half | None, frozenset[int]]
"""What may hang on the needle, in truth or after a slip: of the whole row under None, or of each side."""


@dataclass(frozen=True, slots=True)
class Miscount:
    """A row, or a side's part of it (at `stitches`), that has another count than the row below leaves.

    `below` is what the row below has and `net` the change that is declared.
    """

    row: RowNumber
    found: int
    below: int
    net: int
    half: Half | None = None
    stitches: tuple[int, int] | None = None


def begin(work: Work) -> Strands:
    """The counts of row 1."""
    opening = work.sides.opening(1)
    return {half: frozenset({_found(work, RowNumber(1), half)}) for half in (Half if opening else (None,))}


def count_on(work: Work, row: RowNumber, strands: Strands) -> tuple[Strands, list[Miscount]]:
    """The counts after a row, and where they are not what the row below leaves."""
    opening = work.sides.opening(row)
    if opening is None:
        net = work.chart.shaping[row].net if row in work.chart.shaping else 0
        return _compared(work, row, {None: _joined(strands)}, {None: (net,)})
    if row == opening.first_row:
        strands = _parted(work, opening)
    return _compared(work, row, strands, _declared(work, row, opening))


def _compared(
    work: Work, row: RowNumber, strands: Strands, nets: Mapping[Half | None, tuple[int, ...]]
) -> tuple[Strands, list[Miscount]]:
    after: dict[Half | None, frozenset[int]] = {}
    slips = []
    for half, before in strands.items():
        found = _found(work, row, half)
        expected = frozenset(count + net for count in before for net in nets[half])
        after[half] = frozenset({found})
        if found not in expected:
            after[half] |= expected
            slips.append(Miscount(row, found, _below(work, row, half), nets[half][0], half, _stitches(work, row, half)))
    return after, slips


def _parted(work: Work, opening: Opening) -> Strands:
    """What the row below a dividing row leaves of each side: its stitches beyond the opening's columns."""
    row = opening.first_row
    return {half: frozenset({_below(work, RowNumber(row), half)}) for half in Half}


def _declared(work: Work, row: RowNumber, opening: Opening) -> Mapping[Half | None, tuple[int, ...]]:
    """The change of each side. In the dividing row what ends at the inner edges lies in the opening's columns, and has
    been left out below. A number with no edge said may be made on either side."""
    changes = row_changes(work.chart, row)
    dividing = row == opening.first_row
    bare = sum(c.net for c in changes if c.edge is None)
    nets: dict[Half | None, tuple[int, ...]] = {}
    for half in Half:
        edges = (half.outer,) if dividing else (half.outer, half.inner)
        net = sum(change.net for change in changes if change.edge in edges)
        nets[half] = (net, net + bare) if bare else (net,)
    return nets


def _joined(strands: Strands) -> frozenset[int]:
    if None in strands:
        return strands[None]
    return frozenset(a + b for a in strands[Half.LEFT] for b in strands[Half.RIGHT])


def _below(work: Work, row: RowNumber, half: Half | None) -> int:
    """What the row below has; beneath a dividing row, beyond the opening's columns."""
    opening = work.sides.opening(row)
    if half is None or opening is None or row > opening.first_row:
        return _found(work, RowNumber(row - 1), half)
    first, end = opening.gap(row)
    line = work.chart.grid.cells[row - 2] >= 0
    return int(line[:first].sum() if half is Half.LEFT else line[end:].sum())


def _found(work: Work, row: RowNumber, half: Half | None) -> int:
    if half is None:
        return work.chart.grid.stitches(row)
    opening = work.sides.opening(row)
    assert opening is not None
    line, split = work.chart.grid.cells[row - 1] >= 0, opening.split(row)
    return int(line[:split].sum() if half is Half.LEFT else line[split:].sum())


def _stitches(work: Work, row: RowNumber, half: Half | None) -> tuple[int, int] | None:
    """The side's stitches, by the knitter's numbers."""
    if half is None:
        return None
    grid, opening = work.chart.grid, work.sides.opening(row)
    assert opening is not None
    first, end = opening.gap(row)
    return (
        (grid.stitch(first - 1), grid.width)
        if half is Half.LEFT and first
        else (1, grid.stitch(min(end, grid.width - 1)))
    )
