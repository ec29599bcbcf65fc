"""Rows as they are shown in a comparison: how much of a row, what stands under what, and how it is drawn."""

from collections.abc import Sequence

import pytest
from lxml import etree
from planted import ROWS, chart_of, compared, text_of, top, with_row

from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.html import comparison_body, strip_svg
from lintarsia.comparing.markdown import comparison_markdown, escaped_markdown
from lintarsia.comparing.model import ChartChange, Comparison, FileChange, State
from lintarsia.comparing.outline import Strip, outline, strip
from lintarsia.comparing.text import comparison_text

SHADES = {"B": "#27406b", "W": "#efe9dc", "R": "#a33b2a"}
SVG = "{http://www.w3.org/2000/svg}"


def one(change: ChartChange) -> Comparison:
    return Comparison("v1.0", "v1.1", (FileChange("a", "a", State.CHANGED, "1", "2", change, title="Kite"),))


def widened(before: str = "", after: str = "", row: int = 9, text: str = "BBRWRWRBBBBBBBBB") -> ChartChange:
    """The kite with more stitches at the left and at the right of every row, one row changed."""
    was = [f"{before}{line}{after}" for line in ROWS]
    now = [f"{before}{line}{after}" for line in with_row(row, text)]
    return compare_charts(chart_of(text_of(was)), chart_of(text_of(now)))


def shown(change: ChartChange) -> Strip:
    (row,) = change.rows
    return strip(change, row)


def test_a_row_of_sixty_stitches_is_shown_whole() -> None:
    found = shown(widened("B" * 40, "B" * 4))
    assert (len(found.was), len(found.now), found.more) == (60, 60, (False, False))
    assert found.marks == " " * 45 + "^" + " " * 14
    assert found.label == "row 9 (RS)"


@pytest.mark.parametrize(
    ("before", "after", "marks", "more"),
    [
        # Stitch 11 of the kite: as much around it as there is, at most six on either side.
        ("B" * 45, "", " " * 6 + "^" + " " * 6, (True, True)),
        ("", "B" * 45, " " * 5 + "^" + " " * 6, (False, True)),
    ],
)
def test_of_a_longer_row_what_differs_and_six_on_either_side(
    before: str, after: str, marks: str, more: tuple[bool, bool]
) -> None:
    found = shown(widened(before, after))
    assert (found.marks, found.more) == (marks, more)
    assert found.was == f"{before[:1]}BBRWRRRBBBBBBBBB{after}"[: len(marks)]
    assert found.now == f"{before[:1]}BBRWRWRBBBBBBBBB{after}"[: len(marks)]


def test_at_the_right_edge_the_row_does_not_go_on() -> None:
    found = shown(widened("B" * 45, row=2, text="BBBBBBBBBBBBBBWR"))
    assert (found.was, found.now, found.marks, found.more) == ("B" * 8, "BBBBBBWR", "      ^^", (True, False))


def test_of_much_that_differs_sixty_stitches_from_the_right() -> None:
    was = ["B" * 80, *("B" * 80 for _ in ROWS)]
    now = [*was[:-1], "W" + "BR" * 35 + "B" * 9]
    found = shown(compare_charts(chart_of(text_of(was)), chart_of(text_of(now))))
    assert (len(found.now), found.more) == (60, (True, True))
    assert found.now.endswith("RBBBBBB")
    assert found.marks.endswith("^       "[:7])


def test_of_rows_of_unlike_widths_the_stitches_stand_over_each_other() -> None:
    """They are lined up at the right, where row 1 begins."""
    rows = [f".{row[1:]}" if 14 - k >= 14 else row for k, row in enumerate(ROWS)]
    found = shown(compared(rows))
    assert (found.was, found.now, found.marks) == ("B" * 16, "." + "B" * 15, "^" + " " * 15)


def test_a_row_that_is_gone_has_its_old_name() -> None:
    found = shown(compared([row for k, row in enumerate(ROWS) if k != top(8)]))
    assert (found.label, found.was, found.now, found.marks) == ("row 8 (WS) of before", "BBBRRRRBBBBBBBBB", "", "")
    assert (found.was_words, found.now_words) == ("p3 B, p4 R, p9 B", "")


def moved(number: int) -> ChartChange:
    """So many rows from row 6 on, each a stitch further to the right."""
    rows = list(ROWS)
    for row in range(6, 6 + number):
        rows[top(row)] = "B" + rows[top(row)][:-1]
    return compared(rows)


@pytest.mark.parametrize(
    ("number", "shown", "more"),
    [(4, [6, 7, 8, 9], ""), (5, [6, 7, 8, 10], "1 more row"), (7, [6, 7, 8, 12], "3 more rows")],
)
def test_of_many_rows_alike_the_first_three_and_the_last(number: int, shown: Sequence[int], more: str) -> None:
    (section,) = outline(one(moved(number)))
    (item,) = section.items
    assert [int(strip.label.split()[1]) for strip in item.strips] == shown
    words = comparison_text(one(moved(number)))
    page = comparison_body(one(moved(number)))
    if more:
        assert f"    … {more} of the kind, and the last of them:\n    row {shown[-1]}" in words
        assert f"<p>and {more} of the kind</p>" in page
    assert ("of the kind" in words) is ("of the kind" in page) is bool(more)
    assert "    row 6 (WS)\n    was  BBBBBRRBBBBBBBBB\n    now  BBBBBBRRBBBBBBBB\n" in words


