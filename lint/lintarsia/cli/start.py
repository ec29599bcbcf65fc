"""`lintarsia start`: a blank chart, or a pattern with a chart for each piece, and what a repository of charts needs."""

import os
import re
from contextlib import suppress
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import OK
from lintarsia.cli.gauges import read_gauge
from lintarsia.ground.replacing import create_file
from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.bringing.blank import Blank

MOST_STITCHES, MOST_ROWS = 1500, 2000  # as in bringing/limits.py, which a help text need not wait for
SETTINGS_NAME, HOOK_NAME = "lintarsia.yaml", ".pre-commit-config.yaml"
_ENDING = re.compile(r"\.(?:(?:chart|pattern)\.)?ya?ml$", re.IGNORECASE)


def _length(ctx: click.Context, param: click.Parameter, value: str | None) -> float | None:
    """A length in mm."""
    from lintarsia.chart.measure import parse_length

    if value is None:
        return None
    try:
        mm = parse_length(value.strip()).mm
    except ValueError as failure:
        raise click.BadParameter(str(failure)) from None
    if not mm:
        raise click.BadParameter(f"{value!r} is no length; expected more than nothing, such as 20 cm")
    return mm


def _shade(ctx: click.Context, param: click.Parameter, value: str) -> str:
    match = re.fullmatch(r"#?([0-9A-Fa-f]{6})", value)
    if not match:
        raise click.BadParameter(f"{value!r} is not a shade; expected one such as #efe9dc")
    return f"#{match[1].lower()}"


def _listed(ctx: click.Context, param: click.Parameter, values: tuple[str, ...]) -> tuple[str, ...]:
    """`--size small,large` and `--size small --size large`."""
    found = tuple(part.strip() for value in values for part in value.split(","))
    twice = next((name for name in found if found.count(name) > 1), None)
    if "" in found or twice is not None:
        raise click.BadParameter(f"{twice!r} is named twice" if twice else "a name is empty")
    return found


@click.command(short_help="Start a blank chart or pattern.")
@click.argument("name", metavar="NAME")
@click.option("--stitches", type=click.IntRange(2, MOST_STITCHES), metavar="N", help="How many stitches wide.")
@click.option("--rows", type=click.IntRange(2, MOST_ROWS), metavar="N", help="How many rows high.")
@click.option("--width", metavar="LENGTH", callback=_length, help="Or how wide, by the gauge: 20 cm.")
@click.option("--height", metavar="LENGTH", callback=_length, help="Or how high, by the gauge: 22 cm.")
@click.option(
    "--gauge",
    metavar="STxROWS",
    default="22x30",
    show_default=True,
    callback=read_gauge,
    help="To 10 cm, or 18x24/4in.",
)
@click.option(
    "--technique", type=click.Choice(["intarsia", "stranded", "mixed"]), help="[default: intarsia; stranded in rounds]"
)
@click.option("--worked", type=click.Choice(["flat", "round", "turned"]), default="flat", show_default=True)
@click.option(
    "--ground", metavar="SHADE", default="#efe9dc", show_default=True, callback=_shade, help="The ground colour."
)
@click.option("--title", metavar="TEXT", help="What it is called. [default: from NAME]")
@click.option("--pattern", is_flag=True, help="A pattern file with a chart for each piece.")
@click.option("--piece", "pieces", metavar="PIECE", multiple=True, callback=_listed, help="A piece. Several times.")
@click.option("--size", "sizes", metavar="SIZE", multiple=True, callback=_listed, help="A size. Several times.")
def command(
    name: str,
    stitches: int | None,
    rows: int | None,
    width: float | None,
    height: float | None,
    gauge: tuple[float, float, str],
    technique: str | None,
    worked: str,
    ground: str,
    title: str | None,
    pattern: bool,
    pieces: tuple[str, ...],
    sizes: tuple[str, ...],
) -> int:
    """Write NAME.chart.yaml, a chart of the ground colour to draw in.

    With --pattern, write a folder NAME with NAME.pattern.yaml and a chart for each piece, say --piece front,back
    --size small,large.

    In a git repository that has none, settings and the hook's configuration are written as well. Nothing is asked, and
    no file is written over. Exit status: 0 written, 2 not written.

    \b
    Examples:
      lintarsia start fox --stitches 40 --rows 60
      lintarsia start fox --width "20 cm" --height "22 cm"
      lintarsia start hat --worked round --stitches 9 --rows 8
      lintarsia start vest --pattern --stitches 88 --rows 120
    """
    from lintarsia.bringing.blank import Blank

    if (pieces or sizes) and not pattern:
        raise click.UsageError("--piece and --size are of a pattern; they go with --pattern")
    if worked == "round" and technique == "intarsia":
        raise click.UsageError("intarsia cannot be worked in the round; --worked turned works a tube back and forth")
    like = Blank(
        _number("stitches", stitches, "width", width, gauge[0], gauge[2], MOST_STITCHES),
        _number("rows", rows, "height", height, gauge[1], gauge[2], MOST_ROWS),
        gauge,
        technique or ("stranded" if worked == "round" else "intarsia"),
        worked,
        ground,
    )
    stem = _stem(name)
    files = _pattern(stem, title, pieces, sizes, like) if pattern else _chart(stem, title, like)
    written = _write(files | _beside(os.path.dirname(os.path.abspath(stem))), stem if pattern else "")
    for file in written:
        click.echo(f"written: {file}", err=True)
    where = stem if pattern else os.path.dirname(stem) or os.curdir
    click.echo(f"draw in it, then: lintarsia check {where}", err=True)
    return OK


