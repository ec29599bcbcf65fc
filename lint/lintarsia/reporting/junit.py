"""JUnit XML as the xunit schema has it: a case for each rule that spoke of a file, failed where it blocks."""

import re
from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from lintarsia.reporting.counted import files_counted
from lintarsia.reporting.groups import by_file
from lintarsia.reporting.screen import Screen
from lintarsia.result import Report, Result

# What XML 1.0 cannot hold at all, not even escaped.
_FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def pieces(report: Report, screen: Screen) -> Iterator[str]:
    """One suite. Results that block are failures, suppressed ones are skipped with their reason, the rest is output.

    The first case always passes and says how many files were looked at, so that a clean run is not an empty suite.
    """
    # Gone through twice, since the suite's numbers stand above its cases.
    looked_at = f"{files_counted(report)} looked at"
    cases = failures = skipped = 0
    for _, own in _cases(report):
        cases += 1
        failures += any(map(report.blocks, own))
        skipped += all(result.suppressed for result in own)
    yield '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites>\n'
    yield f'<testsuite name="lintarsia" tests="{cases + 1}" failures="{failures}" errors="0" '
    yield f'skipped="{skipped}" time="0">\n<testcase name={quoteattr(looked_at)} classname="lintarsia" time="0"/>\n'
    for rule, own in _cases(report):
        yield _case(own[0].file, rule, own, report) + "\n"
    yield "</testsuite>\n</testsuites>\n"


def _cases(report: Report) -> Iterator[tuple[str, list[Result]]]:
    """What each rule says of each file."""
    for results in by_file(report.results):
        cases: dict[str, list[Result]] = {}
        for result in results:
            cases.setdefault(result.rule, []).append(result)
        yield from cases.items()


def _case(file: str, rule: str, results: list[Result], report: Report) -> str:
    head = f'<testcase name={_attribute(rule)} classname={_attribute(file)} time="0">'
    blocking = [r for r in results if report.blocks(r)]
    others = [r for r in results if not r.suppressed and not report.blocks(r)]
    inner = ""
    if blocking:
        kind = _attribute(f"{rule} {blocking[0].key}")
        summary = blocking[0].message + (f" (and {len(blocking) - 1:,} more)" if len(blocking) > 1 else "")
        inner = f"<failure message={_attribute(summary)} type={kind}>{_text(blocking)}</failure>"
    elif not others:
        inner = f"<skipped message={_attribute(results[0].justification)}/>"
    if others:
        inner += f"<system-out>{_text(others)}</system-out>"
    return f"{head}{inner}</testcase>"


def _text(results: list[Result]) -> str:
    lines = [f"{r.file}:{r.region.line}:{r.region.column}: {r.level}: {r.message}" for r in results]
    return escape(_legal("\n".join(lines)))


def _attribute(text: str) -> str:
    return quoteattr(_legal(text))


def _legal(text: str) -> str:
    return _FORBIDDEN.sub("\ufffd", text)
