"""Where dirt ends and drawing begins: each border of what is taken for a speck, from both its sides.

What is expected follows from the promises and house values of `lint/lintarsia/bringing/smoothing.py`, counted by hand.
"""

import numpy as np
import pytest

from lintarsia.bringing.smoothing import specks, without_specks

Chart = np.ndarray
SHADES = np.array([(240, 235, 220), (30, 30, 40), (190, 40, 50), (60, 110, 160)], np.uint8)


def ground(high: int = 23, wide: int = 29) -> Chart:
    """Enough stitches that twenty specks are dirt yet."""
    return np.zeros((high, wide), np.intp)


def cleaned(chart: Chart, largest: int = 1, shades: np.ndarray = SHADES) -> tuple[Chart, int]:
    return without_specks(shades[chart], chart, largest)


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize(("bar", "away", "gone"), [(3, 2, True), (4, 2, False), (5, 2, False), (5, 3, True)])
def test_dirt_lies_alone(bar: int, away: int, gone: bool, turn: int) -> None:
    """Of the 24 stitches around it, two to each side, 85 % are of one colour: 21, not 20."""
    chart = ground()
    chart[9, 12] = 1
    chart[7 : 7 + bar, 12 + away] = 2
    chart[17:20, 3:6] = 1  # so that colour 1 is not made of specks alone
    made, kept = cleaned(np.rot90(chart, turn))
    expected = chart.copy()
    expected[9, 12] = 0 if gone else 1
    assert kept == 0
    assert (np.rot90(made, -turn) == expected).all()


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize("mirror", [1, -1])
def test_a_speck_in_the_corner_is_one(turn: int, mirror: int) -> None:
    """Eight stitches around it: one of another colour is a eighth, two are a quarter."""
    for beside, gone in ((0, True), (1, True), (2, False)):
        chart = ground()
        chart[0, 0] = 1
        chart[17:20, 3:6] = 1
        chart[2, 3 - beside : 5] = 2
        made, _ = cleaned(np.rot90(chart, turn)[:, ::mirror])
        assert (np.rot90(made[:, ::mirror], -turn)[0, 0] == 0) == gone


def test_a_speck_larger_than_a_stitch_takes_the_colour_around_it_whole() -> None:
    chart = ground()
    chart[8:11, 9:12] = 1
    chart[17:20, 3:8] = chart[2, 20:28] = 1
    made, kept = cleaned(chart, 9)
    assert kept == 0
    assert (made[6:13, 7:14] == 0).all()
    assert (made[17:20, 3:8] == 1).all()


def test_beside_what_is_no_stitch_a_speck_takes_the_colour_of_the_nearest() -> None:
    chart = np.full((20, 31), -1, np.intp)
    chart[:, 14:] = 0
    chart[3:6, 25:29] = 1
    for away, colour in ((3, 0), (7, 0), (8, 1)):
        one = chart.copy()
        one[9, 14 - away] = 1
        made, _ = cleaned(one)
        assert made[9, 14 - away] == colour
        assert (made[9, : 14 - away] == -1).all()


@pytest.mark.parametrize(
    ("columns", "kept"),
    [
        ((2, 6), False),  # two are no dotted line
        ((2, 6, 10), True),
        ((2, 6, 11), False),  # two of three are as far from the next
        ((2, 6, 10, 15), True),  # three of four
        ((2, 6, 10, 15, 21), False),
    ],
)
@pytest.mark.parametrize("upright", [False, True])
def test_specks_at_even_distances_are_a_dotted_line(columns: tuple[int, ...], kept: bool, upright: bool) -> None:
    chart = ground()
    chart[11, list(columns)] = 1
    chart[1:4, 25:28] = 1
    chart = chart.T if upright else chart
    made, _ = cleaned(chart)
    assert (made == chart).all() == kept
    assert (chart != made).sum() == (0 if kept else len(columns))


