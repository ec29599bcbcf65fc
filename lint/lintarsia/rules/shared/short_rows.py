"""What a short row has lost: put back where it is certain, offered where it is likely, else left alone.

A chart line that has lost a stitch can be completed in many ways, and most of them draw another picture. A fix is
offered at all where all of this holds:

* Neither the row nor its two neighbours has a no-stitch square, and no shaping is declared in the row or the one above.
* The rows below and above are the same, stitch for stitch: the row stands in the middle of something that goes straight
  up.
* Either all three rows are of one colour; or the row has the same blocks of colour in the same order, every one but one
  of them as wide as in its neighbours, and a further row below or above is the same as the neighbours too. Without that
  further row it may be a zigzag, a check or a dot, every second row of which is drawn one stitch to the side.
* Few stitches are missing: one, or an eighth of the row. A row that lacks more has not been finished.
* Every colour of the key is used somewhere: one that is not may be that of the missing stitch.
* Nothing else in the file counts that row's stitches: no duplicate stitch, no accepted result.

Then the one block that is too narrow is as wide as it is below and above, unless an edge wandered by a stitch in this
very row and the stitch was lost on its other side: two rows in a hundred where edges do wander, and nothing in the
grid tells them from the others. So the fix is safe only where no edge can have moved by itself: in a row of one
colour, where every row of the chart begins and ends in that colour; or where the file says that left mirrors right
and the completed row does (there edges move by twos). Nor is it safe where the chart shows elsewhere what may have
been lost here: a block as narrow as what is missing, or a row that differs by a stitch or a few from both its
neighbours. These are house rules; no source says when a slip of the pen is certain. `tests/mending` holds ten
thousand safe fixes against the pictures that were broken for them.
"""

from functools import lru_cache
from itertools import groupby
from operator import ne

from lintarsia.chart import Chart, Symmetry
from lintarsia.chart.grid import NO_STITCH_SYMBOL, RowNumber
from lintarsia.result import Edit, Fix, Region

MOST_MISSING = 1 / 8


def completing(chart: Chart, row: RowNumber) -> tuple[Fix, ...]:
    """The fix for a knitter's row that is too short, safe where there is no doubt; none where there is much."""
    rows = chart.grid.rows
    if not 1 < row < len(rows):
        return ()
    text, below, above = rows[row - 1], rows[row - 2], rows[row]
    missing = len(below) - len(text)
    if below != above or not 0 < missing <= max(1, int(len(below) * MOST_MISSING)):
        return ()
    if NO_STITCH_SYMBOL in text + below or row in chart.shaping or row + 1 in chart.shaping or _counted(chart, row):
        return ()
    if unused(chart):
        return ()
    narrow = _narrow_block(text, below)
    if narrow is None or (len(set(below)) > 1 and below not in _further(rows, row)):
        return ()
    symbol, column = narrow
    line, start, end_line, end = chart.places.row(row)
    if line != end_line or end - start != len(text):  # spelt with escapes or doubled quotes
        return ()
    place = Region(line, start + column, line, start + column)
    stitches = "the missing stitch" if missing == 1 else f"the {missing:,} missing stitches"
    safe = _edges_stand(chart, below) and not _restless(rows, missing) - {row}
    return (Fix(f"put {stitches} in {symbol} back, as below and above", (Edit(place, symbol * missing),), safe=safe),)


def unused(chart: Chart) -> list[str]:
    """The colours of the key that neither the grid nor a duplicate stitch has."""
    text = "".join(chart.grid.rows)
    worked = {patch.colour for patch in chart.duplicate}
    return [symbol for symbol in chart.colours if symbol not in text and symbol not in worked]


def any_short(chart: Chart) -> bool:
    """Whether some row has fewer stitches than the row below leaves, of whatever colour they may be."""
    if not chart.shaping and chart.grid.whole:
        return False  # every cell has its stitch, as in most charts
    counts = [chart.grid.stitches(row) for row in range(1, chart.grid.height + 1)]
    changes = [chart.shaping[row].net if row in chart.shaping else 0 for row in range(2, chart.grid.height + 1)]
    return any(found < below + change for below, found, change in zip(counts, counts[1:], changes, strict=False))


def _narrow_block(text: str, whole: str) -> tuple[str, int] | None:
    """The symbol and the first column of the one block that is narrower than in `whole`."""
    found, wanted = _blocks(text), _blocks(whole)
    if [symbol for symbol, _ in found] != [symbol for symbol, _ in wanted]:
        return None
    narrow = [i for i, (one, other) in enumerate(zip(found, wanted, strict=True)) if one != other]
    if len(narrow) != 1 or found[narrow[0]][1] > wanted[narrow[0]][1]:
        return None
    return found[narrow[0]][0], sum(width for _, width in found[: narrow[0]])


def _blocks(text: str) -> list[tuple[str, int]]:
    return [(symbol, len(list(block))) for symbol, block in groupby(text)]


def _edges_stand(chart: Chart, whole: str) -> bool:
    """Whether no single edge of the completed row can have been meant a stitch further left or right."""
    if len(set(whole)) > 1:
        return Symmetry.LEFT_RIGHT in chart.symmetry and whole == whole[::-1]
    return all(text[0] == text[-1] == whole[0] for text in chart.grid.rows if text)


@lru_cache(maxsize=1)
def _restless(rows: tuple[str, ...], narrow: int) -> frozenset[int]:
    """The knitter's rows that have a block of at most `narrow` stitches, or an edge that steps out and back.

    Asked for each short row of a chart, hence remembered.
    """
    found = {row for row, text in enumerate(rows, 1) if any(width <= narrow for _, width in _blocks(text))}
    for row in range(2, len(rows)):
        below, here, above = rows[row - 2 : row + 1]
        few = max(2, int(len(here) * MOST_MISSING))
        if below == above and len(here) == len(below) and 0 < sum(map(ne, here, below)) <= few:
            found.add(row)
    return frozenset(found)


def _further(rows: tuple[str, ...], row: RowNumber) -> tuple[str, ...]:
    """The rows two below and two above."""
    return rows[max(0, row - 3) : row - 2] + rows[row + 1 : row + 2]


def _counted(chart: Chart, row: RowNumber) -> bool:
    return any(patch.row == row for patch in chart.duplicate) or any(
        accepted.row == row and accepted.stitches for accepted in chart.suppressions
    )
