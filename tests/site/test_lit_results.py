"""A result lit in the chart: its words are there too, and lead back to the list."""

from playwright.sync_api import expect
from sitekit import PHONE, Look


def test_what_is_lit_is_told_where_one_looks(look: Look) -> None:
    page = look.at("charts/gate.html", size=PHONE)
    note = page.locator(".lit-note")
    expect(note).to_be_hidden()
    spot = page.locator(".spot:has(a.see)").first
    spot.locator("a.see").click()
    expect(note).to_be_in_viewport()
    assert " ".join(note.locator("p").inner_text().split()) == " ".join((spot.text_content() or "").split())
    note.get_by_role("link").click()
    expect(spot).to_be_in_viewport()
    assert page.url.endswith(f"#{spot.get_attribute('id')}")
    page.emulate_media(media="print")
    expect(note).to_be_hidden()


def test_it_is_put_out_again(look: Look) -> None:
    page = look.at("charts/gate.html")
    page.locator("a.see").first.click()
    page.get_by_role("button", name="No longer show").click()
    expect(page.locator(".lit-note")).to_be_hidden()
    expect(page.locator(".lx-mark.is-lit")).to_have_count(0)
    page.locator("a.see").first.click()
    page.keyboard.press("Escape")
    expect(page.locator(".lit-note")).to_be_hidden()
