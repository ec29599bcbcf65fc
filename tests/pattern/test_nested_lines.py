"""Pages of several sizes in one: what is read for one size out of it is that size's own page, word for word."""

import re
from pathlib import Path

import pytest
from test_pieces_by_hand import chart_file, pattern

from lintarsia.pattern.choosing import choose
from lintarsia.pattern.nestedlines import nested_lines
from lintarsia.pattern.stitchpage import in_its_stitch
from lintarsia.written.page import RowsPage, rows_page
from lintarsia.written.style import HOUSE_STYLE

SIZES = ["s", "m", "l"]
NESTED = re.compile(r"(\d[\d,]*) \((\d[\d,]*(?:, \d[\d,]*)*)\)")


def of_size(text: str, at: int) -> str:
    """A nested text as the knitter of one size reads it: `66 (72, 78) sts` is `78 sts` for the third."""
    return NESTED.sub(lambda found: [found[1], *found[2].split(", ")][at], text)


def pages(folder: Path, text: str, chart: str) -> list[RowsPage]:
    work = pattern(folder, text, f=chart)
    return [
        in_its_stitch(rows_page(one.chart, style=HOUSE_STYLE), one, HOUSE_STYLE) for one in choose(work, "piece", None)
    ]


@pytest.mark.parametrize(
    ("piece", "chart"),
    [
        (
            "{colour: B, stitch: 'k2, p2 rib', worked: round, cast-on: {s: 12, m: 16, l: 200}, "
            "rows: {s: 5, m: 5, l: 7}}",
            "",
        ),
        (
            "{chart: f.chart.yaml, repeats: {s: 3, m: 4, l: 6}}",
            "worked: round\ntechnique: stranded\nshaping: {2: -2}\n",
        ),
        (
            "{colour: B, cast-on: {s: 20, m: 24, l: 30}, rows: {s: 9, m: 9, l: 9}, shaping: {s: {5: {right: -3}, "
            "6: {left: -3}}, m: {5: {right: -4}, 6: {left: -4}}, l: {5: {right: -5}, 6: {left: -5}}}}",
            "",
        ),
    ],
)
def test_each_size_reads_its_own_page(tmp_path: Path, piece: str, chart: str) -> None:
    text = f"sizes: [s, m, l]\npieces:\n  piece: {piece}\n  other: {{chart: f.chart.yaml}}\n"
    own = pages(tmp_path, text, chart_file(".WBBB. BBWBBB" if chart else "BWB BBB", chart))
    made = nested_lines(own, SIZES, "Hat")
    assert made is not None
    assert made.reading[0] == "Sizes: s (m, l). One number is for all sizes."
    for at, page in enumerate(own):
        told = [(of_size(row.label, at), of_size(row.text, at)) for row in made.rows]
        assert told == [(row.label, row.text) for row in page.rows]
        assert [of_size(line, at) for line in made.reading[1:]] == list(page.reading)


def test_sizes_that_differ_in_more_than_numbers_are_left_apart(tmp_path: Path) -> None:
    """The medium size binds off at the other edge first."""
    text = """\
sizes: [s, m]
pieces:
  piece: {colour: B, cast-on: {s: 20, m: 24}, rows: 9, shaping: {s: {5: {right: -3}}, m: {6: {left: -3}}}}
  other: {chart: f.chart.yaml}
"""
    assert nested_lines(pages(tmp_path, text, chart_file("BWB BBB")), SIZES[:2], "Back") is None


def test_a_crown_explains_every_abbreviation(tmp_path: Path) -> None:
    """Where wedges meet in a round three stitches become one."""
    chart = chart_file(".WBBB. BBWBBB", "worked: round\ntechnique: stranded\nshaping: {2: {left: -1, right: -1}}\n")
    text = "sizes: [s, m]\npieces:\n  piece: {chart: f.chart.yaml, repeats: {s: 3, m: 4}}\n"
    own = pages(tmp_path, text, chart)
    words = " ".join(row.words for row in own[0].rows)
    used = set(re.findall(r"[kp]\d+tog|ssk", words))
    assert "k3tog" in used
    assert used <= {short for short, _ in own[0].abbreviations}
    assert ("k3tog", "knit 3 together") in own[0].abbreviations


def test_numbers_within_words_stay_as_they_are(tmp_path: Path) -> None:
    text = """\
sizes: [s, m]
pieces:
  piece: {colour: B, stitch: "k2, p2 rib", cast-on: {s: 8, m: 12}, rows: 2}
  other: {chart: f.chart.yaml}
"""
    made = nested_lines(pages(tmp_path, text, chart_file("BWB BBB")), SIZES[:2], "Rib")
    assert made is not None
    assert [f"{row.label}: {row.text}" for row in made.rows] == [
        "Row 1 (RS): work in k2, p2 rib. (8 (12) sts)",
        "Row 2 (WS): work in k2, p2 rib. (8 (12) sts)",
    ]
