"""Rules on charts look at a pattern's pieces laid out, and stand where the chart's file causes what they find."""

from pathlib import Path

import pytest
from pattern_files import chart_text, write_pattern

from lintarsia.engine import check_paths
from lintarsia.result import Result

FEW = "limits: {supplies: 3}\n"


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def found(rule: str, *paths: str) -> list[Result]:
    return [result for result in check_paths(paths or (".",)).results if result.rule == rule]


def test_a_motif_that_needs_more_yarns_on_its_ground_than_alone(tmp_path: Path) -> None:
    """W BB WW is three yarns; with ground at both sides five, in row 3 + 2 of the piece. In the size without ground
    nothing is wrong, and the chart alone has nothing either."""
    text = """\
sizes: [s, m, l]
pieces:
  bag:
    {chart: heart.chart.yaml, plain: B, cast-on: {s: 5, m: 8, l: 12}, rows: 9,
     at: {row: 3, stitch: {s: 1, m: 3, l: 4}}}
"""
    write_pattern(tmp_path / "book", text, heart=chart_text("WBBWW WWWWW WWWWW", FEW))
    (result,) = found("supply/row-limit")
    assert result.message == "bag, m, l: row 5 needs 5 supplies; at most 3 are allowed"
    assert (result.file, result.row, result.stitches) == ("book/heart.chart.yaml", 3, (1, 5))
    assert result.region == (9, 3, 9, 8)
    assert found("supply/row-limit", "book/heart.chart.yaml") == []
    assert found("supply/row-limit", "book/cushion.pattern.yaml") == [result]


def test_what_the_chart_shows_by_itself_is_told_once(tmp_path: Path) -> None:
    text = "pieces:\n  bag: {chart: h.chart.yaml, plain: B, cast-on: 9, rows: 4, at: {stitch: 3}}\n"
    rows = "BWBWB BBBBB"  # by itself it needs five yarns, and on its ground as many
    write_pattern(tmp_path, text, h=chart_text(rows, FEW))
    assert [result.message for result in found("supply/row-limit")] == ["row 2 needs 5 supplies; at most 3 are allowed"]


def test_repeats_tell_of_their_sum(tmp_path: Path) -> None:
    text = "pieces:\n  bag: {chart: h.chart.yaml, repeats: 3}\n"
    write_pattern(tmp_path, text, h=chart_text("BWB BBB", "limits: {supplies: 4}\n"))
    (result,) = found("supply/row-limit")
    assert result.message == "bag: row 2 needs 7 supplies; at most 4 are allowed"
    assert (result.file, result.row) == ("h.chart.yaml", 2)


def test_a_float_over_the_edges_of_repeats_is_told_once(tmp_path: Path) -> None:
    """By itself the chart has one white stitch and so no float; in the piece white floats across seven, twice."""
    text = "pieces:\n  bag: {chart: h.chart.yaml, repeats: 3}\n"
    write_pattern(tmp_path, text, h=chart_text("WBBBBBBB", "technique: stranded\n"))
    assert found("float/too-long", "h.chart.yaml") == []
    (result,) = found("float/too-long")
    assert result.message.startswith("bag: Bone (W) floats across 7 stitches (3.5 cm) in row 1")
    assert (result.file, result.row, result.stitches) == ("h.chart.yaml", 1, (1, 7))


def test_a_result_of_a_piece_is_accepted_in_the_pattern(tmp_path: Path) -> None:
    text = """\
sizes: [s, l]
pieces:
  bag: {chart: h.chart.yaml, repeats: {s: 1, l: 3}}
suppress:
  - {rule: supply/row-limit, piece: bag, size: l, justification: a wall hanging}
"""
    write_pattern(tmp_path, text, h=chart_text("BWB BBB", "limits: {supplies: 4}\n"))
    assert [(r.suppressed, r.justification) for r in found("supply/row-limit")] == [(True, "a wall hanging")]
    assert found("suppress/unmatched") == []
