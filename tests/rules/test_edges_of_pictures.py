"""Rules on what a chart looks like, at the edges of what they allow: areas, symmetry, repeats, shaping, touching."""

from typing import Any

import pytest
from checking import GAUGE, found, told

STRANDED = GAUGE + "technique: stranded\n"


@pytest.mark.parametrize(
    ("grid", "options", "places"),
    [
        ("BBBBB BBWBB BBBBB", {}, [(2, (3, 3))]),
        ("BBBBB BWBBB BBWBB", {}, []),  # they touch at a corner
        ("BBBBB BWBBB BBWBB", {"corners": False}, [(1, (3, 3)), (2, (4, 4))]),
        ("BBBBB BWBBB BBWBB", {"largest": 2}, [(1, (3, 3))]),
        ("BBBBB BWWBB BBBBB", {"largest": 2}, [(2, (3, 4))]),
        ("BBBBB BWWBB BBWBB", {"largest": 2}, []),
        ("BBBBB BWWBB BWWBB", {"largest": 4}, [(1, (3, 4))]),
        ("BBBBBB WBBBBB BBBWBB", {"largest": 3}, [(1, (3, 3)), (2, (6, 6))]),
    ],
)
def test_small_areas(grid: str, options: Any, places: list[Any]) -> None:
    assert [(f.row, f.stitches) for f in found("area/single-stitch", grid, **options)] == places


@pytest.mark.parametrize(
    ("grid", "around"),
    [
        ("RRRRR YYWYY RRRRR", "Straw"),  # of equals, the colour beside it in the row
        ("RRRRR YYWRR RRRRR", "Berry"),
        ("YYYYY YYWRR RRRRR", "Straw"),
        ("BBBBB RRRRW BBBBB", "Dusk blue"),
        ("WRRRR RRRRR RRRRR", "Berry"),
        ("RRRRR BBBBB BBBBW", "Dusk blue"),
    ],
)
def test_what_a_stitch_stands_in(grid: str, around: str) -> None:
    (finding,) = found("area/single-stitch", grid)
    assert f"knit it in {around} (" in (finding.remedy or "")


def test_the_nearest_stitch_of_the_colour_is_named() -> None:
    (finding,) = found("area/single-stitch", "WBBBWBBWWW WBBBBBBWWW WBBBBBBWWW")
    assert "or a strand: 2 stitches across (9 mm) from stitch 3;" in (finding.remedy or "")
    (finding,) = found("area/single-stitch", "WWWBB.BWBBBBBBBW WWWBBBBBBBBBBBBW")
    assert "or a strand: 3 stitches across (1.4 cm) from stitch 14;" in (finding.remedy or "")
    (finding,) = found("area/single-stitch", "WWBBBBBBWBBBBBBBW WWBBBBBBBBBBBBBBW")
    assert "or a strand: 6 stitches across (2.7 cm, over the limit of 2.5 cm) from stitch 16;" in (finding.remedy or "")


def halves(wrong: int) -> str:
    """A chart of 40 × 30 whose left half is not the right half's mirror image in so many stitches."""
    rows = []
    for _ in range(30):
        here = min(wrong, 20)
        wrong -= here
        rows.append("B" * 20 + "W" * here + "B" * (20 - here))
    return " ".join(rows)


def test_a_chart_that_has_nothing_of_a_symmetry_is_told_once() -> None:
    """From 201 squares on, if they are more than a fifth: 240 of 1,200 are not."""
    extra = GAUGE + "symmetry: [left-right]\n"
    assert len(told("symmetry/broken", halves(200), extra)) == 10
    assert len(told("symmetry/broken", halves(240), extra)) == 12
    assert told("symmetry/broken", halves(241), extra) == [
        "241 of 1,200 squares differ mirrored left to right; the chart does not have this symmetry"
    ]


@pytest.mark.parametrize(
    ("grid", "symmetry", "expected"),
    [
        # B is rarer in the chart than W, so the B is named
        ("WWWWB WWWWW", "left-right", ["row 2, stitch 1: B; mirrored left to right it meets row 2, stitch 5, W"]),
        # equally rare and equally alone: the one at the left, or above
        ("BWWW", "left-right", ["row 1, stitch 4: B; mirrored left to right it meets row 1, stitch 1, W"]),
        ("BW", "left-right", ["row 1, stitch 2: B; mirrored left to right it meets row 1, stitch 1, W"]),
        ("B W", "top-bottom", ["row 2, stitch 1: B; mirrored top to bottom it meets row 1, stitch 1, W"]),
        ("BW BW", "half-turn", ["row 2, stitch 2: B", "row 2, stitch 1: W"]),
        # neighbours in a row are one finding while they are wrong in the same way
        ("BBWWWW", "left-right", ["row 1, stitches 5–6: B; mirrored left to right it meets row 1, stitches 1–2, W"]),
        ("BRWWWW", "left-right", ["row 1, stitch 6: B", "row 1, stitch 5: R"]),
        ("BWBWWWWWWW", "left-right", ["row 1, stitch 10: B", "row 1, stitch 8: B"]),
    ],
)
def test_which_of_two_squares_is_named(grid: str, symmetry: str, expected: list[str]) -> None:
    messages = told("symmetry/broken", grid, f"{GAUGE}symmetry: [{symmetry}]\n")
    assert len(messages) == len(expected), messages
    assert all(words in "".join(messages) for words in expected), messages


