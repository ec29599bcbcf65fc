"""Where the reader's own bounds lie, asked from both sides; remedies, and places of what is wrong with a chart."""

import errno
import os
from typing import Any

import pytest
from reading_charts import cut, read

from lintarsia.chart import Suppression
from lintarsia.reading import read_chart, reader, rows
from lintarsia.reading.editing import Editing
from lintarsia.reading.places import LatePlaces
from lintarsia.reading.source import CannotRead, decode, read_bytes
from lintarsia.reading.tree import compose
from lintarsia.reading.written_rows import block_lines

HEAD = """\
lintarsia: 1
title: Edges
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Deep sea, shade: "#27406b", also: sea}
  X: {name: Bone, shade: "#efe9dc", also: [" bone ", "ivory"]}
"""
GRID = "chart: |\n  AAAXX\n  AA.XX\n"


def told(text: str) -> list[str]:
    return [f"{found.key} {found.message}" for _, found in read(text).problems]


def test_rows_may_end_in_any_letter() -> None:
    chart = read(f"{HEAD}chart: |\n  AAAXX\n  XAXAX\n\n  XXXXX \n").chart
    assert chart is not None
    assert chart.grid.rows == ("XXXXX", "XAXAX", "AAAXX")
    assert (chart.colours["A"].also, chart.colours["X"].also) == (("sea",), ("bone", "ivory"))


@pytest.mark.parametrize(
    ("gauge", "faults"),
    [
        ("stitches: 1, rows: 2, over: 15 cm", []),
        ("stitches: 2, rows: 1, over: 15 cm", []),
        ("stitches: 100, rows: 50, over: 3 cm", []),
        ("stitches: 101, rows: 50, over: 3 cm",
         ["gauge-impossible by this gauge one stitch measures 0.297 mm; expected 0.3 to 150 mm a stitch or row"]),
        ("stitches: 5, rows: 1, over: 151 mm",
         ["gauge-impossible by this gauge one row measures 151 mm; expected 0.3 to 150 mm a stitch or row"]),
        ("stitches: 5, rows: 0.1, over: 99.94 mm",
         ["gauge-impossible by this gauge one row measures 999 mm; expected 0.3 to 150 mm a stitch or row"]),
        ("stitches: 10, rows: 0.1, over: 1000 mm",
         ["gauge-impossible by this gauge one row measures 10,000 mm; expected 0.3 to 150 mm a stitch or row"]),
    ],
)  # fmt: skip
def test_the_widest_and_the_narrowest_stitch(gauge: str, faults: list[str]) -> None:
    assert told(HEAD.replace("stitches: 22, rows: 30, over: 10 cm", gauge) + GRID) == faults


@pytest.mark.parametrize(
    ("more", "grid", "faults"),
    [
        ("repeat: {stitches: [1, 2], rows: [1, 2]}\n", "chart: |\n  A\n",
         ["repeat-outside the stitches of the repeat box reach 2; the chart has 1 stitch",
          "repeat-outside the rows of the repeat box reach 2; the chart has 1 row"]),
        ("duplicate-stitch:\n  - {colour: A, row: 1, stitches: [1, 2]}\n", "chart: |\n  A\n",
         ["stitches-outside the duplicate stitch reaches stitch 2; row 1 is 1 stitch wide"]),
        ("duplicate-stitch:\n  - {colour: A, row: 2, stitches: [1, 2]}\n", "chart: |\n  A\n",
         ["row-outside the duplicate stitch names row 2; the chart has 1 row",
          "stitches-outside the duplicate stitch reaches stitch 2; the chart is 1 stitch wide"]),
        ("duplicate-stitch:\n  - {colour: A, row: 1, stitches: [3, 4]}\n", GRID,
         ["stitches-outside the duplicate stitch lies where row 1 has no stitch; expected stitches to work over"]),
        ("duplicate-stitch:\n  - {colour: A, row: 1, stitches: [4, 5]}\n", GRID, []),
        ("duplicate-stitch:\n  - {colour: A, row: 2, stitches: [1, 5]}\n", GRID, []),
        ("shaping: {1-2: -1, 2: {left: -1}}\n", GRID,
         ["shaped-twice row 2 is shaped at left by 2, after 1-2; expected each edge once"]),
        ("shaping: {2: {left: -1}, 1-2: -1}\n", GRID,
         ["shaped-twice row 2 is shaped at no edge in particular by 1-2, after 2; expected each edge once"]),
        ("shaping: {2: {neck-left: -1}, 1-2: -1}\n", GRID, []),
        ("shaping: {1-2: -1, 2: {neck-left: -1}}\n", GRID, []),
        ("of: 5 stitches\nworked: round\n", GRID, []),
        ("of: 4 stitches\nworked: round\n", "chart: |\n  AAAA\n", []),
    ],
)  # fmt: skip
def test_parts_that_reach_as_far_as_they_may_and_one_farther(more: str, grid: str, faults: list[str]) -> None:
    assert told(HEAD + more + grid) == faults


