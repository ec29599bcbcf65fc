"""`lintarsia bring`: an image or a table made into a chart file."""

import os
import re
import sys
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import OK
from lintarsia.cli.gauges import read_gauge
from lintarsia.cli.intime import answered_within_seconds
from lintarsia.cli.output import screen_of, write_file, write_stdout
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.bringing import Brought

TECHNIQUES, WAYS = ("intarsia", "stranded", "mixed"), ("flat", "round", "turned")
_CELL = re.compile(r"([0-9]{1,5})(?: ?[x×] ?([0-9]{1,5}))?")
_SHADE = re.compile(r"#?([0-9A-Fa-f]{6})")


def _cell(ctx: click.Context, param: click.Parameter, value: str | None) -> tuple[int, int] | None:
    if value is None:
        return None
    match = _CELL.fullmatch(value.strip())
    if not match or int(match[1]) < 1 or int(match[2] or 1) < 1:
        raise click.BadParameter(f"{value!r} is not a cell; expected pixels such as 12 or 16x12")
    return int(match[1]), int(match[2] or match[1])


def _clear(ctx: click.Context, param: click.Parameter, value: str) -> str:
    if value == "no-stitch":
        return ""
    match = _SHADE.fullmatch(value)
    if not match:
        raise click.BadParameter(f"{value!r} is neither no-stitch nor a shade such as #efe9dc")
    return f"#{match[1].lower()}"


@click.command(short_help="Make a chart file from an image or a table.")
@click.argument("source", metavar="FILE", type=click.Path())
@click.option(
    "--output",
    "-o",
    metavar="CHART",
    type=click.Path(),
    help="[default: FILE's name with .chart.yaml; - for the screen]",
)
@click.option("--force", is_flag=True, help="Replace a chart file that is there already.")
@click.option(
    "--from",
    "kind",
    type=click.Choice(["image", "table", "grid", "workbook"]),
    help="What FILE is, where its name does not say.",
)
@click.option("--title", metavar="TEXT", help="The chart's title. [default: from FILE's name]")
@click.option(
    "--gauge",
    metavar="STxROWS",
    default="22x30",
    show_default=True,
    callback=read_gauge,
    help="To 10 cm, or 18x24/4in.",
)
@click.option(
    "--technique", type=click.Choice(["intarsia", "stranded", "mixed"]), default="intarsia", show_default=True
)
@click.option("--worked", type=click.Choice(WAYS), default="flat", show_default=True)
@click.option("--stitches", type=click.IntRange(1, 1500), metavar="N", help="Draw an image N stitches wide.")
@click.option("--cell", metavar="WxH", callback=_cell, help="Pixels of one cell in an image of a grid.")
@click.option("--colours", type=click.IntRange(1, 62), metavar="N", help="Keep at most N colours of an image.")
@click.option("--palette", metavar="YAML", type=click.Path(), help="Use the nearest of these shades, or a chart's key.")
@click.option("--tidy", is_flag=True, help="Join near shades; take out halos, specks and rough edges; fill holes.")
@click.option(
    "--specks",
    type=click.IntRange(0, 12),
    metavar="N",
    help="What --tidy takes for a speck, in stitches.  [default: 1; 0 keeps them]",
)
@click.option("--preview", metavar="PNG", type=click.Path(), help="Draw it before and after; - for the terminal.")
@click.option("--dither", is_flag=True, help="Mix colours stitch by stitch to imitate others.")
@click.option(
    "--transparent",
    "clear",
    metavar="SHADE",
    default="no-stitch",
    show_default=True,
    callback=_clear,
    help="What transparent pixels become.",
)
@answered_within_seconds
def command(
    source: str,
    output: str | None,
    force: bool,
    kind: str | None,
    title: str | None,
    gauge: tuple[float, float, str],
    technique: str,
    worked: str,
    stitches: int | None,
    cell: tuple[int, int] | None,
    colours: int | None,
    palette: str | None,
    tidy: bool,
    specks: int | None,
    preview: str | None,
    dither: bool,
    clear: str,
) -> int:
    """Make a chart file from FILE: an image (PNG, GIF, JPEG, BMP), a table (CSV, XLSX) or a plain text grid.

    A small image is taken as one pixel a stitch, an enlarged grid and a scan of squared paper by their cells, any other
    at the width that --stitches gives; the rows then follow from the gauge. The lowest line becomes row 1. Every step
    of --tidy says how many stitches it moved. Exit status: 0 made, 2 not made.

    \b
    Examples:
      lintarsia bring fox.png
      lintarsia bring scan.jpg --tidy --preview fox.png
      lintarsia bring fox.jpg --stitches 60 --colours 4
      lintarsia bring fox.csv --gauge 18x24/4in
    """
    from lintarsia.bringing import Wishes, bring
    from lintarsia.bringing.palette import read_palette
    from lintarsia.bringing.table import read_text
    from lintarsia.settings import find_settings
    from lintarsia.telling.counts import count, stitch_count

    if tidy and dither:
        raise click.UsageError("--tidy takes single stitches out, --dither puts them in; give one of them")
    if specks is not None and not tidy:
        raise click.UsageError("--specks says what --tidy takes for a speck; it goes with --tidy")
    if stitches is not None and cell is not None:
        raise click.UsageError("--stitches and --cell both say how wide the chart is; give one of them")
    target = output or f"{os.path.splitext(source)[0]}.chart.yaml"
    if os.path.realpath(target) == os.path.realpath(source):
        raise Trouble(f"{target!r} is what the chart is made from; give another --output")
    if target != "-" and os.path.exists(target) and not force:
        raise Trouble(f"{target!r} is there already; give another --output, or --force to replace it")
    if preview is not None:
        _refuse_preview(preview, source, target, force=force)
    shades = read_palette(palette, read_text(palette, _read(palette, "a list of yarns"))) if palette else ()
    wishes = Wishes(
        kind=kind or "",
        title=title or "",
        gauge=gauge,
        technique=technique,
        worked=worked,
        stitches=stitches,
        cell=cell,
        most_colours=colours,
        palette=shades,
        dither=dither,
        clear=clear,
        tidy=tidy,
        specks=1 if specks is None else specks,
        most_stitches=find_settings(os.curdir if target == "-" else os.path.dirname(target) or os.curdir).max_stitches,
    )
    brought = bring(source, _read(source, "one image or table"), wishes)
    for note in brought.notes:
        click.echo(f"{source}: {note}", err=True)
    if preview is not None:
        _show(brought, preview, (gauge[0], gauge[1]))
    if target == "-":
        write_stdout(brought.text)
        return OK
    write_file(target, brought.text)
    size = f"{stitch_count(len(brought.rows[0]))} by {count(len(brought.rows), 'row')}"
    click.echo(f"{target}: {size}, {count(len(brought.key), 'colour')}", err=True)
    return OK


