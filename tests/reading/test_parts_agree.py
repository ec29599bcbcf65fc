"""Parts that are well formed each, and do not agree with each other."""

# ruff: noqa: E501 - a table of cases is easier to read with a case a line

import pytest
from reading_charts import PLAIN, cut, read

from lintarsia.result import Finding, Level


def only(text: str) -> Finding:
    ((rule, finding),) = read(text).problems
    assert rule == "file/schema"
    assert read(text).chart is not None
    return finding


@pytest.mark.parametrize(
    ("part", "key", "message", "place"),
    [
        ("repeat: {stitches: [2, 7], rows: [1, 3]}", "repeat-outside", "the stitches of the repeat box reach 7; the chart has 6 stitches", "[2, 7]"),
        ("repeat: {stitches: [2, 6], rows: [1, 4]}", "repeat-outside", "the rows of the repeat box reach 4; the chart has 3 rows", "[1, 4]"),
        ("repeat: {stitches: [6, 2], rows: [1, 3]}", "range-backwards", "stitches run backwards, [6, 2]; expected the lower number first", "[6, 2]"),
        ("shaping: {4: 1}", "row-outside", "shaping names row 4; the chart has 3 rows", "4"),
        ("duplicate-stitch: [{colour: A, row: 4, stitches: [1, 1]}]", "row-outside", "the duplicate stitch names row 4; the chart has 3 rows", "4"),
        ("duplicate-stitch: [{colour: A, row: 1, stitches: [6, 7]}]", "stitches-outside", "the duplicate stitch reaches stitch 7; row 1 is 6 stitches wide", "[6, 7]"),
        ("duplicate-stitch: [{colour: C, row: 1, stitches: [1, 1]}]", "unknown-symbol", "the duplicate stitch names the colour 'C'; the key has A, B", "C"),
        ("suppress: [{rule: a/b, row: 9, justification: x}]", "row-outside", "the accepted result names row 9; the chart has 3 rows", "9"),
        ("suppress: [{rule: a/b, stitches: [7, 7], justification: x}]", "stitches-outside", "the accepted result reaches stitch 7; the chart is 6 stitches wide", "[7, 7]"),
        ("suppress: [{rule: a/b, row: 1, stitches: [3, 1], justification: x}]", "range-backwards", "stitches run backwards, [3, 1]; expected the lower number first", "[3, 1]"),
        ("supplies: {A: 1, B: 2, C: 1}", "unknown-symbol", "a supply names the colour 'C'; the key has A, B", "C"),
        ("yarns: {dk: {length: 0.0 m}}", "wrong-value", "a ball of dk is 0.0 m long; expected a length above 0", "0.0 m"),
        ("worked: round\nfirst-row: WS", "first-row-round", "first-row is WS, but a chart worked in the round shows the right side in every round", "WS"),
    ],
)  # fmt: skip
def test_parts_that_do_not_agree(part: str, key: str, message: str, place: str) -> None:
    text = PLAIN + part + "\n"
    finding = only(text)
    assert (finding.key, finding.message) == (key, message)
    assert cut(text, finding.region) == place


def test_a_duplicate_stitch_needs_a_stitch_under_it() -> None:
    text = rows("  A..A", "  AAAA") + "duplicate-stitch: [{colour: B, row: 2, stitches: [1, 2]}]\n"
    finding = only(text)
    assert finding.message == "the duplicate stitch lies where row 2 has no stitch; expected stitches to work over"
    assert cut(text, finding.region) == "[1, 2]"


def test_parts_that_do_not_agree_are_left_out_of_the_chart() -> None:
    text = (
        PLAIN
        + """\
repeat: {stitches: [2, 7], rows: [1, 3]}
shaping: {2: 1, 4: 1}
supplies: {A: 1, B: 2, C: 1}
duplicate-stitch:
- {colour: B, row: 1, stitches: [1, 2]}
- {colour: B, row: 1, stitches: [6, 7]}
- {colour: B, row: 4, stitches: [1, 1]}
- {colour: C, row: 1, stitches: [1, 1]}
suppress:
- {rule: a/b, row: 4, justification: x}
- {rule: a/b, row: 3, stitches: [7, 7], justification: x}
- {rule: a/c, row: 3, stitches: [6, 6], justification: x}
"""
    )
    reading = read(text)
    assert len(reading.problems) == 8
    chart = reading.chart
    assert chart is not None
    assert (chart.repeat, set(chart.shaping), set(chart.supplies or ())) == (None, {2}, {"A", "B"})
    assert [d.stitches for d in chart.duplicate] == [(1, 2)]
    assert [s.rule for s in chart.suppressions] == ["a/c"]


