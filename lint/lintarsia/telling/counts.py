"""Words that several rules share: counts, lists and lengths as a knitter says them."""

from collections.abc import Sequence

from lintarsia.chart import Chart, Worked
from lintarsia.chart.measure import MM_PER


def count(number: int, one: str, many: str = "") -> str:
    """`1 stitch`, `2 stitches`, `3 decreases`."""
    if number == 1:
        return f"1 {one}"
    return f"{number} {many or one + ('es' if one.endswith('ch') else 's')}"


def stitch_count(number: int) -> str:
    return count(number, "stitch")


def one_and_all(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def row_word(chart: Chart) -> str:
    """`row`, or `round` where the chart is worked in rounds."""
    return "round" if chart.worked is Worked.ROUND else "row"


def length_in(chart: Chart, mm: float) -> str:
    """A length in the unit the chart's own gauge is in: centimetres, or inches where that is in inches or yards."""
    unit = "in" if chart.gauge.over.imperial else "cm"
    return f"{f'{mm / MM_PER[unit]:.1f}'.removesuffix('.0')} {unit}"


def colour_name(chart: Chart, symbol: str) -> str:
    """`Dusk blue (B)`; the symbol alone where the key does not have it or calls it just that."""
    colour = chart.colours.get(symbol)
    return f"{colour.name} ({symbol})" if colour and colour.name != symbol else symbol
