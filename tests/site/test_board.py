"""The board of a pattern's page: sizes and who has taken them, what was said by row; nothing that a log hides."""

import re
from pathlib import Path

import pytest

from lintarsia.cli.main import main

CHART = (
    """\
lintarsia: 1
title: Fox
gauge: {stitches: 20, rows: 28, over: 10 cm}
yarns:
  oat: {name: Oat, length: 120 m, mass: 50 g}
colours:
  O: {name: Oat, shade: "#f0e7d4", yarn: oat}
chart: |
"""
    + "  OOOOOOOOOO\n" * 20
)
PATTERN = """\
lintarsia-pattern: 1
title: Fox cushion
sizes: [small, large]
pieces:
  front: {chart: fox.chart.yaml, plain: O, cast-on: {small: 10, large: 30}, rows: {small: 20, large: 60}}
"""
WREN = """\
lintarsia-knit: 1
pattern: ../fox.pattern.yaml
size: small
knitter: "<b>Wren</b>"
gauge: {stitches: 21, rows: 27.5, over: 10 cm}
used: {oat: 9 m}
finished: 2026-11-05
rows:
  - {piece: front, row: 14, stitches: [7, 9], kind: trouble, said: "<script>alert(1)</script> too short"}
  - {piece: front, row: 2, kind: question, said: "which edge?", answered: "the left one"}
"""


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """The pattern's page; Finch's log, also of a small one, is to be left out."""
    (tmp_path / "knits").mkdir()
    (tmp_path / ".git").mkdir()
    (tmp_path / "fox.chart.yaml").write_text(CHART, encoding="utf-8")
    (tmp_path / "fox.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    (tmp_path / "knits/wren.knit.yaml").write_text(WREN, encoding="utf-8")
    hidden = WREN.replace("<b>Wren</b>", "Finch") + "site: false\n"
    (tmp_path / "knits/finch.knit.yaml").write_text(hidden, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert main(["site", ".", "-o", "out"]) in (0, 1)
    (made,) = (tmp_path / "out").rglob("fox-pattern.html")
    return made.read_text("utf-8")


def test_sizes_and_who_has_taken_them(page: str) -> None:
    text = " ".join(re.sub(r"<[^>]+>", " ", page).split())
    assert "1 test knit, 1 finished; 1 remark without an answer. Nobody has taken large." in text
    assert "finished 2026-11-05 not known 21 × 27.5 to 10 cm oat " in text
    assert "large nobody has taken it" in text
    assert "Finch" not in page


def test_what_was_said_is_told_by_row_and_escaped(page: str) -> None:
    assert "front, row 14, stitches 7–9: “&lt;script&gt;alert(1)&lt;/script&gt; too short” (&lt;b&gt;Wren" in page
    assert "<script>alert" not in page
    assert "<b>Wren" not in page
    assert page.index("front, row 2:") < page.index("front, row 14")
    assert "Answered: the left one" in page
