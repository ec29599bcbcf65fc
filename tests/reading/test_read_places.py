"""Regions are checked by cutting them out of the text and comparing, with a reckoning of lines of the tests' own."""

from collections.abc import Iterator
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from reading_charts import EVERY_KEY, PLAIN, cut, inside, read

from lintarsia.chart import Chart
from lintarsia.result import NOWHERE

HEAD, _, _ = PLAIN.partition("chart:")


def chart(text: str) -> Chart:
    found = read(text).chart
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("title",), "Every key"),
        (("gauge", "over"), "4 in"),
        (("gauge", "float-gauge"), "{stitches: 23, rows: 26}"),
        (("colours", "A", "shade"), '"#C8B89A"'),
        (("supplies", "B"), "[{holder: butterfly, length: 6 m}, {}]"),
        (("supplies", "B", 0, "length"), "6 m"),
        (("supplies", "B", 1), "{}"),
        (("repeat", "stitches", 1), "5"),
        (("shaping", "2"), "-2"),
        (("limits",), "supplies: 9\n  float: 5 stitches\n  carry: 4\n  idle: 0\n  strand: 2"),
        (("chart",), "|\n  AAAAAA\n  ABBABA\n  AA..AA"),
        (("written", "2"), "p6"),
        (("duplicate-stitch",), "- {colour: B, row: 3, stitches: [6, 6]}"),
        (("suppress", 0, "justification"), '" the eye "'),
    ],
)
def test_the_place_of_a_value(path: tuple[str | int, ...], value: str) -> None:
    assert cut(EVERY_KEY, chart(EVERY_KEY).places.value(*path)) == value


def key_paths(data: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """The path of every key in plain data, as another loader has it."""
    steps = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for step, value in steps:
        if isinstance(data, dict):
            yield (*path, step)
        yield from key_paths(value, (*path, step))


def test_every_key_stands_where_its_place_says() -> None:
    keys = chart(EVERY_KEY).places.keys
    assert set(keys) == set(key_paths(yaml.load(EVERY_KEY, yaml.BaseLoader)))
    for path, region in keys.items():
        assert cut(EVERY_KEY, region) == path[-1]


def test_every_value_stands_within_the_file() -> None:
    for region in chart(EVERY_KEY).places.values.values():
        assert inside(EVERY_KEY, region)
        assert cut(EVERY_KEY, region) == cut(EVERY_KEY, region).strip()


def test_what_is_not_there_has_the_place_of_what_holds_it() -> None:
    places = chart(PLAIN).places
    assert cut(PLAIN, places.key("colours", "A", "yarn")) == "A"
    assert places.value("wearer") == NOWHERE


def test_a_comment_after_a_block_is_not_part_of_it() -> None:
    text = HEAD + "supplies:\n  A: 1  # blue\n  # and more\n\n# end\nchart: |\n  AB\n\n# after\n"
    places = chart(text).places
    assert cut(text, places.value("supplies")) == "A: 1"
    assert cut(text, places.value("chart")) == "|\n  AB"


ROWS = st.lists(st.text("AB.é🧶", min_size=1, max_size=9), min_size=1, max_size=6)


def block(header: str, indent: int) -> Any:
    return lambda rows: f"chart: {header}\n" + "".join(" " * indent + row + "\n" for row in rows)


STYLES = {
    "block": block("|", 2),
    "deep block": block("|", 7),
    "block without a last break": block("|-", 2),
    "block with every break": lambda rows: block("|+", 1)(rows) + "\n\n",
    "block with its indent said": block("|2", 2),
    "block with a comment": block("|  # the top line is the last row", 3),
    "block after a blank line": lambda rows: "chart: |\n\n\n" + "".join(f"  {row}\n" for row in rows),
    "in double quotes": lambda rows: 'chart: "' + "\\n".join(rows) + '"\n',
    "in double quotes on several lines": lambda rows: 'chart: "' + "\\n\\\n   ".join(rows) + '"\n',
    "in double quotes with blank lines": lambda rows: 'chart: "' + "\n\n   ".join(rows) + '"\n',
    "in single quotes with blank lines": lambda rows: "chart: '" + "\n\n  ".join(rows) + "'\n",
}


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("line_break", ["\n", "\r\n", "\r"])
@given(rows=ROWS)
@settings(max_examples=12, deadline=None)
def test_each_cell_stands_where_its_place_says(style: str, line_break: str, rows: list[str]) -> None:
    if not any(row.strip(".") for row in rows):
        rows = [*rows, "A"]
    text = (HEAD + STYLES[style](rows) + "wearer: adult\n").replace("\n", line_break)
    reading = read("\ufeff" + text)
    assert reading.problems == ()
    assert reading.text == text
    assert reading.chart is not None
    places = reading.chart.places
    assert [cut(text, line) for line in places.lines] == rows[::-1]
    for row, symbols in enumerate(reversed(rows), start=1):
        for stitch, symbol in enumerate(reversed(symbols), start=1):
            assert cut(text, places.cells(row, stitch, stitch)) == symbol
        assert cut(text, places.cells(row, 1, len(symbols))) == symbols


def test_a_row_on_the_keys_own_line() -> None:
    for spelling in ("chart: ABBA\n", "chart: 'ABBA'\n", 'chart: "ABBA"\n'):
        text = HEAD + spelling
        assert cut(text, chart(text).places.cells(1, 2, 3)) == "BB"


def test_symbols_that_need_a_backslash_keep_the_row_whole() -> None:
    text = HEAD.replace("B:", '"\\\\":') + 'chart: "A\\\\A\\nAA"\n'
    found = chart(text)
    assert found.grid.rows == ("AA", "A\\A")
    assert [cut(text, line) for line in found.places.lines] == ["AA", "A\\\\A"]


@pytest.mark.parametrize(
    "spelling",
    ["chart: >\n  ABA\n  BAB\n", "chart: >-\n    ABA\n    BAB\n\n", "chart:\n  ABA\n  BAB\n", "chart: 'ABA\n  BAB'\n"],
)
def test_rows_that_yaml_would_join_are_reported_and_read_all_the_same(spelling: str) -> None:
    reading = read(HEAD + spelling)
    assert [f.key for _, f in reading.problems] == ["folded-chart"]
    assert reading.chart is not None
    assert reading.chart.grid.rows == ("BAB", "ABA")
    assert [cut(HEAD + spelling, line) for line in reading.chart.places.lines] == ["BAB", "ABA"]


def test_a_folded_block_has_a_safe_mend() -> None:
    text = HEAD + "chart: >\n  ABA\n  BAB\n"
    ((_, finding),) = read(text).problems
    (edit,) = finding.fixes[0].edits
    assert finding.fixes[0].safe
    assert (cut(text, edit.region), edit.text) == (">", "|")


def test_one_folded_row_is_no_fault() -> None:
    assert read(HEAD + "chart: >\n  ABA\n").problems == ()
