"""A pattern file to a Pattern: values spread over sizes, and every fault with its place."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart.measure import Length
from lintarsia.ground.resources import resource
from lintarsia.pattern.model import ONE_SIZE, PieceEdge, Seam, SeamEdge
from lintarsia.pattern.reading import read_pattern

LENGTH = "expected a measurement such as 31 cm, 10 1/2 in or 40 cm / 16 in, or one for each size"
TIMES = "expected how often it is knitted, 0 or more, or one for each size"
SYMBOL = "expected a symbol: exactly one character, neither `.` nor a space"
NO_PIECE = "is not a piece of the pattern; did you mean 'front'?"
NO_EDGE = "'front side' is no edge; expected a piece and left, right, top or bottom"
MIXED = "a side is joined to a top or a bottom; their colours cannot be compared row by row"
WHOLE = """\
lintarsia-pattern: 1
title: Jumper
version: 1.10
sizes: [2, 4, yes]
wearer: child
tolerance: 4 mm
allowance: 12.5 %
yarns:
  sea: {name: Deep sea, length: 125 m, mass: 50 g, balls: {2: 3, 4: 4.5}}
pieces:
  front:
    chart: {2: small.chart.yaml, 4: charts/front.chart.yaml, yes: big.chart.yaml}
    times: 2
    cast-on: {2: 60, 4: 68}
    rows: 90
    repeats: {4: 6}
    row-repeats: 2
    edge: 2
    plain: 7
    at: {stitch: {2: 4}, row: 9}
    measures: {width: {2: 30 cm, 4: 34 cm}, height: 12 in, around: 60 cm}
  back: {chart: back.chart.yaml, mirror-of: front}
seams:
  - {join: [front left, back RIGHT], rows: [58, 1]}
suppress:
  - {rule: size/measurement, piece: front, size: 2, justification: " stretched "}
