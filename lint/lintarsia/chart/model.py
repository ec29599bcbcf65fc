"""A chart as its file states it: frozen, checked, in the trade's terms. Rows and stitches are the knitter's numbers."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from lintarsia.chart.grid import Grid
from lintarsia.chart.measure import Length, Mass, StitchCount
from lintarsia.chart.places import Places
from lintarsia.chart.shaping import Decreases, Divide, Shaping
from lintarsia.ground.regions import Region
from lintarsia.ground.values import dataclass


class Worked(StrEnum):
    FLAT = "flat"
    ROUND = "round"
    TURNED = "turned"  # a tube worked back and forth and joined at each turn


class Technique(StrEnum):
    INTARSIA = "intarsia"
    STRANDED = "stranded"
    MIXED = "mixed"


class Side(StrEnum):
    RS = "RS"
    WS = "WS"

    @property
    def other(self) -> "Side":
        return Side.WS if self is Side.RS else Side.RS

    @property
    def words(self) -> str:
        return "right side" if self is Side.RS else "wrong side"


class Wearer(StrEnum):
    INFANT = "infant"
    CHILD = "child"
    ADULT = "adult"


class Symmetry(StrEnum):
    LEFT_RIGHT = "left-right"
    TOP_BOTTOM = "top-bottom"
    HALF_TURN = "half-turn"
    REPEAT = "repeat"  # the same again one repeat box further


# House values: finer than any knitting by hand or machine, and coarser than knitting on one's arms.
NARROWEST_MM, WIDEST_MM = 0.3, 150.0


@dataclass(frozen=True, slots=True)
class FloatGauge:
    """Stitches and rows of the stranded fabric, over the same length as the gauge."""

    stitches: float
    rows: float


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows `over` a length, and what the fabric is worked with; `loop` is the measured yarn a stitch."""

    stitches: float
    rows: float
    over: Length
    needle: Length | None = None
    loop: Length | None = None
    float_gauge: FloatGauge | None = None

    @property
    def stitch_mm(self) -> float:
        """Width of one stitch, mm."""
        return self.over.mm / self.stitches

    @property
    def row_mm(self) -> float:
        """Height of one row, mm."""
        return self.over.mm / self.rows

    @property
    def possible(self) -> bool:
        """Whether stitches and rows have a size that something knitted can have at all."""
        return all(NARROWEST_MM <= size <= WIDEST_MM for size in (self.stitch_mm, self.row_mm))

    @property
    def float_stitch_mm(self) -> float:
        """Width of one stitch of the stranded fabric, mm; the plain one where none is given."""
        return self.over.mm / self.float_gauge.stitches if self.float_gauge else self.stitch_mm


@dataclass(frozen=True, slots=True)
class Yarn:
    """A yarn to buy: one ball is `length` long and weighs `mass`; `weight` is the standard number 0 to 7."""

    id: str
    name: str = ""
    weight: int | None = None
    length: Length | None = None
    mass: Mass | None = None
    balls: float | None = None
    fibre: str = ""


@dataclass(frozen=True, slots=True)
class Colour:
    """One entry of the key: its symbol in the grid, its name, its shade and the yarn it is bought as.

    `also` are other names that the pattern's words give it, such as MC.
    """

    symbol: str
    name: str
    shade: str  # "#rrggbb", lower case
    yarn: str | None = None
    shade_assumed: bool = False  # the file's own is faulty or missing, and this grey stands in for it
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StatedSupply:
    """One supply as the file states it: what it is wound on and how long it is, where said."""

    holder: str | None = None
    length: Length | None = None


@dataclass(frozen=True, slots=True)
class StatedSupplies:
    """How many separate yarns the file gives a colour; `each` is filled where the file lists them one by one."""

    count: int
    each: tuple[StatedSupply, ...] = ()


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits as stated by a chart or by the settings; None where unsaid."""

    supplies: int | None = None
    float: Length | StitchCount | None = None
    carry: int | None = None
    idle: int | None = None
    strand: int | None = None


@dataclass(frozen=True, slots=True)
class Bounds:
    """Limits resolved for one chart. `strand`, `carry`, `idle`: None means no bound.

    `float_mm` is the longest float as a length and `float_stitches` the most whole stitches it may cross.
    """

    supplies: int
    float_mm: float
    float_stitches: int
    strand: int | None
    carry: int | None
    idle: int | None


HOUSE_LIMITS = Limits(supplies=8, float=Length(2.5, "cm"), carry=3, idle=2)

Holders = tuple[tuple[float, str], ...]
HOUSE_HOLDERS: Holders = ((3.0, "loose strand"), (10.0, "butterfly"), (20.0, "bobbin"), (float("inf"), "ball"))
"""Up to how many metres each holder serves. No capacity is published anywhere; these are house values."""


@dataclass(frozen=True, slots=True)
class Repeat:
    """The repeat box, inclusive, in knitter's numbering."""

    stitches: tuple[int, int]
    rows: tuple[int, int]


