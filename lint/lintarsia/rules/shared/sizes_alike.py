"""A motif set upon the same motif in another size of a piece, where it stands elsewhere and has more ground around it.

Rows are found again by what they have between the ground at their two ends. Beyond a picture its outermost stitches go
on; rows that the other picture does not have are taken as they are.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from lintarsia.rules.shared.lanes import Cells

FEWEST = 4  # rows of more than one colour that have to be the same before two pictures have a motif in common
SHARE = 0.5  # of such rows, that have to be the same (house values)
MOST_PAIRS = 400  # of like rows; what stands in more says nothing of which is which

Rows = list[str]  # row 1 first, a character for each stitch


class Placing(NamedTuple):
    """Where the other picture's first column and row stand, counted from this one's."""

    across: int
    up: int

    @property
    def reversed(self) -> "Placing":
        return Placing(-self.across, -self.up)


class SizePicture:
    """`cells` without squares that have no stitch, as numbers that mean the same in all pictures; `rows` as texts;
    `contents` where (row, column) each content of a row begins that is more than the ground."""

    def __init__(self, cells: Cells, ground: str) -> None:
        self.cells = cells
        self.rows = texts(cells)
        self.contents: defaultdict[str, list[tuple[int, int]]] = defaultdict(list)
        for row, text in enumerate(self.rows):
            if content := text.strip(ground):
                self.contents[content].append((row, start(text, ground)))

    def within(self, placing: Placing, width: int) -> Rows:
        """The rows as a picture of that width has them, of which this one stands at `placing`."""
        columns = np.arange(width) - placing.across
        return texts(self.cells[:, columns.clip(0, self.cells.shape[1] - 1)])


def texts(cells: Cells) -> Rows:
    data, step = cells.astype("<u4").tobytes(), 4 * cells.shape[1]
    return [data[at : at + step].decode("utf-32-le") for at in range(0, len(data), step)]


def cells_of(rows: Rows) -> Cells:
    """The picture that texts stand for."""
    return np.array([[ord(symbol) for symbol in row] for row in rows], np.int16)


def start(row: str, ground: str) -> int:
    """How many stitches of the ground a row begins with."""
    return len(row) - len(row.lstrip(ground))


def plain(row: str) -> bool:
    return row == row[0] * len(row)


def placing(one: SizePicture, other: SizePicture) -> Placing | None:
    """The one by which most rows are the same; None where none are."""
    votes = Counter[tuple[int, int]]()
    for content, mine in one.contents.items():
        there = other.contents.get(content, ())
        if len(mine) * len(there) <= MOST_PAIRS:
            votes.update((at - left, row - below) for row, at in mine for below, left in there)
    return Placing(*votes.most_common(1)[0][0]) if votes else None


def ground_of(cells: Sequence[Cells]) -> str:
    """The colour that most stitches of all pictures have."""
    return chr(int(np.bincount(np.concatenate([each.ravel() for each in cells])).argmax()))


def shared(now: Rows, seen: Rows, up: int) -> slice:
    """The rows that both have, where the first of `seen` is row `up`."""
    return slice(max(0, up), max(0, min(len(now), len(seen) + up)))


def in_place(now: Rows, seen: Rows, up: int) -> Rows:
    """What the rows would be by the other picture."""
    both = shared(now, seen, up)
    return now[: both.start] + seen[both.start - up : both.stop - up] + now[both.stop :]


def one_row_apart(now: Rows, seen: Rows, up: int) -> Iterator[tuple[int, Rows]]:
    """The same where from some row up all are a row further up, or further down, than below it; and which row the first
    of `seen` would be by those below."""
    for low, high in ((up, up + 1), (up - 1, up), (up, up - 1), (up + 1, up)):
        first, last = max(0, low), min(len(now), len(seen) + high)
        theirs = seen[first - low : max(0, last - high)]
        if sum(not plain(row) for row in theirs) > FEWEST:
            yield low, now[:first] + theirs + now[last:]


def evident(was: Rows, now: Rows) -> bool:
    """Whether enough rows of more than one colour are the same."""
    told = [(a, b) for a, b in zip(was, now, strict=True) if not (plain(a) and plain(b))]
    same = sum(a == b for a, b in told)
    return same >= FEWEST and same >= SHARE * len(told)
