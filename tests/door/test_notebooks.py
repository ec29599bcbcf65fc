"""What a notebook is given: SVG and HTML that parse, in which no word of a file is markup, and no id stands twice."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from lxml import etree, html

import lintarsia
from lintarsia.result import Kind, Level, Region, Report, Result

HOSTILE = """\
lintarsia: 1
title: "<script>alert(1)</script> & \\"so\\""
worked: flat
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: "<b>Rust</b>", shade: "#a4552e"}
  B: {name: Bone, shade: "#efe9dc"}
chart: |
  AAAAAAA
  AABAAAA
  AAAAAAA
"""


@pytest.fixture
def chart(tmp_path: Path) -> lintarsia.Chart:
    file = tmp_path / "<i>a.chart.yaml"
    file.write_text(HOSTILE, encoding="utf-8")
    return lintarsia.read(file)


def test_a_chart_is_a_drawing(chart: lintarsia.Chart) -> None:
    one, other = (etree.fromstring((chart._repr_svg_() or "").encode()) for _ in range(2))
    rows = "//*[@data-row][@data-side]"
    assert (one.tag, len(one.xpath(rows))) == ("{http://www.w3.org/2000/svg}svg", 3)
    assert not set(one.xpath("//@id")) & set(other.xpath("//@id"))
    assert not one.xpath("//*[local-name() = 'script']")


def test_a_plan_is_a_drawing_and_a_table(chart: lintarsia.Chart) -> None:
    plan = lintarsia.plan(chart)
    told = html.fromstring(f"<div>{plan._repr_html_()}</div>")
    assert told.xpath("string(p)").startswith("3 supplies, 6 ends, at most 3 in a row; ")
    lines = [[cell.text for cell in line.iter("td")] for line in told.iter("tr")][1:]
    assert [line[:5] for line in lines] == [
        [s.id, "Bone" if s.colour == "B" else "<b>Rust</b>", str(s.first_row), str(s.last_row), str(s.stitches)]
        for s in plan.supplies
    ]
    assert [len(list(told.iter(name))) for name in ("svg", "b", "script")] == [1, 0, 0]


def test_in_a_session_each_is_one_line(tmp_path: Path) -> None:
    """Seven stitches by three rows; the speck, and two colours, one of which reaches both sides of it."""
    file = tmp_path / "a.chart.yaml"
    file.write_text(HOSTILE, encoding="utf-8")
    chart = lintarsia.read(file)
    title = '<script>alert(1)</script> & "so"'
    assert repr(chart) == f"<Chart {str(file)!r}: {title!r}, 7 stitches × 3 rows, 2 colours>"
    assert repr(lintarsia.plan(chart)) == f"<Plan of {str(file)!r}: 3 supplies, 5 runs, 3 rows>"
    report = lintarsia.check(file)
    assert [str(result.level) for result in report.results] == ["warning", "note"]
    assert repr(report) == "<Report of 1 chart: 1 warning, 1 note>"


def test_a_report_s_line_has_every_level_and_kind() -> None:
    levels = [Level.ERROR, Level.WARNING, Level.WARNING, Level.NOTE, Level.NOTE]
    results = tuple(
        Result("area/x", "x", level, "found", "x.chart.yaml", Region(1, 1, 1, 2), suppressed=i == 4)
        for i, level in enumerate(levels)
    )
    report = Report(charts=1204, results=results, others={Kind.PATTERN: 1, Kind.KNIT: 3})
    told = "1,204 charts, 1 pattern and 3 test knits"
    assert repr(report) == f"<Report of {told}: 1 error, 2 warnings, 1 note, 1 accepted>"
    assert repr(Report(charts=1, results=())) == "<Report of 1 chart: no results>"


def test_a_report_is_a_table(chart: lintarsia.Chart) -> None:
    report = lintarsia.check(chart.path)
    told = html.fromstring(f"<div>{report._repr_html_()}</div>")
    assert told.xpath("string(p)").startswith("1 chart: ")
    lines = [[cell.text for cell in line.iter("td")] for line in told.iter("tr")][1:]
    assert (
        [(line[0], line[2], line[4]) for line in lines]
        == [(str(r.level), r.message, r.rule) for r in report.results]
        != []
    )
    assert {line[1] for line in lines} == {f"{r.file}:{r.region.line}" for r in report.results}
    assert not list(told.iter("i", "script"))


def test_of_many_lines_a_notebook_has_some(write_chart: Callable[..., Path]) -> None:
    wide, rows = 30, 41  # single stitches, each a supply of its own where nothing may be carried
    odd = "BW" * (wide // 2)
    file = write_chart(
        grid="\n".join(odd if row % 2 else odd[::-1] for row in range(rows)), extra="limits: {idle: 0, carry: 0}\n"
    )
    plan = lintarsia.plan(file)
    told = plan._repr_html_() or ""
    assert len(plan.supplies) > 200
    assert told.count("<tr>") == 201
    assert f"and {len(plan.supplies) - 200:,} more" in told


def test_without_the_door_nobody_draws(tmp_path: Path) -> None:
    (tmp_path / "a.chart.yaml").write_text(HOSTILE, encoding="utf-8")
    code = (
        "import sys; from lintarsia.reading import read_chart; chart = read_chart(sys.argv[1]).chart;"
        "print(chart._repr_svg_(), 'lintarsia.drawing' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "a.chart.yaml")], capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["None", "False"]
