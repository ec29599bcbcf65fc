"""What a theme of somebody else's is handed with our pages: titles, lists of what is on a page, which of its columns it
leaves out, words for its search, styles and scripts; and options that cannot be followed."""

import json
from pathlib import Path
from typing import Any

import pytest
from lxml import html
from test_plugin import make

from lintarsia.publishing.pages.layout import Layout

MORE = "      into: knits/all\n      title: All <charts>\n"
Built = dict[str, tuple[Path, dict[str, Any]]]
HEADINGS = ["Chart", "Key", "Results", "Materials", "Wind before you begin", "Row by row", "Ends to weave in",
            "Say something here"]  # fmt: skip


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    """By theme: the folder, and the pages by their places."""
    found: Built = {}
    for theme in ("mkdocs", "material"):
        folder = tmp_path_factory.mktemp(theme)
        (folder / "lintarsia.yaml").write_text("designer: {accent: '#2f6f5e'}\n")
        done = make(folder, theme=theme, more=MORE, home="knits/all")
        assert done.returncode == 0, done.said
        pages = {
            file.parent.relative_to(folder / "out").as_posix(): html.document_fromstring(file.read_text("utf-8"))
            for file in (folder / "out").rglob("index.html")
        }
        found[theme] = folder / "out", pages
    return found


def text(part: Any) -> str:
    return " ".join(part.text_content().split())


@pytest.mark.parametrize("theme", ["mkdocs", "material"])
def test_a_page_has_the_title_of_what_it_shows(built: Built, theme: str) -> None:
    _, pages = built[theme]
    titles = {place: text(pages[place].find(".//title")) for place in (
        "knits/all", "knits/all/charts/gate", "knits/all/rules", "knits/all/rules/grid/stitch-count",
        "knits/all/guide/reading",
    )}  # fmt: skip
    assert titles == {
        "knits/all": "All <charts> - Knits", "knits/all/charts/gate": "Gate with a fault - Knits",
        "knits/all/rules": "Rules - Knits", "knits/all/rules/grid/stitch-count": "grid/stitch-count - Knits",
        "knits/all/guide/reading": "How to read these pages - Knits",
    }  # fmt: skip
    for place, page in pages.items():
        assert len(page.xpath("//h1")) == 1, place


def test_a_theme_that_tells_search_engines_what_a_page_is_about_has_the_words(built: Built) -> None:
    _, pages = built["material"]
    about = {place: pages[place].xpath("//meta[@name='description']/@content") for place in (
        "knits/all", "knits/all/charts/gate", "knits/all/rules",
    )}  # fmt: skip
    assert about == {
        "knits/all": ["1 knitting chart, checked and planned."],
        "knits/all/charts/gate": ["8 stitches × 5 rows, 3.6 × 1.7 cm; intarsia, worked flat"],
        "knits/all/rules": ["What a chart is looked over for, and why."],
    }


def test_a_chart_has_the_width_of_the_columns_beside_it_and_other_pages_of_one(built: Built) -> None:
    """Material for MkDocs leaves out what a page's `hide` names (its documentation, "Setting up navigation")."""
    _, pages = built["material"]

    def hidden(place: str) -> tuple[bool, ...]:
        return tuple(
            pages[place].xpath(f"//div[contains(@class, 'md-sidebar--{which}')]")[0].get("hidden") is not None
            for which in ("primary", "secondary")
        )

    assert hidden("knits/all/charts/gate") == (True, True)
    assert hidden("knits/all") == hidden("knits/all/rules") == (False, True)
    assert hidden("knits/all/guide/reading") == (False, False)


def test_a_list_of_what_is_on_a_page_has_its_headings_and_they_are_there(built: Built) -> None:
    _, pages = built["mkdocs"]
    page = pages["knits/all/charts/gate"]
    links = page.xpath("//*[@id='toc-collapse']//a")
    assert [text(a) for a in links] == HEADINGS
    for a in links:
        (heading,) = page.xpath(f"//h2[@id='{a.get('href')[1:]}']")
        assert text(heading).startswith(text(a))
    assert "The chart" in [text(a) for a in pages["knits/all/guide/reading"].xpath("//*[@id='toc-collapse']//a")]


def test_only_the_page_of_all_charts_and_rules_is_for_the_navigation(built: Built) -> None:
    _, pages = built["mkdocs"]
    menu = [(text(a), a.get("href")) for a in pages["."].xpath("//ul[contains(@class, 'navbar-nav')]//a")]
    assert ("All <charts>", "knits/all/") in menu
    assert not [href for _, href in menu if href and "charts/gate" in href]


