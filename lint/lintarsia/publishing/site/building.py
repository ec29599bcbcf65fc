"""A site from charts, whole or not at all."""

import os
from collections.abc import Callable, Sequence
from contextlib import closing
from importlib.util import find_spec
from typing import NamedTuple

from lintarsia.ground.installing import how_to_install
from lintarsia.ground.trouble import Trouble
from lintarsia.settings import Settings, find_settings
from lintarsia.telling.catalogues import checked, speaking
from lintarsia.telling.languages import phrase

NEEDED = ("mkdocs", "jinja2")  # the second comes with the first


class Built(NamedTuple):
    """What became of a site: the files that were not finished in their time, and how many have pages in all."""

    late: tuple[str, ...]
    files: int


def build_site(
    paths: Sequence[str],
    output: str,
    *,
    title: str = "",
    base_url: str = "",
    public: bool = False,
    settings: Settings | None = None,
    cores: int | None = None,
    progress: Callable[[int, int], None] | None = None,
    changes_from: Sequence[str] = (),
    most_seconds: float | None = None,
    language: str = "",
) -> Built:
    """Publish the charts that `paths` name to the folder `output`, which is replaced once the new site is whole.

    A `public` site has what a knitter needs, and nothing of what the charts were looked over for.

    `base_url` is where the site will be found, for the addresses in previews. `progress` is called with charts done and
    charts in all. `changes_from` are git revisions that went out: pages tell what has changed since.
    `language` is that of the pages' own words, which the settings for the first path say where it is not given.
    `most_seconds` is the time that each chart has; the pages of those that were not finished in it say so. Raises
    Trouble where the site cannot be built; an old one then stands as it was.
    """
    _have_what_is_needed()
    # Only now: these need what has been asked for.
    from lintarsia.publishing.imprint import imprint_of
    from lintarsia.publishing.pages.frame import Frame, colophon_of
    from lintarsia.publishing.pages.layout import Layout
    from lintarsia.publishing.site.making import Making
    from lintarsia.publishing.site.refusing import spare
    from lintarsia.publishing.site.siteplan import SitePlan
    from lintarsia.publishing.site.swapping import beside, replacing

    own = settings or find_settings(paths[0] if paths else os.curdir)
    imprint, language = imprint_of(own), checked(language or own.language)
    with speaking(language):
        title = title or (phrase("Patterns") if public else phrase("Charts"))
    frame = Frame(title, f"{base_url.rstrip('/')}/" if base_url else "", public, colophon_of(imprint), language)
    with replacing(output, public=public) as fresh:
        plan = SitePlan(
            paths, Layout(), fresh, title, settings, cores, cards=bool(base_url), frame=frame, progress=progress,
            most_seconds=most_seconds,
            public=public, imprint=imprint, changes_from=changes_from, language=language,
        )  # fmt: skip
        with closing(Making(plan, beside(fresh, "scratch"))) as making:
            making.start(aside=".drawn")  # a hidden folder, which MkDocs leaves alone when it empties the site
            spare(output, making.reads)
            # MkDocs takes a third of a second to load: time for the first charts to be drawn.
            from lintarsia.publishing.site.wholesite import build_pages

            build_pages(making, beside(fresh, "docs"))
            return Built(making.late, len(making.jobs))


def build_single(
    path: str, settings: Settings | None = None, *, piece: str | None = None, size: str | None = None,
    public: bool = False, language: str = "",
) -> bytes:  # fmt: skip
    """One chart, or a pattern's piece in a size, as one HTML file that needs nothing else. Raises Trouble."""
    _have_what_is_needed()
    from lintarsia.publishing.site.single import single_page

    spoken = checked(language or (settings or find_settings(path)).language)
    return single_page(path, settings, piece=piece, size=size, public=public, language=spoken)


def _have_what_is_needed() -> None:
    if not all(map(find_spec, NEEDED)):
        raise Trouble(f"pages need one more library: {how_to_install('site')}")
