"""Edits of YAML text, each applied and the whole text after it spelt out; and small answers of the reader at their
edges: shades that stand in for a key, widths that rows are held to, files too bulky to be read."""

import pickle

import pytest

from lintarsia.reading import read_chart
from lintarsia.reading.editing import Editing
from lintarsia.reading.row_space import (
    Line,
    empty_row,
    set_apart,
    space_inside,
    stands_apart,
    usual_width,
    without_space,
)
from lintarsia.reading.source import CannotRead, Lines, decode, place, split_lines
from lintarsia.reading.tree import DEEPEST, compose
from lintarsia.reading.written_rows import block_lines, words_by_row, words_by_side, written_entries, written_twice
from lintarsia.result import NOWHERE, Edit, Region

TEXT = """\
# head
lintarsia: 1
title: "So: a"
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Bone, shade: "#efe9dc"}   # the ground
  # a remark
  W: {name: Wool}
limits: {supplies: 8}
empty:
list:
- one
- two   # of them
- three
braces: {a: 1, b: [x, y], c: 3,
  d: 4}
none: {}
chart: |
  BW
"""


def editing(text: str) -> Editing:
    return Editing(compose(text), text)


def after(text: str, edit: Edit | None) -> str | None:
    """The text with the edit made, by the places that it states."""
    if edit is None:
        return None
    lines = Lines(text)
    start = lines.index(edit.region.line, edit.region.column)
    end = lines.index(edit.region.end_line, edit.region.end_column)
    return text[:start] + edit.text + text[end:]


def without(text: str, *parts: str) -> str:
    for part in parts:
        assert text.count(part) == 1, part
        text = text.replace(part, "")
    return text


def test_what_stands_where() -> None:
    own = editing(TEXT)
    assert own.keys() == (
        "lintarsia", "title", "gauge", "colours", "limits", "empty", "list", "braces", "none", "chart",
    )  # fmt: skip
    assert own.keys(("colours",)) == ("B", "W")
    assert own.keys(("list",)) is None
    assert own.keys(("nix",)) is None
    assert (own.spelling(("title",)), own.spelling(("colours", "B")), own.spelling(("nix",))) == ("title", "B", None)
    assert (own.value(("title",)), own.value(("gauge", "rows")), own.value(("gauge",))) == ("So: a", "30", None)
    assert (own.length(("list",)), own.length(("braces", "b")), own.length(("gauge",))) == (3, 2, None)
    assert editing('"a b": 1\nc: 2\n').spelling(("a b",)) == '"a b"'
    assert editing("a: 1\nb: 2\na: 3\n").value(("a",)) is None, "there are two of the name"
    assert pickle.loads(pickle.dumps(own)) is None


@pytest.mark.parametrize(
    ("path", "gone"),
    [
        (("colours", "B"), '  B: {name: Bone, shade: "#efe9dc"}   # the ground\n'),
        (("colours", "W"), "  W: {name: Wool}\n"),
        (("title",), 'title: "So: a"\n'),
        (("limits",), "limits: {supplies: 8}\n"),
        (("empty",), "empty:\n"),
        (("gauge", "stitches"), "stitches: 22, "),
        (("gauge", "rows"), "rows: 30, "),
        (("gauge", "over"), ", over: 10 cm"),
        (("braces", "b"), "b: [x, y], "),
        (("limits", "supplies"), None),
        (("nix",), None),
        (("colours",), None),
    ],
)
def test_entries_taken_out(path: tuple[str, ...], gone: str | None) -> None:
    made = after(TEXT, editing(TEXT).taking_out(path))
    assert made == (None if gone is None else without(TEXT, gone))


def test_the_last_entry_of_a_file_goes_with_the_break_before_it() -> None:
    for end in ("\n", "\r\n", "\r"):
        text = f"a: 1{end}b: 2"
        assert after(text, editing(text).taking_out(("b",))) == "a: 1"
        assert after(text + end, editing(text + end).taking_out(("b",))) == f"a: 1{end}"
        assert after(text, editing(text).taking_out(("a",))) == "b: 2"


@pytest.mark.parametrize(
    ("path", "entries", "old", "new"),
    [
        (("colours",), ("X: 1", "Y: 2"), "  W: {name: Wool}\n", "  W: {name: Wool}\n  X: 1\n  Y: 2\n"),
        (("list",), ("four",), "- three\n", "- three\n- four\n"),
        (("limits",), ("idle: 2", "carry: 1"), "supplies: 8}", "supplies: 8, idle: 2, carry: 1}"),
        (("braces", "b"), ("z",), "[x, y]", "[x, y, z]"),
        (("none",), ("a: 1", "b: 2"), "none: {}", "none: {a: 1, b: 2}"),
        (("title",), ("a: 1",), None, None),
        (("empty",), ("a: 1",), None, None),
        (("nix",), ("a: 1",), None, None),
    ],
)
def test_entries_added(path: tuple[str, ...], entries: tuple[str, ...], old: str | None, new: str | None) -> None:
    made = after(TEXT, editing(TEXT).adding(path, *entries))
    assert made == (None if old is None or new is None else TEXT.replace(old, new))


