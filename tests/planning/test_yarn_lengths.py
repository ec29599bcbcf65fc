"""Yarn against figures worked by hand; tests/reference has the published ones."""

from dataclasses import replace

import pytest

from lintarsia.chart import Colour, DuplicateStitch, FloatGauge, Gauge, Limits, Technique, Worked, Yarn
from lintarsia.chart.measure import Length, Mass
from lintarsia.planning.planner import make_plan
from lintarsia.planning.rates import loop_mm, rates
from lintarsia.planning.yarn import holder_for, patches

TEN_CM = Length(10, "cm")


def test_a_measured_loop_is_believed():
    gauge = Gauge(22, 30, TEN_CM, loop=Length(18.5, "mm"), float_gauge=FloatGauge(24, 28))
    assert loop_mm(gauge) == loop_mm(gauge, Technique.STRANDED) == 18.5


def test_stranded_fabric_is_knitted_at_its_own_gauge():
    gauge = Gauge(20, 30, TEN_CM, float_gauge=FloatGauge(25, 27))
    assert rates(gauge, Technique.INTARSIA) == rates(gauge, Technique.MIXED)
    stranded = rates(gauge, Technique.STRANDED)
    assert (stranded.loop, stranded.carry, stranded.floating) == (4.1 * 4, 4, 4)
    assert stranded.row == pytest.approx(100 / 27)
    assert (rates(gauge, Technique.MIXED).carry, rates(gauge, Technique.MIXED).floating) == (5, 4)


def test_a_gauge_over_four_inches():
    assert loop_mm(Gauge(20, 28, Length(4, "in"))) == pytest.approx(4.1 * 101.6 / 20)


def test_a_supply_is_stitches_carries_rests_and_two_tails(draw):
    """By hand: 12 stitches × 4.1 × 4.5454… mm; carried 2 stitches; 1 row of 3.33… mm; 2 × 150 mm."""
    chart = draw(
        """
        AAAABBBB
        BBBBBBBB
        BBAAAAAA
        """,
        limits=Limits(carry=3, idle=1),
    )
    (supply,) = [s for s in make_plan(chart).supplies if s.colour == "A"]
    assert (supply.stitches, supply.carried, supply.idle) == (10, 1, 1)
    stitch = 100 / 22
    assert supply.metres == pytest.approx((10 * 4.1 * stitch + 1 * stitch + 1 * 100 / 30 + 300) / 1000)


def test_tails_are_a_setting(draw):
    chart = draw("AAAA")
    long, short = (make_plan(chart, tail_mm=mm).totals.metres for mm in (200, 150))
    assert long - short == pytest.approx(0.1)


def test_floats_in_a_mixed_chart_run_at_the_stranded_width(draw):
    chart = draw(
        "AABBBAA",
        technique=Technique.MIXED,
        gauge=Gauge(20, 30, TEN_CM, float_gauge=FloatGauge(25, 27)),
        limits=Limits(strand=3),
    )
    supply = make_plan(chart).supplies[0]
    assert supply.carried == 3
    assert supply.metres == pytest.approx((4 * 4.1 * 5 + 3 * 4 + 300) / 1000)


def test_in_the_round_every_step_is_a_float(draw):
    chart = draw(
        """
        ABBB
        AABB
        """,
        technique=Technique.STRANDED,
        worked=Worked.ROUND,
        gauge=Gauge(20, 30, TEN_CM, float_gauge=FloatGauge(25, 27)),
    )
    a = next(s for s in make_plan(chart).supplies if s.colour == "A")
    assert (a.stitches, a.carried) == (3, 3)  # round 1 leaves A at the left; round 2 passes three stitches of B
    assert a.metres == pytest.approx((3 * 4.1 * 4 + 3 * 4 + 300) / 1000)


@pytest.mark.parametrize(
    ("metres", "holder"),
    [(0.3, "loose strand"), (3, "loose strand"), (3.01, "butterfly"), (10, "butterfly"), (20, "bobbin"), (21, "ball")],
)
def test_holders_by_length(metres, holder):
    """House values: no capacity is published."""
    assert holder_for(metres) == holder


def test_what_no_holder_is_large_enough_for_gets_the_largest():
    holders = ((0.5, "scrap"), (1.0, "needleful"), (2.0, "spool"))
    assert [holder_for(metres, holders) for metres in (1, 1.1, 2, 2.1, 99)] == [
        "needleful", "spool", "spool", "spool", "spool",
    ]  # fmt: skip


def test_holders_are_a_setting(draw):
    plan = make_plan(draw("AAAA"), holders=((0.1, "needleful"), (float("inf"), "cone")))
    assert [s.holder for s in plan.supplies] == ["cone"]


def test_yarn_to_buy(draw):
    """Two colours of one yarn are bought together; a colour without a yarn is listed by its own name."""
    colours = {
        "A": Colour("A", "dusk", "#000000", "wool"),
        "B": Colour("B", "deep dusk", "#000011", "wool"),
        "C": Colour("C", "bone", "#ffffff"),
    }
    yarns = {"wool": Yarn("wool", "Fjord", 3, Length(2, "m"), Mass(50, "g"), 1)}
    chart = draw("AAAAAA BBBBCC", colours=colours, yarns=yarns)
    plan = make_plan(chart)
    wool, bone = plan.yarns
    assert (wool.yarn, wool.name, wool.colours, wool.stated) == ("wool", "Fjord", ("A", "B"), 1)
    assert wool.metres == plan.colours["A"].metres + plan.colours["B"].metres
    assert wool.grams == pytest.approx(wool.metres / 2 * 50)
    assert wool.balls == pytest.approx(wool.metres / 2)
    assert wool.allowance_metres == pytest.approx(wool.metres / 10)
    assert wool.to_buy == 1
    assert (bone.yarn, bone.name, bone.colours, bone.grams, bone.to_buy) == ("", "bone", ("C",), None, None)
    assert make_plan(chart, allowance=2.0).yarns[0].to_buy == 2


def test_duplicate_stitch_is_bought_but_not_knitted(draw):
    chart = draw("AAAAAA AAAAAA")
    sewn = replace(chart, duplicate=tuple(DuplicateStitch("A", *at) for at in ((1, (2, 3)), (2, (4, 4)), (2, (6, 6)))))
    plain, more = make_plan(chart), make_plan(sewn)
    assert plain.totals == more.totals
    # 2 and 3 in row 1 touch 4 in row 2 at a corner: one thread; 6 is another
    assert more.yarns[0].duplicate_metres == pytest.approx((4 * 4.1 * 100 / 22 + 2 * 300) / 1000)
    assert more.yarns[0].metres == pytest.approx(plain.totals.metres + more.yarns[0].duplicate_metres)


def test_patches_touch_at_corners():
    assert patches({(1, 1), (2, 2), (1, 3), (5, 5)}) == 2
    assert patches(set()) == 0
