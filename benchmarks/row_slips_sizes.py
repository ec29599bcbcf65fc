"""How many planted slips of a row are told by the other sizes of a piece, and how many honest differences are.

    python benchmarks/row_slips_sizes.py                  # what docs/row-slips.md says
    python benchmarks/row_slips_sizes.py --sizes 2        # the same of patterns in two sizes
    python benchmarks/row_slips_sizes.py --confidence     # how often what is told is right

The pictures are those of row_slips.py, the patterns those of row_slip_patterns.py. A slip is planted in one size.
"""

import argparse
import random
from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np
from row_slip_patterns import COUNTED, KINDS, Planted, honest, planted
from row_slip_pictures import Picture, corpora

from lintarsia.rules.shared.rows_in_sizes import SlipInSize, slips_in_sizes
from lintarsia.rules.shared.told_by_sizes import SURE


def told_right(case: Planted, told: Sequence[SlipInSize]) -> bool:
    """Once, in that size, in that row or the one beside it; of like rows any may be the one more or fewer."""
    if len(told) != 1 or told[0].at != case.at:
        return False
    slip = told[0].slip
    return slip.kind == case.kind if case.kind in COUNTED else abs(slip.row - 1 - case.row) <= 1


def measure(motifs: list[Picture], seed: int, sizes: int) -> None:
    _hits(motifs, random.Random(seed), sizes)
    _alarms(motifs, random.Random(seed), sizes)


def _hits(motifs: list[Picture], rng: random.Random, sizes: int) -> None:
    hits, names, number = Counter[str](), Counter[str](), Counter[str]()
    for motif in motifs:
        for case in filter(None, (planted(motif, kind, rng, sizes) for kind in KINDS)):
            told = slips_in_sizes(case.sizes)
            right = told_right(case, told)
            number[case.kind] += 1
            hits[case.kind] += right
            names[case.kind] += right and told[0].slip.kind == case.kind
    for kind in KINDS:
        print(f"  {kind}: {hits[kind]} of {number[kind]} found, {names[kind]} by their own name")
    share = hits.total() / number.total()
    print(f"  all: {hits.total()} of {number.total()} found ({share:.1%}), {names.total()} by their own name")


def _alarms(motifs: list[Picture], rng: random.Random, sizes: int) -> None:
    rows, alarms, counted = Counter[str](), Counter[str](), Counter[str]()
    for motif in motifs:
        for name, made in honest(motif, rng, sizes):
            told = slips_in_sizes(made)
            rows[name] += sum(map(len, made))
            alarms[name] += len(told)
            counted[name] += sum(one.slip.kind in COUNTED for one in told)
    for name, many in [*rows.items(), ("all", rows.total())]:
        false, notes = (seen.total() if name == "all" else seen[name] for seen in (alarms, counted))
        print(f"  {name}: {false} false alarms in {many} honest rows, {notes} of them of a row more or fewer")


def confidence(motifs: list[Picture], seed: int, sizes: int) -> None:
    """Half of the patterns honest, of every kind alike, and half with one slip: how much of what is told is right."""
    told: dict[str, list[bool]] = {}
    for slip, right in _told_of_halves(motifs, random.Random(seed), sizes):
        told.setdefault(_how(slip), []).append(right)
    for how, rights in sorted(told.items()):
        print(f"  {how}: {sum(rights)} of {len(rights)} right ({np.mean(rights):.0%})")


def _told_of_halves(motifs: list[Picture], rng: random.Random, sizes: int) -> Iterator[tuple[SlipInSize, bool]]:
    for motif in motifs:
        case = planted(motif, rng.choice(KINDS), rng, sizes)
        if case is None:
            continue
        yield from ((slip, told_right(case, [slip])) for slip in slips_in_sizes(case.sizes))
        _, fair = rng.choice(list(honest(motif, rng, sizes)))
        yield from ((slip, False) for slip in slips_in_sizes(fair))


def _how(slip: SlipInSize) -> str:
    if slip.gained is None:
        return "by most, a row more or fewer" if slip.slip.kind in COUNTED else "by most"
    return "by the picture of two, surely" if slip.gained >= SURE else "by the picture of two"


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--size", type=int, default=100)
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--sizes", type=int, default=3)
    parser.add_argument("--confidence", action="store_true")
    given = parser.parse_args()
    for corpus, drawn in corpora(given.seed, given.size).items():
        print(corpus)
        (confidence if given.confidence else measure)(drawn, given.seed, given.sizes)
