"""Rows that say the same are one line, on paper and on a screen, and each of them can be linked to."""

import re
from pathlib import Path

from sitekit import Look, row_list

from lintarsia.reading.reader import read_chart

HEAD = """\
lintarsia: 1
title: Bands
worked: {worked}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  A: {{name: Deep sea, shade: "#27406b"}}
  B: {{name: Bone, shade: "#efe9dc"}}
"""


def lines(tmp_path: Path, chart: str, worked: str = "flat") -> list[tuple[str, list[str]]]:
    """Of each line what it is called, and the rows that can be linked to in it."""
    file = tmp_path / "bands.chart.yaml"
    file.write_text(HEAD.format(worked=worked) + chart, encoding="utf-8")
    read = read_chart(str(file)).chart
    assert read
    named, linked = r'<a href="#row-\d+">(.*?)</a>', r'id="row-(\d+)"'
    heads = re.findall(r'<tr id="row-.*?</th>', row_list(read))
    return [(re.findall(named, head)[0], re.findall(linked, head)) for head in heads]


def test_plain_rows_are_one_line_from_where_they_say_the_same(tmp_path: Path) -> None:
    chart = "chart: |\n  BBBB\n  AAAA\n  AAAA\n  AAAA\n  AAAA\n"
    # Row 1 joins the yarn, row 4 is its last.
    assert lines(tmp_path, chart) == [("1", ["1"]), ("2–3", ["2", "3"]), ("4", ["4"]), ("5", ["5"])]


def test_rows_that_differ_stand_alone(tmp_path: Path) -> None:
    chart = "chart: |\n  AAAB\n  AABB\n  ABBB\n"
    assert [name for name, _ in lines(tmp_path, chart)] == ["1", "2", "3"]


def test_shaped_rows_stand_alone(tmp_path: Path) -> None:
    """Whoever reads `2–3: decrease 1 at each end` may do it once."""
    wrong = (
        "shaping:\n  2: {left: -1, right: -1}\n  3: {left: -1, right: -1}\nchart: |\n  AAAA\n  AAAA\n  AAAA\n  AAAA\n"
    )
    assert [name for name, _ in lines(tmp_path, wrong)] == ["1", "2", "3", "4"]


def test_a_stretch_that_a_row_repeats_is_told_once() -> None:
    head = HEAD.format(worked="round").replace("gauge", "technique: stranded\ngauge")
    chart = read_chart("hat.chart.yaml", f"{head}chart: |\n  {'A' + 'BBA' * 6}\n".encode()).chart
    assert chart
    told = " ".join(re.sub("<[^>]+>", " ", row_list(chart)).split())
    assert "3 stitches, 6 times: 1 Deep sea A1 2 Bone B1 then 1 Deep sea A1" in told  # worked from the right


def test_a_row_in_a_line_of_several_can_be_gone_to(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html#row-3")
    assert "Row 3" in page.locator("#knit-title").inner_text()
    line = page.locator("tr.is-current")
    assert re.fullmatch("[12]–[0-9]+", line.locator("th a").inner_text())
    assert line.locator(".side").count() == 0  # they go to and fro
