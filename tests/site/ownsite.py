"""The command of MkDocs in this process, over a site of somebody else's: quicker than a process each, and what notes
which lines a test runs sees ours."""

import logging
import warnings
from contextlib import chdir
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner
from mkdocs.__main__ import cli
from mkdocs.commands import build


@dataclass(frozen=True)
class Done:
    """How the command ended, and what it said."""

    returncode: int
    said: str


def mkdocs_build(folder: Path, *words: str) -> Done:
    """`mkdocs build` in `folder`, into its folder `out`. Raises what the command would end with a traceback for.

    What the command does to a process that is its own is taken back: else it would say nothing a second time.
    """
    log = logging.getLogger("mkdocs")
    before, filters = (log.level, log.propagate), list(build.log.filters)
    try:
        with chdir(folder), warnings.catch_warnings():
            run = CliRunner().invoke(cli, ["build", "--site-dir", "out", *words])
    finally:
        log.propagate = before[1]
        log.setLevel(before[0])
        build.log.filters[:] = filters
    if run.exception is not None and not isinstance(run.exception, SystemExit):
        raise run.exception
    return Done(run.exit_code, run.output)
