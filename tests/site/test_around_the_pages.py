"""What only a browser, a phone or a search reads of a site, without any of them: the manifest of an app, the scripts of
a chart's page in one file, which of a page's links is its own, and the words by which another's theme finds a page."""

import json
from urllib.parse import urljoin, urlsplit

import pytest
from lxml import html
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from lintarsia.ground.resources import resource
from lintarsia.publishing.pages.appmanifest import LONGEST, app_json
from lintarsia.publishing.pages.frame import chrome, theme_template
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.madepage import MadePage
from lintarsia.publishing.site.pagefiles import COMPILED, FIRST_SCRIPTS, LATE_SCRIPTS, chart_bundle
from lintarsia.publishing.site.pagespecs import PageSpec

HOME = "https://knits.invalid/"


@pytest.mark.parametrize("layout", [Layout(), Layout("all/of/them/")], ids=["a site of ours", "a part of another's"])
def test_an_app_opens_at_the_overview_and_goes_nowhere_else(layout: Layout) -> None:
    """`start_url` and `scope` are found from the manifest's own address, the start within the scope, and icons as well:
    W3C, "Web Application Manifest", 2024, and for addresses RFC 3986, as the standard library joins them."""
    told = json.loads(app_json("Three moor mittens"))
    own = HOME + layout.asset("app.json")
    assert urljoin(own, told["start_url"]) == HOME + layout.file(layout.overview)
    assert urljoin(own, told["scope"]) == HOME + layout.base
    assert [urljoin(own, icon["src"]) for icon in told["icons"]] == [HOME + layout.asset("mark.svg")]
    assert (resource("site") / "assets" / urlsplit(told["icons"][0]["src"]).path).is_file()


def test_an_app_has_its_site_s_name_and_language() -> None:
    title = "Handschuhe für Moor, Heide und Ufer"
    told = json.loads(app_json(title, "de"))
    assert (told["name"], told["lang"]) == (title, "de")
    assert told["short_name"] == title[:LONGEST] != title
    assert "lang" not in json.loads(app_json("Mittens"))


def test_the_bundle_is_every_script_in_its_order_each_tried_by_itself() -> None:
    """Nothing stands between two of them: there it would end them all. Those that can wait do so in groups."""
    rest = chart_bundle().removeprefix(COMPILED)
    for names, before, after in [
        (FIRST_SCRIPTS, "", ""),
        *((group, "lintarsia.rest(() => {\n", "});\n") for group in LATE_SCRIPTS),
    ]:
        tries = []
        for name in names:
            text = (resource("site") / "assets" / name).read_text("utf-8")
            tries.append(f"try {{\n{text}}} catch (fault) {{ reportError(fault); }}\n")
        one = f"{before}{''.join(tries)}{after}"
        assert rest.startswith(one), names
        rest = rest.removeprefix(one)
    assert rest == ""


@pytest.mark.parametrize(
    ("name", "here"), [("mine", ["My knitting"]), ("index", ["Mittens", "Charts"]), ("search", []), ("charts/owl", [])]
)
def test_of_the_links_of_a_page_that_one_is_marked_which_leads_to_itself(name: str, here: list[str]) -> None:
    """`aria-current="page"` stands at the link to the page that one is on: WAI-ARIA 1.2, `aria-current`."""
    page = {"title": "A page", "content": "<p>words</p>", "canonical_url": "", "spec": True}
    config = {"site_name": "Mittens", "site_url": ""}
    made = theme_template("main.html").render(page=page, config=config, **chrome(Layout(), name, about=""))
    links = html.document_fromstring(made).xpath("//a[@aria-current='page']")
    assert [" ".join(link.text_content().split()) for link in links] == here
    assert all(urljoin(HOME + f"{name}.html", link.get("href")) == HOME + f"{name}.html" for link in links)


@pytest.mark.parametrize(("hosted", "found"), [(True, ["An owl, 3 × 2; Bone & ash; <Rust>"]), (False, [])])
def test_a_search_of_another_s_theme_is_given_what_a_page_is_about(hosted: bool, found: list[str]) -> None:
    """Ours searches for itself, so that in a site of ours nothing stands in a page's place."""
    config = MkDocsConfig()
    config.load_dict({"site_name": "Mittens", "site_url": HOME})
    spec = PageSpec(
        "charts/owl", "Owl", "An owl, 3 × 2", lambda: "<h2 id='rows'>Rows</h2>", names=("Bone & ash", "<Rust>")
    )
    page = MadePage(spec, File("charts/owl.md", "", "", False), config, hosted=hosted)
    page.render(config, Files([]))
    assert page.content is not None
    told = html.fragment_fromstring(page.content, create_parent="div")
    assert [line.text_content() for line in told.iter("p")] == found
    assert told.text_content() == "".join(found)
