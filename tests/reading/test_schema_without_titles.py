"""What is said where a schema names nothing, and the rows that words for a whole side are meant for."""

from typing import Any

import pytest

from lintarsia.chart import Places
from lintarsia.reading import read_chart
from lintarsia.reading.schema import Schema
from lintarsia.reading.wording import schema_findings

BARE = Schema(
    {
        "type": "object",
        "properties": {"a": {"type": "string", "maxLength": 3}, "n": {"maximum": 1200}, "b": {}},
        "patternProperties": {"^[x-z]": {}},
        "propertyNames": {"pattern": "^[a-z]+$"},
        "required": ["b", "d"],
    }
)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        ({"a": 5, "b": "", "d": ""}, ["wrong-type a: found 5; expected something else"]),
        ({"a": "long", "b": "", "d": ""}, ["wrong-value a: found 'long'; expected something else, at most 3"]),
        ({"n": 1201, "b": "", "d": ""}, ["wrong-value n: found 1201; expected something else, at most 1,200"]),
        ({"b": "", "d": "", "X": ""}, ["wrong-name the key 'X' cannot stand; expected another"]),
        (
            {},
            ["missing-key the file has no 'b'; expected it", "missing-key the file has no 'd'; expected it"],
        ),
    ],
)
def test_where_a_schema_says_nothing_of_what_it_wants(data: dict[str, Any], told: list[str]) -> None:
    found = schema_findings(BARE, data, Places())
    assert [f"{finding.key} {finding.message}" for finding in found] == told


def test_a_file_that_only_one_of_two_validators_refuses_is_not_passed_in_silence() -> None:
    (found,) = schema_findings(BARE, {"b": "", "d": ""}, Places())
    assert (found.key, found.message) == ("wrong-value", "the file is not as its schema has it")


def test_a_key_that_stands_twice_is_told_with_what_to_do() -> None:
    text = (CHART % "").replace("title: Lopsided", "title: Lopsided\ntitle: Again")
    ((_, finding),) = read_chart("x.chart.yaml", text.encode()).problems
    assert finding.remedy == "take one of the two out, or give it a name of its own"


CHART = """\
lintarsia: 1
title: Lopsided
gauge: {stitches: 22, rows: 30, over: 10 cm}
%scolours:
  A: {name: Deep sea, shade: "#27406b"}
written:
  1 and all WS: k5 A
  3: k4 A, k1 A
chart: |
  AAAAA
  AAAAA
  AAAAA
  AAAAA
  AAAAA
"""


@pytest.mark.parametrize(
    ("worked", "rows"),
    [
        ("", {1: "k5 A", 2: "k5 A", 3: "k4 A, k1 A", 4: "k5 A"}),
        ("first-row: WS\n", {1: "k5 A", 3: "k4 A, k1 A", 5: "k5 A"}),
        ("worked: turned\n", {1: "k5 A", 2: "k5 A", 3: "k4 A, k1 A", 4: "k5 A"}),
        ("worked: round\n", {1: "k5 A", 3: "k4 A, k1 A"}),
    ],
)
def test_words_for_all_rows_of_a_side_are_meant_for_the_rows_that_the_chart_works_there(
    worked: str, rows: dict[int, str]
) -> None:
    chart = read_chart("x.chart.yaml", (CHART % worked).encode()).chart
    assert chart is not None
    assert chart.written == rows
