"""The outline of a piece that has its shaping by size: which stitches of every row there are, from the cast-on up."""

from collections.abc import Mapping

from lintarsia.chart import Shaping
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.ground.values import dataclass


@dataclass(frozen=True, slots=True)
class Outline:
    """Of every row, bottom-up, the first column and the one behind its last stitch, counted from the left of the
    cast-on; below 0 and beyond the cast-on where stitches were added."""

    rows: tuple[tuple[int, int], ...]
    cast_on: int

    @property
    def left(self) -> int:
        """Columns that the piece reaches beyond the cast-on at its left."""
        return max(0, -min(first for first, _ in self.rows))

    @property
    def right(self) -> int:
        return max(0, max(end for _, end in self.rows) - self.cast_on)

    def cut(self, rows: list[str]) -> list[str]:
        """The rows of the whole width without the stitches that are not there."""
        return [self._cut(row, *ends) for row, ends in zip(rows, self.rows, strict=True)]

    def _cut(self, row: str, first: int, end: int) -> str:
        here = row[first + self.left : end + self.left]
        return NO_STITCH_SYMBOL * (first + self.left) + here + NO_STITCH_SYMBOL * (len(row) - end - self.left)


def outline_of(shaping: Mapping[int, Shaping], cast_on: int, height: int) -> Outline:
    """The outline that changes at the left and the right edge make. A row that they leave without stitches stays so."""
    first, end, rows = 0, cast_on, []
    for row in range(1, height + 1):
        made = shaping.get(row)
        if made is not None:
            first, end = first - (made.left or 0), end + (made.right or 0)
        rows.append((first, max(first, end)))
    return Outline(tuple(rows), cast_on)
