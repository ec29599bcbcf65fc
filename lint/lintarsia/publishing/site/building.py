"""A site from charts, whole or not at all."""

import os
import tempfile
from collections.abc import Sequence
from contextlib import closing
from importlib.util import find_spec

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.pages.frame import Frame
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.making import Making, Plan
from lintarsia.publishing.site.output import replacing
from lintarsia.settings import Settings


def build_site(
    paths: Sequence[str],
    output: str,
    *,
    title: str = "Charts",
    base_url: str = "",
    settings: Settings | None = None,
    cores: int | None = None,
) -> None:
    """Publish the charts that `paths` name to the folder `output`, which is replaced once the new site is whole.

    `base_url` is where the site will be found, for the addresses in previews. Raises Trouble where it cannot be
    built; an old site then stands as it was.
    """
    if find_spec("mkdocs") is None:
        raise Trouble("pages are built with MkDocs, which is not installed; try: pip install 'lintarsia[site]'")
    frame = Frame(title, f"{base_url.rstrip('/')}/" if base_url else "")
    with replacing(output) as fresh, tempfile.TemporaryDirectory(prefix="lintarsia-") as work:
        docs = os.path.join(work, "docs")
        os.mkdir(docs)
        plan = Plan(paths, Layout(), fresh, title, settings, cores, cards=bool(base_url), frame=frame)
        with closing(Making(plan)) as making:
            making.start(aside=".drawn")  # a hidden folder, which MkDocs leaves alone when it empties the site
            # MkDocs takes a third of a second to load: time for the first charts to be drawn.
            from lintarsia.publishing.site.plugin import build_pages

            build_pages(making, docs)
