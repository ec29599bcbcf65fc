"""How many planted slips of a row are told where more is known than the picture: how it was committed last, that its
halves or sides are alike, that it repeats upwards or sideways. And how often an honest edit, or an honest picture, is
taken for a slip. What other sizes of a piece tell is counted by row_slips_sizes.py.

    python benchmarks/row_slips_known.py      # what docs/row-slips.md says

The pictures are those of row_slips.py. Rows doubled and left out are planted besides what is planted there.
"""

import argparse
import random
from collections import Counter
from collections.abc import Callable, Iterator

import numpy as np
import row_slips
from row_slip_pictures import Picture, corpora
from row_slips import Planted

from lintarsia.rules.shared.repeats_across import slip_across
from lintarsia.rules.shared.rows_alike import slip_alike
from lintarsia.rules.shared.rows_before import slip_since

MADE: dict[str, Callable[[Picture], Picture]] = {
    "halves turned over": lambda p: np.vstack([p, p[::-1]]),
    "half turn": lambda p: np.vstack([p, p[::-1, ::-1]]),
    "two sides alike": lambda p: np.hstack([p, p[:, ::-1]]),
    "three repeats": lambda p: np.vstack([p] * 3),
}
COUNTED = ("doubled", "left-out")


def planted(picture: Picture, rng: random.Random) -> Iterator[Planted]:
    """One slip of each kind; none where it changes nothing."""
    yield from filter(None, (row_slips.plant(picture, kind, rng) for kind in row_slips.KINDS))
    row = rng.randrange(1, len(picture) - 1)
    yield Planted(np.vstack([picture[: row + 1], picture[row:]]), "doubled", row + 1)
    yield Planted(np.vstack([picture[:row], picture[row + 1 :]]), "left-out", row)


def texts(picture: Picture) -> list[str]:
    return ["".join("BWRGKTPN"[code] for code in row) for row in picture]


def told_by_commit(was: Picture, case: Planted) -> bool:
    """In its row or the one beside it; of like rows any may be the one that was doubled or left out."""
    slip = slip_since(texts(was), texts(case.picture))
    if slip is None:
        return False
    return slip.kind == case.kind if case.kind in COUNTED else abs(slip.row - 1 - case.row) <= 1


def told_by_likeness(case: Planted) -> bool:
    """A row more in one half is a row fewer in the other: either is the truth."""
    slip = slip_alike(case.picture)
    if slip is None:
        return False
    return abs(slip.row - 1 - case.row) <= 1 or (slip.kind in COUNTED and case.kind in COUNTED)


def edited(picture: Picture, rng: random.Random) -> Iterator[Picture]:
    """What designers do: stitches changed, an edge smoothed in a row, rows moved together, rows put in, a colour
    exchanged, a row drawn anew."""
    height, width = picture.shape
    few = picture.copy()
    for _ in range(rng.randint(1, 6)):
        few[rng.randrange(height), rng.randrange(width)] = rng.randrange(int(picture.max()) + 1)
    yield few
    smoothed, row = picture.copy(), rng.randrange(height)
    edges = np.flatnonzero(picture[row, 1:] != picture[row, :-1])
    if len(edges):
        at = int(rng.choice(edges.tolist()))
        smoothed[row, at] = picture[row, at + 1]
        yield smoothed
    moved, low = picture.copy(), rng.randrange(height - 3)
    end, by = rng.randint(low + 3, height), rng.choice([-2, -1, 1, 2])
    moved[low:end] = [row_slips.slips.moved(one, by) for one in picture[low:end]]
    yield moved
    at = rng.randrange(1, height)
    yield np.vstack([picture[:at], np.repeat(picture[at - 1 : at], rng.randint(2, 4), axis=0), picture[at:]])
    yield np.where(picture == picture.max(), 0, picture).astype(picture.dtype)
    anew, row = picture.copy(), rng.randrange(height)
    first = rng.randrange(width - 2)
    anew[row, first : first + rng.randint(2, 5)] = int(picture.max())
    yield anew


