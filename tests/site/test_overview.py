"""The overview and the search: sorting, filtering, finding."""

import pytest
from playwright.sync_api import Page, expect
from sitekit import Look, Site


def titles(page: Page) -> list[str]:
    return page.locator(".swatch:visible .name").all_text_contents()


def test_what_blocks_comes_first_and_says_so(look: Look) -> None:
    page = look.at("index.html")
    first = page.locator(".swatch").first
    assert "release" in (first.text_content() or "")
    assert set(titles(page)[:2]) == {"Gate with a fault", "torn.chart.yaml"}


def test_sort_by_supplies(look: Look) -> None:
    page = look.at("index.html")
    page.get_by_label("Sort by").select_option("supplies")
    counts = page.locator(".swatch").evaluate_all("(all) => all.map((one) => Number(one.dataset.supplies ?? -1))")
    assert counts == sorted(counts, reverse=True)


def test_sort_by_title_in_the_table_and_back(look: Look) -> None:
    page = look.at("index.html")
    page.locator("#as-table").check()
    head = page.get_by_role("columnheader", name="Chart")
    head.get_by_role("button").click()
    names = page.locator("tbody th").all_inner_texts()
    assert names == sorted(names, key=str.casefold)
    assert head.get_attribute("aria-sort") == "ascending"
    head.get_by_role("button").click()
    assert page.locator("tbody th").all_inner_texts() == names[::-1]
    assert head.get_attribute("aria-sort") == "descending"


def test_filter_by_words_state_and_technique(look: Look) -> None:
    page = look.at("index.html")
    page.get_by_label("Find").fill("owl")
    assert titles(page) == ["Night owl, mitten back"]
    expect(page.locator(".shown")).to_have_text("1 of 7")
    page.get_by_label("Find").fill("hats")  # the folder
    assert titles(page) == ["Ring of leaves"]
    page.get_by_label("Find").fill("")
    page.locator("select[name=state]").select_option("blocks")
    assert set(titles(page)) == {"Gate with a fault", "torn.chart.yaml"}
    page.locator("select[name=state]").select_option("")
    page.get_by_label("Technique").select_option("stranded")
    assert titles(page) == ["Ring of leaves"]


def test_search_finds_charts_rules_and_results(look: Look) -> None:
    page = look.at("search.html")
    field = page.get_by_role("searchbox")
    field.fill("owl mitten")
    hit = page.locator(".hits li").first
    assert "Night owl, mitten back" in hit.inner_text()
    assert "chart" in hit.inner_text()
    field.fill("stitch-count")
    kinds = set(page.locator(".hits small").all_inner_texts())
    assert {"rule", "result"} <= kinds
    page.locator(".hits li").filter(has_text="Gate with a fault").get_by_role("link").click()
    expect(page.locator(".lx-mark.is-lit")).to_have_count(1)


def test_a_search_that_finds_nothing_says_what_else_to_try(look: Look) -> None:
    page = look.at("search.html?q=flo")
    way_on = page.locator(".no-hits")
    expect(way_on).to_be_hidden()
    page.get_by_role("searchbox").fill("floatsome")
    expect(page.locator(".found")).to_have_text("Nothing found.")
    expect(way_on).to_contain_text("fewer letters of a word, find more")
    assert way_on.get_by_role("link", name="all charts").get_attribute("href") == "index.html"
    page.get_by_role("searchbox").fill("")
    expect(way_on).to_be_hidden()
    page.get_by_role("searchbox").fill("floatsome")
    way_on.get_by_role("link", name="all rules").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Rules")


def test_a_search_can_be_linked_to(look: Look) -> None:
    page = look.at("search.html?q=floats")
    expect(page.get_by_role("searchbox")).to_have_value("floats")
    expect(page.locator(".hits li")).not_to_have_count(0)


def test_the_lamp_is_lit_and_stays_lit(look: Look) -> None:
    page = look.at("index.html", color_scheme="light")
    day = page.evaluate("getComputedStyle(document.body).color")
    page.get_by_role("button", name="Lamplight").click()
    evening = page.evaluate("getComputedStyle(document.body).color")
    assert evening != day
    page.goto(look.site.address + "rules/index.html")
    assert page.evaluate("getComputedStyle(document.body).color") == evening


@pytest.mark.parametrize("path", ["index.html", "charts/night-owl-mitten.html", "search.html?q=owl"])
def test_the_folder_opens_from_a_disk(site: Site, look: Look, path: str) -> None:
    """Without any server: a test knitter may be sent the folder."""
    page = look.at("guide/reading.html")
    page.goto((site.folder / path.split("?")[0]).as_uri() + ("?" + path.split("?")[1] if "?" in path else ""))
    assert page.evaluate("getComputedStyle(document.querySelector('h1')).fontWeight") == "600"
    if "search" in path:
        expect(page.locator(".hits li")).not_to_have_count(0)
    site.asked[:] = [url for url in site.asked if not url.startswith(site.folder.as_uri())]
