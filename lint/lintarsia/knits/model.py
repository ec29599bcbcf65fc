"""A test knit as its log states it: frozen, in the knitter's own numbers."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from lintarsia.chart import Places
from lintarsia.chart.measure import Length, Mass
from lintarsia.ground.kinds import Kind
from lintarsia.ground.regions import NOWHERE, Region
from lintarsia.ground.values import dataclass

Amount = Mass | Length


class RemarkKind(StrEnum):
    """What a remark wants: the first two an answer."""

    TROUBLE = "trouble"
    QUESTION = "question"
    PRAISE = "praise"


@dataclass(frozen=True, slots=True)
class MeasuredGauge:
    """Stitches and rows `over` a length, of what was knitted."""

    stitches: float
    rows: float
    over: Length
    needle: Length | None = None

    @property
    def stitch_mm(self) -> float:
        return self.over.mm / self.stitches

    @property
    def row_mm(self) -> float:
        return self.over.mm / self.rows

    def __str__(self) -> str:
        return f"{self.stitches:g} stitches and {self.rows:g} rows to {self.over}"


@dataclass(frozen=True, slots=True)
class Used:
    """What was used of a yarn: `amount`, or what is `before` less what is left `after`."""

    amount: Amount | None = None
    before: Amount | None = None
    after: Amount | None = None

    @property
    def spent(self) -> Amount | None:
        """What was used, in grams or metres where it is a difference; None where that is not to be told."""
        if self.amount is not None or self.before is None or self.after is None:
            return self.amount
        if isinstance(self.before, Mass) and isinstance(self.after, Mass):
            return Mass(self.before.grams - self.after.grams)
        if isinstance(self.before, Length) and isinstance(self.after, Length):
            return Length(self.before.metres - self.after.metres, "m")
        return None


@dataclass(frozen=True, slots=True)
class Remark:
    """What was said of a row. `stitches` are the first and last, None for all of the row. `index`: place in the log."""

    row: int
    kind: RemarkKind
    said: str
    index: int
    piece: str | None = None
    side: str | None = None
    stitches: tuple[int, int] | None = None
    answered: str = ""
    region: Region = NOWHERE  # in the log

    @property
    def open(self) -> bool:
        """Whether it wants an answer and has none."""
        return self.kind is not RemarkKind.PRAISE and not self.answered


@dataclass(frozen=True, slots=True)
class AcceptedInLog:
    """An accepted result; `index` is its place in the file."""

    rule: str
    justification: str
    index: int


@dataclass(frozen=True, slots=True, eq=False)
class KnitLog:
    """`names` is the path of what was knitted, as written, and `of` whether that is a pattern or a chart.

    `finished` is a day, `2026-11-05`; "" while it is being knitted. `site`: whether the site may show it.
    """

    path: str
    names: str = ""
    of: Kind = Kind.PATTERN
    size: str | None = None
    fingerprint: str = ""
    knitter: str = ""
    gauge: MeasuredGauge | None = None
    used: Mapping[str, Used] = field(default_factory=dict)
    hours: float | None = None
    finished: str = ""
    rows: tuple[Remark, ...] = ()
    remarks: str = ""
    site: bool = True
    suppressions: tuple[AcceptedInLog, ...] = ()
    places: Places = field(default_factory=Places)
