"""A large chart on a phone: light, nothing loaded before it is wanted, moved like a map without losing one's place."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from largekit import COLOURS, ROWS, STITCHES, SYMBOLS, chart, colour, middle, pinch, served
from playwright.sync_api import Browser, Page, expect
from sitekit import DESK, PHONE, box

from lintarsia.publishing.site.building import build_site

HTML, NODES = 300_000, 6_000  # the most bytes and elements of its page


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str]]:
    folder = tmp_path_factory.mktemp("large")
    (folder / "charts").mkdir()
    (folder / "charts" / "waves.chart.yaml").write_text(chart(), encoding="utf-8")
    build_site([str(folder / "charts")], str(folder / "out"), title="Large")
    with served(folder / "out") as root:
        yield folder / "out" / "charts" / "waves.html", f"{root}charts/waves.html"


@pytest.fixture
def phone(address: tuple[Path, str], browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport=PHONE, has_touch=True)
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(address[1])
    page.locator("#viewport").scroll_into_view_if_needed()
    yield page
    context.close()
    assert complaints == []


def zoomed(page: Page, times: int = 5) -> None:
    for _ in range(times):
        page.get_by_role("button", name="larger").click()
    page.wait_for_timeout(120)


def spot(page: Page) -> list[float]:
    """How large the chart is and where it stands."""
    found: list[float] = page.evaluate(
        "() => { const v = lintarsia.view; return [v.scale, v.window.scrollLeft, v.window.scrollTop]; }"
    )
    return found


def test_the_chart_is_what_it_says(address: tuple[Path, str]) -> None:
    cells = [colour(stitch, row) for stitch in range(1, STITCHES + 1) for row in range(1, ROWS + 1)]
    assert len(set(cells)) >= COLOURS - 2
    assert set(cells) <= set(SYMBOLS)
    assert [colour(stitch, 7) for stitch in range(1, 60)] != [colour(STITCHES + 1 - s, 7) for s in range(1, 60)]


def test_its_page_is_light(address: tuple[Path, str], phone: Page) -> None:
    assert len(address[0].read_bytes()) < HTML
    assert phone.evaluate("document.getElementsByTagName('*').length") < NODES
    assert phone.evaluate("document.documentElement.scrollHeight") < 20_000


def test_nothing_is_loaded_before_it_is_wanted(address: tuple[Path, str], browser: Browser) -> None:
    page = browser.new_page(viewport=DESK)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    page.goto(address[1], wait_until="networkidle")
    assert [name for name in asked if name.endswith(".svg") and name != "mark.svg"] == []
    with page.expect_response("**/paths.svg"):
        page.locator("#show-paths").check(force=True)
    page.locator("#show-chart").check(force=True)
    with page.expect_response("**/ends.svg"):
        page.locator("#over-ends").check(force=True)
    assert [name for name in asked if name.endswith(".svg") and name != "mark.svg"] == ["paths.svg", "ends.svg"]
    page.close()


def test_numbers_of_rows_and_stitches_stay_in_sight_and_are_right(phone: Page) -> None:
    zoomed(phone)
    phone.evaluate("lintarsia.view.window.scrollTo(500, 700)")
    phone.wait_for_timeout(120)
    window = box(phone.locator("#viewport"))
    for ruler, along in (("at-left", "y"), ("at-right", "y"), ("at-foot", "x")):
        numbers = phone.locator(f".ruler.{ruler} span").all()
        assert len(numbers) >= 3, ruler
        for number in numbers:
            place, told = box(number), int(number.inner_text())
            assert window["x"] - 1 <= place["x"] <= window["x"] + window["width"]
            x, y = middle(phone, told, 1) if along == "y" else middle(phone, 1, told)
            seen = place["y"] + place["height"] / 2 if along == "y" else place["x"] + place["width"] / 2
            assert seen == pytest.approx(y if along == "y" else x, abs=1.5)
    odd = {int(number) % 2 for number in phone.locator(".ruler.at-right span").all_inner_texts()}
    assert odd == {1}  # right-side rows begin at the right


def test_a_touched_stitch_is_told_and_nothing_moves(phone: Page) -> None:
    zoomed(phone)
    phone.evaluate("lintarsia.view.window.scrollTo(620, 900)")
    phone.locator("#viewport").evaluate("(e) => scrollBy(0, e.getBoundingClientRect().top - 90)")
    phone.wait_for_timeout(120)
    inside = box(phone.locator("#viewport"))
    x, y = inside["x"] + 150, inside["y"] + 60
    under = phone.evaluate("([clientX, clientY]) => lintarsia.under({ clientX, clientY })", [x, y])
    before = spot(phone)
    phone.touchscreen.tap(x, y)
    row, stitch = under["row"], under["first"]
    side = "RS" if row % 2 else "WS"
    name = f"Breaker {SYMBOLS.index(colour(stitch, row)) + 1}"
    told = phone.locator(".readout").inner_text()
    assert told.startswith(f"row {row} {side}, stitch {stitch}, {name}, {colour(stitch, row)}")
    expect(phone.locator("#knit-title")).to_contain_text(f"Row {row}")
    assert spot(phone)[:2] == before[:2]
    assert middle(phone, row, stitch) == pytest.approx((x, y), abs=12)  # half a stitch: it is where the finger is
    assert y < box(phone.locator(".knit-card"))["y"]
    phone.get_by_role("button", name="Next row").click()
    expect(phone.locator(".readout")).to_be_hidden()  # that stitch is no longer where one is


def test_a_row_touched_where_the_card_comes_is_seen_above_it_with_the_numbers_of_its_stitches(phone: Page) -> None:
    zoomed(phone, 2)
    inside, low = box(phone.locator("#viewport")), PHONE["height"] - 40
    assert inside["y"] + inside["height"] > low
    phone.touchscreen.tap(inside["x"] + 150, low)
    window, card = box(phone.locator("#viewport")), box(phone.locator(".knit-card"))
    phone.evaluate("(by) => scrollBy(0, by)", window["y"] + window["height"] - card["y"] - 15)
    phone.touchscreen.tap(inside["x"] + 150, card["y"] - 90)  # while the numbers at the foot lie behind the card
    row = phone.evaluate("Number(/[0-9]+/.exec(document.getElementById('knit-title').textContent)[0])")
    phone.wait_for_timeout(120)
    card = box(phone.locator(".knit-card"))
    numbers = [box(number) for number in phone.locator(".ruler.at-foot span").all()]
    assert len(numbers) >= 3
    assert max(number["y"] + number["height"] for number in numbers) <= card["y"]
    assert 0 < middle(phone, row, 1)[1] < min(number["y"] for number in numbers)


def test_two_fingers_zoom_where_they_are_and_the_zoom_is_kept(phone: Page) -> None:
    inside = box(phone.locator("#viewport"))
    x, y = inside["x"] + 200, inside["y"] + 150
    pointed = "([clientX, clientY]) => lintarsia.under({ clientX, clientY })"
    under, before = phone.evaluate(pointed, [x, y]), spot(phone)[0]
    pinch(phone, x, y, (60, 240))
    phone.wait_for_timeout(150)
    assert spot(phone)[0] == pytest.approx(4 * before, rel=0.1)
    now = phone.evaluate(pointed, [x, y])
    assert abs(now["row"] - under["row"]) <= 1
    assert abs(now["first"] - under["first"]) <= 1
    expect(phone.locator(".knit-card")).to_be_hidden()
    larger = spot(phone)[0]
    phone.get_by_role("link", name="Start at row 1").click()
    assert spot(phone)[0] == pytest.approx(larger, rel=0.01)  # it was chosen
    phone.reload()
    phone.wait_for_timeout(150)
    assert spot(phone)[0] == pytest.approx(larger, rel=0.02)


def test_a_mouse_drags_and_keys_move_and_zoom(address: tuple[Path, str], browser: Browser) -> None:
    page = browser.new_page(viewport=DESK)
    page.goto(address[1])
    zoomed(page, 4)
    inside = box(page.locator("#viewport"))
    page.mouse.move(inside["x"] + 400, inside["y"] + 300)
    before = spot(page)
    page.mouse.down()
    page.mouse.move(inside["x"] + 280, inside["y"] + 220, steps=4)
    page.mouse.up()
    after = spot(page)
    assert after[1] - before[1] == pytest.approx(120, abs=2)
    assert after[2] - before[2] == pytest.approx(80, abs=2)
    expect(page.locator(".knit-card")).to_be_hidden()
    page.locator("#viewport").focus()
    page.keyboard.press("Shift+ArrowRight")
    assert spot(page)[1] > after[1]
    page.keyboard.press("+")
    assert spot(page)[0] > after[0]
    page.keyboard.press("0")
    assert spot(page)[1] == 0
    page.close()


def test_symbols_come_where_they_can_be_read(phone: Page) -> None:
    assert phone.locator(".written-symbols").count() == 0
    zoomed(phone, 6)
    phone.evaluate("lintarsia.view.window.scrollTo(620, 900)")
    phone.wait_for_timeout(150)
    inside = box(phone.locator("#viewport"))
    under = phone.evaluate(
        "([clientX, clientY]) => lintarsia.under({ clientX, clientY })", [inside["x"] + 150, inside["y"] + 200]
    )
    x, y = middle(phone, under["row"], under["first"])
    found = phone.evaluate(
        """([x, y]) => [...document.querySelectorAll(".written-symbols text")].flatMap((text) => {
        const at = new DOMPoint(x, y).matrixTransform(text.getScreenCTM().inverse());
        return [...text.textContent].filter((_, number) => {
          const { x, y, width, height } = text.getExtentOfChar(number);
          return x < at.x && at.x < x + width && y < at.y && at.y < y + height; }); })""",
        [x, y],
    )
    assert found == [colour(under["first"], under["row"])]
    assert phone.locator(".written-symbols text").count() < 400


def test_a_small_map_tells_where_one_is_and_leads_elsewhere(phone: Page) -> None:
    expect(phone.locator(".map")).to_have_count(0)
    zoomed(phone)
    plan, here = box(phone.locator(".map")), phone.locator(".map .here")
    before = box(here)
    phone.mouse.click(plan["x"] + plan["width"] * 0.9, plan["y"] + plan["height"] * 0.8)
    phone.wait_for_timeout(120)
    after = box(here)
    assert after["x"] > before["x"]
    assert after["y"] > before["y"]
    assert spot(phone)[1] > 0


def test_every_picture_can_be_zoomed(phone: Page) -> None:
    for name in ("fabric", "back", "paths"):
        phone.locator(f"#show-{name}").check(force=True)
        plate = phone.locator(f".picture-{name} .plate")
        wide = box(plate)["width"]
        zoomed(phone, 2)
        assert box(plate)["width"] == pytest.approx(2.25 * wide, rel=0.02), name


def test_no_word_of_a_yarn_s_name_is_parted_where_there_is_room_for_it(phone: Page) -> None:
    phone.evaluate("location.hash = 'row-64'")
    names = phone.locator(".knit-body .hangs bdi")
    expect(names.nth(8)).to_be_visible()  # more than stand in one line
    lines = """(names) => names.map((name) => {
      const range = document.createRange(), text = name.firstChild;
      range.setStart(text, 0);
      range.setEnd(text, text.data.indexOf(" "));
      return range.getClientRects().length;
    })"""
    assert set(names.evaluate_all(lines)) == {1}


def test_without_scripts_it_still_gives_chart_and_rows(address: tuple[Path, str], browser: Browser) -> None:
    context = browser.new_context(viewport=PHONE, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address[1]}#row-117")
    row = page.locator("#row-117")
    expect(row).to_be_in_viewport()
    runs = row.locator(".runs").inner_text().replace("\u00a0", " ").split(" · ")
    assert sum(int(run.split()[0]) for run in runs) == STITCHES
    first = SYMBOLS.index(colour(1, 117)) + 1  # a right-side row, worked from the right
    assert f"Breaker {first}" in runs[0]
    expect(page.locator("svg.lx-chart")).to_be_visible()
    page.get_by_role("link", name="a picture by itself").click()
    assert page.locator("svg text").count() > 200  # with its symbols
    context.close()
