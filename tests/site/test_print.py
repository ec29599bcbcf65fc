"""Pages printed to PDF: the right paper, the chart first, sheets of large charts, and nothing interactive left over."""

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, PdfMargins, expect
from sitekit import SETTLED, SHORT_ROW, Look

from lintarsia.publishing.site.building import build_site

MM = 72 / 25.4
PAPERS = {"A4": (210, 297), "Letter": (215.9, 279.4)}


def boxes(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of each page in mm."""
    found = re.findall(rb"/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]", pdf)
    return [(float(w) / MM, float(h) / MM) for w, h in found]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_chart_page_fills_whole_sheets_of_the_paper(look: Look, paper: str) -> None:
    page = look.at("charts/night-owl-mitten.html")
    pages = boxes(page.pdf(format=paper))
    assert 2 <= len(pages) <= 8
    for size in pages:
        assert size == pytest.approx(PAPERS[paper], abs=0.6)


def test_a_large_chart_brings_a_page_for_each_sheet(look: Look) -> None:
    small = look.at("charts/night-owl-mitten.html")
    assert small.locator(".sheets").count() == 0
    page = look.at("charts/little-boat-jumper.html")
    sheets = page.locator(".sheets img").count()
    assert sheets >= 2
    with_sheets = len(boxes(page.pdf(format="A4")))
    page.evaluate("document.querySelector('.sheets').remove()")
    assert with_sheets - len(boxes(page.pdf(format="A4"))) in (sheets, sheets + 1)


def test_a_chart_that_prints_small_beside_its_key_has_a_sheet_of_its_own(look: Look) -> None:
    page = look.at("charts/orchard-bag.html")
    assert page.locator(".sheets img").count() == 1
    assert "sheets that overlap" not in page.locator(".sheets").inner_text()


def test_what_is_for_hands_is_not_printed(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html#row-20")
    page.emulate_media(media="print")
    for part in (".site-head", ".pictures", ".layers", ".knit-card", ".zoom", ".hint", ".crumb"):
        assert page.locator(part).first.is_hidden(), part
    assert page.locator("button:visible").count() == 0
    opacity = "[...document.querySelectorAll('.lx-row')].map((row) => getComputedStyle(row).opacity)"
    assert set(page.evaluate(opacity)) == {"1"}


def test_the_chart_comes_first_whatever_was_looked_at(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html")
    page.locator("#show-fabric").check()
    page.emulate_media(media="print")
    assert page.locator("svg.lx-chart").is_visible()
    top = page.evaluate("document.querySelector('svg.lx-chart').getBoundingClientRect().top")
    assert top <= page.evaluate("document.querySelector('.key-list').getBoundingClientRect().top")  # beside it
    stamp = page.locator('[data-part="stamp"]').evaluate("(stamp) => stamp.getBoundingClientRect().top")
    assert page.evaluate("document.querySelector('h1').getBoundingClientRect().bottom") < stamp < top
    assert top < page.evaluate("document.querySelector('.row-list').getBoundingClientRect().top")


def test_what_to_knit_from_is_printed_before_what_was_found(look: Look) -> None:
    page = look.at("charts/gate.html")
    page.emulate_media(media="print")
    top = "(part) => part.getBoundingClientRect().top"
    found = page.locator(".results").evaluate(top)
    for part in (".materials", ".winding", ".row-list", ".ends"):
        assert page.locator(part).evaluate(top) < found, part


def test_nothing_to_mend_takes_no_page(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html")
    expect(page.locator(".results")).to_contain_text("Nothing to mend")
    page.emulate_media(media="print")
    expect(page.locator(".results")).to_be_hidden()
    expect(page.locator(".state")).to_contain_text("nothing to mend")


def test_of_like_results_the_line_that_gathers_them_is_printed(tmp_path: Path, browser: Browser) -> None:
    field = [list("B" * 21) for _ in range(9)]
    for row, stitch in ((2, 3), (4, 9), (6, 16)):
        field[row][stitch] = "W"
    rows = "".join(f"  {''.join(row)}\n" for row in field)
    (tmp_path / "seeds.chart.yaml").write_text(f"{SHORT_ROW.partition('chart: |')[0]}chart: |\n{rows}")
    build_site([str(tmp_path)], str(tmp_path / "out"), title="Seeds")
    page = browser.new_page()
    page.goto((tmp_path / "out" / "charts" / "seeds.html").as_uri())
    page.emulate_media(media="print")
    assert page.locator(".alike .spot").count() == 3
    assert page.locator(".alike .spot:visible").count() == 0
    assert page.locator(".alike > summary").first.is_visible()
    page.close()


def test_the_key_is_printed_beside_the_chart(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html", size={"width": 703, "height": 1000})  # A4 less its margins
    page.emulate_media(media="print")
    chart, key = page.locator(".stage").bounding_box(), page.locator(".key-list").bounding_box()
    assert chart
    assert key
    assert chart["x"] + chart["width"] <= key["x"]
    assert chart["y"] == pytest.approx(key["y"], abs=1)


def test_no_heading_is_left_at_the_foot_of_a_page(look: Look) -> None:
    """As far as a style can ask for it: from the heading down to the first row of its table, each keeps to the next."""
    page = look.at("charts/night-owl-mitten.html")
    page.emulate_media(media="print")
    for part in (".ends h2", ".ends summary", ".ends thead", ".winding h2", ".on-balls caption", ".on-balls thead"):
        kept = page.locator(part).evaluate("(part) => getComputedStyle(part).breakAfter")
        assert kept == "avoid", part
    for row in page.locator("tbody tr:first-child").all():
        assert row.evaluate("(row) => getComputedStyle(row).breakBefore") == "avoid"


def test_it_prints_light_after_an_evening_too(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html", color_scheme="dark")
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(255, 255, 255)"
    assert page.evaluate("getComputedStyle(document.querySelector('h1')).color") == "rgb(0, 0, 0)"


def test_every_cell_carries_its_symbol_in_print(look: Look) -> None:
    """Grey tells nothing apart for sure; the symbols do."""
    page = look.at("charts/hats/ring.html")
    page.emulate_media(media="print")
    symbols = page.locator("svg.lx-chart .lx-row text").all_text_contents()
    assert sum(map(len, symbols)) == 4 * 21


@pytest.mark.parametrize(
    ("box", "parts"),
    [
        ("rows", [".row-list"]),
        ("lists", [".materials", ".winding", ".ends"]),
        ("results", [".results"]),
        ("chart", [".stage", ".key-list"]),
    ],
)
def test_what_is_printed_can_be_chosen_and_is_kept(look: Look, box: str, parts: list[str]) -> None:
    page = look.at("charts/gate.html")
    page.get_by_text("Print", exact=True).first.click()
    page.locator(f"#print-{box}").uncheck()
    page.reload()
    page.evaluate(SETTLED)
    page.emulate_media(media="print")
    for part in (".row-list", ".materials", ".winding", ".ends", ".results", ".stage", ".key-list"):
        assert page.locator(part).first.is_visible() is (part not in parts), part


def test_a_pattern_s_cover_has_its_title_and_fingerprint_at_the_foot_of_every_sheet(look: Look) -> None:
    page = look.at("charts/bag-pattern.html")
    page.pdf()
    running = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--li-running')")
    assert json.loads(running) == f"Bag of two sides · {page.locator('.stamp').inner_text()}"
    page.emulate_media(media="print")
    numbers = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--li-page')")
    assert numbers == '"page " counter(page) " of " counter(pages)'


@pytest.mark.parametrize("paper", PAPERS)
def test_no_sheet_is_followed_by_an_empty_page_whatever_margins_the_browser_is_told(look: Look, paper: str) -> None:
    """Its dialogue asks for margins by itself, and the pages are then counted lower; ours have their own."""
    page = look.at("charts/lighthouse-jumper-front.html")
    assert page.locator(".sheets.lying, .sheets").count() == 1
    told = PdfMargins(top="10mm", right="10mm", bottom="10mm", left="10mm")
    assert len(boxes(page.pdf(format=paper, margin=told))) == len(boxes(page.pdf(format=paper)))


def test_every_page_has_its_title_its_fingerprint_and_its_number(look: Look) -> None:
    """Styles put them into the margins of pages (CSS Paged Media); what stands there is a style that the page sets."""
    page = look.at("charts/night-owl-mitten.html")
    stamp = page.locator(".stamp").inner_text()
    page.pdf()  # it is set when the page is printed
    running = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--li-running')")
    assert json.loads(running) == f"Night owl, mitten back · {stamp}"
    page.emulate_media(media="print")
    numbers = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--li-page')")
    assert numbers == '"page " counter(page) " of " counter(pages)'
    margins = (look.site.folder / "assets" / "lintarsia.css").read_text(encoding="utf-8")
    for corner, what in (("left", "running"), ("right", "page")):
        assert re.search(
            rf"@page \{{[^@]*(?:@[^}}]*}}\s*)?@bottom-{corner} \{{ content: var\(--li-{what}, none\)", margins
        )
