"""The results of all charts of a site, as `lintarsia check` gathers them."""

from collections.abc import Sequence

from lintarsia import __version__
from lintarsia.ground.kinds import Kind
from lintarsia.publishing.pages.entry import Entry
from lintarsia.result import Report, Result
from lintarsia.result.model import strictest


def report_of(entries: Sequence[Entry], results: Sequence[Result]) -> Report:
    """`results` in their order."""
    patterns = sum(entry.pattern for entry in entries)
    return Report(
        len(entries) - patterns,
        tuple(results),
        blocking=strictest(entry.blocking for entry in entries),
        version=__version__,
        others={Kind.PATTERN: patterns} if patterns else {},
        files=tuple(entry.file for entry in entries),
        blocking_of={entry.file: entry.blocking for entry in entries},
        fingerprints={e.file: e.fingerprint for e in sorted(entries, key=_file) if e.fingerprint},
    )


def _file(entry: Entry) -> str:
    return entry.file
