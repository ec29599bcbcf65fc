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
from lintarsia.chart.content import chart_fingerprint
from lintarsia.engine.batches import judge
from lintarsia.engine.checking import Examining, check_chart, shown
from lintarsia.engine.holding import Holding
from lintarsia.engine.once import once_a_pattern
from lintarsia.engine.subjects import subject_of
from lintarsia.engine.subjects.chart import ChartSubject
from lintarsia.engine.targets import Target
from lintarsia.engine.timed import out_of_time
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.publishing.pages.cards import card
from lintarsia.publishing.pages.chartpage import (
    Setting,
    StateShown,
    broken_page,
    chart_page,
    crumb,
    figures,
    summary,
)
from lintarsia.publishing.pages.cutting import encoded
from lintarsia.publishing.pages.entry import Entry, PatternPart, PieceLine, tally_of
from lintarsia.publishing.pages.frame import Frame
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.partof import part_of
from lintarsia.publishing.pages.pictures import Drawings, draw
from lintarsia.publishing.pages.said import Said, Spot, on_chart, on_piece
from lintarsia.publishing.pages.saying import Knitted, knitted_chart
from lintarsia.publishing.pages.words import stamp_words
from lintarsia.publishing.site.placing import write_all_inside, write_inside
from lintarsia.result import Level, Result, RuleInfo
from lintarsia.settings import SettingsFinder
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.languages import ENGLISH, phrase
from lintarsia.telling.terms import Terms

if TYPE_CHECKING:
    from lintarsia.pattern.work import PatternWork
    from lintarsia.publishing.pages.piecepages import PiecePage

CHART_SCRIPTS = (
    "rows.js", "view.js", "rulers.js", "hands.js", "chart.js", "card.js", "changed.js", "knit.js",
    "size.js", "ticks.js", "print.js", "logfile.js", "logs.js", "say.js", "keep.js",
)  # fmt: skip
"""In this order: what others ask for first, a place moves before it is gone to, and what is said is kept by what was
there before."""


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
    slugs: Mapping[str, str] = field(default_factory=dict)  # of all files by real path; for patterns alone
    cards: bool = False  # previews need whole addresses, so there is no use for their pictures without a base URL
    frame: Frame | None = None
    name: str = ""  # how pages call the file, where its path is nobody's business: an absolute one tells of a disk
    revision: str = ""  # of the repository, in words
    public: bool = False  # for everybody: nothing of what was found
    patterns: tuple[tuple[str, str], ...] = ()  # slug and title of those that a chart is a part of
    said: tuple[Said, ...] = ()  # what test knitters have said of the chart; of anything, for a pattern
    version: str = ""  # of a chart's pattern
    since: str = ""  # a revision since which there is a page of changes
    earlier: str = ""  # what is told to whoever began with an earlier state, as HTML
    earlier_pieces: Mapping[tuple[str, str], str] = field(default_factory=dict)  # of a pattern, by piece and size
    language: str = ENGLISH

    @property
    def terms(self) -> Terms:
        return Terms(self.target.settings.terms)

    @property
    def home(self) -> str:
        """What the way up from a page is called."""
        return phrase("All patterns") if self.public else phrase("All charts")

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
    with speaking(ENGLISH):  # which is what rules speak
        for chart in charts:
            chart.examining.read()
        for chart in charts:
            chart.subject.plan()
        judge([chart.examining for chart in charts if not chart.task.public])
        for work in works:
            work.find()
    for chart in charts:
        with speaking(chart.task.language):
            chart.draw()
    pages = [_page(work) for work in works]
    return pages


def _page(work: "_Chart | _Pattern") -> Entry:
    """Its page, made and written in the language of the site."""
    with speaking(work.task.language):
        entry, body = work.page()
        _keep(work.task, entry, body)
    return entry


