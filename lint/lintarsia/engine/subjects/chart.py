"""A chart on its way through a check."""

from collections.abc import Iterable, Sequence
from contextlib import suppress
from functools import partial

from lintarsia.chart import Chart, Places, Suppression, Worked
from lintarsia.engine.before import committed
from lintarsia.engine.subjects.base import Acceptance, Found, Subject
from lintarsia.ground.kinds import Kind
from lintarsia.reading import Reading, read_chart
from lintarsia.result import Finding, Picture
from lintarsia.rules.base import Work


class ChartSubject(Subject):
    """`reading` is there once it is read, `work` where it has a grid."""

    kind = Kind.CHART
    reading: Reading | None = None
    work: Work | None = None

    def read(self) -> Iterable[tuple[str, Finding]]:
        most = self.settings
        self.reading = read_chart(
            self.file, self.data, max_bytes=most.max_bytes, max_stitches=most.max_stitches, read=self.files
        )
        return self.reading.problems

    def gather(self) -> None:
        chart, settings = self.chart, self.settings
        if chart is not None:
            self.assumed = chart.assumed
            self.work = Work(chart, settings.reckoning, partial(committed, self.file, self.data))

    @property
    def chart(self) -> Chart | None:
        return self.reading.chart if self.reading is not None else None

    @property
    def places(self) -> Places:
        return self.chart.places if self.chart is not None else Places()

    def plan(self) -> None:
        """Work the supplies out ahead of the rules that ask for them; what fails here will fail and be told there."""
        if self.work is not None:
            with suppress(Exception):
                _ = self.work.plan.threads

    def accepted(self) -> Sequence[Acceptance]:
        chart = self.chart
        return [_acceptance(i, own) for i, own in enumerate(chart.suppressions)] if chart is not None else ()

    def picture(self) -> Picture | None:
        return _picture(self.chart) if self.chart is not None else None


SUBJECT = ChartSubject


def _acceptance(index: int, accepted: Suppression) -> Acceptance:
    def covers(found: Found) -> bool:
        """Not narrower than where it stands."""
        finding = found.finding
        if accepted.row is not None and accepted.row != finding.row:
            return False
        if accepted.stitches is None:
            return True
        if finding.stitches is None:
            return False
        return accepted.stitches[0] <= finding.stitches[0] and finding.stitches[1] <= accepted.stitches[1]

    row, stitches = accepted.row, accepted.stitches
    return Acceptance(accepted.rule, accepted.justification, index, covers, _where(accepted), row, stitches)


def _where(accepted: Suppression) -> str:
    if accepted.row is None:
        return ""
    text = f" in row {accepted.row}"
    if accepted.stitches is not None:
        first, last = accepted.stitches
        text += f", stitch {first}" if first == last else f", stitches {first}–{last}"
    return text


def _picture(chart: Chart) -> Picture:
    return Picture(
        chart.grid.rows,
        {symbol: colour.shade for symbol, colour in chart.colours.items()},
        ((str(chart.side(1)), str(chart.side(2))) * (chart.grid.height // 2 + 1))[: chart.grid.height],
        {symbol: colour.name for symbol, colour in chart.colours.items()},
        chart.worked is Worked.ROUND,
        chart.title,
    )
