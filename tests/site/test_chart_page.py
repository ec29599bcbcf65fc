"""A chart's page in a real browser: pictures, layers, results, and knitting along, on a phone and at a desk."""

import re

import pytest
from playwright.sync_api import Page, ViewportSize, expect
from sitekit import DESK, PHONE, Look
from sitekit import box as where

OWL = "charts/night-owl-mitten.html"
GATE = "charts/gate.html"
LARGE = "charts/little-boat-jumper.html"


def shown_row(page: Page) -> str:
    return page.locator("#knit-title").inner_text()


@pytest.mark.parametrize("size", [PHONE, DESK])
@pytest.mark.parametrize("path", [OWL, GATE, "charts/orchard-bag.html", "index.html", "guide/techniques.html"])
def test_nothing_is_wider_than_the_window(look: Look, size: ViewportSize, path: str) -> None:
    page = look.at(path, size=size)
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def test_on_a_phone_the_balls_to_buy_are_in_view_and_a_row_can_be_hit(look: Look) -> None:
    page = look.at(OWL, size=PHONE)
    table = page.get_by_role("region", name="Yarn to buy")
    assert table.evaluate("(e) => e.scrollWidth <= e.clientWidth")
    box = page.locator(".row-list th a").first.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 44


def test_a_tap_picks_the_row_under_the_finger(look: Look) -> None:
    page = look.at(OWL, size=PHONE, has_touch=True)
    place = page.evaluate(
        """() => { const svg = document.querySelector("svg.lx-chart"), d = svg.dataset, m = svg.getScreenCTM();
        const at = new DOMPoint(+d.left + d.columns * d.cellWidth / 2, +d.top + (50 - 14 + 0.5) * d.cellHeight);
        const p = at.matrixTransform(m); window.scrollTo(0, p.y - 200); return [p.x, 200]; }"""
    )
    page.touchscreen.tap(*place)
    expect(page.locator(".knit-card")).to_be_visible()
    assert shown_row(page).startswith("Row 14")
    assert "wrong side" in shown_row(page)
    assert page.evaluate("location.hash") == "#row-14"


def test_a_link_to_a_row_shows_it_bright_and_the_rest_dim(look: Look) -> None:
    page = look.at(f"{OWL}#row-20", size=PHONE)
    expect(page.locator(".knit-card")).to_be_visible()
    shares = page.evaluate(
        "[19, 20, 21].map((row) => +getComputedStyle(document.getElementById(`c-row-${row}`)).opacity)"
    )
    assert shares[1] == 1
    assert max(shares[0], shares[2]) <= 0.5


def test_the_row_is_in_view_above_the_card(look: Look) -> None:
    page = look.at(f"{OWL}#row-20", size=PHONE)
    page.wait_for_timeout(200)
    row = page.locator(".row-frame").bounding_box()
    card = page.locator(".knit-card").bounding_box()
    assert row is not None
    assert card is not None
    assert row["y"] >= 0
    assert row["y"] + row["height"] <= card["y"]


def test_the_card_tells_the_stitches_run_by_run_and_the_line_up_as_it_hangs(look: Look) -> None:
    page = look.at(f"{OWL}#row-7", size=PHONE)  # the file: FFFFFFFFFFBBTTTTBBFFFFFFFFFF, a right-side row
    runs = [" ".join(text.split()) for text in page.locator(".knit-body .run").all_inner_texts()]
    assert [run.rpartition(" ")[0] for run in runs] == ["10 Pine", "2 Bark", "4 Sand", "2 Bark", "10 Pine"]
    yarns = [run.rpartition(" ")[2] for run in runs]
    assert yarns == page.locator(".knit-body .hangs li b").all_inner_texts()  # each works one run, first to last
    boxes = [where(yarn)["x"] for yarn in page.locator(".knit-body .hangs li").all()]
    assert boxes == sorted(boxes, reverse=True)  # worked from right to left, so the first to be used hangs rightmost
    new = page.locator(".knit-body .hangs li.new")
    assert new.count() == 2
    assert all("new" in text for text in new.all_inner_texts())
    assert "butterfly" in page.locator(".knit-body .hangs li").first.inner_text()


def test_the_keyboard_alone_goes_from_row_to_row(look: Look) -> None:
    page = look.at(OWL)
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == "viewport":
            break
    assert page.evaluate("document.activeElement.id") == "viewport"
    page.keyboard.press("ArrowUp")
    assert shown_row(page).startswith("Row 1")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    assert re.match(r"Row 3\b", shown_row(page))
    page.keyboard.press("ArrowDown")
    assert re.match(r"Row 2\b", shown_row(page))
    page.keyboard.press("End")
    assert shown_row(page).startswith("Row 50")
    page.keyboard.press("Escape")
    expect(page.locator(".knit-card")).to_be_hidden()
    assert page.evaluate("document.activeElement.id") == "viewport"


