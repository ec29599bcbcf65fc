"""A pattern's page is a cover: whose it is, sizes, schematics, yarn, and pages of its pieces a size. No browser."""

import re
import shutil
from pathlib import Path

import pytest
from lxml import html
from sitekit import EXAMPLES

from lintarsia.chart.content import chart_fingerprint
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.reading import read_pattern
from lintarsia.publishing.site.building import build_site
from lintarsia.settings import Settings

DESIGNER = """\
designer:
  name: Mill <Lane> Knits
  accent: "#e8c840"
  logo: logo.svg
  copyright: "© 2026 Mill & Lane"
  contact: https://knits.example/ask?a=1&b=2
"""
LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 3"><path d="M0 0h2v3z"/></svg>'
PATTERN = """\
lintarsia-pattern: 1
title: Pear cushion & back
version: "1.2"
about: "Two pears <& no more."
notes: ["Wash it: cold & long.", "12"]
sizes: [small, large]
pieces:
  side:
    chart: pear-square.chart.yaml
    cast-on: {small: 44, large: 66}
    rows: {small: 60, large: 90}
    plain: O
    measures: {width: {small: 20 cm / 8 in, large: 30 cm / 12 in}}
  back: {colour: O, cast-on: 40, rows: 50, times: {small: 1, large: 2}}
seams:
  - {join: [side left, back right]}
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    here = tmp_path_factory.mktemp("cover")
    folder = here / "charts"
    folder.mkdir()
    shutil.copy(EXAMPLES / "pear-square.chart.yaml", folder)
    (folder / "pear.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    (folder / "lintarsia.yaml").write_text(DESIGNER, encoding="utf-8")
    (folder / "logo.svg").write_text(LOGO, encoding="utf-8")
    build_site([str(folder)], str(here / "out"), base_url="https://knits.example/")
    return here / "out"


def page(made: Path, name: str) -> html.HtmlElement:
    return html.fromstring((made / f"charts/{name}.html").read_bytes())


def words(part: html.HtmlElement) -> str:
    return " ".join(part.text_content().split())


def test_whose_it_is_stands_on_the_cover_and_on_every_page(made: Path) -> None:
    cover = page(made, "pear-pattern")
    assert words(cover.xpath("//*[@class='by']")[0]) == "Design: Mill <Lane> Knits"
    for file in made.rglob("*.html"):
        own = html.fromstring(file.read_bytes())
        foot = own.xpath("//footer[@class='site-foot']")[0]
        assert "© 2026 Mill & Lane" in words(foot), file
        assert "https://knits.example/ask?a=1&b=2" in foot.xpath(".//a/@href")
        assert [src.endswith("assets/logo.svg") for src in own.xpath("//a[@class='brand']/img/@src")] == [True]
        assert any(link.endswith("assets/designer.css") for link in own.xpath("//link[@rel='stylesheet']/@href"))
    assert (made / "assets/logo.svg").read_text() == LOGO
    assert "--li-accent: #" in (made / "assets/designer.css").read_text()


def test_what_it_is_and_what_to_know_stands_on_the_cover(made: Path) -> None:
    cover = page(made, "pear-pattern")
    assert words(cover.xpath("//p[@class='about']")[0]) == "Two pears <& no more."
    assert [words(note) for note in cover.xpath("//p[@class='note']")] == ["Wash it: cold & long.", "12"]


def test_each_piece_has_a_page_in_each_size_where_sizes_differ(made: Path) -> None:
    assert {file.stem for file in (made / "charts/pear-pattern").glob("*.html")} == {"side-small", "side-large", "back"}
    cover = page(made, "pear-pattern")
    links = [
        (words(link), link.get("aria-label"), link.get("href")) for link in cover.xpath("//ul[@class='pieces']//a")
    ]
    assert links == [
        ("small", "side, small", "pear-pattern/side-small.html"),
        ("large", "side, large", "pear-pattern/side-large.html"),
        ("back", None, "pear-pattern/back.html"),
    ]
    told = [(words(line), line.get("data-sizes")) for line in cover.xpath("//ul[@class='pieces']/li/p")]
    assert told[1] == ("large 66 stitches, 90 rows · 30 × 30 cm", "1")
    assert told[2][0].startswith("knit 1 (2) · 40 stitches, 50 rows")
    assert told[2][1] is None


def test_a_piece_s_page_is_of_the_piece_laid_out(made: Path) -> None:
    folder = made.parent / "charts"
    pattern = read_pattern(str(folder / "pear.pattern.yaml")).pattern
    assert pattern is not None
    work = work_on(pattern, Settings(root=str(folder)))
    for size, rows in (("small", 60), ("large", 90)):
        own = page(made, f"pear-pattern/side-{size}")
        (article,) = own.xpath("//article")
        laid = work.laid(pattern.pieces["side"], size)
        assert laid is not None
        assert article.get("data-fingerprint") == chart_fingerprint(laid.chart)
        assert len(own.xpath("//section[@class='row-list']//*[starts-with(@id, 'row-')]")) == rows
        assert words(own.xpath("//h1")[0]) == f"Pear cushion & back: side, {size}"
        assert own.xpath("//p[@class='crumb']/a/@href") == ["../pear-pattern.html"]
        sizes = {link.get("data-size"): link.get("aria-current") for link in own.xpath("//nav[@class='sizes']/a")}
        assert sizes == {name: "page" if name == size else None for name in ("small", "large")}
        assert own.xpath("//*[@id='results']") == []
    assert page(made, "pear-pattern/back").xpath("//nav[@class='sizes']") == []


def test_schematics_are_for_all_sizes_and_for_each(made: Path) -> None:
    cover = page(made, "pear-pattern")
    figures = cover.xpath("//*[@class='schematics']/figure")
    told = [(words(f.xpath("figcaption")[0]), f.get("data-sizes"), "hidden" in f.attrib) for f in figures]
    assert told == [
        ("side", "", False), ("side, small", "0", True), ("side, large", "1", True), ("back", None, False),
    ]  # fmt: skip
    assert "20 (30) cm" in words(figures[0])
    # 66 stitches and 90 rows at 22 and 30 to 10 cm; the width is stated as 30 cm / 12 in, the height is reckoned.
    assert [words(text) for text in figures[2].xpath(".//*[local-name()='text']")][:4] == [
        "30 cm", "12 in", "30 cm", "11¾ in",
    ]  # fmt: skip
    ids = cover.xpath("//@id")
    assert len(ids) == len(set(ids))


def test_stated_measurements_are_told_as_they_are_stated(made: Path) -> None:
    rows = page(made, "pear-pattern").xpath("//table[caption[text()='Measurements by size']]/tbody/tr")
    lines = [[words(cell) for cell in row] for row in rows]
    assert lines[0] == ["side", "width", "20 cm / 8 in", "30 cm / 12 in"]
    assert ["", "width at the cast-on"] not in [line[:2] for line in lines[:2]]
    assert lines[2][:2] == ["back", "width at the cast-on"]


def test_charts_and_patterns_lead_to_one_another(made: Path) -> None:
    (link,) = page(made, "pear-square").xpath("//p[@class='part-of']/a")
    assert (words(link), link.get("href")) == ("Pear cushion & back", "pear-pattern.html")


def test_what_is_linked_shows_the_pattern_s_own_picture(made: Path) -> None:
    (picture,) = page(made, "pear-pattern").xpath("//meta[@property='og:image']/@content")
    assert picture == "https://knits.example/charts/pear-pattern/side-large/card.png"
    assert (made / picture.removeprefix("https://knits.example/")).is_file()


def test_pieces_are_found_by_their_names(made: Path) -> None:
    index = (made / "assets/search-index.js").read_text()
    assert re.search(
        r'"Pear cushion & back: side, large","66 stitches[^"]*","charts/pear-pattern/side-large.html"', index
    )


def test_names_that_would_lead_to_one_page_have_their_own(tmp_path: Path) -> None:
    shutil.copy(EXAMPLES / "pear-square.chart.yaml", tmp_path)
    (tmp_path / "a-pattern").mkdir()
    shutil.copy(EXAMPLES / "pear-square.chart.yaml", tmp_path / "a-pattern" / "side.chart.yaml")
    pieces = "".join(f"  {name}: {{chart: pear-square.chart.yaml}}\n" for name in ("side", "side!", "SIDE", "../side"))
    (tmp_path / "a.pattern.yaml").write_text(f"lintarsia-pattern: 1\ntitle: A\npieces:\n{pieces}", encoding="utf-8")
    build_site([str(tmp_path)], str(tmp_path / "out"))
    links = html.fromstring((tmp_path / "out/charts/a-pattern.html").read_bytes()).xpath(
        "//ul[@class='pieces']//a/@href"
    )
    assert len(set(links)) == 4
    assert "a-pattern/side.html" not in links  # the page of the chart in that folder
    assert all(re.fullmatch(r"a-pattern/side-[0-9a-f]{8}\.html", link) for link in links)
    assert all((tmp_path / "out/charts" / link).is_file() for link in links)
