"""What a change means for a knitter who has gone past it: to embroider it over, to rip back, or nothing at all."""

from collections.abc import Iterator, Sequence

from lintarsia.chart import Chart
from lintarsia.comparing.model import ChartChange, How, Recolouring, RowChange
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.languages import counted, phrase
from lintarsia.telling.names import row_word

FEW = 10  # stitches in a row, or
MANY = 40  # in all, up to which one embroiders over rather than rips back: house values
_WORKED_OVER = (How.STITCHES, How.SHIFTED, How.MIRRORED, How.EXCHANGED)  # other colours over the same stitches


def stitches_in(rows: Sequence[RowChange]) -> int:
    """How many stitches differ in these rows."""
    return sum(last - first + 1 for row in rows for first, last in row.stitches)


def means(change: ChartChange, rows: Sequence[RowChange]) -> str:
    """For a knitter who has knitted past these rows."""
    how, back = rows[0].how, (rows[0].row or rows[0].was_row or 1) - 1
    if how is How.WORDS:
        return phrase("nothing in the knitting, if you work from the chart")
    if how is How.EMBROIDERED:
        return phrase("nothing to rip back: embroider it as it stands now")
    if how in _WORKED_OVER:
        number = stitches_in(rows)
        if number <= MANY and all(stitches_in([row]) <= FEW for row in rows):
            return _worked_over(number) + _colours(change, rows)
    return _rip_back(row_word(change.now), back)


def past_motif(change: ChartChange) -> str:
    return _rip_back(row_word(change.now), change.same_to_row)


def means_in_all(change: ChartChange) -> str:
    """For a knitter who has knitted past all of it: nobody rips back for what is only read or embroidered."""
    if change.motif:
        return past_motif(change)
    spoken = [words for one in change.recolourings if (words := past_recolouring(change, one))]
    knitted = [row for row in change.rows if row.how not in (How.WORDS, How.EMBROIDERED)]
    rows = knitted or [row for row in change.rows if row.how is How.EMBROIDERED] or change.rows
    if not rows or (spoken and not knitted):
        return "; ".join(spoken)
    if spoken:
        return _rip_back(row_word(change.now), change.same_to_row)
    if all(row.how in _WORKED_OVER for row in rows) or len({row.how for row in rows}) == 1:
        return means(change, rows)
    return _rip_back(row_word(change.now), (rows[0].row or rows[0].was_row or 1) - 1)


def _rip_back(word: str, row: int) -> str:
    if row:
        return phrase("rip back to {word} {row}, the last {word} that is right", word, row=row)
    return phrase("rip back to the cast-on")


def _worked_over(number: int) -> str:
    return counted(number, "work it over in duplicate stitch", "work the {n} stitches over in duplicate stitch")


def past_recolouring(change: ChartChange, one: Recolouring) -> str:
    """For a knitter who has knitted stitches of that colour."""
    number = sum(row.count(one.was) for row in change.was.grid.rows)
    if one.renamed:
        return ""
    if number <= MANY:
        return _worked_over(number)
    first = next(k for k, row in enumerate(change.was.grid.rows, 1) if one.was in row)
    return _rip_back(row_word(change.was), first - 1)


def _colours(change: ChartChange, rows: Sequence[RowChange]) -> str:
    """`, in W (Bone)`: what the stitches are now."""
    symbols = dict.fromkeys(s for row in rows for s in _now(change.now, row))
    names = [f"{change.now.colours[s].name} ({s})" for s in symbols if s in change.now.colours]
    return phrase(", in {colours}", colours=one_and_all(names)) if names else ""


def _now(chart: Chart, row: RowChange) -> Iterator[str]:
    for first, last in row.stitches:
        yield from chart.grid.text(row.row or 1, first, last)[::-1]
