"""Slips of a row since the last commit, and by rows that ought to be alike: by kind, on pictures drawn here."""

import random
import sys
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from lintarsia.rules.shared.rows_alike import SlipAlike, slip_alike
from lintarsia.rules.shared.rows_before import SlipSince, slip_since

sys.path.insert(0, str(Path(__file__).parents[2] / "benchmarks"))
import row_slips
import row_slips_known

WAS = ["BBBBBBBBBB", "BBWBBBBBBB", "BBWWBBBBBB", "BBWWWRBBBB", "BBWWRRRBBB", "BBBRRRBBBB", "BBBBRBBBBB", "BBBBBBBBBB"]
SEED = 77


def with_rows(**rows: str) -> list[str]:
    """WAS with rows put for others: `with_rows(r4="…")`."""
    made = list(WAS)
    for name, text in rows.items():
        made[int(name[1:]) - 1] = text
    return made


@pytest.mark.parametrize(
    ("now", "expected"),
    [
        (with_rows(r4="BBBWWWRBBB"), SlipSince("shifted", 4, 1)),
        (with_rows(r4="WWWRBBBBBB"), SlipSince("shifted", 4, -2)),
        (with_rows(r4=WAS[3][::-1]), SlipSince("mirrored", 4)),
        (with_rows(r3=WAS[3], r4=WAS[2]), SlipSince("swapped", 3)),
        (with_rows(r5=WAS[3]), SlipSince("copied", 5)),
        ([*WAS[:5], WAS[4], *WAS[5:]], SlipSince("doubled", 6)),
        ([*WAS[:4], *WAS[5:]], SlipSince("left-out", 5)),
        (WAS[:-1], SlipSince("left-out", 7)),
        (WAS[1:], SlipSince("left-out", 1)),
        # What designers do.
        (WAS, None),
        (with_rows(r4="BBWWRRBBBB"), None),
        (with_rows(r3="BBBWWBBBBB", r4="BBBWWWRBBB", r5="BBBWWRRRBB"), None),
        ([*WAS[:5], "BBWWRWRBBB", *WAS[5:]], None),
        ([*WAS[:5], WAS[4], WAS[4], *WAS[5:]], None),
        (with_rows(r6="BBBBRRBBBB"), None),
        ([f"{row}B" for row in WAS], None),
        ([row.replace("R", "W") for row in WAS], None),
        ([], None),
    ],
)
def test_a_slip_since_the_last_commit(now: list[str], expected: SlipSince | None) -> None:
    assert slip_since(WAS, now) == expected


def test_a_slip_is_seen_beside_another_edit() -> None:
    assert slip_since(WAS, with_rows(r1="BBBBBBBBBW", r5="BBBWWRRRBB")) == SlipSince("shifted", 5, 1)


CORPORA = ("drawn motifs", "Unifont's glyphs", "handwritten digits", "blocks with wandering edges")


@cache
def corpora() -> dict[str, list[np.ndarray]]:
    return row_slips.corpora(SEED, 40)


def corpus(name: str) -> list[np.ndarray]:
    assert tuple(corpora()) == CORPORA
    return corpora()[name]


@pytest.mark.parametrize("name", CORPORA)
def test_every_slip_is_told_by_the_commit_and_hardly_an_honest_edit(name: str) -> None:
    rng, rows, edits = random.Random(SEED), 0, 0
    for picture in corpus(name):
        assert all(row_slips_known.told_by_commit(picture, case) for case in row_slips_known.planted(picture, rng))
        for other in row_slips_known.edited(picture, rng):
            rows += len(other)
            edits += slip_since(row_slips_known.texts(picture), row_slips_known.texts(other)) is not None
    assert edits * 200 <= rows


@pytest.mark.parametrize("name", CORPORA)
@pytest.mark.parametrize(("made", "share"), [("three repeats", 0.85), ("half turn", 0.65), ("halves turned over", 0.6)])
def test_most_slips_are_told_by_rows_that_ought_to_be_alike(name: str, made: str, share: float) -> None:
    rng = random.Random(SEED)
    cases = [
        case
        for picture in map(row_slips_known.MADE[made], corpus(name))
        for case in row_slips_known.planted(picture, rng)
    ]
    assert sum(map(row_slips_known.told_by_likeness, cases)) >= share * len(cases)


def test_a_shift_off_the_middle_is_told_whichever_way_it_went() -> None:
    lamp = np.zeros((12, 15), np.int16)
    for row, half in enumerate((0, 1, 3, 5, 4, 6, 5, 3, 4, 2, 1, 0)):
        lamp[row, 7 - half : 8 + half] = 1
    assert slip_alike(lamp) is None
    for by in (-2, -1, 1, 2):
        made = lamp.copy()
        made[4] = row_slips.slips.moved(lamp[4], by)
        assert slip_alike(made) == SlipAlike("shifted", 5, by, "the two sides are alike")
