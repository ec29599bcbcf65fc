"""Pages in another language: every word of them is said in it, and what is English says so.

A language is made up in which each phrase is the English one in brackets, and the charts' own words all begin with Zz:
whatever else is read on a page, or read aloud, was never looked up.
"""

import re
import shutil
import sys
from collections.abc import Iterator, Mapping
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from lxml import html
from playwright.sync_api import Browser
from sitekit import DESK, PHONE, ROUNDS, SHORT_ROW, TORN
from test_plugin import make

from lintarsia.engine import check_paths
from lintarsia.publishing.site.building import build_single, build_site
from lintarsia.telling import catalogues
from lintarsia.telling.catalogues import codes
from lintarsia.telling.languages import Language

CHART = """\
lintarsia: 1
title: Zzheron
worked: flat
gauge: {stitches: 22, rows: 30, over: 10 cm, needle: 4 mm}
caught: {every: 3 stitches}
yarns:
  zzw: {name: Zzwool, length: 120 m, mass: 50 g, balls: 1, fibre: zzfibre}
colours:
  B: {name: Zzblue, shade: "#27406b", yarn: zzw}
  W: {name: Zzwhite, shade: "#efe9dc", yarn: zzw}
wearer: infant
divide:
  7: {by: bind-off, sides: together}
shaping:
  3: {right: -1, left: -1}
  5: {right: -3}
duplicate-stitch:
  - {colour: W, row: 2, stitches: [7, 8]}
suppress:
  - {rule: area/single-stitch, row: 4, stitches: [8, 8], justification: "zzreason"}
chart: |
  .BBBB....BB...
  .BBBB....BB...
  .BBBWBBBBBB...
  .BBBBBBBBBB...
  .BBBBBBWBBBBB.
  .BBBBBBBBBBBB.
  BBBBWWBBBBBBBB
  BBBBBBBBBBBBBB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Zzbag
summary: zzsummary
version: "1.0"
wearer: child
sizes: [zzsmall, zzlarge]
pieces:
  zzfront: {chart: zzheron.chart.yaml}
  zzring: {chart: zzring.chart.yaml, times: 2, cast-on: {zzsmall: 21, zzlarge: 33}}
"""
UNITS = {"cm", "mm", "kg"}  # of all languages, as the file has them


def zz(chart: str) -> str:
    """A chart with words that no page has: those of its title and of its colours and yarns."""
    return re.sub(r"((?:title|name): )([^,\n}]+)", lambda found: found[1] + "Zz" + "".join(found[2].split()), chart)


@pytest.fixture(scope="module")
def charts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("zz")
    (folder / "zzheron.chart.yaml").write_text(CHART, "utf-8")
    (folder / "zzring.chart.yaml").write_text(zz(ROUNDS), "utf-8")
    (folder / "zzgate.chart.yaml").write_text(zz(SHORT_ROW), "utf-8")
    (folder / "zztorn.chart.yaml").write_text(TORN, "utf-8")
    (folder / "zzbag.pattern.yaml").write_text(PATTERN, "utf-8")
    return folder


class _Words(dict[str, Any]):
    def get(self, key: str, default: Any = None) -> Any:
        return f"⟦{key.split('|', 1)[-1]}⟧"


class _Counts(dict[str, Any]):
    def get(self, key: str, default: Any = None) -> Any:
        return f"⟦{key}⟧", f"⟦{key}, many⟧"


def forget() -> None:
    """What pages keep by the language's code, which the made-up one shares with German."""
    for name, module in list(sys.modules.items()):
        for value in vars(module).values() if name.startswith("lintarsia.publishing.pages") else ():
            if hasattr(value, "cache_clear"):
                value.cache_clear()


