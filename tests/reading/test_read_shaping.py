"""Shaping by edge and kind, rows in ranges, partings: how each form of the format arrives in the Chart."""

# ruff: noqa: E501 - a table of cases is easier to read with a case a line

import pytest
from reading_charts import cut, read

from lintarsia.chart import Chart, Decreases, Divide, Shaping
from lintarsia.chart.measure import Length, StitchCount
from lintarsia.chart.shaping import Change, ChangeKind, Edge, Order, Parting
from lintarsia.result import Level

HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
chart: |
"""


def text(extra: str, *, rows: int = 9, width: int = 7) -> str:
    return HEAD + f"  {'A' * width}\n" * rows + extra + "\n"


def chart(extra: str) -> Chart:
    reading = read(text(extra))
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def test_a_number_by_itself_means_a_kind_by_its_size() -> None:
    """FORMAT: one or two stitches are decreased or increased, three or more bound off or cast on."""
    shaping = chart("shaping: {2: {right: -2, left: 1}, 3: {right: -3, left: 5}, 4: -4, 5: 2}").shaping
    assert shaping[2].changes == (Change(ChangeKind.DECREASE, 2, Edge.RIGHT), Change(ChangeKind.INCREASE, 1, Edge.LEFT))
    assert shaping[3].changes == (Change(ChangeKind.BIND_OFF, 3, Edge.RIGHT), Change(ChangeKind.CAST_ON, 5, Edge.LEFT))
    assert shaping[4].changes == (Change(ChangeKind.BIND_OFF, 4),)
    assert shaping[5] == Shaping(2)
    assert shaping[5].changes == (Change(ChangeKind.INCREASE, 2),)


def test_a_kind_stated_outright_wins_over_the_size() -> None:
    shaping = chart(
        "shaping: {2: {left: {bind-off: 2}, right: {hold: 5, increase: 1}}, 3: {right: {decrease: 4}}}"
    ).shaping
    assert (shaping[2].net, shaping[2].left, shaping[2].right) == (-6, -2, -4)
    assert set(shaping[2].changes) == {
        Change(ChangeKind.BIND_OFF, 2, Edge.LEFT), Change(ChangeKind.HOLD, 5, Edge.RIGHT), Change(ChangeKind.INCREASE, 1, Edge.RIGHT),
    }  # fmt: skip
    assert shaping[3].changes == (Change(ChangeKind.DECREASE, 4, Edge.RIGHT),)


def test_the_designers_own_decrease() -> None:
    (change,) = chart("shaping: {2: {left: {decrease: 1, as: k2tog, after: 2}}}").shaping[2].changes
    assert change == Change(ChangeKind.DECREASE, 1, Edge.LEFT, "k2tog", 2)


@pytest.mark.parametrize(
    ("key", "rows"),
    [("3-7/2", {3, 5, 7}), ("2-4", {2, 3, 4}), ("5", {5}), ("2-8/3", {2, 5, 8}), ("6-6", {6})],
)
def test_rows_in_a_range(key: str, rows: set[int]) -> None:
    assert set(chart(f"shaping: {{{key}: {{right: -1}}}}").shaping) == rows


@pytest.mark.parametrize(
    ("key", "rows", "told"),
    [
        ("3-8/2", {3, 5, 7}, "the steps of 3-8/2 pass over its last row, 8; shaped are rows 3, 5 and 7"),
        ("2-9/3", {2, 5, 8}, "the steps of 2-9/3 pass over its last row, 9; shaped are rows 2, 5 and 8"),
        ("7-8/3", {7}, "the steps of 7-8/3 pass over its last row, 8; shaped is row 7"),
    ],
)
def test_a_range_whose_steps_pass_over_its_end_holds_and_is_told(key: str, rows: set[int], told: str) -> None:
    reading = read(text(f"shaping: {{{key}: {{right: -1}}}}"))
    assert reading.chart is not None
    assert set(reading.chart.shaping) == rows
    [(rule, finding)] = reading.problems
    assert (rule, finding.key, finding.level, finding.message) == ("file/schema", "range-off-step", Level.NOTE, told)
    [fix] = finding.fixes
    last = f"-{max(rows)}/{key[-1]}" if len(rows) > 1 else ""
    assert fix.safe
    assert fix.edits[0].text == f"{min(rows)}{last}"


def test_ranges_and_rows_that_shape_different_edges_come_together() -> None:
    shaping = chart("shaping:\n  3-7/2: {right: -1}\n  5: {left: -4}\n  6-7: {neck-left: -1}").shaping
    assert (shaping[3].net, shaping[3].left, shaping[3].right) == (-1, 0, -1)
    assert (shaping[5].net, shaping[5].left, shaping[5].right) == (-5, -4, -1)
    assert (shaping[7].net, shaping[7].right, shaping[7].neck_left) == (-2, -1, -1)


def test_the_necks_edges_beside_a_number_with_no_edge_said() -> None:
    shaping = chart("shaping:\n  5: {neck-left: -1, neck-right: -3}\n  4-6: -2").shaping
    assert (shaping[5].net, shaping[5].left, shaping[5].neck_left, shaping[5].neck_right) == (-6, None, -1, -3)
    assert set(shaping[5].changes) == {
        Change(ChangeKind.BIND_OFF, 3, Edge.NECK_RIGHT), Change(ChangeKind.DECREASE, 1, Edge.NECK_LEFT), Change(ChangeKind.DECREASE, 2),
    }  # fmt: skip


def test_partings() -> None:
    divide = chart("divide: {5: {by: nothing, at: 3, to: 8}, 3: {by: hold, sides: right-first}}").divide
    assert list(divide) == [3, 5]
    assert divide[3] == Divide(3, Parting.HOLD, Order.RIGHT_FIRST)
    assert divide[5] == Divide(5, Parting.NOTHING, Order.TOGETHER, 3, 8)


def test_decreases_and_catches() -> None:
    c = chart("decreases: {lean: against, after: 2}\ncaught: {every: 3 stitches}")
    assert (c.decreases, c.caught) == (Decreases(along=False, after=2), StitchCount(3))
    assert chart("caught: {every: 2 cm}").caught == Length(2, "cm")
    assert chart("decreases: {}").decreases == Decreases()


@pytest.mark.parametrize(
    ("extra", "key", "message", "place"),
    [
        ("shaping: {7-12: -1}", "row-outside", "shaping names row 12; the chart has 9 rows", "7-12"),
        ("shaping: {7-3/2: -1}", "range-backwards", "the rows of shaping run backwards, 7-3/2; expected the lower number first", "7-3/2"),
        ("shaping: {3-7/2: {right: -1}, 5: {right: -2}}", "shaped-twice", "row 5 is shaped at right by 5, after 3-7/2; expected each edge once", "5"),
        ("shaping: {4: {left: -1}, 2-6: -2}", "shaped-twice", "row 4 is shaped at no edge in particular by 2-6, after 4; expected each edge once", "2-6"),
        ("shaping: {4: {left: {as: ssk}}}", "wrong-value", "left of 4 in shaping says no number of stitches; expected one, such as {decrease: 1}", "{as: ssk}"),
        ("divide: {12: {by: hold}}", "row-outside", "divide names row 12; the chart has 9 rows", "12"),
        ("divide: {4: {by: nothing, at: 7}}", "stitches-outside", "the slit of row 4 runs after stitch 7; the chart is 7 stitches wide", "7"),
        ("divide: {4: {by: nothing, to: 3}}", "row-outside", "the opening of row 4 ends with row 3; expected one from 4 to 9", "3"),
        ("divide: {4: {sides: together}}", "missing-key", "4 in divide has no 'by'; expected one of bind-off, hold or nothing", "4"),
        ("divide: {4: {by: cutting}}", "wrong-value", "by of 4 in divide: found 'cutting'; expected one of bind-off, hold or nothing", "cutting"),
        ("divide: {4: {by: hold, side: together}}", "unknown-key", "unknown key 'side' of 4 in divide; did you mean 'sides'?", "side"),
        ("shaping: {4: {neck_left: -1}}", "unknown-key", "unknown key 'neck_left' of 4 in shaping; did you mean 'neck-left'?", "neck_left"),
        ("shaping: {4: {left: {cast-off: 4}}}", "unknown-key", "unknown key 'cast-off' of left of 4 in shaping; did you mean 'bind-off'?", "cast-off"),
        ("shaping: {4-: -1}", "wrong-name", "the key '4-' cannot stand in shaping; expected a row number, 1 or more, or rows such as 31-59/2", "4-"),
    ],
)  # fmt: skip
def test_what_does_not_agree(extra: str, key: str, message: str, place: str) -> None:
    whole = text(extra)
    reading = read(whole)
    assert reading.chart is not None
    ((rule, finding),) = reading.problems
    assert (rule, finding.key, finding.message) == ("file/schema", key, message)
    assert cut(whole, finding.region) == place


def test_what_is_shaped_twice_counts_once() -> None:
    reading = read(text("shaping: {3-7/2: {right: -1}, 5: {right: -2, left: 1}}"))
    assert reading.chart is not None
    assert reading.chart.shaping[5] == Shaping(0, left=1, right=-1)


def test_a_very_long_range_costs_nothing() -> None:
    reading = read(text("shaping: {1-999999: {right: 1}}"))
    assert reading.chart is not None
    assert set(reading.chart.shaping) == set(range(1, 10))
