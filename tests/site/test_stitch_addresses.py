"""Addresses of stitches and of results: `#row-14-s7-9` marks stitches, and what is looked at can be handed on."""

import re

from playwright.sync_api import Page, expect
from sitekit import PHONE, Look

OWL, GATE = "charts/night-owl-mitten.html", "charts/gate.html"


def middle(page: Page, row: int, stitch: int) -> tuple[float, float]:
    """Where a stitch is in the window; the chart has been brought into view."""
    x, y = page.evaluate(
        """([row, stitch]) => { const svg = document.querySelector("svg.lx-chart"), d = svg.dataset;
        svg.scrollIntoView({ block: "center", behavior: "instant" });
        const at = new DOMPoint(+d.left + (d.columns - stitch + 0.5) * d.cellWidth, +d.top + (d.rows - row + 0.5) *
        d.cellHeight).matrixTransform(svg.getScreenCTM()); return [at.x, at.y]; }""",
        [row, stitch],
    )
    return x, y


def test_an_address_marks_stitches_and_names_them(look: Look) -> None:
    page = look.at(f"{OWL}#row-14-s7-9", size=PHONE)
    expect(page.locator(".lit-note")).to_contain_text("row 14 (WS), stitches 7–9")
    frame = page.locator(".spot-frame")
    expect(frame).to_be_in_viewport()
    box = frame.bounding_box()
    assert box
    for stitch in (7, 9):  # from the right, whichever way the row is worked
        x, y = middle(page, 14, stitch)
        now = frame.bounding_box()
        assert now
        assert now["x"] < x < now["x"] + now["width"]
        assert now["y"] < y < now["y"] + now["height"]
    x, _ = middle(page, 14, 10)
    assert x < (frame.bounding_box() or box)["x"]
    expect(page.locator(".knit-card")).to_be_hidden()
    page.evaluate("location.hash = '#row-3-s28'")
    expect(page.locator(".lit-note")).to_contain_text("row 3 (RS), stitch 28")
    page.keyboard.press("Escape")
    page.get_by_role("button", name="No longer show").click()
    expect(frame).to_have_count(0)


def test_stitches_that_are_not_there_are_said_not_to_be(look: Look) -> None:
    page = look.at(f"{OWL}#row-14-s7-90")
    expect(page.locator(".lit-note")).to_contain_text(
        "There is no row 14 (WS), stitches 7–90: the chart has 28 stitches"
    )
    expect(page.locator(".spot-frame")).to_have_count(0)


def test_of_several_stitches_no_yarn_is_told_that_is_not_theirs(look: Look) -> None:
    page = look.at(f"{OWL}#row-14-s1-28", size=PHONE)
    expect(page.locator(".readout")).to_have_text("row 14 WS, stitches 1–28")
    page.evaluate("location.hash = '#row-14-s7-90'")
    expect(page.locator(".lit-note")).to_contain_text("There is no row 14")
    expect(page.locator(".readout")).to_be_hidden()


def test_a_result_that_is_clicked_has_its_address_in_the_bar(look: Look) -> None:
    page = look.at(GATE)
    page.locator("a.see").first.click()
    assert re.fullmatch("#result-[A-Za-z0-9-]+", page.evaluate("location.hash"))
    page.reload()
    expect(page.locator(".lx-mark.is-lit")).to_have_count(1)


def test_a_mark_in_the_chart_opens_its_result_and_no_row_to_knit(look: Look) -> None:
    page = look.at(GATE, size=PHONE, has_touch=True)
    page.locator("#over-results").check(force=True)
    mark = page.locator(".lx-mark").first
    row, first = (int(mark.get_attribute(f"data-{name}") or 0) for name in ("row", "first"))
    page.touchscreen.tap(*middle(page, row, first))
    expect(page.locator(".lit-note")).to_be_visible()
    expect(page.locator(".knit-card")).to_be_hidden()
    assert page.evaluate("location.hash").startswith("#result-")


def test_a_stitch_that_is_held_tells_whoever_listens(look: Look) -> None:
    page = look.at(OWL)
    page.evaluate(
        """() => document.querySelector("svg.lx-chart").addEventListener("lintarsia:held", (event) => {
        event.preventDefault(); window.held = event.detail; })"""
    )
    page.mouse.move(*middle(page, 14, 7))
    page.mouse.down()
    page.wait_for_timeout(700)
    page.mouse.up()
    held = page.evaluate("window.held")
    assert (held["row"], held["first"], held["last"], held["address"]) == (14, 7, 7, "#row-14-s7")
    assert held["name"] == "row 14 (WS), stitch 7"
    expect(page.locator(".knit-card")).to_be_hidden()