def test_values_put_in_place_of_others() -> None:
    own = editing(TEXT)
    assert after(TEXT, own.replacing(("title",), "Other")) == TEXT.replace('"So: a"', "Other")
    assert after(TEXT, own.replacing(("gauge", "over"), "4 in")) == TEXT.replace("10 cm", "4 in")
    assert after(TEXT, own.replacing(("gauge",), "x")) is None
    assert after(TEXT, own.replacing(("nix",), "x")) is None


@pytest.mark.parametrize(
    ("text", "length", "made"),
    [
        ("l: [a, b, c]\n", 1, "l: [a]\n"), ("l: [a, b, c]\n", 2, "l: [a, b]\n"), ("l: [a, b, c]\n", 3, None),
        ("l: [a, b, c]\n", 0, None), ("l:\n- a\n- b\n- c\n", 2, "l:\n- a\n- b\n"), ("l:\n- a\n- b # x\n- c\n", 2, None),
        ("l:\n- a # x\n- b\n", 1, None), ("l:\n- a\n- b # x\n", 1, "l:\n- a # x\n"), ("l: a\n", 1, None),
    ],
)  # fmt: skip
def test_lists_cut_short(text: str, length: int, made: str | None) -> None:
    assert after(text, editing(text).shortening(("l",), length)) == made


@pytest.mark.parametrize(
    ("text", "made"),
    [
        ("# c\ntitle: a\n", "# c\nlintarsia: 1\ntitle: a\n"), ("  title: a\r\n", "  lintarsia: 1\r\n  title: a\r\n"),
        ("{title: a}", '{"lintarsia": 1, title: a}'), ("? title\n: a\n", None), ("--- # x\n{title: a}", None),
        ("title: a", "lintarsia: 1\ntitle: a"),
    ],
)  # fmt: skip
def test_a_key_put_first(text: str, made: str | None) -> None:
    edited = after(text, editing(text).putting_first("lintarsia", "1"))
    if text.startswith("---"):
        made = '--- # x\n{"lintarsia": 1, title: a}'
    assert edited == made


def test_sections_of_their_own() -> None:
    own = editing(TEXT)
    before = own.section_before("limits", ("supplies:", "  B: 1"))
    assert after(TEXT, before) == TEXT.replace("limits:", "supplies:\n  B: 1\nlimits:")
    assert own.section_before("nix", ("a",)) is None
    assert editing("{a: 1}").section_before("a", ("b: 2",)) is None
    assert editing("  a: 1\n").section_before("a", ("b: 2",)) is None
    made = after(TEXT, own.section_after("colours", "supplies", ("B: 1", "W: 2")))
    assert made == TEXT.replace("  W: {name: Wool}\n", "  W: {name: Wool}\nsupplies:\n  B: 1\n  W: 2\n")
    made = after(TEXT, own.section_after("gauge", "supplies", ("B: 1",)))
    assert made == TEXT.replace("over: 10 cm}\n", "over: 10 cm}\nsupplies:\n  B: 1\n")
    assert own.section_after("nix", "supplies", ("B: 1",)) is None
    deep = "a:\n     x: 1\nb: 2"
    assert after(deep, editing(deep).section_after("a", "s", ("B: 1",))) == "a:\n     x: 1\ns:\n     B: 1\nb: 2"
    assert after(deep, editing(deep).section_after("b", "s", ("B: 1",))) == deep + "\ns:\n  B: 1"
    flow = "{a: 1, b: 2}"
    assert after(flow, editing(flow).section_after("b", "s", ("B: 1", "C: 2"))) == '{a: 1, b: 2, "s": {B: 1, C: 2}}'
    tall = "{\n  a: 1\n}"
    assert after(tall, editing(tall).section_after("a", "s", ("B: 1",))) == '{\n  a: 1,\n  "s": {B: 1}\n}'


def chart(*rows: str, key: str = "") -> str:
    body = "".join(f"  {row}\n" for row in rows)
    return f"lintarsia: 1\ntitle: T\ngauge: {{stitches: 22, rows: 30, over: 10 cm}}\n{key}chart: |\n{body}"


KEY = 'colours: {B: {name: Bone, shade: "#efe9dc"}}\n'


