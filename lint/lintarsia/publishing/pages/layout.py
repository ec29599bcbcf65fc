"""Where each page and file of a site stands, and how to link from one to another. No input can name a place of its own.

A page's name is made of the path of its chart below the folder that was named, and of nothing else: links survive
rebuilds, and charts that come or go leave the others' links alone.
"""

import posixpath
import re
import unicodedata
from collections.abc import Container, Iterable
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256

from lintarsia.ground.kinds import Kind, kind_of

_SUFFIXES = (".chart.yaml", ".chart.yml", ".yaml", ".yml")
_LONGEST_PART = 60
# Windows keeps these names for devices, whatever follows the dot (Microsoft, Naming Files, Paths, and Namespaces: "do
# not use the following reserved names for the name of a file"). `index` is the page of a folder.
_DEVICES = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{digit}" for port in ("com", "lpt") for digit in range(10))}
)
_NOT_OURS = _DEVICES | {"index"}


@dataclass(frozen=True, slots=True)
class Layout:
    """The parts of a site. `base` is the folder that all of them lie in ("" or "patterns/").

    `folders` says whether a page is `name/index.html`, linked as `name/`, or `name.html`, which a folder of files can
    be opened with from a disk.
    """

    base: str = ""
    folders: bool = False

    @property
    def overview(self) -> str:
        return f"{self.base}index"

    def chart(self, slug: str) -> str:
        return f"{self.base}charts/{slug}"

    def changes(self, slug: str) -> str:
        """What has changed in a chart or pattern since it went out."""
        return f"{self.base}changes/{slug}"

    @property
    def rules(self) -> str:
        return f"{self.base}rules/index"

    def rule(self, name: str) -> str:
        return f"{self.base}rules/{_plain_rule(name)}"

    def guide(self, name: str) -> str:
        return f"{self.base}guide/{name}"

    @property
    def search(self) -> str:
        return f"{self.base}search"

    @property
    def mine(self) -> str:
        """What a knitter keeps of her test knits."""
        return f"{self.base}mine"

    @property
    def worker(self) -> str:
        """The script that hands out what a phone has kept."""
        return f"{self.base}worker.js"

    def asset(self, name: str) -> str:
        return f"{self.base}assets/{name}"

    @property
    def report(self) -> str:
        return f"{self.base}report.json"

    def fabric(self, slug: str) -> str:
        """The drawing of a chart's fabric, which every chart has: no folder has to be made for it. No other name has a
        dot there."""
        return f"{self.base}charts/{slug}.fabric.svg"

    def picture(self, slug: str, name: str) -> str:
        """Another picture of a chart."""
        return f"{self.pictures(slug)}/{name}"

    def pictures(self, slug: str) -> str:
        """The folder of a chart's other pictures."""
        return f"{self.base}charts/{slug}"

    def file(self, page: str) -> str:
        """The file of a page, from the root of the site."""
        if self.folders and posixpath.basename(page) != "index":
            return f"{page}/index.html"
        return f"{page}.html"

    def link(self, page: str, to: str) -> str:
        """A link from one page to another."""
        target = self.file(to)
        relative = _relative(target, posixpath.dirname(self.file(page)))
        if self.folders and posixpath.basename(target) == "index.html":
            return relative[: -len("index.html")] or "./"
        return relative

    def file_link(self, page: str, to: str) -> str:
        """A link from a page to a file that is no page."""
        return _relative(to, posixpath.dirname(self.file(page)))


@lru_cache(maxsize=4096)  # most links of a page are those of every other page beside it
def _relative(to: str, folder: str) -> str:
    """The way from a folder of the site ("" for its root) to a file of it: names below the site, without dots in them.
    `posixpath.relpath` would ask for the folder that this runs in, at ten times the cost."""
    if not folder:
        return to
    here, there = folder.split("/"), to.split("/")
    same = 0
    while same < min(len(here), len(there) - 1) and here[same] == there[same]:
        same += 1
    return "/".join([*[".."] * (len(here) - same), *there[same:]])


@lru_cache(maxsize=1024)
def _plain_rule(name: str) -> str:
    """Rules may come from elsewhere, and their names with them."""
    parts = [re.sub(r"[^a-z0-9-]", "-", part) or "-" for part in name.lower().split("/")]
    return "/".join([f"{part}-rule" if part in _DEVICES else part for part in parts])


def slugs(paths: Iterable[tuple[str, str]]) -> list[str]:
    """A slug for each (path below the named folder, whole path), in order; no two alike, even ignoring case.

    Letters beyond a to z fall away, and then a few digits made from the path keep the name its own.
    """
    taken: set[str] = set()
    made = []
    for inner, whole in paths:
        slug, lost = _slug(inner)
        if lost or slug in taken:
            slug = f"{slug}-{sha256(whole.encode('utf-8', 'surrogateescape')).hexdigest()[:8]}"
        taken.add(slug)
        made.append(slug)
    return made


def piece_slug(pattern: str, piece: str, size: str, taken: Container[str]) -> str:
    """The slug of a piece of the pattern with the slug `pattern`, in a size ("" where it is one for all)."""
    parts = [_plain(part) for part in (piece, size) if part]
    slug = f"{pattern}/{'-'.join(text for text, _ in parts)}"
    if any(lost for _, lost in parts) or slug in taken:
        slug = f"{slug}-{sha256(f'{piece}/{size}'.encode('utf-8', 'surrogateescape')).hexdigest()[:8]}"
    return slug


def _slug(path: str) -> tuple[str, bool]:
    """The slug of a path, and whether something of the path was lost in it."""
    kind = kind_of(path)
    if kind is not Kind.CHART:
        path = f"{path.removesuffix(kind.suffix)}-{kind}"
    lower = path.lower()
    suffix = next((s for s in _SUFFIXES if lower.endswith(s)), "")
    parts = [part for part in path[: len(path) - len(suffix)].split("/") if part not in ("", ".", "..")]
    plain = [_plain(part) for part in parts] or [("chart", True)]
    return "/".join(text for text, _ in plain), any(lost for _, lost in plain)


def _plain(part: str) -> tuple[str, bool]:
    folded = unicodedata.normalize("NFKD", part).encode("ascii", "ignore").decode("ascii")
    text = re.sub(r"[^a-z0-9]+", "-", folded.lower()).strip("-")
    usual = re.sub(r"[ _-]+", "-", part.lower()).strip("-")
    cut = text[:_LONGEST_PART].strip("-") or "chart"
    return (f"{cut}-chart" if cut in _NOT_OURS else cut), cut != usual
