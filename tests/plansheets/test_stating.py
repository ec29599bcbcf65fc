"""The supplies: section written into many kinds of chart file: only it may change."""

import difflib
from pathlib import Path

import pytest

from lintarsia.chart import StatedSupply
from lintarsia.chart.measure import Length
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.intochart import write_supplies
from lintarsia.plansheets.stating import _length, needed, state_supplies
from lintarsia.reading import read_chart

HEAD = """\
# A comment at the top.
lintarsia: 1   # the format
title: "Two blobs"
gauge: {stitches: 22, rows: 30, over: 10 cm}
"""
COLOURS = """\
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  # bone is spun at home
  Y: {name: 'Straw', shade: "#d9a441"}   # a comment behind a colour
"""
CHART = """\
chart: |
  BBBBBBBBBBBBB
  BBBBBBBBBYBBB
  BBYBBBBBBYBBB
  BBYBBBBBBBBBB
  BBBBBBBBBBBBB
# A comment at the end, without a line break"""
COUNTS = {"B": 3, "Y": 2}


def write(file: Path, text: str) -> str:
    """Plan the chart and write its supplies; the new text."""
    file.write_bytes(text.encode())
    reading = read_chart(str(file))
    assert reading.chart is not None, reading.problems
    write_supplies(str(file), reading.chart, make_plan(reading.chart))
    after = file.read_bytes().decode()
    again = read_chart(str(file))
    assert again.problems == ()
    assert again.chart is not None
    assert again.chart.supplies is not None
    assert {symbol: stated.count for symbol, stated in again.chart.supplies.items()} == COUNTS
    write_supplies(str(file), again.chart, make_plan(again.chart))
    assert file.read_bytes().decode() == after, "a second time changes something"
    assert list(file.parent.iterdir()) == [file], "something is left beside the file"
    return after


def changed(before: str, after: str) -> list[str]:
    """Lines taken out (-) and put in (+)."""
    lines = difflib.ndiff(before.splitlines(keepends=True), after.splitlines(keepends=True))
    return [line for line in lines if line[0] in "+-"]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "two.chart.yaml"


def test_a_new_section_stands_below_the_colours(file):
    before = HEAD + COLOURS + "\n" + CHART
    after = write(file, before)
    assert changed(before, after) == ["+ supplies:\n", "+   B: 3\n", "+   Y: 2\n"]
    assert after.index("supplies:") == after.index("a comment behind a colour\n") + len("a comment behind a colour\n")


def test_a_new_section_where_the_colours_come_last(file):
    before = HEAD + CHART[: CHART.index("# A comment at the end")] + COLOURS.rstrip("\n")
    after = write(file, before)
    assert after == before + "\nsupplies:\n  B: 3\n  Y: 2"


def test_windows_line_breaks_stay(file):
    before = (HEAD + COLOURS + CHART).replace("\n", "\r\n")
    after = write(file, before)
    assert changed(before, after) == ["+ supplies:\r\n", "+   B: 3\r\n", "+   Y: 2\r\n"]
    assert "\n" not in after.replace("\r\n", "")


def test_a_byte_order_mark_stays(file):
    after = write(file, "\ufeff" + HEAD + COLOURS + CHART)
    assert after.startswith("\ufeff# A comment")


def test_counts_are_mended_in_place(file):
    before = HEAD + COLOURS + "supplies:\n  B:   1   # was enough once\n  Y: 2\n" + CHART
    after = write(file, before)
    assert after == before.replace("B:   1   #", "B:   3   #")


