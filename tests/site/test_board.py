"""The board of a pattern's page, and what was said laid over the charts, where it belongs; nothing that a log hides."""

import re
import subprocess
from pathlib import Path

import pytest
from lxml import html

from lintarsia.cli.main import main
from lintarsia.engine.naming import logs_beside
from lintarsia.engine.targets import find_targets
from lintarsia.ground.kinds import Kind
from lintarsia.publishing.pages.said import Said, Spot
from lintarsia.publishing.site.hearing import said_in
from lintarsia.settings import SettingsFinder

HEAD = """\
lintarsia: 1
title: Fox
gauge: {stitches: 20, rows: 28, over: 10 cm}
yarns:
  oat: {name: Oat, length: 120 m, mass: 50 g}
colours:
  O: {name: Oat, shade: "#f0e7d4", yarn: oat}
  R: {name: Rust, shade: "#a3502c", yarn: oat}
chart: |
"""
ROWS = ["O" * (2 + k % 5) + "R" * 3 + "O" * (7 - k % 5) for k in range(20)]  # row 1 first, 12 stitches
PATTERN = """\
lintarsia-pattern: 1
title: Fox cushion
test-knit: {until: 2026-12-15}
sizes: [small, large, giant]
pieces:
  front: {chart: fox.chart.yaml, plain: O, cast-on: 32, rows: 60, at: {stitch: 6, row: 11}}
  back: {chart: fox.chart.yaml, plain: O, cast-on: 32, rows: 60, at: {stitch: 6, row: 11}, mirror-of: front}
"""
WREN = """\
lintarsia-knit: 1
pattern: ../fox.pattern.yaml
size: small
knitter: "<b>Wren</b>"
gauge: {stitches: 21, rows: 27.5, over: 10 cm}
used: {oat: 90 m}
hours: 9.5
finished: 2026-11-05
rows:
  - {piece: front, row: 24, stitches: [8, 10], kind: trouble, said: "<script>alert(1)</script> too short"}
  - {piece: front, row: 2, kind: question, said: "which edge?", answered: "the left one"}
"""
FINCH = """\
lintarsia-knit: 1
chart: ../fox.chart.yaml
knitter: Finch
rows:
  - {row: 14, stitches: [7, 7], kind: trouble, said: "the yarns would not lie flat"}
"""


def chart(rows: list[str]) -> str:
    return HEAD + "".join(f"  {row}\n" for row in reversed(rows))