def _number(
    counted: str, number: int | None, measured: str, mm: float | None, gauge: float, over: str, most: int
) -> int:
    """Stitches or rows, as said or by the gauge. Raises UsageError where none or both are said, or it is too many."""
    from lintarsia.chart.measure import parse_length

    if (number is None) == (mm is None):
        both = "give one of them" if number is not None else f"as in --{counted} 40 or --{measured} '20 cm'"
        raise click.UsageError(f"--{counted} or --{measured} says how large the chart is; {both}")
    if number is not None:
        return number
    assert mm is not None
    found = max(2, round(mm / parse_length(over).mm * gauge))
    if found > most:
        raise click.UsageError(f"that is {found:,} {counted}; at most {most:,} can be made")
    return found


def _stem(name: str) -> str:
    """`fox`, also from `fox.chart.yaml`. Raises Trouble for what can be no file's name, or lies in no folder."""
    stem = _ENDING.sub("", name)
    folder, last = os.path.split(stem)
    if not last or last in (os.curdir, os.pardir) or "\0" in name:
        raise Trouble(f"{name!r} is no name for a chart; expected one such as fox, or charts/fox")
    if folder and not os.path.isdir(folder):
        raise Trouble(f"there is no folder {folder!r}")
    return stem


def _chart(stem: str, title: str | None, like: "Blank") -> dict[str, str]:
    from lintarsia.bringing.blank import blank_chart
    from lintarsia.bringing.bring import title_of

    return {f"{stem}.chart.yaml": blank_chart(title or title_of(stem), like)}


def _pattern(
    stem: str, title: str | None, pieces: tuple[str, ...], sizes: tuple[str, ...], like: "Blank"
) -> dict[str, str]:
    """The pattern and its charts, text by file. Raises UsageError where two pieces would share a file."""
    from lintarsia.bringing.blank import blank_chart, blank_pattern, file_part
    from lintarsia.bringing.bring import title_of

    title = title or title_of(stem)
    charts = {piece: f"{file_part(piece)}.chart.yaml" for piece in pieces or ("piece",)}
    if len(set(charts.values())) < len(charts):
        raise click.UsageError("two pieces would have the same file; give them names that differ in letters or figures")
    files = {os.path.join(stem, file): blank_chart(f"{title}: {piece}", like) for piece, file in charts.items()}
    pattern = os.path.join(stem, f"{os.path.basename(stem)}.pattern.yaml")
    return {pattern: blank_pattern(title, charts, sizes, like), **files}


def _beside(folder: str) -> dict[str, str]:
    """Settings and the hook's configuration at the top of the git repository that has none; nothing outside of one."""
    from lintarsia.bringing.blank import HOOK, SETTINGS

    passed = [folder]
    while not os.path.lexists(os.path.join(passed[-1], ".git")):
        if os.path.dirname(passed[-1]) == passed[-1]:
            return {}
        passed.append(os.path.dirname(passed[-1]))
    top, found = passed[-1], {}
    if not any(os.path.lexists(os.path.join(at, SETTINGS_NAME)) for at in passed):
        found[os.path.relpath(os.path.join(top, SETTINGS_NAME))] = SETTINGS
    if not os.path.lexists(os.path.join(top, HOOK_NAME)):
        found[os.path.relpath(os.path.join(top, HOOK_NAME))] = HOOK
    return found


def _write(files: dict[str, str], folder: str) -> list[str]:
    """All of the files or none, in `folder` where one is named. Raises Trouble where one is there or cannot be."""
    there = [file for file in files if os.path.lexists(file)]
    if there:
        verb = "is" if len(there) == 1 else "are"
        raise Trouble(f"{', '.join(map(repr, there))} {verb} there already; nothing was written")
    made = _make(folder)
    written: list[str] = []
    try:
        for file, text in files.items():
            create_file(file, text.encode())
            written.append(file)
    except BaseException:  # an interrupt as well
        for file in written:
            with suppress(OSError):
                os.unlink(file)
        if made:
            with suppress(OSError):
                os.rmdir(folder)
        raise
    return written


def _make(folder: str) -> bool:
    """Make the folder if one is named and is not there; whether it was made."""
    if not folder or os.path.isdir(folder):
        return False
    try:
        os.mkdir(folder)
    except OSError as failure:
        raise Trouble(f"the folder {folder!r} cannot be made ({failure.strerror or failure})") from None
    return True