def test_shades_that_stand_in_for_a_key_are_far_apart() -> None:
    """From nearly black to nearly white in even steps, by the symbols' order."""
    shades = {"A": "#141414", "B": "#787878", "C": "#dcdcdc"}
    found = read_chart("a", chart("CAB", "A.C").encode()).chart
    assert found is not None
    assert {symbol: colour.shade for symbol, colour in found.colours.items()} == shades
    alone = read_chart("a", chart("QQ").encode()).chart
    assert alone is not None
    assert [(c.symbol, c.name, c.shade) for c in alone.colours.values()] == [("Q", "Q", "#141414")]


def lines(*texts: str) -> list[Line]:
    return [Line(text, at, 2) for at, text in enumerate(texts, 10)]


def test_the_width_that_rows_are_held_to() -> None:
    assert usual_width(lines("BBB", "WWW", "BBBB")) == 3
    assert usual_width(lines("BBB", "WW")) == 0
    assert usual_width(lines("B B", "W W", "BB", "WW")) == 2
    assert usual_width([]) == 0
    assert usual_width(lines("BB", "BBB", "BBB", "BB")) == 2, "of two as common the first"


def test_what_white_space_in_a_row_is_read_as() -> None:
    assert without_space("BW B", 4) == "BWWB"
    assert without_space(" WBB", 4) == ".WBB"
    assert without_space("B WB", 5) == "B.WB"
    assert without_space("B\tW B", 5) == "B.W.B"
    assert [stands_apart(row, 3) for row in ("B W B", "BWB", "B WB", "B W", "B W B W B W B")] == [
        True, False, True, False, True,
    ]  # fmt: skip
    found = space_inside(4, "BW\tBB", Line("BW\tBB", 6, 2))
    assert found.message == "row 4 has a tab at stitch 3; expected a symbol, or `.` for no stitch"
    assert (found.row, found.stitches, found.region) == (4, (3, 3), Region(7, 5, 7, 6))
    gap = empty_row(Line("  ", 6, 2), 5)
    assert gap.message == "a blank line stands between row 4 and the row above it; expected none"
    assert (gap.region, gap.fixes[0].edits[0].region) == (Region(7, 1, 7, 5), Region(7, 1, 8, 1))


def test_charts_whose_stitches_all_stand_apart() -> None:
    found = set_apart(lines("B W B", "W W B"))
    assert found is not None
    assert found.region == Region(11, 3, 11, 8)
    assert [(edit.region, edit.text) for edit in found.fixes[0].edits] == [
        (Region(11, 3, 11, 8), "BWB"), (Region(12, 3, 12, 8), "WWB"),
    ]  # fmt: skip
    assert found.remedy == "take the spaces out: BWB; or save the table as .csv, and `lintarsia bring` it"
    for rows in (("B W B",), ("B W", "BW"), ("B . B", "B W B")):
        assert set_apart(lines(*rows)) is None
    assert set_apart(lines("B W", "", "W B")) is not None


def test_rows_that_are_spelt_out_in_quotes_have_no_mend_not_even_where_one_of_them_is() -> None:
    """Where its columns in the file are not those of its stitches, a row cannot be written over as it was read."""
    plain = lines("B W B", "W W B", "B B W")
    for at in range(3):
        printed = [*plain[:at], Line(plain[at].text, 10 + at, 2, 9), *plain[at + 1 :]]
        found = set_apart(printed)
        assert found is not None
        assert (found.key, found.fixes) == ("space-in-row", ())


