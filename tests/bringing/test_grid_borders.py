"""Squared paper and cells at the border of what is found: each threshold of `lint/lintarsia/bringing/gridding.py` from
both its sides. The sheets are drawn here pixel by pixel, so how many cells they have is known; every one is looked at
upright and lying on its side.
"""

import numpy as np
import pytest

from lintarsia.bringing.arrays import Floats
from lintarsia.bringing.gridding import Axis, _outermost, find_grid
from lintarsia.bringing.picture import to_grid

Page = np.ndarray
INK, GROUND, PAPER = 90, 200, 250
HALF = np.random.default_rng(3).permutation(np.arange(9 * 12) % 2).reshape(9, 12)  # half the stitches, anyhow


def sheet(columns: int, rows: int, cell: int = 10, *, ink: int = INK, margin: int = 0) -> Page:
    """Plain squared paper with lines of one pixel, the outermost too, and a margin below and right of it."""
    page = np.full((rows * cell + 1 + margin, columns * cell + 1 + margin, 3), PAPER, np.uint8)
    grid = page[: rows * cell + 1, : columns * cell + 1]
    grid[:] = GROUND
    grid[::cell] = grid[:, ::cell] = ink
    return page


def without(page: Page, *columns: int, cell: int = 10) -> Page:
    """The sheet without these of its upright lines, but where the others cross them."""
    for column in columns:
        page[np.arange(len(page)) % cell != 0, column * cell] = GROUND
    return page


def cells(chart: np.ndarray, *greys: int, size: int = 10) -> Page:
    return np.array([(g, g, g) for g in greys], np.uint8)[chart].repeat(size, axis=0).repeat(size, axis=1)


def found(page: Page) -> tuple[tuple[int, bool], tuple[int, bool]] | None:
    """How many columns and rows, and whether lines were seen; the same whichever side is up."""
    upright, lying = find_grid(page), find_grid(page.transpose(1, 0, 2))
    if upright is None or lying is None:
        assert upright is lying
        return None
    assert (upright.across, upright.down) == (lying.down, lying.across)
    return (upright.across.cells, upright.across.lined), (upright.down.cells, upright.down.lined)


def lines(columns: int, rows: int) -> tuple[tuple[int, bool], tuple[int, bool]]:
    return (columns, True), (rows, True)


@pytest.mark.parametrize(("ink", "seen"), [(187, True), (188, False), (212, False), (213, True)])
def test_a_line_is_more_than_twelve_levels_darker_or_lighter_than_both_its_sides(ink: int, seen: bool) -> None:
    assert found(sheet(11, 9, ink=ink)) == (lines(11, 9) if seen else None)


@pytest.mark.parametrize(("rows", "seen"), [(20, False), (21, True)])
def test_a_dotted_line_is_seen_in_more_than_a_fifth_of_the_rows(rows: int, seen: bool) -> None:
    """Of the 101 rows of pixels; in the ten lines that cross it nothing is to be seen of it."""
    page = sheet(12, 10)
    between = np.flatnonzero(np.arange(101) % 10)
    left_out = np.setdiff1d(between, between[np.linspace(0, len(between) - 1, rows).astype(int)])
    page[left_out] = GROUND
    assert found(page) == (lines(12, 10) if seen else None)


@pytest.mark.parametrize(
    ("columns", "missing", "seen"),
    # The outermost lines have paper on no side, and are not looked at: of ten lines inside one may be missing.
    [(11, [3], True), (10, [3], False), (21, [3, 6], True), (20, [3, 6], False), (21, [3, 6, 9], False)],
)
def test_nine_lines_of_ten_have_to_be_drawn(columns: int, missing: list[int], seen: bool) -> None:
    assert found(without(sheet(columns, 9), *missing)) == (lines(columns, 9) if seen else None)


@pytest.mark.parametrize(("columns", "seen"), [(4, True), (5, True), (3, False)])
def test_a_grid_has_four_cells_along_each_side(columns: int, seen: bool) -> None:
    page = np.full((151, 140, 3), PAPER, np.uint8)
    page[30:121, 30 : 31 + 10 * columns] = sheet(columns, 9)
    made = find_grid(page)
    assert (made is not None and made.lined and made.across.cells == columns) == seen


@pytest.mark.parametrize(("left", "counted"), [(17, False), (18, True), (20, True)])
@pytest.mark.parametrize("first", [False, True])
def test_of_a_lined_cell_a_tenth_may_be_cut_away(left: int, counted: bool, first: bool) -> None:
    """Cells of twenty pixels, of which so many are left beside the last line, or the first."""
    page = sheet(14, 9, 20)[:, : 10 * 20 + 1 + left]
    page = page[:, ::-1] if first else page
    assert found(page) == lines(11 if counted else 10, 9)
    made = find_grid(page)
    assert made is not None
    assert made.across.start == pytest.approx((left - 20 * counted if first else 0) + 0.5, abs=0.2)


