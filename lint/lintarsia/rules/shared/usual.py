"""How usual a picture's stitches are, each among its neighbours: what says which of two like rows has slipped."""

from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.neighbours import REACH, Neighbours
from lintarsia.rules.shared.unlikely_rows import table

ABOUT = 6  # rows on either side of a slip, of which the stitches see it


def gained(cells: Cells, undone: Cells, row: int) -> float:
    """By how much stitches become more usual with the slip in `row` (from 0), or in it and the next, undone: a
    logarithm of odds. Both pictures have as many rows, and as many stitches in each."""
    about = slice(max(0, row - ABOUT), row + 2 + ABOUT)
    return _usual(undone[about]) - _usual(cells[about])


def _usual(cells: Cells) -> float:
    known, around = table(), Neighbours(cells)
    return float(known.usual(around, around.tall)[REACH:-REACH].sum()) * known.unit
