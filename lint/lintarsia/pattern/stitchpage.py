"""The page of a piece that is worked in a stitch of its own (`k2, p2 rib`): its rows are not stocking stitch."""

from dataclasses import replace

from lintarsia.pattern.choosing import PieceInSize
from lintarsia.written.page import RowsPage, abbreviations_of
from lintarsia.written.rowwords import RowWords, merged
from lintarsia.written.style import Style
from lintarsia.written.writer import write_rows


def in_its_stitch(page: RowsPage, one: PieceInSize, style: Style) -> RowsPage:
    """`work in k2, p2 rib` for rows that are not shaped; the page as it is for a piece that names no stitch."""
    if not one.piece.stitch or one.piece.charts:
        return page
    rows = [_said(row, one) for row in write_rows(one.chart, style=replace(style, merge=False))]
    lines = merged(rows) if style.merge else tuple(rows)
    how = "Worked in rounds" if lines[0].round else "Worked back and forth"
    reading = f"{how} in {one.piece.stitch}."
    counted = [line for line in page.reading if line.startswith(("The count", "A shaped"))]
    return replace(page, rows=lines, reading=(reading, *counted), abbreviations=abbreviations_of(lines))


def _said(row: RowWords, one: PieceInSize) -> RowWords:
    shaped = row.rows[0] in one.chart.shaping
    return row if shaped else replace(row, words=f"work in {one.piece.stitch}")
