"""The JSON report, whole."""

import json

import pytest

from lintarsia.reporting.json import render_in_lines, result_line
from lintarsia.reporting.screen import PLAIN
from lintarsia.result import Level, Region, Report, Result
from rendering import rendered

RESULT = Result(
    rule="area/single-stitch",
    key="alone",
    level=Level.WARNING,
    message="row 14 has a single “eye”",
    file="charts/heron.chart.yaml",
    region=Region(31, 3, 31, 24),
    row=14,
    stitches=(7, 7),
    remedy="work it in duplicate stitch",
    fingerprint="0" * 32,
)


def test_the_whole_document() -> None:
    kept = Result("a/b", "c", Level.NOTE, "m", "f", Region(1, 1, 1, 1), suppressed=True, justification="the eye")
    report = Report(charts=2, results=(RESULT, kept), version="1.2.3")
    assert json.loads(rendered(report, PLAIN, "json")) == {
        "schema": "lintarsia/report/1",
        "tool": {"name": "lintarsia", "version": "1.2.3"},
        "summary": {
            "charts": 2,
            "error": 0,
            "warning": 1,
            "note": 0,
            "suppressed": 1,
        },
        "blocked": False,
        "looked_at": {"chart": 2, "pattern": 0, "knit": 0},
        "results": [
            {
                "rule": "area/single-stitch",
                "key": "alone",
                "level": "warning",
                "message": "row 14 has a single “eye”",
                "file": "charts/heron.chart.yaml",
                "region": {"line": 31, "column": 3, "end_line": 31, "end_column": 24},
                "row": 14,
                "stitches": [7, 7],
                "remedy": "work it in duplicate stitch",
                "suppressed": False,
                "justification": None,
                "baseline": None,
                "fingerprint": "0" * 32,
            },
            {
                "rule": "a/b",
                "key": "c",
                "level": "note",
                "message": "m",
                "file": "f",
                "region": {"line": 1, "column": 1, "end_line": 1, "end_column": 1},
                "row": None,
                "stitches": None,
                "remedy": "",
                "suppressed": True,
                "justification": "the eye",
                "baseline": None,
                "fingerprint": "",
            },
        ],
    }


def test_a_run_without_charts_is_a_document_too() -> None:
    assert json.loads(rendered(Report(charts=0, results=()), PLAIN, "json"))["results"] == []


@pytest.mark.parametrize("results", [(), (RESULT,), (RESULT, RESULT)])
def test_the_report_of_a_site_says_the_same_with_a_line_for_each_result(results: tuple[Result, ...]) -> None:
    report = Report(charts=2, results=results, version="1.2.3")
    text = render_in_lines(report, map(result_line, report.results))
    assert json.loads(text) == json.loads(rendered(report, PLAIN, "json"))
    assert sum('"rule"' in line for line in text.splitlines()) == len(results)
