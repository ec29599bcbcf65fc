"""Yarns that never turn back inside a row, ends that hang as long as they are said to, strong lines at the chart's own
fives and tens, and what test knitters said: by geometry alone."""

import itertools
import re

import pytest
from drawers import charts, neck
from drawn import make_chart
from lxml import etree

from lintarsia.chart import DuplicateStitch
from lintarsia.drawing import chart_geometry, chart_svg, fabric_svg, sheets
from lintarsia.drawing.back import draw_loose
from lintarsia.drawing.geometry import CELL, geometry
from lintarsia.drawing.routes import routes
from lintarsia.drawing.saidmarks import SHADES, SaidMark, said_layer
from lintarsia.drawing.sewn import sewn_rows
from lintarsia.drawing.sheets import part_of, plan_sheets
from lintarsia.planning.planner import make_plan
from soundness import SVG, faults, pieces, segments


@pytest.mark.parametrize("name", ["moon", "neck", "turned", "ragged", "tall", "round"])
def test_a_yarn_never_turns_back_inside_a_row(name: str) -> None:
    chart = charts()[name]
    place = geometry(chart)
    for route in routes(chart, make_plan(chart), place):
        for line in segments(route.passes):
            steps = [b[0] - a[0] for a, b in itertools.pairwise(line) if abs(b[0] - a[0]) > 0.01]
            assert all(step > 0 for step in steps) or all(step < 0 for step in steps), route.name
            levels = [y for _, y in line]
            assert max(levels) - min(levels) <= 0.4 * place.cell_h, "it stays in the middle of its row"


def test_every_yarn_is_one_line_from_its_join_to_its_finish() -> None:
    """Where a stretch ends, a turn or a float begins, and where that ends, the next stretch."""
    chart = charts()["moon"]
    for route in routes(chart, make_plan(chart), geometry(chart)):
        drawn = segments(route.passes)
        between = segments(route.turns) if route.turns else []
        between += segments(route.floats) if route.floats else []
        assert drawn[0][0] == pytest.approx(route.start, abs=0.1)
        assert drawn[-1][-1] == pytest.approx(route.end, abs=0.1)
        links = [(line[0], line[-1]) for line in between if len(line) > 1]
        for one, other in itertools.pairwise(drawn):
            if max(abs(one[-1][0] - other[0][0]), abs(one[-1][1] - other[0][1])) > 0.2:
                assert any(_near(one[-1], start) and _near(other[0], end) for start, end in links), route.name


