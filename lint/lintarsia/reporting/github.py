"""Annotations as GitHub's workflow commands write them, and the summary line of the text report after them."""

from collections.abc import Iterator

from lintarsia.reporting.paint import harmless
from lintarsia.reporting.screen import Screen
from lintarsia.reporting.text import summary
from lintarsia.result import Level, Report, Result

COMMANDS = {Level.ERROR: "error", Level.WARNING: "warning", Level.NOTE: "notice"}


def pieces(report: Report, screen: Screen) -> Iterator[str]:
    """A line for each result that stands."""
    for result in report.results:
        if not result.suppressed:
            yield _annotation(result) + "\n"
    yield summary(report, screen) + "\n"


def warning(message: str) -> str:
    """A line that warns of something in no file."""
    return f"::warning title=lintarsia::{_data(message)}\n"


def _annotation(result: Result) -> str:
    line, column, end_line, end_column = result.region
    place = {
        "file": result.file,
        "line": line,
        "endLine": end_line,
        "col": column,
        "endColumn": max(column, end_column),
    }
    told = ",".join(f"{name}={_property(str(value))}" for name, value in {**place, "title": result.rule}.items())
    message = result.message + (f"\n{result.remedy}" if result.remedy else "")
    return f"::{COMMANDS[result.level]} {told}::{_data(message)}"


def _data(text: str) -> str:
    return harmless(text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A"))


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
