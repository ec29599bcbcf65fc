"""A chart's `written:` rows, read and set against its grid."""

from collections.abc import Mapping
from dataclasses import replace

from lintarsia.chart import Chart, WrittenEntry
from lintarsia.chart.sides import Sides
from lintarsia.written.colours import Colours
from lintarsia.written.countwords import counts_on_needle
from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.needle import NeedleRows, Place
from lintarsia.written.parser import parse_row
from lintarsia.written.readings import other_readings
from lintarsia.written.remarks import without_clause
from lintarsia.written.row import WrittenRow
from lintarsia.written.shapingwords import begins_with_binding_off, with_stitch_left
from lintarsia.written.spoken import Spoken, TakeUp, Times
from lintarsia.written.working import Shown, WorkedOut, work_out

MOST_REMARKS = 3  # clauses of one row that may be passed over


def read_written(chart: Chart) -> tuple[WrittenRow, ...]:
    """Every written row that the chart has, ascending, each read and worked out as far as it can be."""
    if not chart.in_words:
        return ()
    reader = _Reader(chart)
    return tuple(reader.row(place) for place in reader.known)


def colours_of(chart: Chart) -> Colours:
    """What the words of a chart's rows may call its colours."""
    names = {symbol: colour.name for symbol, colour in chart.colours.items()}
    return Colours(chart.grid.symbols, names, {symbol: colour.also for symbol, colour in chart.colours.items()})


