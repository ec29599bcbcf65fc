"""A chart's `written:` rows, read and set against its grid: what the rules of the group `words` look at."""

from collections.abc import Mapping
from dataclasses import replace

from lintarsia.chart import Chart, WrittenEntry
from lintarsia.chart.sides import Sides
from lintarsia.ground.values import dataclass
from lintarsia.result import Region
from lintarsia.written.colours import Colours
from lintarsia.written.excerpt import around
from lintarsia.written.lexer import Unreadable
from lintarsia.written.order import usual_stitch, worked_stitches, worked_symbols
from lintarsia.written.parser import parse_row
from lintarsia.written.shapingwords import with_stitch_left
from lintarsia.written.spoken import Again, Item, Spoken, Work
from lintarsia.written.working import Shown, Worked, work_out


@dataclass(frozen=True, slots=True)
class WrittenRow:
    """One written row. `spoken` and `made` are None where `fault` says why the words could not be followed.

    `charted` and `stitches` are the chart's symbols and stitch numbers in working order; `usual` is the stitch that
    plain stocking stitch has in this row. `rows` are all rows that the words stand for; `row` is one of them.
    `of_page`: they are a line of a printed page.
    """

    row: int
    words: str
    region: Region
    charted: str
    stitches: tuple[int, ...]
    usual: str
    rows: tuple[int, ...] = ()
    of_page: bool = False
    spoken: Spoken | None = None
    made: Worked | None = None
    fault: Unreadable | None = None

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
    def turned_round(self) -> bool:
        """Whether the words are the charted row, worked from the wrong end."""
        return self.symbols != self.charted and self.symbols == self.charted[::-1]

    def is_another(self, chart: Chart) -> bool:
        """Whether the words say that they are another row, and are that row."""
        rows = () if self.spoken is None else self.spoken.label.rows
        if not rows or self.row in rows or not rows[0] <= chart.grid.height:
            return False
        return self.symbols == worked_symbols(chart, rows[0])

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


def read_written(chart: Chart) -> tuple[WrittenRow, ...]:
    """Every written row that the chart has, ascending, each read and worked out as far as it can be."""
    if not chart.written:
        return ()
    known = {row: words for row, words in sorted(chart.written.items()) if row <= chart.grid.height}
    reader = _Reader(chart, known)
    return tuple(reader.row(row) for row in known)


def colours_of(chart: Chart) -> Colours:
    """What the words of a chart's rows may call its colours."""
    names = {symbol: colour.name for symbol, colour in chart.colours.items()}
    return Colours(chart.grid.symbols, names, {symbol: colour.also for symbol, colour in chart.colours.items()})


