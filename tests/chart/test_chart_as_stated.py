"""What a chart says of itself, in a piece that no mirror maps to itself: 7 stitches below, 5 above, 3 rows and 4."""

import pytest

from lintarsia.chart import Chart, FloatGauge, Gauge, Limits, Side, Technique, Wearer
from lintarsia.chart.grid import MISSING, NO_STITCH, build_grid, seen_alone
from lintarsia.chart.measure import Length
from lintarsia.ground.regions import Region
from lintarsia.reading import read_chart

TEXT = """\
lintarsia: 1
title: Lopsided
{extra}gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  A: {{name: Deep sea, shade: "#27406b"}}
  B: {{name: Bone, shade: "#efe9dc"}}
chart: |
  ..AB.
  AABBB
  .AABB
"""


def chart(extra: str = "") -> Chart:
    read = read_chart("x.chart.yaml", TEXT.format(extra=extra).encode()).chart
    assert read
    return read


@pytest.mark.parametrize(
    ("extra", "sides", "names"),
    [
        ("", "RS WS RS", "row 1 (RS), row 2 (WS), row 3 (RS)"),
        ("first-row: WS\n", "WS RS WS", "row 1 (WS), row 2 (RS), row 3 (WS)"),
        ("worked: turned\n", "RS WS RS", "row 1 (RS), row 2 (WS), row 3 (RS)"),
        ("worked: round\n", "RS RS RS", "round 1, round 2, round 3"),
    ],
)
def test_sides_and_ways(extra: str, sides: str, names: str) -> None:
    it = chart(extra)
    assert " ".join(it.side(row) for row in (1, 2, 3)) == sides
    assert [it.leftward(row) for row in (1, 2, 3)] == [side == "RS" for side in sides.split()]
    assert it.leftwards == [side == "RS" for side in sides.split()]
    assert ", ".join(it.row_name(row) for row in (1, 2, 3)) == names


def test_a_side_and_its_other() -> None:
    assert (Side.RS.other, Side.WS.other) == (Side.WS, Side.RS)
    assert (Side.RS.words, Side.WS.words) == ("right side", "wrong side")


@pytest.mark.parametrize(
    ("extra", "tube", "panel"),
    [
        ("", False, False),
        ("worked: round\n", True, False),
        ("worked: turned\n", True, False),
        ("worked: round\nof: 56 stitches\n", False, True),
        ("worked: turned\nof: 6 stitches\n", False, True),
    ],
)
def test_tubes_and_panels(extra: str, tube: bool, panel: bool) -> None:
    it = chart(extra)
    assert (it.tube, it.panel) == (tube, panel)


def test_the_size_of_a_stitch() -> None:
    gauge = Gauge(20, 25, Length(10, "cm"), float_gauge=FloatGauge(24, 26))
    assert (gauge.stitch_mm, gauge.row_mm, gauge.possible) == (5.0, 4.0, True)
    assert gauge.float_stitch_mm == pytest.approx(100 / 24)
    assert Gauge(20, 25, Length(4, "in")).float_stitch_mm == pytest.approx(101.6 / 20)
    sizes = [(1, 1), (1000, 30), (30, 1000), (0.5, 30), (30, 0.5), (1000 / 3, 1000 / 3), (20 / 3, 20 / 3)]
    possible = [Gauge(stitches, rows, Length(100, "mm")).possible for stitches, rows in sizes]
    assert possible == [True, False, False, False, False, True, True]
    assert [Gauge(1, 1, Length(mm, "mm")).possible for mm in (0.29, 0.3, 150, 150.1)] == [False, True, True, False]
    assert not Gauge(2, 2, Length(301, "mm")).possible
    assert Gauge(2, 2, Length(300, "mm")).possible  # 150 mm is still arm knitting


def test_the_grid_is_counted_from_the_right() -> None:
    grid = chart().grid
    assert (grid.height, grid.width, grid.whole, grid.regular) == (3, 5, False, True)
    assert grid.rows == (".AABB", "AABBB", "..AB.")
    assert grid.cells.tolist() == [[NO_STITCH, 0, 0, 1, 1], [0, 0, 1, 1, 1], [NO_STITCH, NO_STITCH, 0, 1, NO_STITCH]]
    assert [grid.stitches(row) for row in (1, 2, 3)] == [4, 5, 2]
    assert [grid.stitch(column) for column in (0, 3)] == [5, 2]
    assert [grid.column(stitch) for stitch in (5, 2)] == [0, 3]
    assert [grid.text(2, *stitches) for stitches in ((1, 2), (3, 5), (4, 4), (4, 9))] == ["BB", "AAB", "A", "AA"]


def test_rows_of_unequal_length_stand_at_the_right() -> None:
    grid = build_grid(["ABB", "AABBQ", "Q"], "AB")
    assert (grid.symbols, grid.known, grid.regular, grid.whole) == (("A", "B", "Q"), 2, False, False)
    assert grid.cells.tolist() == [[MISSING, MISSING, 0, 1, 1], [0, 0, 1, 1, 2], [MISSING] * 4 + [2]]
    assert not grid.cells.flags.writeable
    whole = build_grid(["AB"], "AB")
    assert (whole.whole, whole.regular, whole.symbols) == (True, True, ("A", "B"))


def test_other_letters_are_looked_up_alike() -> None:
    plain, other = build_grid(["A.B", "BA"], "AB"), build_grid(["Я.ж", "жЯ"], "Яж")
    assert other.cells.tolist() == plain.cells.tolist() == [[0, NO_STITCH, 1], [MISSING, 1, 0]]
    assert [seen_alone(symbol) for symbol in "Aя \u0301\u200b"] == [True, True, True, False, False]


def test_places_of_cells_and_of_what_is_missing() -> None:
    places = chart().places
    assert places.row(1) == Region(10, 3, 10, 8)
    assert places.row(3) == Region(8, 3, 8, 8)
    assert places.cells(2, 1, 2) == Region(9, 6, 9, 8)
    assert places.cells(2, 4, 5) == Region(9, 3, 9, 5)
    assert places.cells(2, 4, 7) == Region(9, 3, 9, 5)  # further than the row goes
    assert places.cells(2, 7, 9) == Region(9, 3, 9, 3)  # the place before its first character
    assert places.key("colours", "B", "yarn") == places.key("colours", "B") == Region(6, 3, 6, 4)
    assert places.value("colours", "A", "shade") == Region(5, 30, 5, 39)
    assert places.key("nothing") == places.value("nothing") == Region(1, 1, 1, 1)


def test_limits_of_a_mixed_chart_for_each_wearer() -> None:
    """Every field by itself: supplies, the float as a length and in stitches, strand, carry, idle."""
    stated = Limits(supplies=6, float=Length(3, "cm"), strand=4, carry=2, idle=3)
    fields = {"technique": Technique.MIXED, "wearer": Wearer.INFANT, "limits": stated}
    it = Chart(**{name: getattr(chart(), name) for name in Chart.__slots__} | fields)
    bounds = it.bounds()
    assert (bounds.supplies, bounds.float_mm, bounds.float_stitches) == (6, 30.0, 6)
    assert (bounds.strand, bounds.carry, bounds.idle) == (4, 2, 3)
    plain = Chart(**{name: getattr(chart(), name) for name in Chart.__slots__} | {"limits": Limits(float=7)})
    assert plain.bounds().float_mm == pytest.approx(7 * 100 / 22)
    assert plain.bounds(Limits(supplies=11)).supplies == 11
    assert plain.bounds(Limits()).supplies == 8
