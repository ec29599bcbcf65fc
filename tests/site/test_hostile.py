"""A chart is somebody else's text. Whatever it holds, it is shown as text."""

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from sitekit import DESK

from lintarsia.publishing.site.building import build_site

BATTERY = [
    "<script>window.pwned=1</script>",
    "</title><script>window.pwned=1</script>",
    '\\"><img src=x onerror=window.pwned=1>',
    "' onmouseover='window.pwned=1",
    "</text></svg><script>window.pwned=1</script>",
    "--><script>window.pwned=1</script><!--",
    "]]><script>window.pwned=1</script>",
    "{{ 7 * 7 }}{% raw %}{{ config }}",
    "${7*7} `window.pwned=1`",
    "javascript:window.pwned=1",
    "&lt;script&gt;&amp;&#60;",
    "[link](javascript:window.pwned=1) **bold** <b>bold</b>",
    "\u202eright to left\u202c \u0000 \u0007 \ud83e\uddf6",
    "</script><svg/onload=window.pwned=1>",
    "x" * 400,
]
CHART = """\
lintarsia: 1
title: "{0}"
worked: flat
technique: mixed
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
yarns:
  w: {{name: "{0}", fibre: "{0}", length: 10 m, mass: 5 g, balls: 1}}
colours:
  "<": {{name: "{0}", shade: "#27406b", yarn: w}}
  "&": {{name: "2 {0}", shade: "#efe9dc", yarn: "{0}"}}
  "'": {{name: "unused", shade: "#efe9dc"}}
supplies:
  "<": [{{holder: "{0}"}}]
suppress:
  - {{rule: colour/unused, justification: "{0}"}}
  - {{rule: "{0}", justification: "{0}"}}
written: {{1: "{0}"}}
chart: |
  <<<&<<<<&&<"
  <<&&&<<<&&<
  <<<<<<<<<<<<
"""

# What the page as it was written holds, before any script of ours changed it, and what came of loading it.
LOOK = """(text) => {
  const all = [...new DOMParser().parseFromString(text, "text/html").querySelectorAll("*")];
  return {
    pwned: typeof window.pwned,
    attributes: [...new Set(all.flatMap((e) => [...e.attributes].map((a) => a.name)))],
    tags: [...new Set(all.map((e) => e.localName.toLowerCase()))],
    scripts: [...document.scripts].filter((s) => s.type !== "application/json").map((s) => s.src + s.textContent),
    data: [...document.scripts].filter((s) => s.type === "application/json").map((s) => s.textContent),
    hrefs: all.filter((e) => e.localName === "a" || e.localName === "use").map((a) => a.getAttribute("href")),
  };
}"""


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    charts = folder / "charts"
    charts.mkdir()
    for number, text in enumerate(BATTERY):
        safe = text.replace("\u0000", "\\0").replace("\u0007", "\\a").replace("\ud83e\uddf6", "\\U0001F9F6")
        (charts / f"h{number}.chart.yaml").write_text(CHART.format(safe), encoding="utf-8")
        (charts / f"t{number}.chart.yaml").write_text(f"title: {text[:50]!r}\n{safe}", encoding="utf-8")
    for name in ("<img src=x onerror=alert(1)>", "a'b\"c", "..", "&amp;", "{{7*7}}", "-->", "con", "\u202etxt"):
        (charts / f"{name}.chart.yaml").write_text(CHART.format("plain"), encoding="utf-8")
    out = folder / "out"
    build_site([str(charts)], str(out), title='Knits <script>window.pwned=1</script> & "more"')
    return out


def test_no_page_runs_or_holds_what_a_chart_brought(hostile: Path, browser: Browser) -> None:
    pages = sorted(p for p in hostile.rglob("*.html") if "rules" not in p.parts)
    assert len(pages) > 2 * len(BATTERY)
    context = browser.new_context(viewport=DESK)
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    for file in pages:
        page.goto(file.as_uri())
        found = page.evaluate(LOOK, file.read_text(encoding="utf-8"))
        assert found["pwned"] == "undefined", file
        assert not [name for name in found["attributes"] if name.startswith("on") or name == "style"], file
        assert not set(found["tags"]) & {"iframe", "object", "embed", "base", "foreignobject", "b1"}, file
        assert all(s.startswith("file:") and "/assets/" in s and s.endswith(".js") for s in found["scripts"]), file
        assert all(json.loads(data)["steps"] for data in found["data"]), file  # nothing in it ends it early
        assert not [href for href in found["hrefs"] if ":" in href.split("#")[0]], file
    context.close()
    assert complaints == []


def test_titles_are_shown_letter_by_letter(hostile: Path, browser: Browser) -> None:
    context = browser.new_context(viewport=DESK)
    page = context.new_page()
    for number, text in enumerate(BATTERY[:10]):
        page.goto((hostile / "charts" / f"h{number}.html").as_uri())
        shown = page.locator("h1").inner_text()
        assert " ".join(shown.split()) == " ".join(text.replace('\\"', '"').split()), number
    context.close()


def test_every_picture_is_well_formed_and_runs_nothing(hostile: Path) -> None:
    from lxml import etree

    pictures = [(file, file.read_text()) for file in sorted(hostile.rglob("*.svg"))]
    assert len(pictures) > len(BATTERY)
    for page in sorted(hostile.rglob("charts/**/*.html")):
        drawn = re.findall(r'<svg xmlns="http://www\.w3\.org/2000/svg".*?</svg>', page.read_text(), re.DOTALL)
        pictures += [(page, svg) for svg in drawn]
    assert len(pictures) > 3 * len(BATTERY)
    for file, svg in pictures:
        root = etree.fromstring(svg.encode())
        for element in root.iter(etree.Element):
            assert etree.QName(element).localname in {
                "svg", "g", "path", "rect", "circle", "text", "title", "desc", "defs", "marker", "use", "tspan", "line",
                "switch",  # of one group: what it holds is laid out only where it is shown
            }, file  # fmt: skip
            assert not [name for name in element.attrib if name.startswith("on") or name == "style"], file
            for name, value in element.attrib.items():
                if name.endswith("href"):
                    assert value.startswith("#"), file


def test_everything_stays_in_the_folder(hostile: Path) -> None:
    assert sorted(p.name for p in hostile.parent.iterdir()) == ["charts", "out"]
    for file in hostile.rglob("*"):
        assert file.resolve().is_relative_to(hostile.resolve())
        assert not file.is_symlink()
