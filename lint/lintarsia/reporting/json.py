"""The report as JSON, `lintarsia/report/1`."""

import json
from collections.abc import Iterable, Iterator
from typing import Any

from lintarsia.reporting.jsonpieces import NEW_LINE, in_line, indented, list_pieces
from lintarsia.reporting.screen import Screen
from lintarsia.result import Fixed, Level, Report, Result


def pieces(report: Report, screen: Screen) -> Iterator[str]:
    """The whole report. Keys that have nothing to say are null, never left out.

    Bit by bit, so that no memory is spent on a report of a million results: summary first, then results.
    """
    yield f'{indented(_head(report), "").removesuffix(NEW_LINE + "}")},\n  "results": '
    yield from list_pieces(map(result_document, report.results), "  ")
    if report.fixed is not None:
        yield ',\n  "fixed": '
        yield from list_pieces(map(_fixed, report.fixed), "  ")
    yield "\n}\n"


def render_in_lines(report: Report, lines: Iterable[str]) -> str:
    """The same with a line for each result: a third of the length and a tenth of the time, for the report of a site.

    `lines` are those of the report's results, by `result_line`.
    """
    head = json.dumps(_head(report), ensure_ascii=False)[:-1]
    results = ",\n".join(lines)
    return f'{head}, "results": [\n{results}\n]}}\n'


def result_line(result: Result) -> str:
    """A result as a line of JSON."""
    return in_line(result_document(result))


def _head(report: Report) -> dict[str, Any]:
    """All but the results."""
    return {
        "schema": "lintarsia/report/1",
        "tool": {"name": "lintarsia", "version": report.version},
        "summary": {
            "charts": report.charts,  # of charts alone, which it has meant from the first; `looked_at` has them all
            **{str(level): report.count(level) for level in (Level.ERROR, Level.WARNING, Level.NOTE)},
            "suppressed": report.suppressed,
        },
        "blocked": report.blocked,
        "looked_at": {str(kind): number for kind, number in report.by_kind.items()},
    } | ({} if report.fingerprints is None else {"fingerprints": dict(report.fingerprints)})


def result_document(result: Result) -> dict[str, Any]:
    """A result as other programs get it, whatever answer it stands in."""
    return {
        "rule": result.rule,
        "key": result.key,
        "level": str(result.level),
        "message": result.message,
        "file": result.file,
        "region": result.region._asdict(),
        "row": result.row,
        "stitches": None if result.stitches is None else list(result.stitches),
        "remedy": result.remedy,
        "suppressed": result.suppressed,
        "justification": result.justification if result.suppressed else None,
        "baseline": result.baseline or None,
        "fingerprint": result.fingerprint,
    }


def _fixed(fixed: Fixed) -> dict[str, Any]:
    """`line` and `row` as they were just before this was mended."""
    return {
        "rule": fixed.rule,
        "key": fixed.key,
        "description": fixed.description,
        "file": fixed.file,
        "line": fixed.line,
        "row": fixed.row,
        "safe": fixed.safe,
    }
