"""Connected areas against `scipy.ndimage.label`, flat and as a tube."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy import ndimage

from lintarsia.chart.grid import Grid, build_grid
from lintarsia.rules.shared.areas import label_areas, lone_stitches

SIDES = np.array([[0, 1, 0], [1, 1, 1], [0, 1, 0]])
CORNERS = np.ones((3, 3), int)


def grids(symbols: str, width: int = 9, height: int = 8) -> st.SearchStrategy[Grid]:
    row = st.integers(1, width).flatmap(
        lambda n: st.lists(st.text(symbols, min_size=n, max_size=n), min_size=1, max_size=height)
    )
    return row.map(lambda rows: build_grid(rows, "BWR"))


def scipy_labels(cells: NDArray[np.int16], corners: bool) -> NDArray[np.int64]:
    """One label for each area of each colour."""
    labels = np.full(cells.shape, -1)
    for colour in range(3):
        found, count = ndimage.label(cells == colour, structure=CORNERS if corners else SIDES)
        labels[found > 0] = found[found > 0] + labels.max(initial=0) + count
    return labels


def same_areas(one: NDArray[np.int64], two: NDArray[np.int64]) -> bool:
    """Whether two labellings part the stitches in the same way, whatever numbers they use."""
    pairs = set(zip(one.ravel().tolist(), two.ravel().tolist(), strict=True))
    return len(pairs) == len({a for a, _ in pairs}) == len({b for _, b in pairs})


def lone_by_label(grid: Grid, labels: NDArray[np.int64]) -> list[tuple[int, int]]:
    sizes = np.bincount(labels[labels >= 0], minlength=1)
    return [(int(row), int(at)) for row, at in np.argwhere(labels >= 0) if sizes[labels[row, at]] == 1]


@given(grids("BWR"), st.booleans())
def test_flat_areas_are_scipys(grid: Grid, corners: bool) -> None:
    wanted = scipy_labels(grid.cells, corners)
    assert same_areas(label_areas(grid, corners=corners, tube=False), wanted)
    assert lone_stitches(grid, corners=corners, tube=False) == lone_by_label(grid, wanted)


@given(grids("BWR"), st.booleans())
def test_tubes_are_scipys_areas_of_three_copies_side_by_side(grid: Grid, corners: bool) -> None:
    """In the middle one of three copies every stitch has the neighbours it has in the tube."""
    width = grid.width
    wanted = scipy_labels(np.hstack([grid.cells] * 3), corners)
    joined: dict[int, int] = {}

    def root(label: int) -> int:
        while label in joined:
            label = joined[label]
        return label

    for other in (wanted[:, :width], wanted[:, 2 * width :]):
        for a, b in zip(other.ravel().tolist(), wanted[:, width : 2 * width].ravel().tolist(), strict=True):
            if root(a) != root(b):
                joined[root(a)] = root(b)
    middle = np.vectorize(root)(wanted[:, width : 2 * width])
    assert same_areas(label_areas(grid, corners=corners, tube=True), middle)
    assert lone_stitches(grid, corners=corners, tube=True) == lone_by_label(grid, middle)