def test_files_that_nest_or_hold_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only where there is bulk is it counted: 2,000 brackets, or many lines."""
    deep = "a: " + "[" * (DEEPEST - 1) + "]" * (DEEPEST - 1)
    bulk = "\nb: " + '"' + "{" * 2001 + '"\n'
    compose(deep + bulk)
    with pytest.raises(CannotRead) as caught:
        compose("a: [" + "[" * (DEEPEST - 1) + "]" * (DEEPEST - 1) + "]" + bulk)
    finding = caught.value.finding
    assert (finding.key, finding.message) == ("too-deep", "the file nests more than 32 levels deep; four are needed")
    assert (finding.region.line, finding.region.column) == (1, 4 + DEEPEST - 1)
    monkeypatch.setattr("lintarsia.reading.tree.MOST_EVENTS", 40)
    compose("a: [" + "x, " * 9 + "x]\n")
    with pytest.raises(CannotRead) as caught:
        compose("a: [" + "x, " * 40 + "x]\n")
    assert caught.value.finding.message == "the file has far more entries than a chart needs; they are not read"
    for text, what in (("", None), ("word\n", "plain text"), ("- a\n", "a list")):
        with pytest.raises(CannotRead) as caught:
            compose(text)
        said = f"the file holds {what}" if what else "the file is empty"
        assert caught.value.finding.message == f"{said}; expected `key: value` lines"


def test_too_many_stitches_are_told_at_the_chart() -> None:
    reading = read_chart("a", chart("BBB", "BB", key=KEY).encode(), max_stitches=5)
    ((rule, finding),) = reading.problems
    assert (rule, finding.key, finding.region.line) == ("file/unreadable", "too-many-stitches", 5)
    assert finding.message == (
        "the chart has 2 rows and the longest is 3 stitches wide; that is 6 stitches, and at most 5 are read"
    )
    assert read_chart("a", chart("BBB", "BB", key=KEY).encode(), max_stitches=6).chart is not None


def test_a_missing_version_can_be_written_in() -> None:
    text = chart("BB", key=KEY).replace("lintarsia: 1\n", "")
    (finding,) = [found for _, found in read_chart("a", text.encode()).problems if found.key == "missing-key"]
    assert [fix.description for fix in finding.fixes] == ["write lintarsia: 1"]
    assert after(text, finding.fixes[0].edits[0]) == chart("BB", key=KEY)
    other = chart("BB", key=KEY).replace("title: T\n", "")
    (finding,) = [found for _, found in read_chart("a", other.encode()).problems if found.key == "missing-key"]
    assert finding.fixes == ()


def test_places_in_a_text() -> None:
    for end in ("\n", "\r\n", "\r"):
        text = end.join(("ab", "", "cde", ""))
        own = Lines(text)
        assert split_lines(text) == ["ab", "", "cde", ""]
        for line, column in ((1, 1), (1, 3), (2, 1), (3, 2), (3, 4), (4, 1)):
            assert own.position(own.index(line, column)) == (line, column)
        for line, column in ((0, 1), (5, 1), (1, 0), (4, 2)):
            with pytest.raises(ValueError, match=r"the text has no line|has no column"):
                own.index(line, column)
        assert place(text, own.index(3, 2)) == Region(3, 2, 3, 3)


def test_bytes_that_are_no_text() -> None:
    assert decode(b"\xef\xbb\xbfa\n", 10) == "a\n"
    wrong = {
        b"a\nb\xff": ("byte 0xff is not UTF-8; expected UTF-8 text", Region(2, 2, 2, 3)),
        b"a\n\x07b": ("the character U+0007 cannot stand in a chart file; expected plain text", Region(2, 1, 2, 2)),
        b"\xff\xfea\0": ("the text is UTF-16 or UTF-32, or no text at all; expected UTF-8", NOWHERE),
        b"a\0b\0": ("the text is UTF-16 or UTF-32, or no text at all; expected UTF-8", NOWHERE),
        b"0123456789a": ("the file has 11 bytes; at most 10 are read", NOWHERE),
    }
    for data, (message, region) in wrong.items():
        with pytest.raises(CannotRead) as caught:
            decode(data, 10)
        assert (caught.value.finding.message, caught.value.finding.region) == (message, region)


PAGE = """\
a: 1
written: |
  Key: A is oat
  Row 1 (RS): k3 A
    k2 B
  left neck:
  Row 2: p5
  both sides
  - **Row 3:** k1 \\*
"""


def test_rows_as_a_page_has_them() -> None:
    node = next(value for key, value in compose(PAGE).value if key.value == "written")
    found = block_lines(node, PAGE)
    assert [(line, region.line, region.column) for line, region in found][:3] == [
        ("Key: A is oat", 3, 3), ("Row 1 (RS): k3 A", 4, 3), ("  k2 B", 5, 3),
    ]  # fmt: skip
    entries = written_entries("", found, 3, lambda row: "RS" if row % 2 else "WS")
    told = [(entry.said, entry.rows, entry.words, entry.half) for entry in entries]
    assert [one[:2] for one in told] == [("Row 1 (RS)", (1,)), ("Row 2", (2,)), ("Row 3", (3,))]
    assert told[0][2] == "Row 1 (RS): k3 A k2 B"
    assert told[2][2] == "Row 3: k1 *"
    assert (told[0][3], told[2][3]) == ("", "")
    assert told[1][3]
    assert set(words_by_row(entries)) == {1, 3}
    assert [row for row, _ in words_by_side(entries)] == [2]


def test_rows_that_are_written_twice() -> None:
    data = {"1": "k1", "1-4": "k2", "3, 4": "k3", "all RS rows": "k4"}
    entries = written_entries(data, [], 6, lambda row: "RS" if row % 2 else "WS")
    found = list(written_twice(entries, lambda entry: NOWHERE))
    assert [finding.message for finding in found] == [
        "row 1 is written under '1' and again under '1-4'; expected once",
        "row 3 and 1 more is written under '1-4' and again under '3, 4'; expected once",
    ]
    assert words_by_row(entries)[1] == "k1"
    assert words_by_row(entries)[3] == "k2"
    assert words_by_row(entries).get(5) == "k4"
