"""The part of `lintarsia check` that changes files: its options, and what it says."""

import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from lintarsia.cli.output import write_stdout
from lintarsia.ground.values import dataclass
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from collections.abc import Callable

    from lintarsia.engine.running import Stream
    from lintarsia.mending.files import Accepted, MendedFile
    from lintarsia.result import Level, Report
    from lintarsia.settings import Settings

KINDS = ("safe", "risky")


class FixingCommand(click.Command):
    """A command whose `--fix` stands for `--fix=safe`, and never takes the path behind it for its value.

    `--fix risky` is `--fix=risky` all the same, unless a file or folder goes by that name.
    """

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        end = args.index("--") if "--" in args else len(args)
        return super().parse_args(ctx, [*_fix_with_its_kind(args[:end]), *args[end:]])


def _fix_with_its_kind(args: Sequence[str]) -> Iterator[str]:
    left = iter(args)
    for arg in left:
        if arg != "--fix":
            yield arg
            continue
        after = next(left, None)
        kind = after if after in KINDS and not os.path.lexists(after) else None
        yield f"--fix={kind or KINDS[0]}"
        if after is not None and kind is None:
            yield from _fix_with_its_kind([after, *left])


@dataclass(frozen=True, slots=True)
class Wish:
    """What is to be mended, and whether it is only to be shown. `kind` None and no `diff`: nothing at all."""

    kind: str | None
    diff: bool

    @property
    def wanted(self) -> bool:
        return self.kind is not None or self.diff

    @property
    def risky(self) -> bool:
        return self.kind == "risky"

    def refuse_mixtures(self, *, stream: bool, since: bool) -> None:
        """Raises UsageError for what cannot go together."""
        if self.kind is not None and stream and not self.diff:
            raise click.UsageError("--fix cannot change what comes from standard input; --diff shows what it would do")
        if self.wanted and since:
            raise click.UsageError("--fix and --diff look at whole files, --since at what is new; give one of them")


class _Late:
    """Tells of files that were not mended in their time, and knows whether there were any."""

    def __init__(self, seconds: float | None) -> None:
        self._seconds, self.any = seconds, False

    def __call__(self, file: str) -> None:
        self.any = True
        click.echo(f"lintarsia: mending {file} took longer than {self._seconds:g} s; it was left as it is", err=True)


def show(
    wish: Wish,
    paths: Sequence[str],
    report: "Report",
    settings: "Settings | None",
    block: "Level | None",
    accepted: "Accepted",
    stream: "Stream | None",
    most_seconds: float | None = None,
) -> bool:
    """The diff on standard output, what it comes to on standard error; whether some file could not be mended in time.

    What comes from standard input has its time for the check alone.
    """
    late = _Late(most_seconds)
    from lintarsia.mending.files import changes, stream_change
    from lintarsia.mending.unified import diff
    from lintarsia.reporting.screen import PLAIN
    from lintarsia.reporting.text import summary

    found = changes(
        paths, report.results, settings=settings, risky=wish.risky, block=block, accepted=accepted,
        most_seconds=most_seconds, late=late,
    )  # fmt: skip
    if stream is not None:
        found += stream_change(stream, settings, risky=wish.risky, block=block, accepted=accepted)
    write_stdout(diff(found))
    fixes = [fixed for change in found for fixed in change.mended.fixed]
    what = f"{count(len(fixes), 'fault', 'faults')} in {count(len(found), 'file', 'files')}" if found else "nothing"
    click.echo(f"lintarsia: {what} would be mended; nothing was written", err=True)
    click.echo(f"as it stands, {summary(report, PLAIN)}", err=True)
    return late.any


def mend_files(
    wish: Wish,
    paths: Sequence[str],
    report: "Report",
    settings: "Settings | None",
    block: "Level | None",
    accepted: "Accepted",
    again: "Callable[[], Report]",
    most_seconds: float | None = None,
) -> "tuple[Report, bool]":
    """Mend the files in which `report` found something to be mended; the report of what is left, from `again`.

    The second value says whether some file could not be written, or not be mended in `most_seconds`, which standard
    error has been told.
    """
    late = _Late(most_seconds)
    from lintarsia.mending.files import changes, write

    found: list[MendedFile] = changes(
        paths, report.results, settings=settings, risky=wish.risky, block=block, accepted=accepted,
        most_seconds=most_seconds, late=late,
    )  # fmt: skip
    fixed, troubles = write(found)
    for trouble in troubles:
        click.echo(f"lintarsia: {trouble}", err=True)
    sys.stderr.flush()
    return replace(again() if fixed else report, fixed=fixed), bool(troubles) or late.any
