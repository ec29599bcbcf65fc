"""The card beside the needles: what it tells, in which order, and what stays in sight."""

import pytest
from playwright.sync_api import Page, ViewportSize, expect
from sitekit import DESK, PHONE, Look, box

OWL, RING, BAG = "charts/night-owl-mitten.html", "charts/hats/ring.html", "charts/orchard-bag.html"
SMALL, LYING = ViewportSize(width=360, height=640), ViewportSize(width=844, height=390)


def order_from_the_right(page: Page) -> list[str]:
    """The names of the drawn yarns, as they are seen from right to left."""
    yarns = page.locator(".knit-body .hangs li").all()
    seen = sorted(((box(yarn)["x"], yarn.locator("b").inner_text()) for yarn in yarns), reverse=True)
    return [name for _, name in seen]


def used(page: Page) -> list[str]:
    """The yarns of the row in the order of use, as its runs name them."""
    return list(dict.fromkeys(page.locator("tr.is-current .run em").all_text_contents()))


# Common practice: stitches are worked off the left needle, whose tip points to the right, on either side of the work.
@pytest.mark.parametrize("row", [20, 21])
def test_on_either_side_the_first_yarn_hangs_at_the_knitter_s_right(look: Look, row: int) -> None:
    page = look.at(f"{OWL}#row-{row}")
    assert len(used(page)) > 3
    assert order_from_the_right(page) == used(page)
    side = "Right side" if row % 2 else "Wrong side"
    expect(page.get_by_role("group", name=f"{side} facing you · first at the right")).to_be_visible()
    expect(page.locator(".knit-head .reading")).to_have_text("chart ←" if row % 2 else "chart →")


def test_a_round_is_never_turned(look: Look) -> None:
    page = look.at(f"{RING}#row-2")
    assert order_from_the_right(page) == used(page)
    expect(page.get_by_role("group", name="As they hang before you · first at the right")).to_be_visible()


def test_the_list_names_yarns_in_the_order_of_use(look: Look) -> None:
    page = look.at(OWL)
    for row in (20, 21):
        line = page.locator(f"#row-{row}")
        runs = dict.fromkeys(line.locator(".run em").all_text_contents())
        assert line.locator(".hangs li b").all_text_contents() == list(runs)
    expect(page.locator(".row-list .hint").first).to_contain_text("Yarns stand in the order of use.")
    expect(page.locator(".row-list .hint").first).to_contain_text("before you in that order from right to left")


@pytest.mark.parametrize("size", [PHONE, SMALL, LYING, DESK])
def test_row_and_way_on_stay_in_sight_however_long_the_row(look: Look, size: ViewportSize) -> None:
    page = look.at(f"{BAG}#row-43", size=size)
    page.set_viewport_size({"width": size["width"], "height": min(size["height"], 420)})
    body = page.locator(".knit-body")
    body.evaluate("(e) => e.scrollTo(0, e.scrollHeight)")
    card, head, foot = box(page.locator(".knit-card")), box(page.locator(".knit-head")), box(page.locator(".knit-foot"))
    assert card["y"] <= head["y"]
    assert head["y"] + head["height"] <= box(body)["y"] + 1
    assert box(body)["y"] + box(body)["height"] <= foot["y"] + 1
    assert foot["y"] + foot["height"] == pytest.approx(card["y"] + card["height"], abs=1.5)  # nothing shows beneath
    page.get_by_role("button", name="Next row").click()
    assert body.evaluate("(e) => e.scrollTop") == 0
    expect(page.locator("#knit-title")).to_be_in_viewport()


@pytest.mark.parametrize("size", [PHONE, SMALL, LYING, DESK])
def test_yarns_come_first_and_nothing_lies_over_anything(look: Look, size: ViewportSize) -> None:
    page = look.at(f"{OWL}#row-41", size=size)
    yarns, work = box(page.locator(".hanging")), box(page.locator(".work"))
    assert yarns["y"] + yarns["height"] <= work["y"] or yarns["x"] + yarns["width"] <= work["x"]
    labels = [box(part) for part in page.locator(".knit-body .hangs :is(b, span, i):visible").all()]
    for one in labels:
        for other in labels:
            if one is not other and abs(one["y"] - other["y"]) < 2:
                left, right = sorted((one, other), key=lambda label: label["x"])
                assert left["x"] + left["width"] <= right["x"] + 0.5


def test_a_phone_on_its_side_has_the_card_beside_the_chart(look: Look) -> None:
    page = look.at(f"{OWL}#row-20", size=LYING)
    card, chart = box(page.locator(".knit-card")), box(page.locator("#viewport"))
    assert chart["x"] + chart["width"] <= card["x"]
    row = box(page.locator(".row-frame"))
    assert 0 <= row["y"] <= LYING["height"] - row["height"]


def test_the_card_folds_and_stays_folded(look: Look) -> None:
    page = look.at(f"{OWL}#row-20", size=PHONE)
    fold = page.get_by_role("button", name="Yarns and stitches of the row")
    high = box(page.locator(".knit-card"))["height"]
    fold.click()
    expect(fold).to_have_attribute("aria-expanded", "false")
    runs, now = page.locator(".knit-body .run"), page.locator(".knit-body .run:visible")
    expect(now).to_have_text([runs.first.text_content() or ""])  # what comes next, and nothing else
    assert box(page.locator(".knit-card"))["height"] < high / 2
    page.get_by_role("button", name="Tick off a run").click()
    expect(now).to_have_text([runs.nth(1).text_content() or ""])
    page.get_by_role("button", name="Next row").click()
    expect(now).to_have_text([runs.first.text_content() or ""])
    fold.click()
    expect(now).to_have_count(runs.count())