class _Reader:
    """Reads the rows of one chart. Words that stand for several rows are parsed once."""

    def __init__(self, chart: Chart, known: Mapping[int, str]) -> None:
        self.chart, self.known = chart, known
        self.colours = colours_of(chart)
        self.entries = {row: entry for entry in _entries(chart) for row in entry.rows}
        self._parsed: dict[tuple[str, int], Spoken | Unreadable] = {}
        self.size = self._size()

    def said(self, row: int, size: int | None = None) -> Spoken | Unreadable:
        words, size = self.known[row], self.size if size is None else size
        if (words, size) not in self._parsed:
            try:
                self._parsed[words, size] = parse_row(words, self.colours, size)
            except Unreadable as fault:
                self._parsed[words, size] = fault
        return self._parsed[words, size]

    def _size(self) -> int:
        """Which size the chart is of, where the words are for several: the one in which most rows agree with it."""
        sized = [row for row in self.known if isinstance(said := self.said(row, 0), Spoken) and said.sizes > 1]
        if not sized:
            return 0
        sizes = max(said.sizes for row in sized if isinstance(said := self.said(row, 0), Spoken))
        return max(range(sizes), key=lambda size: (sum(self._agrees(row, size) for row in sized), -size))

    def _agrees(self, row: int, size: int) -> int:
        """2 where the words of that size are the row, 1 where they come to its count."""
        try:
            made = self._work_out(row, self._meant(row, size), size)
        except Unreadable:
            return 0
        charted = worked_symbols(self.chart, row)
        return (len(made.symbols) == len(charted)) + ("".join(made.symbols) == charted)

    def row(self, row: int) -> WrittenRow:
        chart, entry = self.chart, self.entries[row]
        read = WrittenRow(
            row=row,
            words=self.known[row],
            region=entry.region or chart.places.value("written", entry.said),
            charted=worked_symbols(chart, row),
            stitches=tuple(worked_stitches(chart, row)),
            usual=usual_stitch(chart, row),
            rows=entry.rows,
            of_page=entry.region is not None,
        )
        try:
            made = self._work_out(row, self._meant(row, self.size), self.size)
        except Unreadable as fault:
            return replace(read, fault=fault)
        spoken = self.said(row)
        assert isinstance(spoken, Spoken)
        return replace(read, spoken=spoken, made=made)

    def _work_out(self, row: int, meant: Spoken, size: int) -> Worked:
        chart, charted = self.chart, worked_symbols(self.chart, row)
        only = charted[0] if len(set(charted)) == 1 else None
        below = worked_symbols(chart, row - 1) if row > 1 else ""
        if row > 1 and chart.leftward(row) != chart.leftward(row - 1):
            below = below[::-1]
        waiting, shown = _waiting(chart, row, meant), Shown(charted, below)
        made = work_out(meant.items, waiting, only, shown)
        if made.left == 1 and len(made.symbols) == len(charted) - 1 and (items := with_stitch_left(meant.items)):
            return work_out(items, waiting, only, shown)
        return made

    def _meant(self, row: int, size: int) -> Spoken:
        """The row itself, or the row it refers to. Raises Unreadable where that leads nowhere."""
        seen, at, length = {row}, row, len(self.known[row])
        said = self.said(row, size)
        while isinstance(said, Spoken) and said.as_rows:
            first = next((r for r in self.entries[at].rows), at)
            at = said.as_rows[(at - first) % len(said.as_rows)]
            if at in seen or at not in self.known:
                why = "refers to itself" if at in seen else "is not written out"
                raise Unreadable(f"row {at}, which this refers to, {why}", 0, length)
            seen.add(at)
            said = self.said(at, size)
            if isinstance(said, Unreadable):
                raise Unreadable(f"row {at}, which this refers to, cannot be read", 0, length)
        if isinstance(said, Unreadable):
            raise said
        return said


def _entries(chart: Chart) -> list[WrittenEntry]:
    """The entries, those that give way first; a row that no entry has stands alone."""
    own = [entry for entry in chart.written_entries if not entry.names_all]
    entries = [entry for entry in chart.written_entries if entry.names_all] + own[::-1]  # of two, the first stands
    named = {row for entry in entries for row in entry.rows}
    alone = [WrittenEntry(str(row), (row,), words) for row, words in chart.written.items() if row not in named]
    return [*entries, *alone]


def _waiting(chart: Chart, row: int, spoken: Spoken) -> int:
    """How many stitches hang on the needle before the row, as the words count them.

    Where the words name the stitches that shape the row they count what the row below left; where they only mention
    that it is shaped, or say nothing of it, they count what the row comes to.
    """
    after = chart.grid.stitches(row)
    shaping, between = chart.shaping.get(row), _between(chart, row)
    if (shaping is None and not between) or spoken.shaped or not _names_shaping(spoken):
        return after
    return after - (shaping.net if shaping else 0) + between


def _between(chart: Chart, row: int) -> int:
    """The stitches that a row which parts the work binds off or holds between its two sides."""
    if row not in chart.divide:
        return 0
    opening = Sides(chart).opening(row)
    return opening.stitches if opening else 0


def _names_shaping(spoken: Spoken) -> bool:
    def shapes(item: Item) -> bool:
        if isinstance(item, Work):
            return item.shapes
        return isinstance(item, Again) and any(map(shapes, item.items))

    return any(map(shapes, spoken.items))
