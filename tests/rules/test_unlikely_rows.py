"""How usual stitches are among their neighbours: held to plain counting, to symmetry and to learning anew."""

import sys
from pathlib import Path

import numpy as np
import pytest

from lintarsia.rules.shared.neighbours import EXCHANGED, WAYS, Neighbours, count_of_numbers
from lintarsia.rules.shared.slips import moved
from lintarsia.rules.shared.suspect_rows import UNDONE
from lintarsia.rules.shared.unlikely_rows import AT_ONCE, FILE, Table, likeliest, odds_of_slips, table

sys.path.insert(0, str(Path(__file__).parents[2] / "benchmarks"))
import row_slips_learn


def picture(seed: int, height: int = 11, width: int = 9) -> np.ndarray[tuple[int, int], np.dtype[np.int16]]:
    """Of three colours by chance, one of them twice as often, so that it is the ground."""
    return np.array(np.random.default_rng(seed).integers(0, 4, (height, width)) % 3, np.int16)


def test_there_are_as_many_neighbourhoods_as_burnside_counts() -> None:
    """Of 2^14 patterns of neighbours two turns over leave 2^8 and 2^9 as they are, and half a turn 2^7 (Burnside's
    lemma, in any book on groups); each with the stitch of the ground or not, for both neighbourhoods."""
    assert count_of_numbers() == 2 * 2 * (2**14 + 2**8 + 2**9 + 2**7) // 4


@pytest.mark.parametrize("seed", range(3))
def test_seen_from_the_other_side_or_upside_down_each_stitch_has_its_number(seed: int) -> None:
    cells = picture(seed)
    numbers = Neighbours(cells).numbers
    assert np.array_equal(Neighbours(cells[:, ::-1]).numbers, numbers[:, :, ::-1])
    assert np.array_equal(Neighbours(cells[::-1]).numbers, numbers[:, ::-1])


def test_a_neighbour_that_changes_colour_changes_the_numbers_of_those_about_it_alone() -> None:
    cells = np.zeros((11, 9), np.int16)
    other = cells.copy()
    other[5, 4] = 1
    wide, tall = (Neighbours(cells).numbers != Neighbours(other).numbers).nonzero(), np.zeros((2, 11, 9), bool)
    tall[0, 4:7, 2:7] = tall[1, 3:8, 3:6] = True
    assert np.array_equal(np.array(wide), np.array(tall.nonzero()))


@pytest.mark.parametrize("seed", range(6))
def test_odds_are_what_the_whole_picture_gains_with_the_slip_undone(seed: int) -> None:
    dice = np.random.default_rng(seed)
    weights = dice.integers(-9, 10, count_of_numbers()).astype(np.int8)
    known, cells = Table(weights, 0.5, np.arange(WAYS) / 8), picture(seed)
    odds = odds_of_slips(cells, known)
    for row in range(len(cells)):
        for way in range(WAYS):
            made = undone(cells, row, way)
            if made is None or np.array_equal(made, cells):
                assert odds[row, way] == -np.inf
            elif np.bincount(made.ravel()).argmax() == np.bincount(cells.ravel()).argmax():
                gained = int(weights[Neighbours(made).numbers].sum()) - int(weights[Neighbours(cells).numbers].sum())
                assert odds[row, way] == pytest.approx(gained * 0.5 + way / 8)


def test_of_a_picture_in_which_no_slip_undone_changes_anything_nothing_is_likely() -> None:
    known = Table(np.ones(count_of_numbers(), np.int8), 0.5, np.zeros(WAYS))
    assert (odds_of_slips(np.ones((9, 11), np.int16), known) == -np.inf).all()


def test_a_picture_too_large_to_look_up_at_once_has_the_odds_that_its_parts_have() -> None:
    """Its lower rows stand as in a lower picture of the same width, up to where that ends."""
    dice = np.random.default_rng(7)
    known = Table(dice.integers(-9, 10, count_of_numbers()).astype(np.int8), 0.5, np.zeros(WAYS))
    cells, rows, ways = picture(3, 230, 331), np.array([2, 97, 199]), np.array([0, EXCHANGED, 1])
    assert cells.size > AT_ONCE
    assert (np.bincount(cells[:210].ravel()).argmax()) == np.bincount(cells.ravel()).argmax()
    odds = odds_of_slips(cells, known, rows, ways)
    assert np.array_equal(odds[:210], odds_of_slips(cells[:210], known, rows, ways))
    assert np.isfinite(odds[rows, ways]).all()


def undone(
    cells: np.ndarray[tuple[int, int], np.dtype[np.int16]], row: int, way: int
) -> np.ndarray[tuple[int, int], np.dtype[np.int16]] | None:
    made = cells.copy()
    if way == EXCHANGED:
        if row + 1 == len(cells):
            return None
        made[[row, row + 1]] = cells[[row + 1, row]]
    else:
        kind, by = UNDONE[way]
        made[row] = cells[row][::-1] if kind == "mirrored" else moved(cells[row], -by)
    return made


def test_a_guess_is_worth_less_where_rows_elsewhere_would_be_likelier_otherwise_too() -> None:
    odds = np.full((20, WAYS), -np.inf)
    odds[6, 2] = 3.0
    alone = likeliest(odds)
    odds[[1, 12, 17], [0, 4, 1]] = 0.0
    among = likeliest(odds)
    assert alone is not None
    assert among is not None
    assert (alone.row, alone.way, among.row, among.way) == (6, 2, 6, 2)
    assert alone.score == pytest.approx(3.0)
    assert among.score < alone.score - 2
    assert likeliest(np.full((20, WAYS), -np.inf)) is None


@pytest.mark.slow
def test_learning_anew_from_a_few_pictures_comes_near_the_table_that_is_shipped() -> None:
    shipped, anew = table(), row_slips_learn.learned(500, 8)
    assert len(shipped.weights) == count_of_numbers()
    told = np.argsort(-np.abs(anew.weights.astype(int)))[:100]
    assert np.corrcoef(shipped.weights[told], anew.weights[told])[0, 1] > 0.6
    assert FILE.stat().st_size < 20_000
