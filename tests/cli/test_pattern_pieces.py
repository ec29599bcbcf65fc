"""`plan`, `write` and `draw` of a pattern's pieces, as their callers meet them."""

import json
import re
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
yarns: {oat: {name: Oat DK, length: 10 m}}
colours: {B: {name: Oat, shade: "#f0e7d4", yarn: oat}, W: {name: Leaf, shade: "#35603a", yarn: oat}}
chart: |
  BWB
  WWB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Mat
sizes: [small, large]
yarns: {oat: {balls: {small: 1, large: 3}}}
pieces:
  front: {chart: leaf.chart.yaml, plain: B, cast-on: {small: 3, large: 8}, rows: {small: 2, large: 5}}
  loop: {chart: leaf.chart.yaml, times: {small: 0, large: 2}}
"""


@pytest.fixture
def run(in_a_folder_with: Callable[[dict[str, str]], Run]) -> Run:
    return in_a_folder_with({"leaf.chart.yaml": CHART, "mat.pattern.yaml": PATTERN})


def schema(name: str) -> dict[str, object]:
    found: dict[str, object] = json.loads((resource("schema") / name).read_text("utf-8"))
    return found


def test_all_pieces_in_all_sizes_as_json(run: Run) -> None:
    status, out, err = run("plan", "mat.pattern.yaml", "--format", "json")
    assert (status, err) == (OK, "")
    answer = json.loads(out)
    jsonschema.validate(answer, schema("pattern-plan.schema.json"))
    for piece in answer["pieces"]:
        jsonschema.validate(piece["plan"], schema("plan.schema.json"))
    assert [(p["piece"], p["size"], p["stitches"]) for p in answer["pieces"]] == [
        ("front", "small", 3),
        ("front", "large", 8),
        ("loop", "large", 3),
    ]
    assert answer["yarns"]["oat"]["large"]["pieces"] == ["front", "loop"]


def test_one_piece_in_one_size_is_that_plan(run: Run) -> None:
    status, out, _ = run("plan", "mat.pattern.yaml", "--piece", "front", "--size", "large", "--format", "json")
    plan = json.loads(out)
    assert status == OK
    jsonschema.validate(plan, schema("plan.schema.json"))
    assert (plan["schema"], plan["piece"], plan["size"], len(plan["rows"])) == (
        "lintarsia/plan/1",
        "front",
        "large",
        5,
    )
    whole = json.loads(run("plan", "mat.pattern.yaml", "--format", "json")[1])
    assert plan["supplies"] == whole["pieces"][1]["plan"]["supplies"]


def test_the_sheets_and_what_a_size_takes(run: Run) -> None:
    status, out, _ = run("plan", "mat.pattern.yaml", "--size", "large")
    assert status == OK
    assert "Mat: front, large\nintarsia, worked flat, 8 stitches × 5 rows\n" in out
    assert "Mat: loop, large\nknit 2 of these; the figures are for one\n" in out
    assert out.count("To buy") == 1
    assert "To buy for large, with 10% to spare\n  Oat DK" in out
    assert "\n    front " in out
    assert "\n    2 × loop, cast-on " in out
    assert "House values, all settings: a stitch cast on is 3 × its width and a tail, one\n  bound off 3 ×" in out


def test_the_tables_have_piece_and_size(run: Run) -> None:
    lines = run("plan", "mat.pattern.yaml", "--format", "csv-rows")[1].splitlines()
    assert lines[0].startswith("piece,size,row,side")
    assert [line.split(",")[:3] for line in lines[1:4]] == [
        ["front", "small", "1"],
        ["front", "small", "2"],
        ["front", "large", "1"],
    ]


def test_the_rows_in_words(run: Run) -> None:
    status, out, _ = run("write", "mat.pattern.yaml", "--piece", "front", "--size", "large")
    assert status == OK
    assert "Row 1 (RS): k3 B, k2 W, k3 B. (8 sts)" in out  # two at its right, three at its left
    status, out, _ = run("write", "mat.pattern.yaml", "--format", "html")
    assert out.count("<html") == 1
    assert (out.count("<h1>"), out.count('<ol class="rows">')) == (1, 3)


def test_a_picture_for_each_piece(run: Run, tmp_path: Path) -> None:
    assert run("draw", "mat.pattern.yaml", "-o", "mat.svg")[0] == OK
    found = sorted(path.name for path in tmp_path.glob("*.svg"))
    assert found == ["mat-front-large.svg", "mat-front-small.svg", "mat-loop-large.svg"]
    status, out, _ = run("draw", "mat.pattern.yaml", "--piece", "loop", "--size", "large")
    assert status == OK
    assert out.startswith("<svg")
    status, _, err = run("draw", "mat.pattern.yaml")
    assert (status, err) == (CANNOT, "lintarsia: 3 pictures; say where to put them with --output\n")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (("--piece", "frnt"), "the pattern has no piece 'frnt'; did you mean 'front'?"),
        (("--size", "huge"), "the pattern has no size 'huge'; it has small, large"),
        (("--piece", "loop", "--size", "small"), "the pattern does not knit loop in small"),
    ],
)
def test_what_the_pattern_does_not_have(run: Run, said: tuple[str, ...], told: str) -> None:
    for command in ("plan", "write", "draw"):
        assert run(command, "mat.pattern.yaml", *said) == (CANNOT, "", f"lintarsia: {told}\n")


def test_of_a_chart_there_are_no_pieces(run: Run) -> None:
    status, _, err = run("plan", "leaf.chart.yaml", "--piece", "front")
    assert (status, "--piece and --size are of a pattern; a chart has neither" in err) == (CANNOT, True)


def test_a_faulty_pattern_is_told_of_with_its_place(run: Run, tmp_path: Path) -> None:
    (tmp_path / "bad.pattern.yaml").write_text(PATTERN.replace("title: Mat\n", "title: Mat\nverzion: 2\n"), "utf-8")
    status, out, err = run("write", "bad.pattern.yaml")
    assert (status, out) == (FOUND, "")
    assert err.startswith("bad.pattern.yaml:3:1: ")
    assert err.endswith("lintarsia: the rows cannot be written until that is mended\n")


def test_a_chart_with_a_repeat_says_what_its_figures_are_for_and_names_nothing_to_buy(run: Run, tmp_path: Path) -> None:
    text = CHART.replace("chart: |", "repeat: {stitches: [1, 2], rows: [1, 2]}\nchart: |")
    (tmp_path / "leaf.chart.yaml").write_text(text, "utf-8")
    _, out, _ = run("plan", "leaf.chart.yaml")
    assert "the figures are for the chart as drawn, its repeat worked once" in out
    assert "To buy" not in out


def test_the_pattern_as_a_document(run: Run, tmp_path: Path) -> None:
    """Read as the knitter of the large size: what to buy, what is cast on, duplicate stitch, ends, every abbreviation
    once and none that is not used."""
    sewn = CHART.replace("chart: |", "duplicate-stitch:\n  - {colour: W, row: 2, stitches: [1, 1]}\nchart: |")
    (tmp_path / "leaf.chart.yaml").write_text(sewn, "utf-8")
    _, out, _ = run("write", "mat.pattern.yaml", "--size", "large")
    heads = [line for line, under in zip(out.splitlines(), out.splitlines()[1:], strict=False) if under[:3] == "---"]
    assert heads == ["Sizes", "Materials", "Gauge", "Abbreviations", "Finishing"]
    assert "  Oat DK           3 balls of 10 m (" in out
    assert "Mat: front, large\n" in out
    assert "Duplicate stitch, when the piece is finished\n  W  row 2, stitch 3\n" in out
    assert re.search(r"Ends of loop +weave in \d+, across the gap that each closes", out)
    assert "  rep" not in out
    assert out.count("  WS   wrong side\n") == 1
    for form in ("markdown", "html"):
        made = run("write", "mat.pattern.yaml", "--nested", "--format", form)[1]
        assert all(words in made for words in ("Materials", "Finishing", "Tapestry needle", "Duplicate stitch"))


def test_a_rib_is_worked_in_its_stitch(run: Run, tmp_path: Path) -> None:
    ribs = "  hem: {colour: B, stitch: 'k2, p2 rib', cast-on: 12, rows: 4}\n  cuff: {colour: B, stitch: garter, "
    ribs += "worked: round, cast-on: 9, rows: 3}\n"
    (tmp_path / "mat.pattern.yaml").write_text(PATTERN + ribs, "utf-8")
    _, out, _ = run("write", "mat.pattern.yaml", "--size", "large")
    assert "Cast on 12 sts in B.\nWorked back and forth in k2, p2 rib.\n" in out
    assert "After the last row, bind off.\n" in out
    assert "Rows 1 and 3 (RS): work in k2, p2 rib. (12 sts)\nRows 2 and 4 (WS): work in k2, p2 rib. (12 sts)\n" in out
    assert "Rounds 1–3: work in garter. (9 sts)\n" in out
    assert "k12 B" not in out


TWICE = """\
  back:
    colour: B
    cast-on: 9
    rows: 8
    divide: {3: {by: bind-off, stitches: 3, sides: together}, 5: {by: bind-off, stitches: 1, sides: together}}