"""


def read(text: str) -> list[tuple[str, str, str]]:
    """(rule, message, the text it points at) of every problem."""
    lines = text.split("\n")
    found = []
    for rule, finding in read_pattern("a.pattern.yaml", text.encode()).problems:
        line, column, end_line, end_column = finding.region
        found.append(
            (rule, finding.message, lines[line - 1][column - 1 : end_column - 1 if line == end_line else None])
        )
    return found


def test_every_value_by_size() -> None:
    reading = read_pattern("a.pattern.yaml", WHOLE.encode())
    assert reading.problems == ()
    pattern = reading.pattern
    assert pattern is not None
    assert (pattern.title, pattern.version, pattern.sizes) == ("Jumper", "1.10", ("2", "4", "yes"))
    assert (pattern.tolerance, pattern.allowance, str(pattern.wearer)) == (Length(4, "mm"), 0.125, "child")
    assert pattern.yarns["sea"].balls == {"2": 3, "4": 4.5}
    front = pattern.pieces["front"]
    assert front.charts["4"] == "charts/front.chart.yaml"
    assert front.times == {"2": 2, "4": 2, "yes": 2}
    assert (front.cast_on, front.repeats) == ({"2": 60, "4": 68}, {"4": 6})
    assert (front.plain, front.at_stitch, front.at_row["yes"]) == ("7", {"2": 4}, 9)
    assert front.measures["height"]["4"].first == Length(12, "in")
    assert {size: one.first for size, one in front.measures["width"].items()} == {
        "2": Length(30, "cm"),
        "4": Length(34, "cm"),
    }
    seam = Seam(PieceEdge("front", SeamEdge.LEFT), PieceEdge("back", SeamEdge.RIGHT), (1, 58), 0)
    assert pattern.seams == (seam,)
    assert pattern.suppressions[0].justification == "stretched"


def test_a_pattern_of_one_size() -> None:
    reading = read_pattern("a.pattern.yaml", b"lintarsia-pattern: 1\ntitle: A\npieces:\n  b: {chart: b.chart.yaml}\n")
    assert reading.pattern is not None
    assert reading.pattern.sizes == (ONE_SIZE,)
    assert reading.pattern.pieces["b"].charts == {ONE_SIZE: "b.chart.yaml"}
    assert not reading.pattern.sized


@pytest.mark.parametrize(
    ("good", "bad", "message", "place"),
    [
        ("sizes: [2, 4, yes]", "sizes: [2, 4, yes, 4]", "the size '4' stands here twice", "4"),
        ("cast-on: {2: 60, 4: 68}", "cast-on: {2: 60, 6: 68}", "the pattern has no size '6'; it has 2, 4, yes", "6"),
        ("edge: 2", "egde: 2", "unknown key 'egde' of front in pieces; did you mean 'edge'?", "egde"),
        ("mirror-of: front", "mirror-of: fromt", f"'fromt' {NO_PIECE}", "fromt"),
        ("front left", "frant left", f"'frant' {NO_PIECE}", "frant left"),
        ("front left", "front side", NO_EDGE, "front side"),
        ("back RIGHT", "back top", MIXED, "[front left, back top]"),
        ("piece: front, size: 2", "piece: front, size: 3", "'3' is not a size of the pattern; expected 2, 4, yes", "3"),
        ("times: 2", "times: -2", "times of front in pieces: found -2; " + TIMES, "-2"),
        ("height: 12 in", "height: 12", "height of measures of front in pieces: found '12'; " + LENGTH, "12"),
        ("plain: 7", "plain: .", "plain of front in pieces: found '.'; " + SYMBOL, "."),
        ("title: Jumper\n", "", "the file has no 'title'; expected text", "l"),
    ],
)  # fmt: skip
def test_one_fault(good: str, bad: str, message: str, place: str) -> None:
    assert good in WHOLE
    found = read(WHOLE.replace(good, bad, 1))
    assert [(rule, said) for rule, said, _ in found] == [("file/schema", message)]
    assert found[0][2].startswith(place) or message.startswith("the file has no")


def test_no_pieces_are_no_pattern() -> None:
    reading = read_pattern("a.pattern.yaml", b"lintarsia-pattern: 1\ntitle: A\n")
    assert reading.pattern is None
    assert [finding.message for _, finding in reading.problems] == [
        "the file has no 'pieces'; expected pieces, each under its name"
    ]
    assert read_pattern("none.pattern.yaml").problems[0][0] == "file/unreadable"


@settings(max_examples=150, deadline=None)
@given(st.integers(0, len(WHOLE)), st.integers(0, 40), st.text(max_size=6))
def test_any_damage_is_a_result(start: int, length: int, put: str) -> None:
    text = WHOLE[:start] + put + WHOLE[start + length :]
    reading = read_pattern("a.pattern.yaml", text.encode("utf-8", "surrogatepass"))
    assert reading.pattern is not None or reading.problems


def test_the_schema_is_shipped_and_named_in_the_examples() -> None:
    assert resource("schema/pattern.schema.json").exists()
    for example in (Path(__file__).parents[2] / "examples").glob("*.pattern.yaml"):
        assert "$schema=../schema/pattern.schema.json" in example.read_text("utf-8").splitlines()[0]


SHAPED = """\
lintarsia-pattern: 1
title: Jumper
sizes: [s, l]
yarns: {sea: {name: Sea, balls: {s: 3, l: 4}}}
notions: {zip: {s: 20 cm, l: 25 cm}}
tools: {hook: {s: 3 mm, l: 4 mm}}
pieces:
  front:
    chart: front.chart.yaml
    at: {row: {s: 2, l: 3}}
    measures: {height: {s: 30 cm, l: 31 cm}}
    shaping:
      s: {3-9/2: {left: -1}}
      l: {4: {right: -2}}
    divide:
      s: {12: {by: hold, stitches: 3}}
      l: {14: {by: nothing, at: 5}}
  band: {colour: B, cast-on: 9, rows: 7}
seams:
  - {join: [front left, band right]}
