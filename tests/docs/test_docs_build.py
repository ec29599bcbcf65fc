"""The built documentation: every link leads somewhere, nothing is loaded from elsewhere, nothing is left unmade."""

import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest
import yaml

from blocks import ROOT
from lintarsia.ground.resources import resource
from lintarsia.rules.rulebook import house_rulebook

pytestmark = pytest.mark.slow


class _Page(HTMLParser):
    def __init__(self, file: Path) -> None:
        super().__init__()
        self.links: list[str] = []
        self.loaded: list[str] = []
        self.ids: list[str] = []
        self.text = file.read_text(encoding="utf-8")
        self.feed(self.text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name == "id" and value:
                self.ids.append(value)
            elif name == "href" and tag == "a" and value:
                self.links.append(value)
            elif name in ("src", "href") and tag in ("script", "img", "link", "iframe") and value:
                self.loaded.append(value)


@pytest.fixture(scope="module")
def pages(built: Path) -> dict[Path, _Page]:
    return {file: _Page(file) for file in sorted(built.rglob("*.html"))}


def test_the_build_has_every_page(pages: dict[Path, _Page], built: Path) -> None:
    names = {str(file.relative_to(built)) for file in pages}
    assert {f"{page.stem}.html" for page in (ROOT / "docs").glob("*.md")} <= names
    assert {f"examples/rules/{name}.html" for name in house_rulebook().names} <= names
    assert list(built.rglob("*.py")) == []


def _place(anchor: str) -> str:
    """The id that an anchor leads to: of stitches of a row, which a script lights, the row's."""
    return re.sub(r"^(row-\d+)-s\d+(?:-\d+)?$", r"\1", anchor)


def test_every_link_and_anchor_leads_somewhere(pages: dict[Path, _Page], built: Path) -> None:
    broken = []
    for file, page in pages.items():
        for link in [*page.links, *page.loaded]:
            parts = urlsplit(link)
            if parts.scheme:
                continue
            target = (file.parent / unquote(parts.path)).resolve() if parts.path else file
            if not target.is_file():
                broken.append(f"{file.relative_to(built)}: {link}")
            elif parts.fragment and target in pages and _place(unquote(parts.fragment)) not in pages[target].ids:
                broken.append(f"{file.relative_to(built)}: {link} (no such place)")
    assert broken == []


def test_nothing_is_loaded_from_elsewhere(pages: dict[Path, _Page]) -> None:
    assert [link for page in pages.values() for link in page.loaded if urlsplit(link).scheme] == []


def test_ids_are_unique_on_every_page(pages: dict[Path, _Page], built: Path) -> None:
    for file, page in pages.items():
        doubled = {name for name in page.ids if page.ids.count(name) > 1} if len(page.ids) < 3000 else set()
        assert not doubled, file.relative_to(built)


def test_nothing_that_stands_for_something_is_left(pages: dict[Path, _Page], built: Path) -> None:
    for file, page in pages.items():
        assert not re.search(r"\[\[[a-z-]+: ", page.text), file.relative_to(built)


@pytest.mark.parametrize(
    ("name", "page"),
    [("chart", "chart-format"), ("pattern", "pattern-format"), ("knit", "test-knits"), ("settings", "settings")],
)
def test_every_key_of_a_schema_is_on_its_page(name: str, page: str, pages: dict[Path, _Page], built: Path) -> None:
    schema = json.loads((resource("schema") / f"{name}.schema.json").read_text(encoding="utf-8"))
    text = pages[built / f"{page}.html"].text
    missing = [key for key in _names(schema["properties"]) if not re.search(rf"[>.]{re.escape(key)}</code>", text)]
    assert missing == []
    assert set(schema["properties"]) <= set(pages[built / f"{page}.html"].ids)


def _names(node: Any) -> Iterator[str]:
    """Every key at the top and every one below it, wherever `properties` names keys."""
    yield from node
    for inner in node.values():
        yield from _inside(inner)


def _inside(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        for key, inner in node.items():
            if key == "properties":
                yield from inner
            if key not in ("examples", "default"):
                yield from _inside(inner)


def test_every_example_made_from_a_schema_is_yaml_that_says_the_same() -> None:
    from keys import _example

    for name in ("chart", "pattern", "settings"):
        schema = json.loads((resource("schema") / f"{name}.schema.json").read_text(encoding="utf-8"))
        for key, node in schema["properties"].items():
            for value in node.get("examples", []):
                stated = yaml.load(_example(key, value), Loader=yaml.BaseLoader)
                assert stated == {key: _as_text(value)}, key


def _as_text(value: Any) -> Any:
    """A value as YAML's plain strings, since the reader takes text for text."""
    if isinstance(value, dict):
        return {key: _as_text(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_as_text(inner) for inner in value]
    return value if isinstance(value, str) else json.dumps(value)
