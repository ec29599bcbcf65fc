"""The line for a row that is shaped, for every way in which its count changes; each was worked out from the chart."""

import pytest
from test_garment_words import chart, lines

from lintarsia.telling.terms import Terms
from lintarsia.written import Style, write_rows

A7 = "A" * 7


@pytest.mark.parametrize(
    ("rows", "extra", "words"),
    [
        # Increases, and changes of two kinds, by the edge at which they are.
        ([".AAAA.", "AAAAAA"], "{right: 1, left: 1}", "inc 1 st at each end; k6 A. (6 sts)"),
        (
            [".AAAA..", A7],
            "{right: 2, left: 1}",
            "inc 2 sts at beg (right edge) and inc 1 st at end (left edge); k7 A. (7 sts)",
        ),
        (
            ["AAAAAA.", "...AAAA"],
            "{right: 1, left: -3}",
            "inc 1 st at beg (right edge); BO 3 sts at end (left edge); k4 A. (4 sts)",
        ),
        (
            ["AAAAAA...", "..AAAAAAA"],
            "{right: {cast-on: 3}, left: -2}",
            "CO 3 sts at beg (right edge); k5 A, k2tog A, k2tog A. (7 sts)",
        ),
        # New stitches behind the last one, by yarn where that is not the last one's.
        (["...AAAA", A7], "{left: {cast-on: 3}}", "k4 A; CO 3 sts. (7 sts)"),
        (["...AAAA", "ABBAAAA"], "{left: {cast-on: 3}}", "k4 A; CO 2 sts B, CO 1 st A. (7 sts)"),
        ([A7, "AAA...A"], "{right: {hold: 3}}", "place first 3 sts on a holder; k4 A. (4 sts)"),
        ([A7, "A......"], "{right: {hold: 6}}", "place first 6 sts on a holder; k1 A. (1 st)"),
        # Decreases that take more stitches than the row has cannot be named one by one.
        (["AAA", "..A"], "-2", "dec 2 sts at end (left edge); k1 A. (1 st)"),
        (["AAAAA", "..B.."], "{left: -2, right: -2}", "dec 2 sts at each end; k1 B. (1 st)"),
        (
            ["AAAAA", "..BA."],
            "{left: -2, right: -1}",
            "dec 1 st at beg (right edge) and dec 2 sts at end (left edge); k1 A, k1 B. (2 sts)",
        ),
        # No asterisk in a shaped row: `to end` would count what is not there yet.
        (["A" * 12, "AB" * 5 + "A."], "{right: -1}", "ssk A, [k1 B, k1 A] 5 times. (11 sts)"),
        (["A" * 12, "." + "AB" * 5 + "A"], "{left: -1}", "[k1 A, k1 B] 5 times, k2tog A. (11 sts)"),
        (["A" * 11 + ".", "AB" * 6], "{right: 1}", "inc 1 st at beg (right edge); [k1 B, k1 A] 6 times. (12 sts)"),
    ],
)
def test_a_right_side_row_that_changes_its_count(rows: list[str], extra: str, words: str) -> None:
    line = lines(chart(rows, f"first-row: WS\nshaping: {{2: {extra}}}"))[1]
    assert line == f"Row 2 (RS): {words}"


def test_a_wrong_side_row_begins_at_the_left_edge() -> None:
    wide = chart([".AAAA..", A7], "shaping: {2: {right: 2, left: 1}}")
    assert lines(wide)[1] == (
        "Row 2 (WS): inc 1 st at beg (left edge) and inc 2 sts at end (right edge); p7 A. (7 sts)"
    )
    both = chart(["AAAAAA...", "..AABBAAB"], "shaping: {2: {right: {cast-on: 3}, left: -2}}")
    assert lines(both)[1] == "Row 2 (WS): p2tog A, p2tog A, p2 B; CO 2 sts A, CO 1 st B. (7 sts)"


