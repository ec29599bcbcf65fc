"""A bind-off at the end of a row moved to the start of the next, in `shaping` and in the grid."""

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL, RowNumber
from lintarsia.chart.openings import Columns
from lintarsia.chart.shaping import Change
from lintarsia.chart.sides import Stint, row_changes
from lintarsia.result import Edit, Fix, Region


def moved_up(chart: Chart, stint: Stint, change: Change) -> tuple[Fix, ...]:
    """The fix; none where the layout or the rows around leave a doubt.

    It is safe where the stitches that come back are of one colour with those below and beside them. Otherwise the
    picture goes on straight from the row below, which the designer may want to see.
    """
    row = stint.row
    here = chart.grid.rows[row - 1]
    columns = _outside(stint, change, chart.grid.width - len(here))
    text = _restored(chart, RowNumber(row), columns) if row < chart.grid.height else None
    edits = _moved(chart, RowNumber(row), change)
    if text is None or edits is None or row in chart.written or any(row == at for at, _ in chart.written_sides):
        return ()
    line, start, _, _ = chart.places.row(row)
    place = Region(line, start + columns[0], line, start + columns[1])
    beside = here[columns[1] if stint.leftward else columns[0] - 1]
    safe = set(text) == {beside}
    what = f"bind off the {change.stitches} stitches in row {row + 1}, which starts there"
    return (Fix(what, (Edit(place, text), *edits), safe=safe),)


def _outside(stint: Stint, change: Change, margin: int) -> Columns:
    """The squares beyond the edge where the stint ends, in the row's text, which begins `margin` columns in."""
    first, end = stint.columns[0] - margin, stint.columns[1] - margin
    return (first - change.stitches, first) if stint.leftward else (end, end + change.stitches)


def _restored(chart: Chart, row: RowNumber, columns: Columns) -> str | None:
    """What the row below has in squares that this row and the next leave empty."""
    here, below, above = chart.grid.rows[row - 1], chart.grid.rows[row - 2], chart.grid.rows[row]
    line, start, end_line, end = chart.places.row(row)
    plain = line == end_line and end - start == len(here) and row not in chart.places.apart
    if (
        row < 2
        or not plain
        or not len(here) == len(below) == len(above)
        or not 0 <= columns[0] < columns[1] <= len(here)
    ):
        return None
    part = slice(*columns)
    if (here[part] + above[part]).strip(NO_STITCH_SYMBOL) or NO_STITCH_SYMBOL in below[part]:
        return None
    return below[part]


def _moved(chart: Chart, row: RowNumber, change: Change) -> tuple[Edit, ...] | None:
    """The edits in `shaping`, where the row has a key of its own and the next row's edge is free."""
    editor, edge, path = chart.places.editor, str(change.edge), ("shaping", str(row))
    here, after = chart.shaping[row], chart.shaping.get(row + 1)
    if editor is None or editor.spelling(path) is None or change.name:
        return None
    alone = len(row_changes(chart, row)) == 1
    if after is None and alone:
        return (Edit(chart.places.key(*path), str(row + 1)),)
    if editor.spelling((*path, edge)) is None or (after and any(c.edge in (change.edge, None) for c in after.changes)):
        return None
    if sum(other.edge is change.edge for other in here.changes) != 1:
        return None
    entry = f"{edge}: {f'{{bind-off: {change.stitches}}}' if change in here.stated else -change.stitches}"
    taken = editor.taking_out(path if alone else (*path, edge))
    if after is None:
        put = editor.adding(("shaping",), f"{row + 1}: {{{entry}}}")
    else:
        put = editor.adding(("shaping", str(row + 1)), entry)
    return (taken, put) if taken and put else None
