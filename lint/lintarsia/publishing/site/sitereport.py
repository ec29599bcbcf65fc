"""The results of all files of a site, as `lintarsia check` gathers them."""

from collections import Counter
from collections.abc import Sequence

from lintarsia import __version__
from lintarsia.ground.kinds import Kind
from lintarsia.publishing.pages.entry import Entry
from lintarsia.result import Report, Result
from lintarsia.result.model import strictest


def report_of(entries: Sequence[Entry], results: Sequence[Result]) -> Report:
    """`results` in their order."""
    counts = Counter(entry.kind for entry in entries)
    return Report(
        counts.pop(Kind.CHART, 0),
        tuple(results),
        blocking=strictest(entry.blocking for entry in entries),
        version=__version__,
        others=dict(sorted(counts.items())),
        files=tuple(entry.file for entry in entries),
        blocking_of={entry.file: entry.blocking for entry in entries},
        fingerprints={e.file: e.fingerprint for e in sorted(entries, key=_file) if e.fingerprint},
    )


def _file(entry: Entry) -> str:
    return entry.file
