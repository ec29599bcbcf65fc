"""A tour of somebody's site with charts in it: each page is loaded once, in one tab, and looked at in both windows, in
every way that the tests ask about. What was seen is data; the tests say what it ought to be."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from hostkit import THEMES
from playwright.sync_api import Browser, FloatRect, Page, ViewportSize
from sitekit import DESK, PHONE, SETTLED, Look, Site, box

HOME, OVERVIEW, OWL, GATE = "", "patterns/", "patterns/charts/night-owl-mitten/", "patterns/charts/gate/"
CARDS = {OWL: "#row-24", GATE: "#row-3"}  # the rows that are knitted there, once the page itself has been looked at
RULE, GUIDE, INFANTS = "patterns/rules/grid/stitch-count/", "patterns/guide/reading/", "patterns/guide/infants/"
BLOG = "blog/"
READ = (OVERVIEW, GATE, INFANTS, BLOG)  # what axe reads
SEEN = (HOME, OVERVIEW, OWL, GATE, RULE, GUIDE, INFANTS, BLOG)
HELD_AGAINST = (OWL, OVERVIEW, BLOG)  # theirs without ours, and ours without theirs
WINDOWS = (("phone", PHONE, "light"), ("desk", DESK, "dark"))
PAPER = ViewportSize(width=718, height=1047)  # what margins of 10 mm leave of A4, at 96 px an inch
DAY, EVENING = "rgb(247, 242, 232)", "rgb(28, 22, 17)"

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
HELD = """() => {
  for (const root of document.querySelectorAll(".lintarsia")) {
    root.style.setProperty("width", `${root.getBoundingClientRect().width}px`, "important");
  }
  document.body.style.setProperty("margin", "0", "important");
}"""
LET_GO = """() => {
  for (const root of document.querySelectorAll(".lintarsia")) root.style.removeProperty("width");
  document.body.style.removeProperty("margin");
}"""
# Those of everything that is not ours.
THEIRS = """() => [...document.querySelectorAll("body *")].filter((one) => !one.closest(".lintarsia")).map((one) => {
  const NAMES = ["color", "font", "display", "marginTop", "marginBottom", "padding", "zIndex"];
  const style = getComputedStyle(one), at = Math.round(one.getBoundingClientRect().x);
  return [`${one.localName}.${one.className}`, at, ...NAMES.map((name) => style[name])].join(" | ");
})"""
WITHOUT = """(ours) => {
  globalThis.left = [...document.styleSheets].filter((sheet) => !sheet.disabled &&
    Boolean(sheet.href?.endsWith("patterns/assets/lintarsia.css")) === ours);
  for (const sheet of globalThis.left) sheet.disabled = true;
}"""
BACK = "() => { for (const sheet of globalThis.left) sheet.disabled = false; }"
LAMP = """(dark) => {
  const { documentElement: root, body } = document;
  if (root.dataset.bsTheme) root.dataset.bsTheme = dark ? "dark" : "light";
  if (body.dataset.mdColorScheme) body.dataset.mdColorScheme = dark ? "slate" : "default";
}"""
GROUND = "() => getComputedStyle(document.querySelector('.lintarsia')).backgroundColor"
LETTERS = """(theirs) => {
  const root = document.querySelector(".lintarsia");
  for (const one of [document.documentElement, root.parentElement]) one.style.fontSize = theirs;
  return [root, root.querySelector("h2, p")].map((one) => getComputedStyle(one).fontSize);
}"""
AXE = """async () => (await axe.run(".lintarsia", { preload: false, resultTypes: ["violations"], runOnly: { type: "tag",
  values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
  rules: { "target-size": { enabled: false } } })).violations // half under a theme's head, one is small
  .map((v) => [v.impact, v.id, ...v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160))].join(" | "))"""
INVITING = """() => [...document.querySelectorAll(".lintarsia :is(.placed-go, .start, .knit-card, button)")]
  .filter((one) => one.checkVisibility({ checkVisibilityCSS: true }) && one.getBoundingClientRect().width)
  .map((one) => one.outerHTML.slice(0, 90))"""
BOXES = """(parts) => [...document.querySelectorAll(parts)].map((one) => one.getBoundingClientRect().toJSON())"""
COVERED = """(card) => [...card.querySelectorAll("button, h2, li")].filter((one) => {
  if (!one.checkVisibility()) return false;
  const at = one.getBoundingClientRect();
  return !card.contains(document.elementFromPoint(at.x + at.width / 2, at.y + at.height / 2));
}).map((one) => one.outerHTML.slice(0, 90))"""
CLEAR = """() => {
  const { left, right, top, bottom } = document.querySelector(".viewport").getBoundingClientRect();
  return [top + 1, bottom - 1].every((y) => document.elementFromPoint((left + right) / 2, y)?.closest(".stage"));
}"""
SCRIPTS = "typeof lintarsiaPages"
WIDE = "document.documentElement.scrollWidth"
# What themes say of their search; and a fault of MkDocs' own theme where its colours of code are not wanted.
NO_FAULTS = ("building Lunr index...", "Lunr index built, search ready", "of null (setting 'disabled')")


@dataclass
class Sight:
    """What was seen of a page in a window: `wide` is how wide the page is, px; `looks` are those of ours with the
    theme's styles and without, `theirs` those of the theme's with ours and without; `axe` what it finds, and on what
    `ground`; `letters` their sizes as they are, and beneath a theme that enlarges its own."""

    wide: int
    titles: list[str]
    ours: str
    looks: tuple[list[str], list[str]] = ([], [])
    theirs: tuple[list[str], list[str]] = ([], [])
    letters: tuple[list[str], list[str]] = ([], [])
    axe: list[str] = field(default_factory=list)
    ground: str = ""
    by_hand: str = ""  # the ground where the theme is switched to the evening while the system has day
    paper: "Paper | None" = None
    card: "Card | None" = None
    scripts: str = ""  # "undefined" where none of ours has come


@dataclass
class Card:
    """The card with a row in it: where its yarns hang and where the chips of the key are, what of it something else
    covers, what it says once the next row is asked for, and whether all of the chart's window is then in sight."""

    hung: list[FloatRect]
    chips: list[FloatRect]
    covered: list[str]
    onward: str
    clear: bool