@pytest.mark.parametrize(("over", "unit", "per"), [("10 cm", "m", 1.0), ("4 in", "yd", 0.9144), ("1 yd", "yd", 0.9144)])
def test_lengths_are_of_the_gauge_s_own_unit_and_enough(over, unit, per, file):
    """A yard is 0.9144 m: the same yarn is more yards than metres. Stated to a tenth, and never less than is needed."""
    gauge = HEAD.replace("over: 10 cm", f"over: {over}")
    file.write_text(gauge + COLOURS + CHART)
    chart = read_chart(str(file)).chart
    assert chart is not None
    plan = make_plan(chart)
    stated = needed(chart, plan)
    assert {symbol: len(each) for symbol, each in stated.items()} == COUNTS
    for symbol, each in stated.items():
        metres = [supply.metres for supply in plan.supplies if supply.colour == symbol]
        holders = [supply.holder for supply in plan.supplies if supply.colour == symbol]
        assert [supply.holder for supply in each] == holders
        for supply, need in zip(each, metres, strict=True):
            assert supply.length is not None
            assert supply.length.unit == unit
            assert 0 <= supply.length.value - need / per < 0.1 + 1e-9
            assert supply.length.metres >= need - 1e-9


def test_what_is_right_is_left_alone(file):
    before = HEAD + COLOURS + "supplies: {Y: 2, B: 3}\n" + CHART
    assert write(file, before) == before


def test_a_missing_colour_is_added(file):
    before = HEAD + COLOURS + "supplies:\n    Y: 2  # both\n\n# below\n" + CHART
    assert changed(before, write(file, before)) == ["+     B: 3\n"]


def test_a_missing_colour_is_added_in_braces(file):
    before = HEAD + COLOURS + "supplies: {Y: 2} # both\n" + CHART
    assert write(file, before) == before.replace("{Y: 2}", "{Y: 2, B: 3}")


def test_empty_braces_are_filled(file):
    before = HEAD + COLOURS + "supplies: {}\n" + CHART
    assert write(file, before) == before.replace("{}", "{B: 3, Y: 2}")


def test_a_list_keeps_what_it_says_and_gains_what_it_lacks(file):
    before = HEAD + COLOURS + "supplies:\n  B: 3\n  Y: [{holder: bobbin, length: 2 m}]\n" + CHART
    after = write(file, before)
    assert "  Y: [{holder: bobbin, length: 2 m}, {holder: loose strand, length: 0.4 m}]\n" in after


def test_a_list_in_lines_gains_a_line(file):
    before = HEAD + COLOURS + "supplies:\n  B: 3\n  Y:\n  - {holder: bobbin}  # red tag\n# below\n" + CHART
    after = write(file, before)
    assert changed(before, after) == ["+   - {holder: loose strand, length: 0.4 m}\n"]


def test_an_empty_list_is_filled(file):
    before = HEAD + COLOURS + "supplies: {B: 3, Y: []}\n" + CHART
    after = write(file, before)
    assert (after.count("holder: ball"), after.count("holder: loose strand")) == (1, 1)  # the first stays on its ball


def test_a_list_that_is_too_long_loses_its_last(file):
    before = HEAD + COLOURS + "supplies:\n  B: 3\n  Y:\n    - {holder: bobbin}\n    - {}\n    - {}\n" + CHART
    assert changed(before, write(file, before)) == ["-     - {}\n"]


def test_no_comment_is_cut_away(file):
    before = (
        HEAD + COLOURS + "supplies:\n  B: 3\n  Y:\n    - {}\n    - {}\n    # the third, for luck\n    - {}\n" + CHART
    )
    with pytest.raises(Trouble, match="Y lists 3 and the plan needs 2; a comment is in the way"):
        write(file, before)
    assert file.read_text() == before


def test_a_chart_written_as_json(file):
    before = (
        '{"lintarsia": 1, "title": "Two blobs", "gauge": {"stitches": 22, "rows": 30, "over": "10 cm"},\n'
        '  "colours": {"B": {"name": "Dusk blue", "shade": "#27406b"}, "Y": {"name": "Straw", "shade": "#d9a441"}},\n'
        '  "chart": "BBBBBBBBBBBBB\\nBBBBBBBBBYBBB\\nBBYBBBBBBYBBB\\nBBYBBBBBBBBBB\\nBBBBBBBBBBBBB"}\n'
    )
    assert write(file, before) == before.replace('"#d9a441"}}', '"#d9a441"}},\n  "supplies": {"B": 3, "Y": 2}')


