"""How many files a report is of, in words."""

from lintarsia.result import Kind, Report
from lintarsia.telling.counts import count, one_and_all


def files_counted(report: Report) -> str:
    """`3 charts`, `1 chart, 1 pattern and 2 test knits`; charts are left out where there are only others."""
    charts = {Kind.CHART: report.charts} if report.charts or not report.others else {}
    return one_and_all([count(number, kind.noun) for kind, number in {**charts, **report.others}.items()])
