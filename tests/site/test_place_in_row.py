"""Where one is within a row; either hand; line-ups of any length; large letters; what is told of a row."""

import pytest
from playwright.sync_api import Page, ViewportSize, expect
from sitekit import DESK, PHONE, Look, box

OWL, RING, BAG, GATE = (f"charts/{name}.html" for name in ("night-owl-mitten", "hats/ring", "orchard-bag", "gate"))
NARROW = ViewportSize(width=340, height=760)


def place(page: Page) -> str:
    return page.locator('[data-part="card-place"]').inner_text()


def test_runs_are_ticked_off_one_by_one_and_the_place_is_kept(look: Look) -> None:
    page = look.at(f"{OWL}#row-7", size=PHONE)  # the file: FFFFFFFFFFBBTTTTBBFFFFFFFFFF, a right-side row
    assert place(page) == "run 1 of 5, row 7 of 50"
    tick = page.get_by_role("button", name="Tick off a run")
    tick.click()
    tick.click()
    assert place(page) == "run 3 of 5, row 7 of 50"
    expect(page.locator(".knit-body .run.is-done")).to_have_count(2)
    expect(page.locator(".knit-body .run.is-here")).to_contain_text("Sand")
    # It is framed on the chart: four stitches after twelve, from the right.
    frame, stitch = page.locator(".run-frame"), "([first, last]) => lintarsia.frameOf({ row: 7, first, last }, 1)"
    wanted = page.evaluate(stitch, [13, 16])
    found = {name: float(frame.get_attribute(name) or 0) for name in ("x", "y", "width", "height")}
    assert found == pytest.approx(wanted)
    page.reload()
    assert place(page) == "run 3 of 5, row 7 of 50"
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    assert place(page) == "all runs ticked off, row 7 of 50"
    expect(tick).to_be_disabled()
    page.get_by_role("button", name="Next row").click()
    assert place(page) == "run 1 of 5, row 8 of 50"


def test_a_touched_run_is_where_one_is(look: Look) -> None:
    page = look.at(f"{OWL}#row-7", size=PHONE)
    page.locator(".knit-body .run").nth(3).click()
    assert place(page) == "run 4 of 5, row 7 of 50"
    page.keyboard.press("ArrowLeft")
    assert place(page) == "run 3 of 5, row 7 of 50"


def test_repeats_are_counted(look: Look) -> None:
    page = look.at(f"{RING}#row-1")  # the file: five times GCCC, then G, worked from the right
    assert place(page) == "repeat 1 of 5, run 1 of 2, round 1 of 4"
    for _ in range(3):
        page.get_by_role("button", name="Tick off a run").click()
    assert place(page) == "repeat 2 of 5, run 2 of 2, round 1 of 4"
    frame = page.locator(".run-frame")
    wanted = page.evaluate("lintarsia.frameOf({ row: 1, first: 6, last: 8 }, 1)")
    assert float(frame.get_attribute("x") or 0) == pytest.approx(wanted["x"])
    assert float(frame.get_attribute("width") or 0) == pytest.approx(wanted["width"])


@pytest.mark.parametrize("size", [NARROW, PHONE, DESK])
def test_every_yarn_of_a_line_up_is_in_sight_and_in_order(look: Look, size: ViewportSize) -> None:
    page = look.at(f"{BAG}#row-43", size=size)
    yarns = page.locator(".knit-body .hangs li")
    runs = [run.inner_text() for run in page.locator(".knit-body .run em").all()]
    assert yarns.count() > 4
    card = box(page.locator(".knit-card"))
    seen = []
    for yarn in yarns.all():
        at = box(yarn)
        assert card["x"] <= at["x"]
        assert at["x"] + at["width"] <= card["x"] + card["width"] + 0.5
        seen.append((round(at["y"]), -at["x"], yarn.locator("b").inner_text()))
    assert [name for _, _, name in sorted(seen)] == list(dict.fromkeys(runs))  # from the right, line by line


