"""Ends against a walk along the block's edge, cell by cell."""

import pytest
from charts_drawn import GAUGE
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour, Limits, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.planning.planner import make_plan

STITCH, ROW = 100 / 22, 100 / 30


def test_a_lone_stitch_has_nowhere_to_hide_two_tails(draw):
    plan = make_plan(draw("AAAAA AABAA AAAAA"))
    join, finish = (end for end in plan.ends if end.supply == "B1")
    assert (join.kind, join.row, join.stitch, join.along, join.closes_gap) == ("join", 2, 3, "A", True)
    assert (finish.kind, finish.row, finish.stitch, finish.along) == ("finish", 2, 3, "A")
    assert join.room_mm == finish.room_mm == pytest.approx(STITCH + ROW)


def test_ends_at_the_edge_of_the_piece_have_no_neighbour(draw):
    plan = make_plan(draw("AAAA AAAA"))
    assert [(end.kind, end.row, end.stitch, end.along, end.closes_gap) for end in plan.ends] == [
        ("join", 1, 1, "", False),
        ("finish", 2, 1, "", False),
    ]


def test_the_edge_is_followed_over_steps_and_up(draw):
    """B is joined in row 1 (right to left) at its right edge, which steps out by 2, then in by 1."""
    plan = make_plan(
        draw(
            """
            ABBBBAA
            ABBBBBA
            ABBBAAA
            """
        )
    )
    join = next(end for end in plan.ends if end.supply == "B1" and end.kind == "join")
    assert join.room_mm == pytest.approx(3 * STITCH + 3 * ROW + (2 + 1) * STITCH)


def test_of_a_tube_the_last_stitch_is_beside_the_first(draw):
    plan = make_plan(draw("AABB", worked=Worked.TURNED))
    assert [(end.supply, end.kind, end.along) for end in plan.ends] == [
        ("B1", "join", "A"),
        ("B1", "finish", "A"),
        ("A1", "join", "B"),
        ("A1", "finish", "B"),
    ]
    plain = make_plan(draw("AAAA", worked=Worked.TURNED))
    assert [end.along for end in plain.ends] == ["", ""]


def test_stranded_ends_close_no_gap(draw):
    plan = make_plan(draw("ABBA", technique=Technique.STRANDED))
    assert not any(end.closes_gap for end in plan.ends)


GRIDS = st.integers(1, 7).flatmap(
    lambda width: st.lists(st.text("AAB", min_size=width, max_size=width), min_size=1, max_size=7)
)


@settings(max_examples=80, deadline=None)
@given(GRIDS, st.sampled_from([0, 2, 9]), st.sampled_from([Worked.FLAT, Worked.TURNED]))
def test_every_end_against_a_walk(rows, strand, worked):
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "AB"}
    chart = Chart("x", "x", GAUGE, key, build_grid(rows, "AB"), worked=worked, limits=Limits(strand=strand))
    plan = make_plan(chart)
    assert [(e.supply, e.kind) for e in plan.ends] == [(s.id, k) for s in plan.supplies for k in ("join", "finish")]
    for number, supply in enumerate(plan.supplies):
        runs = [plan.runs[r] for r in supply.runs]
        for end, own, step in ((plan.ends[2 * number], runs[0], 1), (plan.ends[2 * number + 1], runs[-1], -1)):
            leftward = own.row % 2 == 1
            on_right = leftward == (step == 1)
            column = own.right if on_right else own.left
            assert (end.row, end.stitch) == (own.row, chart.grid.width - column)
            beside = column + (1 if on_right else -1)
            text = rows[own.row - 1]
            if worked is Worked.TURNED:
                along = "" if text[beside % len(text)] == end.supply[0] else text[beside % len(text)]
            else:
                along = text[beside] if 0 <= beside < len(text) else ""
            assert end.along == along
            assert end.room_mm == pytest.approx(walk(runs, own, step, on_right))


def walk(runs, own, step: int, on_right: bool) -> float:
    room = own.stitches * STITCH + ROW
    row, at = own.row, None
    while True:
        here = [run for run in runs if run.row == row]
        if not here:
            return float(room)
        edge = max(run.right for run in here) if on_right else min(run.left for run in here)
        if at is not None:
            room += ROW + abs(edge - at) * STITCH
        row, at = row + step, edge


@settings(max_examples=30, deadline=None)
@given(GRIDS, st.sampled_from([0, 2, 9]))
def test_the_tables_are_the_ends(rows, strand):
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "AB"}
    plan = make_plan(Chart("x", "x", GAUGE, key, build_grid(rows, "AB"), limits=Limits(strand=strand)))
    for kind, table in zip(("join", "finish"), plan.end_tables, strict=True):
        ends = [end for end in plan.ends if end.kind == kind]
        assert [end.row for end in ends] == [plan.runs[run].row for run in table.run]
        assert [end.along for end in ends] == [plan.runs[run].colour if run >= 0 else "" for run in table.beside]
        assert [end.room_mm for end in ends] == table.room


def test_room_is_the_same_however_it_is_summed(draw):
    """Rows are counted before they are measured: six of a third of a centimetre are 2 cm to the last bit."""
    chart = draw("AAB AAB AAB AAB AAB AAB")
    join = next(end for end in make_plan(chart).ends if end.supply == "B1" and end.kind == "join")
    assert join.room_mm == STITCH + 6 * ROW
