"""Sixty patterns with faults of all kinds, with settings of their own beside pattern or charts: what the overview and
the pattern's page say that blocks is what `release` says."""

import random
import re
from pathlib import Path

import pytest
from lxml import html

from lintarsia.cli.main import main
from lintarsia.engine.releasing import release_card

MANY = 60
CHART = """\
lintarsia: 1
title: {title}
gauge: {{stitches: 20, rows: 30, over: 10 cm}}
{limits}yarns:
  blue: {{name: Fjord, length: 3 m, mass: 1 g{balls}}}
colours:
  B: {{name: Dusk blue, shade: "#27406b", yarn: blue}}
  W: {{name: Bone, shade: "{shade}"}}
{unused}{suppress}chart: |
  {top}
  BBBBBB
  BBBBBB
"""
SETTINGS = (
    "",
    "block: warning\n",
    "block: note\n",
    "block: off\n",
    "rules: {colour/unused: error}\n",
    "rules: {supply/row-limit: off, grid/stitch-count: warning}\n",
    "limits: {supplies: 2}\n",
)


def chart(chance: random.Random, title: str) -> str:
    unused = chance.random() < 0.3
    return CHART.format(
        title=title,
        limits=chance.choice(["", "limits: {supplies: 4}\n", "limits: {supplies: 2}\n"]),
        balls=chance.choice(["", ", balls: 1", ", balls: 9"]),
        shade=chance.choice(["#efe9dc", "#28416c"]),
        unused='  R: {name: Rust, shade: "#a04020"}\n' if unused else "",
        suppress=chance.choice(["", 'suppress:\n  - {rule: colour/unused, justification: "later"}\n']),
        top=chance.choice(["BBWBBB", "BWBWBB", "BBWBB", "BBQBBB", "BWWWBB"]),
    )


def pattern(chance: random.Random, title: str) -> str:
    sizes = chance.choice(["{s: 1, l: 3}", "{s: 1}", "2", "{s: 1, l: 2}"])
    width = chance.choice(["", "    measures: {width: 3 cm}\n", "    measures: {width: {s: 3 cm}}\n"])
    other = chance.choice(["charts/b.chart.yaml", "charts/b.chart.yaml", "charts/missing.chart.yaml"])
    back = chance.choice(
        ["", "  back: {colour: B, cast-on: 6, rows: 4}\n", "  back: {colour: Q, cast-on: 6, rows: 4}\n"]
    )
    yarn = chance.choice(["", "yarns: {blue: {balls: 1}}\n", "yarns: {blue: {balls: {s: 90}}}\n"])
    return (
        f"lintarsia-pattern: 1\ntitle: {title}\nsizes: [s, l]\n{yarn}pieces:\n  side:\n    chart: charts/a.chart.yaml\n"
        f"    repeats: {sizes}\n{width}  other: {{chart: {other}}}\n{back}"
    )


@pytest.mark.slow
def test_overview_page_and_release_agree(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for number in range(MANY):
        chance = random.Random(number)
        folder = Path(f"case{number:02}")
        (folder / "charts").mkdir(parents=True)
        for name in "ab":
            (folder / "charts" / f"{name}.chart.yaml").write_text(chart(chance, f"{name} {number}"), "utf-8")
        (folder / "p.pattern.yaml").write_text(pattern(chance, f"Case {number:02}"), "utf-8")
        for below in (folder, folder / "charts"):
            if settings := chance.choice(SETTINGS):
                (below / "lintarsia.yaml").write_text(settings, "utf-8")
    main(["site", ".", "-o", "made"])
    overview = html.fromstring(Path("made/index.html").read_bytes())
    told = {item.xpath("string(.//*[contains(text(), 'Case ')])").strip()[:7]: item for item in overview.xpath(WALL)}
    blocking = []
    for number in range(MANY):
        card = release_card(f"case{number:02}/p.pattern.yaml")
        item = told[f"Case {number:02}"]
        page = html.fromstring(Path("made", item.xpath("string(.//a/@href)")).read_bytes())
        verdict = page.xpath("//header//p[contains(@class, 'state')]")[0].text_content()
        found = [(r.file, r.rule, r.message) for r in card.blocking]
        assert (blocks(item.text_content()), blocks(verdict)) == (len(card.blocking),) * 2, (number, found)
        blocking.append(len(card.blocking))
    assert 0 in blocking
    assert max(blocking) > 4


WALL = "//*[@data-part='wall']/li[contains(., 'Case ')]"


def blocks(text: str) -> int:
    found = re.search(r"(\d+) results? blocks? release", text)
    return int(found[1]) if found else 0
