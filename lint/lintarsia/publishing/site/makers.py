"""Chart files to pages and pictures: what each process of a build does, over and over.

Nothing large is held: page and pictures go straight to where they belong, or the page to a scratch folder where
another's theme is to be put around it, and only an `Entry` comes back.
"""

import os
import shutil
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from lintarsia.chart import Chart
from lintarsia.chart.content import chart_fingerprint, stamp_words
from lintarsia.engine.batches import judge
from lintarsia.engine.checking import Examining, check_chart, shown
from lintarsia.engine.subjects import subject_of
from lintarsia.engine.subjects.chart import ChartSubject
from lintarsia.engine.targets import Target
from lintarsia.engine.timed import out_of_time
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.publishing.pages.cards import card
from lintarsia.publishing.pages.chartpage import Drawings, broken_page, chart_page, draw, figures, summary
from lintarsia.publishing.pages.cutting import encoded
from lintarsia.publishing.pages.entry import Entry, PatternPart, tally_of
from lintarsia.publishing.pages.frame import Frame
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.placing import write_all_inside, write_inside
from lintarsia.result import Result, RuleInfo
from lintarsia.settings import SettingsFinder

if TYPE_CHECKING:
    from lintarsia.pattern.work import PatternWork

CHART_SCRIPTS = ("chart.js", "card.js", "changed.js", "knit.js", "ticks.js")  # a place moves before it is gone to


@dataclass(frozen=True, slots=True)
class Task:
    """A chart to publish: pictures below `site`, and the page too where there is a `frame` to put around it; else the
    page's content goes into `scratch/<number>.html`."""

    number: int
    slug: str
    target: Target
    layout: Layout
    site: str
    scratch: str
    slugs: Mapping[str, str] = field(default_factory=dict)  # of all charts by real path; for patterns alone
    cards: bool = False  # previews need whole addresses, so there is no use for their pictures without a base URL
    frame: Frame | None = None
    name: str = ""  # how pages call the file, where its path is nobody's business: an absolute one tells of a disk
    revision: str = ""  # of the repository, in words

    def tidy(self, results: tuple[Result, ...]) -> tuple[Result, ...]:
        """Results of a pattern as pages show them, those in its charts by the charts' way from it."""
        if not self.name:
            return results
        own, here = shown(self.target.path), os.path.dirname(self.target.path)
        beside = {r.file: os.path.relpath(r.file, here) for r in results if r.file != own}
        named = {
            file: shown(os.path.normpath(os.path.join(os.path.dirname(self.name), way))) for file, way in beside.items()
        }
        return tuple(replace(r, file=named.get(r.file, self.name)) for r in results)


def publish(tasks: Sequence[Task]) -> list[Entry]:
    """Check, plan and draw charts, or gather patterns. Never raises for anything that a file holds.

    Each step is taken for all of them before the next, for what `engine/batches.py` says.
    """
    works = [MAKERS[kind_of(task.target.path)](task) for task in tasks]
    charts = [work for work in works if isinstance(work, _Chart)]
    for chart in charts:
        chart.examining.read()
    for chart in charts:
        chart.subject.plan()
    judge([chart.examining for chart in charts])
    for chart in charts:
        chart.draw()
    pages = [work.page() for work in works]
    for task, (entry, body) in zip(tasks, pages, strict=True):
        _keep(task, entry, body)
    return [entry for entry, _ in pages]


def publish_late(task: Task, seconds: float) -> Entry:
    """The page of a chart or pattern that could not be finished in its time, and nothing of what there was of it."""
    path, settings, name = task.target.path, task.target.settings, task.name or shown(task.target.path)
    results = tuple(replace(one, file=name) for one in out_of_time(path, None, settings, seconds).results)
    pattern = kind_of(path) is Kind.PATTERN
    entry = Entry(name, task.slug, os.path.basename(name), "", None, results, settings.block, pattern=pattern)
    shutil.rmtree(os.path.join(task.site, task.layout.pictures(task.slug)), ignore_errors=True)
    with suppress(OSError):
        os.unlink(os.path.join(task.site, task.layout.fabric(task.slug)))
    _keep(task, entry, encoded(broken_page(entry, None, task.layout, _infos(results, task))))
    return entry


