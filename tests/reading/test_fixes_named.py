"""What the reader's fixes are called, what stands in for a title, and rows of unequal width held each to its own."""

import pytest
from reading_charts import LOPSIDED as HEAD
from reading_charts import LOPSIDED_GRID as GRID
from yaml import ScalarNode

from lintarsia.chart import Suppression
from lintarsia.reading import read_chart
from lintarsia.reading.flow_text import spell_out
from lintarsia.reading.tree import compose


@pytest.mark.parametrize(
    ("text", "names"),
    [
        (HEAD + "shaping: {1-4/2: {right: -1}}\n" + GRID, ["write 1-3/2"]),
        (HEAD + "shaping: {2-3/2: {right: -1}}\n" + GRID, ["write 2"]),
        (HEAD + "chart: |\n  A A B\n  A B B\n", ["set the stitches side by side"]),
        (HEAD + "chart: |\n  AAB\n  ABB\n  A AB\n", ["set the stitches side by side"]),
        (HEAD + "chart: |\n  AAB\n\n  ABB\n", ["delete the blank line"]),
        (HEAD + "chart: |\n  AAB \n  ABB\n", ["delete the white space"]),
        (HEAD + "chart: |\n  AAB\n   ABB\n  AAB\n", ["delete the space before the row"]),
        (HEAD + "chart: >\n  AAB\n  ABB\n", ["keep the lines apart: | instead of >"]),
        (HEAD.replace("22", "22,5") + GRID, ["write 22.5"]),
        (HEAD.replace("lintarsia: 1\n", "") + GRID, ["write lintarsia: 1"]),
        (HEAD + "limit: {supplies: 3}\n" + GRID, ["write limits"]),
    ],
)
def test_a_fix_is_called_by_what_it_does(text: str, names: list[str]) -> None:
    problems = read_chart("x.chart.yaml", text.encode()).problems
    assert [fix.description for _, finding in problems for fix in finding.fixes] == names


@pytest.mark.parametrize(
    ("path", "title"),
    [
        ("knits/fox.chart.yaml", "fox"),
        ("fox.yaml", "fox"),
        ("fox.chart", "fox"),
        (".chart.yaml", "untitled"),
        ("", "untitled"),
    ],
)
def test_a_chart_without_a_title_goes_by_its_files_name(path: str, title: str) -> None:
    chart = read_chart(path, (HEAD.replace("title: Lopsided\n", "") + GRID).encode()).chart
    assert chart is not None
    assert chart.title == title
    assert chart.assumed == {"title"}


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("a: 'B''W'\n", [("B", 4, 5), ("'", 5, 7), ("W", 7, 8)]),
        ('a: "B\\x57\\tC"\n', [("B", 4, 5), ("W", 5, 9), ("\t", 9, 11), ("C", 11, 12)]),
        ("a: BW C\n", [("B", 3, 4), ("W", 4, 5), (" ", 5, 6), ("C", 6, 7)]),
    ],
)
def test_a_text_is_spelt_out_with_the_place_of_every_character(text: str, pieces: list[tuple[str, int, int]]) -> None:
    node = compose(text).value[0][1]
    assert isinstance(node, ScalarNode)
    assert [(p.text, p.column, p.end_column) for p in spell_out(node, text) or ()] == pieces


UNEQUAL = """\
duplicate-stitch:
  - {colour: B, row: 2, stitches: [4, 5]}
  - {colour: B, row: 1, stitches: [3, 3]}
  - {colour: A, row: 1, stitches: [4, 4]}
  - {colour: A, row: 3, stitches: [5, 5]}
suppress:
  - {rule: a/b, justification: " one ", row: 2, stitches: [4, 5]}
  - {rule: a/b, justification: two, row: 1, stitches: [3, 4]}
  - {rule: a/b, justification: three, stitches: [5, 4]}
  - {rule: a/b, justification: four, row: 3, stitches: [1, 5]}
chart: |
  BAAA
  AAABB
  ABB
"""


def test_what_lies_in_a_row_is_held_to_that_rows_own_width() -> None:
    reading = read_chart("x.chart.yaml", (HEAD + UNEQUAL).encode())
    assert reading.chart is not None
    assert [(d.row, d.stitches) for d in reading.chart.duplicate] == [(2, (4, 5)), (1, (3, 3))]
    assert reading.chart.suppressions == (
        Suppression("a/b", "one", 2, (4, 5)),
        Suppression("a/b", "three", None, (4, 5)),
    )
    assert [finding.message for _, finding in reading.problems] == [
        "the duplicate stitch reaches stitch 4; row 1 is 3 stitches wide",
        "the duplicate stitch reaches stitch 5; row 3 is 4 stitches wide",
        "the accepted result reaches stitch 4; row 1 is 3 stitches wide",
        "stitches run backwards, [5, 4]; expected the lower number first",
        "the accepted result reaches stitch 5; row 3 is 4 stitches wide",
    ]
