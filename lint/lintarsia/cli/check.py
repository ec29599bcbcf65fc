"""`lintarsia check`: charts in, report out, exit status by the level that blocks."""

import os
from typing import TYPE_CHECKING

import click

from lintarsia.cli.baselines import accepted, hold
from lintarsia.cli.delivering import WantedReport, deliver, read_formats
from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.cli.fixing import KINDS, FixingCommand, Wish, mend_files, show
from lintarsia.cli.intime import Seconds
from lintarsia.cli.ofpattern import is_pattern, pieces_and_sizes
from lintarsia.cli.output import write_stdout
from lintarsia.cli.overlooked import say_misnamed, why_none
from lintarsia.cli.progress import counter
from lintarsia.cli.settings_option import allow_outside_rules, distrust_settings, named_settings
from lintarsia.cli.streaming import read_stream
from lintarsia.reporting import usual_formats
from lintarsia.result import Level

if TYPE_CHECKING:
    from lintarsia.engine.running import Stream
    from lintarsia.result import Report

BLOCK_LEVELS = ("error", "warning", "note", "off")


@click.command(cls=FixingCommand, short_help="Check charts.")
@click.argument("paths", nargs=-1, type=click.Path())
@click.option(
    "--format",
    "formats",
    callback=read_formats,
    metavar="FORMAT[:FILE]",
    multiple=True,
    help="text, json, sarif, junit, github or gitlab; with :FILE, into a file. May be given several times. "
    "Without it: text, or what the CI system that runs this reads.",
)
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file for every chart.")
@allow_outside_rules
@click.option("--block", type=click.Choice(BLOCK_LEVELS), help="Exit with 1 from this level up (default: error).")
@click.option(
    "--color",
    "colour",
    type=click.Choice(["auto", "always", "never"]),
    default="auto",
    show_default=True,
    help="Colour in the text.",
)
@click.option(
    "--baseline", "baseline_file", metavar="FILE", help="Accept what this file lists (default: the settings' baseline)."
)
@click.option("--update", is_flag=True, help="Write the baseline anew, accepting all that stands now.")
@click.option(
    "--since", metavar="REV", help="Tell only what a git revision has not (A...B: that from which both have parted)."
)
@click.option("--with-patterns", is_flag=True, help="Also check the patterns of the repository that name these charts.")
@click.option(
    "--before-commit",
    is_flag=True,
    help="As the hook: PATHS alone, and the patterns that name them or what the commit takes away.",
)
@click.option(
    "--fix",
    type=click.Choice(KINDS),
    metavar="[=risky]",
    help="Mend what can be mended without a thought; with =risky also what changes the picture.",
)
@click.option("--diff", is_flag=True, help="Show what --fix (or --fix=risky) would change, and write nothing.")
@click.option(
    "--most-seconds",
    type=Seconds(),
    metavar="N",
    help="End the look at a chart after N seconds, and tell it as a result; with --fix, end its mending too.",
)
@pieces_and_sizes
@click.option("--jobs", type=click.IntRange(1), help="Processes to use at most (default: as many as pay).")
@click.option("--stdin-name", help="The name that a chart read from standard input (PATH -) goes by.")
@click.option("--quiet", "-q", is_flag=True, help="Say nothing in the text where nothing is to be mended.")
def command(
    paths: tuple[str, ...],
    formats: tuple[WantedReport, ...],
    settings_file: str | None,
    block: str | None,
    colour: str,
    baseline_file: str | None,
    update: bool,
    since: str | None,
    with_patterns: bool,
    before_commit: bool,
    fix: str | None,
    diff: bool,
    most_seconds: float | None,
    piece: str | None,
    size: str | None,
    jobs: int | None,
    stdin_name: str | None,
    quiet: bool,
) -> int:
    """Check the charts that PATHS name: files, or folders and all below them. Without PATHS, the current folder.

    Exit status: 0 nothing at or above the blocking level, 1 something is, 2 the command could not run, or found no
    chart but files that look like one. With --fix, by what is left.

    \b
    Examples:
      lintarsia check
      lintarsia check charts fox.chart.yaml
      lintarsia check charts --block warning --quiet
      lintarsia check charts --fix --diff
      lintarsia check fox.pattern.yaml --size small
      lintarsia check --format text --format json:out.json
      lintarsia check - --stdin-name charts/fox.chart.yaml
    """
    from lintarsia.engine import check_paths

    if update and since is not None:
        raise click.UsageError("--update cannot go with --since, which leaves results out")
    if stdin_name is not None and "-" not in paths:
        raise click.UsageError("--stdin-name goes with the path -, which reads a chart from standard input")
    if since is not None and "-" in paths:
        raise click.UsageError("--since looks at files; it knows nothing of what comes from standard input")
    if (with_patterns or before_commit) and "-" in paths:
        option = "--before-commit" if before_commit else "--with-patterns"
        raise click.UsageError(f"{option} looks at files; no pattern knows what comes from standard input")
    if before_commit and since is not None:
        raise click.UsageError("--before-commit names the files of a commit, --since all that differ; give one of them")
    wish = Wish(fix, diff)
    wish.refuse_mixtures(stream="-" in paths, since=since is not None)
    wanted = formats or tuple(WantedReport(*usual) for usual in usual_formats(os.environ))
    if "-" in paths:
        distrust_settings()
    settings, stream = named_settings(settings_file), None
    if "-" in paths:
        paths, stream = tuple(path for path in paths if path != "-"), read_stream(stdin_name, settings)
    elif not paths and not before_commit:
        paths = (".",)
    paths, gone = _with_gone(paths) if before_commit else (paths, ())
    level = Level(block) if block else None

    narrowed = piece is not None or size is not None
    if narrowed:
        _refuse_narrowing(paths, piece, size, fix or update or since or with_patterns or before_commit or most_seconds)

    def look() -> "Report":
        if narrowed:
            from lintarsia.engine.onepiece import check_piece

            return check_piece(paths[0], piece, size, settings, level)
        progress = counter("looking at charts", 50)
        return check_paths(
            paths,
            settings=settings,
            block=level,
            jobs=jobs,
            progress=progress,
            stream=stream,
            since=since,
            with_patterns=with_patterns or before_commit,
            gone=gone,
            most_seconds=most_seconds,
        )

    report, stuck = look(), False
    overlooked = say_misnamed(paths, settings)
    kept = accepted(report, baseline_file, update=update) if wish.wanted else {}
    if wish.diff:
        stuck = show(wish, paths, report, settings, level, kept, stream, most_seconds)
    elif wish.wanted:
        report, stuck = mend_files(wish, paths, report, settings, level, kept, look, most_seconds)
    report = hold(report, baseline_file, update=update, partial=since is not None)
    if not report.files and not before_commit:
        _say_none(_why_none(paths, stream, since), wanted if since is None else ())
    deliver(report, wanted, colour, quiet=quiet, only_files=wish.diff)
    if stuck or (overlooked and since is None and not report.files):
        return CANNOT
    return FOUND if report.blocked else OK


