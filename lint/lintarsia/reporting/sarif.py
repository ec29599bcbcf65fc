"""SARIF 2.1.0 (OASIS standard, 2020), as code-scanning services take it."""

from collections import Counter
from collections.abc import Iterator
from pathlib import PurePath
from typing import Any
from urllib.parse import quote

from lintarsia.reporting.jsonpieces import indented, list_pieces
from lintarsia.reporting.screen import Screen
from lintarsia.result import Fix, Level, Region, Report, Result, RuleInfo
from lintarsia.result.tally import tally

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FINGERPRINT = "lintarsia/v1"
ROOT = "SRCROOT"  # the name that the standard uses in its own examples (3.4.4) for the root of the sources

# A well-known scanning service refuses a whole file above this; the gravest results are kept and the cut is said.
MOST_RESULTS = 25_000


def pieces(report: Report, screen: Screen) -> Iterator[str]:
    """One run with its rules, results, suppressions, fixes and how it ended. Regions end exclusively, as SARIF's do."""
    names = sorted(report.rules)
    index = {name: i for i, name in enumerate(names)}
    run = {
        "tool": {
            "driver": {
                "name": "lintarsia",
                "semanticVersion": report.version,
                "rules": [_rule(report.rules[name]) for name in names],
            }
        },
        "columnKind": "unicodeCodePoints",
        **_bases(report.root),
        "invocations": [_invocation(report, max(0, len(report.results) - MOST_RESULTS))],
        "results": [],
    }
    before, empty, behind = indented({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, "").rpartition("[]")
    assert empty  # the results are the document's last list
    base = ROOT if report.root else None
    yield before
    yield from list_pieces((_result(result, index, base) for result in _gravest(report)), " " * 6)
    yield behind + "\n"


def _gravest(report: Report) -> Iterator[Result]:
    """As many as a file may have, the gravest; of equally grave ones the first. They come in the report's order."""
    room = MOST_RESULTS
    left: dict[tuple[bool, Level], int] = {}  # how many of each kind are still taken
    for kind, number in sorted(_kinds(report).items(), key=lambda item: (item[0][0], -item[0][1].rank)):
        left[kind] = min(number, room)
        room -= left[kind]
    for result in report.results:
        if left[result.suppressed, result.level] > 0:
            left[result.suppressed, result.level] -= 1
            yield result


def _kinds(report: Report) -> Counter[tuple[bool, Level]]:
    kinds: Counter[tuple[bool, Level]] = Counter()
    for (_, level, suppressed), number in tally(report.results).items():
        kinds[suppressed, level] += number
    return kinds


def _invocation(report: Report, cut: int) -> dict[str, Any]:
    invocation: dict[str, Any] = {"executionSuccessful": True, "exitCode": 1 if report.blocked else 0}
    if cut:
        text = f"{cut} more results were left out; the report in JSON has them all"
        invocation["toolExecutionNotifications"] = [{"level": "warning", "message": {"text": text}}]
    return invocation


def _rule(info: RuleInfo) -> dict[str, Any]:
    keys = "\n".join(f"- `{key}`: {phrase}" for key, phrase in info.keys.items())
    sources = "; ".join(info.sources)
    return {
        "id": info.name,
        "shortDescription": {"text": info.summary},
        "fullDescription": {"text": info.why},
        "help": {
            "text": f"{info.why}\n\nTo mend it: {info.remedy}\n\nSources: {sources}",
            "markdown": f"{info.why}\n\n**To mend it:** {info.remedy}\n\n{keys}\n\n*Sources: {sources}*",
        },
        "defaultConfiguration": {"level": str(info.level)},
        "properties": {"tags": [info.group]},
    }


def _bases(root: str) -> dict[str, Any]:
    """What relative addresses start from: the standard has it end in a slash (3.14.14)."""
    if not root:
        return {}
    described = {"text": "the top of the repository, or the folder that was checked where there is none"}
    address = PurePath(root).as_uri().rstrip("/") + "/"
    return {"originalUriBaseIds": {ROOT: {"uri": address, "description": described}}}


def _result(result: Result, index: dict[str, int], base: str | None) -> dict[str, Any]:
    where = {"artifactLocation": _artifact(result.file, base), "region": _region(result.region)}
    told: dict[str, Any] = {
        "ruleId": result.rule,
        "ruleIndex": index.get(result.rule, -1),  # -1 is the standard's "not in the list"
        "level": str(result.level if result.level is not Level.OFF else Level.NOTE),
        "message": {"text": result.message},
        "locations": [{"physicalLocation": where}],
        "partialFingerprints": {FINGERPRINT: result.fingerprint},
        "properties": {"key": result.key, "row": result.row, "stitches": result.stitches, "remedy": result.remedy},
    }
    if result.baseline:
        told["baselineState"] = result.baseline
    if result.suppressed:
        kind = "external" if result.baseline == "unchanged" else "inSource"
        told["suppressions"] = [{"kind": kind, "justification": result.justification}]
    if result.fixes:
        told["fixes"] = [_fix(fix, result.file, base) for fix in result.fixes]
    return told


def _artifact(file: str, base: str | None) -> dict[str, str]:
    """Percent-encoded; a relative path starts from `base`, or from where the run began; an absolute one is whole."""
    encoded = quote(file, safe="/")
    if file.startswith("/"):
        return {"uri": f"file://{encoded}"}
    return {"uri": encoded, "uriBaseId": base} if base else {"uri": encoded}


def _region(region: Region) -> dict[str, int]:
    return {
        "startLine": region.line,
        "startColumn": region.column,
        "endLine": region.end_line,
        "endColumn": region.end_column,
    }


def _fix(fix: Fix, file: str, base: str | None) -> dict[str, Any]:
    replacements = [
        {"deletedRegion": _region(edit.region), "insertedContent": {"text": edit.text}} for edit in fix.edits
    ]
    return {
        "description": {"text": fix.description},
        "artifactChanges": [{"artifactLocation": _artifact(file, base), "replacements": replacements}],
        "properties": {"safe": fix.safe},
    }
