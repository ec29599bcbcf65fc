"""What a site asks of a file of any kind that has a page of its own; `publishing/site/publish.py` takes the steps."""

import os
from abc import ABC, abstractmethod
from typing import Any, NamedTuple

from lintarsia.engine.checking import Examining, shown
from lintarsia.engine.subjects import Subject, subject_of
from lintarsia.engine.targets import Target
from lintarsia.publishing.pages.brokenpage import broken_page
from lintarsia.publishing.pages.cutting import encoded
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.plainpage import plain_page
from lintarsia.publishing.site.task import Task
from lintarsia.result import Result
from lintarsia.telling.languages import marked, phrase


class Gathers(NamedTuple):
    """What a file says of the charts that are parts of it: its own title and version, and where they really lie; those
    that it names, and which of them could be read."""

    title: str
    version: str
    named: tuple[str, ...]
    read: tuple[str, ...]


class PageMaker(ABC):
    """One file on its way to its page: `read`, `plan`, then judged, `find`, `draw`, `page`, each once and for several
    files before the next. None may raise for anything that a file holds."""

    subject: Subject
    results: tuple[Result, ...] = ()
    (not_yet,) = marked("This page cannot be made until its file is mended.")

    def __init__(self, task: Task) -> None:
        self.task = task
        self.file = task.name or shown(task.target.path)
        self.subject = subject_of(task.target.path, None, task.target.settings)
        self.examining = Examining(self.subject, self.file)

    @staticmethod
    def gathers(target: Target) -> Gathers | None:
        """The charts that are parts of the file; None for a kind that has none."""
        return None

    def read(self) -> None:
        self.examining.read()

    def plan(self) -> None:  # noqa: B027 - most kinds have nothing to do here
        """Work out ahead what rules and page will both ask for."""

    def find(self) -> None:
        """What is to be said of it by the rules, whose words are English."""
        self.results = () if self.task.public else self.examining.results()

    def draw(self) -> None:  # noqa: B027 - nor here
        """Whatever of the page takes long, in the language of the site."""

    @abstractmethod
    def page(self) -> tuple[Entry, bytes]:
        """What the rest of the site needs to know, and the content of the page, in the language of the site. Writes
        what the page shows beside it. Where `subject.work` is None, there is only `torn` to hand out."""

    def entry(self, title: str = "", summary: str = "", **more: Any) -> Entry:
        """`summary` says in a few words what the page is about, and is "" for what cannot be read."""
        told = {"figures": None, "results": self.results} | more
        title, block = title or os.path.basename(self.file), self.task.target.settings.block
        return Entry(self.file, self.task.slug, title, summary, blocking=block, kind=self.subject.kind, **told)

    def torn(self, entry: Entry | None = None, text: str | None = None) -> tuple[Entry, bytes]:
        """The page of a file that cannot be read; `text` is what it holds."""
        entry = entry or self.entry()
        return entry, encoded(
            broken_page(entry, phrase(self.not_yet), text, self.task.layout, self.task.infos(entry.results))
        )

    def plain(self, entry: Entry, content: str) -> tuple[Entry, bytes]:
        """A page that shows `content`, which is HTML, with the file's title above and its results below."""
        task = self.task
        rules = None if task.public else task.infos(entry.results)
        return entry, encoded(plain_page(entry, content, task.layout, rules, task.home))
