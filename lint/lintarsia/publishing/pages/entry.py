"""What the rest of a site needs to know of one chart, once its own page is made: small, plain, fit to be sent."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from lintarsia.ground.kinds import Kind
from lintarsia.result import Level, Result
from lintarsia.telling.counts import count
from lintarsia.telling.languages import counted, phrase


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
    area: float = 0.0  # cm²; 0 where the gauge is only stood in for


class Standing(NamedTuple):
    """How many results stand: those in the way of a release, and all of each level."""

    blocks: int
    errors: int
    warnings: int
    notes: int


class PatternPart(NamedTuple):
    """A chart of a pattern: its title, the slug of its page ("" where it has none here), what stands in it."""

    title: str
    slug: str
    tally: Standing


class PieceEntry(NamedTuple):
    """A page of a pattern's piece: its slug, its title and what it is about; the piece, and the sizes in which it is
    the same (none where the pattern has one)."""

    slug: str
    title: str
    about: str
    piece: str = ""
    sizes: tuple[str, ...] = ()


def tally_of(results: tuple[Result, ...], blocking: Level, elsewhere: Mapping[str, Level] | None = None) -> Standing:
    """`elsewhere` says what blocks in files where that is another level."""
    standing = [result for result in results if not result.suppressed]
    levels = Counter(result.level for result in standing)
    own = [(result.level, (elsewhere or {}).get(result.file, blocking)) for result in standing]
    blocks = sum(most is not Level.OFF and level.reaches(most) for level, most in own)
    return Standing(blocks, levels[Level.ERROR], levels[Level.WARNING], levels[Level.NOTE])


@dataclass(frozen=True, slots=True)
class Entry:
    """One file of the site that has a page. `file` is its path as reports print it; `summary` is "" where it cannot be
    read; `figures` is None but for a chart. `cover` is the slug of the chart whose fabric stands for it; `names` are
    those of its colours and yarns, to be found by. `fingerprint` is "" where it has none. `parts` are the charts of a
    pattern: what blocks one of them blocks the pattern, so `tally` counts them in. `pieces` are the pages of its
    pieces. `elsewhere` says what blocks in the charts' files that results of a pattern stand in.
    """

    file: str
    slug: str
    title: str
    summary: str
    figures: Figures | None
    results: tuple[Result, ...]
    blocking: Level
    cover: str = ""
    kind: Kind = Kind.CHART
    names: tuple[str, ...] = ()
    fingerprint: str = ""
    parts: tuple[PatternPart, ...] = ()
    pieces: tuple[PieceEntry, ...] = ()
    elsewhere: Mapping[str, Level] = field(default_factory=dict)
    tally: Standing = field(init=False)

    def __post_init__(self) -> None:
        own = tally_of(self.results, self.blocking, self.elsewhere)
        object.__setattr__(
            self, "tally", Standing(*map(sum, zip(own, *(part.tally for part in self.parts), strict=True)))
        )

    @property
    def torn(self) -> bool:
        """Whether the file cannot be read, or could not in its time: whatever can be has something to say of itself."""
        return not self.summary

    @property
    def about(self) -> str:
        """What its page is about, in a few words."""
        return self.summary or phrase("A file that cannot be read yet.")

    @property
    def order(self) -> tuple[int, int, int, int, str, str]:
        """What blocks comes first, then what has most to mend, then the alphabet."""
        blocks, errors, warnings, notes = self.tally
        return (-blocks, -errors, -warnings, -notes, self.title.casefold(), self.file)

    @property
    def state(self) -> str:
        """`blocks`, `warning`, `note` or `clear`: the gravest thing to say of it."""
        if self.tally.blocks:
            return "blocks"
        if self.tally.errors or self.tally.warnings:
            return "warning"
        return "note" if self.tally.notes else "clear"

    @property
    def verdict(self) -> str:
        """What a state mark stands beside: what blocks release, or what there is to mend, or nothing."""
        blocks = self.tally.blocks
        if blocks:
            return blocking_words(blocks)
        return standing_words(self.tally) or phrase("nothing to mend")


def blocking_words(blocks: int) -> str:
    """`2 results block release`."""
    return counted(blocks, "{n} result blocks release", "{n} results block release")


def standing_words(tally: Standing) -> str:
    """`1 error, 3 notes`; "" for none."""
    _, errors, warnings, notes = tally
    told = [
        count(errors, "error") if errors else "",
        count(warnings, "warning") if warnings else "",
        count(notes, "note") if notes else "",
    ]
    return ", ".join(filter(None, told))
