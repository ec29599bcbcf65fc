"""Rules on written rows: what exactly is said, of how many rows, and from which end."""

import json

import pytest
import yaml
from checking import GAUGE, HEAD, chart_check, told

from lintarsia.reading import read_chart
from lintarsia.result import Finding
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work

ROUNDS = GAUGE + "worked: round\n"


def said(rule: str, grid: str, rows: dict[int, str], extra: str = GAUGE) -> list[str]:
    return told(rule, grid, extra + written(rows))


def written(rows: dict[int, str]) -> str:
    return "written:\n" + "".join(f"  {row}: {json.dumps(words)}\n" for row, words in rows.items())


@pytest.mark.parametrize(
    ("words", "goal", "uneven"),
    [
        ("*k2 B; rep from * to last st, k1 B", "", ""),
        ("*k2 B; rep from * to end", "the end", "after 3 times 1 stitch is left"),
        ("*k4 B; rep from * to end", "the end", "after 1 time 3 stitches are left"),
        ("*k3 B; rep from * to last 2 sts, k2 B", "the last 2 stitches", "after 1 time 2 stitches are left"),
        ("*k4 B; rep from * to last st, k1 B", "the last 1 stitch", "after 1 time 2 stitches are left"),
        ("*k8 B; rep from * to end", "the end", "1 time takes 1 stitch too many"),
        ("*k5 B; rep from * to last 4 sts, k4 B", "the last 4 stitches", "1 time takes 2 stitches too many"),
    ],
)
def test_repeats_that_do_not_come_out_even(words: str, goal: str, uneven: str) -> None:
    messages = said("words/mismatch", "BBBBBBB", {1: words})
    wanted = f"row 1 (RS): a repeat to {goal} does not come out even: {uneven}"
    assert [message.partition("; chart:")[0] for message in messages] == ([wanted] if uneven else [])


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("k2 W, k3 B", ""),
        (
            "k2 B, k3 W",
            "stitch 1 is W (Bone) in the chart and B (Dusk blue) in the words; chart: k2 W, k3 B; words: k2 B, k3 W",
        ),
        (
            "k1 W, k3 B (5 sts)",
            "stitch 2 is W (Bone) in the chart and B (Dusk blue) in the words; "
            "the words come to 4 stitches, the chart's row has 5; chart: k2 W, k3 B; words: k1 W, k3 B",
        ),
        (
            "k2 W, k2 B (5 sts)",
            "the words end before stitch 5, B (Dusk blue); the words come to 4 stitches, the chart's row has 5; "
            "chart: … k2 W, k3 B; words: … k2 W, k2 B",
        ),
        (
            "k2 W, k4 B (5 sts)",
            "the words go on after the last stitch; the words come to 6 stitches, the chart's row has 5; "
            "chart: … k2 W, k3 B; words: … k2 W, k4 B",
        ),
    ],
)
def test_the_first_stitch_that_differs(words: str, expected: str) -> None:
    messages = [message.replace("… ", "") for message in said("words/mismatch", "BBBWW", {1: words})]
    assert messages == ([f"row 1 (RS): {expected}".replace("… ", "")] if expected else [])


@pytest.mark.parametrize("symbol", ["W", "é", "'", '"'])
def test_the_row_of_the_chart_is_written_so_that_it_reads_back(symbol: str) -> None:
    """Whatever the symbol: YAML gives words that agree with the chart, and letters stay letters."""
    key = "" if symbol == "W" else f'  {json.dumps(symbol, ensure_ascii=False)}: {{name: Fifth, shade: "#dddddd"}}\n'

    def findings(words: str) -> list[Finding]:
        text = f"{HEAD}{key}{GAUGE}{written({1: words})}chart: |\n  B{symbol}B\n"
        chart = read_chart("x.chart.yaml", text.encode()).chart
        assert chart is not None
        loaded = catalogue.load("words/mismatch")
        return list(chart_check(loaded)(Work(chart), loaded.options()))

    (finding,) = findings("k1 B (3 sts)")
    new = finding.fixes[0].edits[0].text
    assert findings(yaml.safe_load(new)) == []
    assert symbol in new


@pytest.mark.parametrize(
    ("missing", "expected"),
    [([2, 3], ["rounds 2–3 are"]), ([3], ["round 3 is"]), ([1, 3, 4], ["round 1 is", "rounds 3–4 are"])],
)
def test_rounds_that_are_not_written(missing: list[int], expected: list[str]) -> None:
    rows = {row: "k2 B" for row in range(1, 5) if row not in missing}
    assert said("words/missing-row", "BB BB BB BB", rows, ROUNDS) == [
        f"{which} in the chart and not written" for which in expected
    ]


def wrong_stitch(rows: dict[int, str], extra: str = GAUGE) -> list[str]:
    return said("words/side", ("BBB " * max(rows)).strip(), rows, extra)


