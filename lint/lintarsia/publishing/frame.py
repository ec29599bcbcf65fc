"""The page around a content in a site that is all ours: the theme's one template, and what it is filled in with.

MkDocs fills it in for the pages it builds. A chart's page is framed where the chart is drawn, in one of many processes,
and written straight to its place: passing a thousand large pages through one process took longer than making them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, Template

from lintarsia.publishing.layout import Layout
from lintarsia.resources import resource


@dataclass(frozen=True, slots=True)
class _Page:
    """What the template asks of a page, as MkDocs names it."""

    title: str
    content: str
    canonical_url: str
    spec: bool = True


@dataclass(frozen=True, slots=True)
class _Config:
    site_name: str
    site_url: str


@dataclass(frozen=True, slots=True)
class Frame:
    """`site_url` is where the site will be found, ending with a slash, or ""."""

    site_name: str
    site_url: str = ""

    def around(self, content: str, layout: Layout, name: str, title: str, chrome: dict[str, Any]) -> str:
        """A whole page of a chart."""
        url = f"{self.site_url}{layout.file(name)}" if self.site_url else ""
        page = _Page(title, content, url)
        return _template().render(page=page, config=_Config(self.site_name, self.site_url), **chrome)


@cache
def _template() -> Template:
    loader = FileSystemLoader(str(resource("site") / "theme"))
    return Environment(loader=loader, autoescape=True, auto_reload=False).get_template("main.html")


def chrome(
    layout: Layout,
    name: str,
    *,
    about: str,
    picture: str = "",
    is_chart: bool = False,
    scripts: Sequence[str] = (),
    guides: Sequence[tuple[str, str]] = (),
) -> dict[str, Any]:
    """What our theme needs besides the content: links from this page to the others, and what it is about.

    `guides` are the guide's pages and their titles.
    """

    def asset(file: str) -> str:
        return layout.file_link(name, layout.asset(file))

    return {
        "links": {
            "home": layout.link(name, layout.overview),
            "rules": layout.link(name, layout.rules),
            "guide": layout.link(name, layout.guide("reading")),
            "search": layout.link(name, layout.search),
            "report": layout.file_link(name, layout.report),
        },
        "asset": asset,
        "about": about,
        "picture": picture,
        "is_chart": is_chart,
        "is_home": name == layout.overview,
        "guides": [(layout.link(name, guide), title, guide == name) for guide, title in guides],
        "scripts": scripts,
    }
