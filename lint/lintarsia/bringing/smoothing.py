"""Specks taken out by their size, and rough edges made smooth by moving single stitches."""

from collections.abc import Iterator

import numpy as np

from lintarsia.bringing.arrays import Bools, Bytes, Index
from lintarsia.bringing.shade_space import toned

AROUND = [(y, x) for y in (-1, 0, 1) for x in (-1, 0, 1) if y or x]
TEXTURE = 0.03  # share of all stitches: more specks than this, and they are the pattern
EVENLY = 0.75  # share of specks with one distance to the next from which they are a pattern
MOST_SPECKS = 2000  # whose distances are compared; more are a pattern anyhow
ALONE = 0.85  # share of the stitches around a speck, two to each side, that are of one colour
ONE_SHADE = 0.02  # OKLab: stitches so near one another are of one colour on purpose
CENTRED = 0.6  # the shorter side of what a tip stands on, as a share of the longer
ROUNDS = 2


def specks(which: Index, largest: int) -> Bools:
    """Where areas of at most `largest` stitches lie, corners counted as touching, amid other colours.

    `which` is -1 where there is no stitch.
    """
    return _small_areas(which, largest)[1]


def _small_areas(which: Index, largest: int) -> tuple[Index, Bools]:
    """The number of each stitch's area, and where those of at most `largest` stitches are; only theirs can be told.

    Labels spread from stitch to stitch for as long as a speck could be wide; a label that has come to rest by then, on
    few enough stitches, is a whole area. It is the number of the area's last stitch.
    """
    high, wide = which.shape
    label = np.arange(which.size, dtype=np.intp).reshape(high, wide)
    for _ in range(largest):
        spread = label.copy()
        for here, there in _pairs(which.shape):
            same = which[here] == which[there]
            spread[here] = np.where(same, np.maximum(spread[here], label[there]), spread[here])
        label = spread
    resting = np.ones(which.size, bool)
    for here, there in _pairs(which.shape):
        restless = (which[here] == which[there]) & (label[here] != label[there])
        resting[label[here][restless]] = False
    size = np.bincount(label.ravel(), minlength=which.size)
    return label, (resting & (size <= largest))[label] & (which >= 0)


def _pairs(shape: tuple[int, ...]) -> Iterator[tuple[tuple[slice, slice], tuple[slice, slice]]]:
    """Every stitch beside its neighbour in each of the eight directions, as slices of the whole."""
    high, wide = shape
    for y, x in AROUND:
        here = (slice(max(0, -y), high - max(0, y)), slice(max(0, -x), wide - max(0, x)))
        yield here, (slice(max(0, y), high + min(0, y)), slice(max(0, x), wide + min(0, x)))


def without_specks(colours: Bytes, which: Index, largest: int) -> tuple[Index, int]:
    """`which` with each speck in the colour around it; and how many stitches were kept, as too many to be dirt.

    A colour that has nothing but specks, two or more of quite the same shade, is meant: a pair of eyes. So are specks
    of a colour at even distances: a dotted line, a seeded ground.
    """
    found = _dirt(colours, which, largest)
    if found.sum() > TEXTURE * (which >= 0).sum():
        return which, int(found.sum())
    out = which.copy()
    for row, column in zip(*np.nonzero(found), strict=True):
        out[row, column] = _around_it(which, found, int(row), int(column))
    return out, 0


def _dirt(colours: Bytes, which: Index, largest: int) -> Bools:
    """Specks that nobody can have meant, whole: what lies beside more with one of its stitches stays with all."""
    label, small = _small_areas(which, largest)
    drawn = small.copy()
    drawn[small] = [not _lies_alone(which, small, int(y), int(x)) for y, x in np.argwhere(small)]
    found = small & ~np.isin(label, label[drawn])
    for shade in np.unique(which[found]):
        own = which == shade
        places = np.column_stack(np.unravel_index(np.unique(label[found & own]), which.shape))
        if _evenly_set(places) or (found[own].all() and len(places) > 1 and _one_shade(colours[own])):
            found &= ~own
    return found