def by_commit(name: str, pictures: list[Picture], rng: random.Random) -> None:
    hits, number = Counter[str](), Counter[str]()
    edits = false = 0
    for picture in pictures:
        for case in planted(picture, rng):
            number[case.kind] += 1
            hits[case.kind] += told_by_commit(picture, case)
        for other in edited(picture, rng):
            if not np.array_equal(other, picture):
                edits += 1
                slip = slip_since(texts(picture), texts(other))
                false += slip is not None
    print(f"{name}: {_shares(hits, number)}; {false} of {edits} honest edits taken for a slip")


def by_likeness(name: str, pictures: list[Picture], rng: random.Random) -> None:
    rows = sum(map(len, pictures))
    print(f"{name}: {sum(slip_alike(p) is not None for p in pictures)} false alarms in {rows} honest rows")
    for how, made in MADE.items():
        hits, number = Counter[str](), Counter[str]()
        for picture in map(made, pictures):
            for case in planted(picture, rng):
                number[case.kind] += 1
                hits[case.kind] += told_by_likeness(case)
        print(f"  {how}: {_shares(hits, number)}")


def by_sides(name: str, pictures: list[Picture], rng: random.Random) -> None:
    """Rows exchanged in a picture whose two sides are alike, which they are still: by the picture alone."""
    whole = [MADE["two sides alike"](picture) for picture in pictures]
    cases = [case for picture in whole if (case := row_slips.plant(picture, "swapped", rng)) is not None]
    false = sum(row_slips.slips.find_slip(picture) is not None for picture in whole)
    print(f"{name}: {sum(map(row_slips.found, cases))} of {len(cases)} exchanged rows found")
    print(f"  {false} false alarms in {sum(map(len, whole))} honest rows")


def by_repeats(name: str, pictures: list[Picture], rng: random.Random) -> None:
    """A slip in one of three repeats side by side, and an edit of as many rows there."""
    hits, number = Counter[str](), Counter[str]()
    edits = false = 0
    for picture in pictures:
        for case in filter(None, (row_slips.plant(picture, kind, rng) for kind in row_slips.KINDS)):
            place = rng.randrange(3)
            slip = slip_across(across(picture, case.picture, place))
            number[case.kind] += 1
            there = slip is not None and slip.left == place * picture.shape[1]
            hits[case.kind] += there and slip is not None and abs(slip.slip.row - 1 - case.row) <= 1
        for other in edited(picture, rng):
            if other.shape == picture.shape and not np.array_equal(other, picture):
                edits += 1
                false += slip_across(across(picture, other, 1)) is not None
    honest = sum(slip_across(made) is not None for p in pictures for made in (p, across(p, p, 0)))
    print(f"{name}: {_shares(hits, number)}; {false} of {edits} honest edits of one repeat taken for a slip")
    print(f"  {honest} false alarms in {sum(map(len, pictures))} honest rows, alone and repeated")


def across(picture: Picture, other: Picture, place: int) -> Picture:
    """Three times side by side, one of them another."""
    return np.hstack([other if at == place else picture for at in range(3)])


def _shares(hits: Counter[str], number: Counter[str]) -> str:
    each = ", ".join(f"{kind} {hits[kind]} of {number[kind]}" for kind in number)
    return f"{sum(hits.values()) / sum(number.values()):.0%} ({each})"


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--size", type=int, default=100)
    parser.add_argument("--seed", type=int, default=11)
    given = parser.parse_args()
    measures = {
        "by the last commit": by_commit,
        "by rows that ought to be alike": by_likeness,
        "by repeats side by side": by_repeats,
        "by the picture alone, where two sides are alike": by_sides,
    }
    for title, measure in measures.items():
        print(title)
        for corpus, drawn in corpora(given.seed, given.size).items():
            measure(corpus, drawn, random.Random(given.seed))