@pytest.mark.parametrize(("crossed", "counted"), [(6, False), (7, True), (10, True)])
@pytest.mark.parametrize("first", [False, True])
def test_beside_the_last_line_are_cells_where_seven_of_ten_lines_go_on(
    crossed: int, counted: bool, first: bool
) -> None:
    page = sheet(11, 9, margin=10)
    page[91:, np.arange(1, crossed + 1) * 10] = INK
    assert found(page[::-1] if first else page) == lines(11, 10 if counted else 9)


def test_lines_that_go_on_beyond_the_picture_s_edge_make_no_second_row() -> None:
    """Room for one more row of cells, and half a one: that is cut away by more than a tenth."""
    page = sheet(11, 9, margin=15)
    page[91:, np.arange(1, 11) * 10] = INK
    assert found(page) == lines(11, 10)


@pytest.mark.parametrize(("cut", "cells_left"), [(0, 12), (1, 12), (3, 12), (4, 11), (5, 11), (9, 11)])
@pytest.mark.parametrize("first", [False, True])
def test_without_lines_most_of_a_cell_counts_as_one(cut: int, cells_left: int, first: bool) -> None:
    """More than six of ten pixels."""
    page = cells(HALF, 100, 200)
    assert found(page[:, cut:] if first else page[:, : 120 - cut]) == ((cells_left, False), (9, False))


def test_a_picture_of_more_than_a_thousand_pixels() -> None:
    """Of so large a one not every pixel says how much the whole varies."""
    assert found(cells(np.tile(HALF[:4], (1, 9)), 100, 200)) == ((108, False), (4, False))


@pytest.mark.parametrize("cut", [0, 3, 6])
def test_the_colour_of_a_cell_is_that_of_its_middle_wherever_the_picture_begins(cut: int) -> None:
    page, y, x = cells(HALF, 100, 200), *np.mgrid[:90, :120] % 10
    rim = (np.minimum(y, x) < 2) | (np.maximum(y, x) > 7)
    page[rim] = 0.8 * page[rim] + 30
    for part, chart in ((page[cut:, cut:], HALF[cut > 3 :, cut > 3 :]), (page[: 90 - cut], HALF[: 9 - (cut > 4)])):
        made = find_grid(part)
        assert made is not None
        assert (made.take(part)[:, :, 0] == np.array([100, 200])[chart]).all()


def test_the_middle_half_of_each_cell() -> None:
    assert Axis(8, 0, 3, lined=False).middles() == [slice(2, 6), slice(10, 14), slice(18, 22)]
    assert Axis(8, -3, 2, lined=False).middles() == [slice(0, 4), slice(7, 11)]
    assert Axis(4, 5.5, 1, lined=True).middles() == [slice(6, 8)]


@pytest.mark.parametrize(("grain", "seen"), [(18, True), (19, False)])
def test_grain_within_cells_is_an_eighth_of_all_that_varies(grain: int, seen: bool) -> None:
    """Cells are 50 levels from the mean: 18² is 0.115 of 50² + 18², 19² is 0.126; 0.12 is the border."""
    y, x = np.mgrid[:90, :120]
    page = cells(HALF, 100, 200).astype(int) + np.where((x + y) % 2, grain, -grain)[:, :, None]
    assert (found(page.astype(np.uint8)) is not None) == seen


@pytest.mark.parametrize(
    ("apart", "seen"),
    [((60, 0, 0), False), ((61, 0, 0), True), ((0, 0, 61), True), ((36, 48, 0), False), ((36, 48, 1), True)],
)
def test_cells_are_unlike_from_sixty_levels_on(apart: tuple[int, int, int], seen: bool) -> None:
    """As the crow flies: 36 and 48 make 60."""
    page = np.array([(100, 100, 100), 100 + np.array(apart)], np.uint8)[HALF].repeat(10, axis=0).repeat(10, axis=1)
    assert (found(page) is not None) == seen


