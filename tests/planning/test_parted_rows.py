"""Plans of parted work, against what a knitter with the chart before her counts: yarns, joins and line-ups a side.

FORMAT: no supply crosses an opening; each side is worked with its own; rows keep their numbers in any order of working.
"""

import pytest

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.planning.what_if import weigh_areas
from lintarsia.plansheets.rowtable import row_table
from lintarsia.reading import read_chart
from lintarsia.reporting.screen import Screen

HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Pebble, shade: "#5a5f66"}
"""

PLAIN = ["A" * 20, "A" * 20, "AAAAAAA......AAAAAAA", "AAAAAAA......AAAAAAA", "AAAAAAA......AAAAAAA"]


def chart(rows: list[str], extra: str) -> Chart:
    text = HEAD + extra + "\nchart: |\n" + "".join(f"  {row}\n" for row in reversed(rows))
    reading = read_chart("yoke.chart.yaml", text.encode())
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def plan(rows: list[str], extra: str) -> Plan:
    return make_plan(chart(rows, extra))


def parts(made: Plan, row: int) -> list[tuple[str, tuple[str, ...], tuple[str, ...]]]:
    return [(part.side, part.line_up, part.joins) for part in made.rows[row - 1].parts]


@pytest.mark.parametrize("by", ["bind-off", "hold"])
@pytest.mark.parametrize("sides", ["together", "right-first", "left-first"])
def test_a_plain_neck_takes_a_second_ball_where_the_row_meets_the_later_side(by: str, sides: str) -> None:
    made = plan(PLAIN, f"divide: {{3: {{by: {by}, sides: {sides}}}}}")
    assert [(s.id, s.first_row, s.last_row) for s in made.supplies] == [("A1", 1, 5), ("A2", 3, 5)]
    assert made.rows[1].parts == ()
    assert parts(made, 3) == [("right", ("A1",), ()), ("left", ("A2",), ("A2",))]
    assert parts(made, 4) == [("left", ("A2",), ()), ("right", ("A1",), ())]
    assert made.rows[3].interlocks == 0


def test_without_divide_one_yarn_works_straight_on() -> None:
    made = plan(PLAIN, "shaping: {3: -6}")
    assert [s.id for s in made.supplies] == ["A1"]
    assert all(row.parts == () for row in made.rows)


def test_a_slit_parts_stitches_that_stand_side_by_side() -> None:
    made = plan(["A" * 8] * 5, "divide: {3: {by: nothing, at: 3, to: 4}}")
    assert [(s.id, s.first_row, s.last_row) for s in made.supplies] == [("A1", 1, 5), ("A2", 3, 4)]
    assert [len(row.parts) for row in made.rows] == [0, 0, 2, 2, 0]
    assert [run.stitches for run in made.runs if run.row == 3] == [3, 5]


def test_armholes_on_successive_rows_are_one_supply() -> None:
    """FORMAT's own check value: bound off at the start of rows 7 and 8."""
    rows = ["A" * 20] * 6 + ["A" * 16 + "....", "....AAAAAAAAAAAA...."]
    assert len(plan(rows, "shaping: {7: {right: -4}, 8: {left: -4}}").supplies) == 1


def test_a_picture_at_the_neck_has_its_own_line_up_on_each_side() -> None:
    """Two blocks of B beside the neck: on the right A1 B1, on the left B2 A2, and B2 goes on from below."""
    below = "AAAAABBBBBBBBAAAAAAA"
    above = "AAAAABB......BAAAAAA"
    made = plan([below, below, above, above], "divide: {3: {by: bind-off, sides: together}}")
    assert parts(made, 3)[0][0] == "right"
    for row in (3, 4):
        for side, line_up, _ in parts(made, row):
            assert {name[0] for name in line_up} == {"A", "B"}, (row, side)
    on = {part.side: set(part.line_up) for part in made.rows[3].parts}
    assert not on["right"] & on["left"]
    assert [part.interlocks for part in made.rows[3].parts] == [1, 1]


