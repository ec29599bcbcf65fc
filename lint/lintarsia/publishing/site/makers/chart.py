"""One chart on its way to its page: checked, planned, drawn, filled in."""

import os

from lintarsia.chart import Chart
from lintarsia.chart.content import chart_fingerprint
from lintarsia.engine.subjects.chart import ChartSubject
from lintarsia.publishing.pages.cards import card
from lintarsia.publishing.pages.chartpage import chart_page
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.figures import figures, summary
from lintarsia.publishing.pages.partof import part_of
from lintarsia.publishing.pages.pictures import Drawings, draw
from lintarsia.publishing.pages.said import Said, Spot, on_chart
from lintarsia.publishing.pages.saying import knitted_chart
from lintarsia.publishing.pages.setting import Setting, StateShown, crumb
from lintarsia.publishing.pages.words import stamp_words
from lintarsia.publishing.site.makers.base import PageMaker
from lintarsia.publishing.site.pagefiles import write_pictures
from lintarsia.publishing.site.task import Task
from lintarsia.telling.languages import marked


class ChartMaker(PageMaker):
    """One chart on its way to its page."""

    subject: ChartSubject
    (not_yet,) = marked("This chart cannot be drawn until its file is mended.")

    def __init__(self, task: Task) -> None:
        super().__init__(task)
        self._drawings: Drawings | None = None
        self.fingerprint = self.stamp = ""
        self.said: list[tuple[Said, Spot]] = []

    def plan(self) -> None:
        self.subject.plan()

    def draw(self) -> None:
        work = self.subject.work
        if work is not None:
            self.fingerprint = chart_fingerprint(work.chart)
            self.stamp = stamp_words(self.fingerprint, self.task.version, self.task.revision)
            self.said = on_chart(self.task.said, os.path.realpath(self.task.target.path)) if self.task.said else []
            self._drawings = draw(work.chart, work.plan, self.results, self.stamp, self.task.terms, self.said)

    def page(self) -> tuple[Entry, bytes]:
        task, work, reading = self.task, self.subject.work, self.subject.reading
        if work is None or self._drawings is None:
            return self.torn(text=reading.text if reading else None)
        chart, plan, drawings = work.chart, work.plan, self._drawings
        entry = self.entry(
            chart.title, summary(chart), figures=figures(chart, plan, drawings), cover=task.slug, names=_names(chart),
            fingerprint=self.fingerprint,
        )  # fmt: skip
        files: dict[str, str | bytes] = {**drawings.files}
        if task.cards:
            files["card.png"] = card(chart)
        write_pictures(task, task.slug, drawings.fabric, files)
        page = task.layout.chart(task.slug)
        setting = Setting(
            crumb(task.layout, page, task.home), part_of(task.patterns, task.layout, page), judged=not task.public
        )
        state = StateShown(self.stamp, task.since, task.slug, task.earlier)
        return entry, chart_page(
            chart, plan, entry, drawings, task.layout, task.infos(self.results), work.allowance, state, task.terms,
            setting, None if task.public else knitted_chart(chart, entry), self.said,
        )  # fmt: skip


MAKER = ChartMaker


def _names(chart: Chart) -> tuple[str, ...]:
    """Of its yarns, and of its colours where no yarn's name has theirs in it (`Hearth Sport in pine`, `Pine`)."""
    yarns = dict.fromkeys(yarn.name for yarn in chart.yarns.values() if yarn.name)
    told = " ".join(yarns).casefold()
    colours = dict.fromkeys(colour.name for colour in chart.colours.values() if colour.name.casefold() not in told)
    return (*colours, *yarns)
