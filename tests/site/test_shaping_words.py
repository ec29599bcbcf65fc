"""Shaping in words: the start and the end of a row are where the knitter begins and stops, whichever side she sees."""

from dataclasses import replace
from pathlib import Path

import pytest
from sitekit import row_list

from lintarsia.chart.grid import RowNumber
from lintarsia.chart.sides import Half, Stint
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.shapingnotes import joining_words, shaping_words, topmost_words
from lintarsia.reading.reader import read_chart
from lintarsia.telling.terms import Terms

HEAD = """\
lintarsia: 1
title: Wedge
worked: {worked}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  A: {{name: Bone, shade: "#efe9dc"}}
shaping: {shaping}
chart: |
"""


def said(tmp_path: Path, shaping: str, rows: list[str], row: int = 2, worked: str = "flat") -> str:
    """`rows` from row 1 up."""
    file = tmp_path / "wedge.chart.yaml"
    text = HEAD.format(worked=worked, shaping=shaping) + "".join(f"  {line}\n" for line in reversed(rows))
    file.write_text(text, encoding="utf-8")
    chart = read_chart(str(file)).chart
    assert chart is not None
    return shaping_words(chart, make_plan(chart), row)


@pytest.mark.parametrize(
    ("shaping", "above", "words"),
    [
        ("{2: {right: 1, left: 1}}", "AAAAAA", "increase 1 at each end: 4 to 6 stitches"),
        ("{2: {right: -1, left: -1}}", ".AA.", "decrease 1 at each end: 4 to 2 stitches"),
        # row 2 shows its wrong side and begins at the chart's left
        ("{2: {right: 0, left: -1}}", ".AAA", "decrease 1 at the start: 4 to 3 stitches"),
        ("{2: {right: -1, left: 0}}", "AAA.", "decrease 1 at the end: 4 to 3 stitches"),
        ("{2: {right: 1, left: 2}}", "AAAAAAA", "increase 2 at the start and 1 at the end: 4 to 7 stitches"),
        ("{2: {right: 1, left: -1}}", ".AAAA", "decrease 1 at the start, increase 1 at the end: still 4 stitches"),
        ("{2: 2}", "AAAAAA", "increase 2: 4 to 6 stitches"),
        ("{2: -2}", "AA", "decrease 2: 4 to 2 stitches"),
        ("{2: 0}", "AAAA", ""),
        ("{2: -1}", "AA", "decrease 1"),  # the chart says otherwise, and so does a result
    ],
)
def test_a_wrong_side_row(tmp_path: Path, shaping: str, above: str, words: str) -> None:
    wide = len(above)
    assert said(tmp_path, shaping, ["AAAA".rjust(wide, ".") if "." in above else "AAAA", above]) == words


def test_a_right_side_row_begins_at_the_right(tmp_path: Path) -> None:
    assert said(tmp_path, "{3: {right: -1, left: 0}}", ["AAAA", "AAAA", "AAA."], 3).startswith(
        "decrease 1 at the start"
    )


def test_every_round_begins_at_the_right(tmp_path: Path) -> None:
    words = said(tmp_path, "{2: {right: -1, left: 0}}", ["AAAA", "AAA."], worked="round")
    assert words == "decrease 1 at the start: 4 to 3 stitches"


def test_the_first_row_is_counted_from_what_is_cast_on(tmp_path: Path) -> None:
    assert said(tmp_path, "{1: 1}", ["AAAA"], 1) == "increase 1: 3 to 4 stitches"


def test_a_row_without_shaping_says_nothing(tmp_path: Path) -> None:
    assert said(tmp_path, "{2: -1}", ["AAAA", "AAA."], 1) == ""


def test_several_stitches_are_bound_off_or_cast_on(tmp_path: Path) -> None:
    rows = ["AAAAAAA", "...AAAA"]
    assert said(tmp_path, "{2: {left: -3}}", rows) == "bind off 3 at the start: 7 to 4 stitches"
    assert said(tmp_path, "{2: {left: {hold: 3}}}", rows) == "hold 3 at the start: 7 to 4 stitches"
    assert said(tmp_path, "{2: {right: 3}}", ["AAAA...", "AAAAAAA"]) == "cast on 3 at the end: 4 to 7 stitches"


MADE = "decreases: {{lean: {lean}, after: {after}}}\nshaping: {shaping}"


@pytest.mark.parametrize(
    ("lean", "after", "shaping", "above", "words"),
    [
        # Row 3 shows its right side: it starts at the chart's right, and a decrease that leans along an edge slopes as
        # the edge does. At the right of the fabric that is k2tog's mirror image, ssk (common practice).
        ("along", 1, "{3: {right: -1, left: -1}}", ".AAAA.", "decrease 1 at each end, 1 stitch in, as ssk and k2tog"),
        (
            "against",
            2,
            "{3: {right: -1, left: -1}}",
            ".AAAA.",
            "decrease 1 at each end, 2 stitches in, as k2tog and ssk",
        ),
        ("against", 0, "{3: {right: -1, left: -1}}", ".AAAA.", "decrease 1 at each end, as k2tog and ssk"),
        ("along", 1, "{3: {right: -1, left: 0}}", "AAAAA.", "decrease 1 at the start, 1 stitch in, as ssk"),
        ("along", 1, "{3: {right: 0, left: -1}}", ".AAAAA", "decrease 1 at the end, 1 stitch in, as k2tog"),
        ("along", 1, "{3: {right: 1, left: 1}}", "AAAAAAAA", "increase 1 at each end"),
    ],
)
def test_decreases_are_named_where_the_file_says_how_they_lean(
    tmp_path: Path, lean: str, after: int, shaping: str, above: str, words: str
) -> None:
    made = MADE.format(lean=lean, after=after, shaping=shaping).partition("shaping: ")
    wide = len(above)
    rows = ["AAAAAA".center(wide, ".")] * 2
    told = said(tmp_path, f"{made[2]}\n{made[0].strip()}", [*rows, above], 3)
    assert told.partition(": ")[0] == words


def test_what_a_side_ends_with_is_held_or_bound_off_and_a_single_stitch_fastened_off() -> None:
    """A last stitch is fastened off by drawing the yarn through it (common practice); there is nothing to bind off."""
    side = Stint(RowNumber(7), Half.LEFT, (3, 5), leftward=True)
    assert topmost_words(side) == "after this row leave the 2 stitches of this side on a holder, or bind them off"
    assert topmost_words(side, Terms.BRITISH).endswith("or cast them off")
    held = "after this row leave the one stitch of this side on a holder, or draw the yarn through it"
    assert topmost_words(replace(side, columns=(3, 4))) == held
    assert topmost_words(replace(side, columns=(3, 3))) == ""


def test_a_side_without_yarn_of_its_own_begins_with_none() -> None:
    assert joining_words(None, "the slit") == ""


def test_a_row_with_purls_says_on_the_page_what_is_knitted_and_purled() -> None:
    file = Path(__file__).parents[2] / "examples" / "pitcher-pillow.chart.yaml"
    pillow = read_chart(str(file)).chart
    assert pillow is not None
    lines = row_list(pillow).split("<tr ")
    assert "knit and purl k1, [p1, k1] 22 times" in lines[1]
    assert "knit and purl [k1, p1] 2 times, k37, [p1, k1] 2 times" in lines[7]
