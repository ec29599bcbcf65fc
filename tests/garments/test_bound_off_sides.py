"""Sides that are bound off to the last stitch, each in a row of its own: by whom, with how much yarn, in what words."""

import random
import re

import pytest
from knitter import Knitter
from necks import KINDS, ORDERS, Neck, neck

from folding import each
from lintarsia.chart import Chart
from lintarsia.planning.planner import make_plan
from lintarsia.planning.rates import rates
from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work
from lintarsia.written import write_rows
from lintarsia.written.style import Style

CASES = [(kind, order, lot) for kind in KINDS for order in ORDERS for lot in range(8)]


def finished(kind: str, order: str, lot: int) -> tuple[Neck, Chart, dict[str, int]]:
    """A neck with two rows more, in which one side after the other is bound off at its outer edge, where it starts; and
    in which row each side is."""
    made = neck(kind, order, random.Random(f"{kind} {order} {lot} finished"))
    top, width = len(made.rows), len(made.rows[0])
    first = "right" if made.chart.side(top + 1) == "RS" else "left"
    second = {"right": "left", "left": "right"}[first]
    left, right = made.half(top, "left"), made.half(top, "right")
    one = left.ljust(width, ".") if first == "right" else right.rjust(width, ".")
    off = {first: top + 1, second: top + 2}
    number = {"left": len(left), "right": len(right)}
    shaping = {**made.shaping, **{row: {half: f"{{bind-off: {number[half]}}}"} for half, row in off.items()}}
    said = f"shaping: {shaping}\n".replace("'", "")
    text = re.sub(r"shaping: .*\n", "", made.text)
    text = text.replace("chart: |\n", f"{said}chart: |\n  {'.' * width}\n  {one}\n")
    reading = read_chart("neck.chart.yaml", text.encode())
    assert reading.problems == (), reading.problems
    assert reading.chart is not None
    return made, reading.chart, off


@each("kind, order, lot", CASES, quickly=5)
def test_the_yarns_of_the_last_row_bind_off_and_finish_then(kind: str, order: str, lot: int) -> None:
    _, chart, off = finished(kind, order, lot)
    plan = make_plan(chart)
    for half, row in off.items():
        [part] = [part for part in plan.rows[row - 1].parts if part.side == half]
        [below] = [part for part in plan.rows[row - 2].parts if part.side == half]
        assert part.line_up == part.finishes == below.line_up[::-1]
        assert set(below.finishes).isdisjoint(part.finishes)
        assert {plan_supply.last_row for plan_supply in plan.supplies if plan_supply.id in part.finishes} == {row}
    assert plan.bind_off == ()
    assert all(supply.id in plan.rows[supply.last_row - 1].finishes for supply in plan.supplies)
    assert told(chart) == []


def told(chart: Chart) -> list[str]:
    work = Work(chart)
    rules = [catalogue.load(f"grid/{name}") for name in ("opening", "stitch-count", "shaping-side", "parted-row")]
    return [finding.message for rule in rules if rule.check for finding in rule.check(work, rule.options())]


@each("kind, order, lot", CASES, quickly=5)
def test_it_takes_the_yarn_that_binding_off_after_the_last_row_takes(kind: str, order: str, lot: int) -> None:
    """Every stitch that is left is bound off once, said outright as well as left to the knitter."""
    made, chart, _ = finished(kind, order, lot)
    said, per = make_plan(chart), rates(chart.gauge, chart.technique)
    opening = made.right[made.parted][0] - made.left[made.parted][1] if kind == "round-off" else 0
    last = len(made.rows[-1]) - made.rows[-1].count(".")
    bare = sum(s.stitches for s in said.supplies) * per.loop + said.totals.carried * per.carry
    bare += said.totals.idle * per.row + len(said.supplies) * 2 * per.tail
    bare += len(made.rows[0]) * per.cast_on + sum(s.first_row == 1 for s in said.supplies) * per.spare
    assert said.totals.metres * 1000 - bare == pytest.approx((opening + last) * per.bind_off)


@pytest.mark.parametrize("named", [False, True])
@each("kind, order, lot", CASES, quickly=5)
def test_a_knitter_with_the_words_alone_has_nothing_left(kind: str, order: str, lot: int, named: bool) -> None:
    made, chart, off = finished(kind, order, lot)
    hands = Knitter(len(made.rows[0]), yarns=set() if named else None)
    plan = make_plan(chart) if named else None
    for row in write_rows(chart, plan=plan, style=Style(stars=False, merge=False)):
        hands.line(f"{row.label}: {row.text}")
    assert hands.sides == {"left": 0, "right": 0}
    assert not hands.waits
    assert not hands.yarns
    assert {half: hands.rows[row, half] for half, row in off.items()} == {"left": "", "right": ""}
