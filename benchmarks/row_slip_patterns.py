"""The patterns that row_slips_sizes.py plants slips in, or finds none in: a picture as the motif of several sizes.

It stands in the chart of every size, each time with other, lopsided margins of its ground, the more the larger the
size. Honest patterns differ in one size, or in each, as designers change a motif for a size.
"""

import random
from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np
import row_slips
import row_slips_known
from row_slip_pictures import Picture

COUNTED = ("doubled", "left-out")
KINDS = (*row_slips.KINDS, "copied", *COUNTED)
Sizes = list[Picture]


class Planted(NamedTuple):
    sizes: Sizes
    kind: str
    at: int
    row: int  # from 0, in that size's chart


def chart(motif: Picture, rng: random.Random, size: int) -> Picture:
    """The motif on a ground of its commonest colour, two to six stitches and rows on each side, more in each size."""
    below, above, left, right = (rng.randint(2, 4 + 2 * size) for _ in range(4))
    ground = int(np.bincount(motif.ravel()).argmax())
    return np.pad(motif, ((below, above), (left, right)), constant_values=ground)


def pattern(motif: Picture, rng: random.Random, sizes: int = 3) -> Sizes:
    return [chart(motif, rng, size) for size in range(sizes)]


def planted(motif: Picture, kind: str, rng: random.Random, sizes: int = 3) -> Planted | None:
    """One slip in a row of the motif; None where it changes nothing, or only how much plain ground there is."""
    made, at = pattern(motif, rng, sizes), rng.randrange(sizes)
    picture = made[at]
    lit = [row for row in range(len(picture)) if len(set(picture[row].tolist())) > 1]
    row = rng.choice(lit)
    if kind == "doubled":
        made[at] = np.insert(picture, row, picture[row], axis=0)
    elif kind == "left-out":
        made[at] = np.delete(picture, row, axis=0)
    else:
        made[at] = other = picture.copy()
        if kind == "swapped":
            other[[row, row + 1]] = picture[[row + 1, row]]
        elif kind == "copied":
            other[row] = picture[row + rng.choice((-1, 1))]
        elif kind == "mirrored":
            other[row] = _mirrored(picture, row, rng)
        else:
            other[row] = row_slips.slips.moved(picture[row], rng.choice([-2, -1, 1, 2]))
        if np.array_equal(other, picture):
            return None
    return Planted(made, kind, at, row)


def _mirrored(picture: Picture, row: int, rng: random.Random) -> Picture:
    """In the whole chart, or within the columns that the motif takes."""
    if rng.random() < 0.5:
        return picture[row, ::-1]
    columns = np.flatnonzero((picture != picture[0, 0]).any(0))
    made, within = picture[row].copy(), slice(int(columns[0]), int(columns[-1]) + 1)
    made[within] = made[within][::-1]
    return made


def redrawn(motif: Picture, rng: random.Random) -> Picture:
    """Larger: single rows and columns drawn twice, three of either at least."""
    rows, columns = (_stretched(length, rng) for length in motif.shape)
    return motif[rows][:, columns]


def _stretched(length: int, rng: random.Random) -> list[int]:
    twice = rng.sample(range(length), rng.randint(3, max(3, length // 4)))
    return sorted([*range(length), *twice])


def longer(motif: Picture, rng: random.Random) -> Picture:
    """Two to four rows more, as the rows below them."""
    twice = rng.sample(range(len(motif)), rng.randint(2, 4))
    return motif[sorted([*range(len(motif)), *twice])]


def apart(motif: Picture, rng: random.Random) -> Picture:
    """Its upper part further up: plain rows in between."""
    at = rng.randrange(1, len(motif))
    ground = int(np.bincount(motif.ravel()).argmax())
    return np.insert(motif, [at] * rng.randint(1, 4), ground, axis=0)


def a_row_longer(motif: Picture, rng: random.Random) -> Picture:
    return np.insert(motif, row := rng.randrange(len(motif)), motif[row], axis=0)


def edited(motif: Picture, rng: random.Random) -> Picture:
    """As designers change a picture from one commit to the next."""
    return rng.choice(list(row_slips_known.edited(motif, rng)))


CHANGES: dict[str, Callable[[Picture, random.Random], Picture]] = {
    "edited": edited,
    "redrawn larger": redrawn,
    "two to four rows more": longer,
    "parts further apart": apart,
    "one row more": a_row_longer,
}


def honest(motif: Picture, rng: random.Random, sizes: int) -> Iterator[tuple[str, Sizes]]:
    """Patterns without a slip: alike but for the ground, changed in one size, in each, and repeated more often."""
    yield "other ground alone", pattern(motif, rng, sizes)
    for name, change in CHANGES.items():
        one, at = pattern(motif, rng, sizes), rng.randrange(sizes)
        one[at] = chart(change(motif, rng), rng, at)
        yield f"{name}, one size", one
        each = [motif] + [change(motif, rng) for _ in range(sizes - 1)]
        yield f"{name}, in each", [chart(made, rng, size) for size, made in enumerate(each)]
    grown = [motif]
    for _ in range(sizes - 1):
        grown.append(a_row_longer(grown[-1], rng))
    yield "a row more in each larger size", [chart(made, rng, size) for size, made in enumerate(grown)]
    yield "more repeats across", [np.tile(motif, (1, 2 + size)) for size in range(sizes)]
    yield "more repeats up", [np.tile(motif, (2 + size, 1)) for size in range(sizes)]
