"""A page of rows in words, whole: every part of it at its place, in plain text, in Markdown and as HTML."""

from dataclasses import replace

import pytest
from lxml import html

from lintarsia.chart import Chart
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.telling.terms import Terms
from lintarsia.written import Style
from lintarsia.written.formats import FORMATS, rows_body, rows_html, rows_markdown, rows_text
from lintarsia.written.page import RowsPage, abbreviations_of, rows_page

KITE = """\
lintarsia: 1
title: Kite & <tail>
worked: flat
gauge: {stitches: 22.5, rows: 30, over: 10 cm, needle: 4 mm}
yarns: {w: {name: Plain, length: 120 m, mass: 50 g}}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: w}
  W: {name: Bone_, shade: "#efe9dc", yarn: w}
  "7": {name: Moss, shade: "#5b7443", yarn: w}
  R: {name: Rust, shade: "#a33b2a", yarn: w}
repeat: {stitches: [2, 5], rows: [1, 3]}
duplicate-stitch:
  - {colour: R, row: 3, stitches: [2, 4]}
  - {colour: R, row: 3, stitches: [7, 7]}
  - {colour: W, row: 2, stitches: [9, 9]}
shaping: {4: {right: -1}, 5: {right: {bind-off: 3}}}
chart: |
  BBBBBB7....
  BBBBWWBBB7.
  BBBWWWWBBBB
  BBBWWBBBBBB
  BBBBBBBBBBB
"""


def chart(text: str = KITE) -> Chart:
    reading = read_chart("kite.chart.yaml", text.encode())
    assert reading.chart is not None
    assert reading.problems == ()
    return reading.chart


def page(text: str = KITE) -> RowsPage:
    """With a plan whose lengths are no business of the page."""
    made = rows_page(chart(text), plan=make_plan(chart(text)))
    return replace(made, supplies=tuple((n, c, f"{w.split(',')[0]}, 1 m") for n, c, w in made.supplies))


TEXT = """\
Kite & <tail>
=============

Gauge: 22.5 sts and 30 rows to 10 cm on 4 mm needles
Worked back and forth; row 1 is a right-side row (RS).
RS rows are knitted, right to left on the chart; WS rows are purled, left to right.
The count in brackets is of the stitches after the row.
A shaped row that says BO counts the stitch then left on the needle with those that follow.
The repeat is stitches 2–5 of rows 1–3.

Key
  B    Dusk blue
  W    Bone_
  "7"  Moss
  R    Rust

Supplies, to wind, tails and 10% to spare included
  B1    Dusk blue, on the ball, 1 m
  W1    Bone_, on the ball, 1 m
  B2    Dusk blue, loose strand, 1 m
  "7a"  Moss, on the ball, 1 m

Abbreviations
  beg  beginning
  BO   bind off
  k    knit
  p    purl
  RS   right side
  ssp  slip, slip, purl (leans left on the right side)
  sts  stitches
  WS   wrong side

Duplicate stitch, when the piece is finished
  W  row 2, stitch 9
  R  row 3, stitches 2–4 and 7

Row 1 (RS): join B1; k11 B1. (11 sts)
Row 2 (WS): join W1 and B2; p3 B1, p2 W1, p6 B2. (11 sts)
Row 3 (RS): k4 B2, k4 W1, k3 B1. (11 sts)
Row 4 (WS): join "7a"; p4 B1, p2 W1, p3 B2, ssp "7a". (10 sts) Cut W1 and B2.
Row 5 (RS): BO 3 sts at beg (right edge); k1 "7a", k6 B1. (7 sts) Cut "7a" and B1.
"""
MARKDOWN = """\
# Kite \\& \\<tail\\>

Gauge: 22.5 sts and 30 rows to 10 cm on 4 mm needles

Worked back and forth; row 1 is a right-side row (RS). RS rows are knitted, right to left on the chart; WS rows are \
purled, left to right. The count in brackets is of the stitches after the row. A shaped row that says BO counts the \
stitch then left on the needle with those that follow. The repeat is stitches 2–5 of rows 1–3.

## Key

- **B**: Dusk blue
- **W**: Bone\\_
- **"7"**: Moss
- **R**: Rust

## Supplies, to wind, tails and 10% to spare included

- **B1**: Dusk blue, on the ball, 1 m
- **W1**: Bone\\_, on the ball, 1 m
- **B2**: Dusk blue, loose strand, 1 m
- **"7a"**: Moss, on the ball, 1 m

## Abbreviations

beg beginning; BO bind off; k knit; p purl; RS right side; ssp slip, slip, purl (leans left on the right side); \
sts stitches; WS wrong side

## Duplicate stitch, when the piece is finished

- **W**: row 2, stitch 9
- **R**: row 3, stitches 2–4 and 7

## Rows

- **Row 1 (RS):** join B1; k11 B1. (11 sts)
- **Row 2 (WS):** join W1 and B2; p3 B1, p2 W1, p6 B2. (11 sts)
- **Row 3 (RS):** k4 B2, k4 W1, k3 B1. (11 sts)
- **Row 4 (WS):** join "7a"; p4 B1, p2 W1, p3 B2, ssp "7a". (10 sts) Cut W1 and B2.
- **Row 5 (RS):** BO 3 sts at beg (right edge); k1 "7a", k6 B1. (7 sts) Cut "7a" and B1.
"""


