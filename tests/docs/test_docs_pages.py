"""The built documentation in a browser, on phone and desk: nothing sticks out, nothing is refused, search finds."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from blocks import ROOT

pytestmark = pytest.mark.slow

WIDTHS = (390, 1280)
OWN = sorted(page.stem for page in (ROOT / "docs").glob("*.md"))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    executable = shutil.which("chromium")
    assert executable, "there is no chromium; these tests need it (Debian: apt-get install chromium)"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=executable, args=["--no-sandbox", "--disable-gpu"])
        yield browser
        browser.close()


@pytest.mark.parametrize("width", WIDTHS)
def test_pages_fit_and_complain_of_nothing(width: int, browser: Browser, built: Path) -> None:
    """What a content security policy refuses is told on the console: inline styles of drawings would be."""
    page = browser.new_page(viewport={"width": width, "height": 800})
    told: list[str] = []
    page.on("console", lambda message: told.append(message.text))
    page.on("pageerror", lambda error: told.append(str(error)))
    wide = []
    for name in [*OWN, "examples/index", "examples/rules/index", "examples/rules/grid/stitch-count"]:
        page.goto((built / f"{name}.html").as_uri())
        if page.evaluate("document.documentElement.scrollWidth") > width:
            wide.append(name)
    page.close()
    assert (wide, told) == ([], [])


def test_all_pages_are_beside_the_text_on_a_desk_and_one_tap_away_on_a_phone(browser: Browser, built: Path) -> None:
    page = browser.new_page(viewport={"width": 1280, "height": 800})
    page.goto((built / "yarn.html").as_uri())
    contents, text = page.locator("#contents").bounding_box(), page.locator(".docs-text").bounding_box()
    assert contents
    assert text
    assert contents["x"] + contents["width"] <= text["x"]
    assert page.locator("#contents a[aria-current]").inner_text() == "How much yarn"
    page.set_viewport_size({"width": 390, "height": 800})
    page.get_by_role("link", name="All pages").click()
    assert page.locator("#contents").evaluate("e => e.getBoundingClientRect().top") < 800
    boxes = [a.bounding_box() for a in page.locator("#contents a").all()]
    assert all(box["height"] >= 44 for box in boxes if box)
    page.close()


@pytest.mark.parametrize(("words", "link"), [("carry", "words.html#knitting"), ("stitch-count", "stitch-count.html")])
def test_search_finds_pages_and_rules(words: str, link: str, browser: Browser, built: Path) -> None:
    page = browser.new_page()
    page.goto((built / "search.html").as_uri())
    page.get_by_role("searchbox").fill(words)
    links = [a.get_attribute("href") or "" for a in page.locator(".hits a").all()]
    assert [found for found in links if found.endswith(link)]
    page.locator(".hits a").first.click()
    page.wait_for_load_state()
    assert page.locator("h1").count() == 1
    page.close()
