"""What stands around each stitch, as a number: which neighbours have its colour, and whether it is of the ground.

Two neighbourhoods are looked at, three rows of five stitches and five rows of three, each with 14 neighbours. What is
the same seen from the other side or upside down has one number. Beyond the picture's edge its outermost stitches go on.

A stitch's pattern is 16 bits: one for each neighbour, one for the ground, and one that says which neighbourhood it is.
Charts are small, and arrays so small cost what their calls cost: patterns are made of many rows in few calls.
"""

from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.suspect_rows import UNDONE

Numbers = NDArray[np.int64]
Codes = NDArray[np.integer[Any]]  # Cells, in as few bytes as will do
Patterns = NDArray[np.uint16]
REACH = 2  # rows and stitches
SEEN = 2 + 4 * REACH  # rows that the stitches around two changed rows see
EXCHANGED = len(UNDONE)  # the way that comes after those of a row alone
WAYS = EXCHANGED + 1
SIDE = 2 * REACH + 1
_SEEN, _BOTH = np.arange(SEEN), slice(2 * REACH, 2 * REACH + 2)


def _around(rows: int, stitches: int) -> list[tuple[int, int]]:
    return [(y, x) for y in range(-rows, rows + 1) for x in range(-stitches, stitches + 1) if (y, x) != (0, 0)]


NEIGHBOURHOODS = (_around(1, 2), _around(2, 1))
GROUND = len(NEIGHBOURHOODS[0])  # the bit that says that a stitch is of the picture's commonest colour
PATTERNS = 2 << GROUND  # of one neighbourhood; those of the second come after those of the first
# For each bit of each pattern, the lowest first: which of the 25 places around a stitch, row by row, or what is behind
_IS_GROUND, _NEVER, _ALWAYS = range(SIDE**2, SIDE**2 + 3)
_BITS = np.array([
    [*((y + REACH) * SIDE + x + REACH for y, x in places), _IS_GROUND, second]
    for places, second in zip(NEIGHBOURHOODS, (_NEVER, _ALWAYS), strict=True)
]).ravel()  # fmt: skip
_IN_A_BYTE = (1 << np.arange(8)).astype(np.uint8)[:, None]


class Changes(NamedTuple):
    """Changes of one row, or of a row and the next: `row` (changes) from 0, `way` (changes) as in UNDONE or EXCHANGED.
    Of what is seen of it the rows `low` (changes) and the one above it are in the middle: `seen` (changes, SEEN,
    stitches and REACH more on either side) with the change made. All but the REACH outermost see the change."""

    row: Numbers
    way: Numbers
    low: Numbers
    seen: Codes


