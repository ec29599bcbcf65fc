"""Ends against a walk along the block's edge, cell by cell."""

import random

import pytest
from charts_drawn import GAUGE
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour, Limits, Technique, Worked
from lintarsia.grid import build_grid
from lintarsia.planning.ends import joins_and_finishes, surely_roomy
from lintarsia.planning.planner import make_plan
from lintarsia.planning.yarn import rates

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
@given(GRIDS, st.sampled_from([0, 2, 9]))
def test_every_end_against_a_walk(rows, strand):
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "AB"}
    chart = Chart("x", "x", GAUGE, key, build_grid(rows, "AB"), limits=Limits(strand=strand))
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
            assert end.along == (text[beside] if 0 <= beside < len(text) else "")
            assert end.room_mm == pytest.approx(walk(runs, own, step, on_right))


def walk(runs, own, step: int, on_right: bool) -> float:
    room = own.stitches * STITCH + ROW
    row, at = own.row, None
    while True:
        here = [run for run in runs if run.row == row]
        if not here:
            return room
        edge = max(run.right for run in here) if on_right else min(run.left for run in here)
        if at is not None:
            room += ROW + abs(edge - at) * STITCH
        row, at = row + step, edge


@settings(max_examples=80, deadline=None)
@given(
    GRIDS, st.sampled_from([0, 2]), st.sampled_from([Worked.FLAT, Worked.TURNED]), st.sampled_from([5.0, 12.0, 20.0])
)
def test_room_is_called_sure_only_where_every_end_inside_the_piece_has_it(rows, strand, worked, wanted):
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "AB"}
    chart = Chart("x", "x", GAUGE, key, build_grid(rows, "AB"), worked=worked, limits=Limits(strand=strand))
    threads, per = make_plan(chart).threads, rates(GAUGE, Technique.INTARSIA)
    rooms = [table.room[table.beside >= 0] for table in joins_and_finishes(chart, threads, per)]
    enough = all((room >= wanted).all() for room in rooms)
    sure = surely_roomy(chart, threads, per, wanted)
    if worked is Worked.FLAT and not threads.cover.same_row.any():
        assert sure is enough
    assert enough or not sure


@pytest.mark.parametrize("seed", range(40))
def test_the_least_room_of_all_ends_is_sure_and_a_hair_more_is_not(seed):
    """At the edge itself, in charts of blocks, where paths go up slanted edges over many rows."""
    chance = random.Random(seed)
    width, rows = chance.randrange(3, 9), []
    edge = chance.randrange(1, width)
    for _ in range(chance.randrange(2, 9)):
        edge = min(max(edge + chance.choice((-1, 0, 0, 1)), 1), width - 1)
        rows.append("A" * edge + "B" * (width - edge))
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "AB"}
    chart = Chart("x", "x", GAUGE, key, build_grid(rows, "AB"), worked=chance.choice([Worked.FLAT, Worked.TURNED]))
    threads, per = make_plan(chart).threads, rates(GAUGE, Technique.INTARSIA)
    rooms = [room for t in joins_and_finishes(chart, threads, per) for room in t.room[t.beside >= 0].tolist()]
    least = min(rooms)
    assert surely_roomy(chart, threads, per, least - 1e-5)
    assert not surely_roomy(chart, threads, per, least + 1e-5)
