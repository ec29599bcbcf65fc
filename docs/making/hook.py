"""What MkDocs calls while it builds the documentation: our theme's context, and what pages are made of.

A line of a page that is nothing but `[[kind: words]]` stands for something made at build time, so that it cannot drift
from the code: text in `MADE_TEXT`, drawings in `MADE_PICTURES`. An unknown kind stops the build.
"""

import re
from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from drawings import PICTURES as DRAWINGS
from keys import keys_of
from lintarsia import __version__
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.templates import words
from lintarsia.publishing.site.pagespecs import PageSpec
from reference import help_of, levels_table, rule_options
from search import Line, index_script, sections
from speed import figures_table, measured_parts, plot

LAYOUT = Layout("examples/")
MADE_TEXT = {
    "keys": keys_of,
    "help": help_of,
    "levels": levels_table,
    "rule-options": rule_options,
    "figures": figures_table,
    "measured": measured_parts,
}


def _plot(words: str, page: str) -> str:
    return plot(words)


MADE_PICTURES = {**DRAWINGS, "plot": _plot}
_PLACE = re.compile(r"^\[\[([a-z-]+): ([^\]]*)\]\]$", re.MULTILINE)
_WAITING = re.compile(r"<p>\[\[([a-z-]+): ([^\]]*)\]\]</p>")
_INDEX: list[Line] = []
_SOURCES: dict[str, str] = {}  # page → its Markdown, where drawings find the charts that the page shows


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    config.theme.dirs.insert(0, str(Path(__file__).parent / "theme"))
    config.theme.static_templates = set()
    _INDEX.clear()
    return config


def on_page_markdown(markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
    """Text is put in before Markdown is read, so that its headings have their anchors."""
    page.meta["template"] = "docs.html"
    _SOURCES[page.file.src_uri] = markdown

    def make(place: re.Match[str]) -> str:
        if place[1] in MADE_TEXT:
            return MADE_TEXT[place[1]](place[2])
        return place[0]

    return _PLACE.sub(make, markdown)


def on_page_content(html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
    """Drawings are put in after Markdown is done, which would break their text; tables may be wider than a phone."""

    def draw(place: re.Match[str]) -> str:
        kind, words = place[1], place[2]
        if kind not in MADE_PICTURES:
            raise PluginError(f"{page.file.src_uri}: there is no [[{kind}: …]]")
        return MADE_PICTURES[kind](words, _SOURCES[page.file.src_uri])

    if isinstance(spec := getattr(page, "spec", None), PageSpec):
        _INDEX.append(("chart" if spec.of_chart else "rule", spec.title, spec.about, page.url))
        return html
    html = _WAITING.sub(draw, html)
    _INDEX.extend(sections(html, str(page.title), page.url))
    html = html.replace("<table>", '<div class="scroll"><table>').replace("</table>", "</table></div>")
    return re.sub(r"<pre>", '<pre tabindex="0">', html)  # what scrolls can be reached with the keyboard


def on_page_context(context: dict[str, Any], *, page: Page, config: MkDocsConfig, nav: Any) -> dict[str, Any]:
    name = page.file.src_uri.removesuffix(".md")
    spec = getattr(page, "spec", None)
    return {
        **context,
        **words(),
        "links": {
            "home": get_relative_url("index.html", page.url),
            "examples": LAYOUT.link(name, LAYOUT.overview),
            "rules": LAYOUT.link(name, LAYOUT.rules),
            "guide": LAYOUT.link(name, LAYOUT.guide("reading")),
        },
        "asset": lambda file: LAYOUT.file_link(name, LAYOUT.asset(file)),
        "here": lambda file: get_relative_url(file, page.url),
        "about": spec.about if spec else page.meta.get("description", config.site_description),
        "picture": "",
        "is_chart": bool(spec and spec.of_chart),
        "is_home": name == "index",
        "guides": [],
        "scripts": spec.scripts if spec else ("search.js",) if name == "search" else (),
        "indexed": name == "search",
        "version": __version__,
    }


def on_post_build(*, config: MkDocsConfig) -> None:
    Path(config.site_dir, "search-index.js").write_text(index_script(_INDEX), encoding="utf-8")
