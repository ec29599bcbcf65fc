"""How far a motif stays from the edges of the piece that it lies on, and whether shaping cuts it."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Begins, Ends
from lintarsia.chart.grid import NO_STITCH_SYMBOL, RowNumber
from lintarsia.ground.values import dataclass
from lintarsia.pattern.laying import Laid
from lintarsia.pattern.weave import PLAIN

FAR = 10**6  # stitches or rows: no edge at all
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Clearance:
    """`cut` stitches of the motif lie outside the piece, the first in row `cut_row`. The nearest that stands is
    `nearest_mm` from an edge (a side, an armhole, an opening, the first or last row), in `row`."""

    cut: int
    cut_row: int
    nearest_mm: float
    row: RowNumber


def clearance_of(laid: Laid, plain: str) -> Clearance | None:
    """That of the chart's stitches in other colours than `plain`; None where there are none. Where the piece goes on
    from another, or another from it, there is no edge."""
    chart, motif = laid.chart, _motif(laid, plain)
    real = chart.grid.cells >= 0
    cut, stand = motif & ~real, motif & real
    if not motif.any():
        return None
    cut_rows = np.flatnonzero(cut.any(axis=1))
    cut_row = int(cut_rows[0]) + 1 if len(cut_rows) else 0
    if not stand.any():
        return Clearance(int(cut.sum()), cut_row, 0.0, RowNumber(cut_row))
    away = np.where(stand, _away_mm(laid, real), np.inf)
    row = int(np.unravel_index(int(away.argmin()), away.shape)[0]) + 1
    return Clearance(int(cut.sum()), cut_row, float(away.min()), RowNumber(row))


def _away_mm(laid: Laid, real: Flags) -> NDArray[np.float64]:
    """Of every stitch, what lies between it and the nearest edge of its row and of its column."""
    gauge = laid.chart.gauge
    begun = FAR if laid.chart.begins is Begins.ON_NEEDLE else 0
    ended = FAR if laid.chart.ends is Ends.LIVE else 0
    aside = np.minimum(_run(real.T, 0).T, _run(real.T[::-1], 0)[::-1].T) * gauge.stitch_mm
    along = np.minimum(_run(real, begun), _run(real[::-1], ended)[::-1]) * gauge.row_mm
    return np.minimum(aside, along)


def _run(real: Flags, before: int) -> NDArray[np.int64]:
    """How many stitches stand one after another before each, along the first axis; `before` are there at its start."""
    found = np.zeros(real.shape, np.int64)
    run = np.full(real.shape[1], before, np.int64)
    for at, line in enumerate(real):
        found[at] = run
        run = np.where(line, run + 1, 0)
    return found


def _motif(laid: Laid, plain: str) -> Flags:
    """Where the chart has the motif, whether the piece has stitches there or not; shape (rows, columns)."""
    weave, grid = laid.weave, laid.source.grid
    drawn = np.zeros((grid.height, grid.width), bool)
    for row, text in enumerate(grid.rows):
        full = text.rjust(grid.width, NO_STITCH_SYMBOL)
        drawn[row] = [symbol not in (plain, NO_STITCH_SYMBOL) for symbol in full]
    rows, columns = np.array(weave.rows), np.array(weave.columns)
    woven: Flags = drawn[rows][:, columns]
    woven[rows == PLAIN] = False
    woven[:, columns == PLAIN] = False
    return woven