def test_what_is_made_twice_is_to_be_put_together() -> None:
    ((_, finding),) = read(f"{HEAD}shaping: {{1-2: -1, 2: {{left: -1}}}}\n{GRID}").problems
    assert finding.remedy == "put what is made in the row under one key"
    assert cut(f"{HEAD}shaping: {{1-2: -1, 2: {{left: -1}}}}\n{GRID}", finding.region) == "2"


def test_an_accepted_result_of_which_any_part_is_faulty_accepts_nothing() -> None:
    reading = read(
        f"{HEAD}suppress:\n  - {{rule: a/b, justification: x, row: first}}\n  - {{rule: a/b, justification: y}}\n{GRID}"
    )
    assert reading.chart is not None
    assert reading.chart.suppressions == (Suppression("a/b", "y", None, None),)


def test_quoted_numbers_have_no_decimal_comma() -> None:
    for old, new in (("22", '"22",5'), ("22", "22,'5'"), ("22", "22,x"), ("22", "22, 5")):
        found = told(HEAD.replace(old, new) + GRID)
        assert found
        assert not any(one.startswith("decimal-comma") for one in found)
    assert told(HEAD.replace("22", "22,5") + GRID)[0].startswith("decimal-comma")


def test_symbols_that_the_key_lacks_are_taken_for_colours_and_named_as_assumed() -> None:
    for grid, assumed in (("AAXX", set()), ("AAXQ", {"symbols"}), ("AA..", set())):
        chart = read(f"{HEAD}chart: |\n  {grid}\n").chart
        assert chart is not None
        assert chart.assumed == assumed


@pytest.mark.parametrize(
    ("grid", "fault"),
    [
        ("chart: |\n  ....\n  ..\n", "no-stitches the chart has no stitch at all; expected symbols of the key"),
        ("chart: ' '\n", "wrong-value chart: found no rows; expected a line of symbols for each row"),
    ],
)
def test_a_chart_of_nothing_is_told_at_the_chart(grid: str, fault: str) -> None:
    reading = read(HEAD + grid)
    assert reading.chart is None
    ((_, finding),) = reading.problems
    assert (f"{finding.key} {finding.message}", finding.region.line) == (fault, 7)


def test_how_many_symbols_a_chart_may_use(monkeypatch: pytest.MonkeyPatch) -> None:
    """The key's count as well, and only where there are so many stitches that it could matter are they counted."""
    monkeypatch.setattr(reader, "MOST_SYMBOLS", 4)
    assert read(f"{HEAD}chart: |\n  ABCX\n").chart is not None
    ((_, finding),) = read(f"{HEAD}chart: |\n  ABCD\n").problems
    assert (finding.key, finding.message, finding.region.line) == (
        "too-many-symbols", "the chart uses 5 different symbols; at most 4 are read", 7,
    )  # fmt: skip


def test_a_chart_too_large_is_told_with_what_to_do() -> None:
    for most, remedy in ((9, "raise max-stitches in the settings"), (reader.MOST_CELLS, "knit and check it in parts")):
        grid = GRID if most == 9 else "chart: |\n" + "  A\n" * 9000 + f"  {'A' * 1000}\n"
        ((_, finding),) = read_chart("x", (HEAD + grid).encode(), max_stitches=most).problems
        assert finding.remedy == f"check that this is a chart and no photograph; if it is, {remedy}"
        assert finding.region.line == 7