test-knit: {until: 2026-05-31}
"""
OF_ROWS = "expected rows such as 12 or 31-59/2, with left or right"
PARTED = (
    "expected a row with {by: bind-off, stitches: 12} or {by: hold, stitches: 12}, or with {by: nothing} for a slit"
)
NO_SIZE = "the pattern has no size 'm'; it has s, l"


def test_what_is_in_order_is_told_nothing_of() -> None:
    assert read(SHAPED) == []


@pytest.mark.parametrize(
    ("good", "bad", "message", "place"),
    [
        ("balls: {s: 3, l: 4}", "balls: {s: 3, m: 4}", NO_SIZE, "m"),
        ("zip: {s: 20 cm", "zip: {m: 20 cm", NO_SIZE, "m"),
        ("hook: {s: 3 mm", "hook: {m: 3 mm", NO_SIZE, "m"),
        ("at: {row: {s: 2", "at: {row: {m: 2", NO_SIZE, "m"),
        ("height: {s: 30", "height: {m: 30", NO_SIZE, "m"),
        ("      s: {3-9/2", "      m: {3-9/2", NO_SIZE, "m"),
        ("      s: {12", "      m: {12", NO_SIZE, "m"),
        ("3-9/2", "9-3/2", f"'9-3/2' in shaping of front: {OF_ROWS}", "9-3/2"),
        ("3-9/2", "3-9/0", f"'3-9/0' in shaping of front: {OF_ROWS}", "3-9/0"),
        ("{4: {right", "{0: {right", f"'0' in shaping of front: {OF_ROWS}", "0"),
        ("12: {by: hold, stitches: 3}", "12: {by: hold}", f"'12' in divide of front: {PARTED}", "12"),
        ("12: {by: hold", "0: {by: hold", f"'0' in divide of front: {PARTED}", "0"),
        ("12: {by: hold", "100001: {by: hold", f"'100001' in divide of front: {PARTED}", "100001"),
        ("stitches: 3}", "stitches: 3, to: 11}", f"'12' in divide of front: {PARTED}", "12"),
        ("at: 5}", "at: 5, stitches: 2}", f"'14' in divide of front: {PARTED}", "14"),
        ("colour: B, cast-on: 9, ", "colour: B, ", "band has no chart and no 'cast-on'; expected its number", "band"),
        (", rows: 7", "", "band has no chart and no 'rows'; expected its number", "band"),
        ("band: {colour: B", "band: {chart: x.chart.yaml, colour: B",
         "band has a chart and a colour; the colour around a chart is `plain`", "colour"),
        ("band: {colour: B, cast-on: 9, rows: 7}", "band: {cast-on: 9, rows: 7}",
         "band has neither a chart nor a colour; expected `chart`, or `colour`, `cast-on` and `rows`", "band"),
        ("rows: 7}", "rows: 7, mirror-of: band}", "'band' is not a piece of the pattern; expected front", "band"),
        ("rows: 7}", "rows: 7, continues: frnt}",
         "'frnt' is not a piece of the pattern; did you mean 'front'?", "frnt"),
        ("[front left, band right]", "[front left, bnad right]",
         "'bnad' is not a piece of the pattern; did you mean 'band'?", "bnad right"),
        ("2026-05-31", "2026-02-30", "2026-02-30 is no day of the calendar", "2026-02-30"),
    ],
)  # fmt: skip
def test_one_fault_of_sizes_rows_and_pieces(good: str, bad: str, message: str, place: str) -> None:
    """The place is the very word that is wrong, in its line."""
    assert SHAPED.count(good) == 1
    text = SHAPED.replace(good, bad)
    found = read(text)
    assert [(rule, said) for rule, said, _ in found] == [("file/schema", message)]
    assert found[0][2] == place


def test_partings_in_the_last_row_that_there_can_be() -> None:
    """And one that ends in the row it begins in."""
    assert (
        read(SHAPED.replace("12: {by: hold", "100000: {by: hold").replace("stitches: 3}", "stitches: 3, to: 100000}"))
        == []
    )
    assert read(SHAPED.replace("12: {by: hold", "1: {by: hold").replace("stitches: 3}", "stitches: 3, to: 1}")) == []
    reading = read_pattern(
        "a.pattern.yaml", SHAPED.replace("stitches: 3}", "stitches: 3, sides: left-first, to: 15}").encode()
    )
    assert reading.pattern is not None
    front = reading.pattern.pieces["front"]
    (small,), (large,) = front.divide["s"].values(), front.divide["l"].values()
    assert (small.row, str(small.by), str(small.sides), small.stitches, small.at, small.to) == (
        12,
        "hold",
        "left-first",
        3,
        None,
        15,
    )
    assert (large.row, str(large.by), str(large.sides), large.stitches, large.at, large.to) == (
        14,
        "nothing",
        "together",
        0,
        5,
        None,
    )
    assert list(front.shaping["s"]) == [3, 5, 7, 9]
    assert front.shaping["l"][4].right == -2
