"""Files to pages and pictures: what each process of a build does, over and over.

Nothing large is held: page and pictures go straight to where they belong, or the page to a scratch folder where
another's theme is to be put around it, and only an `Entry` comes back.
"""

import os
import shutil
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace

from lintarsia.engine.batches import judge
from lintarsia.engine.timed import out_of_time
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.site.makers import PageMaker, maker_of
from lintarsia.publishing.site.pagefiles import keep_page
from lintarsia.publishing.site.task import Task
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.languages import ENGLISH


def publish(tasks: Sequence[Task]) -> list[Entry]:
    """Check, plan and draw charts, gather patterns, and so on for every kind that has pages. Never raises for anything
    that a file holds.

    Each step is taken for all of them before the next, for what `engine/batches.py` says.
    """
    works = [maker_of(task.target.path)(task) for task in tasks]
    with speaking(ENGLISH):  # which is what rules speak
        for work in works:
            work.read()
        for work in works:
            work.plan()
        judge([work.examining for work in works if not work.task.public])
        for work in works:
            work.find()
    for work in works:
        with speaking(work.task.language):
            work.draw()
    return [_page(work) for work in works]


def _page(work: PageMaker) -> Entry:
    """Its page, made and written in the language of the site."""
    with speaking(work.task.language):
        entry, body = work.page()
        keep_page(work.task, entry, body)
    return entry


def publish_late(task: Task, seconds: float) -> Entry:
    """The page of a file that could not be finished in its time, and nothing of what there was of it."""
    work = maker_of(task.target.path)(task)
    with speaking(ENGLISH):
        late = out_of_time(task.target.path, task.target.settings, seconds).results
    results = tuple(replace(one, file=work.file) for one in late)
    shutil.rmtree(os.path.join(task.site, task.layout.pictures(task.slug)), ignore_errors=True)
    with suppress(OSError):
        os.unlink(os.path.join(task.site, task.layout.fabric(task.slug)))
    with speaking(task.language):
        entry, body = work.torn(work.entry(results=results))
        keep_page(task, entry, body)
    return entry