def test_the_place_is_kept_in_the_browser(look: Look) -> None:
    page = look.at(f"{OWL}#row-12", size=PHONE)
    page.get_by_role("button", name="Next row").click()
    page.goto("about:blank")
    page.goto(look.site.address + OWL)
    page.get_by_role("link", name="Go on at row 13").click()
    assert shown_row(page).startswith("Row 13")
    page.reload()
    assert shown_row(page).startswith("Row 13")


def test_the_way_in_is_offered_only_while_no_row_is_shown(look: Look) -> None:
    page = look.at(OWL, size=PHONE)
    hint = page.locator(".go")
    expect(hint).to_have_text("Start at row 1 or pick a row in the chart")
    assert where(hint)["y"] < 400  # near the top: it is what a knitter comes for
    hint.get_by_role("link").focus()
    page.keyboard.press("Enter")
    assert shown_row(page).startswith("Row 1")
    expect(hint).to_be_hidden()
    expect(page.get_by_role("button", name="Next row")).to_be_focused()
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Stop knitting along").press("Enter")
    expect(page.get_by_role("link", name="Go on at row 2")).to_be_focused()
    expect(hint).to_be_visible()


def test_a_screen_reader_is_told_the_row(look: Look) -> None:
    page = look.at(f"{OWL}#row-7")
    said = page.locator("#knit-say")
    assert said.get_attribute("aria-live") == "polite"
    text = said.text_content() or ""
    assert text.startswith("row 7, right side, right to left on the chart: 10 Pine, 2 Bark, 4 Sand, 2 Bark, 10 Pine.")
    assert "Join " in text


def test_what_is_touched_is_large_enough(look: Look) -> None:
    page = look.at(f"{OWL}#row-7", size=PHONE, has_touch=True)
    buttons = page.locator("button:visible, .pictures label:visible, .layers label:visible, .tick label:visible").all()
    buttons += page.locator(".site-head a:visible, .site-head button:visible").all()
    assert len(buttons) > 14
    for button in buttons:
        box = button.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 44, button.evaluate("(e) => e.outerHTML")


def test_rounds_are_all_worked_from_right_to_left(look: Look) -> None:
    page = look.at("charts/hats/ring.html#row-2")
    assert shown_row(page).startswith("Round 2")
    assert "side" not in shown_row(page)
    assert "←" in shown_row(page)


def test_a_layer_is_laid_over_and_taken_off(look: Look) -> None:
    page = look.at(GATE)
    layer = page.locator("#c-layer-supplies")
    expect(layer).to_be_hidden()
    page.get_by_role("checkbox", name="Yarn paths").check()
    expect(layer).to_be_visible()
    page.get_by_role("checkbox", name="Yarn paths").uncheck()
    expect(layer).to_be_hidden()


def test_the_other_pictures_take_the_chart_s_place(look: Look) -> None:
    page = look.at(OWL)
    for name, kind in (("fabric", "img"), ("back", "svg")):
        page.locator(f"#show-{name}").check()
        picture = page.locator(f".picture-{name} {kind}")
        expect(picture).to_be_visible()
        expect(page.locator(".picture-chart")).to_be_hidden()
        assert where(picture)["width"] > 100
    page.locator(".picture-fabric img").evaluate("(image) => image.decode()")
    assert page.locator(".picture-fabric img").evaluate("(image) => image.naturalWidth") > 100


def test_a_large_chart_has_its_wrong_side_and_its_yarn_paths_in_pictures_of_their_own(look: Look) -> None:
    page = look.at(LARGE)
    for name in ("back", "paths"):
        page.locator(f"#show-{name}").check()
        picture = page.locator(f".picture-{name} img")
        expect(picture).to_be_visible()
        picture.evaluate("(image) => image.decode()")
        assert picture.evaluate("(image) => image.naturalWidth") > 100


def test_the_paths_of_the_yarns_are_the_chart_s_own_drawing(look: Look) -> None:
    page = look.at(OWL)
    paths, names = page.locator("#c-layer-supplies"), page.locator(".lx-chips")
    symbol = page.locator(".lx-cells text").first
    expect(names).to_be_hidden()
    page.locator("#show-paths").check()
    expect(paths).to_be_visible()
    expect(names).to_be_visible()
    expect(symbol).to_be_hidden()
    expect(page.locator(".of-paths")).to_contain_text("Each line is one yarn")
    page.locator("#show-chart").check()
    expect(paths).to_be_hidden()
    expect(symbol).to_be_visible()


