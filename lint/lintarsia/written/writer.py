"""Chart to written rows: what a knitter who does not read charts works from. Rows alone; the formats are elsewhere."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from lintarsia.chart import Chart, Side, Worked
from lintarsia.ground.values import dataclass
from lintarsia.telling.counts import one_and_all
from lintarsia.written.folding import fold
from lintarsia.written.order import Stretch, Yarn, stretches, usual_stitch, worked_symbols
from lintarsia.written.phrases import row_phrase
from lintarsia.written.shaping import shaping_phrase
from lintarsia.written.symbols import written_yarn

if TYPE_CHECKING:
    from lintarsia.planning.model import Plan


NOTHING = "no stitches"
LISTED = 3  # row numbers that are listed one by one; more are given as a range


@dataclass(frozen=True, slots=True)
class Style:
    """How rows are written: repeats folded, asterisks used for them, like rows merged."""

    fold: bool = True
    stars: bool = True
    merge: bool = True


HOUSE_STYLE = Style()


@dataclass(frozen=True, slots=True)
class RowWords:
    """One line of the instructions. `rows` are the knitter's rows that it holds for, ascending.

    `shaping`, `joins` and `finishes` are words already ("dec 1 st at each end", supply ids); "" and () where there are
    none. `stitches` is the count after the row.
    """

    rows: tuple[int, ...]
    side: Side
    round: bool
    words: str
    stitches: int
    shaping: str = ""
    joins: tuple[str, ...] = ()
    finishes: tuple[str, ...] = ()

    @property
    def label(self) -> str:
        """`Row 5 (RS)`, `Rows 5 and 7 (RS)`, `RS rows 5–11`, `Rounds 5–8`."""
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
        said = [f"join {_listed(self.joins)}"] if self.joins else []
        said += [self.shaping] if self.shaping else []
        said.append(self.words)
        count = f"({self.stitches} {'st' if self.stitches == 1 else 'sts'})"
        last = f" Cut {_listed(self.finishes)}." if self.finishes else ""
        return f"{'; '.join(said)}. {count}{last}"


def write_rows(
    chart: Chart,
    *,
    plan: "Plan | None" = None,
    first: int = 1,
    last: int | None = None,
    style: Style = HOUSE_STYLE,
) -> tuple[RowWords, ...]:
    """The rows `first` to `last` in working order, like rows merged. With a plan, each stretch names its supply.

    Raises ValueError for rows that the chart does not have.
    """
    last = chart.grid.height if last is None else last
    if not 1 <= first <= last <= chart.grid.height:
        raise ValueError(f"the chart has rows 1 to {chart.grid.height}; asked for {first} to {last}")
    rows = [_row(chart, row, plan, style) for row in range(first, last + 1)]
    return _merged(rows) if style.merge else tuple(rows)


def _row(chart: Chart, row: int, plan: "Plan | None", style: Style) -> RowWords:
    symbols = worked_symbols(chart, row)
    shaping = shaping_phrase(chart, row)
    runs = list(stretches(symbols)) if plan is None else list(_supplied(plan, row))
    # `to end` counts what hangs on the needle, which in a shaped row is not what the chart shows: brackets only.
    words = row_phrase(fold(runs) if style.fold else runs, usual_stitch(chart, row), stars=style.stars and not shaping)
    joins, finishes = _changes(plan, row)
    return RowWords(
        rows=(row,),
        side=chart.side(row),
        round=chart.worked is Worked.ROUND,
        words=words or NOTHING,
        stitches=len(symbols),
        shaping=shaping,
        joins=joins,
        finishes=finishes,
    )


def _supplied(plan: "Plan", row: int) -> Iterable[Stretch]:
    made = plan.rows[row - 1]
    for run, supply in zip(made.runs, made.by, strict=True):
        yield Stretch(_yarn(plan.runs[run].colour, supply), plan.runs[run].stitches)


def _yarn(symbol: str, supply: str) -> Yarn:
    return Yarn(symbol, int(supply[len(symbol) :]))


def _changes(plan: "Plan | None", row: int) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The supplies joined in a row and those cut after it, as they are written."""
    if plan is None:
        return (), ()
    made = plan.rows[row - 1]
    joins, finishes = ([written_yarn(_yarn(name[0], name)) for name in names] for names in (made.joins, made.finishes))
    return tuple(joins), tuple(finishes)


def _listed(names: Sequence[str]) -> str:
    return one_and_all(names)


def _merged(rows: Sequence[RowWords]) -> tuple[RowWords, ...]:
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
        if end - at < 2 * step or not all(map(_plain, rows[at:end])):
            lines.append(rows[at])
            at += 1
            continue
        lines += [_one(rows[at + k : end : step]) for k in range(step)]
        at = end
    return tuple(lines)


def _alike(one: RowWords, other: RowWords) -> bool:
    return _plain(one) and _plain(other) and (one.words, one.stitches) == (other.words, other.stitches)


def _plain(row: RowWords) -> bool:
    return not (row.shaping or row.joins or row.finishes)


def _one(rows: Sequence[RowWords]) -> RowWords:
    first = rows[0]
    numbers = tuple(row.rows[0] for row in rows)
    return RowWords(numbers, first.side, first.round, first.words, first.stitches)
