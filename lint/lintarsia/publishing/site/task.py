"""One chart or pattern to publish, as it is sent to the process that does it."""

import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from lintarsia.engine.checking import shown
from lintarsia.engine.targets import Target
from lintarsia.publishing.pages.frame import Frame
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.said import Said
from lintarsia.result import Result, RuleInfo
from lintarsia.telling.languages import ENGLISH, phrase
from lintarsia.telling.terms import Terms


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

    def infos(self, results: Iterable[Result]) -> dict[str, RuleInfo]:
        """What each rule that found something says of itself."""
        return {result.rule: self.target.settings.rulebook.info(result.rule) for result in results}