def test_in_plain_text() -> None:
    assert rows_text(page()) == TEXT


def test_in_markdown() -> None:
    assert rows_markdown(page()) == MARKDOWN
    deeper = rows_markdown(page(), depth=3)
    assert [line for line in deeper.splitlines() if line.startswith("#")][:2] == ["### Kite \\& \\<tail\\>", "#### Key"]


def test_as_html() -> None:
    inside = html.fragment_fromstring(rows_body(page()), create_parent="div")
    first, second = inside.xpath("p")[:2]
    assert first.text_content() == "Gauge: 22.5 sts and 30 rows to 10 cm on 4 mm needles"
    assert second.text_content() == " ".join(TEXT.splitlines()[4:9])
    assert [h.text for h in inside.iter("h2")] == [
        "Key", "Supplies, to wind, tails and 10% to spare included", "Abbreviations",
        "Duplicate stitch, when the piece is finished", "Rows",
    ]  # fmt: skip
    lists = [
        [(dt.text_content(), dt.getnext().text) for dt in dl.iter("dt")] for dl in inside.xpath("dl[@class='key']")
    ]
    assert lists == [
        [("B", "Dusk blue"), ("W", "Bone_"), ('"7"', "Moss"), ("R", "Rust")],
        [("B1", "Dusk blue, on the ball, 1 m"), ("W1", "Bone_, on the ball, 1 m"),
         ("B2", "Dusk blue, loose strand, 1 m"), ('"7a"', "Moss, on the ball, 1 m")],
        [("W", "row 2, stitch 9"), ("R", "row 3, stitches 2–4 and 7")],
    ]  # fmt: skip
    shades = [span.get("style") for span in inside.xpath("//span[@class='shade']")]
    assert shades == ["background:#27406b", "background:#efe9dc", "background:#5b7443", "background:#a33b2a"]
    (short,) = [p for p in inside.xpath("p") if p.xpath("b")]
    assert short.text_content() == MARKDOWN.partition("## Abbreviations\n\n")[2].partition("\n")[0]
    assert [b.text for b in short] == ["beg", "BO", "k", "p", "RS", "ssp", "sts", "WS"]
    rows = [item.text_content() for item in inside.xpath("ol[@class='rows']/li")]
    assert rows == TEXT.splitlines()[-5:]
    assert [b.text for b in inside.xpath("ol/li/b")][:2] == ["Row 1 (RS):", "Row 2 (WS):"]


def test_headings_go_along_with_the_page_around() -> None:
    inside = html.fragment_fromstring(rows_body(page(), depth=4), create_parent="div")
    assert (len(inside.xpath("h4")), inside.xpath("h2")) == (5, [])