@pytest.mark.parametrize(("wide", "seen"), [(1, True), (3, True), (4, False)])
def test_colours_change_within_three_pixels_between_cells(wide: int, seen: bool) -> None:
    """A step spread evenly over four has three quarters of itself within three; four fifths are asked."""
    page = cells(HALF, 100, 220).astype(float)
    padded = np.pad(page, ((0, 0), (wide // 2, wide - 1 - wide // 2), (0, 0)), mode="edge")
    spread = sum(padded[:, at : at + 120] for at in range(wide)) / wide
    assert (found(np.rint(spread).astype(np.uint8)) is not None) == seen


@pytest.mark.parametrize(("at", "seen"), [((4, 4), True), ((0, 0), False), ((0, 4), False), ((3, 11), False)])
def test_four_pairs_of_unlike_cells_at_least(at: tuple[int, int], seen: bool) -> None:
    """One cell that is unlike its neighbours, amid others that are not: at the edge of the picture it has three."""
    chart = HALF.copy()
    chart[at] = 2
    assert (found(cells(chart, 100, 130, 191)) is not None) == seen


def taken(page: Page) -> tuple[int, ...]:
    """Stitches and rows of what is made of a picture."""
    whole = np.dstack([page, np.full(page.shape[:2], 255, np.uint8)])
    return to_grid("a", whole, stitches=None, cell=None, gauge=(20, 20)).colours.shape[1::-1]


@pytest.mark.parametrize("times", [2, 3, 4])
def test_lines_of_some_pixels_are_no_cells(times: int) -> None:
    """All that changes lies on multiples of the line's width, as it does where cells are as wide as that."""
    assert taken(sheet(11, 9, 7).repeat(times, axis=0).repeat(times, axis=1)) == (11, 9)
    assert taken(cells(np.tile(HALF, (2, 3)), 100, 200, size=times)) == (36, 18)


def test_flat_art_whose_cells_are_not_of_one_size_is_no_grid() -> None:
    """A picture of few colours was never a JPEG: what looks like cells of seven and a half pixels was drawn so."""
    page = cells(HALF[np.ix_(np.arange(68) * 2 // 15, np.arange(90) * 2 // 15)], 100, 200, size=1)
    assert taken(page) == (90, 68)
    assert taken(page + np.random.default_rng(3).integers(0, 3, page.shape, np.uint8)) == (12, 9)


def placed(number: int, first: float, size: float = 10.0) -> Floats:
    return np.array([first + size * k for k in range(number)], np.float64)


def outermost(first: float, inner: list[float], last: float) -> tuple[int, int]:
    """Which lines are taken, where so much changes on the first, on those that are surely drawn, and on the last."""
    places = placed(len(inner) + 2, 5.5)
    comb = np.zeros(int(places[-1] + 6))
    comb[(places - 0.5).astype(int)] = [first, *inner, last]
    return _outermost(comb, places, 1, len(inner))


def test_an_outermost_line_is_one_where_half_as_much_changes_as_on_the_others() -> None:
    for much in (20.0, 19.9):
        assert outermost(much, [40.0] * 9, much) == ((0, 10) if much == 20 else (1, 9))
    assert outermost(20.0, [40.0] * 9, 0.0) == (0, 9)
    assert outermost(0.0, [40.0] * 9, 20.0) == (1, 10)


def test_around_a_motif_the_lines_next_to_an_end_say_what_is_usual_there() -> None:
    """Three of them, if less changes there than on the others; else all."""
    low, high = [20.0] * 3, [80.0] * 9
    assert outermost(10.0, low + high, 10.0) == (0, 12)
    assert outermost(10.0, high + low, 10.0) == (1, 13)
    assert outermost(10.0, low[:1] + high, 39.0) == (1, 10)
    assert outermost(40.0, [160.0] * 3 + high, 39.0) == (0, 12)
    assert outermost(30.0, [80.0, 20.0, *high, 20.0, 80.0], 30.0) == (1, 13), "what is asked about says nothing itself"


@pytest.mark.parametrize(("off", "seen"), [(-4, False), (-3, True), (0, True), (1, True), (2, False)])
def test_what_changes_up_to_three_pixels_from_a_line_is_its_own(off: int, seen: bool) -> None:
    places = placed(11, 15.0)
    comb = np.zeros(130)
    comb[places[1:-1].astype(int)] = 40
    comb[places[0].astype(int) + off] = comb[places[-1].astype(int) + off] = 40
    assert _outermost(comb, places, 1, 9) == ((0, 10) if seen else (1, 9))


@pytest.mark.parametrize(("size", "begin", "seen"), [(7.0, 0.4, True), (8.0, 0.4, False), (7.0, 0.6, False)])
def test_between_small_cells_a_line_at_the_picture_s_edge_is_taken_unseen(
    size: float, begin: float, seen: bool
) -> None:
    places = placed(11, begin, size)
    comb = np.zeros(200)
    comb[np.rint(places[1:-1]).astype(int)] = 40
    assert _outermost(comb, places, 1, 9) == (0 if seen else 1, 9)
    ends = placed(11, len(comb) + 1 - begin - 10 * size, size)
    comb[:] = 0
    comb[np.rint(ends[1:-1]).astype(int)] = 40
    assert _outermost(comb, ends, 1, 9) == (1, 10 if seen else 9)
    assert _outermost(comb, ends[1:-1], 0, 8) == (0, 8), "no line further out"
