"""How rows fit is counted and weighed on whole rows at once; here it is worked out by stitches, as it is defined."""

import math
import random
from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from lintarsia.rules.shared import slips
from lintarsia.rules.shared.lanes import lanes_of
from lintarsia.rules.shared.row_fits import RowFit
from lintarsia.rules.shared.slips import Slip, candidates, moved

Cells = NDArray[np.int16]
BLUR = (1, 2, 3, 2, 1)


def picture(seed: int) -> Cells:
    """A leaning block, a smaller one of another colour, and one row that has slipped."""
    rng = random.Random(seed)
    cells = np.zeros((rng.randint(8, 17), rng.randint(11, 26)), np.int16)
    for colour in (1, 2):
        left, width = rng.randrange(6), rng.randint(3, 6)
        for row in range(rng.randrange(3), len(cells) - rng.randrange(2)):
            left = max(0, left + rng.choice((-1, 0, 0, 1)))
            cells[row, left : left + width] = colour
    row = rng.randrange(len(cells))
    cells[row] = rng.choice((moved(cells[row], rng.choice((-2, -1, 1, 2))), cells[row][::-1]))
    return cells


def undone(cells: Cells, slip: Slip) -> Cells:
    made, at = cells.copy(), slip.row - 1
    if slip.kind == "swapped":
        made[[at, at + 1]] = cells[[at + 1, at]]
    else:
        made[at] = cells[at][::-1] if slip.kind == "mirrored" else moved(cells[at], -slip.by)
    return made


def edges(cells: Cells, low: int, high: int) -> tuple[float, float]:
    """The squares of what each stitch's colours, blurred, differ from those below, and of how that changes."""
    width = cells.shape[1]

    def there(row: int, stitch: int, colour: int) -> float:
        beside = (min(max(stitch + way, 0), width - 1) for way in range(-2, 3))
        return sum(share for share, at in zip(BLUR, beside, strict=True) if cells[row, at] == colour) / 9

    bend = step = 0.0
    for colour in range(3):
        for stitch in range(width):
            column = [there(row, stitch, colour) for row in range(low, high)]
            steps = [above - below for below, above in pairwise(column)]
            step += sum(one**2 for one in steps)
            bend += sum((above - below) ** 2 for below, above in pairwise(steps))
    return bend, step


def unsupported(cells: Cells, row: int) -> int:
    beside = [cells[at] for at in (row - 1, row + 1) if 0 <= at < len(cells)]
    return sum(all(other[i] != cells[row, i] for other in beside) for i in range(cells.shape[1]))


def ratio(before: float, after: float) -> float:
    return math.log((before + 0.5) / (after + 0.5))


def by_stitches(cells: Cells, slip: Slip) -> tuple[float, ...]:
    made, at = undone(cells, slip), slip.row - 1
    end = at + (2 if slip.kind == "swapped" else 1)
    low, high = max(0, at - 3), min(len(cells), at + 5)
    (bend, step), (less_bend, less_step) = edges(cells, low, high), edges(made, low, high)
    around = range(max(0, at - 1), min(len(cells), end + 1))
    own, left = (sum(unsupported(one, row) for row in range(at, end)) for one in (cells, made))
    before, after = (sum(unsupported(one, row) for row in around) for one in (cells, made))
    return ratio(bend, less_bend), ratio(step, less_step), ratio(own, left), ratio(before, after), math.log1p(before)


def told(fit: RowFit) -> tuple[float, ...]:
    return fit.bend, fit.step, fit.own, fit.around, fit.before


@pytest.mark.parametrize("kind", ["shifted", "mirrored", "swapped"])
def test_a_change_is_weighed_as_it_is_defined_stitch_by_stitch(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(slips, "BUSIEST", 1.0)
    seen = [
        (cells, slip, fit)
        for cells in map(picture, range(60))
        for slip, fit in candidates(cells, -50.0, 99)
        if slip.kind == kind
    ]
    assert len(seen) >= 10
    assert any(slip.row == 1 for _, slip, _ in seen)
    for cells, slip, fit in seen[:30]:
        assert told(fit) == pytest.approx(by_stitches(cells, slip))


@pytest.mark.parametrize("colours", [2, 3, 2**15 - 1])
def test_rows_in_lanes_are_what_the_grid_has(colours: int) -> None:
    rng = np.random.default_rng(colours)
    cells = rng.integers(0, colours, (3, 17)).astype(np.int16)
    cells[1, :9], cells[2, 3] = cells[0, :9], colours - 1
    lanes = lanes_of(17)
    rows = lanes.rows(cells)
    assert np.array_equal(lanes.cells(rows), cells)
    assert [one.bit_count() for one in lanes.steps(rows)] == (cells[1:] != cells[:-1]).sum(axis=1).tolist()
    for by in (-2, -1, 1, 2):
        assert lanes.moved(rows[0], by) == lanes.rows(moved(cells[0], by)[None])[0]