def test_folded_it_still_tells_what_must_not_be_missed(look: Look) -> None:
    page = look.at(f"{OWL}#row-41", size=PHONE)
    page.get_by_role("button", name="Yarns and stitches of the row").click()
    expect(page.locator(".knit-body .shaped")).to_be_visible()
    expect(page.locator(".knit-body .line-up")).to_be_hidden()


def test_shaping_is_said_on_the_card_in_the_list_aloud_and_in_the_key(look: Look) -> None:
    page = look.at(f"{OWL}#row-41")  # the file: 41: {right: -1, left: -1}, after forty rows of 28 stitches
    words = "decrease 1 at each end: 28 to 26 stitches"
    expect(page.locator(".knit-body .shaped")).to_have_text(words)
    expect(page.locator("#row-41 .shaped")).to_have_text(words)
    expect(page.locator("#row-42 .shaped")).to_have_count(0)
    assert f", {words}: 5 Pine," in (page.locator("#knit-say").text_content() or "")
    expect(page.locator(".key-list")).to_contain_text("decrease one triangle a stitch, pointing at the fabric")


def test_a_stretch_that_comes_again_and_again_is_told_once(look: Look) -> None:
    page = look.at(f"{RING}#row-1")  # the file: five times GCCC, then G, worked from the right
    expect(page.locator(".knit-body .again")).to_have_text("4 stitches, 5 times:")
    said = [" ".join(text.split()) for text in page.locator(".knit-body .runs > *").all_inner_texts()]
    assert said == ["1 Moss G1", "3 Cream C1", "then", "1 Moss G1"]
    assert "4 stitches, 5 times: 1 Moss, 3 Cream; then 1 Moss." in (page.locator("#knit-say").text_content() or "")
    assert len(page.locator("#row-1 .run").all()) == 3  # as in the list


def test_from_the_chart_the_next_stop_of_the_keyboard_is_the_card(look: Look) -> None:
    page = look.at(OWL)
    page.locator("#viewport").focus()
    page.keyboard.press("ArrowUp")
    stops = []
    for _ in range(6):
        page.keyboard.press("Tab")
        stops.append(page.evaluate("document.activeElement.closest('.knit-card') !== null"))
        if page.evaluate("document.activeElement.dataset.knit") == "next":
            break
    assert page.evaluate("document.activeElement.dataset.knit") == "next"
    assert all(stops)


def test_what_does_not_fit_can_be_scrolled_by_the_keyboard(look: Look) -> None:
    page = look.at(f"{BAG}#row-43", size=SMALL)
    for part in page.locator(".knit-body, .line-up").all():
        reached, over = part.evaluate(
            "(e) => [e.tabIndex, e.scrollHeight > e.clientHeight + 1 || e.scrollWidth > e.clientWidth + 1]"
        )
        assert (reached == 0) is over


def test_going_back_leaves_the_row_that_a_link_led_to(look: Look) -> None:
    page = look.at(OWL)
    page.locator("#row-22 th a").click()
    expect(page.locator("#knit-title")).to_contain_text("Row 22")
    page.go_back()
    expect(page.locator(".knit-card")).to_be_hidden()
    assert page.evaluate("location.hash") == ""
    page.go_forward()
    expect(page.locator("#knit-title")).to_contain_text("Row 22")


def test_a_row_that_is_not_there_is_said_not_to_be(look: Look) -> None:
    page = look.at(f"{OWL}#row-999", size=PHONE)
    expect(page.locator(".go")).to_contain_text("There is no row 999: the last is row 50.")
    expect(page.locator(".go")).to_be_in_viewport()
    expect(page.locator("#knit-say")).to_have_text("There is no row 999: the last is row 50.")
    expect(page.locator(".knit-card")).to_be_hidden()


def test_the_numbers_of_rows_to_come_can_be_read(look: Look) -> None:
    page = look.at(f"{OWL}#row-20")
    page.wait_for_timeout(100)
    shares = page.locator(".lx-row-numbers text").evaluate_all("(all) => all.map((e) => +getComputedStyle(e).opacity)")
    assert min(shares) == 1


def test_a_tap_before_all_scripts_have_started_is_answered_and_the_rest_comes(look: Look) -> None:
    """Whoever taps at once has the row; its numbers, its address and what lies far below come behind it."""
    page = look.at(OWL, size=PHONE)
    page.add_init_script(
        """addEventListener("DOMContentLoaded", () => {
          window.coming = document.documentElement.classList.contains("is-coming");
          document.querySelector(".start").click();
          window.answer = document.querySelector(".knit-head h2").textContent;
        });"""
    )
    page.goto(look.site.address + OWL)
    assert page.evaluate("[window.coming, window.answer.slice(0, 5)]") == [True, "Row 1"]
    expect(page).to_have_url(f"{look.site.address}{OWL}#row-1")
    expect(page.get_by_role("button", name="Say something of this row")).to_be_visible()
    expect(page.locator(".window.is-ruled .ruler.at-right span").first).to_be_visible()
    expect(page.locator(".row-list")).to_be_visible()
    assert 0 < box(page.locator(".row-frame"))["y"] < box(page.locator(".knit-card"))["y"]
