"""A chart as its file states it: frozen, checked, in the trade's terms. Rows and stitches are the knitter's numbers."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from typing import TYPE_CHECKING, TypeVar

from lintarsia.chart.grid import Grid
from lintarsia.chart.measure import Length, Mass, StitchCount
from lintarsia.chart.places import Places
from lintarsia.chart.shaping import Decreases, Divide, Shaping
from lintarsia.ground.notebooks import shown
from lintarsia.ground.regions import Region
from lintarsia.ground.values import dataclass

if TYPE_CHECKING:
    from lintarsia.chart.texture import Texture

T = TypeVar("T")


class Worked(StrEnum):
    FLAT = "flat"
    ROUND = "round"
    TURNED = "turned"  # a tube worked back and forth and joined at each turn


class Begins(StrEnum):
    """Where the stitches of row 1 come from."""

    CAST_ON = "cast-on"
    PICKED_UP = "picked-up"  # along an edge that is there already
    ON_NEEDLE = "on-needle"  # live stitches of another piece


class Ends(StrEnum):
    """What becomes of the stitches of the last row."""

    BOUND_OFF = "bound-off"
    LIVE = "live"  # they stay on the needle or are grafted
    DRAWN_IN = "drawn-in"  # the yarn is cut and drawn through them


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
    """Stitches and rows `over` a length, and what the fabric is worked with; `loop` is the measured yarn a stitch.

    `share` is the yarn of a stitch as so many times that: of a rib, which is not what the gauge was measured on.
    """

    stitches: float
    rows: float
    over: Length
    needle: Length | None = None
    loop: Length | None = None
    float_gauge: FloatGauge | None = None
    share: float = 1.0

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
    """Limits as stated by a chart or by the settings; None where unsaid. `float`, `carry` as numbers are stitches."""

    supplies: int | None = None
    float: Length | StitchCount | int | None = None
    carry: Length | StitchCount | int | None = None
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


HOUSE_SUPPLIES, HOUSE_FLOAT, HOUSE_IDLE = 8, Length(2.5, "cm"), 2
HOUSE_LIMITS = Limits(supplies=HOUSE_SUPPLIES, float=HOUSE_FLOAT, idle=HOUSE_IDLE)  # carried as far as a float may be
INFANT_CARRY, INFANT_IDLE = 1, 0  # a stitch aside and no wait leave nothing that a finger goes through: house values

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
    `names_all`: every row of a side (`2 and all WS`), which gives way to words of a row's own. `half` is the side of an
    opening that they are for, "right" or "left" as the chart shows it; "" for whole rows.
    """

    said: str
    rows: tuple[int, ...]
    words: str
    region: Region | None = None
    names_all: bool = False
    half: str = ""


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
    of: int | None = None  # stitches of the whole round that the chart is a panel of
    decreases: Decreases | None = None
    texture: "Texture | None" = None  # purl and garter stitches; None: stocking stitch throughout
    begins: Begins = Begins.CAST_ON
    ends: Ends = Ends.BOUND_OFF
    caught: Length | StitchCount | None = None  # floats and carries longer than this are caught on the way
    wearer: Wearer | None = None
    symmetry: tuple[Symmetry, ...] = ()
    duplicate: tuple[DuplicateStitch, ...] = ()
    written: Mapping[int, str] = field(default_factory=dict)  # of whole rows
    written_sides: Mapping[tuple[int, str], str] = field(default_factory=dict)  # of sides of an opening: row, half
    written_entries: tuple[WrittenEntry, ...] = ()  # how the file has them; where it is empty each row stands alone
    suppressions: tuple[Suppression, ...] = ()
    places: Places = Places()
    assumed: frozenset[str] = (
        frozenset()
    )  # "title", "gauge", "colours", "symbols" (one of the grid is not in the key): faulty, and stood in for

    def __repr__(self) -> str:
        """One line for Python sessions; the whole of a chart is pages."""
        size = f"{self.grid.width} stitches × {self.grid.height} rows"
        return f"<Chart {self.path!r}: {self.title!r}, {size}, {len(self.colours)} colours>"

    def _repr_svg_(self) -> str | None:
        """For notebooks: the chart, where lintarsia itself was imported."""
        return shown(self)

    @property
    def in_words(self) -> bool:
        """Whether the file has written rows."""
        return bool(self.written or self.written_sides)

    @property
    def caught_stitches(self) -> int | None:
        """How many stitches a float or carry passes before it is caught, by the file; None where it is not."""
        if self.caught is None or isinstance(self.caught, StitchCount):
            return self.caught.count if self.caught else None
        return int(self.caught.mm / self.gauge.float_stitch_mm + 1e-9)

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
    def garter_purls(self) -> list[bool]:
        """Of every row, bottom-up, whether garter stitch shows its purls there: where it is knitted from the wrong
        side, and in every second round, which is purled."""
        if self.worked is Worked.ROUND:
            return [row % 2 == 0 for row in range(1, self.grid.height + 1)]
        return [not leftward for leftward in self.leftwards]

    @property
    def tube(self) -> bool:
        """Whether the first and the last stitch of a row are neighbours; those of a panel are not."""
        return self.worked is not Worked.FLAT and not self.panel

    @property
    def panel(self) -> bool:
        """Whether the chart is a part of a round only."""
        return self.worked is not Worked.FLAT and self.of is not None and self.of > self.grid.width

    def row_name(self, row: int) -> str:
        """`row 14 (WS)`, or `round 14`."""
        return f"round {row}" if self.worked is Worked.ROUND else f"row {row} ({self.side(row)})"

    def bounds(self, house: Limits = HOUSE_LIMITS) -> Bounds:
        """The limits that hold for this chart: its own, then the house's, then the technique's."""
        own, width = self.limits, self.gauge.float_stitch_mm
        house_reach = HOUSE_FLOAT if house.float is None else house.float
        reach = house_reach if own.float is None else own.float
        float_stitches = _in_stitches(reach, width)
        float_mm = reach.mm if isinstance(reach, Length) else float_stitches * width
        supplies = _said(own.supplies, _said(house.supplies, HOUSE_SUPPLIES))
        # A carry runs behind the fabric that is knitted: of a stranded chart, the stranded one.
        across = width if self.technique is Technique.STRANDED else self.gauge.stitch_mm
        own_carry, house_carry = (None if c is None else _in_stitches(c, across) for c in (own.carry, house.carry))
        if self.technique is Technique.STRANDED:  # no limit of the house binds a yarn that runs along the whole row
            return Bounds(supplies, float_mm, float_stitches, own.strand, own_carry, own.idle)
        carry, idle = _said(house_carry, float_stitches), _said(house.idle, HOUSE_IDLE)
        if self.wearer is Wearer.INFANT:
            carry, idle = min(carry, INFANT_CARRY), INFANT_IDLE
        usual = 0 if self.technique is Technique.INTARSIA else float_stitches
        strand = _said(own.strand, _said(house.strand, usual))
        return Bounds(supplies, float_mm, float_stitches, strand, _said(own_carry, carry), _said(own.idle, idle))


def _in_stitches(reach: Length | StitchCount | int, width: float) -> int:
    """The most whole stitches of `width` mm that a reach goes across."""
    if isinstance(reach, Length):
        return int(reach.mm / width + 1e-9)
    return reach.count if isinstance(reach, StitchCount) else reach


def _said(value: T | None, otherwise: T) -> T:
    return otherwise if value is None else value
