"""A chart kept on a phone: unasked never, with its size said before, there without a network, newer when there is one.

Sites in a folder of their address are served, as hosts of many sites do; a browser asks for everything.
"""

import re
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect
from sitekit import PHONE

from lintarsia.cli.main import main
from lintarsia.knits.reading import read_knit
from lintarsia.publishing.site.building import build_site

HEAD = """\
lintarsia: 1
title: Kite
gauge: {stitches: 22, rows: 30, over: 10 cm}
yarns:
  w: {name: Plain DK, length: 120 m, mass: 50 g, balls: 1}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: w}
  W: {name: Bone, shade: "#efe9dc", yarn: w}
chart: |
"""
ROWS = ["B" * (2 + k % 11) + "W" * (3 + k % 5) + "B" * (15 - k % 11 - k % 5) for k in range(24)]  # row 1 first
PATTERN = (
    "lintarsia-pattern: 1\ntitle: Kite cloth\nyarns:\n  w: {balls: 1}\npieces:\n  cloth: {chart: kite.chart.yaml}\n"
)


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        pass

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")  # whatever is shown without a network was kept
        super().end_headers()


class Phone:
    """A site of one chart at `/group/knits/`, made as often as is wanted, and a phone that remembers."""

    def __init__(self, folder: Path, page: Page, address: str) -> None:
        self.folder, self.page, self.address = folder, page, address

    def publish(self, rows: list[str]) -> None:
        (self.folder / "kite.chart.yaml").write_text(HEAD + "".join(f"  {row}\n" for row in reversed(rows)))
        build_site([str(self.folder)], str(self.folder / "www" / "group" / "knits"), title="Kites")

    def at(self, path: str = "charts/kite.html") -> Page:
        self.page.goto(self.address + path)
        return self.page

    def offline(self, value: bool = True) -> None:
        self.page.context.set_offline(value)

    def keep(self) -> None:
        page = self.at()
        page.get_by_role("button", name="Keep on this phone").click()
        expect(page.locator('[data-part="keep"]')).to_contain_text(re.compile(r"It takes \d+ KB of this phone\."))
        assert page.evaluate("caches.keys()") == [], "nothing before she has said so"
        page.get_by_role("button", name="Keep it").click()
        expect(page.locator('[data-part="keep"]')).to_contain_text("Kept on this phone")
        page.evaluate("navigator.serviceWorker.ready.then(() => null)")


@pytest.fixture
def phone(tmp_path: Path, browser: Browser) -> Iterator[Phone]:
    (tmp_path / "kite.pattern.yaml").write_text(PATTERN)
    (tmp_path / "www" / "group").mkdir(parents=True)
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(tmp_path / "www")))
    Thread(target=server.serve_forever, daemon=True).start()
    page = browser.new_context(viewport=PHONE, accept_downloads=True).new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda message: faults.append(message.text) if "Content Security" in message.text else None)
    yield Phone(tmp_path, page, f"http://localhost:{server.server_port}/group/knits/")
    page.context.close()
    server.shutdown()
    server.server_close()
    assert faults == []


def test_said_offline_sent_and_answered(phone: Phone, monkeypatch: pytest.MonkeyPatch) -> None:
    """The whole way: kept, knitted and said without a network, exported, put into the repository, on the board, in the
    way of release until it is answered."""
    monkeypatch.chdir(phone.folder)
    (phone.folder / ".git").mkdir()
    phone.publish(ROWS)
    phone.keep()
    phone.offline()
    page = phone.at("charts/kite.html#row-14")
    expect(page.locator("#knit-title")).to_contain_text("Row 14")
    page.get_by_role("button", name="Say something of this row").click()
    page.locator('[name="first"]').fill("7")
    page.get_by_label("In your words").fill("the blue yarn was too short")
    page.get_by_role("button", name="Keep it").last.click()
    expect(page.locator('[data-part="kept"]')).to_contain_text("Kept: row 14, stitch 7.")
    page = phone.at("mine.html")
    page.get_by_label("Handle, which").fill("Wren")
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Download").click()
    file = phone.folder / waiting.value.suggested_filename
    waiting.value.save_as(file)
    assert read_knit(str(file)).problems == ()
    assert main(["check", "--quiet", str(file)]) == 0
    assert main(["release", "kite.pattern.yaml"]) == 1
    phone.offline(False)
    phone.publish(ROWS)
    board = phone.at("charts/kite-pattern.html").locator(".said")
    expect(board).to_contain_text("the blue yarn was too short")
    board.get_by_role("link", name="row 14, stitch 7").click()
    assert page.url.endswith("charts/kite.html#row-14-s7")
    expect(page.locator(".said")).to_contain_text("the blue yarn was too short")
    file.write_text(file.read_text("utf-8").replace('short"', 'short", answered: "60 cm now"'), encoding="utf-8")
    assert main(["release", "kite.pattern.yaml"]) == 0


