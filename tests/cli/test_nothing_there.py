"""Where there is no chart, an answer about none must not pass for one about the charts that were meant. A folder
without charts is no fault, and standard error says so; a file that the command cannot take is refused."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lintarsia.cli.exits import CANNOT, OK

CHART = """\
lintarsia: 1
title: Kite
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
chart: |
  BBBBB
"""
REFUSED = "wren.knit.yaml is the log of a test knit; expected a chart or a pattern\n"


@pytest.fixture(autouse=True)
def folders(repository: Path, commit: Callable[[], None]) -> None:
    Path("empty").mkdir()
    Path("kite.chart.yaml").write_text(CHART)
    Path("wren.knit.yaml").write_text("lintarsia-knit: 1\nchart: kite.chart.yaml\nknitter: Wren\n")
    Path("lark.knit.yaml").write_text("lintarsia-knit: 1\nchart: kite.chart.yaml\nknitter: Lark\n")
    commit()


@pytest.mark.parametrize("words", [("check",), ("compare",), ("site", "-o", "pages")])
def test_a_folder_without_charts_is_said(invoke: Callable[..., Any], words: tuple[str, ...]) -> None:
    command, *more = words
    done = invoke(command, "empty", *more)
    assert (done.status, done.err) == (OK, "lintarsia: no charts found in empty\n")


@pytest.mark.parametrize("words", [("compare",), ("compare", "--from", "HEAD"), ("site", "-o", "pages")])
def test_logs_alone_are_refused(invoke: Callable[..., Any], words: tuple[str, ...]) -> None:
    command, *more = words
    assert invoke(command, "wren.knit.yaml", *more) == (CANNOT, "", f"lintarsia: {REFUSED}")
    done = invoke(command, "wren.knit.yaml", "lark.knit.yaml", *more)
    assert (done.status, done.err) == (CANNOT, f"lintarsia: {REFUSED}")
    assert not Path("pages").exists()


def test_among_charts_logs_are_passed_over(invoke: Callable[..., Any]) -> None:
    done = invoke("compare", "wren.knit.yaml", "kite.chart.yaml")
    assert (done.status, done.err) == (OK, "")
    assert "1 file: 1 the same" in done.out
    assert invoke("site", "wren.knit.yaml", "kite.chart.yaml", "-o", "pages").status == OK
    assert Path("pages/charts/kite.html").exists()


def test_one_that_is_excluded_is_told_so(invoke: Callable[..., Any]) -> None:
    Path("lintarsia.yaml").write_text("exclude: [kite.chart.yaml]\n")
    assert invoke("compare", "kite.chart.yaml").err == "lintarsia: the settings exclude kite.chart.yaml\n"
