"""Yarn against figures worked by hand; tests/reference has the published ones."""

from dataclasses import replace

import pytest

from lintarsia.chart import (
    Colour,
    DuplicateStitch,
    FloatGauge,
    Gauge,
    Limits,
    Reckoning,
    Shaping,
    Technique,
    Worked,
    Yarn,
)  # fmt: skip
from lintarsia.chart.measure import Length, Mass
from lintarsia.planning.planner import make_plan
from lintarsia.planning.rates import loop_mm, rates
from lintarsia.planning.yarn import holder_for, patches
from lintarsia.telling.lengths import wound_length

TEN_CM = Length(10, "cm")
EDGELESS = Reckoning(cast_on=0, bind_off=0)


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
    """By hand: 10 stitches × 4.1 × 4.5454… mm; carried 1 stitch; 1 row of 3.33… mm; 2 × 150 mm.

    And at the edges of the piece: 6 stitches cast on and 4 bound off at 3 × 4.5454… mm, and 150 mm to spare.
    """
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
    plain = 10 * 4.1 * stitch + 1 * stitch + 1 * 100 / 30 + 300
    assert supply.metres == pytest.approx((plain + 6 * 3 * stitch + 4 * 3 * stitch + 150) / 1000)
    own = Reckoning(cast_on=2.5, bind_off=4)
    (other,) = [s for s in make_plan(chart, reckoning=own).supplies if s.colour == "A"]
    assert other.metres == pytest.approx((plain + 6 * 2.5 * stitch + 4 * 4 * stitch + 150) / 1000)
    (picked_up,) = [s for s in make_plan(chart, reckoning=Reckoning(cast_on=0)).supplies if s.colour == "A"]
    assert picked_up.metres == pytest.approx((plain + 4 * 3 * stitch) / 1000)


def test_each_yarn_casts_on_and_binds_off_its_own_stitches_in_rounds_too(draw):
    """Cast on from the end at which row 1 then begins: of flat work what is cast on last is knitted first."""
    picture = "AABBBA AABBBA ABBBBA"
    flat, rounds, turned = (make_plan(draw(picture, worked=how)) for how in (Worked.FLAT, Worked.ROUND, Worked.TURNED))
    assert [(e.colour, e.stitches, e.by) for e in flat.cast_on] == [("A", 1, "A2"), ("B", 4, "B1"), ("A", 1, "A1")]
    assert [(e.colour, e.stitches) for e in flat.bind_off] == [("A", 2), ("B", 3), ("A", 1)]
    assert [(e.colour, e.stitches) for e in rounds.cast_on] == [("A", 1), ("B", 4), ("A", 1)]
    assert [(e.colour, e.stitches) for e in rounds.bind_off] == [("A", 1), ("B", 3), ("A", 2)]
    assert flat.cast_on == turned.cast_on
    edges = 6 * 3 * 100 / 22 * 2 + 3 * 150
    bare = make_plan(draw(picture), reckoning=EDGELESS)
    assert flat.totals.metres - bare.totals.metres == pytest.approx(edges / 1000)


def test_shaping_is_cast_on_and_bound_off_by_the_yarn_that_stands_there(draw):
    """Row 2 casts on 3 at its end, row 3 binds off 4 where it starts; two that are decreased take nothing."""
    picture = """
        BBBAA...
        BBBAAAAA
        BBBAAAAA
        BBBAA...
        """
    chart = draw(picture, shaping={2: Shaping(3, right=3), 4: Shaping(-3, right=-3)})
    bare = draw(picture)
    stitch = 100 / 22
    for letter, more in (("A", (3 + 3) * 3 * stitch), ("B", 0)):
        with_, without = (make_plan(c).colours[letter].metres for c in (chart, bare))
        assert with_ - without == pytest.approx(more / 1000)
    decreased = draw(picture.replace("AAAAA", "AAAA."), shaping={2: Shaping(2, right=2), 4: Shaping(-2, right=-2)})
    plain = draw(picture.replace("AAAAA", "AAAA."))
    assert make_plan(decreased).totals.metres == make_plan(plain).totals.metres


def test_tails_are_a_setting(draw):
    chart = draw("AAAA")
    long, short = (make_plan(chart, reckoning=Reckoning(tail_mm=mm)).totals.metres for mm in (200, 150))
    assert long - short == pytest.approx(0.15)  # two ends, and what is to spare at the cast-on


