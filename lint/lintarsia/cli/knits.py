"""`lintarsia knits`: what the test-knitting group says of a pattern, and what its yarn teaches the plan."""

import sys
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import answered_within_seconds
from lintarsia.cli.output import screen_of, write_answer, write_stdout
from lintarsia.cli.settings_option import allow_outside_rules, named_settings
from lintarsia.reporting.fitting import fitted

if TYPE_CHECKING:
    from lintarsia.engine.knitting import Gathered
    from lintarsia.settings import Settings


@click.command(short_help="Gather test knits: who, which size, yarn used, what was said.")
@click.argument("paths", metavar="[PATHS]...", nargs=-1, type=click.Path())
@click.option("--format", "format", type=click.Choice(["text", "json", "csv"]), default="text", show_default=True)
@click.option("--output", "-o", type=click.Path(), metavar="FILE", help="Write to FILE instead of the screen.")
@click.option("--write", is_flag=True, help="State the loop that the test knits give in the charts.")
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file for every file.")
@allow_outside_rules
@answered_within_seconds
def command(paths: tuple[str, ...], format: str, output: str | None, write: bool, settings_file: str | None) -> int:
    """Gather the logs of test knits (*.knit.yaml) below PATHS, the current folder where none are named.

    For every pattern and size: who has knitted it at which revision, finished or not, gauge measured against stated,
    yarn used against planned, hours, and what was said by row. The yarn that was used gives the yarn in a stitch
    (`gauge: loop`); --write states it in the charts. Exit status: 0 done, 1 some logs count for nothing (the answer
    says which and why), 2 the command could not run.

    \b
    Examples:
      lintarsia knits
      lintarsia knits fox.pattern.yaml knits/ --format csv
      lintarsia knits --write
    """
    from lintarsia.engine.knitting import gather_knits

    settings = named_settings(settings_file)
    gathered = gather_knits(paths or (".",), settings)
    text = _answer(gathered, format)
    if output is not None:
        write_answer(output, text, paths)
    else:
        write_stdout(fitted(text, screen_of(sys.stdout, "auto")) if format == "text" else text)
    if write:
        _write(gathered, settings)
    return FOUND if gathered.left_out else OK


def _answer(gathered: "Gathered", format: str) -> str:
    patterns, left_out = gathered.patterns, [(one.file, one.why) for one in gathered.left_out]
    if format == "json":
        from lintarsia.knits.json import knits_json

        return knits_json(patterns, left_out)
    if format == "csv":
        from lintarsia.knits.csv import knits_csv

        return knits_csv(patterns)
    from lintarsia.knits.text import knits_text

    return knits_text(patterns, left_out)


def _write(gathered: "Gathered", settings: "Settings | None") -> None:
    from lintarsia.mending.loops import state_loops

    loops = [loop for one in gathered.patterns if one.calibration for loop in one.calibration.loops]
    written = state_loops(loops, settings)
    for chart, loop in written:
        click.echo(f"lintarsia: {chart} states a loop of {loop} now", err=True)
    if not written:
        why = "the charts state it already" if loops else "no finished test knit has weighed its yarn"
        click.echo(f"lintarsia: nothing to write: {why}", err=True)
