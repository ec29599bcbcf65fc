"""The report for a knitter at a terminal."""

from lintarsia.reporting.screen import Screen
from lintarsia.result import Report


def render(report: Report, screen: Screen) -> str:
    """The whole report."""
    lines = [
        f"{r.file}:{r.region.line}:{r.region.column} {r.level} {r.rule} {r.message}"
        for r in report.results
        if not r.suppressed
    ]
    return "\n".join(lines) + f"\n{report.charts} charts, {len(lines)} results\n"
