"""How often a slip planted in one row is found, and how often an honest row is taken for one.

    python benchmarks/row_slips.py            # what docs/row-slips.md says
    python benchmarks/row_slips.py --confidence   # how often an alarm is right, by its score

Corpora: motifs drawn here by random numbers, with ellipses, polygons and lines in up to four colours; glyphs of GNU
Unifont (Debian package unifont); scikit-learn's digits, cut to three shades; the blocks of check_speed.py, whose two
edges wander together from row to row as a row that slipped does. For false alarms alone bands of small repeats, and
motifs and blocks with stitches strewn over them or with edges that wander by a stitch in every row.

Of these only motifs and blocks are of the kinds that row_slips_learn.py learns from, and not the same ones.
"""

import argparse
import random
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from row_slip_pictures import Picture, bands, blocks, corpora, drawn, ragged, strewn

from lintarsia.rules.shared import slips

KINDS = ("swapped", "mirrored", "shifted")
BANDS = (slips.DOUBTFUL, slips.ENOUGH, slips.SURE, slips.CERTAIN)  # scores


class Planted(NamedTuple):
    picture: Picture
    kind: str
    row: int  # from 0


def plant(picture: Picture, kind: str, rng: random.Random) -> Planted | None:
    """One slip in a row chosen at random; None where it changes nothing."""
    row, made = rng.randrange(len(picture) - 1), picture.copy()
    if kind == "swapped":
        made[[row, row + 1]] = picture[[row + 1, row]]
    elif kind == "mirrored":
        made[row] = picture[row][::-1]
    else:
        made[row] = slips.moved(picture[row], rng.choice([-2, -1, 1, 2]))
    return None if np.array_equal(made, picture) else Planted(made, kind, row)


def planted(pictures: list[Picture], times: int, seed: int) -> Iterator[Planted]:
    rng = random.Random(seed)
    for picture in pictures:
        for kind in KINDS:
            yield from filter(None, (plant(picture, kind, rng) for _ in range(times)))


def found(case: Planted, bar: float = slips.ENOUGH) -> bool:
    """Whether the slip is found where it is. A row between two alike may be the one that was exchanged, so the row
    beside it counts; what it is taken for does not have to be what it was."""
    slip = slips.find_slip(case.picture, bar)
    return slip is not None and abs(slip.row - 1 - case.row) <= 1


def named(case: Planted, bar: float = slips.ENOUGH) -> bool:
    slip = slips.find_slip(case.picture, bar)
    return slip is not None and slip.kind == case.kind and slip.row - 1 == case.row


def honest(seed: int, size: int) -> dict[str, list[Picture]]:
    """In which no slips are planted."""
    drawings = drawn(size, seed + 1) + blocks(size, seed + 1)
    return {
        "bands of small repeats": bands(size, seed),
        "strewn with single stitches": strewn(drawings, seed),
        "ragged edges": ragged(drawings, seed),
    }


def measure(seed: int, size: int) -> None:
    """What is told unasked, and with the rule's option `doubtful`."""
    pictures, others = corpora(seed, size), honest(seed, size)
    for bar, how in ((slips.ENOUGH, "unasked"), (slips.DOUBTFUL, "with doubtful: true")):
        print(f"{how}:")
        for name, corpus in pictures.items():
            _alarms(name, corpus, bar)
            _hits(list(planted(corpus, 1, seed)), bar)
        for name, corpus in others.items():
            _alarms(name, corpus, bar)


def _alarms(name: str, pictures: list[Picture], bar: float) -> None:
    rows = sum(map(len, pictures))
    alarms = [slip for picture in pictures if (slip := slips.find_slip(picture, bar)) is not None]
    warned = sum(slip.score >= slips.SURE for slip in alarms)
    print(
        f"{name}: {len(pictures)} pictures, {rows} honest rows, {len(alarms)} false alarms, {warned} of them warnings"
    )


def _hits(cases: list[Planted], bar: float) -> None:
    for kind in KINDS:
        of_kind = [case for case in cases if case.kind == kind]
        hits, names = (sum(test(case, bar) for case in of_kind) for test in (found, named))
        share = hits / max(1, len(of_kind))
        print(f"  {kind}: {hits} of {len(of_kind)} found ({share:.0%}), {names} by their own name")


def confidence(seed: int, size: int) -> None:
    """Half of the pictures honest and half with one slip: how many alarms of each score are right."""
    for name, pictures in corpora(seed, size).items():
        alarms: dict[float, list[bool]] = {}
        for score, right in _alarms_of_halves(pictures, random.Random(seed)):
            alarms.setdefault(max(band for band in BANDS if score >= band), []).append(right)
        print(name)
        for band, rights in sorted(alarms.items()):
            print(f"  score {band} and more: {sum(rights)} of {len(rights)} right ({np.mean(rights):.0%})")


def _alarms_of_halves(pictures: list[Picture], rng: random.Random) -> Iterator[tuple[float, bool]]:
    for picture in pictures:
        case = plant(picture, rng.choice(KINDS), rng)
        for made, row in ((picture, None), (case.picture, case.row) if case else (picture, None)):
            slip = slips.find_slip(made, slips.DOUBTFUL)
            if slip is not None:
                yield slip.score, row is not None and abs(slip.row - 1 - row) <= 1


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--size", type=int, default=100)
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--confidence", action="store_true")
    given = parser.parse_args()
    if given.confidence:
        confidence(given.seed, given.size)
    else:
        measure(given.seed, given.size)
