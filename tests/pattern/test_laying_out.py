"""A piece in full: repeats across and up, plain knitting around a motif, and the arithmetic of its cast-on."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pattern_files import chart_text

from lintarsia.chart import Chart
from lintarsia.pattern.fit import Motif, fit_of
from lintarsia.pattern.laying import lay_out
from lintarsia.pattern.model import ONE_SIZE, Piece
from lintarsia.reading import read_chart


def chart(rows: str, extra: str = "") -> Chart:
    reading = read_chart("a.chart.yaml", chart_text(rows, extra).encode())
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def piece(**said: int | str | None) -> Piece:
    plain = said.pop("plain", None)
    values = {name: {ONE_SIZE: number} for name, number in said.items()}
    return Piece("front", {ONE_SIZE: "a.chart.yaml"}, plain=plain, **values)  # type: ignore[arg-type]


BOX = chart("BWWB BWWB WBBW", "repeat: {stitches: [2, 3], rows: [1, 2]}\n")


def rows_of(made: Chart) -> str:
    """Top row first, as printed."""
    return " ".join(reversed(made.grid.rows))


def test_the_box_is_repeated_and_the_edges_are_not() -> None:
    laid = lay_out(BOX, piece(repeats=3, row_repeats=2), ONE_SIZE)
    assert laid is not None
    assert rows_of(laid.chart) == "BWWWWWWB BWWWWWWB WBBBBBBW BWWWWWWB WBBBBBBW"
    assert (laid.cast_on, laid.widest, laid.rows) == (8, 8, 5)


def test_a_chart_without_a_box_is_repeated_whole() -> None:
    laid = lay_out(chart("BW WB"), piece(repeats=3, row_repeats=2), ONE_SIZE)
    assert laid is not None
    assert rows_of(laid.chart) == "BWBWBW WBWBWB BWBWBW WBWBWB"


def test_a_motif_lies_in_the_middle_or_where_it_is_said_to() -> None:
    motif = chart("WW")
    laid = lay_out(motif, piece(cast_on=5, rows=4, plain="B", at_row=3), ONE_SIZE)
    assert laid is not None
    assert rows_of(laid.chart) == "BBBBB BBWWB BBBBB BBBBB"  # stitches count from the right: one there, two at the left
    assert laid.motif == Motif(right=1, left=2, below=2, above=1, centred=True)
    laid = lay_out(motif, piece(cast_on=5, plain="B", at_stitch=1), ONE_SIZE)
    assert laid is not None
    assert rows_of(laid.chart) == "BBBWW"


def test_shaping_in_row_one_is_made_after_the_cast_on() -> None:
    shaped = chart("BBBB BBBB", "shaping:\n  1: {left: 1}\n")
    assert fit_of(shaped, piece(cast_on=3), ONE_SIZE).over == 0
    assert fit_of(shaped, piece(cast_on=4), ONE_SIZE).over == 1


def test_what_nobody_knits_is_not_laid_out() -> None:
    assert lay_out(BOX, piece(repeats=10**5, row_repeats=10**5), ONE_SIZE) is None


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 6), st.integers(0, 3), st.integers(0, 3), st.integers(1, 9), st.integers(-3, 3))
def test_cast_on_is_repeat_times_n_and_edge(repeat: int, right: int, left: int, times: int, slip: int) -> None:
    """The equation of the trade, both ways: true numbers fit, and a slip is told by as much as it is."""
    width = repeat + right + left
    grid = chart("B" * width, f"repeat: {{stitches: [{right + 1}, {right + repeat}], rows: [1, 1]}}\n")
    cast_on = repeat * times + right + left + slip
    if cast_on < 1:
        return
    assert fit_of(grid, piece(repeats=times, cast_on=cast_on), ONE_SIZE).over == slip
    fit = fit_of(grid, piece(cast_on=repeat * times + right + left), ONE_SIZE)
    assert (fit.repeats, fit.over) == (times, 0)


@pytest.mark.parametrize(("said", "over"), [({"cast_on": 9, "edge": 1}, 0), ({"cast_on": 9}, 1)])
def test_edge_stitches_may_be_fewer_than_the_chart_draws(said: dict[str, int], over: int) -> None:
    assert fit_of(BOX, piece(**said), ONE_SIZE).over == over