@pytest.mark.parametrize(
    ("rows", "first", "expected"),
    [
        ("[1, 1]", "RS", []),
        ("[1, 2]", "RS", []),
        (
            "[1, 3]",
            "RS",
            ["the repeat has 3 rows; worked again, its row 1 is on the wrong side instead of the right side"],
        ),
        (
            "[2, 4]",
            "RS",
            ["the repeat has 3 rows; worked again, its row 2 is on the right side instead of the wrong side"],
        ),
        (
            "[2, 4]",
            "WS",
            ["the repeat has 3 rows; worked again, its row 2 is on the wrong side instead of the right side"],
        ),
    ],
)
def test_repeats_of_odd_rows(rows: str, first: str, expected: list[str]) -> None:
    extra = f"{GAUGE}first-row: {first}\nrepeat: {{stitches: [1, 2], rows: {rows}}}\n"
    assert told("repeat/odd-rows", "BW BW BW BW", extra) == expected


@pytest.mark.parametrize(
    ("grid", "box", "alike", "places"),
    [
        ("BWBW BWBW", "{stitches: [1, 2], rows: [1, 2]}", 0.75, []),
        ("BBBW BWBW", "{stitches: [1, 2], rows: [1, 2]}", 0.75, [(2, (3, 3))]),  # one of four: three quarters alike
        ("BBBW BBBW", "{stitches: [1, 2], rows: [1, 2]}", 0.75, []),  # a half: another pattern
        ("BBBW BBBW", "{stitches: [1, 2], rows: [1, 2]}", 0.5, [(1, (3, 3)), (2, (3, 3))]),
        ("BW BB BW BW", "{stitches: [1, 2], rows: [1, 2]}", 0.75, [(3, (1, 1))]),
        ("BW BW BB BW", "{stitches: [1, 2], rows: [3, 4]}", 0.75, [(2, (1, 1))]),
        ("BBBWB BWBWB", "{stitches: [2, 3], rows: [1, 2]}", 0.75, [(2, (4, 4))]),
        ("WBWBB WBWBW", "{stitches: [3, 4], rows: [1, 2]}", 0.75, [(2, (1, 1))]),
    ],
)
def test_copies_of_a_repeat(grid: str, box: str, alike: float, places: list[Any]) -> None:
    results = found("repeat/broken-copy", grid, f"{GAUGE}repeat: {box}\n", alike=alike)
    assert [(f.row, f.stitches) for f in results] == places


@pytest.mark.parametrize(
    ("grid", "stitches", "expected"),
    [
        ("BBBBBBBW", "[1, 8]", ["7 stitches (3.2 cm)"]),
        ("WBBBBBBB", "[1, 8]", ["7 stitches (3.2 cm)"]),
        ("BBBWBBB", "[1, 7]", ["6 stitches (2.7 cm)"]),
        ("BBBWBB", "[1, 6]", []),  # five are allowed
        ("BBB.WBBB", "[1, 8]", ["6 stitches (2.7 cm)"]),
        ("WBBBWBBB", "[1, 4]", []),  # the next one is drawn
    ],
)
def test_floats_from_one_repeat_to_the_next(grid: str, stitches: str, expected: list[str]) -> None:
    extra = f"{STRANDED}repeat: {{stitches: {stitches}, rows: [1, 1]}}\n"
    messages = [m for m in told("float/too-long", grid, extra) if "from one repeat" in m]
    assert [m.partition("across ")[2].partition(" from")[0] for m in messages] == expected


def test_where_a_float_over_the_edge_is_shown() -> None:
    """At the longer of its two parts; of equal ones, at the left."""
    for grid, stitches in (("BBWBBBBB", (1, 5)), ("BBBBBWBB", (4, 8)), ("BBBWBBB", (5, 7))):
        extra = f"{STRANDED}repeat: {{stitches: [1, {len(grid)}], rows: [1, 1]}}\n"
        assert [f.stitches for f in found("float/too-long", grid, extra) if f.key == "repeat-edge"] == [stitches]


@pytest.mark.parametrize(
    ("longest", "said"),
    [(0, "3 floats inside, the longest across 3"), (1, "2 floats inside"), (2, "1 float inside"), (3, "")],
)
def test_floats_inside_what_an_infant_wears(longest: int, said: str) -> None:
    messages = told("care/infant-floats", "BWWBWWWB", f"{STRANDED}wearer: infant\n", longest=longest)
    own = [message for message in messages if said and said in message]
    assert len(own) == len(messages) == bool(said), messages


@pytest.mark.parametrize(
    ("grid", "shaping", "expected"),
    [
        (".BBB BBBB", "{2: {left: -1, right: 0}}", []),
        (
            "BBB. BBBB",
            "{2: {left: -1, right: 0}}",
            ["drawn with +0 at the left edge and -1 at the right; declared are left -1 and right +0"],
        ),
        (
            "BBBB .BB.",
            "{2: {left: 2, right: 0}}",
            ["drawn with +1 at the left edge and +1 at the right; declared are left +2 and right +0"],
        ),
        ("BBB BBBB", "{2: {left: -1, right: 0}}", []),
        ("BBB BBBB", "{2: {left: 0, right: -1}}", ["row 2 is 3 squares wide and row 1 is 4; shaped rows without `.`"]),
        ("BB BBB BBBB", "{2: -1, 3: -1}", ["row 2 is 3 squares wide and row 1 is 4; shaped rows without `.`"]),
    ],
)
def test_sides_of_shaping(grid: str, shaping: str, expected: list[str]) -> None:
    messages = told("grid/shaping-side", grid, f"{GAUGE}shaping: {shaping}\n")
    assert len(messages) == len(expected), messages
    assert all(words in message for message, words in zip(messages, expected, strict=True)), messages
