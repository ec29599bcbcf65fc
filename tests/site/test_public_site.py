"""A site for everybody has what a knitter needs, and no word of what the charts were looked over for. No browser."""

import re
import shutil
from pathlib import Path

import pytest
from lxml import html
from sitekit import EXAMPLES, TORN

from lintarsia.cli.main import main
from lintarsia.engine import check_paths
from lintarsia.rules.rulebook import house_rulebook

FAULTY = """\
lintarsia: 1
title: Gate
gauge: {stitches: 22, rows: 30, over: 10 cm}
limits: {supplies: 2}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
suppress:
  - {rule: area/single-stitch, row: 1, justification: the hinge is meant to be}
chart: |
  BBBBBBWB
  BBBWWBBB
  BBWWWBBB
  BBWBWBWB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Fence
sizes: [small, large]
pieces:
  front: {chart: gate.chart.yaml, cast-on: {small: 8, large: 12}, plain: B}
yarns: {blue: {balls: {small: 1}}}
"""
KNIT = "lintarsia-knit: 1\npattern: fence.pattern.yaml\nsize: small\nknitter: Wren of the moor\nrows:\n" + (
    "  - {piece: front, row: 2, kind: trouble, said: the hinge came loose}\n"
)


TELLING = re.compile(r"(?i)\bresults?\b|\bblocks? release|\bnothing to mend\b|\bsuppress|\blint\b")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    here = tmp_path_factory.mktemp("public")
    charts = here / "charts"
    charts.mkdir()
    (charts / "gate.chart.yaml").write_text(FAULTY, encoding="utf-8")
    (charts / "lone.chart.yaml").write_text(FAULTY.replace("Gate", "Lone post"), encoding="utf-8")
    (charts / "fence.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    (charts / "wren.knit.yaml").write_text(KNIT, encoding="utf-8")
    shutil.copy(EXAMPLES / "night-owl-mitten.chart.yaml", charts)
    assert main(["site", str(charts), "-o", str(here / "open"), "--public", "--base-url", "https://k.example/"]) == 0
    assert main(["site", str(charts), "-o", str(here / "working")]) == 0
    return here


def texts(site: Path) -> dict[str, str]:
    """What people and search engines read: the words and attributes of every page, the index, whatever is JSON."""
    files = [*site.rglob("*.html"), *site.rglob("*.json"), *site.glob("assets/search-index.js"), *site.rglob("*.svg")]
    return {str(file.relative_to(site)): file.read_text(encoding="utf-8") for file in files}


def test_no_word_of_the_results(folder: Path) -> None:
    results = check_paths([str(folder / "charts")]).results
    assert len({result.rule for result in results}) > 4, "there is something to keep silent about"
    forbidden = [result.message for result in results] + list(house_rulebook().names)
    forbidden += ["the hinge is meant to be", "Wren of the moor", "the hinge came loose"]
    for name, text in texts(folder / "open").items():
        read = html.fromstring(text).text_content()
        assert [words for words in forbidden if words in text or words in read] == [], name
        assert TELLING.findall(read) == [], name
        # The guide tells how to write a chart down, and the search finds what it says.
        if not name.startswith("guide/") and name != "assets/search-index.js":
            assert not re.search(r"\.(?:chart|pattern|knit)\.yaml", text), name
    index = (folder / "open" / "assets" / "search-index.js").read_text(encoding="utf-8")
    assert not [file for file in (folder / "charts").iterdir() if file.name in index]
    working = "\n".join(texts(folder / "working").values())
    told = html.fromstring(working).text_content()
    assert [words for words in forbidden if words not in working and words not in told] == []


def test_no_pages_of_rules_and_no_report(folder: Path) -> None:
    site = folder / "open"
    assert not (site / "rules").exists()
    assert not (site / "report.json").exists()
    assert (folder / "working" / "rules" / "index.html").exists()
    for file in site.rglob("*.html"):
        page = html.fromstring(file.read_bytes())
        for link in page.xpath("//@href | //@src"):
            address = link.partition("#")[0]
            if address and not address.startswith("https://k.example/"):
                assert (file.parent / address).is_file(), f"{file}: {link}"
        anchors = [link[1:] for link in page.xpath("//@href") if link.startswith("#")]
        assert set(anchors) <= set(page.xpath("//@id")), file


def test_a_pattern_stands_for_its_charts(folder: Path) -> None:
    pages = {
        str(file.relative_to(folder / "open" / "charts"))[:-5] for file in (folder / "open/charts").rglob("*.html")
    }
    assert pages == {
        "fence-pattern", "fence-pattern/front-small", "fence-pattern/front-large", "lone", "night-owl-mitten",
    }  # fmt: skip
    overview = html.fromstring((folder / "open" / "index.html").read_bytes())
    assert overview.xpath("//a[@class='name']/text()")[0] == "Fence"
    assert overview.xpath("//title/text()") == ["Patterns"]


def test_what_a_knitter_needs_is_there(folder: Path) -> None:
    for which in ("open", "working"):
        page = html.fromstring((folder / which / "charts/fence-pattern/front-large.html").read_bytes())
        assert page.xpath("//@data-rows") == ["4"]
        assert page.xpath("//*[@id='winding-title']")
        assert page.xpath("//*[@data-part='card']")


def test_neither_face_replaces_the_other(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    charts = str(folder / "charts")
    before = {file: file.read_bytes() for which in ("open", "working") for file in (folder / which).rglob("*.html")}
    assert main(["site", charts, "-o", str(folder / "open")]) == 2
    assert "holds a site for everybody, made with --public" in capsys.readouterr().err
    assert main(["site", charts, "-o", str(folder / "working"), "--public"]) == 2
    assert "holds a working site, with results" in capsys.readouterr().err
    assert {file: file.read_bytes() for file in before} == before
    assert main(["site", charts, "-o", str(folder / "open"), "--public"]) == 0


def test_a_chart_that_cannot_be_read_is_no_page_for_everybody(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "torn.chart.yaml").write_text(TORN, encoding="utf-8")
    assert main(["site", str(tmp_path), "-o", str(tmp_path / "out"), "--public"]) == 2
    assert "cannot be read, and a public site has no page for that" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
