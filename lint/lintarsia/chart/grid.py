"""The map of coloured stitches, as an array and as the designer's text.

Internally row 0 is the knitter's row 1 (the lowest line) and column 0 the leftmost: the one is a RowIndex, the other a
RowNumber, so that nothing takes one for the other. What is promised to rules takes any whole number from 1. Rows of
unequal length are aligned at the right, where stitch 1 is, so that `stitch = width - column` holds for every cell.
"""

import unicodedata
from collections.abc import Sequence
from dataclasses import field
from functools import cached_property
from typing import NewType

import numpy as np
from numpy.typing import NDArray

from lintarsia.ground.values import dataclass

RowNumber = NewType("RowNumber", int)
"""A row as the knitter counts them: 1 is the lowest."""
RowIndex = NewType("RowIndex", int)
"""A row as arrays count them, those of `Grid.cells` and of a plan's runs: 0 is the lowest."""

NO_STITCH = -1
MISSING = -2  # left of a row that is shorter than the longest one
NO_STITCH_SYMBOL = "."


def row_number(index: RowIndex) -> RowNumber:
    """The knitter's number of a row of the arrays."""
    return RowNumber(index + 1)


def row_index(row: RowNumber) -> RowIndex:
    """The place in the arrays of a knitter's row."""
    return RowIndex(row - 1)


def seen_alone(symbol: str) -> bool:
    """Whether a character can be seen by itself: neither control nor space nor a mark that goes over another."""
    return symbol.isprintable() and unicodedata.category(symbol)[0] != "M"


@dataclass(frozen=True, eq=False)
class Grid:
    """`cells` has shape (rows, width), int16: an index into `symbols`, or NO_STITCH, or MISSING.

    `rows` is the text, bottom-up (`rows[0]` is row 1). `symbols` holds the key's symbols in the key's order,
    then any that the grid uses without the key knowing them (`known` is how many the key has).
    """

    rows: tuple[str, ...]
    symbols: tuple[str, ...]
    known: int
    cells: NDArray[np.int16] = field(repr=False)

    @cached_property
    def height(self) -> int:
        return len(self.rows)

    @cached_property
    def width(self) -> int:
        """Stitches of the longest row, no-stitch cells included."""
        return int(self.cells.shape[1])

    @cached_property
    def whole(self) -> bool:
        """Whether every cell has its stitch, as in most charts."""
        return int(self.cells.min()) >= 0

    @property
    def regular(self) -> bool:
        """Whether every row is as long as the others."""
        return all(len(row) == self.width for row in self.rows)

    def stitches(self, row: int) -> int:
        """How many real stitches the knitter's row `row` has."""
        text = self.rows[row - 1]
        return len(text) - text.count(NO_STITCH_SYMBOL)

    def stitch(self, column: int) -> int:
        """The knitter's number of a column."""
        return self.width - column

    def column(self, stitch: int) -> int:
        """The column of a knitter's stitch number."""
        return self.width - stitch

    def text(self, row: int, first: int, last: int) -> str:
        """The symbols of stitches `first` to `last` of a row, as printed (left to right)."""
        line = self.rows[row - 1]
        return line[max(0, len(line) - last) : len(line) - first + 1]


def build_grid(rows: Sequence[str], key: Sequence[str]) -> Grid:
    """A grid from its rows, bottom-up, and the key's symbols. Rows may differ in length; unknown symbols are kept."""
    width = max(map(len, rows))
    rows = tuple(rows)
    joined = "".join(rows)
    unknown = set(joined).difference(key, NO_STITCH_SYMBOL)
    symbols = (*key, *(s for s in dict.fromkeys(joined) if s in unknown)) if unknown else tuple(key)
    if len(joined) < width * len(rows):
        joined = "".join(row.rjust(width, "\0") for row in rows)
    cells = _look_up(joined, symbols).reshape(len(rows), width)
    cells.setflags(write=False)
    return Grid(rows, symbols, len(key), cells)


def _look_up(text: str, symbols: Sequence[str]) -> NDArray[np.int16]:
    if text.isascii() and len(symbols) <= 128:  # nearly every chart: one pass over bytes, five times as fast
        codes = bytearray(256)
        codes[0], codes[ord(NO_STITCH_SYMBOL)] = MISSING & 0xFF, NO_STITCH & 0xFF
        for index, symbol in enumerate(symbols):
            if symbol.isascii():
                codes[ord(symbol)] = index
        return np.frombuffer(text.encode("ascii").translate(codes), np.int8).astype(np.int16)
    table = {0: MISSING, ord(NO_STITCH_SYMBOL): NO_STITCH}
    table.update({ord(s): i for i, s in enumerate(symbols)})
    points, inverse = np.unique(np.frombuffer(text.encode("utf-32-le"), np.uint32), return_inverse=True)
    return np.array([table[int(p)] for p in points], np.int16)[inverse]
