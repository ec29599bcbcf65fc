"""What the rules on the plan share: colours, yarn lengths and runs in the knitter's words and places."""

from collections.abc import Sequence
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.result import Region

METRES_PER_YARD = 0.9144


class Stretch(NamedTuple):
    """Neighbouring stitches of a row: the knitter's row and first and last stitch, their text and where it stands."""

    row: int
    stitches: tuple[int, int]
    text: str
    region: Region


def stretch(chart: Chart, row: int, left: int, right: int) -> Stretch:
    """Columns `left` to `right` (inclusive, from 0) of the knitter's row."""
    first, last = chart.grid.stitch(right), chart.grid.stitch(left)
    return Stretch(row, (first, last), chart.grid.text(row, first, last), chart.places.cells(row, first, last))


def colour_words(chart: Chart, symbol: str) -> str:
    """`Dusk blue (B)`; the symbol alone where the key does not name it."""
    colour = chart.colours.get(symbol)
    return f"{colour.name} ({symbol})" if colour and colour.name else symbol


def yarn_words(chart: Chart, metres: float) -> str:
    """`5.42 m`, or `5.93 yd` where the gauge is in inches."""
    if chart.gauge.over.imperial:
        return f"{metres / METRES_PER_YARD:.2f} yd"
    return f"{metres:.2f} m"


def rows_words(word: str, rows: Sequence[int]) -> str:
    """`row 3`, or `rows 3–5`."""
    return f"{word} {rows[0]}" if len(rows) == 1 else f"{word}s {rows[0]}–{rows[-1]}"
