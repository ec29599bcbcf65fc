"""A chart as its file states it: frozen, checked, in the trade's terms. Rows and stitches are the knitter's numbers."""

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from lintarsia.chart.gauge import Gauge
from lintarsia.chart.grid import Grid
from lintarsia.chart.limits import HOUSE_LIMITS, Bounds, Limits, resolved
from lintarsia.chart.measure import Length, Mass, StitchCount
from lintarsia.chart.places import Places
from lintarsia.chart.shaping import Decreases, Divide, Shaping
from lintarsia.chart.ways import Begins, Ends, Side, Symmetry, Technique, Wearer, Worked
from lintarsia.ground.notebooks import shown_in_notebook
from lintarsia.ground.regions import Region
from lintarsia.ground.values import dataclass

if TYPE_CHECKING:
    from lintarsia.chart.texture import Texture


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
        return shown_in_notebook(self)

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
        return resolved(self.limits, house, self.gauge, self.technique, self.wearer)
