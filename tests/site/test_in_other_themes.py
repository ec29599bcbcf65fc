"""Charts in somebody else's site: Material for MkDocs, MkDocs' own theme and that of Read the Docs.

What the theme is to leave alone is held against the page without the theme's styles, and the theme against itself
without ours. Whether a page can be read, axe-core says (WCAG 2.2 A and AA).
"""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hostkit import THEMES
from playwright.sync_api import Browser, Page, ViewportSize, expect
from sitekit import DESK, PHONE, Look, Site, box

THEME = pytest.mark.parametrize("host", THEMES, indirect=True)
SEEN = pytest.mark.parametrize(
    ("size", "scheme"),
    [(PHONE, "light"), (DESK, "dark")],
    ids=["phone-day", "desk-evening"],
)
OWL, GATE = "patterns/charts/night-owl-mitten/", "patterns/charts/gate/"
PAGES = ["patterns/", f"{OWL}#row-24", GATE, "patterns/rules/grid/stitch-count/", "patterns/guide/reading/"]

# The looks of every element of ours, with its place in the page, or in the card, that it is in. The numbers beside a
# chart are made anew for whatever is in sight, and drawings have looks of their own.
LOOKS = """() => {
  const NAMES = ["color", "backgroundColor", "fontFamily", "fontSize", "fontWeight", "lineHeight", "letterSpacing",
    "textTransform", "textAlign", "textDecorationLine", "display", "listStyleType", "boxShadow", "borderTopWidth",
    "borderTopColor", "paddingTop", "paddingLeft", "marginTop", "marginLeft", "opacity", "fill", "stroke"];
  return [...document.querySelectorAll(".lintarsia, .lintarsia *")].flatMap((one) => {
    const style = getComputedStyle(one), at = one.getBoundingClientRect();
    const root = one.closest(".knit-card, .lintarsia").getBoundingClientRect();
    if (!at.width || !at.height || one.closest(".ruler, .map, svg svg, svg *") || !one.checkVisibility()) return [];
    const place = [at.x - root.x, at.width, at.height].map(Math.round);
    const looks = NAMES.map((name) => style[name]);
    return [[`${one.localName}.${one.getAttribute("class")}`, ...looks, ...place].join(" | ")];
  });
}"""
HELD = """(root) => {
  root.style.setProperty("width", `${root.getBoundingClientRect().width}px`, "important");
  document.body.style.setProperty("margin", "0", "important");
}"""
# Those of everything that is not ours.
THEIRS = """() => [...document.querySelectorAll("body *")].filter((one) => !one.closest(".lintarsia")).map((one) => {
  const style = getComputedStyle(one), names = ["color", "font", "display", "margin", "padding", "zIndex"];
  return [`${one.localName}.${one.className}`, ...names.map((name) => style[name])].join(" | ");
})"""
WITHOUT = """(ours) => { for (const sheet of document.styleSheets)
  if (Boolean(sheet.href?.endsWith("patterns/assets/lintarsia.css")) === ours) sheet.disabled = true; }"""


class Visit(Look):
    """As any look at a page, but that themes may say what they like in the console; errors they may not."""

    def at(self, path: str, *, size: ViewportSize = DESK, **options: Any) -> Page:
        page = super().at(path, size=size, **options)
        page.wait_for_function("document.querySelector('.lintarsia.is-started')")
        self.complaints[:] = [told for told in self.complaints if not told.endswith(NO_FAULTS)]
        return page


# What themes say of their search; and a fault of MkDocs' own theme where its colours of code are not wanted.
NO_FAULTS = ("building Lunr index...", "Lunr index built, search ready", "of null (setting 'disabled')")


@pytest.fixture
def visit(host: Site, browser: Browser) -> Iterator[Visit]:
    visit = Visit(host, browser)
    yield visit
    visit.close()
    assert [told for told in visit.complaints if not told.endswith(NO_FAULTS)] == []


def settled(page: Page) -> Page:
    """All of a page laid out, whether it is in sight or not, and nothing moving."""
    page.add_style_tag(content=".lintarsia * { content-visibility: visible !important; transition: none !important; }")
    page.wait_for_timeout(250)
    return page


def differing(there: str, alone: str) -> str:
    """In what two looks of an element differ, "" where in nothing."""
    pairs = zip(there.split(" | "), alone.split(" | "), strict=True)
    told = [f"{at}: {one} not {other}" for at, (one, other) in enumerate(pairs) if one != other]
    return "; ".join([there.partition(" | ")[0], *told]) if told else ""


@THEME
@SEEN
def test_axe_finds_nothing_in_what_is_ours(visit: Visit, npm: Path, size: ViewportSize, scheme: str) -> None:
    for path in ("patterns/", f"{GATE}#row-3", "patterns/guide/infants/"):
        page = settled(visit.at(path, size=size, color_scheme=scheme))
        page.add_script_tag(path=npm / "axe-core" / "axe.min.js")
        found = page.evaluate(
            """async () => (await axe.run(".lintarsia", { resultTypes: ["violations"], runOnly: { type: "tag",
            values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
            rules: { "target-size": { enabled: false } } })).violations // half under a theme's head, one is small
            .map((v) => [v.impact, v.id, ...v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160))].join(" | "))"""
        )
        assert found == [], path
        page.close()


@THEME
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("path", [f"{OWL}#row-24", "patterns/"], ids=["card", "overview"])
def test_the_theme_changes_nothing_of_ours(visit: Visit, path: str, size: ViewportSize) -> None:
    page = settled(visit.at(path, size=size))
    page.locator(".lintarsia").evaluate(HELD)
    there = page.evaluate(LOOKS)
    page.evaluate(WITHOUT, False)
    page.wait_for_timeout(250)
    alone = page.evaluate(LOOKS)
    assert len(there) == len(alone) > 30
    assert [told for pair in zip(there, alone, strict=True) if (told := differing(*pair))][-5:] == []


