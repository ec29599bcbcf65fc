"""The supply plan: which yarn works which stitches, in what order, and how much of it. Frozen values."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from lintarsia.chart import Bounds, Side, Technique, Worked


@dataclass(frozen=True, slots=True)
class Run:
    """Neighbouring stitches of one colour in a row (no-stitch cells between do not break it).

    `left` and `right` are columns from 0 at the left, inclusive; `stitches` leaves no-stitch cells out.
    """

    row: int
    left: int
    right: int
    colour: str
    stitches: int


@dataclass(frozen=True, slots=True)
class Link:
    """How a supply goes on from one run to its next. `same_row` makes it a float inside the row, else a carry.

    `carried` in stitches (columns between rows), `idle` rows waited in between.
    """

    carried: int
    idle: int
    same_row: bool


@dataclass(frozen=True, slots=True)
class Supply:
    """One continuous yarn. `runs` index `Plan.runs` in working order; `links[k]` leads from runs[k] to runs[k+1]."""

    id: str
    colour: str
    runs: tuple[int, ...]
    links: tuple[Link, ...]
    first_row: int
    last_row: int
    stitches: int
    carried: int
    idle: int
    metres: float  # unrounded, tails included, allowance not
    holder: str


@dataclass(frozen=True, slots=True)
class RowPlan:
    """A row as the knitter meets it. `line_up`: ids in the order the row uses them; `waiting`: ids that hang and rest."""

    row: int
    side: Side
    direction: str  # "right-to-left" or "left-to-right"
    line_up: tuple[str, ...]
    joins: tuple[str, ...]
    finishes: tuple[str, ...]
    waiting: tuple[str, ...]
    interlocks: int
    crossings: int
    needs: int
    runs: tuple[int, ...]  # indices into Plan.runs in working order
    by: tuple[str, ...]  # the supply that works each of `runs`


@dataclass(frozen=True, slots=True)
class End:
    """One of the two ends of a supply: where it hangs and where it can be hidden.

    `stitch` is the knitter's number of the stitch beside which the end hangs; `along` names the neighbouring colour's
    symbol along whose boundary it can be woven, "" where there is none (an edge of the piece); `room_mm` is how much
    boundary there is, `closes_gap` whether weaving it closes the gap at the start or finish of a block.
    """

    supply: str
    kind: str  # "join" or "finish"
    row: int
    stitch: int
    along: str
    room_mm: float
    closes_gap: bool


@dataclass(frozen=True, slots=True)
class Totals:
    supplies: int
    ends: int
    carried: int
    idle: int
    stitches: int
    metres: float
    most_in_a_row: int


@dataclass(frozen=True, slots=True)
class ColourTotals:
    supplies: int
    stitches: int
    metres: float
    grams: float | None = None
    balls: float | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """The optimal plan of one chart, in the order of FORMAT: fewest supplies, carried stitches, idle rows."""

    chart: str
    worked: Worked
    technique: Technique
    bounds: Bounds
    runs: tuple[Run, ...]
    supplies: tuple[Supply, ...]
    rows: tuple[RowPlan, ...]
    ends: tuple[End, ...]
    totals: Totals
    colours: Mapping[str, ColourTotals] = field(default_factory=dict)
