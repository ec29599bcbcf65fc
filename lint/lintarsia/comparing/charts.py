"""Two charts compared: rows, colours, side of the fabric, and what is said of the whole."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from lintarsia.chart import Chart, Worked
from lintarsia.chart.aligning import RowPair, align
from lintarsia.chart.content import chart_fingerprint
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.comparing.facts import facts, without_recoloured
from lintarsia.comparing.model import ChartChange, Fact, How, Recolouring, RowChange, Stitches
from lintarsia.comparing.recolouring import recoloured, translated
from lintarsia.comparing.rows import ComparedRows, as_printed, in_words, textured
from lintarsia.comparing.widths import InsertedColumns, inserted_columns
from lintarsia.telling.terms import Terms

MOST_WORDS = 400  # rows that are put into words; more read nobody


def compare_charts(was: Chart, now: Chart, terms: Terms = Terms.AMERICAN) -> ChartChange:
    """All that differs for the knitter, each change told once as what it is; rows are in the words of `terms`."""
    symbols = recoloured(was, now)
    renamed = translated(was.grid.rows, symbols)
    columns = inserted_columns(renamed, now.grid.rows)
    old, new = _equally_wide(renamed, now.grid.rows, columns)
    rows = ComparedRows(was, now, old, new, symbols, _equally_wide(textured(was), textured(now), columns))
    pairs = rows.crossed(align(old, new))
    changes = rows.changes(pairs)
    turned = tuple(_turned(was, now, pairs))
    told = tuple(_recolouring(was, now, symbols))
    step = {pair.was: pair.now for pair in pairs if pair.was is not None and pair.now is not None}
    said = [*_width(was, now, columns), *without_recoloured(facts(was, now, step, symbols), told)]
    if not (changes or turned or told or said) and chart_fingerprint(was) != chart_fingerprint(now):
        said = [Fact("the place of the stitches in the grid", "", "")]
    same = 0 if columns else _same_to(was, now, pairs, changes, turned, symbols)
    spoken = tuple(_spoken(was, now, change, terms) for change in changes[:MOST_WORDS]) + changes[MOST_WORDS:]
    return ChartChange(was, now, spoken, tuple(said), told, turned, same)


def _equally_wide(
    old: Sequence[str], new: Sequence[str], columns: InsertedColumns | None
) -> tuple[Sequence[str], Sequence[str]]:
    """The rows without stitches that are added, or dropped, at one place in every row."""
    if columns is None:
        return old, new
    start, end = columns.first, columns.first + columns.number
    if columns.added:
        return old, [row[:start] + row[end:] for row in new]
    return [row[:start] + row[end:] for row in old], new


def _width(was: Chart, now: Chart, columns: InsertedColumns | None) -> Iterator[Fact]:
    if columns is None:
        return
    wide = now.grid.width if columns.added else was.grid.width
    first, last = wide - columns.first - columns.number + 1, wide - columns.first
    which = f"stitch {first}" if first == last else f"stitches {first}–{last}"
    more = f"{now.grid.width} ({which}, new in every row)" if columns.added else str(now.grid.width)
    less = str(was.grid.width) if columns.added else f"{was.grid.width} ({which}, in every row)"
    yield Fact("the width in stitches", less, more)


def _recolouring(was: Chart, now: Chart, symbols: Mapping[str, str]) -> Iterator[Recolouring]:
    for old, new in symbols.items():
        one, other = was.colours.get(old), now.colours.get(new)
        names = one.name if one else old, other.name if other else new
        like = one is not None and other is not None and (one.name, one.shade) == (other.name, other.shade)
        yield Recolouring(old, new, *names, renamed=like)


def _turned(was: Chart, now: Chart, pairs: Sequence[RowPair]) -> Iterator[Stitches]:
    """Stretches of rows of now that show the knitter the other side than before, as rows below were added or dropped.

    Where the chart itself is begun or worked otherwise, that is told as such.
    """
    if Worked.ROUND in (was.worked, now.worked):
        return
    started = was.first_row is not now.first_row
    start = last = None
    for pair in (pair for pair in pairs if pair.was and pair.now):
        assert pair.was
        assert pair.now
        if (was.side(pair.was) is not now.side(pair.now)) is not started:
            start, last = start or pair.now, pair.now
        elif start and last:
            yield start, last
            start = last = None
    if start and last:
        yield start, last


def _same_to(
    was: Chart,
    now: Chart,
    pairs: Sequence[RowPair],
    changes: Sequence[RowChange],
    turned: Sequence[Stitches],
    symbols: Mapping[str, str],
) -> int:
    if any(getattr(was, name) != getattr(now, name) for name in ("worked", "technique", "of")):
        return 0
    if was.first_row is not now.first_row and was.worked is not Worked.ROUND:
        return 0
    changed = {change.row for change in changes}
    same = 0
    for pair in pairs:
        row = same + 1
        if pair != (row, row) or row in changed or any(first <= row <= last for first, last in turned):
            break
        text = was.grid.rows[row - 1]
        if any(s in text and not _alike(was, now, s, t) for s, t in symbols.items()):
            break
        same = row
    return same


def _alike(was: Chart, now: Chart, old: str, new: str) -> bool:
    one, other = was.colours.get(old), now.colours.get(new)
    return bool(one and other and (one.name, one.shade) == (other.name, other.shade))


def _spoken(was: Chart, now: Chart, change: RowChange, terms: Terms) -> RowChange:
    if change.how is How.WORDS:
        return change
    before = in_words(was, change.was_row, terms) if change.was_row and _has(was, change.was_row) else ""
    if not change.row or not _has(now, change.row):
        return replace(change, was_words=before)
    after, line = in_words(now, change.row, terms), as_printed(now, change.row, terms)
    return replace(change, was_words=before, now_words=after, line=line)


def _has(chart: Chart, row: int) -> bool:
    return bool(chart.grid.rows[row - 1].strip(NO_STITCH_SYMBOL))
