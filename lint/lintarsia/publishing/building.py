"""A site from charts, whole or not at all."""

import os
import tempfile
from collections.abc import Sequence

from lintarsia.publishing.output import replacing
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
    from lintarsia.publishing.plugin import build_pages

    with replacing(output) as fresh, tempfile.TemporaryDirectory(prefix="lintarsia-") as work:
        docs = os.path.join(work, "docs")
        os.mkdir(docs)
        build_pages(list(paths), fresh, docs, title=title, base_url=base_url, settings=settings, cores=cores)
