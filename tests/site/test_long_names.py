"""Names of any length and any direction: no page scrolls sideways, and titles take a few lines."""

import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, ViewportSize
from sitekit import DESK, PHONE, box

from lintarsia.publishing.site.building import build_site

WORDS = " ".join(["A title that goes on and on about herons in the reeds"] * 6)[:300]
WORD = ("Reiherschilfrohrbucht" * 15)[:300]
HEBREW = "שועל (צד 2)"
CHART = """\
lintarsia: 1
title: "{name}"
gauge: {{stitches: 20, rows: 28, over: 10 cm, needle: 4 mm}}
yarns:
  one: {{name: "{name}", weight: 4, length: 100 m, mass: 50 g, balls: 2}}
colours:
  B: {{name: "{name}", shade: "#27406b", yarn: one}}
  W: {{name: "{name} pale", shade: "#efe9dc", yarn: one}}
chart: |
  BBBBBBBWWBBBB
  BBBBWBBBBBBBB
  BBBBBBBBBBBBB
"""
PATTERN = f"""\
lintarsia-pattern: 1
title: "{WORDS}"
sizes: ["{WORD}", small]
pieces:
  "{WORDS}": {{chart: word.chart.yaml, plain: B, cast-on: {{"{WORD}": 15, small: 13}}}}
  "{HEBREW}": {{chart: fox.chart.yaml}}
"""
# Where the word after `: ` begins, which follows a name.
BEHIND = """(e) => {
  const text = [...e.childNodes].find((one) => /^: /.test(one.data)), range = document.createRange();
  range.setStart(text, 2);
  range.setEnd(text, 3);
  const { x, y } = range.getBoundingClientRect();
  return { x, y };
}"""
LINES = "(e) => Math.round(e.getBoundingClientRect().height / parseFloat(getComputedStyle(e).lineHeight))"


@pytest.fixture(scope="module")
def long(tmp_path_factory: pytest.TempPathFactory) -> str:
    charts = tmp_path_factory.mktemp("long")
    for file, name in (("words", WORDS), ("word", WORD), ("fox", HEBREW)):
        (charts / f"{file}.chart.yaml").write_text(CHART.format(name=name), "utf-8")
    (charts / "cover.pattern.yaml").write_text(PATTERN, "utf-8")
    who = ("-c", "user.name=Designer", "-c", "user.email=designer@example.org")
    for command in (("init", "-q"), ("add", "-A"), (*who, "commit", "-q", "-m", "state")):
        subprocess.run(["git", *command], cwd=charts, check=True)
    (charts / "words.chart.yaml").write_text(CHART.format(name=WORDS) + "  BBBBBBBBBBBBB\n", "utf-8")
    build_site([str(charts)], str(charts / "site"))
    return Path(charts / "site").as_uri()


@pytest.fixture(params=[PHONE, DESK], ids=["phone", "desk"])
def size(request: pytest.FixtureRequest) -> ViewportSize:
    size: ViewportSize = request.param
    return size


@pytest.fixture
def page(size: ViewportSize, browser: Browser) -> Iterator[Page]:
    page = browser.new_page(viewport=size)
    yield page
    page.close()


def test_no_page_is_wider_than_its_window(page: Page, size: ViewportSize, long: str) -> None:
    for name in ("index", "charts/words", "charts/word", "charts/cover-pattern", "charts/fox"):
        page.goto(f"{long}/{name}.html")
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"], name
        lists = page.locator(".winding table, .yarns table, .ends table").all()
        assert bool(lists) is (name in ("charts/words", "charts/word", "charts/fox"))
        wide = [one.evaluate("(e) => e.scrollWidth > e.parentElement.clientWidth + 1") for one in lists]
        assert not any(wide), name


def test_titles_and_buttons_take_a_few_lines(page: Page, long: str) -> None:
    page.goto(f"{long}/index.html")
    assert max(one.evaluate(LINES) for one in page.locator(".swatch .name").all()) <= 5
    page.goto(f"{long}/charts/cover-pattern.html")
    for part, most in (("h1", 4), (".start .clamped", 2), (".sizes .clamped", 2), (".pieces b", 5), ("th .clamped", 4)):
        assert 1 <= max(one.evaluate(LINES) for one in page.locator(part).all()) <= most, part
    page.goto(f"{long}/charts/word.html")
    assert page.locator(".part-of a").evaluate(LINES) <= 2


def test_what_begins_with_a_long_name_still_tells_the_sizes_apart(page: Page, long: str) -> None:
    page.goto(f"{long}/charts/cover-pattern.html")
    told = page.locator(".figures dd").first
    assert told.inner_text().split(", ")[-1].strip() == "small"
    assert box(told.get_by_text("small"))["height"] > 0
    last = page.locator(".start").nth(1)
    inside, name = box(last), box(last.get_by_text("small"))
    assert inside["y"] < name["y"]
    assert name["y"] + name["height"] < inside["y"] + inside["height"]
    last.click()
    assert page.locator(".crumb .clamped").evaluate(LINES) <= 2
    title, piece = page.locator("h1 .clamped").all()
    assert (title.inner_text()[:7], piece.inner_text()[-7:]) == ("A title", ", small")
    assert box(piece)["y"] + box(piece)["height"] <= box(page.locator("h1"))["y"] + box(page.locator("h1"))["height"]
    assert max(one.evaluate(LINES) for one in page.locator("nav.sizes a .clamped").all()) <= 2


def test_what_is_told_of_a_name_that_is_read_from_the_right_stays_behind_it(page: Page, long: str) -> None:
    page.goto(f"{long}/charts/cover-pattern.html")
    line = page.locator(".parts li", has_text="שועל")
    name, told = box(line.locator("a")), line.evaluate(BEHIND)
    assert told["x"] >= name["x"] + name["width"]


def test_a_long_title_leaves_the_page_s_number_its_room(page: Page, long: str) -> None:
    page.goto(f"{long}/charts/words.html")
    assert "changed since commit" in page.locator('[data-part="stamp"]').inner_text()  # the longest there is
    page.pdf()
    running = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--li-running')")
    assert running.startswith('"A title that goes on')
    assert "…" in running
    assert len(running) <= 110