def _refuse_narrowing(paths: tuple[str, ...], piece: str | None, size: str | None, other: object) -> None:
    if len(paths) != 1 or not is_pattern(paths[0], piece, size):
        raise click.UsageError("--piece and --size look at one pattern: name its file, and no other path")
    if other:
        raise click.UsageError("--piece and --size only narrow what is told; they go with no option that does more")


def _with_gone(paths: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The paths of a commit with the folders that lose their settings by it; and the files that it takes away."""
    from lintarsia.engine.committing import left_lying, taken_away, unsettled
    from lintarsia.ground.leftout import leaving_out

    gone = tuple(taken_away(os.environ))
    click.get_current_context().with_resource(leaving_out(left_lying(gone)))
    return (*paths, *unsettled(gone)), gone


def _say_none(why: str, wanted: tuple[WantedReport, ...]) -> None:
    """On standard error, and as an annotation where those are read: a job that looked at nothing proves nothing."""
    click.echo(f"lintarsia: {why}", err=True)
    if WantedReport("github", None) in wanted:
        from lintarsia.reporting.github import warning

        write_stdout(warning(f"{why}; nothing was checked"))


def _why_none(paths: tuple[str, ...], stream: "Stream | None", since: str | None) -> str:
    where = _looked_in(paths, stream)
    if since is not None:
        return f"no charts differ from {since} in {where}"
    return why_none(paths, where)


def _looked_in(paths: tuple[str, ...], stream: "Stream | None") -> str:
    from lintarsia.engine.checking import shown

    return ", ".join([*map(shown, paths), *([f"standard input (as {shown(stream.name)})"] if stream else [])])
