"""A piece's rows in words for all its sizes at once, nested as the trade prints them: `66 (72, 78) sts`.

The rows are the chart's, with its repeat said once: `*k3 N, k1 C, k2 N; rep from * around`.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from lintarsia.chart import Chart, Worked
from lintarsia.ground.values import dataclass
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.telling.names import row_word
from lintarsia.written.order import ColourSupply, usual_stitch
from lintarsia.written.page import RowsPage, abbreviations_of, rows_page
from lintarsia.written.rowwords import RowWords, merged
from lintarsia.written.style import Style
from lintarsia.written.symbols import written_yarn

Counts = tuple[int, ...]  # one for each size


@dataclass(frozen=True, slots=True)
class _Run:
    """Neighbouring stitches of one colour, so many in each size."""

    symbol: str
    counts: Counts


def nested(numbers: Sequence[int]) -> str:
    """`66 (72, 78)`; one number where all sizes have the same."""
    first, *rest = numbers
    return f"{first:,}" if set(numbers) == {first} else f"{first:,} ({', '.join(f'{n:,}' for n in rest)})"


def sizes_line(names: Sequence[str]) -> str:
    """Which number is whose: `Sizes: small (medium, large). One number is for all sizes.`"""
    return f"Sizes: {names[0]} ({', '.join(names[1:])}). One number is for all sizes."


def nests(chart: Chart, sizes: Sequence[PieceInSize]) -> bool:
    """Whether one text can say all sizes: one chart, worked on the same side in all of them, and no shaping, which is
    each size's own. One size alone has nothing to nest."""
    sides = {one.chart.side(_first(one)) for one in sizes}
    charts = {one.piece.charts.get(one.size) for one in sizes}
    shaped = any(one.piece.shaping for one in sizes) or None in charts
    plain = (
        chart.texture is None
        and not shaped
        and not (chart.shaping or chart.divide)
        and not any(one.laid.weave.mirrored for one in sizes)
    )
    return len(sizes) > 1 and len(charts) == 1 and len(sides) == 1 and chart.grid.whole and plain


def nested_page(chart: Chart, sizes: Sequence[PieceInSize], title: str, style: Style, begins: str = "") -> RowsPage:
    """The page of a piece in all of `sizes`, which `nests`. `begins` says how, where that is not by casting on."""
    rows = [_row(chart, sizes, row) for row in range(1, chart.grid.height + 1)]
    lines = merged(rows) if style.merge else tuple(rows)
    page = rows_page(replace(chart, repeat=None), style=style)
    own = tuple(_reading(chart, sizes, begins))
    return replace(page, title=title, rows=lines, reading=(*page.reading, *own), abbreviations=abbreviations_of(lines))


def _first(one: PieceInSize) -> int:
    """The piece's row that is the chart's first."""
    return 1 + (one.laid.motif.below if one.laid.motif else 0)


def _reading(chart: Chart, sizes: Sequence[PieceInSize], begins: str) -> Iterator[str]:
    yield sizes_line([one.size for one in sizes])
    yield begins or f"Cast on {nested([one.laid.cast_on for one in sizes])} sts."
    word = row_word(chart)
    below, above = ([getattr(one.laid.motif, side, 0) for one in sizes] for side in ("below", "above"))
    plain = written_yarn(ColourSupply(sizes[0].piece.plain or ""))
    if any(below):
        yield f"Work {nested(below)} {word}s in {plain}, then the {word}s of the chart by its own numbers."
    if chart.repeat and (times := [one.laid.fit.row_repeats for one in sizes]) and set(times) != {1}:
        first, last = chart.repeat.rows
        yield f"Work {word}s {first}–{last} {nested(times)} times in all."
    if any(above):
        yield f"After the chart work {nested(above)} {word}s in {plain}."


def _row(chart: Chart, sizes: Sequence[PieceInSize], row: int) -> RowWords:
    side = sizes[0].chart.side(_first(sizes[0]) + row - 1)
    leftward = chart.worked is Worked.ROUND or side.value == "RS"
    k = usual_stitch(sizes[0].chart, _first(sizes[0]) + row - 1)
    before, inside, after = _parts(chart, sizes, row, leftward=leftward)
    stitches = [one.chart.grid.stitches(_first(one) + row - 1) for one in sizes]
    end = "around" if chart.worked is Worked.ROUND else "to end"
    return RowWords(
        rows=(row,),
        side=side,
        round=chart.worked is Worked.ROUND,
        words=_words(k, before, inside, after, end),
        stitches=stitches[0],
        counts=f"{nested(stitches)} sts",
    )


def _parts(
    chart: Chart, sizes: Sequence[PieceInSize], row: int, *, leftward: bool
) -> tuple[list[_Run], list[_Run], list[_Run]]:
    """The row before, in and after the repeat, in working order; all of it before, where there is no repeat to say."""
    line, wide = chart.grid.rows[row - 1], chart.grid.width
    first, last = chart.repeat.stitches if chart.repeat else (1, wide)
    left, box, right = line[: wide - last], line[wide - last : wide - first + 1], line[wide - first + 1 :]
    times = tuple(one.laid.fit.repeats for one in sizes)
    plain = sizes[0].piece.plain or ""
    margins = [tuple(getattr(one.laid.motif, side, 0) for one in sizes) for side in ("left", "right")]
    outer = [[_Run(plain, margins[0]), *_runs(left, sizes)], [*_runs(right, sizes), _Run(plain, margins[1])]]
    if leftward:
        box, outer = box[::-1], [[*reversed(outer[1])], [*reversed(outer[0])]]
    if set(times) == {1} or len(set(box)) == 1:
        inner = [_Run(symbol, tuple(len(run) * n for n in times)) for symbol, run in _grouped(box)]
        return _joined([*outer[0], *inner, *outer[1]]), [], []
    return _joined(outer[0]), list(_runs(box, sizes)), _joined(outer[1])


def _grouped(symbols: str) -> Iterator[tuple[str, list[str]]]:
    return ((symbol, list(run)) for symbol, run in groupby(symbols))


def _runs(symbols: str, sizes: Sequence[PieceInSize]) -> Iterator[_Run]:
    return (_Run(symbol, (len(run),) * len(sizes)) for symbol, run in _grouped(symbols))


def _joined(runs: Sequence[_Run]) -> list[_Run]:
    """Without what no size has, and neighbours of one colour together."""
    made: list[_Run] = []
    for run in runs:
        if made and made[-1].symbol == run.symbol:
            made[-1] = _Run(run.symbol, tuple(map(sum, zip(made[-1].counts, run.counts, strict=True))))
        elif any(run.counts):
            made.append(run)
    return made


def _words(k: str, before: Sequence[_Run], inside: Sequence[_Run], after: Sequence[_Run], end: str) -> str:
    def said(runs: Sequence[_Run]) -> str:
        return ", ".join(f"{k}{nested(run.counts)} {written_yarn(ColourSupply(run.symbol))}" for run in runs)

    if not inside:
        return said(before)
    left = [sum(counts) for counts in zip(*(run.counts for run in after), strict=True)]
    until = f"to last {nested(left)} sts, {said(after)}" if after else end
    return f"{said(before)}{', ' * bool(before)}*{said(inside)}; rep from * {until}"
