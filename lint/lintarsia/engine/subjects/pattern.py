"""A pattern on its way through a check, with its charts read. They are checked on their own."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress

from lintarsia.chart import Places
from lintarsia.engine.before import committed
from lintarsia.engine.holding import Holding
from lintarsia.engine.subjects.base import Acceptance, Found, Subject
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.pattern.charts import charts_beside, read_charts
from lintarsia.pattern.model import AcceptedInPattern, Pattern
from lintarsia.pattern.paths import Outside, chart_path
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import About, PatternWork
from lintarsia.reading.source import Read
from lintarsia.result import Finding
from lintarsia.settings.model import Settings


class PatternSubject(Subject):
    """`pattern` is there once it is read, if it has any pieces; `work` once its charts are."""

    kind = Kind.PATTERN
    beside = "its charts"
    pattern: Pattern | None = None
    work: PatternWork | None = None

    def read(self) -> Iterable[tuple[str, Finding]]:
        reading = read_pattern(self.file, self.data, max_bytes=self.settings.max_bytes, read=self.files)
        self.pattern = reading.pattern
        return reading.problems

    def gather(self) -> None:
        if self.pattern is not None:
            self.work = work_on(self.pattern, self.settings, self.files)

    @property
    def places(self) -> Places:
        return self.pattern.places if self.pattern is not None else Places()

    def found(self, rule: str, told: About) -> Found:
        return Found(rule, told.finding, told)

    def accepted(self) -> Sequence[Acceptance]:
        return [_acceptance(own) for own in self.pattern.suppressions] if self.pattern is not None else ()

    def named(self) -> Iterator[str]:
        return charts_named(self.pattern, self.file)

    def parts(self) -> Iterator[str]:
        return self.named()


SUBJECT = PatternSubject


def charts_named(pattern: Pattern | None, file: str) -> Iterator[str]:
    """The paths of the charts that a pattern names, which stands in `file`; those that it may not name are left out."""
    root, pieces = repository(file), pattern.pieces.values() if pattern is not None else ()
    for said in (said for piece in pieces for said in piece.charts.values()):
        with suppress(Outside):  # not read, and perhaps no name of a file at all
            yield chart_path(file, said, root)


def work_on(pattern: Pattern, settings: Settings, read: Read | None = None) -> PatternWork:
    """The pattern with its charts read, as the rules and the release card look at it."""
    return PatternWork(
        pattern,
        read_charts(pattern, settings.max_bytes, settings.max_stitches, read),
        charts_beside(pattern, settings.max_bytes, read),
        settings.reckoning,
        Holding(pattern.path, settings).held,
        settings.max_stitches,
        lambda chart: committed(chart.path, read(chart.path) if read is not None else None),
    )


def _acceptance(accepted: AcceptedInPattern) -> Acceptance:
    def covers(found: Found) -> bool:
        about = found.about or About(found.finding)
        piece = accepted.piece in (None, about.piece)
        return piece and (accepted.size is None or about.sizes == (accepted.size,))

    where = "".join(f" in {part}" for part in (accepted.piece, accepted.size) if part)
    return Acceptance(accepted.rule, accepted.justification, accepted.index, covers, where)
