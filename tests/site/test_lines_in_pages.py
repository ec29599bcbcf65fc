"""What lines in a designer's own pages become, over one site with addresses as folders and one without: pictures, keys,
links from wherever the page stands, words for the search, and faults that name every way out."""

import json
import posixpath
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from lxml import etree, html
from ownsite import mkdocs_build
from sitekit import SHORT_ROW
from smallsite import FILES, write

from lintarsia.publishing.site.rebasing import rebased

TITLES = {"a/twin": "Twin of a", "b/twin": "Twin of b", "gate two": "Gate & two"}
PAGES = {
    "index.md": "# Home\n\n::chart charts/kite.chart.yaml\n\nThen\n\n::chart shore.pattern.yaml\n",
    "blog/deep/knit.md": (
        "# To knit\n\n::chart kite.chart.yaml knit\n\n::chart 'gate two.chart.yaml' fabric\n\n::chart tern.chart.yaml\n"
    ),
    "faults.md": (
        "# Faults\n\n::chart twin.chart.yaml\n\n::chart a/twin.chart.yaml\n\n::chart kite.chart.yaml chart fabric\n\n"
        "::chart zz.yaml\n\n::chart kyte.chart.yaml\n\n::chart shore.pattern.yaml knit\n\n"
        "::chart kite.chart.yaml knit\n"
    ),
}
Pages = dict[str, Any]


def made(folder: Path, *, folders: bool) -> tuple[Path, Pages, str]:
    """The site's folder, its pages by the names of their sources, and what was said."""
    write(folder / "charts", FILES)
    write(folder / "charts", {f"{name}.chart.yaml": SHORT_ROW.replace("Gate with a fault", title)
                              for name, title in TITLES.items()})  # fmt: skip
    write(folder / "docs", PAGES)
    settings = f"site_name: Knits\nuse_directory_urls: {str(folders).lower()}\nnav: [index.md, faults.md]\n"
    (folder / "mkdocs.yml").write_text(f"{settings}plugins:\n  - search\n  - lintarsia: {{charts: [charts]}}\n")
    done = mkdocs_build(folder)
    assert done.returncode == 0, done.said
    out = folder / "out"
    files = {
        name: out / (name.replace(".md", "/index.html" if folders and name != "index.md" else ".html"))
        for name in PAGES
    }
    return out, {name: html.document_fromstring(file.read_text("utf-8")) for name, file in files.items()}, done.said


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Pages, str]:
    return made(tmp_path_factory.mktemp("folders"), folders=True)


def figures(page: Any) -> list[Any]:
    return list(page.xpath("//figure[contains(@class, 'placed')]"))


def text(part: Any) -> str:
    return " ".join(part.text_content().split())


def told(figure: Any) -> tuple[str, str, str]:
    """Title, picture and way on of a chart that stands in a page; title and way lead to the same page."""
    ways = figure.xpath(".//a/@href")
    assert ways == ways[:1] * 3
    (image,) = figure.iter("img")
    return text(figure.xpath(".//p[@class='placed-title']")[0]), image.get("src"), ways[0]


def test_a_chart_has_its_picture_its_key_and_the_way_to_its_page(site: tuple[Path, Pages, str]) -> None:
    out, pages, _ = site
    kite, _ = figures(pages["index.md"])
    assert told(kite) == ("Kite <&> tail", "patterns/charts/kite/placed.svg", "patterns/charts/kite/")
    (image,) = kite.iter("img")
    assert image.get("alt") == "Chart: Kite <&> tail"
    drawn = (out / "patterns/charts/kite/placed.svg").read_text("utf-8")
    box = [float(number) for number in etree.fromstring(drawn.encode()).get("viewBox", "").split()]
    assert [float(image.get(name)) for name in ("width", "height")] == pytest.approx(box[2:], abs=0.5)
    assert kite.xpath(".//ul[@class='placed-key']/li/b/text()") == [
        "Dusk blue",
        "Bone",
        "Madder",
        "duplicate stitch",
        "repeat",
    ]
    assert text(kite.xpath(".//p[@class='placed-facts']")[0]).startswith("12 stitches × 6 rows")
    assert text(kite.xpath(".//p[@class='placed-go']")[0]) == "Knit it row by row"


def test_a_pattern_has_its_cover_its_pieces_and_no_key(site: tuple[Path, Pages, str]) -> None:
    _, pages, _ = site
    shore = figures(pages["index.md"])[1]
    cover = "patterns/charts/shore-pattern"
    assert text(shore.xpath(".//p[@class='placed-title']")[0]) == "Shore set"
    fabric, measured = shore.iter("img")
    assert (fabric.get("src"), measured.get("src")) == (f"{cover}/front-large.fabric.svg", f"{cover}/placed.svg")
    assert fabric.get("alt") == "Shore set as knitted"
    pieces = [f"{cover}/{piece}-{size}/" for piece in ("front", "belt") for size in ("small", "large")]
    assert shore.xpath(".//a/@href") == [f"{cover}/", f"{cover}/", *pieces, f"{cover}/"]
    assert shore.xpath(".//ul/@aria-label") == ["Pieces"]  # the key of a chart would be another
    assert text(shore.xpath(".//p[@class='placed-go']")[0]) == "To the pattern"


def test_what_is_deeper_down_finds_its_way_up(site: tuple[Path, Pages, str]) -> None:
    _, pages, _ = site
    gate, tern = figures(pages["blog/deep/knit.md"])
    up = "../../../patterns/charts"
    assert told(gate) == ("Gate & two", f"{up}/gate-two.fabric.svg", f"{up}/gate-two/")
    assert told(tern) == ("Tern front", f"{up}/sub/tern/placed.svg", f"{up}/sub/tern/")
    assert gate.xpath(".//ul[@class='placed-key']/li/b/text()") == ["Dusk blue", "Bone"]
    assert next(gate.iter("img")).get("alt") == "Gate & two"


