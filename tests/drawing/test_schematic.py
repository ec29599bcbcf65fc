"""Schematics: outlines held to the rows by hand arithmetic, and measures to gauge arithmetic (stitches over gauge, as
Vogue Knitting: The Ultimate Knitting Book, 2018, on schematics and gauge; from memory)."""

import re
from dataclasses import replace

from lxml import etree

from lintarsia.chart import Chart
from lintarsia.drawing.dimensions import Measured, dimensions
from lintarsia.drawing.schematic import labels, scale_for, schematic_svg, told
from lintarsia.drawing.silhouette import Silhouette, silhouette
from lintarsia.reading import read_chart

HEAD = """\
lintarsia: 1
title: Front <&>
gauge: {stitches: 20, rows: 40, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
"""
# 5 mm a stitch, 2.5 mm a row. Cast on 40 = 20 cm. Armhole at row 41: 4 bound off at the right, 5 at the left in row 42.
# Neck of 9 at row 61 of 80; from row 77 the shoulders go 5 at a time.
_BODY, _ABOVE = "A" * 40, "." * 5 + "A" * 31 + "." * 4
_NECK = "." * 5 + "A" * 12 + "." * 9 + "A" * 10 + "." * 4
_TOP = "." * 10 + "A" * 7 + "." * 9 + "A" * 5 + "." * 9


def chart(rows: list[str], more: str = "", gauge: str = "") -> Chart:
    head = HEAD if not gauge else HEAD.replace("over: 10 cm", gauge)
    text = head + more + "chart: |\n" + "".join(f"  {row}\n" for row in reversed(rows))
    reading = read_chart("front.chart.yaml", text.encode())
    assert reading.chart is not None, reading.problems
    return reading.chart


def front() -> Chart:
    rows = [_BODY] * 40 + ["A" * 36 + "." * 4] + [_ABOVE] * 19 + [_NECK] * 16 + ["." * 5 + _NECK[5:22] + _TOP[22:]]
    rows = [*rows[:76], _NECK[:26] + "A" * 5 + "." * 9, *[_TOP] * 3]
    more = "shaping: {41: {right: -4}, 42: {left: -5}, 77: {right: -5}, 78: {left: -5}}\ndivide: {61: {by: bind-off}}\n"
    return chart(rows, more)


def measured(shape: Silhouette) -> dict[str, float]:
    return {str(one.what): round(one.mm, 6) for one in dimensions(shape)}


def test_measures_of_a_front_are_those_of_its_stitches_and_rows() -> None:
    assert measured(silhouette(front())) == {
        "width at the cast-on": 40 * 5.0,
        "height": 80 * 2.5,
        "to the armhole": 40 * 2.5,
        "armhole depth": 36 * 2.5,
        "shoulder slope": 4 * 2.5,
        "neck width": 9 * 5.0,
        "neck depth": 20 * 2.5,
        "shoulder": 10 * 5.0,
    }


def test_the_outline_goes_around_every_stitch_and_no_further_than_a_step() -> None:
    shape = silhouette(front())
    xs, ys = [x for x, _ in shape.outline], [y for _, y in shape.outline]
    assert (min(xs), max(xs), min(ys), max(ys)) == (-100.0, 100.0, 0.0, 200.0)
    assert (100.0, 0.0) in shape.outline
    assert (-100.0, 0.0) in shape.outline
    # The neck's corners: left-hand side ends at column 17, the right-hand one begins at 26, and 20 is the middle.
    assert {(-15.0, 150.0), (30.0, 150.0)} <= set(shape.outline)
    knitted = sum(row.count("A") for row in front().grid.rows) * 5.0 * 2.5
    assert abs(area(shape.outline) - knitted) < 0.02 * knitted


def area(points: tuple[tuple[float, float], ...]) -> float:
    """The shoelace formula."""
    turned = [*points[1:], points[0]]
    return abs(sum(x * b - a * y for (x, y), (a, b) in zip(points, turned, strict=True))) / 2