class _Chart:
    """One chart on its way to its page."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.file = task.name or shown(task.target.path)
        self.results: tuple[Result, ...] = ()
        self.subject = ChartSubject(task.target.path, None, task.target.settings)
        self.examining = Examining(self.subject, self.file)
        self._drawings: Drawings | None = None
        self.fingerprint = self.stamp = ""

    def draw(self) -> None:
        work = self.subject.work
        self.results = self.examining.results()
        if work is not None:
            self.fingerprint = chart_fingerprint(work.chart)
            self.stamp = stamp_words(self.fingerprint, revision=self.task.revision)
            self._drawings = draw(work.chart, work.plan, self.results, self.stamp)

    def page(self) -> tuple[Entry, bytes]:
        """What the rest of the site needs to know, and the content of the page. Writes the pictures."""
        task, work, reading = self.task, self.subject.work, self.subject.reading
        settings, rules = task.target.settings, _infos(self.results, task)
        if work is None or self._drawings is None:
            entry = Entry(self.file, task.slug, os.path.basename(self.file), "", None, self.results, settings.block)
            return entry, encoded(broken_page(entry, reading.text if reading else None, task.layout, rules))
        chart, plan, drawings = work.chart, work.plan, self._drawings
        entry = Entry(
            self.file, task.slug, chart.title, summary(chart), figures(chart, plan, drawings), self.results,
            settings.block, cover=task.slug, names=_names(chart), fingerprint=self.fingerprint,
        )  # fmt: skip
        files: dict[str, str | bytes] = {**drawings.files}
        if task.cards:
            files["card.png"] = card(chart)
        write_inside(task.site, task.layout.fabric(task.slug), drawings.fabric)
        if files:
            write_all_inside(task.site, task.layout.pictures(task.slug), files)
        return entry, chart_page(chart, plan, entry, drawings, task.layout, rules, work.allowance, self.stamp)


class _Pattern:
    """A pattern on its way to its page."""

    def __init__(self, task: Task) -> None:
        self.task = task

    def page(self) -> tuple[Entry, bytes]:
        """As a chart's."""
        from lintarsia.engine.gating import knits_of
        from lintarsia.pattern.content import pattern_fingerprint
        from lintarsia.publishing.pages import patternpage  # few sites have patterns, and all wait for what is loaded

        task, path, settings = self.task, self.task.target.path, self.task.target.settings
        subject = subject_of(path, None, settings)
        examining = Examining(subject)
        examining.read()
        examining.judge()
        results = examining.results()
        rules, file = _infos(results, task), task.name or shown(path)
        told = task.tidy(results)
        entry = Entry(file, task.slug, os.path.basename(file), "", None, told, settings.block, pattern=True)
        work = subject.work
        if work is None:
            return entry, encoded(broken_page(entry, None, task.layout, rules))
        entry = replace(
            entry,
            title=work.pattern.title,
            summary=patternpage.summary(work.pattern),
            cover=patternpage.cover(work, task.slugs),
            names=patternpage.yarn_names(work),
            fingerprint=pattern_fingerprint(work),
            parts=tuple(self._parts(work)),
        )
        stamp = stamp_words(entry.fingerprint, work.pattern.version, task.revision)
        knits = knits_of(path, SettingsFinder(settings))
        return entry, encoded(patternpage.pattern_page(work, entry, task.layout, rules, task.slugs, stamp, knits))

    def _parts(self, work: "PatternWork") -> Iterator[PatternPart]:
        """Its charts as they stand, for what blocks one of them blocks the pattern; by the pattern's own settings."""
        settings = self.task.target.settings
        for file in work.charts.values():
            if file.key in ("", "unreadable"):
                results = check_chart(file.path, None, settings).results
                title = file.chart.title if file.chart else file.said
                slug = self.task.slugs.get(os.path.realpath(file.path), "")
                yield PatternPart(title, slug, tally_of(results, settings.block))


MAKERS: dict[Kind, type[_Chart | _Pattern]] = {Kind.CHART: _Chart, Kind.PATTERN: _Pattern}
"""Whatever has a page of its own in a site."""


def _infos(results: tuple[Result, ...], task: Task) -> dict[str, RuleInfo]:
    """What each rule that found something says of itself."""
    return {result.rule: task.target.settings.rulebook.info(result.rule) for result in results}


def card_of(entry: Entry, layout: Layout) -> str:
    """The picture for previews; a pattern borrows that of its first chart."""
    return layout.picture(entry.cover, "card.png") if entry.cover else ""


def _keep(task: Task, entry: Entry, body: bytes) -> None:
    if task.frame is not None:
        layout, name = task.layout, task.layout.chart(task.slug)
        card = card_of(entry, layout) if task.cards else ""
        page = task.frame.around(
            body, layout, name, title=entry.title, about=entry.about, picture=card, scripts=CHART_SCRIPTS
        )
        write_inside(task.site, layout.file(name), page)
        return
    Path(task.scratch, f"{task.number}.html").write_bytes(body)


def _names(chart: Chart) -> tuple[str, ...]:
    """Of its yarns, and of its colours where no yarn's name has theirs in it (`Hearth Sport in pine`, `Pine`)."""
    yarns = dict.fromkeys(yarn.name for yarn in chart.yarns.values() if yarn.name)
    told = " ".join(yarns).casefold()
    colours = dict.fromkeys(colour.name for colour in chart.colours.values() if colour.name.casefold() not in told)
    return (*colours, *yarns)