def test_left_handed_the_chart_and_the_line_up_are_turned_and_numbers_are_not(look: Look) -> None:
    page = look.at(OWL, size=PHONE)
    first = page.evaluate("lintarsia.placeOf({ row: 7, first: 3, last: 3 }).left")
    page.locator("#left-handed").check(force=True)
    turned = page.evaluate("lintarsia.placeOf({ row: 7, first: 3, last: 3 })")
    assert turned["left"] < 120 < first
    middle = [(turned["left"] + turned["right"]) / 2, (turned["top"] + turned["bottom"]) / 2]
    under = page.evaluate("([clientX, clientY]) => lintarsia.under({ clientX, clientY })", middle)
    assert (under["row"], under["first"]) == (7, 3)
    numbers = [int(number) for number in page.locator(".ruler.at-foot span").all_inner_texts()]
    places = [box(number)["x"] for number in page.locator(".ruler.at-foot span").all()]
    assert [number for _, number in sorted(zip(places, numbers, strict=True))] == sorted(numbers)
    # A letter that is turned twice reads as it did.
    mirrored = page.evaluate(
        "() => { const m = document.querySelector('svg.lx-chart .lx-row text').getCTM(); return m.a; }"
    )
    assert mirrored < 0  # within a drawing that is shown in a mirror
    page.goto(f"{look.site.address}{OWL}#row-7")
    expect(page.get_by_role("group", name="Right side facing you · first at the left")).to_be_visible()
    yarns = [box(yarn)["x"] for yarn in page.locator(".knit-body .hangs li").all()]
    assert yarns == sorted(yarns)
    expect(page.locator(".knit-head .reading")).to_have_text("chart →")
    assert ", left to right on the chart: 10 Pine" in (page.locator("#knit-say").text_content() or "")
    expect(page.locator("#row-7 .way")).to_contain_text("→ left to right")
    page.get_by_role("button", name="Stop knitting along").click()
    page.locator("#left-handed").uncheck(force=True)
    expect(page.locator("#row-7 .way")).to_contain_text("← right to left")


def test_of_a_run_wider_than_the_screen_its_beginning_is_shown(look: Look) -> None:
    page = look.at(f"{OWL}#row-49", size=PHONE)
    for turned, side in ((False, "right"), (True, "left")):
        page.locator("#left-handed").set_checked(turned, force=True)
        page.evaluate("lintarsia.view.set(8)")  # a stitch is wider than a run of four can be shown in
        unit = page.evaluate("""() => {
          const { steps, shape } = lintarsia;
          const step = steps.find((one) => one.leftward && one.units.some((unit) => unit.stitches > 8));
          const at = step.units.findIndex((unit) => unit.stitches > 8), [low, high] = step.units[at].columns;
          location.hash = `#row-${step.name}`;
          return { at, row: step.row, first: shape.columns - high, last: shape.columns - low };
        }""")
        page.locator(".runs .run").nth(unit["at"]).click()
        place = page.evaluate("(spot) => ({ ...lintarsia.placeOf(spot), seen: lintarsia.view.inner() })", unit)
        assert place["right"] - place["left"] > place["seen"]["right"] - place["seen"]["left"]
        assert abs(place[side] - place["seen"][side]) <= 41


@pytest.mark.parametrize("size", [PHONE, {"width": 1280, "height": 900}])
def test_large_letters_leave_the_stitches_in_sight(look: Look, size: ViewportSize) -> None:
    page = look.at(f"{OWL}#row-7", size=size)
    assert page.locator(".is-short").count() == 0
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.evaluate("location.hash = '#row-9'")
    run, foot = box(page.locator(".runs .run").first), box(page.locator(".knit-foot"))
    assert run["y"] + run["height"] <= foot["y"] + 1


def test_finished_can_be_taken_back_and_the_overview_knows(look: Look) -> None:
    page = look.at(f"{OWL}#row-49", size=PHONE)
    page.get_by_role("button", name="Next row").click()
    page.goto(f"{look.site.address}index.html")
    swatch = page.locator(".swatch", has_text="Night owl")
    expect(swatch.locator(".place")).to_have_text("You are at row 50")
    swatch.locator(".place").click()
    page.get_by_role("button", name="Finished").click()
    expect(page.locator(".knit-card")).to_be_hidden()
    page.goto(f"{look.site.address}index.html")
    expect(page.locator(".swatch", has_text="Night owl").locator(".place")).to_have_text("Finished")
    page.go_back()
    page.get_by_role("button", name="Not yet: back to row 50").click()
    expect(page.locator("#knit-title")).to_contain_text("Row 50")