def test_written_rows_outside_the_chart_are_left_to_their_own_rule() -> None:
    assert read(PLAIN + "written: {9: k6 A}\n").problems == ()


def test_a_range_that_runs_backwards_is_read_all_the_same() -> None:
    chart = read(PLAIN + "repeat: {stitches: [6, 2], rows: [1, 3]}\n").chart
    assert chart is not None
    assert chart.repeat is not None
    assert chart.repeat.stitches == (2, 6)


@pytest.mark.parametrize(
    ("gauge", "message", "assumed"),
    [
        ("22, rows: 30, over: 0 cm", "the gauge is counted over no length at all; expected 0.3 to 150 mm a stitch or row", True),
        ("22, rows: 0.1, over: 10 cm", "by this gauge one row measures 1,000 mm; expected 0.3 to 150 mm a stitch or row", False),
        ("2200, rows: 30, over: 10 cm", "by this gauge one stitch measures 0.0455 mm; expected 0.3 to 150 mm a stitch or row", False),
    ],
)  # fmt: skip
def test_a_gauge_that_nobody_knits(gauge: str, message: str, assumed: bool) -> None:
    text = PLAIN.replace("22, rows: 30, over: 10 cm", gauge)
    finding = only(text)
    assert (finding.key, finding.message) == ("gauge-impossible", message)
    chart = read(text).chart
    assert chart is not None
    assert ("gauge" in chart.assumed) == assumed


@pytest.mark.parametrize("gauge", ["40, rows: 56, over: 4 in", "2, rows: 2.5, over: 10 cm", "6, rows: 8, over: 1 in"])
def test_the_finest_and_the_coarsest_knitting_pass(gauge: str) -> None:
    # Lace at 33 to 40 stitches in 4 in, jumbo at 6 or fewer: Craft Yarn Council, Standard Yarn Weight System.
    assert read(PLAIN.replace("22, rows: 30, over: 10 cm", gauge)).problems == ()


def rows(*printed: str) -> str:
    return PLAIN.partition("  AAAAAA")[0] + "\n".join(printed) + "\n"


def test_white_space_after_a_row_is_a_warning_with_a_safe_mend() -> None:
    text = rows("  AAA  ", "  ABA")
    finding = only(text)
    assert (finding.key, finding.row, finding.level) == ("space-after-row", 2, Level.WARNING)
    assert cut(text, finding.fixes[0].edits[0].region) == "  "
    assert finding.fixes[0].safe
    chart = read(text).chart
    assert chart is not None
    assert chart.grid.rows == ("ABA", "AAA")


@pytest.mark.parametrize(("symbol", "what"), [(" ", "a space"), ("\t", "a tab")])
def test_white_space_inside_a_row_is_no_stitch_and_a_fault(symbol: str, what: str) -> None:
    text = rows("  AAA", f"  AA{symbol}A")
    finding = only(text)
    assert finding.message == f"row 1 has {what} at stitch 2; expected a symbol, or `.` for no stitch"
    assert (finding.row, finding.stitches) == (1, (2, 2))
    assert cut(text, finding.region) == symbol
    chart = read(text).chart
    assert chart is not None
    assert chart.grid.rows == ("AA.A", "AAA")


@pytest.mark.parametrize("symbol", [" ", "\t"])
def test_a_space_typed_for_a_stitch_is_one_fault_and_no_wrong_count(symbol: str) -> None:
    text = rows("  AAAA", "  AAAA", f"  AB{symbol}A", "  AAAA")
    finding = only(text)
    assert (finding.key, finding.row, finding.stitches) == ("space-in-row", 2, (2, 2))
    chart = read(text).chart
    assert chart is not None
    assert chart.grid.rows == ("AAAA", "ABBA", "AAAA", "AAAA")


