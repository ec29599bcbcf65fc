"""A line of the instructions: its label, what is done, the count after it; and like lines said once."""

from collections.abc import Sequence

from lintarsia.chart import Side
from lintarsia.ground.values import dataclass
from lintarsia.telling.counts import one_and_all

LISTED = 3  # row numbers that are listed one by one; more are given as a range


@dataclass(frozen=True, slots=True)
class RowWords:
    """One line of the instructions. `rows` are the knitter's rows that it holds for, ascending.

    `shaping`, `joins` and `finishes` are words already ("dec 1 st at each end", supply ids); "" and () where there are
    none. `stitches` is the count after the row. `half` names the side of an opening that the line is of; `before` and
    `behind` are what is done between the sides.
    """

    rows: tuple[int, ...]
    side: Side
    round: bool
    words: str
    stitches: int
    shaping: str = ""
    joins: tuple[str, ...] = ()
    finishes: tuple[str, ...] = ()
    half: str = ""
    before: tuple[str, ...] = ()
    behind: str = ""
    counts: str = ""  # the count in words, where it is not one number: `66 (72, 78) sts`
    named: str = ""  # the label in words, where it is not of one size: `Rounds 1–10 (10, 12)`
    once: bool = False  # whether the words hold something that is done in this row alone

    @property
    def label(self) -> str:
        """`Row 5 (RS)`, `Rows 5 and 7 (RS)`, `RS rows 5–11`, `Rounds 5–8`, `Right neck side, row 84 (WS)`."""
        if self.named or not self.half:
            return self.named or self._rows
        label = self._rows
        return f"{self.half}, {label if label[:2] in ('RS', 'WS') else label[0].lower() + label[1:]}"

    @property
    def _rows(self) -> str:
        first, last = self.rows[0], self.rows[-1]
        if self.round:
            return f"Round {first}" if first == last else f"Rounds {first}–{last}"
        if first == last:
            return f"Row {first} ({self.side})"
        if len(self.rows) > LISTED:
            return f"{self.side} rows {first}–{last}"
        return f"Rows {', '.join(map(str, self.rows[:-1]))} and {last} ({self.side})"

    @property
    def text(self) -> str:
        """All that follows the label: `k3 A, k6 B, k3 A. (12 sts)`."""
        count = f"({self.counts or f'{self.stitches} ' + ('st' if self.stitches == 1 else 'sts')})"
        last = f" Cut {one_and_all(self.finishes)}." if self.finishes else ""
        behind = f" {self.behind}" if self.behind else ""
        return f"{self.said}. {count}{behind}{last}"

    @property
    def said(self) -> str:
        """What is done, without the count."""
        joins = [f"join {one_and_all(self.joins)}"] if self.joins else []
        held = [words for words in self.before if words.startswith("place")]  # off the needle before yarn is joined
        said = [*held, *joins, *(words for words in self.before if words not in held), self.shaping, self.words]
        return "; ".join(filter(None, said))

    @property
    def plain(self) -> bool:
        """Whether nothing is done in the row but its stitches, so that it may be said together with others like it."""
        return not (self.shaping or self.joins or self.finishes or self.before or self.behind or self.once)


def merged(rows: Sequence[RowWords]) -> tuple[RowWords, ...]:
    """Like rows said once, where the order of working stays plain.

    Rounds that are alike and follow each other become one line. Back and forth, right-side and wrong-side rows
    alternate: at least four rows whose right-side rows are alike and whose wrong-side rows are alike become two lines.
    """
    lines: list[RowWords] = []
    at = 0
    while at < len(rows):
        step = 1 if rows[at].round else 2
        end = at + step
        while end < len(rows) and _alike(rows[end], rows[end - step]):
            end += 1
        end = min(end, len(rows))
        if end - at < 2 * step:
            lines.append(rows[at])
            at += 1
            continue
        lines += [_one(rows[at + k : end : step]) for k in range(step)]
        at = end
    return tuple(lines)


def _alike(one: RowWords, other: RowWords) -> bool:
    return (
        one.plain
        and other.plain
        and (one.words, one.stitches, one.half, one.counts) == (other.words, other.stitches, other.half, other.counts)
    )


def _one(rows: Sequence[RowWords]) -> RowWords:
    first = rows[0]
    numbers = tuple(row.rows[0] for row in rows)
    return RowWords(numbers, first.side, first.round, first.words, first.stitches, half=first.half, counts=first.counts)