@pytest.mark.parametrize(("most", "fault"), [(2, False), (1, True)])
def test_how_many_rows_a_chart_may_have(most: int, fault: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rows, "MOST_ROWS", most)
    assert ("the chart has 2 lines; at most 1 rows are read" in " ".join(told(HEAD + GRID))) is fault


def test_a_layer_of_too_many_rows_is_told_where_it_begins(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rows, "MOST_ROWS", 2)
    ((_, finding),) = read(f"{HEAD}{GRID}stitches: |\n  kkkkk\n  ppppp\n  kkkkk\n").problems
    assert finding.message == "the chart has 3 lines; at most 2 rows are read"
    assert tuple(finding.region) == (10, 11, 10, 12)


def test_a_file_too_large_is_told_with_what_to_do() -> None:
    assert decode(b"abc", 3) == "abc"
    with pytest.raises(CannotRead) as caught:
        decode(b"abcd", 3)
    assert caught.value.finding.remedy == "check that this is a chart; if it is, raise max-size in the settings"


@pytest.mark.parametrize(
    ("error", "fault"),
    [
        (IsADirectoryError(errno.EISDIR, "Is a directory"), "directory this is a folder; expected a file"),
        (PermissionError(errno.EACCES, "Permission denied"), "directory this is a folder; expected a file"),
        (FileNotFoundError(errno.ENOENT, "No such file"), "missing there is no such file"),
    ],
)
def test_a_folder_that_the_system_will_not_open_is_told_as_one(
    error: OSError, fault: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Any
) -> None:
    """Windows opens none; this one is there, so that the system's word on a missing one is believed."""

    def opened(*_: Any) -> int:
        raise error

    with monkeypatch.context() as patch:
        patch.setattr(os, "open", opened)
        with pytest.raises(CannotRead) as caught:
            read_bytes(str(tmp_path), 9)
    assert f"{caught.value.finding.key} {caught.value.finding.message}" == fault


def test_a_row_that_begins_further_in_has_its_stitches_where_they_stand() -> None:
    chart = read(f"{HEAD}chart: |\n  AAAXX\n    AAXXX\n  AAXXX\n").chart
    assert chart is not None
    assert [tuple(line) for line in chart.places.lines] == [(10, 3, 10, 8), (9, 5, 9, 10), (8, 3, 8, 8)]


def test_the_place_of_a_block_ends_with_its_own_text() -> None:
    text = "a: |\n  one\n    two  \n\n# remark\nb: |\nc: >\n  x\n"
    places = LatePlaces(compose(text), text, keys=False)
    assert [tuple(places[(name,)]) for name in "abc"] == [(1, 4, 3, 8), (6, 4, 6, 5), (7, 4, 8, 4)]
    lines = block_lines(compose(text).value[0][1], text)
    assert [(line, tuple(region)) for line, region in lines] == [("one", (2, 3, 2, 6)), ("  two  ", (3, 3, 3, 10))]
    assert block_lines(compose(text).value[2][1], text) == []


def test_edits_beside_what_only_refers_to_another_place_are_not_made() -> None:
    text = "a: &x {p: 1, q: 2}\nb: *x\nc: {d: *x, e: 3}\n"
    own = Editing(compose(text), text)
    assert own.section_after("b", "new", ["k: 1"]) is None
    assert own.section_after("none", "new", ["k: 1"]) is None
    assert own.replacing(("b",), "1") is None
    assert own.taking_out(("c", "d")) is None
    assert own.adding(("b",), "k: 1") is None
    edit = own.section_after("a", "new", ["k: 1", "l: 2"])
    assert edit is not None
    assert (tuple(edit.region), edit.text) == ((1, 19, 1, 19), "\nnew:\n  k: 1\n  l: 2")


def test_no_key_is_put_before_what_begins_in_an_odd_way() -> None:
    for text in ("? a\n: b\n", "--- \na: 1\n", "# head\na: 1\n", '"a": 1\n', "{a: 1}\n"):
        edit = Editing(compose(text), text).putting_first("new", "2")
        assert (edit is None) is text.startswith("?")
