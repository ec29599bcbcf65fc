"""Rows as whole numbers, a lane of 16 bits for each stitch, so that rows are set against each other in one go.

Arrays as small as most charts cost what their calls cost; a row of 50 stitches compared as a number takes a tenth.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Cells = NDArray[np.int16]  # (rows, stitches): row 0 is the knitter's row 1, column 0 the leftmost stitch
BITS = 16  # a lane; codes of colours take 15 of them, the highest says whether two rows differ there


class Lanes:
    """How rows of `width` stitches stand in numbers: the leftmost stitch in the lowest lane."""

    def __init__(self, width: int) -> None:
        self.width = width
        self._each = sum(1 << BITS * lane for lane in range(width))
        self._all = self._each * ((1 << BITS) - 1)
        self.high = self._each << BITS - 1
        self.low = self.high - self._each

    def rows(self, cells: Cells) -> list[int]:
        """The rows of a grid without squares that have no stitch."""
        return self._numbers(cells.astype("<i2"), "little")

    def turned(self, cells: Cells) -> list[int]:
        """The rows the other way round."""
        return self._numbers(cells.astype(">i2"), "big")

    def _numbers(self, cells: NDArray[np.int16], order: Literal["little", "big"]) -> list[int]:
        data, step = cells.tobytes(), self.width * BITS // 8
        return [int.from_bytes(data[at : at + step], order) for at in range(0, len(data), step)]

    def steps(self, rows: Sequence[int], apart: int = 1) -> list[int]:
        """Where each row is unlike the next, or the one so many rows further up, as far as there is one: a bit for each
        stitch that differs, so that `bit_count` counts them."""
        low, high = self.low, self.high
        return [((a ^ b) + low) & high for a, b in zip(rows, rows[apart:], strict=False)]

    def moved(self, row: int, by: int) -> int:
        """A row moved `by` stitches to the right (to the left where it is below 0), its end stitch repeated."""
        if by > 0:
            end, gap = row & (1 << BITS) - 1, (1 << BITS * by) - 1
            return (row << BITS * by) & self._all | end * (self._each & gap)
        last = BITS * (self.width - 1)
        return row >> BITS * -by | (row >> last) * (self._each >> BITS * -by ^ self._each)


@lru_cache(64)
def lanes_of(width: int) -> Lanes:
    return Lanes(width)
