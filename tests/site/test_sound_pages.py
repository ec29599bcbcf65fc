"""Every page of a small site: what HTML, styles and scripts know; links that lead somewhere; words without a slip.

Once for the group, once for everybody, and once as contents handed to a theme of somebody else.
"""

import os
import subprocess
from pathlib import Path

import pytest
from pagecheck import Page, dead_links, faults, misspelt
from smallsite import FILES, KITE, TERN, Pages, built, contents, write

from folding import slow
from lintarsia.publishing.pages.layout import Layout

OWN = " ".join(FILES.values())


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Pages]:
    folder = tmp_path_factory.mktemp("small")
    write(folder / "charts")
    return folder / "site", built(folder / "charts", folder / "site")


@pytest.fixture(scope="module")
def open_to_all(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Pages]:
    folder = tmp_path_factory.mktemp("public")
    write(folder / "charts", {name: text for name, text in FILES.items() if not name.startswith("torn")})
    return folder / "site", built(folder / "charts", folder / "site", public=True)


def of_charts(pages: Pages) -> dict[str, Page]:
    return {name: page for name, page in pages.items() if "rules/" not in name and "guide/" not in name}


def test_every_page_is_sound(made: tuple[Path, Pages]) -> None:
    folder, pages = made
    assert {name: found for name, page in pages.items() if (found := faults(page))} == {}
    assert dead_links(pages, folder) == []
    assert {name: slips for name, page in of_charts(pages).items() if (slips := misspelt(page, OWN))} == {}


def test_every_page_for_everybody_is_sound(open_to_all: tuple[Path, Pages]) -> None:
    folder, pages = open_to_all
    assert {name: found for name, page in pages.items() if (found := faults(page))} == {}
    assert dead_links(pages, folder) == []
    assert {name: slips for name, page in of_charts(pages).items() if (slips := misspelt(page, OWN))} == {}
    assert not [name for name in pages if name.startswith("rules/")]
    assert not [name for name, page in pages.items() if page.xpath("//*[@id='results' or @class='board']")]


@pytest.mark.parametrize("layout", [Layout("a/b/", folders=True), *slow(Layout("patterns/"))])
def test_contents_for_another_s_theme_are_sound(tmp_path: Path, layout: Layout) -> None:
    write(tmp_path / "charts")
    pages = contents(tmp_path / "charts", tmp_path / "aside", layout=layout)
    charts = of_charts(pages)  # pages of rules are in no way others here, but for their links
    assert {name: found for name, page in charts.items() if (found := faults(page))} == {}
    assert {name: slips for name, page in charts.items() if (slips := misspelt(page, OWN))} == {}
    files = {layout.file(name): page for name, page in pages.items()}
    inside = [link for name, page in files.items() for link in _links(name, page)]
    written = {file.relative_to(tmp_path / "aside").as_posix() for file in (tmp_path / "aside").rglob("*")}
    there = {*files, *written}
    lost = [link for link in inside if link not in there and not _of_the_guide(link, layout)]
    assert lost == []


def _links(name: str, page: Page) -> list[str]:
    """The files that a page's links and pictures lead to, from the top of the site."""
    found = []
    for element, _, link, _ in page.iterlinks():
        address = link.partition("#")[0]
        if address and element.tag in ("a", "img"):
            target = os.path.normpath(os.path.join(os.path.dirname(name), address))
            found.append(f"{target}/index.html" if address.endswith("/") else target)
    return found


def _of_the_guide(link: str, layout: Layout) -> bool:
    """What MkDocs makes of Markdown, or copies."""
    return any(link == layout.file(layout.guide(name)) for name in (
        "reading", "techniques", "hands", "necks-and-tubes", "infants",
    )) or link == layout.report  # fmt: skip


def test_pages_of_changes_are_sound(tmp_path: Path) -> None:
    """A row of the kite is another since v1, and one of the shaped chart is new."""
    charts = tmp_path / "charts"
    write(charts)
    who = ("-c", "user.name=Wren", "-c", "user.email=wren@example.org")
    for words in (("init", "-q"), ("add", "-A"), (*who, "commit", "-qm", "first"), ("tag", "v1")):
        subprocess.run(["git", *words], cwd=charts, check=True, capture_output=True)
    write(charts, {
        "kite.chart.yaml": KITE.replace("BBBWBBBBBBBB", "BBBWWBBBBBBB"),
        "sub/tern.chart.yaml": TERN.replace("SSSSSSSSSSSSSSS\n", "SSSSSSSSSSSSSSS\n  SSSSSSBSSSSSSSS\n", 1),
    })  # fmt: skip
    pages = built(charts, tmp_path / "site", changes_from=["v1"])
    changes = {name: page for name, page in pages.items() if name.startswith("changes/")}
    assert set(changes) == {"changes/kite.html", "changes/sub/tern.html", "changes/shore-pattern.html"}
    assert {name: found for name, page in of_charts(pages).items() if (found := faults(page))} == {}
    assert dead_links(pages, tmp_path / "site") == []
    assert {name: slips for name, page in changes.items() if (slips := misspelt(page, OWN))} == {}
    for name, page in changes.items():
        assert page.xpath(f"//main//a[@href='{'../' * name.count('/')}{name.replace('changes', 'charts', 1)}']"), name
    kite, now = changes["changes/kite.html"], pages["charts/kite.html"]
    assert "row 5" in " ".join(kite.text_content().split())
    told = now.xpath("//*[@data-now]")
    assert [(one.get("data-now"), one.get("data-before")) for one in told] == [("5", "5")]
    assert now.xpath("//a[contains(@href, 'changes/kite.html')]")


def test_a_site_of_nothing_and_of_one(tmp_path: Path) -> None:
    write(tmp_path / "none", {"README.md": "no charts here"})
    pages = built(tmp_path / "none", tmp_path / "site")
    assert {name: found for name, page in of_charts(pages).items() if (found := faults(page))} == {}
    assert misspelt(pages["index.html"], "") == set()
