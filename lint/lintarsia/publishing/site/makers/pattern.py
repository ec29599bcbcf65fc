"""One pattern on its way to its page, and to those of its pieces in each of their sizes."""

import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from lintarsia.engine.checking import Examining, check_chart, shown
from lintarsia.engine.holding import Holding
from lintarsia.engine.once import once_a_pattern
from lintarsia.engine.subjects.pattern import PatternSubject
from lintarsia.engine.targets import Target
from lintarsia.ground.kinds import Kind
from lintarsia.publishing.pages.cards import card
from lintarsia.publishing.pages.chartpage import chart_page
from lintarsia.publishing.pages.cutting import encoded
from lintarsia.publishing.pages.entry import Entry, PatternPart, PieceEntry, tally_of
from lintarsia.publishing.pages.figures import figures, summary
from lintarsia.publishing.pages.pictures import draw
from lintarsia.publishing.pages.placedview import FILE
from lintarsia.publishing.pages.said import Said, on_piece
from lintarsia.publishing.pages.saying import Knitted
from lintarsia.publishing.pages.setting import StateShown
from lintarsia.publishing.pages.words import stamp_words
from lintarsia.publishing.site.makers.base import Gathers, PageMaker
from lintarsia.publishing.site.pagefiles import PLACED, keep_page, write_pictures
from lintarsia.publishing.site.placing import write_inside
from lintarsia.publishing.site.task import Task
from lintarsia.result import Level, Result
from lintarsia.settings import SettingsFinder
from lintarsia.telling.languages import marked

if TYPE_CHECKING:
    from lintarsia.pattern.work import PatternWork
    from lintarsia.publishing.pages.piecepages import PiecePage


class PatternMaker(PageMaker):
    """A pattern on its way to its page."""

    subject: PatternSubject
    (not_yet,) = marked("This pattern cannot be laid out until its file is mended.")

    def __init__(self, task: Task) -> None:
        super().__init__(task)
        self.examining = Examining(self.subject)  # whose results name the charts too; `Task.tidy` has the pages' names
        self.parts: tuple[PatternPart, ...] = ()

    @staticmethod
    def gathers(target: Target) -> Gathers | None:
        subject = PatternSubject(target.path, None, target.settings)
        subject.read()
        if subject.pattern is None:
            return None
        subject.gather()
        files = subject.work.charts.values() if subject.work is not None else ()
        there = [file.path for file in files if file.chart is not None]  # else it may be no name that a file can have
        pattern = subject.pattern
        return Gathers(pattern.title, pattern.version, _really(subject.parts()), _really(there))

    def find(self) -> None:
        super().find()
        if self.subject.work is not None and not self.task.public:
            self.parts = tuple(self._parts(self.subject.work))

    def page(self) -> tuple[Entry, bytes]:
        from lintarsia.engine.gating import knits_of
        from lintarsia.pattern.content import pattern_fingerprint
        from lintarsia.publishing.pages import (  # few sites have patterns, and all wait for what is loaded
            coverface,
            patternpage,
        )
        from lintarsia.publishing.pages.coverfacts import yarns
        from lintarsia.publishing.pages.piecepages import piece_pages

        task, path, settings = self.task, self.task.target.path, self.task.target.settings
        results = self.results
        told = task.tidy(results)
        entry = self.entry(results=told, elsewhere=_elsewhere(task, results, told))
        work = self.subject.work
        if work is None:
            return self.torn(entry)
        pages = piece_pages(work, task.slug, frozenset(task.slugs.values()))
        shown_first = coverface.face(pages)
        entry = replace(
            entry,
            title=work.pattern.title,
            summary=patternpage.summary(work.pattern),
            cover=shown_first[-1].slug if shown_first else "",
            names=tuple(line.what for line in yarns(work)),
            fingerprint=pattern_fingerprint(work),
            parts=self.parts,
            pieces=tuple(
                PieceEntry(page.slug, page.chart.title, summary(page.chart), page.piece.name, _sizes(page))
                for page in pages
            ),
        )
        stamp = stamp_words(entry.fingerprint, work.pattern.version, task.revision)
        named = (file.path for file in work.charts.values() if file.chart is not None)
        own = set(map(os.path.realpath, (path, *named)))
        said = [one for one in task.said if one.of in own]
        pictures = {page.slug: self._piece(work, entry, number, page, pages, said) for number, page in enumerate(pages)}
        if pages and task.frame is None:
            self._place(work, entry, pages, pictures)
        knits = None if task.public else knits_of(path, SettingsFinder(settings))
        made = patternpage.pattern_page(
            work, entry, task.layout, task.infos(results), pages, pictures, stamp, knits, said,
            links=task.slugs, public=task.public, designer=settings.designer, terms=task.terms,
            framed=task.frame is not None, since=task.since,
        )  # fmt: skip
        return entry, encoded(made)

    def _place(
        self, work: "PatternWork", entry: Entry, pages: "Sequence[PiecePage]", pictures: Mapping[str, tuple[int, int]]
    ) -> None:
        """As pages of somebody's site may ask for it."""
        from lintarsia.publishing.pages.placedcover import placed_cover

        task, designer = self.task, self.task.target.settings.designer
        made = placed_cover(work, entry, task.layout, pages, pictures, task.terms, designer)
        write_inside(task.site, task.layout.picture(entry.slug, FILE), made.drawing)
        Path(task.scratch, f"{task.number}{PLACED}.html").write_bytes(encoded(made.html))

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
        write_pictures(task, page.slug, drawings.fabric, files)
        told = (task.earlier_pieces.get((page.piece.name, size), "") for size in page.sizes)
        state = StateShown(stamp, task.since, task.slug, "".join(dict.fromkeys(told)))
        edges = edge_notes(work, page, task.terms)
        setting = setting_of(work.pattern, task.slug, page, pages, task.layout, edges)
        body = chart_page(
            chart, plan, entry, drawings, task.layout, {}, work.allowance, state, task.terms, setting,
            None if task.public else _knitted(whole, page), heard,
        )  # fmt: skip
        keep_page(replace(task, slug=page.slug), entry, body, f"-{number}")
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


MAKER = PatternMaker


def _really(paths: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(map(os.path.realpath, paths)))


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
