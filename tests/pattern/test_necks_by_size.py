"""A neck in a pattern's own shaping, size by size, against the same piece drawn by hand as a chart with `divide`."""

from pathlib import Path

import pytest
from test_pieces_by_hand import by_hand, chart_file, pattern, same

from lintarsia.engine import check_paths
from lintarsia.pattern.reading import read_pattern

TEXT = """\
sizes: [s, l]
pieces:
  front:
    chart: f.chart.yaml
    plain: B
    cast-on: {s: 9, l: 12}
    rows: {s: 6, l: 7}
    at: {stitch: {s: 3, l: 4}, row: {s: 2, l: 2}}
    shaping:
      s: {5: {neck-right: -1}, 6: {neck-left: -1}}
      l: {6: {neck-right: -1, neck-left: -2}}
    divide:
      s: {4: {by: bind-off, stitches: 3, sides: right-first}}
      l: {5: {by: hold, stitches: 3, sides: left-first}}
"""
SMALL = "BB.....BB BBB....BB BBB...BBB BBBBBBBBB BBBBBWRBB BBBBBBBBB"
LARGE = "BBB......BBB BBB......BBB BBBBB...BBBB BBBBBBBBBBBB BBBBBBBBBBBB BBBBBBBWRBBB BBBBBBBBBBBB"


def test_a_neck_in_two_sizes(tmp_path: Path) -> None:
    """In the large size three stitches of twelve are held: the odd one stands at the left."""
    work = pattern(tmp_path, TEXT, f=chart_file("WR"))
    small = "shaping:\n  5: {neck-right: -1}\n  6: {neck-left: -1}\ndivide:\n  4: {by: bind-off, sides: right-first}\n"
    same(work, "s", by_hand(SMALL, small))
    large = "shaping:\n  6: {neck-right: -1, neck-left: -2}\ndivide:\n  5: {by: hold, sides: left-first}\n"
    same(work, "l", by_hand(LARGE, large))


def test_what_a_hand_drawn_neck_shows_is_found_in_the_pattern_too(tmp_path: Path) -> None:
    """Row 5 (RS) of the small size would bind off at the right-hand side's neck, where its part of the row ends."""
    wrong = TEXT.replace("5: {neck-right: -1}, 6", "5: {neck-right: -3}, 6")
    pattern(tmp_path, wrong, f=chart_file("WR"))
    found = [r for r in check_paths([str(tmp_path)]).results if r.rule.startswith("grid/")]
    assert [(r.rule, r.key) for r in found] == [("grid/shaping-side", "end-of-side")]
    assert found[0].message.startswith("front, s: row 5 (RS) binds off 3 stitches at the inner edge (neck-right)")
    assert found[0].file.endswith(".pattern.yaml")
    lines = Path(found[0].file).read_text().splitlines()
    assert "shaping" in lines[found[0].region.line - 1] or "neck-right" in lines[found[0].region.line - 1]


def test_the_mirror_image_is_worked_in_the_other_order(tmp_path: Path) -> None:
    text = """\
pieces:
  front: {chart: f.chart.yaml, shaping: {4: {neck-right: -1}}, divide: {3: {by: bind-off, stitches: 2, at: 1}}}
  other: {chart: f.chart.yaml, mirror-of: front, shaping: {4: {neck-right: -1}},
          divide: {3: {by: bind-off, stitches: 2, at: 1, sides: right-first}}}
"""
    work = pattern(tmp_path, text, f=chart_file("BBBWWB BBBBBB BBBBRB BBBBBB"))
    said = "shaping:\n  4: {neck-right: -1}\ndivide:\n  3: {by: bind-off, sides: together}\n"
    same(work, "one size", by_hand("BBB... BBB..B BBBBRB BBBBBB", said))
    turned = "first-row: WS\nshaping:\n  4: {neck-left: -1}\ndivide:\n  3: {by: bind-off, sides: left-first}\n"
    same(work, "one size", by_hand("...BBB B..BBB BRBBBB BBBBBB", turned), "other")


def test_a_slit_up_the_middle(tmp_path: Path) -> None:
    text = "pieces:\n  front: {chart: f.chart.yaml, divide: {2: {by: nothing, sides: together}}}\n"
    work = pattern(tmp_path, text, f=chart_file("BBBBRB BBBBBB BBBBRB"))
    same(work, "one size", by_hand("BBBBRB BBBBBB BBBBRB", "divide:\n  2: {by: nothing, at: 3}\n"))


@pytest.mark.parametrize(
    "said",
    [
        "{4: {by: bind-off}}",
        "{4: {by: nothing, stitches: 3}}",
        "{4: {stitches: 3}}",
        "{4: {by: hold, stitches: 3, to: 2}}",
        "{four: {by: hold, stitches: 3}}",
        "{s: {4: {by: hold}}, l: {4: {by: hold, stitches: 2}}}",
    ],
)
def test_partings_that_say_too_little(said: str) -> None:
    text = f"lintarsia-pattern: 1\ntitle: A\nsizes: [s, l]\npieces:\n  front: {{chart: f.chart.yaml, divide: {said}}}\n"
    found = [finding.message for _, finding in read_pattern("a.pattern.yaml", text.encode()).problems]
    assert len(found) == 1, found
    assert "in divide of front: expected a row with {by: bind-off, stitches: 12}" in found[0]


def test_a_size_whose_neck_is_forgotten(tmp_path: Path) -> None:
    text = "sizes: [s, l]\npieces:\n  front: {chart: f.chart.yaml, divide: {s: {2: {by: hold, stitches: 2}}}}\n"
    pattern(tmp_path, text, f=chart_file("BWRB BBBB"))
    messages = [r.message for r in check_paths([str(tmp_path)]).results if r.rule == "size/unstated"]
    assert messages == ["front: divide is stated for s and not for l"]


BLOCK = """\
pieces:
  front:
    chart: f.chart.yaml
    plain: B
    cast-on: 9
    rows: 9
    at: {stitch: 3, row: 2}
    shaping:
      3: {right: -1}
      4-8/2: {neck-left: -1}
      7: {neck-right: -3}
    divide:
      4: {by: hold, stitches: 1, sides: left-first}
"""


def test_a_fault_of_the_outline_stands_at_the_entry_of_its_row(tmp_path: Path) -> None:
    """Row 7 (RS) binds off where the right-hand side's part of it ends; there are 3 of its stitches to take."""
    pattern(tmp_path, BLOCK, f=chart_file("WR"))
    found = [r for r in check_paths([str(tmp_path)]).results if r.rule.startswith("grid/")]
    assert [(r.rule, r.row) for r in found] == [("grid/shaping-side", None)]
    lines = Path(found[0].file).read_text().splitlines()
    assert lines[found[0].region.line - 1].strip() == "7: {neck-right: -3}"
