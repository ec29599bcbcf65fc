"""Whether a row is short, and whether its missing stitch is certain, asked without mending the file."""

import pytest
from checking import GAUGE, HEAD, found

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowNumber
from lintarsia.reading import read_chart
from lintarsia.rules.shared.short_rows import any_short, completing

TWO_COLOURS = HEAD.replace('  R: {name: Berry, shade: "#b23c2e"}\n  Y: {name: Straw, shade: "#e8c95a"}\n', "")


def drawn(grid: str, extra: str = "") -> Chart:
    """Rows as printed, the last one first."""
    rows = "".join(f"  {row}\n" for row in grid.split())
    chart = read_chart("short.chart.yaml", f"{TWO_COLOURS}{GAUGE}{extra}chart: |\n{rows}".encode()).chart
    assert chart is not None
    return chart


@pytest.mark.parametrize(
    ("grid", "shaping", "short"),
    [
        ("BBB BBB BBB", "", False),
        ("BBB BB BBB", "", True),
        ("BBB BBB BBBB", "", True),  # the row below has one more
        ("BBBB BBB BBB", "", False),
        ("BB BBB BBB", "3: -1", False),
        ("BB BBB BBB", "2: -1", True),
        ("BBB BBB BBB", "3: 1", True),
        ("BBBB BBB BBB", "3: 1", False),
        ("BBB BBB BB", "2: 1", False),
        ("B.B BBB", "", True),
        ("B.B B.B", "", False),
        (".BB BBB", "2: -1", False),
    ],
)
def test_whether_a_row_is_short(grid: str, shaping: str, short: bool) -> None:
    assert any_short(drawn(grid, f"shaping: {{{shaping}}}\n" if shaping else "")) is short


SAME, OTHER, SHORT = "BBBWWW", "BBWWWW", "BBBWW"


@pytest.mark.parametrize(
    ("rows", "row", "certain"),
    [
        ([SAME, SHORT, SAME, SAME], 2, True),  # bottom-up: seen twice above
        ([SAME, SAME, SHORT, SAME], 3, True),  # seen twice below
        ([SAME, SHORT, SAME], 2, False),  # it may be a zigzag
        ([SAME, SHORT, SAME, OTHER, SAME], 2, False),
        ([SAME, OTHER, SAME, SHORT, SAME, OTHER, SAME], 4, False),
        ([OTHER, SAME, SAME, SHORT, SAME, OTHER], 4, True),
        ([OTHER, OTHER, SAME, SHORT, SAME, SAME], 4, True),
        ([SHORT, SAME, SAME], 1, False),
        ([SAME, SAME, SHORT], 3, False),
        ([SAME, SAME, SHORT, OTHER], 3, False),
    ],
)
def test_a_missing_stitch_is_certain_in_the_middle_of_what_goes_straight_up(
    rows: list[str], row: int, certain: bool
) -> None:
    fixes = completing(drawn(" ".join(reversed(rows))), RowNumber(row))
    assert [(fix.description, fix.edits[0].text) for fix in fixes] == (
        [("put the missing stitch in W back, as below and above", "W")] if certain else []
    )
    assert fixes is not None


def test_several_missing_stitches_are_counted() -> None:
    whole = "B" * 8 + "W" * 8
    fixes = completing(drawn(f"{whole} {whole} {whole[2:]} {whole}"), RowNumber(2))
    assert [fix.description for fix in fixes] == ["put the 2 missing stitches in B back, as below and above"]
    assert completing(drawn(f"{whole} {whole} {whole[3:]} {whole}"), RowNumber(2)) == ()  # more than an eighth


@pytest.mark.parametrize(
    ("accepted", "certain"),
    [
        ("{rule: words/side, row: 2, stitches: [1, 2], justification: x}", False),
        ("{rule: words/side, row: 2, justification: x}", True),  # counts no stitches
        ("{rule: words/side, row: 3, stitches: [1, 2], justification: x}", True),
    ],
)
def test_what_counts_the_stitches_of_a_short_row(accepted: str, certain: bool) -> None:
    chart = drawn(f"{SAME} {SAME} {SHORT} {SAME}", f"suppress: [{accepted}]\n")
    assert bool(completing(chart, RowNumber(2))) is certain


def test_a_row_with_escapes_is_left_to_its_writer() -> None:
    """The file's columns are not the row's."""
    for written, certain in (("BB\\x42WW", False), ("BBBWW", True)):
        quoted = "\\n".join((SAME, SAME, written, SAME))
        chart = read_chart("short.chart.yaml", f'{TWO_COLOURS}{GAUGE}chart: "{quoted}"\n'.encode()).chart
        assert chart is not None
        assert chart.grid.rows[1] == SHORT
        assert bool(completing(chart, RowNumber(2))) is certain


def test_a_colour_is_not_taken_out_while_a_stitch_is_missing() -> None:
    """It may be that of the missing stitch."""
    assert [f.fixes for f in found("colour/unused", "BBW BB BBR")] == [()]
    assert [fix.description for f in found("colour/unused", "BBW BBB BBR") for fix in f.fixes] == [
        "take Y out of the key"
    ]
