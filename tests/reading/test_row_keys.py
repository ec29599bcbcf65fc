"""Which rows a key or a label means, a side of an opening included; pages of rows under headings; rows of shaping and
partings at the chart's own top; and how long a text in quotes may be."""

import pytest
from reading_charts import read

from lintarsia.chart.shaping import Divide, Order, Parting
from lintarsia.reading import read_chart, rows
from lintarsia.reading.row_keys import RowKey, read_half, row_key
from lintarsia.reading.written_rows import written_entries
from lintarsia.result import Region


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("3", RowKey((3,))),
        (" Row 5 (RS) ", RowKey((5,))),
        ("rnds 2-4", RowKey((2, 3, 4))),
        ("R7", RowKey((7,))),
        ("1, 3 and 6", RowKey((1, 3, 6))),
        ("6 & 2", RowKey((2, 6))),
        ("3 to 5, and 9", RowKey((3, 4, 5, 9))),
        ("3–9/3", RowKey((3, 6, 9))),
        ("RS rows 5-10", RowKey((5, 7, 9))),
        ("WS 4", RowKey((4,))),
        ("RS rows 5-9/4", RowKey((5, 9))),
        ("all ws", RowKey((), "WS")),
        ("All RS rows", RowKey((), "RS")),
        ("2 and all RS", RowKey((2,), "RS")),
        ("left 84", RowKey((84,), "", "left")),
        ("Right neck side, row 84 (WS)", RowKey((84,), "", "right")),
        ("left front, rows 3-4", RowKey((3, 4), "", "right")),  # as it is worn
        ("the right-hand side of the neck: all WS", RowKey((), "WS", "right")),
        ("Right side", None),
        ("", None),
        ("Row", None),
        ("left", None),
        ("0", None),
        ("three", None),
        ("3, x", None),
        ("x and all WS", None),
        ("5-3", None),
        ("1234567", None),
    ],
)
def test_the_rows_that_a_key_means(text: str, key: RowKey | None) -> None:
    assert row_key(text) == key


def test_a_range_beyond_any_chart_is_cut_and_those_of_all_a_side_are_as_the_chart_has_them() -> None:
    key = row_key("7-900000")
    assert key is not None
    assert (key.rows[0], key.rows[-1], len(key.rows)) == (7, 20_007, 20_001)
    every = RowKey((2, 9), "RS")
    assert every.meant(5, lambda row: "RS" if row % 2 else "WS") == (1, 2, 3, 5, 9)
    assert RowKey((2, 9)).meant(5, lambda row: "") == (2, 9)


def test_the_side_of_an_opening_and_where_its_name_ends() -> None:
    assert read_half("left neck edge, row 3") == ("left", 16)
    assert read_half("Right front: 3") == ("left", 13)
    assert read_half("right back 3") == ("right", 11)
    assert read_half("rightly 3") == read_half("Right side") == ("", 0)


def place(line: int, end: int) -> Region:
    return Region(line, 3, line, end)


def test_a_page_of_rows_under_the_headings_of_the_sides() -> None:
    page = [
        ("R1 is a ball of oat", place(4, 22)),
        ("Row 1: k3", place(5, 12)),
        ("## Right neck side:", place(6, 22)),
        ("Row 2: p2", place(7, 12)),
        ("k1", place(8, 5)),
        ("right", place(9, 8)),
        ("", place(10, 3)),
        ("- **Left 2 (WS):** p1 \\*", place(11, 27)),
        ("R 3: k5", place(12, 10)),
        ("Sides together", place(13, 17)),
        ("Rnd 3: k4", place(14, 12)),
    ]
    entries = written_entries("", page, 4, lambda row: "RS" if row % 2 else "WS")
    assert [(e.said, e.rows, e.half, e.words, e.region) for e in entries] == [
        ("Row 1", (1,), "", "Row 1: k3", Region(5, 3, 5, 12)),
        ("Row 2", (2,), "right", "Row 2: p2 k1 right Left 2 (WS): p1 * R 3: k5", Region(7, 3, 12, 10)),
        ("Rnd 3", (3,), "", "Rnd 3: k4", Region(14, 3, 14, 12)),
    ]