@pytest.mark.parametrize(
    ("rows", "change", "words"),
    [
        ([A7, "AA..AAA"], -2, "k3 A, k3tog A, k1 A. (5 sts)"),
        ([A7, ".AAAAA."], -2, "ssk A, k3 A, k2tog A. (5 sts)"),
        ([A7, "AAAAAA."], -1, "ssk A, k5 A. (6 sts)"),
        ([A7, "AAA.AAA"], -1, "k3 A, k2tog A, k2 A. (6 sts)"),
        ([A7, ".AAA.AA"], -2, "k2 A, k2tog A, k1 A, ssk A. (5 sts)"),
        # Four worked as one, two behind the last stitch, the last one decreased twice: not named, nor where the chart
        # shows fewer stitches gone than are said, or where there is no row below to show them.
        ([A7, "..A.AAA"], -3, "dec 3 sts; k4 A. (4 sts)"),
        ([A7, "..AA.AA"], -3, "dec 3 sts; k4 A. (4 sts)"),
        ([A7, ".A.AAAA"], -2, "dec 2 sts; k5 A. (5 sts)"),
        ([A7, "AA.AAAA"], -2, "dec 2 sts; k6 A. (6 sts)"),
        ([A7 + "AA", "AA...AAAA"], -3, "BO 3 sts; k6 A. (6 sts)"),
        (["AA", ".."], -2, "dec 2 sts; fasten off. (0 sts)"),
    ],
)
def test_a_round_whose_decreases_are_inside(rows: list[str], change: int, words: str) -> None:
    assert lines(chart(rows, f"worked: round\nshaping: {{2: {change}}}"))[1] == f"Round 2: {words}"


def test_the_first_round_has_none_below_that_would_show_its_decreases() -> None:
    assert lines(chart(["AAA.AAA"], "worked: round\nshaping: {1: -1}")) == ["Round 1: dec 1 st; k6 A. (6 sts)"]
    second = chart(["AAAAAAA", "AAAAA.A", "AAAAA.A"], "worked: round\nshaping: {2: -1}")
    assert lines(second)[1:] == ["Round 2: k1 A, k2tog A, k4 A. (6 sts)", "Round 3: k6 A. (6 sts)"]


NECK = ["A" * 12, "AAAA...AAAAA", "AAAA....AAAA", "AAAAA...AAAA", "AAAAAA..AAAA"]


def test_increases_at_a_neck_edge() -> None:
    extra = "{by: hold, sides: right-first}}\nshaping: {3: {neck-right: -1}, 4: {neck-left: 1}, 5: {neck-left: 1}}"
    told = lines(chart(NECK, f"divide: {{2: {extra}"))
    assert told[1] == "Left neck side, row 2 (WS): p4 A. (4 sts)"
    assert told[2] == (
        "Right neck side, row 2 (WS): place next 3 sts on a holder; join a second ball; p5 A. (5 sts)"
        " Leave the left side on a holder; work the right side to its top."
    )
    assert told[3] == "Right neck side, row 3 (RS): k3 A, k2tog A. (4 sts)"
    assert told[6:] == [
        "Left neck side, row 3 (RS): take up the yarn that hangs there; k4 A. (4 sts)",
        "Left neck side, row 4 (WS): inc 1 st at end (neck edge); p5 A. (5 sts)",
        "Left neck side, row 5 (RS): inc 1 st at beg (neck edge); k6 A. (6 sts)"
        " Leave rem 6 sts on a holder or bind off.",
    ]


def test_a_side_that_goes_on_a_holder_whole() -> None:
    held = "divide: {2: {by: hold, sides: %s}}\nshaping: {3: {left: {hold: 3}}}"
    rows = ["A" * 9, "AAA..AAAA", ".....AAAA"]
    assert lines(chart(rows, held % "right-first"))[-1] == (
        "Left neck side, row 3 (RS): place rem 3 sts on a holder; cut the yarn. (0 sts)"
    )
    assert lines(chart(rows, held % "together"))[2] == (
        "Row 3 (RS): right neck side: k4 A; left neck side: place rem 3 sts on a holder; cut the yarn. (4 sts)"
        " Leave rem 4 sts on a holder or bind off."
    )


CLOSED = ["A" * 12, "A" * 12, "AAAA...AAAAA", "AAAA...AAAAA", "A" * 12, "A" * 12]
CAST_ON = "\nshaping: {5: {neck-right: {cast-on: 3}}}"


