"""Floats and carries that are caught on the way (`caught: {every: …}`): measured between catches, and said everywhere.

A float that is too long to lie loose is trapped behind the stitches it passes (common practice).
"""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from lintarsia.chart import Chart
from lintarsia.cli.plan import command as plan_command
from lintarsia.cli.write import command as write_command
from lintarsia.engine import check_paths
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.steps import steps
from lintarsia.reading import read_chart

TEXT = """\
lintarsia: 1
title: Far apart
worked: flat
technique: stranded
gauge: {stitches: 20, rows: 28, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  BWWBWWBWWBWWBW
  WBBBBBBBBBBWBW
  BWWBWWBWWBWWBW
"""
LENGTHS = ["3 stitches", "1.5 cm", "3"]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "far.chart.yaml"


def caught(every: str) -> str:
    return TEXT.replace("chart: |", f"caught: {{every: {every}}}\nchart: |")


def read(file: Path) -> Chart:
    reading = read_chart(str(file))
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def too_long(file: Path) -> list[str]:
    return [result.message for result in check_paths([str(file)], jobs=1).results if result.rule == "float/too-long"]


@pytest.mark.parametrize("every", LENGTHS)
def test_a_float_is_measured_between_catches(file: Path, every: str) -> None:
    file.write_text(TEXT)
    found = "Bone (W) floats across 10 stitches (5 cm) in row 2; at most 2.5 cm (5 stitches) is allowed"
    assert too_long(file) == [found]
    file.write_text(caught(every))
    assert too_long(file) == []


def test_catches_further_apart_than_a_float_may_be_do_not_help(file: Path) -> None:
    file.write_text(caught("8 stitches"))
    assert len(too_long(file)) == 1


@pytest.mark.parametrize("every", LENGTHS)
def test_plan_words_and_card_say_it(file: Path, every: str) -> None:
    file.write_text(caught(every))
    said = "loats and carries longer than 3 stitches are caught on the way"
    run = CliRunner()
    assert f"f{said}" in run.invoke(plan_command, [str(file)]).output
    assert f"F{said}." in run.invoke(write_command, [str(file)]).output
    assert json.loads(run.invoke(plan_command, [str(file), "--format", "json"]).output)["limits"]["caught"] == 3
    chart = read(file)
    told = {step.row.row: step.shaped for step in steps(chart, make_plan(chart))}
    assert told == {1: "", 2: "catch W1 on the way", 3: ""}


def test_nothing_is_said_where_the_file_says_nothing(file: Path) -> None:
    file.write_text(TEXT)
    run = CliRunner()
    assert "caught" not in run.invoke(plan_command, [str(file)]).output
    assert "caught" not in run.invoke(write_command, [str(file)]).output
    assert json.loads(run.invoke(plan_command, [str(file), "--format", "json"]).output)["limits"]["caught"] is None
