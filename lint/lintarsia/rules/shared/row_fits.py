"""How well a row fits between its neighbours, as it stands and with a slip in it undone."""

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from lintarsia.ground.values import dataclass
from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.suspect_rows import NEAR, RowLanes, Suspect, unsupported

Change = tuple[int, Sequence[int]]  # a row, from 0, and what stands from there up once a slip is undone, in lanes
Blurred = NDArray[np.float64]  # (rows, colours and stitches): how much of each colour is about each place, in ninths

# Fitted by benchmarks/row_slips.py, which prints them.
WEIGHTS = {"bend": 1.91, "step": 1.37, "own": 1.61, "around": -0.08, "before": 0.09, "busy": -3.02, "base": -0.94}
FACTS = ("bend", "step", "own", "around", "before", "busy")


@dataclass(frozen=True, slots=True)
class RowFit:
    """How a row fits as it is and as it would be, as the logarithms that WEIGHTS are for."""

    bend: float
    step: float
    own: float
    around: float
    before: float
    busy: float

    @property
    def score(self) -> float:
        score: float = WEIGHTS["base"] + sum(WEIGHTS[name] * getattr(self, name) for name in FACTS)
        return score


def row_fits(rows: RowLanes, chosen: Sequence[Suspect]) -> Iterator[RowFit]:
    """One for each change of a row that is `chosen`, in their order."""
    if not chosen:
        return
    changes = [(suspect.row, rows.undone(suspect)) for suspect in chosen]
    edges, busy = _Edges(rows, changes), 10 * rows.busy
    for number, (row, made) in enumerate(changes):
        bend, step = edges.straightened(number)
        yield RowFit(bend, step, *_stitches(rows, row, made), busy)


def _stitches(rows: RowLanes, row: int, made: Sequence[int]) -> tuple[float, float, float]:
    """The facts `own`, `around` and `before`: of the unsupported stitches in the rows that change, and beside them."""
    end = row + len(made)
    low, first = max(0, row - 2), max(0, row - 1)
    odd = unsupported(rows.lanes.steps([*rows.rows[low:row], *made, *rows.rows[end : end + 2]]))
    before = sum(rows.odd[first : end + 1])
    own = _ratio(sum(rows.odd[row:end]), sum(odd[row - low : end - low]))
    return own, _ratio(before, sum(odd[first - low : end + 1 - low])), math.log1p(before)


class _Edges:
    """The edges around some changes, each rows from a `row` on that are made otherwise, before and after."""

    def __init__(self, rows: RowLanes, changes: Sequence[Change]) -> None:
        windows = [range(max(0, row - NEAR), min(rows.last, row + NEAR + 1) + 1) for row, _ in changes]
        near = sorted({row for window in windows for row in window})
        at = {row: index for index, row in enumerate(near)}
        seen = [rows.rows[row] for row in near]
        self._before, self._after = [], []
        for (row, made), window in zip(changes, windows, strict=True):
            first, changed, end = at[window[0]], at[row], at[window[-1]] + 1
            after = [*range(first, changed), *range(len(seen), len(seen) + len(made)), *range(changed + len(made), end)]
            self._before.append(range(first, end))
            self._after.append(after)
            seen += made
        self._apart = _apart(rows.lanes.cells(seen))

    def straightened(self, number: int) -> tuple[float, float]:
        """The facts `bend` and `step` of a change."""
        bend, step = self._jags(self._before[number])
        less_bend, less_step = self._jags(self._after[number])
        return _ratio(bend, less_bend), _ratio(step, less_step)

    def _jags(self, window: Sequence[int]) -> tuple[float, float]:
        """How much edges bend from row to row, and how much they move: the squares of second and first differences."""
        apart = self._apart
        steps = [apart[low][high] for low, high in pairwise(window)]
        # A bend is the difference of two steps; the square of a - b is 2 aa + 2 bb less that of a + b.
        twice = sum(apart[low][high] for low, high in zip(window, window[2:], strict=False))
        return (4 * sum(steps) - 2 * (steps[0] + steps[-1]) - twice) / 81, sum(steps) / 81


def _apart(cells: Cells) -> list[list[float]]:
    """How far each row is from each, in squares of ninths over all colours and stitches."""
    blurred = _blurred(cells)
    product = blurred @ blurred.T
    own = product.diagonal()
    apart: list[list[float]] = (own[:, None] + own - 2 * product).tolist()
    return apart


def _blurred(cells: Cells) -> Blurred:
    """An edge moved by two stitches is to cost more than two moved by one: each place takes 3/9 from itself, 2/9 from
    those beside it and 1/9 from the next, which is the mean of three taken twice."""
    wide = cells[:, _columns(cells.shape[1])]
    codes = np.bincount(cells.ravel()).nonzero()[0]
    spread = (wide[:, None] == codes[:, None]).view(np.int8)
    for _ in range(2):
        spread = spread[..., :-2] + spread[..., 1:-1] + spread[..., 2:]
    blurred: Blurred = spread.reshape(len(cells), -1).astype(np.float64)
    return blurred


@lru_cache(64)
def _columns(width: int) -> NDArray[np.int64]:
    """Those of a row whose end stitches are repeated twice."""
    return np.clip(np.arange(-2, width + 2), 0, width - 1)


def _ratio(before: float, after: float) -> float:
    return math.log((before + 0.5) / (after + 0.5))
