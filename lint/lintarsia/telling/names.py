"""What rows, rounds and colours are called."""

from collections.abc import Sequence

from lintarsia.chart import Chart, Worked
from lintarsia.telling.languages import marked, phrase
from lintarsia.telling.spans import span


def row_word(chart: Chart) -> str:
    """`row`, or `round` where the chart is worked in rounds."""
    return "round" if chart.worked is Worked.ROUND else "row"


def half_words(half: str) -> str:
    """`left-hand side`, `right-hand side`, of the chart as it is printed."""
    return phrase(f"{half}-hand side")


HALVES = marked("left-hand side", "right-hand side")


def rows_words(word: str, rows: Sequence[int]) -> str:
    """`row 3`, or `rows 3–5` for rows that follow each other."""
    return f"{phrase(word + 's' * (len(rows) > 1))} {span(rows[0], rows[-1])}"


def colour_name(chart: Chart, symbol: str) -> str:
    """`Dusk blue`: the key's name of a symbol; or the symbol and that the key lacks it."""
    colour = chart.colours.get(symbol)
    return colour.name if colour else phrase("“{symbol}”, not in the key", symbol=symbol)


def colour_and_symbol(chart: Chart, symbol: str) -> str:
    """`Dusk blue (B)`; the symbol alone where the key does not have it or calls it just that."""
    colour = chart.colours.get(symbol)
    return f"{colour.name} ({symbol})" if colour and colour.name not in ("", symbol) else symbol
