"""What blocks a chart blocks its pattern: on its page, on the overview and in `release` alike."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from lxml import html

from lintarsia.cli.main import main

CHART = """\
lintarsia: 1
title: Panel
gauge: {stitches: 20, rows: 30, over: 10 cm}
LIMITcolours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  BBWBBB
  BBBBBB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Cushion
sizes: [small, large]
pieces:
  side: {chart: panel.chart.yaml, repeats: {small: 1, large: 2}}
  back: {chart: other.chart.yaml}
"""
PAGE = "charts/cushion-pattern.html"
Built = Callable[..., tuple[html.HtmlElement, html.HtmlElement, str]]


@pytest.fixture
def built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> Built:
    monkeypatch.chdir(tmp_path)

    def build(panel: str, other: str) -> tuple[html.HtmlElement, html.HtmlElement, str]:
        """The pattern's page, the overview, and what `release` says of it."""
        Path("panel.chart.yaml").write_text(panel, "utf-8")
        Path("other.chart.yaml").write_text(other.replace("Panel", "Other"), "utf-8")
        Path("cushion.pattern.yaml").write_text(PATTERN, "utf-8")
        main(["site", ".", "-o", "made"])
        main(["release", "cushion.pattern.yaml"])
        said = capfd.readouterr().out
        page, overview = (html.fromstring(Path("made", name).read_bytes()) for name in (PAGE, "index.html"))
        return page, overview, said

    return build


def test_what_blocks_two_charts_and_a_size(built: Built, tmp_path: Path) -> None:
    """A row of six stitches of which one is missing; an unknown symbol; five yarns in the large size where four may."""
    short = CHART.replace("LIMIT", "limits: {supplies: 4}\n")
    page, overview, said = built(short, CHART.replace("LIMIT", "").replace("  BBBBBB", "  BBBBB"))
    blocks = re.search(r"Not ready: (\d+) results? block", said)
    assert blocks is not None
    number = int(blocks[1])
    assert number >= 2
    verdict = page.xpath("//header//p[contains(@class, 'state')]")[0].text_content()
    assert f"{number} results block release" in verdict
    told = [item.text_content() for item in page.xpath("//ul[@class='parts']/li")]
    assert [line.partition(":")[0].strip() for line in told] == ["Panel", "Other"]
    assert told[1].strip().endswith("1 result blocks release")
    assert page.xpath("//ul[@class='parts']/li/a/@href") == ["panel.html#results", "other.html#results"]
    (swatch,) = (item for item in overview.xpath("//*[@data-part='wall']/li") if "Cushion" in item.text_content())
    assert f"{number} results block release" in swatch.text_content()
    report = json.loads((tmp_path / "made" / "report.json").read_text("utf-8"))
    assert sum(r["rule"] == "supply/row-limit" for r in report["results"]) == 1, "told once for machines"


def test_nothing_blocks(built: Built) -> None:
    clear = CHART.replace("LIMIT", "").replace("BBWBBB", "BBWWWB").replace("  BBBBBB", "  BBWWWB\n  BBWWWB\n  BBBBBB")
    page, _, said = built(clear, clear)
    assert "Nothing that can be checked by machine" in said
    assert "state-blocks" not in page.xpath("//header//p[contains(@class, 'state')]")[0].get("class", "")
