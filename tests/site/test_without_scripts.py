"""Everything is in the pages themselves; scripts only add."""

from playwright.sync_api import expect
from sitekit import PHONE, Look


def test_the_overview_is_complete(look: Look) -> None:
    page = look.at("index.html", size=PHONE, java_script_enabled=False)
    expect(page.locator(".swatch")).to_have_count(8)
    expect(page.locator(".swatch .frame img")).to_have_count(7)
    expect(page.locator(".fold")).to_be_hidden()
    page.locator("#as-table").check()
    expect(page.get_by_role("table")).to_be_visible()
    row = page.get_by_role("row").filter(has_text="Night owl")
    for part in ("28 × 50", "10.8 × 14.7 cm", "intarsia", "12", "24"):
        assert part in row.inner_text()


def test_a_chart_s_page_has_all_it_has_to_say(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html", java_script_enabled=False)
    expect(page.locator(".row-list :is(tr, i)[id^='row-']")).to_have_count(50)  # some share a line
    expect(page.locator(".winding tbody tr")).to_have_count(12)
    expect(page.locator(".ends tbody tr")).to_have_count(24)
    page.locator("#over-ends").check()
    expect(page.locator("#c-layer-ends")).to_be_visible()
    expect(page.locator(".zoom")).to_be_hidden()
    expect(page.locator(".knit-card")).to_be_hidden()


def test_a_link_to_a_row_goes_to_it_in_the_list(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html#row-14", java_script_enabled=False)
    row = page.locator("#row-14")
    expect(row).to_be_in_viewport()
    assert "wrong side" in row.inner_text()


def test_no_more_is_promised_than_works(look: Look) -> None:
    page = look.at("charts/night-owl-mitten.html", size=PHONE, java_script_enabled=False)
    expect(page.get_by_text("pick a row in the chart")).to_be_hidden()
    page.get_by_role("link", name="Start at row 1").click()
    expect(page.locator("#row-1")).to_be_in_viewport()


def test_a_result_still_leads_to_its_stitches(look: Look) -> None:
    page = look.at("charts/gate.html", java_script_enabled=False)
    page.locator("a.see").first.click()
    expect(page.locator(".lx-mark:target")).to_be_visible()


def test_search_says_where_to_look_instead(look: Look) -> None:
    page = look.at("search.html", java_script_enabled=False)
    expect(page.get_by_text("Searching needs scripts")).to_be_visible()