def test_what_there_is_none_of_has_no_heading() -> None:
    bare = replace(page(), supplies=(), abbreviations=(), sewn=())
    for text in (rows_text(bare), rows_markdown(bare), rows_body(bare)):
        assert "Key" in text
        assert not any(word in text for word in ("Supplies", "Abbreviations", "Duplicate stitch"))


def test_several_pages_in_one_file() -> None:
    other = replace(page(), title="Owl")
    file = html.document_fromstring(rows_html("Cushion", [page(), other]))
    assert [e.text for e in file.iter("title", "h1")] == ["Cushion", "Kite & <tail>", "Owl"]
    alone = html.document_fromstring(rows_html("Cushion", [other]))
    assert [e.text for e in alone.iter("title", "h1")] == ["Owl", "Owl"]
    assert FORMATS["text"]("Cushion", [page(), other]) == f"{TEXT}\n{rows_text(other)}"
    assert FORMATS["markdown"]("Cushion", [page(), other]) == f"{MARKDOWN}\n{rows_markdown(other)}"


def test_nothing_of_the_file_speaks_to_a_terminal_or_a_browser() -> None:
    hostile = replace(page(), title="\x1b[2J<b>")
    assert rows_text(hostile).startswith("\ufffd[2J<b>\n")
    assert "\x1b" not in rows_markdown(hostile) + rows_html("", [hostile])
    assert "<b>" not in rows_html("", [replace(hostile, rows=(), abbreviations=())])


def test_a_part_of_the_rows_has_its_part_of_the_key() -> None:
    """Embroidered colours count; rust is in row 3 alone."""
    top = rows_page(chart(), first=4)
    assert [symbol for symbol, *_ in top.key] == ["B", "W", '"7"']
    assert top.sewn == ()
    low = rows_page(chart(), last=3)
    assert [symbol for symbol, *_ in low.key] == ["B", "W", "R"]
    assert [row.label for row in low.rows] == ["Row 1 (RS)", "Row 2 (WS)", "Row 3 (RS)"]
    assert rows_page(chart(), first=2, last=2).sewn == (("W", "row 2, stitch 9"),)


def test_a_part_of_the_rows_has_its_part_of_the_supplies() -> None:
    plan = make_plan(chart())
    assert [name for name, *_ in rows_page(chart(), plan=plan, last=1).supplies] == ["B1"]
    assert [name for name, *_ in rows_page(chart(), plan=plan, first=5).supplies] == ["B1", '"7a"']
    assert rows_page(chart()).supplies == ()


def test_supplies_are_as_long_as_what_is_to_spare_says() -> None:
    """To 5 cm below a metre, 10 cm above, rounded up, as they are measured off at a table."""
    plan = make_plan(chart())
    metres = {supply.id: supply.metres for supply in plan.supplies}
    made = rows_page(chart(), plan=plan, allowance=0.5)
    assert made.supplies_are == "to wind, tails and 50% to spare included"
    for name, _, what in made.supplies:
        number, unit = what.rpartition(", ")[2].split()
        length = float(number) / (100 if unit == "cm" else 1)
        wanted = 1.5 * metres[{'"7a"': "7a"}.get(name, name)]
        assert wanted <= length < wanted + (0.05 if unit == "cm" else 0.1) + 1e-9


READING = "The count in brackets is of the stitches after the row."


@pytest.mark.parametrize(
    ("old", "new", "reading"),
    [
        ("worked: flat", "worked: round", ["Worked in rounds, knitted throughout, right to left on the chart."]),
        ("worked: flat", "worked: turned\nfirst-row: WS",
         ["A tube, worked back and forth and joined at each turn; row 1 is a wrong-side row (WS).",
          "RS rows are knitted, right to left on the chart; WS rows are purled, left to right."]),
        ("worked: flat", "worked: flat\nfirst-row: WS",
         ["Worked back and forth; row 1 is a wrong-side row (WS).",
          "RS rows are knitted, right to left on the chart; WS rows are purled, left to right."]),
    ],
)  # fmt: skip
def test_how_to_read_it(old: str, new: str, reading: list[str]) -> None:
    plain = KITE.partition("repeat:")[0] + "chart: |\n  BBWB\n  BWWB\n  BBBB\n"
    count = READING.replace("row.", "round.") if "round" in new else READING
    assert list(rows_page(chart(plain.replace(old, new))).reading) == [*reading, count]


