"""Yarn of what is cast on and bound off at a neck, reckoned by hand from the drawing: a stitch bound off or cast on
takes three times its width (a house value, FORMAT's “Yarn”), one on a holder none.

The oracle counts from the test's own drawing: the first row is cast on, every side's last stitches are bound off, and
between the sides the yarn of the side that is taken up second binds off the opening, unless that waits on a holder.
"""

import random

import pytest
from necks import KINDS, ORDERS, Neck, neck

from folding import each
from lintarsia.chart import Chart
from lintarsia.planning.edgework import edge_work
from lintarsia.planning.planner import make_plan
from lintarsia.planning.rates import rates
from lintarsia.reading import read_chart

LOTS = range(10)
CASES = [(kind, order, lot) for kind in KINDS for order in ORDERS for lot in LOTS]
WIDTH_MM = 100 / 22
HEAD = """\
lintarsia: 1
title: Neck
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Pebble, shade: "#5a5f66"}
"""


def drawn(kind: str, order: str, lot: int) -> Neck:
    return neck(kind, order, random.Random(f"{kind} {order} {lot} edges"))


def edges(chart: Chart) -> dict[str, tuple[int, int]]:
    """Stitches that each supply casts on and binds off."""
    plan = make_plan(chart)
    made = edge_work(chart, plan.threads)
    names = [plan.supplies[s].id for s in plan.threads.cover.supply.tolist()]
    found = {supply.id: (0, 0) for supply in plan.supplies}
    for name, on, off in zip(names, made.cast_on.tolist(), made.bind_off.tolist(), strict=True):
        found[name] = (found[name][0] + on, found[name][1] + off)
    return found


@each("kind, order, lot", CASES)
def test_what_is_bound_off_between_the_sides_is_yarn_of_the_side_taken_up_second(
    kind: str, order: str, lot: int
) -> None:
    made = drawn(kind, order, lot)
    plan, found = make_plan(made.chart), edges(made.chart)
    expected = {supply.id: [0, 0] for supply in plan.supplies}
    for name, stitches in _by(plan, 1, ""):
        expected[name][0] += stitches
    for half in ("left", "right"):
        for name, stitches in _by(plan, len(made.rows), half):
            expected[name][1] += stitches
    if kind == "round-off":
        second = "left" if made.chart.side(made.parted) == "RS" else "right"
        gap = made.right[made.parted][0] - made.left[made.parted][1]
        inner = made.shaping.get(made.parted, {})
        assert not inner, "the dividing row is drawn without shaping of its own"
        expected[_by(plan, made.parted, second)[0][0]][1] += gap
    assert found == {name: tuple(numbers) for name, numbers in expected.items()}


def _by(plan: object, row: int, half: str) -> list[tuple[str, int]]:
    from lintarsia.planning.model import Plan

    assert isinstance(plan, Plan)
    made = plan.rows[row - 1]
    part = next((part for part in made.parts if part.side == half), None) if half else made
    assert part is not None
    return [(name, plan.runs[run].stitches) for name, run in zip(part.by, part.runs, strict=True)]


@each("kind, order, lot", CASES)
def test_the_totals_have_the_yarn_of_every_edge(kind: str, order: str, lot: int) -> None:
    """Metres: stitches, carries, rests and tails as the plan states them, and three widths for each stitch above."""
    made = drawn(kind, order, lot)
    plan = make_plan(made.chart)
    per = rates(made.chart.gauge, made.chart.technique)
    first, last = made.rows[0], made.rows[-1]
    opening = made.right[made.parted][0] - made.left[made.parted][1] if kind == "round-off" else 0
    on, off = len(first), len(last) - last.count(".") + opening
    totals = plan.totals
    mm = totals.stitches * per.loop + totals.carried * WIDTH_MM + totals.idle * per.row + 2 * per.tail * totals.supplies
    mm += 3 * WIDTH_MM * (on + off) + per.spare * len({supply.id for supply in plan.supplies if supply.first_row == 1})
    assert totals.metres * 1000 == pytest.approx(mm)


def read(text: str) -> Chart:
    reading = read_chart("neck.chart.yaml", text.encode())
    assert reading.problems == (), reading.problems
    assert reading.chart is not None
    return reading.chart


def test_a_side_bound_off_in_a_row_of_its_own_is_bound_off_once_and_by_its_own_yarns() -> None:
    """The right side ends in row 5 in two colours and the left in row 6; each yarn binds off the stitches it made."""
    text = HEAD + (
        "divide: {3: {by: bind-off, sides: right-first}}\n"
        "shaping:\n  5: {right: {bind-off: 5}}\n  6: {left: {bind-off: 2}}\n"
        "chart: |\n  ...........\n  AA.........\n  AA....AABBB\n  AA....AABBB\n  AAAAAAAAAAA\n  AAAAAAAAAAA\n"
    )
    chart = read(text)
    plan = make_plan(chart)
    assert edges(chart) == {"A1": (11, 2), "B1": (0, 3), "A2": (0, 6)}
    assert {s.id: (s.first_row, s.last_row) for s in plan.supplies} == {"A1": (1, 5), "B1": (3, 5), "A2": (3, 6)}
    assert plan.bind_off == ()
    assert [(row.row, row.line_up, row.finishes) for row in plan.rows[3:]] == [
        (4, ("A2", "A1", "B1"), ()),
        (5, ("B1", "A1", "A2"), ("B1", "A1")),
        (6, ("A2",), ("A2",)),
    ]
    # Each end hangs where its yarn comes to last: row 5, a right-side row, binds off B1's three and then A1's two.
    ends = [(end.supply, end.row, end.stitch, end.along) for end in plan.ends if end.kind == "finish"]
    assert ends == [("A1", 5, 5, ""), ("B1", 5, 3, "A"), ("A2", 6, 10, "")]


def test_what_waits_on_a_holder_takes_no_yarn() -> None:
    text = HEAD + (
        "divide: {3: {by: hold}}\n"
        "shaping:\n  5: {right: {hold: 5}, left: {hold: 2}}\n"
        "chart: |\n  ...........\n  AA....AAAAA\n  AA....AAAAA\n  AAAAAAAAAAA\n  AAAAAAAAAAA\n"
    )
    assert edges(read(text)) == {"A1": (11, 0), "A2": (0, 0)}


def test_an_opening_that_closes_is_cast_on_by_the_yarn_that_works_over_it() -> None:
    """Four stitches bound off in row 2 (from the left: the right side is the second) and cast on again in row 4."""
    text = HEAD + (
        "divide: {2: {by: bind-off}}\nshaping:\n  4: 4\n"
        "chart: |\n  AABBBBAAAAA\n  AA....AAAAA\n  AA....AAAAA\n  AAAAAAAAAAA\n"
    )
    found = edges(read(text))
    assert found["B1"] == (4, 4), found
    assert sum(on for on, _ in found.values()) == 15
    assert sum(off for _, off in found.values()) == 15


def test_sides_that_end_in_different_rows_are_both_bound_off() -> None:
    text = HEAD + (
        "divide: {3: {by: nothing, at: 5}}\n"
        "shaping:\n  4: {right: {bind-off: 1}}\n"
        "chart: |\n  AA.........\n  AA....BBBBB\n  AAAAAAAAAAA\n  AAAAAAAAAAA\n"
    )
    text = text.replace("shaping:\n  4: {right: {bind-off: 1}}\n", "").replace("{by: nothing, at: 5}", "{by: bind-off}")
    found = edges(read(text))
    assert found["B1"] == (0, 5)
    assert sum(off for _, off in found.values()) == 4 + 5 + 2
