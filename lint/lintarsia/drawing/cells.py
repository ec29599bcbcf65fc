"""The cells of the flat chart: in each row one path and one line of symbols a colour."""

import unicodedata
from collections.abc import Collection, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL, Grid
from lintarsia.chart.sides import Half, Sides
from lintarsia.drawing.geometry import CELL, Geometry
from lintarsia.drawing.rowparts import RowPart, parts_of_text, rows_in_parts
from lintarsia.drawing.sewn import ASIDE, draw_sewn, sewn_rows
from lintarsia.drawing.shades import NO_STITCH, UNKNOWN, ink_on
from lintarsia.drawing.svg import escape, num

UNKNOWN_INK = "#a3001f"


def shade_of(chart: Chart, symbol: str) -> str:
    """The shade of a symbol; white for one that the key lacks."""
    colour = chart.colours.get(symbol)
    return colour.shade if colour else UNKNOWN


@lru_cache(maxsize=1024)
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


class CellLook(NamedTuple):
    """How the elements of a symbol's cells and of its letters begin; the letter itself, escaped; whether many of it can
    be `together` in one element."""

    cells: str
    letters: str
    letter: str
    together: bool


class CellPainter:
    """Paints the rows of one chart. Equal rows are worked out once, which most charts gain from."""

    def __init__(self, chart: Chart, place: Geometry, *, symbols: bool = True) -> None:
        self.chart = chart
        self.place = place
        self.symbols = symbols
        size = min(place.cell_w * 0.5, place.cell_h * 0.66)
        self.size = size
        self.font_size = num(size)
        self.stroke = num(place.cell_h)
        below = round(size * 0.355, 2)  # of the row's middle: letters that stand there seem to be in the middle
        self.baseline = round(place.cell_h / 2, 2) + below
        self._middle = num(-below)
        self._looks: dict[str, CellLook] = {}
        self._done: dict[str, str] = {}
        self._sewn = sewn_rows(chart) if symbols else {}
        openings = Sides(chart).openings if chart.divide else ()
        self._splits = {row: o.split(row) for o in openings for row in range(o.first_row, o.last_row + 1)}

    def row(self, row: int) -> str:
        """The cells of a knitter's row, with the left edge of column 0 at x = 0 and the letters' feet at y = 0.

        That is `baseline` below the row's upper edge. Cells are lines: what is around them states `stroke` as their
        width.
        """
        sewn = self._sewn.get(row)
        over = draw_sewn(self.chart, self.place, sewn, -self.baseline, self.size) if sewn else ""
        text = self.chart.grid.rows[row - 1]
        if row in self._splits:
            return self._in_halves(text, self._splits[row], sewn) + over
        if sewn:
            return self._paint(rows_in_parts(self.chart.grid)[row - 1], sewn) + over
        if text not in self._done:
            self._done[text] = self._paint(rows_in_parts(self.chart.grid)[row - 1])
        return self._done[text]

    def _in_halves(self, text: str, split: int, sewn: Mapping[int, str] | None) -> str:
        """A parted row, each side of the opening in a group of its own."""
        offset = self.chart.grid.width - len(text)
        at = max(0, split - offset)
        left, right = parts_of_text(text[:at], offset), parts_of_text(text[at:], max(split, offset))
        return "".join(
            f'<g class="lx-half" data-half="{half}">{self._paint(parts, sewn)}</g>'
            for half, parts in ((Half.LEFT, left), (Half.RIGHT, right))
        )

    def _paint(self, parts: Sequence[RowPart], sewn: Mapping[int, str] | None = None) -> str:
        """Cells and letters; those of stitches that are `sewn` over make way for the letters of the embroidery."""
        drawn = []
        for part in parts:
            symbol = part.symbol
            if symbol == NO_STITCH_SYMBOL:
                continue
            look = self._looks.get(symbol) or self._look(symbol)
            drawn.append(f'{look.cells}M{part.left}{self._middle}{part.line}"/>')
            middles = _aside(part.middles, sewn) if sewn else part.middles
            if self.symbols and look.together:
                drawn.append(f'{look.letters}{middles}">{look.letter * part.cells}</text>')
            elif self.symbols:
                drawn += [f'{look.letters}{x}">{look.letter}</text>' for x in middles.split()]
        return "".join(drawn)

    def _look(self, symbol: str) -> CellLook:
        shade, known = shade_of(self.chart, symbol), symbol in self.chart.colours
        look = f'fill="{ink_on(shade)}"' if known else f'class="lx-unknown" fill="{UNKNOWN_INK}"'
        begin = f'<path stroke="{shade}" d="', f'<text {look} x="'
        self._looks[symbol] = CellLook(*begin, escape(symbol), plain(symbol))
        return self._looks[symbol]


def draw_whole(chart: Chart, place: Geometry) -> str:
    """The cells of all rows without symbols, one path a colour, and what is embroidered over them: for a chart so large
    that a path for each row and colour would be most of its page. Has no groups of rows."""
    paths: dict[str, list[str]] = {}
    for row, parts in enumerate(rows_in_parts(chart.grid), 1):
        middle = num(place.middle(row))
        for part in parts:
            if part.symbol != NO_STITCH_SYMBOL:
                paths.setdefault(part.symbol, []).append(f"M{num(place.left + part.left)} {middle}{part.line}")
    drawn = [f'<path stroke="{shade_of(chart, symbol)}" d="{"".join(path)}"/>' for symbol, path in paths.items()]
    size = min(place.cell_w * 0.5, place.cell_h * 0.66)
    for row, sewn in sewn_rows(chart).items():
        at = f'transform="translate({num(place.left)} {num(place.y(row))})"'
        drawn.append(f"<g {at}>{draw_sewn(chart, place, sewn, 0, size)}</g>")
    return "".join(drawn)


def draw_no_stitch(grid: Grid, place: Geometry) -> str:
    """Grey squares without a letter where there is no stitch, as printed charts have them (common practice).

    There is no fabric here, and nothing was forgotten. A stroke would be a decrease to those who read such charts. They
    are drawn apart from the rows, for they belong to no row that is worked.
    """
    lines = []
    for row, parts in enumerate(rows_in_parts(grid), 1):
        lines += [
            f"M{num(place.left + part.left)} {num(place.middle(row))}{part.line}"
            for part in parts
            if part.symbol == NO_STITCH_SYMBOL
        ]
    if not lines:
        return ""
    thick = num(place.cell_h + 0.4)  # no line hides the seam between two grey squares
    return f'<path class="lx-no-stitch" fill="none" stroke="{NO_STITCH}" stroke-width="{thick}" d="{"".join(lines)}"/>'


def _aside(middles: str, columns: Collection[int]) -> str:
    """The middles of cells, those of some columns moved to the left."""
    moved = [int(x) - (ASIDE * CELL if int(x) // CELL in columns else 0) for x in middles.split()]
    return " ".join(map(num, moved))


def used_symbols(chart: Chart) -> list[str]:
    """Symbols that the key lists or the grid uses, in the key's order."""
    return list(dict.fromkeys([*chart.colours, *(s for s in chart.grid.symbols if s != NO_STITCH_SYMBOL)]))