def test_a_repeat_in_rounds_is_of_rounds() -> None:
    ring = KITE.partition("repeat:")[0].replace("worked: flat", "worked: round")
    ring += "repeat: {stitches: [2, 3], rows: [1, 2]}\nchart: |\n  BWBWB\n  BWBWB\n  BBBBB\n"
    assert rows_page(chart(ring)).reading[-1] == "The repeat is stitches 2–3 of rounds 1–2."


def test_how_to_read_purls_and_openings_and_catches() -> None:
    plain = KITE.partition("repeat:")[0] + "chart: |\n  BBWB\n  BWWB\n  BBBB\n"
    textured = plain + "stitches: |\n  ....\n  .pp.\n  ....\n"
    assert rows_page(chart(textured)).reading[1] == (
        "RS rows are worked right to left on the chart, WS rows left to right; k and p are as you work them."
    )
    rounds = chart(textured.replace("worked: flat", "worked: round"))
    assert rows_page(rounds).reading[0] == (
        "Worked in rounds, knitted and purled as the words say, right to left on the chart."
    )
    slit = plain.replace("chart: |", "divide: {2: {by: nothing, sides: together, at: 1}}\nchart: |")
    assert rows_page(chart(slit)).reading[-2:] == (
        "The right and the left side of an opening are those of the chart, as the work's right side shows.",
        "Where both are worked together, the count is of both.",
    )
    caught = plain.replace("chart: |", "technique: stranded\ncaught: {every: 3 stitches}\nchart: |")
    (line,) = [line for line in rows_page(chart(caught)).reading if "3 stitches" in line]
    assert (line[0].isupper(), line[-1]) == (True, ".")


def test_tension_is_what_britain_says() -> None:
    british = rows_page(chart(), style=Style(terms=Terms.BRITISH))
    assert british.gauge_word == "Tension"
    assert rows_text(british).splitlines()[3].startswith("Tension: 22.5 sts")
    assert "cast off 3 sts at beg (right edge)" in rows_text(british)


def abbreviated(text: str) -> dict[str, str]:
    return dict(abbreviations_of(rows_page(chart(text)).rows))


def test_abbreviations_are_those_that_the_rows_use() -> None:
    plain = KITE.partition("repeat:")[0] + "chart: |\n  BBWB\n  BWWB\n  BBBB\n"
    flat = {"k": "knit", "p": "purl", "RS": "right side", "WS": "wrong side", "sts": "stitches"}
    assert abbreviated(plain) == flat
    rounds = abbreviated(plain.replace("worked: flat", "worked: round"))
    assert rounds == {"k": "knit", "sts": "stitches"}, "nothing is purled in rounds, and there are no sides"
    one_row = abbreviations_of(rows_page(chart(plain), first=2, last=2).rows)
    assert dict(one_row) == {"p": "purl", "WS": "wrong side", "sts": "stitches"}
    repeated = plain.partition("chart:")[0] + "chart: |\n  BWBWBWBWBWBB\n"
    assert abbreviated(repeated)["rep"] == "repeat"


def test_a_crown_s_decreases_are_explained() -> None:
    """Three stitches worked as one is no entry of the list: it is made as the row says it."""
    crown = KITE.partition("repeat:")[0].replace("worked: flat", "worked: round")
    crown += "shaping: {2: -4}\nchart: |\n  B..BB.B.B\n  BBBBBBBBB\n"
    told = abbreviated(crown)
    assert told["k2tog"] == "knit 2 together (leans right)"
    assert told["k3tog"] == "knit 3 together"
    assert list(told) == sorted(told, key=str.casefold)
