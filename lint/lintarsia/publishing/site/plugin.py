"""The plugin for MkDocs.

In a designer's own `mkdocs.yml`:

    plugins:
      - lintarsia:
          charts: [charts]      # files or folders, from the folder of mkdocs.yml; default: that folder
          into: patterns        # where the pages go: patterns/index.md and below
          title: Charts         # default: that, in the language of the pages
          changes_from: [v1.0]  # git revisions that went out: pages tell what has changed since
          public: true          # for everybody: nothing of what the charts were looked over for

and a chart in any page, by a line of its own: `::chart fox.chart.yaml`.
          language: de          # of the pages' own words; default: as lintarsia.yaml says, or English
"""

import os
from collections.abc import Callable
from dataclasses import replace
from html import escape
from typing import TYPE_CHECKING, Any

from mkdocs.config import config_options as c
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from lintarsia.ground.resources import resource
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.imprint import imprint_of
from lintarsia.publishing.pages.cutting import encoded
from lintarsia.publishing.pages.frame import NO_COLOPHON, chrome
from lintarsia.publishing.pages.guidepages import for_face, parts_of, put_drawings
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.searchindex import GuidePage
from lintarsia.publishing.pages.templates import FROM_MEMORY
from lintarsia.publishing.site.hosted import START_FILE, STYLE_FILE, hosted_content
from lintarsia.publishing.site.inpages import InPages
from lintarsia.publishing.site.madepage import HandwrittenPage, MadePage
from lintarsia.publishing.site.making import Making
from lintarsia.publishing.site.ownfiles import assets, guides
from lintarsia.publishing.site.pagespecs import PageSpec
from lintarsia.publishing.site.placing import write_inside
from lintarsia.publishing.site.siteplan import SitePlan
from lintarsia.settings import find_settings
from lintarsia.telling.catalogues import checked, speaking
from lintarsia.telling.languages import in_english, phrase, unread

if TYPE_CHECKING:  # it loads a web server, which only MkDocs' own `serve` has a use for
    from jinja2 import Environment
    from mkdocs.livereload import LiveReloadServer


class Options(Config):  # type: ignore[no-untyped-call]
    charts = c.ListOfItems(c.Type(str), default=["."])
    into = c.Type(str, default="patterns")
    title = c.Type(str, default="")
    changes_from = c.ListOfItems(c.Type(str), default=[])
    public = c.Type(bool, default=False)
    language = c.Type(str, default="")


