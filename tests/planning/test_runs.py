"""Runs of single rows, written out by hand."""

import pytest

from lintarsia.chart.grid import build_grid
from lintarsia.planning.runs import find_runs


def runs(rows: list[str], leftward: list[bool]) -> list[tuple]:
    grid = build_grid(rows, "AB")
    found = find_runs(grid, leftward)
    names = ("row", "left", "right", "stitches", "entry", "exit", "start")
    columns = [getattr(found, name).tolist() for name in names]
    return [(grid.symbols[c], *rest) for c, *rest in zip(found.colour.tolist(), *columns, strict=True)]


@pytest.mark.parametrize(
    ("text", "leftward", "expected"),
    [
        pytest.param(
            "AABBB", True, [("B", 0, 2, 4, 3, 4, 2, 0), ("A", 0, 0, 1, 2, 1, 0, 3)], id="right-side row from the right"
        ),
        pytest.param(
            "AABBB", False, [("A", 0, 0, 1, 2, 0, 1, 0), ("B", 0, 2, 4, 3, 2, 4, 2)], id="wrong-side row from the left"
        ),
        pytest.param("A..A", False, [("A", 0, 0, 3, 2, 0, 3, 0)], id="no-stitch cells break no run and do not count"),
        pytest.param(
            ".A.B.", True, [("B", 0, 3, 3, 1, 3, 3, 0), ("A", 0, 1, 1, 1, 1, 1, 1)], id="ends are ends of real stitches"
        ),
        pytest.param(
            "AZ", False, [("A", 0, 0, 0, 1, 0, 0, 0), ("Z", 0, 1, 1, 1, 1, 1, 1)], id="an unknown symbol is a colour"
        ),
    ],
)
def test_runs_of_one_row(text, leftward, expected):
    assert runs([text], [leftward]) == expected


def test_short_row_is_aligned_where_stitch_one_is():
    assert runs(["AAA", "A"], [True, False]) == [("A", 0, 0, 2, 3, 2, 0, 0), ("A", 1, 2, 2, 1, 2, 2, 3)]


def test_run_ends_with_its_row():
    assert [run[1] for run in runs(["AA", "AA"], [True, True])] == [0, 1]
