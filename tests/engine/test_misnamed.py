"""Files under nearly a chart's name: found, named, and never a reason to call a folder in order."""

from pathlib import Path

import pytest

from lintarsia.engine.misnamed import misnamed, right_name
from lintarsia.settings import SettingsFinder


@pytest.mark.parametrize(
    ("name", "right"),
    [
        ("fox.chart.yaml.txt", "fox.chart.yaml"),
        ("fox.chart.yml", "fox.chart.yaml"),
        ("fox.chart.yml.txt", "fox.chart.yaml"),
        ("D.CHART.YAML", "D.chart.yaml"),
        ("fox.chart.yaml.yaml", "fox.chart.yaml"),
        ("cushion.Pattern.yaml", "cushion.pattern.yaml"),
        ("a.b.pattern.yml", "a.b.pattern.yaml"),
    ],
)
def test_nearly_right_names_have_a_right_one(name: str, right: str) -> None:
    assert right_name(name) == right


@pytest.mark.parametrize(
    "name",
    ["fox.chart.yaml", "cushion.pattern.yaml", "fox.yaml", "chart.yml", ".chart.yml", "fox.chart.yaml.bak",
     "fox.chart.yaml~", "fox.chart.json", "fox-chart.yml", "fox.chart.yaml.orig"],
)  # fmt: skip
def test_other_names_are_left_in_peace(name: str) -> None:
    assert right_name(name) is None


def test_they_are_found_below_a_folder_and_by_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("b.chart.yml", "sub/A.CHART.YAML", ".hidden/c.chart.yml", "drafts/d.chart.yml", "e.chart.yaml"):
        Path(name).parent.mkdir(exist_ok=True)
        Path(name).write_text("")
    Path("lintarsia.yaml").write_text("exclude: [drafts/]\n")
    found = [("b.chart.yml", "b.chart.yaml"), ("sub/A.CHART.YAML", "A.chart.yaml")]
    assert misnamed(["."], SettingsFinder()) == found
    assert misnamed(["./b.chart.yml", "sub", "drafts/d.chart.yml"], SettingsFinder()) == found


def test_what_the_settings_take_for_a_chart_is_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("b.chart.yml").write_text("")
    Path("lintarsia.yaml").write_text('charts: ["*.chart.yml"]\n')
    assert misnamed(["."], SettingsFinder()) == []