def test_what_is_not_kept_is_said_to_be_missing(phone: Phone) -> None:
    phone.publish(ROWS)
    phone.keep()
    phone.offline()
    page = phone.at("charts/kite-pattern.html")
    expect(page.get_by_role("heading")).to_have_text("No network")
    for link in page.get_by_role("link").all():
        box = link.bounding_box()
        assert box is not None
        assert box["height"] >= 44  # a finger's target: WCAG 2.2, 2.5.5
    expect(page.get_by_role("link", name="My knitting")).to_be_visible()
    page.get_by_role("link", name="Kite · Kites").click()
    expect(page.get_by_role("heading", name="Kite", exact=True)).to_be_visible()
    expect(page.locator('[data-part="keep"]')).to_contain_text(re.compile(r"^Kept on this phone, \d+ KB"))
    page.get_by_role("radio", name="Fabric").check()
    expect(page.locator(".picture-fabric img")).not_to_have_js_property("naturalWidth", 0)


def test_the_caution_for_a_child_is_kept_with_the_page(phone: Phone) -> None:
    phone.publish(ROWS)
    file = phone.folder / "kite.chart.yaml"
    file.write_text(file.read_text("utf-8").replace("title: Kite\n", "title: Kite\nwearer: child\n"), encoding="utf-8")
    build_site([str(phone.folder)], str(phone.folder / "www" / "group" / "knits"), title="Kites")
    phone.keep()
    phone.offline()
    page = phone.at()
    page.get_by_role("link", name="what to look out for").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("For infants and children")


def test_without_a_network_hardly_anything_is_asked_for(phone: Phone) -> None:
    phone.publish(ROWS)
    phone.keep()
    expect(phone.at().locator('[data-part="keep"]')).to_contain_text("as it is now")  # else it is cut off while it asks
    phone.offline()
    failed: list[str] = []
    phone.page.context.on("requestfailed", lambda request: failed.append(request.url))
    expect(phone.at().locator('[data-part="keep"]')).to_contain_text("Kept on this phone")
    phone.page.wait_for_load_state("networkidle")
    assert len(failed) <= 1, failed


def test_newer_when_there_is_a_network_and_what_changed_is_told(phone: Phone) -> None:
    phone.publish(ROWS)
    phone.keep()
    phone.at("charts/kite.html#row-10")
    phone.publish([*ROWS[:5], "W" * 20, "B" * 20, *ROWS[5:]])
    phone.offline()
    page = phone.at()
    expect(page.locator('[data-part="changed"]')).to_be_hidden()
    phone.offline(False)
    page = phone.at()
    told = page.locator('[data-part="changed"] li')
    expect(told.first).to_have_text("The chart has changed since you were here.")
    assert "You are at row 12 now." in told.all_inner_texts()
    expect(page.locator('[data-part="keep"]')).to_contain_text("Kept on this phone as it is now")
    phone.offline()
    page = phone.at()
    expect(page.locator("svg.lx-chart")).to_have_attribute("data-rows", "26")


def test_let_go_it_leaves_nothing(phone: Phone) -> None:
    phone.publish(ROWS)
    phone.keep()
    page = phone.at("mine.html")
    expect(page.locator('[data-part="kept-pages"] li')).to_have_count(1)
    page.get_by_role("button", name="Let it go").click()
    expect(page.locator('[data-part="kept-pages"]')).to_be_hidden()
    assert page.evaluate("caches.keys()") == []
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0


def test_a_phone_that_keeps_nothing_says_so(phone: Phone) -> None:
    phone.publish(ROWS)
    phone.page.add_init_script(
        "Cache.prototype.put = () => Promise.reject(new DOMException('', 'QuotaExceededError'));"
    )
    page = phone.at()
    page.get_by_role("button", name="Keep on this phone").click()
    page.get_by_role("button", name="Keep it").click()
    expect(page.locator('[data-part="keep"]')).to_contain_text("This phone would not keep it")
    assert page.evaluate("caches.keys()") == []


def test_from_a_disk_nothing_is_offered_and_nothing_fails(phone: Phone) -> None:
    phone.publish(ROWS)
    page = phone.page
    page.goto((phone.folder / "www/group/knits/charts/kite.html").as_uri())
    expect(page.locator("svg.lx-chart")).to_be_visible()
    expect(page.locator('[data-part="keep"]')).to_be_hidden()


def test_a_site_can_be_put_among_the_apps_of_a_phone(phone: Phone) -> None:
    phone.publish(ROWS)
    page = phone.at()
    client = page.context.new_cdp_session(page)
    found = client.send("Page.getAppManifest")
    assert found["errors"] == []
    assert found["url"] == f"{phone.address}assets/app.json"