class _Reader:
    """Reads the rows of one chart. Words that stand for several rows are parsed once."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.rows = NeedleRows(Sides(chart))
        self.known = {place: words for place, words in sorted(_words(chart).items()) if self.rows.there(place)}
        self.colours = colours_of(chart)
        self.entries = _entries(chart)
        self._parsed: dict[tuple[str, int], Spoken | NotUnderstood] = {}
        self.size = self._size()
        self._leaves_one = self._counts_the_stitch_left()

    def said(self, place: Place, size: int | None = None) -> Spoken | NotUnderstood:
        words, size = self.known[place], self.size if size is None else size
        if (words, size) not in self._parsed:
            try:
                self._parsed[words, size] = parse_row(words, self.colours, size)
            except NotUnderstood as fault:
                self._parsed[words, size] = fault
        return self._parsed[words, size]

    def _size(self) -> int:
        """Which size the chart is of, where the words are for several: the one in which most rows agree with it."""
        sized = [at for at in self.known if isinstance(said := self.said(at, 0), Spoken) and said.sizes > 1]
        if not sized:
            return 0
        sizes = max(said.sizes for at in sized if isinstance(said := self.said(at, 0), Spoken))
        return max(range(sizes), key=lambda size: (sum(self._agrees(at, size) for at in sized), -size))

    def _agrees(self, place: Place, size: int) -> int:
        """2 where the words of that size are the row, 1 where they come to its count."""
        try:
            made = self._work_out(place, self._meant(place, size))
        except NotUnderstood:
            return 0
        charted = self.rows.symbols(place)
        return (len(made.symbols) == len(charted)) + ("".join(made.symbols) == charted)

    def _counts_the_stitch_left(self) -> bool:
        """Whether the rows that begin with binding off may leave out the stitch that this leaves on the needle: a
        pattern does so in all of them or in none, so that one row which has it shows that none leave it out."""
        for place in self.known:
            said = self.said(place)
            if isinstance(said, Spoken) and begins_with_binding_off(said.items):
                try:
                    made = self._work_out(place, said)
                except NotUnderstood:
                    continue
                if "".join(made.symbols) == self.rows.symbols(place) and _counted_out(said):
                    return False
        return True

    def row(self, place: Place) -> WrittenRow:
        chart, (row, half), entry = self.chart, place, self.entries[place]
        read = WrittenRow(
            row=row,
            name=self.rows.name(place),
            words=self.known[place],
            region=entry.region or chart.places.value("written", entry.said),
            charted=self.rows.symbols(place),
            stitches=self.rows.stitches(place),
            usual=self.rows.usual(row),
            rows=entry.rows,
            half=half,
            kinds=self.rows.kinds(place),
            of_page=entry.region is not None,
        )
        try:
            meant = self._meant(place, self.size)
            made = self._made(place, meant)
        except NotUnderstood as fault:
            return self._without_clauses(place, read, fault) or replace(read, fault=fault)
        spoken = self.said(place)
        assert isinstance(spoken, Spoken)
        if spoken.stated_after and row != entry.rows[-1]:
            spoken = replace(spoken, stated=None)
        return replace(read, spoken=spoken, made=made)

    def _without_clauses(self, place: Place, read: WrittenRow, fault: NotUnderstood) -> WrittenRow | None:
        """The row without the clauses that nobody understands, where it then is the charted one to the last stitch:
        they were remarks. None elsewhere."""
        words = read.words
        for _ in range(MOST_REMARKS):
            if (shorter := without_clause(words, fault)) is None:
                return None
            try:
                spoken = parse_row(words := shorter, self.colours, self.size)
                found = replace(read, spoken=spoken, made=self._made(place, spoken))
            except NotUnderstood as another:
                fault = another
                continue
            return found if not spoken.as_rows and found.agrees else None
        return None

    def _made(self, place: Place, meant: Spoken) -> WorkedOut:
        """What the words make, read by the habit that makes them the charted row, or else plainly."""
        made = self._with_stitch_left(place, meant, self._work_out(place, meant))
        charted = self.rows.symbols(place)
        if "".join(made.symbols) == charted:
            return made
        for items in other_readings(meant.items):
            other = self._work_out(place, replace(meant, items=items))
            if "".join(other.symbols) == charted and other.left in (0, made.left):
                return other
        return made

    def _work_out(self, place: Place, meant: Spoken) -> WorkedOut:
        charted = self.rows.symbols(place)
        only = charted[0] if len(set(charted)) == 1 else None
        return work_out(meant.items, self.rows.waiting(place, meant), only, Shown(charted, self.rows.below(place)))

    def _with_stitch_left(self, place: Place, meant: Spoken, made: WorkedOut) -> WorkedOut:
        """The same with the stitch that binding off leaves on the needle, where the words may leave it out and so come
        to the charted row, one stitch short."""
        charted = self.rows.symbols(place)
        if counts_on_needle(self.known[place]):  # as many as hang there, the stitch left included
            return made
        if not self._leaves_one or made.left != 1 or len(made.symbols) != len(charted) - 1:
            return made
        items = with_stitch_left(meant.items)
        return made if items is None else self._work_out(place, replace(meant, items=tuple(items)))

    def _meant(self, place: Place, size: int) -> Spoken:
        """The row itself, or the row it refers to. Raises NotUnderstood where that leads nowhere."""
        seen, at, length = {place}, place, len(self.known[place])
        said = self.said(place, size)
        while isinstance(said, Spoken) and said.as_rows:
            first = next((r for r in self.entries[at].rows), at[0])
            row = said.as_rows[(at[0] - first) % len(said.as_rows)]
            at = (row, place[1]) if (row, place[1]) in self.known else (row, "")
            if at in seen or at not in self.known:
                why = "refers to itself" if at in seen else "is not written out"
                raise NotUnderstood(f"row {row}, which this refers to, {why}", 0, length)
            seen.add(at)
            said = self.said(at, size)
            if isinstance(said, NotUnderstood):
                raise NotUnderstood(f"row {row}, which this refers to, cannot be read", 0, length)
        if isinstance(said, NotUnderstood):
            raise said
        return said


def _counted_out(said: Spoken) -> bool:
    """Whether the words after binding off count every stitch: `k9`, not `k to end`."""
    return all(isinstance(item, TakeUp) or isinstance(item.often, Times) for item in said.items)


def _words(chart: Chart) -> Mapping[Place, str]:
    return {**{(row, ""): words for row, words in chart.written.items()}, **chart.written_sides}


def _entries(chart: Chart) -> dict[Place, WrittenEntry]:
    """The entry that each place has its words from; what no entry has stands alone."""
    own = [entry for entry in chart.written_entries if not entry.names_all]
    entries = [entry for entry in chart.written_entries if entry.names_all] + own[::-1]  # of two, the first stands
    named = {(row, entry.half): entry for entry in entries for row in entry.rows}
    alone = {at: WrittenEntry(str(at[0]), (at[0],), words, half=at[1]) for at, words in _words(chart).items()}
    return {**alone, **named}
