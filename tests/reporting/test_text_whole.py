"""The text of groups of results and of what was mended, whole; legends and cut rows at their limits."""

from dataclasses import replace
from typing import Any

import pytest

from lintarsia.reporting.rowpicture import RowView, draw_rows
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.reporting.text import mended
from lintarsia.result import Fixed, Level, Picture, Region, Report, Result
from rendering import rendered

ONE = Result("words/unread", "x", Level.NOTE, "", "a.chart.yaml", Region(1, 3, 1, 9), remedy="mend them")


def result(number: int, **more: Any) -> Result:
    words = f"the words of place {number} are hard to read, and go on for well-nigh longer than a line"
    return replace(ONE, message=words, region=Region(number, 3, number, 9), **more)


def report(*results: Result) -> Report:
    return Report(1, results)


SIX = "".join(
    f"  {label}  the words of place {n} are hard to read, and go on for well-nigh longer\n        than a line\n"
    for n, label in zip(range(2, 8), ["also", *["    "] * 5], strict=True)
)
HEAD = """\
a.chart.yaml:1:3
● note  {number} places                                                    words/unread
  the words of place 1 are hard to read, and go on for well-nigh longer than a
  line
"""


@pytest.mark.parametrize(("number", "more"), [(7, ""), (8, "1"), (1209, "1,202")])
def test_six_more_messages_are_told_and_the_rest_counted(number: int, more: str) -> None:
    ending = f"        and {more} more; --format json lists them all\n" if more else ""
    head = HEAD.format(number=f"{number:,}")
    rule = head.splitlines()[1]
    head = head.replace(rule, f"● note  {number:,} places".ljust(68) + "words/unread")
    assert rendered(report(*map(result, range(1, number + 1))), PLAIN) == (
        f"{head}{SIX}{ending}  mend  mend them\n\n1 chart: {number:,} notes (nothing that blocks)\n"
    )


@pytest.mark.parametrize(("rows", "last"), [(8, ""), (9, "and 1 more"), (30, "and 22 more")])
def test_four_lines_of_places_are_told_and_the_rest_counted(rows: int, last: str) -> None:
    scattered = [result(n, row=2 * n - 1, stitches=(n, n + 2)) for n in range(1, rows + 1)]
    lines = rendered(report(*scattered), Screen(60)).splitlines()
    assert lines[1] == f"● note  {rows} places in {rows} rows".ljust(48) + "words/unread"
    assert lines[4:8] == [
        "  all   row 1: stitches 1–3 · row 3: stitches 2–4",
        "        row 5: stitches 3–5 · row 7: stitches 4–6",
        "        row 9: stitches 5–7 · row 11: stitches 6–8",
        "        row 13: stitches 7–9 · row 15: stitches 8–10",
    ]
    assert lines[8] == (f"        {last}; --format json lists them all" if last else "  mend  mend them")


def test_a_line_for_each_thing_that_was_mended() -> None:
    fixed = (
        Fixed("a\x1b.yaml", "a/b", "k", "write it", 4),
        Fixed("a.yaml", "a/b", "k", "write\nit", 5, 7),
        Fixed("b.yaml", "c/d", "k", "take it out", 9, 3, round=True),
    )
    lines = mended(replace(report(), fixed=fixed), PLAIN)
    assert lines.endswith("\n\n")
    assert lines.splitlines()[1:] == [
        "a.yaml:5  mended, row 7: write\\nit  a/b",
        "b.yaml:9  mended, round 3: take it out  c/d",
        "",
    ]
    assert "\x1b" not in lines
    assert mended(replace(report(), fixed=()), PLAIN) == mended(report(), PLAIN) == ""


def test_stitches_stand_in_view_as_far_as_it_goes() -> None:
    view = RowView(20, 5, 12)  # columns 5 to 11: stitches 15 to 9
    assert [view.span(stitches) for stitches in ((9, 15), (10, 12), (1, 9), (15, 20), (11, 11))] == [
        (0, 6),
        (3, 5),
        (6, 6),
        (0, 0),
        (4, 4),
    ]
    picture = Picture(("A" * 7 + "B" * 13, "C" * 11), {}, ())
    assert [view.cells(picture, row) for row in (1, 2, 3, 0)] == ["AABBBBB", "    CCC", "       ", "       "]


COLOUR = Screen(60, colour=True, true_colour=True)


def test_the_legend_names_the_colours_of_the_rows_around_alone() -> None:
    """Four rows below, and five above: those that the picture shows, two to a line."""
    symbols = "ABCDEFGHIJKLMN"
    picture = Picture(
        tuple(symbol * 3 for symbol in symbols),
        dict.fromkeys(symbols, "#102030"),
        (),
        {symbol: f"n{symbol}" for symbol in symbols},
    )
    at = result(1, row=7, stitches=(1, 2))
    legend = draw_rows(at, picture, Screen(200, colour=True, true_colour=True))[-1]
    assert [symbol for symbol in symbols if f"{symbol} n{symbol}" in legend] == list("CDEFGHIJKL")


@pytest.mark.parametrize(("width", "shown"), [(60, 3), (59, 2)])
def test_the_legend_ends_where_the_line_does(width: int, shown: int) -> None:
    """Each takes its words, a block with a blank before and two blanks after: 10 + 4, 12 + 4, 18 + 4 columns of 52."""
    names = {"A": "Dusk sea", "B": "Dusk of it", "C": "Bone as I remember", "D": "Moss"}
    names["C"] = names["C"][:16]
    picture = Picture(("ABCD",), dict.fromkeys(names, "#102030"), (), names)
    legend = draw_rows(result(1, row=1), picture, Screen(width, colour=True, true_colour=True))[-1]
    assert sum(name in legend for name in names.values()) == shown
