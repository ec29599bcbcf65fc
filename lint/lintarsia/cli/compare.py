"""`lintarsia compare`: what has changed for the knitter between two revisions, or two files."""

import os
import sys
from functools import partial
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import answered_within_seconds
from lintarsia.cli.output import screen_of, write_answer, write_stdout
from lintarsia.cli.overlooked import why_none
from lintarsia.cli.progress import watching
from lintarsia.cli.settings_option import allow_outside_rules, named_settings
from lintarsia.reporting.fitting import fitted
from lintarsia.reporting.screen import PLAIN

if TYPE_CHECKING:
    from collections.abc import Callable

    from lintarsia.comparing.model import Comparison
    from lintarsia.reporting.screen import Screen

FORMATS = ("text", "markdown", "html", "json")
FROM_REF = "PRE_COMMIT_FROM_REF"  # set by pre-commit where it runs for a range of commits


@click.command(short_help="Say what has changed for the knitter.")
@click.argument("paths", nargs=-1, type=click.Path())
@click.option(
    "--from", "old", metavar="REV", help="A git revision, or a file to compare one PATH with.  [default: HEAD]"
)
@click.option("--to", "new", metavar="REV", help="A git revision.  [default: the files as they are]")
@click.option("--as", "purpose", type=click.Choice(["report", "errata"]), default="report", show_default=True,
              help="What is made of it: all that differs, or corrections to publish.")  # fmt: skip
@click.option("--format", "format", type=click.Choice(FORMATS), default="text", show_default=True)
@click.option("--output", "-o", type=click.Path(), metavar="FILE", help="Write to FILE instead of the screen.")
@click.option("--color", "colour", type=click.Choice(["auto", "always", "never"]), default="auto", show_default=True,
              help="Colour in the text.")  # fmt: skip
@click.option("--only-report", is_flag=True, help="End with 0 whatever differs, as the second hook does.")
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file for both states.")
@allow_outside_rules
@answered_within_seconds
def command(
    paths: tuple[str, ...],
    old: str | None,
    new: str | None,
    purpose: str,
    format: str,
    output: str | None,
    colour: str,
    only_report: bool,
    settings_file: str | None,
) -> int:
    """Compare the charts and patterns that PATHS name (without PATHS, the current folder) in two states.

    Layout, comments and accepted results are no difference. Each change is told once: rows put in or dropped, a motif
    moved, a colour exchanged. Exit status: 0 nothing differs for the knitter, 1 something does, 2 the command could
    not run.

    \b
    Examples:
      lintarsia compare
      lintarsia compare charts --from v1.0
      lintarsia compare charts --from v1.0 --to v1.1
      lintarsia compare new.chart.yaml --from old.chart.yaml
      lintarsia compare --from v1.0 --as errata -o errata.txt
    """
    from lintarsia.comparing.files import compare_paths

    old = old or (os.environ.get(FROM_REF) if only_report else None) or "HEAD"
    if purpose == "errata" and format == "json":
        raise click.UsageError("--as errata is made for people; use --format text, markdown or html")
    with watching("comparing charts"):
        comparison = compare_paths(paths or (os.curdir,), old, new, named_settings(settings_file))
    if not comparison.files:  # status 0 all the same, as a check of no chart has: a repository begins with none
        click.echo(f"lintarsia: {why_none(paths or (os.curdir,))}", err=True)
    screen = PLAIN if output is not None else screen_of(sys.stdout, colour)
    text = _renderer(purpose, format, screen)(comparison)
    if output is not None:
        write_answer(output, text, [*paths, *filter(os.path.lexists, filter(None, (old, new)))])
    else:
        write_stdout(fitted(text, screen) if format == "text" else text)
    return OK if only_report or not comparison.differs else FOUND


def _renderer(purpose: str, format: str, screen: "Screen") -> "Callable[[Comparison], str]":
    if purpose == "errata":
        from lintarsia.comparing import errata

        return {"text": errata.text, "markdown": errata.markdown, "html": errata.html}[format]
    if format == "json":
        from lintarsia.comparing.json import comparison_json

        return comparison_json
    if format == "html":
        from lintarsia.comparing.html import comparison_html

        return comparison_html
    if format == "markdown":
        from lintarsia.comparing.markdown import comparison_markdown

        return comparison_markdown
    from lintarsia.comparing.text import comparison_text

    return partial(comparison_text, screen=screen)
