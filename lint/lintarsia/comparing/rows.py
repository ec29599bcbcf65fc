"""The rows of two charts, matched and told apart."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from lintarsia.chart import Chart
from lintarsia.chart.aligning import RowPair
from lintarsia.chart.content import plain
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.sides import row_changes
from lintarsia.chart.texture import KNIT, PLAIN
from lintarsia.comparing.model import How, RowChange
from lintarsia.comparing.rowkinds import differing, how_changed
from lintarsia.telling.spans import stretches
from lintarsia.telling.terms import Terms
from lintarsia.written import Style, write_rows
from lintarsia.written.rowwords import RowWords


class ComparedRows:
    """Both charts with their texts as they are compared: the old one in the symbols of the new, both equally wide."""

    def __init__(
        self,
        was: Chart,
        now: Chart,
        old: Sequence[str],
        new: Sequence[str],
        symbols: Mapping[str, str],
        textures: tuple[Sequence[str], Sequence[str]] | None = None,
    ):
        wide = max(map(len, (*old, *new)))
        self._textures = textures or ((), ())
        self.was, self.now, self._symbols = was, now, symbols
        self.old = [row.rjust(wide, NO_STITCH_SYMBOL) for row in old]
        self.new = [row.rjust(wide, NO_STITCH_SYMBOL) for row in new]

    def changes(self, pairs: Sequence[RowPair]) -> tuple[RowChange, ...]:
        """What differs, in the order of the rows; words are not there yet."""
        return tuple(self._exchanged(list(self._each(pairs))))

    def _each(self, pairs: Sequence[RowPair]) -> Iterator[RowChange]:
        added = {pair.now for pair in pairs if pair.was is None}
        for pair in pairs:
            if pair.was is None and pair.now is not None:
                twin = self._twin(pair.now, added)
                yield RowChange(pair.now, None, How.ADDED if twin is None else How.DOUBLED, twin=twin)
            elif pair.now is None and pair.was is not None:
                yield RowChange(None, pair.was, How.REMOVED)
            elif pair.was is not None and pair.now is not None:
                yield from self._changed(pair.was, pair.now)

    def _twin(self, row: int, added: set[int | None]) -> int | None:
        """The row that a new one is like, where it stands next to it with nothing but such rows between."""
        for step in (-1, 1):
            other = row + step
            while other in added and self.new[other - 1] == self.new[row - 1]:
                other += step
            if 1 <= other <= len(self.new) and other not in added and self.new[other - 1] == self.new[row - 1]:
                return other
        return None

    def _changed(self, i: int, j: int) -> Iterator[RowChange]:
        a, b = self.old[i - 1], self.new[j - 1]
        purled = self._purled(i, j)
        if purled and _stitches(a) == _stitches(b):
            others = sorted(
                {*purled, *(stitch for first, last in differing(a, b) for stitch in range(first, last + 1))}
            )
            yield RowChange(j, i, How.TEXTURE, tuple(stretches((stitch, stitch) for stitch in others)))
        elif a != b:
            how, left = how_changed(a, b)
            yield RowChange(j, i, how, differing(a, b), left)
        elif _shaped(self.was, i) != _shaped(self.now, j):
            yield RowChange(j, i, How.COUNT)
        elif sewn := self._sewn(i, j):
            yield RowChange(j, i, How.EMBROIDERED, sewn)
        elif self.was.side(i) == self.now.side(j) and _own(self.was, i) != _own(self.now, j) and not self._symbols:
            yield RowChange(j, i, How.WORDS, was_words=_own(self.was, i), now_words=_own(self.now, j))

    def _purled(self, i: int, j: int) -> list[int]:
        """Stitches that are knitted where they were purled, or the other way. Garter stitch stays garter stitch though
        its rows have come to lie on the other side."""
        old, new = self._textures
        if not old and not new:
            return []
        wide = len(self.old[0])
        was, now = (rows[row - 1] if rows else "" for rows, row in ((old, i), (new, j)))
        pairs = zip(was.rjust(wide, PLAIN)[::-1], now.rjust(wide, PLAIN)[::-1], strict=True)
        return [stitch for stitch, (one, other) in enumerate(pairs, 1) if one != other]

    def _sewn(self, i: int, j: int) -> tuple[tuple[int, int], ...]:
        """Stitches that are embroidered over otherwise."""
        wide = len(self.old[0])
        before = "".join(self._symbols.get(s, s) for s in embroidery(self.was, i, wide))
        return differing(before, embroidery(self.now, j, wide))

    def _exchanged(self, found: list[RowChange]) -> list[RowChange]:
        """Neighbours of which each is what the other was."""
        for at in range(len(found) - 1):
            one, two = found[at : at + 2]
            if (one.was_row is None) == (one.row is None) and self._swapped(one, two):
                found[at], found[at + 1] = (replace(c, how=How.EXCHANGED, left=0) for c in (one, two))
        return found

    def _swapped(self, one: RowChange, two: RowChange) -> bool:
        if None in (one.row, one.was_row, two.row, two.was_row) or (one.row, one.was_row) == (two.row, two.was_row):
            return False
        i, j, k, m = (int(number or 0) for number in (one.was_row, one.row, two.was_row, two.row))
        if How.TEXTURE in (one.how, two.how) or self.old[i - 1] == self.new[j - 1]:
            return False  # alike, and only their words are others
        return k == i + 1 and m == j + 1 and self.old[i - 1] == self.new[m - 1] and self.old[k - 1] == self.new[j - 1]

    def crossed(self, pairs: list[RowPair]) -> list[RowPair]:
        """Two neighbours that have changed places are matched as one dropped and one added where they are very unlike;
        here they are two rows changed again."""
        at = 0
        while at + 2 < len(pairs):
            one, middle, last = pairs[at : at + 3]
            if self._crosses(one.was, middle.now, middle.was, last.now) and (one.now, last.was) == (None, None):
                pairs[at : at + 3] = [RowPair(one.was, middle.now), RowPair(middle.was, last.now)]
            elif self._crosses(middle.was, one.now, last.was, middle.now) and (one.was, last.now) == (None, None):
                pairs[at : at + 3] = [RowPair(middle.was, one.now), RowPair(last.was, middle.now)]
            at += 1
        return pairs

    def _crosses(self, i: int | None, j: int | None, k: int | None, m: int | None) -> bool:
        """Whether row i of was is row m of now, and row k is row j."""
        if i is None or j is None or k is None or m is None:
            return False
        return self.old[i - 1] == self.new[m - 1] and self.old[k - 1] == self.new[j - 1]


def _shaped(chart: Chart, row: int) -> list[str]:
    return sorted(str(plain(change)) for change in row_changes(chart, row))


def _stitches(row: str) -> list[bool]:
    """Which squares of a row have a stitch."""
    return [symbol != NO_STITCH_SYMBOL for symbol in row]


def _own(chart: Chart, row: int) -> str:
    """The designer's own words for a row; of an opening each side with its name."""
    whole = chart.written.get(row, "")
    sides = [f"{half}: {words}" for (at, half), words in chart.written_sides.items() if at == row]
    return str(plain("; ".join([*([whole] if whole else []), *sides])))


