"""A pattern as its file states it: frozen, with every value spread over the sizes."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from lintarsia.chart import Colour, Ends, Places, Shaping, Wearer, Worked
from lintarsia.chart.measure import Length, Mass
from lintarsia.chart.shaping import Order, Parting
from lintarsia.ground.values import dataclass
from lintarsia.pattern.measurement import Measurement

ONE_SIZE = "one size"


class SeamEdge(StrEnum):
    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BOTTOM = "bottom"

    @property
    def upright(self) -> bool:
        """Whether it runs along the rows' ends rather than along a row."""
        return self in (SeamEdge.LEFT, SeamEdge.RIGHT)


@dataclass(frozen=True, slots=True)
class BoughtYarn:
    """`balls` by size; sizes for which nothing is said are left out."""

    id: str
    name: str = ""
    length: Length | None = None
    mass: Mass | None = None
    balls: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Parted:
    """Where a piece is parted by its own shaping. `stitches` are bound off or held between the sides, in the middle or
    after stitch `at` of the piece, counted from the right; `to` is the last row in two sides, None: the top."""

    row: int
    by: Parting
    sides: Order = Order.TOGETHER
    stitches: int = 0
    at: int | None = None
    to: int | None = None


@dataclass(frozen=True, slots=True)
class Piece:
    """All mappings are by size, and hold only the sizes for which something is said. `charts` are paths as written.

    `measures` is by what is measured (width, height, around), then by size. `at_stitch` and `at_row` say which stitch
    and row of the piece the chart's first are.

    A piece in one `colour` has no chart: its cast-on and rows are all there is to it, in `stitch` (words such as k2, p2
    rib) and `worked` as it says. `shaping` is the piece's own, in place of its chart's, and `divide` its openings.
    `clearance` is how near to an edge its motif may come. `continues` names the piece whose live stitches it is worked
    on from; `ends` is what becomes of its own last ones.
    """

    name: str
    charts: Mapping[str, str]
    times: Mapping[str, int] = field(default_factory=dict)
    cast_on: Mapping[str, int] = field(default_factory=dict)
    rows: Mapping[str, int] = field(default_factory=dict)
    repeats: Mapping[str, int] = field(default_factory=dict)
    row_repeats: Mapping[str, int] = field(default_factory=dict)
    edge: Mapping[str, int] = field(default_factory=dict)
    plain: str | None = None
    at_stitch: Mapping[str, int] = field(default_factory=dict)
    at_row: Mapping[str, int] = field(default_factory=dict)
    measures: Mapping[str, Mapping[str, Measurement]] = field(default_factory=dict)
    mirror_of: str | None = None
    colour: str | None = None
    stitch: str = ""
    worked: Worked | None = None
    shaping: Mapping[str, Mapping[int, Shaping]] = field(default_factory=dict)
    divide: Mapping[str, Mapping[int, Parted]] = field(default_factory=dict)
    clearance: Length | None = None
    continues: str | None = None
    picked_up: bool = False
    ends: Ends = Ends.BOUND_OFF

    @property
    def by_size(self) -> Mapping[tuple[str, ...], Mapping[str, object]]:
        """Everything that may differ by size, by its keys in the file below the piece."""
        return {
            ("chart",): self.charts,
            ("times",): self.times,
            ("cast-on",): self.cast_on,
            ("rows",): self.rows,
            ("repeats",): self.repeats,
            ("row-repeats",): self.row_repeats,
            ("edge",): self.edge,
            ("shaping",): self.shaping,
            ("divide",): self.divide,
            ("at", "stitch"): self.at_stitch,
            ("at", "row"): self.at_row,
        } | {("measures", what): said for what, said in self.measures.items()}

    def knitted(self, size: str) -> int:
        """How often the piece is knitted in a size."""
        return self.times.get(size, 1)


@dataclass(frozen=True, slots=True)
class PieceEdge:
    piece: str
    edge: SeamEdge

    def __str__(self) -> str:
        return f"{self.piece} {self.edge}"


@dataclass(frozen=True, slots=True)
class Seam:
    """Two edges sewn together, along `rows` of both (inclusive) or all of them. `index` is its place in the file."""

    first: PieceEdge
    second: PieceEdge
    rows: tuple[int, int] | None
    index: int
    match: bool = False  # whether the colours of the two edges are to meet
    times: int = 1  # how often it is sewn
    yarn: str | None = None  # None: that of which its pieces have most


@dataclass(frozen=True, slots=True)
class AcceptedInPattern:
    """An accepted result; `piece` and `size` narrow it. `index` is its place in the file."""

    rule: str
    justification: str
    piece: str | None
    size: str | None
    index: int


@dataclass(frozen=True, slots=True, eq=False)
class Pattern:
    path: str
    title: str
    version: str
    sizes: tuple[str, ...]
    pieces: Mapping[str, Piece]
    yarns: Mapping[str, BoughtYarn] = field(default_factory=dict)
    colours: Mapping[str, Colour] = field(default_factory=dict)  # of plain pieces, where no chart has them
    seams: tuple[Seam, ...] = ()
    wearer: Wearer | None = None
    tolerance: Length | None = None
    allowance: float | None = None
    until: str = ""  # the day by which logs of test knits are wanted
    summary: str = ""  # in a sentence or two
    notes: tuple[str, ...] = ()  # paragraphs
    swatch: Length | None = None  # the side of the square; None: the allowance is for the swatch too
    notions: Mapping[str, Mapping[str, str]] = field(default_factory=dict)  # by name, then by size
    tools: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    suppressions: tuple[AcceptedInPattern, ...] = ()
    places: Places = field(default_factory=Places)

    def continued(self, piece: str) -> bool:
        """Whether another piece is worked on from the live stitches of this one."""
        return any(other.continues == piece for other in self.pieces.values())

    @property
    def sized(self) -> bool:
        """Whether the file names its sizes."""
        return self.sizes != (ONE_SIZE,)

    def about(self, piece: str, size: str) -> str:
        """`front, small`; the piece alone where there is one size."""
        return f"{piece}, {size}" if self.sized else piece
