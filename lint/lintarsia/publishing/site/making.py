"""The whole site as a list of pages and files, whoever puts them together. Knows nothing of MkDocs."""

import os
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, ExitStack
from dataclasses import replace
from itertools import chain
from typing import TYPE_CHECKING

from lintarsia.ground.scratch import scratch_folder
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.rulepages import draw_cases
from lintarsia.publishing.pages.searchindex import GuidePage, Line, changes_line, chart_lines, index_script
from lintarsia.publishing.pages.templates import load
from lintarsia.publishing.site.gather import Gathering, files_read, tasks
from lintarsia.publishing.site.ownfiles import write_own
from lintarsia.publishing.site.pagespecs import (
    PageSpec,
    change_pages,
    chart_pages,
    mine,
    overview,
    rule_pages,
    search,
)
from lintarsia.publishing.site.placing import look_again, write_inside
from lintarsia.publishing.site.siteplan import SitePlan
from lintarsia.publishing.site.sitereport import report_of
from lintarsia.publishing.site.task import Task
from lintarsia.reporting.json import render_in_lines, result_line
from lintarsia.result import Result
from lintarsia.rules.rulebook import Rulebook, house_rulebook, together
from lintarsia.settings import Answers, SettingsFinder
from lintarsia.telling.catalogues import speaking

if TYPE_CHECKING:
    from lintarsia.publishing.site.changes import Changed


class Making:
    """One making of a site. Charts are drawn by other processes, and their pages wait in a scratch folder, `scratch` or
    one of its own, until they are asked for: `close` ends both."""

    def __init__(self, plan: SitePlan, scratch: str = "") -> None:
        self.plan = plan
        self._held = ExitStack()
        self.scratch = scratch or self._held.enter_context(scratch_folder())
        self.reads: frozenset[str] = frozenset()  # the charts, patterns and settings files that it is made from
        self.entries: list[Entry] = []
        self._lines: list[tuple[Result, str]] = []  # all results, and how the report for machines has them
        self._searched: list[Line] = []
        self.book: Rulebook = plan.settings.rulebook if plan.settings else house_rulebook()
        self._answers = plan.settings.answers if plan.settings else Answers()
        self.jobs: list[Task] = []  # in the order of their entries
        self._charts: Gathering | None = None
        self._changed: dict[str, Changed] = {}  # by slug
        self._wanted = 0
        self._drawn = plan.site

    @property
    def late(self) -> tuple[str, ...]:
        """The files that could not be finished in their time."""
        return tuple(self._charts.late) if self._charts is not None else ()

    def close(self) -> None:
        if self._charts is not None:
            self._charts.close()
        self._held.close()

    def start(self, aside: str = "") -> None:
        """Begin to check, plan and draw every chart, into the folder `aside` of the site until `gather` has them all:
        what builds the pages may empty the site first. Raises Trouble where the paths or their settings are not in
        order."""
        look_again()
        plan = self.plan
        self._drawn = os.path.join(plan.site, aside) if aside else plan.site
        finder = SettingsFinder(plan.settings)
        jobs = tasks(
            plan.paths,
            finder,
            plan.layout,
            self._drawn,
            self.scratch,
            cards=plan.cards,
            frame=plan.frame,
            public=plan.public,
            language=plan.language,
        )
        jobs = self._with_changes(jobs)
        self.reads = frozenset(chain.from_iterable(map(files_read, jobs)))
        self.book = together(task.target.settings.rulebook for task in jobs) if jobs else self.book
        self._answers = next((s.answers for s in (task.target.settings for task in jobs) if s.answers), self._answers)
        self.jobs = jobs
        self._charts = Gathering(jobs, plan.cores, plan.most_seconds)
        self._wanted = len(jobs)

    def _with_changes(self, jobs: list[Task]) -> list[Task]:
        """Each with its link to the page of changes, where there is one."""
        if not self.plan.changes_from:
            return jobs
        from lintarsia.publishing.site.changes import changes_of

        self._changed = changes_of(jobs, self.plan.paths, self.plan.changes_from, self.plan.settings)
        told = ((job, self._changed.get(job.slug)) for job in jobs)
        return [
            job
            if found is None
            else replace(job, since=found.since, earlier=found.earlier, earlier_pieces=found.pieces)
            for job, found in told
        ]

    def gather(self) -> None:
        """Have every chart at its place in the site. Raises Trouble as `start` does, which it does where need be."""
        if self._charts is None:
            self.start()
        assert self._charts is not None
        # What can be done without the last chart is done while it is drawn.
        load("overview.html")
        if not self.plan.public:
            draw_cases(self.book.names)
            load("rules.html", "rule.html")
        for entry in self._charts:
            self._refuse_torn(entry)
            self.entries.append(entry)
            with self.speaking():
                self._searched += chart_lines(entry, self.plan.layout, public=self.plan.public)
            self._lines += [(result, result_line(result)) for result in entry.results]
            if self.plan.progress is not None:
                self.plan.progress(len(self.entries), self._wanted)
        if self._drawn != self.plan.site and os.path.isdir(self._drawn):
            for name in os.listdir(self._drawn):
                os.rename(os.path.join(self._drawn, name), os.path.join(self.plan.site, name))
            os.rmdir(self._drawn)

    def _refuse_torn(self, entry: Entry) -> None:
        """Raises Trouble for a file that cannot be read, or not in its time, where everybody would see its page."""
        if self.plan.public and entry.file in self.late:
            raise Trouble(
                f"{entry.file} took longer than {self.plan.most_seconds:g} s, and a public site has no page for that"
            )
        if self.plan.public and entry.torn:
            raise Trouble(
                f"{entry.file} cannot be read, and a public site has no page for that; mend it, which "
                "`lintarsia check` helps with, or exclude it in the settings"
            )

    def speaking(self) -> AbstractContextManager[None]:
        """Speak the site's language for the time of a `with`."""
        return speaking(self.plan.language)

    def pages(self) -> Sequence[PageSpec]:
        """Every page that is still to be put together, but for the overview and those written by hand.

        All charts must have been gathered: with a frame when contents are asked for, else before.
        """
        with self.speaking():
            return list(self._pages())

    def _pages(self) -> Iterator[PageSpec]:
        if self.plan.frame is None:
            yield from chart_pages(self.plan, self.entries, self.scratch)
        yield from change_pages(self._changed, self.plan.layout)
        if not self.plan.public:
            yield mine(self.plan.layout, self._answers)
            yield from rule_pages(self.book, self.entries, self.plan.layout)

    def overview(self) -> PageSpec:
        """The page of all charts that have been gathered."""
        with self.speaking():
            return overview(self.plan, self.entries)

    def search_page(self) -> PageSpec:
        """The page to search from; a site with a search of its own leaves it out."""
        with self.speaking():
            return search(self.plan.layout, public=self.plan.public)

    def finish(self, guides: Sequence[GuidePage] = ()) -> None:
        """Write what is no page: the report for machines, the index to search in, what is the designer's."""
        write_own(self.plan)
        book = None if self.plan.public else self.book
        layout = self.plan.layout
        with self.speaking():
            changed = [changes_line(slug, one.title, one.told, layout) for slug, one in self._changed.items()]
        index = index_script([*self._searched, *changed], book, guides, layout)
        write_inside(self.plan.site, self.plan.layout.asset("search-index.js"), index)
        if self.plan.public:
            return
        lines = sorted(self._lines, key=lambda told: told[0].order)
        report = report_of(self.entries, [result for result, _ in lines])
        write_inside(self.plan.site, self.plan.layout.report, render_in_lines(report, [line for _, line in lines]))
