"""One chart file to its page and pictures: what each process of a build does, over and over.

Nothing large is held: page and pictures go straight to where they belong, or the page to a scratch folder where
another's theme is to be put around it, and only an `Entry` comes back.
"""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from lintarsia.chart import Chart
from lintarsia.engine.checking import check_chart, examine, shown
from lintarsia.engine.targets import Target
from lintarsia.pattern.names import is_pattern
from lintarsia.publishing import patternpage
from lintarsia.publishing.cards import card
from lintarsia.publishing.chartpage import broken_page, chart_page, draw, figures, summary
from lintarsia.publishing.cutting import encoded
from lintarsia.publishing.entry import Entry
from lintarsia.publishing.frame import Frame
from lintarsia.publishing.layout import Layout
from lintarsia.publishing.output import write_all_inside, write_inside
from lintarsia.result import Result, RuleInfo
from lintarsia.rules.base import Work

CHART_SCRIPTS = ("chart.js", "card.js", "knit.js", "ticks.js")


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

    def tidy(self, results: tuple[Result, ...]) -> tuple[Result, ...]:
        """Results of a pattern as pages show them."""
        own = shown(self.target.path)
        return tuple(replace(r, file=self.name) if r.file == own else r for r in results) if self.name else results


def publish(task: Task) -> Entry:
    """Check, plan and draw one chart, or gather one pattern. Never raises for anything that the file holds."""
    settings = task.target.settings
    if is_pattern(task.target.path):
        return _publish_pattern(task)
    file = task.name or shown(task.target.path)
    seen = examine(task.target.path, None, settings, file)
    rules = {r.rule: settings.rulebook.info(r.rule) for r in seen.results}
    if seen.work is not None:
        entry, body = _readable(seen.work, file, seen.results, task, rules)
    else:
        entry = Entry(file, task.slug, os.path.basename(file), "", None, seen.results, settings.block)
        body = encoded(broken_page(entry, seen.reading.text if seen.reading else None, task.layout, rules))
    _keep(task, entry, body)
    return entry


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


def _publish_pattern(task: Task) -> Entry:
    path, settings = task.target.path, task.target.settings
    results = check_chart(path, None, settings).results
    rules = {r.rule: settings.rulebook.info(r.rule) for r in results}
    file = task.name or shown(path)
    entry = Entry(file, task.slug, os.path.basename(file), "", None, task.tidy(results), settings.block, pattern=True)
    work = patternpage.read(path, settings)
    if work is None:
        _keep(task, entry, encoded(broken_page(entry, None, task.layout, rules)))
        return entry
    entry = replace(
        entry,
        title=work.pattern.title,
        summary=patternpage.summary(work.pattern),
        cover=patternpage.cover(work, task.slugs),
        names=patternpage.yarn_names(work),
    )
    _keep(task, entry, encoded(patternpage.pattern_page(work, entry, task.layout, rules, task.slugs)))
    return entry


def _readable(
    work: Work, file: str, results: tuple[Result, ...], task: Task, rules: dict[str, RuleInfo]
) -> tuple[Entry, bytes]:
    chart, plan, slug = work.chart, work.plan, task.slug
    drawings = draw(chart, plan, results)
    entry = Entry(
        file, slug, chart.title, summary(chart), figures(chart, plan, drawings), results, task.target.settings.block,
        cover=slug, names=_names(chart),
    )  # fmt: skip
    files: dict[str, str | bytes] = {**drawings.files}
    if task.cards:
        files["card.png"] = card(chart)
    write_inside(task.site, task.layout.fabric(slug), drawings.fabric)
    if files:
        write_all_inside(task.site, task.layout.pictures(slug), files)
    return entry, chart_page(chart, plan, entry, drawings, task.layout, rules, work.allowance)


def _names(chart: Chart) -> tuple[str, ...]:
    """Of its yarns, and of its colours where no yarn's name has theirs in it (`Hearth Sport in pine`, `Pine`)."""
    yarns = dict.fromkeys(yarn.name for yarn in chart.yarns.values() if yarn.name)
    told = " ".join(yarns).casefold()
    colours = dict.fromkeys(colour.name for colour in chart.colours.values() if colour.name.casefold() not in told)
    return (*colours, *yarns)
