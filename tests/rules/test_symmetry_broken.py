"""symmetry/broken against what numpy says of the whole array: flips, half turns and tiles, on arbitrary charts."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import NoOptions, Work

HEAD = "lintarsia: 1\ntitle: A\ngauge: {stitches: 22, rows: 30, over: 10 cm}\n"
KEY = 'colours:\n  B: {name: Blue, shade: "#27406b"}\n  W: {name: Bone, shade: "#efe9dc"}\n'


def found(rows: list[str], symmetry: str, extra: str = "") -> list[tuple[int | None, tuple[int, int] | None]]:
    text = f"{HEAD}{extra}symmetry: [{symmetry}]\n{KEY}chart: |\n" + "".join(f"  {row}\n" for row in rows)
    chart = read_chart("a.chart.yaml", text.encode()).chart
    assert chart is not None
    check = catalogue.load("symmetry/broken").check
    assert check is not None
    return [(finding.row, finding.stitches) for finding in check(Work(chart), NoOptions())]


grids = st.integers(1, 7).flatmap(
    lambda width: st.lists(st.text("BW", min_size=width, max_size=width), min_size=1, max_size=6)
)


def stands_off(cells: NDArray[np.str_], symmetry: str) -> bool:
    """Whether some rows or columns of plain ground, taken from one edge, leave a picture that is symmetrical."""
    lines = cells.T if symmetry == "left-right" else cells
    for by in range(1, len(lines)):
        for spare, inside, beside in ((lines[:by], lines[by:], lines[by]), (lines[-by:], lines[:-by], lines[-by - 1])):
            if (spare == beside).all() and (inside == inside[::-1]).all():
                return True
    return False


@settings(max_examples=150, deadline=None)
@given(grids, st.sampled_from(["left-right", "top-bottom", "half-turn"]))
def test_each_broken_pair_is_told_once(rows: list[str], symmetry: str) -> None:
    cells = np.array([list(row) for row in rows])
    turned = {"left-right": cells[:, ::-1], "top-bottom": cells[::-1], "half-turn": cells[::-1, ::-1]}[symmetry]
    told = np.zeros(cells.shape, bool)
    for row, stitches in found(rows, symmetry):
        if row is None:  # the whole motif stands off the middle: then it is the same both ways about another line
            assert stands_off(cells, symmetry)
            return
        assert stitches is not None
        width = cells.shape[1]
        told[len(rows) - row, width - stitches[1] : width - stitches[0] + 1] = True
    partner = {"left-right": told[:, ::-1], "top-bottom": told[::-1], "half-turn": told[::-1, ::-1]}[symmetry]
    assert not (told & partner).any()  # one of the two is blamed, never both
    assert ((told | partner) == (cells != turned)).all()


@pytest.mark.parametrize("slip", [(0, 0), (2, 5), (3, 8)])
def test_a_tile_of_numpy_repeats_and_one_changed_stitch_does_not(slip: tuple[int, int]) -> None:
    tile = np.array([list("BWW"), list("WWB")])
    cells = np.tile(tile, (2, 3))
    box = "repeat: {stitches: [1, 3], rows: [1, 2]}\n"
    assert found(["".join(row) for row in cells], "repeat", box) == []
    row, column = slip
    cells[row, column] = "W" if cells[row, column] == "B" else "B"
    result = found(["".join(row) for row in cells], "repeat", box)
    stitch = 9 - column
    if row >= 2 and stitch <= 3:  # in the box itself: all the other tiles differ
        assert len(result) == 5
    else:
        assert result == [(4 - row, (stitch, stitch))]


def test_a_symmetry_that_is_not_there_at_all_is_one_result() -> None:
    assert found(["B" * 20 + "W" * 20] * 40, "left-right") == [(None, None)]