def test_the_card_tells_what_was_found_in_its_row(look: Look) -> None:
    page = look.at(f"{GATE}#row-3", size=PHONE)
    told = page.locator(".knit-body .of-row")
    found = [line.inner_text() for line in page.locator('[id^="result-"][data-of-row="3"]').all()]
    assert found
    for line in found:
        assert " ".join(line.split()) in " ".join(told.inner_text().split())
    page = look.at(f"{OWL}#row-31", size=PHONE)
    expect(page.locator(".knit-body .of-row")).to_contain_text("Duplicate stitch: ")
    page = look.at(f"{BAG}#row-9", size=PHONE)
    expect(page.locator(".knit-body .of-row")).to_contain_text("Trouble: “<i>the yarns</i> would not lie flat” · Wren")


def test_on_one_side_of_an_opening_the_card_tells_nothing_of_the_other(look: Look) -> None:
    page = look.at("charts/lighthouse-jumper-front.html", size=PHONE)
    page.evaluate(
        """const most = lintarsia.shape.columns;
        for (const [name, of] of [["right", "2 3"], ["left", `${most - 2} ${most - 1}`]]) {
          const line = Object.assign(document.createElement("p"), { textContent: `of the ${name} side` });
          Object.assign(line.dataset, { ofRow: 69, ofStitches: of });
          lintarsia.page.append(line);
        }"""
    )
    for name, told in (("69", "of the right side"), ("69-left", "of the left side")):
        page.evaluate("(name) => { location.hash = `row-${name}`; }", name)
        expect(page.locator(".knit-body .of-row li")).to_have_text([told])


@pytest.mark.parametrize("row", [7, 20])
def test_at_twice_the_letters_the_card_still_shows_what_it_is_for(look: Look, row: int) -> None:
    page = look.at(f"{OWL}#row-{row}", size=PHONE)
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.wait_for_timeout(100)
    body, foot, card = (box(page.locator(part)) for part in (".knit-body", ".knit-foot", ".knit-card"))
    assert body["height"] > 120
    assert foot["y"] + foot["height"] <= PHONE["height"] + 1
    assert card["y"] > 60
    for button in page.locator("button:visible").all():
        assert button.evaluate("(b) => b.scrollWidth <= b.clientWidth + 1"), button.inner_text()
        assert button.evaluate("(b) => getComputedStyle(b).overflowWrap") == "normal"


def test_the_overview_knows_the_places_in_a_pattern_s_pieces(look: Look) -> None:
    page = look.at("charts/bag-pattern/ring-large.html#row-3")
    page.goto(f"{look.site.address}charts/bag-pattern/front.html#row-12")
    page.goto(f"{look.site.address}index.html")
    places = page.locator(".swatch", has_text="Bag of two sides").locator(".place")
    expect(places).to_have_text(["You are at row 12 of front", "You are at round 3 of ring large"])
    places.last.click()
    expect(page.locator('[data-part="card-title"]')).to_contain_text("Round 3")


def test_numbers_at_the_borders_stay_apart_where_letters_are_large(look: Look) -> None:
    page = look.at(f"{OWL}#row-7", size=PHONE)
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.evaluate("location.hash = '#row-9'")
    page.wait_for_timeout(200)
    apart = page.evaluate(
        """() => ["at-left", "at-right", "at-foot"].map((kind) => {
        const seen = [...document.querySelectorAll(`.ruler.${kind} span`)].map((one) => one.getBoundingClientRect());
        const along = kind === "at-foot" ? ["left", "right"] : ["top", "bottom"];
        seen.sort((one, other) => one[along[0]] - other[along[0]]);
        return Math.min(...seen.slice(1).map((one, at) => one[along[0]] - seen[at][along[1]])); })"""
    )
    assert min(apart) >= -1
