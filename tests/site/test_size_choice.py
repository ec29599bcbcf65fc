"""The size is chosen once on the cover, kept in the browser, and applied on every page of the pattern."""

from playwright.sync_api import expect
from sitekit import DESK, PHONE, Look

COVER = "charts/bag-pattern.html"


def test_a_size_is_chosen_once_and_kept(look: Look) -> None:
    page = look.at(COVER, size=PHONE)
    small = page.get_by_role("link", name="ring, small")
    large = page.get_by_role("link", name="ring, large")
    expect(small).to_be_visible()
    expect(large).to_be_visible()
    page.get_by_label("large", exact=True).check(force=True)
    expect(small).to_be_hidden()
    expect(large).to_be_visible()
    expect(page.get_by_role("columnheader", name="small").first).to_be_hidden()
    page.reload()
    expect(page.get_by_label("large", exact=True)).to_be_checked()
    expect(small).to_be_hidden()
    page.get_by_label("all sizes").check(force=True)
    expect(small).to_be_visible()
    page.reload()
    expect(page.get_by_label("all sizes")).to_be_checked()


def test_a_page_of_another_size_leads_to_the_chosen_one(look: Look) -> None:
    page = look.at(COVER, size=DESK)
    page.get_by_label("large", exact=True).check(force=True)
    page.goto(look.site.address + "charts/bag-pattern/ring-small.html")
    line = page.locator('[data-part="other-size"]')
    expect(line).to_contain_text("You have chosen large")
    line.get_by_role("link").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Bag of two sides: ring, large")
    expect(page.locator('[data-part="other-size"]')).to_be_hidden()


def test_a_size_may_be_chosen_on_a_piece_s_page(look: Look) -> None:
    page = look.at("charts/bag-pattern/ring-large.html", size=PHONE)
    page.get_by_role("navigation", name="Sizes").get_by_role("link", name="small").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Bag of two sides: ring, small")
    page.goto(look.site.address + COVER)
    expect(page.get_by_label("small", exact=True)).to_be_checked()
    expect(page.get_by_role("link", name="ring, large")).to_be_hidden()


def test_without_scripts_every_size_is_there(look: Look) -> None:
    page = look.at(COVER, size=PHONE, java_script_enabled=False)
    expect(page.get_by_role("link", name="ring, small")).to_be_visible()
    expect(page.get_by_role("link", name="ring, large")).to_be_visible()
    expect(page.locator('[data-part="sizes"]')).to_be_hidden()
