"""`lintarsia release`: one page that says whether a pattern may go out, and what is left for people to check."""

import os
import sys
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import answered_within_seconds
from lintarsia.cli.output import screen_of, write_answer, write_stdout
from lintarsia.cli.settings_option import allow_outside_rules, named_settings
from lintarsia.ground.trouble import Trouble
from lintarsia.reporting.fitting import fitted
from lintarsia.result import Level

if TYPE_CHECKING:
    from lintarsia.pattern.card import Card


@click.command(short_help="Gather a pattern's charts for release.")
@click.argument("pattern_file", metavar="PATTERN", type=click.Path())
@click.option("--format", "format", type=click.Choice(["text", "html"]), default="text", show_default=True)
@click.option("--output", "-o", type=click.Path(), metavar="FILE", help="Write to FILE instead of the screen.")
@click.option(
    "--block", type=click.Choice(["error", "warning", "note"]), help="What blocks release, from this level up."
)
@click.option("--record", is_flag=True, help="Where nothing blocks, write the release into the settings' record file.")
@click.option("--notes", metavar="TEXT", default="", help="A line that says what has changed, for the record.")
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file for every file.")
@allow_outside_rules
@answered_within_seconds
def command(
    pattern_file: str,
    format: str,
    output: str | None,
    block: str | None,
    record: bool,
    notes: str,
    settings_file: str | None,
) -> int:
    """Check PATTERN and all its charts, and make the page to sign before it goes out.

    The page says what was checked, what was accepted and why, what every size comes to in centimetres and balls, and
    what no program can check. A version that went out before with other content blocks: by the record file that the
    settings name (releases: releases.yaml), else by a tag such as v1.0. Exit status: 0 nothing blocks, 1 something
    does (the page says what), 2 the command could not run.

    \b
    Examples:
      lintarsia release fox.pattern.yaml
      lintarsia release fox.pattern.yaml --block warning
      lintarsia release fox.pattern.yaml -o f.txt
      lintarsia release fox.pattern.yaml --record --notes eye
    """
    from lintarsia.pattern.cardformats import FORMATS

    if notes and not record:
        raise click.UsageError("--notes goes into the record: give it with --record")
    card = _card(pattern_file, settings_file, Level(block) if block else None)
    if card is None:
        return FOUND
    text = FORMATS[format](card)
    if output is None:
        write_stdout(fitted(text, screen_of(sys.stdout, "auto")) if format == "text" else text)
    else:
        write_answer(output, text, [pattern_file])
    if record and card.ready:
        from lintarsia.engine.republishing import record_release

        click.echo(f"lintarsia: {record_release(card, named_settings(settings_file), notes)}", err=True)
    if not card.ready and output is not None:
        click.echo(f"lintarsia: {card.verdict[0].lower()}{card.verdict[1:]}", err=True)
    return OK if card.ready else FOUND


def _card(pattern_file: str, settings_file: str | None, block: Level | None) -> "Card | None":
    """The card, or None where the file holds no pattern; what is wrong with it goes to standard error."""
    from lintarsia.engine.releasing import Unpublishable, release_card
    from lintarsia.ground.kinds import Kind, kind_of

    if not os.path.exists(pattern_file):
        raise Trouble(f"there is no file {pattern_file!r}")
    if kind_of(pattern_file) is not Kind.PATTERN:
        raise Trouble(f"{pattern_file!r} is not named like a pattern; expected *{Kind.PATTERN.suffix}")
    try:
        return release_card(pattern_file, named_settings(settings_file), block)
    except Unpublishable as refused:
        for rule, finding in refused.problems:
            place = f"{pattern_file}:{finding.region.line}:{finding.region.column}"
            click.echo(f"{place}: {finding.message} [{rule}]", err=True)
        click.echo("lintarsia: there is no pattern here to release", err=True)
        return None
