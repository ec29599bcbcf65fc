"""Outlines of several sizes on one chart: each round the very stitches of its size, the motif lying on itself."""

import re
from pathlib import Path

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from lintarsia.drawing.nestedsizes import loops, nested_svg
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.allsizes import AllSizes, all_sizes
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.reading import read_pattern
from lintarsia.settings import Settings
from soundness import faults, pieces, seen_at

CHART = """\
lintarsia: 1
title: Field
worked: flat
gauge: {stitches: 20, rows: 28, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  WWB
  BWW
"""
PATTERN = """\
lintarsia-pattern: 1
title: Field
sizes: [s, l]
pieces:
  front:
    chart: f.chart.yaml
    plain: B
    cast-on: {s: 6, l: 9}
    rows: {s: 5, l: 8}
    at: {stitch: {s: 2, l: 4}, row: {s: 1, l: 3}}
    shaping: {s: {4: {right: -1}}, l: {6: {right: -2, left: -1}}}
  back: {colour: B, cast-on: {s: 6, l: 8}, rows: {s: 5, l: 8}}
"""


def whole(folder: Path, piece: str) -> AllSizes:
    (folder / "f.chart.yaml").write_text(CHART, "utf-8")
    (folder / "f.pattern.yaml").write_text(PATTERN, "utf-8")
    reading = read_pattern(str(folder / "f.pattern.yaml"))
    assert reading.problems == ()
    assert reading.pattern is not None
    return all_sizes(choose(work_on(reading.pattern, Settings(root=str(folder))), piece, None), "Field")


def area(way: list[tuple[int, int]]) -> float:
    """Twice the area within a closed way, by the trapezoid rule: above 0 where it is on the left."""
    return sum(x * b - a * y for (x, y), (a, b) in zip(way, [*way[1:], way[0]], strict=True))


@given(arrays(bool, st.tuples(st.integers(1, 7), st.integers(1, 7))))
def test_the_ways_hold_just_the_stitches(stitches: "np.ndarray[tuple[int, int], np.dtype[np.bool_]]") -> None:
    ways = list(loops(stitches))
    assert sum(map(area, ways)) == 2 * int(stitches.sum())
    for way in ways:
        steps = [(a - x, b - y) for (x, y), (a, b) in zip(way, [*way[1:], way[0]], strict=True)]
        assert all((dx == 0) != (dy == 0) for dx, dy in steps)


def test_the_motif_lies_on_itself(tmp_path: Path) -> None:
    found = whole(tmp_path, "front")
    rows = "BBBBBBBBB BBBBBBBBB BBBBWWBBB BBBWWBBBB BBBBBBBBB .BBBBBB.. .BBBBBB.. .BBBBBB.."
    assert " ".join(found.chart.grid.rows) == rows
    assert [int(size.stitches.sum()) for size in found.sizes] == [18 + 10, 45 + 18]
    assert (found.rows, found.columns) == (range(2, 4), range(3, 6))


def test_a_plain_piece_stands_on_its_cast_on_in_the_middle(tmp_path: Path) -> None:
    found = whole(tmp_path, "back")
    assert [size.stitches[0].tolist() for size in found.sizes] == [[False] + [True] * 6 + [False], [True] * 8]
    assert [bool(size.stitches[5].any()) for size in found.sizes] == [False, True]


def test_each_size_has_its_outline_and_its_line_in_the_legend(tmp_path: Path) -> None:
    svg = nested_svg(whole(tmp_path, "front"))
    assert re.findall(r'data-size="(\w)"', svg) == ["l", "s"], "the smallest is drawn last, on top"
    assert "s: 6 sts, 5 rows" in svg
    assert "l: 9 sts, 8 rows" in svg
    assert "no stitch" not in svg
    own = [re.search(rf'data-size="{size}".*?stroke="#2b2622"([^>]*)', svg) for size in "sl"]
    assert [found is not None and "dasharray" in found[1] for found in own] == [False, True]


def test_rows_have_the_charts_own_numbers(tmp_path: Path) -> None:
    svg = nested_svg(whole(tmp_path, "front"))
    numbers = re.search(r'<g class="lx-number lx-row-numbers".*?</g></g>', svg)
    assert numbers is not None
    assert sorted(re.findall(r">(-?\d+)</text>", numbers[0])) == ["1", "2"]


def test_the_sheet_of_all_sizes_is_sound_and_shows_each_stitch_in_its_colour(tmp_path: Path) -> None:
    one = whole(tmp_path, "front")
    svg = nested_svg(one)
    assert faults(svg) == []
    found = pieces(svg)
    wide, high = map(float, svg.partition('viewBox="0 0 ')[2].partition('"')[0].split())
    for piece in found:
        left, top, right, foot = piece.box
        assert -1 <= left <= right <= wide + 1
        assert -1 <= top <= foot <= high + 1
    cells = [p for p in found if "lx-size" not in p.within and "lx-lines" not in p.within]
    numbers = {p.text: p.middle for p in found if p.kind == "text" and "lx-rim" in p.within}
    outlines = [p for p in found if "lx-size" in p.within]
    left, top, right, foot = (
        min(p.box[0] for p in outlines), min(p.box[1] for p in outlines),
        max(p.box[2] for p in outlines), max(p.box[3] for p in outlines),
    )  # fmt: skip
    grid, high = one.chart.grid, (foot - top) / one.chart.grid.height
    assert (right - left) / grid.width == 20
    for row, text in enumerate(grid.rows, 1):
        for column, symbol in enumerate(text):
            point = left + 20 * column + 4, foot - (row - 0.5) * high
            seen = seen_at(cells, point)
            assert seen == (one.chart.colours[symbol].shade if symbol != "." else "#fbf8f1")
    assert {"1", "2"} <= set(numbers)
    legend = [p for p in found if p.kind == "path" and "lx-size" not in p.within and p.box[1] > foot + 10]
    dashes = {p.data.get("size"): p.dashes for p in outlines if p.stroke == "#2b2622"}
    assert len(set(dashes.values())) == len(one.sizes) == 2
    assert set(dashes.values()) <= {p.dashes for p in legend}
