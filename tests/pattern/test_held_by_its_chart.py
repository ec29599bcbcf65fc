"""A piece is planned and judged as its chart is: by the settings above the chart's file, not the pattern's."""

import json
from pathlib import Path

import pytest

from lintarsia.cli.main import main
from lintarsia.engine import check_paths
from lintarsia.engine.releasing import release_card
from lintarsia.result import Level
from lintarsia.settings.reader import read_settings

CHART = """\
lintarsia: 1
title: Row of leaves
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours: {B: {name: Oat, shade: "#f0e7d4", yarn: oat}, W: {name: Leaf, shade: "#35603a", yarn: oat}}
yarns: {oat: {name: Oat DK, length: 100 m}}
chart: |
  BWWB
  BWWB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Mat
ALLOWANCEpieces:
  mat: {chart: charts/leaf.chart.yaml, repeats: 2}
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "charts").mkdir()
    (tmp_path / "charts" / "leaf.chart.yaml").write_text(CHART, "utf-8")
    (tmp_path / "mat.pattern.yaml").write_text(PATTERN.replace("ALLOWANCE", ""), "utf-8")
    return tmp_path


def row_limits(folder: Path, pattern: str, charts: str) -> list[str]:
    """What is said of the piece, whose rows need five yarns where one leaf needs three."""
    (folder / "lintarsia.yaml").write_text(pattern, "utf-8")
    (folder / "charts" / "lintarsia.yaml").write_text(charts, "utf-8")
    results = check_paths(["mat.pattern.yaml"], jobs=1).results
    return [result.message for result in results if result.rule == "supply/row-limit"]


def test_limits_are_those_above_the_chart(folder: Path) -> None:
    told = ["mat: rows 1–2 need up to 5 supplies, row 1 first; at most 4 are allowed"]
    assert row_limits(folder, "limits: {supplies: 9}", "limits: {supplies: 4}") == told
    assert row_limits(folder, "limits: {supplies: 4}", "limits: {supplies: 9}") == []


def test_a_rule_that_is_off_for_the_chart_is_off_for_its_pieces(folder: Path) -> None:
    assert row_limits(folder, "", "limits: {supplies: 4}\nrules: {supply/row-limit: off}") == []


def test_settings_that_are_named_hold_for_all(folder: Path) -> None:
    row_limits(folder, "limits: {supplies: 9}", "limits: {supplies: 9}")
    (folder / "strict.yaml").write_text("limits: {supplies: 4}", "utf-8")
    found = check_paths(["mat.pattern.yaml"], settings=read_settings("strict.yaml"), jobs=1).results
    assert [result.rule for result in found if "at most 4" in result.message] == ["supply/row-limit"]


def test_settings_that_are_not_in_order_leave_the_pattern_s_own(folder: Path) -> None:
    assert row_limits(folder, "limits: {supplies: 4}", "limits: {supplies: many}") != []


def test_tails_are_the_chart_s_and_the_allowance_the_pattern_s(folder: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (folder / "lintarsia.yaml").write_text("yarn: {tail: 10 cm, allowance: 50 %}", "utf-8")
    (folder / "charts" / "lintarsia.yaml").write_text("yarn: {tail: 40 cm, allowance: 20 %}", "utf-8")

    def planned() -> tuple[float, float]:
        main(["plan", "mat.pattern.yaml", "--format", "json"])
        oat = json.loads(capfd.readouterr().out)["yarns"]["oat"]["one size"]
        return oat["metres"], oat["allowance_metres"] / oat["metres"]

    main(["plan", "charts/leaf.chart.yaml", "--format", "json"])
    one = json.loads(capfd.readouterr().out)
    assert one["tail_mm"] == 400
    metres, share = planned()
    assert metres > 5 * 2 * 0.4, "five yarns with two ends each"
    assert share == pytest.approx(0.5, abs=0.01)
    (folder / "mat.pattern.yaml").write_text(PATTERN.replace("ALLOWANCE", "allowance: 5 %\n"), "utf-8")
    assert planned()[1] == pytest.approx(0.05, abs=0.01)


def test_what_is_found_in_a_chart_blocks_as_its_settings_say(folder: Path) -> None:
    """A piece's result stands in the chart's file: it blocks where warnings block there."""
    rule = "rules: {supply/row-limit: warning}\nlimits: {supplies: 4}\n"
    for charts, blocks in ((f"{rule}block: warning", 1), (f"{rule}block: error", 0)):
        row_limits(folder, "block: error", charts)
        card = release_card("mat.pattern.yaml")
        assert len([r for r in card.blocking if r.rule == "supply/row-limit"]) == blocks
        report = check_paths(["mat.pattern.yaml"], jobs=1)
        assert sum(report.blocks(result) for result in report.results if result.level is Level.WARNING) == blocks
