"""The pages before two judges from outside: axe-core (WCAG 2.2 A and AA) and the HTML checker of the W3C (Nu)."""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Page, ViewportSize
from sitekit import DESK, PHONE, Look, Site

PAGES = [
    "index.html",
    "charts/night-owl-mitten.html#row-27",
    "charts/gate.html",
    "charts/torn.html",
    "charts/bag-pattern.html",
    "charts/orchard-bag.html",
    "mine.html",
    "charts/hats/ring.html",
    "changes/bag-pattern.html",
    "rules/index.html",
    "rules/grid/stitch-count.html",
    "guide/techniques.html",
    "search.html?q=owl",
]


@pytest.mark.parametrize(("size", "scheme"), [(PHONE, "light"), (DESK, "dark")], ids=["phone-day", "desk-evening"])
@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_nothing(look: Look, npm: Path, path: str, size: ViewportSize, scheme: str) -> None:
    page = look.at(path, size=size, color_scheme=scheme, bypass_csp=True)
    page.wait_for_timeout(300)  # transitions change colours that axe looks at
    assert axe(page, npm) == []


def axe(page: Page, npm: Path) -> list[str]:
    """What axe has against a page as it stands."""
    page.add_script_tag(path=npm / "axe-core" / "axe.min.js")
    found: list[str] = page.evaluate(
        """async () => (await axe.run(document, { resultTypes: ["violations"], runOnly: { type: "tag",
        values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] } })).violations
        .map((v) => [v.impact, v.id, v.help, ...v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160))].join(" | "))"""
    )
    return found


@pytest.mark.parametrize(("size", "scheme"), [(PHONE, "light"), (DESK, "dark")], ids=["phone-day", "desk-evening"])
def test_axe_finds_nothing_where_something_is_said_and_kept(
    look: Look, npm: Path, size: ViewportSize, scheme: str
) -> None:
    page = look.at("charts/orchard-bag.html#row-9", size=size, color_scheme=scheme, bypass_csp=True)
    page.locator("#over-said").check()
    page.get_by_role("button", name="Say something of this row").click()
    page.wait_for_timeout(300)
    assert axe(page, npm) == []
    page.get_by_label("In your words").fill("clear")
    page.get_by_role("button", name="Keep it").click()
    page.goto(f"{look.site.address}mine.html")
    for summary in page.locator("summary").all():
        summary.click()
    page.wait_for_timeout(300)
    assert axe(page, npm) == []


def test_the_html_checker_finds_no_error(site: Site, npm: Path) -> None:
    java = shutil.which("java")
    assert java, "there is no java; the HTML checker needs it (Debian: apt-get install default-jre-headless)"
    files = [str(site.folder / re.split("[?#]", page)[0]) for page in PAGES]
    jar = npm / "vnu-jar" / "build" / "dist" / "vnu.jar"
    # The standard has `blocking` for `rel=expect` too (HTML, "The link element"); the checker, up to 26.9.27, has not.
    unknown = ["--filterpattern", ".*“blocking” attribute must have a “rel” attribute whose value is “stylesheet”.*"]
    command = [java, "-Xss4m", "-jar", str(jar), "--errors-only", *unknown, "--format", "gnu", *files]
    # Java opens files by the letters that the locale has, and the path of this folder may need more than C has.
    env = os.environ | {"LC_ALL": "C.UTF-8"}
    done = subprocess.run(command, env=env, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    assert done.returncode == 0
