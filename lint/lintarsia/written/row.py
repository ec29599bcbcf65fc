"""One written row set against its chart: what the rules of the group `words` look at."""

from lintarsia.chart import Chart
from lintarsia.chart.sides import Sides
from lintarsia.ground.values import dataclass
from lintarsia.result import Region
from lintarsia.written.excerpt import around
from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.order import stint_of, stint_symbols, worked_symbols
from lintarsia.written.spoken import Spoken
from lintarsia.written.working import WorkedOut


@dataclass(frozen=True, slots=True)
class WrittenRow:
    """One written row. `spoken` and `made` are None where `fault` says why the words could not be followed.

    `charted` and `stitches` are the chart's symbols and stitch numbers in working order; `usual` is the stitch that
    plain stocking stitch has in this row. `rows` are all rows that the words stand for; `row` is one of them.
    `name` is what a message calls it, and `half` the side of an opening that the words are for, "" for a whole row.
    `kinds` has `k` or `p` of each stitch where the chart says that (`stitches`), in working order.
    `of_page`: they are a line of a printed page.
    """

    row: int
    name: str
    words: str
    region: Region
    charted: str
    stitches: tuple[int, ...]
    usual: str
    rows: tuple[int, ...] = ()
    half: str = ""
    kinds: str = ""
    of_page: bool = False
    spoken: Spoken | None = None
    made: WorkedOut | None = None
    fault: NotUnderstood | None = None

    @property
    def symbols(self) -> str:
        """The symbols that the words make, in working order."""
        return "".join(self.made.symbols) if self.made else ""

    @property
    def count_is_off(self) -> bool:
        """Whether the count that the words give, or come to where they give none, is not the chart's, or stitches of
        the needle are left over. Where a repeat does not come out even the words come to no count at all.
        """
        if self.spoken is None or self.made is None:
            return False
        if self.spoken.stated is not None and self.spoken.stated != len(self.charted):
            return True
        if self.made.uneven:
            return False
        unstated = self.spoken.stated is None and len(self.symbols) != len(self.charted)
        return unstated or self.works_part_of_needle

    @property
    def taken(self) -> int:
        """How many stitches of the needle the words work."""
        return self.made.taken if self.made else 0

    @property
    def works_part_of_needle(self) -> bool:
        """Whether the words shape the row to its count and yet take more or fewer stitches than hang on the needle."""
        assert self.spoken is not None
        assert self.made is not None
        counted = self.made.shaped and not self.spoken.shaped and not self.made.uneven
        return counted and self.made.left != 0 and len(self.symbols) == len(self.charted)

    @property
    def differs_at(self) -> int | None:
        """The index, in working order, of the first stitch that differs; the shorter length where only that does."""
        words, chart = self.symbols, self.charted
        if words == chart:
            return None
        pairs = enumerate(zip(words, chart, strict=False))
        return next((i for i, (word, square) in pairs if word != square), min(len(words), len(chart)))

    @property
    def worked_otherwise_at(self) -> int | None:
        """The index of the first stitch that is knitted in the words and purled in the chart's `stitches`, or the other
        way round, in a row whose colours agree."""
        if not self.kinds or self.made is None or self.symbols != self.charted:
            return None
        pairs = enumerate(zip(self.made.kinds, self.kinds, strict=False))
        return next((at for at, (said, meant) in pairs if said in ("k", "p") and said != meant), None)

    @property
    def agrees(self) -> bool:
        """Whether the words are the charted row to the last stitch, its count and its way of working included."""
        known = self.made is not None and not self.made.uneven
        return known and self.differs_at is None and not self.count_is_off and self.worked_otherwise_at is None

    @property
    def turned_round(self) -> bool:
        """Whether the words are the charted row, worked from the wrong end."""
        return self.symbols != self.charted and self.symbols == self.charted[::-1]

    def is_another(self, chart: Chart) -> bool:
        """Whether the words say that they are another row, and are that row."""
        rows = () if self.spoken is None else self.spoken.label.rows
        if not rows or self.row in rows or not rows[0] <= chart.grid.height:
            return False
        if not self.half:
            return self.symbols == worked_symbols(chart, rows[0])
        stint = stint_of(Sides(chart), rows[0], self.half)
        return stint is not None and self.symbols == stint_symbols(chart, stint)

    @property
    def both(self) -> str:
        """`chart: k3 A, k6 B, k3 A; words: k3 A, k5 B, k4 A`, cut to what stands around the first difference."""
        at = self.differs_at or 0
        return f"chart: {around(self.charted, at, self.usual)}; words: {around(self.symbols, at, self.usual)}"

    def place(self, start: int, end: int) -> Region:
        """The words from `start` to `end`, where the value is written plainly; the whole value elsewhere."""
        line, column, end_line, end_column = self.region
        quotes = (end_column - column - len(self.words)) / 2
        if line != end_line or quotes not in (0, 1):
            return self.region
        first = column + int(quotes)
        return Region(line, first + start, line, first + max(end, start + 1))
