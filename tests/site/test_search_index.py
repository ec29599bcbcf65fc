"""What can be found in a site: the index that its search looks into."""

import json
from collections.abc import Sequence
from pathlib import Path

import pytest
from sitekit import CUSHION, EXAMPLES, ROUNDS

from lintarsia.publishing.site.building import build_site


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, str, str, str]]:
    """Kind, title, text and link of everything in the index of three charts and a pattern."""
    charts, site = tmp_path_factory.mktemp("charts"), tmp_path_factory.mktemp("site") / "out"
    for name in ("night-owl-mitten", "orchard-bag"):
        file = f"{name}.chart.yaml"
        (charts / file).write_bytes(EXAMPLES.joinpath(file).read_bytes())
    Path(charts, "hats").mkdir()
    (charts / "hats/ring.chart.yaml").write_text(ROUNDS, encoding="utf-8")
    (charts / "bag.pattern.yaml").write_text(CUSHION, encoding="utf-8")
    build_site([str(charts)], str(site), cores=1)
    script = (site / "assets/search-index.js").read_text(encoding="ascii")
    head, _, lines = script.strip().removesuffix(";").partition("=")
    assert head == "globalThis.lintarsiaIndex"
    return [tuple(line) for line in json.loads(lines)]


def found(index: Sequence[tuple[str, str, str, str]], kind: str, word: str) -> list[tuple[str, str]]:
    """Title and link of what a word finds."""
    return [(title, link) for k, title, text, link in index if k == kind and word in f"{title} {text}".casefold()]


def test_a_chart_is_found_by_its_colours_and_yarns(index: list[tuple[str, str, str, str]]) -> None:
    owl = [("Night owl, mitten back", "charts/night-owl-mitten.html")]
    assert found(index, "chart", "amber") == owl
    assert found(index, "chart", "hearth") == owl
    assert [title for title, _ in found(index, "chart", "moss")] == ["Ring of leaves"]


def test_a_colour_that_a_yarn_is_named_for_is_not_listed_twice(index: list[tuple[str, str, str, str]]) -> None:
    (text,) = [text for kind, title, text, _ in index if kind == "chart" and title.startswith("Night owl")]
    assert text.casefold().count("amber") == 1


def test_a_pattern_is_called_one_and_is_found_by_its_yarns(index: list[tuple[str, str, str, str]]) -> None:
    assert found(index, "pattern", "bag of two sides") == [("Bag of two sides", "charts/bag-pattern.html")]
    assert [title for title, _ in found(index, "chart", "bag of two sides")] == [
        f"Bag of two sides: {piece}" for piece in ("front", "ring, small", "ring, large")
    ]
    (bag,) = [text for kind, title, text, _ in index if kind == "chart" and title == "Orchard bag"]
    yarn = bag.rpartition(", ")[2].casefold()
    assert [title for title, _ in found(index, "pattern", yarn)] == ["Bag of two sides"]


def test_the_guide_is_found_by_its_headings(index: list[tuple[str, str, str, str]]) -> None:
    assert ("Interlocking two yarns", "guide/techniques.html#interlock") in found(index, "guide", "interlock")
    assert ("Techniques", "guide/techniques.html") in found(index, "guide", "techniques")


def test_the_guide_is_found_by_its_text(index: list[tuple[str, str, str, str]]) -> None:
    """By words that no heading has, with the heading that they stand below."""
    butterfly = ("Winding a butterfly, and drawing from it", "guide/hands.html#butterfly")
    assert found(index, "guide", "thumb and little finger") == [butterfly]
    assert [link.partition("#")[0] for _, link in found(index, "guide", "hospitals")] == ["guide/infants.html"]
    texts = [text for kind, _, text, _ in index if kind == "guide"]
    assert sum(map(len, texts)) > 10_000
    assert not [text for text in texts if "<" in text or "[[" in text or "&amp;" in text]