@dataclass(frozen=True, slots=True)
class DuplicateStitch:
    """Stitches `stitches` of a row, both included, embroidered over in `colour` afterwards."""

    colour: str
    row: int
    stitches: tuple[int, int]


@dataclass(frozen=True, slots=True)
class WrittenEntry:
    """Words that stand once in the file for all of `rows`, ascending; `said` is how it names them.

    `region` is their place where they are a line of a printed page; else they are a value under the key `said`.
    `names_all`: every row of a side (`2 and all WS`), which gives way to words of a row's own.
    """

    said: str
    rows: tuple[int, ...]
    words: str
    region: Region | None = None
    names_all: bool = False


@dataclass(frozen=True, slots=True)
class Suppression:
    """An accepted result. `row` and `stitches` narrow it; without them the rule is accepted anywhere in the chart."""

    rule: str
    justification: str
    row: int | None = None
    stitches: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Chart:
    """A whole chart: what is knitted, of what, how, and where each statement stands in the file."""

    path: str
    title: str
    gauge: Gauge
    colours: Mapping[str, Colour]
    grid: Grid
    worked: Worked = Worked.FLAT
    first_row: Side = Side.RS
    technique: Technique = Technique.INTARSIA
    yarns: Mapping[str, Yarn] = field(default_factory=dict)
    supplies: Mapping[str, StatedSupplies] | None = None  # None: the file has no such section
    limits: Limits = Limits()
    repeat: Repeat | None = None
    shaping: Mapping[int, Shaping] = field(default_factory=dict)
    divide: Mapping[int, Divide] = field(default_factory=dict)
    decreases: Decreases | None = None
    caught: Length | StitchCount | None = None  # floats and carries longer than this are caught on the way
    wearer: Wearer | None = None
    symmetry: tuple[Symmetry, ...] = ()
    duplicate: tuple[DuplicateStitch, ...] = ()
    written: Mapping[int, str] = field(default_factory=dict)
    written_entries: tuple[WrittenEntry, ...] = ()  # how the file has them; where it is empty each row stands alone
    suppressions: tuple[Suppression, ...] = ()
    places: Places = Places()
    assumed: frozenset[str] = (
        frozenset()
    )  # "title", "gauge", "colours", "symbols" (one of the grid is not in the key): faulty, and stood in for

    def side(self, row: int) -> Side:
        """Which side of the fabric faces the knitter in a row; rounds always show the right side."""
        if self.worked is Worked.ROUND:
            return Side.RS
        return self.first_row if row % 2 else self.first_row.other

    def leftward(self, row: int) -> bool:
        """Whether the row is worked from right to left on the chart."""
        return self.side(row) is Side.RS

    @property
    def leftwards(self) -> list[bool]:
        """`leftward` of every row, bottom-up: the entry at index 0 is row 1's."""
        rows = self.grid.height
        return ([self.leftward(1), self.leftward(2)] * (rows // 2 + 1))[:rows]  # rows alternate, or are all alike

    @property
    def tube(self) -> bool:
        """Whether the first and the last stitch of a row are neighbours."""
        return self.worked is not Worked.FLAT

    def row_name(self, row: int) -> str:
        """`row 14 (WS)`, or `round 14`."""
        return f"round {row}" if self.worked is Worked.ROUND else f"row {row} ({self.side(row)})"

    def bounds(self, house: Limits = HOUSE_LIMITS) -> Bounds:
        """The limits that hold for this chart: its own, then the house's, then the technique's."""
        own = self.limits
        reach = own.float or house.float or HOUSE_LIMITS.float
        width = self.gauge.float_stitch_mm
        if isinstance(reach, StitchCount):
            float_stitches, float_mm = reach.count, reach.count * width
        else:
            assert reach is not None
            float_mm = reach.mm
            float_stitches = int(float_mm / width + 1e-9)
        supplies = _first(own.supplies, house.supplies, HOUSE_LIMITS.supplies)
        assert supplies is not None
        if self.technique is Technique.STRANDED:  # a house limit does not bind what FORMAT leaves unbound
            return Bounds(supplies, float_mm, float_stitches, own.strand, own.carry, own.idle)
        usual = 0 if self.technique is Technique.INTARSIA else float_stitches
        return Bounds(
            supplies,
            float_mm,
            float_stitches,
            _first(own.strand, house.strand, usual),
            _first(own.carry, house.carry, HOUSE_LIMITS.carry),
            _first(own.idle, house.idle, HOUSE_LIMITS.idle),
        )


def _first(*values: int | None) -> int | None:
    for value in values:
        if value is not None:
            return value
    return None
