"""`check PATTERN --piece --size`, drawings of all sizes at once, and what a lone chart with a repeat says, as callers
meet them."""

import json
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.ground.resources import resource

Run = Callable[..., tuple[int, str, str]]
CHART = """\
lintarsia: 1
title: Leaf
gauge: {stitches: 20, rows: 30, over: 10 cm}
yarns: {oat: {name: Oat DK, length: 1 m, balls: 1}}
colours: {B: {name: Oat, shade: "#f0e7d4", yarn: oat}, W: {name: Leaf, shade: "#35603a", yarn: oat}}
repeat: {stitches: [1, 4], rows: [1, 2]}
chart: |
  BWWB
  WWBB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Mat
sizes: [small, large]
pieces:
  front: {chart: leaf.chart.yaml, repeats: {small: 1, large: 9}}
  back: {colour: B, cast-on: 6, rows: 4, measures: {width: 9 cm}}
"""


@pytest.fixture
def run(in_a_folder_with: Callable[[dict[str, str]], Run]) -> Run:
    return in_a_folder_with({"leaf.chart.yaml": CHART, "mat.pattern.yaml": PATTERN})


def found(run: Run, *argv: str) -> tuple[int, list[tuple[str, str]]]:
    status, out, _ = run("check", "mat.pattern.yaml", "--format", "json", *argv)
    return status, [(r["rule"], r["message"][:12]) for r in json.loads(out)["results"]]


def test_the_check_narrowed_to_a_piece_or_a_size(run: Run) -> None:
    """Nine leaves across need more than eight yarns; the back is 3 cm wide and not 9; the ball is too short for all."""
    row, back, ball = ("supply/row-limit", "front, large"), ("size/measurement", "back: 6 stit"), "yarn/too-little"
    status, all_of_it = found(run)
    assert status == FOUND
    assert {row, back} <= set(all_of_it)
    _, small = found(run, "--size", "small")
    assert back in small
    assert row not in small
    _, front = found(run, "--piece", "front", "--size", "large")
    assert row in front
    assert back not in front
    assert ball in [rule for rule, _ in front], "that of the chart itself"


@pytest.mark.parametrize(
    "argv",
    [
        ("mat.pattern.yaml", "--piece", "fron"),
        ("mat.pattern.yaml", "--size", "medium"),
        ("leaf.chart.yaml", "--piece", "front"),
        (".", "--size", "large"),
        ("mat.pattern.yaml", "leaf.chart.yaml", "--size", "large"),
        ("mat.pattern.yaml", "--size", "large", "--fix"),
    ],
)
def test_what_it_cannot_be_narrowed_to(run: Run, argv: tuple[str, ...]) -> None:
    status, out, err = run("check", *argv)
    assert (status, out) == (CANNOT, "")
    assert err


def test_a_lone_chart_with_a_repeat_says_nothing_to_buy(run: Run) -> None:
    status, out, _ = run("plan", "leaf.chart.yaml", "--format", "json")
    plan = json.loads(out)
    schema = json.loads((resource("schema") / "plan.schema.json").read_text("utf-8"))
    jsonschema.validate(plan, schema)
    assert (status, plan["as_drawn"]) == (OK, True)
    assert [need["to_buy"] for need in plan["yarns"]] == [None]
    _, text, _ = run("plan", "leaf.chart.yaml")
    assert "for the chart as drawn, its repeat worked once" in text
    assert "To buy" not in text
    _, piece, _ = run("plan", "mat.pattern.yaml", "--piece", "front", "--size", "large", "--format", "json")
    laid = json.loads(piece)
    assert "as_drawn" not in laid
    assert [need["to_buy"] > 1 for need in laid["yarns"]] == [True]


def test_drawings_of_all_sizes_at_once(run: Run, tmp_path: Path) -> None:
    """The front is its chart with the repeat box; the back, alike in both sizes, has both outlines."""
    assert run("draw", "mat.pattern.yaml", "--nested", "-o", "mat.svg")[0] == OK
    front, back = ((tmp_path / f"mat-{name}.svg").read_text("utf-8") for name in ("front", "back"))
    assert "Mat: front, repeat 1 (9) times" in front
    assert "lx-repeat" in front
    assert back.count('data-size="') == 2
    for more in (("--size", "large"), ("--over", "supplies"), ("--as", "fabric")):
        assert run("draw", "mat.pattern.yaml", "--nested", *more)[0] == CANNOT
    assert run("draw", "leaf.chart.yaml", "--nested")[0] == CANNOT


def test_nested_words_of_every_piece(run: Run) -> None:
    status, out, err = run("write", "mat.pattern.yaml", "--nested")
    assert (status, err) == (OK, "")
    assert "Row 1 (RS): *k2 B, k2 W; rep from * to end. (4 (36) sts)" in out
    assert "Cast on 4 (36) sts." in out
    assert "Row 2 (WS): p6 B. (6 sts)" in out or "Rows 2 and 4 (WS): p6 B. (6 sts)" in out
