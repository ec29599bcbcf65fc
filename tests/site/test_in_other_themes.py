"""Charts in somebody else's site: Material for MkDocs, MkDocs' own theme and that of Read the Docs.

What the theme is to leave alone is held against the page without the theme's styles, and the theme against itself
without ours. Whether a page can be read, axe-core says (WCAG 2.2 A and AA). Most of it is seen on one tour of each site
(`hosttour.py`), since to load a page anew for every question takes minutes.
"""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from hostkit import THEMES
from hosttour import (
    BLOG,
    DAY,
    EVENING,
    GATE,
    GUIDE,
    HELD_AGAINST,
    HOME,
    OVERVIEW,
    OWL,
    PAPER,
    READ,
    Sight,
    faults,
    started,
    tour,
)
from playwright.sync_api import Browser, expect
from sitekit import DESK, PHONE, Look, Site

THEME = pytest.mark.parametrize("host", THEMES, indirect=True)
WINDOW = pytest.mark.parametrize("window", ["phone", "desk"])
Sights = dict[tuple[str, str], Sight]


@pytest.fixture(scope="session")
def sights(host: Site, browser: Browser, npm: Path) -> Sights:
    """What is seen on a tour, by `phone`, by day, or `desk`, in the evening, and the page."""
    return dict(tour(host, browser, npm))


@pytest.fixture
def look(host: Site, browser: Browser) -> Iterator[Look]:
    """As any look at a page, but that themes may say what they like in the console; errors they may not."""
    look = Look(host, browser)
    yield look
    look.close()
    assert faults(look) == []


def differing(there: str, alone: str) -> str:
    """In what two looks of an element differ, "" where in nothing."""
    pairs = zip(there.split(" | "), alone.split(" | "), strict=True)
    told = [f"{at}: {one} not {other}" for at, (one, other) in enumerate(pairs) if one != other]
    return "; ".join([there.partition(" | ")[0], *told]) if told else ""


@THEME
@WINDOW
@pytest.mark.parametrize("path", READ)
def test_axe_finds_nothing_in_what_is_ours(sights: Sights, host: Site, window: str, path: str) -> None:
    sight, evening = sights[window, path], window == "desk" and host.theme != "readthedocs"
    assert sight.ground == (EVENING if evening else DAY), "looked at by another light than it says"
    assert sight.axe == []


@THEME
@WINDOW
@pytest.mark.parametrize("path", HELD_AGAINST, ids=["card", "overview", "line"])
def test_the_theme_changes_nothing_of_ours(sights: Sights, window: str, path: str) -> None:
    there, alone = sights[window, path].looks
    assert len(there) == len(alone) > 30
    assert [told for pair in zip(there, alone, strict=True) if (told := differing(*pair))][-5:] == []


@THEME
@WINDOW
@pytest.mark.parametrize("path", HELD_AGAINST)
def test_we_change_nothing_of_the_theme(sights: Sights, window: str, path: str) -> None:
    with_ours, without_ours = sights[window, path].theirs
    assert len(with_ours) > 10
    assert with_ours == without_ours


@THEME
def test_letters_are_as_large_as_the_reader_s_whatever_the_theme_makes_of_its_own(sights: Sights) -> None:
    usual, enlarged = sights["desk", OWL].letters
    assert usual[0] == "16px"
    assert enlarged == usual


@THEME
@WINDOW
@pytest.mark.parametrize(("path", "pictures"), [(OWL, 1), (BLOG, 2)])
def test_on_paper_the_key_stands_beside_its_picture_and_nothing_invites_a_finger(
    sights: Sights, window: str, path: str, pictures: int
) -> None:
    paper = sights[window, path].paper
    assert paper is not None
    assert len(paper.pairs) == pictures
    for picture, key in paper.pairs:
        assert picture["x"] + picture["width"] <= key["x"]
        assert picture["y"] <= key["y"] < picture["y"] + picture["height"]
    assert paper.inviting == []
    assert paper.wide <= PAPER["width"]


@THEME
def test_without_scripts_rows_can_be_read_and_nothing_offers_what_it_cannot_do(look: Look) -> None:
    page = look.at(OWL, size=PHONE, java_script_enabled=False)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    expect(page.locator(".row-list tbody tr").first).to_be_visible()
    expect(page.locator(".knit-card")).to_be_hidden()
    assert [one.inner_text() for one in page.locator(".lintarsia button").all() if one.is_visible()] == []


@THEME
@WINDOW
def test_yarns_hang_side_by_side_and_nothing_covers_the_card(sights: Sights, window: str) -> None:
    card = sights[window, OWL].card
    assert card is not None
    assert len(card.hung) > 4
    top = min(one["y"] for one in card.hung)
    assert sum(one["y"] < top + 5 for one in card.hung) >= 5, "the line-up has become a column"
    assert [one["x"] for one in card.hung[:5]] == sorted((one["x"] for one in card.hung[:5]), reverse=True)
    assert len(card.chips) > 4
    assert all(one["y"] + one["height"] <= other["y"] for one, other in pairwise(card.chips))
    assert card.covered == []
    assert "Row 25" in card.onward
    assert card.clear, "the chart's window is beneath the theme's head or the card"


@THEME
@WINDOW
@pytest.mark.parametrize(
    ("path", "title"),
    [(GATE, "Gate with a fault"), (OVERVIEW, "Charts"), (GUIDE, "How to read"), (BLOG, "A week with the owl")],
)
def test_a_page_has_its_title_once(sights: Sights, window: str, path: str, title: str) -> None:
    sight = sights[window, path]
    assert len(sight.titles) == 1
    assert title in sight.titles[0]
    assert "{ #" not in sight.ours, "Markdown that the host's settings do not know"


@THEME
@WINDOW
def test_nothing_reaches_beyond_the_window(sights: Sights, window: str) -> None:
    wide = {path: sight.wide for (of, path), sight in sights.items() if of == window}
    assert len(wide) == 8
    assert {path for path, px in wide.items() if px > (PHONE if window == "phone" else DESK)["width"]} == set()


@pytest.mark.parametrize("host", ["mkdocs", "material"], indirect=True)
def test_the_lamp_is_the_theme_s(sights: Sights) -> None:
    """A theme that is switched by hand takes ours along, whatever the system says."""
    assert sights["phone", GATE].ground == DAY
    assert sights["phone", GATE].by_hand == EVENING


@pytest.mark.parametrize("host", ["readthedocs"], indirect=True)
def test_a_theme_that_is_light_stays_light(sights: Sights) -> None:
    assert sights["desk", GATE].ground == DAY


@pytest.mark.parametrize("host", ["material"], indirect=True)
def test_scripts_start_again_where_pages_change_without_being_loaded(look: Look) -> None:
    page = look.at(GATE)
    started(page)
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


@THEME
@WINDOW
def test_a_page_without_charts_loads_none_of_their_scripts(sights: Sights, window: str) -> None:
    assert sights[window, HOME].scripts == "undefined"
    assert sights[window, OWL].scripts == "function"
