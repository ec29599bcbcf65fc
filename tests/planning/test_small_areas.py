"""Small areas against a walk from stitch to stitch."""

from collections import Counter

from charts_drawn import GAUGE
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour
from lintarsia.chart.grid import build_grid
from lintarsia.planning.areas import Area, small_areas
from lintarsia.planning.runs import chart_runs

KEY = {symbol: Colour(symbol, symbol, "#000000") for symbol in "ABC"}
GRIDS = st.integers(1, 8).flatmap(
    lambda width: st.lists(st.text("AAABC.", min_size=width, max_size=width), min_size=1, max_size=8)
)


def walked(rows: list[str], largest: int) -> set[tuple[str, frozenset[tuple[int, int]], tuple[str, ...]]]:
    """(colour, stitches, the colours it has most sides with) of every area; no-stitch cells part areas only if wide.

    A run goes on over no-stitch cells, so stitches of one colour on both sides of such a gap touch.
    """
    cells = {(r, c): s for r, row in enumerate(rows) for c, s in enumerate(row) if s != "."}
    spans: dict[tuple[int, int], tuple[int, int, int]] = {}  # cell -> its run: row, left, right
    for r, row in enumerate(rows):
        line: list[int] = []
        for c in [c for c, s in enumerate(row) if s != "."] + [-1]:
            if line and (c < 0 or row[c] != row[line[0]]):
                spans |= {(r, k): (r, line[0], line[-1]) for k in line}
                line = []
            line.append(c)
    found, seen = set(), set()
    for start, symbol in cells.items():
        if start in seen:
            continue
        area, edge = {start}, [start]
        while edge:
            r, left, right = spans[edge.pop()]
            beside = [(r, c) for c in range(left, right + 1)]
            for other, (o, low, high) in spans.items():
                if abs(o - r) == 1 and low <= right + 1 and high >= left - 1:
                    beside.append(other)
            fresh = {cell for cell in beside if cells.get(cell) == symbol} - area
            area |= fresh
            edge += fresh
        seen |= area
        if len(area) <= largest:
            count = Counter(
                cells[cell]
                for r, left, right in {spans[cell] for cell in area}
                for c in range(left, right + 1)
                for cell in ((r - 1, c), (r + 1, c), (r, c - 1), (r, c + 1))
                if cells.get(cell, symbol) != symbol
            )
            most = max(count.values(), default=0)
            if most:
                found.add((symbol, frozenset(area), tuple(sorted(k for k, n in count.items() if n == most))))
    return found


@settings(max_examples=200)
@given(GRIDS, st.integers(1, 6))
def test_small_areas_are_those_of_a_walk(rows: list[str], largest: int) -> None:
    chart = Chart("x", "x", GAUGE, KEY, build_grid(rows, "ABC"))
    runs = chart_runs(chart)
    areas = small_areas(chart, runs, largest)
    told = set()
    for area in areas:
        stitches = frozenset(
            (int(runs.row[run]), column)
            for run in area.runs
            for column in range(int(runs.left[run]), int(runs.right[run]) + 1)
            if rows[int(runs.row[run])][column] != "."
        )
        assert area.size == len(stitches)
        told.add((chart.grid.symbols[area.colour], stitches, chart.grid.symbols[area.around]))
    expected = {(symbol, stitches, around[0]) for symbol, stitches, around in walked(rows, largest)}
    assert told == expected
    assert [area.runs[0] for area in areas] == sorted(area.runs[0] for area in areas)


def test_the_edges_of_the_chart_border_on_nothing() -> None:
    """An area in each corner, so that each edge would lend it a colour from the other side."""
    chart = Chart("x", "x", GAUGE, KEY, build_grid(["BAC", "AAA", "CAB"], "ABC"))
    assert [(a.colour, a.around, a.size) for a in small_areas(chart, chart_runs(chart), 1)] == [
        (2, 0, 1), (1, 0, 1), (1, 0, 1), (2, 0, 1),
    ]  # fmt: skip
    strip = Chart("x", "x", GAUGE, KEY, build_grid(["BAC"], "ABC"))
    assert small_areas(strip, chart_runs(strip), 2)[0] == Area(2, 0, (0,), 1)
