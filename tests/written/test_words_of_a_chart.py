"""A chart's words as whole texts, and words for several sizes or rows set against one chart."""

from dataclasses import replace

import pytest
from test_garment_words import chart

from lintarsia.chart import HOUSE_RECKONING, Chart
from lintarsia.written import read_written
from lintarsia.written.answer import page_of, pages_in_words, rows_in_words, style_of
from lintarsia.written.excerpt import around
from lintarsia.written.formats import DocumentPart, columns, paragraph, rows_body
from lintarsia.written.order import ColourSupply
from lintarsia.written.page import abbreviations_of, rows_page
from lintarsia.written.sewn import sewn_lines
from lintarsia.written.symbols import written_yarn
from lintarsia.written.whole import whole_text

TURN = ["AAAB" * 2] * 4


def lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if line.startswith("Row")]


def test_repeats_are_folded_and_like_rows_merged_unless_all_is_to_be_said() -> None:
    assert lines(rows_in_words(chart(TURN, ""))) == [
        "Rows 1 and 3 (RS): [k1 B, k3 A] 2 times. (8 sts)",
        "Rows 2 and 4 (WS): [p3 A, p1 B] 2 times. (8 sts)",
    ]
    starred = chart(["AAAB" * 3], "")
    assert lines(rows_in_words(starred)) == ["Row 1 (RS): *k1 B, k3 A; rep from * to end. (12 sts)"]
    assert lines(rows_in_words(starred, in_full=True)) == ["Row 1 (RS): k1 B, k3 A, k1 B, k3 A, k1 B, k3 A. (12 sts)"]
    assert lines(rows_in_words(chart(TURN, ""), in_full=True, first=2, last=3)) == [
        "Row 2 (WS): p3 A, p1 B, p3 A, p1 B. (8 sts)",
        "Row 3 (RS): k1 B, k3 A, k1 B, k3 A. (8 sts)",
    ]


def test_with_supplies_the_share_to_spare_is_that_of_the_reckoning() -> None:
    spare = replace(HOUSE_RECKONING, allowance=0.35)
    text = rows_in_words(chart(TURN, ""), supplies=spare, first=1, last=1)
    assert "Supplies, to wind, tails and 35% to spare included" in text.splitlines()
    assert lines(text) == ["Row 1 (RS): join B1, A1, B2 and A2; k1 B1, k3 A1, k1 B2, k3 A2. (8 sts)"]
    assert "Supplies" not in rows_in_words(chart(TURN, ""))


def test_pages_that_are_made_already_are_told_in_any_format() -> None:
    page = page_of(chart(TURN, ""), style_of("british", in_full=True), None, 1, 2)
    text = pages_in_words([page], "Two", "text")
    assert text.splitlines()[3] == "Tension: 22 sts and 30 rows to 10 cm"
    assert len(lines(text)) == 2
    assert pages_in_words([page], "Two", "markdown").startswith("# Yoke\n")
    assert pages_in_words([page], "Two", "html").startswith('<!doctype html>\n<html lang="en">\n')


def test_a_document_as_plain_text() -> None:
    page = rows_page(chart(["AAB"], ""))
    before = DocumentPart("Notions", (("Buttons", "3, 12 mm"), ("Zip\x1b", "")))
    whole = whole_text("Cosy", [before], [page, page], [DocumentPart("Making up", (("", "Weave in"),))])
    rows = "Yoke\n====\n" + whole.partition("Yoke\n====\n")[2].partition("\nYoke\n====\n")[0]
    assert whole == (
        "Cosy\n####\n\n"
        "Notions\n-------\n  Buttons  3, 12 mm\n  Zip\ufffd\n\n"
        f"{rows}\n{rows}\n"
        "Making up\n---------\n    Weave in\n"
    )
    assert rows.endswith("\n\nRow 1 (RS): k1 B, k2 A. (3 sts)\n")


def test_columns_are_as_wide_as_their_widest_entry() -> None:
    assert columns([("A", "Shore"), ("B12", "Pebble, grey")]) == ["  A    Shore", "  B12  Pebble, grey"]
    assert columns((("A1", "Shore", "on the ball"),)) == ["  A1  Shore, on the ball"]
    assert columns([]) == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("12. A row", "12\\. A row"),
        ("3) A row", "3\\) A row"),
        ("12.5 cm", "12.5 cm"),
        ("- 2 sts", "\\- 2 sts"),
        ("= 5 sts", "\\= 5 sts"),
        ("   4 sts *", "4 sts \\*"),
        ("k3, 2. k1", "k3, 2. k1"),
    ],
)
def test_a_paragraph_is_no_list_of_markdown(text: str, said: str) -> None:
    assert paragraph(text) == said


def test_only_what_the_rows_use_is_explained() -> None:
    rows = rows_page(chart(["AAB", "AAB"], ""), first=1, last=1).rows
    assert dict(abbreviations_of(rows)) == {"k": "knit", "RS": "right side", "sts": "stitches"}
    purled = chart(["AAB"], "worked: round\nstitches: |\n  .p.\n")
    assert dict(abbreviations_of(rows_page(purled).rows)) == {"k": "knit", "p": "purl", "sts": "stitches"}


