"""What a plan says of its supplies, rows and floats, on charts small enough to work out on paper."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from charts_drawn import GAUGE

from lintarsia.chart import Chart, Colour, FloatGauge, Limits, Reckoning, Technique, Worked, Yarn
from lintarsia.chart.measure import Length, Mass
from lintarsia.planning.catches import catches
from lintarsia.planning.model import Link
from lintarsia.planning.planner import make_plan
from lintarsia.planning.rates import rates
from lintarsia.planning.rows import crossing_rows
from lintarsia.planning.what_if import plan_costs, weigh_areas

Draw = Callable[..., Chart]

# Stranded work: which rows a yarn may wait ------------------------------------------------------------------------


@pytest.mark.parametrize(("idle", "supplies"), [(0, 3), (1, 3), (2, 2), (3, 2)])
def test_a_stranded_yarn_waits_as_many_rows_as_it_may(draw: Draw, idle: int, supplies: int) -> None:
    """A waits for two rows."""
    chart = draw("ABAB BBBB BBBB AAAA", technique=Technique.STRANDED, limits=Limits(idle=idle))
    assert make_plan(chart).totals.supplies == supplies


def test_links_of_a_supply_one_between_each_two_of_its_runs(draw: Draw) -> None:
    """A: worked in row 1, waits two rows, crosses one stitch in row 4."""
    plan = make_plan(draw("ABAB BBBB BBBB AAAA", technique=Technique.STRANDED, limits=Limits(idle=2)))
    first, second = plan.supplies
    assert (first.id, first.runs) == ("A1", (0, 3, 5))
    assert first.links == (Link(0, 2, same_row=False), Link(1, 0, same_row=True))
    assert (second.id, second.runs) == ("B1", (1, 2, 4, 6))
    assert second.links == (Link(0, 0, same_row=False), Link(1, 0, same_row=False), Link(1, 0, same_row=True))
    assert make_plan(draw("AA")).supplies[0].links == ()


# Floats -----------------------------------------------------------------------------------------------------------


def test_floats_in_rounds_pass_the_seam_and_not_a_round_of_rest(draw: Draw) -> None:
    """B rests in round 2, carried up the inside; A goes on over the seam twice, behind the B at the round's end."""
    plan = make_plan(draw("BAAB AAAA BAAB", worked=Worked.ROUND, technique=Technique.STRANDED))
    assert plan.threads.float_lengths.tolist() == [2, 1, 1, 2]
    assert plan.threads.longest_float == 2


def test_steps_that_pass_no_stitch_are_no_floats(draw: Draw) -> None:
    plain = make_plan(draw("AAAA AAAA", worked=Worked.ROUND))
    assert plain.threads.float_lengths.tolist() == []
    assert plain.threads.longest_float == 0
    flat = make_plan(draw("AAAA BBAA"))
    assert flat.threads.longest_float == 0


@pytest.mark.parametrize(
    ("most", "places"),
    [(6, []), (5, [(4, 5)]), (3, [(4, 5)]), (2, [(5, 6), (3, 4)]), (1, [(6, 7), (5, 6), (4, 5), (3, 4), (2, 3)])],
)
def test_catches_at_even_distances(draw: Draw, most: int, places: list[tuple[int, int]]) -> None:
    """A crosses six stitches, columns 7 to 2 in the order worked."""
    chart = draw("AABBBBBBAA", technique=Technique.STRANDED)
    found = list(catches(chart, make_plan(chart).threads, most))
    assert [(catch.left, catch.right) for catch in found] == places
    assert {catch.row for catch in found} <= {0}


# Rows -------------------------------------------------------------------------------------------------------------


def test_a_change_of_yarn_from_row_to_row_is_no_interlock(draw: Draw) -> None:
    assert [row.interlocks for row in make_plan(draw("AAAA BBBB AAAA")).rows] == [0, 0, 0]
    assert [row.interlocks for row in make_plan(draw("AABB BBBB AABB")).rows] == [0, 0, 1]