def test_short_labels_count_where_no_line_says_row() -> None:
    page = [("R1 (RS): k3", place(4, 14)), ("2) p3", place(5, 8)), ("all WS: p2", place(6, 13)), ("4: k1", place(7, 8))]
    entries = written_entries("", page, 3, lambda row: "RS" if row % 2 else "WS")
    assert [(e.said, e.rows, e.words, e.names_all) for e in entries] == [
        ("R1 (RS)", (1,), "R1 (RS): k3 2) p3", False),
        ("all WS", (2,), "all WS: p2", True),
        ("4", (4,), "4: k1", False),
    ]


HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
"""
GRID = "chart: |\n  AAAAA\n  AAAAA\n  AAAAA\n"


def test_a_parting_may_stand_in_the_highest_row_and_at_the_last_stitch_but_one() -> None:
    chart = read(f"{HEAD}divide:\n  3: {{by: nothing, at: 4, to: 3}}\n  2: {{by: bind-off}}\n{GRID}").chart
    assert chart is not None
    assert chart.divide == {
        2: Divide(2, Parting("bind-off"), Order.TOGETHER, None, None),
        3: Divide(3, Parting("nothing"), Order.TOGETHER, 4, 3),
    }
    assert list(chart.divide) == [2, 3]


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ("divide: {4: {by: nothing}}", ["row-outside divide names row 4; the chart has 3 rows"]),
        ("divide: {2: {by: nothing, at: 5}}",
         ["stitches-outside the slit of row 2 runs after stitch 5; the chart is 5 stitches wide"]),
        ("divide: {2: {by: nothing, to: 1}}",
         ["row-outside the opening of row 2 ends with row 1; expected one from 2 to 3"]),
        ("divide: {2: {by: nothing, to: 4}}",
         ["row-outside the opening of row 2 ends with row 4; expected one from 2 to 3"]),
        ("shaping: {2-4: {left: -1}}", ["row-outside shaping names row 4; the chart has 3 rows"]),
        ("shaping: {3-1: {left: -1}}",
         ["range-backwards the rows of shaping run backwards, 3-1; expected the lower number first"]),
        ("shaping: {1: {left: {as: ssk}}}",
         ["wrong-value left of 1 in shaping says no number of stitches; expected one, such as {decrease: 1}"]),
    ],
)  # fmt: skip
def test_what_lies_beyond_the_chart_is_told_and_left_out(more: str, told: list[str]) -> None:
    reading = read(f"{HEAD}{more}\n{GRID}")
    assert [f"{finding.key} {finding.message}" for _, finding in reading.problems] == told


@pytest.mark.parametrize(("key", "remedy"), [("3-1", "write 1-3"), ("12-5/2", "write 5-12/2")])
def test_rows_that_run_backwards_are_told_the_right_way_round(key: str, remedy: str) -> None:
    ((_, finding),) = read(f"{HEAD}shaping: {{{key}: {{left: -1}}}}\n{GRID}").problems
    assert finding.remedy == remedy


def test_many_steps_that_pass_over_their_end_are_told_by_the_first_two_and_the_last() -> None:
    grid = "chart: |\n" + "  AAAAA\n" * 12
    told = {}
    for key in ("1-8/2", "1-10/2"):
        ((_, finding),) = read(f"{HEAD}shaping: {{{key}: {{left: -1}}}}\n{grid}").problems
        told[key] = (finding.message.partition("; ")[2], finding.remedy)
    assert told == {
        "1-8/2": ("shaped are rows 1, 3, 5 and 7", "write 1-7/2"),
        "1-10/2": ("shaped are rows 1, 3, … and 9", "write 1-9/2"),
    }


def test_a_chart_in_quotes_may_be_so_long_and_no_longer(monkeypatch: pytest.MonkeyPatch) -> None:
    """The length is that of the chart's own text, quotes and all, wherever in the file it stands."""
    text = f'{HEAD}chart: "AAAA\\nAAAA"\n'.encode()
    monkeypatch.setattr(rows, "MOST_QUOTED", 12)
    chart = read_chart("x.chart.yaml", text).chart
    assert chart is not None
    assert chart.grid.rows == ("AAAA", "AAAA")
    monkeypatch.setattr(rows, "MOST_QUOTED", 11)
    ((_, finding),) = read_chart("x.chart.yaml", text).problems
    assert finding.message == "the chart is a text of 12 characters that is not a block; at most 11 are read"
