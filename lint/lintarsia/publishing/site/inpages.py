"""Charts that a designer's own pages ask for by a line, put into them. Faults are told with page and line."""

import logging
import os
import posixpath
import re
import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from html import escape
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.pages import Page

from lintarsia.engine.subjects.chart import ChartSubject
from lintarsia.ground.kinds import KNITTED_FROM
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.placedview import FILE, Placed, placed_chart
from lintarsia.publishing.site.directive import KNIT, WORDS, Directive, directives
from lintarsia.publishing.site.hosted import hosted_content
from lintarsia.publishing.site.making import Making
from lintarsia.publishing.site.pagefiles import PLACED
from lintarsia.publishing.site.placing import write_inside
from lintarsia.publishing.site.rebasing import rebased
from lintarsia.telling.counts import one_of

_LOG = logging.getLogger("mkdocs.plugins.lintarsia")
_TOKEN = secrets.token_hex(8)  # nobody can guess it and write it into a page
_WAITING = re.compile(rf"<div>{_TOKEN}-([0-9]+)</div>|<!--{_TOKEN}-([0-9]+)-->.*?<!--/{_TOKEN}-->", re.DOTALL)


@dataclass(frozen=True, slots=True)
class _Shown:
    """What a line stands for: a chart; or a pattern's `cover`, or all of a `page`, HTML with the links of its own page;
    or what is wrong, in words."""

    placed: Placed | None = None
    cover: str = ""
    page: str = ""
    fault: str = ""


