"""The whole site as a list of pages and files, whoever puts them together. Knows nothing of MkDocs."""

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import chain
from pathlib import Path

from lintarsia import __version__
from lintarsia.ground.kinds import Kind
from lintarsia.ground.resources import resource
from lintarsia.ground.scratch import scratch_folder
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.frame import Frame
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.overview import overview_page
from lintarsia.publishing.pages.rulepages import Found, draw_cases, found, rule_page, rules_page
from lintarsia.publishing.pages.searchindex import GuidePage, Line, chart_lines, index_script
from lintarsia.publishing.pages.templates import fill, load
from lintarsia.publishing.site.gather import Gathering, files_read, tasks
from lintarsia.publishing.site.makers import CHART_SCRIPTS, card_of
from lintarsia.publishing.site.placing import look_again, write_inside
from lintarsia.reporting.json import render_in_lines, result_line
from lintarsia.result import Level, Report, Result
from lintarsia.rules.rulebook import Rulebook, house_rulebook, together
from lintarsia.settings import Settings, SettingsFinder
from lintarsia.telling.counts import count

GUIDES = ("reading", "techniques", "hands", "necks-and-tubes", "infants")
SCRIPTS = (*CHART_SCRIPTS, "overview.js")


@dataclass(frozen=True, slots=True)
class PageSpec:
    """A page: its place, its title and what it is about as plain text, and its content as HTML, made when asked for."""

    name: str
    title: str
    about: str
    content: Callable[[], str]
    picture: str = ""  # for previews where the page is linked: a file of the site
    of_chart: bool = False
    scripts: tuple[str, ...] = ()


@dataclass(frozen=True)
class SitePlan:
    """What a site is made from. `site` is the folder it is written to, which is there and is written to freely.

    With a `frame` the charts' pages are finished and written as they are made; without, they are handed out to be
    put into pages by another's theme.
    """

    paths: Sequence[str]
    layout: Layout
    site: str
    title: str
    settings: Settings | None = None
    cores: int | None = None
    cards: bool = False
    frame: Frame | None = None
    progress: Callable[[int, int], None] | None = None  # called with charts done and charts in all
    most_seconds: float | None = None  # the time that each chart has


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
        self._charts: Gathering | None = None
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
        jobs = tasks(plan.paths, finder, plan.layout, self._drawn, self.scratch, cards=plan.cards, frame=plan.frame)
        self.reads = frozenset(chain.from_iterable(map(files_read, jobs)))
        self.book = together(task.target.settings.rulebook for task in jobs) if jobs else self.book
        self._charts = Gathering(jobs, plan.cores, plan.most_seconds)
        self._wanted = len(jobs)

    def gather(self) -> None:
        """Have every chart at its place in the site. Raises Trouble as `start` does, which it does where need be."""
        if self._charts is None:
            self.start()
        assert self._charts is not None
        # What can be done without the last chart is done while it is drawn.
        draw_cases(self.book.names)
        load("overview.html", "rules.html", "rule.html")
        for entry in self._charts:
            self.entries.append(entry)
            self._searched += chart_lines(entry, self.plan.layout)
            self._lines += [(result, result_line(result)) for result in entry.results]
            if self.plan.progress is not None:
                self.plan.progress(len(self.entries), self._wanted)
        if self._drawn != self.plan.site and os.path.isdir(self._drawn):
            for name in os.listdir(self._drawn):
                os.rename(os.path.join(self._drawn, name), os.path.join(self.plan.site, name))
            os.rmdir(self._drawn)

    def pages(self) -> Iterator[PageSpec]:
        """Every page that is still to be put together, but for the overview and those written by hand.

        All charts must have been gathered: with a frame when contents are asked for, else before.
        """
        for number, entry in enumerate(self.entries if self.plan.frame is None else ()):
            yield PageSpec(
                self.plan.layout.chart(entry.slug),
                entry.title,
                entry.about,
                Path(self.scratch, f"{number}.html").read_text,
                card_of(entry, self.plan.layout) if self.plan.cards else "",
                of_chart=True,
                scripts=CHART_SCRIPTS,
            )
        yield from self._rule_pages()

    def overview(self) -> PageSpec:
        """The page of all charts that have been gathered."""
        about = f"{count(len(self.entries), 'knitting chart')}, checked and planned."
        content = partial(overview_page, self.plan.title, self.entries, self.plan.layout)
        name = self.plan.layout.overview
        return PageSpec(name, self.plan.title, about, content, self._cover(), scripts=("overview.js",))

    def _cover(self) -> str:
        first = min((entry for entry in self.entries if entry.cover), key=lambda entry: entry.title, default=None)
        return card_of(first, self.plan.layout) if first and self.plan.cards else ""

    def _rule_pages(self) -> Iterator[PageSpec]:
        layout, book = self.plan.layout, self.book
        yield PageSpec(layout.rules, "Rules", "What a chart is looked over for, and why.", self._rules)
        for name in book.names:
            yield PageSpec(layout.rule(name), name, book.info(name).summary, partial(self._rule, name))

    @cached_property
    def _found(self) -> Found:
        return found(self.entries)

    def _rules(self) -> str:
        return rules_page(self.book, self._found, self.plan.layout)

    def _rule(self, name: str) -> str:
        return rule_page(self.book.load(name), self._found, self.plan.layout)

    def search_page(self) -> PageSpec:
        """The page to search from; a site with a search of its own leaves it out."""
        layout = self.plan.layout
        links = {"home": layout.link(layout.search, layout.overview), "rules": layout.link(layout.search, layout.rules)}
        content = partial(fill, "search.html", **links)
        return PageSpec(layout.search, "Search", "Search.", content, scripts=("search-index.js", "search.js"))

    def assets(self) -> Iterator[tuple[str, Path]]:
        """Styles, scripts and images: place in the site, and the file that is shipped."""
        folder = resource("site") / "assets"
        for file in sorted(folder.iterdir()):
            yield self.plan.layout.asset(file.name), file

    def guides(self) -> Iterator[tuple[str, Path]]:
        """Pages written by hand, in Markdown."""
        for name in GUIDES:
            yield self.plan.layout.guide(name), resource("site") / "guide" / f"{name}.md"

    def finish(self, guides: Sequence[GuidePage] = ()) -> None:
        """Write what is no page: the report for machines, the index to search in."""
        lines = sorted(self._lines, key=lambda told: told[0].order)
        report = self._report([result for result, _ in lines])
        write_inside(self.plan.site, self.plan.layout.report, render_in_lines(report, [line for _, line in lines]))
        index = index_script(self._searched, self.book, guides, self.plan.layout)
        write_inside(self.plan.site, self.plan.layout.asset("search-index.js"), index)

    def _report(self, results: Sequence[Result]) -> Report:
        """The results of all charts, as `lintarsia check` gathers them."""
        levels = {entry.file: entry.blocking for entry in self.entries}
        common = min((b for b in levels.values() if b is not Level.OFF), key=lambda b: b.rank, default=Level.ERROR)
        patterns = sum(entry.pattern for entry in self.entries)
        return Report(
            len(self.entries) - patterns,
            tuple(results),
            blocking=common,
            version=__version__,
            others={Kind.PATTERN: patterns} if patterns else {},
            files=tuple(entry.file for entry in self.entries),
            blocking_of=levels,
            fingerprints={e.file: e.fingerprint for e in sorted(self.entries, key=_file) if e.fingerprint},
        )


def _file(entry: Entry) -> str:
    return entry.file
