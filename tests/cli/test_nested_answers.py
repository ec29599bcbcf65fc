"""`write --nested` and `draw --nested` of pieces of every kind: a repeat, shaping that differs in numbers alone or in
more, a chart for each size."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from lxml import html

from lintarsia.cli.exits import OK

Invoke = Callable[..., Any]
LEAF = """\
lintarsia: 1
title: Leaf
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours: {B: {name: Oat, shade: "#f0e7d4"}, W: {name: Leaf, shade: "#35603a"}}
repeat: {stitches: [1, 4], rows: [1, 2]}
chart: |
  BWWB
  WWBB
"""
MAT = """\
lintarsia-pattern: 1
title: Mat
sizes: [small, large]
pieces:
  front: {chart: leaf.chart.yaml, repeats: {small: 1, large: 9}}
  side:
    chart: two.chart.yaml
    plain: B
    cast-on: {small: 9, large: 12}
    rows: {small: 5, large: 5}
    at: {stitch: {small: 3, large: 4}, row: 1}
    shaping: {small: {3: {right: -3}}, large: {3: {right: -4}}}
  gusset:
    colour: B
    cast-on: {small: 9, large: 12}
    rows: 6
    shaping: {small: {3: {right: -3}}, large: {4: {left: -4}}}
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("leaf.chart.yaml").write_text(LEAF, "utf-8")
    Path("two.chart.yaml").write_text(re.sub("repeat.*\n", "", LEAF), "utf-8")
    Path("mat.pattern.yaml").write_text(MAT, "utf-8")
    return tmp_path


def pieces(text: str) -> dict[str, list[str]]:
    """The lines of each piece by its heading."""
    found: dict[str, list[str]] = {}
    lines = text.splitlines()
    for line, under in zip(lines, [*lines[1:], ""], strict=True):
        if under.startswith("="):
            found[line] = []
        elif under.startswith("---"):
            break
        elif found and not line.startswith("="):
            list(found.values())[-1].append(line)
    return found


def test_what_can_be_said_for_all_sizes_is_and_the_rest_by_size(invoke: Invoke) -> None:
    done = invoke("write", "mat.pattern.yaml", "--nested")
    said = "lintarsia: the rows of gusset differ in more than numbers; each size has its own\n"
    assert (done.status, done.err) == (OK, said)
    body = done.out[done.out.index("Mat: front\n") :]
    found = pieces(body)
    assert list(found) == ["Mat: front", "Mat: side", "Mat: gusset, small", "Mat: gusset, large"]
    assert "Row 1 (RS): *k2 B, k2 W; rep from * to end. (4 (36) sts)" in found["Mat: front"]
    assert "Cast on 4 (36) sts." in found["Mat: front"]
    side = found["Mat: side"]
    assert side[side.index("Sizes: small (large). One number is for all sizes.") + 1] == "Cast on 9 (12) sts."
    assert "Row 1 (RS): k4 (5) B, k2 W, k3 (5) B. (9 (12) sts)" in side
    assert "Row 3 (RS): BO 3 (4) sts at beg (right edge); k6 (8) B. (6 (8) sts)" in side
    assert "After the last row, bind off." in side
    assert "Cast on 12 sts in B." in found["Mat: gusset, large"]
    assert "Row 4 (WS): BO 4 sts at beg (left edge); p8 B. (8 sts)" in found["Mat: gusset, large"]


def test_one_piece_alone_is_said_without_what_stands_around(invoke: Invoke) -> None:
    done = invoke("write", "mat.pattern.yaml", "--nested", "--piece", "front")
    assert done.err == ""
    assert done.out.startswith("Mat: front\n==========\n")
    assert "Finishing" not in done.out


def test_a_nested_document_shows_the_chart_with_its_repeat(invoke: Invoke) -> None:
    """The rows of the front are the chart's own; those of the side are of the piece."""
    invoke("write", "mat.pattern.yaml", "--nested", "--format", "html", "-o", "mat.html")
    pictures = [image.get("alt") for image in html.fromstring(Path("mat.html").read_bytes()).xpath("//img")]
    charts = [alt for alt in pictures if alt.startswith("Chart of ")]
    assert charts == ["Chart of Leaf", "Chart of Mat: side, small", "Chart of Mat: side, large"]