def test_an_opening_that_a_row_closes_leaves_nothing_to_bind_off() -> None:
    """Both sides are worked on in the row above; of two worked in turn, the first waits for it on a holder."""
    together = lines(chart(CLOSED, f"divide: {{3: {{by: bind-off, sides: together}}}}{CAST_ON}"))
    assert together[3:] == [
        "Row 4 (WS): left neck side: p4 A; right neck side: p5 A. (9 sts)",
        "Row 5 (RS): CO 3 sts over the opening; k12 A. (12 sts)",
        "Row 6 (WS): p12 A. (12 sts)",
    ]
    turn = lines(chart(CLOSED, f"divide: {{3: {{by: bind-off, sides: right-first}}}}{CAST_ON}"))
    assert turn[2:] == [
        "Right neck side, row 3 (RS): k5 A. (5 sts) Leave the left side on a holder; work the right side to its top.",
        "Right neck side, row 4 (WS): p5 A. (5 sts) Leave rem 5 sts on a holder.",
        "Left neck side, row 3 (RS): rejoin the yarn at the neck edge; BO 3 sts; k4 A. (4 sts)",
        "Left neck side, row 4 (WS): p4 A. (4 sts)",
        "Row 5 (RS): place the sts of the side that waits back on the needle; CO 3 sts over the opening; k12 A."
        " (12 sts)",
        "Row 6 (WS): p12 A. (12 sts)",
    ]


def test_the_side_worked_first_is_the_one_that_the_words_say() -> None:
    left = lines(chart(CLOSED[:4], "first-row: WS\ndivide: {3: {by: bind-off, sides: left-first}}"))
    assert left[2:] == [
        "Left neck side, row 3 (WS): p4 A. (4 sts) Leave the right side on a holder; work the left side to its top.",
        "Left neck side, row 4 (RS): k4 A. (4 sts) Leave rem 4 sts on a holder or bind off.",
        "Right neck side, row 3 (WS): rejoin the yarn at the neck edge; BO 3 sts; p5 A. (5 sts)",
        "Right neck side, row 4 (RS): k5 A. (5 sts) Leave rem 5 sts on a holder or bind off.",
    ]
    british = Style(merge=False, terms=Terms.BRITISH)
    assert lines(chart(CLOSED[:4], "divide: {3: {by: bind-off}}"), style=british)[2:] == [
        "Row 3 (RS): right neck side: k5 A; left neck side: join a second ball; cast off 3 sts; k4 A. (9 sts)"
        " Work both sides at once with separate balls.",
        "Row 4 (WS): left neck side: p4 A; right neck side: p5 A. (9 sts)"
        " Leave rem sts of each side on a holder or cast off.",
    ]


def test_a_slit_is_one_while_no_stitch_is_lost_between_its_sides() -> None:
    slit = chart(["A" * 9, "A" * 9, "AAAAAAA.."], "divide: {2: {by: nothing, at: 4}}\nshaping: {3: {right: -2}}")
    assert lines(slit)[1:] == [
        "Row 2 (WS): left side of the slit: p5 A; right side of the slit: join a second ball; p4 A. (9 sts)"
        " Work both sides at once with separate balls.",
        "Row 3 (RS): right side of the slit: ssk A, ssk A; left side of the slit: k5 A. (7 sts)"
        " Leave rem sts of each side on a holder or bind off.",
    ]
    wider = chart(["A" * 9, "AAAA.AAAA"], "divide: {2: {by: nothing, at: 4}}")
    assert "left neck side: p4 A" in lines(wider)[1]


def test_like_rows_share_a_line_that_names_them() -> None:
    style = Style()
    assert lines(chart(["A" * 8] * 6, "worked: round"), style=style) == ["Rounds 1–6: k8 A. (8 sts)"]
    assert lines(chart(["A" * 8] * 9, ""), style=style) == ["RS rows 1–9: k8 A. (8 sts)", "WS rows 2–8: p8 A. (8 sts)"]
    assert len(lines(chart(["A" * 8] * 3, ""), style=style)) == 3
    assert lines(chart(["AB" * 4] * 4, ""), style=style) == [
        "Rows 1 and 3 (RS): *k1 B, k1 A; rep from * to end. (8 sts)",
        "Rows 2 and 4 (WS): *p1 A, p1 B; rep from * to end. (8 sts)",
    ]
    half = chart(["A" * 8, *["AAA..AAA"] * 9], "divide: {2: {by: hold, sides: right-first}}")
    assert lines(half, style=style)[3:5] == [
        "Right neck side, RS rows 3–9: k3 A. (3 sts)",
        "Right neck side, rows 4, 6 and 8 (WS): p3 A. (3 sts)",
    ]


def test_rows_that_the_chart_does_not_have() -> None:
    with pytest.raises(ValueError, match=r"^the chart has rows 1 to 3; asked for 2 to 4$"):
        write_rows(chart(["A"] * 3, ""), first=2, last=4)
