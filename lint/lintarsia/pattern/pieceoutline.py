"""The outline of a piece that has its shaping by size: which stitches of every row there are, from the cast-on up."""

from collections.abc import Mapping
from dataclasses import field, replace

from lintarsia.chart import Divide, Shaping
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.shaping import Order, Parting
from lintarsia.ground.values import dataclass
from lintarsia.pattern.model import Parted

Columns = tuple[int, int]  # (first, last + 1)


@dataclass(frozen=True, slots=True)
class Outline:
    """Of every row, bottom-up, the first column and the one behind its last stitch, counted from the left of the
    cast-on; below 0 and beyond the cast-on where stitches were added. `gaps` are the openings within, by row."""

    rows: tuple[Columns, ...]
    cast_on: int
    gaps: Mapping[int, Columns] = field(default_factory=dict)

    @property
    def left(self) -> int:
        """Columns that the piece reaches beyond the cast-on at its left."""
        return max(0, -min(first for first, _ in self.rows))

    @property
    def right(self) -> int:
        return max(0, max(end for _, end in self.rows) - self.cast_on)

    @property
    def width(self) -> int:
        """Columns of the whole piece."""
        return self.left + self.cast_on + self.right

    @property
    def mirrored(self) -> "Outline":
        """The outline in a mirror."""
        return Outline(
            tuple((self.cast_on - end, self.cast_on - first) for first, end in self.rows),
            self.cast_on,
            {row: (self.cast_on - end, self.cast_on - first) for row, (first, end) in self.gaps.items()},
        )

    def cut(self, rows: list[str]) -> list[str]:
        """The rows of the whole width without the stitches that are not there."""
        cut = [self._cut(row, *ends) for row, ends in zip(rows, self.rows, strict=True)]
        for row, (first, end) in self.gaps.items():
            text, first, end = cut[row - 1], first + self.left, end + self.left
            cut[row - 1] = text[:first] + NO_STITCH_SYMBOL * (end - first) + text[end:]
        return cut

    def _cut(self, row: str, first: int, end: int) -> str:
        here = row[first + self.left : end + self.left]
        return NO_STITCH_SYMBOL * (first + self.left) + here + NO_STITCH_SYMBOL * (len(row) - end - self.left)


def outline_of(
    shaping: Mapping[int, Shaping], cast_on: int, height: int, divide: Mapping[int, Parted] | None = None
) -> Outline:
    """The outline that changes at the edges make, and the openings. A row that they leave without stitches stays so."""
    first, end, rows = 0, cast_on, []
    for row in range(1, height + 1):
        made = shaping.get(row)
        if made is not None:
            first, end = first - (made.left or 0), end + (made.right or 0)
        rows.append((first, max(first, end)))
    whole = Outline(tuple(rows), cast_on)
    gaps: dict[int, Columns] = {}
    for parted in (divide or {}).values():
        if parted.row <= height:
            gaps |= _gaps(whole, parted, shaping)
    return replace(whole, gaps=gaps)


def _gaps(whole: Outline, parted: Parted, shaping: Mapping[int, Shaping]) -> dict[int, Columns]:
    """The opening from its row up: as wide as what is bound off or held, and wider by what its edges lose above."""
    left, right = opens(whole, parted)
    gaps = {}
    for row in range(parted.row, min(parted.to or len(whole.rows), len(whole.rows)) + 1):
        made = shaping.get(row)
        if made is not None:
            left, right = left + made.neck_left, right - made.neck_right
        first, end = whole.rows[row - 1]
        gaps[row] = (max(first, min(left, end)), max(first, min(max(left, right), end)))
    return gaps


def opens(whole: Outline, parted: Parted) -> Columns:
    """The columns of the opening in its first row, in the middle of the row below or where it is said to lie; an odd
    stitch stands at its left."""
    if parted.at is not None:
        end = whole.cast_on + whole.right - parted.at
        return end - parted.stitches, end
    first, end = whole.rows[max(0, parted.row - 2)]
    right = (end - first - parted.stitches) // 2
    return end - right - parted.stitches, end - right


def divides(whole: Outline, divide: Mapping[int, Parted]) -> dict[int, Divide]:
    """The partings as a chart has them, those within its rows."""
    return {row: _divide(whole, said) for row, said in divide.items() if row <= len(whole.rows)}


def _divide(whole: Outline, said: Parted) -> Divide:
    slit = said.by is Parting.NOTHING
    at = whole.cast_on + whole.right - opens(whole, said)[0] if slit else None
    return Divide(said.row, said.by, said.sides, at, said.to)


def mirrored_divides(whole: Outline, divide: Mapping[int, Divide]) -> dict[int, Divide]:
    """The same in a mirror, where the sides are worked in the other order."""
    return {
        row: replace(
            said, sides=OTHER_ORDER.get(said.sides, said.sides), at=None if said.at is None else whole.width - said.at
        )
        for row, said in divide.items()
    }


OTHER_ORDER = {Order.RIGHT_FIRST: Order.LEFT_FIRST, Order.LEFT_FIRST: Order.RIGHT_FIRST}
"""In which order the sides are worked in a mirror; together stays together."""