def test_the_inside_of_a_page_of_html() -> None:
    page = replace(
        rows_page(chart(["AA"], "")),
        supplies=(("A1", "Shore & sand", "on the ball, 3 m"),),
        abbreviations=(("k", "knit"), ("sts", "stitches")),
        sewn=(("B", "row 1, stitch 2"),),
        reading=("Worked flat.", "RS < WS."),
    )
    assert rows_body(page, depth=3) == (
        "<p>Gauge: 22 sts and 30 rows to 10 cm</p>\n"
        "<p>Worked flat. RS &lt; WS.</p>\n"
        '<h3>Key</h3><dl class="key"><dt><span class="shade" style="background:#c8b89a"></span>A</dt>'
        "<dd>Shore</dd></dl>\n"
        "<h3>Supplies, to wind, tails and 10% to spare included</h3>"
        '<dl class="key"><dt>A1</dt><dd>Shore &amp; sand, on the ball, 3 m</dd></dl>\n'
        "<h3>Abbreviations</h3><p><b>k</b> knit; <b>sts</b> stitches</p>\n"
        "<h3>Duplicate stitch, when the piece is finished</h3>"
        '<dl class="key"><dt>B</dt><dd>row 1, stitch 2</dd></dl>\n'
        '<h3>Rows</h3><ol class="rows"><li><b>Row 1 (RS):</b> k2 A. (2 sts)</li></ol>'
    )


@pytest.mark.parametrize(
    ("symbol", "supply", "written"),
    [
        ("A", None, "A"),
        ("A", 2, "A2"),
        ("k", None, '"k"'),
        ("K", None, "K"),
        ("K", 1, '"K1"'),
        ("P", 2, '"P2"'),
        ("x", None, '"x"'),
        ("7", None, '"7"'),
        ("7", 1, '"7a"'),
        ('"', None, "'\"'"),
        ("é", 3, "é3"),
    ],
)
def test_a_symbol_that_could_be_taken_for_a_stitch_is_quoted(symbol: str, supply: int | None, written: str) -> None:
    assert written_yarn(ColourSupply(symbol, supply)) == written


def test_knit_and_purl_part_a_stretch_of_one_colour() -> None:
    """Row 2 is worked from the left, where what shows a purl is knitted."""
    texture = "stitches: |\n  ..pp.\n  .pp..\n"
    assert lines(rows_in_words(chart(["ABBBB", "AABBB"], texture))) == [
        "Row 1 (RS): k2 B, p2 B, k1 A. (5 sts)",
        "Row 2 (WS): p2 A, k2 B, p1 B. (5 sts)",
    ]


@pytest.mark.parametrize(
    ("at", "shown"),
    [
        (0, "k2 A, k3 B, k1 A, k1 B …"),
        (4, "k2 A, k3 B, k1 A, k1 B, k2 A …"),
        (9, "… k1 B, k2 A, k4 B, k1 A"),
        (13, "… k2 A, k4 B, k1 A"),
        (40, "… k2 A, k4 B, k1 A"),  # words that are longer than the row
    ],
)
def test_what_stands_around_a_stitch(at: int, shown: str) -> None:
    assert around("AABBBABAABBBBA", at, "k") == shown
    assert around("", at, "k") == "nothing"


def test_knit_and_purl_of_a_row_that_is_narrower_than_the_one_below() -> None:
    texture = "shaping: {2: {left: -2}}\nstitches: |\n  ..p.p\n  .....\n"
    narrow = chart(["AAAAA", "..AAA"], texture)
    assert lines(rows_in_words(narrow))[1] == "Row 2 (WS): p2tog A, p2tog A, k1 A. (3 sts)"


def test_what_is_sewn_is_one_stitch_or_several() -> None:
    sewn = "duplicate-stitch:\n  - {colour: B, row: 1, stitches: [2, 4]}\n  - {colour: A, row: 2, stitches: [5, 5]}\n"
    assert list(sewn_lines(chart(["AAAAA", "AAABA"], sewn), 1, 2)) == [
        ("A", "row 2, stitch 5"),
        ("B", "row 1, stitches 2–4"),
    ]


def agreeing(made: Chart) -> list[bool]:
    return [row.agrees for row in read_written(made)]


SIZED = ["AAAABBB", "AAABBBB"]


@pytest.mark.parametrize(
    ("second", "agree"),
    [
        ("p2 (3, 4) A, p3 (4, 5) B", [True, True]),
        ("p2 (3, 4) A, p3 (5, 6) B", [True, False]),
        ("p3 A, p4 B", [True, True]),
        ("p2 (3) A, p3 (4) B", [True, True]),
    ],
)
def test_of_several_sizes_the_one_that_most_rows_agree_with(second: str, agree: list[bool]) -> None:
    """Three B and four A are those of the second size."""
    words = f"written: {{1: 'k2 (3, 4) B, k3 (4, 5) A', 2: '{second}'}}"
    assert agreeing(chart(SIZED, words)) == agree


def test_of_sizes_that_agree_alike_the_smallest() -> None:
    assert agreeing(chart(["AAABB"], "written: {1: 'k2 (2, 3) B, k3 (3, 4) A'}")) == [True]
    (row,) = read_written(chart(["AAABB"], "written: {1: 'k4 (5, 6) B, k4 (5, 6) A'}"))
    assert row.symbols == "BBBBAAAA"


NARROWER = ["A" * 9, ".AAAAAAA.", "..AAAAA..", "...AAA..."]
SHAPED = "shaping: {2: {right: -1, left: -1}, 3: {right: -1, left: -1}, 4: {right: -1, left: -1}}\n"


def test_a_count_behind_words_for_several_rows_is_that_of_the_last() -> None:
    words = "written: {1: k9 A, 2-4: 'Dec 1 st at each end of next 3 rows, work in A. (%s sts)'}"
    assert agreeing(chart(NARROWER, SHAPED + words % 3)) == [True, True, True, True]
    assert agreeing(chart(NARROWER, SHAPED + words % 4)) == [True, True, True, False]