def parsed(drawn: Strip) -> etree._Element:
    return etree.fromstring(strip_svg(drawn, SHADES))


def squares(svg: etree._Element) -> list[tuple[float, float, str]]:
    return [
        (float(r.get("x", "")), float(r.get("y", "")), r.get("fill", ""))
        for r in svg.iter(f"{SVG}rect")
        if r.get("width") == "14"
    ]


def test_was_is_drawn_above_now_stitch_over_stitch() -> None:
    """Squares of 14 px, from 28 px on; a bar of 3 px beneath what differs."""
    svg = parsed(Strip("row 3", "BWR", "BBR", " ^ ", "k1 R", ""))
    assert svg.get("viewBox") == "0 0 70 33"
    assert (svg.get("width"), svg.get("height"), svg.get("role")) == ("70", "33", "img")
    assert squares(svg) == [
        (28, 0, "#27406b"), (42, 0, "#efe9dc"), (56, 0, "#a33b2a"),
        (28, 14, "#27406b"), (42, 14, "#27406b"), (56, 14, "#a33b2a"),
    ]  # fmt: skip
    words = [(t.text, float(t.get("x", "")), float(t.get("y", "")), t.get("fill")) for t in svg.iter(f"{SVG}text")]
    assert words == [
        ("was", 0, 10.5, "currentColor"), ("B", 35, 10.5, "#fff"), ("W", 49, 10.5, "#000"), ("R", 63, 10.5, "#fff"),
        ("now", 0, 24.5, "currentColor"), ("B", 35, 24.5, "#fff"), ("B", 49, 24.5, "#fff"), ("R", 63, 24.5, "#fff"),
    ]  # fmt: skip
    (bar,) = (r for r in svg.iter(f"{SVG}rect") if r.get("width") != "14")
    assert [bar.get(name) for name in ("x", "y", "width", "height")] == ["43", "29", "12", "3"]
    assert svg.get("aria-label") == "was: k1 R; now: BBR", "words where there are any, the letters else"


def test_a_row_that_has_come_is_drawn_alone() -> None:
    svg = parsed(Strip("row 3", "", "B.R", "", "", "k1 R"))
    assert svg.get("viewBox") == "0 0 70 19"
    assert squares(svg) == [(28, 0, "#27406b"), (56, 0, "#a33b2a")], "no stitch, no square"
    assert svg.get("aria-label") == "now: k1 R"


@pytest.mark.parametrize(
    ("shade", "ink"),
    [("#000000", "#fff"), ("#ffffff", "#000"), ("#ff0000", "#000"), ("#0000ff", "#fff"), ("#008000", "#fff"),
     ("#767676", "#000"), ("#757575", "#fff"), ("#6f6f6f", "#fff"), ("#0a0a0a", "#fff"), ("#ff00ff", "#000")],
)  # fmt: skip
def test_letters_are_black_or_white_by_the_greater_contrast(shade: str, ink: str) -> None:
    """WCAG 2.2's contrast ratio, (L1 + 0.05) / (L2 + 0.05) on its relative luminance, worked out here."""

    def light(colour: str) -> float:
        parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
        red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    on_black, on_white = (light(shade) + 0.05) / 0.05, 1.05 / (light(shade) + 0.05)
    assert ("#000" if on_black > on_white else "#fff") == ink
    svg = etree.fromstring(strip_svg(Strip("row 3", "", "S", ""), {"S": shade}))
    assert [t.get("fill") for t in svg.iter(f"{SVG}text")][1] == ink


def test_the_fence_of_a_picture_is_longer_than_any_in_it() -> None:
    """CommonMark: a fence ends at one at least as long."""
    text = text_of(more="written: {1: k16 B}\n")
    other = text_of(more='written: {1: "k16 B ````` so ``"}\n')
    marked = comparison_markdown(one(compare_charts(chart_of(text), chart_of(other))))
    assert "\n  ``````text\n" in marked
    assert marked.count("``````") == 2
    assert "\n  was: k16 B\n  now: k16 B ````` so ``\n" in marked
    plain = comparison_markdown(one(compared(with_row(9, "BBRWRWRBBBBBBBBB"))))
    assert "\n  ```text\n" in plain
    assert "````" not in plain


def test_nothing_of_a_name_speaks_to_markdown() -> None:
    for sign in "\\`*_{}[]<>#|~!&@":
        assert escaped_markdown(f"a{sign}b") == f"a\\{sign}b"
    assert escaped_markdown("plain, (so) – “it” is.") == "plain, (so) – “it” is."