@pytest.fixture(scope="module")
def bracketed(charts: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the made-up language, which calls itself German."""
    made_up = Language("de", _Words(), _Counts(), lambda number: number != 1, {}, True)
    folder = tmp_path_factory.mktemp("bracketed") / "out"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(catalogues, "read_language", lambda code: made_up)
        forget()
        build_site([str(charts)], str(folder), language="de", cores=1)
        forget()
    return folder


def said(page: str) -> Iterator[str]:
    """Every text of a page, and every attribute that is read aloud, outside of what is English, written by hand or a
    phrase. Elements within a phrase stay."""
    while (without := re.sub(r"⟦([^⟦⟧]*)⟧", lambda found: "".join(re.findall(r"<[^>]*>", found[1])), page)) != page:
        page = without

    def walk(node: Any) -> Iterator[str]:
        if not isinstance(node.tag, str) or node.get("lang") == "en" or node.get("class") == "rule":
            return
        if node.tag in ("script", "style", "code", "pre", "bdi") or node.get("name") in ("over", "unit", "size"):
            return
        yield from (node.get(name) or "" for name in ("aria-label", "title", "alt", "placeholder"))
        if node.tag != "text":  # the symbols of a chart
            yield node.text or ""
        for child in node:
            yield from walk(child)
            yield child.tail or ""

    yield from walk(html.fromstring(page.encode()))


# Names that designers and files have, numbers and what is numbered; whatever else has two letters is a word.
OWN = re.compile(r"(?i:zz)\w*|\S*\.(?:chart|pattern)\.yaml|\w*[0-9]\w*|\*\.knit\.yaml|lintarsia")


def words_in(text: str) -> list[str]:
    return [word for word in re.findall(r"[^\W\d_]{2,}", OWN.sub(" ", text)) if word not in UNITS]


@pytest.mark.parametrize(
    "name",
    ["index", "search", "mine", "charts/zzheron", "charts/zzring", "charts/zzgate", "charts/zztorn",
     "charts/zzbag-pattern", "charts/zzbag-pattern/zzring-zzlarge"],
)  # fmt: skip
def test_every_word_of_a_page_is_a_phrase(bracketed: Path, name: str) -> None:
    page = (bracketed / f"{name}.html").read_text("utf-8")
    assert [text for text in said(page) if words_in(text)] == []


def test_rules_are_told_as_they_are_everywhere(bracketed: Path, charts: Path) -> None:
    """And marked as English, on the page of a chart and on their own."""
    results = check_paths([str(charts / "zzgate.chart.yaml")]).results
    page = html.fromstring((bracketed / "charts/zzgate.html").read_bytes())
    english = " ".join(node.text_content() for node in page.xpath("//*[@lang='en']"))
    short = next(r.message for r in results if r.rule == "grid/stitch-count").partition(" has ")[2]
    assert short in english
    for name in ("rules/index.html", "rules/grid/stitch-count.html"):
        found = html.fromstring((bracketed / name).read_bytes())
        assert found.get("lang") == "de"
        assert "⟦" not in found.xpath("string(//main/*[@lang='en'])")
    guide = html.fromstring((bracketed / "guide/reading.html").read_bytes())
    assert guide.xpath("//main//*[@lang='en']")


@pytest.fixture(scope="module")
def german(charts: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("german") / "out"
    build_site([str(charts)], str(folder), language="de", cores=2)
    return folder


def test_a_page_in_german(german: Path) -> None:
    page = html.fromstring((german / "charts/zzheron.html").read_bytes())
    assert page.get("lang") == "de"
    rows = page.xpath("//section[contains(@class, 'row-list')]")[0].text_content()
    assert "Hinreihe" in rows
    assert "Rückreihe" in rows
    assert "an beiden Enden je 1 abnehmen: von 14 auf 12 Maschen" in rows
    assert "aus dem Gedächtnis" in page.xpath("string(//footer[@class='site-foot'])")
    assert '"sides":["Rückreihe","Hinreihe"]' in page.xpath("string(//script[@data-part='rows'])")
    overview = html.fromstring((german / "index.html").read_bytes())
    assert overview.xpath("string(//h1)") == "Strickschriften"
    assert {option.get("value") for option in overview.xpath("//select[@name='technique']/option")} == {
        "", "intarsia", "stranded"
    }  # fmt: skip


def test_the_settings_say_the_language_and_the_option_says_more(charts: Path, tmp_path: Path) -> None:
    shutil.copytree(charts, tmp_path / "charts")
    (tmp_path / "charts/lintarsia.yaml").write_text("language: fr\n", "utf-8")
    for option, expected in (("", "fr"), ("nb", "nb"), ("en", "en")):
        build_site([str(tmp_path / "charts")], str(tmp_path / f"out-{option}"), language=option)
        page = html.fromstring((tmp_path / f"out-{option}/charts/zzring.html").read_bytes())
        assert page.get("lang") == expected
    single = build_single(str(tmp_path / "charts/zzring.chart.yaml"))
    assert html.fromstring(single).get("lang") == "fr"
    assert b"globalThis.lintarsiaWords" in single


def test_english_pages_carry_no_words(charts: Path, tmp_path: Path) -> None:
    build_site([str(charts)], str(tmp_path / "out"))
    assert "lintarsiaWords=" not in (tmp_path / "out/assets/phrases.js").read_text("utf-8")
    page = (tmp_path / "out/charts/zzheron.html").read_text("utf-8")
    assert page.count("lang=") == page.count('<html lang="en"') == 1


OWN_WORDS = """() => ["#knit-card", "#knit-say"].map((name) => {
  const part = document.querySelector(name).cloneNode(true);
  for (const english of part.querySelectorAll("[lang=en]")) english.remove();
  return [...part.querySelectorAll("*")].map((one) => [...one.childNodes].filter((node) => node.nodeType === 3)
    .map((node) => node.data).join(" ")).join(" ") + part.firstChild?.data;
}).join(" ")"""


def test_in_a_designer_s_own_site(tmp_path: Path) -> None:
    done = make(tmp_path, more="      language: de")
    assert done.returncode == 0, done.said
    page = html.fromstring((tmp_path / "out/patterns/charts/gate/index.html").read_bytes())
    [article] = page.xpath("//article[contains(@class, 'chart-page')]")
    assert article.get("lang") == "de"
    assert "aus dem Gedächtnis" in page.text_content()
    words = (tmp_path / "out/patterns/assets/pages.js").read_text("utf-8")
    assert words.startswith('globalThis.lintarsiaWords={"language":"de"')
    assert "lintarsiaWords" in (tmp_path / "out/patterns/assets/phrases.js").read_text("utf-8")
    overview = html.fromstring((tmp_path / "out/patterns/index.html").read_bytes())
    assert overview.xpath("string(//article//h1)") == "Strickschriften"
    other = tmp_path / "other"
    other.mkdir()
    wrong = make(other, more="      language: dutch")
    assert "there are no words in 'dutch'" in wrong.said


def _keep(complaints: list[str], error: Any) -> None:
    complaints.append(str(error))


FOOT: Mapping[str, str] = {"de": "Weiter ›", "fr": "Suivant ›", "nb": "Neste pinne ›"}


@pytest.mark.parametrize("language", [code for code in codes() if code != "en"])
def test_the_card_on_a_phone(charts: Path, tmp_path: Path, browser: Browser, language: str) -> None:
    """Its buttons stand in one line each, and it says nothing in English."""
    build_site([str(charts)], str(tmp_path / "out"), language=language)
    for size in (PHONE, DESK):
        page = browser.new_page(viewport=size)
        complaints: list[str] = []
        page.on("pageerror", partial(_keep, complaints))
        page.goto((tmp_path / "out/charts/zzheron.html").as_uri() + "#row-2")
        page.locator("#knit-card").wait_for()
        told = page.evaluate(OWN_WORDS)
        assert not re.search(r"\b(?:row|next|back|run|stitch(?:es)?|yarns?|facing|first|side)\b", told, re.I), told
        assert page.locator('[data-knit="next"]').inner_text() == FOOT[language]
        heights = [button.bounding_box() for button in page.locator(".knit-foot button:visible").all()]
        assert len({box["y"] for box in heights if box}) == 1
        assert max(box["height"] for box in heights if box) <= 60
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
        assert complaints == []
        page.close()
