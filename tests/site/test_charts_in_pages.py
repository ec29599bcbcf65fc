"""A chart in a designer's own page, by one line: what is put there, and how a line is refused that means nothing."""

from pathlib import Path

import pytest
from lxml import html
from ownsite import Done, mkdocs_build
from sitekit import ROUNDS, SHORT_ROW, TORN

from lintarsia.publishing.site.directive import directives
from lintarsia.publishing.site.rebasing import rebased

PAGE = """\
---
title: A gate
---
# A gate

Before.

::chart {line}

After.

```
::chart shown-as-it-is.chart.yaml
```
"""


BAG = """\
lintarsia-pattern: 1
title: Bag of <two> sides
version: "1.1"
sizes: [small, large]
pieces:
  ring: {chart: ring.chart.yaml, cast-on: {small: 21, large: 33}}
  strap: {colour: G, cast-on: 6, rows: 20, stitch: garter stitch}
"""


def make(folder: Path, line: str, *, strict: bool = True) -> tuple[Done, str]:
    """A site whose page blog/gate.md has the line as its eighth; the run, and that page as it was made."""
    (folder / "docs" / "blog").mkdir(parents=True)
    for name in ("charts", "sketches"):
        (folder / name).mkdir()
    (folder / "docs" / "index.md").write_text("# Home\n\nSee [the gate](blog/gate.md).\n")
    (folder / "docs" / "blog" / "gate.md").write_text(PAGE.format(line=line))
    (folder / "charts" / "gate.chart.yaml").write_text(SHORT_ROW.replace("Gate with", "Gate & <b>bolt</b> with"))
    (folder / "charts" / "torn.chart.yaml").write_text(TORN)
    (folder / "sketches" / "later.chart.yaml").write_text(SHORT_ROW)
    if line.startswith("bag"):
        (folder / "charts" / "ring.chart.yaml").write_text(ROUNDS)
        (folder / "charts" / "bag.pattern.yaml").write_text(BAG)
    settings = f"site_name: Knits\nstrict: {str(strict).lower()}\nnav: [index.md, blog/gate.md]\n"
    (folder / "mkdocs.yml").write_text(f"{settings}plugins:\n  - search\n  - lintarsia: {{charts: [charts]}}\n")
    done = mkdocs_build(folder, *(["--quiet"] if strict else []))
    made = folder / "out" / "blog" / "gate" / "index.html"
    return done, made.read_text(encoding="utf-8") if made.exists() else ""


