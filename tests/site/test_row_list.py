"""The list of rows on a chart's page, whole: its ways, sides, stretches and yarns, in a chart that no mirror maps to
itself."""

import html
import re
from pathlib import Path

import pytest
from sitekit import row_list

from lintarsia.publishing.pages import rowview
from lintarsia.reading.reader import read_chart

LOPSIDED = """\
lintarsia: 1
title: Lopsided
worked: {worked}
first-row: {side}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  A: {{name: Deep sea, shade: "#27406b"}}
  B: {{name: Bone, shade: "#efe9dc"}}
chart: |
  AAABB
  AABBB
  AABBB
"""


def told(tmp_path: Path, worked: str = "flat", side: str = "RS") -> list[tuple[str, str, str, list[str], str]]:
    """(row's class, `data-way`, arrow and words, stretches in the order told, side) of each row."""
    file = tmp_path / "lop.chart.yaml"
    text = LOPSIDED.format(worked=worked, side=side)
    file.write_text(text if worked == "flat" else text.replace(f"first-row: {side}\n", ""), encoding="utf-8")
    read = read_chart(str(file))
    assert read.chart, read.problems
    page = row_list(read.chart)
    found = []
    for row in re.findall(r'<tr id="row-.*?</tr>', page, re.DOTALL):
        cls, way = re.findall(r'class="(\w+)"', row)[0], re.findall(r'data-way="(\w+)"', row)[0]
        arrow = plain(re.findall(r'<span class="way" data-way="\w+">(.*?)</span></th>', row)[0])
        runs = re.findall(r'<span class="run">(.*?)</em></span>', row)
        sides = re.findall(r'class="side"[^>]*>(.*?)</span>', row)
        found.append((cls, way, arrow, list(map(plain, runs)), plain("".join(sides))))
    return found


def plain(text: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


LEFTWARD, RIGHTWARD = ("rtl", "left", "← right to left"), ("ltr", "right", "→ left to right")


def test_flat_rows_go_to_and_fro_and_begin_at_the_right(tmp_path: Path) -> None:
    """A right-side row is worked from right to left, as the chart is seen; common practice."""
    rows = told(tmp_path)
    assert [row[:3] for row in rows] == [LEFTWARD, RIGHTWARD, LEFTWARD]
    assert [row[4] for row in rows] == ["right side", "wrong side", "right side"]


def test_a_chart_that_begins_with_a_wrong_side_row_begins_at_the_left(tmp_path: Path) -> None:
    assert [row[:3] for row in told(tmp_path, side="WS")] == [RIGHTWARD, LEFTWARD, RIGHTWARD]


def test_rounds_all_go_from_right_to_left(tmp_path: Path) -> None:
    assert [row[:3] for row in told(tmp_path, worked="round")] == [LEFTWARD] * 3


SEA_LAST = [["3 Bone B1", "2 Deep sea A1"], ["2 Deep sea A1", "3 Bone B1"], ["2 Bone B1", "3 Deep sea A1"]]
BONE_LAST = [["2 Deep sea A1", "3 Bone B1"], ["3 Bone B1", "2 Deep sea A1"], ["3 Deep sea A1", "2 Bone B1"]]


@pytest.mark.parametrize(("side", "rows"), [("RS", SEA_LAST), ("WS", BONE_LAST)])
def test_stretches_are_told_in_the_order_they_are_worked(side: str, rows: list[list[str]], tmp_path: Path) -> None:
    assert [row[3] for row in told(tmp_path, side=side)] == rows


def test_a_list_in_words_alone_tells_which_yarns_come_and_which_go(monkeypatch: pytest.MonkeyPatch) -> None:
    """In row 2 Bone comes and Rust goes: each is told apart. Row 1 has but new ones, and row 3 ends what is left."""
    monkeypatch.setattr(rowview, "MOST_DRAWN_RUNS", 0)  # as if the chart were a large one
    text = LOPSIDED.format(worked="flat", side="RS").partition("chart:")[0]
    text += '  R: {name: Rust, shade: "#b8743c"}\nchart: |\n  AABBB\n  ABBRR\n  AARRR\n'
    chart = read_chart("lop.chart.yaml", text.encode()).chart
    assert chart is not None
    rows = re.findall(r'<td class="runs">.*?</td><td>(.*?)</td>', row_list(chart), re.DOTALL)
    assert [plain(row) for row in rows] == ["new R1, A1", "new B1; last row of R1", "last row of B1, A1"]
