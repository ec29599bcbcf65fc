"""Like results gathered, and their places in few words."""

from typing import Any

import pytest

from lintarsia.reporting.groups import groups, places
from lintarsia.result import Level, Region, Result


def result(row: int | None, stitches: tuple[int, int] | None = None, **more: object) -> Result:
    said: dict[str, object] = {"rule": "area/single-stitch", "key": "alone", "level": Level.WARNING, "file": "a"}
    said |= {"message": f"row {row}", "region": Region(100 - (row or 0), 3, 100, 4), "row": row, "stitches": stitches}
    return Result(**(said | more))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("where", "told"),
    [
        ([(3, (7, 7))], ["row 3: stitch 7"]),
        ([(3, (7, 8))], ["row 3: stitches 7–8"]),
        ([(3, (7, 7)), (3, (9, 9)), (3, (10, 12))], ["row 3: stitches 7, 9–12"]),
        ([(3, (7, 7)), (4, (7, 7)), (5, (7, 7)), (9, (7, 7))], ["rows 3–5: stitch 7", "row 9: stitch 7"]),
        ([(3, (7, 7)), (4, (8, 8))], ["row 3: stitch 7", "row 4: stitch 8"]),
        ([(3, None), (4, None)], ["rows 3–4"]),
        ([(9, (2, 2)), (8, (2, 2))], ["rows 8–9: stitch 2"]),
        ([(3, (1, 5)), (3, (2, 3))], ["row 3: stitches 1–5"]),
        ([(None, None)], []),
    ],
)
def test_places(where: list[tuple[int | None, tuple[int, int] | None]], told: list[str]) -> None:
    assert places([result(row, stitches) for row, stitches in where]) == told


def test_rounds_are_called_rounds() -> None:
    assert places([result(1), result(2)], "round") == ["rounds 1–2"]


def test_a_hundred_like_results_are_one_entry() -> None:
    gathered = groups([result(row, (1, 1)) for row in range(1, 101)])
    assert [len(group) for group in gathered] == [100]


def test_two_like_results_stay_apart() -> None:
    assert [len(group) for group in groups([result(1), result(2)])] == [1, 1]


def test_results_without_a_row_are_gathered_from_the_second_on() -> None:
    assert [len(group) for group in groups([result(None), result(None)])] == [2]


def test_unlike_results_stay_apart() -> None:
    rows = range(1, 4)
    kinds: list[dict[str, Any]] = [{}, {"file": "b"}, {"key": "pair"}, {"rule": "colour/unused"}, {"level": Level.NOTE}]
    gathered = groups([result(row, **kind) for row in rows for kind in kinds])
    assert [len(group) for group in gathered] == [3] * 5


def test_suppressed_results_are_left_out() -> None:
    assert groups([result(1, suppressed=True)]) == []
