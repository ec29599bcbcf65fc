"""A pattern and what is computed of it at most once, shared by all rules that look at it."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

from lintarsia.chart import HOUSE_RECKONING, Begins, Chart, Ends, Reckoning, Yarn
from lintarsia.ground.values import dataclass
from lintarsia.pattern.laying import MOST_CELLS, Laid, lay_out
from lintarsia.pattern.model import Pattern, Piece
from lintarsia.pattern.plain import plain_chart
from lintarsia.result import Finding, Level, Region

if TYPE_CHECKING:
    from lintarsia.pattern.held import Held
    from lintarsia.planning.model import Plan


class About(NamedTuple):
    """A finding, and what of the pattern it is about, so that an accepted result can be narrowed to that."""

    finding: Finding
    piece: str | None = None
    sizes: tuple[str, ...] = ()


class SizeFault(NamedTuple):
    """What is wrong in one size of a piece: key, words without piece and size, and where in the file.

    `hint` follows the words in the message and is no part of the fault, which is the same without it. `remedy` is left
    out where it is the rule's own.
    """

    key: str
    words: str
    region: Region
    level: Level | None = None
    hint: str = ""
    remedy: str | None = None


@dataclass(frozen=True, slots=True)
class ChartFile:
    """A chart that a pattern names: `said` as written; `path` beside the pattern; why there is no chart, if so.

    `hint` guesses at what was meant.
    """

    said: str
    path: str
    chart: Chart | None
    key: str = ""
    fault: str = ""
    hint: str = ""


class PatternWork:
    """`charts` are by the path as written, in the file's order. `beside` are charts in the pattern's folder that no
    pattern there names. `reckoning` is the settings'; the pattern's own allowance wins. `held` says what holds for one
    of the charts, where that may be something else; a piece without a chart is held to what holds for the pattern.
    No piece is laid out that has more than `most_stitches`, which the settings say as well. `before` has a chart as it
    was committed last, where it differs from that.
    """

    def __init__(
        self,
        pattern: Pattern,
        charts: Mapping[str, ChartFile],
        beside: tuple[str, ...] = (),
        reckoning: Reckoning = HOUSE_RECKONING,
        held: "Callable[[ChartFile], Held] | None" = None,
        most_stitches: int = MOST_CELLS,
        before: "Callable[[ChartFile], Chart | None] | None" = None,
    ) -> None:
        self.most_stitches = min(most_stitches, MOST_CELLS)
        self.pattern = pattern
        self.charts = charts
        self.beside = beside
        own = pattern.allowance
        self.reckoning = reckoning if own is None else replace(reckoning, allowance=own)
        self.allowance = self.reckoning.allowance
        self._hold = held
        self._before = before
        self._held: dict[str, Held] = {}
        self.kept: dict[int, Any] = {}  # what rules keep for one another, by the id of a chart of this pattern
        self._laid: dict[tuple[str, str], Laid | None] = {}
        self._plain: dict[tuple[str, str], Chart | None] = {}
        self._plans: dict[tuple[str, str], Plan] = {}

    def held(self, piece: Piece, size: str) -> "Held | None":
        """What holds for the chart of a piece; None: what holds for the pattern."""
        said = piece.charts.get(size)
        if said is None or self._hold is None:
            return None
        if said not in self._held:
            self._held[said] = self._hold(self.charts[said])
        return self._held[said]

    def committed(self, said: str) -> Chart | None:
        """A chart that the pattern names as it was committed last; None where it is as it was, or none was."""
        return None if self._before is None else self._before(self.charts[said])

    def reckoning_of(self, piece: Piece, size: str) -> Reckoning:
        """How a piece is reckoned: as its chart is, with the allowance of the pattern."""
        held = self.held(piece, size)
        return self.reckoning if held is None else replace(held.reckoning, allowance=self.allowance)

    def chart(self, piece: Piece, size: str) -> Chart | None:
        """The chart of a piece in a size, where it is named and can be read; one colour where it has none."""
        said = piece.charts.get(size)
        if said is not None:
            return self.charts[said].chart
        return None if piece.colour is None else self._plain_chart(piece, size)

    def key_of(self, colour: str) -> Chart | None:
        """The first chart of the pattern that has a symbol in its key, for pieces without a chart of their own; or its
        first chart at all, with the pattern's own colour of that symbol in its key."""
        charts = [file.chart for file in self.charts.values() if file.chart is not None]
        found = next((chart for chart in charts if colour in chart.colours), None)
        own = self.pattern.colours.get(colour)
        if found is not None or own is None or not charts:
            return found
        bought = self.pattern.yarns.get(own.yarn or "")
        more = {} if bought is None else {bought.id: Yarn(bought.id, bought.name, None, bought.length, bought.mass)}
        return replace(charts[0], colours={**charts[0].colours, colour: own}, yarns={**more, **charts[0].yarns})

    def _plain_chart(self, piece: Piece, size: str) -> Chart | None:
        key = (piece.name, size)
        if key not in self._plain:
            base = self.key_of(piece.colour or "")
            self._plain[key] = (
                None
                if base is None
                else plain_chart(base, piece, size, self.pattern.path, self.reckoning.rib, self.most_stitches)
            )
        return self._plain[key]

    def laid(self, piece: Piece, size: str) -> Laid | None:
        """The piece in full, where its chart can be read and the piece is knitted in this size."""
        key = (piece.name, size)
        if key not in self._laid:
            self._laid[key] = self.laid_as(piece, size)
        return self._laid[key]

    def laid_as(self, piece: Piece, size: str) -> Laid | None:
        """As `laid`, of a piece that is not the pattern's own: nothing of it is kept."""
        chart = self.chart(piece, size)
        return self._lay_out(chart, piece, size) if chart is not None and piece.knitted(size) else None

    def _lay_out(self, chart: Chart, piece: Piece, size: str) -> Laid | None:
        """Mirrored where it mirrors a piece that is knitted from the same file."""
        pattern = self.pattern
        other = pattern.pieces.get(piece.mirror_of or "")
        mirrored = other is not None and other is not piece and other.charts.get(size) == piece.charts.get(size)
        title = f"{pattern.title}: {pattern.about(piece.name, size)}"
        whole = replace(chart, begins=_begins(piece, chart), ends=self._ends(piece, chart))
        most = self.most_stitches
        return lay_out(whole, piece, size, mirrored=mirrored, title=title, wearer=pattern.wearer, most=most)

    def _ends(self, piece: Piece, chart: Chart) -> Ends:
        if self.pattern.continued(piece.name):
            return Ends.LIVE
        return chart.ends if piece.ends is Ends.BOUND_OFF else piece.ends

    @property
    def too_large(self) -> str:
        """Why a piece is not laid out that is too large, in words that follow its name."""
        if self.most_stitches < MOST_CELLS:
            return f"it comes to more than {self.most_stitches:,} stitches, the max-stitches of the settings"
        return "it is larger than anybody knits"

    def plan(self, piece: Piece, size: str) -> "Plan":
        """The supplies of a piece laid out in full. Raises ValueError where it cannot be laid out."""
        laid = self.laid(piece, size)
        if laid is None:
            raise ValueError(f"{piece.name} cannot be laid out in {size}")
        key = (piece.name, size)
        if key not in self._plans:
            from lintarsia.planning.planner import make_plan

            self._plans[key] = make_plan(laid.chart, self.reckoning_of(piece, size))
        return self._plans[key]

    def plan_as_drawn(self, piece: Piece, size: str) -> "Plan":
        """The supplies of a piece's chart by itself, the same in all sizes that have it. Raises as `plan`."""
        laid = self.laid(piece, size)
        if laid is None:
            raise ValueError(f"{piece.name} cannot be laid out in {size}")
        key = ("", piece.charts.get(size, piece.name))  # no piece is called ""
        if key not in self._plans:
            from lintarsia.planning.planner import make_plan

            self._plans[key] = make_plan(laid.source, self.reckoning_of(piece, size))
        return self._plans[key]

    def place(self, *path: str | int) -> Region:
        """Where a value stands in the pattern file; the nearest above it where it has none of its own."""
        return self.pattern.places.value(*path)

    def each(self, judge: Callable[[Piece, str], Iterable[SizeFault]]) -> Iterator[About]:
        """What `judge` says of every piece and size, like words of several sizes said once."""
        for piece in self.pattern.pieces.values():
            found: dict[SizeFault, list[str]] = {}
            for size in self.pattern.sizes:
                if piece.knitted(size):
                    for said in judge(piece, size):
                        found.setdefault(said, []).append(size)
            for said, sizes in found.items():
                yield self.about(said, piece.name, sizes)

    def about(self, said: SizeFault, piece: str, sizes: Iterable[str]) -> About:
        """The finding for what is said of a piece in some sizes."""
        own = tuple(sizes)
        which = "" if not self.pattern.sized or own == self.pattern.sizes else f", {', '.join(own)}"
        message = f"{piece}{which}: {said.words}{said.hint}"
        pattern = f"{piece}{which} {said.words}"
        finding = Finding(said.key, message, said.region, level=said.level, remedy=said.remedy, pattern=pattern)
        return About(finding, piece, own)


def _begins(piece: Piece, chart: Chart) -> Begins:
    if piece.continues is not None:
        return Begins.ON_NEEDLE
    return Begins.PICKED_UP if piece.picked_up else chart.begins
