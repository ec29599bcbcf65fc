"""Decreases inside a row, as a crown has them: each named where the chart shows that a stitch goes."""

from dataclasses import replace

from lintarsia.chart import Chart
from lintarsia.chart.shaping import ChangeKind
from lintarsia.chart.sides import Stint
from lintarsia.written.order import YarnStretch, usual_stitch
from lintarsia.written.stintwords import split

MOST_TOGETHER = 3  # stitches; more are not worked as one (common practice)


def inside_decreases(chart: Chart, stint: Stint) -> dict[int, str]:
    """Which stitches of a stint are decreases, by place in working order, and their names; none where the chart does
    not show each of them. A stitch that goes is worked together with the next, the last of a row with the one before.
    """
    if stint.half is not None or len(stint.changes) != 1 or stint.changes[0].edge is not None:
        return {}
    gone = _gone(chart, stint)
    if stint.changes[0].kind is not ChangeKind.DECREASE or len(gone) != stint.changes[0].stitches:
        return {}
    real = _in_order([int(c) for c in range(*stint.columns) if chart.grid.cells[stint.row - 1, c] >= 0], stint)
    place = {column: at for at, column in enumerate(real)}
    with_next: dict[int, int] = {}
    with_last = 0
    for column in gone:
        after = next((c for c in real if (c < column) == stint.leftward), None)
        with_last += after is None
        if after is not None:
            with_next[place[after]] = with_next.get(place[after], 1) + 1
    if any(number > MOST_TOGETHER for number in with_next.values()) or with_last > 1 or not real:
        return {}
    purled = usual_stitch(chart, stint.row) == "p"
    names = {at: f"{'p' if purled else 'k'}{number}tog" for at, number in with_next.items()}
    if with_last and len(real) - 1 in names:
        return {}
    return {**names, len(real) - 1: "ssp" if purled else "ssk"} if with_last else names


def _gone(chart: Chart, stint: Stint) -> list[int]:
    """The columns that have a stitch in the row below and none in this one, in working order; none where the lines of
    the two rows differ in length, so that it is not said which stitch stands above which."""
    row, rows = stint.row, chart.grid.rows
    if row < 2 or len(rows[row - 2]) != len(rows[row - 1]):
        return []
    below, here = chart.grid.cells[row - 2] >= 0, chart.grid.cells[row - 1] >= 0
    return _in_order([at for at, ends in enumerate((below & ~here).tolist()) if ends], stint)


def _in_order(columns: list[int], stint: Stint) -> list[int]:
    return columns[::-1] if stint.leftward else columns


def with_decreases(runs: list[YarnStretch], names: dict[int, str]) -> list[YarnStretch]:
    """The stretches with the decreases set in by name."""
    found: list[YarnStretch] = []
    at = 0
    for place in sorted(names):
        before, runs = split(runs, place - at)
        (made,), runs = split(runs, 1)
        found += [*before, replace(made, stitch=names[place])]
        at = place + 1
    return [*found, *runs]