def test_resting_yarns_are_named_in_the_order_the_row_passes_them(draw: Draw) -> None:
    """Row 2 is worked left to right, row 3 right to left; A hangs at the left of row 1, C at its right."""
    plan = make_plan(draw("ABC DDD DDD ABC", limits=Limits(idle=2, carry=3)))
    assert [row.waiting for row in plan.rows] == [(), ("A1", "B1", "C1"), ("C1", "B1", "A1"), ()]


def test_rows_whose_yarns_cross_are_those_of_the_row_plans(draw: Draw) -> None:
    chart = draw("ABC CBA CBA ABC ABC", limits=Limits(idle=2, carry=3))
    plan = make_plan(chart)
    by_row = {row.row: row.crossings for row in plan.rows if row.crossings}
    assert by_row
    assert crossing_rows(chart, plan.threads) == by_row


def test_joins_and_finishes_of_every_row(draw: Draw) -> None:
    plan = make_plan(draw("AAAA ABBA BBBB", limits=Limits(carry=1, idle=0)))
    joins = [row.joins for row in plan.rows]
    finishes = [row.finishes for row in plan.rows]
    assert joins == [("B1",), ("A1", "A2"), ()]
    assert sorted(name for row in joins for name in row) == sorted(name for row in finishes for name in row)
    assert sorted(finishes[-1] + finishes[-2]) == ["A1", "A2", "B1"]


# Yarn -------------------------------------------------------------------------------------------------------------


def bought(draw: Draw, metres: float, grams: float, allowance: float = 0.0):
    """The need of a chart of 10 stitches at 20 mm with two tails of 15 cm: half a metre to the millimetre."""
    yarn = Yarn("dk", "Fjord", length=Length(metres, "m"), mass=Mass(grams, "g"))
    chart = draw(
        "AAAAAAAAAA",
        gauge=replace(GAUGE, loop=Length(20, "mm")),
        colours={"A": Colour("A", "Dusk", "#27406b", yarn="dk")},
        yarns={"dk": yarn},
    )
    (need,) = make_plan(chart, reckoning=Reckoning(cast_on=0, bind_off=0, allowance=allowance)).yarns
    return need


@pytest.mark.parametrize(
    ("metres", "allowance", "balls", "buy"),
    [
        (0.5, 0.0, 1.0, 1),
        (0.25, 0.0, 2.0, 2),
        (0.25, 0.1, 2.0, 3),
        (0.4999, 0.0, 0.5 / 0.4999, 2),
        (100, 0.1, 0.005, 1),
    ],
)
def test_balls_that_come_out_even_are_enough(
    draw: Draw, metres: float, allowance: float, balls: float, buy: int
) -> None:
    need = bought(draw, metres, 50, allowance)
    assert need.metres == pytest.approx(0.5)
    assert need.balls == pytest.approx(balls)
    assert need.to_buy == buy
    assert need.grams == pytest.approx(balls * 50)


def test_only_stranded_fabric_has_the_stranded_gauge(draw: Draw) -> None:
    gauge = replace(GAUGE, float_gauge=FloatGauge(25, 40))
    stranded, mixed = rates(gauge, Technique.STRANDED), rates(gauge, Technique.MIXED)
    assert (stranded.carry, stranded.floating, stranded.row) == (4.0, 4.0, 2.5)
    assert (mixed.carry, mixed.floating, mixed.row) == (100 / 22, 4.0, 100 / 30)


# Small areas ------------------------------------------------------------------------------------------------------


def test_progress_counts_the_areas_from_one(draw: Draw) -> None:
    chart = draw("AAAAAAAA ABAACAAA AAAAAAAA")
    told: list[tuple[int, int]] = []
    weigh_areas(chart, make_plan(chart), progress=lambda done, of: told.append((done, of)))
    assert told == [(1, 2), (2, 2)]