@dataclass
class Paper:
    """A page as it is printed: `pairs` are where pictures and their keys stand, `wide` as for the screen, and
    `inviting` is what is left over that a finger would press."""

    wide: int
    pairs: list[tuple[Any, Any]]
    inviting: list[str]


def faults(look: Look) -> list[str]:
    """What pages complained of since this was asked last."""
    told, look.complaints = look.complaints, []
    return [one for one in told if not one.endswith(NO_FAULTS)]


def tour(host: Site, browser: Browser, npm: Path) -> Iterator[tuple[tuple[str, str], Sight]]:
    """What is seen on each page, by `phone` or `desk` and the page's address."""
    shutil.copy(npm / "axe-core" / "axe.min.js", host.folder)  # from there a browser keeps it from page to page
    look = Look(host, browser)
    page = look.at(HOME)
    for turn, path in enumerate(SEEN, list(THEMES).index(host.theme)):
        windows = WINDOWS if turn % 2 else WINDOWS[::-1]  # each page is loaded in both, in one theme or another
        page.evaluate("localStorage.clear()")  # nobody has been here
        page.set_viewport_size(windows[0][1])
        page.goto(host.address + path)
        for name, size, scheme in windows:
            page.set_viewport_size(size)
            yield (name, path), _seen(page, path, size, scheme, host.theme)
    told = faults(look)
    look.close()
    assert told == []


def started(page: Page) -> None:
    page.wait_for_function("document.querySelector('.lintarsia.is-started')")


