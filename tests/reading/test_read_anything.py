"""Nothing raises: bytes of any kind, and valid charts with pieces changed, moved, doubled and cut."""

# ruff: noqa: E501 - long tables of pieces

import json
from typing import Any

from hypothesis import example, given, settings
from hypothesis import strategies as st
from reading_charts import EVERY_KEY, PLAIN, inside

from lintarsia.reading import Reading, read_chart, read_document
from lintarsia.reading.schema import load_schema

PIECES = [
    "", " ", "  ", "\t", "\n", "\r\n", "\r", ":", ": ", "- ", "? ", "#", " # ", "|", ">", "'", '"', "\\", "{", "}", "[",
    "]", ",", "&a ", "*a", "!!str ", "!", "%", "@", "`", "~", "null", "no", "0", "-1", "1e3", "0x10", "99999999999999999999",
    "<<: *a", "---\n", "...\n", "é", "🧶", "\u0301", "\ufeff", "\x00", "\x85", "\u2028", "A", ".", "10 cm", "chart", "B: 1\n",
    "chart: >\n", "chart: |2-\n", "{a: {b: [c, {d: e}]}}", "[[]]", "'' : ''", "\n\n  AAAA\n", "? [x]\n: y\n",
]  # fmt: skip


def check(reading: Reading) -> None:
    """What holds of every reading, whatever was read."""
    assert reading.chart is not None or reading.problems
    for rule, finding in reading.problems:
        assert rule in ("file/unreadable", "file/schema")
        assert finding.key
        assert finding.message
        assert finding.message.isprintable()
        assert reading.text is None or inside(reading.text, finding.region), finding
        for fix in finding.fixes:
            assert reading.text is not None
            assert all(inside(reading.text + "\n", edit.region) for edit in fix.edits)
    assert list(reading.problems) == sorted(reading.problems, key=lambda p: p[1].region)
    if reading.chart is not None:
        assert reading.text is not None
        chart = reading.chart
        assert chart.grid.cells.shape == (len(chart.places.lines), chart.grid.width)
        assert all(inside(reading.text, line) for line in chart.places.lines)
        assert all(inside(reading.text, region) for region in chart.places.values.values())
        assert all(inside(reading.text, region) for region in chart.places.keys.values())
        assert chart.bounds().float_mm >= 0
        assert chart.gauge.stitch_mm > 0


@given(st.binary(max_size=200))
@settings(max_examples=80, deadline=None)
def test_any_bytes(data: bytes) -> None:
    check(read_chart("x.chart.yaml", data))


@given(st.lists(st.sampled_from(PIECES), max_size=30).map("".join))
@settings(max_examples=80, deadline=None)
@example("- ? ")
@example("a:\n  - b:")
def test_any_heap_of_yaml(text: str) -> None:
    check(read_chart("x.chart.yaml", text.encode("utf-8", "surrogatepass")))


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A valid chart with a few pieces put in, put in place of others, or taken out."""
    text = draw(st.sampled_from([PLAIN, EVERY_KEY]))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        length = draw(st.sampled_from([0, 0, 1, 1, 2, 5, 20]))
        piece = draw(st.one_of(st.sampled_from(PIECES), st.text(max_size=3)))
        text = text[:start] + piece + text[start + length :]
    return text.replace("\n", draw(st.sampled_from(["\n", "\n", "\r\n", "\r"])))


@given(mutated())
@settings(max_examples=150, deadline=None)
def test_a_chart_with_pieces_changed(text: str) -> None:
    check(read_chart("x.chart.yaml", text.encode("utf-8", "surrogatepass")))


LINES = EVERY_KEY.splitlines(keepends=True)


@given(st.lists(st.sampled_from(LINES), max_size=len(LINES)))
@settings(max_examples=50, deadline=None)
def test_a_chart_with_lines_missing_doubled_and_moved(lines: list[str]) -> None:
    check(read_chart("x.chart.yaml", "".join(lines).encode()))


VALUES: st.SearchStrategy[Any] = st.recursive(
    st.none() | st.booleans() | st.integers(-5, 10**20) | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=5)
    | st.sampled_from(["10 cm", "50 g", "5 stitches", "#123456", "B", "RS", "round", "12", "10 cm\n", "#123456\n"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["A", "1", "left", "row", "name", "x"]), inner, max_size=3),
    max_leaves=6,
)  # fmt: skip
PATHS: list[tuple[Any, ...]] = [
    ("lintarsia",), ("title",), ("worked",), ("gauge",), ("gauge", "over"), ("gauge", "float-gauge"), ("gauge", "stitches"),
    ("yarns",), ("yarns", "shore-dk"), ("yarns", "shore-dk", "weight"), ("colours",), ("colours", "A"),
    ("colours", "A", "shade"), ("supplies",), ("supplies", "B"), ("supplies", "B", 0), ("limits",), ("limits", "float"),
    ("limits", "carry"), ("repeat",), ("repeat", "rows"), ("repeat", "rows", 0), ("shaping",), ("shaping", "3"), ("chart",),
    ("symmetry",), ("symmetry", 0), ("duplicate-stitch",), ("duplicate-stitch", 0), ("duplicate-stitch", 0, "colour"),
    ("written",), ("written", "1"), ("suppress",), ("suppress", 0), ("suppress", 0, "stitches"), ("suppress", 1, "rule"),
]  # fmt: skip


def changed(path: tuple[Any, ...], value: Any) -> dict[str, Any]:
    """The plain data of a valid chart with another value at a path."""
    document = read_document("x", EVERY_KEY.encode())
    data: Any = document.data
    holder = data
    for step in path[:-1]:
        holder = holder[step]
    holder[path[-1]] = value
    return dict(data)


@given(st.sampled_from(PATHS), VALUES)
@settings(max_examples=150, deadline=None)
@example(("gauge", "over"), "10 cm\n")
@example(("colours", "A", "shade"), "#123456\n")
@example(("limits", "carry"), 4.0)
@example(("limits", "carry"), True)
def test_the_fast_validator_and_the_reference_agree(path: tuple[Any, ...], value: Any) -> None:
    schema = load_schema("chart.schema.json")
    data = changed(path, value)
    assert schema.accepts(data) == (not list(schema.errors(data)))


@given(st.lists(st.tuples(st.sampled_from(PATHS), VALUES), min_size=1, max_size=4))
@settings(max_examples=80, deadline=None)
def test_a_chart_with_values_changed(changes: list[tuple[tuple[Any, ...], Any]]) -> None:
    data: Any = changed(*changes[0])
    for path, value in changes[1:]:
        holder = data
        for step in path[:-1]:
            known = (isinstance(holder, dict) and step in holder) or (
                isinstance(holder, list) and isinstance(step, int) and step < len(holder)
            )
            holder = holder[step] if known else None
        if isinstance(holder, dict):
            holder[path[-1]] = value
    check(read_chart("x.chart.yaml", json.dumps(data).encode()))  # JSON is YAML, all in quotes and brackets


@given(st.text(max_size=40), st.sampled_from(["settings.schema.json", "chart.schema.json"]))
@settings(max_examples=60, deadline=None)
def test_any_text_as_another_document(text: str, schema: str) -> None:
    document = read_document("lintarsia.yaml", text.encode("utf-8", "surrogatepass"), schema=schema)
    assert document.data is not None or document.problems