def _near(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return abs(one[0] - other[0]) < 0.2 and abs(one[1] - other[1]) < 0.2


def test_ends_hang_three_rows_long_at_the_back() -> None:
    """Those of a finish somewhat shorter, and none sways further than a stitch."""
    chart = charts()["moon"]
    place = geometry(chart)
    ways = routes(chart, make_plan(chart), place)
    svg = f'<svg xmlns="http://www.w3.org/2000/svg">{draw_loose(chart, ways, place)}</svg>'
    assert faults(svg) == []
    hung = {tuple(line) for piece in pieces(svg) for line in piece.lines}
    for way in ways:
        for start, least, most in ((way.start, 2.9, 3.4), (way.end, 2.3, 2.8)):
            longs = []
            for line in (line for line in hung if _near(line[0], start)):
                lowest = max(y for _, y in line)
                longs.append((lowest - start[1]) / place.cell_h)
                if longs[-1] > 2:
                    assert max(abs(x - start[0]) for x, _ in line) < CELL / 2
                    assert line[-1][1] == lowest, "it hangs down"
            assert any(least < long < most for long in longs)
            assert max(longs) < 3.4


@pytest.mark.parametrize("size", [(26, 30), (120, 90)])
def test_strong_lines_stand_at_the_chart_s_own_fives_and_tens(size: tuple[int, int]) -> None:
    wide, high = size
    chart = make_chart("\n".join(["B" * wide] * high))
    for sheet, svg in zip(plan_sheets(chart), sheets(chart), strict=True):
        _, place = part_of(chart, sheet)
        root = etree.fromstring(svg.encode())
        for name, step in (("lx-line5", 5), ("lx-line10", 10), ("lx-line", 1)):
            (path,) = [p for p in root.iter(f"{SVG}path") if p.get("class") == name]
            upright = {float(x) for x in re.findall(r"M([0-9.]+) [0-9.]+V", path.get("d"))}
            level = {float(y) for y in re.findall(r"M[0-9.]+ ([0-9.]+)H", path.get("d"))}
            stitches = {round((place.x(place.columns) - x) / CELL) + place.skip_stitches for x in upright}
            rows = {round((place.y(0) - y) / place.cell_h) + place.skip_rows for y in level}
            wanted_stitches = range(place.skip_stitches + 1, place.skip_stitches + place.columns)
            wanted_rows = range(place.skip_rows + 1, place.skip_rows + place.rows)
            for found, wanted in ((stitches, wanted_stitches), (rows, wanted_rows)):
                weights = {n: 10 if n % 10 == 0 else 5 if n % 5 == 0 else 1 for n in wanted}
                assert found == {n for n, weight in weights.items() if weight == step}


def test_what_was_said_is_outlined_around_its_stitches() -> None:
    chart = neck()
    place = chart_geometry(chart)
    marks = (
        SaidMark(2, (3, 5), "warning", "a yarn <too> few"),
        SaidMark(12, (13, 15), "note", "which blue?"),
        SaidMark(7, None, "clear", "lovely"),
        SaidMark(99, (1, 1), "note", "of another chart"),
    )
    layer = said_layer(place, marks, "p-")
    svg = chart_svg(chart, over=layer).replace('display="none"', "")
    root = etree.fromstring(svg.encode())
    links = list(root.iter(f"{SVG}a"))
    assert [(e.get("href"), e.get("id"), e.get("data-said")) for e in links] == [
        ("#said-0", "p-said-0", "0"), ("#said-1", "p-said-1", "1"), ("#said-2", "p-said-2", "2"),
    ]  # fmt: skip
    assert [e.findtext(f"{SVG}title") for e in links] == ["a yarn <too> few", "which blue?", "lovely"]
    assert [fault for fault in faults(svg) if "leads nowhere" not in fault] == []
    found = [p for p in pieces(svg) if "lx-said" in p.within]
    for number, mark in enumerate(marks[:3]):
        own = [p for p in found if p.data["said"] == str(number)]
        first, last = mark.stitches or (1, 15)
        left, right = place.x(15 - last), place.x(15 - first + 1)
        for box in [p for p in own if p.kind == "rect"]:
            assert box.box == pytest.approx((left - 1, place.y(mark.row) - 1, right + 1, place.y(mark.row - 1) + 1))
        shade = SHADES[mark.state]
        assert [p.stroke for p in own if p.kind == "rect"][-1] == shade
        bubble, sign = [p for p in own if p.kind == "path"]
        assert bubble.fill == shade
        outer, inner = bubble.box, sign.box
        assert outer[0] < inner[0] <= inner[2] < outer[2], "the sign lies in the bubble"
        assert outer[1] < inner[1] <= inner[3] < outer[3]
        assert abs(outer[0] - left) < CELL
        assert abs(outer[1] - place.y(mark.row)) < CELL
    assert said_layer(place, marks[3:], "") == ""


@pytest.mark.parametrize(
    ("patch", "columns"),
    [
        (DuplicateStitch("W", 1, (2, 4)), {12, 13, 14}),
        (DuplicateStitch("W", 12, (16, 16)), {0}),
        (DuplicateStitch("W", 12, (15, 20)), {0, 1}),
        (DuplicateStitch("W", 13, (1, 1)), set()),
        (DuplicateStitch("W", 0, (1, 1)), set()),
        (DuplicateStitch("Q", 1, (1, 1)), set()),
        (DuplicateStitch("W", 1, (0, 1)), set()),
    ],
)
def test_only_what_lies_on_the_chart_is_embroidered(patch: DuplicateStitch, columns: set[int]) -> None:
    chart = make_chart(duplicate=(patch,))
    assert {column for row in sewn_rows(chart).values() for column in row} == columns
    front = fabric_svg(chart)
    plain = fabric_svg(make_chart())
    inside = 1 <= patch.row <= 12 and patch.stitches[0] >= 1 and patch.stitches[1] <= 16 and patch.colour == "W"
    assert (front.count("marker-mid") - plain.count("marker-mid")) == inside


def test_stitches_of_the_fabric_cover_one_another_and_are_alike_on_both_sides() -> None:
    """Each knit stitch is two legs, mirrored, a little wider together than a square is high."""
    svg = fabric_svg(make_chart())
    root = etree.fromstring(svg.encode())
    legs = [p for p in root.iter(f"{SVG}path") if (p.get("id") or "").endswith("-leg")]
    assert len(legs) == 1
    high = geometry(make_chart()).cell_h
    (line,) = segments(legs[0].get("d"))
    xs, ys = [x for x, _ in line], [y for _, y in line]
    assert -12 < min(xs) < -8
    assert -1 < max(xs) < 1, "the legs meet in the middle of the stitch"
    assert -0.9 * high < min(ys) < -0.3 * high, "it reaches into the row above"
    assert 1.1 * high < max(ys) < 1.4 * high, "and into the row below"
    markers = list(root.iter(f"{SVG}marker"))
    assert len(markers) == 4, "one a colour"
    for marker in markers:
        uses = [(u.get("href"), u.get("transform")) for u in marker.iter(f"{SVG}use")]
        assert uses[0][0] == uses[1][0]
        assert (uses[0][1], uses[1][1]) == (None, "scale(-1 1)")
