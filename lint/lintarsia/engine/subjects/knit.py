"""A test knit's log on its way through a check, with what was knitted read. That is checked on its own."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from functools import partial

from lintarsia.chart import Places
from lintarsia.engine.knithistory import History
from lintarsia.engine.knitted import knit_work
from lintarsia.engine.subjects.base import Acceptance, Found, Subject
from lintarsia.engine.subjects.pattern import charts_named
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.knits.model import KnitLog
from lintarsia.knits.reading import read_knit
from lintarsia.knits.work import KnitWork
from lintarsia.pattern.paths import Outside, chart_path
from lintarsia.pattern.reading import read_pattern
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
            self.work.look_back = partial(_before, self.log, self.work, self.settings)

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
                reading = read_pattern(path, max_bytes=self.settings.max_bytes, read=self.files)
                yield from charts_named(reading.pattern, path)


SUBJECT = KnitSubject


def _before(log: KnitLog, work: KnitWork, settings: Settings) -> tuple[KnitWork, str] | None:
    """What was knitted as it was then, and when that was in words, from the repository's history."""
    return History(work.knitted.pattern.path).of(log, settings) if work.knitted is not None else None


def _anywhere(found: Found) -> bool:
    return True
