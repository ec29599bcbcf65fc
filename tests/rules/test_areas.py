"""Areas against the definition where scipy has no word for it; tests/reference has the comparison with scipy."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from lintarsia.chart.grid import Grid, build_grid
from lintarsia.rules.shared.areas import label_areas, lone_by_arrays, lone_stitches


def grids(symbols: str, width: int = 9, height: int = 8) -> st.SearchStrategy[Grid]:
    row = st.integers(1, width).flatmap(
        lambda n: st.lists(st.text(symbols, min_size=n, max_size=n), min_size=1, max_size=height)
    )
    return row.map(lambda rows: build_grid(rows, "BWR"))


def lone_by_label(grid: Grid, labels: NDArray[np.int64]) -> list[tuple[int, int]]:
    sizes = np.bincount(labels[labels >= 0], minlength=1)
    return [(int(row), int(at)) for row, at in np.argwhere(labels >= 0) if sizes[labels[row, at]] == 1]


@given(grids("BWR", width=5), st.booleans(), st.booleans())
def test_few_stitches_one_by_one_are_all_stitches_by_arrays(grid: Grid, corners: bool, tube: bool) -> None:
    wanted = lone_by_arrays(grid, corners=corners, tube=tube)
    assert lone_stitches(grid, corners=corners, tube=tube) == wanted


@given(grids("BW."), st.booleans(), st.booleans())
def test_lone_stitches_are_areas_of_one_also_among_no_stitches(grid: Grid, corners: bool, tube: bool) -> None:
    labels = label_areas(grid, corners=corners, tube=tube)
    assert lone_stitches(grid, corners=corners, tube=tube) == lone_by_label(grid, labels)


def test_no_stitch_cells_do_not_part_a_row() -> None:
    grid = build_grid(["BBBBB", "W...W", "BBBBB"], "BW")
    assert lone_stitches(grid, corners=True, tube=False) == []
    assert lone_stitches(build_grid(["BBBBB", "W.B.W", "BBBBB"], "BW"), corners=True, tube=False) == [(1, 0), (1, 4)]


def test_the_seam_of_a_tube_lies_between_the_real_stitches_of_a_shaped_row() -> None:
    grid = build_grid(["BBBBBB", ".WBBW.", ".BBBB."], "BW")
    assert lone_stitches(grid, corners=True, tube=False) == [(1, 1), (1, 4)]
    assert lone_stitches(grid, corners=True, tube=True) == []


def test_a_column_wide_tube_is_not_its_own_neighbour() -> None:
    assert lone_stitches(build_grid(["B", "W", "B"], "BW"), corners=True, tube=True) == [(0, 0), (1, 0), (2, 0)]
