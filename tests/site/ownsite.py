"""The command of MkDocs in this process, over a site of somebody else's: quicker than a process each, and what notes
which lines a test runs sees ours."""

import logging
from contextlib import chdir
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner
from mkdocs.__main__ import cli


@dataclass(frozen=True)
class Done:
    """How the command ended, and what it said."""

    returncode: int
    said: str


def mkdocs_build(folder: Path, *words: str) -> Done:
    """`mkdocs build` in `folder`, into its folder `out`. Raises what the command would end with a traceback for."""
    log = logging.getLogger("mkdocs")
    before = log.level, log.propagate
    try:
        with chdir(folder):
            run = CliRunner().invoke(cli, ["build", "--site-dir", "out", *words])
    finally:
        log.propagate = before[1]
        log.setLevel(before[0])
    if run.exception is not None and not isinstance(run.exception, SystemExit):
        raise run.exception
    return Done(run.exit_code, run.output)