def textured(chart: Chart) -> list[str]:
    """The texture of each row, plain stitches as `.`; no rows of a chart that is in stocking stitch throughout."""
    return [] if chart.texture is None else [row.replace(KNIT, PLAIN) for row in chart.texture.rows]


def embroidery(chart: Chart, row: int, wide: int) -> str:
    """The row as it is embroidered over, left to right; squares that are not are blank."""
    cells = [" "] * wide
    for patch in chart.duplicate:
        if patch.row == row:
            for stitch in range(min(patch.stitches), max(patch.stitches) + 1):
                if stitch <= wide:
                    cells[wide - stitch] = patch.colour
    return "".join(cells)


def in_words(chart: Chart, row: int, terms: Terms = Terms.AMERICAN) -> str:
    """The row in words: `k4 B, k2 W, k4 B`; two sides of an opening one after the other."""
    return "; then ".join(line.said for line in _lines(chart, row, terms))


def as_printed(chart: Chart, row: int, terms: Terms = Terms.AMERICAN) -> str:
    """The row as the instructions print it: `k4 B, k2 W, k4 B. (10 sts)`; of an opening each side with its name."""
    return " ".join(f"{line.half}: {line.text}" if line.half else line.text for line in _lines(chart, row, terms))


def _lines(chart: Chart, row: int, terms: Terms) -> tuple[RowWords, ...]:
    return write_rows(chart, first=row, last=row, style=Style(merge=False, terms=terms))