def test_every_link_of_what_is_put_there_leads_to_a_file(site: tuple[Path, Pages, str]) -> None:
    out, pages, _ = site
    for name, page in pages.items():
        here = posixpath.dirname(name.replace(".md", "/index.html" if name != "index.md" else ".html"))
        parts = page.xpath("//figure[contains(@class, 'placed')] | //article[@data-page]")
        links = [link.partition("#")[0] for part in parts for link in part.xpath(".//@href | .//@src")]
        assert links
        for link in filter(None, links):
            file = out / posixpath.normpath(posixpath.join(here, link))
            assert (file / "index.html" if link.endswith("/") else file).is_file(), (name, link)


def test_the_card_to_knit_along_is_the_chart_s_own_page_below_the_page_s_title(site: tuple[Path, Pages, str]) -> None:
    _, pages, _ = site
    page = pages["blog/deep/knit.md"]
    assert [text(h) for h in page.iter("h1")] == ["To knit"]
    (article,) = page.xpath("//article[@data-page='chart']")
    assert next(text(h) for h in article.iter("h2")) == "Kite <&> tail"
    assert article.get("data-place") == "kite"


def test_a_search_finds_title_and_facts_and_no_mark_of_ours(site: tuple[Path, Pages, str]) -> None:
    out, _, _ = site
    index = json.loads((out / "search" / "search_index.json").read_text("utf-8"))
    found = {one["location"]: one["text"] for one in index["docs"]}
    assert "Kite <&> tail; 12 stitches × 6 rows" in found[""]
    assert "Shore set; pattern of 2 pieces in 2 sizes, version 1.2" in found[""]
    assert "Gate & two; 8 stitches × 5 rows" in found["blog/deep/knit/"]
    assert "<!--" not in "".join(found.values())
    assert "known here" not in found["faults/"]


FAULTS = {
    3: ("twin.chart.yaml", "2 charts of this site are called so; say in which folder it is"),
    7: (
        "kite.chart.yaml chart fabric",
        "'chart fabric' is not known here; after the file stands chart, fabric or knit, or nothing",
    ),
    9: ("zz.yaml", "there is no such chart in this site"),
    11: ("kyte.chart.yaml", "there is no such chart in this site; did you mean kite.chart.yaml?"),
    15: (
        "kite.chart.yaml knit",
        "a page has room for one card to knit along with; show this one without the word knit",
    ),
}


def test_each_fault_is_said_with_its_line_and_stands_in_the_page(site: tuple[Path, Pages, str]) -> None:
    _, pages, said = site
    told = [line for line in said.splitlines() if "::chart" in line]
    assert [line.partition("faults.md:")[2] for line in told] == [
        f"{number}: ::chart {asked}: {why}" for number, (asked, why) in FAULTS.items()
    ]
    shown = pages["faults.md"].xpath("//div[@class='lintarsia placed-fault']/p")
    assert [text(one) for one in shown] == [why for _, why in FAULTS.values()]
    (twin,) = figures(pages["faults.md"])
    assert told_of(twin) == "Twin of a"
    (article,) = pages["faults.md"].xpath("//article[@data-page]")
    assert article.get("data-page") == "pattern"


def told_of(figure: Any) -> str:
    return told(figure)[0]


def test_where_addresses_are_files_links_are_to_files(tmp_path: Path) -> None:
    _, pages, _ = made(tmp_path, folders=False)
    assert told(figures(pages["index.md"])[0])[1:] == ("patterns/charts/kite/placed.svg", "patterns/charts/kite.html")
    up = "../../patterns/charts"
    assert told(figures(pages["blog/deep/knit.md"])[1])[1:] == (f"{up}/sub/tern/placed.svg", f"{up}/sub/tern.html")
    (article,) = pages["blog/deep/knit.md"].xpath("//article[@data-page='chart']")
    assert f"{up}/kite.fabric.svg" in article.xpath(".//img/@src")


Told = Callable[[str], str]


@pytest.mark.parametrize(
    ("link", "there", "rebased_to"),
    [
        ('<a href="x.html">', "blog", '<a href="../a/b/x.html">'),
        ('<a href="x.html">', "", '<a href="a/b/x.html">'),
        ('<a href="x.html">', "a/b", '<a href="x.html">'),
        ('<a href="../">', "blog", '<a href="../a/">'),
        ('<a href="x/?q=1#r">', "a", '<a href="b/x/?q=1#r">'),
        ('<a HREF="x">', "a", '<a HREF="b/x">'),
        ('<img alt="y" src="../y.png">', "a/b/c", '<img alt="y" src="../../y.png">'),
        ('<a href="/x">', "blog", '<a href="/x">'),
        ('<a href="#x">', "blog", '<a href="#x">'),
        ('<a href="mailto:a@b">', "blog", '<a href="mailto:a@b">'),
        ('<a href="HTTPS://a.example/">', "blog", '<a href="HTTPS://a.example/">'),
        ('<img src="data:image/png;base64,x">', "blog", '<img src="data:image/png;base64,x">'),
        ('<p data-href="x">href="x"</p>', "blog", '<p data-href="x">href="x"</p>'),
    ],
)
def test_a_link_of_a_page_below_a_b_as_it_stands_elsewhere(link: str, there: str, rebased_to: str) -> None:
    """Relative references: RFC 3986, section 4.2."""
    assert rebased(link, "a/b", there) == rebased_to
