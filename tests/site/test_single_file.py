"""`lintarsia site --single`: a chart or a piece as one file, opened from a disk: it fetches and needs nothing."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from sitekit import EXAMPLES, PHONE, SHORT_ROW, TORN, serving

from lintarsia.cli.main import main
from lintarsia.knits.reading import read_knit

Opened = Callable[[str], Page]
PIECES = """\
lintarsia-pattern: 1
title: Pouch
sizes: [small, large]
pieces:
  side: {chart: hare.chart.yaml, plain: M, cast-on: {small: 41, large: 49}, rows: 44, at: {row: 13}}
"""


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / ".git").mkdir()
    for chart in (EXAMPLES / "night-owl-mitten.chart.yaml", EXAMPLES / "test-knit" / "hare.chart.yaml"):
        (tmp_path / chart.name).write_text(chart.read_text("utf-8"), encoding="utf-8")
    (tmp_path / "pouch.pattern.yaml").write_text(PIECES, encoding="utf-8")
    return tmp_path


@pytest.fixture
def opened(here: Path, browser: Browser) -> Iterator[Opened]:
    """Opens a file of this folder on a phone without a network; nothing may be asked for, and nothing complained of."""
    context = browser.new_context(viewport=PHONE, offline=True, accept_downloads=True)
    page, faults = context.new_page(), list[str]()
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda message: faults.append(message.text))
    page.on("request", lambda request: faults.append(request.url) if not request.url.startswith(LOCAL) else None)

    def at(file: str) -> Page:
        name, _, place = file.partition("#")
        page.goto(f"{(here / name).as_uri()}#{place}" if place else (here / name).as_uri())
        return page

    yield at
    context.close()
    own = here.as_uri()
    assert [fault for fault in faults if not fault.startswith(own)] == []


LOCAL = ("data:", "blob:")


def test_a_chart_as_one_file(here: Path, opened: Opened) -> None:
    assert main(["site", "--single", "night-owl-mitten.chart.yaml", "-o", "owl.html"]) == 0
    page = opened("owl.html")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    page.locator("[data-part='start']").click()
    expect(page.locator("#knit-title")).to_contain_text("1")
    page.get_by_role("button", name="Next").click()
    expect(page.locator("#knit-title")).to_contain_text("2")
    page.get_by_role("button", name="Stop knitting along").click()
    layer = page.locator(".layers label", has_text=re.compile("Yarn paths|Floats")).first
    layer.click()
    expect(layer.locator("input")).to_be_checked()
    tick = page.locator("[data-tick]").first
    tick.check()
    page.reload()
    expect(page.locator("[data-tick]").first).to_be_checked()
    page.get_by_role("radio", name="Fabric").check()
    image = page.locator(".picture-fabric img")
    expect(image).to_be_visible()
    expect(image).not_to_have_js_property("naturalWidth", 0)


def test_what_is_said_in_it_is_sent_from_it(here: Path, opened: Opened) -> None:
    assert main(["site", "--single", "night-owl-mitten.chart.yaml"]) == 0
    page = opened("night-owl-mitten.html")
    page.get_by_text("Nothing yet.").wait_for()
    page.locator("[data-part='start']").click()
    page.get_by_role("button", name=re.compile("Say something of this")).click()
    page.get_by_label("In your words").fill("clear")
    page.get_by_role("button", name="Keep it").click()
    page.locator('[data-part="kept"] a').click()
    page.get_by_label("Handle, which").fill("Wren")
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Download").last.click()
    waiting.value.save_as(here / "wren.knit.yaml")
    assert read_knit("wren.knit.yaml").problems == ()
    assert main(["check", "--quiet", "wren.knit.yaml"]) == 0


def test_a_piece_in_a_size_and_its_log(here: Path, opened: Opened, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["site", "--single", "pouch.pattern.yaml"]) == 2
    assert "has side, small and side, large" in capsys.readouterr().err
    assert main(["site", "--single", "pouch.pattern.yaml", "--size", "large", "-o", "side.html"]) == 0
    page = opened("side.html#row-30-s7-9")
    expect(page.get_by_role("heading", level=1)).to_have_text("Pouch: side, large")
    page.locator("[data-part='start']").click()
    page.get_by_role("button", name="Say something of this row").click()
    page.get_by_label("In your words").fill("wide")
    page.get_by_role("button", name="Keep it").click()
    text = page.locator('[data-log="text"]').text_content() or ""
    log = read_knit("x.knit.yaml", text.encode()).log
    assert log is not None
    assert (log.names, log.of, log.size, log.rows[0].piece) == ("pouch.pattern.yaml", "pattern", "large", "side")


def test_no_link_leads_anywhere_and_nothing_is_allowed(here: Path) -> None:
    assert main(["site", "--single", "hare.chart.yaml", "-o", "hare.html"]) == 0
    text = (here / "hare.html").read_text("utf-8")
    markup = re.sub(r"<(script|style)>.*?</\1>", "", text, flags=re.DOTALL)
    assert set(re.findall(r'(?:href|src)="([^"#]+?)[:"]', markup)) == {"data"}
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)
    assert policy is not None
    assert policy[1].startswith("default-src 'none'; img-src data:; style-src 'sha256-")
    assert "unsafe" not in policy[1]
    assert "http" not in policy[1]


def test_what_is_for_everybody_has_no_results_and_asks_nothing(here: Path) -> None:
    assert main(["site", "--single", "hare.chart.yaml", "--public", "-o", "hare.html"]) == 0
    text = (here / "hare.html").read_text("utf-8")
    assert 'data-part="saying"' not in re.sub(r"<script>.*?</script>", "", text, flags=re.DOTALL)
    assert 'id="results"' not in text


@pytest.mark.parametrize(
    ("argv", "why"),
    [
        (["torn.chart.yaml"], "no page to knit from can be made of it"),
        (["gone.chart.yaml"], "gone.chart.yaml"),
        (["."], "--single makes a page of one chart or of one pattern's piece"),
        (["pouch.pattern.yaml", "--size", "giant"], "has side, small and side, large"),
        (["hare.chart.yaml", "--size", "large"], "--piece and --size are of a pattern"),
        (["hare.chart.yaml", "night-owl-mitten.chart.yaml"], "--single makes one file of one chart or pattern"),
        (["hare.chart.yaml", "-o", "hare.chart.yaml"], "is what an answer is made from"),
    ],
)
def test_what_cannot_be_made(argv: list[str], why: str, here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (here / "torn.chart.yaml").write_text(TORN)
    before = {file.name: file.read_bytes() for file in here.iterdir() if file.is_file()}
    assert main(["site", "--single", *argv]) == 2
    assert why in capsys.readouterr().err
    assert {file.name: file.read_bytes() for file in here.iterdir() if file.is_file()} == before


def test_in_a_frame_a_chart_too_large_for_symbols_says_where_they_show(here: Path) -> None:
    """Cells of a few px hold no symbol: a chart of more than 3,000 stitches has none until it is made larger."""
    for name, wide, high in (("tall", 62, 50), ("low", 18, 6)):
        rows = f"  {'BW' * (wide // 2)}\n"
        (here / f"{name}.chart.yaml").write_text(SHORT_ROW.partition("chart: |")[0] + "chart: |\n" + rows * high)
        assert main(["site", "--single", f"{name}.chart.yaml", "--public", "-o", f"{name}.html"]) == 0
    tall, low = ((here / f"{name}.html").read_text("utf-8") for name in ("tall", "low"))
    said = '<span class="when-small">Its symbols show there, where the chart can be made larger.</span>'
    assert said in tall
    assert said not in low
    assert ".chart-page .when-small { display: none; }" in tall
    assert ":root[data-framed] .chart-page .when-small { display: inline; }" in tall


def test_in_a_frame_it_is_small_and_tells_its_height(here: Path, browser: Browser) -> None:
    """The line that a page around it needs is the one of the documentation."""
    assert main(["site", "--single", "hare.chart.yaml", "--public", "-o", "hare.html"]) == 0
    told = (EXAMPLES.parent / "docs" / "own-site.md").read_text(encoding="utf-8")
    lines = [line.strip() for line in told.splitlines() if line.startswith("    <")]
    (here / "shop.html").write_text(
        "<!doctype html><title>Shop</title>" + "".join(lines).replace("fox.html", "hare.html")
    )
    page = browser.new_page(viewport=PHONE)
    faults = list[str]()
    page.on("pageerror", lambda error: faults.append(str(error)))
    with serving(here) as address:
        page.goto(f"{address}shop.html")
        inner = page.frame_locator("iframe")
        expect(inner.get_by_role("heading", name="Key")).to_be_visible()
        for part in ('[data-part="rows"]', ".winding", ".site-head", '[data-part="start-how"]'):
            expect(inner.locator(part).first).to_be_hidden()
        page.wait_for_function("document.querySelector('iframe').height !== '640'")
        high = inner.locator("body").evaluate("(body) => Math.ceil(body.getBoundingClientRect().height)")
        assert page.locator("iframe").get_attribute("height") == str(high)
        assert inner.locator("html").evaluate("(all) => all.scrollHeight <= innerHeight + 1")
        page.set_viewport_size({"width": 1000, "height": 700})
        page.wait_for_function("(was) => document.querySelector('iframe').height !== was", arg=str(high))
        with page.expect_popup() as opened:
            inner.get_by_role("link", name="Knit it row by row").click()
        expect(opened.value.get_by_role("link", name="Start at row 1")).to_be_visible()
        opened.value.close()
    page.close()
    assert faults == []