@pytest.mark.parametrize(("by", "kept"), [(0, True), (3, True), (9, False)])
def test_eyes_are_of_one_shade(by: int, kept: bool) -> None:
    """Of greys about the middle three levels of 255 are 0.011 in OKLab, nine are 0.034; 0.02 is the border."""
    chart = ground()
    chart[9, 6] = chart[9, 13] = 1
    pixels = np.full((*chart.shape, 3), 240, np.uint8)
    pixels[9, 6], pixels[9, 13] = 120, 120 + by
    made, _ = without_specks(pixels, chart, 1)
    assert (made == chart).all() == kept


@pytest.mark.parametrize("largest", [1, 2, 3, 4])
def test_specks_are_taken_out_by_their_size_and_whole(largest: int) -> None:
    """Of one colour, of which there is more: a stitch, two, three and four; the three have a bar beside one end."""
    rows = (2, 8, 17, 25)  # uneven distances
    chart = ground(30, 34)
    for row, size in zip(rows, (1, 2, 3, 4), strict=True):
        chart[row, 4 : 4 + size] = 1
    chart[1:20, 26:32] = 1
    made, kept = cleaned(chart, largest)
    assert kept == 0
    assert [int((made[row, :26] == 1).sum()) for row in rows] == [n if n > largest else 0 for n in (1, 2, 3, 4)]
    chart[15:20, 8] = 2  # two stitches right of the three
    made, _ = cleaned(chart, largest)
    assert (made[17, 4:7] == 1).all()


def test_two_eyes_of_two_stitches_are_a_pair_and_four_of_three_at_even_distances_a_line() -> None:
    chart = ground()
    chart[9, 6:8] = chart[9, 13:15] = 1
    for largest in (2, 3, 5):
        assert (cleaned(chart, largest)[0] == chart).all()
    chart = ground(30, 34)
    chart[9, 6:9] = chart[9, 13:16] = chart[9, 20:23] = chart[10, 27:30] = 1
    chart[20:25, 3:9] = 1
    assert (cleaned(chart, 3)[0] == chart).all()
    chart[9, 13:16] = 0
    made, _ = cleaned(chart, 3)
    assert (made[:15] == 0).all()


@pytest.mark.parametrize("text", ["0", "01", "01 23", "01 .2", "012", "0 1"])
def test_where_all_is_specks_nothing_is_dirt(text: str) -> None:
    """Nothing lies around them that they could be dirt on."""
    chart = np.array([[-1 if c == "." else int(c) for c in row] for row in text.split()], np.intp)
    made, _ = cleaned(chart)
    assert (made == chart).all()


def test_one_stitch_of_a_colour_is_a_speck_and_two_that_are_one_area_as_well() -> None:
    chart = ground()
    chart[9, 6] = 1
    assert (cleaned(chart)[0] == 0).all()
    chart[10, 7] = 1
    assert (cleaned(chart, 2)[0] == 0).all()
    assert (cleaned(chart, 1)[0] == chart).all()


def test_so_many_specks_are_the_pattern_and_that_is_told() -> None:
    """Three in a hundred stitches are dirt yet; what is no stitch does not count."""
    for size, told in ((100, 0), (99, 3)):
        chart = np.zeros((11, 10), np.intp)
        chart[4, 1] = chart[2, 8] = chart[7, 4] = 1
        chart[6:8, 8:10] = 1
        chart.reshape(-1)[size:] = -1
        made, kept = cleaned(chart)
        assert kept == told
        assert (made != chart).sum() == (0 if told else 3)


def test_a_long_thin_area_is_no_speck_however_it_winds() -> None:
    """Stitches that touch at corners alone, the way back and forth."""
    chart = ground(12, 15)
    for row in range(2, 10):
        chart[row, 3 + row % 2] = 1
    for largest in (1, 3, 7):
        assert not specks(chart, largest).any()
    assert specks(chart, 8).sum() == 8
    assert (specks(chart, 8) == (chart == 1)).all()
    assert not specks(np.where(chart == 1, -1, 0), 8).any(), "holes are no specks"
