"""A comparison on a terminal: in the chart's own colours where it has them, in letters else, never wider than it."""

import re

import pytest
from planted import ROWS, chart_of, compared, text_of, top, with_row

from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange, Comparison, FileChange, State
from lintarsia.comparing.text import comparison_text
from lintarsia.reporting.screen import PLAIN, Screen

FULL = Screen(colour=True, true_colour=True)
PAINT = re.compile(r"\x1b\[[0-9;]*m")


def told(change: ChartChange, screen: Screen) -> list[str]:
    file = FileChange("kite.chart.yaml", "kite.chart.yaml", State.CHANGED, "a", "b", change, title=change.now.title)
    return comparison_text(Comparison("v1.0", "working tree", (file,)), screen).splitlines()


def test_was_and_now_are_the_halves_of_one_line() -> None:
    change = compared(with_row(9, "BBRWRWRBBBBBBBBB"))
    lines = told(change, FULL)
    [at] = [k for k, line in enumerate(lines) if "was over now" in line]
    madder, bone = "163;59;42", "239;233;220"
    assert f"\x1b[0;38;2;{madder};48;2;{bone}m▀\x1b[0;38;2;{madder};48;2;{madder}m▀" in lines[at], "was above now"
    bare = PAINT.sub("", lines[at])
    assert lines[at + 1].index("^") == bare.index("▀") + 16 - 11, "the caret stands beneath stitch 11"
    assert bare.count("▀") == 16
    legend = PAINT.sub("", lines[4])
    assert legend == "  █ B Dusk blue  █ W Bone  █ R Madder"


def test_a_row_that_has_come_stands_alone() -> None:
    rows = list(ROWS)
    rows[top(6) : top(6)] = ["BBBRBBBBBBBBBBBB"]
    lines = [PAINT.sub("", line) for line in told(compared(rows), FULL)]
    assert f"    now           {'▄' * 16}" in lines


@pytest.mark.parametrize("screen", [PLAIN, Screen(colour=True), Screen(colour=True, true_colour=True, unicode=False)])
def test_letters_where_there_is_no_true_colour(screen: Screen) -> None:
    lines = [PAINT.sub("", line) for line in told(compared(with_row(9, "BBRWRWRBBBBBBBBB")), screen)]
    assert "    was  BBRWRRRBBBBBBBBB" in lines
    assert "    now  BBRWRWRBBBBBBBBB" in lines
    assert screen.unicode or all(line.isascii() for line in lines)


@pytest.mark.parametrize("screen", [PLAIN, FULL])
def test_nothing_is_wider_than_eighty(screen: Screen) -> None:
    wide = [row * 9 for row in ROWS]
    other = [*wide[:5], wide[5][:70] + "W" + wide[5][71:], *wide[6:]]
    change = compare_charts(chart_of(text_of(wide)), chart_of(text_of(other)))
    lines = [PAINT.sub("", line) for line in told(change, screen)]
    assert max(map(len, lines)) <= 80
    assert any("…" in line and ("▀" in line or "BBRWRRR" in line) for line in lines)


def test_a_name_cannot_speak_to_the_terminal() -> None:
    text = text_of().replace("name: Bone", 'name: "Bo\\e[2Jne"')
    change = compare_charts(chart_of(text), chart_of(text.replace(ROWS[5], "BBRWRWRBBBBBBBBB")))
    assert all("\x1b[2J" not in line for line in told(change, FULL))