@pytest.mark.parametrize("theme", ["mkdocs", "material"])
def test_a_search_finds_charts_by_what_they_are_and_by_their_yarns(built: Built, theme: str) -> None:
    out, _ = built[theme]
    index = json.loads((out / "search" / "search_index.json").read_text("utf-8"))
    (gate,) = [one for one in index["docs"] if one["location"] == "knits/all/charts/gate/"]
    assert gate["title"] == "Gate with a fault"
    told = gate["text"].removeprefix("<p>").removesuffix("</p>")
    assert told == "8 stitches × 5 rows, 3.6 × 1.7 cm; intarsia, worked flat; Dusk blue; Bone; Plain DK"
    (overview,) = [one for one in index["docs"] if one["location"] == "knits/all/"]
    assert "1 knitting chart, checked and planned." in overview["text"]


@pytest.mark.parametrize("theme", ["mkdocs", "material"])
def test_styles_and_scripts_stand_on_every_page_and_the_accent_is_in_them(built: Built, theme: str) -> None:
    out, pages = built[theme]
    for place, way in ((".", "knits/all"), ("knits/all", "."), ("knits/all/charts/gate", "../..")):
        here = f"{way}/assets".removeprefix("./")
        assert f"{here}/lintarsia.css" in pages[place].xpath("//link/@href")
        assert f"{here}/hosted.js" in pages[place].xpath("//script/@src")
    assert "light-dark(#2f6f5e" in (out / "knits/all/assets/lintarsia.css").read_text("utf-8")


@pytest.mark.parametrize("theme", ["mkdocs", "material"])
def test_content_is_marked_as_ours_and_nothing_of_it_waits_any_more(built: Built, theme: str) -> None:
    _, pages = built[theme]
    for place, page in pages.items():
        if place == ".":
            continue
        ours = page.xpath("//*[@data-part='hosted']")
        assert len(ours) == 1, place
        assert "lintarsia" in ours[0].get("class").split()
        assert not [c for c in page.xpath("//comment()") if "<h1 " in c.text or c.text.startswith("/")], place
    guide = pages["knits/all/guide/reading"].xpath("//div[@data-part='hosted']")[0]
    assert guide.get("class") == "lintarsia guide"
    assert pages["knits/all/guide/techniques"].xpath("//div[@data-part='hosted']//svg")


def test_what_is_for_machines_and_for_phones_is_beside_the_pages(built: Built) -> None:
    out, _ = built["mkdocs"]
    layout = Layout("knits/all/", folders=True)
    assert json.loads((out / layout.report).read_text("utf-8"))["fingerprints"].keys() == {"charts/gate.chart.yaml"}
    names = {file.name for file in (out / "knits/all/assets").iterdir()}
    assert {"lintarsia.css", "hosted.js", "pages.js", "phrases.js", "mark.svg", "app.json"} <= names
    assert not {"theme.css", "knit.js", "chart-page.js", "hosted.css"} & names
    assert (out / layout.worker).is_file()


@pytest.mark.parametrize(
    ("more", "settings", "said"),
    [
        ("      into: 'a//b'", "", "lintarsia: into: 'a//b' is no folder of the site; expected patterns"),
        ("      into: ''", "", "lintarsia: into: '' is no folder of the site; expected patterns"),
        ("      into: 'a.b'", "", "lintarsia: into: 'a.b' is no folder of the site; expected patterns"),
        ("", "rules: {no/such-rule: off}\n", "lintarsia: "),
        ("      language: dutch", "", "lintarsia: there are no words in 'dutch'"),
        ("      changes_from: [v9]", "", "lintarsia: "),
    ],
)
def test_what_cannot_be_followed_is_said_in_one_line(tmp_path: Path, more: str, settings: str, said: str) -> None:
    if settings:
        (tmp_path / "lintarsia.yaml").write_text(settings)
    done = make(tmp_path, more=more)
    assert done.returncode == 1
    assert said in done.said
    assert "Traceback" not in done.said


def test_one_folder_into_another_with_dashes_may_hold_them(tmp_path: Path) -> None:
    done = make(tmp_path, more="      into: /my-knits/all_of_2/", home="my-knits/all_of_2")
    assert done.returncode == 0, done.said
    assert (tmp_path / "out/my-knits/all_of_2/charts/gate/index.html").is_file()