class Neighbours:
    """A picture's stitches; `tall` (rows and twice REACH more on either side, stitches and REACH more) is the picture
    with its outermost stitches going on."""

    def __init__(self, cells: Cells) -> None:
        self.cells: Codes = cells.astype(np.uint8) if int(cells.max()) < 256 else cells
        self.ground = np.bincount(self.cells.ravel()).argmax()
        self.last = len(cells) - 1
        rows, self._columns, self._undone = _going_on(*cells.shape)
        self.tall = self.cells[rows, self._columns]

    @property
    def numbers(self) -> Numbers:
        """(2, rows, stitches) of the picture as it is; below `count_of_numbers()`."""
        return numbers_of_patterns()[self.patterns(self.tall[REACH:-REACH])]

    def numbers_of(self, changes: Changes) -> Numbers:
        """(2, changes, lines, stitches) of the stitches that see a change, once it is made."""
        many, _, width = changes.seen.shape
        numbers = np.zeros((2, many * SEEN, width - 2 * REACH), np.int64)
        numbers[:, REACH:-REACH] = numbers_of_patterns()[self.patterns(changes.seen.reshape(-1, width))]
        return numbers.reshape(2, many, SEEN, width - 2 * REACH)[:, :, REACH:-REACH]

    def changes(self, row: Numbers, way: Numbers) -> Changes:
        """Changes of each row (from 0) in a way, each of which changes something; two rows at least."""
        low = np.minimum(row, self.last - 1)  # of two rows, the one or both of which are changed
        seen = self.tall[low[:, None] + _SEEN]
        self._make(seen, row, way, low)
        return Changes(row, way, low, seen)

    def all_changes(self, rows: Numbers) -> Changes:
        """In every way, of rows (from 0), as far as something changes."""
        row, way = rows.repeat(WAYS), np.tile(np.arange(WAYS), len(rows))
        possible = (way < EXCHANGED) | (row < self.last)
        made = self.changes(row[possible], way[possible])
        changed = (made.seen[:, _BOTH] != self.tall[made.low[:, None] + _SEEN[_BOTH]]).any((1, 2))
        return Changes(*(part[changed] for part in made))

    def _make(self, seen: Codes, row: Numbers, way: Numbers, low: Numbers) -> None:
        """Put in place of what stands in the rows `low` and above it."""
        swapped = (way == EXCHANGED).nonzero()[0]
        if len(swapped):
            seen[swapped, _BOTH] = seen[swapped, _BOTH][:, ::-1]
        alone = (way < EXCHANGED).nonzero()[0]
        at = row[alone]
        seen[alone, at - low[alone] + 2 * REACH] = self.cells[at[:, None], self._undone[way[alone]]]
        if int(low.min(initial=self.last)) == 0:
            first = (low == 0).nonzero()[0]
            seen[first, : 2 * REACH] = seen[first, 2 * REACH, None]
        if int(low.max(initial=0)) + 1 == self.last:
            last = (low + 1 == self.last).nonzero()[0]
            seen[last, 2 * REACH + 2 :] = seen[last, 2 * REACH + 1, None]

    def patterns(self, rows: Codes) -> Patterns:
        """(2, rows, stitches) of `rows` one above the other, each with REACH more stitches on either side, but for the
        REACH outermost."""
        many, width = max(0, len(rows) - 2 * REACH), rows.shape[1]
        # Stitches one after the other: what stands around one is so many places away. What reaches over a row's end
        # comes out wrong, and is cut off.
        codes = np.zeros(rows.size + 2 * REACH, rows.dtype)
        codes[REACH:-REACH] = rows.ravel()
        each = codes.itemsize
        places: Codes = np.ndarray((SIDE, SIDE, many * width), codes.dtype, codes, 0, (width * each, each, each))
        is_so = np.empty((_ALWAYS + 1, many * width), bool)
        np.equal(places, places[REACH, REACH], out=is_so[: SIDE**2].reshape(places.shape))
        np.equal(places[REACH, REACH], self.ground, out=is_so[_IS_GROUND])
        is_so[_NEVER], is_so[_ALWAYS] = False, True
        bits = is_so.view(np.uint8).take(_BITS, 0).reshape(2, 2, 8, many * width)
        bits *= _IN_A_BYTE
        low, high = np.bitwise_or.reduce(bits, 2).swapaxes(0, 1)
        found: Patterns = (high.astype(np.uint16) << np.uint16(8)) | low
        return found.reshape(2, many, width)[:, :, REACH:-REACH]


@lru_cache(32)
def _going_on(height: int, width: int) -> tuple[Numbers, Numbers, Numbers]:
    """Rows (rows, 1) and columns of a picture that goes on beyond its edges, and for each of UNDONE the columns that a
    row's stitches come from, (ways, stitches)."""
    rows = np.arange(-2 * REACH, height + 2 * REACH).clip(0, height - 1)
    columns = np.arange(-REACH, width + REACH).clip(0, width - 1)
    each = np.arange(width)
    undone = np.array([each[::-1], *((each + by).clip(0, width - 1) for _, by in UNDONE[1:])])
    return rows[:, None], columns, undone[:, columns]


@lru_cache(1)
def numbers_of_patterns() -> Numbers:
    """The number of each pattern of the first neighbourhood, then of each of the second."""
    lowest = np.concatenate([_first_of_like(places) + at * PATTERNS for at, places in enumerate(NEIGHBOURHOODS)])
    numbers: Numbers = (np.cumsum(lowest == np.arange(2 * PATTERNS)) - 1)[lowest]
    return numbers


def _first_of_like(places: list[tuple[int, int]]) -> Numbers:
    """For each pattern the lowest of those that are like it, seen from the other side or upside down."""
    lowest = np.arange(PATTERNS)
    for up, aside in ((1, -1), (-1, 1), (-1, -1)):
        to = [places.index((up * y, aside * x)) for y, x in places]
        lowest = np.minimum(lowest, _moved_bits([*to, GROUND]))
    return lowest


def _moved_bits(to: list[int]) -> Numbers:
    """Each pattern with its lowest bit moved to the first place told, the next to the second, and so on."""
    made = np.zeros(1, np.int64)
    for place in to:
        made = np.concatenate([made, made | 1 << place])
    return made


def count_of_numbers() -> int:
    return int(numbers_of_patterns().max()) + 1