def _seen(page: Page, path: str, size: ViewportSize, scheme: str, theme: str) -> Sight:
    if path == HOME:
        page.wait_for_timeout(300)
        return Sight(page.evaluate(WIDE), [], "", scripts=page.evaluate(SCRIPTS))
    started(page)
    # All of it laid out, whether it is in sight or not, and nothing moving.
    # At its head: a theme's list of headings marks where one is.
    still = ".lintarsia * { content-visibility: visible !important; } * { transition: none !important; }"
    page.add_style_tag(content=still)
    page.evaluate("scrollTo(0, 0)")
    page.wait_for_timeout(250)
    ours = page.locator(".lintarsia").first.inner_text()
    sight = Sight(page.evaluate(WIDE), page.locator("h1").all_inner_texts(), ours, scripts=page.evaluate(SCRIPTS))
    if path in HELD_AGAINST:
        sight.looks, sight.theirs = _both_ways(page, path)
        sight.letters = page.evaluate(LETTERS, ""), page.evaluate(LETTERS, "29px")
        page.evaluate(LETTERS, "")
        sight.card = _at_the_card(page) if path == OWL else None
        sight.paper = _on_paper(page, size) if path != OVERVIEW else None
    if path in READ:
        _read(page, path, scheme, theme, sight)
    return sight


def _both_ways(page: Page, path: str) -> tuple[tuple[list[str], list[str]], tuple[list[str], list[str]]]:
    theirs = page.evaluate(THEIRS)
    with _without(page, ours=True):
        theirs_alone = page.evaluate(THEIRS)
    _knit(page, path)
    page.evaluate(HELD)
    ours = page.evaluate(LOOKS)
    with _without(page, ours=False):
        ours_alone = page.evaluate(LOOKS)
    page.evaluate(LET_GO)
    return (ours, ours_alone), (theirs, theirs_alone)


def _knit(page: Page, path: str) -> None:
    if path in CARDS:
        page.evaluate("(row) => { location.hash = row; }", CARDS[path])
        page.locator('[data-part="card"]').wait_for()
        page.evaluate(SETTLED)  # symbols come behind the card


def _at_the_card(page: Page) -> Card:
    card = page.locator('[data-part="card"]')
    hung, chips = page.evaluate(BOXES, ".knit-card .hangs li"), page.evaluate(BOXES, ".key-list .key")
    covered = card.evaluate(COVERED)
    page.get_by_role("button", name="Next row").click()
    return Card(hung, chips, covered, card.get_by_role("heading").inner_text(), page.evaluate(CLEAR))


@contextmanager
def _without(page: Page, *, ours: bool) -> Iterator[None]:
    """The page without our styles, or without the theme's."""
    page.evaluate(WITHOUT, ours)
    page.wait_for_timeout(250)
    yield
    page.evaluate(BACK)


def _read(page: Page, path: str, scheme: str, theme: str, sight: Sight) -> None:
    page.evaluate(LAMP, True)
    sight.by_hand = page.evaluate(GROUND)
    if theme == "readthedocs":  # which has no switch; the others ask the system once, when they are loaded
        page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    page.evaluate(LAMP, scheme == "dark")
    _knit(page, path)
    page.wait_for_timeout(150)
    if not page.evaluate("'axe' in globalThis"):
        page.add_script_tag(url="/axe.min.js")
    sight.axe, sight.ground = page.evaluate(AXE), page.evaluate(GROUND)
    page.emulate_media(color_scheme="light")
    page.evaluate(LAMP, False)


def _on_paper(page: Page, size: ViewportSize) -> Paper:
    page.set_viewport_size(PAPER)
    page.emulate_media(media="print")
    pictures, keys = (page.locator(f".lintarsia :is({parts})").all() for parts in (".stage, .placed-picture", KEYS))
    pairs = list(zip(map(box, pictures), map(box, keys), strict=True))
    paper = Paper(page.evaluate(WIDE), pairs, page.evaluate(INVITING))
    page.emulate_media(media="screen")
    page.set_viewport_size(size)
    return paper


KEYS = ".key-list, .placed > figcaption"
