"""A chart's `written:` rows, read and set against its grid: what the rules of the group `words` look at."""

from collections.abc import Mapping
from dataclasses import replace

from lintarsia.chart import Chart
from lintarsia.ground.values import dataclass
from lintarsia.result import Region
from lintarsia.written.colours import Colours
from lintarsia.written.excerpt import around
from lintarsia.written.lexer import Unreadable
from lintarsia.written.order import usual_stitch, worked_stitches, worked_symbols
from lintarsia.written.parser import parse_row
from lintarsia.written.spoken import Again, Item, Spoken, Work
from lintarsia.written.working import Worked, work_out


@dataclass(frozen=True, slots=True)
class WrittenRow:
    """One written row. `spoken` and `made` are None where `fault` says why the words could not be followed.

    `charted` and `stitches` are the chart's symbols and stitch numbers in working order; `usual` is the stitch that
    plain stocking stitch has in this row.
    """

    row: int
    words: str
    region: Region
    charted: str
    stitches: tuple[int, ...]
    usual: str
    spoken: Spoken | None = None
    made: Worked | None = None
    fault: Unreadable | None = None

    @property
    def symbols(self) -> str:
        """The symbols that the words make, in working order."""
        return "".join(self.made.symbols) if self.made else ""

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
    colours = colours_of(chart)
    known = {row: words for row, words in sorted(chart.written.items()) if row <= chart.grid.height}
    said: dict[int, Spoken | Unreadable] = {}
    for row, words in known.items():
        try:
            said[row] = parse_row(words, colours)
        except Unreadable as fault:
            said[row] = fault
    return tuple(_row(chart, row, words, said) for row, words in known.items())


def colours_of(chart: Chart) -> Colours:
    """What the words of a chart's rows may call its colours."""
    return Colours(chart.grid.symbols, {symbol: colour.name for symbol, colour in chart.colours.items()})


def _row(chart: Chart, row: int, words: str, said: Mapping[int, Spoken | Unreadable]) -> WrittenRow:
    spoken = said[row]
    read = WrittenRow(
        row=row,
        words=words,
        region=chart.places.value("written", str(row)),
        charted=worked_symbols(chart, row),
        stitches=tuple(worked_stitches(chart, row)),
        usual=usual_stitch(chart, row),
    )
    try:
        if isinstance(spoken, Unreadable):
            raise spoken
        meant = _meant(spoken, said, len(words))
        only = read.charted[0] if len(set(read.charted)) == 1 else None
        made = work_out(meant.items, _waiting(chart, row, meant), only)
    except Unreadable as fault:
        return replace(read, fault=fault)
    return replace(read, spoken=spoken, made=made)


def _waiting(chart: Chart, row: int, spoken: Spoken) -> int:
    """How many stitches hang on the needle before the row, as the words count them.

    Where the words name the stitches that shape the row they count what the row below left; where they only mention
    that it is shaped, or say nothing of it, they count what the row comes to.
    """
    after = chart.grid.stitches(row)
    shaping = chart.shaping.get(row)
    if shaping is None or spoken.shaped or not _names_shaping(spoken):
        return after
    return after - shaping.net


def _names_shaping(spoken: Spoken) -> bool:
    def shapes(item: Item) -> bool:
        if isinstance(item, Work):
            return item.takes != item.makes
        return isinstance(item, Again) and any(map(shapes, item.items))

    return any(map(shapes, spoken.items))


def _meant(spoken: Spoken, said: Mapping[int, Spoken | Unreadable], length: int) -> Spoken:
    """The row itself, or the row it refers to. Raises Unreadable where that leads nowhere."""
    seen: set[int] = set()
    meant = spoken
    while meant.as_row is not None:
        row = meant.as_row
        other = said.get(row)
        if row in seen or other is None:
            why = "refers to itself" if row in seen else "is not written out"
            raise Unreadable(f"row {row}, which this refers to, {why}", 0, length)
        if isinstance(other, Unreadable):
            raise Unreadable(f"row {row}, which this refers to, cannot be read", 0, length)
        seen.add(row)
        meant = other
    return meant
