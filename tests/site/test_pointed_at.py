"""What an address or a tap points at is in sight, and is what was meant."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from sitekit import PHONE, box
from smallchart import small_chart

from lintarsia.publishing.site.building import build_site

# Row 4 has a single stitch, and as a whole looks mirrored: two results, the mark of one upon that of the other.
ROWS = [*["BBBBBBBBWWBBBB"] * 6, "BBBBWBBBBBBBBB", *["BBBBBBBBBBBBBB"] * 3]


SEEN = """() => {
  const note = document.querySelector(".lit-note").getBoundingClientRect();
  return lintarsia.placeOf({ row: 4, first: 7, last: 9 }).bottom < note.y;
}"""


@pytest.fixture(scope="module")
def fox(tmp_path_factory: pytest.TempPathFactory) -> str:
    folder: Path = tmp_path_factory.mktemp("fox")
    (folder / "fox.chart.yaml").write_text(small_chart("Fox", ROWS), "utf-8")
    build_site([str(folder)], str(folder / "site"))
    return f"{(folder / 'site').as_uri()}/charts/fox.html"


def on_a_phone(browser: Browser, address: str) -> Page:
    page = browser.new_page(viewport=PHONE)
    page.goto(address)
    return page


def test_what_is_said_of_stitches_does_not_hide_them(browser: Browser, fox: str) -> None:
    """The scripts behind the one that follows the address put buttons above the chart, which moves down."""
    page = on_a_phone(browser, f"{fox}#row-4-s7-9")
    note = page.locator(".lit-note")
    expect(note).to_contain_text("row 4 (WS), stitches 7–9")
    page.wait_for_timeout(200)  # a frame later everything stands where it will
    assert page.evaluate(SEEN)
    assert box(note)["y"] > 0
    page.close()


def test_of_two_marks_upon_one_another_a_tap_means_the_smaller(browser: Browser, fox: str) -> None:
    page = on_a_phone(browser, fox)
    page.evaluate("document.getElementById('over-results').click()")
    small, large = (page.locator(f'[id^="c-mark-"][data-last="{last}"]') for last in (10, 14))
    assert box(small)["width"] < box(large)["width"] / 5
    small.scroll_into_view_if_needed()
    at = box(small)
    page.mouse.click(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
    expect(page.locator(".lit-note")).to_contain_text("stitch 10 of row 4 is a single stitch", ignore_case=True)
    at = box(large)
    page.mouse.click(at["x"] + 4, at["y"] + at["height"] / 2)
    expect(page.locator(".lit-note")).to_contain_text("would fit between rows 3 and 5", ignore_case=True)
    page.close()
