"""Garments in words: lines that a knitter can follow, checked whole against charts drawn by hand.

Abbreviations and the forms of the sentences are common practice; the decreases' lean is told in every handbook: k2tog
leans right and ssk left on the right side, p2tog and ssp look the same worked on the wrong side.
"""

from dataclasses import replace

import pytest

from lintarsia.chart import HOUSE_RECKONING, Chart
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.telling.terms import Terms
from lintarsia.written import Style, write_rows

HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Pebble, shade: "#5a5f66"}
"""


def chart(rows: list[str], extra: str) -> Chart:
    text = HEAD + extra + "\nchart: |\n" + "".join(f"  {row}\n" for row in reversed(rows))
    reading = read_chart("yoke.chart.yaml", text.encode())
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def lines(c: Chart, *, plan: bool = False, style: Style = Style(merge=False)) -> list[str]:  # noqa: B008 - frozen
    made = make_plan(c) if plan else None
    return [f"{row.label}: {row.text}" for row in write_rows(c, plan=made, style=style)]


ARMHOLES = (["AAAAABBBBBAA", "AAAAABBB....", ".AAAABBB....", "...AABBB...."], "first-row: WS")


def test_bound_off_cast_on_and_held() -> None:
    c = chart(
        ["A" * 9, "A" * 6 + "...", "..AAAA...", "..AAAA.AA"],
        "first-row: WS\nshaping: {2: {right: -3}, 3: {left: {hold: 2}}, 4: {right: {cast-on: 2}}}",
    )
    assert lines(c)[1:] == [
        "Row 2 (RS): BO 3 sts at beg (right edge); k6 A. (6 sts)",
        "Row 3 (WS): place first 2 sts on a holder; p4 A. (4 sts)",
        "Row 4 (RS): CO 2 sts at beg (right edge); k6 A. (6 sts)",
    ]
    british = lines(c, style=Style(merge=False, terms=Terms.BRITISH))
    assert british[1] == "Row 2 (RS): cast off 3 sts at beg (right edge); k6 A. (6 sts)"
    assert british[3] == "Row 4 (RS): cast on 2 sts at beg (right edge); k6 A. (6 sts)"


def test_stitches_cast_on_or_held_at_the_end_come_last() -> None:
    c = chart([".AAAAAA..", ".AAAAAABB", ".AAAA...."], "shaping: {2: {right: {cast-on: 2}}, 3: {left: 0, right: -4}}")
    assert lines(c)[1:] == [
        "Row 2 (WS): p6 A; CO 2 sts B. (8 sts)",
        "Row 3 (RS): BO 4 sts at beg (right edge); k4 A. (4 sts)",
    ]
    held = chart(["AAAAAA", "AAAA.."], "shaping: {2: {right: {hold: 2}}}")
    assert lines(held)[1] == "Row 2 (WS): p4 A; place last 2 sts on a holder. (4 sts)"


def test_decreases_lean_along_the_edge_where_the_file_does_not_say_how() -> None:
    c = chart(["A" * 9, ".AAAAAA..", "..AAAA..."], "shaping: {2: {right: -2, left: -1}, 3: {right: -1, left: -1}}")
    assert lines(c)[1:] == [
        "Row 2 (WS): p2tog A, p3 A, ssp A, ssp A. (6 sts)",
        "Row 3 (RS): ssk A, k2 A, k2tog A. (4 sts)",
    ]


def test_a_number_with_no_edge_said_is_written_where_the_grid_shows_it() -> None:
    c = chart(["AAAAAAA", ".AAAAA.", ".AA.AA."], "shaping: {2: -2, 3: -1}")
    assert lines(c)[1:] == [
        "Row 2 (WS): p2tog A, p3 A, ssp A. (5 sts)",
        "Row 3 (RS): k2 A, k2tog A, k1 A. (4 sts)",
    ]


@pytest.mark.parametrize(
    ("lean", "first_row", "expected"),
    [
        ("along", "WS", "Row 2 (RS): k1 A, ssk B, k2 B, k2tog A, k1 A. (6 sts)"),
        ("against", "WS", "Row 2 (RS): k1 A, k2tog B, k2 B, ssk A, k1 A. (6 sts)"),
        ("along", "RS", "Row 2 (WS): p1 A, p2tog A, p2 B, ssp B, p1 A. (6 sts)"),
        ("against", "RS", "Row 2 (WS): p1 A, ssp A, p2 B, p2tog B, p1 A. (6 sts)"),
    ],
)
def test_decreases_lean_as_the_designer_says(lean: str, first_row: str, expected: str) -> None:
    extra = f"first-row: {first_row}\nshaping: {{2: {{right: -1, left: -1}}}}\ndecreases: {{lean: {lean}, after: 1}}"
    assert lines(chart(["AAABBBAA", ".AABBBA."], extra))[1] == expected


def test_the_designers_own_decrease_at_one_edge() -> None:
    extra = "first-row: WS\nshaping: {2: {right: {decrease: 2, as: skp}, left: -1}}"
    assert lines(chart(["A" * 8, ".AAAAA.."], extra))[1] == ("Row 2 (RS): skp A, skp A, k2 A, k2tog A. (5 sts)")


NECK = ["A" * 12, "A" * 12, "AAAA...AAAAA", "AAAA...AAAAA", "AAA.....AAAA"]
EDGES = "shaping: {5: {neck-left: -1, neck-right: -1}}\ndecreases: {}"


def test_sides_together_with_separate_balls() -> None:
    c = chart(NECK, f"{EDGES}\ndivide: {{3: {{by: bind-off, sides: together}}}}")
    assert lines(c)[2:] == [
        "Row 3 (RS): right neck side: k5 A; left neck side: join a second ball; BO 3 sts; k4 A. (9 sts)"
        " Work both sides at once with separate balls.",
        "Row 4 (WS): left neck side: p4 A; right neck side: p5 A. (9 sts)",
        "Row 5 (RS): right neck side: k3 A, k2tog A; left neck side: ssk A, k2 A. (7 sts)"
        " Leave rem sts of each side on a holder or bind off.",
    ]


def test_a_side_begins_with_the_yarn_that_hangs_there_already() -> None:
    """Both A hang beside the B that ends below the slit: nothing is joined, in words without supplies as with them."""
    rows = ["AAAAABBAAA", "AAAAABBAAA", "A" * 10, "A" * 10]
    c = chart(rows, "divide: {3: {by: nothing, sides: together, at: 4}}")
    assert "left side of the slit: take up the yarn that hangs there; k6 A." in lines(c)[2]
    assert "join" not in lines(c, plan=True)[2]


def test_the_settings_say_how_far_a_yarn_may_be_carried_to_a_side() -> None:
    """The left A ends one stitch from where its side begins: carried no stitch at all, it does not reach."""
    c = chart(["AAAAABBAAA", "AAAAABBAAA", "A" * 10], "divide: {3: {by: nothing, sides: together, at: 4}}")
    own = replace(HOUSE_RECKONING, limits=replace(HOUSE_RECKONING.limits, carry=0))
    assert "left side of the slit: take up the yarn that hangs there; k6 A." in lines(c)[2]
    strict = Style(merge=False, reckoning=own)
    assert "left side of the slit: join a second ball; k6 A." in lines(c, style=strict)[2]


def test_one_side_after_the_other_and_the_yarn_rejoined() -> None:
    c = chart(NECK, f"{EDGES}\ndivide: {{3: {{by: hold, sides: right-first}}}}")
    assert lines(c)[2:] == [
        "Right neck side, row 3 (RS): k5 A. (5 sts) Leave the left side on a holder; work the right side to its top.",
        "Right neck side, row 4 (WS): p5 A. (5 sts)",
        "Right neck side, row 5 (RS): k3 A, k2tog A. (4 sts) Leave rem 4 sts on a holder or bind off.",
        "Left neck side, row 3 (RS): place next 3 sts on a holder; rejoin the yarn at the neck edge; k4 A. (4 sts)",
        "Left neck side, row 4 (WS): p4 A. (4 sts)",
        "Left neck side, row 5 (RS): ssk A, k2 A. (3 sts) Leave rem 3 sts on a holder or bind off.",
    ]


def test_the_side_that_the_row_meets_last_goes_first() -> None:
    c = chart(NECK, f"{EDGES}\ndivide: {{3: {{by: bind-off, sides: left-first}}}}")
    told = lines(c)[2:]
    assert told[1].endswith("Leave the right side on a holder; work the left side to its top.")
    assert told[4] == "Right neck side, row 4 (WS): take up the yarn that hangs there; p5 A. (5 sts)"


def test_with_a_plan_each_side_names_its_own_yarns() -> None:
    c = chart(NECK, f"{EDGES}\ndivide: {{3: {{by: hold, sides: together}}}}")
    assert lines(c, plan=True)[2:4] == [
        "Row 3 (RS): right neck side: k5 A1; left neck side: place next 3 sts on a holder; join A2; k4 A2. (9 sts)"
        " Work both sides at once with separate balls.",
        "Row 4 (WS): left neck side: p4 A2; right neck side: p5 A1. (9 sts)",
    ]


def test_a_side_that_is_bound_off_whole() -> None:
    c = chart(["A" * 8, "AAA..AAA", "AAA....."], "divide: {2: {by: hold}}\nshaping: {3: {right: {bind-off: 3}}}")
    assert lines(c)[2:] == [
        "Row 3 (RS): right neck side: BO rem 3 sts; fasten off; left neck side: k3 A. (3 sts)"
        " Leave rem 3 sts on a holder or bind off.",
    ]


def test_like_rows_of_one_side_are_said_once() -> None:
    c = chart(["A" * 8, *["AAA..AAA"] * 7], "first-row: RS\ndivide: {2: {by: hold, sides: right-first}}")
    assert lines(c, style=Style())[3:5] == [
        "Right neck side, rows 3, 5 and 7 (RS): k3 A. (3 sts)",
        "Right neck side, rows 4 and 6 (WS): p3 A. (3 sts)",
    ]


def test_a_slit_is_named_so() -> None:
    c = chart(["A" * 8] * 3, "divide: {2: {by: nothing, at: 3}}")
    said = "Row 3 (RS): right side of the slit: k3 A; left side of the slit: k5 A. (8 sts)"
    assert lines(c)[2] == f"{said} Leave rem sts of each side on a holder or bind off."


def test_a_crowns_decreases_are_named_where_the_chart_shows_them() -> None:
    """A stitch that goes is worked together with the next one; the last of a round with the one before it."""
    c = chart(["AABAAB" * 2, "AAB.AB" * 2, ".AB.AB" * 2, ".A..AB" * 2], "worked: round\nshaping: {2: -2, 3: -2, 4: -2}")
    assert lines(c, style=Style(merge=False))[1:] == [
        "Round 2: [k1 B, k1 A, k2tog B, k2 A] 2 times. (10 sts)",
        "Round 3: [k1 B, k1 A] 2 times, k2tog B, k1 A, k1 B, ssk A. (8 sts)",
        "Round 4: [k1 B, k1 A, k2tog A] 2 times. (6 sts)",
    ]
    flat = chart(["AABAABAAB", "AA.AA.AA."], "shaping: {2: -3}")
    assert lines(flat)[1] == "Row 2 (WS): p2 A, p2tog A, p1 A, p2tog A, ssp A. (6 sts)"
