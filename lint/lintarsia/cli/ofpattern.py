"""What the commands that take a chart share for patterns: `--piece` and `--size`, and the pieces laid out."""

import os
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from lintarsia.cli.settings_option import named_settings
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.pattern.choosing import PieceInSize
    from lintarsia.pattern.work import PatternWork
    from lintarsia.result import Finding
    from lintarsia.settings import Settings

_PIECE = click.option("--piece", metavar="NAME", help="Of a pattern, this piece alone.")
_SIZE = click.option("--size", metavar="NAME", help="Of a pattern, this size alone.")


class Chosen(NamedTuple):
    """A pattern, the settings that hold for it, and the pieces that are asked for."""

    settings: "Settings"
    work: "PatternWork"
    pieces: "tuple[PieceInSize, ...]"


def pieces_and_sizes(command: Callable[..., Any]) -> Callable[..., Any]:
    """`--piece` and `--size`, each None where all are meant."""
    return _PIECE(_SIZE(command))


def is_pattern(file: str, piece: str | None, size: str | None) -> bool:
    """Whether a file is a pattern. Raises UsageError where a piece or a size is asked of anything else."""
    if file != "-" and kind_of(file) is Kind.PATTERN:
        return True
    if piece is not None or size is not None:
        if os.path.isdir(file):
            raise click.UsageError("--piece and --size look at one pattern: name its file, not the folder it is in")
        raise click.UsageError("--piece and --size are of a pattern; a chart has neither")
    return False


def pieces_of(file: str, settings_file: str | None, piece: str | None, size: str | None, cannot: str) -> Chosen | None:
    """The pattern and the pieces asked for, laid out, or None where the command cannot go on.

    What stands in the way goes to standard error, each fault with its place, and `cannot` after it.
    """
    from lintarsia.engine.subjects.pattern import work_on
    from lintarsia.pattern.choosing import NotLaidOut, choose
    from lintarsia.pattern.reading import read_pattern
    from lintarsia.result import Finding
    from lintarsia.settings import find_settings

    if not os.path.exists(file):
        raise Trouble(f"there is no file {file!r}")
    settings = named_settings(settings_file) or find_settings(file)
    reading = read_pattern(file, max_bytes=settings.max_bytes)
    if reading.pattern is None or (faults := _errors(reading.problems)):
        _refuse(file, reading.problems if reading.pattern is None else faults, cannot)
        return None
    work = work_on(reading.pattern, settings)
    try:
        chosen = choose(work, piece, size)
    except NotLaidOut as fault:
        _refuse(file, [("", Finding("", str(fault), fault.region))], cannot)
        return None
    if faults := _openings(work, chosen):
        _refuse(file, faults, cannot)
        return None
    return Chosen(settings, work, chosen)


def _openings(work: "PatternWork", chosen: "Sequence[PieceInSize]") -> "list[tuple[str, Finding]]":
    """Where plain pieces are parted otherwise than they come out: there is no chart that words could go by."""
    plain = {one.piece.name for one in chosen if not one.piece.charts and one.piece.divide}
    if not plain:
        return []
    from lintarsia.rules.base import NoOptions
    from lintarsia.rules.grid.opening import INFO, check_pattern

    sizes = {one.size for one in chosen}
    told = [one for one in check_pattern(work, NoOptions()) if one.piece in plain and sizes & set(one.sizes)]
    return _errors([(INFO.name, one.finding) for one in told])


def _errors(problems: "Sequence[tuple[str, Finding]]") -> "list[tuple[str, Finding]]":
    from lintarsia.result import Level

    return [(rule, finding) for rule, finding in problems if finding.level in (None, Level.ERROR)]


def _refuse(file: str, problems: "Sequence[tuple[str, Finding]]", cannot: str) -> None:
    for rule, finding in problems:
        named = f" [{rule}]" if rule else ""
        click.echo(f"{file}:{finding.region.line}:{finding.region.column}: {finding.message}{named}", err=True)
    click.echo(f"lintarsia: {cannot} until that is mended", err=True)


def one_alone(chosen: "Sequence[PieceInSize]", option: str) -> "PieceInSize":
    """The one piece in one size that an option is about. Raises UsageError where there are several."""
    if len(chosen) > 1:
        raise click.UsageError(f"{option} looks at one piece in one size: name it with --piece and --size")
    return chosen[0]