class InPages:
    """The charts that pages of a site ask for, in one build."""

    def __init__(self, making: Making, config: MkDocsConfig) -> None:
        self._making = making
        self._home = os.path.dirname(config.config_file_path) if config.config_file_path else os.curdir
        self._shown: list[_Shown] = []
        self._strict, self._faults = config.strict, list[str]()
        self._by_file = {os.path.realpath(job.target.path): number for number, job in enumerate(making.jobs)}

    def read(self, markdown: str, page: Page) -> str:
        """The page's Markdown with a mark where each chart is to stand."""
        lines = markdown.split("\n")
        written = _written(page)
        knits = 0
        for one in directives(markdown):
            line = next((number for number, text in written if text == one.said), 0)
            written = [(number, text) for number, text in written if number > line] if line else written
            shown = self._shown_for(one, page, first=knits == 0)
            knits += bool(shown.page)
            if shown.fault:
                where = f"{page.file.src_uri}:{line}" if line else page.file.src_uri
                self._tell(f"{where}: ::chart {one.said}: {shown.fault}")
            self._shown.append(shown)
            lines[one.at] = f"\n<div>{_TOKEN}-{len(self._shown) - 1}</div>\n"
        return "\n".join(lines)

    def _tell(self, fault: str) -> None:
        if self._strict:
            self._faults.append(fault)
        else:
            _LOG.warning(fault)

    def judge(self) -> None:
        """Once all pages are read: raises Trouble for what was told, where a site is to be made strictly. MkDocs would
        itself, but counts no warnings where it is to be quiet."""
        if self._faults:
            raise Trouble("\n".join(self._faults))

    def _shown_for(self, one: Directive, page: Page, *, first: bool) -> _Shown:
        try:
            return self._asked(one, page, first=first)
        except Trouble as trouble:
            return _Shown(fault=str(trouble))

    def _asked(self, one: Directive, page: Page, *, first: bool) -> _Shown:
        asked = one.asked()
        if asked is None:
            raise Trouble("names no file; expected ::chart fox.chart.yaml")
        name, words = asked
        if len(words) > 1 or not set(words) <= set(WORDS):
            raise Trouble(f"{' '.join(words)!r} is not known here; after the file stands {one_of(WORDS)}, or nothing")
        number = self._number(name, page)
        job, entry = self._making.jobs[number], self._making.entries[number]
        refuse(entry, words)
        if KNIT in words:
            if not first:
                raise Trouble("a page has room for one card to knit along with; show this one without the word knit")
            return _Shown(Placed(entry), page=self._waiting(number))
        if entry.figures is None:
            return _Shown(Placed(entry), cover=self._waiting(number, PLACED))
        subject = ChartSubject(job.target.path, None, job.target.settings)
        list(subject.read())
        subject.gather()
        assert subject.work is not None, "it has been read before"
        placed = placed_chart(subject.work.chart, subject.work.plan, entry, job.terms, fabric="fabric" in words)
        if placed.drawing:
            layout = self._making.plan.layout
            write_inside(self._making.plan.site, layout.picture(entry.slug, FILE), placed.drawing)
        return _Shown(placed)

    def _waiting(self, number: int, which: str = "") -> str:
        return Path(self._making.scratch, f"{number}{which}.html").read_text("utf-8")

    def _number(self, name: str, page: Page) -> int:
        """Which of the site's charts a page means: beside the page, from the folder of mkdocs.yml, or by the end of
        its path where only one has it."""
        beside = os.path.dirname(page.file.abs_src_path or "")
        for folder in (beside, self._home):
            real = os.path.realpath(os.path.join(folder, name))
            if real in self._by_file:
                return self._by_file[real]
            if os.path.exists(real):
                raise Trouble("is not among the charts of this site; name its folder under charts: in mkdocs.yml")
        tail = os.sep + name.replace("/", os.sep)
        fit = [number for file, number in self._by_file.items() if file.endswith(tail)]
        if len(fit) == 1:
            return fit[0]
        if fit:
            raise Trouble(f"{len(fit)} charts of this site are called so; say in which folder it is")
        names = {os.path.basename(file) for file in self._by_file}
        near = get_close_matches(posixpath.basename(name), names, 1)
        raise Trouble("there is no such chart in this site" + (f"; did you mean {near[0]}?" if near else ""))

    def searched(self, html: str) -> str:
        """The content of a page as a search is to find it: with the charts' titles, and marks that are not seen."""

        def told(found: re.Match[str]) -> str:
            number = found[1] or found[2]
            placed = self._shown[int(number)].placed
            words = f"<p>{escape(placed.entry.title)}; {escape(placed.entry.summary)}</p>" if placed else ""
            return f"<!--{_TOKEN}-{number}-->{words}<!--/{_TOKEN}-->"

        return _WAITING.sub(told, html)

    def filled(self, output: str, page: Page) -> str:
        """A whole page with its charts in it."""
        return _WAITING.sub(lambda found: self._html(self._shown[int(found[1] or found[2])], page), output)

    def _html(self, shown: _Shown, page: Page) -> str:
        html = self._own_html(shown, page)
        return hosted_content(html) if self._making.plan.hosted else html

    def _own_html(self, shown: _Shown, page: Page) -> str:
        if shown.fault:
            return f'<div class="lintarsia placed-fault"><p>{escape(shown.fault)}</p></div>'
        assert shown.placed is not None
        layout, entry = self._making.plan.layout, shown.placed.entry
        there = layout.file(layout.chart(entry.slug))
        folder = posixpath.dirname(page.file.dest_uri)
        if shown.cover or shown.page:
            html = rebased(shown.cover or shown.page, posixpath.dirname(there), folder)
            return html if shown.cover else html.replace("<h1>", "<h2>", 1).replace("</h1>", "</h2>", 1)
        drawn = layout.picture(entry.slug, FILE) if shown.placed.drawing else layout.fabric(entry.cover)
        to_page = posixpath.relpath(there, folder or ".").removesuffix("index.html")
        with self._making.speaking():
            return shown.placed.html(to_page, posixpath.relpath(drawn, folder or "."))


def refuse(entry: Entry, words: Sequence[str]) -> None:
    """Raises Trouble where there is nothing to show of a file, or not in the way that `words` ask for."""
    if not entry.cover and (entry.torn or entry.kind in KNITTED_FROM):
        raise Trouble("cannot be shown, since no page to knit from can be made of it; lintarsia check says why")
    if not entry.cover:
        raise Trouble(f"is {entry.kind.what}, of which there is nothing to show; link to its page")
    if entry.figures is None and not set(words) <= {KNIT}:
        how = f"shown with the fabric of its pieces; after it stands {KNIT}, or nothing"
        raise Trouble(f"is a {entry.kind.noun}, {how}")


def _written(page: Page) -> list[tuple[int, str]]:
    """Number and words of each line of the file that asks for a chart: other plugins may have changed all the rest."""
    try:
        text = page.file.content_string
    except OSError:
        return []
    return [(one.at + 1, one.said) for one in directives(text)]