@pytest.mark.parametrize("name", ["gate.chart.yaml", "charts/gate.chart.yaml", "../../charts/gate.chart.yaml"])
def test_a_line_becomes_picture_key_and_link(tmp_path: Path, name: str) -> None:
    done, page = make(tmp_path, name)
    assert done.returncode == 0, done.said
    (figure,) = html.fromstring(page).xpath('//figure[@data-part="hosted"]')
    assert figure.xpath(".//a/@href") == ["../../patterns/charts/gate/"] * 3
    assert figure.xpath(".//img/@src") == ["../../patterns/charts/gate/placed.svg"]
    assert figure.xpath(".//li/b/text()") == ["Dusk blue", "Bone"]
    assert figure.xpath('.//p[@class="placed-title"]//text()') == ["Gate & <b>bolt</b> with a fault"]
    drawn = (tmp_path / "out" / "patterns" / "charts" / "gate" / "placed.svg").read_text(encoding="utf-8")
    assert drawn.startswith("<svg ")
    assert "::chart shown-as-it-is.chart.yaml" in page
    assert "Dusk blue" not in (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert "bolt" in (tmp_path / "out" / "search" / "search_index.json").read_text(encoding="utf-8")


def test_a_line_may_ask_for_the_fabric(tmp_path: Path) -> None:
    done, page = make(tmp_path, "gate.chart.yaml fabric")
    assert done.returncode == 0, done.said
    assert html.fromstring(page).xpath("//figure//img/@src") == ["../../patterns/charts/gate.fabric.svg"]


def test_a_line_may_ask_for_the_page_to_knit_from(tmp_path: Path) -> None:
    done, page = make(tmp_path, "gate.chart.yaml knit")
    assert done.returncode == 0, done.said
    made = html.fromstring(page)
    assert len(made.xpath('//article[@data-page="chart"]//*[@data-part="card"]')) == 1
    assert len(made.xpath("//h1")) == 1
    assert made.xpath('//article[@data-page="chart"]//h2')[0].text == "Gate & <b>bolt</b> with a fault"
    assert "../../patterns/charts/gate.fabric.svg" in made.xpath("//article//img/@src")
    assert "../../patterns/rules/grid/stitch-count/" in made.xpath("//article//a/@href")


def test_a_line_may_ask_for_a_pattern(tmp_path: Path) -> None:
    """A reader sees what it is, whether it is her size, and goes to the cover or straight to a piece."""
    done, page = make(tmp_path, "bag.pattern.yaml")
    assert done.returncode == 0, done.said
    (figure,) = html.fromstring(page).xpath('//figure[@data-part="hosted"]')
    cover = "../../patterns/charts/bag-pattern/"
    assert figure.xpath('.//p[@class="placed-title"]//text()') == ["Bag of <two> sides"]
    assert figure.xpath('.//p[@class="placed-facts"]/text()') == ["pattern of 2 pieces in 2 sizes, version 1.1"]
    assert figure.xpath('.//p[@class="placed-go"]/a/@href') == [cover]
    assert [" ".join(one.itertext()) for one in figure.xpath(".//dl/div[1]/*")] == ["Sizes", "small, large"]
    pieces = [(*line.xpath("b/text()"), *line.xpath("a/text()")) for line in figure.xpath(".//li")]
    assert pieces == [("ring", "small", "large"), ("strap",)]
    assert figure.xpath(".//li/a/@href") == [f"{cover}ring-small/", f"{cover}ring-large/", f"{cover}strap/"]
    fabric, measured = figure.xpath(".//img/@src")
    assert fabric == f"{cover.removesuffix('/')}/ring-large.fabric.svg"
    assert measured == f"{cover}placed.svg"
    out = tmp_path / "out" / "blog" / "gate"
    for way in [*figure.xpath(".//img/@src"), *(f"{link}index.html" for link in figure.xpath(".//a/@href"))]:
        assert (out / way).is_file(), way
    # 21 and 33 stitches at 8 to the inch are 2.6 and 4.1 in, to the nearest half.
    drawn = (out / measured).read_text("utf-8")
    assert "Schematic of ring" in drawn
    assert "2½ (4) in" in drawn


def test_a_line_may_ask_for_all_of_a_pattern_s_cover(tmp_path: Path) -> None:
    done, page = make(tmp_path, "bag.pattern.yaml knit")
    assert done.returncode == 0, done.said
    made = html.fromstring(page)
    assert len(made.xpath('//article[@data-page="pattern"]')) == len(made.xpath("//h1")) == 1
    assert "../../patterns/charts/bag-pattern/ring-small/" in made.xpath("//article//a/@href")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("gat.chart.yaml", "there is no such chart in this site; did you mean gate.chart.yaml?"),
        ("sketches/later.chart.yaml", "is not among the charts of this site; name its folder under charts:"),
        ("torn.chart.yaml", "cannot be shown, since no page to knit from can be made of it; lintarsia check says why"),
        ("gate.chart.yaml big", "'big' is not known here; after the file stands chart, fabric or knit, or nothing"),
        (
            "bag.pattern.yaml fabric",
            "is a pattern, shown with the fabric of its pieces; after it stands knit, or nothing",
        ),
        ("", "names no file; expected ::chart fox.chart.yaml"),
    ],
)
def test_a_line_that_cannot_be_followed_is_told_with_its_page_and_line(tmp_path: Path, line: str, told: str) -> None:
    done, _ = make(tmp_path, line)
    assert done.returncode == 1
    assert f"blog/gate.md:8: ::chart {line}: {told}" in done.said
    again = tmp_path / "again"
    done, page = make(again, line, strict=False)
    assert done.returncode == 0, done.said
    assert f"blog/gate.md:8: ::chart {line}: {told}" in done.said
    (fault,) = html.fromstring(page).xpath('//div[@data-part="hosted"]')
    assert told in fault.text_content()


def test_a_page_has_one_card_to_knit_along_with(tmp_path: Path) -> None:
    done, _ = make(tmp_path, "gate.chart.yaml knit\n\n::chart gate.chart.yaml knit")
    assert done.returncode == 1
    assert "blog/gate.md:10: ::chart gate.chart.yaml knit: a page has room for one card" in done.said


def test_what_is_no_line_of_ours_is_left_alone() -> None:
    others = [
        "::charts a",
        "text ::chart b",
        ":::chart c",
        "    ::chart d",
        "~~~~",
        "::chart e",
        "~~~",
        "::chart f",
        "~~~~",
    ]
    found = list(directives("\n".join([*others, "  ::chart 'g h' knit"])))
    assert [(one.at, one.asked()) for one in found] == [(9, ("g h", ("knit",)))]


def test_links_are_those_of_the_page_that_they_stand_in() -> None:
    page = '<a href="../guide/hands/#joining">a</a> <img src="gate.svg"> <a href="#row-1">b</a> <a href="https://a.example/x">c</a>'
    assert rebased(page, "patterns/charts", "blog/gate") == (
        '<a href="../../patterns/guide/hands/#joining">a</a> <img src="../../patterns/charts/gate.svg"> '
        '<a href="#row-1">b</a> <a href="https://a.example/x">c</a>'
    )
