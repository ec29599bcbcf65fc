"""What stands around each stitch, as a number: which neighbours have its colour, and whether it is of the ground.

Two neighbourhoods are looked at, three rows of five stitches and five rows of three, each with 14 neighbours. What is
the same seen from the other side or upside down has one number. Beyond the picture's edge its outermost stitches go on.
"""

from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.suspect_rows import UNDONE

Numbers = NDArray[np.int64]
Codes = NDArray[np.integer[Any]]  # Cells, in as few bytes as will do
REACH = 2  # rows and stitches
EXCHANGED = len(UNDONE)  # the way that comes after those of a row alone
WAYS = EXCHANGED + 1


def _around(rows: int, stitches: int) -> list[tuple[int, int]]:
    return [(y, x) for y in range(-rows, rows + 1) for x in range(-stitches, stitches + 1) if (y, x) != (0, 0)]


NEIGHBOURHOODS = (_around(1, 2), _around(2, 1))
GROUND = len(NEIGHBOURHOODS[0])  # the bit that says that a stitch is of the picture's commonest colour
# For each place around a stitch the neighbourhoods that it belongs to, with its bit in each.
_PLACES = {
    place: [
        (which, np.uint16(1 << places.index(place))) for which, places in enumerate(NEIGHBOURHOODS) if place in places
    ]
    for place in sorted({*NEIGHBOURHOODS[0], *NEIGHBOURHOODS[1]})
}


class Changes(NamedTuple):
    """Changes of one row, or of a row and the next: `row` (changes) from 0, `way` (changes) as in UNDONE or EXCHANGED,
    `lines` (changes, lines) the rows whose stitches see it, `numbers` (2, changes, lines, stitches) of those."""

    row: Numbers
    way: Numbers
    lines: Numbers
    numbers: NDArray[np.int32]


class Neighbours:
    """`numbers` (2, rows, stitches) of a picture as it is; below `count_of_numbers()`."""

    def __init__(self, cells: Cells) -> None:
        self.cells: Codes = cells.astype(np.uint8) if int(cells.max()) < 256 else cells
        self.ground = np.bincount(self.cells.ravel()).argmax()
        self.last = len(cells) - 1
        beyond = 2 * REACH  # rows that the stitches around a changed row see
        self._tall = np.concatenate([self.cells[:1].repeat(beyond, 0), self.cells, self.cells[-1:].repeat(beyond, 0)])
        self.numbers = self._numbers(self._tall[None, REACH:-REACH])[:, 0]

    def changes(self, row: Numbers, way: Numbers) -> Changes:
        """Those of the changes (of each row, from 0, in a way) that change something; two rows at least."""
        possible = (way < EXCHANGED) | (row < self.last)
        row, way = row[possible], way[possible]
        low = np.minimum(row, self.last - 1)  # of two rows, the one or both of which are changed
        now = self.cells[np.stack([low, low + 1], 1)]
        made, each, alone = now.copy(), np.arange(len(row)), way < EXCHANGED
        columns = _undone(self.cells.shape[1])[way[alone]]
        made[each[alone], (row - low)[alone]] = self.cells[row[alone, None], columns]
        made[~alone] = now[~alone, ::-1]
        changed = (made != now).any((1, 2))
        return self._made(row[changed], way[changed], low[changed], made[changed])

    def all_changes(self, rows: Numbers) -> Changes:
        """In every way, of rows (from 0)."""
        return self.changes(rows.repeat(WAYS), np.tile(np.arange(WAYS), len(rows)))

    def _made(self, row: Numbers, way: Numbers, low: Numbers, made: Codes) -> Changes:
        """`made` (changes, 2, stitches) put in place of what stands in the rows `low` and above it."""
        beyond = 2 * REACH
        seen = self._tall[low[:, None] + np.arange(2 + 2 * beyond)]
        seen[:, beyond : beyond + 2] = made
        first, last = low == 0, low + 1 == self.last
        seen[first, :beyond], seen[last, beyond + 2 :] = made[first, :1], made[last, -1:]
        lines = low[:, None] + np.arange(-REACH, 2 + REACH)
        return Changes(row, way, lines, self._numbers(seen))

    def _numbers(self, seen: Codes) -> NDArray[np.int32]:
        """Of all but the REACH outermost rows of `seen` (pictures, rows, stitches)."""
        width = seen.shape[2]
        wide = np.take(seen, np.clip(np.arange(-REACH, width + REACH), 0, width - 1), axis=2)
        patterns = self._patterns(wide.ravel(), wide.shape[2]).reshape(len(NEIGHBOURHOODS), *wide.shape)
        inner = patterns[:, :, REACH:-REACH, REACH:-REACH]
        return np.stack([numbers[each] for numbers, each in zip(_numbers_of_patterns(), inner, strict=True)])

    def _patterns(self, codes: Codes, width: int) -> NDArray[np.uint16]:
        """Of stitches one after the other, row by row: what stands around one is so many places away. That is looked
        up in one go, and what reaches over a row's end comes out wrong; nobody asks for it."""
        patterns = np.zeros((len(NEIGHBOURHOODS), len(codes)), np.uint16)
        margin = REACH * width + REACH
        end = len(codes) - margin
        here, made = codes[margin:end], patterns[:, margin:end]
        made[:] = (here == self.ground) * np.uint16(1 << GROUND)
        for (y, x), bits in _PLACES.items():
            away = y * width + x
            same = here == codes[margin + away : end + away]
            for which, bit in bits:
                made[which] |= same * bit
        return patterns


@lru_cache(32)
def _undone(width: int) -> Numbers:
    """For each of UNDONE the columns that a row's stitches come from, (ways, stitches)."""
    columns = np.arange(width)
    return np.array([columns[::-1], *(np.clip(columns + by, 0, width - 1) for _, by in UNDONE[1:])])


@lru_cache(1)
def _numbers_of_patterns() -> list[NDArray[np.int32]]:
    """For each neighbourhood the number of each pattern; those of the second come after those of the first."""
    found, so_far = [], 0
    for places in NEIGHBOURHOODS:
        kinds, numbers = np.unique(_first_of_like(places), return_inverse=True)
        found.append((numbers + so_far).astype(np.int32))
        so_far += len(kinds)
    return found


def _first_of_like(places: list[tuple[int, int]]) -> Numbers:
    """For each pattern the lowest of those that are like it, seen from the other side or upside down."""
    patterns = np.arange(2 << GROUND)
    lowest = patterns.copy()
    for up, aside in ((1, -1), (-1, 1), (-1, -1)):
        turned = patterns & (1 << GROUND)
        for at, (y, x) in enumerate(places):
            turned |= ((patterns >> at) & 1) << places.index((up * y, aside * x))
        lowest = np.minimum(lowest, turned)
    return lowest


def count_of_numbers() -> int:
    return int(_numbers_of_patterns()[-1].max()) + 1
