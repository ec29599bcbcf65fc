"""Pages for MkDocs whose content is HTML already, and is put in last, when the theme has done its part."""

import re
import secrets
from collections.abc import Iterator
from copy import copy
from html import escape, unescape

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents

from lintarsia.publishing.site.hosted import hosted_content
from lintarsia.publishing.site.pagespecs import PageSpec

EXTENSIONS = ("toc", "tables", "fenced_code", "attr_list", "def_list")
# Stand for a page's content until the page is written. Nobody can guess them and put them into a chart. They look as if
# they held a heading of the first level, since Material for MkDocs writes one of its own over pages that have none.
_TOKEN = secrets.token_hex(16)
_BEGIN, _END = f"<!--<h1 {_TOKEN}-->", f"<!--/{_TOKEN}-->"
_HEADING = re.compile(r'<h2 id="([^"]+)"[^>]*>(.*?)</h2>', re.DOTALL)
_ID = re.compile(r'\bid="([^"]+)"')
_TAG = re.compile(r"<[^>]*>")


class HandwrittenPage(Page):
    """A page of ours that is written in Markdown, whatever the site that it stands in makes of Markdown."""

    def render(self, config: MkDocsConfig, files: Files) -> None:
        own = copy(config)
        own.markdown_extensions, own.mdx_configs = list(EXTENSIONS), {}
        super().render(own, files)


class MadePage(Page):
    """A page of ours; `hosted` where it stands in somebody else's site."""

    def __init__(self, spec: PageSpec, file: File, config: MkDocsConfig, *, hosted: bool) -> None:
        super().__init__(spec.title, file, config)
        self.spec = spec
        self._hosted = hosted

    def read_source(self, config: MkDocsConfig) -> None:
        self.markdown, self.meta = "", {"title": self.spec.title, "description": self.spec.about}
        if self._hosted:  # Material for MkDocs then gives it the width of its columns beside; others do not know this
            self.meta["hide"] = ["toc", "navigation"] if self.spec.of_chart else ["toc"]

    def render(self, config: MkDocsConfig, files: Files) -> None:
        """Until it is written, what a site's own search is to find: its title is there already."""
        self.content = f"{_BEGIN}{self._searched()}{_END}"
        html = self.spec.content() if self._hosted and self.spec.of_chart else ""
        self.toc = TableOfContents(list(_contents(html)))
        self.present_anchor_ids = set(_ID.findall(html))
        self.links_to_anchors = {}

    def _searched(self) -> str:
        words = [self.spec.about, *map(escape, self.spec.names)]
        return f"<p>{'; '.join(words)}</p>" if self._hosted else ""

    def whole(self, output: str, after: str = "") -> str:
        """The page that the theme has made, with its content in its place, and what is told `after` it."""
        before, _, rest = output.partition(_BEGIN)
        content = self.spec.content() + after
        return before + (hosted_content(content) if self._hosted else content) + rest.partition(_END)[2]


def _contents(html: str) -> Iterator[AnchorLink]:
    """The headings of a page below its title, for the theme's own list of what is on it."""
    for name, inner in _HEADING.findall(html):
        words = " ".join(unescape(_TAG.sub("", inner)).split())
        if words:  # scripts fill in others
            yield AnchorLink(escape(words), name, 1)
