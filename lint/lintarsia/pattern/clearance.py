"""How far a motif stays from the edges of the piece that it lies on, and whether shaping cuts it."""

from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.ground.values import dataclass
from lintarsia.pattern.laying import Laid
from lintarsia.pattern.weave import PLAIN


@dataclass(frozen=True, slots=True)
class Clearance:
    """`cut` stitches of the motif lie outside the piece, the first in row `cut_row`. The nearest that stands is
    `nearest_mm` from the edge of its own row, or from the first or last row, in `row`."""

    cut: int
    cut_row: int
    nearest_mm: float
    row: int


def clearance_of(laid: Laid, plain: str) -> Clearance | None:
    """That of the chart's stitches in other colours than `plain`; None where there are none."""
    gauge, height = laid.chart.gauge, laid.chart.grid.height
    cut: list[int] = []
    nearest: list[tuple[float, int]] = []
    for row in range(1, height + 1):
        drawn, here = _motif(laid, row, plain), laid.chart.grid.rows[row - 1]
        stand = [column for column in drawn if here[column] != NO_STITCH_SYMBOL]
        cut += [row] * (len(drawn) - len(stand))
        if stand:
            left = len(here) - len(here.lstrip(NO_STITCH_SYMBOL))
            right = len(here.rstrip(NO_STITCH_SYMBOL))
            aside = min(min(stand) - left, right - 1 - max(stand)) * gauge.stitch_mm
            nearest.append((min(aside, (row - 1) * gauge.row_mm, (height - row) * gauge.row_mm), row))
    if not cut and not nearest:
        return None
    near, row = min(nearest, default=(0.0, cut[0] if cut else 0))
    return Clearance(len(cut), cut[0] if cut else 0, near, row)


def _motif(laid: Laid, row: int, plain: str) -> list[int]:
    """The columns of a row where the chart has the motif, whether the piece has stitches there or not."""
    source = laid.weave.rows[row - 1]
    if source == PLAIN:
        return []
    text = laid.source.grid.rows[source]
    return [
        at
        for at, column in enumerate(laid.weave.columns)
        if column != PLAIN
        and 0 <= column - (laid.source.grid.width - len(text)) < len(text)
        and text[column - (laid.source.grid.width - len(text))] not in (plain, NO_STITCH_SYMBOL)
    ]