def test_a_result_lights_up_its_stitches(look: Look) -> None:
    page = look.at(GATE)
    link = page.locator("a.see").first
    number = link.get_attribute("data-mark")
    mark = page.locator(f"#c-mark-{number}")
    expect(mark).to_be_hidden()
    link.click()
    expect(mark).to_be_visible()
    assert "is-lit" in (mark.get_attribute("class") or "")
    assert mark.get_attribute("data-row") == link.get_attribute("data-row")


def test_a_link_to_a_result_opens_and_lights_it(look: Look) -> None:
    page = look.at(GATE)
    anchor = page.locator(".spot").first.get_attribute("id")
    page = look.at(f"{GATE}#{anchor}")
    expect(page.locator(".lx-mark.is-lit")).to_have_count(1)
    expect(page.locator(f"#{anchor}")).to_be_visible()


def test_ticks_are_kept(look: Look) -> None:
    page = look.at(OWL)
    box = page.locator("input[data-tick='F2']").first
    box.check()
    page.reload()
    expect(page.locator("input[data-tick='F2']").first).to_be_checked()
    expect(page.locator("input[data-tick='B1']").first).not_to_be_checked()


def test_larger_and_smaller(look: Look) -> None:
    page = look.at(OWL)
    svg = page.locator("svg.lx-chart")
    before = where(svg)["width"]
    page.get_by_role("button", name="larger").click()
    assert where(svg)["width"] == pytest.approx(before * 1.5, rel=0.02)
    page.get_by_role("button", name="fit").click()
    assert where(svg)["width"] == pytest.approx(before, rel=0.01)


def test_a_chart_that_cannot_be_read_says_why(look: Look) -> None:
    page = look.at("charts/torn.html")
    assert "cannot be drawn until its file is mended" in page.locator(".lede").inner_text()
    expect(page.locator("tr.faulty")).to_have_count(1)
    expect(page.locator(".result")).not_to_have_count(0)


def test_a_chart_for_an_infant_points_to_the_cautions(look: Look) -> None:
    page = look.at(GATE)
    page.get_by_role("link", name="what to look out for").click()
    expect(page.get_by_role("heading", name="For infants and children")).to_be_visible()


def test_once_loaded_it_needs_no_network(look: Look) -> None:
    page = look.at(OWL, size=PHONE)
    page.context.set_offline(True)
    page.get_by_role("link", name="Start at row 1").click()
    for _ in range(3):
        page.get_by_role("button", name="Next row").click()
    assert shown_row(page).startswith("Row 4")


def test_a_pattern_leads_to_its_charts_and_says_what_to_buy(look: Look) -> None:
    page = look.at("charts/bag-pattern.html")
    assert "knit 2" in page.get_by_role("listitem").filter(has_text="ring").inner_text()
    assert "Market Cotton" in page.locator("section").filter(has_text="Materials").inner_text()
    page.get_by_role("link", name="front", exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Bag of two sides: front")
    page.get_by_role("link", name="Bag of two sides").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Bag of two sides")


def test_the_screen_is_kept_on_while_knitting_and_let_go_after(look: Look) -> None:
    page = look.at(OWL)
    page.evaluate(
        """() => { window.locks = []; Object.defineProperty(navigator, "wakeLock", { value: { request: async (kind) => {
        const lock = { kind, on: true, addEventListener() {}, release() { lock.on = false; } };
        window.locks.push(lock); return lock; } } }); }"""
    )
    page.get_by_role("link", name="Start at row 1").click()
    page.get_by_role("button", name="Next row").click()
    page.wait_for_function("window.locks.length === 1 && window.locks[0].kind === 'screen' && window.locks[0].on")
    page.keyboard.press("Escape")
    page.wait_for_function("window.locks.length === 1 && !window.locks[0].on")


def test_a_row_of_many_runs_leaves_the_way_on_within_reach(look: Look) -> None:
    page = look.at("charts/orchard-bag.html#row-43", size=PHONE)
    button = page.get_by_role("button", name="Next row").bounding_box()
    assert button is not None
    assert button["y"] + button["height"] <= PHONE["height"]
    assert "2 pairs of yarns have to cross" in page.locator(".knit-body").inner_text()
