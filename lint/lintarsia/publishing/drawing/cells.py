"""The cells of the flat chart: one group a row, one path and one line of symbols a colour in it."""

import re
import unicodedata
from functools import lru_cache

from lintarsia.chart import Chart
from lintarsia.grid import NO_STITCH_SYMBOL
from lintarsia.publishing.drawing.geometry import Geometry
from lintarsia.publishing.drawing.shades import UNKNOWN, ink_on
from lintarsia.publishing.drawing.svg import escape, num

_RUN = re.compile(r"(.)\1*", re.DOTALL)
UNKNOWN_INK = "#a3001f"


def shade_of(chart: Chart, symbol: str) -> str:
    """The shade of a symbol; white for one that the key lacks."""
    colour = chart.colours.get(symbol)
    return colour.shade if colour else UNKNOWN


def stretches(chart: Chart, row: int) -> tuple[tuple[str, int, int], ...]:
    """(symbol, first column, number of cells) of each stretch of equal cells in a row, no-stitch cells included."""
    text = chart.grid.rows[row - 1]
    return stretches_of_text(text, chart.grid.width - len(text))


@lru_cache(maxsize=256)  # every picture of a chart asks for the same rows
def stretches_of_text(text: str, offset: int) -> tuple[tuple[str, int, int], ...]:
    """The same for a row's text that begins `offset` columns from the left."""
    found = []
    for match in _RUN.finditer(text):
        first, end = match.span()
        found.append((text[first], offset + first, end - first))
    return tuple(found)


def plain(symbol: str) -> bool:
    """Whether many of this symbol can share one text element, each with its own x.

    Letters that join or combine, or are written right to left, or lie beyond the basic plane are counted and placed
    differently by different renderers; they get an element each.
    """
    return (
        symbol < "\uffff"
        and unicodedata.bidirectional(symbol) in ("L", "EN", "ES", "ET", "CS", "ON")
        and unicodedata.category(symbol)[0] in "LNPS"
        and unicodedata.category(symbol) != "Lm"
    )


class CellPainter:
    """Paints the rows of one chart. Equal rows are worked out once and shifted, which most charts gain from."""

    def __init__(self, chart: Chart, place: Geometry, *, symbols: bool = True) -> None:
        self.chart = chart
        self.place = place
        self.symbols = symbols
        self.font_size = num(min(place.cell_w * 0.5, place.cell_h * 0.66))
        self._baseline = num(place.cell_h / 2 + min(place.cell_w * 0.5, place.cell_h * 0.66) * 0.355)
        self._edges = [num(place.x(c)) for c in range(place.columns + 1)]
        self._middles = [num(place.x(c + 0.5)) for c in range(place.columns)]
        self._done: dict[str, str] = {}

    def row(self, row: int) -> str:
        """The cells of a knitter's row, drawn with the row's upper edge at y = 0."""
        text = self.chart.grid.rows[row - 1]
        if text not in self._done:
            self._done[text] = self._paint(row)
        return self._done[text]

    def _paint(self, row: int) -> str:
        edges, high = self._edges, num(self.place.cell_h)
        columns: dict[str, list[int]] = {}
        paths: dict[str, list[str]] = {}
        for symbol, first, count in stretches(self.chart, row):
            paths.setdefault(symbol, []).append(f"M{edges[first]} 0H{edges[first + count]}v{high}H{edges[first]}z")
            columns.setdefault(symbol, []).extend(range(first, first + count))
        parts = []
        for symbol, path in paths.items():
            if symbol == NO_STITCH_SYMBOL:
                parts.append(self._no_stitch(columns[symbol]))
                continue
            shade = shade_of(self.chart, symbol)
            parts.append(f'<path fill="{shade}" d="{"".join(path)}"/>')
            if self.symbols:
                parts.append(self._letters(symbol, shade, columns[symbol]))
        return "".join(parts)

    def _no_stitch(self, columns: list[int]) -> str:
        """A short slanted stroke in an empty cell: there is no fabric here, and nothing was forgotten."""
        wide, high = self.place.cell_w, self.place.cell_h
        step = f"l{num(wide * 0.3)} {num(-high * 0.36)}"
        strokes = "".join(f"M{num(self.place.x(c) + wide * 0.35)} {num(high * 0.68)}{step}" for c in columns)
        return f'<path class="lx-no-stitch" fill="none" stroke="#a89f92" stroke-width="1" d="{strokes}"/>'

    def _letters(self, symbol: str, shade: str, columns: list[int]) -> str:
        known = symbol in self.chart.colours
        ink = ink_on(shade) if known else UNKNOWN_INK
        safe, base = escape(symbol), self._baseline
        kind = "lx-symbol" if known else "lx-symbol lx-unknown"
        if plain(symbol):
            at = " ".join([self._middles[c] for c in columns])
            return f'<text class="{kind}" fill="{ink}" x="{at}" y="{base}">{safe * len(columns)}</text>'
        return "".join(
            f'<text class="{kind}" fill="{ink}" x="{self._middles[c]}" y="{base}">{safe}</text>' for c in columns
        )


def used_symbols(chart: Chart) -> list[str]:
    """Symbols that the key lists or the grid uses, in the key's order."""
    return list(dict.fromkeys([*chart.colours, *(s for s in chart.grid.symbols if s != NO_STITCH_SYMBOL)]))