@pytest.fixture
def group(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A pattern, its chart, and logs: Wren's of a small one, one of Finch's of the chart, and one to be left out."""
    (tmp_path / "knits").mkdir()
    (tmp_path / ".git").mkdir()
    (tmp_path / "fox.chart.yaml").write_text(chart(ROWS), encoding="utf-8")
    (tmp_path / "fox.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    (tmp_path / "knits/wren.knit.yaml").write_text(WREN, encoding="utf-8")
    (tmp_path / "knits/finch.knit.yaml").write_text(FINCH, encoding="utf-8")
    hidden = WREN.replace("<b>Wren</b>", "Plover").replace("too short", "hidden") + "site: false\n"
    (tmp_path / "knits/plover.knit.yaml").write_text(hidden, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def page(group: Path, name: str) -> str:
    assert main(["site", ".", "-o", "out"]) in (0, 1)
    (made,) = (group / "out").rglob(f"{name}.html")
    return made.read_text("utf-8")


def heard() -> list[Said]:
    finder = SettingsFinder()
    return list(said_in(logs_beside(find_targets(["."], finder, (Kind.CHART,)), finder)))


def placed(words: str) -> tuple[Spot | None, Spot | None]:
    (one,) = [said for said in heard() if words in said.words]
    return one.spot, one.spot_in_chart


def test_sizes_and_who_has_taken_them(group: Path) -> None:
    made = page(group, "fox-pattern")
    text = " ".join(re.sub(r"<[^>]+>", " ", made).split())
    assert "1 test knit, 1 finished; 2 remarks without an answer. Logs are wanted by 2026-12-15" in text
    assert "Nobody has taken large and giant yet." in text
    assert "finished 2026-11-05 not known 21 × 27.5 to 10 cm oat " in text
    rows = html.fromstring(made.encode()).xpath("//table[@class='matrix']/tbody/tr")
    assert [[" ".join(cell.text_content().split()) for cell in row] for row in rows] == [
        ["small", "1 of 1 finished", "earlier state"],
        ["large", "nobody has taken it", ""],
        ["giant", "nobody has taken it", ""],
    ]
    assert "Plover" not in made
    assert "hidden" not in re.sub(r'(?:aria-)?hidden(?:="[^"]*")?', "", made)


def test_what_was_said_is_told_by_place_escaped_and_leads_to_its_stitches(group: Path) -> None:
    made = page(group, "fox-pattern")
    assert "“&lt;script&gt;alert(1)&lt;/script&gt; too short”" in made
    assert "<script>alert" not in made
    assert "<b>Wren" not in made
    items = html.fromstring(made.encode()).xpath("//li[contains(@class, 'said ')]")
    told = [(item.xpath("string(.//*[self::a or self::b])"), item.xpath("string(.//a/@href)")) for item in items]
    assert told == [
        ("Fox, row 14, stitch 7", "fox.html#row-14-s7"),
        ("front, row 2", "fox-pattern/front.html#row-2"),
        ("front, row 24, stitches 8–10", "fox-pattern/front.html#row-24-s8-10"),
    ]
    assert "Answered: the left one" in made


def test_a_chart_has_what_was_said_of_it_and_of_pieces_made_from_it(group: Path) -> None:
    made = html.fromstring(page(group, "fox").encode())
    items = made.xpath("//li[contains(@class, 'said ')]")
    assert [item.get("id") for item in items] == ["said-0", "said-1"]
    assert [item.xpath("string(.//a/@data-spot)") for item in items] == ["#row-14-s3-5", "#row-14-s7"]
    assert [item.xpath("string(.//a/@href)") for item in items] == ["#c-said-0", "#c-said-1"]
    marks = made.xpath("//a[@class='lx-said']")
    assert [(mark.get("id"), mark.get("href")) for mark in marks] == [("c-said-0", "#said-0"), ("c-said-1", "#said-1")]
    wide = [float(mark.xpath("string(.//rect/@width)")) for mark in marks]
    assert 2 * wide[1] < wide[0] < 3 * wide[1]  # three stitches and one, each with a rim


@pytest.mark.parametrize(
    ("piece", "row", "stitches", "in_chart"),
    [
        ("front", 11, (6, 6), Spot(1, (1, 1))),  # `at` says which stitch and row of the piece the chart's first are
        ("front", 30, (17, 17), Spot(20, (12, 12))),
        ("front", 24, (1, 9), Spot(14, (1, 4))),  # five of them are plain knitting beside it
        ("front", 24, (1, 3), None),
        ("front", 31, (8, 8), None),
        ("front", 24, None, Spot(14, None)),
        ("back", 24, (16, 16), Spot(14, (12, 12))),  # mirrored: of 32 stitches the 16th is the front's 17th
    ],
)
def test_where_a_place_of_a_piece_is_drawn(
    piece: str, row: int, stitches: tuple[int, int] | None, in_chart: Spot | None, group: Path
) -> None:
    which = "" if stitches is None else f"stitches: [{stitches[0]}, {stitches[1]}], "
    remark = f'  - {{piece: {piece}, row: {row}, {which}kind: praise, said: "here"}}\n'
    (group / "knits/wren.knit.yaml").write_text(WREN + remark, encoding="utf-8")
    assert placed("here")[1] == in_chart


def test_a_place_moves_along_with_its_row(group: Path) -> None:
    """Two rows are put in below and one stitch changes: what was said of row 14 is of row 16, and of which state it
    was is told; of a row that is gone only the words are left."""
    git = ["git", "-c", "user.name=W", "-c", "user.email=w@example.org", "-c", "init.defaultBranch=main"]
    (group / ".git").rmdir()
    subprocess.run([*git, "init", "-q"], check=True)
    was = next(said for said in heard() if "flat" in said.words)
    assert was.earlier == ""
    from lintarsia.chart.content import chart_fingerprint
    from lintarsia.reading import read_chart

    found = read_chart("fox.chart.yaml").chart
    assert found is not None
    more = '  - {row: 5, kind: praise, said: "gone"}\n'
    text = FINCH.replace("knitter:", f'fingerprint: "{chart_fingerprint(found)}"\nknitter:') + more
    (group / "knits/finch.knit.yaml").write_text(text, encoding="utf-8")
    subprocess.run([*git, "add", "."], check=True)
    subprocess.run([*git, "commit", "-qm", "call"], check=True)
    rows = [*ROWS[:4], *ROWS[5:7], "R" * 12, "RO" * 6, "OR" * 6, *ROWS[7:]]
    (group / "fox.chart.yaml").write_text(chart(rows), encoding="utf-8")
    assert placed("flat") == (Spot(16, (7, 7)), Spot(16, (7, 7)))
    assert placed("gone") == (None, None)
    assert all(said.earlier for said in heard() if said.knitter == "Finch")


def test_trouble_of_a_chart_blocks_its_pattern_until_it_is_answered(
    group: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (group / "knits/wren.knit.yaml").unlink()
    (group / "knits/plover.knit.yaml").unlink()
    main(["release", "fox.pattern.yaml"])
    told = " ".join(capsys.readouterr().out.split())
    assert "error knit/open-remark" in told
    assert "row 14, stitch 7: Finch says “the yarns would not lie flat”, and has no answer" in told
    file = group / "knits/finch.knit.yaml"
    file.write_text(file.read_text("utf-8").replace('flat"', 'flat", answered: "row 14 has a twist more"'))
    main(["release", "fox.pattern.yaml"])
    told = " ".join(capsys.readouterr().out.split())
    assert "knit/open-remark" not in told
    assert "[x] All trouble and all questions of the test knitters are answered." in told


@pytest.mark.slow
def test_a_flood_of_remarks_is_not_all_listed_and_what_is_open_comes_first(group: Path) -> None:
    rows = "".join(f'  - {{row: {1 + k % 20}, kind: praise, said: "lovely {k}"}}\n' for k in range(900))
    (group / "knits/finch.knit.yaml").write_text(FINCH + rows, encoding="utf-8")
    for name in ("fox-pattern", "fox"):
        made = html.fromstring(page(group, name).encode())
        told = [item.text_content() for item in made.xpath("//li[contains(@class, 'said ')]")]
        assert len(told) == 200
        assert sum("would not lie flat" in words for words in told) == 1
    assert "703 remarks more in the logs." in (group / "out/charts/fox-pattern.html").read_text("utf-8")


def test_a_day_that_is_none(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (group / "fox.pattern.yaml").write_text(PATTERN.replace("2026-12-15", "2026-02-30"), encoding="utf-8")
    assert main(["check", "fox.pattern.yaml"]) == 1
    assert "2026-02-30 is no day of the calendar" in capsys.readouterr().out