@THEME
@pytest.mark.parametrize("path", [OWL, "patterns/"])
def test_we_change_nothing_of_the_theme(visit: Visit, path: str) -> None:
    page = settled(visit.at(path))
    before = page.evaluate(THEIRS)
    page.evaluate(WITHOUT, True)
    page.wait_for_timeout(250)
    assert page.evaluate(THEIRS) == before


@THEME
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_yarns_hang_side_by_side_and_nothing_covers_the_card(visit: Visit, size: ViewportSize) -> None:
    page = visit.at(f"{OWL}#row-24", size=size)
    card = page.locator('[data-part="card"]')
    expect(card).to_be_visible()
    hung = [box(yarn) for yarn in card.locator(".hangs li").all()]
    assert len(hung) > 4
    top = min(one["y"] for one in hung)
    assert sum(one["y"] < top + 5 for one in hung) >= 5, "the line-up has become a column"
    assert [one["x"] for one in hung[:5]] == sorted((one["x"] for one in hung[:5]), reverse=True)
    swatches = [box(chip) for chip in page.locator(".key-list .key").all()]
    assert all(one["y"] + one["height"] <= other["y"] for one, other in pairwise(swatches))
    covered = card.evaluate(
        """(card) => [...card.querySelectorAll("button, h2, li")].filter((one) => {
        if (!one.checkVisibility()) return false;
        const at = one.getBoundingClientRect();
        return !card.contains(document.elementFromPoint(at.x + at.width / 2, at.y + at.height / 2));
        }).map((one) => one.outerHTML.slice(0, 90))"""
    )
    assert covered == []
    page.get_by_role("button", name="Next row").click()
    expect(card.get_by_role("heading")).to_contain_text("Row 25")


@THEME
def test_a_page_has_its_title_once(visit: Visit) -> None:
    for path, title in (
        (GATE, "Gate with a fault"),
        ("patterns/", "Charts"),
        ("patterns/guide/reading/", "How to read"),
    ):
        page = visit.at(path)
        expect(page.locator("h1")).to_have_count(1)
        expect(page.locator("h1")).to_contain_text(title)
        expect(page.locator(".lintarsia")).not_to_contain_text("{ #")  # Markdown that the host's settings do not know
        page.close()


@THEME
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_nothing_reaches_beyond_the_window(visit: Visit, size: ViewportSize) -> None:
    for path in PAGES:
        page = visit.at(path, size=size)
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"], path
        page.close()


@pytest.mark.parametrize("host", ["mkdocs", "material"], indirect=True)
def test_the_lamp_is_the_theme_s(visit: Visit) -> None:
    """A theme that is switched by hand takes ours along, whatever the system says."""
    page = visit.at(GATE, color_scheme="light")
    expect(page.locator(".lintarsia")).to_have_css("background-color", "rgb(247, 242, 232)")
    page.evaluate("document.documentElement.dataset.bsTheme = 'dark'; document.body.dataset.mdColorScheme = 'slate'")
    expect(page.locator(".lintarsia")).to_have_css("background-color", "rgb(28, 22, 17)")


@pytest.mark.parametrize("host", ["readthedocs"], indirect=True)
def test_a_theme_that_is_light_stays_light(visit: Visit) -> None:
    page = visit.at(GATE, color_scheme="dark")
    assert (
        page.evaluate("getComputedStyle(document.querySelector('.lintarsia')).backgroundColor") == "rgb(247, 242, 232)"
    )


@pytest.mark.parametrize("host", ["material"], indirect=True)
def test_scripts_start_again_where_pages_change_without_being_loaded(visit: Visit) -> None:
    page = visit.at(GATE)
    page.evaluate("globalThis.sameWindow = true")
    page.get_by_role("link", name="All charts").click()
    expect(page.locator("h1")).to_have_text("Charts")
    page.get_by_role("link", name="Night owl").click()
    expect(page.locator("h1")).to_contain_text("Night owl")
    card = page.locator('[data-part="card"]')
    page.get_by_role("link", name="Start at row 1").click()
    expect(card.get_by_role("heading")).to_contain_text("Row 1")
    page.keyboard.press("ArrowUp")
    expect(card.get_by_role("heading")).to_contain_text("Row 2")
    page.get_by_role("button", name="Next row").click()
    expect(card.get_by_role("heading")).to_contain_text("Row 3")
    assert page.url.endswith("#row-3")
    page.locator('.row-list th a[href$="#row-9"]').click()
    expect(card.get_by_role("heading")).to_contain_text("Row 9")
    page.go_back()
    assert page.evaluate("globalThis.sameWindow") is True, "the page was loaded, and nothing has been tried"
    page.locator("header a.md-logo").first.click()
    expect(page.locator("h1")).to_have_text("Knits of the month")
    page.keyboard.press("ArrowUp")  # nobody listens any more
    page.get_by_role("link", name="the gate").click()
    expect(page.locator("h1")).to_have_text("Gate with a fault")
    expect(page.locator(".zoom")).to_be_visible()
    assert page.evaluate("globalThis.sameWindow") is True
    page.close()


@THEME
def test_a_page_without_charts_loads_none_of_their_scripts(host: Site, browser: Browser) -> None:
    look = Look(host, browser)
    page = look.at("")
    page.wait_for_timeout(300)
    assert page.evaluate("typeof lintarsiaPages") == "undefined"
    look.close()
