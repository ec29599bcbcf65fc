"""Link previews: real PNG files, read back by a library from outside, that show the chart the right way up."""

from io import BytesIO

import pytest
from PIL import Image
from sitekit import Site

from lintarsia.publishing.pages.cards import HIGH, PAPER, WIDE, card
from lintarsia.reading import read_chart

HEAD = "lintarsia: 1\ntitle: T\ngauge: {stitches: 22, rows: 22, over: 10 cm}\n"
KEY = 'colours:\n  R: {name: red, shade: "#ff0000"}\n  B: {name: blue, shade: "#0000ff"}\n'


def shown(rows: str) -> Image.Image:
    text = f"{HEAD}{KEY}chart: |\n" + "".join(f"  {row}\n" for row in rows.split())
    chart = read_chart("t.chart.yaml", text.encode()).chart
    assert chart is not None
    image = Image.open(BytesIO(card(chart)))
    image.load()
    return image


def test_it_is_as_large_as_previews_are() -> None:
    image = shown("RB BR")
    assert image.format == "PNG"
    assert image.size == (WIDE, HIGH)
    assert image.getpixel((2, 2)) == PAPER


@pytest.mark.parametrize(("x", "y", "part"), [(-1, -1, 0), (1, -1, 2), (-1, 1, 2), (1, 1, 0)])
def test_the_top_line_is_at_the_top_and_the_left_at_the_left(x: int, y: int, part: int) -> None:
    pixel = shown("RRBB RRBB BBRR BBRR").getpixel((WIDE // 2 + x * 120, HIGH // 2 + y * 120))
    assert isinstance(pixel, tuple)
    assert pixel[part] > 100
    assert pixel[2 - part] == 0


@pytest.mark.parametrize("rows", ["R", "R" * 400, " ".join(["RB"] * 400), ".R. RRR", "RRR R"])
def test_any_shape_makes_a_picture(rows: str) -> None:
    colours = shown(rows).convert("RGB").getcolors(1 << 20)
    assert colours is not None
    assert len(colours) > 1


def test_the_site_s_previews_can_be_opened(site: Site) -> None:
    cards = sorted(site.folder.rglob("card.png"))
    assert len(cards) == 6 + 3  # of charts, and of the pieces of patterns
    for file in cards:
        with Image.open(file) as image:
            assert image.size == (WIDE, HIGH)