def test_floats_in_a_mixed_chart_run_at_the_stranded_width(draw):
    chart = draw(
        "AABBBAA",
        technique=Technique.MIXED,
        gauge=Gauge(20, 30, TEN_CM, float_gauge=FloatGauge(25, 27)),
        limits=Limits(strand=3),
    )
    supply = make_plan(chart, reckoning=EDGELESS).supplies[0]
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
    a = next(s for s in make_plan(chart, reckoning=EDGELESS).supplies if s.colour == "A")
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
    holders = ((0.5, "needleful"), (float("inf"), "cone"))
    plan = make_plan(draw("ABA"), reckoning=Reckoning(holders=holders, cast_on=0, bind_off=0))
    assert [s.holder for s in plan.supplies if s.wound] == ["needleful"]
    plan = make_plan(draw("ABA"), reckoning=Reckoning(holders=holders, cast_on=0, bind_off=0, tail_mm=300))
    assert [s.holder for s in plan.supplies if s.wound] == ["cone"]


def test_a_holder_takes_what_the_knitter_is_told_to_measure_off(draw):
    """Told to the next 5 cm or 10 cm: a spool that just takes what is needed would not take that."""
    (second,) = [s for s in make_plan(draw("ABA"), reckoning=Reckoning(cast_on=0, bind_off=0)).supplies if s.wound]
    needed = second.metres * (1 + Reckoning().allowance)
    told = float(wound_length(needed, False).removesuffix(" cm")) / 100
    assert needed < told < needed + 0.05
    for room, holder in ((needed, "cone"), (told - 0.001, "cone"), (told, "needleful")):
        reckoning = Reckoning(holders=((room, "needleful"), (float("inf"), "cone")), cast_on=0, bind_off=0)
        assert [s.holder for s in make_plan(draw("ABA"), reckoning=reckoning).supplies if s.wound] == [holder]


def test_a_holder_takes_what_is_to_spare_as_well(draw):
    """2.85 m and a tenth are 3.1 m: no loose strand. By hand: 2 × 137 stitches × 18.636 mm … less than 3 m each."""
    chart = draw(" ".join(["A" * 45 + "B" + "A" * 45] * 3))
    plan = make_plan(chart, reckoning=EDGELESS)
    first, second = (s for s in plan.supplies if s.colour == "A")
    assert first.metres == pytest.approx(135 * 4.1 * 0.1 / 22 + 0.3)  # 2.816 m
    assert (first.holder, first.wound, second.holder, second.wound) == ("ball", False, "butterfly", True)
    bare = make_plan(chart, reckoning=Reckoning(cast_on=0, bind_off=0, allowance=0))
    assert bare.supplies[-1].holder == "loose strand"


@pytest.mark.parametrize(
    ("metres", "ball_m", "holder"),
    [(20, 100, "bobbin"), (20, 99, "ball"), (20, 400, "bobbin"), (9, 60, "bobbin"), (2.9, 60, "butterfly")],
)
def test_thick_yarn_fills_a_holder_sooner(metres, ball_m, holder):
    """Holders are for yarns of up to 100 m to 50 g, 500 tex (a house value): 9 m at 60 m to 50 g fill 15 m of room."""
    assert holder_for(metres, thickness=50 / ball_m * 1000) == holder


@pytest.mark.parametrize(
    ("balls", "also", "on_ball"), [(None, False, 1), (0.5, False, 1), (2, False, 2), (2.5, False, 2), (9, True, 1)]
)
def test_the_longest_of_each_ball_stays_on_it(draw, balls, also, on_ball):
    """Four blocks of A, the second the widest, then the last. Of a yarn that two colours share, each has one ball."""
    yarns = {"wool": Yarn("wool", "Fjord", 3, Length(100, "m"), Mass(50, "g"), balls)}
    colours = {"A": Colour("A", "a", "#000000", "wool"), "B": Colour("B", "b", "#ffffff", "wool" if also else None)}
    plan = make_plan(draw("ABAAAABABAA", colours=colours, yarns=yarns))
    own = [s for s in plan.supplies if s.colour == "A"]
    by_length = sorted(own, key=lambda s: -s.metres)
    assert [s.id for s in own if not s.wound] == sorted(s.id for s in by_length[:on_ball])
    assert {s.holder for s in own if not s.wound} == {"ball"}
    assert sum(not s.wound for s in plan.supplies if s.colour == "B") == 1


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
    assert wool.to_buy == 1 + (wool.metres * 1.1 > 2)
    assert (bone.yarn, bone.name, bone.colours, bone.grams, bone.to_buy) == ("", "bone", ("C",), None, None)
    assert make_plan(chart, reckoning=Reckoning(allowance=2.0)).yarns[0].to_buy == 2


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
