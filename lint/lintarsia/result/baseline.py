"""Results accepted as they stand today, so that only new ones block. Knows results only.

An entry names the file, the rule and the result's fingerprint, which hashes the stitches' pattern and not the row: a
row added at the bottom of a chart loses nothing. Entries are one a line and sorted, so that a review of a change to
the file reads as a list of what was accepted and what was mended.
"""

import json
import os
from collections.abc import Collection, Iterable
from dataclasses import replace
from typing import NamedTuple

from lintarsia.ground.regular import read_regular
from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.result import Level, Region, Report, Result, RuleInfo
from lintarsia.result.spool import Spool

SCHEMA = "lintarsia/baseline/1"
MOST_BYTES = 64 * 2**20  # some three hundred thousand accepted results
STALE = "baseline/stale"
_PARTS = ("file", "rule", "fingerprint", "message")


class BaselineEntry(NamedTuple):
    """An accepted result. `file` is relative to the baseline's folder, with forward slashes."""

    file: str
    rule: str
    fingerprint: str
    message: str


class Mark(NamedTuple):
    """What an accepted result of a file is known by."""

    rule: str
    fingerprint: str


@dataclass(frozen=True)
class Baseline:
    """`entries` with the line each stands on in the file at `path`."""

    path: str
    entries: dict[BaselineEntry, int]


def read_baseline(path: str) -> Baseline:
    """Raises Trouble for a file that is not there or is no baseline, with the line where there is one."""
    try:
        data = read_regular(path, MOST_BYTES)
        if len(data) > MOST_BYTES:
            raise Trouble(f"the baseline {path!r} has more than {MOST_BYTES:,} bytes, which is more than any should")
        text = data.decode("utf-8")
        document = json.loads(text)
    except FileNotFoundError:
        raise Trouble(f"there is no baseline {path!r}; --update makes it") from None
    except OSError as failure:
        raise Trouble(f"the baseline {path!r} cannot be read ({failure.strerror})") from None
    except json.JSONDecodeError as failure:
        raise Trouble(f"{path}:{failure.lineno}:{failure.colno}: the baseline is not JSON ({failure.msg})") from None
    except (UnicodeDecodeError, RecursionError):
        raise Trouble(f"the baseline {path!r} is not JSON in UTF-8") from None
    if not isinstance(document, dict) or document.get("schema") != SCHEMA:
        raise Trouble(f'{path!r} is no baseline: expected "schema": "{SCHEMA}"')
    accepted = document.get("accepted")
    if not isinstance(accepted, list) or not all(map(_is_entry, accepted)):
        raise Trouble(f'{path!r} is no baseline: "accepted" must list entries with {", ".join(_PARTS)}')
    lines = {mark: number for number, line in enumerate(text.splitlines(), 1) for mark in _marks(line)}
    entries = (BaselineEntry(*(entry[part] for part in _PARTS)) for entry in accepted)
    return Baseline(path, {entry: lines.get((entry.file, entry.fingerprint), 1) for entry in entries})


def _is_entry(entry: object) -> bool:
    return isinstance(entry, dict) and all(isinstance(entry.get(part), str) for part in _PARTS)


def _marks(line: str) -> Iterable[tuple[str, str]]:
    try:
        entry = json.loads(line.strip().removesuffix(","))
    except json.JSONDecodeError:
        return
    if _is_entry(entry):
        yield entry["file"], entry["fingerprint"]


def accepted_of(baseline: Baseline, file: str) -> frozenset[Mark]:
    """The results of one file that a baseline accepts."""
    name = _relative(file, baseline.path)
    return frozenset(Mark(entry.rule, entry.fingerprint) for entry in baseline.entries if entry.file == name)


def write_out(report: Report, path: str, old: Baseline | None = None) -> str:
    """The text of a baseline that accepts all that stands in `report`.

    Entries of `old` for files that this run did not look at are kept, so that a part can be brought up to date.
    """
    seen = {_relative(file, path) for file in report.files}
    kept = [entry for entry in (old.entries if old else ()) if entry.file not in seen and _exists(entry.file, path)]
    entries = [
        BaselineEntry(_relative(result.file, path), result.rule, result.fingerprint, result.message)
        for result in report.results
        if not result.suppressed and report.rules[result.rule].acceptable
    ]
    lines = [json.dumps(entry._asdict(), ensure_ascii=False) for entry in sorted({*kept, *entries})]
    return f'{{"schema": "{SCHEMA}", "accepted": [\n' + ",\n".join(lines) + "\n]}\n"


def hold_against(
    report: Report, baseline: Baseline, stale: RuleInfo | None, files: Collection[str] | None = None
) -> Report:
    """The report with accepted results marked, and one `baseline/stale` result for each entry that is no longer met.

    An entry is judged only where its file was looked at or is gone, and not at all without `stale`: a run that leaves
    results out on purpose says nothing of entries. `files` are those that the baseline is for, all unless given.
    Marked results are suppressed: they are reported as such, and block nothing.
    """
    waiting = {(entry.file, entry.rule, entry.fingerprint): entry for entry in baseline.entries}
    results = Spool()
    met: set[tuple[str, str, str]] = set()
    for result in report.results:
        if files is not None and result.file not in files:
            results.add([result])
            continue
        mark = (_relative(result.file, baseline.path), result.rule, result.fingerprint)
        if mark in waiting:
            met.add(mark)
            if not result.suppressed and report.rules[result.rule].acceptable:
                why = f"accepted in {os.path.basename(baseline.path)}"
                result = replace(result, suppressed=True, justification=why, baseline="unchanged")
        else:
            result = replace(result, baseline="new")
        results.add([result])
    if stale is None:
        return replace(report, results=results.results())
    seen = {_relative(file, baseline.path) for file in report.files}
    for mark, entry in waiting.items():
        if mark not in met and (entry.file in seen or not _exists(entry.file, baseline.path)):
            results.add([_stale(entry, baseline, stale)])
    return replace(report, results=results.results(), rules={**report.rules, STALE: stale})


def _stale(entry: BaselineEntry, baseline: Baseline, info: RuleInfo) -> Result:
    text = f"{entry.rule} in {entry.file} is accepted here but no longer found ({entry.message})"
    level = info.level if info.level is not Level.OFF else Level.NOTE
    file, line = os.path.relpath(baseline.path).replace(os.sep, "/"), baseline.entries[entry]
    region = Region(line, 1, line, 1)
    return Result(STALE, "stale", level, text, file, region, remedy=info.remedy, fingerprint=entry.fingerprint)


def _relative(file: str, baseline: str) -> str:
    folder = os.path.dirname(os.path.abspath(baseline))
    return os.path.relpath(os.path.abspath(file), folder).replace(os.sep, "/")


def _exists(file: str, baseline: str) -> bool:
    return os.path.exists(os.path.join(os.path.dirname(os.path.abspath(baseline)), file))