@pytest.mark.parametrize(("kind", "supplies"), [("bind-off", 1), ("hold", 2)])
def test_a_yarn_binds_stitches_off_on_its_way_and_is_carried_over_held_ones(kind: str, supplies: int) -> None:
    """Nine stitches go where row 3 starts, and a carry reaches no further than five: binding off, the yarn walks along
    the edge itself; past stitches that wait on a holder it would hang in a long carry, and is cut (common practice)."""
    rows = ["A" * 20, "A" * 20, "A" * 11 + "." * 9]
    assert len(plan(rows, f"shaping: {{3: {{right: {{{kind}: 9}}}}}}").supplies) == supplies


@pytest.mark.parametrize(("by", "carried"), [("bind-off", 0), ("hold", 3)])
def test_a_block_beside_the_opening_goes_on_over_what_is_bound_off_alone(by: str, carried: int) -> None:
    """B stands left of the opening's three stitches in row 3; its yarn came to the right end of the block below."""
    below = "AAAAABBBBAAAAAAA"
    made = plan([below, below, "AAAAAB...AAAAAAA"], f"divide: {{3: {{by: {by}, sides: together}}}}")
    (blue,) = [s for s in made.supplies if s.colour == "B"]
    assert blue.carried == carried


def test_small_areas_end_at_an_opening_and_nothing_is_stranded_across_it() -> None:
    """Two stitches of B on either side of a slit, a row apart, are two areas; across a neck no A runs behind a B."""
    slit = chart(["A" * 8, "AAABAAAA", "AAAABAAA"], "divide: {2: {by: nothing, at: 4}}")
    areas = weigh_areas(slit, make_plan(slit))
    assert [(area.size, area.rows, area.stitches) for area in areas] == [(1, (2, 2), (5, 5)), (1, (3, 3), (4, 4))]
    for area in areas:
        assert area.stranded is None  # A stands at one side of the stitch, the slit at the other
        assert area.around == "A"
    whole = chart(["A" * 8, "AAABAAAA", "AAAABAAA"], "")
    (one,) = weigh_areas(whole, make_plan(whole))
    assert one.stranded is not None


def test_no_supply_is_on_both_sides() -> None:
    rows = ["ABABABABABAB"] * 3 + ["ABABA..BABAB"] * 4
    made = plan(rows, "technique: stranded\ndivide: {4: {by: bind-off, sides: right-first}}")
    side = made.threads.runs.side.tolist()
    for supply in made.supplies:
        assert len({side[run] for run in supply.runs} - {0}) <= 1


def test_the_yarns_that_wait_on_the_held_side_are_told() -> None:
    """The B block of the left-hand side hangs while the right is worked to its top."""
    below, above = "AABBBAAAAAAA", "AABBB...AAAA"
    made = plan([below, below, above, above], "divide: {3: {by: hold, sides: right-first}}")
    held = {(int(row.row), part.side): part.held for row in made.rows for part in row.parts}
    assert held[4, "right"] == ("A2", "B1")
    assert held[3, "right"] == ("A2", "B1")
    assert held[3, "left"] == held[4, "left"] == ()


def test_the_rows_are_listed_in_the_order_of_working() -> None:
    c = chart(PLAIN, "divide: {3: {by: hold, sides: left-first}}")
    lines = [line.rstrip() for line in row_table(c, make_plan(c), Screen(width=100), whole=False)]
    assert [line.split("  ")[1].strip() for line in lines[2:]] == [
        "1 RS", "2 WS", "right-hand side, row 3", "3 RS",
        "left-hand side, rows 3–5; left hanging on the right-hand side: A1", "3 RS", "4 WS", "5 RS",
        "right-hand side, rows 4–5", "4 WS", "5 RS",
    ]  # fmt: skip


def test_sides_worked_together_are_told_in_one_line() -> None:
    c = chart(PLAIN, "divide: {3: {by: hold}}")
    lines = [line.rstrip() for line in row_table(c, make_plan(c), Screen(width=100), whole=False)]
    assert [line.split("  ")[-1] for line in lines if "|" in line][:2] == ["A1 | A2+", "A2 | A1"]