"""


@pytest.mark.parametrize("command", ["plan", "write", "draw"])
def test_a_plain_piece_that_is_parted_twice_is_told_at_its_place(run: Run, tmp_path: Path, command: str) -> None:
    (tmp_path / "mat.pattern.yaml").write_text(PATTERN + TWICE, "utf-8")
    status, out, err = run(command, "mat.pattern.yaml", "--piece", "back", "--size", "small")
    line = (PATTERN + TWICE).splitlines().index(TWICE.splitlines()[4]) + 1
    assert (status, out) == (FOUND, "")
    assert err.startswith(f"mat.pattern.yaml:{line}:")
    assert "row 5" in err
    assert "[grid/opening]" in err
    assert run(command, "mat.pattern.yaml", "--piece", "front", "--size", "small")[0] == OK


def test_the_settings_bound_pieces_as_they_bound_charts(run: Run, tmp_path: Path) -> None:
    """The large front is 8 by 5, its chart 3 by 2; a back of 7 by 4 has no chart."""
    (tmp_path / "mat.pattern.yaml").write_text(PATTERN + "  back: {colour: B, cast-on: 7, rows: 4}\n", "utf-8")
    (tmp_path / "lintarsia.yaml").write_text("max-stitches: 40\n")
    assert run("plan", "mat.pattern.yaml")[0] == OK
    (tmp_path / "lintarsia.yaml").write_text("max-stitches: 39\n")
    said = "it comes to more than 39 stitches, the max-stitches of the settings"
    for command in ("plan", "write", "draw"):
        status, _, err = run(command, "mat.pattern.yaml")
        assert status == FOUND
        assert err.startswith(f"mat.pattern.yaml:6:10: front, large cannot be laid out: {said}\nlintarsia: ")
    _, out, _ = run("check", "mat.pattern.yaml", "--format", "json")
    assert "front, large: the repeats come to more than anybody knits (max-stitches in the settings: 39)" in out
    assert "back" not in out
    (tmp_path / "lintarsia.yaml").write_text("max-stitches: 27\n")
    _, _, err = run("plan", "mat.pattern.yaml", "--piece", "back")
    assert f"back, small cannot be laid out: {said.replace('39', '27')}" in err
    _, out, _ = run("check", "mat.pattern.yaml", "--format", "json")
    assert "back: its rows and stitches come to more than anybody knits" in out
