"""What a check says: places, findings, results, and what a rule says of itself. Frozen throughout."""

from collections.abc import Iterable, Mapping
from dataclasses import field
from enum import StrEnum

from lintarsia.ground.kinds import Kind
from lintarsia.ground.regions import Edit, Region
from lintarsia.ground.values import dataclass


class Level(StrEnum):
    """SARIF's levels; `off` exists in settings only and never on a result."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"
    OFF = "off"

    @property
    def rank(self) -> int:
        """0 off, 1 note, 2 warning, 3 error: so that levels can be compared."""
        return _RANK[self]

    def reaches(self, other: "Level") -> bool:
        """Whether this level is as grave as `other` or graver."""
        return self.rank >= other.rank


_RANK = {Level.OFF: 0, Level.NOTE: 1, Level.WARNING: 2, Level.ERROR: 3}


def strictest(blocking: Iterable[Level]) -> Level:
    """Of the levels that block in several files, the one for a report's words; `error` where none blocks in any."""
    return min(
        (level for level in blocking if level is not Level.OFF), key=lambda level: level.rank, default=Level.ERROR
    )


@dataclass(frozen=True, slots=True)
class Fix:
    """A mend that needs no thought (`safe`) or one that changes the picture (not safe)."""

    description: str
    edits: tuple[Edit, ...]
    safe: bool = True


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule yields: one fault, before the engine adds rule name, level, file and fingerprint.

    `row` is the knitter's row, `stitches` the first and last stitch in knitter's numbering (right to left,
    inclusive). `level` overrides the rule's own default for this key. `remedy` overrides the rule's general one.
    `pattern` is what the fingerprint hashes instead of the row number, so that a row added elsewhere does not
    make an accepted result new: pass the stitches' own symbols. `file` is the path of the file where the place is,
    where that is not the one that is checked: a pattern's chart.
    """

    key: str
    message: str
    region: Region
    row: int | None = None
    stitches: tuple[int, int] | None = None
    level: Level | None = None
    remedy: str | None = None
    fixes: tuple[Fix, ...] = ()
    pattern: str = ""
    file: str = ""


@dataclass(frozen=True, slots=True)
class Result:
    """One fault in one file, complete; what reports are made of."""

    rule: str
    key: str
    level: Level
    message: str
    file: str
    region: Region
    row: int | None = None
    stitches: tuple[int, int] | None = None
    remedy: str = ""
    fixes: tuple[Fix, ...] = ()
    fingerprint: str = ""
    suppressed: bool = False
    justification: str = ""
    baseline: str = ""  # "new" or "unchanged" where the run was held against a baseline
    alike: str = ""  # the fingerprint of the first in the file that is like this one, where that is another

    @property
    def order(self) -> tuple[str, Region, str, str, str]:
        """The sort key of every report: by file, place, rule."""
        return (self.file, self.region, self.rule, self.key, self.message)


@dataclass(frozen=True, slots=True)
class Fixed:
    """A result that was mended: which, how, and in which line of the text as it was just before."""

    file: str
    rule: str
    key: str
    description: str
    line: int
    row: int | None = None
    safe: bool = True
    round: bool = False  # whether the row is a round


class Basis(StrEnum):
    """A part of a chart that its reader stands in for where the file has none (see `Chart.assumed`)."""

    GAUGE = "gauge"
    COLOURS = "colours"
    SYMBOLS = "symbols"  # a symbol of the grid that the key does not have stands for some colour, nobody knows which


class Maker(StrEnum):
    """Who makes a rule's results: its own check, or the reader, the engine or the baseline as they go."""

    CHECK = "check"
    ENGINE = "engine"


@dataclass(frozen=True, slots=True)
class RuleInfo:
    """What a rule says of itself; its page and its help are made from this, and nobody else lists rules by name.

    `keys` maps each stable message key to a short phrase. `why` speaks of the knitting, `remedy` of what to do.
    `sources` are citations, or "common practice".

    `subjects` are the kinds of file it looks at, `made_by` who makes its results. `judges_by` are parts of the chart
    without which it keeps silent: the fault itself is a result already, and lengths by a stand-in gauge would only bury
    it. `suppressible`: whether a file may accept its results, or settings switch it off; `acceptable`: whether a
    baseline may. `fix_from_plan`: whether its fixes state what a plan of the whole chart has found, which waits until
    the picture is mended. `once_a_pattern`: what it says of one chart of a pattern is as true of the others, and is
    told for the first alone. `blinds`: where it stands other faults go unseen, so that no fix may bring it.
    """

    name: str
    level: Level
    summary: str
    why: str
    remedy: str
    keys: Mapping[str, str]
    sources: tuple[str, ...] = ("common practice",)
    subjects: tuple[Kind, ...] = (Kind.CHART,)
    made_by: Maker = Maker.CHECK
    judges_by: frozenset[Basis] = frozenset()
    suppressible: bool = True
    acceptable: bool = True
    fix_from_plan: bool = False
    blinds: bool = False
    once_a_pattern: bool = False

    @property
    def group(self) -> str:
        return self.name.partition("/")[0]


@dataclass(frozen=True, slots=True)
class Picture:
    """The grid of a chart as reports need it: enough to draw the rows around a fault.

    `rows` bottom-up (index 0 is row 1), right-aligned as printed; `shades` maps a symbol to "#rrggbb", `names` to what
    the key calls it; `sides` say which side each row is ("RS"/"WS"), `round` whether rows are rounds.
    """

    rows: tuple[str, ...]
    shades: Mapping[str, str]
    sides: tuple[str, ...]
    names: Mapping[str, str] = field(default_factory=dict)
    round: bool = False
    title: str = ""