def _refuse_preview(preview: str, source: str, target: str, *, force: bool) -> None:
    """Raises where the picture could not be shown, or would take the place of something."""
    if preview == "-":
        if not screen_of(sys.stderr, "auto").pictures:
            raise Trouble("this screen shows no pictures; give --preview a file, such as before-after.png")
        return
    if not preview.lower().endswith(".png"):
        raise click.UsageError(f"{preview!r} does not end in .png; --preview takes a PNG file, or - for the terminal")
    if os.path.realpath(preview) in (os.path.realpath(source), os.path.realpath(target)):
        raise click.UsageError(f"--preview {preview!r} would be written over FILE or the chart")
    if os.path.exists(preview) and not force:
        raise Trouble(f"{preview!r} is there already; give --preview another name, or --force to replace it")


def _show(brought: "Brought", preview: str, gauge: tuple[float, float]) -> None:
    from lintarsia.bringing.preview import as_png, in_terminal

    if preview == "-":
        click.echo(in_terminal(brought, gauge, screen_of(sys.stderr, "auto").width), err=True, color=True)
    else:
        replace_file(preview, as_png(brought, gauge))


def _read(file: str, expected: str) -> bytes:
    from lintarsia.bringing.limits import MOST_BYTES
    from lintarsia.ground.regular import read_regular

    try:
        return read_regular(file, MOST_BYTES)
    except IsADirectoryError:
        raise Trouble(f"{file!r} is a folder; expected {expected}") from None
    except OSError as failure:
        raise Trouble(f"{file!r} cannot be read ({failure.strerror or failure})") from None
