"""Slips of a row told by the other sizes of a piece: how many are found, how many honest differences are taken for one.

The bounds are the project's own aim: of slips planted in one of three sizes four in five found in every corpus, and at
most one false alarm in 200 rows of patterns that differ honestly. The pictures come from outside or by chance, as
benchmarks/row_slip_pictures.py says: GNU Unifont's glyphs, scikit-learn's handwritten digits, motifs and blocks.
"""

import random
import sys
from pathlib import Path

import numpy as np
import pytest

from folding import slow

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "benchmarks"))
import row_slip_patterns as patterns  # noqa: E402
from row_slip_pictures import Picture, blocks, digits, drawn, glyphs  # noqa: E402
from row_slips_sizes import told_right  # noqa: E402

from lintarsia.rules.shared.rows_before import SlipSince  # noqa: E402
from lintarsia.rules.shared.rows_in_sizes import COUNTED, slips_in_sizes  # noqa: E402

SEED = 2041


def corpus(name: str) -> list[Picture]:
    match name:
        case "drawn":
            return drawn(16, SEED)
        case "glyphs":
            return glyphs(30, SEED)
        case "digits":
            return digits(4, 60)
    return blocks(20, SEED)


CORPORA = ("drawn", "glyphs", "digits", "blocks")


@pytest.mark.parametrize("name", CORPORA)
def test_four_in_five_slips_in_one_of_three_sizes_are_told_there_and_there_alone(name: str) -> None:
    rng = random.Random(SEED)
    cases = [case for motif in corpus(name) for kind in patterns.KINDS if (case := patterns.planted(motif, kind, rng))]
    assert len(cases) > 80
    right = [case for case in cases if told_right(case, slips_in_sizes(case.sizes))]
    assert len(right) >= 0.8 * len(cases)
    for kinds in (COUNTED, ("swapped", "mirrored", "shifted")):
        of_kind = [case for case in cases if case.kind in kinds]
        assert sum(case.kind in kinds for case in right) >= 0.8 * len(of_kind)


@pytest.mark.parametrize("sizes", [2, 3])
@pytest.mark.parametrize("name", [*CORPORA[:2], *slow(*CORPORA[2:])])
def test_one_row_in_200_of_honest_patterns_is_told_at_most(name: str, sizes: int) -> None:
    rng = random.Random(SEED)
    made = [pattern for motif in corpus(name)[::2] for _, pattern in patterns.honest(motif, rng, sizes)]
    alarms = [slip for pattern in made for slip in slips_in_sizes(pattern)]
    assert len(alarms) <= sum(len(picture) for pattern in made for picture in pattern) / 200
    # What is told as a warning: not a row more or fewer, which one size may well have.
    surer = [slip for slip in alarms if slip.slip.kind not in COUNTED and slip.gained is None]
    assert len(surer) <= len(made) / 50


# A motif of seven rows that has no like halves and nothing upright; the top line is the highest row.
MOTIF = ["..XX....", ".XXXX...", "XX.XXX..", ".XX..XXX", "..XXXXX.", "X..XX...", ".X.X.X.X"]


def sizes(*motifs: list[str]) -> list[Picture]:
    """Each with more ground, and more of it at the right."""
    made = []
    for at, rows in enumerate(motifs):
        cells = np.array([[symbol == "X" for symbol in row] for row in rows[::-1]], np.int16)
        made.append(np.pad(cells, ((1 + at, 2), (2, 3 + 2 * at))))
    return made


def shifted(row: int) -> list[str]:
    """Of the motif's rows, the lowest of which is 1."""
    at = len(MOTIF) - row
    return [*MOTIF[:at], "." + MOTIF[at][:-1], *MOTIF[at + 1 :]]


def told(*motifs: list[str]) -> list[tuple[int, SlipSince, dict[int, int]]]:
    return [(slip.at, slip.slip, dict(slip.like)) for slip in slips_in_sizes(sizes(*motifs))]


def test_sizes_that_are_alike_are_silent() -> None:
    assert told(MOTIF, MOTIF) == told(MOTIF, MOTIF, MOTIF) == []


def test_the_row_is_told_by_its_number_in_each_size() -> None:
    assert told(MOTIF, shifted(6), MOTIF) == [(1, SlipSince("shifted", 2 + 6, 1), {0: 1 + 6, 2: 3 + 6})]


def test_two_sizes_with_a_slip_each_are_both_told() -> None:
    assert [(at, slip.row) for at, slip, _ in told(shifted(6), MOTIF, shifted(3), MOTIF)] == [(0, 1 + 6), (2, 3 + 3)]


def test_what_most_sizes_have_is_right_though_it_looks_like_the_slip() -> None:
    assert [(at, slip.by) for at, slip, _ in told(shifted(6), shifted(6), MOTIF)] == [(2, -1)]


def test_a_motif_of_which_much_differs_is_another() -> None:
    other = [row[::-1] for row in MOTIF[:4]]
    assert told(MOTIF, [*other, *shifted(2)[4:]], MOTIF) == []


def test_a_row_more_is_told_only_where_two_sizes_are_alike() -> None:
    doubled = [*MOTIF[:3], *MOTIF[2:]]
    assert told(MOTIF, doubled) == []
    assert [(at, slip.kind, slip.row) for at, slip, _ in told(MOTIF, MOTIF, doubled)] == [(2, "doubled", 3 + 6)]
    assert told(MOTIF, doubled, [*doubled[:6], *doubled[5:]]) == []  # each larger one has a row more


def test_a_plain_row_more_is_ground() -> None:
    assert told(MOTIF, MOTIF, [*MOTIF[:3], "........", *MOTIF[3:]]) == []
    assert told(MOTIF, MOTIF, [MOTIF[0], "........", *MOTIF[1:]]) == []


def test_two_sizes_with_a_row_more_against_two_without_say_nothing() -> None:
    doubled = [*MOTIF[:3], *MOTIF[2:]]
    assert told(MOTIF, doubled, MOTIF, doubled) == []
    assert [(at, slip.kind) for at, slip, _ in told(MOTIF, doubled, MOTIF, MOTIF)] == [(1, "doubled")]
    assert [(at, slip.kind) for at, slip, _ in told(doubled, doubled, doubled, MOTIF)] == [(3, "left-out")]


@pytest.mark.parametrize(
    ("row", "turned"),
    [
        ("XX......", "......XX"),  # the same content at the other end of the motif
        ("XX.X....", "X.XX...."),  # by itself, where it stands
        ("XX.X....", "....X.XX"),  # with the motif's columns
    ],
)
def test_a_row_is_mirrored_within_the_motif_or_by_itself(row: str, turned: str) -> None:
    motif, other = [row, *MOTIF[1:]], [turned, *MOTIF[1:]]
    assert [(at, slip.kind, slip.row) for at, slip, _ in told(motif, motif, other)] == [(2, "mirrored", 3 + 7)]
    elsewhere = ["...XX...", *MOTIF[1:]]  # two stitches of ground more or fewer at either side: no mirror image
    assert told(["XX......", *MOTIF[1:]], ["XX......", *MOTIF[1:]], elsewhere) == []
