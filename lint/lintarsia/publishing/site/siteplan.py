"""What a site is made from, as it was asked for."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from lintarsia.publishing.imprint import NO_IMPRINT, Imprint
from lintarsia.publishing.pages.frame import Frame
from lintarsia.publishing.pages.layout import Layout
from lintarsia.settings import Settings
from lintarsia.telling.languages import ENGLISH


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
    changes_from: Sequence[str] = ()  # revisions since which it tells what has changed
    public: bool = False  # for everybody: nothing of what was found
    language: str = ENGLISH  # of its pages' own words
    imprint: Imprint = NO_IMPRINT
    hosted: bool = False  # its pages stand in somebody else's site
