"""Chart files to pages and pictures: what each process of a build does, over and over.

Nothing large is held: page and pictures go straight to where they belong, or the page to a scratch folder where
another's theme is to be put around it, and only an `Entry` comes back.
"""

import os
import shutil
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace

from lintarsia.engine.batches import judge
from lintarsia.engine.checking import shown
from lintarsia.engine.timed import out_of_time
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.publishing.pages.brokenpage import broken_page
from lintarsia.publishing.pages.cutting import encoded
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.site.chartmaker import ChartMaker
from lintarsia.publishing.site.pagefiles import keep_page
from lintarsia.publishing.site.patternmaker import PatternMaker
from lintarsia.publishing.site.task import Task
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.languages import ENGLISH

MAKERS: dict[Kind, type[ChartMaker | PatternMaker]] = {Kind.CHART: ChartMaker, Kind.PATTERN: PatternMaker}
"""Whatever has a page of its own in a site."""


def publish(tasks: Sequence[Task]) -> list[Entry]:
    """Check, plan and draw charts, or gather patterns. Never raises for anything that a file holds.

    Each step is taken for all of them before the next, for what `engine/batches.py` says.
    """
    works = [MAKERS[kind_of(task.target.path)](task) for task in tasks]
    charts = [work for work in works if isinstance(work, ChartMaker)]
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
    return [_page(work) for work in works]


def _page(work: ChartMaker | PatternMaker) -> Entry:
    """Its page, made and written in the language of the site."""
    with speaking(work.task.language):
        entry, body = work.page()
        keep_page(work.task, entry, body)
    return entry


def publish_late(task: Task, seconds: float) -> Entry:
    """The page of a chart or pattern that could not be finished in its time, and nothing of what there was of it."""
    path, settings, name = task.target.path, task.target.settings, task.name or shown(task.target.path)
    with speaking(ENGLISH):
        late = out_of_time(path, settings, seconds).results
    results = tuple(replace(one, file=name) for one in late)
    pattern = kind_of(path) is Kind.PATTERN
    entry = Entry(name, task.slug, os.path.basename(name), "", None, results, settings.block, pattern=pattern)
    shutil.rmtree(os.path.join(task.site, task.layout.pictures(task.slug)), ignore_errors=True)
    with suppress(OSError):
        os.unlink(os.path.join(task.site, task.layout.fabric(task.slug)))
    with speaking(task.language):
        keep_page(task, entry, encoded(broken_page(entry, None, task.layout, task.infos(results))))
    return entry
