"""What is a halo and what was drawn: each border of `lint/lintarsia/bringing/halos.py` from both its sides.

A seam runs down a small picture between a dark area at the left and a light one at the right. The stitches in it are
mixtures of the two by the parts that a test says; what each takes, counted by hand, is 0 for dark, 1 for light, 2 for
the seam's own.
"""

from collections.abc import Sequence

import numpy as np
import pytest

from lintarsia.bringing.halos import without_halos

SHADES = np.array([(20, 20, 20), (220, 220, 220), (120, 120, 120)], np.uint8)
SOFT = [0.2, 0.4, 0.6, 0.8, 0.3, 0.7, 0.9, 0.1]  # eight stitches, of ever other parts


def seam(
    parts: Sequence[float],
    *,
    off: Sequence[int] = (),
    gap: Sequence[int] = (),
    high: int = 0,
    wide: int = 15,
    clear: int = 0,
) -> list[int]:
    """What the seam's stitches take, from the top down. `off` is by how many levels red is more and green less than in
    the mixture, `gap` how many dark stitches lie between the seam and the light area; `clear` rows at the bottom are
    no stitches, whatever stands there."""
    high, at = max(high, len(parts)), 8
    which = np.zeros((high, wide), np.intp)
    which[:, at + 1 :] = 1
    for row, stitches in enumerate(gap):
        which[row, at : at + 1 + stitches] = 0
    which[: len(parts), at] = 2
    colours = SHADES[which]
    for row, part in enumerate(parts):
        red = off[row] if off else 0
        colours[row, at] = np.rint(20 + 200 * part) + np.array([red, -red, 0])
    solid = np.arange(high)[:, None].repeat(wide, axis=1) < high - clear
    made = without_halos(colours, which, solid, SHADES)
    assert (made[:, :at] == which[:, :at]).all()
    assert (made[:, at + 1 :] == which[:, at + 1 :]).all()
    return [int(taken) for taken in made[: len(parts), at]]


def test_each_mixture_takes_the_nearer_of_its_two_shades() -> None:
    assert seam(SOFT) == [0, 0, 1, 1, 0, 1, 1, 0]
    assert seam([0.2, 0.49, 0.5, 0.8]) == [0, 0, 1, 1]


def test_what_is_all_but_a_shade_s_own_is_no_mixture_and_takes_what_most_take() -> None:
    """Less than a twenty-fifth of the one or the other."""
    assert seam([0.05, 0.1, 0.3, 0.7, 0.2, 0.955]) == [0, 0, 0, 1, 0, 1]
    assert seam([0.03, 0.8, 0.7, 0.3, 0.7, 0.9]) == [1, 1, 1, 0, 1, 1]
    assert seam([0.97, 0.2, 0.3, 0.7, 0.1, 0.4]) == [0, 0, 0, 1, 0, 0]


@pytest.mark.parametrize(("off", "halo"), [(0, True), (39, True), (40, False), (-39, True), (-40, False)])
def test_a_mixture_lies_near_the_line_between_its_shades(off: int, halo: bool) -> None:
    """The shades are 346.4 apart, 0.16 of which is 55.4, and that is 39.2 levels of red more and of green less."""
    taken = seam(SOFT, off=[off] * 8)
    assert taken == ([0, 0, 1, 1, 0, 1, 1, 0] if halo else [2] * 8)


@pytest.mark.parametrize(("off", "number", "halo"), [(78, 4, True), (79, 4, False), (78, 5, False), (39, 5, True)])
def test_so_few_may_lie_twice_as_far_off(off: int, number: int, halo: bool) -> None:
    """Fewer than five in a thousand stitches."""
    parts = [0.4, 0.6, 0.45, 0.7, 0.4][:number]
    taken = seam(parts, off=[off] * number, high=25, wide=40)
    assert (taken == [0, 1, 0, 1, 0][:number]) == halo
    assert (taken == [2] * number) != halo


@pytest.mark.parametrize(("number", "odd", "halo"), [(10, 2, True), (9, 2, False), (5, 1, True), (8, 2, False)])
def test_four_of_five_have_to_be_mixtures(number: int, odd: int, halo: bool) -> None:
    """The others are no mixtures of these two: too red. They take what the most of the others take, the dark."""
    parts = [0.1, 0.7, 0.3, 0.2, 0.4, 0.1, 0.2, 0.3, 0.3, 0.2][:number]
    taken = seam(parts, off=[60] * odd + [0] * (number - odd))
    expected = [0] * odd + [int(part >= 0.5) for part in parts[odd:]]
    assert taken == (expected if halo else [2] * number)


@pytest.mark.parametrize(("close", "halo"), [(8, True), (2, True), (1, False)])
def test_half_of_them_lie_near_both(close: int, halo: bool) -> None:
    """Within two stitches to every side: from the rows in which the light is near, it is also two rows further down."""
    taken = seam(SOFT, gap=[1] * close + [2] * (8 - close))
    assert taken == ([0, 0, 1, 1, 0, 1, 1, 0] if halo else [2] * 8)


def test_a_few_need_not_lie_near_both() -> None:
    taken = seam([0.4, 0.6, 0.3, 0.8], gap=[2] * 25, high=25, wide=40)
    assert taken == [0, 1, 0, 1]
    assert seam([0.4, 0.6, 0.3, 0.8, 0.2], gap=[2] * 25, high=25, wide=40) == [2] * 5


@pytest.mark.parametrize(
    ("parts", "halo"),
    [
        ([0.4, 0.6, 0.4, 0.6], True),  # a tenth about the mean
        ([0.425, 0.575, 0.425, 0.575], True),  # 0.075; 0.07 is the border
        ([0.44, 0.56, 0.44, 0.56], False),
        ([0.5, 0.5, 0.5, 0.5, 0.5], False),  # an outline
        ([0.3, 0.7, 0.5], False),  # three
        ([0.3, 0.7, 0.5, 0.4], True),
    ],
)
def test_soft_edges_mix_in_ever_other_parts_and_in_four_at_least(parts: list[float], halo: bool) -> None:
    taken = seam(parts)
    assert taken == ([int(part >= 0.5) for part in parts] if halo else [2] * len(parts))


def test_what_is_no_stitch_counts_for_nothing() -> None:
    assert seam(SOFT, high=12, clear=4) == [0, 0, 1, 1, 0, 1, 1, 0]
    assert seam(SOFT, clear=5) == [2] * 8, "three are left"
    taken = seam(SOFT, clear=4)
    assert taken == [0, 0, 1, 1, 2, 2, 2, 2], "what is no stitch stays as it is"


@pytest.mark.parametrize(("long", "halo"), [(14, True), (13, False)])
def test_halos_are_thin(long: int, halo: bool) -> None:
    """A seam that is three stitches wide for three rows: one stitch amid eight of their own, of twenty or of less."""
    which = np.zeros((long + 4, 18), np.intp)
    which[:, 9:] = 1
    which[2 : 2 + long, 8] = which[4:7, 7:10] = 2
    colours = SHADES[which]
    for number, (row, column) in enumerate(np.argwhere(which == 2)):
        colours[row, column] = 20 + 200 * (0.2, 0.4, 0.7)[number % 3]
    made = without_halos(colours, which, np.ones(which.shape, bool), SHADES)
    assert (which == 2).sum() == long + 6
    assert bool((made != 2).all()) == halo
    assert bool((made == which).all()) != halo
