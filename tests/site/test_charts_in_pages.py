"""A chart in a designer's own page, by one line: what is put there, and how a line is refused that means nothing."""

import json
from collections.abc import Mapping
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
NAMES = ("gate.chart.yaml", "charts/gate.chart.yaml", "../../charts/gate.chart.yaml")
FOLLOWED = {f"name{n}": name for n, name in enumerate(NAMES)} | {
    "fabric": f"{NAMES[0]} fabric",
    "knit": f"{NAMES[0]} knit",
    "bag": "bag.pattern.yaml",
    "cover": "bag.pattern.yaml knit",
}
NOT_FOLLOWED = {
    "gat.chart.yaml": "there is no such chart in this site; did you mean gate.chart.yaml?",
    "sketches/later.chart.yaml": "is not among the charts of this site; name its folder under charts:",
    "torn.chart.yaml": "cannot be shown, since no page to knit from can be made of it; lintarsia check says why",
    "gate.chart.yaml big": "'big' is not known here; after the file stands chart, fabric or knit, or nothing",
    "bag.pattern.yaml fabric": "is a pattern, shown with the fabric of its pieces; after it stands knit, or nothing",
    "": "names no file; expected ::chart fox.chart.yaml",
}


BAG = """\
lintarsia-pattern: 1
title: Bag of <two> sides
version: "1.1"
sizes: [small, large]
pieces:
  ring: {chart: ring.chart.yaml, cast-on: {small: 21, large: 33}}
  strap: {colour: G, cast-on: 6, rows: 20, stitch: garter stitch}
"""


def make(folder: Path, lines: Mapping[str, str], *, strict: bool = True) -> Done:
    """A site with a page blog/NAME.md for each line, which is its eighth."""
    (folder / "docs" / "blog").mkdir(parents=True)
    for name in ("charts", "sketches"):
        (folder / name).mkdir()
    (folder / "docs" / "index.md").write_text(f"# Home\n\nSee [a page](blog/{next(iter(lines))}.md).\n")
    for name, line in lines.items():
        (folder / "docs" / "blog" / f"{name}.md").write_text(PAGE.format(line=line))
    (folder / "charts" / "gate.chart.yaml").write_text(SHORT_ROW.replace("Gate with", "Gate & <b>bolt</b> with"))
    (folder / "charts" / "torn.chart.yaml").write_text(TORN)
    (folder / "sketches" / "later.chart.yaml").write_text(SHORT_ROW)
    (folder / "charts" / "ring.chart.yaml").write_text(ROUNDS)
    (folder / "charts" / "bag.pattern.yaml").write_text(BAG)
    pages = ", ".join(["index.md", *(f"blog/{name}.md" for name in lines)])
    settings = f"site_name: Knits\nstrict: {str(strict).lower()}\nnav: [{pages}]\n"
    (folder / "mkdocs.yml").write_text(f"{settings}plugins:\n  - search\n  - lintarsia: {{charts: [charts]}}\n")
    return mkdocs_build(folder, *(["--quiet"] if strict else []))


def page(folder: Path, name: str) -> str:
    return (folder / "out" / "blog" / name / "index.html").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def followed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site whose every line can be followed; and no warning is given."""
    folder = tmp_path_factory.mktemp("followed")
    assert make(folder, FOLLOWED) == Done(0, "")
    return folder


@pytest.mark.parametrize("name", [name for name in FOLLOWED if name.startswith("name")])
def test_a_line_becomes_picture_key_and_link(followed: Path, name: str) -> None:
    made = page(followed, name)
    (figure,) = html.fromstring(made).xpath('//figure[@data-part="hosted"]')
    assert figure.xpath(".//a/@href") == ["../../patterns/charts/gate/"] * 3
    assert figure.xpath(".//img/@src") == ["../../patterns/charts/gate/placed.svg"]
    assert figure.xpath(".//li/b/text()") == ["Dusk blue", "Bone"]
    assert figure.xpath('.//p[@class="placed-title"]//text()') == ["Gate & <b>bolt</b> with a fault"]
    drawn = (followed / "out" / "patterns" / "charts" / "gate" / "placed.svg").read_text(encoding="utf-8")
    assert drawn.startswith("<svg ")
    assert "::chart shown-as-it-is.chart.yaml" in made
    assert "Dusk blue" not in (followed / "out" / "index.html").read_text(encoding="utf-8")
    found = json.loads((followed / "out" / "search" / "search_index.json").read_text(encoding="utf-8"))["docs"]
    assert [entry for entry in found if entry["location"].startswith(f"blog/{name}/") and "bolt" in entry["text"]]


def test_a_line_may_ask_for_the_fabric(followed: Path) -> None:
    assert html.fromstring(page(followed, "fabric")).xpath("//figure//img/@src") == [
        "../../patterns/charts/gate.fabric.svg"
    ]


def test_a_line_may_ask_for_the_page_to_knit_from(followed: Path) -> None:
    made = html.fromstring(page(followed, "knit"))
    assert len(made.xpath('//article[@data-page="chart"]//*[@data-part="card"]')) == 1
    assert len(made.xpath("//h1")) == 1
    assert made.xpath('//article[@data-page="chart"]//h2')[0].text == "Gate & <b>bolt</b> with a fault"
    assert "../../patterns/charts/gate.fabric.svg" in made.xpath("//article//img/@src")
    assert "../../patterns/rules/grid/stitch-count/" in made.xpath("//article//a/@href")


def test_a_line_may_ask_for_a_pattern(followed: Path) -> None:
    """A reader sees what it is, whether it is her size, and goes to the cover or straight to a piece."""
    (figure,) = html.fromstring(page(followed, "bag")).xpath('//figure[@data-part="hosted"]')
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
    out = followed / "out" / "blog" / "bag"
    for way in [*figure.xpath(".//img/@src"), *(f"{link}index.html" for link in figure.xpath(".//a/@href"))]:
        assert (out / way).is_file(), way
    # 21 and 33 stitches at 8 to the inch are 2.6 and 4.1 in, to the nearest half.
    drawn = (out / measured).read_text("utf-8")
    assert "Schematic of ring" in drawn
    assert "2½ (4) in" in drawn


def test_a_line_may_ask_for_all_of_a_pattern_s_cover(followed: Path) -> None:
    made = html.fromstring(page(followed, "cover"))
    assert len(made.xpath('//article[@data-page="pattern"]')) == len(made.xpath("//h1")) == 1
    assert "../../patterns/charts/bag-pattern/ring-small/" in made.xpath("//article//a/@href")


@pytest.mark.parametrize("strict", [True, False])
def test_a_line_that_cannot_be_followed_is_told_with_its_page_and_line(tmp_path: Path, strict: bool) -> None:
    lines = {f"name{n}": line for n, line in enumerate(NOT_FOLLOWED)}
    done = make(tmp_path, lines, strict=strict)
    assert done.returncode == (1 if strict else 0)
    for name, line in lines.items():
        assert f"blog/{name}.md:8: ::chart {line}: {NOT_FOLLOWED[line]}" in done.said
        if not strict:
            (fault,) = html.fromstring(page(tmp_path, name)).xpath('//div[@data-part="hosted"]')
            assert NOT_FOLLOWED[line] in fault.text_content()
    assert done.said.count(".md:8: ") == len(lines)


def test_a_page_has_one_card_to_knit_along_with(tmp_path: Path) -> None:
    done = make(tmp_path, {"gate": "gate.chart.yaml knit\n\n::chart gate.chart.yaml knit"})
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
