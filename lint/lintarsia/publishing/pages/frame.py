"""The page around a content in a site that is all ours: the theme's one template, and what it is filled in with.

MkDocs fills it in for the pages it builds. A chart's page is framed where the chart is drawn, in one of many processes,
and written straight to its place: passing a thousand large pages through one process took longer than making them.
There the template is filled in once for each folder of pages, see `cutting.py`.
"""

import posixpath
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, Template

from lintarsia.drawing.svg import escape
from lintarsia.ground.resources import resource
from lintarsia.publishing.imprint import Imprint
from lintarsia.publishing.pages.cutting import Cut, Marks
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.templates import words
from lintarsia.settings.designer import NOBODY, Designer
from lintarsia.telling.languages import ENGLISH

_MARKS = Marks("title", "content", "address", "about", "picture")  # where pages of one folder differ


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
class Colophon:
    """What every page of a site carries of its designer. `logo` is the picture's name among the site's assets, and
    `styles` that of the style sheet with the accent; "" where there is none."""

    designer: Designer = NOBODY
    logo: str = ""
    styles: str = ""


NO_COLOPHON = Colophon()
DESIGNER_STYLES = "designer.css"


def colophon_of(imprint: Imprint) -> Colophon:
    """Without the pictures themselves, which are written once."""
    return Colophon(imprint.designer, imprint.logo_name, DESIGNER_STYLES if imprint.styles else "")


@dataclass(frozen=True, slots=True)
class Frame:
    """`site_url` is where the site will be found, ending with a slash, or ""; `public`: a site for everybody;
    `language`: that of its pages' own words, which is spoken while a page is put together."""

    site_name: str
    site_url: str = ""
    public: bool = False
    colophon: Colophon = NO_COLOPHON
    language: str = ENGLISH

    def around(
        self,
        content: bytes,
        layout: Layout,
        name: str,
        *,
        title: str,
        about: str,
        picture: str,
        scripts: tuple[str, ...],
    ) -> bytes:
        """A whole page of a chart; `content` is HTML, `title` and `about` are plain text."""
        file = layout.file(name)
        values: dict[str, str | bytes] = {
            "title": escape(title),
            "content": content,
            "address": escape(f"{self.site_url}{file}"),
            "about": escape(about),
            "picture": escape(picture),
        }
        return _cut(self, layout, posixpath.dirname(name), bool(about), bool(picture), scripts).filled(values)


@lru_cache(maxsize=64)
def _cut(frame: Frame, layout: Layout, folder: str, about: bool, picture: bool, scripts: tuple[str, ...]) -> Cut:
    """The page of a chart whose name begins with `folder`. The theme asks which of its texts there are, as MkDocs has
    it do, so that it is given their marks as texts."""
    title, content, address = str(_MARKS["title"]), str(_MARKS["content"]), str(_MARKS["address"])
    page = _Page(title, content, address if frame.site_url else "")
    around = chrome(
        layout,
        posixpath.join(folder, "page"),
        about=str(_MARKS["about"]) if about else "",
        picture=str(_MARKS["picture"]) if picture else "",
        is_chart=True,
        scripts=scripts,
        public=frame.public,
        colophon=frame.colophon,
    )
    return _MARKS.cut(
        theme_template("main.html").render(page=page, config=_Config(frame.site_name, frame.site_url), **around)
    )


@cache
def theme_template(name: str) -> Template:
    """A template that is a whole page."""
    loader = FileSystemLoader(str(resource("site") / "theme"))
    return Environment(loader=loader, autoescape=True, auto_reload=False).get_template(name)


def chrome(
    layout: Layout,
    name: str,
    *,
    about: str,
    picture: str = "",
    is_chart: bool = False,
    scripts: Sequence[str] = (),
    guides: Sequence[tuple[str, str]] = (),
    public: bool = False,
    colophon: Colophon = NO_COLOPHON,
) -> dict[str, Any]:
    """What our theme needs besides the content: links from this page to the others, and what it is about.

    `guides` are the guide's pages and their titles.
    """

    def asset(file: str) -> str:
        return layout.file_link(name, layout.asset(file))

    return {
        **words(),
        "links": {
            "home": layout.link(name, layout.overview),
            "rules": layout.link(name, layout.rules),
            "guide": layout.link(name, layout.guide("reading")),
            "search": layout.link(name, layout.search),
            "mine": layout.link(name, layout.mine),
            "report": layout.file_link(name, layout.report),
        },
        "asset": asset,
        "about": about,
        "picture": picture,
        "is_chart": is_chart,
        "is_home": name == layout.overview,
        "is_mine": name == layout.mine,
        "guides": [(layout.link(name, guide), title, guide == name) for guide, title in guides],
        "scripts": scripts,
        "public": public,
        "colophon": colophon,
    }
