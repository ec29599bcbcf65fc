"""Necks of four kinds, worked together and in turn, against what is worked out by other means.

Plans: where the sides share no colour with the body, each side is a piece of its own, so that its supplies, joins,
finishes and line-ups are those of a chart that has this side alone (`side_alone`, drawn by hand). Elsewhere: no yarn on
both sides, every stitch once. Words: a knitter who has nothing else (`knitter.py`) comes to the chart.
"""

import random
from collections import Counter

import pytest
from knitter import Knitter
from necks import KINDS, ORDERS, Neck, neck, side_alone

from folding import each
from lintarsia.chart.sides import Sides
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.written import write_rows
from lintarsia.written.style import Style

LOTS = range(12)
CASES = [(kind, order, lot) for kind in KINDS for order in ORDERS for lot in LOTS]
Signature = tuple[str, int, int, int, int, int]


def drawn(kind: str, order: str, lot: int, *, apart: bool = False) -> Neck:
    return neck(kind, order, random.Random(f"{kind} {order} {lot}"), apart=apart)


def signatures(plan: Plan, above: int = 0) -> dict[str, Signature]:
    """Of each supply its colour, rows counted from `above`, stitches, carries and rests."""
    return {
        s.id: (s.colour, s.first_row - above, s.last_row - above, s.stitches, s.carried, s.idle) for s in plan.supplies
    }


@each("kind, order, lot", CASES, quickly=5)
def test_each_side_is_planned_as_the_piece_that_it_is(kind: str, order: str, lot: int) -> None:
    made = drawn(kind, order, lot, apart=True)
    plan, below = make_plan(made.chart), made.parted - 1
    whole = signatures(plan, below)
    alone = {half: make_plan(side_alone(made, half)) for half in ("left", "right")}
    expected = Counter(s for one in alone.values() for s in signatures(one).values())
    assert Counter(s for s in whole.values() if s[1] > 0) == expected
    for row in range(made.parted, len(made.rows) + 1):
        for part in plan.rows[row - 1].parts:
            own = alone[part.side].rows[row - made.parted]
            names = signatures(alone[part.side])
            for mine, theirs in ((part.line_up, own.line_up), (part.joins, own.joins), (part.finishes, own.finishes)):
                assert [whole[name] for name in mine] == [names[name] for name in theirs], (row, part.side)


@each("kind, order, lot", CASES, quickly=5)
def test_no_yarn_is_on_both_sides_and_every_stitch_is_worked_once(kind: str, order: str, lot: int) -> None:
    made = drawn(kind, order, lot)
    plan = make_plan(made.chart)
    on: dict[str, set[str]] = {}
    for row in range(made.parted, len(made.rows) + 1):
        parts = plan.rows[row - 1].parts
        assert {part.side for part in parts} == {"left", "right"}
        for part in parts:
            worked = sum(plan.runs[run].stitches for run in part.runs)
            assert worked == len(made.half(row, part.side))
            for name in part.by:
                on.setdefault(name, set()).add(part.side)
    assert all(len(sides) == 1 for sides in on.values())
    assert sum(s.stitches for s in plan.supplies) == sum(len(row) - row.count(".") for row in made.rows)


@pytest.mark.parametrize("fold", [False, True])
@each("kind, order, lot", CASES, quickly=5)
def test_a_knitter_with_the_words_alone_comes_to_the_chart(kind: str, order: str, lot: int, fold: bool) -> None:
    made = drawn(kind, order, lot)
    hands = Knitter(len(made.rows[0]))
    for row in write_rows(made.chart, style=Style(fold=fold, stars=False, merge=False)):
        hands.line(f"{row.label}: {row.text}")
    assert hands.rows == as_worked(made)
    assert hands.waits == 0
    worked = [(p.row, p.half or "") for p in Sides(made.chart).in_order]
    if order != "together":
        assert list(hands.rows) == worked


def as_worked(made: Neck) -> dict[tuple[int, str], str]:
    """Every row's stitches in the order in which they are knitted, from the drawing."""
    expected: dict[tuple[int, str], str] = {}
    for number, row in enumerate(made.rows, 1):
        halves = {"": row} if number < made.parted else {half: made.half(number, half) for half in ("right", "left")}
        for half, text in halves.items():
            expected[number, half] = text[::-1] if made.chart.side(number) == "RS" else text
    return expected
