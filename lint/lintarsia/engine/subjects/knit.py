"""A test knit's log on its way through a check, with what was knitted read. That is checked on its own."""

import os
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress

from lintarsia.chart import Places
from lintarsia.engine.subjects.base import Acceptance, Found, Subject
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.ground.leftout import is_there
from lintarsia.knits.model import KnitLog
from lintarsia.knits.reading import read_knit
from lintarsia.knits.work import KnitWork, as_pattern
from lintarsia.pattern.paths import Outside, chart_path
from lintarsia.pattern.reading import read_pattern
from lintarsia.reading import read_chart
from lintarsia.reading.source import Read
from lintarsia.result import Finding
from lintarsia.settings import Settings


class KnitSubject(Subject):
    """`log` is there once it is read, if it names what was knitted; `work` once that is read."""

    kind = Kind.KNIT
    beside = "what was knitted"
    log: KnitLog | None = None
    work: KnitWork | None = None

    def read(self) -> Iterable[tuple[str, Finding]]:
        reading = read_knit(self.file, self.data, max_bytes=self.settings.max_bytes, read=self.files)
        self.log = reading.log
        return reading.problems

    def gather(self) -> None:
        if self.log is not None:
            self.work = knit_work(self.log, self.settings, self.files)

    @property
    def places(self) -> Places:
        return self.log.places if self.log is not None else Places()

    def accepted(self) -> Sequence[Acceptance]:
        own = self.log.suppressions if self.log is not None else ()
        return [Acceptance(one.rule, one.justification, one.index, _anywhere) for one in own]

    def named(self) -> Iterator[str]:
        """What was knitted; of a pattern its charts as well, since rows and stitches are theirs."""
        if self.log is None:
            return
        with suppress(Outside):
            path = chart_path(self.file, self.log.names, repository(self.file))
            yield path
            if self.log.of is Kind.PATTERN:
                yield from _charts_of(path, self.settings, self.files)


SUBJECT = KnitSubject


def _anywhere(found: Found) -> bool:
    return True


def _charts_of(path: str, settings: Settings, files: Read | None) -> Iterator[str]:
    pattern, root = read_pattern(path, max_bytes=settings.max_bytes, read=files).pattern, repository(path)
    for said in (said for piece in (pattern.pieces.values() if pattern else ()) for said in piece.charts.values()):
        with suppress(Outside):
            yield chart_path(path, said, root)


def knit_work(log: KnitLog, settings: Settings, files: Read | None = None) -> KnitWork:
    """The log with what was knitted read. `files` as in `read_document`."""
    try:
        path = chart_path(log.path, log.names, repository(log.path))
    except Outside as fault:
        return KnitWork(log, None, "outside", str(fault))
    if log.of is Kind.PATTERN:
        reading = read_pattern(path, max_bytes=settings.max_bytes, read=files)
        if reading.pattern is not None:
            return KnitWork(log, work_on(reading.pattern, settings, files))
        return _missing(log, path, reading.problems)
    chart = read_chart(path, max_bytes=settings.max_bytes, max_stitches=settings.max_stitches, read=files)
    if chart.chart is not None:
        return KnitWork(log, as_pattern(chart.chart, log.names, settings.reckoning))
    return _missing(log, path, chart.problems)


def _missing(log: KnitLog, path: str, problems: Sequence[tuple[str, Finding]]) -> KnitWork:
    if problems and not is_there(path):
        return KnitWork(log, None, "not-there", f"there is no {log.of} {log.names!r}", _near(log, path))
    why = problems[0][1].message if problems else "it has no pieces"
    return KnitWork(log, None, "unreadable", f"the {log.of} {log.names!r} cannot be read: {why}")


def _near(log: KnitLog, path: str) -> str:
    """A guess at the file that is meant, among those of its kind in the folder that the path leads to."""
    from lintarsia.telling.guessing import did_you_mean

    try:
        names = [name for name in os.listdir(os.path.dirname(path) or os.curdir) if name.endswith(log.of.suffix)]
    except OSError:
        return ""
    meant = did_you_mean(os.path.basename(path).removesuffix(".yaml").removesuffix(f".{log.of}"), _stems(names, log))
    return meant[:-2] + f"{log.of.suffix}'?" if meant else ""


def _stems(names: Iterable[str], log: KnitLog) -> list[str]:
    return sorted(name.removesuffix(log.of.suffix) for name in names)
