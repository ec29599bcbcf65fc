"""The report as GitLab's code-quality widget reads it."""

from collections.abc import Iterator
from hashlib import blake2b

from lintarsia.reporting.jsonpieces import list_pieces
from lintarsia.reporting.screen import Screen
from lintarsia.result import Level, Report, Result

SEVERITIES = {Level.ERROR: "major", Level.WARNING: "minor", Level.NOTE: "info"}


def pieces(report: Report, screen: Screen) -> Iterator[str]:
    """A list of what stands; suppressed results have no place in this format."""
    yield from list_pieces((_issue(result) for result in report.results if not result.suppressed), "")
    yield "\n"


def _issue(result: Result) -> dict[str, object]:
    return {
        "description": result.message,
        "check_name": result.rule,
        "fingerprint": _fingerprint(result),
        "severity": SEVERITIES[result.level],
        "location": {"path": result.file, "lines": {"begin": result.region.line, "end": result.region.end_line}},
    }


def _fingerprint(result: Result) -> str:
    """The widget wants each unique in the report; a result's own mark is unique in its file only."""
    return blake2b(f"{result.file}\0{result.fingerprint}".encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()
