"""A cover shows what is knitted on from one piece to the next as it will be, and begins where the knitting does."""

import shutil

import pytest
from lxml import html
from sitekit import EXAMPLES

from lintarsia.publishing.site.building import build_site


@pytest.fixture(scope="module")
def cover(tmp_path_factory: pytest.TempPathFactory) -> html.HtmlElement:
    here = tmp_path_factory.mktemp("hat")
    shutil.copytree(EXAMPLES / "lantern-hat", here / "hat")
    build_site([str(here / "hat")], str(here / "out"))
    return html.fromstring((here / "out/charts/lantern-hat-pattern.html").read_bytes())


def test_the_brim_is_knitted_first(cover: html.HtmlElement) -> None:
    ways = [(a.text_content(), a.get("href")) for a in cover.xpath("//p[@class='go']/a")]
    assert ways == [
        (f"Knit the brim, {size}", f"lantern-hat-pattern/brim-{size}.html") for size in ("small", "medium", "large")
    ]


def test_the_picture_has_all_pieces_from_the_crown_down(cover: html.HtmlElement) -> None:
    whole = cover.xpath("//figure[contains(@class, 'cover-picture')]/svg")
    assert [svg.get("data-sizes") for svg in whole] == ["0", "1", "2"]
    assert [svg.get("hidden") is None for svg in whole] == [False, False, True]
    for svg, size in zip(whole, ("small", "medium", "large"), strict=True):
        assert svg.get("aria-label") == "crown, sides, band and brim as knitted"
        pictures = svg.findall("image")
        files = [f"lantern-hat-pattern/{piece}-{size}.fabric.svg" for piece in ("crown", "sides", "band", "brim")]
        assert [picture.get("href") for picture in pictures] == files
        tops = [(int(picture.get("y")), int(picture.get("height"))) for picture in pictures]
        ends = [top + high for top, high in tops]
        # A row is 20 × 24 / 27 units high (24 stitches and 27 rows to 10 cm): the pictures overlap by little more.
        assert all(17 < end - top < 30 for end, (top, _) in zip(ends, tops[1:], strict=False))
        assert int(svg.get("height")) == ends[-1]