class LintarsiaPlugin(BasePlugin[Options]):  # type: ignore[no-untyped-call]
    """Adds the pages of charts, rules and guide to a site."""

    def __init__(self, making: Making | None = None) -> None:
        """`making` is that of a site that is all ours, and whoever gives it closes it; else the options of mkdocs.yml
        say what to make."""
        self._ours = making is not None
        self._making = making
        self._guides: list[GuidePage] = []
        self._in_pages: InPages | None = None
        # Pages of a site that is all ours, built while its charts are still drawn: all but their contents.
        self._waiting: list[tuple[MadePage, str]] = []

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        plan = None if self._ours else self._own_plan(config)
        if plan is not None and plan.hosted:
            layout = plan.layout
            config.extra_css.append(layout.asset(STYLE_FILE))
            config.extra_javascript.append(layout.asset(START_FILE))
        return config

    def _own_plan(self, config: MkDocsConfig) -> SitePlan:
        into = self.config.into.strip("/")
        parts = into.split("/")
        if not all(part and part.strip(".") and part.replace("-", "").replace("_", "").isalnum() for part in parts):
            raise PluginError(f"lintarsia: into: {self.config.into!r} is no folder of the site; expected patterns")
        here = os.path.dirname(config.config_file_path) if config.config_file_path else os.curdir
        paths = [os.path.relpath(os.path.join(here, path)) for path in self.config.charts]
        try:
            settings = find_settings(paths[0] if paths else os.curdir)
            imprint, language = imprint_of(settings), checked(self.config.language or settings.language)
        except Trouble as trouble:
            raise PluginError(f"lintarsia: {trouble}") from None
        with speaking(language):
            title = self.config.title or phrase("Charts")
        layout, since = Layout(f"{into}/", config.use_directory_urls), tuple(self.config.changes_from)
        public = self.config.public
        return SitePlan(
            paths, layout, config.site_dir, title, public=public, imprint=imprint, changes_from=since,
            language=language, hosted=not _is_our_theme(config),
        )  # fmt: skip

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        self._guides = []
        if self._ours:  # MkDocs' own files: a sitemap that carries the day of the build
            for file in list(files):
                files.remove(file)
        else:
            self._close()
            self._making = Making(self._own_plan(config))
            self._gather()
            self._in_pages = InPages(self._making, config)
        making = self._making
        assert making is not None
        overview = self._page(making.overview(), config)
        if not self._ours:
            files.append(overview)
        for spec in making.pages():
            files.append(self._page(spec, config))
        if self._ours:
            files.append(self._page(making.search_page(), config))
        for name, source in guides(making.plan):
            level = InclusionLevel.NOT_IN_NAV
            guide = File.generated(config, f"{name}.md", abs_src_path=str(source), inclusion=level)
            HandwrittenPage(None, guide, config)
            files.append(guide)
        if self._ours:
            files.append(overview)  # last: when it is built, all charts must have been drawn
        for name, source in assets(making.plan):
            files.append(File.generated(config, name, abs_src_path=str(source)))
        return files

    def _gather(self) -> None:
        assert self._making is not None
        try:
            self._making.gather()
        except Trouble as trouble:
            raise PluginError(f"lintarsia: {trouble}") from None

    def _page(self, spec: PageSpec, config: MkDocsConfig) -> File:
        level = InclusionLevel.NOT_IN_NAV if spec.of_chart or self._ours else InclusionLevel.INCLUDED
        file = File.generated(config, f"{spec.name}.md", content="", inclusion=level)
        if not self._ours:
            # Themes of MkDocs print titles as they are, since Markdown has escaped what they come from. A chart's has
            # not been through that.
            spec = replace(spec, title=escape(spec.title), about=escape(spec.about))
        assert self._making is not None
        MadePage(spec, file, config, hosted=self._making.plan.hosted)
        return file

    def on_env(self, env: "Environment", *, config: MkDocsConfig, files: Files) -> "Environment":
        try:
            if self._in_pages is not None:
                self._in_pages.judge()
        except Trouble as trouble:
            raise PluginError(f"lintarsia: {trouble}") from None
        return env

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Any
    ) -> TemplateContext:
        if self._making is not None and self._ours:
            spec = page.spec if isinstance(page, MadePage) else None
            if spec is not None and spec.name == self._making.plan.layout.overview:
                self._gather()  # the last page to be built; the others wait for this
                spec = self._making.overview()
            around = chrome(
                self._making.plan.layout,
                page.file.src_uri.removesuffix(".md"),
                about=spec.about if spec else page.meta.get("description", ""),
                picture=spec.picture if spec else "",
                scripts=spec.scripts if spec else (),
                guides=[(guide.page, guide.title) for guide in self._guides],
                public=self._making.plan.public,
                colophon=self._making.plan.frame.colophon if self._making.plan.frame else NO_COLOPHON,
            )
            context.update(around)  # type: ignore[typeddict-item]
        return context

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        if self._in_pages is None or isinstance(page, (MadePage, HandwrittenPage)):
            return markdown
        return self._in_pages.read(markdown, page)

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        if self._making is not None and page.file.src_uri.startswith(self._making.plan.layout.guide("")):
            html = for_face(html, public=self._making.plan.public)
            (_, _, text), *parts = parts_of(html)
            name, title = page.file.src_uri.removesuffix(".md"), str(page.title)
            self._guides.append(GuidePage(name, title, text, tuple(parts)))
            html = put_drawings(html)
            with self._making.speaking():
                lang = in_english()
            if not self._ours:
                html = f'<div class="lintarsia guide"{lang}>{html}</div>'
                html = hosted_content(html) if self._making.plan.hosted else html
            elif lang:
                html = f"<div{lang}>{html}</div>"
        return html if self._in_pages is None else self._in_pages.searched(html)

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        if isinstance(page, MadePage):
            if self._ours:
                self._waiting.append((page, output))
            else:
                output = page.whole(output, self._from_memory())
        elif self._in_pages is not None:
            output = self._in_pages.filled(output, page)
        return output

    def _from_memory(self) -> str:
        """In a site of another theme, whose foot is its own: that nobody has read these words yet."""
        if self._ours or self._making is None:
            return ""
        with self._making.speaking():
            return f'<p class="lintarsia hint">{phrase(FROM_MEMORY)}</p>' if unread() else ""

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        if self._making is not None:
            for page, output in self._waiting:
                write_inside(config.site_dir, page.file.dest_uri, encoded(page.whole(output)))
            self._making.finish(self._guides)
        self._close()

    def on_build_error(self, *, error: Exception) -> None:
        self._close()

    def on_serve(
        self, server: "LiveReloadServer", *, config: MkDocsConfig, builder: Callable[..., Any]
    ) -> "LiveReloadServer":
        for path in self._own_plan(config).paths:
            server.watch(path)
        return server

    def _close(self) -> None:
        if self._making is not None and not self._ours:
            self._making.close()
            self._making = None


def _is_our_theme(config: MkDocsConfig) -> bool:
    """Whether a site has our own theme, which brings its styles and scripts by itself."""
    ours = os.path.realpath(str(resource("site") / "theme"))
    return ours in map(os.path.realpath, config.theme.dirs)