def test_symbols_keep_their_quotes(file):
    """A symbol that YAML would make something else of is written as the key of colours writes it."""
    before = (HEAD + COLOURS + CHART).replace("  B: {", '  "1": {').replace("  Y: {", "  '#': {")
    picture = before[before.index("chart: |") : before.index("# A comment at the end")]
    before = before.replace(picture, picture.replace("B", "1").replace("Y", "#"))
    file.write_text(before)
    chart = read_chart(str(file)).chart
    assert chart is not None
    write_supplies(str(file), chart, make_plan(chart))
    assert changed(before, file.read_text()) == ["+ supplies:\n", '+   "1": 3\n', "+   '#': 2\n"]


def test_a_link_stays_a_link(file, tmp_path):
    kept = tmp_path / "kept"
    kept.mkdir()
    (kept / "real.chart.yaml").write_text(HEAD + COLOURS + CHART)
    file.symlink_to(kept / "real.chart.yaml")
    chart = read_chart(str(file)).chart
    assert chart is not None
    write_supplies(str(file), chart, make_plan(chart))
    assert file.is_symlink()
    assert "supplies:" in (kept / "real.chart.yaml").read_text()


def test_permissions_stay(file):
    file.write_text(HEAD + COLOURS + CHART)
    file.chmod(0o640)
    chart = read_chart(str(file)).chart
    assert chart is not None
    write_supplies(str(file), chart, make_plan(chart))
    assert file.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a: [", "not YAML"),
        ("- a\n", "no mapping"),
        ("title: x\n", "no colours"),
        ("colours: {B: 1}\nsupplies: 3\n", "supplies: is no mapping"),
        ("colours: {B: 1}\nsupplies: {B: {a: 1}}\n", "neither a count nor a list"),
        ("title: &two 2\ncolours: {B: 1}\nsupplies: {B: *two}\n", "leaves a doubt"),
        ("? colours\n: {B: 1}\n", "leaves a doubt"),
    ],
)
def test_what_cannot_be_done_is_said(text, words):
    with pytest.raises(Trouble, match=words):
        state_supplies(text, {"B": [StatedSupply()]})


def test_an_entry_and_a_colour_at_the_same_place_stand_in_the_order_meant():
    """The quote of the new colour's key sorts before the dash of the list that it must not part."""
    text = "colours: {Y: 1, '#': 1}\nsupplies:\n  Y:\n  - {}\n"
    wanted = {"Y": [StatedSupply(), StatedSupply("ball", Length(2.5, "m"))], "#": [StatedSupply()]}
    assert state_supplies(text, wanted) == text + "  - {holder: ball, length: 2.5 m}\n  '#': 1\n"


@pytest.mark.parametrize(
    ("value", "stated"), [(1.0, "1 m"), (1.01, "1.1 m"), (1.1, "1.1 m"), (0.3, "0.3 m"), (2.0001, "2.1 m")]
)
def test_a_length_that_is_whole_tenths_is_stated_as_it_is(value, stated):
    assert str(_length(value, "m")) == stated


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "the file is no mapping of keys; nothing was written"),
        ("- a\n", "the file is no mapping of keys; nothing was written"),
        ("a: [\n", "the file is not YAML; nothing was written"),
        ("a: 1\n", "the file has no colours: section; nothing was written"),
        ("colours: {A: {}}\nsupplies: 3\n", "supplies: is no mapping of colours; nothing was written"),
    ],
)
def test_what_is_no_chart_is_told_whole(text, said):
    with pytest.raises(Trouble) as caught:
        state_supplies(text, {"A": [StatedSupply()]})
    assert str(caught.value) == said