def test_the_words_of_the_settings_hold_for_all_sizes(invoke: Invoke) -> None:
    Path("lintarsia.yaml").write_text("words: {terms: british}\n")
    told = invoke("write", "mat.pattern.yaml", "--nested").out
    assert told.count("After the last row, cast off.") == 4
    assert "bind off" not in told


def test_rows_of_a_piece_alone(invoke: Invoke) -> None:
    """Row 2 of the large front runs from the chart's left; in full no repeat is folded."""
    words = ("write", "mat.pattern.yaml", "--piece", "side", "--size", "small")
    rows = [line for line in invoke(*words, "--rows", "2-3").out.splitlines() if line.startswith("Row")]
    assert rows == [
        "Row 2 (WS): p4 B, p2 W, p3 B. (9 sts)",
        "Row 3 (RS): BO 3 sts at beg (right edge); k6 B. (6 sts)",
    ]
    last = [line for line in invoke(*words, "--rows", "4-").out.splitlines() if line.startswith("Row")]
    assert last == ["Row 4 (WS): p6 B. (6 sts)", "Row 5 (RS): k6 B. (6 sts)"]
    supplies = invoke(*words, "--rows", "1", "--supplies").out
    assert "\nSupplies, to wind, tails and 10% to spare included\n" in supplies
    front = ("write", "mat.pattern.yaml", "--piece", "front", "--size", "large", "--rows", "1")
    folded, full = (
        next(line for line in invoke(*front, *more).out.splitlines() if line.startswith("Row 1"))
        for more in ((), ("--in-full",))
    )
    assert (folded.count(" W"), full.count(" W")) == (1, 9)


def test_nested_drawings(invoke: Invoke) -> None:
    """The front with its repeat box and how often it is worked; side and gusset with an outline for each size."""
    done = invoke("draw", "mat.pattern.yaml", "--nested", "-o", "mat.SVG")
    assert (done.status, done.err) == (OK, "")
    made = {path.name: path.read_text("utf-8") for path in Path().glob("*.SVG")}
    assert sorted(made) == ["mat-front.SVG", "mat-gusset.SVG", "mat-side.SVG"]
    assert "Mat: front, repeat 1 (9) times" in made["mat-front.SVG"]
    assert ">Mat: side<" in made["mat-side.SVG"]
    assert [made[f"mat-{name}.SVG"].count('data-size="') for name in ("front", "side", "gusset")] == [0, 2, 2]
    one = invoke("draw", "mat.pattern.yaml", "--nested", "--piece", "side")
    assert one.out.count("data-size=") == 2
    assert one.out.endswith("</svg>\n")


def test_rows_are_repeated_too(invoke: Invoke) -> None:
    text = MAT.replace(
        "repeats: {small: 1, large: 9}", "row-repeats: {small: 2, large: 5}, repeats: {small: 3, large: 4}"
    )
    Path("mat.pattern.yaml").write_text(text, "utf-8")
    drawn = invoke("draw", "mat.pattern.yaml", "--nested", "--piece", "front").out
    assert "Mat: front, repeat 3 (4) times, rows 2 (5) times" in drawn


def test_a_chart_for_each_size_is_drawn_by_itself(invoke: Invoke) -> None:
    text = MAT.replace(
        "chart: leaf.chart.yaml, repeats", "chart: {small: leaf.chart.yaml, large: two.chart.yaml}, repeats"
    )
    Path("mat.pattern.yaml").write_text(text, "utf-8")
    done = invoke("draw", "mat.pattern.yaml", "--nested", "--piece", "front", "-o", "mat.svg")
    assert (done.status, done.err) == (OK, "lintarsia: front has a chart for each size; each is drawn by itself\n")
    assert sorted(path.name for path in Path().glob("*.svg")) == ["mat-front-large.svg", "mat-front-small.svg"]
    assert ">Mat: front, small, repeat 1 time<" in Path("mat-front-small.svg").read_text("utf-8")
