"""Where the pictures of `lintarsia draw` go: the screen, a file for each, one PDF for all."""

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import click

from lintarsia.cli.output import write_stdout
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.chart import Chart

STITCH_PIXELS, LEAST_PIXELS, MOST_PIXELS = 24, 640, 4000
SHEET, BEGINNING = "lx-sheet", 400  # what the drawing of a sheet says of itself, in so many first characters


class Made(NamedTuple):
    """The drawings of a piece of a pattern, by the piece's name."""

    name: str
    chart: "Chart"
    drawings: list[str]


def put(made: Sequence[Made], output: str | None, ending: str, width: int | None) -> None:
    """A file for each piece, its name behind the file's own; a PDF has them all, the screen has room for one."""
    drawings = [drawing for one in made for drawing in one.drawings]
    if output is None:
        if len(drawings) > 1:
            raise Trouble(f"{count(len(drawings), 'picture')}; say where to put them with --output")
        write_stdout(drawings[0] + "\n")
    elif ending == ".pdf" or len(made) == 1:
        save(made[0].chart, drawings, output, ending, width)
    else:
        stem = output[: -len(ending)]
        for one in made:
            save(one.chart, one.drawings, f"{stem}-{_file_name(one.name)}{output[len(stem) :]}", ending, width)


def _file_name(name: str) -> str:
    """A piece's name and size as part of a file's name."""
    return "-".join(re.findall(r"[^\W_]+", name.casefold()))


def save(chart: "Chart", drawings: list[str], output: str, ending: str, width: int | None) -> None:
    """One file, or several numbered behind its name: of SVG and PNG one a drawing, of PDF one for so many sheets."""
    from lintarsia.drawing.export import letters_drawn, to_pdf, to_png

    if ending == ".pdf" and SHEET in drawings[0][:BEGINNING]:
        _save_sheets(drawings, output)
        return
    if ending == ".pdf":
        replace_file(output, to_pdf(drawings))
        return
    stem = output[: -len(ending)]
    usual = min(MOST_PIXELS, max(LEAST_PIXELS, STITCH_PIXELS * chart.grid.width))
    for number, drawing in enumerate(drawings, 1):
        name = output if len(drawings) == 1 else f"{stem}-{number}{output[len(stem) :]}"
        replace_file(name, to_png(drawing, width or usual) if ending == ".png" else drawing.encode())
    if ending == ".png" and not letters_drawn():
        click.echo("lintarsia: this machine has no font that PNG can use, so the picture has no letters", err=True)


def _save_sheets(sheets: list[str], output: str) -> None:
    """One PDF, or where there are more sheets than one may have, several, made one after the other."""
    from lintarsia.drawing.export import MOST_SHEETS, to_pdf, to_pdfs

    if len(sheets) <= MOST_SHEETS:
        replace_file(output, to_pdf(sheets))
        return
    stem = output[: -len(".pdf")]
    name = output
    for number, made in enumerate(to_pdfs(sheets, MOST_SHEETS), 1):
        name = f"{stem}-{number}{output[len(stem) :]}"
        replace_file(name, made)
    click.echo(f"lintarsia: {len(sheets)} sheets, {MOST_SHEETS} to a file at most: up to {name}", err=True)
