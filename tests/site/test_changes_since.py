"""Pages of what has changed since a revision that went out, and what a chart's page tells whoever began then."""

import json
import subprocess
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from lxml import html
from playwright.sync_api import Browser, Page, expect
from sitekit import Site

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.building import build_site

CHART = """\
lintarsia: 1
title: Kite
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
"""
PATTERN = """\
lintarsia-pattern: 1
title: Kite cushion
version: "{version}"
pieces:
  front: {{chart: kite.chart.yaml, rows: {rows}}}
"""
ROWS = ["B" * (2 + k % 11) + "W" * (3 + k % 5) + "B" * (15 - k % 11 - k % 5) for k in range(30)]  # row 1 first
NEW = ["WWWWWBBBBBBBBBBBBBBW", "BWWWWWWWWBBBBBBBBBBB"]
MENDED = [*ROWS[:7], *NEW, *ROWS[7:24], f"{ROWS[24][:-3]}WW{ROWS[24][-1:]}", *ROWS[25:]]


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        pass

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        super().end_headers()


class Shelf:
    """A repository of one pattern, and its site."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.out = folder, folder / "out"
        (folder / ".gitignore").write_text("out/\n")
        self.git("init", "-q")

    def git(self, *words: str) -> None:
        who = ("-c", "user.name=Designer", "-c", "user.email=designer@example.org")
        subprocess.run(["git", *who, *words], cwd=self.folder, check=True, capture_output=True)

    def state(self, rows: list[str], version: str, tag: str = "") -> None:
        (self.folder / "kite.chart.yaml").write_text(CHART + "".join(f"  {row}\n" for row in reversed(rows)))
        (self.folder / "kite.pattern.yaml").write_text(PATTERN.format(version=version, rows=len(rows)))
        self.git("add", "-A")
        self.git("commit", "-q", "--allow-empty", "-m", "state")
        if tag:
            self.git("tag", tag)

    def build(self, *since: str) -> None:
        build_site([str(self.folder)], str(self.out), title="Kites", changes_from=since)

    def page(self, name: str) -> html.HtmlElement:
        return html.fromstring((self.out / f"{name}.html").read_bytes())


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path)


def text(page: html.HtmlElement) -> str:
    return " ".join(page.xpath("string(//main)").split())


def test_the_pages_and_the_links_to_them(shelf: Shelf) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    shelf.state(MENDED, "1.1", "v1.1")
    shelf.build("v1.0", "v1.1")
    for name in ("kite", "kite-pattern"):
        [link] = shelf.page(f"charts/{name}").xpath("//p[@class='since']/a")
        assert (link.get("href"), link.text) == (f"../changes/{name}.html", "Changes since v1.0")
        [back] = shelf.page(f"changes/{name}").xpath("//p[@class='crumb']/a/@href")
        assert back == f"../charts/{name}.html"
    page = shelf.page("changes/kite-pattern")
    assert [" ".join(h.text_content().split()).partition(",")[0] for h in page.xpath("//h2")] == ["Since v1.0"], (
        "nothing differs from v1.1"
    )
    told = text(page)
    assert "rows 8–9 are new" in told
    assert "If you are past it: rip back to row 7, the last row that is right." in told
    assert "row 27 (RS), 25 before: stitches 2–3 are in another colour" in told
    assert "Kite cushion, version 1.0 (corrected in 1.1)" in told
    assert "Row 27 (RS), row 25 before, should read: k1 B, k2 W," in told
    [strip] = page.xpath("//figure[.//figcaption[contains(., 'row 27')]]//*[local-name()='svg']")
    assert len(strip.xpath(".//*[@height='3']")) == 2, "a line beneath each stitch that differs"
    assert str(shelf.folder) not in told


def test_a_page_of_changes_is_found_in_the_search(shelf: Shelf) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    shelf.state(MENDED, "1.1", "v1.1")
    shelf.build("v1.0", "v1.1")
    index = (shelf.out / "assets/search-index.js").read_text("ascii").partition("=")[2].strip().removesuffix(";")
    told = {link: (title, text) for kind, title, text, link in json.loads(index) if kind == "changes"}
    assert sorted(told) == ["changes/kite-pattern.html", "changes/kite.html"]
    title, text = told["changes/kite.html"]
    assert title.startswith("Changes: Kite")
    assert "since v1.0" in text
    assert "rows 8–9 are new" in text
    assert "since v1.1" not in text
    assert str(shelf.folder) not in text


def test_nothing_has_changed(shelf: Shelf) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    shelf.build("v1.0")
    assert not (shelf.out / "changes").exists()
    assert not shelf.page("charts/kite").xpath("//p[@class='since']")


def test_a_revision_that_nobody_knows(shelf: Shelf) -> None:
    shelf.state(ROWS, "1.0")
    with pytest.raises(Trouble, match=r"git knows no revision 'v9'"):
        shelf.build("v9")
    assert not shelf.out.exists()


def test_each_state_since_then_has_its_list(shelf: Shelf) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    shelf.state([*ROWS[:3], NEW[0], *ROWS[3:]], "1.0")
    shelf.state(MENDED, "1.1")
    shelf.build("v1.0")
    lists = shelf.page("charts/kite").xpath("//template/ul")
    assert [(one.get("data-come"), one.get("data-gone")) for one in lists] == [("8 9", "4"), ("8 9", "")]
    [first, second] = lists[1]
    assert (first.get("data-now"), first.get("data-before")) == ("8 9", "")
    assert (second.get("data-now"), second.get("data-before")) == ("27", "25")


def test_a_piece_has_what_became_of_it(shelf: Shelf) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    shelf.build()
    before = shelf.page("charts/kite-pattern/front").xpath("string(//article/@data-fingerprint)")
    shelf.state(MENDED, "1.1")
    shelf.build("v1.0")
    page = shelf.page("charts/kite-pattern/front")
    [told] = page.xpath("//template/ul")
    assert (told.get("data-was"), told.get("data-come"), told.get("data-gone")) == (before, "8 9", "")
    assert page.xpath("string(//p[@class='since']/a/@href)") == "../../changes/kite-pattern.html"


def test_the_version_of_its_pattern_stands_on_a_chart_s_page(shelf: Shelf) -> None:
    shelf.state(ROWS, "1.0")
    (shelf.folder / "lone.chart.yaml").write_text(CHART + "  BBWWBB\n" * 9)
    shelf.build()
    assert shelf.page("charts/kite").xpath("string(//p[@class='stamp'])").startswith("version 1.0 · fingerprint ")
    assert shelf.page("charts/lone").xpath("string(//p[@class='stamp'])").startswith("fingerprint ")
    (shelf.folder / "other.pattern.yaml").write_text(
        PATTERN.format(version="2.0", rows=30).replace("cushion", "pillow")
    )
    shelf.build()
    stamp = shelf.page("charts/kite").xpath("string(//p[@class='stamp'])")
    assert stamp.startswith("version 1.0 of Kite cushion, 2.0 of Kite pillow · fingerprint ")


@pytest.fixture
def page(shelf: Shelf, browser: Browser) -> Iterator[Page]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(shelf.out)))
    Thread(target=server.serve_forever, daemon=True).start()
    page = browser.new_context(base_url=f"http://127.0.0.1:{server.server_port}/").new_page()
    complaints: list[str] = []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    yield page
    page.context.close()
    server.shutdown()
    server.server_close()
    assert complaints == []


def told(page: Page) -> list[str]:
    page.goto("about:blank")
    page.goto("charts/kite.html")
    return page.locator('[data-part="changed"] li').all_inner_texts()


def test_two_rows_put_in_below_and_stitches_changed_above(shelf: Shelf, page: Page) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    shelf.build()
    page.goto("charts/kite.html#row-20")
    expect(page.locator("#knit-title")).to_contain_text("20")
    shelf.state(MENDED, "1.1")
    shelf.build("v1.0")
    assert told(page) == [
        "The chart has changed since you were here.",
        "Below row 20, where you were: rows 8–9 are new; rip back to row 7, the last row that is right.",
        "You are at row 22 now.",
        "From there on: row 27 (RS), 25 before: stitches 2–3 are in another colour.",
    ]
    expect(page.locator('[data-part="start"]')).to_have_text("Go on at row 22")


def test_a_motif_that_has_moved_is_told_as_that(shelf: Shelf, page: Page) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    shelf.build()
    page.goto("charts/kite.html#row-20")
    expect(page.locator("#knit-title")).to_contain_text("20")
    shelf.state([*ROWS[:4], f"B{ROWS[4][:-1]}", *ROWS[5:]], "1.1")
    shelf.build("v1.0")
    [_, line] = told(page)
    assert line.startswith("Below row 20, where you were: row 5 (RS): moved 1 stitch to the right; work the 2 stitches")


def test_whoever_began_with_a_state_that_never_was_committed(shelf: Shelf, page: Page) -> None:
    shelf.state(ROWS, "1.0", "v1.0")
    (shelf.folder / "kite.chart.yaml").write_text(CHART + "".join(f"  {row}\n" for row in reversed([*ROWS, *NEW])))
    shelf.build("v1.0")
    page.goto("charts/kite.html#row-20")
    expect(page.locator("#knit-title")).to_contain_text("20")
    shelf.state(MENDED, "1.1")
    shelf.build("v1.0")
    lines = told(page)
    assert lines[1] == "Below row 20, where you were: rows 8–9 are new."
    assert "row 27: stitches 2–3 are another" in lines[3]


def test_the_pages_of_changes_fit_a_phone(site: Site, browser: Browser) -> None:
    page = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    page.goto(f"{site.address}changes/bag-pattern.html")
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    box = page.locator(".crumb a").bounding_box()
    assert box is not None
    assert box["height"] >= 44
    page.context.close()