def publish_late(task: Task, seconds: float) -> Entry:
    """The page of a chart or pattern that could not be finished in its time, and nothing of what there was of it."""
    path, settings, name = task.target.path, task.target.settings, task.name or shown(task.target.path)
    with speaking(ENGLISH):
        late = out_of_time(path, None, settings, seconds).results
    results = tuple(replace(one, file=name) for one in late)
    pattern = kind_of(path) is Kind.PATTERN
    entry = Entry(name, task.slug, os.path.basename(name), "", None, results, settings.block, pattern=pattern)
    shutil.rmtree(os.path.join(task.site, task.layout.pictures(task.slug)), ignore_errors=True)
    with suppress(OSError):
        os.unlink(os.path.join(task.site, task.layout.fabric(task.slug)))
    with speaking(task.language):
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
        self.said: list[tuple[Said, Spot]] = []

    def find(self) -> None:
        """What is to be said of it by the rules, whose words are English."""
        self.results = () if self.task.public else self.examining.results()

    def draw(self) -> None:
        work = self.subject.work
        if work is not None:
            self.fingerprint = chart_fingerprint(work.chart)
            self.stamp = stamp_words(self.fingerprint, self.task.version, self.task.revision)
            self.said = on_chart(self.task.said, os.path.realpath(self.task.target.path)) if self.task.said else []
            self._drawings = draw(work.chart, work.plan, self.results, self.stamp, self.task.terms, self.said)

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
        _pictures(task, task.slug, drawings.fabric, files)
        page = task.layout.chart(task.slug)
        setting = Setting(
            crumb(task.layout, page, task.home), part_of(task.patterns, task.layout, page), judged=not task.public
        )
        state = StateShown(self.stamp, task.since, task.slug, task.earlier)
        return entry, chart_page(
            chart, plan, entry, drawings, task.layout, rules, work.allowance, state, task.terms, setting,
            None if task.public else knitted_chart(chart, entry), self.said,
        )  # fmt: skip


class _Pattern:
    """A pattern on its way to its page."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.results: tuple[Result, ...] = ()
        self.parts: tuple[PatternPart, ...] = ()
        self.subject = subject_of(task.target.path, None, task.target.settings)

    def find(self) -> None:
        """As a chart's."""
        examining = Examining(self.subject)
        examining.read()
        if self.task.public:
            return
        examining.judge()
        self.results = examining.results()
        if self.subject.work is not None:
            self.parts = tuple(self._parts(self.subject.work))

    def page(self) -> tuple[Entry, bytes]:
        """As a chart's."""
        from lintarsia.engine.gating import knits_of
        from lintarsia.pattern.content import pattern_fingerprint
        from lintarsia.publishing.pages import patternpage  # few sites have patterns, and all wait for what is loaded
        from lintarsia.publishing.pages.coverfacts import yarns
        from lintarsia.publishing.pages.piecepages import piece_pages

        task, path, settings = self.task, self.task.target.path, self.task.target.settings
        results = self.results
        rules, file = _infos(results, task), task.name or shown(path)
        told = task.tidy(results)
        entry = Entry(
            file, task.slug, os.path.basename(file), "", None, told, settings.block, pattern=True,
            elsewhere=_elsewhere(task, results, told),
        )  # fmt: skip
        work = self.subject.work
        if work is None:
            return entry, encoded(broken_page(entry, None, task.layout, rules))
        pages = piece_pages(work, task.slug, frozenset(task.slugs.values()))
        shown_first = patternpage.face(pages)
        entry = replace(
            entry,
            title=work.pattern.title,
            summary=patternpage.summary(work.pattern),
            cover=shown_first[-1].slug if shown_first else "",
            names=tuple(line.what for line in yarns(work)),
            fingerprint=pattern_fingerprint(work),
            parts=self.parts,
            pieces=tuple(
                PieceLine(page.slug, page.chart.title, summary(page.chart), page.piece.name, _sizes(page))
                for page in pages
            ),
        )
        stamp = stamp_words(entry.fingerprint, work.pattern.version, task.revision)
        named = (file.path for file in work.charts.values() if file.chart is not None)
        own = set(map(os.path.realpath, (path, *named)))
        said = [one for one in task.said if one.of in own]
        pictures = {page.slug: self._piece(work, entry, number, page, pages, said) for number, page in enumerate(pages)}
        knits = None if task.public else knits_of(path, SettingsFinder(settings))
        made = patternpage.pattern_page(
            work, entry, task.layout, rules, pages, pictures, stamp, knits, said,
            links=task.slugs, public=task.public, designer=settings.designer, terms=task.terms,
            framed=task.frame is not None, since=task.since,
        )  # fmt: skip
        return entry, encoded(made)

    def _piece(
        self, work: "PatternWork", whole: Entry, number: int, page: "PiecePage", pages: "Sequence[PiecePage]",
        said: Sequence[Said],
    ) -> tuple[int, int]:  # fmt: skip
        """The page of a piece of the pattern `whole`, written; the size of its fabric's drawing."""
        from lintarsia.publishing.pages.pieceedges import edge_notes
        from lintarsia.publishing.pages.pieceview import setting_of

        task, chart, plan = self.task, page.chart, page.plan
        stamp = stamp_words(page.fingerprint, work.pattern.version, task.revision)
        heard = on_piece(said, os.path.realpath(task.target.path), page.piece.name, page.sizes)
        drawings = draw(chart, plan, (), stamp, task.terms, heard)
        entry = Entry(
            "", page.slug, chart.title, summary(chart), figures(chart, plan, drawings), (), task.target.settings.block,
            cover=page.slug, fingerprint=page.fingerprint,
        )  # fmt: skip
        files: dict[str, str | bytes] = {**drawings.files}
        if task.cards:
            files["card.png"] = card(chart)
        _pictures(task, page.slug, drawings.fabric, files)
        told = (task.earlier_pieces.get((page.piece.name, size), "") for size in page.sizes)
        state = StateShown(stamp, task.since, task.slug, "".join(dict.fromkeys(told)))
        edges = edge_notes(work, page, task.terms)
        setting = setting_of(work.pattern, task.slug, page, pages, task.layout, edges)
        body = chart_page(
            chart, plan, entry, drawings, task.layout, {}, work.allowance, state, task.terms, setting,
            None if task.public else _knitted(whole, page), heard,
        )  # fmt: skip
        _keep(replace(task, slug=page.slug), entry, body, f"-{number}")
        assert entry.figures is not None
        return entry.figures.picture

    def _parts(self, work: "PatternWork") -> Iterator[PatternPart]:
        """Its charts as they stand, for what blocks one of them blocks the pattern; each by the settings that hold for
        it and what is the same in all of them told once, as in the release."""
        path, holding = self.task.target.path, Holding(self.task.target.path, self.task.target.settings)
        there = {file.path: file for file in work.charts.values() if file.key in ("", "unreadable")}
        held = {chart: holding.of(chart) for chart in there}
        checked = ((chart, check_chart(chart, None, settings)) for chart, settings in held.items())
        for chart, answer in once_a_pattern(checked, {path: self.task.target.settings, **held}):
            file = there[chart]
            slug = self.task.slugs.get(os.path.realpath(chart), "")
            title = file.chart.title if file.chart else file.said
            yield PatternPart(title, slug, tally_of(answer.results, held[chart].block))


