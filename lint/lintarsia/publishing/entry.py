"""What the rest of a site needs to know of one chart, once its own page is made: small, plain, fit to be sent."""

from dataclasses import dataclass

from lintarsia.result import Level, Result


@dataclass(frozen=True, slots=True)
class Figures:
    """The numbers of a chart that could be read."""

    stitches: int
    rows: int
    size: str
    technique: str
    worked: str
    supplies: int
    fullest: int
    limit: int
    ends: int
    metres: float
    yarn: str
    picture: tuple[int, int]  # width and height of the fabric's drawing, px


@dataclass(frozen=True, slots=True)
class Entry:
    """One chart or pattern of the site. `file` is its path as reports print it; `figures` is None but for a chart that
    could be read. `cover` is the slug of the chart whose fabric stands for it.
    """

    file: str
    slug: str
    title: str
    summary: str
    figures: Figures | None
    results: tuple[Result, ...]
    blocking: Level
    cover: str = ""
    pattern: bool = False

    @property
    def about(self) -> str:
        """What its page is about, in a few words."""
        return self.summary or "A file that cannot be read yet."

    def count(self, level: Level) -> int:
        return sum(1 for r in self.results if r.level is level and not r.suppressed)

    @property
    def errors(self) -> int:
        return self.count(Level.ERROR)

    @property
    def warnings(self) -> int:
        return self.count(Level.WARNING)

    @property
    def notes(self) -> int:
        return self.count(Level.NOTE)

    @property
    def suppressed(self) -> int:
        return sum(1 for r in self.results if r.suppressed)

    @property
    def blocks(self) -> int:
        """How many results stand in the way of a release."""
        if self.blocking is Level.OFF:
            return 0
        return sum(1 for r in self.results if not r.suppressed and r.level.reaches(self.blocking))

    @property
    def order(self) -> tuple[int, int, int, int, str, str]:
        """What blocks comes first, then what has most to mend, then the alphabet."""
        return (-self.blocks, -self.errors, -self.warnings, -self.notes, self.title.casefold(), self.file)

    @property
    def state(self) -> str:
        """`blocks`, `warning`, `note` or `clear`: the gravest thing to say of it."""
        if self.blocks:
            return "blocks"
        if self.errors or self.warnings:
            return "warning"
        return "note" if self.notes else "clear"