def test_a_slope_of_many_decreases_is_one_line() -> None:
    rows = ["A" * 30] * 6 + ["." * (i // 2) + "A" * (30 - i // 2) for i in range(2, 42)]
    shaping = ", ".join(f"{7 + i - 2}: {{left: -1}}" for i in range(2, 42) if i % 2 == 0)
    shape = silhouette(chart(rows, f"shaping: {{{shaping}}}\n"))
    assert len(shape.outline) <= 6
    assert "armhole depth" not in measured(shape)


def test_a_tube_is_measured_around_and_lies_flat() -> None:
    rows = ["A" * 44] * 12 + ["A" * 33 + "." * 11] * 2 + ["A" * 22 + "." * 22] * 2
    shape = silhouette(chart(rows, "worked: round\nshaping: {13: -11, 15: -11}\n"))
    assert measured(shape) == {
        "around": 220.0, "around at the top": 110.0, "height": 40.0, "to the shaping": 30.0,
    }  # fmt: skip
    assert max(x for x, _ in shape.outline) == 55.0  # a quarter of 220 to either side of the middle


def test_sizes_are_nested_in_both_units_and_the_gauge_s_own_first() -> None:
    small, large = silhouette(chart(["A" * 40] * 20)), silhouette(chart(["A" * 60] * 28))
    # 20 cm = 7.87 in, 30 cm = 11.81 in; 20 rows = 5 cm = 1.97 in, 28 = 7 cm = 2.76 in: to the nearest quarter.
    assert told([small, large]) == (
        ("width at the cast-on", "20 (30) cm / 7¾ (11¾) in"),
        ("height", "5 (7) cm / 2 (2¾) in"),
    )
    inches = silhouette(chart(["A" * 40] * 20, gauge="over: 4 in"))
    assert told([inches, inches])[0] == ("width at the cast-on", "8 in / 20.5 cm")


def test_what_one_size_lacks_is_not_told_for_the_others() -> None:
    plain = silhouette(chart(["A" * 40] * 80))
    assert {label.dimension.what for label in labels([plain, silhouette(front())])} == {
        Measured.CAST_ON, Measured.HEIGHT,
    }  # fmt: skip


def test_the_drawing_is_to_scale_and_keeps_its_words_inside() -> None:
    shapes = [silhouette(chart(["A" * 40] * 20)), silhouette(front())]
    scale = scale_for(shapes)
    root = etree.fromstring(schematic_svg("Front <&>", shapes, scale, prefix="s-"))
    wide, high = (float(part) for part in root.get("viewBox").split()[2:])
    way = root.find(".//{*}path[@class='lx-outline']").get("d")
    xs = [float(x) for x in re.findall(r"[ML]([-\d.]+)", way)]
    assert abs((max(xs) - min(xs)) / scale - 200) < 0.1
    for text in root.iter("{*}text"):
        half = len(text.text) * 12.5 * 0.56
        x, y, anchor = float(text.get("x")), float(text.get("y")), text.get("text-anchor")
        left = x - {"start": 0, "middle": half / 2, "end": half}[anchor]
        assert 0 <= left < left + half <= wide, text.text
        assert 0 < y < high, text.text
    assert "neck" not in root.findtext("{*}desc")
    assert root.findtext("{*}title") == "Schematic of Front <&>"


def test_a_row_without_stitches_ends_a_piece() -> None:
    shape = silhouette(chart(["A" * 9] * 4 + ["." * 9], "shaping: {5: -9}\n"))
    assert measured(shape)["width at the cast-on"] == 45.0


def test_the_depth_of_a_neck_stands_below_the_necks_of_smaller_sizes() -> None:
    """The smaller size's neck ends at 120 of its 160 mm, the larger's at 150: its outline is 30 mm further down."""
    large = silhouette(front())
    points = tuple((0.8 * x, 0.8 * y) for x, y in large.outline)
    small = replace(large, outline=points, stitch_mm=0.8 * large.stitch_mm, row_mm=0.8 * large.row_mm)
    alone, nested = (schematic_svg("front", shapes, scale=1.0, prefix="m-") for shapes in ([large], [small, large]))
    gap = [_below_the_neck(svg) for svg in (alone, nested)]
    assert gap == [gap[0], gap[0] + 30]


def _below_the_neck(svg: str) -> float:
    """How far below the largest size's neck, at the foot of the one upright line in the middle, its words stand."""
    lines = re.findall(r'class="lx-measure" d="M([\d.]+) ([\d.]+)V([\d.]+)', svg)
    _, middle, _ = sorted({x for x, _, _ in lines}, key=float)
    foot = next(low for x, _, low in lines if x == middle)
    words = re.findall(rf'<text x="{middle}" y="([\d.]+)"', svg)
    return min(float(y) for y in words if float(y) > float(foot)) - float(foot)