def _one_shade(colours: Bytes) -> bool:
    return float(np.ptp(toned(colours), axis=0).max()) <= ONE_SHADE


def _evenly_set(places: Index) -> bool:
    """Whether most of three or more places, shape (n, 2), are as far from the next of them as the others are."""
    if not 3 <= len(places) <= MOST_SPECKS:
        return False
    far = ((places[:, None] - places[None]) ** 2).sum(axis=2).astype(np.float64)
    np.fill_diagonal(far, np.inf)
    return bool(np.unique(far.min(axis=1), return_counts=True)[1].max() >= EVENLY * len(places))


def _lies_alone(which: Index, speck: Bools, row: int, column: int) -> bool:
    """Whether one colour fills the place around: dirt falls anywhere, a stitch that was drawn is part of more."""
    part = slice(max(0, row - 2), row + 3), slice(max(0, column - 2), column + 3)
    around = which[part][~speck[part]]
    return len(around) > 0 and int((around == np.bincount(around + 1).argmax() - 1).sum()) >= ALONE * len(around)


def _around_it(which: Index, speck: Bools, row: int, column: int) -> int:
    """The commonest colour beside a speck, in ever wider squares; its own where there is no other."""
    for reach in range(1, 8):
        part = slice(max(0, row - reach), row + reach + 1), slice(max(0, column - reach), column + reach + 1)
        others = which[part][~speck[part] & (which[part] >= 0)]
        if len(others):
            return int(np.bincount(others).argmax())
    return int(which[row, column])


def smooth_edges(which: Index) -> tuple[Index, int]:
    """`which` without single stitches that stand out of, or into, a straight edge; how many were left as a pattern."""
    out = which
    for _ in range(ROUNDS):
        moved = out.copy()
        for turn in range(4):
            turned = np.rot90(out, turn)
            for row, column in _bumps(turned):
                back = np.rot90(moved, turn)  # a view, so what is set here is set in `moved`
                back[row, column] = turned[row - 1, column]
        out = moved
    changed = int((out != which).sum())
    return (which, changed) if changed > TEXTURE * (which >= 0).sum() else (out, 0)


def _bumps(which: Index) -> Iterator[tuple[int, int]]:
    """Stitches that stand alone on top of an edge of their own colour, and leave it level or evenly rising once gone.

    Both sides of the edge are two stitches deep or more: thin lines, and what stands on them, were drawn.
    """
    own, other = which[2:-2, 2:-2], which[1:-3, 2:-2]
    alone = (own >= 0) & (other >= 0) & (own != other) & (which[:-4, 2:-2] == other)
    alone &= (which[2:-2, 1:-3] == other) & (which[2:-2, 3:-1] == other) & (which[3:-1, 2:-2] == own)
    for row, column in zip(*np.nonzero(alone), strict=True):
        patch = which[row + 1 : row + 5, column : column + 5]
        if _uneven(patch, int(patch[1, 2]), int(patch[0, 2])) and not _tip(which[row + 3], int(column) + 2):
            yield int(row) + 2, int(column) + 2


def _uneven(patch: Index, own: int, other: int) -> bool:
    """Whether the five columns of a patch rise or fall evenly but for the middle one. Of two colours, `own` below."""
    mine = patch == own
    if not (mine | (patch == other)).all() or (mine[:-1] & ~mine[1:]).any():
        return False
    heights = mine.sum(axis=0)
    heights[2] = max(heights[1], heights[3])
    steps = np.diff(heights)
    return bool(heights[1:4].min() > 0 and ((steps >= 0).all() or (steps <= 0).all()))


def _tip(below: Index, column: int) -> bool:
    """Whether the stitch above `column` stands about on the middle of what it stands on."""
    other = np.flatnonzero(below != below[column])
    left = column - other[other < column].max(initial=-1)
    right = other[other > column].min(initial=len(below)) - column
    return min(int(left), int(right)) >= CENTRED * max(int(left), int(right))