@pytest.mark.parametrize(("reach", "supplies"), [(2, 3), (3, 2)])
def test_a_stranded_area_may_float_itself_as_far_as_a_float_may(draw: Draw, reach: int, supplies: int) -> None:
    """B is one area: three stitches lie between its two in row 2. A goes on behind each part of it."""
    limits = Limits(float=Length(reach * 100 / 22, "mm"), carry=9)
    chart = draw(
        """
        AAAAAAAAA
        ABAAABAAA
        AABBBAAAA
        AAAAAAAAA
        """,
        limits=limits,
    )
    (area,) = weigh_areas(chart, make_plan(chart))
    assert area.size == 5
    assert area.stranded is not None
    assert area.stranded.supplies == supplies
    assert area.own == plan_costs(make_plan(chart))


@pytest.mark.parametrize(("length", "grams", "balls"), [(2.0, 12.5, 0.25), (0.25, 100.0, 2.0)])
def test_grams_and_balls_of_a_colour(draw: Draw, length: float, grams: float, balls: float) -> None:
    """Half a metre of a ball of 50 g."""
    chart = draw(
        "AAAAAAAAAA",
        gauge=replace(GAUGE, loop=Length(20, "mm")),
        colours={"A": Colour("A", "Dusk", "#27406b", yarn="dk")},
        yarns={"dk": Yarn("dk", length=Length(length, "m"), mass=Mass(50, "g"))},
    )
    totals = make_plan(chart, reckoning=Reckoning(cast_on=0, bind_off=0)).colours["A"]
    assert totals.grams == pytest.approx(grams)
    assert totals.balls == pytest.approx(balls)
    plain = make_plan(replace(chart, yarns={})).colours["A"]
    assert (plain.grams, plain.balls) == (None, None)


@pytest.mark.parametrize(
    ("worked", "around"),
    [(Worked.TURNED, {("A1", "join"): "C", ("C1", "finish"): "A"}), (Worked.FLAT, {})],
)
def test_ends_round_the_seam_of_a_tube(draw: Draw, worked: Worked, around: dict[tuple[str, str], str]) -> None:
    """Row 2 is worked left to right: B comes up between A and C; only a tube has C to the left of A."""
    plan = make_plan(draw("AABC BBBB", worked=worked))
    along = {(end.supply, end.kind): end.along for end in plan.ends}
    assert along == {
        ("B1", "join"): "",  # one colour all the way: nothing to either side
        ("B1", "finish"): "C",
        ("A1", "join"): "",
        ("A1", "finish"): "B",
        ("C1", "join"): "B",
        ("C1", "finish"): "",
        **around,
    }


def test_a_resting_yarn_costs_no_more_when_it_need_not_rest(draw: Draw) -> None:
    """B is a whole row, so that A rests in it; knitted in A and embroidered, the row keeps A at work."""
    chart = draw("AAAA BBBB AAAA")
    plan = make_plan(chart)
    assert (plan.totals.carried, plan.totals.idle) == (3, 1)
    (area,) = [area for area in weigh_areas(chart, plan) if area.colour == "B"]
    plain = plan_costs(make_plan(draw("AAAA AAAA AAAA")))
    sewn = (4 * 4.1 * 100 / 22 + 2 * 150) / 1000  # Munden's constant times the stitch width, and two tails
    assert area.duplicate.metres == pytest.approx(plain.metres + sewn)
    assert area.own == plan_costs(plan)


def test_yarns_are_bought_in_the_order_of_the_file(draw: Draw) -> None:
    """Then colours that name none, by themselves."""
    colours = {
        symbol: Colour(symbol, f"colour {symbol}", "#27406b", yarn=yarn)
        for symbol, yarn in (("A", "moor"), ("B", None), ("C", "fjord"))
    }
    yarns = {name: Yarn(name, length=Length(100, "m")) for name in ("fjord", "dale", "moor")}
    needs = make_plan(draw("AABBCC", colours=colours, yarns=yarns)).yarns
    assert [(need.yarn, need.colours) for need in needs] == [("fjord", ("C",)), ("moor", ("A",)), ("", ("B",))]
