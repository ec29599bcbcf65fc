"""A designer's own MkDocs site, built in this process: to start MkDocs takes longer than to build a site of two pages.

That `mkdocs build` does the same is seen by `test_plugin.py`, which starts it.
"""

import io
import logging
from contextlib import chdir
from pathlib import Path
from typing import NamedTuple

from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException


class Built(NamedTuple):
    """`failed` where MkDocs gave up, and all that was said by then, warnings and worse."""

    failed: bool
    said: str


def build_here(folder: Path) -> Built:
    """Build the site of `folder`/mkdocs.yml into `folder`/out. Raises what is no refusal of MkDocs or of a plugin."""
    said = io.StringIO()
    listening, log = logging.StreamHandler(said), logging.getLogger("mkdocs")
    before = log.level
    log.setLevel(logging.WARNING)  # a site that is all ours leaves it hushed
    log.addHandler(listening)
    try:
        with chdir(folder):
            _build()
    except (MkDocsException, SystemExit) as error:
        return Built(True, f"{said.getvalue()}{error}\n")
    finally:
        log.removeHandler(listening)
        log.setLevel(before)
    return Built(False, said.getvalue())


def _build() -> None:
    config = load_config("mkdocs.yml", site_dir="out")
    config.plugins.on_startup(command="build", dirty=False)
    try:
        build(config)
    finally:
        config.plugins.on_shutdown()
