"""The row table, whole: small lopsided charts whose yarns were laid out row by row by hand."""

from typing import Any

import pytest

from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.rowtable import row_table
from lintarsia.reading import read_chart
from lintarsia.reporting.screen import Screen

HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Deep sea, shade: "#27406b"}
"""

# Nine stitches; two come off in row 3, three stitches from the left and four from the right.
YOKE = """\
shaping: {{5: {{neck-left: -1, neck-right: -1}}}}
divide: {{3: {{by: bind-off, sides: {sides}}}}}
chart: |
  AB....AAA
  AB....BAA
  ABA..BBAA
  ABA..BAAA
  ABAAAAAAA
  ABAAAAAAA
"""
BELOW = ["1 RS ← 3 3 – A1+ B1+ A2+", "2 WS → 3 3 2 A2 B1 A1"]
TOGETHER = [
    *BELOW,
    "3 RS ← 5 5 2 A1 B2+ | A3+ B1 A2",
    "4 WS → 5 5 3 A2 B1 A3* | B2 A1",
    "5 RS ← 4 4 2 A1 B2* | B1 A2",
    "6 WS → 3 3 1 A2* B1* | A1*",
    "| between the two sides of an opening, worked with yarns of their own",
]
RIGHT_FIRST = [
    *BELOW,
    "right-hand side, rows 3–6; left hanging on the left-hand side: A2 B1",
    "3 RS ← 2 4 – A1 B2+",
    "4 WS → 2 4 1 B2 A1",
    "5 RS ← 2 4 1 A1 B2*",
    "6 WS → 1 3 – A1*",
    "left-hand side, rows 3–6",
    "3 RS ← 3 3 2 A3+ B1 A2",
    "4 WS → 3 3 2 A2 B1 A3*",
    "5 RS ← 2 2 1 B1 A2",
    "6 WS → 2 2 1 A2* B1*",
]
LEFT_FIRST = [
    *BELOW,
    "right-hand side, row 3",
    "3 RS ← 2 2 – A1 B2+",
    "left-hand side, rows 3–6; left hanging on the right-hand side: B2 A1",
    "3 RS ← 3 5 2 A3+ B1 A2",
    "4 WS → 3 5 2 A2 B1 A3*",
    "5 RS ← 2 4 1 B1 A2",
    "6 WS → 2 4 1 A2* B1*",
    "right-hand side, rows 4–6",
    "4 WS → 2 2 1 B2 A1",
    "5 RS ← 2 2 1 A1 B2*",
    "6 WS → 1 1 – A1*",
]


def table(text: str, *, unicode: bool = True, **options: Any) -> list[str]:
    """Its lines below the two of the head, with one blank where it has several."""
    chart = read_chart("x.chart.yaml", (HEAD + text).encode()).chart
    assert chart is not None
    lines = row_table(chart, make_plan(chart), Screen(width=90, unicode=unicode), **{"whole": True, **options})
    return [" ".join(line.split()) for line in lines[2:]]


@pytest.mark.parametrize("whole", [True, False])
@pytest.mark.parametrize(
    ("sides", "rows"), [("together", TOGETHER), ("right-first", RIGHT_FIRST), ("left-first", LEFT_FIRST)]
)
def test_the_sides_of_an_opening_stand_in_the_order_of_working(sides: str, rows: list[str], whole: bool) -> None:
    assert table(YOKE.format(sides=sides), whole=whole) == rows


def test_a_window_has_the_headings_of_its_own_rows() -> None:
    assert table(YOKE.format(sides="left-first"), window=(4, 5)) == [
        "left-hand side, rows 3–6; left hanging on the right-hand side: B2 A1",
        *LEFT_FIRST[6:8],
        "right-hand side, rows 4–6",
        *LEFT_FIRST[10:12],
    ]
    assert table(YOKE.format(sides="right-first"), window=(1, 2)) == BELOW


TWO = """\
{worked}chart: |
  AAABB
  AAABB
  AAABB
  AAABB
  AAABB
