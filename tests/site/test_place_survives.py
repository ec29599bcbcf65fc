"""A chart that is published again while somebody knits it: the page says what has changed, the place moves along."""

from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect
from sitekit import SETTLED

from lintarsia.publishing.site.building import build_site

HEAD = """\
lintarsia: 1
title: Kite
worked: {worked}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: Bone, shade: "#efe9dc"}}
chart: |
"""
ROWS = ["B" * (2 + k % 11) + "W" * (3 + k % 5) + "B" * (15 - k % 11 - k % 5) for k in range(30)]  # row 1 first


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        pass

    def end_headers(self) -> None:
        """Two states within a second have one date, and a browser would take the second for the first."""
        self.send_header("Cache-Control", "no-store")
        super().end_headers()


class Bench:
    """A site of one chart, made as often as is wanted, and a browser that remembers."""

    def __init__(self, folder: Path, page: Page, address: str) -> None:
        self.folder, self.page, self.address = folder, page, address

    def publish(self, rows: list[str], worked: str = "flat", more: str = "") -> None:
        text = HEAD.format(worked=worked).replace("chart: |", f"{more}chart: |")
        text += "".join(f"  {row}\n" for row in reversed(rows))
        (self.folder / "kite.chart.yaml").write_text(text)
        build_site([str(self.folder / "kite.chart.yaml")], str(self.folder / "out"), title="Kites")

    def at(self, hash: str = "") -> Page:
        self.page.goto("about:blank")
        self.page.goto(f"{self.address}charts/kite.html{hash}")
        self.page.evaluate(SETTLED)
        return self.page

    def told(self) -> list[str]:
        return self.page.locator('[data-part="changed"] li').all_inner_texts()


@pytest.fixture
def bench(tmp_path: Path, browser: Browser) -> Iterator[Bench]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(tmp_path / "out")))
    Thread(target=server.serve_forever, daemon=True).start()
    page = browser.new_context().new_page()
    complaints: list[str] = []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    yield Bench(tmp_path, page, f"http://127.0.0.1:{server.server_port}/")
    page.context.close()
    server.shutdown()
    server.server_close()
    assert complaints == []


def changed(*, into: int = 0, number: int = 0, other: int = 0) -> list[str]:
    """The kite with `number` rows put in after row `into`, and a stitch of row `other` of before changed."""
    rows = list(ROWS)
    if other:
        rows[other - 1] = "W" + rows[other - 1][1:]
    return rows[:into] + [f"{'W' * (k + 1)}{'B' * (19 - k)}" for k in range(number)] + rows[into:]


def test_two_rows_put_in_below_and_a_stitch_changed_above(bench: Bench) -> None:
    bench.publish(ROWS)
    expect(bench.at("#row-20").locator("#knit-title")).to_contain_text("20")
    bench.publish(changed(into=7, number=2, other=25))
    page = bench.at()
    assert bench.told() == [
        "The chart has changed since you were here.",
        "Below row 20, where you were: rows 8–9 are new.",
        "You are at row 22 now.",
        "From there on: row 27: stitch 20 is another.",
    ]
    expect(page.locator('[data-part="start"]')).to_have_text("Go on at row 22")
    assert bench.at().locator('[data-part="start"]').inner_text() == "Go on at row 22", "moved once, not twice"
    assert len(bench.told()) == 4, "said until it has been understood"
    page.get_by_role("button", name="Understood").click()
    assert bench.at().locator('[data-part="changed"]').is_hidden()


def test_a_link_to_the_place_moves_along(bench: Bench) -> None:
    bench.publish(ROWS)
    bench.at("#row-20")
    bench.publish(changed(into=7, number=1))
    page = bench.at("#row-20")
    assert page.url.endswith("#row-21")
    expect(page.locator("#knit-title")).to_contain_text("21")
    assert bench.told()[-1] == "Right side and wrong side have changed places from there on."


def test_whoever_leaves_before_the_browser_had_time_is_told_as_well(bench: Bench) -> None:
    bench.page.add_init_script("window.requestIdleCallback = () => 0")
    bench.publish(ROWS)
    bench.at("#row-20")
    bench.publish(changed(into=7, number=2))
    bench.at()
    assert bench.told()[1] == "Below row 20, where you were: rows 8–9 are new."


def test_what_is_knitted_is_as_it_was(bench: Bench) -> None:
    bench.publish(ROWS)
    bench.at("#row-20")
    bench.publish(changed(into=28, number=3))
    bench.at()
    assert bench.told()[1:] == ["All that you have knitted is as it was.", "From there on: rows 29–31 are new."]


def test_the_same_chart_again_and_another_colour(bench: Bench) -> None:
    bench.publish(ROWS)
    bench.at("#row-20")
    bench.publish(ROWS, more="# only a comment\n")
    bench.at()
    assert bench.told() == []
    bench.publish(ROWS, more="wearer: child\n")
    bench.at()
    assert bench.told()[1:] == [
        "All that you have knitted is as it was.",
        "No row is another: colours, gauge, yarns or words are.",
    ]


def test_in_rounds_nothing_is_turned(bench: Bench) -> None:
    bench.publish(ROWS, worked="round")
    bench.at("#row-20")
    bench.publish(changed(into=7, number=1), worked="round")
    bench.at()
    assert bench.told()[1:] == ["Below round 20, where you were: round 8 is new.", "You are at round 21 now."]


def test_ticks_of_yarns_that_are_others_now_are_cleared_and_named(bench: Bench) -> None:
    bench.publish(ROWS)
    page = bench.at("#row-20")
    ticks = page.locator(".winding [data-tick]")
    names = [tick.get_attribute("data-tick") for tick in ticks.all()]
    for tick in ticks.all():
        tick.check()
    bench.publish([row.replace("B", "W", 1) if k > 14 else row for k, row in enumerate([*ROWS, *ROWS])])
    page = bench.at()
    cleared = bench.told()[-1]
    assert cleared.startswith("No longer what you ticked, and so without a tick: ")
    said = cleared.removesuffix(".").partition("tick: ")[2].split(", ")
    assert set(said) <= set(names)
    for name in said:
        box = page.locator(f'.winding [data-tick="{name}"]')
        assert not box.count() or not box.is_checked()