def test_a_row_indented_too_far_keeps_its_stitches_and_their_places() -> None:
    text = rows("  AAAA", "  AAAA", "    ABAA", "  AAAA")
    finding = only(text)
    assert (finding.key, finding.row) == ("space-before-row", 2)
    assert cut(text, finding.fixes[0].edits[0].region) == "  "
    assert finding.fixes[0].safe
    chart = read(text).chart
    assert chart is not None
    assert chart.grid.rows[1] == "ABAA"
    assert cut(text, chart.places.cells(2, 3, 3)) == "B"


@pytest.mark.parametrize("gap", [" ", "   ", "\t"])
def test_stitches_that_all_stand_apart_are_one_fault_whose_mend_gives_the_chart(gap: str) -> None:
    text = rows(*("  " + gap.join(row) for row in ("AAAA", "ABBA", "AAAA")))
    (finding,) = (f for _, f in read(text).problems)
    assert finding.message == (
        "the stitches of every row stand apart; expected them side by side, one character a stitch"
    )
    lines = text.split("\n")
    for edit in finding.fixes[0].edits:
        line = lines[edit.region.line - 1]
        lines[edit.region.line - 1] = line[: edit.region.column - 1] + edit.text + line[edit.region.end_column - 1 :]
    mended = read("\n".join(lines))
    assert mended.problems == ()
    assert mended.chart is not None
    assert mended.chart.grid.rows == ("AAAA", "ABBA", "AAAA")


@pytest.mark.parametrize("row", ["A B B A", "AB BA", "A  B\tB A", "  A B B A", "A . B A"])
def test_a_row_whose_stitches_stand_apart_is_one_fault_and_read_as_it_is_meant(row: str) -> None:
    text = rows("  AAAA", f"  {row}", "  AAAA", "  AAAA")
    finding = only(text)
    assert finding.message == "row 3 has white space between its 4 stitches; expected them side by side"
    assert (finding.key, finding.row, finding.stitches) == ("space-in-row", 3, (1, 4))
    assert cut(text, finding.region) == row.strip()
    chart = read(text).chart
    assert chart is not None
    assert chart.grid.rows[2] == "".join(row.split())
    assert cut(text, chart.places.cells(3, 2, 2)) == "".join(row.split())[-2]
    assert cut(text, chart.places.cells(3, 1, 4)) == row.strip()
    (fix,) = finding.fixes
    assert fix.safe
    lines = text.split("\n")
    (edit,) = fix.edits
    at = edit.region.line - 1
    lines[at] = lines[at][: edit.region.column - 1] + edit.text + lines[at][edit.region.end_column - 1 :]
    assert read("\n".join(lines)).problems == ()


def test_a_row_apart_that_is_short_too_is_still_read_without_its_spaces() -> None:
    text = rows("  AAAAAA", "  A B B A A", "  AAAAAA", "  AAAAAA")
    assert only(text).message == "row 3 has white space between its 5 stitches; expected them side by side"
    chart = read(text).chart
    assert chart is not None
    beyond, last = chart.places.cells(3, 6, 6), chart.places.cells(3, 5, 5)
    assert cut(text, last) == "A"
    assert (beyond.line, beyond.column, beyond.end_column) == (last.line, last.column, last.column)
    assert cut(text, chart.places.cells(3, 4, 6)) == "A B"


def test_a_row_set_in_with_spaces() -> None:
    finding = only(rows("  AAAA", "   AAA"))
    assert finding.message == "row 1 has a space at stitch 4; expected a symbol, or `.` for no stitch"


def test_a_blank_line_between_rows_is_taken_out() -> None:
    text = rows("", "  AAA", "  ", "  ABA", "", "")
    finding = only(text)
    assert finding.message == "a blank line stands between row 1 and the row above it; expected none"
    assert cut(text, finding.fixes[0].edits[0].region) == "  \n"
    chart = read(text).chart
    assert chart is not None
    assert chart.grid.rows == ("ABA", "AAA")


def test_rows_of_unequal_length_are_no_fault_of_the_file() -> None:
    reading = read(rows("  AAA", "  AAAAA"))
    assert reading.problems == ()
    assert reading.chart is not None
    assert not reading.chart.grid.regular
