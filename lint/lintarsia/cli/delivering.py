"""The part of `lintarsia check` that writes reports: which formats are asked for, and where each goes."""

import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import click

from lintarsia.cli.output import gathered, refuse_source, screen_of, write_pieces, write_stdout
from lintarsia.ground.trouble import Trouble
from lintarsia.reporting import REPORTERS, load_pieces
from lintarsia.reporting.rooted import FROM_THE_TOP, rooted
from lintarsia.reporting.screen import PLAIN
from lintarsia.telling.guessing import did_you_mean

if TYPE_CHECKING:
    from lintarsia.result import Report

# Made for people: with --quiet they stay away where there is nothing to say. The others are read by programs, which
# take an empty report for an answer and no report for a failure.
FOR_PEOPLE = frozenset({"text", "github"})


class WantedReport(NamedTuple):
    """A format and where it goes: None is standard output."""

    format: str
    file: str | None


def read_formats(ctx: click.Context, param: click.Parameter, values: tuple[str, ...]) -> tuple[WantedReport, ...]:
    """`text`, or `json:report.json`. Raises BadParameter, for two formats in one place too."""
    wanted = []
    for value in values:
        name, colon, file = value.partition(":")
        if name not in REPORTERS:
            known = did_you_mean(name, REPORTERS) or f"; there are {', '.join(REPORTERS)}"
            raise click.BadParameter(f"there is no format {name!r}{known}")
        if colon and not file:
            raise click.BadParameter(f"{value!r} names no file after the colon")
        wanted.append(WantedReport(name, file or None))
    if sum(format.file is None for format in wanted) > 1:
        raise click.BadParameter("two formats cannot share standard output; give one a file, as in json:report.json")
    files = [os.path.realpath(format.file) for format in wanted if format.file is not None]
    for file in files:
        if files.count(file) > 1 and (os.path.isfile(file) or not os.path.exists(file)):  # a device takes both
            raise click.BadParameter(f"two formats cannot share the file {os.path.relpath(file)!r}")
    return tuple(wanted)


def deliver(report: "Report", wanted: Sequence[WantedReport], colour: str, *, quiet: bool, only_files: bool) -> None:
    """Write every report that can be written, and raise Trouble for those that cannot only then."""
    troubles = []
    for format, file in wanted:
        render = load_pieces(format)
        told = rooted(report, os.getcwd(), os.environ) if format in FROM_THE_TOP else report
        try:
            if file is not None:
                refuse_source(file, "a report", "behind --format", report.files)
                write_pieces(file, render(told, PLAIN))
            elif not (only_files or (quiet and format in FOR_PEOPLE and _silent(report))):
                for piece in gathered(render(told, screen_of(sys.stdout, colour))):
                    write_stdout(piece)
        except Trouble as trouble:
            troubles.append(str(trouble))
    if troubles:
        raise Trouble("\n".join(troubles))


def _silent(report: "Report") -> bool:
    """Whether there is nothing to tell: what is accepted needs no mending."""
    return not report.fixed and len(report.results) == report.suppressed
