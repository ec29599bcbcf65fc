"""The supply plan: which yarn works which stitches, in what order, and how much of it. Frozen values.

Those that a photograph has tens of thousands of are tuples, which take half as long to make as other frozen classes.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from lintarsia.chart import Bounds, Side, Technique, Worked
from lintarsia.chart.grid import RowNumber
from lintarsia.ground.notebooks import shown_in_notebook
from lintarsia.ground.values import dataclass
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.planning.edgework import EdgeRun
    from lintarsia.planning.threads import EndTable, Threads


class Run(NamedTuple):
    """Neighbouring stitches of one colour in a row (no-stitch cells between do not break it).

    `left` and `right` are columns from 0 at the left, inclusive; `stitches` leaves no-stitch cells out.
    """

    row: RowNumber
    left: int
    right: int
    colour: str
    stitches: int


class Link(NamedTuple):
    """How a supply goes on from one run to its next. `same_row` makes it a float inside the row, else a carry.

    `carried` in stitches (columns between rows), `idle` rows waited in between.
    """

    carried: int
    idle: int
    same_row: bool


class Supply(NamedTuple):
    """One continuous yarn. `runs` index `Plan.runs` in working order; `links[k]` leads from runs[k] to runs[k+1]."""

    id: str
    colour: str
    runs: tuple[int, ...]
    links: tuple[Link, ...]
    first_row: RowNumber
    last_row: RowNumber
    stitches: int
    carried: int
    idle: int
    metres: float  # unrounded, tails included, allowance not
    holder: str
    wound: bool  # False: it is worked from the ball itself


class PartPlan(NamedTuple):
    """A row's part on one side of an opening, `right` or `left` as the chart shows it; all as in `RowPlan`.

    `held`: ids that hang on the other side while this one is worked to its top, from left to right.
    """

    side: str
    line_up: tuple[str, ...]
    joins: tuple[str, ...]
    finishes: tuple[str, ...]
    waiting: tuple[str, ...]
    held: tuple[str, ...]
    interlocks: int
    crossings: int
    needs: int
    runs: tuple[int, ...]
    by: tuple[str, ...]


class RowPlan(NamedTuple):
    """A row as the knitter meets it.

    `line_up`: ids in the order the row uses them; `waiting`: ids that hang and rest, in the order they hang. `needs`
    counts the supplies that the row works with, `hangs` all that are attached to the work meanwhile.
    """

    row: RowNumber
    side: Side
    direction: str  # "right-to-left" or "left-to-right"
    line_up: tuple[str, ...]
    joins: tuple[str, ...]
    finishes: tuple[str, ...]
    waiting: tuple[str, ...]
    interlocks: int
    crossings: int
    needs: int
    hangs: int
    runs: tuple[int, ...]  # indices into Plan.runs in working order
    by: tuple[str, ...]  # the supply that works each of `runs`
    parts: tuple[PartPlan, ...] = ()  # where the row is parted: its sides, in the row's own direction


class End(NamedTuple):
    """One of the two ends of a supply: where it hangs and where it can be hidden.

    `stitch` is the knitter's number of the stitch beside which the end hangs; `along` names the neighbouring colour's
    symbol along whose boundary it can be woven, "" where there is none (an edge of the piece); `room_mm` is how much
    boundary there is, `closes_gap` whether weaving it closes the gap at the start or finish of a block.
    """

    supply: str
    kind: str  # "join" or "finish"
    row: RowNumber
    stitch: int
    along: str
    room_mm: float
    closes_gap: bool


@dataclass(frozen=True, slots=True)
class Totals:
    """The plan in numbers. `metres` unrounded, tails included, allowance not.

    `continued` counts the links by which a supply stays in its block: inside a row, or to the row above a stitch of it.
    """

    continued: int
    supplies: int
    ends: int
    carried: int
    idle: int
    stitches: int
    metres: float
    most_in_a_row: int
    most_hanging: int


@dataclass(frozen=True, slots=True)
class ColourTotals:
    """One colour's share of the plan; `grams` and `balls` where the yarn's ball is known."""

    supplies: int
    stitches: int
    metres: float
    grams: float | None = None
    balls: float | None = None


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """What one yarn must supply, in all its colours. `yarn` is "" for a colour that names none.

    `duplicate_metres` is what duplicate stitch takes besides the knitting; `metres` has both, without the allowance.
    `grams`, `balls` and `to_buy` (whole balls, allowance included) are None where the file does not say how long a
    ball is, and `to_buy` where a repeat makes the chart a part of something larger: nobody buys for twelve stitches.
    `stated` is how many balls the file gives.
    """

    yarn: str
    name: str
    colours: tuple[str, ...]
    metres: float
    duplicate_metres: float
    allowance_metres: float
    grams: float | None
    balls: float | None
    to_buy: int | None
    stated: float | None

    @property
    def buy_metres(self) -> float:
        """Metres with the allowance."""
        return self.metres + self.allowance_metres


class Plan:
    """The plan of one chart that hands would follow; `cover/cover.py` says which it is.

    A photograph has tens of thousands of runs and a check often wants the totals alone, so each part is made when it is
    first looked at and then kept. Nothing here changes once made.
    """

    def __init__(
        self, chart: str, worked: Worked, technique: Technique, bounds: Bounds, threads: "Threads", parts: object
    ) -> None:
        """`parts` has a method without arguments for each part below, of the same name."""
        self.chart = chart
        self.worked = worked
        self.technique = technique
        self.bounds = bounds
        self.threads = threads  # the same plan as plain arrays
        self._parts = parts

    def __repr__(self) -> str:
        """One line for Python sessions, of what is known without making a part."""
        supplies, runs = (
            count(len(self.threads.first), "supply", "supplies"),
            count(len(self.threads.cover.next), "run"),
        )
        return f"<Plan of {self.chart!r}: {supplies}, {runs}, {count(self.threads.height, 'row')}>"

    def _repr_html_(self) -> str | None:
        """For notebooks: the yarns' paths and what to wind, where lintarsia itself was imported."""
        return shown_in_notebook(self)

    # The parts, each made by the method of its name.
    runs: tuple[Run, ...]
    """Every run, in the order worked."""
    supplies: tuple[Supply, ...]
    """Every supply, in the order joined."""
    rows: tuple[RowPlan, ...]
    """`rows[0]` is row 1."""
    cast_on: "tuple[EdgeRun, ...]"
    """What is cast on before row 1, in that order."""
    bind_off: "tuple[EdgeRun, ...]"
    """What is bound off after the last row, in that order."""
    ends: tuple[End, ...]
    """Two a supply, in the order of `supplies`: where it joins, where it finishes."""
    end_tables: "tuple[EndTable, EndTable]"
    """All joins, then all finishes, as plain lists."""
    totals: Totals
    colours: Mapping[str, ColourTotals]
    """By symbol, in the key's order; colours that no stitch uses are left out."""
    yarns: tuple[YarnNeed, ...]
    """What to buy, in the file's order of yarns, then colours that name no yarn."""

    if not TYPE_CHECKING:  # for the type checker a part that is not named above is no part

        def __getattr__(self, name):
            """A part that is looked at for the first time."""
            if name not in Plan.__annotations__:
                raise AttributeError(f"a plan has no {name!r}")
            made = getattr(self._parts, name)()
            self.__dict__[name] = made
            return made