"""


@pytest.mark.parametrize(
    ("worked", "whole", "rows"),
    [
        ("", False, ["1 RS ← 2 2 – B1+ A1+", "2–4 WS → 2 2 1 A1 B1", "RS ← B1 A1", "5 RS ← 2 2 1 B1* A1*"]),
        (
            "first-row: WS\n",
            False,
            ["1 WS → 2 2 – A1+ B1+", "2–4 RS ← 2 2 1 B1 A1", "WS → A1 B1", "5 WS → 2 2 1 A1* B1*"],
        ),
        (
            "",
            True,
            [
                "1 RS ← 2 2 – B1+ A1+",
                "2 WS → 2 2 1 A1 B1",
                "3 RS ← 2 2 1 B1 A1",
                "4 WS → 2 2 1 A1 B1",
                "5 RS ← 2 2 1 B1* A1*",
            ],
        ),
    ],
)
def test_rows_in_which_nothing_happens_are_two_lines(worked: str, whole: bool, rows: list[str]) -> None:
    assert table(TWO.format(worked=worked), whole=whole) == rows


def test_rounds_are_one_line_and_plain_arrows_are_ascii() -> None:
    stranded = "worked: round\ntechnique: stranded\n"
    assert table(TWO.format(worked=stranded), whole=False, unicode=False) == [
        "1 <- 2 2 – B1+ A1+",
        "2–4 <- 2 2 – B1 A1",
        "5 <- 2 2 – B1* A1*",
    ]
    assert table(TWO.format(worked=""), unicode=False)[1] == "2 WS -> 2 2 1 A1 B1"


def test_two_rows_are_a_stretch_as_well() -> None:
    assert table("chart: |\n" + "  AAABB\n" * 4, whole=False) == [
        "1 RS ← 2 2 – B1+ A1+",
        "2–3 WS → 2 2 1 A1 B1",
        "RS ← B1 A1",
        "4 WS → 2 2 1 A1* B1*",
    ]


def test_one_yarn_to_and_fro_has_an_arrow_of_two_heads() -> None:
    plain = "chart: |\n" + "  AAAAA\n" * 5
    assert table(plain, whole=False) == ["1 RS ← 1 1 – A1+", "2–4 ↔ 1 1 – A1", "5 RS ← 1 1 – A1*"]
    assert table(plain, whole=False, unicode=False)[1] == "2–4 <-> 1 1 – A1"


def test_yarns_that_rest_are_named_as_they_hang() -> None:
    """Rows 3 and 4 are of one colour; the two yarns that wait hang at the left in working order, turned on the way
    back, and the row needs one yarn of the three."""
    text = "limits: {idle: 4}\nchart: |\n  AAABA\n  AAABA\n  AAAAA\n  AAAAA\n  AAABA\n  AAABA\n"
    assert table(text) == [
        "1 RS ← 3 3 – A1+ B1+ A2+",
        "2 WS → 3 3 2 A2 B1 A1",
        "3 RS ← 1 3 – A1 (resting B1 A2)",
        "4 WS → 1 3 – A1 (resting A2 B1)",
        "5 RS ← 3 3 2 A1 B1 A2",
        "6 WS → 3 3 2 A2* B1* A1*",
    ]


ALL = "--all names the yarns of every row"


def crowded(runs: int, rows: int = 3) -> str:
    """Rows of so many stretches, each with a yarn of its own."""
    row = "".join("AAAAAA" if n % 2 else "BBBBBB" for n in range(runs))
    return "limits: {carry: 0}\nchart: |\n" + f"  {row}\n" * rows


@pytest.mark.parametrize(("runs", "summed"), [(24, False), (25, True)])
def test_more_yarns_than_hands_sort_by_a_list_are_summed_up(runs: int, summed: bool) -> None:
    """Twenty-four are named; of one more the row tells how many join and finish, and where nothing does, that."""
    lines = table(crowded(runs, 4), whole=False)
    joined = [line for line in lines if line.startswith("1 RS")]
    assert (f"1 RS ← {runs} {runs} – {runs} joined" in joined) is summed
    assert (lines[-1] == ALL) is summed
    assert any("the same yarns as before" in line for line in lines) is summed
    assert any(line.endswith(f"{runs} finish") for line in lines) is summed
    named = table(crowded(runs, 4), whole=True)
    assert not any("joined" in line or line == ALL for line in named)