def _elsewhere(task: Task, results: Sequence[Result], told: Sequence[Result]) -> dict[str, Level]:
    """What blocks in the charts that a pattern's results stand in, by the names that its page has for them."""
    holding, own = Holding(task.target.path, task.target.settings), shown(task.target.path)
    return {
        named.file: holding.of(result.file).block
        for result, named in zip(results, told, strict=True)
        if result.file != own
    }


def _knitted(whole: Entry, page: "PiecePage") -> Knitted:
    """What a log of a piece's page names: the pattern, in one of the sizes in which the piece is the same."""
    over = str(page.chart.gauge.over)
    return Knitted(whole.file, whole.fingerprint, over, Kind.PATTERN, _sizes(page), page.piece.name, whole.title)


def _sizes(page: "PiecePage") -> tuple[str, ...]:
    """The sizes of a piece's page; none where the pattern names none."""
    from lintarsia.pattern.model import ONE_SIZE

    return tuple(size for size in page.sizes if size != ONE_SIZE)


MAKERS: dict[Kind, type[_Chart | _Pattern]] = {Kind.CHART: _Chart, Kind.PATTERN: _Pattern}
"""Whatever has a page of its own in a site."""


def _infos(results: tuple[Result, ...], task: Task) -> dict[str, RuleInfo]:
    """What each rule that found something says of itself."""
    return {result.rule: task.target.settings.rulebook.info(result.rule) for result in results}


def card_of(entry: Entry, layout: Layout) -> str:
    """The picture for previews; a pattern borrows that of its first chart."""
    return layout.picture(entry.cover, "card.png") if entry.cover else ""


def _pictures(task: Task, slug: str, fabric: str, files: Mapping[str, str | bytes]) -> None:
    write_inside(task.site, task.layout.fabric(slug), fabric)
    if files:
        write_all_inside(task.site, task.layout.pictures(slug), files)


def _keep(task: Task, entry: Entry, body: bytes, which: str = "") -> None:
    """Write a page to its place, or its content to where it waits; `which` tells a piece's from its pattern's."""
    if task.frame is not None:
        layout, name = task.layout, task.layout.chart(task.slug)
        card = card_of(entry, layout) if task.cards else ""
        page = task.frame.around(
            body, layout, name, title=entry.title, about=entry.about, picture=card, scripts=CHART_SCRIPTS
        )
        write_inside(task.site, layout.file(name), page)
        return
    Path(task.scratch, f"{task.number}{which}.html").write_bytes(body)


def _names(chart: Chart) -> tuple[str, ...]:
    """Of its yarns, and of its colours where no yarn's name has theirs in it (`Hearth Sport in pine`, `Pine`)."""
    yarns = dict.fromkeys(yarn.name for yarn in chart.yarns.values() if yarn.name)
    told = " ".join(yarns).casefold()
    colours = dict.fromkeys(colour.name for colour in chart.colours.values() if colour.name.casefold() not in told)
    return (*colours, *yarns)
