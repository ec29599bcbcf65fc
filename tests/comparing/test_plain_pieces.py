"""Pieces without a chart: shaping that changed is told by rows, and their numbers are told as numbers, once."""

from pathlib import Path

import pytest

from lintarsia.cli.main import main

CHART = """\
lintarsia: 1
title: Tern
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  S: {name: Sea, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  SSWSS
  SSSSS
"""
PATTERN = """\
lintarsia-pattern: 1
title: Tern
sizes: [small, large]
pieces:
  front: {chart: tern.chart.yaml}
  back:
    colour: S
    cast-on: {small: 12, large: 17}
    rows: 8
    shaping:
      small: {5: {right: -3}, 6: {left: -3}}
      large: {5: {right: -3}, 6: {left: -3}}
"""


def told(folder: Path, capsys: pytest.CaptureFixture[str], old: str, new: str) -> str:
    (folder / "tern.chart.yaml").write_text(CHART)
    was, now = folder / "was.pattern.yaml", folder / "now.pattern.yaml"
    was.write_text(PATTERN)
    now.write_text(PATTERN.replace(old, new))
    main(["compare", str(now), "--from", str(was)])
    return capsys.readouterr().out


def test_shaping_that_changed_in_one_size_is_told_by_its_rows(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said = told(tmp_path, capsys, "large: {5: {right: -3}", "large: {5: {right: -4}")
    assert "1 piece changed, large" in said
    assert "back, large: 4 rows changed; unchanged up to row 4" in said
    assert "small" not in said


def test_more_rows_are_told_as_a_number_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = told(tmp_path, capsys, "rows: 8", "rows: 9")
    assert "back, small and large: rows: 8 → 9" in said
    assert "changed; unchanged" not in said


def test_what_is_the_same_is_not_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "differs" in told(tmp_path, capsys, "rows: 8", "rows: 8   # as before")
