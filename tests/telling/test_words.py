"""Counts, names, stretches and guesses in words."""

import pytest

from lintarsia.chart import Worked
from lintarsia.reading import read_chart
from lintarsia.telling.counts import count, one_and_all, one_of, stitch_count
from lintarsia.telling.guessing import did_you_mean, nearest
from lintarsia.telling.lengths import length_in, yarn_in
from lintarsia.telling.names import colour_and_symbol, colour_name, row_word, rows_words
from lintarsia.telling.spans import span, spans, stretches


@pytest.mark.parametrize(
    ("number", "one", "many", "told"),
    [
        (0, "row", "", "0 rows"),
        (1, "row", "", "1 row"),
        (2, "stitch", "", "2 stitches"),
        (1204, "stitch", "", "1,204 stitches"),
        (1, "supply", "supplies", "1 supply"),
        (3, "supply", "supplies", "3 supplies"),
    ],
)
def test_counts(number: int, one: str, many: str, told: str) -> None:
    assert count(number, one, many) == told
    assert stitch_count(number) == count(number, "stitch")


def test_lists() -> None:
    assert [one_and_all("abc"[:n]) for n in (1, 2, 3)] == ["a", "a and b", "a, b and c"]
    assert [one_of("abc"[:n]) for n in (1, 2, 3)] == ["a", "a or b", "a, b or c"]


@pytest.mark.parametrize(
    ("ranges", "expected"),
    [
        ([], []),
        ([(7, 9), (2, 4)], [(2, 4), (7, 9)]),
        ([(2, 4), (5, 6)], [(2, 6)]),  # they touch
        ([(2, 4), (6, 6)], [(2, 4), (6, 6)]),  # one lies between
        ([(2, 9), (3, 5), (8, 11)], [(2, 11)]),
        ([(5, 5), (5, 5)], [(5, 5)]),
    ],
)
def test_stretches(ranges: list[tuple[int, int]], expected: list[tuple[int, int]]) -> None:
    assert stretches(iter(ranges)) == expected


def test_spans() -> None:
    assert (span(3, 3), span(3, 9)) == ("3", "3–9")
    assert spans([12, 3, 5, 4, 4]) == "3–5, 12"


KNOWN = ("colour/unused", "colour/no-yarn", "grid/stitch-count", "bind-off", "Title")


@pytest.mark.parametrize(
    ("given", "found"),
    [
        ("colour/unusd", "colour/unused"),
        ("Colour/No_Yarn", "colour/no-yarn"),
        ("title", "Title"),
        ("cast-off", "bind-off"),
        ("CAST_OFF", "bind-off"),
        ("tension", None),
    ],
)
def test_guesses(given: str, found: str | None) -> None:
    assert nearest(given, KNOWN) == found
    assert did_you_mean(given, KNOWN) == (f"; did you mean '{found}'?" if found else "")


CHART = """\
lintarsia: 1
title: Names
worked: {worked}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  A: {{name: Deep sea, shade: "#27406b"}}
  B: {{name: B, shade: "#efe9dc"}}
chart: |
  AAABB
  AABBA
"""


def test_names() -> None:
    chart = read_chart("x.chart.yaml", CHART.format(worked="flat").encode()).chart
    assert chart
    assert [colour_name(chart, symbol) for symbol in "ABQ"] == ["Deep sea", "B", "“Q”, not in the key"]
    assert [colour_and_symbol(chart, symbol) for symbol in "ABQ"] == ["Deep sea (A)", "B", "Q"]
    assert [rows_words("row", rows) for rows in ([4], [4, 5], [2, 3, 4])] == ["row 4", "rows 4–5", "rows 2–4"]
    assert row_word(chart) == "row"


@pytest.mark.parametrize(("worked", "word"), [(Worked.FLAT, "row"), (Worked.ROUND, "round")])
def test_what_a_row_is_called(worked: Worked, word: str) -> None:
    chart = read_chart("x.chart.yaml", CHART.format(worked=worked.value).encode()).chart
    assert chart
    assert row_word(chart) == word


@pytest.mark.parametrize(("over", "yarn", "fabric"), [("10 cm", "91.4 m", "2.5 cm"), ("4 in", "100 yd", "1 in")])
def test_lengths_in_the_units_of_the_gauge(over: str, yarn: str, fabric: str) -> None:
    chart = read_chart("x.chart.yaml", CHART.format(worked="flat").replace("10 cm", over).encode()).chart
    assert chart
    assert (yarn_in(chart, 91.44), length_in(chart, 25.4)) == (yarn, fabric)
