"""What no knitter does is in no plan: yarns that take turns inside one block, or a cut where an edge is shaped."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour, Gauge, Limits, Side, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.planning.cover.links import travel
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan

Draw = Callable[..., Chart]
GAUGE = Gauge(22, 30, Length(10, "cm"))
GRIDS = st.tuples(st.integers(3, 12), st.sampled_from(["AAB", "AAAB", "ABC.", "AAAAB..", "AABC"])).flatmap(
    lambda pair: st.lists(st.text(pair[1], min_size=pair[0], max_size=pair[0]), min_size=3, max_size=9)
)
BOUNDS = st.builds(Limits, carry=st.sampled_from([None, 0, 1, 2, 6]), idle=st.sampled_from([None, 0, 1, 2, 4]))


def takes_turns(plan: Plan, carry: int | None) -> list[tuple[int, int, int]]:
    """(run left, run above it, run gone to): a yarn rests though it could work the next row of its own block, and a
    yarn that was not in that block works it instead."""
    runs, cover = plan.threads.runs, plan.threads.cover
    found = []
    for i in range(len(runs)):
        j = int(cover.next[i])
        if j < 0 or runs.row[j] - runs.row[i] < 2:
            continue
        for k in range(len(runs)):
            above = runs.row[k] == runs.row[i] + 1 and runs.colour[k] == runs.colour[i]
            if not (above and runs.left[k] <= runs.right[i] and runs.left[i] <= runs.right[k]):
                continue
            reached = carry is None or travel(runs, np.array([i]), np.array([k]))[0] <= carry
            before = int(cover.previous[k])
            if reached and not (before >= 0 and cover.goes_on[before]):
                found.append((i, k, j))
    return found


@settings(max_examples=300, deadline=None)
@given(GRIDS, st.sampled_from([Worked.FLAT, Worked.TURNED]), st.sampled_from(list(Side)), BOUNDS)
def test_no_yarn_rests_beneath_its_own_block_while_a_stranger_works_it(
    rows: list[str], worked: Worked, first: Side, limits: Limits
) -> None:
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "ABC"}
    chart = Chart("x", "x", GAUGE, key, build_grid(rows, "ABC"), worked, first, Technique.INTARSIA, limits=limits)
    plan = make_plan(chart)
    assert takes_turns(plan, plan.bounds.carry) == []


LEG = "BBBAABBBBBBBAABBB"
BAR = "BBB" + "A" * 11 + "BBB"
FIELD = "B" * 17


@pytest.mark.parametrize("crossbar", [1, 2, 3, 20])
@pytest.mark.parametrize("first", list(Side))
def test_one_yarn_works_the_crossbar_of_an_h(draw: Draw, crossbar: int, first: Side) -> None:
    """However high it is, and however long the legs: the same yarn in every row of it."""
    rows = [FIELD, *[LEG] * 6, *[BAR] * crossbar, *[LEG] * 5, FIELD]
    plan = make_plan(draw("\n".join(rows), first_row=first))
    bar = plan.rows[6 : 6 + crossbar]
    assert len({name for row in bar for name in row.line_up if name.startswith("A")}) == 1
    assert all(row.needs == 3 for row in bar)


@pytest.mark.parametrize("colours", ["A", "AB"])
def test_armholes_bound_off_at_the_start_of_two_rows_cut_no_yarn(draw: Draw, colours: str) -> None:
    """A plain piece of 30 stitches, four bound off at the start of row 7 (RS, at the right) and six of row 8."""
    plain = "A" * 30 if colours == "A" else "A" * 15 + "B" * 15
    rows = [*["......" + plain[6:26] + "...."] * 5, plain[:26] + "....", *[plain] * 6]
    plan = make_plan(draw("\n".join(rows)))
    assert plan.totals.supplies == len(colours)
    assert plan.totals.carried == 0
    assert [row.needs for row in plan.rows] == [len(colours)] * 12


def test_what_is_cast_on_where_a_row_starts_is_no_carry_either(draw: Draw) -> None:
    rows = ["A" * 20, "........" + "A" * 12, "........" + "A" * 12, "........" + "A" * 12]
    assert make_plan(draw("\n".join(rows), limits=Limits(carry=0))).totals.supplies == 1
    # At the end of a row it is worked after all the rest: nothing to pass; the next row starts there.
    rows = ["A" * 20, "A" * 20, "A" * 12 + "........", "A" * 12 + "........"]
    assert make_plan(draw("\n".join(rows), limits=Limits(carry=0))).totals.supplies == 1


def test_only_what_the_row_loses_on_the_way_is_no_carry(draw: Draw) -> None:
    """Row 3 (RS) has six stitches less at the right. B hung at the first of them and is wanted five to the left."""
    rows = ["AAABBBAAAA......", "AAAAAAAABBBAAAAA", "AAAAAAAABBBAAAAA"]
    for carry, supplies in ((4, 1), (3, 2)):
        plan = make_plan(draw("\n".join(rows), limits=Limits(carry=carry)))
        assert plan.colours["B"].supplies == supplies
    at_the_edge = ["AAAAAABBBB......", "AAAAAABBBBBBBBBB", "AAAAAABBBBBBBBBB"]
    assert make_plan(draw("\n".join(at_the_edge), limits=Limits(carry=0))).totals.supplies == 2


def test_a_thin_stranded_stripe_needs_no_yarn_of_its_own(draw: Draw) -> None:
    """Corrugated ribbing in the round: two yarns, however many ribs, for each runs behind all of them."""
    chart = draw("\n".join(["AABB" * 6] * 8), worked=Worked.ROUND, technique=Technique.STRANDED)
    assert make_plan(chart).totals.supplies == 2
