"""The overview and the search: sorting, filtering, finding."""

import pytest
from playwright.sync_api import Page, expect
from sitekit import PHONE, Look, Site


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
    expect(page.locator(".shown")).to_have_text("1 of 8")
    page.get_by_label("Find").fill("hats")  # the folder
    assert titles(page) == ["Ring of leaves"]
    page.get_by_label("Find").fill("")
    page.locator("select[name=state]").select_option("blocks")
    assert set(titles(page)) == {"Gate with a fault", "torn.chart.yaml"}
    page.locator("select[name=state]").select_option("")
    page.get_by_label("Technique").select_option("stranded")
    assert titles(page) == ["Ring of leaves"]


def test_state_and_size_sort_in_their_own_right(look: Look) -> None:
    page = look.at("index.html?as=table")
    rows = page.locator(".listing tbody tr")
    page.get_by_role("columnheader", name="State").get_by_role("button").click()
    states = rows.evaluate_all("(all) => all.map((row) => row.className)")
    order = ["is-blocks", "is-warning", "is-note", "is-clear"]
    assert states == sorted(states, key=order.index)
    assert len(set(states)) > 2
    page.get_by_role("columnheader", name="Size").get_by_role("button").click()
    areas = page.locator(".swatch").evaluate_all("(all) => all.map((one) => Number(one.dataset.area ?? 0))")
    assert areas == sorted(areas, reverse=True)
    assert page.get_by_role("columnheader", name="Size").get_attribute("aria-sort") == "descending"


def test_what_was_chosen_is_there_on_the_way_back(look: Look) -> None:
    page = look.at("index.html")
    page.locator("#as-table").check()
    page.get_by_role("columnheader", name="Ends").get_by_role("button").click()
    page.get_by_role("columnheader", name="Ends").get_by_role("button").click()  # fewest first
    page.locator("select[name=technique]").select_option("intarsia")
    names = page.locator(".listing tbody tr:visible th").all_inner_texts()
    page.locator(".listing tbody tr:visible th a").first.click()
    page.go_back()
    expect(page.get_by_label("Sort by")).to_have_value("ends")
    assert page.locator("#as-table").is_checked()
    assert page.locator(".listing tbody tr:visible th").all_inner_texts() == names
    assert page.get_by_role("columnheader", name="Ends").get_attribute("aria-sort") == "ascending"
    sent = look.at(page.url.removeprefix(look.site.address))  # to somebody else
    assert sent.locator(".listing tbody tr:visible th").all_inner_texts() == names


def test_an_address_that_asks_for_what_is_not_there_is_borne(look: Look) -> None:
    page = look.at("index.html?sort=%22]weight&technique=lace&state=odd&as=heap")
    assert len(titles(page)) == 8


def test_a_filter_that_nothing_fits_offers_all_again(look: Look) -> None:
    page = look.at("index.html", size=PHONE)
    expect(page.locator(".none")).to_be_hidden()
    page.get_by_text("Sort and filter").click()
    page.get_by_label("Find").fill("mitten of no such name")
    expect(page.locator(".none")).to_contain_text("No chart fits")
    expect(page.locator(".shown")).to_have_text("0 of 8")
    page.get_by_role("button", name="Show all charts").click()
    assert len(titles(page)) == 8
    assert "?" not in page.url


def test_the_table_tells_that_it_is_wider_than_a_phone(look: Look) -> None:
    """Its edge fades, and the charts' names stay in sight while the rest is moved."""
    page = look.at("index.html?as=table", size=PHONE)
    table = page.locator(".listing")
    assert "gradient" in table.evaluate("(box) => getComputedStyle(box).maskImage")
    name = table.locator("tbody th").first
    before = name.bounding_box()
    table.evaluate("(box) => { box.scrollLeft = 300; }")
    assert name.bounding_box() == before


# A picture further down is fetched when it is scrolled to, and has its size only then.
IN_SIGHT = """async (all) => {
    for (const one of all) { one.loading = "eager"; }
    await Promise.all(all.map((one) => one.decode()));
}"""


def test_swatches_of_a_shelf_stand_on_one_board(look: Look) -> None:
    page = look.at("index.html", size=PHONE)
    page.locator(".swatch img").evaluate_all(IN_SIGHT)
    feet = page.locator(".swatch .frame").evaluate_all("(all) => all.map((one) => one.getBoundingClientRect().bottom)")
    for left, right in zip(feet[:-1:2], feet[1::2], strict=False):
        assert left == pytest.approx(right, abs=1)
    above = """(all) => all.map((one) => one.querySelector("img, .torn").getBoundingClientRect().top
        - one.getBoundingClientRect().top)"""
    holes = page.locator(".swatch").evaluate_all(above)
    for left, right in zip(holes[:-1:2], holes[1::2], strict=False):
        assert min(left, right) < 60  # the higher one fills its shelf


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
    look.close()  # an icon may be asked for long after the page
    site.asked[:] = [url for url in site.asked if not url.startswith(site.folder.as_uri())]
