"""Rows that say the same: one line on paper, and each its own on a screen."""

import re
from pathlib import Path

from sitekit import Look

from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.keyview import make_key
from lintarsia.publishing.pages.rowview import rows_html
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


def lines(tmp_path: Path, chart: str, worked: str = "flat") -> list[tuple[int, str, bool]]:
    """Of each row its number, how far its line goes on paper ("" where it stands alone), and whether it has none."""
    file = tmp_path / "bands.chart.yaml"
    file.write_text(HEAD.format(worked=worked) + chart, encoding="utf-8")
    read = read_chart(str(file)).chart
    assert read
    plan = make_plan(read)
    head = r'<tr id="row-(\d+)" class="[rtl]{3}( same)?" data-way="\w+"(?: data-again="[\d ]+")?>'
    row = head + r'<th scope="row"><a href="#row-\d+"(?: data-to="(\d+)")?>'
    found = re.findall(row, rows_html(read, plan, make_key(read, plan)))
    return [(int(number), to, bool(same)) for number, same, to in found]


def test_plain_rows_are_one_line_from_where_they_say_the_same(tmp_path: Path) -> None:
    chart = "chart: |\n  BBBB\n  AAAA\n  AAAA\n  AAAA\n  AAAA\n"
    # Row 1 joins the yarn, row 4 is its last.
    assert lines(tmp_path, chart) == [(1, "", False), (2, "3", False), (3, "", True), (4, "", False), (5, "", False)]


def test_rows_that_differ_stand_alone(tmp_path: Path) -> None:
    chart = "chart: |\n  AAAB\n  AABB\n  ABBB\n"
    assert lines(tmp_path, chart) == [(1, "", False), (2, "", False), (3, "", False)]


def test_shaped_rows_stand_alone(tmp_path: Path) -> None:
    """Whoever reads `2–3: decrease 1 at each end` may do it once."""
    wrong = (
        "shaping:\n  2: {left: -1, right: -1}\n  3: {left: -1, right: -1}\nchart: |\n  AAAA\n  AAAA\n  AAAA\n  AAAA\n"
    )
    assert [to for _, to, _ in lines(tmp_path, wrong)] == ["", "", "", ""]


def test_they_are_merged_on_paper_alone(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html")
    first = page.locator("a[data-to]").first
    number, last = int(first.inner_text()), int(first.get_attribute("data-to") or 0)
    follower = page.locator(f"#row-{last}")
    assert follower.is_visible()
    page.emulate_media(media="print")
    assert not follower.is_visible()
    assert first.evaluate("(link) => getComputedStyle(link, '::after').content") == f'"–{last}"'
    assert not page.locator(f"#row-{number} .side").is_visible()  # they go to and fro
    assert page.locator("#row-1 .side").is_visible()


def test_each_of_them_is_there_to_knit_along(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html#row-3")
    assert "same" in (page.locator("#row-3").get_attribute("class") or "")
    assert "Row 3" in page.locator("#knit-title").inner_text()
