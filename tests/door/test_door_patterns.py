"""Patterns through the door, against the commands: the same file, settings, piece and size."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

import lintarsia

CHART = """lintarsia: 1
title: Toy
worked: flat
gauge: {stitches: 20, rows: 28, over: 10 cm}
colours:
  B: {name: Blue, shade: "#204080"}
  W: {name: White, shade: "#f4f0e8"}
chart: |
  BBBBBBB
  BBWWWBB
  BWWWWBB
  BBBBBBB
"""
PATTERN = """lintarsia-pattern: 1
title: Toy bag
sizes: [small, large]
pieces:
  side:
    chart: toy.chart.yaml
    times: {small: 2, large: 3}
    cast-on: {small: 7, large: 11}
    rows: {small: 4, large: 9}
    plain: B
  flap:
    chart: toy.chart.yaml
    times: {small: 0, large: 1}
    cast-on: {large: 7}
    rows: {large: 4}
"""


@pytest.fixture
def bag(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    (tmp_path / "toy.chart.yaml").write_text(CHART, encoding="utf-8")
    (tmp_path / "bag.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    (tmp_path / "lintarsia.yaml").write_text("yarn: {tail: 22 cm, allowance: 15%}\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return "bag.pattern.yaml"


def test_pieces_are_those_that_a_size_knits(bag: str) -> None:
    assert lintarsia.pieces(bag) == (("side", "small", 2), ("side", "large", 3), ("flap", "large", 1))
    assert lintarsia.pieces(Path(bag))[1].times == 3


def test_a_piece_is_read_as_it_is_laid_out(bag: str) -> None:
    chart = lintarsia.read(bag, piece="side", size="large")
    assert (chart.title, chart.grid.width, chart.grid.height) == ("Toy bag: side, large", 11, 9)
    assert lintarsia.read(bag, piece="flap").grid.width == 7  # the one size that has a flap


@pytest.mark.parametrize("size", ["small", "large"])
def test_a_plan_is_that_of_the_command(bag: str, size: str, printed: Callable[..., str]) -> None:
    plan = lintarsia.plan(bag, piece="side", size=size)
    told = json.loads(printed("plan", bag, "--piece", "side", "--size", size, "--format", "json"))
    assert [(s.id, s.stitches, round(s.metres, 2)) for s in plan.supplies] == [
        (s["id"], s["stitches"], s["metres"]) for s in told["supplies"]
    ]
    assert [round(need.allowance_metres, 2) for need in plan.yarns] == [y["allowance_metres"] for y in told["yarns"]]
    assert plan._repr_html_().startswith("<p>")  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("asked", "options"),
    [
        ({}, []),
        ({"size": "small", "supplies": True}, ["--size", "small", "--supplies"]),
        ({"piece": "flap", "format": "markdown"}, ["--piece", "flap", "--format", "markdown"]),
        ({"format": "markdown"}, ["--format", "markdown"]),
        ({"format": "html", "supplies": True}, ["--format", "html", "--supplies"]),
        ({"size": "large", "format": "html"}, ["--size", "large", "--format", "html"]),
        (
            {"piece": "side", "size": "large", "rows": (2, 5), "supplies": True},
            ["--piece", "side", "--size", "large", "--rows", "2-5", "--supplies"],
        ),
    ],
)
def test_words_are_those_of_the_command(
    bag: str, asked: dict[str, object], options: list[str], printed: Callable[..., str]
) -> None:
    assert lintarsia.write(bag, **asked) == printed("write", bag, *options)  # type: ignore[arg-type]


def test_several_pieces_are_named_where_one_is_wanted(bag: str) -> None:
    named = "'bag.pattern.yaml' has 3 of these; name one by piece= and size=: side, small; side, large; flap, large"
    for asked in (lintarsia.read, lintarsia.plan):
        with pytest.raises(lintarsia.Trouble) as caught:
            asked(bag)
        assert str(caught.value) == named
    with pytest.raises(lintarsia.Trouble, match="has 2 of these"):
        lintarsia.write(bag, size="large", rows=(1, 2))


def test_names_that_the_pattern_has_not(bag: str) -> None:
    with pytest.raises(lintarsia.Trouble, match="the pattern has no piece 'sid'"):
        lintarsia.plan(bag, piece="sid")
    with pytest.raises(lintarsia.Trouble, match="the pattern does not knit flap in small"):
        lintarsia.read(bag, piece="flap", size="small")
    with pytest.raises(TypeError, match="a chart has neither"):
        lintarsia.read("toy.chart.yaml", size="small")
    with pytest.raises(TypeError, match="a chart has neither"):
        lintarsia.plan(lintarsia.read(bag, piece="flap"), piece="flap")
    with pytest.raises(lintarsia.Trouble, match=r"no pattern: those are named NAME\.pattern\.yaml"):
        lintarsia.pieces("toy.chart.yaml")


def test_a_pattern_with_errors_is_told_with_places(bag: str) -> None:
    Path(bag).write_text(PATTERN.replace("cast-on", "castt-on"), encoding="utf-8")
    with pytest.raises(lintarsia.Unreadable, match=r"^bag\.pattern\.yaml:8:5: .*cast-on.* \[file/schema\]"):
        lintarsia.pieces(bag)
