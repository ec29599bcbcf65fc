"""A whole page of written rows back to stitches: each line's label says which rows it holds for."""

import re
from collections.abc import Iterable, Iterator

from lintarsia.chart import Chart, Side, Worked
from lintarsia.written.labels import read_label, row_numbers
from lintarsia.written.parser import parse_row
from lintarsia.written.working import work_out
from lintarsia.written.written import colours_of

_SIDE_RANGE = re.compile(r"(RS|WS) rows ([0-9]+)–([0-9]+): ?")


def read_back(chart: Chart, lines: Iterable[str]) -> Iterator[tuple[int, str, int | None]]:
    """(row, symbols in working order, stated count) for each row that the lines hold for, in the lines' order.

    The lines are `label: words`, as a page of rows prints them. Raises NotUnderstood for words that cannot be followed
    and ValueError for a line without a row number. The chart gives the colours and how many stitches hang.
    """
    colours = colours_of(chart)
    for line in lines:
        rows, text = _rows(chart, line)
        spoken = parse_row(text, colours)
        for row in rows:
            made = work_out(spoken.items, chart.grid.stitches(row))
            yield row, "".join(made.symbols), spoken.stated


def _rows(chart: Chart, line: str) -> tuple[tuple[int, ...], str]:
    if match := _SIDE_RANGE.match(line):
        side = Side(match[1])
        numbers = row_numbers(f"{match[2]}–{match[3]}")
        return tuple(row for row in numbers if chart.side(row) is side), line[match.end() :]
    label, start = read_label(line)
    if not label.rows:
        raise ValueError(f"{line!r} does not begin with a row's number")
    if (
        label.side
        and chart.worked is not Worked.ROUND
        and any(str(chart.side(row)) != label.side for row in label.rows)
    ):
        raise ValueError(f"{line!r} names a side that is not the chart's")
    return label.rows, line[start:]
