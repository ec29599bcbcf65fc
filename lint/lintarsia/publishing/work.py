"""One chart file to its page and pictures: what each process of a build does, over and over.

Nothing large is held: the page goes to a scratch folder, the pictures straight to where they belong, and only an
`Entry` comes back.
"""

import os
from dataclasses import dataclass, replace
from pathlib import Path

from lintarsia.chart import Chart
from lintarsia.engine import check_chart
from lintarsia.engine.targets import Target
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.cards import card
from lintarsia.publishing.chartpage import broken_page, chart_page, draw, figures, summary
from lintarsia.publishing.entry import Entry
from lintarsia.publishing.layout import Layout
from lintarsia.publishing.output import write_inside
from lintarsia.reading import read_chart
from lintarsia.result import RuleInfo


@dataclass(frozen=True, slots=True)
class Task:
    """A chart to publish: pictures below `site`, the page's content into `scratch/<number>.html`."""

    number: int
    slug: str
    target: Target
    layout: Layout
    site: str
    scratch: str
    cards: bool = False  # previews need whole addresses, so there is no use for their pictures without a base URL


def publish(task: Task) -> Entry:
    """Check, plan and draw one chart. Never raises for anything that the chart holds."""
    settings = task.target.settings
    path = task.target.path
    checked = check_chart(path, None, settings)
    reading = read_chart(path, max_bytes=settings.max_bytes)
    rules = {r.rule: settings.rulebook.info(r.rule) for r in checked.results}
    name = os.path.basename(path)
    entry = Entry(path.replace(os.sep, "/"), task.slug, name, "", None, checked.results, settings.block)
    if reading.chart is None:
        body = broken_page(entry, reading.text, task.layout, rules)
    else:
        entry, body = _readable(reading.chart, entry, task, rules)
    Path(task.scratch, f"{task.number}.html").write_text(body, encoding="utf-8", newline="\n")
    return entry


def _readable(chart: Chart, entry: Entry, task: Task, rules: dict[str, RuleInfo]) -> tuple[Entry, str]:
    settings = task.target.settings
    yarn = {"tail_mm": settings.tail_mm, "allowance": settings.allowance}
    plan = make_plan(chart, settings.limits, holders=settings.holders, **yarn)
    drawings = draw(chart, plan, entry.results)
    entry = replace(entry, title=chart.title, summary=summary(chart), figures=figures(chart, plan, drawings))
    for name, svg in drawings.files.items():
        write_inside(task.site, task.layout.picture(task.slug, name), svg)
    if task.cards:
        write_inside(task.site, task.layout.picture(task.slug, "card.png"), card(chart))
    return entry, chart_page(chart, plan, entry, drawings, task.layout, rules, settings.allowance)
