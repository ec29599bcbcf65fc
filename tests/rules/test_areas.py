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


@given(grids("BWR."), st.booleans(), st.integers(0, 8), st.integers(0, 7))
def test_across_an_opening_no_stitch_touches_another(grid: Grid, corners: bool, split: int, first: int) -> None:
    """The sides of a piece parted from row `first` up are apart: against flood filling from each stitch."""
    sides = np.zeros(grid.cells.shape, np.int16)
    sides[first:, :split], sides[first:, split:] = 1, 2
    labels = label_areas(grid, corners=corners, tube=False, sides=sides)
    assert lone_stitches(grid, corners=corners, tube=False, sides=sides) == lone_by_label(grid, labels)
    for row, column in np.argwhere(grid.cells >= 0).tolist():
        reached = {tuple(at) for at in np.argwhere(labels == labels[row, column]).tolist()}
        assert reached == flooded(grid, sides, (row, column), corners=corners)


def flooded(grid: Grid, sides: NDArray[np.int16], start: tuple[int, int], *, corners: bool) -> set[tuple[int, int]]:
    found, front = {start}, [start]
    while front:
        row, column = front.pop()
        for other in near(grid, row, column, corners=corners):
            parted = sides[other] and sides[row, column] and sides[other] != sides[row, column]
            if other not in found and grid.cells[other] == grid.cells[row, column] and not parted:
                found.add(other)
                front.append(other)
    return found


def near(grid: Grid, row: int, column: int, *, corners: bool) -> list[tuple[int, int]]:
    """The places beside a stitch: the next stitch to either hand, whatever no-stitch squares between; above, below."""
    line = [at for at in range(grid.width) if grid.cells[row, at] >= 0]
    here = line.index(column)
    places = [(row, at) for at in (*line[max(0, here - 1) : here], *line[here + 1 : here + 2])]
    steps = [(-1, 0), (1, 0), *([(-1, -1), (-1, 1), (1, -1), (1, 1)] if corners else [])]
    places += [(row + up, column + on) for up, on in steps]
    return [at for at in places if 0 <= at[0] < grid.height and 0 <= at[1] < grid.width and grid.cells[at] >= 0]
