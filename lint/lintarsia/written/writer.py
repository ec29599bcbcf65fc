"""Chart to written rows: what a knitter who does not read charts works from. Rows alone; the formats are elsewhere."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from lintarsia.chart import Chart, Worked
from lintarsia.chart.shaping import Change, ChangeKind, Order
from lintarsia.chart.sides import Sides, Stint
from lintarsia.chart.supplynames import supply_number
from lintarsia.written.hanging import Hanging, made_of
from lintarsia.written.insidewords import inside_decreases, with_decreases
from lintarsia.written.neckwords import around, side_name
from lintarsia.written.order import (
    ColourSupply,
    YarnStretch,
    stint_kinds,
    stint_symbols,
    stretches,
    usual_stitch,
    with_kinds,
)
from lintarsia.written.rowwords import RowWords, merged
from lintarsia.written.shapingphrases import fastened, last_of_side, named, shaping_phrase
from lintarsia.written.stintwords import split, words_behind, worked_words
from lintarsia.written.style import HOUSE_STYLE, Style
from lintarsia.written.symbols import written_yarn

if TYPE_CHECKING:
    from lintarsia.planning.model import Plan


NOTHING = "no stitches"


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
    sides = Sides(chart)
    stints = [stint for stint in sides.in_order if first <= stint.row <= last]
    hangs = Hanging(chart, plan, style.reckoning)
    rows = _in_one_line(sides, [_row(sides, stint, plan, style, hangs) for stint in stints])
    return merged(rows) if style.merge else tuple(rows)


def _row(sides: Sides, stint: Stint, plan: "Plan | None", style: Style, hangs: Hanging) -> RowWords:
    chart, row = sides.chart, stint.row
    symbols = stint_symbols(chart, stint)
    runs = list(stretches(symbols)) if plan is None else list(_supplied(plan, stint))
    if kinds := stint_kinds(chart, stint):
        runs = with_kinds(runs, kinds, usual_stitch(chart, row))
    inside = inside_decreases(chart, stint)
    runs = with_decreases(runs, inside) if inside else runs
    head, tail = named(chart, stint, stint.start), named(chart, stint, stint.end)
    fits = sum(n.after + n.times for n in (head, tail) if n) <= len(symbols)
    behind = [change for change in stint.end if change.kind in (ChangeKind.CAST_ON, ChangeKind.HOLD)]
    new = sum(change.stitches for change in behind if change.kind is ChangeKind.CAST_ON)
    last = behind if new < len(symbols) else []  # else the grid has no stitch to cast on from: a result says so
    new = new if last else 0
    start = () if head and fits else stint.start
    end = () if tail and fits else tuple(change for change in stint.end if change not in behind)
    shaping = last_of_side(stint, style.terms) or _shaping(stint, start, end, style, named=bool(inside))
    worked, added = split(runs, len(symbols) - new)
    at_ends = (head, tail) if fits else (None, None)
    words = worked_words(worked, usual_stitch(chart, row), style, at_ends, shaped=bool(shaping or last or inside))
    words = "; ".join(filter(None, [words, *words_behind(last, worked, added, style.terms)]))
    joins, finishes = _changes(plan, stint)
    beside = around(sides, stint, style.terms, joins=plan is not None, hangs=hangs)
    gone = "" if symbols or not stint.changes else fastened(stint)
    return RowWords(
        rows=(row,),
        side=chart.side(row),
        round=chart.worked is Worked.ROUND,
        words=words or gone or NOTHING,
        stitches=len(symbols),
        shaping=shaping,
        joins=joins,
        finishes=finishes,
        half=side_name(sides, stint),
        before=beside.before,
        behind=beside.behind,
    )


def _shaping(stint: Stint, start: Sequence[Change], end: Sequence[Change], style: Style, *, named: bool) -> str:
    """What changes the count and is not named stitch by stitch."""
    left = replace(stint, start=tuple(start), end=tuple(end), inside=() if named else stint.inside)
    return shaping_phrase(left, style.terms)


def _in_one_line(sides: Sides, rows: Sequence[RowWords]) -> list[RowWords]:
    """Both sides of a row in one line where they are worked together."""
    lines: list[RowWords] = []
    for row in rows:
        opening = sides.opening(row.rows[0])
        if opening is None or opening.divide.sides is not Order.TOGETHER:
            lines.append(row)
            continue
        own = replace(
            row, words=f"{row.half[0].lower()}{row.half[1:]}: {row.said}", half="", joins=(), before=(), shaping=""
        )
        own = replace(own, once=not row.plain)
        lines.append(_beside(lines.pop(), own) if lines and lines[-1].rows == row.rows else own)
    return lines


def _beside(one: RowWords, other: RowWords) -> RowWords:
    return replace(
        one,
        words=f"{one.words}; {other.words}",
        stitches=one.stitches + other.stitches,
        finishes=one.finishes + other.finishes,
        behind=other.behind or one.behind,
        once=one.once or other.once,
    )


def _supplied(plan: "Plan", stint: Stint) -> Iterable[YarnStretch]:
    made = made_of(plan, stint)
    for run, supply in zip(made.runs, made.by, strict=True) if made else ():
        yield YarnStretch(_yarn(plan.runs[run].colour, supply), plan.runs[run].stitches)


def _yarn(symbol: str, supply: str) -> ColourSupply:
    return ColourSupply(symbol, supply_number(symbol, supply))


def _changes(plan: "Plan | None", stint: Stint) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The supplies joined in a stint and those cut after it, as they are written."""
    made = None if plan is None else made_of(plan, stint)
    if made is None:
        return (), ()
    joins, finishes = ([written_yarn(_yarn(name[0], name)) for name in names] for names in (made.joins, made.finishes))
    return tuple(joins), tuple(finishes)