@pytest.mark.parametrize(
    ("count", "expected"),
    [
        (2, "row 2 (WS) is knitted in the words; stocking stitch purls it"),
        (4, "rows 2 and 4 (WS) are knitted in the words; stocking stitch purls them"),
        (12, "rows 2, 4, 6, 8, 10 and 12 (WS) are knitted in the words; stocking stitch purls them"),
        (14, "rows 2, 4, 6, 8, 10, 12 and others (WS) are knitted in the words; stocking stitch purls them"),
    ],
)
def test_wrong_side_rows_that_are_all_knitted_are_one_result(count: int, expected: str) -> None:
    assert wrong_stitch(dict.fromkeys(range(1, count + 1), "k3 B")) == [expected]


def test_some_of_the_wrong_side_rows_knitted_are_results_of_their_own() -> None:
    rows = {1: "k3 B", 2: "k3 B", 3: "k3 B", 4: "k3 B", 5: "k3 B", 6: "p3 B"}
    assert wrong_stitch(rows) == [
        "row 2 (WS) is knitted in the words; stocking stitch purls it",
        "row 4 (WS) is knitted in the words; stocking stitch purls it",
    ]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("p3 B", ["row 1 (RS) is purled in the words; stocking stitch knits it"]),
        ("k3 B", []),
        ("k1 B, p1 B, k1 B", []),  # a texture
        ("p1 B, k1 B, p1 B", []),
        ("3 B", []),  # nothing said
        ("1 B, p2 B", ["row 1 (RS) is purled in the words; stocking stitch knits it"]),
    ],
)
def test_a_row_that_is_purled_throughout(words: str, expected: list[str]) -> None:
    assert wrong_stitch({1: words, 2: "p3 B", 3: "k3 B"}) == expected


def test_rounds_that_are_purled() -> None:
    assert wrong_stitch({1: "p3 B", 2: "p3 B", 3: "p3 B"}, ROUNDS) == [
        "rounds 1, 2 and 3 are purled in the words; stocking stitch knits them"
    ]


@pytest.mark.parametrize(
    ("label", "extra", "expected"),
    [
        ("Row 3", GAUGE, ["row 1 (RS): the words call it row 3"]),
        ("Rows 3, 5, 7 and 9", GAUGE, ["row 1 (RS): the words call it row 3, 5, 7 and 9"]),
        ("Rows 3, 5, 7, 9 and 11", GAUGE, ["row 1 (RS): the words call it row 3, 5, 7 and 9"]),
        ("Rows 1, 5, 7", GAUGE, []),
        ("Row 1 (RS)", GAUGE, []),
        ("Row 1 (WS)", GAUGE, ["row 1 is RS in the chart; the words say WS"]),
        ("Round 1 (WS)", ROUNDS, ["round 1 shows the right side, as every round does; the words say WS"]),
    ],
)
def test_what_a_row_calls_itself(label: str, extra: str, expected: list[str]) -> None:
    assert said("words/side", "BBB", {1: f"{label}: k3 B"}, extra) == expected


@pytest.mark.parametrize(
    ("row", "extra", "words", "way"),
    [
        (1, GAUGE, "k2 B, k1 W", "row 1 (RS) is worked right to left"),
        (2, GAUGE, "p1 W, p2 B", "row 2 (WS) is worked left to right"),
        (2, ROUNDS, "k2 B, k1 W", "round 2 is worked right to left"),
    ],
)
def test_rows_from_their_other_end(row: int, extra: str, words: str, way: str) -> None:
    (message,) = said("words/side", "BBW BBW", {row: words}, extra)
    assert message.startswith(f"{way}; the words are the row from its other end; chart: ")


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("k3 B (3 sts)", []),
        ("k3 B (4 sts)", ["row 1 (RS) is said to have 4 stitches; the chart has 3"]),
        (
            "k2 B (4 sts)",
            [
                "row 1 (RS) is said to have 4 stitches; the chart has 3, and the words come to 2; "
                "they part at stitch 3; chart: k3 B; words: k2 B"
            ],
        ),
        ("k2 B (3 sts)", []),  # words/mismatch says what is wrong
        (
            "k2 B",
            [
                "the words of row 1 (RS) come to 2 stitches; the chart has 3; "
                "they part at stitch 3; chart: k3 B; words: k2 B"
            ],
        ),
        (
            "k4 B",
            [
                "the words of row 1 (RS) come to 4 stitches; the chart has 3; "
                "they go on after the last stitch; chart: k3 B; words: k4 B"
            ],
        ),
        ("knit it somehow", []),
    ],
)
def test_counts_that_are_stated(words: str, expected: list[str]) -> None:
    assert said("words/wrong-count", "BBB", {1: words}) == expected
