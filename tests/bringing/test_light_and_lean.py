"""How far askew a sheet may lie before it is turned, and how uneven light may be: each border from both its sides."""

import dirty
import numpy as np
import pytest

from folding import each, slow
from lintarsia.bringing import Wishes, bring
from lintarsia.bringing.straightening import evened, straight, too_askew
from lintarsia.ground.trouble import Trouble

Page = np.ndarray
PAPER = [250, 240, 230, 255]


def leaning(degrees: float, tall: int = 150, broad: int = 190) -> Page:
    """Plain squared paper of one grey that leans by so many degrees, to the one side or the other; RGBA."""
    y, x = np.mgrid[:tall, :broad] - np.array([tall / 2, broad / 2])[:, None, None]
    lean = np.radians(degrees)
    along, down = x * np.cos(lean) + y * np.sin(lean), y * np.cos(lean) - x * np.sin(lean)
    line = np.minimum(np.abs((along + 400) % 10 - 5), np.abs((down + 400) % 10 - 5))
    grey = np.clip(90 + 110 * (line - 0.4), 90, 200)
    return np.dstack([grey, grey, grey, np.full(grey.shape, 255)]).astype(np.uint8)


@pytest.mark.parametrize("degrees", [0.5, -2.2, *slow(1.3, 2.9, -0.5, -2.9)])
def test_a_sheet_is_turned_by_as_much_as_it_leans(degrees: float) -> None:
    page, told = straight(leaning(degrees, 330, 410))
    assert told == pytest.approx(abs(degrees), abs=0.05)
    assert straight(page)[1] == 0.0, "the other way it would lean twice as far"
    assert page.shape == (330, 410, 4)


@each("degrees", [2.9, 3.2, -4.0, 9.0])
def test_a_sheet_that_leans_further_than_is_turned_is_known(degrees: float) -> None:
    assert too_askew(leaning(degrees)) is (abs(degrees) > 3)


def test_a_sheet_too_far_askew_is_refused_with_the_reason() -> None:
    """At three degrees it has a lesser comb, by which it was once turned and read as a chart that nobody drew."""
    scan = dirty.askew(dirty.squared(dirty.mushroom()), 5.0)
    with pytest.raises(Trouble, match=r"'page.jpg' looks like squared paper .* more than 3°.*straighten it first"):
        bring("page.jpg", scan)
    assert len(bring("page.jpg", scan, Wishes(stitches=12)).rows[0]) == 12


def test_what_comes_in_at_the_corners_is_as_the_most_of_the_rim() -> None:
    page = leaning(2.5)
    page[1:-1, 1:-1, :3] //= 2
    page[0], page[-1], page[:, 0], page[: len(page) // 3, -1] = PAPER, PAPER, PAPER, (9, 9, 9, 255)
    turned, _ = straight(page)
    assert turned[0, -1].tolist() == turned[-1, 0].tolist() == PAPER


@pytest.mark.parametrize("degrees", [0.0, 0.2, -0.2, 0.4, -0.4])
def test_so_little_is_not_worth_a_turn(degrees: float) -> None:
    """Over four hundred pixels 0.4 degrees are not three; turning would cost sharpness and win less than a tenth."""
    page = leaning(degrees, 330, 410)
    turned, told = straight(page)
    assert told == 0.0
    assert turned is page


@pytest.mark.parametrize(("tall", "broad"), [(31, 300), (300, 31), (33, 410), (410, 33)])
def test_of_a_strip_the_long_side_says_how_it_leans(tall: int, broad: int) -> None:
    assert straight(leaning(2.0, tall, broad))[1] == pytest.approx(2.0, abs=0.2)


@pytest.mark.parametrize(("tall", "broad"), [(15, 15), (12, 31), (31, 12), (1, 400), (400, 1), (2, 2)])
def test_too_small_a_picture_is_left_as_it_is(tall: int, broad: int) -> None:
    """Fewer than four cells of four pixels along the one side, and too little to compare along the other."""
    assert straight(leaning(2.0, tall, broad))[1] == 0.0


SAND = np.array([200.0, 120.0, 80.0])


def shaded(across: float, down: float, rows: int = 20, columns: int = 25) -> Page:
    """One colour in uneven light, as bright as it is in the middle; the logarithms of its ends differ by so much."""
    y, x = np.mgrid[:rows, :columns]
    light = across * (x / max(1, columns - 1) - 0.5) + down * (y / max(1, rows - 1) - 0.5)
    return SAND * np.exp(light)[:, :, None]


@pytest.mark.parametrize(
    ("across", "down", "rows", "columns"),
    [(0.3, 0, 20, 25), (-0.2, 0, 20, 25), (0, 0.5, 20, 25), (0, -0.25, 20, 25), (0.2, 0.1, 20, 25), (-0.1, 0.3, 7, 8),
     (0.3, 0, 1, 25), (0, 0.3, 20, 1), (0.3, 0, 3, 2), (0, -0.3, 2, 3)],
)  # fmt: skip
def test_uneven_light_is_told_from_edge_to_edge_and_evened(across: float, down: float, rows: int, columns: int) -> None:
    even, share = evened(shaded(across, down, rows, columns))
    assert share == pytest.approx(1 - np.exp(-abs(across) - abs(down)))
    assert (even == SAND).all()
    assert even.dtype == np.uint8


@pytest.mark.parametrize(("share", "told"), [(0.14, False), (0.149, False), (0.151, True), (0.16, True)])
def test_a_seventh_less_light_is_nothing_to_even_out(share: float, told: bool) -> None:
    for across, down in ((1.0, 0.0), (0.0, -1.0), (0.5, 0.5), (-0.25, 0.75)):
        page = shaded(across * np.log(1 - share), down * np.log(1 - share))
        even, found = evened(page)
        assert found == (pytest.approx(share) if told else 0.0)
        assert (even is page) != told


def test_what_is_white_or_black_stays_so_in_even_light() -> None:
    page = shaded(0.6, 0.0)
    page[3:6, 2:4], page[9:11, 20:23] = 250, 0
    even, share = evened(page)
    assert share == pytest.approx(1 - np.exp(-0.6))
    assert (even[3:6, 2:4] == 255).all()
    assert (even[9:11, 20:23] == 0).all()
    assert evened(np.zeros((4, 5, 3), np.uint8))[1] == 0.0
